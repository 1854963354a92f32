"""Joists under an outline: unbroken runs, what holds their ends, trimmers at openings."""

from collections.abc import Iterator, Sequence

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.marks import exact, to_mm
from drylay.raised.clip import Range, free_of, less, taken_by
from drylay.raised.outline_model import JoistRun, Trimmer
from drylay.rings import Ring, clashing_sides, twice_area

#: What is shorter than so many thicknesses beside a corner is no joist, but the tip of two rims.
TIP = 4


@frozen(kw_only=True)
class Deck:
    """What joists and bearers are laid under, in 1/320 mm.

    `ledger` is from where to where along a ledger is fixed at the line of the house (across 0), and
    how thick it is; None for none. Openings no wider than `trimmed`, from joist to joist, are
    trimmed: the joists that they cut hang on trimmers so thick, between whole joists.
    """

    ring: Ring
    openings: tuple[Ring, ...]
    joists: tuple[int, ...]
    joist: int
    ledger: tuple[int, int, int] | None
    trimmed: int
    trimmer: int


def ring_of(places_mm: Sequence[tuple[float, float]], name: str) -> Ring:
    """Return corners as a ring that runs round.

    Raises:
        InputError: It has fewer than three corners, no area, or sides that cross.
    """
    ring = tuple((exact(along), exact(across)) for along, across in places_mm)
    if len(ring) < 3 or not twice_area(ring) or clashing_sides(ring):
        wanted = "three corners or more, round an area, no two sides crossing"
        raise InputError((Fault(path=name, found=f"{len(ring)} corners", wanted=wanted),))
    return ring if twice_area(ring) > 0 else tuple(reversed(ring))


def all_runs(deck: Deck) -> tuple[tuple[JoistRun, ...], tuple[Trimmer, ...]]:
    """Return every run of every joist line, and the trimmers.

    Besides the lines told there is one to either side of every corner of the outline, where it
    would lie on the deck: so that what a re-entrant corner needs is asked for too. Not where it
    would be the tip of a sharp corner alone.
    """
    gaps = [_gap(deck, number) for number in range(len(deck.openings))]
    trimmers = tuple(trimmer for _, found in gaps for trimmer in found)
    lines = sorted({*deck.joists, *_beside_corners(deck)})
    runs = [
        run
        for at in lines
        for run in _runs(deck, at, [gap for gap, _ in gaps])
        if at in deck.joists or not _is_tip(deck, run)
    ]
    return tuple(runs), trimmers


def _is_tip(deck: Deck, run: JoistRun) -> bool:
    """Whether a run is the tip of a sharp corner, where two rims meet and no joist finds room."""
    return exact(run.end_mm) - exact(run.start_mm) < TIP * deck.joist


def _beside_corners(deck: Deck) -> Iterator[int]:
    half = deck.joist // 2
    for along, _ in deck.ring:
        yield along - half
        yield along + half


def _strip(deck: Deck, at: int) -> tuple[int, int]:
    half = deck.joist // 2
    return at - half, at + half


def _gap(deck: Deck, number: int) -> tuple[Range | None, list[Trimmer]]:
    """Return what a trimmed opening takes across, trimmers among it, and these; None, [] if not."""
    opening = deck.openings[number]
    cut = [at for at in deck.joists if taken_by(opening, *_strip(deck, at), 0)]
    if not cut:
        return None, []
    # a trimmer runs straight past the whole opening, also where that reaches out between two joists
    low = min(across for _, across in opening) - deck.trimmer
    high = max(across for _, across in opening) + deck.trimmer
    left = max((at for at in deck.joists if at < min(cut)), default=None)
    right = min((at for at in deck.joists if at > max(cut)), default=None)
    if left is None or right is None or right - left > deck.trimmed:
        return None, []
    if not all(_whole(deck, at, (low, high)) for at in (left, right)):
        return None, []
    return (low, high), [
        Trimmer(opening=number + 1, across_mm=to_mm(across), from_mm=to_mm(left),
                to_mm=to_mm(right))
        for across in (low, high)
    ]  # fmt: skip


def _whole(deck: Deck, at: int, span: Range) -> bool:
    """Whether a joist line is unbroken from before a range across to beyond it."""
    ranges = free_of(deck.ring, *_strip(deck, at), 0)
    for opening in deck.openings:
        taken = taken_by(opening, *_strip(deck, at), 0)
        ranges = less(ranges, taken) if taken else ranges
    return any(start < span[0] and span[1] < end for start, end in ranges)


def _runs(deck: Deck, at: int, gaps: Sequence[Range | None]) -> Iterator[JoistRun]:
    ranges = free_of(deck.ring, *_strip(deck, at), 0)
    starts, ends = set(), set()
    for opening, gap in zip(deck.openings, gaps, strict=True):
        taken = taken_by(opening, *_strip(deck, at), 0)
        if taken is None:
            continue
        ranges = less(ranges, gap or taken)
        if gap:
            starts.add(gap[1])
            ends.add(gap[0])
    for start, end in ranges:
        on_ledger = _on_ledger(deck, at, start)
        low = start + deck.ledger[2] if on_ledger and deck.ledger else start
        if low < end:
            yield JoistRun(along_mm=to_mm(at), start_mm=to_mm(low), end_mm=to_mm(end),
                           start_held=on_ledger or start in starts,
                           end_held=end in ends)  # fmt: skip


def _on_ledger(deck: Deck, at: int, start: int) -> bool:
    if deck.ledger is None or start != 0:
        return False
    return deck.ledger[0] <= at <= deck.ledger[1]
