"""A deck built through, and what it wants in packs."""

from typing import Protocol

from attrs import field, frozen

from drylay.buying.model import Buying
from drylay.edges.model import Edges
from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.frame.model import Frame
from drylay.groundwork.model import Groundwork
from drylay.materials.stock_model import Pack
from drylay.pieces.model import Pieces
from drylay.planner.stood import Stood
from drylay.site.model import Site
from drylay.supports.model import Supports
from drylay.surface.model import Surface
from drylay.work.model import Work


class Covered(Protocol):
    """Anything with a cover, of boards or of tiles."""

    @property
    def surface(self) -> Surface:
        """Return the finished cover."""
        ...


class Sited(Protocol):
    """A deck of any shape where it stands, bought, with what lies under it, how it is built."""

    @property
    def site(self) -> Site:
        """Return where it stands."""
        ...

    @property
    def buying(self) -> Buying:
        """Return the order."""
        ...

    @property
    def groundwork(self) -> Groundwork | None:
        """Return what lies under it."""
        ...

    @property
    def work(self) -> Work | None:
        """Return how it is built."""
        ...

    @property
    def stops(self) -> tuple[Finding, ...]:
        """Return the stops of the ground."""
        ...


class Standing(Covered, Sited, Protocol):
    """A deck on a rectangle where it stands, bought, with what lies under it."""

    @property
    def edges(self) -> Edges:
        """Return the edges."""
        ...


class Framed(Standing, Protocol):
    """A deck on a frame, of boards in pieces or of tiles."""

    @property
    def supports(self) -> Supports:
        """Return the joist lines."""
        ...

    @property
    def pieces(self) -> Pieces | None:
        """Return the pieces of board, None under tiles."""
        ...

    @property
    def frame(self) -> Frame:
        """Return the frame."""
        ...

    @property
    def fixings(self) -> Fixings:
        """Return the fixings."""
        ...

    @property
    def stood(self) -> Stood:
        """Return what stands under it and round it."""
        ...


@frozen(kw_only=True)
class Built:
    """A candidate built through; `spares_missing` could not be had from the stock.

    `stops` are those of the ground, told beside all others rather than before them.
    """

    surface: Surface
    edges: Edges
    supports: Supports
    pieces: Pieces
    frame: Frame
    fixings: Fixings
    buying: Buying
    site: Site
    groundwork: Groundwork | None = None
    work: Work | None = None
    spares_missing: int = 0
    stops: tuple[Finding, ...] = ()
    stood: Stood = field(factory=Stood)


@frozen(kw_only=True)
class Wanted:
    """What is to be bought in packs: so many `unit` needed; pieces get spares on top."""

    what: str
    article: str
    title: str
    need: int
    packs: tuple[Pack, ...]
    unit: str = "pieces"
