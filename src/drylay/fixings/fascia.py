"""Where a fascia is screwed to the frame: evenly, close enough, and clear of what is behind."""

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise

from attrs import frozen

from drylay.edges.model import Edges, FasciaFace
from drylay.fixings.model import CoachScrews, FasciaScrewPlace
from drylay.frame.model import Frame, Joist
from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, to_mm

#: Sides that carry a rim, near and far, and the side of the first joist, by the boards' run.
RIM_SIDES = {"along": ("house", "front"), "across": ("left", "right")}
FIRST_JOIST = {"along": "left", "across": "house"}
#: The side at the end of a face that is nearest the datum corner.
BEFORE = {"house": "left", "front": "left", "left": "house", "right": "house"}
#: A coach screw's washer is so many shanks across. Source: ISO 7093, from memory: 24 of an 8.
WASHER_SHANKS = 3

#: A length along a face in 1/320 mm, from and to, both ends still allowed.
Span = tuple[int, int]


@frozen(kw_only=True)
class FasciaRules:
    """What limits the places of fascia screws; `clear_mm` is from a coach screw's centre."""

    spacing_most_mm: float
    end_least_mm: float
    clear_mm: float
    shank_mm: float


@frozen(kw_only=True)
class Behind:
    """The frame behind the fascia: its screws in the joists' ends.

    All joists have them, or where they hang the outer two and those `paired`, told by mark; none
    between bearers. `plies` are places of joints in bearers' plies, each with its bearer's mark.
    """

    run: str
    edges: Edges
    frame: Frame
    coach: CoachScrews
    on_hangers: bool = False
    units: str = "metric"
    paired: frozenset[str] = frozenset()
    plies: tuple[tuple[str, float], ...] = ()


