"""A Pareto set as a picture: its rows and the beaten ones by two measures, each told below."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import pairwise

from attrs import frozen

from drylay.compare.chart_axes import axis_name, cell_told, figures_of, value_told
from drylay.compare.chart_marks import along, crowd_of, evenly, labelled, lean, thinned
from drylay.compare.chart_sheet import AFTER_MM, TOP_MM, Panel, chart, framed, panel_of
from drylay.compare.row_reading import exact_of, put_in, told_value
from drylay.compare.study_model import ParetoSet, Row
from drylay.papers.lettering import Bounds, Point
from drylay.papers.model import FINE_MM, MEMBER_MM, Box, Ring, Shape, Trace
from drylay.papers.wording import many

#: Height of the panel of two measures, of each of several, and of one measure alone; and room
#: above each for its name.
ONE_MM, EACH_MM, ALONE_MM, NAME_MM = 100.0, 62.0, 24.0, 9.0
#: More panels, rows told and marks of all panels than these help nobody.
MOST_PANELS, MOST_LISTED, MOST_BEATEN, MOST_SET = 4, 12, 1000, 800
#: Room for the figures of an axis where panels stand one under the other.
FIGURES_MM = 18.0
#: So many of the rows that stand in one point are named there.
MOST_NAMED = 3
#: Half a side of a filled mark, and an open mark's radius.
SET_MM, BEATEN_MM = 0.8, 0.55
#: Marks of the set nearer than this, and beaten ones, stand as one: for the eye they are.
NEAR_SET_MM, NEAR_BEATEN_MM = 0.3, 1.0
BETTER = {"least": "less is better", "most": "more is better"}


@frozen(kw_only=True)
class _View:
    """One panel: the measures across and up it, "" up it where there is but one."""

    panel: Panel
    across: str
    up: str

    def at(self, row: Row) -> Point:
        """Return where a row stands on the sheet."""
        across = exact_of(row.get(self.across)) or Decimal(0)
        up = (exact_of(row.get(self.up)) or Decimal(0)) if self.up else Decimal("0.5")
        return self.panel.across.at_mm(across), self.panel.up.at_mm(up)


@frozen(kw_only=True)
class _Drawn:
    """A panel's shapes, how many marks of the set and of beaten rows they hold, and how near."""

    shapes: tuple[Shape, ...]
    of_set: int
    of_beaten: int
    beaten_mm: float


def svg_of(found: ParetoSet) -> bytes:
    """Return the picture as SVG, black on white: the set filled and joined, beaten rows open.

    Of more than two measures each is drawn against the first one.
    """
    views, listed = _views(found), evenly(found.rows, MOST_LISTED)
    drawn = [_drawn(found, view, listed, len(views)) for view in views]
    told = tuple(_told(found, row) for row in listed)
    below_mm = views[-1].panel.bounds[3] + AFTER_MM
    return chart(
        (shape for each in drawn for shape in each.shapes),
        name="pareto",
        title="Decks that no other beats",
        under=_under(found),
        notes=(*_notes(found, drawn), *told, *_more(found)),
        told="; ".join((_under(found), *(_axis(found, name) for name, _ in found.aims), *told)),
        below_mm=below_mm,
    )


def _under(found: ParetoSet) -> str:
    return f"{len(found.rows)} of {many(found.among, 'deck')}"


def _views(found: ParetoSet) -> list[_View]:
    first, *others = (name for name, _ in found.aims)
    names = others[:MOST_PANELS] or [""]
    high_mm = EACH_MM if len(names) > 1 else ONE_MM if others else ALONE_MM
    rows = (*found.rows, *found.beaten)
    return [
        _View(
            panel=panel_of(
                figures_of(row.get(first) for row in rows),
                figures_of(row.get(name) for row in rows),
                top_mm=TOP_MM + index * (NAME_MM + high_mm + AFTER_MM),
                high_mm=high_mm,
                room_mm=FIGURES_MM if len(names) > 1 else 0.0,
            ),
            across=first,
            up=name,
        )
        for index, name in enumerate(names)
    ]


