"""The lines over a frame's sides and their profiles, from above, with the diagonals to tape."""

from collections.abc import Iterator, Sequence

from drylay.outline.model import Outline, Spot
from drylay.papers.lettering import Point
from drylay.papers.model import (
    FINE_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Lettering,
    Ring,
    Shape,
    View,
)
from drylay.papers.outlined_view import (
    BETWEEN_WAYS,
    WAYS,
    all_at,
    area,
    around,
    at,
    kinds_told,
    line_of,
    moved,
    outline_places,
    sides_drawn,
    way_of,
)
from drylay.papers.pegs_view import (
    along,
    dashed,
    first_of,
    outline_of,
    pegs_at,
    room_at,
    square,
    text_at,
    view_of,
)
from drylay.papers.placing import (
    Place,
    line_place,
)
from drylay.papers.profiles_text import diagonal_table, line_table, profile_texts
from drylay.papers.ruled import (
    CELL_MM,
    head_height,
    paragraphs,
    paragraphs_height,
    ruled,
    table_width,
)
from drylay.papers.sheets import AIR_MM, INSET_MM, title_block
from drylay.papers.svg import svg
from drylay.papers.wording import bare, clean, many
from drylay.plan.model import Plan
from drylay.work.model import LineEnd, PegTie, Profile, Profiles

DASH, DOTS, CHAIN = "4 1.5", "0.6 1.4", "6 1.5 1 1.5"
PEG_MM, STAKE_MM, NAIL_MM = 1.8, 1.2, 0.5
BESIDE_MM, LEAST_WIDE_MM = 6.0, 96.0
#: More diagonals than this are drawn as far as they check a peg; the table has them all.
ALL_DRAWN = 6
#: How many rings of places about a point a mark may stand at.
RINGS = 6


def profiles_svg(plan: Plan, found: Profiles) -> bytes:
    """Return the drawing of a plan's lines and profiles, as `drylay.planner.profiles` found them.

    b"" of a plan without pegs.
    """
    outline = outline_of(plan)
    if outline is None or plan.work is None or not plan.work.setting_out.pegs:
        return b""
    tables = [line_table(found, plan.units), diagonal_table(found, plan.units)]
    tables = [table for table in tables if table.rows]
    texts = profile_texts(plan, found)
    wide = max(LEAST_WIDE_MM, *(table_width(table) for table in tables))
    rows = sum(head_height(table) + CELL_MM * len(table.rows) + AIR_MM for table in tables)
    high = rows + paragraphs_height(texts, wide)
    sheet, view = view_of(_all_spots(found), outline, plan.units, (wide + BESIDE_MM, high))
    shapes: list[Shape] = [
        *_figure(view, plan, outline, found),
        *_labels(view, plan, outline, found),
    ]
    x, y = sheet.width_mm - INSET_MM - wide, INSET_MM
    for table in tables:
        shapes += ruled(table, table.rows, x, y)
        y += head_height(table) + CELL_MM * len(table.rows) + AIR_MM
    shapes += paragraphs(texts, "notes", x, y, wide)
    shapes += title_block(
        sheet, title=plan.title, drawing="Lines and profiles", units=plan.units,
        notes=_notes(outline), counted="; places counted from the datum line",
    )  # fmt: skip
    told = (
        f"{many(len(found.lines), 'line')} over the frame of {clean(plan.title)}, and "
        f"{many(len(found.profiles), 'profile')} outside the dig."
    )
    title = f"Lines and profiles of {clean(plan.title)}"
    return svg(shapes, sheet=sheet, name="profiles", title=title, told=told)


def _all_spots(found: Profiles) -> Iterator[Spot]:
    yield from (spot for ring in found.dig for spot in ring)
    yield from (spot for profile in found.profiles for spot in (profile.start, profile.end))
    yield from (end.at for line in found.lines for end in (line.start, line.end))
    yield from (found.datum_start, found.datum_end)


def _figure(view: View, plan: Plan, outline: Outline, found: Profiles) -> list[Shape]:
    """Return what is dug, the deck and its frame, diagonals, lines, profiles and pegs."""
    pegs = pegs_at(view, plan)
    shapes: list[Shape] = [
        *(area(view, "dig", ring, FINE_MM, dash=DOTS) for ring in found.dig),
        *(area(view, "openings", opening.corners, THIN_MM) for opening in outline.openings),
        *sides_drawn(view, outline, THIN_MM),
        Area(layer="frame", corners_mm=tuple(pegs.values()), pen_mm=OUTLINE_MM),
    ]
    for tie in _drawn(found):
        shapes.append(dashed("diagonals", pegs[tie.start], pegs[tie.end], DASH))
    for line in found.lines:
        shapes.append(line_of("lines", at(view, line.start.at), at(view, line.end.at), THIN_MM))
        shapes += [each for end in (line.start, line.end) for each in _fast(view, end)]
    shapes += [each for profile in found.profiles for each in _profile(view, profile)]
    shapes += _datum(view, found)
    return [*shapes, *(square("peg-heads", point, PEG_MM) for point in pegs.values())]


def _drawn(found: Profiles) -> tuple[PegTie, ...]:
    if len(found.diagonals) <= ALL_DRAWN:
        return found.diagonals
    return tuple(tie for tie in found.diagonals if tie.check)


