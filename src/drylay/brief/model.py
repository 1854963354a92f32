"""The nouns of a brief. Lengths are millimetres; a wish left out is None."""

from decimal import Decimal

from attrs import field, frozen

from drylay.brief.outline_model import LayingWish, OutlineWish
from drylay.brief.raised_model import GuardsWish, RaisedWish, StepsWish, StrengthWish
from drylay.counting import counted

SIDES = ("house", "right", "front", "left")
RUNS = ("along", "across")
ENDS = ("cut_first", "trim_in_line")
#: "public" is for anybody who comes, "crowd" for many at once: strength takes them alike.
#: What closes a deck's sides down to the ground, how its top lies, whose a drain is.
SKIRTINGS = ("none", "slotted", "solid")
FALLS = ("level", "from the house", "to the house")
DRAINS = ("own", "shared", "public", "unknown")
USES = ("dwelling", "balcony", "public", "crowd", "hot tub")
UNITS = ("metric", "imperial")
LINE_CHOICES = ("fewest", "cheapest")
FACES_UP = ("smooth", "grooved")
DOORS = ("outward", "inward", "sliding")
EXPOSURES = ("inland", "coast", "pool")
SPOIL = ("skip", "bags", "kept")
#: What board ends rest on at a butt joint, the weakest first.
JOINT_SUPPORTS = ("single", "batten", "pair")
#: What tiles lie on: joists, or pads over a slab or a prepared base.
SUPPORTS = ("frame", "pads")
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
    outer pieces long by `trim_allowance_mm` and saws the whole edge in one line. `article` may
    be a tile's: then `support` says what tiles lie on, and `run` which way their longer side.
    """

    article: str
    support: str | None = None
    run: str = "along"
    may_turn: bool = False
    measured_width_mm: float | None = None
    ends: str = "cut_first"
    trim_allowance_mm: float | None = None
    face_up: str | None = None


@frozen(kw_only=True)
class BorderWish:
    """Another board for the first and the last `rows` rows; none unless it names one.

    `screw` holds it where the field's screw does not.
    """

    article: str | None = None
    rows: int = 1
    measured_width_mm: float | None = None
    screw: str | None = None


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
    """Which frame timber, how far apart its joists at most, and how to choose their number.

    `article` is None only where tiles stand on pads. `run` is which way joists are wished to run;
    they always lie across the boards, and a wish along them is told as a stop.
    """

    article: str | None = None
    run: str | None = None
    most_centres_mm: float | None = None
    lines: str = "fewest"


@frozen(kw_only=True)
class FasciaWish:
    """Which sides carry a planted fascia, and of which article.

    `skirting` is what closes the sides below it, down to the ground; it is not planned.
    """

    sides: tuple[str, ...] = ()
    article: str | None = None
    skirting: str | None = None


@frozen(kw_only=True)
class JointsWish:
    """Butt joints: gap, supports under each piece, stagger, cap per row, price of one.

    `support`: "single" lets both ends share a joist, "batten" gives the joist a batten on its side,
    "pair" each end a joist of its own. `lines_mm` fixes the seams of pairs, from the cover's edge.
    """

    end_gap_mm: float | None = None
    least_supports: int | None = None
    stagger_bays: int | None = None
    most_per_row: int | None = None
    price_each: Decimal | None = None
    support: str | None = None
    lines_mm: tuple[float, ...] | None = None


@frozen(kw_only=True)
class CuttingWish:
    """The saw: its kerf, and what is lost at each end of every stock length."""

    kerf_mm: float = 4.0
    end_trim_mm: float = 0.0


@frozen(kw_only=True)
class FixingsWish:
    """Which screws and coach screws; what is left out is not counted.

    `hanger` carries the joists between the outer two, which stay on coach screws. Where clips hold
    the boards, `screw` holds the last row. `screw` is None only under tiles, `coach_screw` only
    where these stand on pads.
    """

    screw: str | None = None
    coach_screw: str | None = None
    frame_screw: str | None = None
    fascia_screw: str | None = None
    hanger: str | None = None
    clip: str | None = None
    starter_clip: str | None = None
    end_cap: str | None = None


@frozen(kw_only=True)
class ClimateWish:
    """The boards' temperatures and moisture contents, on laying day and at their extremes.

    Temperatures are those of the boards in degrees Celsius, moisture contents per cent of dry
    wood. `laying_humidity_ratio` is that of the air the boards lay in before.
    """

    laying_c: float | None = None
    hottest_board_c: float | None = None
    coldest_board_c: float | None = None
    laying_humidity_ratio: float | None = None
    laying_pct: float | None = None
    wettest_pct: float | None = None
    driest_pct: float | None = None


@frozen(kw_only=True)
class AirBrick:
    """An air brick in the house wall: its middle from the datum corner, its lower edge's level.

    Left of the datum corner `along_mm` is below 0.
    """

    along_mm: float
    under_mm: float


@frozen(kw_only=True)
class HouseWish:
    """The house wall beside the deck. Levels are from the datum of `LevelsWish`.

    `steps_down` is how many equal rises lead from the floor to the deck, `rises_to_ground` how many
    to the ground, those among them: the deck's top follows from both where levels do not give it.
    `wall` is what it is made of, for a ledger.
    """

    wall_gap_mm: float | None = None
    dpc_mm: float | None = None
    floor_mm: float | None = None
    steps_down: int = 1
    rises_to_ground: int | None = None
    door_opens: str | None = None
    door_leaf_mm: float | None = None
    sill_mm: float | None = None
    air_bricks: tuple[AirBrick, ...] = ()
    wall: str | None = None


@frozen(kw_only=True)
class GroundPoint:
    """A level of the ground at a place measured from the cover's datum corner."""

    along_mm: float
    across_mm: float
    level_mm: float


