"""How a frame's drawing is laid out: its sheet, which openings stand enlarged on it, which not."""

from collections.abc import Sequence

from attrs import evolve, frozen

from drylay.outline.model import Outline
from drylay.papers.model import Edge, Sheet, Table, View
from drylay.papers.outlined_first_peg import DATUM, first_peg
from drylay.papers.outlined_frame_sizes import bevel_table, frame_edges
from drylay.papers.outlined_framing import (
    Framing,
    framing,
    room_of,
    scales_within,
    wants_detail,
)
from drylay.papers.outlined_view import ROW_MM, fitted_view
from drylay.papers.ruled import CELL_MM, head_height, table_width
from drylay.papers.sheets import INSET_MM, roll, room, sheets
from drylay.papers.wording import marks_told
from drylay.plan.model import Plan
from drylay.subframe.model import Subframe

#: From the figure to what stands beside it; between details.
BESIDE_MM, BETWEEN_MM = 6.0, 8.0
#: A bay is at least so wide on paper, so that a mark stands in it at least upright.
BAY_MM = 4.2
#: Sheets that common printers take; on these further pages stand.
HANDY = {"metric": "A3", "imperial": "Tabloid"}
#: Pages of a frame at most; the last one is as large as it has to be.
MOST_PAGES = 9


@frozen(kw_only=True)
class FramingPage:
    """A page of details of one scale, each with its corner on the sheet."""

    sheet: Sheet
    details: tuple[tuple[Framing, float, float], ...]


@frozen(kw_only=True)
class FrameLayout:
    """The sheet of a whole frame, and its `details`: some `beside` it, the rest on pages."""

    sheet: Sheet
    corner: View
    edges: dict[str, Edge]
    table: Table
    details: tuple[Framing, ...]
    beside: tuple[Framing, ...]
    pages: tuple[FramingPage, ...]


def frame_layout(plan: Plan, outline: Outline, subframe: Subframe) -> FrameLayout:
    """Return how a frame is drawn: as many details beside it, the first first, as its sheet takes.

    Details leave the scale as it is, and the paper, unless that is a smaller one than A3.
    """
    table, units, zero = bevel_table(subframe, plan.units), plan.units, first_peg(plan) or DATUM
    every = frame_edges(outline, subframe, units, zero)
    sheet, corner = _fitted(outline, subframe, units, every, table, ())
    details = _details(plan, outline, subframe, sheet.per_mm)
    told = {mark for each in details for mark in each.own}
    edges = frame_edges(outline, subframe, units, zero, told)
    count = 0
    for most in range(len(details), 0, -1):
        wider, there = _fitted(outline, subframe, units, edges, table, details[:most])
        if wider.per_mm == sheet.per_mm and wider.width_mm <= max(_handy_mm(units), sheet.width_mm):
            count, sheet, corner = most, wider, there
            break
    return FrameLayout(sheet=sheet, corner=corner, edges=edges, table=table,
                       details=tuple(details), beside=tuple(details[:count]),
                       pages=tuple(_pages(details[count:], units)))  # fmt: skip


def _fitted(  # noqa: PLR0917 - all that stands on the sheet
    outline: Outline, subframe: Subframe, units: str, edges: dict[str, Edge], table: Table,
    beside: Sequence[Framing],
) -> tuple[Sheet, View]:  # fmt: skip
    return fitted_view(outline, edges, units=units, pitch_mm=subframe.centres_mm * ROW_MM / BAY_MM,
                       aside_mm=aside_mm(table, beside))  # fmt: skip


def aside_mm(table: Table, beside: Sequence[Framing]) -> tuple[float, float]:
    """Return the paper at the sheet's right that the table takes, and details under it."""
    rooms = [room_of(each) for each in beside]
    wide = [each.width_mm for each in rooms] + ([table_width(table)] if table.rows else [])
    high = sum(each.height_mm + BETWEEN_MM for each in rooms) + table_mm(table)
    return (max(wide) + BESIDE_MM if wide else 0.0), high


def table_mm(table: Table) -> float:
    """Return the height of a table; none of one without rows."""
    return head_height(table) + CELL_MM * len(table.rows) if table.rows else 0.0


def _handy_mm(units: str) -> float:
    return _handy(units).width_mm


def _handy(units: str) -> Sheet:
    return next(sheet for sheet in sheets(units) if sheet.paper == HANDY[units])


def _details(plan: Plan, outline: Outline, subframe: Subframe, per_mm: float) -> list[Framing]:
    """Return the openings to draw enlarged, each as large as goes on a page."""
    zero, found = first_peg(plan) or DATUM, []
    wide, high = room(_handy(plan.units))
    for opening in outline.openings:
        if not wants_detail(opening, per_mm, plan.units):
            continue
        drawn = [
            framing(outline, subframe, opening, units=plan.units, zero=zero, at_scale=scale)
            for scale in scales_within(plan.units, per_mm)
        ]
        taken = [(each, room_of(each)) for each in drawn]
        fits = [each for each, of in taken if of.width_mm <= wide and of.height_mm <= high]
        found.append((fits or drawn[-1:])[0])
    return found


def _pages(details: Sequence[Framing], units: str) -> list[FramingPage]:
    """Return details in rows, a new page where the last is full or of another scale."""
    pages: list[list[tuple[Framing, float, float]]] = []
    x = y = row = 0.0
    wide, high = room(_handy(units))
    for each in details:
        of = room_of(each)
        if x and x + of.width_mm > wide:
            x, y, row = 0.0, y + row + BETWEEN_MM, 0.0
        last = pages[-1][0][0].scale if pages else ""
        if last != each.scale or (y + of.height_mm > high and len(pages) < MOST_PAGES - 1):
            pages.append([])
            x = y = row = 0.0
        pages[-1].append((each, INSET_MM + x, INSET_MM + y))
        x, row = x + of.width_mm + BETWEEN_MM, max(row, of.height_mm)
    return [_page(each, units) for each in pages]


def _page(details: list[tuple[Framing, float, float]], units: str) -> FramingPage:
    """Return a page on the smallest paper, no smaller than A3, that holds what stands on it."""
    rooms = [(x, y, room_of(each)) for each, x, y in details]
    wide = max(x + of.width_mm for x, _, of in rooms) - INSET_MM
    high = max(y + of.height_mm for _, y, of in rooms) - INSET_MM
    first = details[0][0]
    fitting = [
        sheet for sheet in sheets(units)
        if sheet.per_mm == first.per_mm and sheet.width_mm >= _handy_mm(units)
        and room(sheet)[0] >= wide and room(sheet)[1] >= high
    ]  # fmt: skip
    sheet = next(iter(fitting), evolve(roll(units, wide, high), per_mm=first.per_mm,
                                       scale=first.scale))  # fmt: skip
    return FramingPage(sheet=sheet, details=tuple(details))


def pages_told(layout: FrameLayout) -> list[str]:
    """Return the note where each opening stands enlarged; nothing where none does."""
    parts = [("here", [each.opening.mark for each in layout.beside])]
    parts += [
        (f"on {page_file(number)}", [each.opening.mark for each, _, _ in page.details])
        for number, page in enumerate(layout.pages, 2)
    ]
    told = "; ".join(f"{marks_told(marks)} {where}" for where, marks in parts if marks)
    return [f"Enlarged, with the marks of all that stands there: {told}."] if told else []


def page_file(number: int) -> str:
    """Return the file of a frame's page: the whole frame is the first."""
    return "frame.svg" if number == 1 else f"frame-{number}.svg"
