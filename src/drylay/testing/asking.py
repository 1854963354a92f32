"""A family asked everything, and everything once more in another order."""

import io
from collections.abc import Iterable
from contextlib import redirect_stdout
from copy import copy

from drylay.materials.model import Family, RuleQuery
from drylay.reasons import Ruling
from drylay.testing.boards import questions
from drylay.testing.model import Answer, Heard


def hear_family(family: Family, boards: Iterable[RuleQuery], not_covered: Iterable[str]) -> Heard:
    """Return what a family answers about some boards, asked forwards and then backwards."""
    told = tuple(boards)
    asked = [(rule, query) for rule in family.rules for query in questions(rule, told)]
    with redirect_stdout(io.StringIO()) as said:
        answers = [_answer(family, rule, query, said) for rule, query in asked]
        again = [_answer(family, rule, query, said) for rule, query in reversed(asked)]
    return Heard(
        family=family,
        not_covered=frozenset(not_covered),
        answers=tuple(answers),
        again=tuple(reversed(again)),
    )


def _answer(family: Family, rule: str, query: RuleQuery, said: io.StringIO) -> Answer:
    own, before = copy(query), said.tell()
    returned: object = None
    raised: BaseException | None = None
    try:
        returned = family.rules[rule](own)
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # a family may raise what it likes: that is told
        raised = error
    return Answer(
        rule=rule,
        query=query,
        returned=returned,
        raised=raised,
        changed=own != query,
        printed=said.getvalue()[before:] if said.tell() > before else "",
    )


def rulings(heard: Heard) -> Iterable[tuple[Answer, Ruling]]:
    """Yield every answer that is a ruling."""
    for answer in heard.answers:
        if type(answer.returned) is Ruling:
            yield answer, answer.returned


def numbers(heard: Heard) -> Iterable[tuple[Answer, Ruling, float]]:
    """Yield every answer that is a ruling with a number in it."""
    for answer, ruling in rulings(heard):
        if type(ruling.value) in (int, float):
            yield answer, ruling, float(ruling.value)  # type: ignore[arg-type] # as looked at
