"""The nouns of upkeep. Places are in the cover's axes: along the house, and away from it."""

from datetime import date

from attrs import frozen

from drylay.brief.model import Brief
from drylay.findings import Finding
from drylay.outline.model import Spot
from drylay.reasons import Source
from drylay.work.model import HoldPoint

#: What a thing that lies on top is.
TOP_KINDS = ("field", "border", "breaker", "hatch", "tile")
#: What the old frame was found to be when it was probed.
OLD_FRAMES = ("sound", "soft", "not looked at")


@frozen(kw_only=True)
class Top:
    """A piece of board or a tile as it lies, with the corners of its top.

    `row` is its own mark where it lies in no row, as a border's pieces round an outline.
    """

    mark: str
    row: str
    kind: str
    corners: tuple[Spot, ...]


@frozen(kw_only=True)
class Under:
    """A timber under the boards, or what carries it, with the corners of its top."""

    mark: str
    kind: str
    corners: tuple[Spot, ...]


@frozen(kw_only=True)
class Crossing:
    """Where a piece lies on a timber: the middle of that place, and what holds it there.

    `screws` is None where the plan does not tell them place by place.
    """

    piece: str
    member: str
    at: Spot
    screws: int | None
    clipped: bool


@frozen(kw_only=True)
class Near:
    """A thing near a spot, and how far from it: 0 where the spot lies on it."""

    mark: str
    off_mm: float


@frozen(kw_only=True)
class Located:
    """What lies at a spot: `what` is "piece", "gap" or "off" (no board lies there).

    `pieces` are the piece on the spot, or those on either side of the gap. `over` are timbers right
    under it, `bay` the joists on either side (one where the spot lies beyond the last). `members`
    are the nearest timber, bearer and post, as far as the plan has them. `crossings` are where
    these pieces lie on the timbers of the bay.
    """

    along_mm: float
    across_mm: float
    what: str
    pieces: tuple[str, ...]
    rows: tuple[str, ...]
    over: tuple[str, ...]
    bay: tuple[str, ...]
    nearest: Near | None
    bearer: Near | None
    post: Near | None
    crossings: tuple[Crossing, ...]
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class Below:
    """A rectangle under the boards that is to be laid bare."""

    from_along_mm: float
    to_along_mm: float
    from_across_mm: float
    to_across_mm: float


@frozen(kw_only=True)
class LiftStep:
    """One piece lifted: in which turn, what holds it, on which timbers it lies.

    `held_by` is "screws", "clips", "its panel" or "nothing". `screws` to undo are None where the
    plan does not tell them piece by piece.
    """

    turn: int
    piece: str
    row: str
    kind: str
    held_by: str
    screws: int | None
    clips: int
    over: tuple[str, ...]


@frozen(kw_only=True)
class LiftWay:
    """One way to lift what is in the way, in order. `cut_free`: no board is spoilt by it."""

    begins: str
    steps: tuple[LiftStep, ...]
    rows: tuple[str, ...]
    screws: int | None
    clips: int
    cut_free: bool


@frozen(kw_only=True)
class Lift:
    """What is lifted to reach what lies below: ways with the fewest pieces first.

    `over` are the pieces that lie over it: each way lifts all of these. `corners` are those of what
    is to be reached; `tops` and `timbers` are all that the deck has, to show it among.
    """

    reach: str
    corners: tuple[Spot, ...]
    tops: tuple[Top, ...]
    timbers: tuple[Under, ...]
    over: tuple[str, ...]
    ways: tuple[LiftWay, ...]
    source: Source
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class NewRow:
    """A row laid anew: where its edges lie, and the gaps on either side of it.

    Gaps are told as laid and, where it is known how boards move, when all have settled. Gaps at an
    edge of the deck are None.
    """

    mark: str
    near_mm: float
    width_mm: float
    before_mm: float | None
    after_mm: float | None
    before_settled_mm: float | None
    after_settled_mm: float | None


@frozen(kw_only=True)
class Repair:
    """Rows replaced in phase with the old ones.

    `way` is "near edges" where every new row begins where the old one did, "middles" where it lies
    on the old one's middle, "" where neither keeps the gaps within their limits. Widths are the
    mean of what was measured; `settled_mm` what new boards will measure at the old ones' moisture.
    """

    rows: tuple[NewRow, ...]
    way: str
    old_width_mm: float
    new_width_mm: float
    settled_mm: float | None
    gap_least_mm: float
    gap_most_mm: float
    source: Source
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class Turning:
    """Whether a board may be turned over to show its other face, and why."""

    piece: str
    may: bool | None
    why: str
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class Extension:
    """More deck beyond one side: what to plan it by, and what is left at its far edge.

    `way` is "rows" where new rows continue the old ones, "boards" where new boards continue the old
    ones end to end. The new part begins `starts_mm` beyond the old cover's edge. Its first row lies
    at `first_near_mm` counted as the old rows are, a whole number of `pitch_mm` from the row that
    `phase_mm` is the near edge of. `rows` fill `depth_mm`; `remainder_mm` is what they leave of the
    depth that was wished, and `more_mm` what one row more would take besides it. `brief` is what
    the new part is designed from: `brief.to_dict()` is what a file holds. It is None after a stop.
    """

    side: str
    by_mm: float
    way: str
    starts_mm: float
    phase_mm: float
    pitch_mm: float
    gap_mm: float
    rows: int
    first_near_mm: float
    depth_mm: float
    remainder_mm: float
    more_mm: float
    brief: Brief | None
    questions: tuple[str, ...]
    source: Source
    findings: tuple[Finding, ...] = ()


@frozen(kw_only=True)
class Item:
    """One thing to look at or to do: where, by what figure it passes, by which rule, whose job.

    `holds` are its figures, each with its own source. `if_not` is what to do where it fails, and
    `then_by` who does that.
    """

    what: str
    where: tuple[str, ...]
    holds: tuple[HoldPoint, ...]
    rule: str
    source: Source
    who: str
    if_not: str = ""
    then_by: str = ""


@frozen(kw_only=True)
class Visit:
    """A day on which the deck is looked at, and everything then."""

    mark: str
    day: date
    kind: str
    title: str
    items: tuple[Item, ...]


@frozen(kw_only=True)
class Calendar:
    """All visits in order. `plan_id` says of which plan: a digest of what it was made from."""

    title: str
    plan_id: str
    handed_over: date
    years: int
    visits: tuple[Visit, ...]
    findings: tuple[Finding, ...] = ()
