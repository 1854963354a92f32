"""The nouns of a raised frame: bearers on posts, a ledger, bracing, the post schedule.

`along_mm` runs along the bearers, `across_mm` along the joists, both from the frame's corner
at the house (the planner turns places where bearers run another way). Levels are from the
brief's datum, upwards.
"""

from decimal import Decimal

from attrs import frozen

from drylay.findings import Finding
from drylay.outline.model import Spot
from drylay.reasons import Source, TurnedDown, because
from drylay.strength.model import Section

#: How a limit is measured: face to face of what bears, or centre to centre.
MEASURED = ("clear", "centres")
#: Walls that a ledger may be fixed to, and those it is refused on.
SOUND_WALLS = ("solid masonry", "concrete")
REFUSED_WALLS = ("veneer", "cavity", "insulated", "framed")
#: What a post's height asks for.
HEIGHT_CLASSES = ("too short", "plain", "braced", "beyond")
#: How the width that a support carries is reckoned.
SHARINGS = ("levered", "halved")


@frozen(kw_only=True)
class SpanLimit:
    """The most that a span or a free end may be, and how it is measured: see `MEASURED`."""

    most_mm: float
    measured: str
    source: Source


@frozen(kw_only=True)
class BearerLines:
    """Where bearers stand along the joists.

    `lines_mm` are their centres from the house's end of the frame, `spans_mm` and `ends_mm` what
    lies between and beyond them, as `span.measured` and `end.measured` say; the first span is the
    ledger's where there is one. `most_ratio` is the largest of all of these over its limit.
    `end` is None where joists hang between the bearers, which then close the frame.
    """

    depth_mm: float = because("raised.line_count")
    bearer_mm: float = because("raised.bearer")
    ledger_mm: float | None = because("raised.ledger_wall")
    hung: bool = because("raised.line_count")
    span: SpanLimit
    end: SpanLimit | None
    back_ratio: float | None = because("raised.line_count")
    line_count: int = because("raised.line_count")
    lines_mm: tuple[float, ...] = because("raised.line_count")
    spans_mm: tuple[float, ...] = because("raised.line_count")
    ends_mm: tuple[float, ...] = because("raised.line_count")
    most_ratio: float = because("raised.line_count")
    turned_down: tuple[TurnedDown, ...] = ()


@frozen(kw_only=True)
class PostPlaces:
    """Where posts stand along one bearer: centres from its own start, as `BearerLines` has it."""

    length_mm: float = because("raised.line_count")
    post_mm: float = because("raised.post")
    span: SpanLimit
    end: SpanLimit
    back_ratio: float | None = because("raised.post_count")
    post_count: int = because("raised.post_count")
    places_mm: tuple[float, ...] = because("raised.post_count")
    spans_mm: tuple[float, ...] = because("raised.post_count")
    ends_mm: tuple[float, ...] = because("raised.post_count")
    most_ratio: float = because("raised.post_count")
    turned_down: tuple[TurnedDown, ...] = ()


@frozen(kw_only=True)
class PlyJoint:
    """Where one ply of a bearer is jointed: over which post, counted from 1, and how far along."""

    ply: int = because("raised.post_count")
    post: int = because("raised.post_count")
    at_mm: float = because("raised.post_count")


@frozen(kw_only=True)
class Bearer:
    """One bearer: its centre line, plies and joints. `line` names the line across that it is of.

    `carried_mm` is the width of deck that it carries, the greatest along it.
    """

    mark: str
    line: str
    section: Section = because("raised.bearer")
    across_mm: float = because("raised.line_count")
    start_mm: float = because("raised.line_count")
    end_mm: float = because("raised.line_count")
    carried_mm: float = because("raised.sharing")
    joints: tuple[PlyJoint, ...] = ()


