"""Tiles on an outline in plan: every tile as it lies, its mark, cut sizes, pads, openings."""

from collections.abc import Iterator

from drylay.outline.model import Outline
from drylay.papers.lettering import Point, quad
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Lettering,
    Line,
    Ring,
    Shape,
    View,
)
from drylay.papers.outlined_marks import leader, opening_texts
from drylay.papers.outlined_tiles_text import first_whole
from drylay.papers.outlined_view import (
    all_at,
    angle,
    area,
    around,
    at,
    corner_angles,
    datum_view,
    fitted_view,
    kinds_told,
    outline_places,
    overall,
    room_for,
    side_dimensions,
    sides_drawn,
)
from drylay.papers.outlined_ways import from_told
from drylay.papers.placing import Place, beyond, first_clear, inside, place_of
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many
from drylay.plan.model import Plan
from drylay.tiling.outline_model import LaidTile, OutlinePads, OutlineTiles

#: How far apart hatching runs in cut tiles; how large pads are drawn, whatever their own size.
HATCH_MM, PAD_MM, MIDDLE_MM = 3.0, 1.0, 0.6
#: A part of a tile's side that is to read well, so that marks and sizes find room.
PARTS = 6
#: How high sizes and heights are lettered, and how far a size stands below its mark.
SMALL_MM, BELOW_MM = 1.8, 3.0


def outlined_tiles_svg(plan: Plan) -> bytes:
    """Return the drawing of tiles on an outline; b"" where the plan has none."""
    outline, tiles, units = plan.outline, plan.tiles, plan.units
    if outline is None or tiles is None:
        return b""
    edges = {side: room_for(3) for side in ("left", "right", "top", "bottom")}
    pitch_mm = min(tiles.tile_length_mm, tiles.tile_width_mm) / PARTS
    sheet, corner = fitted_view(outline, edges, units=units, pitch_mm=pitch_mm)
    view = datum_view(outline, corner)
    shapes = [
        *_tiles(view, tiles),
        *_openings(view, outline),
        *_pads(view, tiles.pads),
        *sides_drawn(view, outline),
        *_texts(view, outline, tiles, units),
        *title_block(sheet, title=plan.title, drawing="Tiles, seen from above", units=units,
                     notes=_notes(outline, tiles, units)),
    ]  # fmt: skip
    counted = f"{many(tiles.whole, 'whole tile')}, {many(tiles.cut, 'cut tile')}"
    told = f"The tiles of {clean(plan.title)} in plan: {counted}."
    title = f"Tiles of {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="tiles", title=title, told=told)


def _tiles(view: View, tiles: OutlineTiles) -> list[Shape]:
    shapes: list[Shape] = [
        area(view, "tiles", tile.corners, THIN_MM, fill="white") for tile in tiles.tiles
    ]
    for tile in tiles.tiles:
        if tile.cut:
            shapes += _hatched(all_at(view, tile.corners))
    return shapes


