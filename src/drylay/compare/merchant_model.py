"""The nouns of what merchants ask of many decks: lengths to keep, price breaks, price lists."""

from decimal import Decimal

from attrs import frozen

from drylay.compare.study_model import Row
from drylay.counting import counted
from drylay.cutting.model import Proof


@frozen(kw_only=True)
class KeptLengths:
    """The lengths to keep where at most `count` may be kept, with what the whole mix then costs.

    `cost` is one order over all decks, `joint_cost` reckoned in, `bound` what no such order can
    cost less than, by its `proof`; `apart` is each deck bought by itself, None where a limited
    stock does not reach for that. `best_bound` is what no choice of at most as many lengths can
    cost less than, so that `cost` - `best_bound` is the gap of the choice. `otherwise` names the
    decks that would be built otherwise if these lengths alone were planned with.
    """

    count: int
    lengths_mm: tuple[float, ...]
    cost: Decimal
    joint_cost: Decimal
    bound: Decimal
    apart: Decimal | None
    best_bound: Decimal
    bought: tuple[tuple[float, int], ...]
    otherwise: tuple[str, ...] = ()
    proof: Proof


@frozen(kw_only=True)
class LengthsToKeep:
    """Which lengths of an article to stock for a mix of decks: one choice for each number kept.

    `decks` are those reckoned with, and how many of each; `cannot` names the others, with the
    reason. `joint_price` is what a joint is reckoned at, whatever is kept. There is no choice for
    a number of lengths that some deck cannot be cut from. `looked` counts the choices that were
    looked at; `exact` says that no choice was left out for want of work. `units` are those that all
    decks are told in, "metric" where they are unlike.
    """

    article: str
    currency: str
    decks: tuple[tuple[str, int], ...]
    on_sale_mm: tuple[float, ...]
    choices: tuple[KeptLengths, ...]
    cannot: tuple[tuple[str, str], ...]
    joint_price: Decimal
    looked: int
    exact: bool
    units: str = "metric"

    @counted
    def measures(self) -> tuple[Row, ...]:
        """Return the choices as flat rows, for tables; the names are the same in each."""
        from drylay.compare.lengths_kept_told import rows_of

        return rows_of(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return the choices by file name: as text, as CSV and as a picture."""
        from drylay.compare.lengths_kept_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("lengths-kept", str(self), self.measures(), svg_of(self))

    @counted
    def __str__(self) -> str:
        """Return the choices as text."""
        from drylay.compare.lengths_kept_told import text_of

        return text_of(self)

    @counted
    def _repr_svg_(self) -> str:
        from drylay.compare.lengths_kept_chart import svg_of

        return svg_of(self).decode()


@frozen(kw_only=True)
class PriceSpan:
    """Prices of one length between which the same order is bought.

    `first` and `last` are prices tried, both of them with this order; `name` is the brief it is
    for, `bought` how many of the article's lengths, spares with them. `total_first` and
    `total_last` are the whole order, spares with it, at `first` and at `last`; `gap` is what a
    cheaper one of the same deck could save at most of what is sawn, at the worse of both: spares
    are bought after, so that the whole order may jump at a break.
    """

    name: str
    first: Decimal
    last: Decimal
    bought: tuple[tuple[float, int], ...]
    total_first: Decimal
    total_last: Decimal
    gap: Decimal


@frozen(kw_only=True)
class PriceBreaks:
    """At which prices of an article's length another order, or another deck, becomes cheapest.

    `here` is the price in the stock. Spans stand in rising order of price, one coin apart, none
    where no brief has a plan. `tried` counts the plans made. `cannot` names briefs without a plan,
    with the reason; `remarks` what else is to be known of a brief: what is held, and where another
    order could lie hidden within a span, and why. `units` are those that all decks are told in.
    """

    article: str
    length_mm: float
    currency: str
    here: Decimal
    spans: tuple[PriceSpan, ...]
    tried: int
    cannot: tuple[tuple[str, str], ...] = ()
    remarks: tuple[tuple[str, str], ...] = ()
    units: str = "metric"

    @counted
    def measures(self) -> tuple[Row, ...]:
        """Return the spans as flat rows, for tables; the names are the same in each."""
        from drylay.compare.price_breaks_told import rows_of

        return rows_of(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return the spans by file name: as text, as CSV and as a picture."""
        from drylay.compare.price_breaks_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("price-breaks", str(self), self.measures(), svg_of(self))

    @counted
    def __str__(self) -> str:
        """Return the spans as text."""
        from drylay.compare.price_breaks_told import text_of

        return text_of(self)

    @counted
    def _repr_svg_(self) -> str:
        from drylay.compare.price_breaks_chart import svg_of

        return svg_of(self).decode()


@frozen(kw_only=True)
class HoldingPrice:
    """One deck of a price list: what it costs, and what it costs if the worst length sells out.

    `holds` is the price that is enough whichever one length is gone, None where it cannot be built
    without some length; `loses` are those lengths, each with its article. `dearest` is the price
    that is enough while it can be built, and `worst` the length whose loss makes it so, None where
    none makes it dearer. `tried` counts the lengths that were taken away.
    """

    name: str
    total: Decimal
    holds: Decimal | None
    dearest: Decimal
    worst: tuple[str, float] | None
    loses: tuple[tuple[str, float], ...]
    tried: int


@frozen(kw_only=True)
class HoldingPrices:
    """A price list that stays good if any one length sells out.

    `articles` are those whose lengths were taken away; `refused` names decks that cannot be built
    with every length on sale, with the reason. `units` are those that all decks are told in.
    """

    currency: str
    articles: tuple[str, ...]
    prices: tuple[HoldingPrice, ...]
    refused: tuple[tuple[str, str], ...]
    units: str = "metric"

    @counted
    def measures(self) -> tuple[Row, ...]:
        """Return the prices as flat rows, for tables; the names are the same in each."""
        from drylay.compare.holding_told import rows_of

        return rows_of(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return the prices by file name: as text, as CSV and as a picture."""
        from drylay.compare.holding_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("holding", str(self), self.measures(), svg_of(self))

    @counted
    def __str__(self) -> str:
        """Return the prices as text."""
        from drylay.compare.holding_told import text_of

        return text_of(self)

    @counted
    def _repr_svg_(self) -> str:
        from drylay.compare.holding_chart import svg_of

        return svg_of(self).decode()
