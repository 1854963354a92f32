"""The frame under an outline in plan: members with marks, joist lines running, bevels, seams."""

from drylay.outline.model import Outline, Spot
from drylay.papers.dimensions import all_edges
from drylay.papers.lettering import Point, width_mm
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Edge,
    Lettering,
    Mark,
    Shape,
    Sheet,
    Span,
    Table,
    View,
)
from drylay.papers.outlined_ends import SawnEnd, is_square, member_ends
from drylay.papers.outlined_first_peg import DATUM, counted, first_peg, from_peg
from drylay.papers.outlined_marks import leader, opening_texts
from drylay.papers.outlined_panels import batten_areas
from drylay.papers.outlined_text import frame_notes
from drylay.papers.outlined_view import (
    ROW_MM,
    all_at,
    area,
    around,
    at,
    bounds_mm,
    datum_text,
    datum_view,
    fitted_view,
    line_of,
    moved,
    outline_places,
    outward,
    sides_drawn,
    way_of,
)
from drylay.papers.placing import (
    Place,
    beyond,
    first_clear,
    first_led,
    line_place,
    place_of,
    places_of,
    put,
    sloped,
)
from drylay.papers.ruled import CELL_MM, head_height, ruled, table_width
from drylay.papers.setting_out import PEG_MM
from drylay.papers.sheets import INSET_MM, title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many, marks_told
from drylay.plan.model import Plan
from drylay.subframe.model import Member, Subframe

PENS = {"rim": MEMBER_MM, "trimmer": MEMBER_MM, "double": MEMBER_MM}  # fmt: skip
#: Members that stand on joist lines, and those told there.
ON_LINES = ("joist", "pair")
LENGTHWISE = ("rim", *ON_LINES)
#: Members whose centres run outside the frame, across the joists.
CROSSING = ("trimmer", "double", "noggin")
BESIDE_MM = 6.0
#: A bay is at least so wide on paper, so that a mark stands in it at least upright.
BAY_MM = 4.2
#: How far texts keep off members.
KEEP_MM = 0.2
#: Members as near to a joist line as this stand on it.
ON_LINE_MM = 0.6
#: Along a member, where its mark may stand: from its middle outwards, and looked at closely.
SHARES = tuple(0.5 + side * step / 20 for step in range(10) for side in (1, -1))
FINE_SHARES = tuple(0.5 + side * step / 150 for step in range(70) for side in (1, -1))


def outlined_frame_svg(plan: Plan) -> bytes:
    """Return the drawing of the frame under an outline; b"" where the plan has none."""
    outline, subframe = plan.outline, plan.subframe
    if outline is None or subframe is None:
        return b""
    peg = first_peg(plan)
    edges = frame_edges(outline, subframe, plan.units, peg or DATUM)
    table = bevel_table(subframe, plan.units)
    aside = (table_width(table) + BESIDE_MM, head_height(table) + CELL_MM * len(table.rows))
    sheet, corner = fitted_view(outline, edges, units=plan.units,
                                pitch_mm=subframe.centres_mm * ROW_MM / BAY_MM,
                                aside_mm=aside if table.rows else (0.0, 0.0))  # fmt: skip
    left, top, right, bottom = bounds_mm(outline)
    extent = ((right - left) / corner.per_mm, (bottom - top) / corner.per_mm)
    view = datum_view(outline, corner)
    outside = all_edges(edges, corner, extent)
    peg_heads = _peg(view, outline, peg, outside) if peg else []
    shapes = [
        *_facings(view, subframe), *_members(view, subframe), *_seams(view, subframe),
        *batten_areas(view, subframe, "battens", MEMBER_MM),
        *_openings(view, outline), *sides_drawn(view, outline, THIN_MM),
        *outside,
        *peg_heads, *_texts(view, outline, subframe, [*outside, *peg_heads]),
        *_beside(sheet, table),
        *title_block(sheet, title=plan.title, drawing="Frame, seen from above",
                     units=plan.units, notes=frame_notes(plan), counted=counted(peg)),
    ]  # fmt: skip
    told = f"The frame of {clean(plan.title)} in plan: {many(len(subframe.members), 'member')}."
    return svg(shapes, sheet=sheet, name="frame", title=f"Frame of {clean(plan.title)}", told=told)


