"""The nouns of studies: many decks planned, and what is asked of their rows.

A row is a flat dict with units in its names: what was put into the brief by its path
("cover.across_mm"), what came of it (`outcome`), and the figures of `plan.measures()`. Money is
Decimal; what is not known is None.
"""

from decimal import Decimal

from attrs import field, frozen

from drylay.brief.model import Brief
from drylay.counting import counted

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

    brief: Brief = field(repr=lambda brief: repr(getattr(brief, "title", brief)))
    changes: tuple[tuple[str, object], ...] = ()
    named: tuple[tuple[str, str], ...] = ()


@frozen(kw_only=True)
class RowsSeen:
    """What is to be known of rows whatever is asked of them.

    `buildable` of them can be built; of `gaps` of these the order, joints reckoned in, may be
    dearer than the cheapest, by `most_gap` at most. `stop_codes` counts the others by each code
    that stops them.
    """

    buildable: int = 0
    gaps: int = 0
    most_gap: Decimal = Decimal(0)
    stop_codes: tuple[tuple[str, int], ...] = ()


@frozen(kw_only=True)
class ParetoSet:
    """The rows that no other row beats in one measure without being worse in another.

    `aims` are the measures with "least" or "most". `rows` stand in order of the first aim, equal
    ones all of them; `among` counts the rows looked at, `without` those left out because they have
    no figure of some aim or cannot be built. `beaten` are the others, in the same order, for the
    picture.
    """

    aims: tuple[tuple[str, str], ...]
    rows: tuple[Row, ...]
    beaten: tuple[Row, ...]
    among: int
    without: int
    currency: str = ""
    seen: RowsSeen = RowsSeen()

    @counted
    def measures(self) -> tuple[Row, ...]:
        """Return the set as flat rows, for tables; the names are the same in each."""
        from drylay.compare.pareto_told import rows_of

        return rows_of(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return the set by file name: as text, as CSV and as a picture."""
        from drylay.compare.pareto_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("pareto", str(self), self.measures(), svg_of(self))

    @counted
    def __str__(self) -> str:
        """Return the set as text."""
        from drylay.compare.pareto_told import text_of

        return text_of(self)

    @counted
    def _repr_svg_(self) -> str:
        from drylay.compare.pareto_chart import svg_of

        return svg_of(self).decode()


@frozen(kw_only=True)
class Spread:
    """One figure of a group: how many decks that can be built have it, its least, middle and most.

    Of two middle figures the median is the higher, of years the lower: not in the builder's
    favour.
    """

    figure: str
    count: int
    least: object
    median: object
    most: object


@frozen(kw_only=True)
class Group:
    """The rows that are alike in one column: how many, how many can be built, their spreads.

    `stop_codes` counts the rows that cannot be built by each code that stops them, by the outcome
    where they have no code.
    """

    name: str
    count: int
    buildable: int
    spreads: tuple[Spread, ...]
    stop_codes: tuple[tuple[str, int], ...] = ()


@frozen(kw_only=True)
class SideBySide:
    """Rows in groups beside one another, in the order in which the groups first stand."""

    by: str
    groups: tuple[Group, ...]
    currency: str
    seen: RowsSeen = RowsSeen()

    @counted
    def measures(self) -> tuple[Row, ...]:
        """Return the groups as flat rows, for tables; the names are the same in each."""
        from drylay.compare.side_by_side_told import rows_of

        return rows_of(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return the groups by file name: as text, as CSV and as a picture."""
        from drylay.compare.side_by_side_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("side-by-side", str(self), self.measures(), svg_of(self))

    @counted
    def __str__(self) -> str:
        """Return the groups as text."""
        from drylay.compare.side_by_side_told import text_of

        return text_of(self)

    @counted
    def _repr_svg_(self) -> str:
        from drylay.compare.side_by_side_chart import svg_of

        return svg_of(self).decode()


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
    """What a size costs, line by line (one for each value of `by`), with every step of it.

    `without` counts the rows that tell no size; `units` are those of all the others.
    """

    size: str
    cost: str
    by: str
    currency: str
    lines: tuple[SizeLine, ...]
    steps: tuple[SizeStep, ...]
    without: int = 0
    seen: RowsSeen = RowsSeen()
    units: str = "metric"

    @counted
    def measures(self) -> tuple[Row, ...]:
        """Return costs and steps as flat rows, for tables; the names are the same in each."""
        from drylay.compare.size_costs_told import rows_of

        return rows_of(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return costs and steps by file name: as text, as CSV and as a picture."""
        from drylay.compare.size_costs_chart import svg_of
        from drylay.compare.study_papers import answer_papers

        return answer_papers("size-costs", str(self), self.measures(), svg_of(self))

    @counted
    def __str__(self) -> str:
        """Return costs and steps as text."""
        from drylay.compare.size_costs_told import text_of

        return text_of(self)

    @counted
    def _repr_svg_(self) -> str:
        from drylay.compare.size_costs_chart import svg_of

        return svg_of(self).decode()


@frozen(kw_only=True)
class Assumed:
    """How far something is not certain: from least to most, all alike or likeliest at `likely`.

    `path` is one of the brief or of the stock, or "life.boards", "life.frame" in years. `told_by`
    is "caller", or "family" for lives that the merchant's record or the family tells.
    """

    path: str
    least: float
    likely: float | None
    most: float
    told_by: str = "caller"


@frozen(kw_only=True)
class Quantile:
    """The least figure seen that at least the share `ratio` of samples with one does not pass."""

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
    samples that came to no plan: they are in no quantile. `assumed` is what was drawn from.
    """

    title: str
    currency: str
    samples: int
    seed: int
    blocked: int
    figures: tuple[Sampled, ...]
    rows: tuple[Row, ...]
    assumed: tuple[Assumed, ...] = ()

    @counted
    def measures(self) -> tuple[Row, ...]:
        """Return the quantiles as flat rows, for tables; the names are the same in each."""
        from drylay.compare.uncertainty_told import rows_of

        return rows_of(self)

    @counted
    def papers(self) -> dict[str, bytes]:
        """Return the quantiles by file name: as text, as CSV and as a picture."""
        from drylay.compare.study_papers import answer_papers
        from drylay.compare.uncertainty_chart import svg_of

        return answer_papers("uncertainty", str(self), self.measures(), svg_of(self))

    @counted
    def __str__(self) -> str:
        """Return the quantiles as text."""
        from drylay.compare.uncertainty_told import text_of

        return text_of(self)

    @counted
    def _repr_svg_(self) -> str:
        from drylay.compare.uncertainty_chart import svg_of

        return svg_of(self).decode()
