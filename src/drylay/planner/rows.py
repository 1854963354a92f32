"""One decision as a row: path, value, ruling, what was turned down; and who may say so."""

from collections.abc import Iterable

from drylay.planner.job import Job
from drylay.reasons import Inputs, Ruling, Scalar, Source, TurnedDown

ARITHMETIC = Source(kind="arithmetic", title="docs/conventions.md")
PRACTICE = Source(kind="common practice", title="common practice, no source")

Row = tuple[str, Scalar, Ruling, tuple[TurnedDown, ...]]


def row(  # noqa: PLR0917 - read as the row of a table
    path: str,
    value: Scalar,
    unit: str,
    rule: str,
    source: Source,
    inputs: Inputs = (),
    turned_down: Iterable[TurnedDown] = (),
) -> Row:
    """Return one decision."""
    ruling = Ruling(value=value, unit=unit, rule=rule, source=source, inputs=inputs)
    return path, value, ruling, tuple(turned_down)


def brief_says(clause: str) -> Source:
    """Return the brief as a source, at one of its keys."""
    return Source(kind="brief", title="the brief", clause=clause)


def merchant_says(job: Job, code: str) -> Source:
    """Return the stock catalogue as a source, at one of its articles."""
    return Source(kind="merchant record", title=job.stock.name, clause=code)