@frozen(kw_only=True)
class LevelsWish:
    """Heights, all from one datum: the deck's top, the ground, the garden's lowest spot.

    `lowest_mm` is the lowest ground of the garden outside the deck, `outfall` whether water
    that gathers under the deck can run away. `falls` is how the deck's own top is wished to lie;
    it is planned level.
    """

    datum: str = ""
    deck_top_mm: float | None = None
    lowest_mm: float | None = None
    outfall: bool | None = None
    falls: str | None = None
    points: tuple[GroundPoint, ...] = ()


@frozen(kw_only=True)
class InspectionCover:
    """The cover over a drain: its corner nearest the datum, its size, whose drain it is."""

    from_along_mm: float
    from_across_mm: float
    along_mm: float
    across_mm: float
    whose: str = "unknown"


@frozen(kw_only=True)
class DrainsWish:
    """Drains that are known of, by their inspection covers."""

    covers: tuple[InspectionCover, ...] = ()


@frozen(kw_only=True)
class SiteWish:
    """Where the deck stands: inland, within reach of salt spray, or beside a pool; on a roof?

    `region` names whose rules for guards, steps and footings hold, `soil` what footings bear on
    by that region's own word, `frost_mm` how deep the ground freezes here.
    """

    exposure: str = "inland"
    roof: bool = False
    region: str | None = None
    soil: str | None = None
    frost_mm: float | None = None


@frozen(kw_only=True)
class TubWish:
    """A tub of water on the deck: its foot, and what it weighs filled and with those in it."""

    foot_along_mm: float | None = None
    foot_across_mm: float | None = None
    filled_kg: float | None = None


@frozen(kw_only=True)
class GroundworkWish:
    """The ground under the deck; what is left out is neither counted nor bought."""

    margin_mm: float | None = None
    strip_mm: float | None = None
    below_lawn_mm: float | None = None
    lap_mm: float | None = None
    spoil: str | None = None
    fabric: str | None = None
    gravel: str | None = None
    packer: str | None = None
    packer_spacing_mm: float | None = None


@frozen(kw_only=True)
class FinishWish:
    """Which preserver and wax for sawn ends, which oil, stain or paint, and how many coats."""

    preserver: str | None = None
    end_wax: str | None = None
    article: str | None = None
    coats: int | None = None


@frozen(kw_only=True)
class LightsWish:
    """Lights let into the boards along one side; none unless `count` is above 0."""

    count: int = 0
    side: str = "front"
    hole_mm: float | None = None
    depth_mm: float | None = None


@frozen(kw_only=True)
class CrewWish:
    """How many people build."""

    people: int = 2


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
    """A whole brief. `units` says which units and pencil marks the papers use.

    With an `outline` the `cover` is the box around it: the outline says what the deck is.
    """

    title: str
    cover: CoverWish
    board: BoardWish
    frame: FrameWish = field(factory=FrameWish)
    fixings: FixingsWish = field(factory=FixingsWish)
    border: BorderWish = field(factory=BorderWish)
    gap: GapWish = field(factory=GapWish)
    rows: RowsWish = field(factory=RowsWish)
    fascia: FasciaWish = field(factory=FasciaWish)
    joints: JointsWish = field(factory=JointsWish)
    cutting: CuttingWish = field(factory=CuttingWish)
    climate: ClimateWish = field(factory=ClimateWish)
    site: SiteWish = field(factory=SiteWish)
    house: HouseWish = field(factory=HouseWish)
    levels: LevelsWish = field(factory=LevelsWish)
    groundwork: GroundworkWish = field(factory=GroundworkWish)
    finish: FinishWish = field(factory=FinishWish)
    lights: LightsWish = field(factory=LightsWish)
    outline: OutlineWish = field(factory=OutlineWish)
    laying: LayingWish = field(factory=LayingWish)
    strength: StrengthWish = field(factory=StrengthWish)
    raised: RaisedWish = field(factory=RaisedWish)
    guards: GuardsWish = field(factory=GuardsWish)
    steps: StepsWish = field(factory=StepsWish)
    crew: CrewWish = field(factory=CrewWish)
    tub: TubWish = field(factory=TubWish)
    drains: DrainsWish = field(factory=DrainsWish)
    use: str = "dwelling"
    units: str = "metric"
    overrides: tuple[Override, ...] = ()

    @counted
    def to_dict(self) -> dict[str, object]:
        """Return the brief as plain data that `read_brief` takes back, for a web form."""
        from drylay.brief.codec import brief_to_dict

        return brief_to_dict(self)

    @counted
    def replace(self, path: str, value: object) -> "Brief":
        """Return this brief with one value changed, read as `read_brief` would read it.

        Raises:
            UnknownPathError: The path names no key of a brief.
            BriefError: The changed brief cannot be planned from.
        """
        from drylay.brief.codec import brief_replace

        return brief_replace(self, path, value)
