"""The nouns of the pieces. Positions run along the boards from the cover's datum edge."""

from decimal import Decimal

from attrs import frozen

from drylay.reasons import because


@frozen(kw_only=True)
class Joint:
    """A butt joint: in which row, over what, where its centre is.

    The end nearer the datum rests on `joist`, the other on `beside`: the other joist of a pair, or
    a batten on the joist's side; "" where both rest on the one joist.
    """

    row: str
    joist: str
    centre_mm: float = because("pieces.joint_count")
    beside: str = ""


@frozen(kw_only=True)
class Piece:
    """One piece of board as laid; `cut_mm` is what is sawn before laying.

    `width_mm` is the row's width (less than the board's where it is ripped). `from_joist` and
    `to_joist` name what its ends rest on at joints, a joist or a batten; "" at the deck's own edge.
    `arrow` is the side of the cover that the arrow of a handed piece points at, "" where none is
    handed.
    """

    mark: str
    row: str
    start_mm: float = because("pieces.joint_count")
    length_mm: float = because("pieces.joint_count")
    cut_mm: float = because("pieces.trim_allowance_mm")
    width_mm: float = because("surface.way_out")
    from_joist: str
    to_joist: str
    arrow: str = ""


@frozen(kw_only=True)
class OtherDay:
    """The end gap, and up to a whole millimetre, that boards want where they are laid so warm."""

    laying_c: float = because("pieces.movement.growth_mm")
    end_gap_mm: float = because("pieces.movement.growth_mm")


@frozen(kw_only=True)
class BorderOtherDay:
    """The end gap that a border's boards want where they are laid so warm, as `OtherDay`."""

    laying_c: float = because("pieces.border.movement.growth_mm")
    end_gap_mm: float = because("pieces.border.movement.growth_mm")


@frozen(kw_only=True)
class Movement:
    """How boards grow with their temperature, and what becomes of the gap between their ends.

    `board_mm` is the longest that a board may be, `growth_mm` what it grows from laying to hottest.
    `between_mm` is the most board there is between the fixed points of two that meet, None
    without joints; `outer_mm` how far an end at the deck's edge moves out when hottest. Where no
    clips tell a fixed point it is a board's own middle. What a brief does not tell is None.
    `other_days` are end gaps for boards that turn out colder or warmer.
    """

    growth_per_k: float = because("pieces.movement.growth_per_k")
    laying_c: float = because("pieces.movement.laying_c")
    hottest_c: float | None = because("pieces.movement.hottest_c")
    coldest_c: float | None = because("pieces.movement.coldest_c")
    board_mm: float = because("pieces.movement.board_mm")
    growth_mm: float | None = because("pieces.movement.growth_mm")
    narrowest_mm: float | None = because("pieces.movement.narrowest_mm")
    widest_mm: float | None = because("pieces.movement.widest_mm")
    between_mm: float | None = because("pieces.movement.between_mm", default=None)
    outer_mm: float | None = because("pieces.movement.outer_mm", default=None)
    other_days: tuple[OtherDay, ...] = ()


@frozen(kw_only=True)
class BorderMovement:
    """How a border's boards grow by their own record or family, as `Movement` tells the field's."""

    growth_per_k: float = because("pieces.border.movement.growth_per_k")
    laying_c: float = because("pieces.border.movement.laying_c")
    hottest_c: float | None = because("pieces.border.movement.hottest_c")
    coldest_c: float | None = because("pieces.border.movement.coldest_c")
    board_mm: float = because("pieces.border.movement.board_mm")
    growth_mm: float | None = because("pieces.border.movement.growth_mm")
    between_mm: float | None = because("pieces.border.movement.between_mm", default=None)
    outer_mm: float | None = because("pieces.border.movement.outer_mm", default=None)
    narrowest_mm: float | None = because("pieces.border.movement.narrowest_mm")
    widest_mm: float | None = because("pieces.border.movement.widest_mm")
    other_days: tuple[BorderOtherDay, ...] = ()


@frozen(kw_only=True)
class BorderJoints:
    """The limits that joints of the border's rows keep, a set of their own at either edge."""

    end_gap_mm: float = because("pieces.border.end_gap_mm")
    least_supports: int = because("pieces.border.least_supports")
    stagger_bays: int = because("pieces.border.stagger_bays")
    least_piece_mm: float | None = because("pieces.border.least_piece_mm", default=None)
    joint_price: Decimal = because("pieces.border.joint_price")
    end_bearing_mm: float = because("pieces.border.end_bearing_mm")
    end_bearing_least_mm: float = because("pieces.border.end_bearing_least_mm")
    joint_count: int = because("pieces.border.joint_count")
    handed: bool = because("pieces.border.handed")
    movement: BorderMovement | None = None


@frozen(kw_only=True)
class Pieces:
    """All joints and pieces, and the limits they keep.

    No piece of a jointed row is shorter than `least_piece_mm`. `handed`: none may be turned end for
    end. `mass_kg` is that of all boards as laid, where the merchant tells what a metre weighs.
    With a `border` the limits are those of the field's rows, and `joint_count` and
    `movement` speak of theirs; joints and pieces are those of all rows.
    """

    end_gap_mm: float = because("pieces.end_gap_mm")
    least_supports: int = because("pieces.least_supports")
    stagger_bays: int = because("pieces.stagger_bays")
    least_piece_mm: float | None = because("pieces.least_piece_mm", default=None)
    most_joints_per_row: int | None = because("pieces.most_joints_per_row")
    joint_price: Decimal = because("pieces.joint_price")
    trim_allowance_mm: float = because("pieces.trim_allowance_mm")
    end_bearing_mm: float = because("pieces.end_bearing_mm")
    end_bearing_least_mm: float = because("pieces.end_bearing_least_mm")
    joint_count: int = because("pieces.joint_count")
    handed: bool | None = because("pieces.handed", default=None)
    joints: tuple[Joint, ...]
    pieces: tuple[Piece, ...]
    border: BorderJoints | None = None
    movement: Movement | None = None
    mass_kg: float | None = because("pieces.mass_kg", default=None)
