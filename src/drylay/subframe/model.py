"""The nouns of the frame under an outline. Places are in the cover's axes, as in `outline`."""

from attrs import frozen

from drylay.outline.model import Spot
from drylay.reasons import because

#: What a member does. A "pair" is a second joist that touches another, so that board ends meet over
#: the two; a "double" a second trimmer or joist that carries an opening with the first.
MEMBER_KINDS = ("rim", "joist", "pair", "trimmer", "double", "noggin", "splice")
#: How a facing ends: mitred with the next, lapping over its end, butting under it, or free.
FACING_ENDS = ("mitre", "lap", "butt", "free")


@frozen(kw_only=True)
class Member:
    """One length of timber as it stands on edge in the frame, seen from above.

    `start` to `end` is its centre line, `corners` are the four of its top, run round like an
    outline's. `length_mm` is what is sawn, from tip to tip; `start_deg` and `end_deg` are what the
    saw is set to, off square. `start_on` and `end_on` name the members that carry its ends, ""
    where an end is mitred against its neighbour, free, or of a joist that is jointed there.
    `side` names the side of the outline or the opening that it was put there for, of a noggin that
    carries boards their zone; "" for plain joists and noggins.
    """

    mark: str
    kind: str
    start: Spot = because("subframe.member_count")
    end: Spot = because("subframe.member_count")
    corners: tuple[Spot, ...] = because("subframe.member_count")
    length_mm: float = because("subframe.member_count")
    start_deg: float = because("subframe.member_count")
    end_deg: float = because("subframe.member_count")
    start_on: str = ""
    end_on: str = ""
    side: str = ""


@frozen(kw_only=True)
class PanelBatten:
    """A batten on edge that ties the boards of a hatch's panel, seen from above.

    `start` to `end` is its centre line, square to the panel's boards and towards the left of their
    run; its ends are sawn square. `opening` names the hatch. It lifts out with the panel. It is as
    deep as the frame's timber, or ripped to less where the panel would be too heavy.
    """

    mark: str
    opening: str
    start: Spot = because("subframe.batten_count")
    end: Spot = because("subframe.batten_count")
    length_mm: float = because("subframe.batten_count")
    depth_mm: float = because("subframe.batten_count")


@frozen(kw_only=True)
class Seam:
    """A line over which board ends meet, midway between the two members that carry them."""

    left: str
    right: str
    start: Spot = because("subframe.seam_count")
    end: Spot = because("subframe.seam_count")


@frozen(kw_only=True)
class Facing:
    """One length of fascia on a side; `start` to `end` is its outer face, at the cover's edge.

    `length_mm` is from tip to tip; `start_end` and `end_end` are of `FACING_ENDS`, the degrees what
    the saw is set to there, off square. Lengths of one side butt end to end.
    """

    mark: str
    side: str
    start: Spot = because("subframe.facing_run_mm")
    end: Spot = because("subframe.facing_run_mm")
    length_mm: float = because("subframe.facing_run_mm")
    start_end: str
    end_end: str
    start_deg: float = because("subframe.facing_run_mm")
    end_deg: float = because("subframe.facing_run_mm")


@frozen(kw_only=True)
class Subframe:
    """The whole frame under an outline.

    Joists run as `joist_run` says, "across" away from the house or "along" it. `line_count` is how
    many different joist lines there are, `lines_mm` where: along the house for "across", and away
    from it for "along". `centres_mm` is the widest bay at right angles to the joists,
    `most_centres_mm` its limit: that for boards square to joists, `square_centres_mm`, times the
    sine of `board_to_joist_deg`, the least angle between boards of any field and the joists, or
    what the family rules at that angle, whichever is less. `end_support_most_mm` is how far a board
    end may be from the nearest member under it. `facing_run_mm` is the length of all faced sides.
    `battens` tie the panels of hatches, of the same timber, and keep `batten_play_mm` off every
    member; they are no members. `batten_count` and their play are None where there are no hatches.
    """

    timber_article: str
    timber_thickness_mm: float = because("subframe.timber_thickness_mm")
    timber_depth_mm: float = because("subframe.timber_thickness_mm")
    joist_run: str = because("subframe.joist_run")
    square_centres_mm: float = because("subframe.square_centres_mm")
    board_to_joist_deg: float = because("subframe.board_to_joist_deg")
    most_centres_mm: float = because("subframe.most_centres_mm")
    centres_mm: float = because("subframe.centres_mm")
    line_count: int = because("subframe.line_count")
    lines_mm: tuple[float, ...] = because("subframe.line_count")
    end_support_most_mm: float = because("subframe.end_support_most_mm")
    noggin_spacing_most_mm: float = because("subframe.noggin_spacing_most_mm")
    joists_under_joint: int = because("subframe.joists_under_joint")
    seam_count: int = because("subframe.seam_count")
    member_count: int = because("subframe.member_count")
    members: tuple[Member, ...]
    seams: tuple[Seam, ...] = ()
    facing_article: str = ""
    facing_thickness_mm: float = because("subframe.facing_thickness_mm", default=0.0)
    facing_depth_mm: float = because("subframe.facing_thickness_mm", default=0.0)
    facing_run_mm: float = because("subframe.facing_run_mm", default=0.0)
    facings: tuple[Facing, ...] = ()
    battens: tuple[PanelBatten, ...] = ()
    batten_count: int | None = because("subframe.batten_count", default=None)
    batten_play_mm: float | None = because("subframe.batten_play_mm", default=None)
