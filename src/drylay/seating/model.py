"""The nouns of sizing a deck by its furniture.

Places are told as everywhere: along the house from its left end, across away from it, in mm. Sides
of a piece are those of the deck while it stands unturned; turned pieces have them turned along.
"""

from decimal import Decimal

from attrs import frozen

from drylay.findings import Finding
from drylay.reasons import Ruling, Source

SIDES = ("house", "right", "front", "left")
#: What a side of the deck is: a drop without a guard, a guard, or a wall.
SIDE_KINDS = ("open", "guard", "wall")
DOORS = ("outward", "inward", "sliding")
LEVELS = ("least", "comfortable")
#: What a zone is kept for. "door" and "steps" belong to no piece.
ZONE_KINDS = ("body", "pulled back", "passage", "clear", "door", "steps")
#: Where cover sizes come from: as found, whole rows, one row more, a length as sold, and both.
SNAPS = ("as found", "whole rows", "next row", "whole length", "rows and length")


@frozen(kw_only=True)
class FurniturePiece:
    """A piece, or `count` alike side by side along with a passage between.

    `chairs`: its own sides at which chairs stand; `passages`: sides behind which somebody passes.
    `hot`: it burns, and is kept clear of everything. Passages of a piece may lie where chairs of
    another are pulled back only where both are of one `group`, as the user tells it.
    """

    mark: str
    kind: str
    along_mm: float
    across_mm: float
    count: int = 1
    chairs: tuple[str, ...] = ()
    passages: tuple[str, ...] = ()
    hot: bool = False
    may_turn: bool = True
    group: str = ""
    source: Source


@frozen(kw_only=True)
class Passage:
    """A wish: somebody passes behind this side of this piece."""

    piece: str
    side: str


@frozen(kw_only=True)
class Door:
    """A door onto the deck; `from_mm` from the start of its side, None where that is yet free."""

    side: str = "house"
    wide_mm: float
    opens: str
    from_mm: float | None = None


@frozen(kw_only=True)
class StepsHead:
    """Where steps leave the deck; `from_mm` as a door's."""

    side: str
    wide_mm: float
    from_mm: float | None = None


@frozen(kw_only=True)
class DeckSides:
    """What each side of the deck is, and the doors and steps at them."""

    house: str = "wall"
    right: str = "open"
    front: str = "open"
    left: str = "open"
    doors: tuple[Door, ...] = ()
    steps: tuple[StepsHead, ...] = ()


@frozen(kw_only=True)
class Allowances:
    """The room that use takes, `level` "least" or "comfortable", each with its ruling."""

    level: str
    pulled_back_mm: float
    passage_mm: float
    from_open_edge_mm: float
    clear_mm: float
    steps_head_mm: float
    door_landing_mm: float
    rulings: tuple[Ruling, ...]


@frozen(kw_only=True)
class Zone:
    """A rectangle of the deck and what it is kept for; a clear zone may reach past open sides."""

    kind: str
    piece: str
    from_along_mm: float
    from_across_mm: float
    along_mm: float
    across_mm: float


@frozen(kw_only=True)
class Placed:
    """Where the body of a piece stands, with its size as it stands; turned clockwise from above.

    Of `count` alike each is `each_mm` wide, `between_mm` apart, along or turned across.
    """

    piece: str
    kind: str
    turned_deg: float
    from_along_mm: float
    from_across_mm: float
    along_mm: float
    across_mm: float
    count: int = 1
    each_mm: float
    between_mm: float = 0.0


@frozen(kw_only=True)
class Layout:
    """A deck of this size with all pieces on it."""

    along_mm: float
    across_mm: float
    area_m2: float
    placed: tuple[Placed, ...]
    zones: tuple[Zone, ...]


@frozen(kw_only=True)
class Sized:
    """What the search found at one level of allowances.

    `layouts`: no size on the grid that holds all pieces is smaller both ways than one of these,
    the shortest along first; `best` is that of least area. `proven`: none on the grid has less.
    Where the search ran into `most_nodes` none has less than `bound_m2`, and `gap_m2` is what lies
    between. `all_seen`: the other shapes are proven too. `best` is None where nothing was found.
    """

    level: str
    best: Layout | None
    layouts: tuple[Layout, ...]
    grid_mm: float
    proven: bool
    all_seen: bool
    nodes: int
    most_nodes: int
    bound_m2: float
    gap_m2: float
    allowances: Allowances
    findings: tuple[Finding, ...]


@frozen(kw_only=True)
class LeastSize:
    """The least size of a deck for its furniture, and the comfortable one."""

    least: Sized
    comfortable: Sized


@frozen(kw_only=True)
class Remedy:
    """One change that makes the furniture fit: `kind` is "extend", "turn" or "guard".

    `subject`: the direction, the piece, or the side. `by_mm`: how far to extend, else 0.
    """

    kind: str
    subject: str
    by_mm: float
    message: str


@frozen(kw_only=True)
class Fitted:
    """Whether all pieces find room on a cover of a given size, and what is short if not.

    `short_along_mm`: how much longer along it would have to be as deep as it is, None where no
    length is enough; `short_across_mm` likewise. Both are 0 where all fits. `proven` as in `Sized`.
    """

    along_mm: float
    across_mm: float
    level: str
    fits: bool
    layout: Layout | None
    short_along_mm: float | None
    short_across_mm: float | None
    remedies: tuple[Remedy, ...]
    grid_mm: float
    proven: bool
    nodes: int
    findings: tuple[Finding, ...]


@frozen(kw_only=True)
class SnappedSize:
    """A cover of whole rows, or as long as boards are sold, that is no smaller than what it is for.

    `spare_along_mm` and `spare_across_mm` are what it is larger by. `rows` is None, and so is
    `length_mm`, where that direction is not snapped.
    """

    snap: str
    along_mm: float
    across_mm: float
    spare_along_mm: float
    spare_across_mm: float
    rows: int | None = None
    lengths_mm: tuple[float, ...] = ()


@frozen(kw_only=True)
class SeatedCost:
    """What one size costs: a whole deck of it designed, or the codes of what stops that.

    `leftover_m2` is board bought and not laid, offcuts and spares.
    """

    level: str
    size: SnappedSize
    buildable: bool
    stop_codes: tuple[str, ...]
    rows: int | None
    currency: str
    order_cost: Decimal | None
    gap: Decimal | None
    leftover_m2: float | None


@frozen(kw_only=True)
class SeatingWish:
    """The garden file's `[seating]`: pieces, sides, passages, and a cover or bounds of a search."""

    pieces: tuple[FurniturePiece, ...]
    sides: DeckSides
    passages: tuple[Passage, ...] = ()
    grid_mm: float = 50.0
    along_mm: float | None = None
    across_mm: float | None = None
    most_along_mm: float | None = None
    most_across_mm: float | None = None
