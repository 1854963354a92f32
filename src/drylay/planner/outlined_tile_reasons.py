"""The reasons of tiles over an outline, in building order."""

from drylay.planner import ground_rows, lorry, outlined_site, outlined_work
from drylay.planner.explain import order_rows
from drylay.planner.job import Job
from drylay.planner.outlined_reasons import outline_rows
from drylay.planner.outlined_tile_build import BuiltOutlinedTiles
from drylay.planner.outlined_tile_grid import TilesSetOut
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.reasons import Reasons, Source, TurnedDown, adopt
from drylay.tiling.outline_model import OutlinePads, OutlineTiles
from drylay.tiling.outlined_grid import SetOut

ASSUMED = Source(
    kind="assumption", title="docs/outline-conventions.md", clause="Tiles on an outline"
)
#: Where these plans have what is ruled under a path of a rectangle's.
LAID_AT = {
    **{
        f"surface.{name}": f"tiles.{name}"
        for name in ("gap_least_mm", "gap_most_mm", "gap_preferred_mm", "sliver_limit_mm",
                     "least_rip_mm", "fall_least_ratio", "combustible", "timber",
                     "wet_slip_least")
    },
    "tiling.least_cut_mm": "tiles.least_cut_mm",
    "tiling.density_kg_m3": "tiles.density_kg_m3",
    "tiling.pads.at_edges_most_mm": "tiles.pads.at_edges_most_mm",
    "tiling.pads.at_centre": "tiles.pads.at_centre",
}  # fmt: skip
#: Paths that they have under the same name.
SAME = ("buying.spare_ratio", "site.")
#: So many set-outs turned down are told.
TOLD = 4


def explain_outlined_tiles(job: Job, built: BuiltOutlinedTiles) -> Reasons:
    """Return all decisions of a built plan."""
    reasons = Reasons()
    for path, ruling in job.rules.rulings.items():
        at = LAID_AT.get(path, path if path.startswith(SAME) else "")
        if at:
            down = job.rules.turned_down.get(path, ())
            reasons = adopt(reasons, at, ruling.value, ruling, down)
    for path, value, ruling, turned_down in (
        *outline_rows(job, built.outline),
        *_grid(job, built.tiles, built.laid),
        *_tiles(job, built.tiles),
        *_pads(job, built.tiles.pads),
        *outlined_site.rows(job, built),
        *order_rows(job, built.buying),
        *ground_rows.rows(job, built),
        *lorry.rows_of(job, built.buying),
        *_work(job, built),
    ):
        reasons = adopt(reasons, path, value, ruling, turned_down)
    return reasons


def _grid(job: Job, tiles: OutlineTiles, laid: TilesSetOut) -> list[Row]:
    wish, order = job.brief.laying, ", ".join(job.brief.rows.prefer)
    said = "laying.angle_deg" if wish.angle_deg is not None else "board.run"
    rule = (
        "of all beginnings at sides in line with the grid: none of these in a joint, fewest "
        f"slivers, on a rectangle the order {order}, fewest cut tiles"
    )
    counts = (("cut", tiles.cut), ("sliver_count", tiles.sliver_count),
              ("joint_mm", tiles.joint_mm))  # fmt: skip
    return [
        row("tiles.angle_deg", tiles.angle_deg, "deg",
            "which way the tiles' longer side runs, from the house", brief_says(said)),
        row("tiles.joint_mm", tiles.joint_mm, "mm",
            "the joint aimed for, or the nearest other one that leaves no sliver", ARITHMETIC,
            (("gap_preferred_mm", tiles.gap_preferred_mm), ("gap_least_mm", tiles.gap_least_mm),
             ("gap_most_mm", tiles.gap_most_mm))),
        row("tiles.first_column_mm", tiles.first_column_mm, "mm", rule, ARITHMETIC, counts,
            [_turned_down(each) for each in laid.others[:TOLD]]),
        row("tiles.first_row_mm", tiles.first_row_mm, "mm", rule, ARITHMETIC, counts),
    ]  # fmt: skip


