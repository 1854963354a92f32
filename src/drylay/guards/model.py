"""The nouns of guards. Places are in the cover's axes; along an edge they count from its start."""

from attrs import frozen

from drylay.outline.model import Spot
from drylay.reasons import because


@frozen(kw_only=True)
class GroundSpot:
    """A place on the ground whose level somebody measured."""

    along_mm: float
    across_mm: float
    level_mm: float


@frozen(kw_only=True)
class Facet:
    """Ground taken as flat between three places. Facets may overlap: the lowest holds."""

    corners: tuple[GroundSpot, GroundSpot, GroundSpot]


@frozen(kw_only=True)
class Passage:
    """A part of an edge where people pass, such as the head of a flight: no guard closes it."""

    name: str
    from_mm: float
    to_mm: float


@frozen(kw_only=True)
class Edge:
    """One straight edge of a deck whose top lies at `top_mm`, and what lies beside it.

    Edges run round as an outline's sides do, so that the deck is on one hand and the outside on
    the other: with along as x and across as y, the outside is on the right. `kind` is a side's.
    """

    mark: str
    start: Spot
    end: Spot
    top_mm: float
    kind: str = "open"
    passages: tuple[Passage, ...] = ()


@frozen(kw_only=True)
class Stretch:
    """A part of an edge that needs a guard; `drop_mm` is its greatest drop, None if not known."""

    edge: str
    from_mm: float
    to_mm: float
    drop_mm: float | None


@frozen(kw_only=True)
class GuardRun:
    """Stretches that follow one another round corners as one guard; `bends` are those corners.

    Of a `closed` run the last stretch meets the first, and that corner counts among the bends.
    """

    mark: str
    stretches: tuple[Stretch, ...]
    length_mm: float
    drop_mm: float | None
    bends: int
    closed: bool


@frozen(kw_only=True)
class Infill:
    """What fills the way between two posts, or between deck and handrail.

    `starts_mm` are the near edges of `count` pieces, measured from the face where the clear
    opening begins (of rails from the deck up); `gap_most_mm` is the widest of the clear gaps,
    `ball_mm` what may not pass.
    """

    kind: str
    opening_mm: float
    thickness_mm: float
    count: int
    starts_mm: tuple[float, ...]
    gap_most_mm: float
    gap_least_mm: float
    ball_mm: float


@frozen(kw_only=True)
class PostLine:
    """The posts on one straight part of a guard: their centres, from the first."""

    length_mm: float
    centres_mm: tuple[float, ...]
    spacing_most_mm: float


@frozen(kw_only=True)
class Guard:
    """A guard as it is built: its posts part by part, and the infill of every bay.

    A post at a bend stands in both parts and is counted once in `posts`.
    """

    run: str
    height_mm: float
    post_mm: float
    lines: tuple[PostLine, ...]
    bays: tuple[Infill, ...]
    posts: int
    pieces: int
    handrail_mm: float


@frozen(kw_only=True)
class GuardFoot:
    """What holds a guard's posts: two bolts, in line down the post, through the frame's edge.

    `article` is the posts' timber, `breadth_mm` of it along the edge and `depth_mm` across it.
    `bolt` is called by the design basis's own words. `upper_bolt_mm` is how far the upper bolt
    lies below the deck's top, `bolts_apart_mm` the other one below it. The frame's edge reaches
    from `edge_top_mm` below the deck's top down by `edge_depth_mm`. `line_kn_m` and `point_kn` are
    what the region asks of a guard's top: None where it asks for none, or nobody looked.
    """

    article: str = because("guards.foot.article")
    breadth_mm: float = because("guards.foot.article")
    depth_mm: float = because("guards.foot.article")
    bolt: str = because("guards.foot.bolt")
    washer_mm: float = because("guards.foot.bolt")
    upper_bolt_mm: float = because("guards.foot.bolt")
    bolts_apart_mm: float = because("guards.foot.bolt")
    edge_top_mm: float = because("guards.foot.edge_depth_mm")
    edge_depth_mm: float = because("guards.foot.edge_depth_mm")
    line_kn_m: float | None = because("guards.foot.line_kn_m")
    point_kn: float | None = because("guards.foot.point_kn")


@frozen(kw_only=True)
class Guards:
    """Where a deck needs guards by its region, and how these are built.

    `trigger_mm` is the drop over which an edge needs one, `out_mm` how far out from it ground
    counts. `facets` are the ground that was looked at; `length_mm` is that of all runs together.
    `built` are the guards along them: none where the brief tells nothing of how they are made;
    `foot` is what holds their posts, None where it does not tell all of that.
    """

    region: str
    trigger_mm: float = because("guards.trigger_mm")
    out_mm: float = because("guards.trigger_mm")
    height_mm: float = because("guards.height_mm")
    ball_mm: float = because("guards.ball_mm")
    post_spacing_most_mm: float | None = because("guards.post_spacing_most_mm")
    length_mm: float = because("guards.trigger_mm")
    edges: tuple[Edge, ...] = because("guards.trigger_mm")
    facets: tuple[Facet, ...] = because("guards.trigger_mm")
    runs: tuple[GuardRun, ...] = because("guards.trigger_mm")
    built: tuple[Guard, ...] = because("guards.height_mm")
    foot: GuardFoot | None = because("guards.foot.article", default=None)