def _drawn(found: ParetoSet, view: _View, listed: Sequence[Row], panels: int) -> _Drawn:
    points, others = [view.at(row) for row in found.rows], [view.at(row) for row in found.beaten]
    marks, _ = thinned(points, most=MOST_SET // panels, least_mm=NEAR_SET_MM)
    beaten, beaten_mm = thinned(others, most=MOST_BEATEN // panels, least_mm=NEAR_BEATEN_MM)
    line = _joined(found, points) if len(found.aims) == 2 else ()
    taken: list[Bounds] = []
    crowd = crowd_of((*beaten, *marks, *along(line)))
    shapes = (
        *framed(view.panel, _axis(found, view.across), _axis(found, view.up) if view.up else ""),
        *(Ring(layer="beaten", x_mm=x, y_mm=y, radius_mm=BEATEN_MM, pen_mm=FINE_MM)
          for x, y in beaten),
        *([Trace(layer="cost", points_mm=lean(line), pen_mm=MEMBER_MM)] if len(line) > 1 else ()),
        *(_filled(point) for point in marks),
        *labelled(_labels(found, view, listed), panel=view.panel, taken=taken, crowd=crowd),
    )  # fmt: skip
    return _Drawn(shapes=shapes, of_set=len(marks), of_beaten=len(beaten), beaten_mm=beaten_mm)


def _filled(point: Point) -> Box:
    return Box(layer="marks", x_mm=point[0] - SET_MM, y_mm=point[1] - SET_MM, width_mm=2 * SET_MM,
               height_mm=2 * SET_MM, pen_mm=0.0, fill="black")  # fmt: skip


def _axis(found: ParetoSet, name: str) -> str:
    aim = dict(found.aims)[name]
    values = [row.get(name) for row in (*found.rows, *found.beaten)]
    return f"{axis_name(name, values, found.currency)} ({BETTER[aim]})"


def _joined(found: ParetoSet, points: Sequence[Point]) -> list[Point]:
    """Return the stepped line through the set: what any deck of it reaches at least.

    From a row on, to the next one, no better figure than that row's is to be had.
    """
    order = sorted(points)
    holds = found.aims[0][1] == "least"
    line = order[:1]
    for one, other in pairwise(order):
        line += [(other[0], one[1]) if holds else (one[0], other[1]), other]
    return line


def _labels(
    found: ParetoSet, view: _View, listed: Sequence[Row]
) -> list[tuple[Point, str]]:  # fmt: skip
    """Return the numbers of the cases listed below, those of one point together."""
    at: dict[Point, list[str]] = {}
    for row in listed:
        at.setdefault(view.at(row), []).append(_number(found, row))
    return [
        (point, " ".join([*numbers[:MOST_NAMED], *(["..."] if numbers[MOST_NAMED:] else [])]))
        for point, numbers in at.items()
    ]


def _number(found: ParetoSet, row: Row) -> str:
    """Return a row's case number; its place in the set where it has none."""
    case = row.get("case")
    if case is None:
        case = next(index for index, each in enumerate(found.rows) if each is row)
    return value_told(case)


def _told(found: ParetoSet, row: Row) -> str:
    """Return a row in words: what was put into its brief, then its measures."""
    put = (
        name for name in _changed(found) if row.get(name) is not None
    )  # else as the brief has it
    changed = ", ".join(cell_told(name, row) for name in put)
    aims = ", ".join(cell_told(name, row, found.currency) for name, _ in found.aims)
    return f"{_number(found, row)}: {f'{changed}; ' if changed else ''}{aims}"


def _changed(found: ParetoSet) -> list[str]:
    """Return the columns of what was put into briefs, without those alike in every row."""
    rows = (*found.rows, *found.beaten)
    put = [name for name in put_in(rows[0]) if name != "case"]
    return [name for name in put if len({told_value(row.get(name)) for row in rows}) > 1]


def _notes(found: ParetoSet, drawn: Sequence[_Drawn]) -> Iterator[str]:
    joined = ", joined by the line of what can be had" if len(found.aims) == 2 else ""
    yield f"Filled: no other deck is better in one of these without being worse in another{joined}."
    if found.beaten:
        yield f"Open: the {many(len(found.beaten), 'deck')} that another one beats."
    if any(each.of_beaten < len(found.beaten) for each in drawn):
        yield (
            f"Of open marks within {max(each.beaten_mm for each in drawn):.1f} mm one stands for "
            "all."
        )
    if any(each.of_set < len(found.rows) for each in drawn):
        yield "Filled marks that would cover each other are drawn once."
    if found.without:
        yield f"{many(found.without, 'deck')} left out: not to be built, or without one of these."
    hidden = len(found.aims) - 1 - MOST_PANELS
    if hidden > 0:
        yield f"{many(hidden, 'more measure')} not drawn: the text tells them."
    if found.rows:
        yield "Numbers are cases, as in the table:"


def _more(found: ParetoSet) -> Iterator[str]:
    more = len(found.rows) - MOST_LISTED
    if more > 0:
        yield f"and {more} more: the table has them all."
