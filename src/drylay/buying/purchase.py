"""A purchase: stock as the cutter sees it, and its answer as lengths with named pieces."""

from collections import deque
from collections.abc import Iterable
from decimal import Decimal

from drylay.buying.model import BoughtLength, Purchase
from drylay.cutting.model import CutPlan, Piece, Stock
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import StockLength


def minor(price: Decimal, minor_digits: int) -> int:
    """Return money in the currency's minor unit, exactly.

    Raises:
        ValueError: The price has more decimals than the currency.
    """
    scaled = price.scaleb(minor_digits)
    if scaled != scaled.to_integral_value():
        raise ValueError(f"{price} has more than {minor_digits} decimals")
    return int(scaled)


def money(minor_units: int, minor_digits: int) -> Decimal:
    """Return minor units as money, with all decimals of the currency."""
    return Decimal(minor_units).scaleb(-minor_digits)


def in_whole_packs(length: StockLength) -> int | None:
    """Return how many of a length can be had: only whole packs of what is left; None for any."""
    return None if length.limit is None else length.limit - length.limit % length.pack


def stock_of(
    lengths: Iterable[StockLength], *, end_trim_mm: float, minor_digits: int
) -> tuple[Stock, ...]:
    """Return what a merchant sells as the cutter's stock, in 1/320 mm and minor units."""
    return tuple(
        Stock(
            name=f"{length.length_mm:.10g}",
            length=exact(length.length_mm),
            price=minor(length.price, minor_digits),
            limit=in_whole_packs(length),
            trim=exact(end_trim_mm),
        )
        for length in lengths
    )


def pieces_of(named_mm: Iterable[tuple[str, float]]) -> tuple[Piece, ...]:
    """Return named pieces counted by length, longest first."""
    counts: dict[int, int] = {}
    for _, length_mm in named_mm:
        counts[exact(length_mm)] = counts.get(exact(length_mm), 0) + 1
    return tuple(Piece(length=length, count=counts[length]) for length in sorted(counts)[::-1])


def purchase(
    *,
    what: str,
    article: str,
    mark: str,
    plan: CutPlan,
    named_mm: Iterable[tuple[str, float]],
    minor_digits: int,
) -> Purchase:
    """Return the cutter's answer as a purchase: every length bought, its pieces by mark."""
    queues: dict[int, deque[str]] = {}
    for name, length_mm in named_mm:
        queues.setdefault(exact(length_mm), deque()).append(name)
    stock = {entry.name: entry for entry in plan.proof.task.stock}
    lengths: list[BoughtLength] = []
    for cut in plan.cuts:
        for _ in range(cut.boards):
            names = tuple(queues[length].popleft() for length in cut.pieces)
            lengths.append(
                BoughtLength(
                    mark=f"{mark}{len(lengths) + 1}",
                    length_mm=to_mm(stock[cut.stock].length),
                    price=money(stock[cut.stock].price, minor_digits),
                    pieces=names,
                    offcut_mm=to_mm(offcut(stock[cut.stock], cut.pieces, plan.proof.task.kerf)),
                )
            )
    joint_cost = plan.objective - plan.cost
    return Purchase(
        what=what,
        article=article,
        lengths=tuple(lengths),
        cost=money(plan.cost, minor_digits),
        joint_cost=money(joint_cost, minor_digits),
        objective=money(plan.objective, minor_digits),
        bound=money(plan.bound, minor_digits),
        gap=money(plan.gap, minor_digits),
        grade=plan.proof.certificate.grade,
        mode=plan.mode,
        proof=plan.proof,
    )


def offcut(stock: Stock, pieces: tuple[int, ...], kerf: int) -> int:
    """Return what is left over after every cut, never below 0."""
    left = stock.length - 2 * stock.trim - sum(pieces) - kerf * (len(pieces) - 1)
    return max(0, left - kerf)
