"""The witnessed audit of tiles: as the brief wishes them, as the merchant sells them."""

from collections.abc import Iterator
from fractions import Fraction

from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import conventions, need, off_by, same_length, same_text
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.ranking import tile_of
from drylay.audit.rows import surface_of
from drylay.audit.terrain import level_at, terrain
from drylay.audit.tile_ways import directions_of
from drylay.audit.tiles import tiling_of
from drylay.brief.model import Brief
from drylay.materials.stock_model import Catalogue, Tile
from drylay.plan.model import Plan

WISHED = conventions("Tiles (tiling); the brief's own wish")
SOLD = conventions("Tiles (tiling); what is on sale")


def _brief(witness: Witness) -> Brief:
    return need(witness.brief, "brief as witness")


def _stock(witness: Witness) -> Catalogue:
    return need(witness.stock, "stock as witness")


def _tile(plan: Plan, witness: Witness) -> Tile:
    tiling_of(plan)
    code = surface_of(plan).board_article
    return need(tile_of(plan, _stock(witness)), f"article {code!r} in the stock")


def tiles_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless tiles lie on what the brief says, changed and cut as it allows."""
    tiling, surface, brief = tiling_of(plan), surface_of(plan), _brief(witness)
    support = brief.board.support or ""
    yield from same_text("tiling.support", "not the brief's", tiling.support, support, WISHED)
    side = "along" if surface.run == "along" else "across"
    change = ticks(tiling.cover_change_mm)
    shrink, grow = (ticks(getattr(brief.cover, f"{verb}_{side}_mm")) for verb in ("shrink", "grow"))
    if not -shrink <= change <= grow:
        message = "the cover changes further than the brief allows"
        limit = grow if change > 0 else -shrink
        yield off_by("tiling.cover_change_mm", message, change, limit, WISHED)
    if tiling.cut and not brief.rows.may_rip:
        message = "tiles are cut, and the brief allows no cutting"
        yield Flaw(subject="tiling.cut", message=message, source=WISHED)
    if tiling.pads is not None:
        wanted = brief.groundwork.packer or ""
        yield from same_text("tiling.pads.article", "not the brief's pad", tiling.pads.article,
                             wanted, WISHED)  # fmt: skip
    if brief.site.roof:
        yield Flaw(subject="site", message="on a roof, which stops every plan", source=WISHED)


def ways_as_preferred(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where a way out along the rows is not allowed, or one comes earlier in order."""
    brief = _brief(witness)
    _, columns = directions_of(plan)
    side = "along" if surface_of(plan).run == "along" else "across"
    rank = {kind: place for place, kind in enumerate(brief.rows.prefer)}
    chosen = rank.get(columns.told, len(rank))
    for index, way in enumerate(columns.ways):
        subject = f"tiling.ways_out[{index}]"
        for rule in way.rules:
            verb = rule.rule.removeprefix("cover may ")
            if verb in {"grow", "shrink"}:
                limit = ticks(getattr(brief.cover, f"{verb}_{side}_mm"))
                message = "not the brief's limit"
                yield from same_length(subject, message, rule.limit, limit, WISHED)
        if way.honest and way.cost is not None and rank.get(way.kind, len(rank)) < chosen:
            message = f"{columns.told} is chosen, the brief prefers {way.kind}"
            yield Flaw(subject="tiling.way_out", message=message, source=WISHED)


def tile_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the tile has its article's sizes, mass and family."""
    tiling, surface, tile = tiling_of(plan), surface_of(plan), _tile(plan, witness)
    sizes = (
        ("tiling.tile_length_mm", tiling.tile_length_mm, tile.length_mm),
        ("surface.board_width_mm", surface.board_width_mm, tile.width_mm),
        ("surface.board_thickness_mm", surface.board_thickness_mm, tile.thickness_mm),
    )
    for path, told, sold in sizes:
        yield from same_length(path, "not the article's size", told, ticks(sold), SOLD)
    if tiling.tile_mass_kg != _mass(tiling.density_kg_m3, tile):
        message = "not the article's mass, nor that of its volume"
        yield Flaw(subject="tiling.tile_mass_kg", message=message, measured=tiling.tile_mass_kg,
                   limit=_mass(tiling.density_kg_m3, tile), source=SOLD)  # fmt: skip
    if tile.family not in {family.id for family in plan.families}:
        message = f"the tile's family, {tile.family!r}, is not among them"
        yield Flaw(subject="families", message=message, source=SOLD)


def _mass(density_kg_m3: float, tile: Tile) -> float:
    if tile.mass_kg is not None:
        return tile.mass_kg
    sides = (tile.length_mm, tile.width_mm, tile.thickness_mm)
    volume = Fraction(1)
    for side in sides:
        volume *= Fraction(ticks(side), 1000 * PER_MM)
    return float(volume * Fraction(repr(float(density_kg_m3))))


def pads_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless pads reach as far as they are sold to."""
    pads = need(tiling_of(plan).pads, "tiles on pads")
    sold = next((p for p in _stock(witness).packers if p.code == pads.article), None)
    packer = need(sold, f"article {pads.article!r} in the stock")
    for name in ("least", "most"):
        path, limit = f"tiling.pads.reach_{name}_mm", ticks(getattr(packer, f"{name}_mm"))
        told = getattr(pads, f"reach_{name}_mm")
        yield from same_length(path, "not as sold", told, limit, SOLD)


def pads_as_high_as_the_base_is_low(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each pad that is not told as high as the base lies low below it."""
    surface, points = surface_of(plan), _brief(witness).levels.points
    pads, room = need(tiling_of(plan).pads, "tiles on pads"), room_under_the_frame(plan)
    ground = terrain(points, surface.cover_along_mm, surface.cover_across_mm)
    lies = need(ground if room is not None else None, "levels of the base")
    least, _ = need(room, "levels of the base")
    spots = [(ticks(pad.start_mm), ticks(pad.across_mm)) for pad in pads.pads]
    turned = surface.run != "along"
    levels = level_at(points, tuple((y, x) if turned else (x, y) for x, y in spots), lies)
    for index, (pad, level) in enumerate(zip(pads.pads, levels, strict=True)):
        told, wanted = pad.height_mm or 0.0, least + lies.most - level
        message = "not what lies between base and tiles there"
        yield from same_length(f"tiling.pads.pads[{index}].height_mm", message, told, wanted, SOLD)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W71", "tiles lie on what the brief says, changed as it allows", tiles_as_wished),
    ("AUD-W72", "the way out along the rows is the first the brief prefers", ways_as_preferred),
    ("AUD-W73", "the tile is as sold", tile_as_sold),
    ("AUD-W74", "pads reach as far as they are sold to", pads_as_sold),
    (
        "AUD-W75",
        "each pad is as high as the base lies low below it",
        pads_as_high_as_the_base_is_low,
    ),
)
