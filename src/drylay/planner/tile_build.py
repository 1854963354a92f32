"""A grid of tiles built through: laid, sawn, put on a frame or on pads, bought."""

from typing import Any

from attrs import evolve, frozen

from drylay.buying.model import Purchase
from drylay.edges.fascia import lay_out_edges
from drylay.edges.model import Edges
from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.frame.members import diagonal_mm
from drylay.groundwork.packing import clearance, sunk_mm
from drylay.marks import exact, to_mm
from drylay.planner import (
    coats,
    ground,
    holding,
    lorry,
    siting,
    slip_notes,
    standing_feet,
    tile_work,
)
from drylay.planner.build import fascia_reach_mm, no_room
from drylay.planner.built import Wanted
from drylay.planner.buy import (
    Blocked,
    FrameCut,
    Shape,
    cut_fascia,
    cut_frame,
    in_boxes,
)
from drylay.planner.cuts import Cutter
from drylay.planner.ground import Beneath
from drylay.planner.job import Job
from drylay.planner.legs import stood_of
from drylay.planner.screwed import coach_screws
from drylay.planner.screwed import wanted as screws_wanted
from drylay.planner.shopping import buying
from drylay.planner.tile_built import BuiltTiles, TiledFrame
from drylay.planner.tile_grids import Grid
from drylay.planner.tile_stops import joists_too_near, too_many
from drylay.raised.model import RaisedDeck
from drylay.site.model import Site
from drylay.supports.model import Supports
from drylay.supports.tile_lines import TileBays, place_under_tiles
from drylay.surface.model import Surface
from drylay.tiling.grid import cut_tiles, lay_columns, lay_rows
from drylay.tiling.load import dead_load_kn_m2, mass_per_m2
from drylay.tiling.model import Bedding, Pads, Tiling
from drylay.tiling.pads import BASE_FALL_RATIO, PadRules, base_fall, place_pads
from drylay.tiling.sawing import Sawing, saw

PADS = "tiling.pads"


@frozen(kw_only=True)
class Laid:
    """A grid laid on its cover, before anything carries it."""

    surface: Surface
    tiling: Tiling
    edges: Edges


def build_tiles(cutter: Cutter, grid: Grid) -> BuiltTiles | Blocked:
    """Return a grid built through, or every stop that keeps it from being built."""
    stop = too_many(grid)
    if stop is not None:
        return Blocked(findings=(stop,))
    on_pads = grid.job.brief.board.support == "pads"
    built = _on_pads(cutter, grid) if on_pads else _on_a_frame(cutter, grid)
    if isinstance(built, Blocked):
        return built
    return evolve(built, work=tile_work.plan_work(grid.job, built))


def _lay(grid: Grid, edges_mm: float) -> Laid:
    """Return a grid laid out; `edges_mm` is the longest fascia piece to plan with."""
    job, brief = grid.job, grid.job.brief
    surface = _surface(grid)
    fascia = job.articles.fascia
    edges = lay_out_edges(
        run=surface.run,
        row_length_mm=surface.row_length_mm,
        rows_depth_mm=surface.rows_depth_mm,
        sides=brief.fascia.sides,
        article=fascia.code if fascia else "",
        thickness_mm=fascia.thickness_mm if fascia else 0.0,
        depth_mm=fascia.depth_mm if fascia else 0.0,
        longest_mm=edges_mm,
        units=brief.units,
    )
    return Laid(surface=surface, tiling=_tiling(grid, surface), edges=edges)


