"""What is to be said of a deck of tiles: notes, cautions and stops."""

from collections.abc import Iterator

from drylay.buying.model import Delivery
from drylay.findings import Finding, Severity
from drylay.groundwork.packing import clearance, sunk_mm
from drylay.marks import exact, to_mm
from drylay.planner import (
    board_notes,
    coats,
    fascia_notes,
    ground,
    holding,
    siting,
    slip_notes,
    stock_notes,
    tile_work,
    unwise,
    working,
)
from drylay.planner.job import Job
from drylay.planner.lorry import HSE
from drylay.planner.notes import frame_faults, gaps_to_bound
from drylay.planner.rows import ARITHMETIC, PRACTICE, merchant_says
from drylay.planner.tile_built import BuiltTiles, TiledFrame
from drylay.planner.tile_sag import sag_told
from drylay.planner.tile_stops import ASSUMED, SPLICE_LEAST_MM
from drylay.planner.tile_trifles import trifles
from drylay.reasons import Source
from drylay.tiling.model import Pads, Tiling
from drylay.tiling.outline_model import OutlinePads, OutlineTiles
from drylay.units import fall_text, length_at_least, length_at_most, length_text

STOP, CAUTION, NOTE = Severity.STOP, Severity.CAUTION, Severity.NOTE
#: Tiles that lie higher than this over what is below are to be held together when they break.
RAISED_MM = 100.0
SILICA = Source(kind="standard", title="EH40", clause="respirable crystalline silica")
BACKING = Source(kind="common practice", title="paver suppliers' general text")


def tile_remarks(job: Job, built: BuiltTiles) -> tuple[Finding, ...]:
    """Return everything worth telling about a deck of tiles, worst first."""
    pads, framed = built.tiling.pads, built.framed
    found = [
        *built.stops,
        *built.stood.findings,
        *roof(job),
        *(of_pads(job, pads) if pads else ()),
        *(_of_the_frame(job, built, framed) if framed else ()),
        *of_tiles(
            job,
            built.tiling,
            built.buying.delivery,
            _uncut(job, built),
            screened=built.stood.strength is not None,
        ),
        *trifles(job, built),
        *gaps_to_bound(built),
        *board_notes.fall(job, built.surface, "tiles"),
        *slip_notes.remarks(job, built, "tiles"),
        *siting.remarks(job, built),
        *unwise.remarks(job),
        *_of_the_ground(built),
        *stock_notes.remarks(job, built),
        *working.lift_told(job, built),
    ]
    order = (STOP, CAUTION, NOTE)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))


def _of_the_ground(built: BuiltTiles) -> Iterator[Finding]:
    """Yield what is told of ground and delivery, but not that a tile takes two: TIL-011 does."""
    brought, code = built.buying.delivery, built.surface.board_article
    by_tile = brought is not None and brought.lift_article == code
    yield from (f for f in ground.remarks(built) if not (by_tile and f.code == "BUY-004"))


def tile_stops(job: Job, built: BuiltTiles) -> tuple[Finding, ...]:
    """Return what stops a deck of tiles although it could be laid and bought."""
    return tuple(found for found in tile_remarks(job, built) if found.severity is STOP)


def _told(  # noqa: PLR0917 - read as the row of a table
    code: str,
    severity: Severity,
    subject: str,
    message: str,
    measured: float | None = None,
    unit: str = "",
    source: Source = PRACTICE,
    limit: float | None = None,
) -> Finding:
    return Finding(code=code, severity=severity, subject=subject, message=message,
                   measured=measured, limit=limit, unit=unit, source=source)  # fmt: skip


def roof(job: Job) -> Iterator[Finding]:
    """Yield the stop for tiles on a roof."""
    if job.brief.site.roof:
        yield _told("TIL-004", STOP, "roof", "on a roof wind lifts tiles at its edge and pads "
                    "press on what keeps the rain out: wind, load and waterproofing are an "
                    "engineer's, and not planned here")  # fmt: skip


