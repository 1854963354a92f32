"""The nouns of an outline. Places are in the cover's axes: along the house, and away from it.

`across_mm` is below 0 beside the house, behind its wall's line. Corners of anything run round the
way that turns from along towards across: with along as x and across as y the area is above 0.
"""

from attrs import frozen

from drylay.brief.outline_model import OPENING_KINDS as OPENINGS_WISHED
from drylay.brief.outline_model import SIDE_KINDS as SIDES_WISHED
from drylay.reasons import because

#: What a side of the outline is: the house wall, open ground, a boundary, the edge of a pool.
SIDE_KINDS = SIDES_WISHED
#: What an opening is for.
OPENING_KINDS = OPENINGS_WISHED


@frozen(kw_only=True)
class Spot:
    """A place on the deck."""

    along_mm: float
    across_mm: float


@frozen(kw_only=True)
class Side:
    """One side of the outline, from a corner to the next; `corner_deg` is inside, at its start.

    `facing_mm` is how thick the fascia planted on it is, 0 where there is none: so far the frame
    stands back from it.
    """

    mark: str
    kind: str
    start: Spot = because("outline.net_m2")
    end: Spot = because("outline.net_m2")
    length_mm: float = because("outline.net_m2")
    corner_deg: float = because("outline.net_m2")
    facing_mm: float = because("outline.net_m2")


@frozen(kw_only=True)
class Opening:
    """A hole in the deck: for a lift-out hatch, a tree, a post, a pool or pond.

    `corners` are those of the hole in the boards, `within` those of what stands or lies in it: the
    inspection cover, the trunk's square, the post, the water. `clear_mm` is the least way between
    the two, `clear_least_mm` and `clear_most_mm` its limits (None for no upper one). A hatch's hole
    is closed by a panel of `panel_kg`, no more than `panel_most_kg`; both None for others. Its
    corners reach to the middle of the gaps around the panel.
    """

    mark: str
    kind: str
    name: str = ""
    corners: tuple[Spot, ...] = because("outline.opening_count")
    within: tuple[Spot, ...] = because("outline.opening_count")
    clear_mm: float = because("outline.opening_count")
    clear_least_mm: float = because("outline.opening_count")
    clear_most_mm: float | None = because("outline.opening_count")
    panel_kg: float | None = because("outline.opening_count", default=None)
    panel_most_kg: float | None = because("outline.opening_count", default=None)


@frozen(kw_only=True)
class Outline:
    """The finished walking surface: its sides all round, its openings, its area.

    `gross_m2` is what the sides enclose, `net_m2` that less all openings but hatches, whose panels
    are walked on. `turned_deg` is how far the deck's own line, which all places of a plan are along
    and across of, is turned from the brief's along towards its across, about the datum corner;
    `moved_mm` how far the corner that was moved most to lie square on it is from the brief's place.
    """

    sides: tuple[Side, ...]
    openings: tuple[Opening, ...] = ()
    opening_count: int = because("outline.opening_count")
    gross_m2: float = because("outline.net_m2")
    net_m2: float = because("outline.net_m2")
    perimeter_mm: float = because("outline.net_m2")
    turned_deg: float = because("outline.turned_deg", default=0.0)
    moved_mm: float = because("outline.turned_deg", default=0.0)
