"""Reasons: every decision tells the plan's own number, has a source, and none is missing."""

from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal, InvalidOperation

from drylay.audit.edged import field_rows
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions
from drylay.audit.leaves import NoSuchPath, at, governing
from drylay.audit.model import ClosedCheck, Flaw
from drylay.plan.model import Plan
from drylay.reasons import SOURCE_KINDS, Decision

REASONS = conventions("Reasons and paths")
WHOLES = (str, int, float, Decimal, type(None))


def _number(value: object) -> Decimal | None:
    """Return a value as an exact number (yes is 1, no is 0), None where it is none."""
    try:
        return Decimal(int(value)) if isinstance(value, bool) else Decimal(str(value))
    except InvalidOperation:
        return None


def same_value(told: object, held: object) -> bool:
    """Return whether a decision's scalar tells a plan's value: by number, or as text."""
    if held is UNKNOWN:
        return True
    if held is None or told is None:
        return told is held
    if isinstance(held, str) or _number(told) is None:
        return told == held
    return _number(told) == _number(held)


def decisions_tell_the_plan(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each decision whose value is not the plan's at its path."""
    for decision in plan.reasons.decisions:
        try:
            held = at(plan, decision.path)
        except NoSuchPath:
            continue
        if isinstance(held, WHOLES) and not same_value(decision.value, held):
            yield _disagrees(decision, decision.value, held)


def _disagrees(decision: Decision, told: object, held: object) -> Flaw:
    first, second = _number(told), _number(held)
    return Flaw(
        subject=decision.path,
        message=f"the reason tells {told!s}, the plan holds {held!s}",
        measured=None if first is None else float(first),
        limit=None if second is None else float(second),
        unit=decision.unit,
        source=REASONS,
    )


def inputs_tell_the_plan(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each input of a decision that disagrees with the plan."""
    for decision in plan.reasons.decisions:
        for name, value in decision.inputs:
            held = _input(plan, decision.path, name)
            if not same_value(value, held):
                yield _disagrees(decision, f"{name} = {value}", held)


def _input(plan: Plan, path: str, name: str) -> object:
    """Return what the plan holds for an input: beside the decision, or where it is kept."""
    if "border" in path:
        name = OF_A_BOARD.get(name, name)
    if name in SUMS:
        return SUMS[name](plan)
    if path == "subframe.square_centres_mm" and name == "board_to_joist_deg":
        return 90.0
    beside = f"{path.rpartition('.')[0]}.{name}"
    for place in (beside, INPUTS.get(name, ""), ON_OUTLINES.get(name, "")):
        try:
            held = at(plan, place)
        except NoSuchPath:
            continue
        if isinstance(held, WHOLES):
            return held
    return UNKNOWN


def _wished_depth(plan: Plan) -> object:
    surface = plan.surface
    return UNKNOWN if surface is None else surface.rows_depth_mm - surface.cover_change_mm


def _wished_length(plan: Plan) -> object:
    if plan.surface is None or plan.tiling is None:
        return UNKNOWN
    return plan.surface.row_length_mm - plan.tiling.cover_change_mm


def _rows(plan: Plan) -> object:
    return UNKNOWN if plan.surface is None else len(field_rows(plan.surface))


def _gap_of(what: str) -> Callable[[Plan], object]:
    """Return how to find by how much a purchase might be cheaper."""

    def gap(plan: Plan) -> object:
        bought = plan.buying.purchases if plan.buying is not None else ()
        return next((part.gap for part in bought if part.what == what), UNKNOWN)

    return gap


def _field_thickness(plan: Plan) -> object:
    return UNKNOWN if plan.surface is None else plan.surface.board_thickness_mm


def _groove(plan: Plan) -> object:
    return UNKNOWN if plan.surface is None else plan.surface.groove_mm or 0.0


def _border_groove(plan: Plan) -> object:
    border = plan.surface.border if plan.surface is not None else None
    return UNKNOWN if border is None else border.groove_mm or 0.0


def _both_timbers(plan: Plan) -> object:
    return UNKNOWN if plan.frame is None else 2 * plan.frame.timber_thickness_mm


def _fascia_and_timber(plan: Plan) -> object:
    if plan.frame is None or plan.edges is None:
        return UNKNOWN
    return (ticks(plan.edges.fascia_thickness_mm) + ticks(plan.frame.timber_thickness_mm)) / 320


def _places(plan: Plan) -> object:
    screws = plan.fixings.fascia_screws if plan.fixings is not None else None
    return UNKNOWN if screws is None else len(screws.places)


def _ripped_lines(plan: Plan) -> object:
    if plan.surface is None:
        return UNKNOWN
    rows = plan.surface.rows
    return sum(row.ripped for row in rows) if len(rows) > 1 else 0


def _tasks(plan: Plan) -> object:
    return UNKNOWN if plan.work is None else len(plan.work.tasks)


#: Inputs that are sums over the plan.
SUMS: dict[str, Callable[[Plan], object]] = {
    "tasks": _tasks,
    "both_timbers_mm": _both_timbers,
    "through_mm": _fascia_and_timber,
    "places": _places,
    "wished_mm": _wished_depth,
    "along_rows_mm": _wished_length,
    "rows": _rows,
    "gap_boards": _gap_of("boards"),
    "gap_border_boards": _gap_of("border boards"),
    "gap_frame": _gap_of("frame"),
    "gap_fascia": _gap_of("fascia"),
    "field_thickness_mm": _field_thickness,
    "groove_mm": _groove,
    "ripped_lines": _ripped_lines,
    "border_groove_mm": _border_groove,
}

#: An input that the plan itself does not hold: only a witness can tell.
UNKNOWN = object()

#: Inputs that are the border's own where a decision on the border takes them. One on what both
#: share names them so itself, where the border's answer governs.
OF_A_BOARD = {
    "board_width_mm": "border_width_mm", "board_thickness_mm": "border_thickness_mm",
    "board_length_mm": "border_length_mm", "groove_mm": "border_groove_mm",
    "end_gap_mm": "border_end_gap_mm",
}  # fmt: skip
#: Where the plan keeps what rules take as inputs.
INPUTS = {
    "board_width_mm": "surface.board_width_mm",
    "board_thickness_mm": "surface.board_thickness_mm",
    "border_width_mm": "surface.border.width_mm",
    "border_thickness_mm": "surface.border.thickness_mm",
    "row_length_mm": "surface.row_length_mm",
    "rows_depth_mm": "surface.rows_depth_mm",
    "joist_thickness_mm": "supports.joist_thickness_mm",
    "fascia_thickness_mm": "edges.fascia_thickness_mm",
    "timber_depth_mm": "frame.timber_depth_mm",
    "coach_shank_mm": "fixings.coach_screws.shank_mm",
    "line_count": "supports.line_count",
    "joist_length_mm": "frame.joists[0].length_mm",
    "frame_length_mm": "edges.frame_length_mm",
    "frame_depth_mm": "edges.frame_depth_mm",
    "joint_price": "pieces.joint_price",
    "cover_across_mm": "surface.cover_across_mm",
    "end_gap_mm": "pieces.end_gap_mm",
    "border_end_gap_mm": "pieces.border.end_gap_mm",
    "mass_kg_m": "buying.delivery.board_kg_m",
}
#: Where a plan of a deck on an outline keeps them.
ON_OUTLINES = {
    "board_width_mm": "laying.board_width_mm",
    "board_thickness_mm": "laying.board_thickness_mm",
    "joist_thickness_mm": "subframe.timber_thickness_mm",
    "fascia_thickness_mm": "subframe.facing_thickness_mm",
    "timber_depth_mm": "subframe.timber_depth_mm",
    "line_count": "subframe.line_count",
    "joint_price": "laying.joint_price",
    "end_gap_mm": "laying.end_gap_mm",
    "board_to_joist_deg": "subframe.board_to_joist_deg",
}


def _all_governing(plan: Plan) -> set[str]:
    """Return the paths of all decisions that govern a number of the plan."""
    parts = (plan.surface, plan.edges, plan.supports, plan.pieces, plan.groundwork, plan.site)
    outlined = (plan.outline, plan.laying, plan.subframe, plan.tiles)
    return governing(
        *parts, plan.frame, plan.fixings, plan.buying, plan.work, plan.tiling, plan.laid, *outlined
    )


def nothing_undecided(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each number of the plan whose governing decision is missing."""
    decided = {decision.path for decision in plan.reasons.decisions}
    for path in sorted(_all_governing(plan) - decided):
        message = "numbers of the plan rest on this decision, and it is missing"
        yield Flaw(subject=path, message=message, source=REASONS)


def decided_once(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each decision taken twice."""
    for path, count in Counter(decision.path for decision in plan.reasons.decisions).items():
        if count > 1:
            message = "decided more than once"
            yield Flaw(subject=path, message=message, measured=count, limit=1, source=REASONS)


def decisions_have_a_place(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each decision that neither is nor governs any value of the plan."""
    governed = _all_governing(plan)
    for decision in plan.reasons.decisions:
        try:
            at(plan, decision.path)
        except NoSuchPath:
            if decision.path not in governed and _part_is_there(plan, decision.path):
                message = "the plan has nothing at this path"
                yield Flaw(subject=decision.path, message=message, source=REASONS)


def _part_is_there(plan: Plan, path: str) -> bool:
    """Whether the part of the plan that a path begins with is there, or no part at all."""
    try:
        return at(plan, path.split(".", 1)[0]) is not None
    except NoSuchPath:
        return True


def sources_are_named(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each decision without a source, or of a kind nobody knows."""
    for decision in plan.reasons.decisions:
        source = decision.source
        if source.kind not in SOURCE_KINDS or not source.title.strip():
            message = f"its source is {source.kind!r}, {source.title!r}"
            yield Flaw(subject=decision.path, message=message, source=REASONS)
        if not decision.rule.strip():
            message = "no rule is named for it"
            yield Flaw(subject=decision.path, message=message, source=REASONS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-901", "every reason tells the plan's own value", decisions_tell_the_plan),
    ("AUD-902", "inputs of reasons agree with the plan", inputs_tell_the_plan),
    ("AUD-903", "no number is without its decision", nothing_undecided),
    ("AUD-904", "nothing is decided twice", decided_once),
    ("AUD-905", "every decision has its place in the plan", decisions_have_a_place),
    ("AUD-906", "every decision names its rule and its source", sources_are_named),
)