def clear_of_heads_mm(coach_shank_mm: float, shank_mm: float) -> float:
    """Return how far a fascia screw keeps from a coach screw, centre to centre, rounded up.

    Half a washer and half its own shank. Source: ISO 7093, from memory, for the washer.
    """
    doubled = WASHER_SHANKS * exact(coach_shank_mm) + exact(shank_mm)
    return to_mm(-(-doubled // 2))


def place_fascia_screws(behind: Behind, rules: FasciaRules) -> tuple[FasciaScrewPlace, ...]:
    """Return the places of every piece of fascia; a piece without room has none.

    Source: conventions; spacing and distance from ends by the rules handed in.
    """
    mark, spacing = MARK_320[behind.units], exact(rules.spacing_most_mm)
    places = []
    for face in behind.edges.faces:
        lo, hi, shut = _timber(behind, rules, face)
        start, end_least = _face_start(behind.edges, face), exact(rules.end_least_mm)
        for piece in face.pieces:
            end = start + exact(piece.length_mm)
            room = (max(lo, start + end_least) - start, min(hi, end - end_least) - start)
            holes = [(a - start, b - start) for a, b in shut]
            spots = spread(room, holes, spacing_most=spacing, mark=mark)
            places += [FasciaScrewPlace(fascia=piece.mark, offset_mm=to_mm(at)) for at in spots]
            start = end
    return tuple(places)


def spread(room: Span, shut: Iterable[Span], *, spacing_most: int, mark: int) -> tuple[int, ...]:
    """Return the fewest even places on marks within `room`, none inside a `shut` span.

    The first and last are as far out as may be; each other is the open mark nearest its even
    share, the lower of two. Nothing where neighbours would have to be too far apart.
    """
    holes = sorted(shut)
    first, last = _up(room[0], holes, mark), _down(room[1], holes, mark)
    if not room[0] <= first <= last <= room[1]:
        return ()
    if first == last:
        return (first,)
    fewest = -(-(last - first) // spacing_most)
    for count in range(fewest, 2 * fewest + 1):
        shares = [first + Fraction((last - first) * n, count) for n in range(count + 1)]
        spots = tuple(_nearest(share, holes, mark) for share in shares)
        if any(b <= a for a, b in pairwise(spots)):
            return ()
        if all(b - a <= spacing_most for a, b in pairwise(spots)):
            return spots
    return ()


def _nearest(share: Fraction, holes: list[Span], mark: int) -> int:
    low, high = _down(int(share), holes, mark), _up(-int(-share // 1), holes, mark)
    return low if share - low <= high - share else high


def _up(at: int, holes: list[Span], mark: int) -> int:
    """Return the first open mark at or beyond a place."""
    spot = ceil_mark(at, mark)
    for start, end in holes:
        if start < spot < end:
            spot = ceil_mark(end, mark)
    return spot


def _down(at: int, holes: list[Span], mark: int) -> int:
    """Return the last open mark at or before a place."""
    spot = floor_mark(at, mark)
    for start, end in sorted(holes, key=lambda hole: hole[1], reverse=True):
        if start < spot < end:
            spot = floor_mark(start, mark)
    return spot


def _face_start(edges: Edges, face: FasciaFace) -> int:
    """Return where a face begins, from the cover's edge: a short one behind its neighbour."""
    faced = any(other.side == BEFORE[face.side] for other in edges.faces)
    return exact(edges.fascia_thickness_mm) if faced and not face.long_face else 0


def _timber(behind: Behind, rules: FasciaRules, face: FasciaFace) -> tuple[int, int, list[Span]]:
    """Return from where to where a face may be screwed, and where it may not in between."""
    if face.side in RIM_SIDES[behind.run]:
        return _rim(behind, rules, face.side)
    return _outer_joist(behind, rules, face.side)


def _rim(behind: Behind, rules: FasciaRules, side: str) -> tuple[int, int, list[Span]]:
    """Return the open part of a rim: clear of coach screws' heads, of its joints and corners.

    A bearer in its place has no heads, and joints of its plies.
    """
    frame, edges = behind.frame, behind.edges
    end_least, clear = exact(rules.end_least_mm), exact(rules.clear_mm)
    lo = exact(edges.frame_start_mm)
    hi = lo + exact(edges.frame_length_mm)
    rim = frame.rims[RIM_SIDES[behind.run].index(side)]
    stay = {frame.joists[0].mark, frame.joists[-1].mark, *behind.paired}
    screwed = [joist for joist in frame.joists if not behind.on_hangers or joist.mark in stay]
    shut = [_about(exact(joist.offset_mm), clear) for joist in screwed if not joist.parts]
    shut += [_about(exact(piece.start_mm), end_least) for piece in rim.pieces[1:]]
    shut += [_about(exact(at_mm), end_least) for mark, at_mm in behind.plies if mark == rim.mark]
    return lo + end_least, hi - end_least, shut


def _outer_joist(behind: Behind, rules: FasciaRules, side: str) -> tuple[int, int, list[Span]]:
    """Return the open part of an outer joist: beyond its coach screws, clear of noggins' ends."""
    frame, edges = behind.frame, behind.edges
    faced = {face.side for face in edges.faces}
    own = -(-exact(rules.shank_mm) // 2)
    near, far = (
        exact(behind.coach.length_mm)
        + (exact(behind.coach.sink_mm) if rim_side in faced else 0)
        + own
        for rim_side in RIM_SIDES[behind.run]
    )
    ends = ends_of_bearers(frame.joists[0], edges)
    if ends:
        (_, near), (far, _) = ends[0], ends[-1]
        near, far = near - exact(edges.frame_near_mm) + own, frame_far(edges) - far + own
    lo = exact(edges.frame_near_mm)
    hi = frame_far(edges)
    half = -(-exact(frame.timber_thickness_mm) // 2)
    first = side == FIRST_JOIST[behind.run]
    joist = frame.joists[0 if first else -1].mark
    shut = [
        _about(exact(noggin.across_mm), half)
        for noggin in frame.noggins
        if joist == (noggin.left if first else noggin.right)
    ]
    shut += [(start - own, end + own) for start, end in ends[1:-1]]
    end_least = exact(rules.end_least_mm)
    return lo + max(near, end_least), hi - max(far, end_least), shut


def frame_far(edges: Edges) -> int:
    """Return where the frame ends across, in 1/320 mm."""
    return exact(edges.frame_near_mm) + exact(edges.frame_depth_mm)


def ends_of_bearers(joist: Joist, edges: Edges) -> list[Span]:
    """Return from where to where ends of bearers show beside an outer joist that hangs in parts.

    What closes the frame comes first and last; nothing where joists lie over bearers.
    """
    if not joist.parts:
        return []
    starts = [exact(part.near_mm) for part in joist.parts]
    ends = [exact(part.near_mm) + exact(part.length_mm) for part in joist.parts]
    return list(zip([exact(edges.frame_near_mm), *ends], [*starts, frame_far(edges)], strict=True))


def _about(centre: int, each_way: int) -> Span:
    return centre - each_way, centre + each_way
