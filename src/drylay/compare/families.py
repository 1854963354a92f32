"""One brief in several families of boards: each planned, and told over the years."""

from collections.abc import Mapping

from attrs import frozen

from drylay.brief.model import Brief
from drylay.compare.alternatives import (
    Source,
    brief_of,
    faults_in,
    open_alternatives,
    read_alternatives,
)
from drylay.compare.asked import ask_years
from drylay.compare.decks import YearTerms, compared_deck
from drylay.compare.model import Comparison
from drylay.compare.years import Money, read_hour_price, read_rate_ratio
from drylay.counting import counted
from drylay.errors import BriefError, Fault, InputError
from drylay.intake.document import Document
from drylay.materials.stock_model import Catalogue
from drylay.planner.design import design
from drylay.planner.job import Articles, CancelToken, Progress, find_articles
from drylay.plugins.loading import installed_families, installed_local_rules
from drylay.plugins.model import FamilySet, LocalRuleSet


@frozen(kw_only=True)
class _Trial:
    name: str
    brief: Brief
    stock: Catalogue
    articles: Articles


@counted
def across_families(
    brief: Brief,
    alternatives: Source,
    *,
    stock: Catalogue | Mapping[str, Catalogue],
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    rate_ratio: float = 0.0,
    hour_price: Money | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> Comparison:
    """Return one brief planned in several families, each with its cost per year of service.

    A plan that is blocked is an alternative like any other, with its stops.

    Args:
        brief: What is wanted, whatever it is made of.
        alternatives: A TOML file's path, or a mapping: a table for each alternative, with paths of
            the brief and what they become, and `without`, a list of wishes left out.
        stock: The merchant's stock, or one for each alternative by its name.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What each plan is held against besides; by default those of the installed
            plugins.
        rate_ratio: Interest a year, 0.04 for 4 %.
        hour_price: What an hour of upkeep is worth; without it hours are told and not priced.
        progress: Called as `progress(step, done, total)`, one for each alternative.
        cancel: Asked `is_set()` between steps and while cutting.

    Raises:
        InputError: Something handed in cannot be used; lists every fault of every alternative.
        Cancelled: The cancel token was set.
        PlannerFault: The audit stopped a plan the planner thought sound.
    """
    families = installed_families() if families is None else families
    local_rules = installed_local_rules() if local_rules is None else local_rules
    wrong: list[Fault] = []
    rate, price = read_rate_ratio(rate_ratio, wrong), read_hour_price(hour_price, wrong)
    document = open_alternatives(alternatives, wrong)
    trials = _trials(document, brief, stock, wrong) if document else []
    if wrong:
        raise InputError(tuple(wrong))
    decks = []
    for done, trial in enumerate(trials):
        told = _counted(progress, trial.name, done, len(trials))
        plan = design(
            trial.brief,
            stock=trial.stock,
            families=families,
            local_rules=local_rules,
            progress=told,
            cancel=cancel,
        )
        terms = YearTerms(rate_ratio=rate, hour_price=price, digits=trial.stock.minor_digits)
        years = ask_years(trial.brief, trial.articles, families)
        decks.append(compared_deck(trial.name, trial.articles.board.family, plan, years, terms))
    if progress is not None:
        progress("done", len(trials), len(trials))
    return Comparison(
        title=brief.title,
        currency=trials[0].stock.currency,
        vat=trials[0].stock.vat,
        rate_ratio=rate,
        hour_price=price,
        decks=tuple(decks),
    )


def _counted(progress: Progress | None, name: str, done: int, total: int) -> Progress | None:
    """Return what one plan's progress is told to: steps named, alternatives counted."""
    if progress is None:
        return None
    return lambda step, _done, _total: progress(f"{name}: {step}", done, total)


def _trials(
    document: Document, brief: Brief, stock: Catalogue | Mapping[str, Catalogue], wrong: list[Fault]
) -> list[_Trial]:
    """Return what is to be planned; everything that keeps it from that goes on the list."""
    trials = []
    for alternative in read_alternatives(document, wrong):
        changed = brief_of(document, brief, alternative, wrong)
        shelf = stock if isinstance(stock, Catalogue) else stock.get(alternative.name)
        if shelf is None:
            wrong.append(_no_stock(alternative.name))
        if changed is None or shelf is None:
            continue
        try:
            articles = find_articles(changed, shelf)
        except BriefError as error:
            wrong += faults_in(document, alternative.name, error)
        else:
            trials.append(
                _Trial(name=alternative.name, brief=changed, stock=shelf, articles=articles)
            )
    wrong += _unlike_money(trials)
    return trials


def _no_stock(name: str) -> Fault:
    return Fault(path=f"stock.{name}", found="nothing", wanted="a catalogue for this alternative")


def _unlike_money(trials: list[_Trial]) -> list[Fault]:
    """Return the faults of stocks whose prices cannot be held beside one another."""
    return [
        Fault(
            path=f"stock.{trial.name}.{name}",
            found=f"{getattr(trial.stock, name)}",
            wanted=f"{getattr(trials[0].stock, name)}, as in the stock of {trials[0].name}",
        )
        for trial in trials
        for name in ("currency", "vat", "minor_digits")
        if getattr(trial.stock, name) != getattr(trials[0].stock, name)
    ]
