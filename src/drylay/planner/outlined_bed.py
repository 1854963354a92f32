"""The frame under an outline as bearers see it: its edge, its openings, its joists, its house side.

Places of a bed run along the bearers and across along the joists: where joists run along the house
they are the outline's swapped, as a raised frame has them.
"""

from collections.abc import Iterator, Sequence

from attrs import frozen

from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.outline.model import Opening, Outline, Side, Spot
from drylay.planner.carrying import Under
from drylay.planner.job import Job
from drylay.planner.outlined_work import frame_corners
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import one_ply
from drylay.planner.standing import stand_off_mm
from drylay.planner.standing_ledger import Held, held_where
from drylay.site.model import Site
from drylay.subframe.model import Member, Subframe

Place = tuple[float, float]
#: Members that run across the joists at an opening, and carry those that it cuts.
TRIMMING = frozenset({"trimmer", "double"})


@frozen(kw_only=True)
class Beam:
    """A member seen along the bearers: its middle line's two ends, the lower first."""

    kind: str
    side: str
    start: Place
    end: Place

    @property
    def as_joists(self) -> bool:
        """Return whether it runs the joists' way."""
        return self.start[0] == self.end[0]

    @property
    def as_bearers(self) -> bool:
        """Return whether it runs square to them."""
        return self.start[1] == self.end[1]


@frozen(kw_only=True)
class Bed:
    """What bearers are laid under, with what the house holds.

    `ring_mm` is the frame's edge, `holes_mm` each opening as far as one trimmer beyond it, so that
    the joists it cuts end a trimmer further on. `ledger_mm` is from where to where, and how thick.
    """

    swapped: bool
    ring_mm: tuple[Place, ...]
    holes_mm: tuple[tuple[Place, ...], ...]
    hatches: frozenset[int]
    lines_mm: tuple[float, ...]
    beams: tuple[Beam, ...]
    under: Under
    held: Held
    ledger_mm: tuple[float, float, float] | None
    findings: tuple[Finding, ...] = ()

    def at(self, place: Place) -> Place:
        """Return a place of the outline's as the bed has it, and the other way round."""
        return (place[1], place[0]) if self.swapped else place


def bed_of(job: Job, outline: Outline, frame: Subframe, site: Site) -> Bed:
    """Return the frame as bearers see it."""
    swapped = frame.joist_run == "along"
    timber = job.articles.timber
    ring = tuple(_swap(place, swapped) for place in frame_corners(outline))
    beams = tuple(_beam(member, swapped) for member in frame.members)
    side = ledger_side(outline, swapped=swapped)
    held = held_where(job, site, beside=side is not None)
    ledger = None
    if held.ledger and side is not None:
        ends = sorted(_swap(_of(spot), swapped)[0] for spot in (side.start, side.end))
        low, high = _within(ring, (ends[0], ends[1]))
        ledger = (low, high, timber.thickness_mm)
    holes = [_hole(each, beams, swapped, timber.thickness_mm) for each in outline.openings]
    return Bed(
        swapped=swapped, ring_mm=ring, holes_mm=tuple(holes), lines_mm=frame.lines_mm, beams=beams,
        hatches=frozenset(
            n for n, each in enumerate(outline.openings, 1) if each.kind == "hatch"
        ),
        under=_under(job, ring, frame, site, ledger), held=held, ledger_mm=ledger,
        findings=tuple(_others_free(outline, side, held)),
    )  # fmt: skip


def _swap(place: Place, swapped: bool) -> Place:
    return (place[1], place[0]) if swapped else place


def _of(spot: Spot) -> Place:
    return spot.along_mm, spot.across_mm


def _beam(member: Member, swapped: bool) -> Beam:
    start, end = sorted(_swap(_of(spot), swapped) for spot in (member.start, member.end))
    return Beam(kind=member.kind, side=member.side, start=start, end=end)


def ledger_side(outline: Outline, *, swapped: bool) -> Side | None:
    """Return the longest side of the house that joists begin at, in the line of the datum corner.

    It lies along the bearers, the deck beyond it. A ledger fits no other.
    """
    return max(
        (side for side in outline.sides if side.kind == "house" and _begins(side, swapped)),
        key=lambda side: side.length_mm,
        default=None,
    )


def _begins(side: Side, swapped: bool) -> bool:
    start, end = _swap(_of(side.start), swapped), _swap(_of(side.end), swapped)
    forward = end[0] > start[0]  # the deck lies to the left of a side as it runs
    return start[1] == end[1] == 0.0 and forward != swapped


def _within(ring: Sequence[Place], ends: Place) -> Place:
    """Return from where to where the frame lies at the house's line: fascia keeps it back."""
    found = [along for along, across in ring if across == 0.0 and ends[0] <= along <= ends[1]]
    return min(found, default=ends[0]), max(found, default=ends[1])


def _others_free(outline: Outline, held_at: Side | None, held: Held) -> Iterator[Finding]:
    for side in outline.sides:
        if side.kind == "house" and held.ledger and side is not held_at:
            yield Finding(
                code="RSD-016", severity=Severity.NOTE, subject=side.mark, source=PRACTICE,
                measured=side.length_mm, unit="mm",
                message="no ledger along this side of the house: bearers carry the deck beside it",
            )  # fmt: skip


def _hole(
    opening: Opening, beams: Sequence[Beam], swapped: bool, thick_mm: float
) -> tuple[Place, ...]:
    """Return an opening's rectangle, as far across as one trimmer short of the joists it cuts."""
    places = [_swap(_of(spot), swapped) for spot in (*opening.corners, *opening.within)]
    left, right = min(x for x, _ in places), max(x for x, _ in places)
    low, high = min(y for _, y in places), max(y for _, y in places)
    own = [
        exact(beam.start[1])
        for beam in beams
        if beam.side == opening.mark and beam.kind in TRIMMING and beam.as_bearers
    ]
    half = exact(thick_mm) - exact(thick_mm) // 2
    low = min([low, *(to_mm(at + half) for at in own)])
    high = max([high, *(to_mm(at - half) for at in own)])
    return ((left, low), (right, low), (right, high), (left, high))


def _under(
    job: Job, ring: Sequence[Place], frame: Subframe, site: Site,
    ledger: tuple[float, float, float] | None,
) -> Under:  # fmt: skip
    levels = site.levels
    along, across = [x for x, _ in ring], [y for _, y in ring]
    return Under(
        length_mm=to_mm(exact(max(along)) - exact(min(along))),
        depth_mm=to_mm(exact(max(across)) - exact(min(across))),
        ledger_mm=ledger[2] if ledger else None,
        joist=one_ply(job.articles.timber),
        joist_count=frame.line_count,
        centres_mm=frame.centres_mm,
        underside_mm=levels.underside_mm if levels else 0.0,
        ground_least_mm=(levels.ground_least_mm or 0.0) if levels else 0.0,
        stand_off_mm=stand_off_mm(job),
    )
