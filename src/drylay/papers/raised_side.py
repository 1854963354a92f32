"""A raised frame seen from its side, true to scale, with the schedule of its posts.

Seen along the joists' run ("side": the house at the left) or square to it ("front": one bearer with
its posts). The figure is told by how far across or along, and by levels.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from drylay.groundwork.model import Footing
from drylay.marks import exact, to_mm
from drylay.papers.dimensions import all_edges, depth_mm
from drylay.papers.hatching import hatch
from drylay.papers.lettering import width_mm
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Edge,
    Lettering,
    Line,
    Mark,
    Shape,
    Sheet,
    Table,
    View,
)
from drylay.papers.raised_figure import Figure, half_of, level_box, paper_place, place_of
from drylay.papers.raised_hung import brace_rise_mm, hung_ends
from drylay.papers.raised_schedule import notes_told, schedule_table
from drylay.papers.ruled import CELL_MM, head_height, in_columns, table_width
from drylay.papers.sheets import INSET_MM, ROLL, roll, room, sheets, title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean
from drylay.raised.model import Bearer, Brace, Post, RaisedFrame

#: What the two views are called.
SEEN = ("side", "front")
#: How far the ground is drawn past the outer posts and below the lowest, how thick the wall is.
PAST_MM, BELOW_MM, WALL_MM = 250.0, 120.0, 120.0
#: On paper: between figure and table, above the figure, between columns of the table.
BETWEEN_MM, TOP_MM, COLUMN_MM = 8.0, 8.0, 6.0
#: A post so broad on paper holds its own text.
INSIDE_MM = 3.5
#: A scale that reads well, and the rows of a column that is worth another beside it.
WELL_PER, ROWS_LEAST = 25.0, 12


def raised_side_svg(
    frame: RaisedFrame, *, title: str, units: str, seen: str = "side", bearer: str = "",
    footings: Mapping[str, Footing] | None = None, hung_mm: float = 0.0, along: str = "boards",
) -> bytes:  # fmt: skip
    """Return a view with the post schedule; b"" where no posts stand.

    "side" shows the longest post of every line across, whichever bearer of that line it is under;
    "front" all posts of the bearer so marked (the first one where none is named). `footings` are
    drawn under the posts that they are told for, by mark. `hung_mm` is how deep joists are that
    hang between the bearers, 0 where they lie over these; `along` is what posts are told along.

    Raises:
        ValueError: There is no such view.
    """
    if seen not in SEEN:
        told = f"no such view: {seen!r}; wanted {' or '.join(SEEN)}"
        raise ValueError(told)
    if not frame.posts:
        return b""
    under = footings or {}
    figure = _figure(frame, seen, bearer or frame.bearers[0].mark, under)
    table = schedule_table(frame, units, along)
    around = _edges(frame, figure, units)
    size = (figure.to_mm - figure.from_mm, figure.high_mm - figure.low_mm)
    sheet, view = _placed(size, around, table, units)
    extent = (size[0] / view.per_mm, size[1] / view.per_mm)
    under_mm = view.top_mm + extent[1] + depth_mm(around["bottom"], view.per_mm) + BETWEEN_MM
    columns = _columns(table, sheet, sheet.height_mm)
    shapes = [
        *_shapes(frame, figure, view, hung_mm), *_told(figure, view, units),
        *all_edges(around, view, extent),
        *in_columns(table, columns, INSET_MM, under_mm),
        *title_block(sheet, title=title, drawing=_called(seen, figure), units=units,
                     notes=notes_told(frame, units, apart=_apart(figure)),
                     counted="; levels from the datum, upwards"),
    ]  # fmt: skip
    told = f"The raised frame of {clean(title)} from its {seen}, with every post's length."
    return svg(shapes, sheet=sheet, name="raised" if figure.side else "front", told=told,
               title=f"{seen.capitalize()} view of {clean(title)}")  # fmt: skip


def _placed(
    size: tuple[float, float], around: dict[str, Edge], table: Table, units: str
) -> tuple[Sheet, View]:  # fmt: skip
    """Return the smallest sheet with figure and schedule on it, at a scale that reads well.

    Where no sheet has room for both at such a scale the scale gives way, then the sheet: a roll.
    """
    found = [(sheet, high) for sheet in sheets(units)
             if (high := _needed(sheet, size, around, table)) is not None]  # fmt: skip
    well = [sheet for sheet, _ in found if sheet.per_mm <= WELL_PER]
    sheet = next(iter([*well, *(sheet for sheet, _ in found)]), None)
    if sheet is None:
        per_mm = ROLL[units][0]
        high = size[1] / per_mm + _beside(around, per_mm)[1] + head_height(table)
        wide = max(size[0] / per_mm + _beside(around, per_mm)[0], table_width(table))
        sheet = roll(units, wide, high + CELL_MM * len(table.rows))
    left = INSET_MM + depth_mm(around["left"], sheet.per_mm)
    spare = room(sheet)[0] - size[0] / sheet.per_mm - _beside(around, sheet.per_mm)[0]
    return sheet, View(left_mm=left + max(0.0, spare / 2), top_mm=INSET_MM + TOP_MM,
                       per_mm=sheet.per_mm, run="along")  # fmt: skip


def _beside(around: dict[str, Edge], per_mm: float) -> tuple[float, float]:
    """Return the paper that dimensions take across and down, with what is between the parts."""
    across = depth_mm(around["left"], per_mm) + depth_mm(around["right"], per_mm)
    return across, depth_mm(around["bottom"], per_mm) + TOP_MM + BETWEEN_MM


def _needed(
    sheet: Sheet, size: tuple[float, float], around: dict[str, Edge], table: Table
) -> float | None:  # fmt: skip
    """Return how much of a sheet's height is taken; None where there is no room for all."""
    across, down = _beside(around, sheet.per_mm)
    wide, high = room(sheet)
    left_mm = high - size[1] / sheet.per_mm - down
    count = _columns(table, sheet, left_mm)
    if size[0] / sheet.per_mm + across > wide or not count:
        return None
    return high - left_mm


