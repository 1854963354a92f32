"""Answers about many decks made by hand, as no verb made them: of any size, with any name."""

from collections.abc import Callable
from decimal import Decimal
from itertools import pairwise
from random import Random
from typing import TypeVar

import attrs

from drylay.compare.merchant_model import (
    HoldingPrice,
    HoldingPrices,
    KeptLengths,
    LengthsToKeep,
    PriceBreaks,
    PriceSpan,
)
from drylay.compare.study_model import (
    Group,
    ParetoSet,
    Quantile,
    Row,
    Sampled,
    SideBySide,
    SizeCosts,
    SizeLine,
    SizeStep,
    Spread,
    Uncertainty,
)

HOSTILE = (
    "<script>alert('&\"]]>')</script>", "", "a\nb\tc\x00\x1b[31m", "\u202eright to left\u202c",
    "\u05e9\u05dc\u05d5\u05dd \u0634\u0631\u0641\u0629", "W" * 500, "word " * 60, "=1+1", "\ud800",
    "\u2028\ufffe", "oak",
)  # fmt: skip
MONEY = Decimal("0.01")
#: Money of a test: of one size, of none, negative, huge, alike to a part of a coin.
KINDS: dict[str, Callable[[Random], Decimal]] = {
    "plain": lambda chance: Decimal(chance.randint(40_000, 400_000)) * MONEY,
    "equal": lambda _: Decimal("99.00"),
    "zero": lambda _: Decimal(0),
    "negative": lambda chance: Decimal(chance.randint(-40_000, 9_000)) * MONEY,
    "huge": lambda chance: Decimal(chance.randint(1, 9)).scaleb(chance.randint(0, 30)),
    "near": lambda chance: Decimal(10) ** 12 + Decimal(chance.randint(0, 9)).scaleb(-9),
    "long": lambda chance: Decimal(chance.randint(-99_999_999_999, -99_999_999_990)) * MONEY,
    "tiny": lambda chance: Decimal(chance.randint(1, 999)).scaleb(-15),
}


#: What a field holds that a picture does not look at.
BLANKS: dict[object, object] = {int: 0, Decimal: Decimal(0), bool: True, str: ""}
N = TypeVar("N")


def noun(kind: type[N], **told: object) -> N:
    """A noun of these fields; what else it must have is blank, so that nouns may grow."""
    needed = (each for each in attrs.fields(kind) if each.default is attrs.NOTHING)
    return kind(**{each.name: BLANKS.get(each.type) for each in needed} | told)


