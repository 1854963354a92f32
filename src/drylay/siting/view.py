"""The view over a fence, in closed form, both ways; grounds may lie at different levels.

Eyes at level E, the fence's top at F, the ground beyond at N, the deck's nearest edge `a` from the
fence: ground is seen from a (F - N) / (E - F) beyond the fence on, and none where E is not above F.
With both grounds at 0 this is a hf / (e - hf). Distances square to the fence's line; whoever looks
at a slant sees no nearer. What is seen past a fence's ends is not reckoned. Source: geometry.
"""

from math import ceil, floor, hypot

from attrs import evolve

from drylay.findings import Finding
from drylay.geometry import Place, off_line
from drylay.siting.model import Answer, DeckPlace, Fence, Garden, Sight, SitingChange
from drylay.siting.near import FAR_MM, keeps, never, shifted
from drylay.siting.told import (
    CAUTION,
    GEOMETRY,
    NOTE,
    answered,
    at_least,
    at_most,
    is_good,
    level_change,
    move_change,
    told,
)

#: Eyes over the ground they stand or sit on. Common practice, no source.
STANDING_MM, SEATED_MM = 1600.0, 1200.0


def seen_from_mm(
    *, apart_mm: float, eye_mm: float, fence_mm: float, ground_mm: float = 0.0
) -> float | None:
    """Return how far beyond a fence ground is seen from, in mm; None where none is seen.

    All but the distance are levels. Source: geometry, similar triangles.
    """
    if eye_mm <= fence_mm:
        return None
    return max(0.0, apart_mm * (fence_mm - ground_mm) / (eye_mm - fence_mm))


def apart_from(fence: Fence, place: DeckPlace) -> float:
    """Return how far a place's nearest corner is from a fence's line; 0 where it crosses it."""
    off = [_side(fence, corner) for corner in corners_of(place)]
    if min(off) < 0 < max(off):
        return 0.0
    return min(off_line(fence.start_mm, fence.end_mm, corner) for corner in corners_of(place))


def corners_of(place: DeckPlace) -> tuple[Place, ...]:
    """Return the corners of the rectangle at a place."""
    x1, y1 = place.along_mm, place.across_mm
    x2, y2 = x1 + place.size_along_mm, y1 + place.size_across_mm
    return ((x1, y1), (x2, y1), (x2, y2), (x1, y2))


def _side(fence: Fence, corner: Place) -> float:
    (x1, y1), (x2, y2) = fence.start_mm, fence.end_mm
    return (x2 - x1) * (corner[1] - y1) - (y2 - y1) * (corner[0] - x1)


def sight(fence: Fence, place: DeckPlace, eye_over_mm: float = STANDING_MM) -> Sight:
    """Return what eyes so far over a deck see over a fence from its nearest edge.

    Source: geometry; heights of eyes by common practice, no source.
    """
    eye_mm, fence_mm = place.top_mm + eye_over_mm, fence.foot_mm + fence.height_mm
    apart_mm = apart_from(fence, place)
    starts = seen_from_mm(
        apart_mm=apart_mm, eye_mm=eye_mm, fence_mm=fence_mm, ground_mm=fence.beyond_mm
    )
    return Sight(
        fence=fence.name,
        apart_mm=apart_mm,
        eye_mm=eye_mm,
        fence_mm=fence_mm,
        starts_mm=None if starts is None else at_least(starts),
    )


def hiding_fence_mm(fence: Fence, place: DeckPlace, eye_over_mm: float = STANDING_MM) -> float:
    """Return the lowest level of a fence's top that hides the ground beyond, up to a whole mm.

    With `private_mm` told, that much of it: F = (D E + a N) / (a + D). Source: geometry.
    """
    found = sight(fence, place, eye_over_mm)
    if fence.private_mm is None or found.apart_mm + fence.private_mm <= 0:
        return float(ceil(found.eye_mm))
    depth, apart = fence.private_mm, found.apart_mm
    return float(ceil(round((depth * found.eye_mm + apart * fence.beyond_mm) / (apart + depth), 6)))


def hiding_top_mm(fence: Fence, place: DeckPlace, eye_over_mm: float = STANDING_MM) -> float:
    """Return the highest level of a deck's top from which a fence hides enough, down to a mm.

    Source: geometry, E = F + a (F - N) / D.
    """
    found = sight(fence, place, eye_over_mm)
    over = 0.0
    if fence.private_mm:
        over = max(0.0, found.apart_mm * (found.fence_mm - fence.beyond_mm) / fence.private_mm)
    return float(floor(round(found.fence_mm + over - eye_over_mm, 6)))


def seen_seated_mm(fence: Fence, place: DeckPlace) -> float:
    """Return the lowest level of a fence's top at which nobody beyond sees who sits on a deck.

    Somebody stands up to `private_mm` beyond the fence; however far off, without that. The line
    from eye to seated head is highest over the fence when they stand at one end of that or the
    other; from further and further off it comes down, or up, to the seated head itself.
    Source: geometry; heights of eyes by common practice, no source.
    """
    apart, depth = apart_from(fence, place), fence.private_mm
    theirs, ours = fence.beyond_mm + STANDING_MM, place.top_mm + SEATED_MM
    if depth is None:
        return max(theirs, ours)
    far = (theirs * apart + ours * depth) / (apart + depth) if apart + depth > 0 else ours
    return max(theirs, far)


def ask_view(garden: Garden, place: DeckPlace) -> tuple[Answer, ...]:
    """Return of each fence whether neighbours' ground is seen over it, and whether they see us.

    Changes tell the fence, the deck's top and the shift that hide both, where there is such a one.
    Source: geometry.
    """
    if not garden.fences:
        return (answered("view", "fence", [told("PLC-013", NOTE, "view", "no fence is told")]),)
    return tuple(
        answered("view", fence.name, seen_over(fence, place), _changes(garden, fence, place))
        for fence in garden.fences
    )


