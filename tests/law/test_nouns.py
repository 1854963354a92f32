"""Nouns are frozen attrs classes and every float says its unit in its name."""

import importlib
import typing
from decimal import Decimal
from pathlib import Path

import attrs
import pytest

SRC = Path(__file__).parents[2] / "src" / "drylay"
SUFFIXES = (
    "_mm",
    "_m2",
    "_mm2",
    "_kn_m2",
    "_kn_m",
    "_kn",
    "_n_mm2",
    "_kg_m3",
    "_kg",
    "_deg",
    "_ratio",
    "_m",
    "_m3",
    "_h",
    "_m2_per_l",
    "_kg_m",
    "_kg_m2",
    "_c",
    "_per_k",
    "_pct",
    "_per_pct",
)
#: Values whose unit stands in a field of their own beside them.
BESIDE = {("RuleMet", "measured"), ("RuleMet", "limit"), ("Override", "value"),
          ("ArticleRule", "value"), ("Ruling", "value"), ("Decision", "value"),
          ("TurnedDown", "value"), ("Finding", "measured"), ("Finding", "limit"),
          ("Ruling", "inputs"), ("Decision", "inputs"), ("Flaw", "measured"), ("Flaw", "limit"),
          ("Trusted", "value"), ("HoldPoint", "limit"),
          ("Change", "old"), ("Change", "new"), ("Entry", "value"), ("Entry", "at_least"),
          # a pendulum value has no unit
          ("Surface", "wet_slip_least"), ("Laying", "wet_slip_least"),
          ("OutlineTiles", "wet_slip_least"),
          ("Check", "measured"), ("Check", "limit"), ("Check", "inputs"),
          ("Allowed", "factors"),
          ("Reach", "least"), ("Reach", "most"),
          # a length in mm beside its count or its article
          ("KeptLengths", "bought"), ("PriceSpan", "bought"), ("HoldingPrice", "worst"),
          ("HoldingPrice", "loses"),
          ("Cell", "wanted"), ("Cell", "found"), ("Cell", "tolerance"),
          ("Limit", "value"), ("Broken", "measured"),
          ("FactChange", "old"), ("FactChange", "new"),
          # a bare share; and figures of the path beside them, which has the unit
          ("Quantile", "ratio"),
          ("Assumed", "least"), ("Assumed", "likely"), ("Assumed", "most")}  # fmt: skip


def nouns() -> list[type]:
    found = []
    files = [*SRC.glob("*/*model.py"), SRC / "reasons.py", SRC / "findings.py"]
    for path in sorted(files):
        parts = path.relative_to(SRC.parent).with_suffix("").parts
        module = importlib.import_module(".".join(parts))
        found += [
            c
            for c in vars(module).values()
            if isinstance(c, type) and attrs.has(c) and c.__module__ == module.__name__
        ]
    return found


def holds_float(hint: object) -> bool:
    return hint is float or any(holds_float(arg) for arg in typing.get_args(hint))


@pytest.mark.parametrize("noun", nouns(), ids=lambda noun: noun.__name__)
def test_a_noun_is_frozen_and_its_floats_say_their_unit(noun: type) -> None:
    assert attrs.fields(noun) is not None
    assert noun.__setattr__ is not object.__setattr__
    assert noun.__bases__ == (object,)
    hints = typing.get_type_hints(noun)
    for field in attrs.fields(noun):
        if holds_float(hints[field.name]) and (noun.__name__, field.name) not in BESIDE:
            assert field.name.endswith(SUFFIXES), f"{noun.__name__}.{field.name}"
        assert hints[field.name] is not list
        if hints[field.name] is Decimal:
            assert field.metadata.get("why") or noun.__module__ != "drylay.plan.model"
