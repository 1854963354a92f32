"""What boards ask for by their make: told, or stopped, where the brief's site wants it."""

from collections.abc import Iterator

from drylay.audit.edges import edges_of
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, of_boards
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import ClosedCheck, Flaw, Witness, WitnessedCheck
from drylay.audit.rows import surface_of
from drylay.plan.model import Plan
from drylay.reasons import Source

ROWS = conventions("Rows (surface)")
GROUND = conventions("Levels and ground (site)")


def told_just_where(plan: Plan, wanted: dict[str, bool], source: Source) -> Iterator[Flaw]:
    """Yield a flaw for each finding that is wanted and not told, or told for nothing."""
    told = {finding.code for finding in plan.findings}
    for code, holds in wanted.items():
        if holds != (code in told):
            message = "not among the findings" if holds else "among the findings for nothing"
            yield Flaw(subject=code, message=message, source=source)


def nothing_burns_on_a_roof(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for boards that burn, planned on what the brief says is a roof."""
    of_boards(plan)
    site = need(witness.brief, "brief as witness").site
    if site.roof and surface_of(plan).combustible:
        message = "boards that burn, on a roof or balcony: that stops every plan"
        yield Flaw(subject="surface.combustible", message=message, source=ROWS)


def _room(plan: Plan) -> int | None:
    """Return the least between frame and bed, in 1/320 mm, by levels or else by packers."""
    room = room_under_the_frame(plan)
    if room is not None:
        return room[0]
    packing = plan.groundwork.packing if plan.groundwork is not None else None
    return None if packing is None else ticks(packing.height_least_mm)


def air_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where boards lack the air they want below, and no finding says so."""
    site, faces = need(plan.site, "site"), edges_of(plan).faces
    need(plan.frame, "frame")
    least, room = ticks(site.air_below_least_mm or 0.0), _room(plan)
    short = bool(least) and (room is None or room < least)
    shut = bool(least) and {face.side for face in faces} == {"house", "right", "front", "left"}
    yield from told_just_where(plan, {"AIR-001": short, "AIR-002": shut}, GROUND)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-147", "what boards want of air below stands among the findings", air_is_told),
)
#: With brief and stock at hand.
HELD: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W90", "no boards that burn lie on a roof", nothing_burns_on_a_roof),
)
