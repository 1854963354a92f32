"""The reasons of a deck of tiles: every decision with its rule, source and inputs."""

from drylay.planner import coats, ground, holding, siting, standing_rows, tile_work
from drylay.planner.explain import (
    RESTATED,
    buying_rows,
    coach_screw_rows,
    edge_rows,
    frame_rows,
    governed_paths,
    turned_way,
)
from drylay.planner.job import Job
from drylay.planner.lorry import DENSITY, FRAME_DENSITY
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.planner.tile_built import BuiltTiles, TiledFrame
from drylay.reasons import Reasons, Source, TurnedDown, adopt
from drylay.tiling.model import OtherLay, Pads, Tiling

ASSUMED = Source(kind="assumption", title="docs/conventions.md", clause="Tiles (tiling)")


def explain_tiles(job: Job, built: BuiltTiles) -> Reasons:
    """Return all decisions of a deck of tiles."""
    reasons = Reasons()
    for path in governed_paths(job, built):
        if path not in RESTATED:
            ruling = job.rules.rulings[path]
            reasons = adopt(reasons, path, ruling.value, ruling)
    for path, value, ruling, turned_down in (
        *_surface(job, built),
        *_tiling(job, built.tiling),
        *(_on_pads(job, built, built.tiling.pads) if built.tiling.pads else ()),
        *(_on_a_frame(job, built, built.framed) if built.framed else ()),
        *siting.rows(job, built),
        *ground.rows(job, built),
        *tile_work.rows(job, built),
        *standing_rows.rows(job, built.stood),
        *buying_rows(job, built),
        *_no_joints(job, built),
    ):
        reasons = adopt(reasons, path, value, ruling, turned_down)
    return reasons


def _no_joints(job: Job, built: BuiltTiles) -> list[Row]:
    """Return what a joint of boards costs, where lengths are bought: there are none."""
    if not built.buying.purchases:
        return []
    return [
        row("pieces.joint_price", "0", job.stock.currency, "no boards, so none is jointed",
            ARITHMETIC)
    ]  # fmt: skip


def _surface(job: Job, built: BuiltTiles) -> list[Row]:
    surface, tiling = built.surface, built.tiling
    along, code = surface.run == "along", surface.board_article
    keys = ("cover.along_mm", "cover.across_mm") if along else ("cover.across_mm", "cover.along_mm")
    sold = merchant_says(job, code)
    return [
        row("surface.row_length_mm", surface.row_length_mm, "mm",
            "the wished cover along the rows, changed as the way out along them asks",
            brief_says(keys[0]), (("along_rows_mm", surface.row_length_mm
                                   - tiling.cover_change_mm),)),
        row("surface.rows_depth_mm", surface.rows_depth_mm, "mm",
            "the wished cover across the rows, changed as the way out asks", brief_says(keys[1]),
            (("wished_mm", surface.rows_depth_mm - surface.cover_change_mm),
             ("cover_change_mm", surface.cover_change_mm))),
        row("surface.board_width_mm", surface.board_width_mm, "mm",
            "the tile's shorter side as sold, across the rows", sold),
        row("surface.board_thickness_mm", surface.board_thickness_mm, "mm",
            "true thickness as sold", sold),
        row("surface.way_out", surface.way_out, "",
            "first honest way out across the rows, in the order "
            + ", ".join(job.brief.rows.prefer), brief_says("rows.prefer"),
            (("whole_rows", surface.whole_rows), ("remainder_mm", surface.remainder_mm),
             ("strip_mm", surface.strip_mm)),
            [turned_way(way) for way in surface.ways_out if not way.chosen]),
    ]  # fmt: skip


def _tiling(job: Job, tiling: Tiling) -> list[Row]:
    tile = job.articles.tile
    assert tile is not None
    sold = merchant_says(job, tile.code)
    weighed = tile.mass_kg is not None
    return [
        row("tiling.run", tiling.run, "", "which way the tiles' longer side runs",
            brief_says("board.run"), (),
            [_turned(tiling.other)] if tiling.other else []),
        row("tiling.tile_length_mm", tiling.tile_length_mm, "mm",
            "the tile's longer side as sold, along the rows", sold),
        row("tiling.way_out", tiling.way_out, "",
            "first honest way out along the rows, in the order "
            + ", ".join(job.brief.rows.prefer), brief_says("rows.prefer"),
            (("whole_columns", tiling.whole_columns), ("remainder_mm", tiling.remainder_mm),
             ("strip_mm", tiling.strip_mm)),
            [turned_way(way) for way in tiling.ways_out if not way.chosen]),
        row("tiling.need", tiling.need, "count",
            "whole tiles, and the fewest that the cut ones come out of", ARITHMETIC,
            (("whole", tiling.whole), ("cut", tiling.cut), ("along_each", tiling.along_each),
             ("across_each", tiling.across_each), ("least", tiling.least))),
        row("tiling.tile_mass_kg", tiling.tile_mass_kg, "kg",
            "one tile as sold" if weighed else "one tile, by its volume and density",
            sold if weighed else ARITHMETIC,
            (("density_kg_m3", tiling.density_kg_m3), ("mass_kg_m2", tiling.mass_kg_m2))),
    ]  # fmt: skip


