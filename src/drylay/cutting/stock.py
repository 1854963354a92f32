"""Cutting for anyone: lengths in millimetres, prices as decimals, a proof with the answer."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from attrs import evolve

from drylay.cutting.engine import solve
from drylay.cutting.errors import CutTaskError, NoPlan, Shortfall
from drylay.cutting.model import Cut, CutPlan, Piece, SawnLength, Stock, StockCuts, Task, WorkLimits
from drylay.errors import Fault

PER_MM = 320  # lengths are counted in 1/320 mm: 0.1 mm and 1/64 in are both whole
MOST_MM = 1_000_000
#: Dearer prices, finer coins and more pieces than these are slips. Assumption.
MOST_PRICE, MOST_PLACES, MOST_PIECES = Decimal(10) ** 9, 4, 100_000
MODES = ("proven", "quick")

OnSale = tuple[int, Decimal, int | None]  # exact length, price, limit


def cut_stock(
    pieces: Mapping[float, int] | Iterable[float],
    lengths: Iterable[Any],
    *,
    kerf_mm: float,
    end_trim_mm: float = 0.0,
    mode: str = "proven",
    limits: WorkLimits | None = None,
) -> StockCuts:
    """Return the cheapest way found to saw pieces from stock lengths, and a proof of its bound.

    Args:
        pieces: how many of each length in mm, or the lengths themselves one by one.
        lengths: (length_mm, price) or (length_mm, price, limit) each, or anything with
            `length_mm`, `price` and `limit`. Prices are Decimal, int or text, never float.
        kerf_mm: what each cut takes.
        end_trim_mm: what is sawn off each end of a stock length first.
        mode: "proven", or "quick", which stops at a gap of a thousandth or after a few bound
            cuts; anything else is a fault.
        limits: how much work to do.

    Raises:
        CutTaskError: a ValueError that lists everything wrong with the arguments.
        NoPlan: a piece is longer than every length, or there is not enough stock.
    """
    faults: list[Fault] = []
    wanted = _wanted(pieces, faults)
    on_sale = sorted(_on_sale(lengths, faults), key=_rank)
    kerf = _exact(kerf_mm, "kerf_mm", faults, least=0)
    trim = _exact(end_trim_mm, "end_trim_mm", faults, least=0)
    if mode not in MODES:
        faults.append(_fault("mode", mode, f"one of {', '.join(MODES)}"))
    if faults:
        raise CutTaskError(tuple(faults))
    places = max((-_exponent(price) for _, price, _ in on_sale), default=0)
    task = Task(
        stock=tuple(_stock(entry, f"S{i}", trim, places) for i, entry in enumerate(on_sale, 1)),
        kerf=kerf,
        pieces=tuple(Piece(length=length, count=n) for length, n in sorted(wanted.items())),
    )
    try:
        return _told(solve(task, mode=mode, limits=limits), places)
    except NoPlan as none:
        raise NoPlan(tuple(map(_in_mm, none.shortfalls)), proven=none.proven) from None


def _in_mm(shortfall: Shortfall) -> Shortfall:
    """Return a shortfall that speaks of millimetres."""
    length, longest = shortfall.length, shortfall.longest
    return evolve(
        shortfall,
        length=None if length is None else length / PER_MM,
        longest=None if longest is None else longest / PER_MM,
        unit=" mm",
    )


def _stock(entry: OnSale, name: str, trim: int, places: int) -> Stock:
    length, price, limit = entry
    money = int(Fraction(price) * 10**places)  # a host's few digits would cut a Decimal off
    return Stock(name=name, length=length, price=money, limit=limit, trim=trim)


def _exponent(price: Decimal) -> int:
    exponent = price.as_tuple().exponent
    return min(0, exponent) if isinstance(exponent, int) else 0


def _told(plan: CutPlan, places: int) -> StockCuts:
    """Return a plan in millimetres and decimals."""
    stock = {s.name: s for s in plan.proof.task.stock}
    return StockCuts(
        lengths=tuple(_sawn(cut, stock[cut.stock], places) for cut in plan.cuts),
        cost=_money(plan.objective, places),
        bound=_money(plan.bound, places),
        gap=_money(plan.gap, places),
        grade=plan.proof.certificate.grade,
        proof=plan.proof,
    )


def _sawn(cut: Cut, stock: Stock, places: int) -> SawnLength:
    return SawnLength(
        length_mm=stock.length / PER_MM,
        price=_money(stock.price, places),
        pieces_mm=tuple(piece / PER_MM for piece in cut.pieces),
        boards=cut.boards,
    )


def _money(value: int, places: int) -> Decimal:
    return Decimal(f"{value}E-{places}")  # exactly, whatever digits a host has set


def _wanted(pieces: Mapping[float, int] | Iterable[float], faults: list[Fault]) -> dict[int, int]:
    """Return how many of each exact length are wanted."""
    listed = isinstance(pieces, Iterable) and not isinstance(pieces, str | bytes)
    if not listed:
        faults.append(_fault("pieces", pieces, "lengths in mm, or a mapping of length to count"))
        return {}
    counted = pieces.items() if isinstance(pieces, Mapping) else [(mm, 1) for mm in pieces]
    wanted: dict[int, int] = {}
    for i, (mm, count) in enumerate(counted):
        length = _exact(mm, f"pieces[{i}]", faults, least=1)
        if isinstance(count, bool) or not isinstance(count, int) or count < 0:
            faults.append(_fault(f"pieces[{i}]", count, "a whole count, 0 or more"))
            continue
        wanted[length] = wanted.get(length, 0) + count
    if sum(wanted.values()) > MOST_PIECES:
        faults.append(_fault("pieces", sum(wanted.values()), f"at most {MOST_PIECES} pieces"))
    return wanted


def _on_sale(lengths: Iterable[Any], faults: list[Fault]) -> list[OnSale]:
    """Return (exact length, price, limit) of each stock length."""
    found: list[OnSale] = []
    if not isinstance(lengths, Iterable) or isinstance(lengths, str | bytes):
        faults.append(_fault("lengths", lengths, "a list of (length_mm, price)"))
        return found
    for i, entry in enumerate(lengths):
        place = f"lengths[{i}]"
        try:
            mm, price, limit = _parts(entry)
        except (TypeError, ValueError, AttributeError):
            faults.append(_fault(place, entry, "(length_mm, price) or (length_mm, price, limit)"))
            continue
        if limit is not None and (isinstance(limit, bool) or not isinstance(limit, int)):
            faults.append(_fault(f"{place}.limit", limit, "a whole count, or None"))
        elif limit is not None and limit < 0:
            faults.append(_fault(f"{place}.limit", limit, "0 or more"))
        found.append((_exact(mm, place, faults, least=1), _price(price, place, faults), limit))
    return found


def _parts(entry: Any) -> tuple[Any, Any, Any]:
    if hasattr(entry, "length_mm"):
        return entry.length_mm, entry.price, getattr(entry, "limit", None)
    mm, price, *rest = entry
    (limit,) = rest or (None,)
    return mm, price, limit


def _price(price: Any, place: str, faults: list[Fault]) -> Decimal:
    wanted = (
        f"a price as Decimal, int or text, 0 to {MOST_PRICE}, of at most {MOST_PLACES} decimals"
    )
    if isinstance(price, (bool, float)) or not isinstance(price, (Decimal, int, str)):
        faults.append(_fault(f"{place}.price", price, wanted))
        return Decimal(0)
    try:
        value = Decimal(price)
    except (ArithmeticError, ValueError):  # ValueError: more digits than Python reads
        value = Decimal(-1)
    if not value.is_finite() or not 0 <= value <= MOST_PRICE or _exponent(value) < -MOST_PLACES:
        faults.append(_fault(f"{place}.price", price, wanted))
        return Decimal(0)
    return value


def _exact(mm: Any, place: str, faults: list[Fault], *, least: int) -> int:
    """Return a length in 1/320 mm, the nearest there is."""
    number = isinstance(mm, (int, float, Decimal)) and not isinstance(mm, bool)
    finite = number and (not isinstance(mm, Decimal) or mm.is_finite())
    if not finite or not 0 <= mm <= MOST_MM or (least and mm <= 0):
        above = "above 0" if least else "0 or more"
        faults.append(_fault(place, mm, f"a length in mm, {above}, at most {MOST_MM}"))
        return least
    return max(least, round(Fraction(str(mm)) * PER_MM))


def _fault(path: str, found: object, wanted: str) -> Fault:
    return Fault(path=path, found=_shown(found), wanted=wanted)


def _shown(found: object) -> str:
    """Return a value as it was handed over, cut short where it is endless."""
    try:
        text = repr(found)
    except Exception:  # a number of thousands of digits, or an object that cannot be shown
        return f"a value of type {type(found).__name__}"
    return text if len(text) <= 80 else f"{text[:60]}..."


def _rank(entry: OnSale) -> tuple[int, Decimal, int]:
    length, price, limit = entry
    return length, price, -1 if limit is None else limit
