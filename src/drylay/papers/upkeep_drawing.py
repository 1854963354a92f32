"""Which boards to lift for what lies below, in plan; and the years' inspections as a strip."""

from collections.abc import Iterator
from datetime import date
from math import atan2, degrees, dist

from drylay.papers.figures import house_side, placed
from drylay.papers.lettering import width_mm
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    Area,
    Box,
    Lettering,
    Line,
    Ring,
    Shape,
    Sheet,
    View,
)
from drylay.papers.outlined_view import all_at, datum_view, fitted_view, sides_drawn
from drylay.papers.ruled import paragraphs, paragraphs_height
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import clean, many, size
from drylay.plan.model import Plan
from drylay.upkeep.model import Calendar, Item, Lift, LiftWay, Located, Top, Visit

HIDDEN, REACHED = "2 1", "1.2 0.8"
#: A row is at least so high on paper that its text stands in it.
ROW_MM, LEGIBLE_MM = 3.2, 1.8
SPOT_MM = 2.0


def lift_svg(plan: Plan, lift: Lift, *, spot: Located | None = None) -> bytes:
    """Return the deck in plan with the boards to lift in bold, numbered in their order.

    What is to be reached is dashed; `spot` is marked with a cross.
    """
    sheet, view, around = _view(plan, lift)
    way = lift.ways[0] if lift.ways else None
    turns = {step.piece: step.turn for step in way.steps} if way else {}
    shapes = [
        *around,
        *(_piece(view, top) for top in lift.tops if top.mark not in turns),
        *(Area(layer="timbers", corners_mm=all_at(view, under.corners), pen_mm=FINE_MM, dash=HIDDEN)
          for under in lift.timbers),
        *(_lifted(view, top) for top in lift.tops if top.mark in turns),
        Area(layer="reach", corners_mm=all_at(view, lift.corners), pen_mm=OUTLINE_MM, dash=REACHED),
        *(text for top in lift.tops if top.mark in turns for text in _turn(view, top, turns)),
        *(_cross(view, spot) if spot else ()),
        *title_block(sheet, title=plan.title, drawing="Boards to lift, seen from above",
                     units=plan.units, notes=tuple(_notes(plan, lift, way, spot))),
    ]  # fmt: skip
    title = f"Boards to lift on {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="lift", title=title, told=_told(lift, way))


def _view(plan: Plan, lift: Lift) -> tuple[Sheet, View, list[Shape]]:
    """Return the sheet, where the deck lies on it, and what is drawn about it."""
    pitch_mm = _pitch_mm(plan) * LEGIBLE_MM / ROW_MM
    if plan.outline is not None:
        sheet, found = fitted_view(plan.outline, {}, units=plan.units, pitch_mm=_pitch_mm(plan))
        view = datum_view(plan.outline, found)
        return sheet, view, sides_drawn(view, plan.outline)
    along = max(spot.along_mm for top in lift.tops for spot in top.corners)
    across = max(spot.across_mm for top in lift.tops for spot in top.corners)
    sheet, view = placed("along", (along, across), {}, units=plan.units, pitch_mm=pitch_mm)
    return sheet, view, house_side(view, (along / view.per_mm, across / view.per_mm))


def _pitch_mm(plan: Plan) -> float:
    if plan.surface is not None:
        return plan.surface.board_width_mm
    if plan.laying is not None:
        return plan.laying.board_width_mm
    return plan.tiles.tile_width_mm if plan.tiles else 100.0


def _piece(view: View, top: Top) -> Area:
    return Area(layer="boards", corners_mm=all_at(view, top.corners), pen_mm=FINE_MM, fill="white")


def _lifted(view: View, top: Top) -> Area:
    return Area(layer="lifted", corners_mm=all_at(view, top.corners), pen_mm=OUTLINE_MM)


def _turn(view: View, top: Top, turns: dict[str, int]) -> Iterator[Lettering]:
    """Yield a piece's turn and mark along its longest side, the turn alone where it is short."""
    corners = all_at(view, top.corners)
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    (x1, y1), (x2, y2) = max(sides, key=lambda side: dist(*side))
    deg = degrees(atan2(y2 - y1, x2 - x1))
    deg -= 180 * round(deg / 180)  # -90 to 90: no text stands on its head
    upright = abs(abs(deg) - 90) < 0.01
    x = sum(x for x, _ in corners) / len(corners)
    y = sum(y for _, y in corners) / len(corners)
    turn = turns[top.mark]
    for text in (f"{turn}: {top.mark}", f"{turn}"):
        if width_mm(text, LETTER_MM) + 1.0 <= dist((x1, y1), (x2, y2)):
            yield Lettering(layer="turns", x_mm=x, y_mm=y, text=text, knocked=True, turned=upright,
                            slope_deg=0.0 if upright or abs(deg) < 0.01 else deg)  # fmt: skip
            return


def _cross(view: View, spot: Located) -> Iterator[Shape]:
    x, y = view.left_mm + spot.along_mm / view.per_mm, view.top_mm + spot.across_mm / view.per_mm
    yield Ring(layer="spot", x_mm=x, y_mm=y, radius_mm=SPOT_MM, pen_mm=MEMBER_MM)
    for dx, dy in ((SPOT_MM, SPOT_MM), (SPOT_MM, -SPOT_MM)):
        yield Line(layer="spot", x1_mm=x - dx, y1_mm=y - dy, x2_mm=x + dx, y2_mm=y + dy,
                   pen_mm=MEMBER_MM)  # fmt: skip


