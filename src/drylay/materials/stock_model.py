"""What a merchant sells: articles in true sizes, the lengths and packs they come in, prices."""

from datetime import date
from decimal import Decimal
from typing import Any

from attrs import field, frozen

from drylay.reasons import Source

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
COATING_USES = ("end grain", "finish", "end wax")
#: What holds boards without a screw through their face, and what closes a hollow board's end.
CLIP_ROLES = ("row", "starter", "end cap")


@frozen(kw_only=True)
class StockLength:
    """One length of an article on sale, its price, and how many there are if limited.

    `pack` is how many are sold together: none can be had but in whole packs. `price` is of one.
    """

    length_mm: float
    price: Decimal
    limit: int | None = None
    pack: int = 1
    gtin: str = ""


@frozen(kw_only=True)
class Pack:
    """A box of fixings: how many in it, and its price."""

    count: int
    price: Decimal
    gtin: str = ""


@frozen(kw_only=True)
class Tin:
    """A tin of a coating: how many ml in it, and its price."""

    ml: int
    price: Decimal
    gtin: str = ""


@frozen(kw_only=True)
class Bag:
    """A bag of gravel or concrete mix: how many kg in it, and its price."""

    kg: int
    price: Decimal
    gtin: str = ""


@frozen(kw_only=True)
class Record:
    """What a merchant's list says of an article besides its sizes and prices.

    `gtin` is its number in trade, where each length or pack has none of its own. It is on sale
    from `sold_from` to `sold_until`, both days included; None leaves that end open.
    """

    gtin: str = ""
    batch: str = ""
    sold_from: date | None = None
    sold_until: date | None = None
    note: str = ""


@frozen(kw_only=True)
class ArticleRule:
    """A merchant's own value for a family rule, for one article."""

    rule: str
    value: float
    source: Source


@frozen(kw_only=True)
class Board:
    """A deck board as sold. Sizes are true sizes; `nominal` is only what it is called.

    `price_per_m` is told where the merchant sells by the metre, and prices of lengths follow from
    it. `durability_class` is that of the wood itself (EN 350: 1 lasts longest).
    `groove_mm` is the depth of the groove that an insert lies in, `turnable` whether a piece may be
    turned end for end (None: its family says), `mass_kg_m` that of a metre as delivered.
    """

    code: str
    title: str
    family: str
    width_mm: float
    thickness_mm: float
    lengths: tuple[StockLength, ...]
    nominal: str = ""
    treatment: str = ""
    use_class: int | None = None
    durability_class: int | None = None
    faces: str | None = None
    species: str = ""
    mass_kg_m: float | None = None
    hollow: bool = False
    turnable: bool | None = None
    groove_mm: float = 0.0
    rules: tuple[ArticleRule, ...] = ()
    price_per_m: Decimal | None = None
    record: Record = Record()


@frozen(kw_only=True)
class Tile:
    """A tile or timber square as sold, in true sizes; `length_mm` is its longer side.

    `species` is the stuff it is made of: porcelain, a stone, or a wood.
    """

    code: str
    title: str
    family: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    packs: tuple[Pack, ...]
    species: str = ""
    mass_kg: float | None = None
    rules: tuple[ArticleRule, ...] = ()
    record: Record = Record()


@frozen(kw_only=True)
class Clip:
    """A hidden clip or an end cap as sold; `gap_mm` is what a row clip leaves between boards.

    Every clip is of a metal; an end cap may be of none.
    """

    code: str
    title: str
    role: str
    packs: tuple[Pack, ...]
    metal: str = ""
    gap_mm: float | None = None
    record: Record = Record()


@frozen(kw_only=True)
class Timber:
    """Frame timber as sold: thickness (the narrow face) and depth, true sizes; of which species."""

    code: str
    title: str
    thickness_mm: float
    depth_mm: float
    lengths: tuple[StockLength, ...]
    nominal: str = ""
    strength_class: str = ""
    treatment: str = ""
    use_class: int | None = None
    durability_class: int | None = None
    species: str = ""
    price_per_m: Decimal | None = None
    record: Record = Record()


@frozen(kw_only=True)
class FasciaBoard:
    """A fascia board as sold: thickness and depth, true sizes; of which species."""

    code: str
    title: str
    thickness_mm: float
    depth_mm: float
    lengths: tuple[StockLength, ...]
    treatment: str = ""
    use_class: int | None = None
    durability_class: int | None = None
    species: str = ""
    price_per_m: Decimal | None = None
    record: Record = Record()


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
    record: Record = Record()


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
    record: Record = Record()


@frozen(kw_only=True)
class Hanger:
    """A joist hanger as sold: the joist it takes, and the screws that hold it.

    `capacity_kn` is what its maker declares that it carries pressed straight down, every screw in
    it; None where nothing is declared.
    """

    code: str
    title: str
    joist_mm: float
    depth_mm: float
    metal: str
    screw: str
    screws_each: int
    packs: tuple[Pack, ...]
    capacity_kn: float | None = None
    record: Record = Record()


