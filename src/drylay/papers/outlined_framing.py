"""What stands round an opening, to be drawn enlarged: its window, its members, sizes about it."""

from collections.abc import Sequence

from attrs import frozen

from drylay.outline.model import Opening, Outline, Spot
from drylay.papers.dimensions import depth_mm, overrun_mm
from drylay.papers.model import LETTER_MM, Edge, Mark, Table
from drylay.papers.outlined_frame_sizes import ON_LINE_MM, standing_at
from drylay.papers.outlined_ledges import is_ledge
from drylay.papers.ruled import (
    BETWEEN_MM,
    CELL_MM,
    LINE_MM,
    head_height,
    table_width,
)
from drylay.papers.sheets import SCALES, SLACK_RATIO, wrapped
from drylay.papers.windows import Window, clipped, enlarged_told
from drylay.papers.wording import bare, clean, marks_told
from drylay.subframe.model import Member, Subframe

#: No detail is drawn larger than 1 to this: timbers are then as wide as their marks are high.
LARGEST = {"metric": 10, "imperial": 12}
#: Round what carries an opening so many thicknesses are shown: the joists there and their doubles.
MARGIN_RATIO = 2.5
#: Openings but hatches are drawn enlarged where a side of their hole is shorter on paper.
CROWDED_MM = 15.0
#: What reaches less than so many thicknesses into a window is drawn, and not told there.
SLIVER_RATIO = 0.9
#: A detail's heading with its line, air under its figure, the least width for its texts.
HEADING_MM, HEAD_MM, UNDER_MM, LEAST_MM = 3.5, 6.0, 3.0, 70.0


@frozen(kw_only=True)
class Framing:
    """What stands round one opening, drawn at 1 to `per_mm`; `window` is in mm of deck.

    `members` are those told of in it. Of these `own` lie in it whole and are marked there alone:
    on the drawing of the whole frame their marks would stand on one another. `edges`, `texts` and
    `tables` stand outside the figure, the tables under it or `tables_beside` it.
    """

    opening: Opening
    window: Window
    per_mm: float
    scale: str
    members: tuple[Member, ...]
    own: tuple[str, ...]
    edges: dict[str, Edge]
    texts: tuple[str, ...]
    tables: tuple[Table, ...]
    tables_beside: bool = False


@frozen(kw_only=True)
class Room:
    """The paper of a detail: all of it, where in it the figure's corner lies, and its tables'."""

    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    tables_left_mm: float
    tables_top_mm: float


def wants_detail(opening: Opening, per_mm: float, units: str) -> bool:
    """Whether an opening's members are too close for a drawing of this scale to mark them all."""
    left, near, right, far = _bounds(opening.corners)
    small = min(right - left, far - near) < CROWDED_MM * per_mm
    return per_mm > LARGEST[units] and (opening.kind == "hatch" or small)


def framing(
    outline: Outline, subframe: Subframe, opening: Opening, *, units: str, zero: Spot,
    at_scale: tuple[float, str],
) -> Framing:  # fmt: skip
    """Return what is drawn of one opening at a scale; its sizes are told from `zero`."""
    window = _window(subframe, opening)
    least = subframe.timber_thickness_mm * SLIVER_RATIO
    seen = tuple(each for each in subframe.members if _reaches(each.corners, window, least))
    own = tuple(each.mark for each in seen if _lies(each.corners, window))
    per_mm, scale = at_scale
    return Framing(
        opening=opening, window=window, per_mm=per_mm, scale=scale, members=seen, own=own,
        edges=_edges(opening, seen, window, units, zero),
        texts=_texts(outline, subframe, opening, seen, enlarged_told(per_mm, units)),
        tables=_tables(opening, [each for each in seen if each.mark in own], units, zero),
    )  # fmt: skip


def scales_within(units: str, per_mm: float) -> list[tuple[float, str]]:
    """Return the scales a detail beside a figure of 1 to `per_mm` may have, the largest first."""
    return [
        (float(per), scale) for per, scale in SCALES[units] if LARGEST[units] <= per < per_mm
    ]  # fmt: skip