def _hatched(corners: tuple[Point, ...]) -> Iterator[Line]:
    """Yield lines at 45 degrees that fill a shape and do not leave it."""
    sums = [x + y for x, y in corners]
    for step in range(int(min(sums) // HATCH_MM) + 1, int(max(sums) // HATCH_MM) + 1):
        ends = sorted(_crossed(corners, step * HATCH_MM))
        for one, other in zip(ends[::2], ends[1::2], strict=False):
            yield Line(layer="tiles-hatch", x1_mm=one, y1_mm=step * HATCH_MM - one, x2_mm=other,
                       y2_mm=step * HATCH_MM - other, pen_mm=FINE_MM)  # fmt: skip


def _crossed(corners: tuple[Point, ...], together: float) -> Iterator[float]:
    """Yield where the line of points whose two figures add up to so much crosses a shape."""
    for (x1, y1), (x2, y2) in zip(corners, (*corners[1:], corners[0]), strict=True):
        one, other = x1 + y1, x2 + y2
        if (one > together) != (other > together):
            yield x1 + (x2 - x1) * (together - one) / (other - one)


def _openings(view: View, outline: Outline) -> list[Shape]:
    shapes: list[Shape] = []
    for opening in outline.openings:
        shapes.append(area(view, "openings", opening.corners, OUTLINE_MM))
        shapes.append(area(view, "within", opening.within, THIN_MM, dash="3 1 1 1"))
    return shapes


def _pads(view: View, pads: OutlinePads) -> list[Ring]:
    """Return a ring for every pad, a smaller one under the middle of a tile."""
    rings = []
    for pad in pads.pads:
        x, y = at(view, pad.at)
        radius = MIDDLE_MM if pad.kind == "centre" else PAD_MM
        rings.append(Ring(layer="pads", x_mm=x, y_mm=y, radius_mm=radius, pen_mm=MEMBER_MM))
    return rings


def _texts(view: View, outline: Outline, tiles: OutlineTiles, units: str) -> list[Shape]:
    """Return every text of the figure, what matters most placed first."""
    taken: list[Place] = outline_places(view, outline)
    taken += [_around(ring) for ring in _pads(view, tiles.pads)]
    shapes: list[Shape] = [*side_dimensions(view, outline, units, taken)]
    whole = overall(view, outline, units)
    taken += [place_of(quad(text)) for text in whole if isinstance(text, Lettering)]
    shapes += [*whole, *opening_texts(view, outline, taken, beside=("hatch",))]
    shapes += corner_angles(view, outline, taken)
    beside: list[LaidTile] = []
    for cut in (True, False):
        for tile in tiles.tiles:
            if tile.cut == cut:
                found = _marked(view, tile, units, taken)
                shapes += found
                beside += [] if found or not cut else [tile]
    shapes += _beside(view, outline, beside, taken)
    return [*shapes, *_heights(view, tiles.pads, units, taken)]


def _around(ring: Ring) -> Place:
    reach, x, y = ring.radius_mm + MEMBER_MM, ring.x_mm, ring.y_mm
    return place_of(
        [(x - reach, y - reach), (x + reach, y - reach), (x + reach, y + reach),
         (x - reach, y + reach)]
    )  # fmt: skip


def _marked(view: View, tile: LaidTile, units: str, taken: list[Place]) -> list[Shape]:
    """Return a tile's mark inside it, and what is left of a cut one under that."""
    corners = all_at(view, tile.corners)
    marks = [
        Lettering(layer="marks", x_mm=x, y_mm=y, text=tile.mark, knocked=tile.cut)
        for x, y in _spots(corners)
    ]
    found = first_clear([spot for spot in marks if inside(spot, corners)], taken)
    if not found or not tile.cut:
        return [*found]
    mark = found[0]
    sizes = f"{bare(tile.length_mm, units)} x {bare(tile.width_mm, units)}"
    texts = [
        Lettering(layer="sizes", x_mm=mark.x_mm, y_mm=mark.y_mm + off, text=text,
                  size_mm=SMALL_MM, knocked=True)
        for text in (("shaped",) if tile.shaped else (sizes,))
        for off in (BELOW_MM, -BELOW_MM)
    ]  # fmt: skip
    return [*found, *first_clear([spot for spot in texts if inside(spot, corners)], taken)]


def _spots(corners: tuple[Point, ...]) -> Iterator[Point]:
    """Yield where a mark may stand in a tile: off the middle of the box, then all over it."""
    xs, ys = zip(*corners, strict=True)
    for down in (0.35, 0.65, 0.5, 0.2, 0.8):
        for right in (0.5, 0.35, 0.65, 0.2, 0.8):
            yield (min(xs) + right * (max(xs) - min(xs)), min(ys) + down * (max(ys) - min(ys)))


def _beside(
    view: View, outline: Outline, tiles: list[LaidTile], taken: list[Place]
) -> list[Shape]:  # fmt: skip
    """Return marks of cut tiles too small to hold them, outside the deck with a leader."""
    deck = all_at(view, [side.start for side in outline.sides])
    shapes: list[Shape] = []
    for tile in tiles:
        corners = all_at(view, tile.corners)
        x = sum(px for px, _ in corners) / len(corners)
        y = sum(py for _, py in corners) / len(corners)
        text = Lettering(layer="marks", x_mm=x, y_mm=y, text=tile.mark)
        spots = [spot for spot in around(text, steps=10) if beyond(spot, deck)]
        for found in first_clear(spots, taken):
            shapes += [leader("marks", (x, y), found), found]
    return shapes


def _heights(view: View, pads: OutlinePads, units: str, taken: list[Place]) -> list[Shape]:
    """Return the height of every pad beside its ring, where it finds room."""
    shapes: list[Shape] = []
    for pad in pads.pads:
        if pad.height_mm is None:
            continue
        (x, y), off = at(view, pad.at), PAD_MM + MEMBER_MM + SMALL_MM
        text = bare(pad.height_mm, units).removeprefix("~")
        shapes += first_clear(
            [
                Lettering(layer="heights", x_mm=x + right * off, y_mm=y + down * off, text=text,
                          size_mm=SMALL_MM, anchor="start" if right > 0 else "end", knocked=True)
                for right, down in ((1, 1), (1, -1), (-1, 1), (-1, -1))
            ],
            taken,
        )  # fmt: skip
    return shapes


def _notes(outline: Outline, tiles: OutlineTiles, units: str) -> tuple[str, ...]:
    long, wide = bare(tiles.tile_length_mm, units), bare(tiles.tile_width_mm, units)
    thick, joint = bare(tiles.thickness_mm, units), bare(tiles.joint_mm, units)
    first = first_whole(tiles)
    spot = f"{bare(first.corners[0].along_mm, units)}, {bare(first.corners[0].across_mm, units)}"
    notes = [
        f"Tile {clean(tiles.article, 40)}, {long} x {wide} x {thick}, at {angle(tiles.angle_deg)} "
        f"from {from_told(outline)}; joints {joint}, both ways. B2.3 lies in row B2 and column C3. "
        f"{kinds_told(outline)}",
        f"Set out from tile {first.mark}: its first corner at {spot} (along, across) from the "
        "datum corner.",
    ]
    if tiles.cut:
        notes.append(
            f"Hatched: {many(tiles.cut, 'cut tile')}, what is left along the run x across it; cut "
            f"edge outwards, out of {many(len(tiles.sawn), 'tile')}. Shaped ones: corners in the "
            "job sheet."
        )
    notes.append(
        f"Rings: {tiles.pads.count} pads, not to scale, small ones under tiles' middles. At sides "
        "and openings set each in by half its own width."
    )
    if tiles.pads.levels_known:
        notes.append("Beside rings: how high the pad stands, where there is room; all in the job "
                     "sheet.")  # fmt: skip
    return tuple(notes)
