"""What a brief may come to where prices, widths and lives are not certain: seeded sampling."""

import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from attrs import evolve

from drylay.brief.codec import brief_replace
from drylay.brief.model import Brief
from drylay.compare.asked import ask_years
from drylay.compare.compared import ExecutorLike, compare
from drylay.compare.decks import YearTerms
from drylay.compare.model import Lives
from drylay.compare.quantiles import sampled
from drylay.compare.sampled_lives import with_lives
from drylay.compare.sampling import MOST_SAMPLES, latin_hypercube, scipy_faults, seed_faults
from drylay.compare.spreads import LIVES, drawn, read_spreads
from drylay.compare.study_model import Assumed, Case, Row, Sampled, Uncertainty
from drylay.compare.study_row import NO_FIGURES, own_columns
from drylay.compare.years import Money, read_hour_price, read_rate_ratio
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.keys import count, number
from drylay.intake.shown import shown
from drylay.intake.values import read_count, read_number
from drylay.intake.words import nearest_of
from drylay.materials.stock_model import Catalogue
from drylay.planner.job import CancelToken, Progress, find_articles
from drylay.plugins.loading import installed_families
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

#: What is asked of the samples unless told: the first cost, and a year's cost at either end.
OF = ("total", "yearly_least", "yearly_most")
RATIOS = (0.05, 0.25, 0.5, 0.75, 0.95)
PLANNED = "planned"
Spread = tuple[float, float] | tuple[float, float, float] | None
Planned = Callable[[Iterable[Case]], Iterator[Row]]


@counted
def uncertainty(
    brief: Brief,
    *,
    stock: Catalogue,
    spreads: Mapping[str, Spread],
    samples: int = 200,
    seed: int = 1,
    of: Sequence[str] = OF,
    ratios: Sequence[float] = RATIOS,
    mode: str = "quick",
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    executor: ExecutorLike | None = None,
    workers: int | None = None,
    journal: str | os.PathLike[str] | None = None,
    rate_ratio: float = 0.0,
    hour_price: Money | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
    most_s: float | None = None,
) -> Uncertainty:
    """Return what a brief comes to in `samples` draws of what is not certain, as quantiles.

    Each spread is drawn from by itself, by a Latin hypercube. What was drawn alike is planned once;
    lives change no plan, only what it costs a year.

    Args:
        brief: What is certain.
        stock: The merchant's stock.
        spreads: For each path (least, most), all between them alike likely, or (least, likely,
            most), a triangle: "stock.price_ratio.CODE", all prices of an article times a ratio;
            "stock.price_ratio", those of all articles; any length in mm or number of the brief,
            such as "board.measured_width_mm"; "life.boards" and "life.frame" in years, or None for
            the range that the family tells.
        samples: How many draws, 2 to 100,000.
        seed: What the draws begin with; the same seed draws the same samples.
        of: Of which figures of a row the quantiles are told.
        ratios: Which quantiles, as shares from 0, the least seen, to 1, the most.
        mode: "quick", in which purchases may be dearer by no more than their row's gap, or
            "proven", as `design` plans.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What each plan is held against besides; by default those of the installed
            plugins.
        bases: Among which the design basis is looked for that a brief names.
        executor: As `compare` takes it.
        workers: As `compare` takes it.
        journal: As `compare` takes it: samples that it holds are not planned again.
        rate_ratio: Interest a year, 0.04 for 4 %.
        hour_price: What an hour of upkeep is worth; without it hours are told and not priced.
        progress: Called as `progress("planned", done, total)`; `total` counts different plans.
        cancel: Asked `is_set()` between plans and while cutting.
        most_s: As `compare` takes it: a time limit against what loops for ever.

    Raises:
        InputError: Something handed in cannot be used, or scipy is not installed (the extra
            `studies`); lists every fault.
        Cancelled: The cancel token was set.

    Source: `drylay.compare.sampling.LATIN`, `drylay.compare.quantiles.QUANTILE`; that the spreads
    hang on nothing, and not on one another: assumption, the caller's.
    """
    planned = partial(
        compare, stock=stock, families=families, local_rules=local_rules, bases=bases, mode=mode,
        executor=executor, workers=workers, journal=journal, rate_ratio=rate_ratio,
        hour_price=hour_price, progress=progress, cancel=cancel, most_s=most_s,
    )  # fmt: skip
    wrong = [*_number_faults(samples, seed), *scipy_faults()]
    figures, shares = read_of(of, wrong), read_ratios(ratios, wrong)
    wrong += _refused(lambda: planned(()))
    assumed = _assumed(brief, stock, spreads, families, wrong)
    if wrong:
        raise InputError(tuple(wrong))
    terms = _year_terms(rate_ratio, hour_price, stock)
    draws = _draws(assumed, samples, seed, brief.units)
    rows = tuple(_rows(brief, draws, planned, terms))
    return Uncertainty(
        title=brief.title,
        currency=stock.currency,
        samples=samples,
        seed=seed,
        blocked=sum(row["outcome"] != PLANNED for row in rows),
        figures=tuple(_sampled(name, rows, shares) for name in figures),
        rows=rows,
        assumed=assumed,
    )