def room_of(found: Framing) -> Room:
    """Return the paper that a detail takes: heading, texts, figure with its sizes, tables."""
    wide, high = _extent(found)
    around = _around(found)
    tables_mm = sum(map(table_width, found.tables)) + BETWEEN_MM * (len(found.tables) - 1)
    below = max((head_height(t) + CELL_MM * len(t.rows) for t in found.tables), default=0.0)
    figure_mm = max(around["left"] + wide + around["right"], LEAST_MM)
    width = max(figure_mm, tables_mm) if not found.tables_beside else figure_mm
    top = HEAD_MM + LINE_MM * len(lines_of(found, width)) + UNDER_MM + around["top"]
    foot = top + high + around["bottom"]
    if found.tables_beside:
        return Room(width_mm=figure_mm + BETWEEN_MM + tables_mm, height_mm=max(foot, below),
                    left_mm=around["left"], top_mm=top, tables_left_mm=figure_mm + BETWEEN_MM,
                    tables_top_mm=0.0)  # fmt: skip
    return Room(width_mm=width, height_mm=foot + (UNDER_MM + below if found.tables else 0.0),
                left_mm=around["left"], top_mm=top, tables_left_mm=0.0,
                tables_top_mm=foot + UNDER_MM)  # fmt: skip


def _extent(found: Framing) -> tuple[float, float]:
    left, near, right, far = found.window
    return (right - left) / found.per_mm, (far - near) / found.per_mm


def _around(found: Framing) -> dict[str, float]:
    """Return the paper that sizes take on each side of a figure, those past its corners too."""
    left, near, right, far = found.window
    around = {side: depth_mm(edge, found.per_mm) for side, edge in found.edges.items()}
    for side, edge in found.edges.items():
        flat = side in {"left", "right"}
        ends = ("top", "bottom") if flat else ("left", "right")
        past = overrun_mm(edge, found.per_mm, far - near if flat else right - left)
        for end, past_mm in zip(ends, past, strict=True):
            around[end] = max(around[end], past_mm)
    return around


def lines_of(found: Framing, width_mm: float) -> list[str]:
    """Return a detail's texts as lines of its width."""
    return [
        line for text in found.texts for line in wrapped(text, LETTER_MM, width_mm * SLACK_RATIO)
    ]  # fmt: skip


def _window(subframe: Subframe, opening: Opening) -> Window:
    """Return the box about a hole and its trimmers, and some way about it."""
    spots = [*opening.corners, *opening.within]
    for member in subframe.members:
        if member.kind == "trimmer" and member.side == opening.mark:
            spots += member.corners
    left, near, right, far = _bounds(spots)
    margin = subframe.timber_thickness_mm * MARGIN_RATIO
    return left - margin, near - margin, right + margin, far + margin


def _bounds(spots: Sequence[Spot]) -> Window:
    along, across = [s.along_mm for s in spots], [s.across_mm for s in spots]
    return min(along), min(across), max(along), max(across)


def _reaches(corners: Sequence[Spot], window: Window, least_mm: float) -> bool:
    """Whether more than a sliver of a member lies in a window."""
    part = clipped([(spot.along_mm, spot.across_mm) for spot in corners], window)
    if len(part) < 3:
        return False
    along, across = [x for x, _ in part], [y for _, y in part]
    return min(max(along) - min(along), max(across) - min(across)) > least_mm


def _lies(corners: Sequence[Spot], window: Window) -> bool:
    left, near, right, far = _bounds(corners)
    return left >= window[0] and near >= window[1] and right <= window[2] and far <= window[3]


def _edges(
    opening: Opening, seen: Sequence[Member], window: Window, units: str, zero: Spot
) -> dict[str, Edge]:
    """Return sizes outside a figure: middles of members square to it, sides of a square hole."""
    left, near, _, _ = window
    along = _running(seen, "along_mm", left, zero.along_mm, units)
    across = _running(seen, "across_mm", near, zero.across_mm, units)
    edges = {"bottom": Edge(marks=along, columns=1), "left": Edge(marks=across, columns=1),
             "top": Edge(), "right": Edge()}  # fmt: skip
    if is_square_on(opening):
        one, low, other, high = _bounds(opening.corners)
        edges["top"] = _hole((one, other), left, zero.along_mm, units)
        edges["right"] = _hole((low, high), near, zero.across_mm, units)
    return edges


