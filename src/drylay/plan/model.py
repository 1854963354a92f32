"""The plan: the whole deck as one value."""

from attrs import frozen

from drylay.buying.model import Buying
from drylay.correcting.model import Laid
from drylay.counting import counted
from drylay.edges.model import Edges
from drylay.findings import Finding, Severity
from drylay.fixings.model import Fixings
from drylay.flights.model import Steps
from drylay.frame.model import Frame
from drylay.groundwork.model import Footings, Groundwork
from drylay.guards.model import Guards
from drylay.laying.model import Laying
from drylay.outline.model import Outline
from drylay.pieces.model import Pieces
from drylay.raised.model import RaisedDeck
from drylay.reasons import Decision, Reasons
from drylay.site.model import Site
from drylay.strength.model import Strength
from drylay.subframe.model import Subframe
from drylay.supports.model import Supports
from drylay.surface.model import Surface
from drylay.tiling.model import Tiling
from drylay.tiling.outline_model import OutlineTiles
from drylay.work.model import Work

SCHEMA_VERSION = 3


@frozen(kw_only=True)
class FamilyUsed:
    """A family that answered for this plan, and the release of the package it came from."""

    id: str
    title: str
    package: str
    version: str


@frozen(kw_only=True)
class LocalRuleUsed:
    """A local rule that this plan was held against, and the release of the package it came from."""

    name: str
    package: str
    version: str


@frozen(kw_only=True)
class Digests:
    """SHA-256 of what the plan was made from, as 64 hex digits."""

    brief: str
    stock: str


@frozen(kw_only=True)
class Plan:
    """A checked, buildable plan, or a blocked one with its findings.

    A blocked plan (a finding of severity stop) carries no cut list and no order: `pieces`,
    `frame`, `edges`, `supports`, `fixings`, `groundwork` and `work` may be None, and `buying`
    always is. A deck of tiles has `tiling` and no `pieces`; on pads it has no `supports`, `frame`
    and `fixings` either, and `edges` are its outline. A deck on an outline has `outline`, `laying`
    and `subframe`, and none of `surface`, `edges`, `supports`, `pieces` and `frame`; one of tiles
    has `tiles` in place of `laying`, `subframe` and `fixings`. `raised` and `footings` are
    those of a deck that stands, `strength` is there where the brief names a design basis, `guards`
    and `steps` where it names a region. `laid` is there once rows lie and were measured.
    """

    schema_version: int = SCHEMA_VERSION
    drylay_version: str
    title: str
    units: str
    use: str
    digests: Digests
    families: tuple[FamilyUsed, ...]
    surface: Surface | None
    edges: Edges | None
    supports: Supports | None
    pieces: Pieces | None
    frame: Frame | None
    fixings: Fixings | None
    buying: Buying | None
    site: Site | None = None
    groundwork: Groundwork | None = None
    work: Work | None = None
    local_rules: tuple[LocalRuleUsed, ...] = ()
    tiling: Tiling | None = None
    outline: Outline | None = None
    laying: Laying | None = None
    subframe: Subframe | None = None
    tiles: OutlineTiles | None = None
    raised: RaisedDeck | None = None
    strength: Strength | None = None
    footings: Footings | None = None
    guards: Guards | None = None
    steps: Steps | None = None
    laid: Laid | None = None
    reasons: Reasons
    findings: tuple[Finding, ...]
    cautions: tuple[str, ...]
    not_checked: tuple[str, ...]

    @property
    def buildable(self) -> bool:
        """Whether nothing stops this plan."""
        return all(finding.severity is not Severity.STOP for finding in self.findings)

    def why(self, path: str) -> Decision:
        """Return the decision that governs a path such as "frame.joists[3].offset_mm".

        Raises:
            UnknownPathError: The path names nothing in this plan.
        """
        from drylay.plan.why import why

        return why(self, path)

    def sizes_mm(self) -> dict[str, float]:
        """Return the mm to saw of every board piece, fascia piece and frame member, by mark."""
        from drylay.plan.sizes import sizes_to_saw

        return sizes_to_saw(self)

    @counted
    def measures(self) -> dict[str, object]:
        """Return the plan's main figures as one flat row, for tables."""
        from drylay.plan.measures import measures

        return measures(self)