def seen_over(fence: Fence, place: DeckPlace) -> list[Finding]:
    """Return what is seen over a fence: from the deck, and of those who sit on it."""
    return [_over(fence, place), _seated(fence, place)]


def _over(fence: Fence, place: DeckPlace) -> Finding:
    found = sight(fence, place)
    if found.starts_mm is None:
        eyes = (at_least(found.eye_mm), found.fence_mm, "mm")
        return told("PLC-010", NOTE, fence.name, "no ground is seen over it", eyes, GEOMETRY)
    figures = (found.starts_mm, fence.private_mm, "mm")
    if fence.private_mm is not None and found.starts_mm >= fence.private_mm:
        message = "ground beyond is seen only further off than matters"
        return told("PLC-010", NOTE, fence.name, message, figures, GEOMETRY)
    message = "standing on the deck one sees the ground beyond, from so far behind the fence on"
    return told("PLC-011", CAUTION, fence.name, message, figures, GEOMETRY)


def _seated(fence: Fence, place: DeckPlace) -> Finding:
    needed, is_mm = seen_seated_mm(fence, place), fence.foot_mm + fence.height_mm
    if is_mm >= needed:
        message = "from beyond nobody sees who sits on the deck: its top is as high as hides them"
        figures = (is_mm, at_least(needed), "mm")
        return told("PLC-010", NOTE, fence.name, message, figures, GEOMETRY)
    message = "from beyond one sees who sits on the deck: its top is lower than hides them"
    return told("PLC-012", CAUTION, fence.name, message, (is_mm, at_most(needed), "mm"), GEOMETRY)


def _changes(garden: Garden, fence: Fence, place: DeckPlace) -> list[SitingChange]:
    """Return a higher fence, a lower deck and a shift, each only if it is good when asked again.

    No deck is lowered below the highest ground told, none is moved off the plot or into a building.
    """
    if is_good(seen_over(fence, place)):
        return []
    found = [_raised(fence, place)]
    down_mm = _good_top_mm(fence, place) - place.top_mm
    lower = evolve(place, top_mm=place.top_mm + down_mm)
    if _over_ground(lower) and is_good(seen_over(fence, lower)):
        found.append(level_change(place, down_mm))
    move = _further(fence, place)
    there = shifted(place, move.along_mm, move.across_mm)
    far = abs(move.along_mm + move.across_mm) > FAR_MM
    free = not far and all(keeps(there, thing) for thing in never(garden))
    return [*found, move] if free and is_good(seen_over(fence, there)) else found


def _over_ground(place: DeckPlace) -> bool:
    return place.ground_most_mm is None or place.top_mm >= place.ground_most_mm


def _raised(fence: Fence, place: DeckPlace) -> SitingChange:
    by_mm = needed_fence_mm(fence, place) - fence.foot_mm - fence.height_mm
    text = f"raise {fence.name} by {by_mm:g} mm to {fence.height_mm + by_mm:g} mm, if allowed: ask"
    return SitingChange(kind="fence", subject=fence.name, by_mm=by_mm, text=text)


def needed_fence_mm(fence: Fence, place: DeckPlace) -> float:
    """Return the lowest level of a fence's top that is good both ways, up to a whole mm."""
    return max(hiding_fence_mm(fence, place), float(ceil(round(seen_seated_mm(fence, place), 6))))


def _good_top_mm(fence: Fence, place: DeckPlace) -> float:
    """Return the highest level of the deck's top at which both views may be hidden."""
    apart, depth = apart_from(fence, place), fence.private_mm or 0.0
    fence_mm, theirs = fence.foot_mm + fence.height_mm, fence.beyond_mm + STANDING_MM
    if not depth and apart:
        return hiding_top_mm(fence, place)
    ours = fence_mm + (max(0.0, fence_mm - theirs) * apart / depth if depth else 0.0)
    return min(hiding_top_mm(fence, place), float(floor(round(ours - SEATED_MM, 6))))


def _further(fence: Fence, place: DeckPlace) -> SitingChange:
    """Return the shift away from a fence, along or across, after which it may hide both views."""
    found, depth = sight(fence, place), fence.private_mm or 0.0
    need = max(
        _needed_apart(depth, found.eye_mm, found.fence_mm, fence.beyond_mm),
        _needed_apart(
            depth, place.top_mm + SEATED_MM, found.fence_mm, fence.beyond_mm + STANDING_MM
        ),
    )
    (x1, y1), (x2, y2) = fence.start_mm, fence.end_mm
    long = hypot(x2 - x1, y2 - y1)
    square = ((y1 - y2) / long, (x2 - x1) / long)
    axis = 0 if abs(square[0]) > abs(square[1]) else 1
    middle = (
        place.along_mm + place.size_along_mm / 2,
        place.across_mm + place.size_across_mm / 2,
    )
    way = 1 if _side(fence, middle) * square[axis] >= 0 else -1
    far_mm = float(ceil(round(max(0.0, need - found.apart_mm) / abs(square[axis]) + 1e-3, 6)))
    return move_change((way, 0) if axis == 0 else (0, way), far_mm)


def _needed_apart(depth: float, eye_mm: float, fence_mm: float, beyond_mm: float) -> float:
    """Return how far from a fence a view over it starts beyond `depth`; 0 where nothing helps."""
    if eye_mm <= fence_mm or fence_mm <= beyond_mm:
        return 0.0
    return depth * (eye_mm - fence_mm) / (fence_mm - beyond_mm)
