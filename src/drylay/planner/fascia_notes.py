"""What is to be said of the fascia's depth: the ground below it, the heads behind it."""

from collections.abc import Iterator

from drylay.edges.fascia import EDGES
from drylay.findings import Finding, Severity
from drylay.fixings.fascia import WASHER_SHANKS
from drylay.fixings.model import CoachScrews
from drylay.groundwork.packing import clearance, sunk_mm
from drylay.marks import exact, to_mm
from drylay.planner.built import Framed, Sited
from drylay.planner.rows import PRACTICE
from drylay.reasons import Source

#: How far a fascia stays clear of the ground. Common practice, no source.
CLEAR_MM = 10.0
HEADS = Source(kind="assumption", title="docs/conventions.md", clause="Fascia and frame (edges)")


def remarks(built: Framed) -> Iterator[Finding]:
    """Yield what is worth telling about the depth of a fascia."""
    if built.edges.faces:
        depth_mm = built.edges.fascia_depth_mm
        yield from over_the_ground(depth_mm, built.frame.timber_depth_mm, under_mm(built))
        if rims_faced(built) and not built.frame.hung:  # bearers in place of rims have no heads
            yield from over_the_heads(depth_mm, built.fixings.coach_screws)


def rims_faced(built: Framed) -> bool:
    """Whether a fascia lies on a rim: rims run along the boards."""
    return bool(set(EDGES[built.surface.run]) & {face.side for face in built.edges.faces})


def _told(
    code: str, severity: Severity, message: str, figures: tuple[float, float], source: Source
) -> Finding:
    measured_mm, limit_mm = figures
    return Finding(
        code=code,
        severity=severity,
        subject="fascia",
        message=message,
        measured=measured_mm,
        limit=limit_mm,
        unit="mm",
        source=source,
    )


def under_mm(built: Sited) -> float | None:
    """Return the least room between frame and bed; None where neither levels nor packers tell."""
    ground = built.groundwork
    sunk = sunk_mm(ground.dig, ground.gravel) if ground else 0.0
    room = clearance(built.site.levels, sunk)
    if room is not None:
        return room.least_mm
    packing = ground.packing if ground else None
    return packing.height_least_mm if packing else None


def over_the_ground(
    depth_mm: float, timber_mm: float, room_mm: float | None
) -> Iterator[Finding]:  # fmt: skip
    """Yield the stop for a fascia in a known ground, the caution for one that near it."""
    floor = exact(timber_mm) + exact(room_mm or 0.0)
    if exact(depth_mm) <= floor - exact(CLEAR_MM):
        return
    if room_mm is None or exact(depth_mm) <= floor:
        message = f"it reaches to within {CLEAR_MM:g} mm of the ground: keep it clear, for air"
        yield _told("FAS-001", Severity.CAUTION, message, (depth_mm, to_mm(floor)), PRACTICE)
        return
    message = (
        f"it reaches into the ground ({room_mm:g} mm lie between frame and bed): name a shallower "
        "fascia, dig deeper, or raise the deck on packers"
    )
    yield _told("FAS-002", Severity.STOP, message, (depth_mm, to_mm(floor)), PRACTICE)


def over_the_heads(depth_mm: float, coach: CoachScrews) -> Iterator[Finding]:
    """Yield the caution for a fascia that ends above the lower edge of heads it should cover."""
    first, apart = exact(coach.top_least_mm or 0.0), exact(coach.edge_least_mm or 0.0)
    washer = WASHER_SHANKS * exact(coach.shank_mm)
    needs_mm = to_mm(first + (coach.per_joist_end - 1) * apart - -washer // 2)
    if depth_mm < needs_mm:
        message = (
            f"it does not cover the coach screws' heads: the upper ones start "
            f"{to_mm(first):g} mm below the rim's top, clear of its edge and of deck screws; name "
            "a deeper fascia, or shorter deck screws"
        )
        yield _told("FAS-003", Severity.CAUTION, message, (depth_mm, needs_mm), HEADS)
