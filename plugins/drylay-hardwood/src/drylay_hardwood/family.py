"""The family of hardwood: its table, gaps by moisture, the pilot's arithmetic, a softwood frame."""

from functools import partial

from drylay.materials.model import Family, RuleQuery
from drylay.plugins.table import CodedRule, table_family
from drylay.plugins.table_gaps import MOISTURE_GAPS
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import number_for
from drylay.plugins.table_upkeep import upkeep_h_m2_year
from drylay.reasons import Ruling
from drylay_softwood.family import boards_metal, frame


def hardwood() -> Family:
    """Return the family.

    Source: hardwood.toml, each number its own; of the frame, drylay-softwood's.
    """
    base = frame()
    coded: dict[str, CodedRule] = {
        **MOISTURE_GAPS,
        "metal_allowed": partial(boards_metal, base),
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
