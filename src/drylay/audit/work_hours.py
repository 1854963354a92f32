"""Hours of the work: from what each task is made of, by the rates of the conventions."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor

from drylay.audit.between import joists_sawn
from drylay.audit.edged import border_marks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, need
from drylay.audit.frame import frame_of
from drylay.audit.legs_tasks import LEGS_FIXED, legs_quantities
from drylay.audit.model import Flaw
from drylay.audit.outlined_steps import OUTLINED, OUTLINED_FIXED, outlined_quantities
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.audit.tile_tasks import TILE_FIXED, tile_quantities
from drylay.audit.wanted import buying_of
from drylay.fixings.model import Finish
from drylay.plan.model import Plan

WORK = conventions("Work")
#: Hours of one person, in hundredths: whatever the deck, least and most.
FIXED = {
    "check": (100, 300), "delivery": (50, 100), "set_out": (100, 200), "dig": (0, 0),
    "fabric": (25, 50), "gravel": (25, 50), "packing": (25, 50), "cut_frame": (50, 100),
    "frame": (50, 100), "cable": (50, 100), "boards": (50, 100), "trim": (50, 100),
    "fascia": (25, 50), "lights": (25, 50), "finish": (25, 50), "hand_over": (50, 100),
    **TILE_FIXED, **OUTLINED_FIXED, **LEGS_FIXED,
}  # fmt: skip


def finish_of(plan: Plan) -> Finish | None:
    """Return what is brushed on boards; tiles have none."""
    return None if plan.tiling is not None else fixings_of(plan).finish


def hours_follow_the_rates(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each task whose hours are not those of its rates, and for the sums."""
    work = need(plan.work, "work")
    people = need(work.people if work.people > 0 else None, "people")
    for task in work.tasks:
        if task.kind in FIXED:
            least, most = (_person_hours(plan, task.kind, end) / people for end in (0, 1))
            told, wanted = (task.least_h, task.most_h), (floor(least * 4) / 4, ceil(most * 4) / 4)
            yield from _same_hours(task.mark, told, wanted)
    sums = (sum(task.least_h for task in work.tasks), sum(task.most_h for task in work.tasks))
    yield from _same_hours("work", (work.least_h, work.most_h), sums)


def _same_hours(
    subject: str, told: tuple[float, float], wanted: tuple[float, float]
) -> Iterator[Flaw]:
    for name, found, limit in zip(("least_h", "most_h"), told, wanted, strict=True):
        if found != limit:
            yield Flaw(subject=f"{subject}.{name}", message="not those of the rates",
                       measured=found, limit=limit, unit="h", source=WORK)  # fmt: skip


def _person_hours(plan: Plan, kind: str, end: int) -> Fraction:
    each = sum(rates[end] * count for rates, count in _quantities(plan, kind))
    return (FIXED[kind][end] + Fraction(each)) / 100


def _quantities(plan: Plan, kind: str) -> list[tuple[tuple[int, int], Fraction]]:
    """Return what a task is made of: hundredths of an hour for each, and how many."""
    if plan.tiling is not None and kind in TILE_FIXED:
        return tile_quantities(plan, kind)
    if plan.outline is not None and kind in OUTLINED:
        return outlined_quantities(plan, kind) + legs_quantities(plan, kind)
    under, lights, finish = plan.groundwork, need(plan.work, "work").lighting, finish_of(plan)
    counts: dict[str, list[tuple[tuple[int, int], object]]] = {
        "delivery": [((2, 5), _bought(plan))],
        "dig": [((200, 400), under.dig.solid_m3 if under and under.dig else 0)],
        "fabric": [((10, 25), len(under.fabric.strips) if under and under.fabric else 0)],
        "gravel": [((50, 100), _tonnes(plan))],
        "packing": [((3, 8), under.packing.count if under and under.packing else 0)],
        "cable": [((20, 40), len(lights.lights) if lights else 0)],
        "fascia": [((30, 60), sum(len(f.pieces) for f in plan.edges.faces) if plan.edges else 0)],
        "lights": [((25, 50), len(lights.lights) if lights else 0)],
        "finish": [((6, 15), Fraction(str(finish.area_m2)) * finish.coats if finish else 0)],
    }  # fmt: skip
    found = _on_the_frame(plan, kind) if kind in {"cut_frame", "frame", "boards"} else []
    counted = [(rates, Fraction(str(count))) for rates, count in [*counts.get(kind, []), *found]]
    return counted + legs_quantities(plan, kind)


def _on_the_frame(plan: Plan, kind: str) -> list[tuple[tuple[int, int], object]]:
    """Return what tasks on a frame are made of."""
    frame = frame_of(plan)
    if kind == "cut_frame":
        return [((5, 10), _members(plan))]
    if kind == "frame":
        return [((10, 25), 2 * len(joists_sawn(frame))), ((8, 15), len(frame.noggins)),
                ((15, 30), len(frame.splices)), ((10, 20), len(frame.battens))]  # fmt: skip
    crossings = len(surface_of(plan).rows) * len(frame.joists)
    return [((10, 20), len(pieces_of(plan).pieces)), ((2, 5), crossings), *_of_the_boards(plan)]


def _of_the_boards(plan: Plan) -> list[tuple[tuple[int, int], object]]:
    """Return what the boards' own make adds: holes for every screw, waxed ends, strips."""
    fixings, pieces = fixings_of(plan), pieces_of(plan)
    kinds = [held for held in (fixings.deck_screws, fixings.border_screws) if held is not None]
    surface, edged = surface_of(plan), border_marks(plan)
    border = surface.border.groove_mm if surface.border is not None else None
    grooves = {False: surface.groove_mm, True: border}
    return [
        ((1, 2), sum(held.count for held in kinds if held.predrill_all)),
        ((2, 5), fixings.wax.ends if fixings.wax else 0),
        ((10, 20), sum(grooves[p.row in edged] is not None for p in pieces.pieces)),
    ]


def _tonnes(plan: Plan) -> Fraction:
    gravel = plan.groundwork.gravel if plan.groundwork else None
    return Fraction(str(gravel.mass_kg)) / 1000 if gravel else Fraction(0)


def _members(plan: Plan) -> int:
    frame = frame_of(plan)
    rims = sum(len(rim.pieces) for rim in frame.rims)
    battens = len(frame.battens)
    return rims + len(joists_sawn(frame)) + len(frame.noggins) + len(frame.splices) + battens


def _bought(plan: Plan) -> int:
    buying = buying_of(plan)
    lengths = sum(len(purchase.lengths) for purchase in buying.purchases)
    return lengths + sum(box.packs for pack in buying.packs for box in pack.packs)