def _turned_down(other: SetOut) -> TurnedDown:
    told = (
        f"beginning at {other.grid.along / 320:g} along the run, {other.grid.left / 320:g} to its "
        f"left, joints of {other.grid.joint / 320:g}"
    )
    why = f"{other.cut} cut tiles, {other.slivers} of them slivers"
    if other.shut:
        why = f"a hatch does not lift out whole; {why}"
    if other.bad:
        why = f"a side lies in a joint; {why}"
    return TurnedDown(value=told, because=why)


def _tiles(job: Job, tiles: OutlineTiles) -> list[Row]:
    tile = job.articles.tile
    assert tile is not None
    sold, weighed = merchant_says(job, tile.code), tile.mass_kg is not None
    return [
        row("tiles.tile_length_mm", tiles.tile_length_mm, "mm",
            "the tile's longer side as sold, along the run", sold),
        row("tiles.tile_width_mm", tiles.tile_width_mm, "mm",
            "the tile's shorter side as sold, across the run", sold),
        row("tiles.thickness_mm", tiles.thickness_mm, "mm", "true thickness as sold", sold),
        row("tiles.tile_count", tiles.tile_count, "count",
            "what the outline leaves of every place of the grid, less openings", ARITHMETIC,
            (("whole", tiles.whole), ("cut", tiles.cut),
             ("shaped_count", tiles.shaped_count))),
        row("tiles.narrowest_mm", tiles.narrowest_mm, "mm",
            "the least way across any tile, from re-entrant corners too", ARITHMETIC,
            (("sliver_limit_mm", tiles.sliver_limit_mm), ("least_cut_mm", tiles.least_cut_mm))),
        row("tiles.need", tiles.need, "count",
            "whole tiles, and those that boxes about the cut ones are sawn from", ARITHMETIC,
            (("whole", tiles.whole), ("cut", tiles.cut), ("least", tiles.least))),
        row("tiles.tile_mass_kg", tiles.tile_mass_kg, "kg",
            "one tile as sold" if weighed else "one tile, by its volume and density",
            sold if weighed else ARITHMETIC,
            (("density_kg_m3", tiles.density_kg_m3), ("mass_kg_m2", tiles.mass_kg_m2))),
    ]  # fmt: skip


def _pads(job: Job, pads: OutlinePads) -> list[Row]:
    at, record, known = "tiles.pads", merchant_says(job, pads.article), pads.levels_known
    source = ARITHMETIC if known else ASSUMED
    unknown = "no levels: pads counted at their least height"
    least, most = (
        f"{end} between base and tiles" if known else unknown for end in ("least", "most")
    )
    measured = [] if pads.base_measured_ratio is None else [
        row(f"{at}.base_measured_ratio", pads.base_measured_ratio, "ratio",
            "the base's fall away from the house at the flatter end, over the outline's depth",
            ARITHMETIC, (("base_fall_mm", pads.base_fall_mm),))
    ]  # fmt: skip
    return [
        row(f"{at}.reach_least_mm", pads.reach_least_mm, "mm", "the pad's least height as sold",
            record),
        row(f"{at}.reach_most_mm", pads.reach_most_mm, "mm", "the pad's most height as sold",
            record),
        row(f"{at}.height_least_mm", pads.height_least_mm, "mm", least, source),
        row(f"{at}.height_most_mm", pads.height_most_mm, "mm", most, source),
        row(f"{at}.base_fall_ratio", pads.base_fall_ratio, "ratio",
            "slab or membrane falls below tiles, which may lie level", PRACTICE),
        *measured,
        row(f"{at}.shared_mm", pads.shared_mm, "mm",
            "corners of tiles so near one another stand on one pad", ASSUMED),
        row(f"{at}.count", pads.count, "count", "under every corner of a tile, shared where they "
            "meet, more under long sides and tiles' middles", PRACTICE,
            (("corners", pads.corners), ("edges", pads.edges), ("centres", pads.centres))),
    ]  # fmt: skip


def _work(job: Job, built: BuiltOutlinedTiles) -> list[Row]:
    work = built.work
    assert work is not None
    faces = row("work.face_up", work.face_up, "", "tiles have one face to walk on", PRACTICE)
    others = outlined_work.rows(job, built.outline, work)
    return [faces, *(each for each in others if each[0] != "work.face_up")]
