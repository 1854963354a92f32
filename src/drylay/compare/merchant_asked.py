"""What a merchant asks is read here: decks, an article sold by length, its lengths and prices."""

from collections.abc import Mapping
from decimal import Decimal
from math import inf, isfinite
from typing import Any, TypeGuard

from attrs import evolve, frozen

from drylay.brief.model import Brief
from drylay.errors import Fault, InputError
from drylay.intake.keys import money, text
from drylay.intake.values import number_of, read_money, read_text, unfit
from drylay.marks import exact
from drylay.materials.lookup import near_codes
from drylay.materials.stock_model import KINDS, Catalogue, StockLength

#: Kinds of articles that are sold by length.
BY_LENGTH = ("boards", "timbers", "fascias", "fabrics")
MOST_DECKS, MOST_OF_ONE, MOST_NAME = 500, 1000, 60
#: No length costs more, as in a stock file.
MOST_PRICE = 1_000_000


@frozen(kw_only=True)
class Asked:
    """A deck of a merchant's, and how many of it."""

    name: str
    brief: Brief
    count: int = 1


def read_decks(decks: object, wrong: list[Fault], *, counted: bool = False) -> tuple[Asked, ...]:
    """Return the decks by name; what is wrong with any goes on the list.

    `counted` decks may be pairs of a brief and how many of it.
    """
    if not isinstance(decks, Mapping) or not 1 <= len(decks) <= MOST_DECKS:
        found = f"{len(decks)} decks" if isinstance(decks, Mapping) else _called(decks)
        wanted = f"1 to {MOST_DECKS} briefs by name"
        nearest = "" if isinstance(decks, Mapping) else '{"a name": brief}'
        wrong.append(Fault(path="decks", found=found, wanted=wanted, nearest=nearest))
        return ()
    return tuple(
        asked for name, deck in decks.items() if (asked := _deck(name, deck, counted, wrong))
    )


def _deck(name: object, deck: object, counted: bool, wrong: list[Fault]) -> Asked | None:
    path = f"decks[{str(name)[:MOST_NAME]!r}]"
    brief, count = _counted(deck) if counted else (deck, 1)
    faults = []
    if isinstance(read := read_text(text("name", MOST_NAME), name), Fault):
        faults.append(evolve(read, path=f"{path}, its name"))
    if not isinstance(brief, Brief):
        wanted = "a brief, or a brief and how many of it" if counted else "a brief"
        faults.append(Fault(path=path, found=_called(brief), wanted=wanted))
    if not _is_count(count, MOST_OF_ONE):
        wanted = f"how many of it, 1 to {MOST_OF_ONE}"
        faults.append(evolve(unfit(count, wanted), path=path))
    wrong += faults
    if faults or not isinstance(brief, Brief) or not _is_count(count):
        return None
    return Asked(name=str(name), brief=brief, count=count)


def _counted(deck: object) -> tuple[object, object]:
    """Return a brief and how many of it: one where nobody says."""
    return deck if isinstance(deck, tuple) and len(deck) == 2 else (deck, 1)


def _is_count(value: object, most: float = inf) -> TypeGuard[int]:
    return isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= most


def _called(value: object) -> str:
    return f"a {type(value).__name__}"


def is_stock(stock: object, wrong: list[Fault]) -> TypeGuard[Catalogue]:
    """Return whether this is a merchant's stock; if not, that is a fault."""
    if not isinstance(stock, Catalogue):
        wanted = "a catalogue, from load_catalogue()"
        wrong.append(evolve(unfit(stock, wanted), path="stock"))
    return isinstance(stock, Catalogue)


def sold_by_length(stock: Catalogue) -> dict[str, Any]:
    """Return every article that is sold by length, by its code."""
    return {each.code: each for kind in BY_LENGTH for each in getattr(stock, kind)}


def read_article(stock: Catalogue, code: object, wrong: list[Fault], path: str = "article") -> Any:
    """Return the article of this code that is sold by length, None where there is none."""
    sold = sold_by_length(stock)
    if isinstance(code, str) and code in sold:
        return sold[code]
    known = {each.code for kind in KINDS for each in getattr(stock, kind)}
    if isinstance(code, str) and code in known:
        wrong.append(Fault(path=path, found=code, wanted="an article that is sold by length"))
        return None
    near = ", ".join(near_codes(code, tuple(sold))) if isinstance(code, str) else ""
    wanted = "the code of an article that is sold by length"
    wrong.append(evolve(unfit(code, wanted, near), path=path))
    return None


def read_length(article: Any, length_mm: object, wrong: list[Fault]) -> StockLength | None:
    """Return the length of an article that is so long, None where none is sold."""
    long_mm = number_of(length_mm)
    lengths: tuple[StockLength, ...] = article.lengths
    if long_mm is not None and isfinite(long_mm):
        for each in lengths:
            if exact(each.length_mm) == exact(long_mm):
                return each
    sold = sorted(each.length_mm for each in lengths)
    wanted = f"a length of {article.code} on sale, in mm: {', '.join(f'{mm:.10g}' for mm in sold)}"
    near = "" if long_mm is None else f"{min(sold, key=lambda mm: abs(mm - long_mm)):.10g}"
    wrong.append(evolve(unfit(length_mm, wanted, near), path="length_mm"))
    return None


def read_prices(
    least: object, most: object, digits: int, wrong: list[Fault]
) -> tuple[Decimal, Decimal]:
    """Return a range of prices, to the coin; what is wrong with it goes on the list."""
    key = money("price", 10.0**-digits, MOST_PRICE, digits=digits)
    read = {name: read_money(key, value) for name, value in (("least", least), ("most", most))}
    faults = [
        evolve(each, path=name, nearest=each.nearest.replace("price = ", f"{name} = "))
        for name, each in read.items()
        if isinstance(each, Fault)
    ]
    wrong += faults
    if faults:
        return Decimal(0), Decimal(0)
    low, high = read["least"], read["most"]
    assert isinstance(low, Decimal)
    assert isinstance(high, Decimal)
    if low > high:
        wrong.append(Fault(path="least", found=f"{low:f}", wanted=f"no more than most, {high:f}"))
    return low, high


def read_keep(keep: object, sold: int, wrong: list[Fault]) -> int:
    """Return how many lengths are kept at most: all that are sold where nobody says."""
    if keep is None:
        return sold
    if not _is_count(keep):
        wanted = "how many lengths are kept at most, 1 or more"
        wrong.append(evolve(unfit(keep, wanted), path="keep"))
        return sold
    return min(keep, sold)


def read_looks(looks: object, wrong: list[Fault]) -> int:
    """Return how many choices are looked at for each number of lengths at most."""
    if _is_count(looks):
        return looks
    wrong.append(evolve(unfit(looks, "how many choices to look at, 1 or more"), path="looks"))
    return 1


def no_faults(wrong: list[Fault]) -> None:
    """Go on only where nothing is wrong.

    Raises:
        InputError: Something is; lists all of it.
    """
    if wrong:
        raise InputError(tuple(wrong))
