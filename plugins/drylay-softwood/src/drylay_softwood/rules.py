"""The rules of treated softwood: what the table says, and the few places that need an `if`."""

import math
from collections.abc import Callable

from drylay.materials.model import RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.reasons import Inputs, Ruling
from drylay_softwood.table import Row, Table, metal_row, row_for

TableRule = Callable[[Table, RuleQuery], Ruling]

#: A whole number of these is lost to binary fractions: 400 x sin 30 is 199.99999999999997.
_DUST_MM = 1e-9


def most_centres_mm(table: Table, query: RuleQuery) -> Ruling:
    """Return the furthest apart the joists may be, rounded down to whole millimetres.

    The thickness' own row, in public use never more than the public row, times the sine of
    the angle between board and joist.

    Raises:
        NotCoveredError: The board is too thin, or lies too nearly along the joists.

    Source: the rows of softwood.toml; the sine is geometry, and at 45 degrees near the 12
    and 16 in that IRC R507.7 prints for 16 and 24 in.
    """
    row = row_for(table, "most_centres_mm", thickness_mm=query.board_thickness_mm)
    if query.use == "public":
        row = min(row, row_for(table, "public_centres_mm"), key=lambda each: each.value)
    angle_deg = _covered_angle_deg(table, query)
    centres_mm = float(math.floor(row.value * math.sin(math.radians(angle_deg)) + _DUST_MM))
    inputs: Inputs = (
        ("board_thickness_mm", query.board_thickness_mm),
        ("board_to_joist_deg", query.board_to_joist_deg),
        ("use", query.use),
        ("square_centres_mm", row.value),
    )
    return _ruling(centres_mm, "mm", "support centres by thickness, use and angle", row, inputs)


def sliver_mm(table: Table, query: RuleQuery) -> Ruling:
    """Return the width below which a row is a sliver.

    Source: common practice, under 60 mm or under half a board; the larger counts.
    """
    least = row_for(table, "sliver_least_mm")
    share = row_for(table, "sliver_share_ratio")
    limit_mm = max(least.value, share.value * query.board_width_mm)
    inputs: Inputs = (
        ("board_width_mm", query.board_width_mm),
        ("sliver_least_mm", least.value),
        ("sliver_share_ratio", share.value),
    )
    return _ruling(limit_mm, "mm", "a sliver is under 60 mm or half a board", least, inputs)


def least_rip_mm(table: Table, query: RuleQuery) -> Ruling:
    """Return the narrowest a board may be ripped: what is left must not be a sliver.

    Source: follows from the sliver rule.
    """
    sliver = sliver_mm(table, query)
    return Ruling(
        value=sliver.value,
        unit="mm",
        rule="a ripped row must not be a sliver",
        source=sliver.source,
        inputs=sliver.inputs,
    )


def screw_length_least_mm(table: Table, query: RuleQuery) -> Ruling:
    """Return the shortest deck screw for a board.

    Source: common practice, 2.5 times the board's thickness.
    """
    ratio = row_for(table, "screw_length_ratio")
    inputs: Inputs = (
        ("board_thickness_mm", query.board_thickness_mm),
        ("screw_length_ratio", ratio.value),
    )
    length_mm = ratio.value * query.board_thickness_mm
    return _ruling(length_mm, "mm", "screw length 2.5 times the board", ratio, inputs)


def coach_screw_length_least_mm(table: Table, query: RuleQuery) -> Ruling:
    """Return the shortest coach screw through a rim into a joist's end.

    What is left of the rim under the sunk head, and the penetration into the joist. The rim
    is as thick as the joist: both are the frame timber.

    Raises:
        NotCoveredError: The head would be sunk through the rim.

    Source: common practice; the penetration is a row of softwood.toml.
    """
    row = row_for(table, "coach_screw_penetration_mm")
    rim_left_mm = query.joist_thickness_mm - query.head_sunk_mm
    if not 0 < rim_left_mm <= query.joist_thickness_mm:
        raise NotCoveredError(
            f"a head sunk {query.head_sunk_mm:g} mm into a {query.joist_thickness_mm:g} mm rim"
        )
    inputs: Inputs = (
        ("joist_thickness_mm", query.joist_thickness_mm),
        ("head_sunk_mm", query.head_sunk_mm),
        ("penetration_mm", row.value),
    )
    rule = "rim under the head, and 60 mm into the joist's end"
    return _ruling(rim_left_mm + row.value, "mm", rule, row, inputs)


