"""Every key of a stock catalogue, with bounds of sense (source: assumption, not the trade)."""

from drylay.intake.keys import Key, choice, count, length, money, table, tables, text

VAT = ("included", "excluded")

TOP: tuple[Key, ...] = (
    table("catalogue", required=True),
    *(tables(name) for name in ("boards", "timbers", "fascias", "screws", "coach_screws")),
)

CATALOGUE: tuple[Key, ...] = (
    text("name", required=True),
    text("currency", 3, required=True),
    choice("vat", VAT, required=True),
    count("minor_digits", 0, 4),
)

_NAMED = (text("code", required=True), text("title", 120, required=True))
_TREATMENT = text("treatment", 60, empty=True)
_NOMINAL = text("nominal", 30, empty=True)
_LENGTHS = tables("lengths")
_PACKS = tables("packs")

ARTICLES: dict[str, tuple[Key, ...]] = {
    "boards": (
        *_NAMED,
        text("family", 40, required=True),
        length("width_mm", 30, 400, required=True),
        length("thickness_mm", 10, 100, required=True),
        _NOMINAL,
        _TREATMENT,
        _LENGTHS,
        tables("rules"),
    ),
    "timbers": (
        *_NAMED,
        length("thickness_mm", 15, 150, required=True),
        length("depth_mm", 30, 500, required=True),
        _NOMINAL,
        text("strength_class", 60, empty=True),
        _TREATMENT,
        _LENGTHS,
    ),
    "fascias": (
        *_NAMED,
        length("thickness_mm", 8, 100, required=True),
        length("depth_mm", 30, 500, required=True),
        _TREATMENT,
        _LENGTHS,
    ),
    "screws": (
        *_NAMED,
        length("shank_mm", 2, 12, required=True),
        length("length_mm", 10, 400, required=True),
        text("metal", 60, required=True),
        _PACKS,
    ),
    "coach_screws": (
        *_NAMED,
        length("shank_mm", 4, 25, required=True),
        length("length_mm", 20, 500, required=True),
        length("head_mm", 1, 50, required=True),
        text("metal", 60, required=True),
        _PACKS,
    ),
}


def stock_length_keys(digits: int) -> tuple[Key, ...]:
    """Return the keys of one length on sale, its price with a currency's decimals."""
    return (
        length("length_mm", 300, 13_500, required=True),
        _price(digits),
        count("limit", 0, 1_000_000),
    )


def pack_keys(digits: int) -> tuple[Key, ...]:
    """Return the keys of one pack, its price with a currency's decimals."""
    return (count("count", 1, 100_000, required=True), _price(digits))


def _price(digits: int) -> Key:
    return money("price", 10.0**-digits, 1_000_000, digits=digits, required=True)


RULE: tuple[Key, ...] = (
    text("rule", 40, required=True),
    Key(name="value", kind="measure", required=True),
    table("source", required=True),
)
