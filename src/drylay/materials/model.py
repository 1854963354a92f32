"""The nouns of materials: what a family of boards rules, what a merchant sells."""

from collections.abc import Callable
from decimal import Decimal

from attrs import field, frozen

from drylay.reasons import Ruling, Source


@frozen(kw_only=True)
class RuleQuery:
    """What a family is asked about: the board as it lies, and what it is fixed to.

    `metal` is that of a fixing, `exposure` where the deck stands: inland, coast or pool.
    """

    board_width_mm: float
    board_thickness_mm: float
    joist_thickness_mm: float
    board_to_joist_deg: float = 90.0
    use: str = "dwelling"
    treatment: str = ""
    head_sunk_mm: float = 0.0
    fascia_thickness_mm: float = 0.0
    metal: str = ""
    exposure: str = "inland"


Rule = Callable[[RuleQuery], Ruling]

#: Metals and coatings of fixings that a stock file may name. Common practice, no source.
METALS = (
    "plain steel",
    "bright zinc",
    "coated for treated timber",
    "hot-dip galvanised",
    "aluminium",
    "stainless A2",
    "stainless A4",
)
#: How a board's two faces are worked.
FACES = ("smooth", "grooved", "one grooved")
#: What a coating is for.
COATING_USES = ("end grain", "finish")

#: Every rule a family is asked for: its unit and what it answers. A family that leaves one
#: out does not cover it, which is a stop, never a fallback to another family.
RULES: dict[str, tuple[str, str]] = {
    "most_centres_mm": ("mm", "furthest apart the joists may be, centre to centre"),
    "gap_preferred_mm": ("mm", "gap between rows to aim for when laying"),
    "gap_least_mm": ("mm", "narrowest gap between rows when laying"),
    "gap_most_mm": ("mm", "widest gap between rows when laying"),
    "end_gap_mm": ("mm", "gap between board ends at a butt joint"),
    "end_bearing_least_mm": ("mm", "least bearing of a board end at a butt joint"),
    "least_supports": ("count", "fewest joists under one piece of board"),
    "stagger_bays": ("count", "bays between joints of neighbouring rows"),
    "sliver_mm": ("mm", "a row narrower than this is a sliver"),
    "may_rip": ("yes/no", "1 if a board may be ripped to width, else 0"),
    "least_rip_mm": ("mm", "narrowest a board may be ripped"),
    "screws_per_crossing": ("count", "screws where a board crosses a joist"),
    "screw_length_least_mm": ("mm", "shortest deck screw"),
    "screw_edge_least_mm": ("mm", "least distance of a screw from the board's edge"),
    "screw_end_least_mm": ("mm", "least distance of a screw from the board's end"),
    "screw_pilot_ratio": ("ratio", "pilot hole over screw shank, near a board's end"),
    "coach_screws_per_joist_end": ("count", "coach screws at each end of a joist"),
    "coach_screw_length_least_mm": ("mm", "shortest coach screw through a rim into a joist end"),
    "coach_screw_sink_mm": ("mm", "how deep a coach screw's head is sunk under a fascia"),
    "coach_screw_pilot_ratio": ("ratio", "pilot hole over coach screw shank, in the joist's end"),
    "frame_screws_per_noggin_end": ("count", "screws at each end of a noggin"),
    "frame_screws_per_splice_side": ("count", "screws of a splice plate each side of its joint"),
    "frame_screw_length_least_mm": ("mm", "shortest screw of noggins and splices"),
    "fascia_screws_per_place": ("count", "screws one above the other where a fascia is held"),
    "fascia_screw_spacing_most_mm": ("mm", "furthest apart the places where a fascia is held"),
    "fascia_screw_end_least_mm": ("mm", "least distance of a fascia screw from an end"),
    "fascia_screw_length_least_mm": ("mm", "shortest screw of a fascia"),
    "metal_allowed": ("yes/no", "1 if a fixing of this metal may be used here, else 0"),
    "board_use_class_least": ("count", "lowest use class of boards and fascia"),
    "frame_use_class_least": ("count", "lowest use class of frame timber"),
    "noggin_spacing_most_mm": ("mm", "furthest apart the rows of noggins may be"),
    "preserver_coats": ("count", "coats of end-grain preserver on a sawn end"),
    "finish_coats": ("count", "coats of finish on boards and fascia"),
    "groove_ratio": ("ratio", "how much more surface a grooved face has than a smooth one"),
    "spare_ratio": ("ratio", "spare bought on top, shown apart"),
    "density_most_kg_m3": ("kg/m3", "heaviest the timber may be as delivered"),
}

