"""Joists under an outline over bearers that are settled: what bears each, what comes of openings.

All of it on the side that is safe to guess: a trimmer's load is taken as if its opening were deck,
and what a joist beside it, or a bearer under that, carries besides as if it lay all along.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil

from attrs import evolve, frozen

from drylay.marks import PER_MM, exact, to_mm
from drylay.planner.outlined_bed import Bed
from drylay.raised.carried import carried_mm
from drylay.raised.clip import free_of, taken_by
from drylay.raised.fitting import stretch_carried_mm
from drylay.raised.outline_model import JoistRun, OutlinedLines, Stretch
from drylay.raised.runs import ring_of

#: A point load is borne by what bears twice as much spread over its span: moment, shear and sag
#: of a simple span are then no less. Source: statics (P l / 4 is 2 P / l x l^2 / 8).
SPREAD = 2.0


@frozen(kw_only=True)
class Trim:
    """What an opening's tails hang on: a beam between two whole joists, and what it carries."""

    mark: str
    opening: int
    across_mm: float
    from_mm: float
    to_mm: float
    plies: int
    carried_mm: float

    @property
    def end_mm2(self) -> float:
        """Return what area of deck comes down at each of its ends."""
        return self.carried_mm * (self.to_mm - self.from_mm) / 2


@frozen(kw_only=True)
class Borne:
    """A run of joist with its supports, as wide as what it carries; from where to where it lies.

    `trims` are those that hang on it. Without bearers it is held at both ends.
    """

    run: JoistRun
    start_mm: float
    end_mm: float
    supports_mm: tuple[float, ...]
    wide_mm: float
    plies: int = 1
    trims: tuple[Trim, ...] = ()

    @property
    def from_start_mm(self) -> tuple[float, ...]:
        """Return the supports from its own start."""
        return tuple(to_mm(exact(at) - exact(self.start_mm)) for at in self.supports_mm)

    @property
    def length_mm(self) -> float:
        """Return how long it is."""
        return to_mm(exact(self.end_mm) - exact(self.start_mm))


def borne_on(
    bed: Bed, lines: OutlinedLines, broad_mm: float
) -> tuple[tuple[Borne, ...], tuple[Trim, ...]]:
    """Return every run with what bears it, and the trimmers with what they carry."""
    plain = [_borne(bed, lines, run, broad_mm) for run in lines.runs]
    trims = tuple(_trims(bed, lines, plain))
    return tuple(_beside(bed, each, trims) for each in plain), trims


def _borne(bed: Bed, lines: OutlinedLines, run: JoistRun, broad_mm: float) -> Borne:
    """Return a run with its bearers: those that it crosses with all of its and their breadth."""
    half, thick = exact(broad_mm) / 2, exact(bed.under.joist.breadth_mm) / 2
    along, low, high = exact(run.along_mm), exact(run.start_mm), exact(run.end_mm)
    on = {
        each.across_mm
        for each in lines.stretches
        if low + half <= exact(each.across_mm) <= high - half
        and exact(each.start_mm) <= along - thick
        and along + thick <= exact(each.end_mm)
    }
    start, end = _reach(bed, run)
    on |= ({start} if run.start_held else set()) | ({end} if run.end_held else set())
    return Borne(run=run, start_mm=start, end_mm=end, supports_mm=tuple(sorted(on)),
                 wide_mm=bed.under.centres_mm)  # fmt: skip


def _reach(bed: Bed, run: JoistRun) -> tuple[float, float]:
    """Return from where to where a run's middle line lies: under a slanting side it goes on."""
    ring, at = ring_of(bed.ring_mm, "ring"), exact(run.along_mm)
    start, end = exact(run.start_mm), exact(run.end_mm)
    half = exact(bed.under.joist.breadth_mm) // 2
    holes = [taken_by(ring_of(hole, "hole"), at - half, at + half, 0) for hole in bed.holes_mm]
    for low, high in free_of(ring, at - 1, at + 1, 0):
        if not (low <= start and end <= high):
            continue
        before = any(hole and low < hole[1] <= start for hole in holes)
        beyond = any(hole and end <= hole[0] < high for hole in holes)
        start = start if run.start_held or before else low
        end = end if run.end_held or beyond else high
    return to_mm(start), to_mm(end)


def _trims(bed: Bed, lines: OutlinedLines, runs: Sequence[Borne]) -> Iterator[Trim]:
    for number, one in enumerate(lines.trimmers, 1):
        hole = bed.holes_mm[one.opening - 1]
        deep_mm = max(y for _, y in hole) - min(y for _, y in hole)
        tails = [
            _share(each, each.start_mm if each.run.start_held else each.end_mm)
            for each in runs
            if one.from_mm < each.run.along_mm < one.to_mm
            and ((each.run.start_held and each.run.start_mm == one.across_mm)
                 or (each.run.end_held and each.run.end_mm == one.across_mm))
        ]  # fmt: skip
        yield Trim(
            mark=f"TR{number}", opening=one.opening, across_mm=one.across_mm, from_mm=one.from_mm,
            to_mm=one.to_mm, plies=_plies_across(bed, one.across_mm, one.from_mm),
            carried_mm=to_mm(exact(max(tails, default=0.0)) + exact(deep_mm / 2)),
        )  # fmt: skip


