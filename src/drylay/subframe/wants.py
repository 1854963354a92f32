"""What a frame is asked for, and the frame before it is numbered."""

from attrs import frozen

from drylay.findings import Finding
from drylay.outline.model import Spot
from drylay.subframe.plane import Corners, Place


@frozen(kw_only=True)
class SeamLine:
    """A line over which board ends meet, or a border's inner edge lies: two members touch there."""

    start: Spot
    end: Spot


@frozen(kw_only=True)
class RungLine:
    """A line of noggins that carries boards which run the joists' way; `zone` is whose."""

    start: Spot
    end: Spot
    zone: str


@frozen(kw_only=True)
class FrameWants:
    """What the frame under an outline must keep.

    `most_centres_mm` is measured at right angles to the joists, the rule for boards at an angle
    already in it. `joist_run` is "across" or "along". `mark_mm` is what a pencil can set.
    `reach_mm` is the longest timber to be had.
    """

    timber_thickness_mm: float
    most_centres_mm: float
    joist_run: str
    noggin_spacing_most_mm: float
    mark_mm: float
    end_support_most_mm: float
    reach_mm: float
    seams: tuple[SeamLine, ...] = ()
    rungs: tuple[RungLine, ...] = ()


@frozen(kw_only=True)
class BoardEnd:
    """The cut end of a board: its segment, and the way the board runs on from there.

    `inwards_deg` points from the end into the board: the run's angle at a piece's start, 180 more
    at its end.
    """

    start: Spot
    end: Spot
    inwards_deg: float


@frozen(kw_only=True)
class Timber:
    """A member before it has a mark: `corners` are start right, end right, end left, start left.

    Its places are in the frame's own axes, see `drylay.subframe.plane`. `number` is that of its
    line or side, from 0. `ends` tells of either end whether it is a "mitre", a joint of a rim
    that a "splice" backs, or a "joint" of a joist, "" for any other.
    """

    kind: str
    corners: Corners
    side: str = ""
    number: int = -1
    ends: tuple[str, str] = ("", "")


@frozen(kw_only=True)
class Placed:
    """The frame as placed: timbers in the frame's own axes, lines, holes, and what is wrong.

    `sides` are the marks of the outline's sides, in step with the rims. `seams` are pairs of
    places, `ring` the frame's face, `holes` those of the openings, in the frame's own axes.
    `hatches` tells which of the holes, from 0, are hatches': boards of a panel end at the second
    side of these and at the fourth. `findings` are all stops.
    """

    wants: FrameWants
    sides: tuple[str, ...]
    ring: tuple[Place, ...]
    holes: tuple[tuple[Place, ...], ...] = ()
    hatches: tuple[int, ...] = ()
    lines_mm: tuple[float, ...] = ()
    centres_mm: float = 0.0
    timbers: tuple[Timber, ...] = ()
    seams: tuple[tuple[Place, Place], ...] = ()
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class MemberEnds:
    """How many ends are fixed which way: see `drylay.subframe.finish.member_ends`."""

    hung: int
    noggin_ends: int
    rim_corners_butted: int
    rim_corners_mitred: int
