"""What a task is drafted from: the whole deck as nouns, and a task before it has its mark."""

from collections.abc import Mapping
from typing import Protocol

from attrs import field, frozen

from drylay.buying.model import Buying
from drylay.edges.model import Edges
from drylay.fixings.model import Fixings
from drylay.flights.model import Steps
from drylay.frame.model import Frame
from drylay.groundwork.model import Footings, Groundwork
from drylay.guards.model import Guards
from drylay.laying.model import Laying
from drylay.outline.model import Outline
from drylay.pieces.model import Pieces
from drylay.raised.model import RaisedDeck
from drylay.site.model import Site
from drylay.subframe.model import Subframe
from drylay.supports.model import Supports
from drylay.surface.model import Surface
from drylay.tiling.model import Tiling
from drylay.tiling.outline_model import OutlineTiles
from drylay.work.model import Lighting, NotOrdered, SettingOut


class OnGround(Protocol):
    """A deck of any kind on its ground: what tasks there are drafted from."""

    @property
    def buying(self) -> Buying:
        """Return the order."""
        ...

    @property
    def site(self) -> Site:
        """Return where it stands."""
        ...

    @property
    def groundwork(self) -> Groundwork | None:
        """Return what lies under it."""
        ...


class OnFrame(OnGround, Protocol):
    """A deck on a frame, whatever lies on it."""

    @property
    def edges(self) -> Edges:
        """Return the edges."""
        ...

    @property
    def supports(self) -> Supports:
        """Return the joist lines."""
        ...

    @property
    def frame(self) -> Frame:
        """Return the frame."""
        ...

    @property
    def fixings(self) -> Fixings:
        """Return the fixings."""
        ...


@frozen(kw_only=True)
class Legs:
    """What stands under a deck and round it; `drop_mm` is how far one falls off its edge.

    `hold_down_at` is where the plan tells what a tie has to hold down by design, "" where nowhere.
    """

    raised: RaisedDeck | None = None
    footings: Footings | None = None
    guards: Guards | None = None
    steps: Steps | None = None
    drop_mm: float = 0.0
    hold_down_at: str = ""
    not_ordered: tuple[NotOrdered, ...] = ()


class OnLegs(OnGround, Protocol):
    """A deck of any shape with what stands under it and round it."""

    @property
    def legs(self) -> Legs:
        """Return what stands."""
        ...

    @property
    def fixings(self) -> Fixings:
        """Return the fixings."""
        ...

    @property
    def setting_out(self) -> SettingOut:
        """Return pegs, ties and posts."""
        ...


@frozen(kw_only=True)
class Deck:
    """Everything that tasks are made of."""

    surface: Surface
    edges: Edges
    supports: Supports
    pieces: Pieces
    frame: Frame
    fixings: Fixings
    buying: Buying
    site: Site
    groundwork: Groundwork | None
    setting_out: SettingOut
    lighting: Lighting | None
    face_up: str
    legs: Legs = Legs()


@frozen(kw_only=True)
class OutlinedDeck:
    """A deck on an outline; `base_side` is the mark of the side from P1 to P2.

    `wide_panels` are the hatches whose panels span more than loose boards may, `ledges` the marks
    of the timbers inside each hatch's hole, which its panel lies on.
    """

    outline: Outline
    laying: Laying
    subframe: Subframe
    fixings: Fixings
    buying: Buying
    site: Site
    groundwork: Groundwork | None
    setting_out: SettingOut
    base_side: str
    face_up: str
    wide_panels: tuple[str, ...] = ()
    ledges: Mapping[str, tuple[str, ...]] = field(factory=dict)
    legs: Legs = Legs()


@frozen(kw_only=True)
class FramedDeck:
    """The frame of a deck of tiles, with what it stands on, as tasks on it are drafted from."""

    edges: Edges
    supports: Supports
    frame: Frame
    fixings: Fixings
    buying: Buying
    site: Site
    groundwork: Groundwork | None
    setting_out: SettingOut
    legs: Legs = Legs()


@frozen(kw_only=True)
class TiledDeck:
    """A deck of tiles; `framed` is None where they stand on pads."""

    surface: Surface
    tiling: Tiling
    edges: Edges
    buying: Buying
    site: Site
    groundwork: Groundwork | None
    setting_out: SettingOut
    framed: FramedDeck | None
    dusty: bool


@frozen(kw_only=True)
class OutlinedTiles:
    """A deck of tiles on pads over an outline; `base_side` is the side from P1 to P2."""

    outline: Outline
    tiles: OutlineTiles
    buying: Buying
    site: Site
    groundwork: Groundwork | None
    setting_out: SettingOut
    base_side: str
    dusty: bool


@frozen(kw_only=True)
class Draft:
    """A task by its key: steps, keys of holds and tools, and the key of the tasks before it.

    `care` are the kinds of caution that bite here, `cautions` what they and the families then say,
    `hands` how many people it takes.
    """

    key: str
    title: str
    steps: tuple[str, ...]
    after: tuple[str, ...] = ()
    holds: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    care: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    hands: int = 1


def told(*steps: tuple[bool, str] | str) -> tuple[str, ...]:
    """Return the steps that apply: a text alone always does."""
    return tuple(
        step if isinstance(step, str) else step[1] for step in steps
        if isinstance(step, str) or step[0]
    )  # fmt: skip


def counted(deck: OnLegs, what: str) -> str:
    """Return where the plan counts fixings that no order holds; "none" where there are none."""
    for number, each in enumerate(deck.legs.not_ordered):
        if each.what == what:
            return f"{{work.not_ordered[{number}].count}}"
    return "none"


def weight_at(deck: OnGround, what: str) -> str:
    """Return where the plan tells what a part of the order weighs, "" where it does not."""
    parts = deck.buying.delivery.parts if deck.buying.delivery else ()
    at = next((index for index, part in enumerate(parts) if part.what == what), None)
    return "" if at is None else f"{{buying.delivery.parts[{at}].mass_kg}}"
