"""What openings want: trimmers all round, doubled where they carry more than one tail.

Two trimmers run across the joists from the nearest joist, or rim, that goes past the hole on
either side; two more run between them where those joists stand off the hole.
"""

from collections.abc import Sequence

from attrs import frozen

from drylay.subframe.bays import is_free
from drylay.subframe.bearing import loose_ends
from drylay.subframe.ledges import Hole, Joists, ledges
from drylay.subframe.plane import NEAR_MM, Axis, Corners, spread
from drylay.subframe.strips import free_parts
from drylay.subframe.wants import Placed, Timber


@frozen
class _Across:
    """A trimmer across the joists and, where it is doubled, its double; on which side of its hole.

    `way` is 1 or -1: towards what is further along the joists, or back.
    """

    hole: Hole
    way: float
    corners: Corners
    double: Corners | None


def holes_of(placed: Placed, marks: Sequence[str]) -> list[Hole]:
    """Return all holes, each as the rectangle round it along the frame's own axes."""
    return [
        Hole(
            mark=mark,
            number=number,
            left_mm=min(u for u, _ in ring),
            right_mm=max(u for u, _ in ring),
            low_mm=min(v for _, v in ring),
            high_mm=max(v for _, v in ring),
        )
        for number, (mark, ring) in enumerate(zip(marks, placed.holes, strict=True))
    ]


def frame_openings(
    placed: Placed, holes: Sequence[Hole], rims: Sequence[Timber], joists: Joists
) -> list[Timber]:
    """Return the trimmers and doubles of all openings; a trimmer with no room is left out.

    Source: docs/outline-conventions.md, Frame; trimmers doubled by common practice.
    """
    if not holes:
        return []
    first = _first_across(placed, holes, rims, joists([]))
    stand = [*_shapes(first), *(_box(hole) for hole in holes)]
    cut = joists(stand)
    doubles = _doubled_joists(placed, first, rims, cut, stand)
    standing = [timber.corners for timber in (*rims, *cut, *doubles)]
    across = _settled(placed, holes, first, standing)
    found = [*doubles]
    for one in across:
        found += _timbers(one)
    standing += [timber.corners for timber in found]
    found += _between(placed, holes, standing)
    standing += [timber.corners for timber in found]
    return found + ledges(placed, holes, standing, joists)


def _box(hole: Hole, by_mm: float = 0.0) -> Corners:
    """Return a hole's rectangle, wider all round by so much."""
    left, right = hole.left_mm - by_mm, hole.right_mm + by_mm
    low, high = hole.low_mm - by_mm, hole.high_mm + by_mm
    return ((left, low), (right, low), (right, high), (left, high))


def _ends(timber: Timber) -> tuple[float, float]:
    """Return from where to where an upright has its full thickness."""
    low_right, high_right, high_left, low_left = (v for _, v in timber.corners)
    return max(low_right, low_left), min(high_right, high_left)


def _first_across(
    placed: Placed, holes: Sequence[Hole], rims: Sequence[Timber], raw: Sequence[Timber]
) -> list[_Across]:
    """Return the trimmers across the joists, between joists as they stand before any is cut."""
    thick = placed.wants.timber_thickness_mm
    found = []
    for hole in holes:
        others = [_box(other, thick) for other in holes if other is not hole]
        for way in (-1.0, 1.0):
            band = _band(hole, way, thick)
            past = [joist.corners for joist in raw if _goes_past(joist, hole, band)]
            stand = [*(rim.corners for rim in rims), *past, *others]
            corners = _strip(placed, hole, sum(band) / 2, stand)
            if corners:
                doubled = _tails(raw, hole, way, corners, thick) > 1
                double = _strip(placed, hole, sum(band) / 2 + way * thick, stand)
                found.append(_Across(hole, way, corners, double if doubled else None))
    return found


def _band(hole: Hole, way: float, thickness_mm: float) -> tuple[float, float]:
    """Return from where to where a trimmer beside a hole reaches, the joists' way."""
    if way < 0:
        return hole.low_mm - thickness_mm, hole.low_mm
    return hole.high_mm, hole.high_mm + thickness_mm


def _goes_past(joist: Timber, hole: Hole, band: tuple[float, float]) -> bool:
    low, high = _ends(joist)
    left, right = spread(u for u, _ in joist.corners)
    beside = right <= hole.left_mm + NEAR_MM or left >= hole.right_mm - NEAR_MM
    return beside and low <= band[0] and high >= band[1]


def _strip(
    placed: Placed, hole: Hole, centre_mm: float, stand: Sequence[Corners]
) -> Corners | None:
    """Return the timber across the joists, centred so far along them, that the hole lies beside."""
    thick = placed.wants.timber_thickness_mm
    middle = (hole.left_mm + hole.right_mm) / 2
    axis = Axis((min(u for u, _ in placed.ring) - thick, centre_mm), (1.0, 0.0))
    for part in free_parts(axis, thick, stand, lambda at: is_free(placed, at), thick):
        if part[0][0] < middle < part[1][0]:
            return part
    return None


