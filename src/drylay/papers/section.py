"""A section through the edge: boards, rim, joist, fascia and their screws, true to scale.

Square to the rim at the front, or at the right where boards run across. The figure is told by
how far inwards from the cover's edge, and how far down from the top of the boards.
"""

from collections.abc import Callable
from itertools import pairwise

from drylay.fixings.model import BorderScrews, DeckScrews, Fixings
from drylay.frame.model import Frame
from drylay.papers.dimensions import GAP_MM, all_edges, thick_edge, thick_lines
from drylay.papers.fall_text import fall_note
from drylay.papers.figures import placed
from drylay.papers.frame_text import coach_note
from drylay.papers.hatching import hatch
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Box,
    Edge,
    Line,
    Mark,
    Ring,
    Shape,
    Span,
    View,
)
from drylay.papers.pads_section import pads_section_svg
from drylay.papers.section_clips import SIGN, clip_shapes
from drylay.papers.section_cut import Cut, cut_of, low_mm
from drylay.papers.section_screws import board_names, by, deck_shanks, screws_of
from drylay.papers.sheets import rule, title_block
from drylay.papers.site_text import marks_of, top_from
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, size_least
from drylay.plan.model import Plan
from drylay.site.model import Levels
from drylay.surface.model import Surface

#: How far below the wood the ground is drawn.
DOWN_MM = 25.0
DASH = "4 1.5"
HELD = "The outer tiles are to be held at their edge, by what is not part of this plan."
HUNG = "Joists hang on the bearer's face in hangers, tops flush; hangers are not drawn."
GROUND = "ground or packers: not part of this plan"

#: From how far inwards and how far down, to how far inwards and how far down.
Extent = tuple[float, float, float, float]


def section_svg(plan: Plan) -> bytes:
    """Return the section through a plan's far edge; b"" where the plan lacks what it shows."""
    if plan.tiling is not None and plan.tiling.pads is not None:
        return pads_section_svg(plan)
    surface, edges, frame, fixings = plan.surface, plan.edges, plan.frame, plan.fixings
    if surface is None or edges is None or frame is None or fixings is None:
        return b""
    if not surface.rows:
        return b""
    bearer_mm = plan.raised.frame.heights.bearer_mm if plan.raised else 0.0
    cut = cut_of(surface, edges, frame, fixings.coach_screws, bearer_mm)
    spans = _spans(cut, plan.units, "board" if plan.tiling is None else "tile")
    codes = (frame.timber_article, edges.fascia_article)
    names = _names(
        cut,
        surface,
        codes,
        fixings,
        plan.units,
        thick_mm=frame.timber_thickness_mm,
        levels=plan.site.levels if plan.site else None,
    )
    names = sorted([*names, (low_mm(cut) + DOWN_MM, cut.shown_mm / 2, _ground_name(plan))])
    around = {side: thick_edge(found) for side, found in spans.items()}
    around["right"] = Edge(marks=tuple(Mark(at_mm=y, text=text) for y, _, text in names))
    size_mm = (cut.shown_mm + cut.proud_mm, low_mm(cut) + DOWN_MM)
    thin_mm = min(span.to_mm - span.from_mm for found in spans.values() for span in found)
    sheet, view = placed("along", size_mm, around, units=plan.units, pitch_mm=max(thin_mm, 15.0))
    extent = (size_mm[0] / view.per_mm, size_mm[1] / view.per_mm)
    shapes = [
        *_wood(view, cut), *_screws(view, cut, fixings), *_leaders(view, cut, extent, names),
        *_ground(view, cut, extent), *all_edges(around, view, extent),
        *(line for side in spans for line in thick_lines(side, spans[side], view, extent)),
        *title_block(sheet, title=plan.title, drawing=f"Section through the {cut.side} edge",
                     units=plan.units, counted="",
                     notes=(*_notes(cut, frame, fixings, plan.units),
                            *fall_note(surface, plan.units))),
    ]  # fmt: skip
    told = f"A section through the {cut.side} edge of {clean(plan.title)}, square to the rim."
    return svg(shapes, sheet=sheet, name="section", title=f"Section of {clean(plan.title)}",
               told=told)  # fmt: skip