def _number_faults(samples: object, seed: object) -> Iterator[Fault]:
    read = read_count(count("samples", 2, MOST_SAMPLES), samples)
    if isinstance(read, Fault):
        yield evolve(read, path="samples")
    yield from seed_faults(seed)


def read_of(of: object, wrong: list[Fault]) -> tuple[str, ...]:
    """Return the figures asked for, each once; what is no name of one goes on the list."""
    if not isinstance(of, list | tuple) or not of:
        wrong.append(Fault(path="of", found=shown(of), wanted="a list of figures of a row"))
        return ()
    known = tuple(sorted(own_columns() - {"case"} - NO_FIGURES))
    for at, name in enumerate(of):
        if name not in known:
            near = nearest_of(name, known)
            wrong.append(Fault(path=f"of[{at}]", found=shown(name), wanted="a figure of a row",
                               nearest=near))  # fmt: skip
    return tuple(dict.fromkeys(str(name) for name in of))


def read_ratios(ratios: object, wrong: list[Fault]) -> tuple[float, ...]:
    """Return the shares asked for, each once and in rising order."""
    if not isinstance(ratios, list | tuple) or not ratios:
        wrong.append(Fault(path="ratios", found=shown(ratios), wanted="a list of shares, 0 to 1"))
        return ()
    read = [read_number(number("a_ratio", 0, 1), ratio) for ratio in ratios]
    wrong += [
        evolve(each, path=f"ratios[{at}]", nearest=each.nearest.removeprefix("a_ratio = "))
        for at, each in enumerate(read)
        if isinstance(each, Fault)
    ]
    return tuple(sorted({each for each in read if not isinstance(each, Fault)}))


def _assumed(
    brief: object, stock: object, spreads: object, families: FamilySet | None, wrong: list[Fault]
) -> tuple[Assumed, ...]:
    """Return what is not certain, once it is known what it is about."""
    if not isinstance(brief, Brief):
        wrong.append(Fault(path="brief", found=shown(brief), wanted="a brief, from read_brief()"))
    if not isinstance(brief, Brief) or not isinstance(stock, Catalogue):
        return ()
    try:
        lives = _family_lives(brief, stock, spreads, families)
    except InputError as error:
        wrong += error.faults
        lives = Lives()
    assumed = read_spreads(spreads, stock, lives, wrong)
    for each in assumed:
        wrong += _unheld(brief, each)
    return assumed


def _family_lives(
    brief: Brief, stock: Catalogue, spreads: object, families: FamilySet | None
) -> Lives:
    """Return the lives that record or family tell, where a spread is left to them.

    Raises:
        BriefError: The stock does not hold an article that the brief names.
    """
    articles = find_articles(brief, stock)
    held = spreads if isinstance(spreads, Mapping) else {}
    if all(held.get(path, 0) is not None for path in LIVES):
        return Lives()
    asked = installed_families() if families is None else families
    return ask_years(brief, articles, asked).lives


def _unheld(brief: Brief, assumed: Assumed) -> tuple[Fault, ...]:
    """Return why the brief can hold neither end of a spread; one end alone draws may tell of."""
    if assumed.path in LIVES or assumed.path.startswith("stock."):
        return ()
    faults = [
        _refused(partial(brief_replace, brief, assumed.path, end))
        for end in (assumed.least, assumed.most)
    ]
    return faults[0] if all(faults) else ()


def _refused(ask: Callable[[], object]) -> tuple[Fault, ...]:
    """Return the faults of what is asked, none where it can be had."""
    try:
        ask()
    except InputError as error:
        return error.faults
    return ()


def _year_terms(rate_ratio: float, hour_price: Money | None, stock: Catalogue) -> YearTerms:
    return YearTerms(
        rate_ratio=read_rate_ratio(rate_ratio, []),
        hour_price=read_hour_price(hour_price, []),
        digits=stock.minor_digits,
    )


def _draws(
    assumed: tuple[Assumed, ...], samples: int, seed: int, units: str
) -> list[dict[str, float | int]]:
    """Return the samples, each with what was drawn for every path."""
    return [
        {each.path: drawn(each, ratio, units) for each, ratio in zip(assumed, ratios, strict=True)}
        for ratios in latin_hypercube(samples, len(assumed), seed)
    ]


def _rows(
    brief: Brief, draws: Sequence[dict[str, float | int]], planned: Planned, terms: YearTerms
) -> Iterator[Row]:
    """Yield the row of each sample; samples that change the brief alike share one plan."""
    changes = [tuple((p, v) for p, v in draw.items() if p not in LIVES) for draw in draws]
    different = tuple(dict.fromkeys(changes))
    rows = planned([Case(brief=brief, changes=each) for each in different])
    told = dict(zip(different, rows, strict=True))
    for at, (draw, change) in enumerate(zip(draws, changes, strict=True)):
        yield with_lives({**told[change], "case": at}, draw, terms)


def _sampled(name: str, rows: Sequence[Row], ratios: Sequence[float]) -> Sampled:
    """Return the quantiles of a figure over the samples that were planned and have it."""
    held: list[Any] = [row[name] for row in rows if row["outcome"] == PLANNED]
    return sampled(name, [each for each in held if each is not None], ratios)