def _peg(view: View, outline: Outline, peg: Spot, outside: list[Shape]) -> list[Shape]:
    """Return the peg that centres are measured from, its mark outside the deck."""
    x, y = at(view, peg)
    deck = all_at(view, [side.start for side in outline.sides])
    head = Box(layer="peg", x_mm=x - PEG_MM / 2, y_mm=y - PEG_MM / 2, width_mm=PEG_MM,
               height_mm=PEG_MM, pen_mm=MEMBER_MM, fill="white")  # fmt: skip
    spots = around(Lettering(layer="peg", x_mm=x, y_mm=y, text="P1"), steps=6)
    taken = [*places_of(outside), *outline_places(view, outline), _datum_place(view)]
    return [head, *first_clear([spot for spot in spots if beyond(spot, deck)] or spots, taken)]


def _datum_place(view: View) -> Place:
    """Return the room of the ring at the datum corner."""
    x, y = at(view, DATUM)
    return place_of([(x - 2, y - 2), (x + 2, y - 2), (x + 2, y + 2), (x - 2, y + 2)])


def frame_edges(
    outline: Outline, subframe: Subframe, units: str, zero: Spot
) -> dict[str, Edge]:  # fmt: skip
    """Return what stands outside: joist lines running, what crosses them, sizes end to end.

    Centres are told from `zero`.
    """
    left, top, right, bottom = bounds_mm(outline)
    across = subframe.joist_run == "across"
    first, other = (left, top) if across else (top, left)
    near, side = from_peg(zero, subframe.joist_run), zero.across_mm if across else zero.along_mm
    lines = Edge(
        marks=tuple(
            Mark(
                at_mm=line - first, text=f"{_on_line(subframe, index)}: {bare(line - near, units)}"
            )
            for index, line in enumerate(subframe.lines_mm)
        )
    )
    crossing = Edge(marks=_crossing_marks(subframe, other, side, units), columns=1)
    along, deep = right - left, bottom - top
    wide = Edge(spans=(Span(from_mm=0.0, to_mm=along, text=f"cover {bare(along, units)}"),))
    high = Edge(spans=(Span(from_mm=0.0, to_mm=deep, text=f"cover {bare(deep, units)}"),))
    if across:
        return {"bottom": lines, "left": crossing, "top": wide, "right": high}
    return {"right": lines, "bottom": crossing, "top": wide, "left": high}


def _on_line(subframe: Subframe, index: int) -> str:
    """Return what stands on a joist line: a rim where no joist does."""
    line = subframe.lines_mm[index]
    found = [
        member for member in subframe.members
        if member.kind in LENGTHWISE and _stands_on(member, line, subframe.joist_run)
    ]  # fmt: skip
    stems = dict.fromkeys(member.mark.split(".")[0] for member in found)
    return " ".join(stems) or f"line {index + 1}"


def _stands_on(member: Member, line: float, run: str) -> bool:
    name = "along_mm" if run == "across" else "across_mm"
    ends = (getattr(member.start, name), getattr(member.end, name))
    return all(abs(end - line) <= ON_LINE_MM for end in ends)


def _crossing_marks(
    subframe: Subframe, first: float, zero: float, units: str
) -> tuple[Mark, ...]:  # fmt: skip
    """Return the centres of trimmers and noggins that stand square across the joists."""
    name = "across_mm" if subframe.joist_run == "across" else "along_mm"
    places: dict[float, list[str]] = {}
    for member in subframe.members:
        one, other = getattr(member.start, name), getattr(member.end, name)
        if member.kind in CROSSING and abs(one - other) <= ON_LINE_MM:
            places.setdefault(one, []).append(member.mark)
    return tuple(
        Mark(at_mm=place - first, text=f"{marks_told(marks)}: {bare(place - zero, units)}")
        for place, marks in sorted(places.items())
    )