def _spans(cut: Cut, units: str, what: str) -> dict[str, tuple[Span, ...]]:
    """Return the thicknesses to dimension: at the left by height, at the top by breadth."""

    def span(one: float, other: float, text: str) -> Span:
        return Span(from_mm=one, to_mm=other, text=f"{text} {bare(other - one, units)}")

    edge, frame = cut.shown_mm, cut.shown_mm - cut.fascia_mm
    heights = (
        span(0.0, cut.board_mm, what),
        span(cut.board_mm, cut.board_mm + cut.depth_mm, "joist" if cut.bearer else "rim, joist"),
    )
    breadths = [span(frame - cut.rim_mm, frame, "bearer" if cut.bearer else "rim")]
    breadths += [span(frame, edge, "fascia")] if cut.fascia_mm else []
    if len(cut.rows) > 1 and cut.rows[1][0] < cut.shown_mm:
        gap = span(edge - cut.rows[1][0], edge - cut.rows[0][1], "gap")
        breadths.insert(0, gap)
    return {"left": heights, "top": tuple(breadths)}


def _names(
    cut: Cut,
    surface: Surface,
    codes: tuple[str, str],
    fixings: Fixings,
    units: str,
    *,
    thick_mm: float,
    levels: Levels | None,
) -> list[tuple[float, float, str]]:
    """Return every part's name with its sizes: how far down and inwards its leader begins."""
    coach = fixings.coach_screws
    heights, hangers = _coach_heights(cut, fixings), fixings.hangers
    ends = "each end of the outer two joists" if hangers else "a joist's end"
    which = "all" if cut.bearer else "the inner ones"
    hung = f"; {which} hang in {clean(hangers.article, 24)}" if hangers else ""
    rim = f"rim, {clean(codes[0], 24)}, {by(cut.rim_mm, cut.depth_mm, units)}"
    if cut.bearer:
        rim = f"bearer {cut.bearer}, {by(cut.rim_mm, cut.rim_depth_mm, units)}"
    driven = (heights[0], cut.fascia_mm + cut.sink_mm,
              f"coach screw {by(coach.shank_mm, coach.length_mm, units)}, {coach.per_joist_end} to "
              f"{ends}")  # fmt: skip
    timber = f"{clean(codes[0], 24)}, {by(thick_mm, cut.depth_mm, units)}"
    inner = cut.fascia_mm + cut.rim_mm
    top, down = cut.board_mm, cut.depth_mm
    names = [
        *board_names(cut, surface, fixings, units),
        *((driven,) if coach.joist_ends else ()),
        (top + down * 0.84, inner + (cut.shown_mm - inner) / 2, f"joist behind, {timber}{hung}"),
        (top + down * 0.92, cut.fascia_mm + cut.rim_mm / 2, rim),
    ]  # fmt: skip
    names += _finished(cut, levels, units)
    if cut.fascia_mm:
        fascia = by(cut.fascia_mm, cut.fascia_depth_mm, units)
        names.append((top + cut.fascia_depth_mm * 0.97, cut.fascia_mm / 2,
                      f"fascia {clean(codes[1], 24)}, {fascia}"))  # fmt: skip
    return sorted(names)


def _ground_name(plan: Plan) -> str:
    """Return what lies below the wood, and how far down the ground is where that is known."""
    levels, units = plan.site.levels if plan.site else None, plan.units
    bed = _bed_name(plan)
    if levels is None or levels.drop_mm is None:
        return f"{bed}, not to scale" if bed else GROUND
    drop = bare(levels.drop_mm, units)
    if bed:
        return f"{bed}, not to scale"  # the drop stands in the job sheet: a line holds no more
    return f"ground, not to scale: down to {drop} below the finished level at the edges"


def _bed_name(plan: Plan) -> str:
    """Return packers and gravel as they lie, "" where there are none."""
    ground, units = plan.groundwork, plan.units
    packing, gravel = (ground.packing, ground.gravel) if ground else (None, None)
    parts = []
    if packing is not None:
        low, high = bare(packing.height_least_mm, units), bare(packing.height_most_mm, units)
        parts.append(f"packers {low if low == high else f'{low} to {high}'} high")
    if gravel is not None:
        parts.append(f"gravel {bare(gravel.depth_mm, units)} deep")
    return " on ".join(parts)


