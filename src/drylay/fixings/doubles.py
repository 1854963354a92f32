"""Screws that make two timbers side by side one: where they stand, how many, and which."""

import math
from collections.abc import Sequence

from attrs import frozen

from drylay.fixings.model import DoubledStretch, DoubleScrews
from drylay.marks import PER_MM, exact, to_mm
from drylay.subframe.model import Member

#: Along either edge every so far, in mm, so that one stands every half of it, by turns.
#: Source: US Army engineer training text on carpentry, girders of two joists: 24 in apart,
#: staggered, from both faces; 610 mm, taken as 600.
SPACING_MOST_MM = 300.0
#: From the edges, in mm; a quarter of the depth where that is less.
#: Source: the same, 1 1/2 in; the quarter is common practice, no source.
EDGE_MM = 38.0
#: One above the other at either end. Source: from memory, IRC table R602.3(1), built-up girders.
PER_END = 2
#: From an end to the first, in shanks. Source: from memory, EN 1995-1-1 table 8.2, a3,c: 10 d.
END_SHANKS = 10
#: In the second timber, in shanks. Source: from memory, EN 1995-1-1, 8.7.2 (3): 6 d.
POINT_SHANKS = 6
#: A screw no thinner, in mm, stands for the handbook's nail of 4.1 (16 penny). Assumption.
SHANK_LEAST_MM = 5.0
#: How far off faces that touch may be told, in mm: places are rounded to 1/320.
TOUCH_MM = 3.01 / PER_MM
#: Members that run the same way lean no more than this to one another: sine of an angle.
ALONG = 0.001
#: What a double is screwed to.
DOUBLED = frozenset({"joist", "pair", "trimmer"})
#: What carries doubled trimmers, and may be doubled by a pair instead.
LADEN = frozenset({"joist", "pair"})

Place = tuple[float, float]


@frozen
class Beside:
    """Two members that touch face to face, and along how much both have their full thickness."""

    member: Member
    to: Member
    length_mm: float


def doubled_members(members: Sequence[Member]) -> tuple[Beside, ...]:
    """Return which members are to be one timber with which, in the members' order.

    Each double with every joist, pair and trimmer that it stands face to face with. Where a joist
    that carries the end of a double has a pair or a joist beside it and no double, the two.

    Source: docs/outline-conventions.md, Fixings on an outline.
    """
    doubles = [member for member in members if member.kind == "double"]
    ends = {mark for double in doubles for mark in (double.start_on, double.end_on)}
    found = [
        Beside(double, other, long_mm)
        for double in doubles
        for other in members
        if other.kind in DOUBLED and (long_mm := beside_mm(double, other)) > 0
    ]
    covered = {each.to.mark for each in found}
    laden = [each for each in members if each.kind in LADEN and each.mark in ends - covered]
    told: set[frozenset[str]] = set()
    for member in laden:
        for other in members:
            both = frozenset({member.mark, other.mark})
            if other.kind in LADEN and both not in told:
                long_mm = beside_mm(member, other) if other is not member else 0.0
                if long_mm > 0:
                    told.add(both)
                    found.append(Beside(member, other, long_mm))
    return tuple(found)


def beside_mm(one: Member, other: Member) -> float:
    """Return along how much two members touch face to face at full thickness, 0 where they do not.

    Down to 1/320 mm.
    """
    long, short = sorted((one, other), key=lambda each: -each.length_mm)
    way, its = _way(long), _way(short)
    if abs(way[0] * its[1] - way[1] * its[0]) > ALONG:
        return 0.0
    a, b = _seen(long, way), _seen(short, way)
    apart = min(abs(a[3] - b[2]), abs(b[3] - a[2]))
    if apart > TOUCH_MM:
        return 0.0
    return max(0.0, math.floor((min(a[1], b[1]) - max(a[0], b[0])) * PER_MM + 1e-3) / PER_MM)


def _way(member: Member) -> Place:
    dx = member.end.along_mm - member.start.along_mm
    dy = member.end.across_mm - member.start.across_mm
    long = math.hypot(dx, dy)
    return dx / long, dy / long


def _seen(member: Member, way: Place) -> tuple[float, float, float, float]:
    """Return from where to where a member is at full thickness along a way, and lies beside it."""
    us = sorted(at.along_mm * way[0] + at.across_mm * way[1] for at in member.corners)
    vs = [at.across_mm * way[0] - at.along_mm * way[1] for at in member.corners]
    return us[1], us[-2], min(vs), max(vs)


def length_least_mm(timber_thickness_mm: float, shank_mm: float) -> float:
    """Return the shortest screw of that shank: through one timber and 6 shanks into the other.

    Source: EN 1995-1-1, 8.7.2 (3), from memory.
    """
    return to_mm(exact(timber_thickness_mm) + POINT_SHANKS * exact(shank_mm))


def may_join(timber_thickness_mm: float, shank_mm: float, length_mm: float) -> bool:
    """Return whether a screw makes two timbers one, and does not stand out behind.

    Source: docs/outline-conventions.md, Fixings on an outline.
    """
    least_mm = length_least_mm(timber_thickness_mm, shank_mm)
    return shank_mm >= SHANK_LEAST_MM and least_mm <= length_mm <= 2 * timber_thickness_mm


def count_double_screws(
    members: Sequence[Member],
    *,
    timber_mm: tuple[float, float],
    article: str,
    shank_mm: float,
    length_mm: float,
    pilot_ratio: float,
    driver: str = "",
) -> DoubleScrews | None:
    """Return the screws of doubles, stretch by stretch; None where nothing is doubled.

    `timber_mm` is thickness and depth. A stretch has two screws a place `end_least_mm` off either
    end, and between these the fewest single ones, evenly, that keep `spacing_most_mm`. One too
    short for two such places is left out.

    Source: docs/outline-conventions.md, Fixings on an outline.
    """
    end = END_SHANKS * exact(shank_mm)
    stretches = tuple(
        _stretch(each, end)
        for each in doubled_members(members)
        if exact(each.length_mm) >= 2 * end
    )  # fmt: skip
    if not stretches:
        return None
    thickness_mm, depth_mm = timber_mm
    return DoubleScrews(
        article=article,
        driver=driver,
        shank_mm=shank_mm,
        length_mm=length_mm,
        length_least_mm=length_least_mm(thickness_mm, shank_mm),
        length_most_mm=to_mm(2 * exact(thickness_mm)),
        per_end=PER_END,
        spacing_most_mm=SPACING_MOST_MM,
        end_least_mm=to_mm(end),
        edge_mm=min(EDGE_MM, (exact(depth_mm) // 4) / PER_MM),
        stretches=stretches,
        count=sum(each.count for each in stretches),
        pilot_ratio=pilot_ratio,
        pilot_mm=to_mm(exact(shank_mm * pilot_ratio)),
    )


def _stretch(each: Beside, end: int) -> DoubledStretch:
    between = exact(each.length_mm) - 2 * end
    steps = max(1, -(-between // exact(SPACING_MOST_MM)))
    return DoubledStretch(
        member=each.member.mark,
        to=each.to.mark,
        length_mm=each.length_mm,
        apart_mm=to_mm(between // steps),
        between=steps - 1,
        count=2 * PER_END + steps - 1,
    )
