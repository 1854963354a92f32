"""The merchant's stock as a case has it: other prices, a length that is not on sale."""

from collections.abc import Iterable, Iterator
from decimal import Decimal
from fractions import Fraction
from typing import Any

from attrs import evolve

from drylay.errors import CatalogueError, Fault, UnknownPathError
from drylay.intake.values import number_of, unfit
from drylay.materials.lookup import near_codes
from drylay.materials.stock_model import KINDS, Catalogue

STOCK = "stock."
RATIO, WITHOUT = "stock.price_ratio", "stock.without"
#: Dearer or cheaper than this many times is a slip. Assumption.
MOST_RATIO = 100


def stock_path_fault(path: str) -> Fault | None:
    """Return what is wrong with a path of the stock, None where it can be used."""
    if path == RATIO or _code(path):
        return None
    wanted = f"{RATIO}, {RATIO}.CODE or {WITHOUT}.CODE"
    return Fault(path=path[:80], found=f"an unknown path {path[:80]!r}", wanted=wanted)


def _code(path: str) -> str:
    """Return the code of an article that a path of the stock names, "" where it names none."""
    for head in (RATIO, WITHOUT):
        if path.startswith(f"{head}."):
            return path.removeprefix(f"{head}.")
    return ""


def stock_value_fault(path: str, value: object) -> Fault | None:
    """Return what is wrong with a value at a path of the stock, None where it can be used."""
    held = value if path.startswith(WITHOUT) and isinstance(value, list | tuple) else [value]
    if value is None or all(number_of(each) is not None for each in held):
        return None
    wanted = "a ratio of prices" if path.startswith(RATIO) else "lengths on sale, in mm"
    return unfit(value, f"{wanted}, a number")


def code_faults(stock: Catalogue, paths: Iterable[str]) -> Iterator[Fault]:
    """Yield a fault for each path of the stock whose article it does not hold."""
    codes = tuple(each.code for kind in KINDS for each in getattr(stock, kind))
    for path in paths:
        code = _code(path)
        if code and code not in codes:
            near = ", ".join(near_codes(code, codes))
            yield Fault(path=path[:80], found=f"no article {code[:60]!r}",
                        wanted="an article of the stock", nearest=near)  # fmt: skip


def shelf_of(stock: Catalogue, changes: Iterable[tuple[str, object]]) -> Catalogue:
    """Return the stock with the changes of a case that are its own.

    Raises:
        CatalogueError: A change cannot be made.
    """
    for path, value in changes:
        if not path.startswith(STOCK) or value is None:
            continue
        stock = _changed(stock, path, value)
    return stock


def _changed(stock: Catalogue, path: str, value: object) -> Catalogue:
    code = _code(path)
    if path.startswith(RATIO):
        return _priced(stock, path, code, value)
    for length_mm in value if isinstance(value, list) else [value]:
        long_mm = number_of(length_mm)
        if long_mm is None:
            raise CatalogueError((Fault(path=path, found=repr(length_mm)[:60],
                                        wanted="a length on sale, a number of mm"),))  # fmt: skip
        try:
            stock = stock.without(code, length_mm=long_mm)
        except UnknownPathError as error:
            raise CatalogueError((Fault(path=path, found=f"{error.path} is not sold",
                                        wanted="a length on sale",
                                        nearest=", ".join(error.nearest)),)) from None  # fmt: skip
    return stock


def _priced(stock: Catalogue, path: str, code: str, value: object) -> Catalogue:
    """Return the stock with prices times a ratio, each rounded up to the coin."""
    ratio = number_of(value)
    if ratio is None or not 0 < ratio <= MOST_RATIO:
        raise CatalogueError((Fault(path=path, found=repr(value)[:60],
                                    wanted=f"a ratio above 0, {MOST_RATIO} at most"),))  # fmt: skip
    times = Fraction(repr(ratio))
    known = {each.code for kind in KINDS for each in getattr(stock, kind)}
    if code and code not in known:
        near = ", ".join(near_codes(code, tuple(sorted(known))))
        raise CatalogueError((Fault(path=path, found=f"no article {code[:60]!r}",
                                    wanted="an article of the stock", nearest=near),))  # fmt: skip
    changed: dict[str, Any] = {
        kind: tuple(
            _dearer(each, times, stock.minor_digits) if code in ("", each.code) else each
            for each in getattr(stock, kind)
        )
        for kind in KINDS
    }
    return evolve(stock, **changed)


def _dearer(article: Any, times: Fraction, digits: int) -> Any:
    """Return an article with all its prices times a ratio; a price by the metre goes with them."""
    changed: dict[str, Any] = {
        name: tuple(
            evolve(item, price=_up(item.price, times, digits)) for item in getattr(article, name)
        )
        for name in ("lengths", "packs")
        if hasattr(article, name)
    }
    if getattr(article, "price_per_m", None) is not None:
        per_m = Fraction(article.price_per_m) * times
        changed["price_per_m"] = Decimal(per_m.numerator) / Decimal(per_m.denominator)
    return evolve(article, **changed)


def _up(price: Decimal, times: Fraction, digits: int) -> Decimal:
    exact = Fraction(price) * times
    coins = -(-exact.numerator * 10**digits // exact.denominator)
    return Decimal(coins).scaleb(-digits)
