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

    depth_mm: float = because("raised.lines_mm")
    bearer_mm: float = because("raised.bearer_section")
    ledger_mm: float | None = because("raised.ledger")
    hung: bool = because("raised.hung")
    span: SpanLimit
    end: SpanLimit | None
    back_ratio: float | None = because("raised.lines_mm")
    line_count: int = because("raised.lines_mm")
    lines_mm: tuple[float, ...] = because("raised.lines_mm")
    spans_mm: tuple[float, ...] = because("raised.lines_mm")
    ends_mm: tuple[float, ...] = because("raised.lines_mm")
    most_ratio: float = because("raised.lines_mm")
    turned_down: tuple[TurnedDown, ...] = ()


@frozen(kw_only=True)
class PostPlaces:
    """Where posts stand along one bearer: centres from its own start, as `BearerLines` has it."""

    length_mm: float = because("raised.bearer_count")
    post_mm: float = because("raised.post_section")
    span: SpanLimit
    end: SpanLimit
    back_ratio: float | None = because("raised.posts_mm")
    post_count: int = because("raised.posts_mm")
    places_mm: tuple[float, ...] = because("raised.posts_mm")
    spans_mm: tuple[float, ...] = because("raised.posts_mm")
    ends_mm: tuple[float, ...] = because("raised.posts_mm")
    most_ratio: float = because("raised.posts_mm")
    turned_down: tuple[TurnedDown, ...] = ()


@frozen(kw_only=True)
class PlyJoint:
    """Where one ply of a bearer is jointed: over which post, counted from 1, and how far along."""

    ply: int
    post: int
    at_mm: float = because("raised.ply_joints")


@frozen(kw_only=True)
class Bearer:
    """One bearer: its centre line, plies and joints. `line` names the line across that it is of.

    `carried_mm` is the width of deck that it carries, the greatest along it.
    """

    mark: str
    line: str
    section: Section
    across_mm: float = because("raised.lines_mm")
    start_mm: float = because("raised.bearer_count")
    end_mm: float = because("raised.bearer_count")
    carried_mm: float = because("raised.carried_mm")
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
    place: Spot = because("raised.posts_mm")
    section: Section
    top_mm: float = because("raised.post_top_mm")
    ground_mm: float = because("site.levels.ground_least_mm")
    stand_off_mm: float = because("raised.stand_off_mm")
    embed_mm: float = because("raised.stand_off_mm")
    length_mm: float = because("raised.post_top_mm")
    whole_mm: float = because("raised.post_top_mm")
    height_class: str = because("raised.bracing_over_mm")


@frozen(kw_only=True)
class Ledger:
    """A ledger on a sound wall: what it is, from where to where, where its fixings go.

    Its stations run from the frame's corner, alternately near its upper and its lower edge.
    """

    mark: str
    wall: str
    section: Section
    start_mm: float = because("raised.ledger")
    end_mm: float = because("raised.ledger")
    spacing_most_mm: float = because("raised.ledger_fixings")
    stations_mm: tuple[float, ...] = because("raised.ledger_fixings")
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
    hand: int
    leg_mm: float = because("raised.bracing_over_mm")
    length_mm: float = because("raised.bracing_over_mm")


@frozen(kw_only=True)
class Bracing:
    """Which posts are braced, and how: those higher than `over_mm`."""

    over_mm: float = because("raised.bracing_over_mm")
    leg_mm: float = because("raised.bracing_over_mm")
    braces: tuple[Brace, ...]
    source: Source


@frozen(kw_only=True)
class PostRow:
    """A row of the post schedule: `cut_below_mm` is how far below the datum its top is sawn."""

    mark: str
    bearer: str
    along_mm: float = because("raised.posts_mm")
    across_mm: float = because("raised.posts_mm")
    ground_mm: float = because("site.levels.ground_least_mm")
    top_mm: float = because("raised.post_top_mm")
    cut_below_mm: float = because("raised.post_top_mm")
    length_mm: float = because("raised.post_top_mm")
    whole_mm: float = because("raised.post_top_mm")
    height_class: str = because("raised.bracing_over_mm")
    braces: tuple[str, ...]


@frozen(kw_only=True)
class Heights:
    """What stands on what, and the heights at which more is asked.

    `joist_over_mm` is the joists' depth where they lie over the bearers, 0 where they hang between
    them. Posts shorter than `short_mm` are told, higher than `brace_over_mm` braced; where the deck
    is higher than `screened_mm` over the ground under a post, that stops.
    """

    finished_mm: float
    board_mm: float
    joist_over_mm: float
    bearer_mm: float
    stand_off_mm: float = 0.0
    embed_mm: float = 0.0
    short_mm: float
    brace_over_mm: float
    screened_mm: float


@frozen(kw_only=True)
class RaisedFrame:
    """The whole of it: what stands, the schedule, what falls short. `buildable`: no stop.

    Joists run across from `joist_from_mm` to `joist_to_mm`, the furthest of any beside a post.
    """

    heights: Heights
    joist_from_mm: float = because("raised.lines_mm")
    joist_to_mm: float = because("raised.lines_mm")
    ledger: Ledger | None
    bearers: tuple[Bearer, ...]
    posts: tuple[Post, ...]
    bracing: Bracing
    schedule: tuple[PostRow, ...]
    findings: tuple[Finding, ...] = ()
    buildable: bool


@frozen(kw_only=True)
class JoistRun:
    """One unbroken length of joist, seen from above: `held` ends hang on a ledger or a trimmer."""

    along_mm: float
    start_mm: float = because("raised.lines_mm")
    end_mm: float = because("raised.lines_mm")
    start_held: bool = False
    end_held: bool = False


@frozen(kw_only=True)
class Trimmer:
    """What carries the joists that an opening cuts, at one edge of it, between two whole joists.

    `from_mm` and `to_mm` are the places along of the joists that carry it.
    """

    opening: int
    across_mm: float = because("raised.trimmers")
    from_mm: float = because("raised.trimmers")
    to_mm: float = because("raised.trimmers")


@frozen(kw_only=True)
class Stretch:
    """One bearer's run along a line: what of the line lies on the deck and off its openings."""

    line: int
    across_mm: float = because("raised.lines_mm")
    start_mm: float = because("raised.bearer_count")
    end_mm: float = because("raised.bearer_count")


@frozen(kw_only=True)
class OutlinedLines:
    """Bearers under an outline: lines, their stretches, the joists' runs, trimmers.

    `least_count` is the most lines that any one run of joist needs by itself: no fewer do. The
    lines are the fewest among the places tried; where `line_count` is `least_count` none are
    fewer at all.
    """

    line_count: int = because("raised.lines_mm")
    least_count: int = because("raised.lines_mm")
    lines_mm: tuple[float, ...] = because("raised.lines_mm")
    stretches: tuple[Stretch, ...]
    runs: tuple[JoistRun, ...]
    trimmers: tuple[Trimmer, ...]
    most_ratio: float = because("raised.lines_mm")
    places_tried: int = because("raised.lines_mm")


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
    of all that were listed. `listed` is how many there were.
    """

    chosen: Tried | None
    tried: tuple[Tried, ...]
    listed: int
    cheaper_open: int
    most_tries: int
    findings: tuple[Finding, ...] = ()