class Made:
    """Answers with so many rows, all of one chance, one kind of money and one set of names."""

    def __init__(self, count: int, seed: int, kind: str, names: tuple[str, ...]) -> None:
        self.count, self.chance, self.names = count, Random(seed), names
        self.money = lambda: KINDS[kind](self.chance)

    def name(self, at: int) -> str:
        return self.names[at % len(self.names)]

    def rows(self) -> list[Row]:
        return [
            {"case": at, "cover.across_mm": 2400 + at, "board.article": self.name(at),
             "made_of": self.name(at + 1), "outcome": "planned", "currency": self.name(at),
             "total": self.money(), "yearly_most": self.money(),
             "cuts": self.chance.randint(0, 90), "upkeep_h": self.chance.random() * 9}
            for at in range(self.count)
        ]  # fmt: skip

    def pareto(self, *aims: tuple[str, str]) -> ParetoSet:
        """Any rows stand for the set: whether they beat each other is no matter of the picture."""
        rows = sorted(self.rows(), key=lambda row: row[aims[0][0]])
        split = self.chance.randint(0, len(rows))
        return ParetoSet(aims=aims, rows=tuple(rows[:split]), beaten=tuple(rows[split:]),
                         among=len(rows) + 1, without=1)  # fmt: skip

    def two(self) -> ParetoSet:
        return self.pareto(("total", "least"), ("yearly_most", "most"))

    def many(self) -> ParetoSet:
        return self.pareto(("upkeep_h", "most"), ("total", "least"), ("cuts", "least"))

    def alone(self) -> ParetoSet:
        return self.pareto(("total", "least"))

    def spread(self, figure: str) -> Spread:
        least, median, most = sorted(self.money() for _ in range(3))
        return Spread(figure=figure, count=self.chance.randint(0, 3), least=least, median=median,
                      most=most)  # fmt: skip

    def side_by_side(self) -> SideBySide:
        groups = tuple(
            Group(name=self.name(at), count=3, buildable=self.chance.randint(0, 3),
                  spreads=tuple(map(self.spread, ("total", "life_least_years")[at % 3:])))
            for at in range(self.count)
        )  # fmt: skip
        return SideBySide(by=self.name(0), groups=groups, currency=self.name(1))

    def size_costs(self) -> SizeCosts:
        lines = tuple(self._line(f"{self.name(at)}{at}", self.count // 3) for at in range(3))
        steps = tuple(
            SizeStep(line=line.name, from_mm=one, to_mm=other, before=before, after=after,
                     change=after - before)
            for line in lines
            for (one, before), (other, after) in pairwise(
                zip(line.sizes_mm, line.costs, strict=True)
            )
            if before is not None and after is not None
        )  # fmt: skip
        return SizeCosts(size="cover.across_mm", cost="total", by=self.name(1), lines=lines,
                         currency=self.name(2), steps=steps)  # fmt: skip

    def _line(self, name: str, count: int) -> SizeLine:
        costs = tuple(None if self.chance.random() < 0.4 else self.money() for _ in range(count))
        return SizeLine(name=name, sizes_mm=tuple(1800.0 + at for at in range(count)), costs=costs)

    def uncertainty(self) -> Uncertainty:
        rows = self.rows()
        figures = tuple(
            self._sampled(figure, rows) for figure in ("total", "cuts", "upkeep_h", "none_has_it")
        )
        return Uncertainty(title=self.name(0), currency=self.name(1), samples=self.count, seed=1,
                           blocked=2, rows=tuple(rows), figures=figures)  # fmt: skip

    def _sampled(self, figure: str, rows: list[Row]) -> Sampled:
        values = sorted(row[figure] for row in rows if figure in row)
        ratios = [0.05, 0.5, 0.95] if values else []
        quantiles = tuple(
            Quantile(ratio=ratio, value=values[int(ratio * len(values))]) for ratio in ratios
        )
        return Sampled(figure=figure, count=len(values), quantiles=quantiles)

    def lengths_kept(self) -> LengthsToKeep:
        sizes = tuple(1800.0 + 300 * at for at in range(self.count))
        costs = sorted((self.money() for _ in range(self.count)), reverse=True)
        choices = tuple(
            noun(KeptLengths, count=at + 1, lengths_mm=sizes[: at % 12 + 1], cost=cost, bound=cost,
                        apart=cost + 90, best_bound=cost - abs(self.money()) / 9, bought=())
            for at, cost in enumerate(costs)
        )  # fmt: skip
        pairs = tuple((self.name(at), self.name(at + 1)) for at in range(self.count % 11))
        return noun(LengthsToKeep, article=self.name(0), currency=self.name(1), on_sale_mm=sizes,
                             decks=tuple((name, 2) for name, _ in pairs), choices=choices,
                             cannot=pairs)  # fmt: skip

    def price_breaks(self) -> PriceBreaks:
        ends, totals = (sorted(self.money() for _ in range(2 * self.count)) for _ in range(2))
        spans = tuple(
            noun(PriceSpan, name=self.name(at), first=ends[2 * at], last=ends[2 * at + 1],
                      bought=((3600.0, at),) * (at % 12), total_first=totals[2 * at],
                      total_last=totals[2 * at + 1])
            for at in range(self.count)
        )  # fmt: skip
        told = tuple((self.name(at), self.name(at + 1)) for at in range(self.count % 5))
        return noun(PriceBreaks, article=self.name(0), length_mm=3600.0, currency=self.name(1),
                    here=self.money(), spans=spans, tried=self.count, remarks=told,
                    cannot=told)  # fmt: skip

    def holding(self) -> HoldingPrices:
        prices = tuple(self._price(at) for at in range(self.count))
        reasons = tuple((self.name(at), self.name(at + 1)) for at in range(self.count % 9))
        return noun(HoldingPrices, currency=self.name(0), articles=self.names, prices=prices,
                    refused=reasons)  # fmt: skip

    def _price(self, at: int) -> HoldingPrice:
        total, lost = self.money(), (self.name(at), 3600.0)
        holds = None if self.chance.random() < 0.3 else total + abs(self.money())
        return noun(HoldingPrice, name=self.name(at), total=total, holds=holds,
                    dearest=holds or total + abs(self.money()),
                    worst=lost if holds is not None and at % 2 else None,
                    loses=(lost,) * (at % 4) if holds is None else ())  # fmt: skip
