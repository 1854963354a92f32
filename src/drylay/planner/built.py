"""A deck built through, and what it wants in packs."""

from attrs import frozen

from drylay.buying.model import Buying
from drylay.edges.model import Edges
from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.frame.model import Frame
from drylay.groundwork.model import Groundwork
from drylay.materials.stock_model import Pack
from drylay.pieces.model import Pieces
from drylay.site.model import Site
from drylay.supports.model import Supports
from drylay.surface.model import Surface
from drylay.work.model import Work


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


@frozen(kw_only=True)
class Wanted:
    """What is to be bought in packs: so many `unit` needed; pieces get spares on top."""

    what: str
    article: str
    title: str
    need: int
    packs: tuple[Pack, ...]
    unit: str = "pieces"
