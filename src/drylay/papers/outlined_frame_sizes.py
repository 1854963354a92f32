"""Sizes of a frame under an outline: lines running outside it, and the table of saw settings."""

from collections.abc import Iterable, Iterator
from collections.abc import Set as AbstractSet

from drylay.outline.model import Outline, Spot
from drylay.papers.model import Edge, Mark, Span, Table
from drylay.papers.outlined_ends import SawnEnd, is_square, member_ends
from drylay.papers.outlined_first_peg import from_peg
from drylay.papers.outlined_view import bounds_mm
from drylay.papers.wording import bare, marks_told
from drylay.subframe.model import Member, Subframe

#: Members that stand on joist lines, and those told there.
ON_LINES = ("joist", "pair")
LENGTHWISE = ("rim", *ON_LINES)
#: Members whose centres run outside the frame, across the joists.
CROSSING = ("trimmer", "double", "noggin")
#: Members as near to a joist line as this stand on it.
ON_LINE_MM = 0.6


def frame_edges(
    outline: Outline, subframe: Subframe, units: str, zero: Spot,
    elsewhere: AbstractSet[str] = frozenset(),
) -> dict[str, Edge]:  # fmt: skip
    """Return what stands outside: joist lines running, what crosses them, sizes end to end.

    Centres are told from `zero`; what crosses is left out where its mark is told `elsewhere`.
    """
    left, top, right, bottom = bounds_mm(outline)
    across = subframe.joist_run == "across"
    first, other = (left, top) if across else (top, left)
    near, side = from_peg(zero, subframe.joist_run), zero.across_mm if across else zero.along_mm
    lines = Edge(
        marks=tuple(
            Mark(
                at_mm=line - first, text=f"{_on_line(subframe, index)}: {bare(line - near, units)}"
            )
            for index, line in enumerate(subframe.lines_mm)
        )
    )
    told = [each for each in subframe.members if each.mark not in elsewhere]
    crossing = Edge(
        marks=_crossing_marks(told, subframe.joist_run, (other, side), units), columns=1
    )
    along, deep = right - left, bottom - top
    wide = Edge(spans=(Span(from_mm=0.0, to_mm=along, text=f"cover {bare(along, units)}"),))
    high = Edge(spans=(Span(from_mm=0.0, to_mm=deep, text=f"cover {bare(deep, units)}"),))
    if across:
        return {"bottom": lines, "left": crossing, "top": wide, "right": high}
    return {"right": lines, "bottom": crossing, "top": wide, "left": high}


def _on_line(subframe: Subframe, index: int) -> str:
    """Return what stands on a joist line: a rim where no joist does."""
    line = subframe.lines_mm[index]
    found = [
        member for member in subframe.members
        if member.kind in LENGTHWISE and _stands_on(member, line, subframe.joist_run)
    ]  # fmt: skip
    stems = dict.fromkeys(member.mark.split(".")[0] for member in found)
    return " ".join(stems) or f"line {index + 1}"


def _stands_on(member: Member, line: float, run: str) -> bool:
    name = "along_mm" if run == "across" else "across_mm"
    ends = (getattr(member.start, name), getattr(member.end, name))
    return all(abs(end - line) <= ON_LINE_MM for end in ends)


def _crossing_marks(
    members: list[Member], run: str, from_mm: tuple[float, float], units: str
) -> tuple[Mark, ...]:
    """Return the centres of trimmers and noggins that stand square across the joists.

    They are drawn from the first of two places, and told from the other.
    """
    name = "across_mm" if run == "across" else "along_mm"
    crossing = [each for each in members if each.kind in CROSSING]
    places: dict[float, list[str]] = {}
    for place, member in standing_at(crossing, name):
        places.setdefault(place, []).append(member.mark)
    return tuple(
        Mark(at_mm=place - from_mm[0],
             text=f"{marks_told(marks)}: {bare(place - from_mm[1], units)}")
        for place, marks in sorted(places.items())
    )  # fmt: skip


def standing_at(members: Iterable[Member], name: str) -> Iterator[tuple[float, Member]]:
    """Yield the members that stand square to a way, each with where it stands along that way."""
    for member in members:
        one, other = getattr(member.start, name), getattr(member.end, name)
        if abs(one - other) <= ON_LINE_MM:
            yield one, member


def bevel_table(subframe: Subframe, units: str) -> Table:
    """Return every rim and every member with an end off square: length and saw settings."""
    members = [
        member for member in subframe.members
        if member.kind == "rim" or not is_square(member.start_deg) or not is_square(member.end_deg)
    ]  # fmt: skip
    return Table(
        layer="bevels", title="Rims, and members off square",
        heads=(("", "member"), ("", "length"), ("saw,", "one end"), ("saw,", "other end")),
        aligned="<><<",
        rows=tuple(
            (member.mark, bare(member.length_mm, units), *map(_setting, member_ends(member)))
            for member in members
        ),
    )  # fmt: skip


def _setting(end: SawnEnd) -> str:
    return str(end) if end.value_deg else "square"
