"""The family of hardwood: its table, gaps by moisture, the pilot's arithmetic, a softwood frame."""

from functools import partial

from attrs import evolve

from drylay.materials.model import Family, RuleQuery
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.table import CodedRule, table_family
from drylay.plugins.table_gaps import MOISTURE_GAPS, MOISTURES
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import number_for, number_ruled
from drylay.plugins.table_upkeep import upkeep_h_m2_year
from drylay.reasons import Ruling
from drylay_softwood.family import boards_metal, frame

#: What a species' durability is called in the table; the least durable class with a life told.
CLASS, LEAST_DURABLE = "durability_class", 3


def hardwood() -> Family:
    """Return the family.

    Source: hardwood.toml, each number its own; of the frame, drylay-softwood's.
    """
    base = frame()
    coded: dict[str, CodedRule] = {
        **MOISTURE_GAPS,
        "metal_allowed": partial(boards_metal, base),
        **MOISTURES,
        "life_least_years": life_least_years,
        "life_most_years": life_most_years,
        "screw_pilot_ratio": screw_pilot_ratio,
        "upkeep_h_m2_year": upkeep_h_m2_year,
    }
    return table_family("drylay_hardwood", "hardwood.toml", coded=coded, base=base)


def screw_pilot_ratio(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the pilot over the shank: the trade tells it of the core, and the core of the shank.

    Source: common practice for the one, from memory for the other, which makes it from memory.
    """
    of_core = number_for(table, "pilot_of_core_ratio", query)
    core = number_for(table, "core_of_shank_ratio", query)
    return Ruling(
        value=of_core.value * core.value,
        unit="ratio",
        rule="pilot in the joist, as a share of the shank by way of the core",
        source=core.source,
        inputs=((of_core.name, of_core.value), (core.name, core.value)),
    )


def life_least_years(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the shortest likely life. Raises and Source: `_years`."""
    return _years(table, query, "life_least_years")


def life_most_years(table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return the longest likely life. Raises and Source: `_years`."""
    return _years(table, query, "life_most_years")


def _years(table: FamilyTable, query: RuleQuery, rule: str) -> Ruling:
    """Return years by the durability of the wood: the record's class, else the species'.

    Raises:
        NotCoveredError: The wood is of class 4 or 5, which no deck is laid of.

    Source: from memory, EN 350 with the tables of BS 8417.
    """
    known = query.durability_class
    if known is None:
        known = _of_species(table, query)
    if known is not None and known > LEAST_DURABLE:
        raise NotCoveredError(f"wood of durability class {known}: above ground it does not last")
    return number_ruled(table, rule, evolve(query, durability_class=known))


def _of_species(table: FamilyTable, query: RuleQuery) -> int | None:
    """Return the durability class of a species that the table names, None of any other."""
    try:
        return int(number_for(table, CLASS, query).value)
    except NotCoveredError:
        return None
