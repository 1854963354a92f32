"""A deck of tiles built through."""

from attrs import field, frozen

from drylay.buying.model import Buying
from drylay.edges.model import Edges
from drylay.findings import Finding
from drylay.fixings.model import Fixings
from drylay.frame.model import Frame
from drylay.groundwork.model import Groundwork
from drylay.planner.stood import Stood
from drylay.site.model import Site
from drylay.supports.model import Supports
from drylay.surface.model import Surface
from drylay.tiling.model import Tiling
from drylay.work.model import Work


@frozen(kw_only=True)
class TiledFrame:
    """The frame under tiles with all that a frame's decisions and remarks are told from."""

    surface: Surface
    edges: Edges
    supports: Supports
    frame: Frame
    fixings: Fixings
    site: Site
    buying: Buying
    groundwork: Groundwork | None
    pieces: None = None
    work: Work | None = None
    stops: tuple[Finding, ...] = ()
    stood: Stood = field(factory=Stood)


@frozen(kw_only=True)
class BuiltTiles:
    """A grid built through, on a frame or on pads; `stops` are those of the ground."""

    surface: Surface
    tiling: Tiling
    edges: Edges
    site: Site
    buying: Buying
    groundwork: Groundwork | None
    framed: TiledFrame | None = None
    work: Work | None = None
    stops: tuple[Finding, ...] = ()

    @property
    def supports(self) -> Supports | None:
        """The joist lines; None on pads."""
        return self.framed.supports if self.framed else None

    @property
    def frame(self) -> Frame | None:
        """The frame; None on pads."""
        return self.framed.frame if self.framed else None

    @property
    def stood(self) -> Stood:
        """What stands under it and round it; nothing on pads."""
        return self.framed.stood if self.framed else Stood()

    @property
    def fixings(self) -> Fixings | None:
        """What holds the frame; None on pads."""
        return self.framed.fixings if self.framed else None
