"""The nouns of a brief. Lengths are millimetres; a wish left out is None."""

from decimal import Decimal

from attrs import field, frozen

SIDES = ("house", "right", "front", "left")
RUNS = ("along", "across")
ENDS = ("cut_first", "trim_in_line")
USES = ("dwelling", "public")
UNITS = ("metric", "imperial")
LINE_CHOICES = ("fewest", "cheapest")
WAYS_OUT = ("as_wished", "gaps", "shrink", "grow", "rip_both", "rip_last", "turn")


@frozen(kw_only=True)
class CoverWish:
    """The finished walking surface: along the house and away from it, and how it may change."""

    along_mm: float
    across_mm: float
    grow_along_mm: float = 0.0
    shrink_along_mm: float = 0.0
    grow_across_mm: float = 0.0
    shrink_across_mm: float = 0.0


@frozen(kw_only=True)
class BoardWish:
    """Which board, which way it runs, and how its ends are finished.

    `ends`: "cut_first" cuts every piece to length before it is laid; "trim_in_line" lays
    outer pieces long by `trim_allowance_mm` and saws the whole edge in one line.
    """

    article: str
    run: str = "along"
    may_turn: bool = False
    measured_width_mm: float | None = None
    ends: str = "cut_first"
    trim_allowance_mm: float | None = None


@frozen(kw_only=True)
class GapWish:
    """The gap between rows: wished, and the least and most allowed here."""

    preferred_mm: float | None = None
    least_mm: float | None = None
    most_mm: float | None = None


@frozen(kw_only=True)
class RowsWish:
    """What counts as a sliver, whether boards may be ripped, and which way out comes first."""

    sliver_mm: float | None = None
    least_rip_mm: float | None = None
    may_rip: bool = True
    prefer: tuple[str, ...] = WAYS_OUT


@frozen(kw_only=True)
class FrameWish:
    """Which frame timber, how far apart its joists at most, and how to choose their number."""

    article: str
    most_centres_mm: float | None = None
    lines: str = "fewest"


@frozen(kw_only=True)
class FasciaWish:
    """Which sides carry a planted fascia, and of which article."""

    sides: tuple[str, ...] = ()
    article: str | None = None


@frozen(kw_only=True)
class JointsWish:
    """Butt joints: gap, supports under each piece, stagger, cap per row, price of one."""

    end_gap_mm: float | None = None
    least_supports: int | None = None
    stagger_bays: int | None = None
    most_per_row: int | None = None
    price_each: Decimal | None = None


@frozen(kw_only=True)
class CuttingWish:
    """The saw: its kerf, and what is lost at each end of every stock length."""

    kerf_mm: float = 4.0
    end_trim_mm: float = 0.0


@frozen(kw_only=True)
class FixingsWish:
    """Which screws and coach screws."""

    screw: str
    coach_screw: str


@frozen(kw_only=True)
class Override:
    """A named person's value for a decision, with the reason given."""

    path: str
    value: float
    unit: str
    by: str
    reason: str


@frozen(kw_only=True)
class Brief:
    """A whole brief. `units` says which units and pencil marks the papers use."""

    title: str
    cover: CoverWish
    board: BoardWish
    frame: FrameWish
    fixings: FixingsWish
    gap: GapWish = field(factory=GapWish)
    rows: RowsWish = field(factory=RowsWish)
    fascia: FasciaWish = field(factory=FasciaWish)
    joints: JointsWish = field(factory=JointsWish)
    cutting: CuttingWish = field(factory=CuttingWish)
    use: str = "dwelling"
    units: str = "metric"
    overrides: tuple[Override, ...] = ()

    def to_dict(self) -> dict[str, object]:
        """Return the brief as plain data that `read_brief` takes back, for a web form."""
        from drylay.brief.codec import brief_to_dict

        return brief_to_dict(self)

    def replace(self, path: str, value: object) -> "Brief":
        """Return this brief with one value changed, read as `read_brief` would read it.

        Raises:
            UnknownPathError: The path names no key of a brief.
            BriefError: The changed brief cannot be planned from.
        """
        from drylay.brief.codec import brief_replace

        return brief_replace(self, path, value)