def _finished(cut: Cut, levels: Levels | None, units: str) -> list[tuple[float, float, str]]:
    """Return the finished level as a name, told from the house's marks."""
    if levels is None:
        return []
    told = "; ".join(top_from(levels, mark, units) for mark in marks_of(levels)[:2])
    return [(0.0, cut.rows[0][1] * 0.3, f"finished level: {told}")]


def _coach_heights(cut: Cut, fixings: Fixings) -> list[float]:
    """Return where coach screws are drawn: evenly, as far apart as the rim's edges allow.

    In older plans, which tell no distances, evenly down the rim; where deck screws would come
    nearer than a shank, evenly down what is left beneath that.
    """
    coach = fixings.coach_screws
    count = max(1, coach.per_joist_end)
    top, low = cut.board_mm, cut.board_mm + cut.depth_mm
    if coach.top_least_mm is not None and coach.edge_least_mm is not None:
        first, last = top + coach.top_least_mm, low - coach.edge_least_mm
        if count > 1 and first < last:
            return [first + (last - first) * n / (count - 1) for n in range(count)]
    outer = screws_of(fixings, edged=cut.edged[0])
    clear_mm = (outer.length_mm if outer else cut.board_mm) + coach.shank_mm
    if top + cut.depth_mm / (count + 1) - coach.shank_mm / 2 < clear_mm < low:
        top = clear_mm
    return [top + (low - top) * (n + 1) / (count + 1) for n in range(count)]


def _boxes(view: View, cut: Cut) -> Callable[[str, Extent, float], Box]:
    """Return how a rectangle of the section becomes one of the sheet, cut off at the break."""

    def box(layer: str, at: Extent, pen_mm: float) -> Box:
        near, top, far, low = at
        far = min(far, cut.shown_mm)
        return Box(layer=layer, x_mm=view.left_mm + (cut.shown_mm - far) / view.per_mm,
                   y_mm=view.top_mm + top / view.per_mm, width_mm=(far - near) / view.per_mm,
                   height_mm=(low - top) / view.per_mm, pen_mm=pen_mm, fill="white")  # fmt: skip

    return box


def _wood(view: View, cut: Cut) -> list[Shape]:
    """Return joist, rim, fascia and boards; what is cut across is hatched."""
    box = _boxes(view, cut)
    top, inner = cut.board_mm, cut.fascia_mm + cut.rim_mm
    low = top + cut.depth_mm
    joist = box("joists", (inner, top, cut.shown_mm, low), THIN_MM)
    rim = box("rims", (cut.fascia_mm, top, inner, top + cut.rim_depth_mm), OUTLINE_MM)
    shown = [(row, thick_mm) for row, thick_mm in zip(cut.rows, cut.thick_mm, strict=True)
             if row[0] < cut.shown_mm]  # fmt: skip
    boards = [box("boards", (outer, 0.0, far, thick), OUTLINE_MM) for (outer, far), thick in shown]
    packers = [box("packers", (outer, thick, far, top), THIN_MM)
               for (outer, far), thick in shown if thick < top]  # fmt: skip
    shapes: list[Shape] = [joist, rim, *hatch(rim, 3.0), *packers, *boards]
    shapes += [line for board in boards for line in hatch(board, 3.0, rising=False)]
    if cut.fascia_mm:
        bottom = top + cut.fascia_depth_mm
        fascia = box("fascia", (0.0, top, cut.fascia_mm, bottom), OUTLINE_MM)
        shapes += [fascia, *hatch(fascia, 2.0, rising=False)]
    return [*shapes, *_break(view, cut)]


def _break(view: View, cut: Cut) -> list[Shape]:
    """Return the broken line where the deck goes on."""
    x, top = view.left_mm, view.top_mm - 0.5
    low = view.top_mm + (cut.board_mm + cut.depth_mm) / view.per_mm + 3.0
    middle = (view.top_mm + low) / 2
    points = [(x, top), (x, middle - 2.0), (x - 0.9, middle - 1.0), (x + 0.9, middle + 1.0),
              (x, middle + 2.0), (x, low)]  # fmt: skip
    return [
        rule("break", *one, *other) for one, other in pairwise(points)
    ]  # fmt: skip


