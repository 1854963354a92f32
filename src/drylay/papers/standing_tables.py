"""The tables of a deck that stands: posts, footings, and every check of strength."""

from collections.abc import Iterator

from drylay.groundwork.model import PostFooting
from drylay.papers.spreadsheet import Row, table_file, written
from drylay.plan.model import Plan
from drylay.raised.model import RaisedFrame
from drylay.reasons import Inputs, Scalar
from drylay.strength.model import Strength

POSTS = (
    "mark", "bearer", "along_boards_mm", "across_boards_mm", "ground_mm", "top_mm",
    "cut_below_datum_mm", "length_mm", "whole_length_mm", "height_class", "braces", "footing",
    "footing_shape", "footing_size_mm", "footing_depth_mm", "load_kn",
)  # fmt: skip
STRENGTH = (
    "member", "check", "case", "measured", "limit", "unit", "utilisation", "source_kind", "source",
    "clause", "formula", "inputs",
)  # fmt: skip
FOOTINGS = (
    "mark", "post", "kind", "shape", "size_mm", "thickness_mm", "depth_mm", "pier_mm", "dead_kn",
    "live_kn", "load_kn", "soil", "soil_named", "bearing_kn_m2", "own_kn_m2", "carries_kn",
    "concrete_m3", "bag", "bags",
)  # fmt: skip


def posts_csv(plan: Plan) -> bytes:
    """Return the post schedule with each post's footing; b"" where no posts stand."""
    if plan.raised is None:
        return b""
    under = {one.post: one for one in (plan.footings.under if plan.footings else ())}
    return table_file(POSTS, _posts(plan.raised.frame, under), plan.units)


def _posts(frame: RaisedFrame, under: dict[str, PostFooting]) -> Iterator[Row]:
    for row in frame.schedule:
        found = under.get(row.mark)
        yield {
            "mark": row.mark,
            "bearer": row.bearer,
            "along_boards_mm": row.along_mm,
            "across_boards_mm": row.across_mm,
            "ground_mm": row.ground_mm,
            "top_mm": row.top_mm,
            "cut_below_datum_mm": row.cut_below_mm,
            "length_mm": row.length_mm,
            "whole_length_mm": row.whole_mm,
            "height_class": row.height_class,
            "braces": " ".join(row.braces),
            **(_under(found) if found else {}),
        }


def _under(one: PostFooting) -> Row:
    return {
        "footing": one.mark,
        "footing_shape": one.footing.shape,
        "footing_size_mm": one.footing.size_mm,
        "footing_depth_mm": one.footing.depth_mm,
        "load_kn": one.footing.load_kn,
    }


def footings_csv(plan: Plan) -> bytes:
    """Return a row for each footing; b"" where a plan has none."""
    if plan.footings is None:
        return b""
    return table_file(FOOTINGS, map(_footing, plan.footings.under), plan.units)


def _footing(one: PostFooting) -> Row:
    footing = one.footing
    same = ("kind", "shape", "size_mm", "thickness_mm", "depth_mm", "pier_mm", "load_kn",
            "soil", "bearing_kn_m2", "own_kn_m2", "carries_kn", "concrete_m3", "bag",
            "bags")  # fmt: skip
    return {
        "mark": one.mark,
        "post": one.post,
        "dead_kn": one.dead_kn,
        "live_kn": one.live_kn,
        "soil_named": "yes" if footing.soil_named else "no",
        **{name: getattr(footing, name) for name in same},
    }


def strength_csv(plan: Plan) -> bytes:
    """Return a row for each check of each member; b"" where no basis screened the timber."""
    if plan.strength is None:
        return b""
    return table_file(STRENGTH, _checks(plan.strength), plan.units)


def _checks(strength: Strength) -> Iterator[Row]:
    for screened in strength.screened:
        for check in screened.checks:
            yield {
                "member": check.subject,
                "check": check.name,
                "case": check.case,
                "measured": check.measured,
                "limit": check.limit,
                "unit": check.unit,
                "utilisation": check.utilisation_ratio,
                "source_kind": check.source.kind,
                "source": check.source.title,
                "clause": check.source.clause,
                "formula": check.formula,
                "inputs": inputs_told(check.inputs),
            }


def inputs_told(inputs: Inputs) -> str:
    """Return every input of a formula in one cell: "span_mm = 2400; over = 360"."""
    return "; ".join(f"{name} = {_input(value)}" for name, value in inputs)


def _input(value: Scalar) -> str:
    return "none" if value is None else written(value)
