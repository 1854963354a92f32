"""Tiles on pads over an outline, built through: set out, sawn, borne, bought."""

from collections import Counter
from typing import Any

from attrs import evolve, frozen

from drylay.buying.model import Buying
from drylay.findings import Finding
from drylay.groundwork.model import Groundwork
from drylay.groundwork.packing import clearance, sunk_mm
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Tile
from drylay.outline.model import Outline
from drylay.planner import ground, lorry, siting, slip_notes
from drylay.planner.angles import angle_of
from drylay.planner.buy import Blocked, in_boxes
from drylay.planner.cuts import Cutter
from drylay.planner.ground import Beneath
from drylay.planner.job import Job
from drylay.planner.outlined_ground import lay_ground
from drylay.planner.outlined_site import site_of
from drylay.planner.outlined_tile_grid import TilesSetOut, face_m2, joints_m2, set_tiles_out
from drylay.planner.outlined_work import base_side, set_out
from drylay.planner.shopping import buying
from drylay.planner.tile_build import PADS
from drylay.planner.tile_work import cautions_told, makes_silica
from drylay.site.model import Site
from drylay.tiling.load import dead_load_kn_m2, mass_per_m2
from drylay.tiling.outline_model import LaidTile, OutlinePad, OutlinePads, OutlineTiles
from drylay.tiling.outlined_pads import SHARED_MM, PadPlace, pads_under
from drylay.tiling.outlined_sawing import Box, BoxSawing, box_of, saw_boxes
from drylay.tiling.pads import BASE_FALL_RATIO, PadRules, base_fall
from drylay.work.drafts import OutlinedTiles
from drylay.work.model import Work
from drylay.work.outlined_tile_order import order_outlined_tiles


@frozen(kw_only=True)
class BuiltOutlinedTiles:
    """Tiles over an outline, built through; `laid` is how they are set out, beside others.

    `stops` are those of the ground.
    """

    outline: Outline
    tiles: OutlineTiles
    laid: TilesSetOut
    site: Site
    buying: Buying
    groundwork: Groundwork | None
    work: Work | None = None
    stops: tuple[Finding, ...] = ()


def build_outlined_tiles(cutter: Cutter) -> BuiltOutlinedTiles | Blocked:
    """Return the deck built through, or every stop that keeps it from being built."""
    job, laid = cutter.job, set_tiles_out(cutter.job)
    if isinstance(laid, Blocked):
        return laid
    site = site_of(job, laid.outline)
    found = lay_ground(cutter, laid.outline, None, site)
    stops = found.findings if isinstance(found, Blocked) else ()
    beneath = Beneath(groundwork=None) if isinstance(found, Blocked) else found
    tiles = _tiles(job, laid, _pads(job, laid, site, beneath.groundwork))
    tile, pad = job.articles.tile, job.articles.packer
    assert tile is not None
    assert pad is not None
    wanted = (
        in_boxes("tiles", tile, tiles.need),
        in_boxes("pads", pad, tiles.pads.count),
        *ground.wanted(job, beneath.groundwork),
    )
    bought, _ = buying(job, beneath.purchases, wanted)
    built = BuiltOutlinedTiles(
        outline=laid.outline,
        tiles=tiles,
        laid=laid,
        site=site,
        buying=evolve(bought, delivery=lorry.delivery(job, bought)),
        groundwork=beneath.groundwork,
        stops=stops,
    )
    return evolve(built, work=_work(job, built))


def _tiles(job: Job, laid: TilesSetOut, pads: OutlinePads) -> OutlineTiles:
    tile, chosen = job.articles.tile, laid.chosen
    assert tile is not None
    sawing, whole = _sawing(job, laid), sum(not each.cut for each in laid.tiles)
    return OutlineTiles(
        support=job.brief.board.support or "",
        article=tile.code,
        tile_length_mm=tile.length_mm,
        tile_width_mm=tile.width_mm,
        thickness_mm=tile.thickness_mm,
        angle_deg=angle_of(job.brief),
        joint_mm=to_mm(chosen.grid.joint),
        along_way=chosen.along_way or "set_out",
        across_way=chosen.across_way or "set_out",
        **_ruled(job),
        **_begun(laid),
        narrowest_mm=min(each.narrow_mm for each in laid.tiles),
        sliver_count=chosen.slivers,
        tile_count=len(laid.tiles),
        whole=whole,
        cut=len(laid.tiles) - whole,
        shaped_count=sum(each.shaped for each in laid.tiles),
        face_m2=face_m2(laid),
        joint_m2=joints_m2(laid),
        need=whole + len(sawing.sawn),
        least=whole + sawing.least,
        **_weighed(job, tile),
        tiles=laid.tiles,
        sawn=sawing.sawn,
        pads=pads,
    )


