"""Reasons of decks that stand name who says a figure, not who chose the row of a table."""

from pathlib import Path
from typing import Any

import drylay
from drylay.plan.model import Plan

ROOT = Path(__file__).parents[2]


def planned(**site: Any) -> Plan:
    plain = drylay.read_brief(ROOT / "docs" / "examples" / "slope.toml").to_dict()
    kept = {name: value for name, value in {**plain["site"], **site}.items() if value is not None}
    stock = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
    return drylay.design(drylay.read_brief({**plain, "site": kept}), stock=stock)


def test_what_soil_bears_is_its_tables_word() -> None:
    """BS 8004 presumes 75 kN/m2 of firm clay, from memory: the brief but names the soil."""
    found = planned(soil="firm clay").why("footings.bearing_kn_m2")
    assert (found.value, found.source.kind) == (75.0, "from memory")
    assert "BS 8004" in found.source.title
    assert dict(found.inputs)["named_by"] == "the brief"
    assumed = planned(soil=None).why("footings.bearing_kn_m2")
    assert dict(assumed.inputs)["named_by"] != "the brief"


def test_the_deeper_frost_line_names_who_says_it() -> None:
    """450 is read in the pack of the United Kingdom; a brief's 600 is deeper, its 300 is not."""
    assert planned(frost_mm=600).why("footings.frost_mm").source.kind == "brief"
    for told in (None, 300):
        found = planned(frost_mm=told).why("footings.frost_mm")
        assert (found.value, found.source.kind) == (450.0, "standard")
