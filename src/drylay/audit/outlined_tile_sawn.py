"""Tiles on an outline: sawn out of whole ones, and how few these could be; weighed; cautioned."""

from collections import Counter
from collections.abc import Callable, Iterator
from math import ceil, floor

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import need, off_by, same_count, same_length, same_text
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import LONG_OFF, cover, fault, outlines
from drylay.audit.outlined_tiles import tiles_of
from drylay.audit.plane import box
from drylay.audit.tiles import GRAVITY, LIFT_MOST_KG, MINERAL_KG_M3, MOST_TILES
from drylay.audit.wanted import buying_of
from drylay.plan.model import Plan
from drylay.tiling.outline_model import LaidTile, OutlineTiles

SAWING = outlines("Tiles on an outline: sawing")
TOLD = outlines("Tiles on an outline: what is told of tiles")
HOURS = outlines("Tiles on an outline: hours")


def _ties(plan: Plan) -> int:
    return len(need(plan.work, "work").setting_out.ties)


#: Tasks on the ground, which any deck may have.
GROUND_TASKS = {"dig", "fabric", "gravel"}
#: Hours of one person, in hundredths: whatever the deck, and for how many of what.
Each = tuple[tuple[int, int], Callable[[Plan], int]]
RATES: dict[str, tuple[tuple[int, int], tuple[Each, ...]]] = {
    "set_out": ((100, 200), (((5, 10), _ties),)),
    "pads": ((25, 50), (((3, 8), lambda plan: len(tiles_of(plan).pads.pads)),)),
    "tiles": ((50, 100), (((10, 20), lambda plan: sum(not t.cut for t in tiles_of(plan).tiles)),)),
    "cut_tiles": ((50, 100), (
        ((20, 40), lambda plan: sum(t.cut for t in tiles_of(plan).tiles)),
        ((10, 30), lambda plan: sum(t.shaped for t in tiles_of(plan).tiles)),
    )),
}  # fmt: skip
#: So many ways of rounding shares are tried for the bound.
WAYS = 9

Size = tuple[int, int]


def _size(tiles: OutlineTiles) -> Size:
    return ticks(tiles.tile_length_mm), ticks(tiles.tile_width_mm)


def _box(tiles: OutlineTiles, tile: LaidTile) -> Size:
    """Return the box that a cut tile is sawn as: the tile's own size where a hair is missing."""
    found = (ticks(tile.length_mm), ticks(tile.width_mm))
    whole = _size(tiles)
    return (
        whole[0] if found[0] >= whole[0] - LONG_OFF else found[0],
        whole[1] if found[1] >= whole[1] - LONG_OFF else found[1],
    )


