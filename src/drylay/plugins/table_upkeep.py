"""Upkeep out of a family's table: its tasks, how often a year, and how long for a square metre.

Code for `coded` of `drylay.plugins.table.table_family`. Each task stands under `[[numbers]]` twice:
`sweep_times_a_year` and `sweep_h_m2`, say. What is done every fifth year is done 0.2 times a year.
"""

from drylay.materials.model import RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import number_for
from drylay.reasons import Inputs, Ruling, Source

TIMES, HOURS = "_times_a_year", "_h_m2"
#: How often comes from the trade; how long it takes nobody prints.
GUESSED = Source(
    kind="assumption",
    title="hours of upkeep are estimates",
    clause="times a year as the trade has them, hours for a square metre estimated",
)


def upkeep_h_m2_year(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the hours of upkeep that a square metre takes in a year, task by task in the inputs.

    Raises:
        NotCoveredError: The table has no task, or one without its hours.

    Source: the numbers of the table; hours are an assumption.
    """
    tasks = upkeep_tasks(table)
    if not tasks:
        raise NotCoveredError("the table has no task of upkeep")
    inputs: Inputs = tuple(
        (name, number_for(table, name, query).value)
        for task in tasks
        for name in (task + TIMES, task + HOURS)
    )
    told = dict(inputs)
    hours = sum(float(told[task + TIMES] or 0) * float(told[task + HOURS] or 0) for task in tasks)
    return Ruling(
        value=round(hours, 6),
        unit="h/m2",
        rule="upkeep, all tasks of a year",
        source=GUESSED,
        inputs=inputs,
    )


def upkeep_tasks(table: FamilyTable) -> tuple[str, ...]:
    """Return the tasks of upkeep that a table names, in its order."""
    names = dict.fromkeys(entry.name for entry in table.numbers if entry.name.endswith(TIMES))
    return tuple(name.removesuffix(TIMES) for name in names)
