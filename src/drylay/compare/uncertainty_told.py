"""What a brief may come to, in words and as flat rows."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction

from attrs import evolve

from drylay.compare.shelf import RATIO
from drylay.compare.spreads import BOARDS, FRAME, LIVES
from drylay.compare.study_model import Assumed, Quantile, Row, Sampled, Uncertainty
from drylay.papers.layout import COLUMNS, heading, para, points
from drylay.papers.wording import clean

#: A share of so many samples at most is told as a count, else in per cent.
MOST_SHARE = 100
MOST_CODES = 60
#: What figures and paths are called, where their own name says too little.
CALLED = {
    "total": "first cost",
    "yearly_least": "cost a year, lives at most",
    "yearly_most": "cost a year, lives at least",
    BOARDS: "life of the boards, years",
    FRAME: "life of the frame, years",
    RATIO: "prices of all articles, times",
}
ALIKE = ", and so is that all of a family's range is alike likely"
UNTOLD = "Nothing here tells how likely they are."
APART = (
    "Each is drawn by itself, as if it hung on none of the others. Where they rise together, as "
    "prices of one year do, it may come to more than is told here."
)
CERTAIN = "All that has no spread is taken as certain."
SEEN = (
    "Each figure is one that came of a sample; none is reckoned between two. A share of samples is "
    "no promise: it is as good as the spreads are."
)
QUICK = (
    "Planned quickly: an order, joints reckoned in, may be dearer than the cheapest, by no more "
    "than its sample's `gap`."
)
WHOLE_YEARS = "Lives are counted in whole years, a part of one left off."


def rows_of(answer: Uncertainty) -> tuple[Row, ...]:
    """Return a row for each quantile; a figure that no sample has is one row without them."""
    return tuple(
        {
            "title": answer.title,
            "figure": each.figure,
            "currency": answer.currency if _is_money(each) else None,
            "samples": answer.samples,
            "seed": answer.seed,
            "blocked": answer.blocked,
            "count": each.count,
            "at_most_ratio": quantile.ratio if quantile else None,
            "value": quantile.value if quantile else None,
        }
        for each in answer.figures
        for quantile in each.quantiles or (None,)
    )


def text_of(answer: Uncertainty) -> str:
    """Return the quantiles in plain words, with what they rest on, as text of 78 columns."""
    lines = heading(f"What it may come to: {clean(answer.title, COLUMNS - 21)}", "=")
    lines += para(_how_many(answer))
    for alike in _alike(answer.figures):
        lines += _figure(alike, answer)
    lines += [*heading("WHAT WAS TAKEN TO BE NOT CERTAIN"), *points(map(_assumed, answer.assumed))]
    lines += [*heading("WHAT THIS RESTS ON"), *points(_rests_on(answer))]
    return "\n".join(lines).strip("\n") + "\n"


def _how_many(answer: Uncertainty) -> str:
    drawn = f"{answer.samples} samples, drawn with the seed {answer.seed}"
    if not answer.blocked:
        return f"{drawn}. A plan came of all of them."
    lost: Counter[tuple[str, str]] = Counter(
        (str(row["outcome"]), clean(str(row["codes"]), MOST_CODES))
        for row in answer.rows
        if row["outcome"] != "planned"
    )
    told = ", ".join(
        f"{many} {came}{f' ({codes})' if codes else ''}"
        for (came, codes), many in sorted(lost.items())
    )
    return (
        f"{drawn}. No plan came of {answer.blocked} of them: {told}. These are in none of the "
        f"figures below: shares are of the other {answer.samples - answer.blocked}."
    )


def _alike(figures: Iterable[Sampled]) -> Iterator[tuple[Sampled, ...]]:
    """Yield figures that come to the same together: a year's two ends where all lives are drawn.

    Money is no count: 0.00 of it and 0 are equal numbers, and two things.
    """
    held: dict[tuple[bool, Sampled], list[Sampled]] = {}
    for each in figures:
        held.setdefault((_is_money(each), evolve(each, figure="")), []).append(each)
    return map(tuple, held.values())


def _figure(alike: tuple[Sampled, ...], answer: Uncertainty) -> list[str]:
    each = alike[0]
    unit = f", {clean(answer.currency, 8)}" if _is_money(each) else ""
    lines = ["", *para(f"{_head([one.figure for one in alike])}{unit}")]
    if not each.quantiles:
        return [*lines, "  not known in any sample"]
    left = answer.samples - answer.blocked - each.count
    told = [*map(_at_most, each.quantiles), *([f"not known in {left} samples"] if left else [])]
    return [*lines, *(f"  {line}" for line in told)]


def _head(figures: Sequence[str]) -> str:
    """Return what figures that come to the same are called; a year's two ends are one cost."""
    if set(figures) == {"yearly_least", "yearly_most"}:
        return "COST A YEAR"
    return " AND ".join(CALLED[each].upper() if each in CALLED else each for each in figures)


def _at_most(quantile: Quantile) -> str:
    figure = _figured(quantile.value)
    if quantile.ratio == 0:
        return f"in none less than {figure}"
    if quantile.ratio == 1:
        return f"in all no more than {figure}"
    return f"in {_share(quantile.ratio)} no more than {figure}"


def _share(ratio: float) -> str:
    share = Fraction(repr(ratio))
    if share.denominator <= MOST_SHARE:
        return f"{share.numerator} of {share.denominator} samples"
    return f"{ratio * 100:.10g} % of samples"


def _figured(value: object) -> str:
    return f"{value:f}" if isinstance(value, Decimal) else f"{value:.10g}"


def _is_money(each: Sampled) -> bool:
    return any(isinstance(quantile.value, Decimal) for quantile in each.quantiles)


def _assumed(each: Assumed) -> str:
    code = each.path.removeprefix(f"{RATIO}.")
    name = f"prices of {code}, times" if code != each.path else CALLED.get(each.path, each.path)
    if each.likely is None:
        told = f"{each.least:.10g} to {each.most:.10g}, all between alike likely"
    else:
        told = f"{each.least:.10g} to {each.most:.10g}, likeliest at {each.likely:.10g} (triangle)"
    family = "; as the merchant's record or the family tells" if each.told_by == "family" else ""
    return f"{clean(name, COLUMNS)}: {told}{family}"


def _too_fine(told: Sampled) -> bool:
    """Return whether a share is asked for that is less than a sample, or all but less than one."""
    shares = [Fraction(repr(each.ratio)) * told.count for each in told.quantiles]
    return any(0 < share < 1 or told.count - 1 < share < told.count for share in shares)


def _rests_on(answer: Uncertainty) -> Iterator[str]:
    family = any(each.told_by == "family" for each in answer.assumed)
    yield f"These ranges are the caller's assumption{ALIKE if family else ''}. {UNTOLD}"
    yield f"{APART} {CERTAIN}"
    yield SEEN
    few = min((told.count for told in answer.figures if _too_fine(told)), default=0)
    if few:
        yield (
            f"Of {few} samples no share finer than 1 of {few} can be told: there the least or the "
            "most that was seen stands."
        )
    if any(each.path in LIVES for each in answer.assumed):
        yield WHOLE_YEARS
    if any(row["mode"] == "quick" for row in answer.rows):
        yield QUICK