def _columns(table: Table, sheet: Sheet, high_mm: float) -> int:
    """Return in how many columns the schedule is set so as to take little height; 0 for none."""
    most = int((room(sheet)[0] + COLUMN_MM) // (table_width(table) + COLUMN_MM))
    if not most:
        return 0
    count = min(most, -(-len(table.rows) // ROWS_LEAST))
    each = -(-len(table.rows) // count)
    return count if head_height(table) + CELL_MM * each <= high_mm else 0


def _called(seen: str, figure: Figure) -> str:
    if seen == "side":
        return "Side view: longest post of every line"
    return f"Front view: bearer {clean(figure.bearers[0].mark)}"


def _figure(
    frame: RaisedFrame, seen: str, bearer: str, under: Mapping[str, Footing]
) -> Figure:  # fmt: skip
    lines: dict[float, list[str]] = {}
    for one in frame.bearers:
        lines.setdefault(one.across_mm, []).append(one.mark)
    named = [*lines.values()] if seen == "side" else [[bearer]]
    shown = tuple(one for one in frame.bearers if one.mark in {marks[0] for marks in named})
    own = [[post for post in frame.posts if post.bearer in marks] for marks in named]
    if seen == "front":
        posts = tuple(own[0])
        ends = (shown[0].start_mm, shown[0].end_mm) if shown else (0.0, 0.0)
    else:
        posts = tuple(max(row, key=lambda post: post.length_mm) for row in own if row)
        ends = (frame.joist_from_mm, frame.joist_to_mm)
        if frame.ledger is not None:
            ends = (min(ends[0] - frame.ledger.section.breadth_mm, 0.0), ends[1])
    past = WALL_MM if seen == "side" and frame.ledger is not None else PAST_MM
    low = min(_foot(post, under.get(post.mark)) for post in posts) - BELOW_MM
    return Figure(
        from_mm=ends[0] - past, to_mm=ends[1] + PAST_MM, posts=posts, bearers=shown,
        marks=tuple(" ".join(marks) for marks in named),
        high_mm=frame.heights.finished_mm, low_mm=low, side=seen == "side", under=under,
    )  # fmt: skip


def _foot(post: Post, footing: Footing | None) -> float:
    """Return the lowest level under a post: its own end, the ground, its footing's underside."""
    deep = footing.depth_mm if footing else 0.0
    return min(to_mm(exact(post.top_mm) - exact(post.whole_mm)), post.ground_mm - deep)


def _edges(frame: RaisedFrame, figure: Figure, units: str) -> dict[str, Edge]:
    """Return the levels at the right and the places of posts along the bottom."""
    levels = {frame.heights.finished_mm: "finished level", figure.posts[0].top_mm: "post tops"}
    for post in figure.posts:
        levels.setdefault(post.ground_mm, f"ground at {clean(post.mark)}")
    right = tuple(
        Mark(at_mm=figure.high_mm - level, text=f"{name} {bare(level, units)}")
        for level, name in sorted(levels.items(), reverse=True)
    )
    bottom = tuple(
        Mark(
            at_mm=place_of(figure, post) - figure.from_mm, text=bare(place_of(figure, post), units)
        )
        for post in sorted(figure.posts, key=lambda post: place_of(figure, post))
    )
    return {"left": Edge(), "right": Edge(marks=right, columns=1), "bottom": Edge(marks=bottom)}


def _shapes(frame: RaisedFrame, figure: Figure, view: View, hung_mm: float) -> list[Shape]:
    """Return ground, posts, braces, bearers, joists and boards, and the ledger on its wall."""
    shapes: list[Shape] = [*_ground(figure, view)]
    rise_mm = brace_rise_mm(frame, hung_mm)
    for post in figure.posts:
        shapes += _post(figure, post, view)
        braces = [brace for brace in frame.bracing.braces if brace.post == post.mark]
        shapes += [line for brace in braces if (brace.way == "across") == figure.side
                   for line in _brace(figure, post, brace, rise_mm, view)]  # fmt: skip
    top = to_mm(exact(frame.heights.finished_mm) - exact(frame.heights.board_mm))
    between = [level_box(figure, view, "joists", ends, (top, top - hung_mm), THIN_MM)
               for ends in hung_ends(frame, figure.bearers) if hung_mm and figure.side]  # fmt: skip
    return [*shapes, *between, *_bearers(frame, figure, view), *_over(frame, figure, view),
            *(_wall(frame, figure, view) if figure.side else ())]  # fmt: skip


def _ground(figure: Figure, view: View) -> Iterator[Shape]:
    """Yield the ground from post to post, straight between, and level beyond the outer ones."""
    posts = sorted(figure.posts, key=lambda post: place_of(figure, post))
    first, last = posts[0], posts[-1]
    start = figure.from_mm + (WALL_MM if figure.side else 0.0)
    between = [(place_of(figure, post), post.ground_mm) for post in posts]
    places = [(start, first.ground_mm), *between, (figure.to_mm, last.ground_mm)]
    for n, (one, other) in enumerate(pairwise(places)):
        (x1, y1), (x2, y2) = paper_place(figure, view, *one), paper_place(figure, view, *other)
        known = 0 < n < len(places) - 2
        yield Line(layer="ground", x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=MEMBER_MM,
                   dash="" if known else "4 1.5")  # fmt: skip


def _post(figure: Figure, post: Post, view: View) -> list[Shape]:
    at, half = place_of(figure, post), half_of(figure, post)
    foot = to_mm(exact(post.top_mm) - exact(post.whole_mm))
    wide = (at - half, at + half)
    shapes: list[Shape] = [level_box(figure, view, "posts", wide, (post.top_mm, foot), OUTLINE_MM)]
    if post.stand_off_mm:
        shapes.append(level_box(figure, view, "feet", wide, (foot, post.ground_mm), FINE_MM))
    footing = figure.under.get(post.mark)
    if footing is not None:
        shapes[:0] = _footing(figure, post, footing, view)
    elif post.embed_mm:
        hole = (at - 3 * half, at + 3 * half)
        shapes.insert(0, level_box(figure, view, "concrete", hole, (post.ground_mm, foot), THIN_MM))
    return shapes


def _footing(figure: Figure, post: Post, footing: Footing, view: View) -> list[Shape]:
    """Return a footing from its underside up and its pier; square ones are drawn across a side."""
    at, half, low = place_of(figure, post), footing.size_mm / 2, post.ground_mm - footing.depth_mm
    levels = (low + footing.thickness_mm, low)
    pad = level_box(figure, view, "footings", (at - half, at + half), levels, THIN_MM)
    wide, over = footing.pier_mm / 2, (post.ground_mm, levels[0])
    pier = level_box(figure, view, "piers", (at - wide, at + wide), over, THIN_MM)
    return [pier, pad] if wide else [pad]


def _brace(figure: Figure, post: Post, brace: Brace, rise_mm: float, view: View) -> list[Line]:
    """Return a brace's centre: from the post's face up to the underside that it runs to.

    A joist's lies `rise_mm` above the post's top where it is over the bearer.
    """
    face = place_of(figure, post) + brace.hand * half_of(figure, post)
    under = post.top_mm + (rise_mm if figure.side else 0.0)
    one = paper_place(figure, view, face, under - brace.leg_mm)
    other = paper_place(figure, view, face + brace.hand * brace.leg_mm, under)
    return [Line(layer="braces", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                 pen_mm=OUTLINE_MM)]  # fmt: skip


def _bearers(frame: RaisedFrame, figure: Figure, view: View) -> list[Shape]:
    shapes: list[Shape] = []
    for bearer in figure.bearers:
        low = to_mm(exact(frame.posts[0].top_mm))
        levels = (to_mm(exact(low) + exact(frame.heights.bearer_mm)), low)
        half = bearer.section.breadth_mm * bearer.section.plies / 2
        ends = (bearer.across_mm - half, bearer.across_mm + half)
        if not figure.side:
            ends = (bearer.start_mm, bearer.end_mm)
        box = level_box(figure, view, "bearers", ends, levels, OUTLINE_MM)
        shapes += [box, *(hatch(box, 2.0) if figure.side else ())]
        shapes += [] if figure.side else _joints(figure, bearer, levels, view)
    return shapes


def _joints(
    figure: Figure, bearer: Bearer, levels: tuple[float, float], view: View
) -> list[Shape]:  # fmt: skip
    """Return where plies of a bearer are jointed, each told above its post."""
    shapes: list[Shape] = []
    for joint in bearer.joints:
        place = bearer.start_mm + joint.at_mm
        one, other = (paper_place(figure, view, place, level) for level in levels)
        shapes += [
            Line(layer="joints", x1_mm=one[0], y1_mm=one[1], x2_mm=other[0], y2_mm=other[1],
                 pen_mm=THIN_MM, dash="1 1"),
            Lettering(layer="joints", x_mm=one[0] + 1.0, y_mm=(one[1] + other[1]) / 2,
                      text=f"ply {joint.ply}", anchor="start", knocked=True),
        ]  # fmt: skip
    return shapes


def _over(frame: RaisedFrame, figure: Figure, view: View) -> list[Shape]:
    """Return joists and boards as bands; joists that hang are seen from the side alone."""
    heights = frame.heights
    ends = (frame.joist_from_mm, frame.joist_to_mm)
    if not figure.side:
        ends = (figure.bearers[0].start_mm, figure.bearers[0].end_mm)
    under = to_mm(exact(heights.finished_mm) - exact(heights.board_mm))
    shapes: list[Shape] = []
    if heights.joist_over_mm:
        low = to_mm(exact(under) - exact(heights.joist_over_mm))
        shapes.append(level_box(figure, view, "joists", ends, (under, low), THIN_MM))
    if figure.side and frame.ledger is not None:  # boards lie over the ledger as well
        ends = (ends[0] - frame.ledger.section.breadth_mm, ends[1])
    boards = level_box(figure, view, "boards", ends, (heights.finished_mm, under), OUTLINE_MM)
    return [*shapes, boards]


def _wall(frame: RaisedFrame, figure: Figure, view: View) -> list[Shape]:
    ledger = frame.ledger
    if ledger is None:
        return []
    face = figure.from_mm + WALL_MM
    wall = level_box(figure, view, "wall", (figure.from_mm, face), (figure.high_mm, figure.low_mm),
                THIN_MM)  # fmt: skip
    top = to_mm(exact(frame.heights.finished_mm) - exact(frame.heights.board_mm))
    levels = (top, top - ledger.section.depth_mm)
    on = level_box(
        figure, view, "ledger", (face, face + ledger.section.breadth_mm), levels, OUTLINE_MM
    )
    return [wall, *hatch(wall, 3.0), on, *hatch(on, 1.5, rising=False)]


def _told(figure: Figure, view: View, units: str) -> list[Shape]:
    """Return every shown post's mark and length, written up along it, and bearers' marks."""
    shapes: list[Shape] = []
    for bearer, mark in zip(figure.bearers, figure.marks, strict=True) if figure.side else ():
        half = bearer.section.breadth_mm * bearer.section.plies / 2
        middle = to_mm(exact(figure.posts[0].top_mm)) + bearer.section.depth_mm / 2
        x, y = paper_place(figure, view, bearer.across_mm - half, middle)
        shapes.append(Lettering(layer="bearer-marks", x_mm=x - 1.5, y_mm=y,
                                text=clean(mark), anchor="end"))  # fmt: skip
    for post in figure.posts:
        shapes.append(_length(figure, post, view, units))
    return shapes


def _length(figure: Figure, post: Post, view: View, units: str) -> Lettering:
    """Return a post's mark and length inside it, or beside it where it is too slender.

    One that is shorter than its text has its mark alone, and lying where it is shorter than that:
    the schedule tells its length.
    """
    half = (post.section.depth_mm if figure.side else post.section.breadth_mm) / 2
    middle = to_mm(exact(post.top_mm) - exact(post.length_mm) // 2)
    x, y = paper_place(figure, view, place_of(figure, post), middle)
    text = f"{clean(post.mark)}: {bare(post.length_mm, units)}"
    if width_mm(text, LETTER_MM) > post.length_mm / view.per_mm - 1.0:
        text = clean(post.mark)
    if width_mm(text, LETTER_MM) > post.length_mm / view.per_mm:
        return Lettering(layer="lengths", x_mm=x + half / view.per_mm + 1.0, y_mm=y, text=text,
                         anchor="start", knocked=True)  # fmt: skip
    beside = 0.0 if 2 * half / view.per_mm >= INSIDE_MM else half / view.per_mm + 2.2
    return Lettering(layer="lengths", x_mm=x + beside, y_mm=y, text=text, turned=True,
                     knocked=bool(beside))  # fmt: skip


def _apart(figure: Figure) -> bool:
    """Whether the posts seen from the side stand at more than one place along."""
    return figure.side and len({post.place.along_mm for post in figure.posts}) > 1