def frame_screw_length_least_mm(table: Table, query: RuleQuery) -> Ruling:
    """Return the shortest screw of noggins and splices, which join timbers of one thickness.

    Source: common practice, as deep into the second timber as the first is thick.
    """
    ratio = row_for(table, "frame_screw_length_ratio")
    inputs: Inputs = (
        ("joist_thickness_mm", query.joist_thickness_mm),
        ("frame_screw_length_ratio", ratio.value),
    )
    length_mm = ratio.value * query.joist_thickness_mm
    return _ruling(length_mm, "mm", "frame screw length twice the timber", ratio, inputs)


def fascia_screw_length_least_mm(table: Table, query: RuleQuery) -> Ruling:
    """Return the shortest screw of a fascia.

    Source: common practice, twice the fascia's thickness.
    """
    ratio = row_for(table, "fascia_screw_length_ratio")
    inputs: Inputs = (
        ("fascia_thickness_mm", query.fascia_thickness_mm),
        ("fascia_screw_length_ratio", ratio.value),
    )
    length_mm = ratio.value * query.fascia_thickness_mm
    return _ruling(length_mm, "mm", "fascia screw length twice the fascia", ratio, inputs)


def metal_allowed(table: Table, query: RuleQuery) -> Ruling:
    """Return 1 if a fixing of this metal may be used in this timber and exposure, else 0.

    All timber of this family is taken for treated with copper, whatever its record says.

    Raises:
        NotCoveredError: The metal or the exposure is none the table speaks of.

    Source: the rows of softwood.toml, from memory.
    """
    row = metal_row(table, query.metal, query.exposure)
    inputs: Inputs = (
        ("metal", query.metal),
        ("exposure", query.exposure),
        ("treatment", query.treatment or "not told, taken for copper"),
    )
    return _ruling(int(row.value), "yes/no", "metal against copper treatment", row, inputs)


def spare_ratio(table: Table, query: RuleQuery) -> Ruling:
    """Return the share bought on top: more where boards lie at an angle.

    Source: common practice, 5 % straight and 10 % diagonal.
    """
    square = query.board_to_joist_deg == 90.0
    row = row_for(table, "straight_spare_ratio" if square else "diagonal_spare_ratio")
    inputs: Inputs = (("board_to_joist_deg", query.board_to_joist_deg),)
    return _ruling(row.value, "ratio", "spare by the boards' direction", row, inputs)


def gap_mm(table: Table, query: RuleQuery, *, name: str, rule: str) -> Ruling:
    """Return a gap for boards of this width.

    Raises:
        NotCoveredError: The board is wider than the table speaks of.
    """
    row = row_for(table, name, width_mm=query.board_width_mm)
    inputs: Inputs = (("board_width_mm", query.board_width_mm),)
    return _ruling(row.value, "mm", rule, row, inputs)


def one_number(table: Table, query: RuleQuery, *, name: str, unit: str, rule: str) -> Ruling:  # noqa: ARG001
    """Return the one number of a rule that asks nothing about the board."""
    row = row_for(table, name)
    value = int(row.value) if unit in ("count", "yes/no") else row.value
    return _ruling(value, unit, rule, row, ())


def _covered_angle_deg(table: Table, query: RuleQuery) -> float:
    least_deg = row_for(table, "angle_least_deg").value
    if not least_deg <= query.board_to_joist_deg <= 90.0:
        raise NotCoveredError(
            f"boards at {query.board_to_joist_deg:g} degrees to the joists; "
            f"{least_deg:g} to 90 is covered"
        )
    return query.board_to_joist_deg


def _ruling(value: float, unit: str, rule: str, row: Row, inputs: Inputs) -> Ruling:
    return Ruling(value=value, unit=unit, rule=rule, source=row.source, inputs=inputs)
