"""Which days articles are on sale: their own, within those that the list's prices hold."""

from collections.abc import Iterator, Mapping
from datetime import date

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.tables import Reading, report
from drylay.materials.articles import Values

OPEN = (date.min, date.max)


def within_list(reading: Reading, head: Values, articles: Mapping[str, list[Values]]) -> None:
    """Give articles the batch and days of their list where they tell none; report what clashes."""
    for kind, found in articles.items():
        for at, values in enumerate(found):
            for wrong in clashing_days(head, values):
                report(reading, (kind, at, wrong.path), evolve(wrong, path=""))
            take_from_head(head, values)


def clashing_days(head: Values, values: Values) -> Iterator[Fault]:
    """Yield the fault of an article that is never on sale while the list's prices hold."""
    own, lists = _span(values, "sold"), _span(head, "valid")
    if own[0] <= own[1] and (own[0] > lists[1] or own[1] < lists[0]):
        yield Fault(
            path="sold_from" if own[0] > lists[1] else "sold_until",
            found=f"on sale {_told(own)}, in a list valid {_told(lists)}",
            wanted="a day on which both hold",
            nearest="the list's days or the article's put right",
        )


def take_from_head(head: Values, values: Values) -> None:
    """Give an article its list's batch if it tells none, and keep its days within the list's."""
    if head.get("batch") and not values.get("batch"):
        values["batch"] = head["batch"]
    own, lists = _span(values, "sold"), _span(head, "valid")
    since, until = max(own[0], lists[0]), min(own[1], lists[1])
    if since > OPEN[0]:
        values["sold_from"] = since
    if until < OPEN[1]:
        values["sold_until"] = until


def _span(values: Values, word: str) -> tuple[date, date]:
    since, until = values.get(f"{word}_from"), values.get(f"{word}_until")
    return (
        since if isinstance(since, date) else OPEN[0],
        until if isinstance(until, date) else OPEN[1],
    )


def _told(span: tuple[date, date]) -> str:
    since = "" if span[0] == OPEN[0] else f"from {span[0]} "
    return (since + ("" if span[1] == OPEN[1] else f"until {span[1]}")).strip()