def _turned(other: OtherLay) -> TurnedDown:
    ways = f"rows {other.rows_way}, columns {other.columns_way}" if other.rows_way else "no way out"
    because = other.note or f"would cost {other.cost}"
    return TurnedDown(value=f"{other.run}: {ways}, {other.cut} cut tiles", because=because)


def _on_pads(job: Job, built: BuiltTiles, pads: Pads) -> list[Row]:
    at, record, edges = "tiling.pads", merchant_says(job, pads.article), built.edges
    known = pads.levels_known
    source = ARITHMETIC if known else ASSUMED
    unknown = "no levels: pads counted at their least height"
    least, most = (
        f"{end} between base and tiles" if known else unknown for end in ("least", "most")
    )
    whole = "pads stand under the tiles: nothing comes off the cover"
    return [
        row(f"{at}.reach_least_mm", pads.reach_least_mm, "mm", "the pad's least height as sold",
            record),
        row(f"{at}.reach_most_mm", pads.reach_most_mm, "mm", "the pad's most height as sold",
            record),
        row(f"{at}.height_least_mm", pads.height_least_mm, "mm", least, source),
        row(f"{at}.height_most_mm", pads.height_most_mm, "mm", most, source),
        row(f"{at}.base_fall_ratio", pads.base_fall_ratio, "ratio",
            "slab or membrane falls below tiles, which may lie level", PRACTICE),
        *([row(f"{at}.base_measured_ratio", pads.base_measured_ratio, "ratio",
               "the base's fall from the house edge to the front, by its levels, at the flatter "
               "end", ARITHMETIC, (("base_fall_mm", pads.base_fall_mm),
                                   ("cover_across_mm", built.surface.cover_across_mm)))]
          if pads.base_measured_ratio is not None else []),
        row(f"{at}.count", pads.count, "count", "one under every corner of the grid, more under "
            "long edges and tiles' middles", PRACTICE,
            (("corners", pads.corners), ("edges", pads.edges), ("centres", pads.centres))),
        row("edges.fascia_thickness_mm", edges.fascia_thickness_mm, "mm", "no fascia on pads",
            PRACTICE),
        row("edges.frame_length_mm", edges.frame_length_mm, "mm", whole, ARITHMETIC,
            (("row_length_mm", built.surface.row_length_mm),)),
        row("edges.frame_depth_mm", edges.frame_depth_mm, "mm", whole, ARITHMETIC,
            (("rows_depth_mm", built.surface.rows_depth_mm),)),
    ]  # fmt: skip


def _on_a_frame(job: Job, built: BuiltTiles, framed: TiledFrame) -> list[Row]:
    bedding, supports = built.tiling.bedding, framed.supports
    assert bedding is not None
    brought = built.buying.delivery
    lines = (("frame_length_mm", built.edges.frame_length_mm),
             ("joist_thickness_mm", supports.joist_thickness_mm),
             ("most_centres_mm", supports.most_centres_mm))  # fmt: skip
    return [
        row("tiling.bedding.bearing_mm", bedding.bearing_mm, "mm",
            "half of what the joist leaves beside the joint", ARITHMETIC,
            (("joist_thickness_mm", supports.joist_thickness_mm),
             ("gap_preferred_mm", built.surface.gap_preferred_mm))),
        row("tiling.bedding.rests", bedding.rests, "count",
            "where joists cross the joints between rows, and the outer edges", ARITHMETIC,
            (("line_count", supports.line_count), ("rows", len(built.surface.rows)))),
        row("supports.joist_thickness_mm", supports.joist_thickness_mm, "mm",
            "true thickness as sold", merchant_says(job, job.articles.timber.code)),
        row("supports.line_count", supports.line_count, "count",
            "a joist under every joint, and the fewest between that keep the bays", PRACTICE,
            lines),
        row("supports.centres_mm", supports.centres_mm, "mm", "the widest bay", ARITHMETIC, lines),
        *edge_rows(framed),
        *frame_rows(framed),
        *coach_screw_rows(job, framed.fixings.coach_screws),
        *holding.rows(job, framed),
        *coats.rows(job, framed),
        *([row(DENSITY, brought.density_kg_m3, "kg/m3", "a fascia as heavy as the frame's timber",
               job.rules.source(FRAME_DENSITY))] if brought else []),
    ]  # fmt: skip