def _tails(
    raw: Sequence[Timber], hole: Hole, way: float, corners: Corners, thickness_mm: float
) -> int:
    """Return how many joists a trimmer cuts of which enough is left to hang on it."""
    edge = hole.low_mm if way < 0 else hole.high_mm
    far = edge + way * 2 * thickness_mm
    left, right = corners[0][0], corners[1][0]
    found = 0
    for joist in raw:
        low, high = _ends(joist)
        u = (joist.corners[0][0] + joist.corners[3][0]) / 2
        if left < u < right and low <= min(far, edge) and high >= max(far, edge):
            found += 1
    return found


def _timbers(one: _Across) -> list[Timber]:
    """Return a trimmer across the joists, and its double on the side away from the hole."""
    mark, number = one.hole.mark, one.hole.number
    trimmer = Timber(kind="trimmer", corners=one.corners, side=mark, number=number)
    if one.double is None:
        return [trimmer]
    return [trimmer, Timber(kind="double", corners=one.double, side=mark, number=number)]


def _shapes(across: Sequence[_Across]) -> list[Corners]:
    return [timber.corners for one in across for timber in _timbers(one)]


def _doubled_joists(
    placed: Placed,
    across: Sequence[_Across],
    rims: Sequence[Timber],
    joists: Sequence[Timber],
    stand: Sequence[Corners],
) -> list[Timber]:
    """Return the doubles of all joists that carry a doubled trimmer and stand alone."""
    found: list[Timber] = []
    for one in across:
        if not one.double:
            continue
        level = (one.corners[0][1] + one.corners[3][1]) / 2
        for face, way in ((one.corners[0][0], -1.0), (one.corners[1][0], 1.0)):
            for joist in joists:
                low, high = _ends(joist)
                near = joist.corners[0 if way < 0 else 3][0] - face
                if abs(near) < NEAR_MM and low < level < high:
                    standing = [timber.corners for timber in (*rims, *joists, *found)]
                    double = _double(placed, one, joist, way, [*standing, *stand])
                    found += [double] if double else []
    return found


def _double(
    placed: Placed, one: _Across, joist: Timber, way: float, stand: Sequence[Corners]
) -> Timber | None:
    """Return a joist's double away from the hole, past the trimmer it carries; None without room.

    One that already has another beside it has none, and needs none.
    """
    thick = placed.wants.timber_thickness_mm
    level = (one.corners[0][1] + one.corners[3][1]) / 2
    centre = (joist.corners[0][0] + joist.corners[3][0]) / 2 + way * thick
    axis = Axis((centre, level - 1e5), (0.0, 1.0))
    for part in free_parts(axis, thick, stand, lambda at: is_free(placed, at), thick):
        double = Timber(kind="double", corners=part, side=one.hole.mark, number=one.hole.number)
        start, end = _ends(double)
        past = start <= level - 1.5 * thick and end >= level + 1.5 * thick
        if past and not loose_ends(double, stand):
            return double
    return None


def _settled(
    placed: Placed, holes: Sequence[Hole], across: Sequence[_Across], standing: Sequence[Corners]
) -> list[_Across]:
    """Return the trimmers across the joists once doubles stand: they end at the first of them."""
    thick = placed.wants.timber_thickness_mm
    found = []
    for one in across:
        stand = [*standing, *_shapes([other for other in across if other is not one])]
        stand += [_box(hole, thick) for hole in holes if hole is not one.hole]
        centre = sum(_band(one.hole, one.way, thick)) / 2
        corners = _strip(placed, one.hole, centre, stand)
        double = _strip(placed, one.hole, centre + one.way * thick, stand) if one.double else None
        if corners:
            found.append(_Across(one.hole, one.way, corners, double))
    return found


def _between(placed: Placed, holes: Sequence[Hole], standing: Sequence[Corners]) -> list[Timber]:
    """Return the trimmers the joists' way, beside holes that no joist stands close to."""
    thick = placed.wants.timber_thickness_mm
    found: list[Timber] = []
    for hole in holes:
        middle = (hole.low_mm + hole.high_mm) / 2
        for centre in (hole.left_mm - thick / 2, hole.right_mm + thick / 2):
            axis = Axis((centre, middle - 1e5), (0.0, 1.0))
            stand = [*standing, *(timber.corners for timber in found)]
            for part in free_parts(axis, thick, stand, lambda at: is_free(placed, at), thick):
                low, high = part[0][1], part[1][1]
                if abs(low - hole.low_mm) < NEAR_MM and abs(high - hole.high_mm) < NEAR_MM:
                    found.append(
                        Timber(kind="trimmer", corners=part, side=hole.mark, number=hole.number)
                    )
    return found
