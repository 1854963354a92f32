"""Bearers under an outline that is no rectangle: lines that serve every run of every joist."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, to_mm
from drylay.raised.clip import Range, free_of, less, taken_by
from drylay.raised.limits import Limits, length_faults, limits_of, mm, refuse_units
from drylay.raised.model import SpanLimit
from drylay.raised.outline_model import JoistRun, OutlinedLines, Stretch
from drylay.raised.runs import Deck, all_runs, ring_of
from drylay.raised.spread import Length, spread
from drylay.raised.sweeping import Run, Sweep, fewest_lines, hangs, serves

#: So many places across are tried at most: the sweep looks at every three of them.
MOST_PLACES = 72


def outlined_lines(
    *,
    outline_mm: Sequence[tuple[float, float]],
    openings_mm: Sequence[Sequence[tuple[float, float]]] = (),
    joists_mm: Sequence[float],
    joist_mm: float,
    bearer_mm: float,
    post_mm: float,
    span: SpanLimit,
    end: SpanLimit,
    back_ratio: float | None = None,
    ledger_mm: tuple[float, float, float] | None = None,
    trimmed_most_mm: float = 0.0,
    trimmer_mm: float = 0.0,
    units: str = "metric",
) -> OutlinedLines:
    """Return bearer lines that carry every joist under an outline with openings.

    Bearers lie wholly within the outline and off the openings, broken where these are. Every run
    of every joist, and of one to either side of every corner, has supports within its span and
    its free ends, reckoned as `bearer_lines` does. The fewest lines of the places tried (marks
    that some run by itself asks for, and others spread evenly between), then the fewest bearers,
    then the least largest share of the limits.

    Args:
        outline_mm: Corners of the frame, along and across.
        openings_mm: Corners of each opening; of a round one, of a ring about it.
        joists_mm: Joists' centres along.
        joist_mm: How thick joists are.
        bearer_mm: How broad bearers are, all plies together.
        post_mm: How broad posts are; a bearer's line keeps half of that off openings too.
        span: The most a joist may span.
        end: The most it may reach past an outer bearer.
        back_ratio: The most a free end may be of the span behind it.
        ledger_mm: From where to where along a ledger is fixed at across 0, and how thick it is.
        trimmed_most_mm: Openings up to so wide, between the whole joists beside, are trimmed.
        trimmer_mm: How thick a trimmer is, all its plies together.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A value cannot be used, or no lines at the places tried carry every joist.

    Source: arithmetic; the limits' own sources say where they come from.
    """
    refuse_units(units)
    faults = length_faults(joist_mm=joist_mm, bearer_mm=bearer_mm, post_mm=post_mm)
    if faults or not joists_mm:
        none = Fault(path="joists_mm", found="none", wanted="a joist at least")
        raise InputError((*faults, *(() if joists_mm else (none,))))
    limits = limits_of(span, end, back_ratio=back_ratio, support_mm=bearer_mm)
    deck = Deck(
        ring=ring_of(outline_mm, "outline_mm"),
        openings=tuple(ring_of(ring, f"openings_mm[{n}]") for n, ring in enumerate(openings_mm)),
        joists=tuple(sorted(exact(at) for at in joists_mm)), joist=exact(joist_mm),
        ledger=None if ledger_mm is None else (exact(ledger_mm[0]), exact(ledger_mm[1]),
                                               exact(ledger_mm[2])),
        trimmed=exact(trimmed_most_mm), trimmer=exact(trimmer_mm),
    )  # fmt: skip
    return _lines(deck, limits, exact(post_mm), MARK_320[units])


def _lines(deck: Deck, limits: Limits, post: int, mark: int) -> OutlinedLines:
    runs, trimmers = all_runs(deck)
    places = _places(runs, limits, mark)
    found = [_ranges(deck, limits, post, at) for at in places]
    sweep = Sweep(
        places=places,
        bearers=tuple(len(ranges) for ranges in found),
        runs=_told(runs, places, found, limits, deck.joist),
        limits=limits,
    )
    best = fewest_lines(sweep)
    if best is None or not _all_served(best[0], sweep):
        wanted = "an outline whose joists bearers at the places tried carry within the limits"
        raise InputError((Fault(path="outline_mm", found=_worst(sweep), wanted=wanted),))
    lines = best[0]
    stretches = [
        Stretch(line=number, across_mm=to_mm(at), start_mm=to_mm(start), end_mm=to_mm(end))
        for number, at in enumerate(lines, 1)
        for start, end in _ranges(deck, limits, post, at)
    ]
    return OutlinedLines(
        line_count=len(lines), least_count=_least(sweep), lines_mm=mm(lines),
        stretches=tuple(stretches), runs=runs, trimmers=trimmers,
        most_ratio=-(-int(best[1] * 1e6) // 1000) / 1000, places_tried=len(places),
    )  # fmt: skip


def _ranges(deck: Deck, limits: Limits, post: int, at: int) -> list[Range]:
    """Return the bearers that a line is: within the outline, off openings, two posts long."""
    half, wide = limits.half, max(limits.half, -(-post // 2))
    ranges = free_of(deck.ring, at - half, at + half, 1)
    for opening in deck.openings:
        taken = taken_by(opening, at - wide, at + wide, 1)
        ranges = less(ranges, taken) if taken else ranges
    return [(start, end) for start, end in ranges if end - start > 2 * post]


def _told(
    runs: Iterable[JoistRun], places: Sequence[int], found: Sequence[list[tuple[int, int]]],
    limits: Limits, joist: int,
) -> tuple[Run, ...]:  # fmt: skip
    """Return the runs, alike ones once, each with the places at which a bearer carries it."""
    half = joist // 2
    told = {}
    for run in runs:
        at, start, end = exact(run.along_mm), exact(run.start_mm), exact(run.end_mm)
        carried = frozenset(
            number
            for number, (place, ranges) in enumerate(zip(places, found, strict=True))
            if start + limits.half <= place <= end - limits.half
            and any(low <= at - half and at + half <= high for low, high in ranges)
        )
        key = (start, end, run.start_held, run.end_held, tuple(sorted(carried)))
        told[key] = Run(start=start, end=end, start_held=run.start_held, end_held=run.end_held,
                        at=carried)  # fmt: skip
    return tuple(told[key] for key in sorted(told))


def _all_served(lines: Sequence[int], sweep: Sweep) -> bool:
    numbers = [sweep.places.index(line) for line in lines]
    return all(serves(run, numbers, sweep) for run in sweep.runs)


def _worst(sweep: Sweep) -> str:
    """Return which run no places carry by themselves, for the fault's text."""
    for run in sweep.runs:
        if not run.at and not hangs(run, sweep.limits):
            return f"a run from {to_mm(run.start):g} to {to_mm(run.end):g} that meets no bearer"
    return f"{len(sweep.runs)} kinds of runs"


