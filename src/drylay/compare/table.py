"""A comparison as text: figures down, alternatives across."""

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from math import ceil

from attrs import evolve

from drylay.compare.model import ComparedDeck, Comparison, YearlyCost
from drylay.findings import Finding, Severity
from drylay.papers.layout import COLUMNS, heading, para, points, table
from drylay.papers.wording import clean
from drylay.plan.measures import measures

#: Stands where nobody tells a figure, and where a blocked plan has none.
NOT_KNOWN, NOTHING = "not known", "-"
MOST_NAME = 20
#: What no figure of a year holds.
LEFT_OUT = (
    "Not in a year's cost: the work of building, lifting and renewing, what upkeep uses up, "
    "taking away what is worn out, delivery, tools, and prices that change."
)
LAID_AGAIN = (
    "Boards laid again: what a year would cost if boards with years left in them were lifted and "
    "laid on the new frame. The work of it, and what breaks, is not in it."
)

Cells = Callable[[ComparedDeck], str]


def comparison_text(comparison: Comparison) -> str:
    """Return the comparison as text of 78 columns."""
    lines = [*heading(clean(comparison.title, COLUMNS), "="), *para(money_told(comparison))]
    for decks in _blocks(comparison):
        lines += ["", *table(_cells(comparison, decks), "<" + ">" * len(decks))]
    remarks = list(dict.fromkeys(remarks_told(comparison)))
    if remarks:
        lines += [*heading("REMARKS"), *points(remarks)]
    reckoned = [*reckoned_told(comparison), LAID_AGAIN]
    lines += [*heading("HOW A YEAR IS RECKONED"), *points(reckoned)]
    return "\n".join(lines).strip("\n") + "\n"


def money_told(comparison: Comparison) -> str:
    """Return in what money all figures are."""
    return f"All money in {clean(comparison.currency, 8)}, VAT {clean(comparison.vat, 20)}."


def reckoned_told(comparison: Comparison) -> Iterator[str]:
    """Yield what a year's cost is, as sentences."""
    rate = f"{comparison.rate_ratio * 100:.10g} %"
    yield (
        f"A price C over a life of N years, at r = {rate} interest a year, comes to "
        "C r/(1-(1+r)^-N) a year, or C/N where r is 0."
    )
    yield (
        "Boards and frame are bought again for good, each at the end of its life. Boards do not "
        "outlive what carries them: a new frame gets new boards."
    )
    if comparison.hour_price is None:
        yield "Upkeep is told in hours, apart from the cost: no price of an hour was given."
    else:
        price = f"{comparison.hour_price:f} {clean(comparison.currency, 8)}"
        yield f"Upkeep is hours a year at {price} an hour."
    yield LEFT_OUT


def remarks_told(comparison: Comparison) -> Iterator[str]:
    """Yield what is to be told of each alternative, its stops first; what is alike as one."""
    for deck in comparison.decks:
        stops = [f for f in deck.plan.findings if f.severity is Severity.STOP]
        alike: dict[Finding, list[str]] = {}
        for finding in (*stops, *deck.remarks):
            alike.setdefault(evolve(finding, subject=""), []).append(finding.subject)
        for finding, subjects in alike.items():
            told = evolve(finding, subject=", ".join(dict.fromkeys(subjects)))
            yield f"{clean(deck.name, MOST_NAME)}: {clean(str(told), 400)}"


def _blocks(comparison: Comparison) -> Iterator[Sequence[ComparedDeck]]:
    """Yield the alternatives in as many tables as the page's width asks for."""
    decks, first = comparison.decks, 0
    while first < len(decks):
        last = first + 1
        while last < len(decks) and _width(comparison, decks[first : last + 1]) <= COLUMNS:
            last += 1
        yield decks[first:last]
        first = last


def _width(comparison: Comparison, decks: Sequence[ComparedDeck]) -> int:
    return max(map(len, table(_cells(comparison, decks), "<" + ">" * len(decks))))


def _cells(comparison: Comparison, decks: Sequence[ComparedDeck]) -> list[tuple[str, ...]]:
    return [(label, *(cell(deck) for deck in decks)) for label, cell in _rows(comparison)]


