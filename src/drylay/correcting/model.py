"""The nouns of correction while laying.

Places run across the rows from the cover's datum edge, as in `surface`. The two ends of a row are
`left`, the end nearest the datum corner, and `right`, the other: where boards run across these are
the house's end and the front's.
"""

from decimal import Decimal

from attrs import field, frozen

from drylay.buying.model import Purchase
from drylay.findings import Finding
from drylay.reasons import because

#: What the widths of boards to come are reckoned from.
BOARD_TAKES = ("plan", "rows laid", "boards measured", "boards laid tight")
#: Ways to bring in what gaps cannot.
WAYS_BACK = (
    "more_change", "rip_last", "move_fascia", "leave_short", "fewer_rows", "more_rows",
)  # fmt: skip
#: What a reading tells as cut where all pieces of the plan are: stands for their marks.
ALL = ("*",)
#: What to do with a piece whose size changed, and what it is a piece of.
CUT_DO, CUT_WHAT = ("cut", "trim", "shed"), ("boards", "fascia")


@frozen(kw_only=True)
class Tolerances:
    """How true the work is, each as a standard deviation.

    Of one board's width (`width_mm`), of what all boards of the batch share (`batch_mm`), of a
    gap as set (`gap_mm`), of what all gaps share by their spacer (`spacer_mm`), of one reading of
    the tape (`tape_mm`).
    """

    width_mm: float
    batch_mm: float
    gap_mm: float
    spacer_mm: float
    tape_mm: float


@frozen(kw_only=True)
class Spread:
    """A length that comes out so long on average, with this sd, and the chance to keep a limit.

    `within_1_ratio` and `within_2_ratio` are the chances to lie within 1 and 2 mm of
    `wanted_mm`; `within_limit_ratio` that within `limit_mm`. Chances are rounded down, sd up.
    """

    wanted_mm: float
    expected_mm: float
    sd_mm: float
    within_1_ratio: float
    within_2_ratio: float
    limit_mm: float
    within_limit_ratio: float


@frozen(kw_only=True)
class EdgeForecast:
    """Where the last of so many rows ends if nobody measures on the way.

    `sd_alone_mm` is that of errors which each board and gap has of its own; `shared_mm` what
    batch and spacer come to where both err by one sd to the same side; `spread` has all of it.
    """

    rows: int
    sd_alone_mm: float
    shared_mm: float
    spread: Spread


@frozen(kw_only=True)
class BearingForecast:
    """What a board's end bears at a joint: on average, and at least with a chance.

    `least_ratio` is the chance that one end bears `least_mm`, `all_ratio` one that all `ends` do
    at least have.
    """

    expected_mm: float
    sd_mm: float
    chance_ratio: float
    at_least_mm: float
    least_mm: float
    least_ratio: float
    ends: int
    all_ratio: float


@frozen(kw_only=True)
class LevelForecast:
    """How far out of level: two points against each other, and the most among `points`."""

    points: int
    sd_mm: float
    limit_mm: float
    two_ratio: float
    all_ratio: float


@frozen(kw_only=True)
class Simulated:
    """What so many seeded runs came to: mean, sd, and the shares within limits."""

    runs: int
    mean_mm: float
    sd_mm: float
    within_1_ratio: float
    within_2_ratio: float
    within_limit_ratio: float


@frozen(kw_only=True)
class GapLimits:
    """The least and most gap before one row."""

    least_mm: float
    most_mm: float


@frozen(kw_only=True)
class EndLaid:
    """One end of what is laid: its last far edge, where the last row's far edge is to be.

    `gaps_set_mm` is the sum of all gaps as they were set there, `gap_before_mm` the last of them.
    """

    edge_mm: float
    target_mm: float
    gaps_set_mm: float
    gap_before_mm: float


@frozen(kw_only=True)
class LaidSoFar:
    """What there is to correct: rows as planned, how many lie, both ends, what limits gaps.

    `widths_mm` are all rows' as planned, `gaps` the limits before each row after the first.
    `measured_mm` are widths of boards still to be laid, whole ones, where they were measured.
    `together_mm` is what all boards still to be laid measure, laid tight.
    `most_change_mm` is how far a gap may differ from the gap before it. The last row may be ripped
    to `rip_least_mm` ... `rip_most_mm`, None where it may not.
    """

    board_mm: float
    widths_mm: tuple[float, ...]
    rows_laid: int
    left: EndLaid
    right: EndLaid
    gaps: tuple[GapLimits, ...]
    measured_mm: tuple[float, ...] = ()
    together_mm: float | None = None
    most_change_mm: float
    step_mm: float
    rip_least_mm: float | None = None
    rip_most_mm: float | None = None
    rip_planned: bool = False
    gaps_fixed: bool = False
    fascia_mm: float = 0.0
    tolerances: Tolerances


@frozen(kw_only=True)
class RowToLay:
    """A row not yet laid, at both its ends: gap to set before it, its edges, its width.

    A row's width is what boards now seem to take; the last row's, where it is ripped, is what to
    rip it to.
    """

    mark: str
    gap_left_mm: float = because("laid.most_change_mm")
    gap_right_mm: float = because("laid.most_change_mm")
    near_left_mm: float = because("laid.most_change_mm")
    near_right_mm: float = because("laid.most_change_mm")
    width_left_mm: float = because("laid.board_takes")
    width_right_mm: float = because("laid.board_takes")
    ripped: bool


