"""The family of treated softwood: its table, gaps by moisture, and upkeep out of its tasks."""

from attrs import evolve

from drylay.materials.model import Family, RuleQuery
from drylay.plugins.table import family_of, packaged_table
from drylay.plugins.table_gaps import MOISTURE_GAPS, MOISTURES
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_rules import number_ruled
from drylay.plugins.table_upkeep import upkeep_h_m2_year
from drylay.reasons import Ruling


def softwood() -> Family:
    """Return the family.

    Source: softwood.toml and frame.toml, each number its own.
    """
    boards, under = (
        packaged_table("drylay_softwood", "softwood.toml"),
        packaged_table("drylay_softwood", "frame.toml"),
    )
    whole = evolve(
        boards,
        rules=(*boards.rules, *under.rules),
        cautions=(*boards.cautions, *under.cautions),
    )
    return family_of(
        whole, coded={**MOISTURE_GAPS, **MOISTURES, "upkeep_h_m2_year": upkeep_h_m2_year}
    )


def frame() -> Family:
    """Return the rules of a frame of treated softwood, the base of boards that lie on one.

    Source: frame.toml, each number its own.
    """
    return family_of(packaged_table("drylay_softwood", "frame.toml"))


def boards_metal(base: Family, table: FamilyTable, query: RuleQuery) -> Ruling:
    """Return whether a metal may be driven into boards or fascia of a table, or into their frame.

    For families of boards that lie on such a frame: their numbers stand under `metal_allowed`.

    Raises:
        NotCoveredError: Neither table nor frame speaks of such a fixing.

    Source: the table's of boards and fascia; of what is driven into the frame alone, the frame's.
    """
    framed = query.driven_into == "frame"
    ruling = base.rules["metal_allowed"](query) if framed else number_ruled(
        table, "metal_allowed", query
    )  # fmt: skip
    return evolve(
        ruling,
        rule=f"as {base.title}: {ruling.rule}" if framed else ruling.rule,
        inputs=(*ruling.inputs, ("driven_into", query.driven_into)),
    )
