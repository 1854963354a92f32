"""Every key of a stock catalogue, with bounds of sense (source: assumption, not the trade)."""

from drylay.intake.keys import (
    Key,
    choice,
    count,
    day,
    flag,
    gtin,
    length,
    money,
    number,
    table,
    tables,
    text,
)
from drylay.materials.stock_model import CLIP_ROLES, COATING_USES, FACES, KINDS, METALS

VAT = ("included", "excluded")

TOP: tuple[Key, ...] = (table("catalogue", required=True), *(tables(name) for name in KINDS))

CATALOGUE: tuple[Key, ...] = (
    text("name", required=True),
    text("currency", 3, required=True),
    choice("vat", VAT, required=True),
    count("minor_digits", 0, 4),
    number("vat_ratio", 0, 0.5),
    day("valid_from"),
    day("valid_until"),
    text("batch", 60, empty=True),
    text("note", 400, empty=True),
)
#: What the list may say of every article.
RECORD: tuple[Key, ...] = (
    gtin("gtin"),
    text("batch", 60, empty=True),
    day("sold_from"),
    day("sold_until"),
    text("note", 400, empty=True),
)

_NAMED = (text("code", required=True), text("title", 120, required=True))
_TREATMENT = text("treatment", 60, empty=True)
_NOMINAL = text("nominal", 30, empty=True)
_LENGTHS = tables("lengths")
_PACKS = tables("packs")
_USE_CLASS = count("use_class", 1, 5)
_DURABILITY = count("durability_class", 1, 5)
_METAL = choice("metal", METALS, required=True)
_DRIVER = text("driver", 40, empty=True)

ARTICLES: dict[str, tuple[Key, ...]] = {
    "boards": (
        *_NAMED,
        text("family", 40, required=True),
        length("width_mm", 30, 400, required=True),
        length("thickness_mm", 10, 100, required=True),
        _NOMINAL,
        _TREATMENT,
        _USE_CLASS,
        _DURABILITY,
        choice("faces", FACES),
        text("species", 60, empty=True),
        number("mass_kg_m", 0.1, 50),
        flag("hollow"),
        flag("turnable"),
        length("groove_mm", 0, 60),
        _LENGTHS,
        tables("rules"),
    ),
    "tiles": (
        *_NAMED,
        text("family", 40, required=True),
        length("length_mm", 100, 3000, required=True),
        length("width_mm", 100, 1500, required=True),
        length("thickness_mm", 10, 100, required=True),
        text("species", 60, empty=True),
        number("mass_kg", 0.1, 200),
        _PACKS,
        tables("rules"),
    ),
    "timbers": (
        *_NAMED,
        length("thickness_mm", 15, 150, required=True),
        length("depth_mm", 30, 500, required=True),
        _NOMINAL,
        text("strength_class", 60, empty=True),
        _TREATMENT,
        _USE_CLASS,
        _DURABILITY,
        text("species", 60, empty=True),
        _LENGTHS,
    ),
    "fascias": (
        *_NAMED,
        length("thickness_mm", 8, 100, required=True),
        length("depth_mm", 30, 500, required=True),
        _TREATMENT,
        _USE_CLASS,
        _DURABILITY,
        text("species", 60, empty=True),
        _LENGTHS,
    ),
    "screws": (
        *_NAMED,
        length("shank_mm", 2, 12, required=True),
        length("length_mm", 10, 400, required=True),
        _METAL,
        _DRIVER,
        _PACKS,
    ),
    "coach_screws": (
        *_NAMED,
        length("shank_mm", 4, 25, required=True),
        length("length_mm", 20, 500, required=True),
        length("head_mm", 1, 50, required=True),
        _METAL,
        _DRIVER,
        _PACKS,
    ),
    "clips": (
        *_NAMED,
        choice("role", CLIP_ROLES, required=True),
        length("gap_mm", 0, 20),
        choice("metal", METALS),
        _PACKS,
    ),
    "hangers": (
        *_NAMED,
        length("joist_mm", 15, 150, required=True),
        length("depth_mm", 30, 500, required=True),
        _METAL,
        text("screw", required=True),
        count("screws_each", 1, 100, required=True),
        number("capacity_kn", 0.1, 500),
        _PACKS,
    ),
    "coatings": (
        *_NAMED,
        choice("use", COATING_USES, required=True),
        number("covers_m2_per_l", 0.5, 30, required=True),
        _PACKS,
    ),
    "fabrics": (
        *_NAMED,
        length("width_mm", 300, 10_000, required=True),
        flag("permeable", required=True),
        _LENGTHS,
    ),
    "gravels": (*_NAMED, number("density_kg_m3", 800, 2500), _PACKS),
    "packers": (
        *_NAMED,
        length("least_mm", 1, 1000, required=True),
        length("most_mm", 1, 1000, required=True),
        _PACKS,
    ),
    "concretes": (*_NAMED, number("dry_kg_m3", 1500, 2500, required=True), _PACKS),
    "post_feet": (
        *_NAMED,
        length("post_mm", 40, 300, required=True),
        length("stand_off_mm", 0, 500, required=True),
        _METAL,
        number("capacity_kn", 0.1, 500),
        _PACKS,
    ),
}
#: What packs of an article hold, and how it is keyed: a count, ml or kg.
PACK_SIZES = {"coatings": "ml", "gravels": "kg", "concretes": "kg"}
#: Kinds sold by length; all others are sold in packs.
BY_LENGTH = ("boards", "timbers", "fascias", "fabrics")
#: Kinds that may have one price for a metre, and kinds that may have a price for each.
BY_METRE = ("boards", "timbers", "fascias")
BY_PIECE = ("tiles", "screws", "coach_screws", "clips", "hangers", "packers", "post_feet")
#: A price for a metre may be finer than a coin by so many decimals.
FINER = 2
#: Longest that an article is sold: timber that a lorry carries, a roll of fabric.
LONGEST_MM = {"fabrics": 200_000.0}


def article_keys(kind: str, digits: int) -> tuple[Key, ...]:
    """Return the keys of an article, a price for a metre or for each with a currency's decimals."""
    price: tuple[Key, ...] = ()
    if kind in BY_METRE:
        price = (_price("price_per_m", digits + FINER),)
    elif kind in BY_PIECE:
        price = (_price("each", digits),)
    return (*ARTICLES[kind], *price)


def stock_length_keys(kind: str, digits: int, *, priced: bool = True) -> tuple[Key, ...]:
    """Return the keys of one length on sale, its price with a currency's decimals."""
    return (
        length("length_mm", 300, LONGEST_MM.get(kind, 13_500.0), required=True),
        _price("price", digits, required=priced),
        count("limit", 0, 1_000_000),
        count("pack", 1, 1000),
        gtin("gtin"),
    )


def pack_keys(kind: str, digits: int) -> tuple[Key, ...]:
    """Return the keys of one pack, its price with a currency's decimals."""
    return (
        count(PACK_SIZES.get(kind, "count"), 1, 100_000, required=True),
        _price("price", digits, required=True),
        gtin("gtin"),
    )


def _price(name: str, digits: int, *, required: bool = False) -> Key:
    return money(name, 10.0**-digits, 1_000_000, digits=digits, required=required)


RULE: tuple[Key, ...] = (
    text("rule", 40, required=True),
    Key(name="value", kind="measure", required=True),
    table("source", required=True),
)