@frozen(kw_only=True)
class EndForecast:
    """What one end will come to: how far a board is off, the gap that would land it, the finish.

    `more_mm` is by how much a board takes more room than planned; `needed_gap_mm` the mean gap that
    would bring it in. `off_mm` is the expected last edge less its target. `as_set` is the
    finish where nobody measures again, `by_rule` where the last rows' rule is kept.
    `limits_ratio` is the chance that gaps within their limits bring it in.
    """

    more_mm: float = because("laid.board_takes")
    needed_gap_mm: float = because("laid.most_change_mm")
    off_mm: float = because("laid.most_change_mm")
    as_set: Spread = because("laid.tolerances")
    by_rule: Spread = because("laid.tolerances")
    limits_ratio: float = because("laid.tolerances")


@frozen(kw_only=True)
class WayBack:
    """A way to bring in what gaps cannot: what is changed, and to how much at either end.

    `kind` is one of `WAYS_BACK`. `honest`: it keeps every limit that is known here.
    """

    kind: str
    left_mm: float
    right_mm: float
    honest: bool
    told: str


@frozen(kw_only=True)
class Correction:
    """What `correct` answers: rows to lay, forecasts, when to measure, ways back, findings.

    `board_takes`, one of `BOARD_TAKES`, says what the widths to come were reckoned from. `checks`
    are the rows after which to measure.
    """

    rows_laid: int
    rows_left: int
    board_takes: str
    rows: tuple[RowToLay, ...]
    left: EndForecast
    right: EndForecast
    checks: tuple[int, ...]
    ways_back: tuple[WayBack, ...]
    findings: tuple[Finding, ...]


@frozen(kw_only=True)
class EdgeReading:
    """What a builder measured after a row, as typed: both far edges, from the datum edge.

    `widths_mm` are measured boards not yet laid, `together_mm` all boards not yet laid measured
    tight together, one that will be ripped before it is. `target_left_mm` and `target_right_mm`
    are where the last edge is to be by the frame as it stands, and `row_length_mm` how long a row
    is to be by it; None as planned. `cut` are marks of pieces already cut, beside those of the
    rows laid; `ALL` stands for all.
    """

    rows_laid: int
    left_mm: float
    right_mm: float
    date: str = ""
    widths_mm: tuple[float, ...] = ()
    together_mm: float | None = None
    target_left_mm: float | None = None
    target_right_mm: float | None = None
    row_length_mm: float | None = None
    cut: tuple[str, ...] = ()


@frozen(kw_only=True)
class Reading:
    """One reading in a plan's history, and what was decided on it.

    The targets are those that held then. `gaps_left_mm` and `gaps_right_mm` are the gaps that were
    set so far, as far as anybody knows, `gaps_to_set_...` those decided for the rows after.
    """

    number: int
    reading: EdgeReading
    target_left_mm: float = because("laid.target_mm")
    target_right_mm: float = because("laid.target_mm")
    gaps_left_mm: tuple[float, ...] = because("laid.most_change_mm")
    gaps_right_mm: tuple[float, ...] = because("laid.most_change_mm")
    to_set_left_mm: tuple[float, ...] = because("laid.most_change_mm")
    to_set_right_mm: tuple[float, ...] = because("laid.most_change_mm")
    left: EndForecast
    right: EndForecast


@frozen(kw_only=True)
class CutAgain:
    """A piece whose size changed: as it was, as it is now, and what to do where it is cut already.

    `do` is "cut" where it is not cut yet, else "trim" (by `trim_mm`) or "shed": it is too short and
    becomes an offcut. Widths are those at the left and right end; None where they are as before.
    """

    mark: str
    was_mm: float = because("laid.row_length_mm")
    now_mm: float = because("laid.row_length_mm")
    width_left_mm: float | None = because("laid.most_change_mm", default=None)
    width_right_mm: float | None = because("laid.most_change_mm", default=None)
    do: str
    trim_mm: float = because("laid.row_length_mm", default=0.0)


@frozen(kw_only=True)
class SawnAgain:
    """A board or offcut at hand, or one to buy, and the pieces that come out of it now.

    `stock` is the mark of the board bought, of the piece that was cut too short, or "" of one to
    buy. `length_mm` is what of it is still whole.
    """

    stock: str
    length_mm: float = because("laid.row_length_mm")
    pieces: tuple[str, ...]
    pieces_mm: tuple[float, ...] = because("laid.row_length_mm")


@frozen(kw_only=True)
class Recut:
    """What is cut again: pieces changed, boards with what comes out of them, what is to buy.

    `what` is "boards" or "fascia". `cost` is of what has to be bought besides, `bound` what no
    purchase goes below, with the proof in `purchase`; None where nothing was cut again.
    """

    what: str
    pieces: tuple[CutAgain, ...]
    boards: tuple[SawnAgain, ...]
    purchase: Purchase | None = None
    cost: Decimal = because("laid.row_length_mm")


@frozen(kw_only=True)
class Laid:
    """What lies and what is to come: the history of readings, the rows left, what is cut again.

    `checks` are the rows after which to measure. `tolerances` are those forecasts rest on.
    """

    target_mm: float = because("laid.target_mm")
    row_length_mm: float = because("laid.row_length_mm")
    most_change_mm: float = because("laid.most_change_mm")
    step_mm: float = because("laid.most_change_mm")
    board_takes: str = because("laid.board_takes")
    rows_laid: int
    readings: tuple[Reading, ...] = because("laid.readings")
    rows: tuple[RowToLay, ...]
    checks: tuple[int, ...]
    tolerances: Tolerances = because("laid.tolerances")
    ways_back: tuple[WayBack, ...] = because("laid.most_change_mm", default=())
    recut: tuple[Recut, ...] = field(default=())
