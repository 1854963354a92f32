"""Which boards to lift for what lies below, in plan; and the years' inspections as a strip."""

from collections.abc import Iterator, Sequence
from datetime import date
from math import atan2, degrees, dist

from drylay.papers.figures import house_side, placed
from drylay.papers.lettering import Bounds, Point, first_free, width_mm
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
from drylay.papers.outlined_view import ROW_MM as OUTLINED_ROW_MM
from drylay.papers.outlined_view import all_at, datum_view, fitted_view, sides_drawn, way_of
from drylay.papers.ruled import paragraphs, paragraphs_height
from drylay.papers.sheets import title_block
from drylay.papers.svg import svg
from drylay.papers.wording import clean, many, size
from drylay.plan.model import Plan
from drylay.upkeep.model import Calendar, Item, Lift, LiftWay, Located, Top

HIDDEN, REACHED = "2 1", "1.2 0.8"
#: A row is at least so high on paper that its text stands in it.
ROW_MM, LEGIBLE_MM = 3.2, 1.8
SPOT_MM = 2.0
#: Where along a piece or a timber its text may stand.
SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
#: Where along a joist its mark may: off the noggins in its middle.
BAY_SHARES = (0.92, 0.84, 0.76, 0.68, 0.08, 0.16, 0.24, 0.32)
#: Angles nearer to straight than this are.
STRAIGHT_DEG = 0.01


def lift_svg(plan: Plan, lift: Lift, *, spot: Located | None = None) -> bytes:
    """Return the deck in plan with the boards to lift in bold, numbered in their order.

    What is to be reached is dashed; `spot` is marked with a cross.
    """
    sheet, view, around = _view(plan, lift)
    way = lift.ways[0] if lift.ways else None
    turns = {step.piece: step.turn for step in way.steps} if way else {}
    lifted = [top for top in lift.tops if top.mark in turns]
    taken = _around(view, lift, spot)
    shapes = [
        *around,
        *(_piece(view, top) for top in lift.tops if top.mark not in turns),
        *(Area(layer="timbers", corners_mm=all_at(view, under.corners), pen_mm=FINE_MM, dash=HIDDEN)
          for under in lift.timbers),
        *(_lifted(view, top) for top in lifted),
        Area(layer="reach", corners_mm=all_at(view, lift.corners), pen_mm=OUTLINE_MM, dash=REACHED),
        *(_cross(view, spot) if spot else ()),
        *(text for top in lifted for text in _turn(view, top, turns, taken)),
        *(_bay(view, lift, spot, taken) if spot else ()),
        *title_block(sheet, title=plan.title, drawing="What to lift, seen from above",
                     units=plan.units, notes=tuple(_notes(plan, lift, way, spot))),
    ]  # fmt: skip
    title = f"What to lift on {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="lift", title=title, told=_told(lift, way))


def _view(plan: Plan, lift: Lift) -> tuple[Sheet, View, list[Shape]]:
    """Return the sheet, where the deck lies on it, and what is drawn about it."""
    pitch_mm = _pitch_mm(plan) * LEGIBLE_MM / ROW_MM
    if plan.outline is not None:
        sheet, found = fitted_view(
            plan.outline, {}, units=plan.units, pitch_mm=_pitch_mm(plan) * OUTLINED_ROW_MM / ROW_MM
        )
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


def _turn(
    view: View, top: Top, turns: dict[str, int], taken: list[Bounds]
) -> tuple[Lettering, ...]:  # fmt: skip
    """Return a piece's turn and mark along its longest side, the turn alone where it is short."""
    one, other, inward = _longest(all_at(view, top.corners))
    turn = turns[top.mark]
    fitting = [
        text
        for text in (f"{turn}: {top.mark}", f"{turn}")
        if width_mm(text, LETTER_MM) + 1.0 <= dist(one, other)
    ]
    spots = [
        _lettered("turns", _between(one, other, share, inward), (one, other), text)
        for text in fitting
        for share in SHARES
        if _is_inside(share, text, dist(one, other))
    ]
    return first_free(spots, taken) or tuple(spots[:1])


def _is_inside(share: float, text: str, long_mm: float) -> bool:
    return min(share, 1 - share) * long_mm >= width_mm(text, LETTER_MM) / 2 + 1.0


def _longest(corners: Sequence[Point]) -> tuple[Point, Point, Point]:
    """Return a shape's longest side, and the way from it to the middle of its breadth."""
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    one, other = max(sides, key=lambda side: dist(*side))
    way = way_of(one, other)
    offs = [(y - one[1]) * way[0] - (x - one[0]) * way[1] for x, y in corners]
    broad = max(offs, key=abs) / 2
    return one, other, (-way[1] * broad, way[0] * broad)