@frozen(kw_only=True)
class Coating:
    """A preserver, oil, stain or paint as sold; `covers_m2_per_l` is that of one coat."""

    code: str
    title: str
    use: str
    covers_m2_per_l: float
    packs: tuple[Tin, ...]
    record: Record = Record()


@frozen(kw_only=True)
class Fabric:
    """A ground fabric as sold, by the roll; `permeable` is whether water passes."""

    code: str
    title: str
    width_mm: float
    permeable: bool
    lengths: tuple[StockLength, ...]
    record: Record = Record()


@frozen(kw_only=True)
class Gravel:
    """Gravel or other fill as sold; `density_kg_m3` is as it lies when spread."""

    code: str
    title: str
    packs: tuple[Bag, ...]
    density_kg_m3: float | None = None
    record: Record = Record()


@frozen(kw_only=True)
class Packer:
    """A packer or pedestal as sold: the heights it reaches, alike for a plain packer."""

    code: str
    title: str
    least_mm: float
    most_mm: float
    packs: tuple[Pack, ...]
    record: Record = Record()


@frozen(kw_only=True)
class ConcreteMix:
    """Dry concrete mix as sold; `dry_kg_m3` is how many kg of it a m3 of concrete takes."""

    code: str
    title: str
    dry_kg_m3: float
    packs: tuple[Bag, ...]
    record: Record = Record()


@frozen(kw_only=True)
class PostFoot:
    """A metal foot as sold, which keeps a post off the concrete; `post_mm` is the post's side.

    `stand_off_mm` is from the concrete to the post's end, `capacity_kn` what its maker declares
    that it carries pressed straight down; None where nothing is declared.
    """

    code: str
    title: str
    post_mm: float
    stand_off_mm: float
    metal: str
    packs: tuple[Pack, ...]
    capacity_kn: float | None = None
    record: Record = Record()


#: Every kind of article, as its tables are called in a stock file.
KINDS = ("boards", "tiles", "timbers", "fascias", "screws", "coach_screws", "clips", "hangers",
         "coatings", "fabrics", "gravels", "packers", "concretes", "post_feet")  # fmt: skip

Article = (
    Board | Tile | Timber | FasciaBoard | Screw | CoachScrew | Clip | Hanger | Coating | Fabric
    | Gravel | Packer | ConcreteMix | PostFoot
)  # fmt: skip


@frozen(kw_only=True)
class Catalogue:
    """What a merchant sells. `minor_digits` is how many decimals the currency has.

    Prices hold from `valid_from` to `valid_until`, both days included; `batch` is that of every
    article which tells none.
    """

    name: str
    currency: str
    vat: str
    minor_digits: int = 2
    vat_ratio: float | None = None
    valid_from: date | None = None
    valid_until: date | None = None
    batch: str = ""
    note: str = ""
    boards: tuple[Board, ...] = ()
    tiles: tuple[Tile, ...] = ()
    timbers: tuple[Timber, ...] = ()
    fascias: tuple[FasciaBoard, ...] = ()
    screws: tuple[Screw, ...] = ()
    coach_screws: tuple[CoachScrew, ...] = field(default=())
    clips: tuple[Clip, ...] = ()
    hangers: tuple[Hanger, ...] = ()
    coatings: tuple[Coating, ...] = ()
    fabrics: tuple[Fabric, ...] = ()
    gravels: tuple[Gravel, ...] = ()
    packers: tuple[Packer, ...] = ()
    concretes: tuple[ConcreteMix, ...] = ()
    post_feet: tuple[PostFoot, ...] = ()

    def without(
        self, code: str, *, length_mm: float | None = None, pack: int | None = None
    ) -> "Catalogue":
        """Return this catalogue without an article, or without one length or pack of it.

        Raises:
            UnknownPathError: No such article, or the article has no such length or pack.
        """
        from drylay.materials.lookup import catalogue_without

        return catalogue_without(self, code, length_mm=length_mm, pack=pack)

    def on(self, day: date | str) -> "Catalogue":
        """Return what of this catalogue is on sale on a day; CatalogueError where it is no day."""
        from drylay.materials.lookup import catalogue_on

        return catalogue_on(self, day)

    def nearest(self, code: str, *, among: "Catalogue | None" = None) -> tuple[Any, ...]:
        """Return what may stand in for an article that is out, best first, with all that changes.

        Each is a `Substitute`. `among` is another catalogue to look in.

        Raises:
            UnknownPathError: No such article.
            CatalogueError: The prices of the two catalogues cannot be compared.
        """
        from drylay.materials.nearest import nearest_articles

        return nearest_articles(self, code, among=among)

    def __or__(self, other: "Catalogue") -> "Catalogue":
        """Return both catalogues as one; CatalogueError where they contradict each other."""
        from drylay.materials.union import catalogue_union

        return catalogue_union(self, other)
