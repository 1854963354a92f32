"""The nearest equivalents of an article that is out, best first, each with all that changes."""

import re
from collections.abc import Callable, Iterator
from decimal import ROUND_CEILING, Decimal
from typing import Any

import attrs

from drylay.counting import counted
from drylay.errors import CatalogueError, UnknownPathError
from drylay.materials.keys import FINER
from drylay.materials.lookup import near_codes, size_of
from drylay.materials.nearest_model import FactChange, Substitute
from drylay.materials.stock_model import KINDS, Catalogue
from drylay.materials.union import heads_disagree
from drylay.reasons import Scalar

#: Metals from the least to the most lasting out of doors; aluminium is not held against steel.
#: Common practice, no source.
LASTING = (
    ("plain steel",),
    ("bright zinc",),
    ("coated for treated timber", "hot-dip galvanised"),
    ("stainless A2",),
    ("stainless A4",),
)
#: Facts that have to be the same, or the article is no substitute at all.
_SAME = {"clips": ("role",), "coatings": ("use",), "hangers": ("joist_mm",),
         "post_feet": ("post_mm",)}  # fmt: skip
#: Facts of which less stands behind.
_LESS_IS_WORSE = (
    "thickness_mm", "depth_mm", "shank_mm", "length_mm", "use_class", "screws_each", "most_mm",
    "covers_m2_per_l", "permeable", "turnable", "stand_off_mm", "capacity_kn",
)  # fmt: skip
#: Facts of which more stands behind.
_MORE_IS_WORSE = ("durability_class", "least_mm", "hollow", "dry_kg_m3")
#: What is not compared: names, what has its own words, and what holds all the rest.
_UNCOMPARED = ("code", "title", "nominal", "lengths", "packs", "price_per_m", "rules", "record")
#: Which facts count most when substitutes are ranked; a difference in sizes counts by its size.
_FIRST = ("family", "width_mm", "thickness_mm", "depth_mm", "length_mm", "shank_mm", "metal",
          "least_mm", "most_mm", "treatment", "use_class", "strength_class", "species")  # fmt: skip
#: Strength classes of EN 338: the figure is the bending strength in N/mm2.
_CLASS = re.compile(r"\b([CD])(\d\d)\b", re.ASCII)
_UNITS = {"lengths": ("m", 1000), "ml": ("l", 1000), "kg": ("kg", 1), "count": ("piece", 1)}


@counted
def nearest_articles(
    catalogue: Catalogue, code: str, *, among: Catalogue | None = None
) -> tuple[Substitute, ...]:
    """Return what may stand in for an article, best first: same family, nothing worse, near sizes.

    Args:
        catalogue: The stock that has the article, which may be sold out.
        code: The article.
        among: Where to look; the same stock if not told.

    Raises:
        UnknownPathError: The stock has no such article.
        CatalogueError: The prices of the two catalogues cannot be compared.
    """
    shelves = catalogue if among is None else among
    if wrong := heads_disagree(catalogue, shelves):
        raise CatalogueError(tuple(wrong))
    kind, wanted = _of_code(catalogue, code)
    digits = catalogue.minor_digits + FINER
    found = [
        _substitute(wanted, article, digits)
        for article in getattr(shelves, kind)
        if article.code != code and _can_stand_in(kind, wanted, article)
    ]
    return tuple(sorted(found, key=_rank))


def _of_code(catalogue: Catalogue, code: str) -> tuple[str, Any]:
    codes = []
    for kind in KINDS:
        for article in getattr(catalogue, kind):
            if article.code == code:
                return kind, article
            codes.append(article.code)
    raise UnknownPathError(code, near_codes(code, tuple(codes)), noun="article")


def _can_stand_in(kind: str, wanted: Any, article: Any) -> bool:
    same = all(getattr(wanted, name) == getattr(article, name) for name in _SAME.get(kind, ()))
    return same and lowest_price(article) is not None


def _substitute(wanted: Any, article: Any, digits: int) -> Substitute:
    return Substitute(
        article=article,
        changes=tuple(_changes(wanted, article)),
        unit=_unit(article)[0],
        price_old=_up(lowest_price(wanted), digits),
        price_new=_up(lowest_price(article), digits),
    )


