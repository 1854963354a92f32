"""The family of treated softwood: its table, gaps by moisture, and upkeep out of its tasks."""

from attrs import evolve

from drylay.materials.model import Family
from drylay.plugins.packaged import read_packaged
from drylay.plugins.table import family_of
from drylay.plugins.table_gaps import MOISTURE_GAPS
from drylay.plugins.table_model import FamilyTable
from drylay.plugins.table_reader import read_family_table
from drylay.plugins.table_upkeep import upkeep_h_m2_year


def softwood() -> Family:
    """Return the family, its tables read afresh.

    Source: softwood.toml and frame.toml, each number its own.
    """
    boards, under = _table("softwood.toml"), _table("frame.toml")
    whole = evolve(boards, rules=(*boards.rules, *under.rules))
    return family_of(whole, coded={**MOISTURE_GAPS, "upkeep_h_m2_year": upkeep_h_m2_year})


def frame() -> Family:
    """Return the rules of a frame of treated softwood, the base of boards that lie on one.

    Source: frame.toml, each number its own.
    """
    return family_of(_table("frame.toml"))


def _table(name: str) -> FamilyTable:
    return read_packaged("drylay_softwood", name, read_family_table)
