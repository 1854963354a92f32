"""How a frame's drawing is laid out: its sheet, which openings stand enlarged on it, which not."""

from collections.abc import Sequence
from itertools import accumulate

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
#: So many further pages are begun because the last is full: what is left stands on larger paper.
#: A scale of its own begins a page too, so that a frame may have as many as this in all.
FULL_PAGES, MOST_PAGES = 5, 12


@frozen(kw_only=True)
class Column:
    """Details one under the other, each with how far down it begins; a table may stand on top."""

    width_mm: float
    height_mm: float
    details: tuple[tuple[Framing, float], ...] = ()


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
    count, most_mm = 0, max(_handy(units).width_mm, sheet.width_mm)
    for most in range(len(details), 0, -1):
        wider, there = _fitted(outline, subframe, units, edges, table, details[:most])
        if wider.per_mm == sheet.per_mm and wider.width_mm <= most_mm:
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
                       aside_mm=aside_mm(units, table, beside))  # fmt: skip


def aside_mm(units: str, table: Table, beside: Sequence[Framing]) -> tuple[float, float]:
    """Return the paper at the sheet's right that the table takes, and details under and beside."""
    columns = aside_columns(units, table, beside)
    wide = _wide_mm(columns)
    high = max((column.height_mm for column in columns), default=0.0)
    return (wide + BESIDE_MM if columns else 0.0), high


def aside_columns(units: str, table: Table, beside: Sequence[Framing]) -> list[Column]:
    """Return the columns at the sheet's right, the rightmost first: it begins with the table."""
    first = [Column(width_mm=table_width(table), height_mm=table_mm(table))] if table.rows else []
    return _in_columns(beside, room(_handy(units))[1], first)


def _in_columns(
    details: Sequence[Framing], high_mm: float, first: Sequence[Column] = ()
) -> list[Column]:  # fmt: skip
    """Return details one under the other, a new column where the last is full."""
    columns = [*first]
    for each in details:
        of = room_of(each)
        last = columns[-1] if columns else None
        if last is None or last.height_mm + BETWEEN_MM + of.height_mm > high_mm:
            columns.append(Column(width_mm=of.width_mm, height_mm=of.height_mm,
                                  details=((each, 0.0),)))  # fmt: skip
            continue
        y = last.height_mm + BETWEEN_MM
        columns[-1] = Column(width_mm=max(last.width_mm, of.width_mm), height_mm=y + of.height_mm,
                             details=(*last.details, (each, y)))  # fmt: skip
    return columns


def table_mm(table: Table) -> float:
    """Return the height of a table; none of one without rows."""
    return head_height(table) + CELL_MM * len(table.rows) if table.rows else 0.0


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
            way
            for scale in scales_within(plan.units, per_mm)
            for way in _ways(
                framing(outline, subframe, opening, units=plan.units, zero=zero, at_scale=scale)
            )
        ]
        taken = [(each, room_of(each)) for each in drawn]
        fits = [each for each, of in taken if of.width_mm <= wide and of.height_mm <= high]
        found.append((fits or drawn[-1:])[0])
    return found


def _ways(detail: Framing) -> list[Framing]:
    """Return a detail with its tables under it, and beside it: the figure may be larger then."""
    return [detail, evolve(detail, tables_beside=True)] if detail.tables else [detail]


def _pages(details: Sequence[Framing], units: str) -> list[FramingPage]:
    """Return details in columns, a new page where the last is full or of another scale."""
    wide, high = room(_handy(units))
    pages: list[list[Framing]] = []
    for each in sorted(details, key=lambda detail: detail.per_mm):
        more = [*pages[-1], each] if pages else []
        full = not more or _wide_mm(_in_columns(more, high)) > wide
        if not more or more[0].scale != each.scale or (full and len(pages) < FULL_PAGES):
            pages.append([each])
        else:
            pages[-1] = more
    return [_page(_in_columns(each, high), units) for each in pages]


def _wide_mm(columns: Sequence[Column]) -> float:
    return sum(column.width_mm + BETWEEN_MM for column in columns) - BETWEEN_MM


def _page(columns: Sequence[Column], units: str) -> FramingPage:
    """Return a page on the smallest paper that holds what stands on it."""
    wide, high = _wide_mm(columns), max(column.height_mm for column in columns)
    first = columns[0].details[0][0]
    fitting = [
        sheet for sheet in sheets(units)
        if sheet.per_mm == first.per_mm and room(sheet)[0] >= wide and room(sheet)[1] >= high
    ]  # fmt: skip
    sheet = next(iter(fitting), evolve(roll(units, wide, high), per_mm=first.per_mm,
                                       scale=first.scale))  # fmt: skip
    lefts = accumulate((column.width_mm + BETWEEN_MM for column in columns), initial=INSET_MM)
    return FramingPage(sheet=sheet, details=tuple(
        (each, x, INSET_MM + y)
        for x, column in zip(lefts, columns, strict=False) for each, y in column.details
    ))  # fmt: skip


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