def _fast(view: View, end: LineEnd) -> list[Shape]:
    """Return the nail of a profile, or the cross of a mark on the wall."""
    x, y = at(view, end.at)
    if end.kind == "profile":
        return [Ring(layer="nails", x_mm=x, y_mm=y, radius_mm=NAIL_MM, pen_mm=THIN_MM)]
    if end.kind == "wall":
        return [
            line_of("wall-marks", (x - 1.0, y + sign), (x + 1.0, y - sign), MEMBER_MM)
            for sign in (1.0, -1.0)
        ]
    return []


def _profile(view: View, profile: Profile) -> list[Shape]:
    one, other = at(view, profile.start), at(view, profile.end)
    way = way_of(one, other)
    stakes = [moved(one, way, STAKE_MM / 2), moved(other, way, -STAKE_MM / 2)]
    return [
        line_of("profiles", one, other, OUTLINE_MM),
        *(square("stakes", stake, STAKE_MM) for stake in stakes),
    ]


def _datum(view: View, found: Profiles) -> list[Shape]:
    """Return a datum line that is none of the lines strung."""
    if found.source_line == "house":
        return []
    one, other = at(view, found.datum_start), at(view, found.datum_end)
    ends = [square("datum-pegs", point, PEG_MM) for point in (one, other)]
    return [dashed("datum-line", one, other, CHAIN), *ends]


def _labels(view: View, plan: Plan, outline: Outline, found: Profiles) -> list[Shape]:
    """Return marks of pegs, profiles and lines, lengths past pegs and of diagonals.

    Marks keep off what is drawn, and texts off one another.
    """
    pegs = pegs_at(view, plan)
    taken: list[Place] = outline_places(view, outline)
    taken += [room_at(point, PEG_MM / 2 + 0.2) for point in pegs.values()]
    for profile in found.profiles:
        taken.append(line_place(at(view, profile.start), at(view, profile.end), STAKE_MM / 2))
    lines = [line_place(at(view, line.start.at), at(view, line.end.at)) for line in found.lines]
    lines += [line_place(pegs[tie.start], pegs[tie.end]) for tie in _drawn(found)]
    if found.source_line != "house":
        lines.append(line_place(at(view, found.datum_start), at(view, found.datum_end)))
    dig = [line_place(a, b) for ring in found.dig for a, b in _round(all_at(view, ring))]
    shapes: list[Shape] = []
    for told in _marks(view, plan, found):
        spots = around(told, steps=RINGS, step_mm=2.6, ways=(*WAYS, *BETWEEN_WAYS))
        shapes += first_of(spots, taken, ([*lines, *dig], lines, []))
    shapes += _past(view, found, plan.units, taken, lines)
    shapes += _lengths(view, plan, found, taken)
    return shapes


def _round(ring: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    yield from zip(ring, [*ring[1:], *ring[:1]], strict=True)


def _marks(view: View, plan: Plan, found: Profiles) -> Iterator[Lettering]:
    """Yield each mark at the point that it belongs to."""
    for mark, point in pegs_at(view, plan).items():
        yield text_at("labels", mark, point)
    for profile in found.profiles:
        one, other = at(view, profile.start), at(view, profile.end)
        middle = (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
        yield text_at("profile-marks", profile.mark, middle)
    if found.source_line != "house":
        for mark, spot in (("D1", found.datum_start), ("D2", found.datum_end)):
            yield text_at("datum-marks", mark, at(view, spot))


def _past(
    view: View, found: Profiles, units: str, taken: list[Place], lines: Sequence[Place]
) -> Iterator[Shape]:
    """Yield every line's mark on it, and how far its nails lie past their pegs, beside it."""
    for line in found.lines:
        one, other = at(view, line.start.at), at(view, line.end.at)
        for start, end in ((line.start, line.end), (line.end, line.start)):
            if start.kind != "profile":
                continue
            nail = at(view, start.at)
            peg = moved(nail, way_of(nail, at(view, end.at)), start.beyond_mm / view.per_mm)
            spots = along(text_at("past", bare(start.beyond_mm, units), nail), nail, peg)
            yield from first_of(spots, taken, (lines, []))
        spots = along(text_at("line-marks", line.mark, one), one, other, asides=(0.0, 2.2, -2.2))
        yield from first_of(spots, taken, ([],))


def _lengths(view: View, plan: Plan, found: Profiles, taken: list[Place]) -> Iterator[Shape]:
    """Yield the length of each diagonal, on it, clear of the others."""
    pegs, drawn = pegs_at(view, plan), _drawn(found)
    ends = [(pegs[tie.start], pegs[tie.end]) for tie in drawn]
    lines = [line_place(*each) for each in ends]
    for number, (tie, (one, other)) in enumerate(zip(drawn, ends, strict=True)):
        text = text_at("diagonal-lengths", bare(tie.length_mm, plan.units), one)
        spots = along(text, one, other, asides=(0.0,))
        others = [*lines[:number], *lines[number + 1 :]]
        yield from first_of(spots, taken, (others, []))


def _notes(outline: Outline) -> tuple[str, ...]:
    return (
        "Thick: the frame's outer faces, and profiles between their stakes. Thin: the deck's edge, "
        "and lines. Dashed: diagonals. Dotted: what is dug. Crosses: marks on the wall.",
        kinds_told(outline),
    )
