"""Answers to what a study file asks: of its rows, and of decks planned for the question."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from typing import Any

from attrs import evolve

from drylay.compare.pareto import pareto
from drylay.compare.side_by_side import side_by_side
from drylay.compare.size_costs import cost_by_size
from drylay.compare.study_decks import SET, asked
from drylay.compare.study_model import Row
from drylay.compare.study_plan import Answer, DecksQuestion, Question, Study
from drylay.compare.study_where import is_value
from drylay.errors import Cancelled, Fault, InputError, PlannerFault
from drylay.intake.shown import shown

#: What merchants' questions take of how a study is planned: they plan here, one deck after another.
MERCHANTS_TAKE = ("families", "local_rules", "bases", "progress", "cancel")


def check_questions(study: Study, **how: Any) -> None:
    """Check what is asked about decks themselves, before hours of planning; nothing is planned.

    Raises:
        InputError: Something cannot be asked; lists every fault.
    """
    wrong: list[Fault] = []
    checked = {**how, "cancel": SET, "journal": None, "executor": None, "workers": None,
               "most_s": None, "progress": None}  # fmt: skip
    for question in study.questions:
        if isinstance(question, DecksQuestion):
            with suppress(Cancelled):
                _answered(study, question, [], checked, wrong)
    if wrong:
        raise InputError(tuple(wrong))


def answers(
    study: Study, rows: list[Row], wrong: list[Fault], **how: Any
) -> Iterator[tuple[str, Answer]]:
    """Yield the answers that there are by name; why there is none goes on the list.

    Raises:
        Cancelled: The cancel token was set.
    """
    for question in study.questions:
        answer = _answered(study, question, rows, how, wrong)
        if answer is not None:
            yield question.name, answer


def _answered(
    study: Study,
    question: Question | DecksQuestion,
    rows: list[Row],
    how: dict[str, Any],
    wrong: list[Fault],
) -> Answer | None:
    try:
        if isinstance(question, DecksQuestion):
            return _of_decks(study, question, how)
        return _of_rows(question, rows)
    except InputError as error:
        wrong += [evolve(each, path=f"{question.name}.{each.path}"[:200]) for each in error.faults]
    except PlannerFault as error:
        wanted = "plans that the audit lets through"
        wrong.append(Fault(path=question.name, found=str(error)[:500], wanted=wanted))
    return None


def _of_decks(study: Study, question: DecksQuestion, how: dict[str, Any]) -> Answer:
    if question.what != "uncertainty":
        how = {name: how.get(name) for name in MERCHANTS_TAKE}
        answer: Answer = asked(question, stock=study.stock, **how)
        return answer
    spread: Answer = asked(
        question, stock=study.stock, mode=study.mode, rate_ratio=study.rate_ratio,
        hour_price=study.hour_price, **how,
    )  # fmt: skip
    return spread


def _of_rows(question: Question, rows: Iterable[Row]) -> Answer:
    looked = [
        row for row in rows if all(is_value(row[name], value) for name, value in question.where)
    ]
    if not looked:
        told = ", ".join(f"{name} = {shown(value)}" for name, value in question.where)
        wanted = "values that some row has, together"
        raise InputError((Fault(path="where", found=told[:200], wanted=wanted),))
    if question.what == "pareto":
        return pareto(looked, dict(question.aims))
    if question.what == "side_by_side":
        return side_by_side(looked, by=question.by, of=question.of)
    return cost_by_size(looked, question.size, cost=question.cost, by=question.by)
