"""The nouns of what merchants ask of many decks: lengths to keep, price breaks, price lists."""

from decimal import Decimal

from attrs import frozen

from drylay.compare.study_model import Row


@frozen(kw_only=True)
class KeptLengths:
    """The lengths to keep where so many may be kept, with what the whole mix then costs.

    `cost` is one order over all decks, joints reckoned in, `bound` what no such order can cost
    less than; `apart` each deck bought by itself. `best_bound` is what no other choice of as many
    lengths can cost less than, so that `cost` - `best_bound` is the gap of the choice.
    """

    count: int
    lengths_mm: tuple[float, ...]
    cost: Decimal
    bound: Decimal
    apart: Decimal
    best_bound: Decimal
    bought: tuple[tuple[float, int], ...]


@frozen(kw_only=True)
class LengthsToKeep:
    """Which lengths of an article to stock for a mix of decks: one choice for each number kept."""

    article: str
    currency: str
    decks: tuple[tuple[str, int], ...]
    on_sale_mm: tuple[float, ...]
    choices: tuple[KeptLengths, ...]
    cannot: tuple[tuple[str, str], ...]

    def measures(self) -> tuple[Row, ...]:
        """Return the choices as flat rows, for tables; the names are the same in each."""
        from drylay.compare.lengths_kept_told import rows_of

        return rows_of(self)

    def papers(self) -> dict[str, bytes]:
        """Return the choices by file name: as text, as CSV and as a picture."""
        from drylay.compare.lengths_kept_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("lengths-kept", str(self), self.measures(), svg_of(self))

    def __str__(self) -> str:
        """Return the choices as text."""
        from drylay.compare.lengths_kept_told import text_of

        return text_of(self)

    def _repr_svg_(self) -> str:
        from drylay.compare.lengths_kept_chart import svg_of

        return svg_of(self).decode()


@frozen(kw_only=True)
class PriceSpan:
    """Prices of one length between which the same order is bought.

    `first` and `last` are prices tried, both of them with this order; `name` is the brief it is
    for, `bought` how many of the article's lengths, `total` the order at `first` and at `last`.
    """

    name: str
    first: Decimal
    last: Decimal
    bought: tuple[tuple[float, int], ...]
    total_first: Decimal
    total_last: Decimal


@frozen(kw_only=True)
class PriceBreaks:
    """At which prices of an article's length another order, or another deck, becomes cheapest.

    `here` is the price in the stock. Spans stand in rising order of price, one coin apart.
    `tried` counts the plans made.
    """

    article: str
    length_mm: float
    currency: str
    here: Decimal
    spans: tuple[PriceSpan, ...]
    tried: int

    def measures(self) -> tuple[Row, ...]:
        """Return the spans as flat rows, for tables; the names are the same in each."""
        from drylay.compare.price_breaks_told import rows_of

        return rows_of(self)

    def papers(self) -> dict[str, bytes]:
        """Return the spans by file name: as text, as CSV and as a picture."""
        from drylay.compare.price_breaks_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("price-breaks", str(self), self.measures(), svg_of(self))

    def __str__(self) -> str:
        """Return the spans as text."""
        from drylay.compare.price_breaks_told import text_of

        return text_of(self)

    def _repr_svg_(self) -> str:
        from drylay.compare.price_breaks_chart import svg_of

        return svg_of(self).decode()


@frozen(kw_only=True)
class HoldingPrice:
    """One deck of a price list: what it costs, and what it costs if the worst length sells out.

    `holds` is the price that is enough whichever one length is gone, None where some deck cannot
    be built then; `worst` names that length, `loses` the lengths without which there is no plan.
    """

    name: str
    total: Decimal
    holds: Decimal | None
    worst: tuple[str, float] | None
    loses: tuple[tuple[str, float], ...]


@frozen(kw_only=True)
class HoldingPrices:
    """A price list that stays good if any one length sells out."""

    currency: str
    articles: tuple[str, ...]
    prices: tuple[HoldingPrice, ...]
    refused: tuple[tuple[str, str], ...]

    def measures(self) -> tuple[Row, ...]:
        """Return the prices as flat rows, for tables; the names are the same in each."""
        from drylay.compare.holding_told import rows_of

        return rows_of(self)

    def papers(self) -> dict[str, bytes]:
        """Return the prices by file name: as text, as CSV and as a picture."""
        from drylay.compare.holding_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("holding", str(self), self.measures(), svg_of(self))

    def __str__(self) -> str:
        """Return the prices as text."""
        from drylay.compare.holding_told import text_of

        return text_of(self)

    def _repr_svg_(self) -> str:
        from drylay.compare.holding_chart import svg_of

        return svg_of(self).decode()