def _running(
    seen: Sequence[Member], name: str, first_mm: float, zero_mm: float, units: str
) -> tuple[Mark, ...]:  # fmt: skip
    """Return the middles of members across a way, those in one line together."""
    places: dict[float, list[str]] = {}
    for place, member in standing_at(seen, name):
        places.setdefault(place, []).append(member.mark.split(".")[0])
    return tuple(
        Mark(at_mm=place - first_mm,
             text=f"{marks_told(list(dict.fromkeys(marks)))}: {bare(place - zero_mm, units)}")
        for place, marks in sorted(places.items())
    )  # fmt: skip


def _hole(ends: tuple[float, float], first_mm: float, zero_mm: float, units: str) -> Edge:
    return Edge(
        marks=tuple(
            Mark(at_mm=end - first_mm, text=f"hole {bare(end - zero_mm, units)}") for end in ends
        ),
        columns=1,
    )


def is_square_on(opening: Opening) -> bool:
    """Whether all sides of a hole run along or across."""
    corners = opening.corners
    return all(
        min(abs(one.along_mm - other.along_mm), abs(one.across_mm - other.across_mm)) <= ON_LINE_MM
        for one, other in zip(corners, [*corners[1:], corners[0]], strict=True)
    )


def _texts(
    outline: Outline, subframe: Subframe, opening: Opening, seen: Sequence[Member], enlarged: str
) -> tuple[str, ...]:  # fmt: skip
    """Return what is written over a figure: its scale, its ledges, its panel's battens."""
    hole = [each for each in seen if each.side == opening.mark and is_ledge(each, outline)]
    battens = [each.mark for each in subframe.battens if each.opening == opening.mark]
    texts = [f"{enlarged} Sizes run to the middles of members."]
    if hole:
        texts.append(f"Ledges, which the panel lies on: {marks_told([m.mark for m in hole])}.")
    if battens:
        texts.append(f"Dashed: {marks_told(battens)}, battens of the panel; lift out with it.")
    return tuple(texts)


def heading_of(opening: Opening) -> str:
    """Return what stands over a detail, and what an opening is called on the whole frame."""
    named = f"{opening.mark} {opening.kind}"
    return f"{named}: {clean(opening.name, 40)}" if opening.name else named


def _tables(
    opening: Opening, told: Sequence[Member], units: str, zero: Spot
) -> tuple[Table, ...]:  # fmt: skip
    """Return where members askew begin and end, and the corners of a hole that lies askew."""
    square = {m.mark for name in ("along_mm", "across_mm") for _, m in standing_at(told, name)}
    askew = [each for each in told if each.mark not in square]
    tables = [_members(askew, units, zero)] if askew else []
    if not is_square_on(opening):
        tables.append(_corners(opening, units, zero))
    return tuple(tables)


def _members(askew: Sequence[Member], units: str, zero: Spot) -> Table:
    return Table(
        layer="askew", title="Askew: middle lines, end to end",
        heads=(("", "member"), ("", "length"), ("one end:", "along"), ("", "across"),
               ("other end:", "along"), ("", "across")),
        aligned="<>>>>>",
        rows=tuple(
            (each.mark, bare(each.length_mm, units), *_told_at(each.start, units, zero),
             *_told_at(each.end, units, zero))
            for each in askew
        ),
    )  # fmt: skip


def _corners(opening: Opening, units: str, zero: Spot) -> Table:
    return Table(
        layer="holes", title="Corners of the hole",
        heads=(("", "corner"), ("", "along"), ("", "across")), aligned="<>>",
        rows=tuple(
            (str(number), *_told_at(corner, units, zero))
            for number, corner in enumerate(opening.corners, 1)
        ),
    )  # fmt: skip


def _told_at(spot: Spot, units: str, zero: Spot) -> tuple[str, str]:
    return bare(spot.along_mm - zero.along_mm, units), bare(spot.across_mm - zero.across_mm, units)
