"""Wishes for boards on an outline: what contradicts itself, what cannot be had there so far."""

from collections.abc import Iterator, Mapping
from itertools import combinations
from math import cos, radians, sin

from drylay.brief.drawn import found_of
from drylay.brief.model import WAYS_OUT
from drylay.brief.outline_model import BREAKERS, FieldWish
from drylay.errors import Fault
from drylay.marks import exact, to_mm
from drylay.own_line import field_on_own_line, shape_on_own_line
from drylay.rings import Ring, box, rectangle
from drylay.shapes import Shape

Read = dict[str, object]

#: More fields than these are not read: each is held against every other.
MOST_FIELDS = 20
#: Ways out that change the cover or turn it: an outline says both.
NO_WAYS = ("shrink", "grow", "turn")
#: A mitre's article and what else is not to be had on an outline: path, what else it may hold
#: without saying anything, the fix.
_NOT_HAD: tuple[tuple[str, object, str], ...] = (
    ("border.article", None, "border_courses = 1 in [laying], of the deck's own board"),
    ("board.may_turn", False, "angle_deg in [laying] says which way boards run"),
    ("board.ends", "cut_first", 'ends = "cut_first"'),
    ("lights.count", 0, "count = 0; mark lights out on the finished deck"),
    ("joints.lines_mm", None, "leave lines out, or tell breakers in [laying]"),
    ("fascia.sides", (), "leave sides out; say faced = true on the outline's sides"),
)


def not_on_an_outline(read: Read, tables: Mapping[str, object]) -> Iterator[Fault]:
    """Yield what a brief wishes that cannot be had on an outline, each with the way to have it."""
    if tables.get("cover") is not None:
        yield Fault(
            path="cover",
            found="[cover] with [outline]",
            wanted="one of them: the outline says how large the deck is",
            nearest="leave [cover] out",
        )
    for path, nothing, nearest in _NOT_HAD:
        if path in read and read[path] != nothing:
            yield Fault(
                path=path,
                found=f"{_told(read[path])} with [outline]",
                wanted=f"nothing here: on an outline there is no {path} so far",
                nearest=nearest,
            )
    yield from _ways(read)