def of_pads(job: Job, pads: Pads | OutlinePads) -> Iterator[Finding]:
    """Yield what is told of pads wherever they stand."""
    yield from _out_of_reach(job, pads)
    if not pads.levels_known:
        yield _told("TIL-007", CAUTION, "pads", "without levels nobody knows how high they stand: "
                    "counted at their least height; give the levels of deck and base",
                    pads.height_least_mm, "mm", ASSUMED)  # fmt: skip
    if not job.brief.site.roof:
        yield _told(
            "TIL-017",
            CAUTION,
            "pads",
            "for a slab or a prepared base on the ground: on "
            "a roof or balcony wind uplift, load and waterproofing are an engineer's",
        )
    yield _told("TIL-019", NOTE, "base", "water runs below the tiles: slab or membrane is to fall "
                f"away from the house by {fall_text(pads.base_fall_ratio)}", pads.base_fall_ratio,
                "ratio", PRACTICE)  # fmt: skip
    yield from _too_flat(job, pads)
    if pads.levels_known and pads.height_most_mm > RAISED_MM and not tile_work.of_wood(job):
        yield _raised(pads.height_most_mm)


def _too_flat(job: Job, pads: Pads | OutlinePads) -> Iterator[Finding]:
    """Yield that the base falls less, by its levels, than it is to."""
    ratio, falls_mm, units = pads.base_measured_ratio, pads.base_fall_mm, job.brief.units
    if ratio is None or falls_mm is None or ratio >= pads.base_fall_ratio:
        return
    told = f"only {length_at_most(falls_mm, units)}, {fall_text(ratio)}"
    if falls_mm == 0:
        told = "not at all"
    elif falls_mm < 0:
        told = f"the wrong way, {length_at_least(-falls_mm, units)} towards it"
    yield _told("TIL-021", CAUTION, "base", "by its levels, at the flatter end, the base falls "
                f"away from the house {told}; {fall_text(pads.base_fall_ratio)} is wanted: measure "
                "again, and screed it to falls or drain it before tiles hide it", ratio, "ratio",
                PRACTICE, pads.base_fall_ratio)  # fmt: skip


def _out_of_reach(job: Job, pads: Pads | OutlinePads) -> Iterator[Finding]:
    """Yield the stop for pads that do not fill the room between base and tiles."""
    least, most = pads.height_least_mm, pads.height_most_mm
    fix = f"name pads that reach from {least:g} to {most:g} mm"
    record = merchant_says(job, pads.article)
    if least < 0:
        return  # the tiles would lie in the ground, which is said already
    if most > pads.reach_most_mm:
        yield _told("TIL-005", STOP, "pads", f"too low for where the base is lowest: {fix}",
                    most, "mm", record, pads.reach_most_mm)  # fmt: skip
    if least < pads.reach_least_mm:
        yield _told("TIL-005", STOP, "pads", f"too high for where the base is highest: {fix}",
                    least, "mm", record, pads.reach_least_mm)  # fmt: skip


def _raised(height_mm: float, *, summed: bool = False) -> Finding:
    """Return the caution on tiles high up; a sum of the plan's figures is told in its words."""
    so_high = f", up to {height_mm:g}," if summed else ""
    return _told("TIL-015", CAUTION, "tiles", f"they lie more than {RAISED_MM:g} mm{so_high} over "
                 "what is below: take tiles with a mesh or tray on their back, lest somebody "
                 "breaks through", None if summed else height_mm, "" if summed else "mm",
                 BACKING)  # fmt: skip


def _of_the_frame(job: Job, built: BuiltTiles, framed: TiledFrame) -> Iterator[Finding]:
    bedding = built.tiling.bedding
    assert bedding is not None
    yield from frame_faults(job, framed)
    yield from _splices(framed)
    if bedding.bearing_mm < bedding.bearing_least_mm:
        yield _told("TIL-016", CAUTION, "joints", "tiles bear on little of the joist: name thicker "
                    "joists, or a batten on each joist's side under a joint", bedding.bearing_mm,
                    "mm", job.rules.source("tiling.bedding.bearing_least_mm"),
                    bedding.bearing_least_mm)  # fmt: skip
    yield from _brittle(job, framed)
    yield _told(
        "TIL-020",
        NOTE,
        "tiles",
        "thin pads or dabs of adhesive under every rest are not in the order",
        float(bedding.rests),
        "rests",
        ARITHMETIC,
    )
    if framed.stood.guards is not None and framed.stood.guards.built:
        yield _told("TIL-023", CAUTION, "guard posts", "they are told along the cover's edge: hold "
                    "them clear of the tiles, or cut tiles round each; such cuts are not in the "
                    "list of cut tiles")  # fmt: skip
    yield from fascia_notes.remarks(framed)
    yield from holding.remarks(job, framed)
    yield from coats.remarks(job, framed)


