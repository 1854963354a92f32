"""The witnessed audit of tiles on an outline: as wished, sold and ruled, over the ground told."""

from collections.abc import Iterator
from typing import Any

from drylay.audit.exact import ticks
from drylay.audit.flaws import need, same_length, same_text
from drylay.audit.ground import room_under_the_frame
from drylay.audit.leaves import at
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.outlined import SLACK, fault, outline_of, outlines, place
from drylay.audit.outlined_terrain import terrain_within
from drylay.audit.outlined_tiles import tiles_of
from drylay.audit.own_line import levels_on_line
from drylay.audit.ranking import LIMITS, given
from drylay.audit.reasons import same_value
from drylay.audit.terrain import level_at
from drylay.brief.model import Brief
from drylay.plan.model import Plan

SOLD = outlines("Tiles on an outline: what is on sale, and wished")
RULED = outlines("Tiles on an outline: limits")
#: Limits of tiles on an outline, and where a rectangle has them: there families were asked.
RULED_AS = {
    **{
        f"tiles.{name}": f"surface.{name}"
        for name in ("gap_preferred_mm", "gap_least_mm", "gap_most_mm", "sliver_limit_mm",
                     "least_rip_mm", "fall_least_ratio", "combustible", "timber",
                     "wet_slip_least")
    },
    "tiles.least_cut_mm": "tiling.least_cut_mm",
    "tiles.density_kg_m3": "tiling.density_kg_m3",
    "tiles.pads.at_edges_most_mm": "tiling.pads.at_edges_most_mm",
    "tiles.pads.at_centre": "tiling.pads.at_centre",
}  # fmt: skip


def limits_as_ruled(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each limit that is not what the highest-ranking of its sources gives."""
    tiles, brief = tiles_of(plan), need(witness.brief, "brief as witness")
    overridden = {override.path for override in brief.overrides}
    for path, older in RULED_AS.items():
        limit = next(each for each in LIMITS if each.path == older)
        ought = None if older in overridden else given(plan, limit, witness)
        value = None if ought is None else ought.value
        if path == "tiles.gap_preferred_mm" and isinstance(value, int | float):
            value = min(max(value, tiles.gap_least_mm), tiles.gap_most_mm)
        told = at(plan, path)
        if value is not None and not same_value(value, told):
            yield fault(path, f"the plan tells {told}, its source gives {value}", RULED)


def heights_as_measured(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each pad that is not told as high as the base lies low below it."""
    tiles, brief = tiles_of(plan), need(witness.brief, "brief as witness")
    points = levels_on_line(brief.levels.points, outline_of(plan))
    least, _ = need(room_under_the_frame(plan), "levels of the base")
    lies = need(terrain_within(points, outline_of(plan)), "levels of the base")
    pads = tiles.pads.pads
    levels = level_at(points, tuple(place(pad.at) for pad in pads), lies)
    for index, (pad, level) in enumerate(zip(pads, levels, strict=True)):
        told, wanted = ticks(pad.height_mm or 0.0), least + lies.most - level
        if abs(told - wanted) > SLACK:
            path = f"tiles.pads.pads[{index}].height_mm"
            message = "not what lies between base and tiles there"
            yield from same_length(path, message, pad.height_mm or 0.0, wanted, SOLD)


def tiles_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless article, pads and run are the brief's, the tile as it is sold."""
    tiles, brief = tiles_of(plan), need(witness.brief, "brief as witness")
    for path, found, wanted in (
        ("tiles.article", tiles.article, brief.board.article),
        ("tiles.support", tiles.support, brief.board.support or ""),
        ("tiles.pads.article", tiles.pads.article, brief.groundwork.packer or ""),
    ):
        yield from same_text(path, "not the brief's", found, wanted, SOLD)
    if tiles.angle_deg != _angle(brief):
        yield Flaw(subject="tiles.angle_deg", message="not the brief's", measured=tiles.angle_deg,
                   limit=_angle(brief), unit="deg", source=SOLD)  # fmt: skip
    if tiles.cut and not brief.rows.may_rip:
        yield fault("tiles.cut", "tiles are cut, and the brief allows no cutting", SOLD)
    if brief.site.roof:
        yield fault("site", "on a roof, which stops every plan", SOLD)


def _angle(brief: Brief) -> float:
    wished = brief.laying.angle_deg
    return wished if wished is not None else {"along": 0.0}.get(brief.board.run, 90.0)


def tiles_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the tile has its article's sizes and mass, the pad its reach."""
    tiles, stock = tiles_of(plan), need(witness.stock, "stock as witness")
    tile = need(next((t for t in stock.tiles if t.code == tiles.article), None), "tile in stock")
    pad = next((p for p in stock.packers if p.code == tiles.pads.article), None)
    packer: Any = need(pad, "pad in stock")
    for path, found, sold in (
        ("tiles.tile_length_mm", tiles.tile_length_mm, tile.length_mm),
        ("tiles.tile_width_mm", tiles.tile_width_mm, tile.width_mm),
        ("tiles.thickness_mm", tiles.thickness_mm, tile.thickness_mm),
        ("tiles.pads.reach_least_mm", tiles.pads.reach_least_mm, packer.least_mm),
        ("tiles.pads.reach_most_mm", tiles.pads.reach_most_mm, packer.most_mm),
    ):
        yield from same_length(path, "not as sold", found, ticks(sold), SOLD)
    if tile.mass_kg is not None and tiles.tile_mass_kg != tile.mass_kg:
        yield Flaw(subject="tiles.tile_mass_kg", message="not as sold", limit=tile.mass_kg,
                   measured=tiles.tile_mass_kg, unit="kg", source=SOLD)  # fmt: skip


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W76", "tiles on an outline are those the brief wishes", tiles_as_wished),
    ("AUD-W77", "tiles on an outline and their pads are as sold", tiles_as_sold),
    ("AUD-W78", "limits of tiles on an outline are those of their sources", limits_as_ruled),
    ("AUD-W79", "pads on an outline are as high as the base lies low", heights_as_measured),
)