def _surface(grid: Grid) -> Surface:
    job, way, fit = grid.job, grid.rows, grid.fits.rows
    tile, along_rows = job.articles.board, grid.fits.columns.depth_mm
    depth_mm = to_mm(exact(fit.depth_mm) + exact(way.cover_change_mm))
    length_mm = to_mm(exact(along_rows) + exact(grid.columns.cover_change_mm))
    along, across = (length_mm, depth_mm) if grid.run == "along" else (depth_mm, length_mm)
    return Surface(
        run=grid.run,
        cover_along_mm=along,
        cover_across_mm=across,
        cover_change_mm=way.cover_change_mm,
        row_length_mm=length_mm,
        rows_depth_mm=depth_mm,
        board_article=tile.code,
        board_width_mm=fit.board_mm,
        board_thickness_mm=tile.thickness_mm,
        gap_preferred_mm=fit.gap_preferred_mm,
        gap_least_mm=fit.gap_least_mm,
        gap_most_mm=fit.gap_most_mm,
        fall_least_ratio=job.rules.value("surface.fall_least_ratio"),
        combustible=bool(job.rules.value("surface.combustible")),
        timber=bool(job.rules.value("surface.timber")),
        wet_slip_least=slip_notes.least(job),
        sliver_limit_mm=fit.sliver_limit_mm,
        least_rip_mm=job.rules.value("surface.least_rip_mm"),
        whole_rows=fit.whole_rows,
        remainder_mm=fit.remainder_mm,
        strip_mm=fit.strip_mm,
        way_out=way.kind,
        rows=lay_rows(way, fit.board_mm, fit.gap_preferred_mm),
        ways_out=(),
    )


def _tiling(grid: Grid, surface: Surface) -> Tiling:
    job, fit = grid.job, grid.fits.columns
    columns = lay_columns(grid.columns, fit.board_mm, fit.gap_preferred_mm)
    cut = cut_tiles(surface.rows, columns)
    sawing = saw(
        cut,
        tile_length_mm=fit.board_mm,
        tile_width_mm=surface.board_width_mm,
        kerf_mm=job.brief.cutting.kerf_mm,
    )
    places, kg = len(surface.rows) * len(columns), lorry.tile_kg(job)
    mass = mass_per_m2(kg, fit.board_mm, surface.board_width_mm)
    return Tiling(
        support=job.brief.board.support or "",
        run=grid.run,
        tile_length_mm=fit.board_mm,
        least_cut_mm=job.rules.value("tiling.least_cut_mm"),
        cover_change_mm=grid.columns.cover_change_mm,
        diagonal_mm=diagonal_mm(surface.row_length_mm, surface.rows_depth_mm),
        whole_columns=fit.whole_rows,
        remainder_mm=fit.remainder_mm,
        strip_mm=fit.strip_mm,
        way_out=grid.columns.kind,
        columns=columns,
        ways_out=(),
        other=None,
        places=places,
        whole=places - len(cut),
        cut=len(cut),
        cut_tiles=cut,
        **_sawn(sawing, places - len(cut)),
        density_kg_m3=job.rules.value("tiling.density_kg_m3"),
        tile_mass_kg=float(kg),
        mass_kg_m2=mass,
        dead_load_kn_m2=dead_load_kn_m2(mass),
        bedding=None,
        pads=None,
    )


def _sawn(sawing: Sawing, whole: int) -> dict[str, Any]:
    """Return the fields of a tiling that tell what is sawn, and how many tiles that takes."""
    return {
        "along_each": sawing.along_each,
        "across_each": sawing.across_each,
        "sawn": sawing.sawn,
        "need": whole + len(sawing.sawn),
        "least": whole + sawing.least,
    }


def _tiles_wanted(job: Job, tiling: Tiling) -> tuple[Wanted, ...]:
    """Return the tiles to buy, and the pads where there are any."""
    tile, pad = job.articles.tile, job.articles.packer
    assert tile is not None
    wanted = [in_boxes("tiles", tile, tiling.need)]
    if tiling.pads is not None and pad is not None:
        wanted.append(in_boxes("pads", pad, tiling.pads.count))
    return tuple(wanted)


