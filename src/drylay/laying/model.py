"""The nouns of boards laid on an outline. Places are in the cover's axes, as in `outline`."""

from decimal import Decimal

from attrs import frozen

from drylay.outline.model import Spot
from drylay.reasons import because

#: What a piece of board is part of. A "hatch" piece belongs to a panel that lifts out.
PIECE_KINDS = ("field", "border", "breaker", "hatch")


@frozen(kw_only=True)
class Zone:
    """A part of the cover whose boards all run one way: `angle_deg` from the house, 0 to under 180.

    90 is straight away from the house, 45 goes to the right and away from the house. `corners`
    bound it, borders and breaker boards off, gaps beside them too. Rows are counted from the side
    `first_row` says: "near" is the least, "far" the greatest of the distances to the left of the
    boards' run. `gap_mm` is the mean gap; `first_row_mm` and
    `last_row_mm` are the widths seen of the outer rows. `fan_mm` is how much wider all gaps
    together are at the far end of the boards' run than at its beginning, 0 for parallel rows.
    """

    mark: str
    angle_deg: float = because("laying.angle_deg")
    first_row: str
    corners: tuple[Spot, ...] = because("laying.zone_count")
    way_out: str
    row_count: int = because("laying.row_count")
    gap_mm: float = because("laying.way_out")
    first_row_mm: float = because("laying.way_out")
    last_row_mm: float = because("laying.way_out")
    fan_mm: float = because("laying.fan_mm")


@frozen(kw_only=True)
class LaidRow:
    """One row of a zone: `start` to `end` is its edge nearest the side rows are counted from.

    The edge reaches from one end of the zone to the other, whether or not boards lie all along it.
    `width_mm` is the row's own, less than the board's where it is ripped.
    """

    mark: str
    zone: str
    start: Spot = because("laying.way_out")
    end: Spot = because("laying.way_out")
    width_mm: float = because("laying.way_out")
    ripped: bool


@frozen(kw_only=True)
class LaidPiece:
    """One piece of board as it lies.

    `corners` are those of its top, run round like an outline's. `length_mm` is from tip to tip
    along the board, `cut_mm` what is bought for it: that up to a pencil mark. `start_deg` and
    `end_deg` are what the saw is set to, off square, at either end along the board's run, see
    docs/outline-conventions.md. `shaped`: it has other cuts besides, a notch or a second angle,
    and is marked out from its corners. `from_member` and `to_member` name what
    its ends rest on at joints, "" where an end is not at a joint. `arrow_deg` is which way the
    arrow of a handed piece points, None where none is handed.
    """

    mark: str
    kind: str
    row: str
    corners: tuple[Spot, ...] = because("laying.piece_count")
    length_mm: float = because("laying.piece_count")
    cut_mm: float = because("laying.piece_count")
    width_mm: float = because("laying.way_out")
    start_deg: float = because("laying.piece_count")
    end_deg: float = because("laying.piece_count")
    shaped: bool
    from_member: str = ""
    to_member: str = ""
    arrow_deg: float | None = because("laying.handed", default=None)


@frozen(kw_only=True)
class LaidJoint:
    """A butt joint of a row: the gap between two board ends is centred on `at`.

    The end nearer the row's start rests on `member`, the other on `beside`: the other joist of a
    pair; "" where both rest on the one joist.
    """

    row: str
    member: str
    at: Spot = because("laying.joint_count")
    beside: str = ""


@frozen(kw_only=True)
class Mitre:
    """A mitre between two boards of a border, from the outer corner to the inner one.

    It opens by `opens_mm` at its inner end as the boards dry, the outer corners held; None where
    the brief does not tell how moist boards are laid and how dry they get.
    """

    mark: str
    pieces: tuple[str, ...]
    start: Spot = because("laying.mitre_count")
    end: Spot = because("laying.mitre_count")
    length_mm: float = because("laying.mitre_count")
    saw_deg: float = because("laying.mitre_count")
    opens_mm: float | None = because("laying.mitre_opens_mm")


@frozen(kw_only=True)
class Laying:
    """All boards on an outline, and the limits they keep.

    `angle_deg` is that of the main field. `border_courses` boards run round the outline, 0 for
    none, mitred at each corner. `fan_mm` is the taper planned out over the rows, `fan_most_mm` the
    most of it that a row may take. `mitre_opens_mm` is the widest a mitre opens, as in `Mitre`.
    `splay_cuts` are the ends of boards but a border's that are sawn off square in one cut,
    `shaped_count` the pieces marked out from the drawing. `tip_to_tip_m` is the length of all
    pieces together, `face_m2` what their tops cover. `groove_mm`, `fall_least_ratio`,
    `combustible`, `timber` and `wet_slip_least` are told of boards as `Surface` tells them; a fall
    asked for is told, not planned. `stations_met` holds, for each set of lines of the boards'
    proof, the stations at which the pieces of each of its lines meet.
    """

    board_article: str
    board_width_mm: float = because("laying.board_width_mm")
    board_thickness_mm: float = because("laying.board_thickness_mm")
    groove_mm: float | None = because("laying.groove_mm", default=None)
    fall_least_ratio: float | None = because("laying.fall_least_ratio", default=None)
    combustible: bool | None = because("laying.combustible", default=None)
    timber: bool | None = because("laying.timber", default=None)
    wet_slip_least: float | None = because("laying.wet_slip_least", default=None)
    angle_deg: float = because("laying.angle_deg")
    gap_preferred_mm: float = because("laying.gap_preferred_mm")
    gap_least_mm: float = because("laying.gap_least_mm")
    gap_most_mm: float = because("laying.gap_most_mm")
    sliver_limit_mm: float = because("laying.sliver_limit_mm")
    least_rip_mm: float = because("laying.least_rip_mm")
    way_out: str = because("laying.way_out")
    fan_mm: float = because("laying.fan_mm")
    fan_most_mm: float = because("laying.fan_most_mm")
    border_courses: int = because("laying.border_courses")
    breaker_count: int = because("laying.breaker_count")
    zone_count: int = because("laying.zone_count")
    row_count: int = because("laying.row_count")
    end_gap_mm: float = because("laying.end_gap_mm")
    end_bearing_mm: float | None = because("laying.end_bearing_mm")
    end_bearing_least_mm: float = because("laying.end_bearing_least_mm")
    least_supports: int = because("laying.least_supports")
    stagger_bays: int = because("laying.stagger_bays")
    least_piece_mm: float = because("laying.least_piece_mm")
    most_joints_per_row: int | None = because("laying.most_joints_per_row")
    joint_price: Decimal = because("laying.joint_price")
    joint_count: int = because("laying.joint_count")
    stations_met: tuple[tuple[tuple[int, ...], ...], ...] = because(
        "laying.joint_count", default=()
    )
    handed: bool = because("laying.handed")
    mitre_count: int = because("laying.mitre_count")
    mitre_opens_mm: float | None = because("laying.mitre_opens_mm", default=None)
    piece_count: int = because("laying.piece_count")
    splay_cuts: int = because("laying.piece_count")
    shaped_count: int = because("laying.piece_count")
    tip_to_tip_m: float = because("laying.piece_count")
    face_m2: float = because("laying.piece_count")
    zones: tuple[Zone, ...]
    rows: tuple[LaidRow, ...]
    joints: tuple[LaidJoint, ...]
    pieces: tuple[LaidPiece, ...]
    mitres: tuple[Mitre, ...] = ()
