"""What a brief wants of a deck that is no plain rectangle. Lengths are millimetres."""

from attrs import frozen

#: What a side of the outline is: the house wall, open ground, a boundary, the edge of a pool.
SIDE_KINDS = ("house", "open", "boundary", "pool")
#: What an opening is for.
OPENING_KINDS = ("hatch", "tree", "post", "pool")
HOW = ("add", "take")
FIRST_ROWS = ("near", "far")
BREAKERS = ("none", "as_needed")


@frozen(kw_only=True)
class OutlinePoint:
    """A corner, in order round the deck either way, and what the side from it to the next is.

    Corners, middles of openings and where fields begin are measured from the datum corner; sizes
    and angles are the deck's own, see `drylay.own_line`.

    `side` is one of `SIDE_KINDS`; `faced`: that side carries a fascia.
    """

    along_mm: float
    across_mm: float
    side: str = "open"
    faced: bool = False


@frozen(kw_only=True)
class OutlineRectangle:
    """A rectangle added to the deck or taken away, its lowest corner and its sizes.

    `side` and `faced` are those of every side of the deck that lies on this rectangle's edge; of
    two rectangles that share an edge the later speaks. A side on the line of the house (across 0)
    is the house's where nothing else is said of it.
    """

    from_along_mm: float
    from_across_mm: float
    along_mm: float
    across_mm: float
    how: str = "add"
    side: str | None = None
    faced: bool = False


@frozen(kw_only=True)
class WallReading:
    """How far the house wall stands off the straight line along across 0, into the deck."""

    along_mm: float
    off_mm: float


@frozen(kw_only=True)
class OpeningWish:
    """Something the deck leaves room for; `along_mm` and `across_mm` are of its middle.

    A hatch's sizes are those of the cover under it, a post's and a pool's their own. A tree has a
    `trunk_mm` (its diameter), and grows for so many `years`.
    """

    kind: str
    along_mm: float
    across_mm: float
    name: str = ""
    size_along_mm: float | None = None
    size_across_mm: float | None = None
    trunk_mm: float | None = None
    growth_a_year_mm: float | None = None
    years: int | None = None
    sway_mm: float | None = None


@frozen(kw_only=True)
class OutlineWish:
    """The outline as points, or as rectangles added and taken away; none where both are empty."""

    points: tuple[OutlinePoint, ...] = ()
    rectangles: tuple[OutlineRectangle, ...] = ()
    wall: tuple[WallReading, ...] = ()
    openings: tuple[OpeningWish, ...] = ()


@frozen(kw_only=True)
class FieldWish:
    """A rectangle of the deck whose boards run their own way; what lies outside does not count."""

    from_along_mm: float
    from_across_mm: float
    along_mm: float
    across_mm: float
    angle_deg: float
    first_row: str | None = None


@frozen(kw_only=True)
class LayingWish:
    """How boards lie on an outline.

    `angle_deg` is from the house (from the deck's own line where it stands askew), 0 to under 180,
    and 45 goes to the right and away from the house;
    None for `board.run`'s own. `first_row` says which side rows are counted from: left
    open, the near one, or the far one where only that is parallel to the boards. `border_courses`
    boards run round all sides, mitred. Breaker boards run across the main field's boards: where
    `breakers_mm` says, as distances along these from the datum corner, or as few as leave no joint
    ("as_needed"), or not at all ("none"). Left open, they lie where the boards' family does not let
    two ends share a joist and no board is long enough.
    """

    angle_deg: float | None = None
    first_row: str | None = None
    border_courses: int = 0
    breakers: str | None = None
    breakers_mm: tuple[float, ...] | None = None
    fields: tuple[FieldWish, ...] = ()