def _screws(view: View, cut: Cut, fixings: Fixings) -> list[Shape]:
    """Return the deck screws and coach screws, as if seen through the wood."""
    box = _boxes(view, cut)
    coach = fixings.coach_screws
    shapes: list[Shape] = []
    for half, deep, at in deck_shanks(cut, fixings):
        shapes.append(box("deck-screws", (at - half, 0.0, at + half, deep), FINE_MM))
    if fixings.clips is not None:
        shapes += clip_shapes(cut.rows, cut.board_mm, cut.shown_mm, box)
    start, half = cut.fascia_mm + cut.sink_mm, coach.shank_mm / 2
    for y in _coach_heights(cut, fixings) if coach.joist_ends else ():
        shank = (start, y - half, start + coach.length_mm, y + half)
        hole = (cut.fascia_mm, y - 2 * half, start, y + 2 * half)
        head = (start - coach.head_mm, y - 2 * half, start, y + 2 * half)
        shapes += [box("holes", hole, FINE_MM)] if cut.sink_mm else []
        shapes += [box("coach-screws", shank, FINE_MM), box("coach-heads", head, THIN_MM)]
    return shapes


def _leaders(
    view: View, cut: Cut, extent: tuple[float, float], names: list[tuple[float, float, str]]
) -> list[Shape]:
    """Return a dot in every part and a line from it to where its name's own leader begins."""
    shapes: list[Shape] = []
    for down_mm, inwards_mm, _ in names:
        x = view.left_mm + (cut.shown_mm - inwards_mm) / view.per_mm
        y = view.top_mm + down_mm / view.per_mm
        if down_mm <= low_mm(cut):
            shapes.append(Ring(layer="leaders", x_mm=x, y_mm=y, radius_mm=0.5, pen_mm=MEMBER_MM))
            shapes.append(rule("leaders", x, y, view.left_mm + extent[0] + GAP_MM, y))
    return shapes


def _ground(view: View, cut: Cut, extent: tuple[float, float]) -> list[Shape]:
    y = view.top_mm + (low_mm(cut) + DOWN_MM) / view.per_mm
    return [Line(layer="ground", x1_mm=view.left_mm, y1_mm=y, x2_mm=view.left_mm + extent[0],
                 y2_mm=y, pen_mm=MEMBER_MM, dash=DASH)]  # fmt: skip


def _deck_notes(
    cut: Cut, deck: DeckScrews | BorderScrews, fixings: Fixings, heads: str, units: str
) -> tuple[str, str]:  # fmt: skip
    reach_mm = deck.length_mm - cut.board_mm
    screws = "".join(
        f"{what} screws: {size_least(kind.edge_least_mm, units)} or more from a board's edge. "
        for what, kind in (("Deck", fixings.deck_screws), ("Border", fixings.border_screws))
        if kind is not None
    )
    if cut.bearer:
        return (HUNG, f"{screws}Widths of heads are not true.")
    return (
        f"{heads} {coach_note(fixings.coach_screws, units, reach_mm)}",
        f"{screws}Widths of heads are not true.",
    )


def _notes(cut: Cut, frame: Frame, fixings: Fixings, units: str) -> tuple[str, ...]:
    deck, coach = screws_of(fixings, edged=cut.edged[0]), fixings.coach_screws
    rim = f"{frame.rims[-1].mark} " if frame.rims else ""
    heads = f"Coach screws' heads stand {bare(coach.head_mm, units)} proud: no fascia covers them."
    if cut.fascia_mm:
        heads = f"Coach screws' heads are sunk {bare(cut.sink_mm, units)} into the rim."
    what = "bearer" if cut.bearer else "rim"
    notes = [
        f"Square to the {what} {rim}at the {cut.side} side. Screws are seen through the wood.",
        *(
            _deck_notes(cut, deck, fixings, heads, units)
            if deck
            else (f"{heads} {coach_note(coach, units)}", HELD)
        ),
    ]
    notes += [SIGN] if fixings.clips is not None else []
    if cut.fascia_depth_mm > cut.depth_mm:
        below = bare(cut.fascia_depth_mm - cut.depth_mm, units)
        notes.append(f"The fascia reaches {below} below the frame.")
    return tuple(notes)