@frozen(kw_only=True)
class Post:
    """One post: where it stands, its top and foot as levels, what is sawn.

    It stands on what is `stand_off_mm` above the ground (a pad, a metal foot), or runs
    `embed_mm` below it into concrete: one of the two is 0. `length_mm` is from top to the level
    that it stands on, or to the ground where it runs on; `whole_mm` is that and `embed_mm`.
    `brace` is the height class.
    """

    mark: str
    bearer: str
    place: Spot = because("raised.post_count")
    section: Section = because("raised.post")
    top_mm: float = because("raised.post_top_mm")
    ground_mm: float = because("site.levels.ground_least_mm")
    stand_off_mm: float = because("raised.foot")
    embed_mm: float = because("raised.foot")
    length_mm: float = because("raised.post_top_mm")
    whole_mm: float = because("raised.post_top_mm")
    height_class: str = because("raised.brace_over_mm")


@frozen(kw_only=True)
class Ledger:
    """A ledger on a sound wall: what it is, from where to where, where its fixings go.

    Its stations run from the frame's corner, alternately near its upper and its lower edge.
    """

    mark: str
    wall: str
    section: Section = because("raised.ledger_wall")
    start_mm: float = because("raised.ledger_wall")
    end_mm: float = because("raised.ledger_wall")
    spacing_most_mm: float = because("raised.ledger_wall")
    stations_mm: tuple[float, ...] = because("raised.ledger_wall")
    source: Source


@frozen(kw_only=True)
class Brace:
    """A brace at 45 degrees between a post and what it carries.

    `way` is "along" (to the bearer) or "across" (to a joist), `hand` -1 towards the datum, 1 away
    from it. It meets the post's face `leg_mm` below the underside of what it runs to, and that as
    far from the post's face; `length_mm` is between the two places, along its centre, up to 1/320.
    The underside of joists over the bearer is a bearer's depth above the post's top.
    """

    mark: str
    post: str
    way: str
    hand: int = because("raised.brace_over_mm")
    leg_mm: float = because("raised.brace_over_mm")
    length_mm: float = because("raised.brace_over_mm")


@frozen(kw_only=True)
class Bracing:
    """Which posts are braced, and how: those higher than `over_mm`."""

    over_mm: float = because("raised.brace_over_mm")
    leg_mm: float = because("raised.brace_over_mm")
    braces: tuple[Brace, ...]
    source: Source


@frozen(kw_only=True)
class PostRow:
    """A row of the post schedule: `cut_below_mm` is how far below the datum its top is sawn."""

    mark: str
    bearer: str
    along_mm: float = because("raised.post_count")
    across_mm: float = because("raised.post_count")
    ground_mm: float = because("site.levels.ground_least_mm")
    top_mm: float = because("raised.post_top_mm")
    cut_below_mm: float = because("raised.post_top_mm")
    length_mm: float = because("raised.post_top_mm")
    whole_mm: float = because("raised.post_top_mm")
    height_class: str = because("raised.brace_over_mm")
    braces: tuple[str, ...]


@frozen(kw_only=True)
class Heights:
    """What stands on what, and the heights at which more is asked.

    `joist_over_mm` is the joists' depth where they lie over the bearers, 0 where they hang between
    them. Posts shorter than `short_mm` are told, higher than `brace_over_mm` braced; where the deck
    is higher than `screened_mm` over the ground under a post, that stops.
    """

    finished_mm: float = because("site.levels.deck_top_mm")
    board_mm: float = because("raised.post_top_mm")
    joist_over_mm: float = because("raised.post_top_mm")
    bearer_mm: float = because("raised.post_top_mm")
    stand_off_mm: float = because("raised.foot", default=0.0)
    embed_mm: float = because("raised.foot", default=0.0)
    short_mm: float = because("raised.brace_over_mm")
    brace_over_mm: float = because("raised.brace_over_mm")
    screened_mm: float = because("raised.brace_over_mm")


@frozen(kw_only=True)
class RaisedFrame:
    """The whole of it: what stands, the schedule, what falls short. `buildable`: no stop.

    Joists run across from `joist_from_mm` to `joist_to_mm`, the furthest of any beside a post.
    """

    heights: Heights
    joist_from_mm: float = because("raised.line_count")
    joist_to_mm: float = because("raised.line_count")
    ledger: Ledger | None
    bearers: tuple[Bearer, ...]
    posts: tuple[Post, ...]
    bracing: Bracing
    schedule: tuple[PostRow, ...]
    findings: tuple[Finding, ...] = ()
    buildable: bool