def _between(one: Point, other: Point, share: float, off: Point) -> Point:
    x = one[0] + (other[0] - one[0]) * share + off[0]
    return x, one[1] + (other[1] - one[1]) * share + off[1]


def _lettered(layer: str, point: Point, side: tuple[Point, Point], text: str) -> Lettering:
    """Return a text that runs along a side, never on its head."""
    (x1, y1), (x2, y2) = side
    deg = degrees(atan2(y2 - y1, x2 - x1))
    deg -= 180 * round(deg / 180)
    upright = abs(abs(deg) - 90) < STRAIGHT_DEG
    slope = 0.0 if upright or abs(deg) < STRAIGHT_DEG else deg
    return Lettering(layer=layer, x_mm=point[0], y_mm=point[1], text=text, knocked=True,
                     turned=upright, slope_deg=slope)  # fmt: skip


def _bay(view: View, lift: Lift, spot: Located, taken: list[Bounds]) -> Iterator[Lettering]:
    """Yield the marks of the timbers beside the spot and under it, each on its timber."""
    for under in lift.timbers:
        if under.mark in (*spot.bay, *spot.over):
            one, other, inward = _longest(all_at(view, under.corners))
            spots = [
                _lettered("bay", _between(one, other, share, inward), (one, other), under.mark)
                for share in BAY_SHARES
            ]
            yield from first_free(spots, taken)


def _around(view: View, lift: Lift, spot: Located | None) -> list[Bounds]:
    """Return what no text may cover: the edge of what is reached, and the spot's cross."""
    xs, ys = zip(*all_at(view, lift.corners), strict=True)
    found = [(min(xs), min(ys), max(xs), max(ys))]
    if spot is not None:
        x, y = (
            view.left_mm + spot.along_mm / view.per_mm,
            view.top_mm + spot.across_mm / view.per_mm,
        )
        found.append((x - SPOT_MM, y - SPOT_MM, x + SPOT_MM, y + SPOT_MM))
    return found


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
        yield f"To reach {lift.reach} nothing is lifted."
        return
    what = "tile" if way.steps[0].kind == "tile" else "piece"
    screws = f"{way.screws} screws" if way.screws is not None else "all their screws"
    clips = f" and {way.clips} clips" if way.clips else ""
    undone = f", undoing {screws}{clips}" if way.screws != 0 or way.clips else ""
    yield (
        f"To reach {lift.reach} (dashed): lift {many(len(way.steps), what)} (bold) in their order, "
        f"from {way.begins}{undone}."
    )
    yield f"No {what} is spoilt by it." if way.cut_free else "The first board is sawn out and lost."


def _told(lift: Lift, way: LiftWay | None) -> str:
    steps = ", ".join(step.piece for step in way.steps) if way else "nothing"
    return f"To reach {lift.reach}, lift in this order: {steps}."


#: The strip: the sheet's width, its margin, the column of years, heights of heads and of a year.
WIDE_MM, EDGE_MM, YEARS_MM, HEAD_MM, YEAR_MM, BOX_MM = 210.0, 10.0, 16.0, 16.0, 14.0, 6.0
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
        *_visits(calendar, years[0], month_mm),
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


def _visits(calendar: Calendar, first_year: int, month_mm: float) -> Iterator[Shape]:
    """Yield a bar on each visit's day, its letter on it and the day below."""
    taken: list[Bounds] = []
    for visit in calendar.visits:
        days = (visit.day - date(visit.day.year, visit.day.month, 1)).days
        x = _left(visit.day.month - 1 + days / 31, month_mm)
        y = _top(visit.day.year - first_year)
        yield Line(layer="visits", x1_mm=x, y1_mm=y, x2_mm=x, y2_mm=y + BOX_MM, pen_mm=OUTLINE_MM)
        letters = [(y + BOX_MM / 2, 3.0), (y - 1.8, 3.0)]
        yield from first_free(
            [_sign(x, at, SIGNS[visit.kind], size) for at, size in letters], taken
        )
        below = [_sign(x, y + BOX_MM + down, str(visit.day.day), LETTER_MM) for down in (2.0, 4.6)]
        yield from first_free(below, taken)


def _sign(x: float, y: float, text: str, size_mm: float) -> Lettering:
    return Lettering(layer="visits", x_mm=x, y_mm=y, text=text, size_mm=size_mm, knocked=True)


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
