"""A merchant's joist centres for a use or an angle that they were not given for."""

from fractions import Fraction
from math import floor

from attrs import evolve

from drylay.materials.model import RuleQuery
from drylay.planner.asking import Asking
from drylay.plugins.guard import ask
from drylay.plugins.model import RuleFault
from drylay.reasons import Ruling, Source

RULE = "most_centres_mm"


def given_for(query: RuleQuery) -> RuleQuery:
    """Return the question that a merchant's centres answer: boards square to joists, a dwelling."""
    return evolve(query, board_to_joist_deg=90.0, use="dwelling")


def brought_down(asked: Asking, record: Ruling) -> Ruling | RuleFault:
    """Return a merchant's centres for the boards as they lie here, never more than he gave.

    They speak of boards square to the joists of a dwelling. For another angle or use they come down
    in the ratio by which the family's own answer does, to tenths of a mm; what the family does not
    cover cannot be brought down, and is its fault.

    Source: arithmetic, a ratio of two of the family's answers.
    """
    if asked.query == given_for(asked.query):
        return record
    family = asked.articles.board.family
    square, here = (
        ask(asked.families, family, RULE, query) for query in (given_for(asked.query), asked.query)
    )
    for answer in (square, here):
        if isinstance(answer, RuleFault):
            return evolve(answer, wrong=f"{answer.wrong}; {_cannot(record)}")
    assert isinstance(square, Ruling)
    assert isinstance(here, Ruling)
    return _in_ratio(asked.query, record, square, here)


def _cannot(record: Ruling) -> str:
    return (
        f"so {record.rule}, {float(record.value or 0):g} mm for boards square to the joists of a "
        "dwelling, cannot be brought down to how these lie"
    )


def _in_ratio(query: RuleQuery, record: Ruling, square: Ruling, here: Ruling) -> Ruling:
    given, of, to = (_exact(ruling) for ruling in (record, square, here))
    falls = to < of
    value = floor(given * to / of * 10) / 10 if falls else record.value
    told = "brought down as the family's answer is" if falls else "which the family does not lower"
    return evolve(
        record,
        value=value,
        rule=f"{record.rule}, {told} from boards square in a dwelling to these",
        inputs=(
            *record.inputs,
            ("use", query.use),
            ("board_to_joist_deg", query.board_to_joist_deg),
            ("merchant_mm", record.value),
            ("family_square_dwelling_mm", square.value),
            ("family_here_mm", here.value),
            ("family_source", _told(here.source)),
        ),
    )


def _exact(ruling: Ruling) -> Fraction:
    return Fraction(repr(float(ruling.value or 0)))


def _told(source: Source) -> str:
    """Return a source in words, its kind first, so that none is taken for another's."""
    clause = f", {source.clause}" if source.clause else ""
    return f"{source.kind}: {source.title}{clause}"
