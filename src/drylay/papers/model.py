"""The nouns of a drawing, all in mm of paper: x to the right, y down, from the sheet's corner."""

from attrs import frozen

#: Pen widths of ISO 128: outlines, members, dimension lines, and edges a gap apart.
OUTLINE_MM, MEMBER_MM, THIN_MM, FINE_MM = 0.5, 0.35, 0.25, 0.13
#: The smallest lettering on any sheet.
LETTER_MM = 2.5


@frozen(kw_only=True)
class Line:
    """A straight line; `dash` is "" or a dash pattern in mm."""

    layer: str
    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    pen_mm: float = THIN_MM
    dash: str = ""


@frozen(kw_only=True)
class Trace:
    """A line through points in their order, open at its ends; `dash` runs on round its corners."""

    layer: str
    points_mm: tuple[tuple[float, float], ...]
    pen_mm: float = THIN_MM
    dash: str = ""


@frozen(kw_only=True)
class Box:
    """A rectangle, its corner nearest the sheet's; `fill` is "none", "white" or "black"."""

    layer: str
    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    pen_mm: float = MEMBER_MM
    fill: str = "none"


@frozen(kw_only=True)
class Ring:
    """A circle; `fill` is as a box's."""

    layer: str
    x_mm: float
    y_mm: float
    radius_mm: float
    pen_mm: float = MEMBER_MM
    fill: str = "none"


@frozen(kw_only=True)
class Area:
    """A shape of straight sides through its corners, closed; `fill` is as a box's."""

    layer: str
    corners_mm: tuple[tuple[float, float], ...]
    pen_mm: float = MEMBER_MM
    fill: str = "none"
    dash: str = ""


@frozen(kw_only=True)
class Lettering:
    """A line of text, `x_mm`, `y_mm` the middle of its height at its anchor.

    `turned` text reads from the right of the sheet; else it slopes down by `slope_deg` as it is
    read. `knocked` text stands on white.
    `most_mm`, where it is not 0, is a width the text may not exceed.
    """

    layer: str
    x_mm: float
    y_mm: float
    text: str
    size_mm: float = LETTER_MM
    anchor: str = "middle"
    turned: bool = False
    slope_deg: float = 0.0
    knocked: bool = False
    most_mm: float = 0.0


Shape = Line | Trace | Box | Ring | Area | Lettering


@frozen(kw_only=True)
class View:
    """Where a figure lies on the sheet: its corner, and mm of deck per mm of paper."""

    left_mm: float
    top_mm: float
    per_mm: float
    run: str


@frozen(kw_only=True)
class Mark:
    """One running dimension: how far from the datum (mm of deck), and what is written there."""

    at_mm: float
    text: str


@frozen(kw_only=True)
class Span:
    """One dimension between two points of an edge (mm of deck), and what is written there."""

    from_mm: float
    to_mm: float
    text: str


@frozen(kw_only=True)
class Edge:
    """What stands outside one edge of a figure: running dimensions or plain ones.

    Labels of running ones go in as many as `columns` where they stand close.
    """

    marks: tuple[Mark, ...] = ()
    spans: tuple[Span, ...] = ()
    columns: int = 3


@frozen(kw_only=True)
class Sheet:
    """A paper size and scale: `per_mm` mm of deck to one of paper, 0 where no deck is drawn."""

    paper: str
    width_mm: float
    height_mm: float
    per_mm: float
    scale: str


@frozen(kw_only=True)
class Table:
    """Rows of cells under a title; `heads` holds the lines of each column's heading.

    `aligned` holds "<" or ">" for each column. A column without any text is there to be
    written in.
    """

    layer: str
    title: str
    heads: tuple[tuple[str, ...], ...]
    aligned: str
    rows: tuple[tuple[str, ...], ...]


@frozen(kw_only=True)
class Bar:
    """One way of cutting: a bought length, its cuts in order, and all that is sawn like it.

    `heading` names the purchase where this is its first bar, `label` stands at the left,
    `saw` tells the cuts, `marks` which length gives which pieces. `knife`: no saw takes a kerf or
    an end trim. `shown_ratio`: drawn so much smaller than the sheet's scale, rolls alone.
    `handed`: its pieces carry an arrow.
    """

    heading: str
    label: str
    saw: str
    marks: tuple[str, ...]
    length_mm: float
    cuts_mm: tuple[float, ...]
    offcut_mm: float
    knife: bool = False
    shown_ratio: float = 1.0
    handed: bool = False


@frozen(kw_only=True)
class Placed:
    """One piece with its mark, what it is, and where it goes in words.

    `width_mm` of a board is what it covers; frame timber and fascia stand on edge, and theirs
    is their depth.
    """

    mark: str
    kind: str
    saw_mm: float
    width_mm: float
    where: str