def _on_pads(cutter: Cutter, grid: Grid) -> BuiltTiles | Blocked:
    job, laid = grid.job, _lay(grid, 0.0)
    site = siting.site_of(job, laid)
    beneath, stops = _beneath(ground.lay_ground(cutter, laid, None, site))
    tiling = evolve(laid.tiling, pads=_pads(job, laid, site, beneath))
    wanted = (*_tiles_wanted(job, tiling), *ground.wanted(job, beneath.groundwork))
    bought, _ = buying(job, beneath.purchases, wanted)
    return BuiltTiles(
        surface=laid.surface,
        tiling=tiling,
        edges=laid.edges,
        site=site,
        buying=evolve(bought, delivery=ground.delivery(job, bought)),
        groundwork=beneath.groundwork,
        stops=stops,
    )


def _beneath(found: Beneath | Blocked) -> tuple[Beneath, tuple[Finding, ...]]:
    """Return what lies under the deck; nothing and the stops where that cannot be had."""
    if isinstance(found, Blocked):
        return Beneath(groundwork=None), found.findings
    return found, ()


def _pads(job: Job, laid: Laid, site: Site, beneath: Beneath) -> Pads:
    pad, under = job.articles.packer, beneath.groundwork
    assert pad is not None
    rules = PadRules(
        at_edges_most_mm=job.rules.value(f"{PADS}.at_edges_most_mm"),
        at_centre=job.rules.count(f"{PADS}.at_centre"),
    )
    placed = place_pads(laid.surface.rows, laid.tiling.columns, rules)
    kinds = [each.kind for each in placed]
    bed_mm = sunk_mm(under.dig, under.gravel) if under else 0.0
    room = clearance(site.levels, bed_mm)
    heights_mm = siting.pad_heights_mm(job, laid.surface, placed, site.levels, bed_mm)
    to_house_mm = site.levels.fall_to_house_mm if site.levels else None
    falls = base_fall(to_house_mm, laid.surface.cover_across_mm)
    return Pads(
        article=pad.code,
        reach_least_mm=pad.least_mm,
        reach_most_mm=pad.most_mm,
        levels_known=room is not None,
        height_least_mm=room.least_mm if room else pad.least_mm,
        height_most_mm=room.most_mm if room else pad.least_mm,
        at_edges_most_mm=rules.at_edges_most_mm,
        at_centre=rules.at_centre,
        base_fall_ratio=BASE_FALL_RATIO,
        base_fall_mm=falls.fall_mm if falls else None,
        base_measured_ratio=falls.ratio if falls else None,
        corners=kinds.count("corner"),
        edges=kinds.count("edge"),
        centres=kinds.count("centre"),
        count=len(placed),
        pads=tuple(evolve(p, height_mm=h) for p, h in zip(placed, heights_mm, strict=True)),
    )


def _on_a_frame(cutter: Cutter, grid: Grid) -> BuiltTiles | Blocked:
    job = grid.job
    carried = _with_fascia(cutter, grid)
    if isinstance(carried, Blocked):
        return carried
    laid, shaped, fascia = carried
    site = siting.site_of(job, laid)
    stood = stood_of(job, shaped, site)
    cut = cut_frame(cutter, shaped, None, stood.legs.framed)
    if isinstance(cut, Blocked):
        return cut
    beneath, stops = _beneath(ground.lay_ground(cutter, laid, cut.frame, site))
    others, unbought = standing_feet.cut_legs(cutter, stood.legs)
    purchases = (cut.purchase, *fascia, *beneath.purchases, *others)
    fixed = _fixed(job, shaped, cut, purchases, stood.raised)
    tiling = evolve(laid.tiling, bedding=_bedding(job, laid, shaped.supports))
    on_frame = _wanted_on_a_frame(job, fixed)
    feet = standing_feet.wanted(job, stood.raised, stood.footings)
    wanted = (*_tiles_wanted(job, tiling), *on_frame, *ground.wanted(job, beneath.groundwork),
              *feet)  # fmt: skip
    bought, _ = buying(job, purchases, wanted)
    framed = TiledFrame(
        surface=laid.surface,
        edges=laid.edges,
        supports=shaped.supports,
        frame=cut.frame,
        fixings=fixed,
        site=site,
        buying=evolve(bought, delivery=ground.delivery(job, bought)),
        groundwork=beneath.groundwork,
        stops=(*stops, *unbought),
        stood=stood,
    )
    return _with_frame(tiling, framed)