@frozen(kw_only=True)
class LegPiece:
    """A piece sawn for what stands under a frame: of a bearer's ply, a post, or a brace.

    A ply's part is marked by bearer, ply and part: BR1.2.1. A brace, sawn at 45 degrees at both
    ends, is as long as its long edge.
    """

    mark: str
    kind: str
    length_mm: float = because("raised.post_count")


@frozen(kw_only=True)
class RaisedDeck:
    """A deck that stands, as a plan holds it: what was chosen, and the whole frame.

    Places are the frame's: along the boards, across them, from the cover's datum corner. `bearer`
    and `post` say what is bought for them, plies first; `foot` what posts stand on,
    `foot_article` what is bought for that. The ledger, where there is one, is the frame's rim at
    the house: it is fixed by `ledger_fixing`.
    `joists` says whether joists lie "over" the bearers or hang "between" them; `hanger_kn` is then
    the most that comes down on one of their hangers, for good and besides, and None else.
    `joist_span_mm` and `joist_end_mm` are the widest that joists go between supports and past the
    outer ones, centre to centre, or face to face where they hang between; `bearer_span_mm` and
    `bearer_end_mm` those of bearers on posts.
    """

    bearer_article: str
    post_article: str
    foot_article: str = ""
    bearer: str = because("raised.bearer")
    post: str = because("raised.post")
    foot: str = because("raised.foot")
    joists: str = because("raised.joists", default="over")
    hanger_kn: float | None = because("raised.hanger_kn", default=None)
    line_count: int = because("raised.line_count")
    post_count: int = because("raised.post_count")
    ledger_wall: str = because("raised.ledger_wall")
    ledger_fixing: str = because("raised.ledger_wall")
    sharing: str = because("raised.sharing")
    joist_span_mm: float = because("raised.line_count")
    joist_end_mm: float = because("raised.line_count")
    bearer_span_mm: float = because("raised.post_count")
    bearer_end_mm: float = because("raised.post_count")
    post_top_mm: float = because("raised.post_top_mm")
    brace_over_mm: float = because("raised.brace_over_mm")
    frame: RaisedFrame
    pieces: tuple[LegPiece, ...]


@frozen(kw_only=True)
class JoistChoice:
    """A joist on sale as it may be used; with no `end` it hangs between the bearers."""

    article: str
    section: Section
    count: int
    span: SpanLimit
    end: SpanLimit | None
    price_per_m: Decimal


@frozen(kw_only=True)
class BearerChoice:
    """A bearer that may be built: its section and plies, what a metre of one ply costs."""

    article: str
    section: Section
    price_per_m: Decimal


@frozen(kw_only=True)
class Trial:
    """One arrangement as it is put to whoever checks strength: plain numbers.

    Spans and free ends are centre to centre, `carried_mm` the greatest width a bearer carries and
    `post_m2` the greatest area a post does.
    """

    joist: JoistChoice
    bearer: BearerChoice
    lines_mm: tuple[float, ...]
    posts_mm: tuple[float, ...]
    joist_span_mm: float
    joist_end_mm: float
    bearer_span_mm: float
    bearer_end_mm: float
    carried_mm: float
    post_m2: float


@frozen(kw_only=True)
class Verdict:
    """What whoever checks strength says of a trial: whether it passes, how far used, why not."""

    passes: bool
    most_ratio: float
    why: str
    source: Source


@frozen(kw_only=True)
class Tried:
    """An arrangement with its cost and, unless it was taken, why it was turned down."""

    trial: Trial
    cost: Decimal
    most_ratio: float | None
    turned_down: str


@frozen(kw_only=True)
class Choice:
    """The cheapest arrangement that passes, and all that were tried, the cheapest first.

    `chosen` is None where none passed within `most_tries`. `cheaper_open` counts arrangements
    cheaper than the chosen that were not put to the check: 0 where the chosen one is the cheapest
    of all that were listed. `listed` is how many there were. `beside` are dearer ones that pass,
    each of another bearer or number of lines.
    """

    chosen: Tried | None
    tried: tuple[Tried, ...]
    listed: int
    cheaper_open: int
    most_tries: int
    beside: tuple[Tried, ...] = ()
    findings: tuple[Finding, ...] = ()