def bevel_table(subframe: Subframe, units: str) -> Table:
    """Return every rim and every member with an end off square: length and saw settings."""
    members = [
        member for member in subframe.members
        if member.kind == "rim" or not is_square(member.start_deg) or not is_square(member.end_deg)
    ]  # fmt: skip
    return Table(
        layer="bevels", title="Rims, and members off square",
        heads=(("", "member"), ("", "length"), ("saw,", "one end"), ("saw,", "other end")),
        aligned="<><<",
        rows=tuple(
            (member.mark, bare(member.length_mm, units), *map(_setting, member_ends(member)))
            for member in members
        ),
    )  # fmt: skip


def _setting(end: SawnEnd) -> str:
    return str(end) if end.value_deg else "square"


def _beside(sheet: Sheet, table: Table) -> list[Shape]:
    if not table.rows:
        return []
    return ruled(table, table.rows, sheet.width_mm - INSET_MM - table_width(table), INSET_MM)


def _members(view: View, subframe: Subframe) -> list[Shape]:
    return [
        area(view, f"{member.kind}s", member.corners, PENS.get(member.kind, THIN_MM), fill="white")
        for member in subframe.members
    ]


def _facings(view: View, subframe: Subframe) -> list[Shape]:
    """Return the fascia: from its outer face so far inwards as it is thick."""
    shapes: list[Shape] = []
    for facing in subframe.facings:
        one, other = at(view, facing.start), at(view, facing.end)
        shapes.append(line_of("fascia", *_inner(view, one, other, subframe), THIN_MM))
    return shapes


def _inner(view: View, one: Point, other: Point, subframe: Subframe) -> tuple[Point, Point]:
    out = outward(way_of(one, other))
    thick = -subframe.facing_thickness_mm / view.per_mm
    return moved(one, out, thick), moved(other, out, thick)


def _seams(view: View, subframe: Subframe) -> list[Shape]:
    return [
        line_of("seams", at(view, seam.start), at(view, seam.end), OUTLINE_MM)
        for seam in subframe.seams
    ]


def _openings(view: View, outline: Outline) -> list[Shape]:
    shapes: list[Shape] = []
    for opening in outline.openings:
        shapes.append(area(view, "openings", opening.corners, FINE_MM, dash="2 1"))
        shapes.append(area(view, "within", opening.within, THIN_MM, dash="3 1 1 1"))
    return shapes


def _texts(
    view: View, outline: Outline, subframe: Subframe, outside: list[Shape]
) -> list[Shape]:  # fmt: skip
    """Return every text of the figure: what matters most placed first, what needs leaders last."""
    taken = [*places_of(outside), *outline_places(view, outline)]
    taken += [_strip(view, each) for each in subframe.members if each.kind in CROSSING]
    shapes: list[Shape] = _batten_marks(view, subframe, taken)
    shapes += opening_texts(view, outline, taken)
    taken += [_strip(view, each) for each in subframe.members if each.kind not in CROSSING]
    taken += [line_place(at(view, seam.start), at(view, seam.end)) for seam in subframe.seams]
    parted = {member.mark.split(".")[0] for member in subframe.members if "." in member.mark}
    unmarked: list[Member] = []
    for member in subframe.members:
        if member.kind not in ON_LINES or member.mark.split(".")[0] in parted:
            found = first_clear(_spots(view, member), taken)
            shapes += found
            # noggins that carry a zone's boards stand in rows, and rows are marked at the edge
            told = member.kind == "noggin" and member.side != ""
            unmarked += [] if found or told else [member]
    for facing in subframe.facings:
        shapes += _facing_mark(at(view, facing.start), at(view, facing.end), facing.mark, taken)
    for member in unmarked:
        texts = [shape for shape in (*outside, *shapes) if isinstance(shape, Lettering)]
        shapes += _led_mark(view, member, taken, places_of(texts))
    return [*shapes, *datum_text(view, outline, taken)]


def _batten_marks(view: View, subframe: Subframe, taken: list[Place]) -> list[Shape]:
    """Return the marks of panels' battens, beside them; all keep off the battens themselves."""
    half = subframe.timber_thickness_mm / view.per_mm / 2 + KEEP_MM
    lines = [(each.mark, at(view, each.start), at(view, each.end)) for each in subframe.battens]
    taken += [line_place(one, other, half) for _, one, other in lines]
    shapes: list[Shape] = []
    for mark, one, other in lines:
        spots = _beside_line(one, other, mark, off_mm=half, layer="batten-marks", shares=SHARES)
        found = first_clear([*spots, *_upright_spots(one, other, spots[0], half)], taken)
        shapes += found or _led("batten-marks", mark, (one, other), taken, places_of(shapes))
    return shapes


