"""The nouns of studies: many decks planned, and what is asked of their rows.

A row is a flat dict with units in its names: what was put into the brief by its path
("cover.across_mm"), what came of it (`outcome`), and the figures of `plan.measures()`. Money is
Decimal; what is not known is None.
"""

from decimal import Decimal

from attrs import frozen

from drylay.brief.model import Brief

Row = dict[str, object]

#: What became of a case. "failed" is a fault of the planner or of a plugin, "lost" a case whose
#: worker went away each time it was tried alone.
OUTCOMES = ("planned", "blocked", "refused", "failed", "lost")


@frozen(kw_only=True)
class Case:
    """One deck of a study: a brief, and what is put in place of what stands there.

    `changes` are paths of the brief with what they become, None where a wish is left out; a path
    that begins with "stock." changes the merchant's stock, docs/studies.md. `named` are words for
    the row, such as the name of an alternative.
    """

    brief: Brief
    changes: tuple[tuple[str, object], ...] = ()
    named: tuple[tuple[str, str], ...] = ()


@frozen(kw_only=True)
class ParetoSet:
    """The rows that no other row beats in one measure without being worse in another.

    `aims` are the measures with "least" or "most". `rows` stand in order of the first aim, equal
    ones all of them; `among` counts the rows looked at, `without` those left out because they have
    no figure of some aim. `beaten` are the others, for the picture.
    """

    aims: tuple[tuple[str, str], ...]
    rows: tuple[Row, ...]
    beaten: tuple[Row, ...]
    among: int
    without: int


@frozen(kw_only=True)
class Spread:
    """One figure of a group: how many rows have it, its least, middle and most."""

    figure: str
    count: int
    least: object
    median: object
    most: object


@frozen(kw_only=True)
class Group:
    """The rows that are alike in one column: how many, how many can be built, their spreads."""

    name: str
    count: int
    buildable: int
    spreads: tuple[Spread, ...]


@frozen(kw_only=True)
class SideBySide:
    """Rows in groups beside one another, in the order in which the groups first stand."""

    by: str
    groups: tuple[Group, ...]
    currency: str


@frozen(kw_only=True)
class SizeStep:
    """Where the cost of a line of rows changes: from the row before to the row after.

    `change` is what the later costs more, below 0 where it is cheaper. Nothing is said of sizes
    between the two: no row tells of them.
    """

    line: str
    from_mm: float
    to_mm: float
    before: Decimal
    after: Decimal
    change: Decimal


@frozen(kw_only=True)
class SizeLine:
    """One line of rows: sizes in rising order with what each costs, None where it has no cost."""

    name: str
    sizes_mm: tuple[float, ...]
    costs: tuple[Decimal | None, ...]


@frozen(kw_only=True)
class SizeCosts:
    """What a size costs, line by line (one for each value of `by`), with every step of it."""

    size: str
    cost: str
    by: str
    currency: str
    lines: tuple[SizeLine, ...]
    steps: tuple[SizeStep, ...]


@frozen(kw_only=True)
class Quantile:
    """A figure of which at least the share `ratio` of all samples is no more."""

    ratio: float
    value: object


@frozen(kw_only=True)
class Sampled:
    """One figure over all samples that have it: how many, and its quantiles in rising order."""

    figure: str
    count: int
    quantiles: tuple[Quantile, ...]


@frozen(kw_only=True)
class Uncertainty:
    """What a brief comes to where its prices, widths and lives are not known for certain.

    `rows` hold each sample as drawn and planned; `figures` those asked for. `blocked` counts the
    samples that came to no plan: they are in no quantile.
    """

    title: str
    currency: str
    samples: int
    seed: int
    blocked: int
    figures: tuple[Sampled, ...]
    rows: tuple[Row, ...]


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