#: Rules that a merchant's record of a board cannot answer: they are asked of each fixing.
NO_RECORD = ("metal_allowed",)

#: Least and most a rule's answer can sensibly be, whoever gives it: beyond lies a slip.
#: Assumption; a brief's wishes and overrides have the same bounds where they speak of the same.
RULE_BOUNDS: dict[str, tuple[float, float]] = {
    "most_centres_mm": (100, 1500),
    "gap_preferred_mm": (0, 20),
    "gap_least_mm": (0, 20),
    "gap_most_mm": (0, 20),
    "end_gap_mm": (0, 20),
    "end_bearing_least_mm": (0, 100),
    "least_supports": (2, 50),
    "stagger_bays": (0, 50),
    "sliver_mm": (0, 300),
    "may_rip": (0, 1),
    "least_rip_mm": (0, 300),
    "screws_per_crossing": (1, 10),
    "screw_length_least_mm": (10, 300),
    "screw_edge_least_mm": (0, 100),
    "screw_end_least_mm": (0, 100),
    "screw_pilot_ratio": (0, 1),
    "coach_screws_per_joist_end": (1, 10),
    "coach_screw_length_least_mm": (20, 500),
    "coach_screw_sink_mm": (0, 50),
    "coach_screw_pilot_ratio": (0, 1),
    "frame_screws_per_noggin_end": (1, 10),
    "frame_screws_per_splice_side": (1, 20),
    "frame_screw_length_least_mm": (10, 500),
    "fascia_screws_per_place": (1, 10),
    "fascia_screw_spacing_most_mm": (100, 3000),
    "fascia_screw_end_least_mm": (0, 300),
    "fascia_screw_length_least_mm": (0, 500),
    "metal_allowed": (0, 1),
    "board_use_class_least": (1, 5),
    "frame_use_class_least": (1, 5),
    "noggin_spacing_most_mm": (300, 10_000),
    "preserver_coats": (1, 10),
    "finish_coats": (1, 10),
    "groove_ratio": (0, 1),
    "spare_ratio": (0, 1),
    "density_most_kg_m3": (200, 1500),
}


@frozen(kw_only=True)
class Family:
    """A family of boards: an id, and one function for every rule it covers."""

    id: str
    title: str
    rules: dict[str, Rule]
    cautions: tuple[str, ...] = ()


@frozen(kw_only=True)
class StockLength:
    """One length of an article on sale, its price, and how many there are if limited."""

    length_mm: float
    price: Decimal
    limit: int | None = None


@frozen(kw_only=True)
class Pack:
    """A box of fixings: how many in it, and its price."""

    count: int
    price: Decimal


@frozen(kw_only=True)
class Tin:
    """A tin of a coating: how many ml in it, and its price."""

    ml: int
    price: Decimal


@frozen(kw_only=True)
class Bag:
    """A bag of gravel: how many kg in it, and its price."""

    kg: int
    price: Decimal


@frozen(kw_only=True)
class ArticleRule:
    """A merchant's own value for a family rule, for one article."""

    rule: str
    value: float
    source: Source


@frozen(kw_only=True)
class Board:
    """A deck board as sold. Sizes are true sizes; `nominal` is only what it is called."""

    code: str
    title: str
    family: str
    width_mm: float
    thickness_mm: float
    lengths: tuple[StockLength, ...]
    nominal: str = ""
    treatment: str = ""
    use_class: int | None = None
    faces: str | None = None
    rules: tuple[ArticleRule, ...] = ()