def _places(runs: Iterable[JoistRun], limits: Limits, mark: int) -> tuple[int, ...]:
    """Return the places across to try: what runs ask for by themselves first, then even ones."""
    alike = sorted({(exact(r.start_mm), exact(r.end_mm), r.start_held, r.end_held) for r in runs})
    wanted: dict[int, None] = {}
    for rank in zip(*(_padded(_asked(*run, limits, mark)) for run in alike), strict=True):
        for place in rank:
            if place is not None and len(wanted) < MOST_PLACES:
                wanted.setdefault(place)
    low, high = min(run[0] for run in alike), max(run[1] for run in alike)
    for step in (1 << power for power in range(1, 8)):
        for n in range(1, step, 2):
            if len(wanted) < MOST_PLACES:
                wanted.setdefault(floor_mark(low + (high - low) * n // step, mark))
    return tuple(sorted(wanted))


def _padded(places: Iterator[int]) -> list[int | None]:
    found: list[int | None] = list(places)
    return [*found, *[None] * (MOST_PLACES - len(found))][:MOST_PLACES]


def _asked(  # noqa: PLR0917 - a run's own four figures
    start: int, end: int, start_held: bool, end_held: bool, limits: Limits, mark: int
) -> Iterator[int]:  # fmt: skip
    """Yield where one run would have its bearers, the most telling places first."""
    first = start if start_held else None
    own = _alone(start, end, first, limits, mark)
    yield from own
    lows = ceil_mark(start + limits.half, mark), floor_mark(start + limits.end_most, mark)
    highs = floor_mark(end - limits.half, mark), ceil_mark(end - limits.end_most, mark)
    yield from (*lows, *highs)
    whole = floor_mark(limits.span, mark)
    for number in range(1, 5):
        held = floor_mark(start - limits.half + number * limits.span, mark)
        yield from (place for place in (
            lows[1] + number * whole, highs[1] - number * whole,
            held if start_held else highs[0] - number * whole,
            ceil_mark(end + limits.half - number * limits.span, mark) if end_held
            else lows[0] + number * whole,
        ) if start < place < end)  # fmt: skip


def _alone(
    start: int, end: int, held: int | None, limits: Limits, mark: int
) -> tuple[int, ...]:  # fmt: skip
    """Return the fewest places that a run by itself would take, on marks; () if there are none."""
    base = floor_mark(start, mark)
    of = Length(length=end - base, held=None if held is None else start - base, mark=mark)
    found = spread(of, limits) if end - start > 4 * limits.half else None
    return tuple(floor_mark(base + place, mark) for place in found or ())


def _least(sweep: Sweep) -> int:
    """Return the most lines that any run needs by itself, off all marks: no deck has fewer."""
    found = [0]
    for run in sweep.runs:
        if not run.end_held:
            held = 0 if run.start_held else None
            alone = spread(Length(length=run.end - run.start, held=held, mark=1), sweep.limits)
            found.append(len(alone or ()))
    return max(found)


def farthest_mm(run: JoistRun, lines_mm: Sequence[float]) -> float:
    """Return the widest that a run goes without support between two lines or held ends."""
    held = [run.start_mm] * run.start_held + [run.end_mm] * run.end_held
    own = sorted({*held, *(at for at in lines_mm if run.start_mm < at < run.end_mm)})
    return max((b - a for a, b in pairwise(own)), default=0.0)
