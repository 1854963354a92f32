"""The nouns of a study file: what is planned, what is asked of its rows, what came of it."""

from attrs import frozen

from drylay.brief.model import Brief
from drylay.compare.cases import Cases
from drylay.compare.merchant_model import HoldingPrices, LengthsToKeep, PriceBreaks
from drylay.compare.study_model import ParetoSet, RowsSeen, SideBySide, SizeCosts, Uncertainty
from drylay.compare.years import Money
from drylay.counting import counted
from drylay.materials.stock_model import Catalogue

Answer = (
    ParetoSet | SideBySide | SizeCosts | Uncertainty | LengthsToKeep | PriceBreaks | HoldingPrices
)


@frozen(kw_only=True)
class Question:
    """What is asked of the rows of a study: one of `WHATS`, under a name of its own.

    `aims` is of a Pareto set, `by` and `of` of groups, `size`, `cost` and `by` of sizes. `where`
    are the columns that a row must have with these values to be looked at.
    """

    what: str
    name: str
    aims: tuple[tuple[str, str], ...] = ()
    by: str = ""
    of: tuple[str, ...] = ()
    size: str = ""
    cost: str = "total"
    where: tuple[tuple[str, object], ...] = ()


@frozen(kw_only=True)
class DecksQuestion:
    """What is asked about decks themselves, which plans them anew: one of `VERBS`, under a name.

    `named` is what the call takes by name. `decks` are those asked about, by name, and how many of
    each; `where` are the columns, with their values, by which they were chosen from the cases.
    """

    what: str
    name: str
    where: tuple[tuple[str, object], ...] = ()
    named: tuple[tuple[str, object], ...] = ()
    decks: tuple[tuple[str, Brief, int], ...] = ()


@frozen(kw_only=True)
class Study:
    """A study as its file tells it, ready to be run."""

    title: str
    cases: Cases
    stock: Catalogue
    mode: str = "proven"
    rate_ratio: float = 0.0
    hour_price: Money | None = None
    questions: tuple[Question | DecksQuestion, ...] = ()


@frozen(kw_only=True)
class StudyTold:
    """What came of a study: how many cases of each outcome, the codes met most, the answers.

    `seen` tells how far the orders of its decks may be from the cheapest, in `currency`.
    """

    title: str
    count: int
    outcomes: tuple[tuple[str, int], ...]
    codes: tuple[tuple[str, int], ...]
    answers: tuple[tuple[str, Answer], ...]
    currency: str = ""
    seen: RowsSeen = RowsSeen()

    @counted
    def __str__(self) -> str:
        """Return it as text."""
        from drylay.compare.study_text import told_text

        return told_text(self)