def _changes(wanted: Any, article: Any) -> Iterator[FactChange]:
    """Yield each fact that the two have otherwise, sizes first as the noun has them."""
    for name in (each.name for each in attrs.fields(type(wanted))):
        old, new = getattr(wanted, name), getattr(article, name)
        if name not in _UNCOMPARED and old != new:
            yield FactChange(fact=name, old=old, new=new, worse=is_worse(name, old, new))
    yield from _rule_changes(wanted, article)
    old_sizes, new_sizes = _sizes(wanted), _sizes(article)
    if old_sizes != new_sizes:
        what = "lengths" if hasattr(wanted, "lengths") else "packs"
        yield FactChange(fact=what, old=old_sizes, new=new_sizes)
    if wanted.record.batch != article.record.batch:
        yield FactChange(fact="batch", old=wanted.record.batch, new=article.record.batch)


def _rule_changes(wanted: Any, article: Any) -> Iterator[FactChange]:
    """Yield each rule that the merchant's record of one answers otherwise than of the other."""
    old = {rule.rule: rule.value for rule in getattr(wanted, "rules", ())}
    new = {rule.rule: rule.value for rule in getattr(article, "rules", ())}
    for name in sorted({*old, *new}):
        if old.get(name) != new.get(name):
            yield FactChange(fact=name, old=old.get(name), new=new.get(name))


def is_worse(fact: str, old: Scalar, new: Scalar) -> bool:
    """Whether a substitute stands behind in a fact; what is not told stands behind what is."""
    if fact in ("metal", "strength_class"):
        compared = _metal_place if fact == "metal" else _class_place
        return _behind(compared, str(old), str(new))
    if fact not in (*_LESS_IS_WORSE, *_MORE_IS_WORSE) or old is None:
        return False
    if new is None:
        return True
    less = float(new) < float(old)
    return less if fact in _LESS_IS_WORSE else not less


def _behind(place: Callable[[str], tuple[str, int] | None], old: str, new: str) -> bool:
    """Whether the new word stands behind the old on its scale, or on another or none."""
    here, there = place(old), place(new)
    if not old:
        return False
    return here is None or there is None or here[0] != there[0] or there[1] < here[1]


def _metal_place(metal: str) -> tuple[str, int] | None:
    places = [at for at, metals in enumerate(LASTING) if metal in metals]
    return ("steel", places[0]) if places else None


def _class_place(strength_class: str) -> tuple[str, int] | None:
    match = _CLASS.search(strength_class)
    return (match[1], int(match[2])) if match else None


def _sizes(article: Any) -> str:
    """Return the lengths or packs on sale, in words."""
    lengths = getattr(article, "lengths", None)
    if lengths is None:
        return ", ".join(f"{size_of(pack):g}" for pack in article.packs)
    return ", ".join(f"{length.length_mm:g}" for length in lengths if length.limit != 0)


def _unit(article: Any) -> tuple[str, int]:
    if hasattr(article, "lengths"):
        return _UNITS["lengths"]
    return next(unit for name, unit in _UNITS.items() if hasattr(article.packs[0], name))


def lowest_price(article: Any) -> Decimal | None:
    """Return the lowest price of a metre, piece, litre or kg of an article; None if it is out."""
    sold = [item for item in getattr(article, "lengths", ()) if item.limit != 0]
    sold = sold or list(getattr(article, "packs", ()))
    if not sold:
        return None
    prices: list[Decimal] = [item.price / Decimal(repr(size_of(item))) for item in sold]
    return min(prices) * _unit(article)[1]


def _up(price: Decimal | None, digits: int) -> Decimal | None:
    if price is None:
        return None
    return price.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_CEILING)


def _rank(found: Substitute) -> tuple[Any, ...]:
    changed = {change.fact: change for change in found.changes}
    apart = [_apart(changed[name]) if name in changed else 0.0 for name in _FIRST]
    worse = sum(change.worse for change in found.changes)
    price = found.price_new if found.price_new is not None else Decimal("Infinity")
    return (apart[0], worse, *apart[1:], len(found.changes), price, found.article.code)


def _apart(change: FactChange) -> float:
    old, new = change.old, change.new
    if isinstance(old, int | float) and isinstance(new, int | float):
        return abs(float(new) - float(old))
    return 1.0