def _strip(view: View, member: Member) -> Place:
    """Return the room that a member takes."""
    half_mm = _half_mm(view, member) + KEEP_MM
    return line_place(at(view, member.start), at(view, member.end), half_mm)


def _spots(view: View, member: Member) -> list[Lettering]:
    """Return where a member's mark stands: along it, or square to it in a narrow bay."""
    one, other = at(view, member.start), at(view, member.end)
    off_mm, layer = _half_mm(view, member) + KEEP_MM, f"{member.kind}-marks"
    spots, closer = (
        _beside_line(one, other, member.mark, off_mm=off_mm, layer=layer, shares=shares)
        for shares in (SHARES, FINE_SHARES)
    )
    return [*spots, *closer, *_upright_spots(one, other, spots[0], off_mm)]


def _led_mark(
    view: View, member: Member, taken: list[Place], texts: list[Place]
) -> list[Shape]:  # fmt: skip
    """Return a member's mark near by, with a leader that strikes no other text."""
    ends = at(view, member.start), at(view, member.end)
    return _led(f"{member.kind}-marks", member.mark, ends, taken, texts)


def _led(
    layer: str, mark: str, ends: tuple[Point, Point], taken: list[Place], texts: list[Place]
) -> list[Shape]:  # fmt: skip
    one, other = ends
    middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    flat = Lettering(layer=layer, x_mm=middle[0], y_mm=middle[1], text=mark, knocked=True)
    spots = around(flat, steps=24, step_mm=1.6)
    found = first_led(spots, middle, taken, texts) or first_clear(spots, taken)
    return [*(leader(layer, middle, text) for text in found), *found]


def _half_mm(view: View, member: Member) -> float:
    """Return half a member's thickness on paper: how far its corners are off its centre line."""
    one, other = at(view, member.start), at(view, member.end)
    way = way_of(one, other)
    return max(
        abs((x - one[0]) * way[1] - (y - one[1]) * way[0]) for x, y in all_at(view, member.corners)
    )


def _beside_line(
    one: Point, other: Point, text: str, *, off_mm: float, layer: str, shares: tuple[float, ...]
) -> list[Lettering]:  # fmt: skip
    way = way_of(one, other)
    out = outward(way)
    long = ((other[0] - one[0]) ** 2 + (other[1] - one[1]) ** 2) ** 0.5
    flat = Lettering(layer=layer, x_mm=0.0, y_mm=0.0, text=text, knocked=True)
    sloping = sloped(flat, one, other)
    return [
        put(sloping, moved(moved(one, way, long * share), out, side * (off_mm + 1.7)))
        for share in shares for side in (-1.0, 1.0)
    ]  # fmt: skip


def _upright_spots(
    one: Point, other: Point, text: Lettering, off_mm: float
) -> list[Lettering]:  # fmt: skip
    """Return where a member's mark stands square to it, beside its middle: for narrow bays."""
    middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    out = outward(way_of(one, other))
    way = way_of(one, other)
    away = off_mm + 0.8 + width_mm(text.text, text.size_mm) / 2
    turned = sloped(text, (0.0, 0.0), out)
    return [
        put(turned, moved(moved(middle, out, side * (away + more)), way, aside))
        for more in (0.0, 1.0, 2.0) for side in (-1.0, 1.0)
        for aside in (0.0, 0.6, -0.6, 1.2, -1.2, 2.4, -2.4, 4.0, -4.0)
    ]  # fmt: skip


def _facing_mark(one: Point, other: Point, mark: str, taken: list[Place]) -> list[Shape]:
    """Return a fascia's mark outside of it."""
    rings = [
        _beside_line(one, other, mark, off_mm=off, layer="fascia-marks", shares=shares)
        for shares in (SHARES, FINE_SHARES) for off in (0.5, 3.0, 5.0)
    ]  # fmt: skip
    return [*first_clear([spot for ring in rings for spot in ring[1::2]], taken)]