def _brittle(job: Job, framed: TiledFrame) -> Iterator[Finding]:
    """Yield what a frame is to do for tiles that break; timber squares do not."""
    if tile_work.of_wood(job):
        return
    yield sag_told(framed.stood.strength)
    height_mm = _over_the_bed_mm(framed)
    if height_mm > RAISED_MM:
        yield _raised(height_mm, summed=height_mm != framed.frame.timber_depth_mm)


def _over_the_bed_mm(framed: TiledFrame) -> float:
    """Return how high tiles lie over the bed at most: the timber, and what is known to be below."""
    ground = framed.groundwork
    room = clearance(framed.site.levels, sunk_mm(ground.dig, ground.gravel) if ground else 0.0)
    packing = ground.packing if ground else None
    below_mm = room.most_mm if room else packing.height_most_mm if packing else 0.0
    return to_mm(exact(framed.frame.timber_depth_mm) + exact(max(0.0, below_mm)))


def _splices(framed: TiledFrame) -> Iterator[Finding]:
    """Yield the stop for splices as short as a narrow bay under cut tiles leaves them."""
    shortest = min((splice.length_mm for splice in framed.frame.splices), default=SPLICE_LEAST_MM)
    if shortest < SPLICE_LEAST_MM:
        yield _told("TIL-003", STOP, "splices", "the narrowest bay leaves too short a plate behind "
                    "a rim's joint: name timber sold longer, so that rims need none",
                    shortest, "mm", ASSUMED, SPLICE_LEAST_MM)  # fmt: skip


def _uncut(job: Job, built: BuiltTiles) -> str:
    """Return the nearest cover that takes whole tiles alone, so that nothing is cut."""
    surface, tiling, units = built.surface, built.tiling, job.brief.units
    long = _whole_mm(surface.row_length_mm, tiling.tile_length_mm, surface.gap_preferred_mm)
    deep = _whole_mm(surface.rows_depth_mm, surface.board_width_mm, surface.gap_preferred_mm)
    along, across = (long, deep) if surface.run == "along" else (deep, long)
    told = f"{length_text(along, units)} along the house by {length_text(across, units)}"
    return f"a cover of {told} takes whole tiles alone"


def _whole_mm(depth_mm: float, side_mm: float, joint_mm: float) -> float:
    """Return the size nearest to a cover's that whole tiles fill."""
    side, joint, depth = exact(side_mm), exact(joint_mm), exact(depth_mm)
    count = max(1, (depth + joint) // (side + joint))
    fills = [n * (side + joint) - joint for n in (count, count + 1)]
    return to_mm(min(fills, key=lambda size: abs(size - depth)))


def of_tiles(
    job: Job, tiling: Tiling | OutlineTiles, brought: Delivery | None, uncut: str,
    *, screened: bool = False,
) -> Iterator[Finding]:  # fmt: skip
    """Yield what is told of tiles wherever they lie; `uncut` is how to do without a cut.

    `screened`: whether what carries them was screened with their load.
    """
    if tile_work.of_wood(job):
        yield _told(
            "TIL-018",
            CAUTION,
            "timber squares",
            "they last on an open base that drains, never on soil, nor where water stands",
            source=Source(kind="from memory", title="timber squares"),
        )
    if tiling.cut and tile_work.makes_silica(job):
        yield _told("TIL-010", CAUTION, "cut tiles", "cutting them makes crystalline silica, limit "
                    "0.1 mg/m3 over 8 hours, which one dry cut can pass: water or M-class "
                    f"extraction, and a P3 mask; {uncut}",
                    float(tiling.cut), "cut tiles", SILICA)  # fmt: skip
    if brought is not None and tiling.tile_mass_kg > brought.lift_most_kg:
        yield _told("TIL-011", CAUTION, "tiles", "two people to lift each", tiling.tile_mass_kg,
                    "kg", HSE, brought.lift_most_kg)  # fmt: skip
    yield _told(
        "TIL-012",
        CAUTION,
        "edges",
        "every outer tile is to be held all round, by a trim, "
        "an upstand or a wall: a loose tile walks or tips; that is not in the order",
    )
    reckoned = "is in what their frame is screened with" if screened else (
        "is to be reckoned into whatever carries them; strength is not checked here"
    )  # fmt: skip
    yield _told("TIL-013", NOTE, "tiles", f"their own load, {tiling.mass_kg_m2:g} kg on each m2, "
                f"{reckoned}",
                tiling.dead_load_kn_m2, "kN/m2", ARITHMETIC)  # fmt: skip