def boxes_come_out(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each cut tile is sawn once, its box inside a tile, a kerf from others."""
    tiles, kerf = tiles_of(plan), ticks(buying_of(plan).kerf_mm)
    boxes = {tile.mark: _box(tiles, tile) for tile in tiles.tiles if tile.cut}
    long, wide = _size(tiles)
    sawn = Counter(piece.mark for each in tiles.sawn for piece in each.pieces)
    for mark in dict.fromkeys((*boxes, *sawn)):
        yield from same_count(mark, "how often it is sawn", sawn[mark], int(mark in boxes), SAWING)
    for index, each in enumerate(tiles.sawn):
        yield from same_text(f"tiles.sawn[{index}]", "out of order", each.mark, f"TC{index + 1}",
                             SAWING)  # fmt: skip
        if not each.pieces:
            yield fault(each.mark, "nothing is sawn from it", SAWING)
        placed: list[tuple[int, int, int, int]] = []
        for piece in each.pieces:
            u, v = ticks(piece.along_mm), ticks(piece.across_mm)
            du, dv = boxes.get(piece.mark, (0, 0))
            if u < 0 or v < 0 or u + du > long or v + dv > wide:
                yield fault(piece.mark, "its box reaches out of the tile it is sawn from", SAWING)
            if any(
                u < x + dx + kerf and x < u + du + kerf and v < y + dy + kerf and y < v + dv + kerf
                for x, y, dx, dy in placed
            ):
                yield fault(piece.mark, "no kerf between it and another of its tile", SAWING)
            placed.append((u, v, du, dv))
    laid = tiles.whole + len(tiles.sawn)
    yield from same_count("tiles.need", "not those laid and sawn", tiles.need, laid, SAWING)


def _rounded(share: Fraction, ways: int) -> Fraction:
    if ways == 0 or ((ways + 1) * share).denominator == 1:
        return share
    return Fraction(floor((ways + 1) * share), ways)


def no_bound_is_too_high(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the least number of tiles is that by the boxes of the cut ones."""
    tiles, kerf = tiles_of(plan), ticks(buying_of(plan).kerf_mm)
    long, wide = _size(tiles)
    shares = Counter(
        (Fraction(u + kerf, long + kerf), Fraction(v + kerf, wide + kerf))
        for u, v in (_box(tiles, tile) for tile in tiles.tiles if tile.cut)
    )
    bounds = [0]
    for k in range(WAYS):
        for m in range(WAYS):
            bounds.append(
                ceil(sum(_rounded(x, k) * _rounded(y, m) * n for (x, y), n in shares.items()))
            )
    full = sum(n for (x, y), n in shares.items() if x == y == 1)
    across = [(x, n) for (x, y), n in shares.items() if y == 1 and x < 1]
    along = [(y, n) for (x, y), n in shares.items() if x == 1 and y < 1]
    ends = (
        max(ceil(sum(_rounded(share, k) * n for share, n in lot)) for k in range(WAYS))
        for lot in (across, along)
    )
    wanted = tiles.whole + max(*bounds, full + sum(ends))
    yield from same_count("tiles.least", "not the bound by boxes", tiles.least, wanted, SAWING)
    if tiles.need < tiles.least:
        yield from same_count("tiles.need", "fewer than there can be", tiles.need, tiles.least,
                              SAWING)  # fmt: skip


def tiles_are_weighed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless mass and load are the tile's own, and there are not too many tiles."""
    tiles = tiles_of(plan)
    kg, (long, wide) = Fraction(repr(float(tiles.tile_mass_kg))), _size(tiles)
    area = Fraction(need(long * wide or None, "size of a tile"), (1000 * PER_MM) ** 2)
    mass = Fraction(ceil(kg / area * 10), 10)
    load = Fraction(ceil(mass * GRAVITY / 10), 100)
    for name, figure in (("mass_kg_m2", float(mass)), ("dead_load_kn_m2", float(load))):
        found = getattr(tiles, name)
        if found != figure:
            yield Flaw(subject=f"tiles.{name}", message="not the tile's own", measured=found,
                       limit=figure, source=TOLD)  # fmt: skip
    if kg <= 0 or tiles.density_kg_m3 <= 0:
        yield fault("tiles.tile_mass_kg", "weighs nothing", TOLD)
    if ticks(tiles.thickness_mm) <= 0:
        yield fault("tiles.thickness_mm", "of no thickness", TOLD)
    if tiles.tile_count > MOST_TILES * 2:
        yield from same_count("tiles.tile_count", "too many to plan", tiles.tile_count,
                              MOST_TILES, TOLD)  # fmt: skip


def tile_cautions_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each caution on tiles that the findings leave out, or tell for nothing."""
    tiles, pads = tiles_of(plan), tiles_of(plan).pads
    outline, falls = need(plan.outline, "outline"), pads.base_measured_ratio
    light = tiles.density_kg_m3 < MINERAL_KG_M3
    wooden = light and tiles.timber
    high = pads.levels_known and pads.height_most_mm > 100
    wanted = {
        "TIL-007": not pads.levels_known,
        "TIL-010": tiles.cut > 0 and not light,
        "TIL-011": tiles.tile_mass_kg > LIFT_MOST_KG,
        "TIL-012": True,
        "TIL-013": True,
        "TIL-015": high and not wooden,
        "TIL-017": True,
        "TIL-018": wooden,
        "TIL-019": True,
        "TIL-021": falls is not None and falls < pads.base_fall_ratio,
        "TIL-034": tiles.need > tiles.least,
        "TIL-038": any(each.kind == "hatch" for each in outline.openings),
    }
    told = {finding.code for finding in plan.findings}
    for code, holds in wanted.items():
        if holds != (code in told):
            message = "not among the findings" if holds else "among the findings for nothing"
            yield fault(code, message, TOLD)


def heights_are_in_reach(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pads are as high as the room under the tiles, and reach over it."""
    pads, room = tiles_of(plan).pads, room_under_the_frame(plan)
    least, most = ticks(pads.reach_least_mm), ticks(pads.reach_most_mm)
    if pads.levels_known != (room is not None):
        yield fault("tiles.pads.levels_known", "says otherwise than the site", TOLD)
    heights = room or (least, least)
    for name, wanted in zip(("least", "most"), heights, strict=True):
        path, found = f"tiles.pads.height_{name}_mm", getattr(pads, f"height_{name}_mm")
        yield from same_length(path, "not what lies between base and tiles", found, wanted, TOLD)
    if not least <= heights[0] <= heights[1] <= most:
        yield off_by("tiles.pads", "out of the pads' reach", heights[1], most, TOLD)
    for index, pad in enumerate(pads.pads):
        path = f"tiles.pads.pads[{index}].height_mm"
        if (pad.height_mm is None) == pads.levels_known:
            yield fault(path, "told without levels, or not with them", TOLD)
        elif pad.height_mm is not None:
            height = ticks(pad.height_mm)
            if not heights[0] <= height <= heights[1]:
                yield off_by(path, "beyond the room under the tiles", height, heights[1], TOLD)
    yield from _falls(plan)
    levels = plan.site.levels if plan.site is not None else None
    if levels is not None:
        under = ticks(levels.deck_top_mm) - ticks(tiles_of(plan).thickness_mm)
        yield from same_length("site.levels.underside_mm", "not the top less a tile",
                               levels.underside_mm, under, TOLD)  # fmt: skip


def work_is_timed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the plan has the tasks that tiles want, and their hours."""
    tiles, work = tiles_of(plan), need(plan.work, "work")
    kinds = [task.kind for task in work.tasks]
    people = need(work.people if work.people > 0 else None, "people")
    wanted = {"check", "delivery", "set_out", "pads", "tiles", "hand_over"}
    wanted |= {"cut_tiles"} if tiles.cut else set()
    for kind in sorted(wanted | (set(kinds) - GROUND_TASKS)):
        if kinds.count(kind) != (kind in wanted):
            yield fault(f"work.tasks: {kind}", f"{kinds.count(kind)} such tasks", HOURS)
    for task in work.tasks:
        if task.kind not in RATES:
            continue
        fixed, each = RATES[task.kind]
        for end, found in enumerate((task.least_h, task.most_h)):
            hours = fixed[end] + sum(
                (rates[end] * count(plan) for rates, count in each), Fraction(0)
            )
            quarters = hours / people / 25
            told = Fraction(ceil(quarters) if end else floor(quarters), 4)
            if found != float(told):
                yield Flaw(subject=task.mark, message="not the hours of its rates", unit="h",
                           measured=found, limit=float(told), source=HOURS)  # fmt: skip


def _falls(plan: Plan) -> Iterator[Flaw]:
    pads, levels = tiles_of(plan).pads, plan.site.levels if plan.site is not None else None
    to_house = levels.fall_to_house_mm if levels is not None else None
    _, least, _, most = box(cover(plan))
    deep = Fraction(most - least)
    need(deep or None, "depth of the outline")
    if to_house is None or pads.base_fall_mm is None or pads.base_measured_ratio is None:
        if not to_house == pads.base_fall_mm == pads.base_measured_ratio:
            yield fault("tiles.pads.base_fall_mm", "told without levels, or not with them", TOLD)
        return
    yield from same_length("tiles.pads.base_fall_mm", "not the base's fall", pads.base_fall_mm,
                           -ticks(to_house), TOLD)  # fmt: skip
    ratio = float(Fraction(-ticks(to_house)) / deep)
    if abs(pads.base_measured_ratio - ratio) > 1e-9:
        yield Flaw(subject="tiles.pads.base_measured_ratio", message="not that fall over the depth",
                   measured=pads.base_measured_ratio, limit=ratio, source=TOLD)  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-947", "each cut tile is sawn once, its box inside the tile it comes from",
     boxes_come_out),
    ("AUD-948", "the least number of tiles is that by their boxes", no_bound_is_too_high),
    ("AUD-949", "mass and load are the tiles' own", tiles_are_weighed),
    ("AUD-950", "cautions on tiles stand among the findings", tile_cautions_are_told),
    ("AUD-965", "tasks on tiles are there, with the hours of their rates", work_is_timed),
    ("AUD-966", "pads are as high as the room under the tiles, and reach over it",
     heights_are_in_reach),
)  # fmt: skip
