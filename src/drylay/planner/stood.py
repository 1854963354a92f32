"""What the planner holds of a deck that stands while it is built, before it is a plan."""

from attrs import field, frozen

from drylay.brief.model import Brief
from drylay.findings import Finding
from drylay.flights.model import Steps
from drylay.groundwork.model import Footings
from drylay.guards.model import Guards
from drylay.materials.stock_model import Timber
from drylay.raised.model import RaisedDeck
from drylay.reasons import TurnedDown
from drylay.strength.model import Section, Strength

#: Pieces by mark, with their lengths.
Named = tuple[tuple[str, float], ...]


@frozen(kw_only=True)
class Legs:
    """What is sawn of a raised frame: out of the frame's own timber, and out of others.

    `others` are purchases to be: what for, the mark of their lengths, the timber, the pieces.
    """

    framed: Named = ()
    others: tuple[tuple[str, str, Timber, Named], ...] = ()


@frozen(kw_only=True)
class Stood:
    """What stands under a deck and round it, what of it is sawn, and all that is told of it.

    `short_of_strength`: whether other joist lines might carry where these do not. `tried` are
    arrangements of bearers and posts turned down, `guards_tried` how far apart guards' posts may
    not stand.
    """

    raised: RaisedDeck | None = None
    strength: Strength | None = None
    footings: Footings | None = None
    guards: Guards | None = None
    steps: Steps | None = None
    legs: Legs = Legs()
    findings: tuple[Finding, ...] = ()
    short_of_strength: bool = False
    tried: tuple[TurnedDown, ...] = field(default=())
    guards_tried: tuple[TurnedDown, ...] = field(default=())


@frozen(kw_only=True)
class BearerMade:
    """A bearer that may be built: of which timber, in how many plies, at what price for a metre."""

    timber: Timber
    section: Section


def stands(brief: Brief) -> bool:
    """Return whether a brief wants a deck on posts."""
    return brief.raised.post is not None


def hung(brief: Brief) -> bool:
    """Return whether a deck on a rectangle stands with its joists hung between the bearers."""
    return stands(brief) and brief.raised.joists == "between"


#: All that a brief has to tell of what holds guards' posts at their feet.
FOOT_KEYS = ("post_article", "bolt", "washer_mm", "upper_bolt_mm", "bolts_apart_mm")


def strength_not_checked(brief: Brief) -> str:
    """Return why strength is not checked, and what that asks for."""
    if brief.board.support == "pads":
        return "strength: the base must bear the pads and not settle"
    if stands(brief):
        feet = all(getattr(brief.guards, key) is not None for key in FOOT_KEYS)
        guards = "guards beyond their posts' feet" if feet else "guards"
        return (
            f"strength: of {guards}, of stringers and treads, of what fixes members to one "
            "another, under snow and wind"
        )
    if brief.strength.basis is not None and brief.groundwork.packer is not None:
        return "strength: the base must bear the packers and not settle; snow and wind"
    return "strength: the frame must lie on the ground or on packers along its whole length"
