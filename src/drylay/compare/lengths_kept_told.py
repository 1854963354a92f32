"""Lengths to keep as they are told: flat rows for tables, and text for people."""

from collections.abc import Iterator
from textwrap import wrap

from drylay.compare.merchant_model import KeptLengths, LengthsToKeep
from drylay.compare.merchant_units import IMPERIAL, METRIC, bought_called, lengths_called
from drylay.compare.study_model import Row
from drylay.papers.layout import COLUMNS, GLUE, heading, para, points, table
from drylay.papers.wording import clean, many, money

#: Names of decks stand whole; a reason may be as long as all stops of a plan.
MOST_NAME, MOST_WHY = 60, 2000
#: Spaces between a table's columns.
BETWEEN = 2
#: What every choice holds fixed, and what no figure of it has in it.
HELD = (
    "Each deck is planned with every length on sale up to the longest kept. From a choice of "
    "lengths its joints are set anew; its rows, joists and joint lines over pairs are not.",
    "What is counted is the article as it is sawn, one order for all decks: no spares, and nothing "
    "that only fills whole packs.",
)


def rows_of(answer: LengthsToKeep) -> tuple[Row, ...]:
    """Return a row for each number of lengths kept. Money is Decimal."""
    return tuple(_row(answer, choice) for choice in answer.choices)


def _row(answer: LengthsToKeep, choice: KeptLengths) -> Row:
    return {
        "article": answer.article,
        "lengths_kept": choice.count,
        "lengths_mm": lengths_told(choice.lengths_mm),
        "bought": bought_called(choice.bought, METRIC),
        "currency": answer.currency,
        "cost": choice.cost,
        "joint_cost": choice.joint_cost,
        "bound": choice.bound,
        "gap": choice.cost - choice.bound,
        "choice_bound": choice.best_bound,
        "choice_gap": choice.cost - choice.best_bound,
        "apart": choice.apart,
        "spared": None if choice.apart is None else choice.apart - choice.cost,
        "otherwise": "; ".join(choice.otherwise),
    }


def lengths_told(lengths_mm: tuple[float, ...]) -> str:
    """Return lengths as a text: "2400, 3600"."""
    return ", ".join(f"{mm:.10g}" for mm in lengths_mm)


def text_of(answer: LengthsToKeep) -> str:
    """Return the choices as text of 78 columns."""
    return "\n".join(_lines(answer)).strip("\n") + "\n"


def _lines(answer: LengthsToKeep) -> Iterator[str]:
    title = f"Which lengths of {clean(answer.article, MOST_NAME)} to keep"
    yield from heading(title, "=")
    on_sale = lengths_called(answer.on_sale_mm, answer.units)
    mix = ", ".join(f"{count} x {clean(name, MOST_NAME)}" for name, count in answer.decks)
    yield from para(f"For {mix or 'no deck'}. On sale: {on_sale}.")
    if answer.choices:
        yield from ("", *_table(answer))
        yield from heading("HOW IT IS KNOWN")
        yield from points((*_known(answer), *HELD))
    else:
        yield from ("", "No choice of lengths does for all of them.")
    if answer.cannot:
        yield from heading("NOT RECKONED WITH")
        yield from points(f"{clean(name, MOST_NAME)}: {clean(why, MOST_WHY)}"
                          for name, why in answer.cannot)  # fmt: skip


def _table(answer: LengthsToKeep) -> list[str]:
    """Return the choices line by line, what each buys in as many lines as the page has room for."""
    code = clean(answer.currency, 8)
    cells = [("kept", f"one order, {code}", "deck by deck", "gap"), *map(_cells, answer.choices)]
    head = "buys" if answer.units == IMPERIAL else "buys, mm"
    buys = [head, *(_buys(choice, answer.units) for choice in answer.choices)]
    room = COLUMNS - len(table(cells, ">>>>")[0]) - BETWEEN
    lines = [wrap(each, max(room, 1), break_long_words=False) for each in buys]
    return table(
        [
            (*("" if at else cell for cell in own), line.replace(GLUE, " "))
            for own, each in zip(cells, lines, strict=True)
            for at, line in enumerate(each)
        ],
        ">>>><",
    )


def _cells(choice: KeptLengths) -> tuple[str, ...]:
    apart = "-" if choice.apart is None else f"{choice.apart:f}"
    gap = f"{choice.cost - choice.best_bound:f}"
    return str(choice.count), f"{choice.cost:f}", apart, gap


def _buys(choice: KeptLengths, units: str) -> str:
    """Return how many of each length kept, none cut off: no line ends inside of one."""
    many_of = dict(choice.bought)
    told = (bought_called([(mm, many_of.get(mm, 0))], units) for mm in choice.lengths_mm)
    return ", ".join(each.replace(" ", GLUE) for each in told)


def _known(answer: LengthsToKeep) -> Iterator[str]:
    yield (
        "Kept: so many lengths at most. One order is for all decks, joints reckoned in; deck by "
        "deck, each is an order of its own. The gap is what any other choice of as many lengths "
        "could save at most."
    )
    gap = any(choice.cost > choice.best_bound for choice in answer.choices)
    left = "no other saves more than the gap" if gap else "no other is left"
    yield f"{many(answer.looked, 'choice')} looked at; " + (
        f"{left}." if answer.exact else "others are left, and the gap tells of them."
    )
    if any(choice.joint_cost for choice in answer.choices):
        price = money(answer.joint_price, answer.currency)
        yield f"A joint is reckoned at {price}, whatever is kept."
    # a choice of fewer lengths stands again where one more spares nothing
    for lengths_mm, otherwise in dict.fromkeys((c.lengths_mm, c.otherwise) for c in answer.choices):
        if otherwise:
            names = ", ".join(clean(name, MOST_NAME) for name in otherwise)
            yield (
                f"With {many(len(lengths_mm), 'length')} kept and planned with alone, these would "
                f"be built otherwise, perhaps for less: {names}."
            )