def _told(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(f"{one:g}" if isinstance(one, float) else str(one) for one in value)
    return str(value).lower() if isinstance(value, bool) else str(value)


def _ways(read: Read) -> Iterator[Fault]:
    """Yield ways out that an outline has not; the list that holds anyway is no wish."""
    prefer = read.get("rows.prefer", WAYS_OUT)
    if not isinstance(prefer, tuple) or prefer == WAYS_OUT:
        return
    wished = [way for way in prefer if way in NO_WAYS]
    if wished:
        kept = [way for way in prefer if way not in NO_WAYS] or ["as_wished", "gaps"]
        listed = ", ".join(f'"{way}"' for way in kept)
        yield Fault(
            path="rows.prefer",
            found=f"{', '.join(wished)} with [outline]",
            wanted="ways out that leave the outline as it is",
            nearest=f"prefer = [{listed}]",
        )


def laying_makes_sense(read: Read, shape: Shape | None, turned_deg: float) -> Iterator[Fault]:
    """Yield wishes of `[laying]` that contradict each other, and fields off the deck.

    `turned_deg` is how far the deck's own line, along which all of them are, is turned.
    """
    if shape is not None and turned_deg:
        shape = shape_on_own_line(shape, turned_deg)
    yield from _angle("laying.angle_deg", read.get("laying.angle_deg"))
    if read.get("laying.angle_deg") is not None and read.get("board.run") == "across":
        yield Fault(
            path="laying.angle_deg",
            found=f"{_told(read['laying.angle_deg'])} with board.run = across",
            wanted="which way boards run told once",
            nearest="leave board.run out",
        )
    word = read.get("laying.breakers")
    if word in BREAKERS and "laying.breakers_mm" in read:
        yield Fault(
            path="laying.breakers",
            found=f"{word} with breakers_mm",
            wanted="no breaker boards, as many as are needed, or those you tell the places of",
            nearest="leave breakers_mm out",
        )
    yield from _lines(read)
    if shape is not None:
        yield from _beyond(read, shape)
    yield from _fields(read, shape, turned_deg)


def _angle(path: str, angle: object) -> Iterator[Fault]:
    if angle == 180:
        yield Fault(
            path=path,
            found="180",
            wanted="0 to under 180: boards run both ways alike",
            nearest="angle_deg = 0",
        )


def _lines(read: Read) -> Iterator[Fault]:
    """Yield breaker boards told out of order, or twice."""
    lines = read.get("laying.breakers_mm")
    if not isinstance(lines, tuple):
        return
    for at in range(1, len(lines)):
        if lines[at] <= lines[at - 1]:
            listed = ", ".join(f"{line:g}" for line in sorted(set(lines)))
            yield Fault(
                path=f"laying.breakers_mm[{at}]",
                found=f"{lines[at]:g} after {lines[at - 1]:g}",
                wanted="each breaker board once, in order along the boards",
                nearest=f"breakers_mm = [{listed}]",
            )
            return


def _beyond(read: Read, shape: Shape) -> Iterator[Fault]:
    """Yield breaker boards that would lie off the deck."""
    lines, angle = read.get("laying.breakers_mm"), read.get("laying.angle_deg")
    if not isinstance(lines, tuple):
        return
    if not isinstance(angle, float):
        angle = 90.0 if read.get("board.run") == "across" else 0.0
    run = (cos(radians(angle)), sin(radians(angle)))
    reach = [to_mm(round(x * run[0] + y * run[1])) for x, y in shape.corners]
    low, high = min(reach), max(reach)
    for at, line in enumerate(lines):
        if not low < line < high:
            yield Fault(
                path=f"laying.breakers_mm[{at}]",
                found=f"{line:g}, where no deck is",
                wanted=f"between {low:.6g} and {high:.6g} along the boards",
                nearest=f"leave {line:g} out",
            )


def _fields(read: Read, shape: Shape | None, turned_deg: float) -> Iterator[Fault]:
    fields = found_of(read, "laying.fields", FieldWish)
    if turned_deg:
        fields = [(at, field_on_own_line(one, turned_deg)) for at, one in fields]
    if len(fields) > MOST_FIELDS:
        yield Fault(
            path="laying.fields", found=f"{len(fields)} of them", wanted=f"at most {MOST_FIELDS}",
            nearest="leave out what the main field can lie in",
        )  # fmt: skip
        return
    yield from _bordered(read)
    for at, one in fields:
        yield from _angle(f"laying.fields[{at}].angle_deg", one.angle_deg)
        if shape is not None:
            yield from _off_the_deck(at, _ring_of(one), shape)
    for (i, one), (j, other) in combinations(fields, 2):
        yield from _overlap(i, _ring_of(one), j, _ring_of(other))


def _ring_of(one: FieldWish) -> Ring:
    low = (exact(one.from_along_mm), exact(one.from_across_mm))
    size = (exact(one.along_mm), exact(one.across_mm))
    return rectangle(low, (low[0] + size[0], low[1] + size[1]))


def _bordered(read: Read) -> Iterator[Fault]:
    if read.get("laying.border_courses") and read.get("laying.fields"):
        yield Fault(
            path="laying.border_courses",
            found=f"{read['laying.border_courses']} with laying.fields",
            wanted="a border, or fields that run their own way: both together cannot be had so far",
            nearest="border_courses = 0, or leave fields out",
        )


def _off_the_deck(at: int, ring: Ring, shape: Shape) -> Iterator[Fault]:
    """Yield a field that has no part of the deck within its bounds."""
    if _shares(ring, shape.corners):
        return
    low_x, low_y, high_x, high_y = (f"{to_mm(way):g}" for way in box(shape.corners))
    yield Fault(
        path=f"laying.fields[{at}]",
        found="a field with no part of the deck in it",
        wanted=f"one on the deck, which lies from ({low_x}, {low_y}) to ({high_x}, {high_y})",
        nearest=f"leave laying.fields[{at}] out, or measure it from the datum corner",
    )


def _shares(field: Ring, ring: Ring) -> bool:
    from drylay.geometry import common, region  # heavy, and few briefs have fields

    return not common(region(field), region(ring)).is_empty


def _overlap(i: int, one: Ring, j: int, other: Ring) -> Iterator[Fault]:
    low = [max(one[0][k], other[0][k]) for k in (0, 1)]
    high = [min(one[2][k], other[2][k]) for k in (0, 1)]
    along, across = (to_mm(high[k] - low[k]) for k in (0, 1))
    if along > 0 and across > 0:
        less = "along" if along <= across else "across"
        yield Fault(
            path=f"laying.fields[{j}]",
            found=f"a field that lies over laying.fields[{i}] by {along:g} x {across:g} mm",
            wanted="fields beside one another",
            nearest=f"move it by {min(along, across):g} mm {less} the house"
            if less == "along"
            else f"move it by {min(along, across):g} mm away from the house",
        )