def _share(each: Borne, at_mm: float) -> float:
    """Return what width of deck a run brings to one of its supports, at the most."""
    places = each.from_start_mm
    if len(places) < 2:
        return each.length_mm
    shares = carried_mm(length_mm=each.length_mm, supports_mm=places, sharing="levered")
    return shares[each.supports_mm.index(at_mm)]


def _plies_across(bed: Bed, across_mm: float, from_mm: float) -> int:
    """Return of how many timbers a trimmer is: those side by side from where its tails hang."""
    thick = bed.under.joist.breadth_mm
    near = [
        beam
        for beam in bed.beams
        if beam.as_bearers and beam.kind in {"trimmer", "double"}
        and abs(beam.start[1] - across_mm) < 2 * thick
        and beam.start[0] - 2 * thick < from_mm < beam.end[0]
    ]  # fmt: skip
    return max(1, min(2, len({beam.start[1] for beam in near})))


def _beside(bed: Bed, each: Borne, trims: Sequence[Trim]) -> Borne:
    """Return a run with what trimmers bring to it, as if the most in any span lay all along."""
    own = tuple(
        trim
        for trim in trims
        if each.run.along_mm in {trim.from_mm, trim.to_mm}
        and each.start_mm < trim.across_mm < each.end_mm
    )
    if not own:
        return each
    in_span: dict[tuple[float, float], float] = {}
    for trim in own:
        span = _span_at(each, trim.across_mm)
        more_mm = SPREAD * trim.end_mm2 / (span[1] - span[0])
        in_span[span] = in_span.get(span, 0.0) + more_mm
    more = max(in_span.values())
    return evolve(each, trims=own, plies=_plies_along(bed, each, own),
                  wide_mm=to_mm(exact(each.wide_mm) + ceil(more * PER_MM)))  # fmt: skip


def _span_at(each: Borne, across_mm: float) -> tuple[float, float]:
    """Return from where to where the span, or the free end, goes that a place lies in."""
    places = (each.start_mm, *each.supports_mm, each.end_mm)
    before = max(at for at in places if at <= across_mm)
    beyond = min(at for at in places if at >= across_mm and at > before)
    return before, beyond


def _plies_along(bed: Bed, each: Borne, own: Sequence[Trim]) -> int:
    """Return 2 where a double stands beside a joist past all trimmers that hang on it, else 1."""
    thick = bed.under.joist.breadth_mm
    places = [trim.across_mm for trim in own]
    return 1 + any(
        beam.kind == "double" and beam.as_joists
        and 0 < abs(beam.start[0] - each.run.along_mm) < 1.5 * thick
        and beam.start[1] <= min(places) and max(places) <= beam.end[1]
        for beam in bed.beams
    )  # fmt: skip


def load_of(lines: OutlinedLines, stretch: Stretch, runs: Sequence[Borne]) -> float:
    """Return the width of deck that a bearer carries of plain joists, at the most."""
    alike = {(each.from_start_mm, each.length_mm): each for each in _over(stretch, runs)}
    own = [_share(each, stretch.across_mm) for each in alike.values()]
    return max([stretch_carried_mm(lines, stretch), *own])


def more_of(
    stretch: Stretch, runs: Sequence[Borne], posts_mm: Sequence[float], post_mm: float
) -> float:
    """Return what width more it carries of trimmers' loads, as if that lay all along.

    Of each joist beside an opening all that lies in a span that the bearer bears, spread over the
    bearer's own span, or free end, that the joist lies on: the most of any. `posts_mm` are from
    its start.
    """
    in_span: dict[tuple[float, float], float] = {}
    long = to_mm(exact(stretch.end_mm) - exact(stretch.start_mm))
    for each in _over(stretch, runs):
        area = sum(
            trim.end_mm2 for trim in each.trims if _bears(each, stretch.across_mm, trim.across_mm)
        )
        at = to_mm(exact(each.run.along_mm) - exact(stretch.start_mm))
        if area:
            span = _span_under(at, posts_mm, long, post_mm)
            in_span[span] = in_span.get(span, 0.0) + SPREAD * area / (span[1] - span[0])
    return max(in_span.values(), default=0.0)


def _span_under(
    at: float, posts_mm: Sequence[float], long_mm: float, post_mm: float
) -> tuple[float, float]:
    """Return from where to where the span, or the free end, of a bearer goes that a joist is on.

    Over a post it is the narrower of two.
    """
    own = [
        (low, high)
        for low, high in pairwise(posts_mm)
        if low - post_mm / 2 <= at <= high + post_mm / 2
    ]
    if own:
        return min(own, key=lambda span: span[1] - span[0])
    return (0.0, posts_mm[0]) if at < posts_mm[0] else (posts_mm[-1], long_mm)


def _over(stretch: Stretch, runs: Sequence[Borne]) -> list[Borne]:
    return [
        each
        for each in runs
        if stretch.across_mm in each.supports_mm
        and stretch.start_mm <= each.run.along_mm <= stretch.end_mm
    ]


def _bears(each: Borne, at_mm: float, load_mm: float) -> bool:
    """Whether no other support stands between a support and a load."""
    low, high = min(at_mm, load_mm), max(at_mm, load_mm)
    return not any(low < place < high for place in each.supports_mm)