def _ruled(job: Job) -> dict[str, Any]:
    """Return the fields of tiles that hold a rule."""
    rules = job.rules
    return {
        "gap_least_mm": rules.value("surface.gap_least_mm"),
        "gap_preferred_mm": rules.value("surface.gap_preferred_mm"),
        "gap_most_mm": rules.value("surface.gap_most_mm"),
        "fall_least_ratio": rules.value("surface.fall_least_ratio"),
        "combustible": bool(rules.value("surface.combustible")),
        "timber": bool(rules.value("surface.timber")),
        "wet_slip_least": slip_notes.least(job),
        "sliver_limit_mm": rules.value("surface.sliver_limit_mm"),
        "least_rip_mm": rules.value("surface.least_rip_mm"),
        "least_cut_mm": rules.value("tiling.least_cut_mm"),
        "density_kg_m3": rules.value("tiling.density_kg_m3"),
    }


def _begun(laid: TilesSetOut) -> dict[str, Any]:
    """Return the fields that tell where the grid begins, and how far it reaches."""
    parts, grid = laid.chosen.parts, laid.chosen.grid
    columns, rows = [part.column for part in parts], [part.row for part in parts]
    first = grid.place(min(columns), min(rows))
    return {
        "first_column_mm": first[0],
        "first_row_mm": first[1],
        "column_count": max(columns) - min(columns) + 1,
        "row_count": max(rows) - min(rows) + 1,
    }


def _weighed(job: Job, tile: Tile) -> dict[str, Any]:
    """Return the fields that tell what tiles weigh."""
    kg = lorry.tile_kg(job)
    mass = mass_per_m2(kg, tile.length_mm, tile.width_mm)
    return {
        "tile_mass_kg": float(kg),
        "mass_kg_m2": mass,
        "dead_load_kn_m2": dead_load_kn_m2(mass),
    }


def _sawing(job: Job, laid: TilesSetOut) -> BoxSawing:
    grid = laid.chosen.grid
    size = (grid.length, grid.width)
    boxes = [_box(each, size) for each in laid.tiles if each.cut]
    return saw_boxes(boxes, tile=size, kerf=exact(job.brief.cutting.kerf_mm))


def _box(tile: LaidTile, size: tuple[int, int]) -> Box:
    return box_of(tile.mark, tile.length_mm, tile.width_mm, size)


def _pads(job: Job, laid: TilesSetOut, site: Site, under: Groundwork | None) -> OutlinePads:
    pad, rules = job.articles.packer, job.rules
    assert pad is not None
    asked = PadRules(
        at_edges_most_mm=rules.value(f"{PADS}.at_edges_most_mm"),
        at_centre=rules.count(f"{PADS}.at_centre"),
    )
    places = pads_under(laid.area, laid.chosen.parts, asked)
    bed_mm = sunk_mm(under.dig, under.gravel) if under else 0.0
    room = clearance(site.levels, bed_mm)
    to_house_mm = site.levels.fall_to_house_mm if site.levels else None
    falls = base_fall(to_house_mm, _depth_mm(laid.outline))
    kinds = Counter(place.kind for place in places)
    return OutlinePads(
        article=pad.code,
        reach_least_mm=pad.least_mm,
        reach_most_mm=pad.most_mm,
        levels_known=room is not None,
        height_least_mm=room.least_mm if room else pad.least_mm,
        height_most_mm=room.most_mm if room else pad.least_mm,
        at_edges_most_mm=asked.at_edges_most_mm,
        at_centre=asked.at_centre,
        shared_mm=SHARED_MM,
        base_fall_ratio=BASE_FALL_RATIO,
        base_fall_mm=falls.fall_mm if falls else None,
        base_measured_ratio=falls.ratio if falls else None,
        corners=kinds["corner"],
        edges=kinds["edge"],
        centres=kinds["centre"],
        count=len(places),
        pads=_standing(job, laid, places, site, bed_mm),
    )


def _depth_mm(outline: Outline) -> float:
    """Return how far an outline reaches away from the house."""
    across = [exact(side.start.across_mm) for side in outline.sides]
    return to_mm(max(across) - min(across))


def _standing(
    job: Job, laid: TilesSetOut, places: tuple[PadPlace, ...], site: Site, bed_mm: float
) -> tuple[OutlinePad, ...]:
    """Return pads as nouns, each with its height where levels are known."""
    spots = [laid.turn.spot(place.at) for place in places]
    told = tuple((spot.along_mm, spot.across_mm) for spot in spots)
    heights = siting.heights_mm(job, told, site.levels, bed_mm)
    return tuple(
        OutlinePad(kind=place.kind, at=spot, height_mm=height)
        for place, spot, height in zip(places, spots, heights, strict=True)
    )


def _work(job: Job, built: BuiltOutlinedTiles) -> Work:
    """Return how the deck is built."""
    silica = makes_silica(job)
    deck = OutlinedTiles(
        outline=built.outline,
        tiles=built.tiles,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        setting_out=set_out(job, built.outline),
        base_side=base_side(built.outline).mark,
        dusty=silica,
    )
    told = cautions_told(job.cautions, silica=silica and built.tiles.cut > 0, framed=False)
    work = order_outlined_tiles(deck, people=job.brief.crew.people, of_family=told)
    return evolve(work, upkeep=job.upkeep, upkeep_count=len(job.upkeep) or None)