def _rows(comparison: Comparison) -> list[tuple[str, Cells]]:
    priced = comparison.hour_price is not None
    upkeep: list[tuple[str, Cells]] = [("upkeep, hours a year", _upkeep_hours)]
    if priced:
        upkeep.append(("upkeep a year", lambda d: _told(d, d.upkeep)))
    cost = "COST A YEAR" if priced else "COST A YEAR, less upkeep"
    return [
        ("", lambda d: clean(d.name, MOST_NAME)),
        ("family", lambda d: clean(", ".join(d.families), MOST_NAME)),
        ("can be built", lambda d: "yes" if d.plan.buildable else _stops(d)),
        ("first cost", lambda d: _told(d, _measure(d, "total"))),
        ("  most an order could save", lambda d: _told(d, _measure(d, "gap"))),
        ("  boards and their fixings", lambda d: _told(d, d.outlay and d.outlay.surface)),
        ("  frame and ground", lambda d: _told(d, d.outlay and d.outlay.frame)),
        ("mass, kg", lambda d: _told(d, None if d.mass_kg is None else ceil(d.mass_kg))),
        ("saw cuts", lambda d: _told(d, d.cuts)),
        ("sawn pieces", lambda d: _told(d, d.sawn_pieces)),
        ("joints", lambda d: _told(d, d.joints)),
        ("hours of work", _work_hours),
        *upkeep,
        ("life of boards, years", lambda d: _life(d, "surface")),
        ("life of frame, years", lambda d: _life(d, "frame")),
        (cost, lambda d: _range(d, "total")),
        ("  boards laid again", lambda d: _range(d, "laid_again")),
        *_case_rows("least lives", lambda d: d.short),
        *_case_rows("most lives", lambda d: d.long),
    ]


def _case_rows(
    name: str, case: Callable[[ComparedDeck], YearlyCost | None]
) -> list[tuple[str, Cells]]:
    def told(wanted: Callable[[YearlyCost], str]) -> Cells:
        return lambda deck: wanted(cost) if (cost := case(deck)) else _told(deck, None)

    return [
        (f"{name}: first to end", told(lambda cost: cost.governs)),
        ("  all renewed after, years", told(lambda cost: str(cost.renewed_after_years))),
        ("  boards bought till then", told(lambda cost: str(cost.surfaces_bought))),
    ]


def _measure(deck: ComparedDeck, name: str) -> object:
    return measures(deck.plan)[name]


def _stops(deck: ComparedDeck) -> str:
    """Return why a deck cannot be built, short: its remarks tell all of it."""
    codes = str(_measure(deck, "stop_codes")).split()
    return f"no: {codes[0]}" if len(codes) == 1 else f"no: {len(codes)} stops"


def _told(deck: ComparedDeck, figure: object) -> str:
    if figure is None:
        return NOT_KNOWN if deck.plan.buildable else NOTHING
    return f"{figure:f}" if isinstance(figure, Decimal) else str(figure)


def _work_hours(deck: ComparedDeck) -> str:
    work = deck.plan.work
    return _told(deck, None if work is None else f"{work.least_h:g} to {work.most_h:g}")


def _upkeep_hours(deck: ComparedDeck) -> str:
    """Return the hours of upkeep, rounded up to a tenth."""
    return _told(deck, None if deck.upkeep_h is None else f"{ceil(deck.upkeep_h * 10) / 10:.1f}")


def _life(deck: ComparedDeck, part: str) -> str:
    least = getattr(deck.lives, f"{part}_least_years")
    most = getattr(deck.lives, f"{part}_most_years")
    if least is None or most is None:
        return NOT_KNOWN  # a family tells its lives without any plan
    return f"{least} to {most}"


def _range(deck: ComparedDeck, field: str) -> str:
    """Return a year's money, least and most."""
    least, most = (getattr(case, field, None) for case in (deck.long, deck.short))
    if least is None or most is None:
        return _told(deck, None)
    return f"{least:f} to {most:f}"