def _notes(plan: Plan, lift: Lift, way: LiftWay | None, spot: Located | None) -> Iterator[str]:
    if spot is not None:
        place = f"{size(spot.along_mm, plan.units)} along, {size(spot.across_mm, plan.units)} away"
        below = f"; between {' and '.join(spot.bay)}" if spot.bay else ""
        yield f"Spot (cross): {place}, {spot.what} {' '.join(spot.pieces)}{below}."
    if way is None:
        yield f"To reach {lift.reach} no board is lifted."
        return
    pieces = many(len(way.steps), "piece")
    screws = f"{way.screws} screws" if way.screws is not None else "all their screws"
    clips = f" and {way.clips} clips" if way.clips else ""
    yield (
        f"To reach {lift.reach} (dashed): lift {pieces} (bold) in their order, from {way.begins}, "
        f"undoing {screws}{clips}."
    )
    yield "No board is spoilt by it." if way.cut_free else "The first board is sawn out and lost."


def _told(lift: Lift, way: LiftWay | None) -> str:
    steps = ", ".join(step.piece for step in way.steps) if way else "nothing"
    return f"To reach {lift.reach}, lift in this order: {steps}."


#: The strip: the sheet's width, its margin, the column of years, heights of heads and of a year.
WIDE_MM, EDGE_MM, YEARS_MM, HEAD_MM, YEAR_MM, BOX_MM = 210.0, 10.0, 16.0, 22.0, 11.0, 6.0
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
#: What stands on the strip for each kind of visit.
SIGNS = {"hand_over": "H", "three_months": "3", "spring": "S", "autumn": "A", "task": "U"}


def calendar_svg(calendar: Calendar) -> bytes:
    """Return the years' inspections as a strip of months, a letter for each visit, and what for."""
    years = range(calendar.visits[0].day.year, calendar.visits[-1].day.year + 1)
    month_mm = (WIDE_MM - 2 * EDGE_MM - YEARS_MM) / 12
    notes = tuple(_kinds(calendar))
    below_mm = EDGE_MM + HEAD_MM + YEAR_MM * len(years) + 2.0
    wide_mm = WIDE_MM - 2 * EDGE_MM
    high_mm = below_mm + paragraphs_height(notes, wide_mm) + EDGE_MM
    shapes = [
        Lettering(layer="title", x_mm=EDGE_MM, y_mm=EDGE_MM + 3.0, size_mm=4.0, anchor="start",
                  text=clean(f"{calendar.title}: when to look at it", 70)),
        *_months(month_mm),
        *(shape for row, year in enumerate(years) for shape in _year(row, year, month_mm)),
        *(shape for visit in calendar.visits for shape in _visit(visit, years[0], month_mm)),
        *paragraphs(notes, "notes", EDGE_MM, below_mm, wide_mm),
    ]  # fmt: skip
    sheet = Sheet(paper="strip", width_mm=WIDE_MM, height_mm=high_mm, per_mm=0.0, scale="")
    days = "; ".join(f"{visit.day.isoformat()} {visit.title}" for visit in calendar.visits)
    title = f"{clean(calendar.title)}: inspection calendar"
    return svg(shapes, sheet=sheet, name="calendar", title=title, told=days)


def _left(month: float, month_mm: float) -> float:
    return EDGE_MM + YEARS_MM + month * month_mm


def _top(row: int) -> float:
    return EDGE_MM + HEAD_MM + row * YEAR_MM


def _months(month_mm: float) -> Iterator[Shape]:
    for month, name in enumerate(MONTHS):
        yield Lettering(layer="months", x_mm=_left(month + 0.5, month_mm), y_mm=_top(0) - 3.0,
                        text=name)  # fmt: skip


def _year(row: int, year: int, month_mm: float) -> Iterator[Shape]:
    yield Lettering(layer="years", x_mm=EDGE_MM, y_mm=_top(row) + BOX_MM / 2, text=str(year),
                    size_mm=3.0, anchor="start")  # fmt: skip
    for month in range(12):
        yield Box(layer="strip", x_mm=_left(month, month_mm), y_mm=_top(row), width_mm=month_mm,
                  height_mm=BOX_MM, pen_mm=FINE_MM)  # fmt: skip


def _visit(visit: Visit, first_year: int, month_mm: float) -> Iterator[Shape]:
    """Yield a bar on the visit's day, its letter on it and the day below."""
    start = date(visit.day.year, visit.day.month, 1)
    part = visit.day.month - 1 + (visit.day - start).days / 31
    x, y = _left(part, month_mm), _top(visit.day.year - first_year)
    yield Line(layer="visits", x1_mm=x, y1_mm=y, x2_mm=x, y2_mm=y + BOX_MM, pen_mm=OUTLINE_MM)
    yield Lettering(layer="visits", x_mm=x, y_mm=y + BOX_MM / 2, text=SIGNS[visit.kind],
                    size_mm=3.0, knocked=True)  # fmt: skip
    yield Lettering(layer="days", x_mm=x, y_mm=y + BOX_MM + 2.0, text=str(visit.day.day))


def _kinds(calendar: Calendar) -> Iterator[str]:
    """Yield what each kind of visit is for, every item once, with its figures."""
    for kind, sign in SIGNS.items():
        visits = [visit for visit in calendar.visits if visit.kind == kind]
        if visits:
            items = dict.fromkeys(_item(item) for visit in visits for item in visit.items)
            yield f"{sign} {visits[0].title}: {'; '.join(items)}."
    yield (
        "Figures are common practice, no source, unless the calendar says otherwise. What fails at "
        "a post, a bearer, a joist, a guard or the ledger is for a licensed professional."
    )


def _item(item: Item) -> str:
    figures = [
        f"{hold.limit:g} {hold.unit} at most" for hold in item.holds if hold.limit is not None
    ]
    return clean(item.what, 90) + (f" ({', '.join(figures)})" if figures else "")