@frozen(kw_only=True)
class Timber:
    """Frame timber as sold: thickness (the narrow face) and depth, true sizes."""

    code: str
    title: str
    thickness_mm: float
    depth_mm: float
    lengths: tuple[StockLength, ...]
    nominal: str = ""
    strength_class: str = ""
    treatment: str = ""
    use_class: int | None = None


@frozen(kw_only=True)
class FasciaBoard:
    """A fascia board as sold: thickness and depth, true sizes."""

    code: str
    title: str
    thickness_mm: float
    depth_mm: float
    lengths: tuple[StockLength, ...]
    treatment: str = ""
    use_class: int | None = None


@frozen(kw_only=True)
class Screw:
    """A screw as sold, for boards, frame or fascia; `driver` is the bit it takes."""

    code: str
    title: str
    shank_mm: float
    length_mm: float
    metal: str
    packs: tuple[Pack, ...]
    driver: str = ""


@frozen(kw_only=True)
class CoachScrew:
    """A coach screw as sold; `head_mm` is the height of head and washer."""

    code: str
    title: str
    shank_mm: float
    length_mm: float
    head_mm: float
    metal: str
    packs: tuple[Pack, ...]
    driver: str = ""


@frozen(kw_only=True)
class Hanger:
    """A joist hanger as sold: the joist it takes, and the screws that hold it."""

    code: str
    title: str
    joist_mm: float
    depth_mm: float
    metal: str
    screw: str
    screws_each: int
    packs: tuple[Pack, ...]


@frozen(kw_only=True)
class Coating:
    """A preserver, oil, stain or paint as sold; `covers_m2_per_l` is that of one coat."""

    code: str
    title: str
    use: str
    covers_m2_per_l: float
    packs: tuple[Tin, ...]


@frozen(kw_only=True)
class Fabric:
    """A ground fabric as sold, by the roll; `permeable` is whether water passes."""

    code: str
    title: str
    width_mm: float
    permeable: bool
    lengths: tuple[StockLength, ...]


@frozen(kw_only=True)
class Gravel:
    """Gravel or other fill as sold; `density_kg_m3` is as it lies when spread."""

    code: str
    title: str
    packs: tuple[Bag, ...]
    density_kg_m3: float | None = None


@frozen(kw_only=True)
class Packer:
    """A packer or pedestal as sold: the heights it reaches, alike for a plain packer."""

    code: str
    title: str
    least_mm: float
    most_mm: float
    packs: tuple[Pack, ...]


#: Every kind of article, as its tables are called in a stock file.
KINDS = ("boards", "timbers", "fascias", "screws", "coach_screws", "hangers", "coatings",
         "fabrics", "gravels", "packers")  # fmt: skip

Article = (
    Board | Timber | FasciaBoard | Screw | CoachScrew | Hanger | Coating | Fabric | Gravel | Packer
)


@frozen(kw_only=True)
class Catalogue:
    """What a merchant sells. `minor_digits` is how many decimals the currency has."""

    name: str
    currency: str
    vat: str
    minor_digits: int = 2
    boards: tuple[Board, ...] = ()
    timbers: tuple[Timber, ...] = ()
    fascias: tuple[FasciaBoard, ...] = ()
    screws: tuple[Screw, ...] = ()
    coach_screws: tuple[CoachScrew, ...] = field(default=())
    hangers: tuple[Hanger, ...] = ()
    coatings: tuple[Coating, ...] = ()
    fabrics: tuple[Fabric, ...] = ()
    gravels: tuple[Gravel, ...] = ()
    packers: tuple[Packer, ...] = ()

    def without(self, code: str, *, length_mm: float | None = None) -> "Catalogue":
        """Return this catalogue without an article, or without one length of it.

        Raises:
            UnknownPathError: No such article, or the article has no such length.
        """
        from drylay.materials.lookup import catalogue_without

        return catalogue_without(self, code, length_mm=length_mm)

    def __or__(self, other: "Catalogue") -> "Catalogue":
        """Return both catalogues as one; CatalogueError where they contradict each other."""
        from drylay.materials.lookup import catalogue_union

        return catalogue_union(self, other)