def _with_frame(tiling: Tiling, framed: TiledFrame) -> BuiltTiles:
    return BuiltTiles(
        surface=framed.surface,
        tiling=tiling,
        edges=framed.edges,
        site=framed.site,
        buying=framed.buying,
        groundwork=framed.groundwork,
        framed=framed,
        stops=framed.stops,
    )


def _wanted_on_a_frame(job: Job, fixed: Fixings) -> tuple[Wanted, ...]:
    return (
        *screws_wanted(job, fixed),
        *holding.wanted(job, fixed),
        *coats.wanted(job, fixed),
    )


def _with_fascia(
    cutter: Cutter, grid: Grid
) -> tuple[Laid, Shape, tuple[Purchase, ...]] | Blocked:  # fmt: skip
    """Return the grid over its joist lines, its fascia cut in parts that can be had."""
    first: Blocked | None = None
    for reach_mm in fascia_reach_mm(grid.job) or [0.0]:
        laid = _lay(grid, reach_mm)
        supports = lines_under(grid.job, laid, grid.job.rules.value("supports.most_centres_mm"))
        if isinstance(supports, Blocked):
            return supports
        shaped = Shape(surface=laid.surface, edges=laid.edges, supports=supports)
        fascia = cut_fascia(cutter, shaped)
        if not isinstance(fascia, Blocked):
            return laid, shaped, fascia
        first = first or fascia
    assert first is not None
    return first


def lines_under(job: Job, laid: Laid, most_mm: float) -> Supports | Blocked:
    """Return the joist lines under a grid, so far apart at most; blocked where joists lack room."""
    timber, rules, edges = job.articles.timber, job.rules, laid.edges
    stop = no_room(job, edges)
    if stop is not None:
        return Blocked(findings=(stop,))
    module = exact(laid.tiling.tile_length_mm) + exact(laid.surface.gap_preferred_mm)
    supports = place_under_tiles(
        laid.tiling.columns,
        frame_start_mm=edges.frame_start_mm,
        frame_length_mm=edges.frame_length_mm,
        joist_mm=timber.thickness_mm,
        bays=TileBays(
            most_centres_mm=most_mm,
            bays_per_tile=rules.count("tiling.bedding.bays_per_tile"),
            module_mm=to_mm(module),
        ),
        units=job.brief.units,
    )
    near = joists_too_near(supports)
    return Blocked(findings=near) if near else supports


def _fixed(
    job: Job, shaped: Shape, cut: FrameCut, purchases: tuple[Purchase, ...],
    legs: RaisedDeck | None,
) -> Fixings:  # fmt: skip
    bare = Fixings(deck_screws=None, coach_screws=coach_screws(job, shaped))
    return evolve(
        bare,
        **holding.held(job, shaped, cut.frame, bare, None),
        **coats.coated(job, coats.sawn(shaped, None, cut.frame, purchases, legs)),
    )


def _bedding(job: Job, laid: Laid, supports: Supports) -> Bedding:
    """Return how tiles lie on the joists."""
    left = exact(supports.joist_thickness_mm) - exact(laid.surface.gap_preferred_mm)
    return Bedding(
        bays_per_tile=job.rules.count("tiling.bedding.bays_per_tile"),
        bearing_mm=to_mm(left // 2),
        bearing_least_mm=job.rules.value("tiling.bedding.bearing_least_mm"),
        rests=supports.line_count * (len(laid.surface.rows) + 1),
    )
