"""The family of treated softwood: its table, gaps by moisture, and upkeep out of its tasks."""

from attrs import evolve

from drylay.materials.model import Family
from drylay.plugins.table import family_of, packaged_table
from drylay.plugins.table_gaps import MOISTURE_GAPS, MOISTURES
from drylay.plugins.table_upkeep import upkeep_h_m2_year


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
