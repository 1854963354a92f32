"""Strength classes of EN 338:2016, and what EN 384 makes of three of a class's values."""

import tomllib
from functools import cache
from importlib import resources
from math import sqrt
from typing import Any

from drylay.reasons import Source
from drylay.strength.ec5_model import StrengthClass
from drylay.strength.ec5_values import one_of

#: Columns of the table that are moduli, there in kN/mm2.
_MODULI = ("e0_mean", "e0_05", "e90_mean", "g_mean")
_DENSITIES = ("rho_k", "rho_mean")
DENSE_KG_M3 = 700


@cache
def _content() -> dict[str, Any]:
    text = resources.files("drylay.strength").joinpath("en338.toml").read_text("utf-8")
    return tomllib.loads(text)


def _field(column: str, value: float) -> tuple[str, float]:
    if column in _MODULI:
        return f"{column}_n_mm2", round(value * 1000.0, 6)
    return column + ("_kg_m3" if column in _DENSITIES else "_n_mm2"), float(value)


@cache
def strength_classes() -> tuple[StrengthClass, ...]:
    """Return all strength classes, C14 to C50 and D18 to D80, moduli in N/mm2.

    Source: EN 338:2016 tables 1 and 3, read in a transcription.
    """
    content = _content()
    source = Source(**content["source"])
    return tuple(
        StrengthClass(
            name=name,
            softwood=name.startswith("C"),
            source=source,
            **dict(map(_field, content["columns"], row)),
        )
        for name, row in content["classes"].items()
    )


def strength_class(name: str) -> StrengthClass:
    """Return the strength class of this name.

    Raises:
        InputError: EN 338:2016 has no such class; those it has are told.
    """
    known = {grade.name: grade for grade in strength_classes()}
    one_of(name, tuple(known), "strength_class")
    return known[name]


def related_values(
    *, fm_k: float, e0_mean: float, rho_k: float, softwood: bool
) -> dict[str, float]:
    """Return what EN 384 makes of a class's bending strength, modulus and density, unrounded.

    Strengths in N/mm2 and densities in kg/m3; moduli in the unit of `e0_mean`.

    Source: EN 384:2016, relations from memory; all 208 entries of EN 338:2016 agree once rounded.
    """
    if softwood:
        own = {
            "ft0_k": -3.07 + 0.73 * fm_k,
            "fv_k": min(1.6 + 0.1 * fm_k, 4.0),
            "fc90_k": 0.007 * rho_k,
            "e0_05": 0.67 * e0_mean,
            "e90_mean": e0_mean / 30.0,
        }
    else:
        own = {
            "ft0_k": 0.6 * fm_k,
            "fv_k": min(3.0 + 0.03 * fm_k, 5.0),
            "fc90_k": (0.015 if rho_k >= DENSE_KG_M3 else 0.010) * rho_k,
            "e0_05": 0.84 * e0_mean,
            "e90_mean": e0_mean / 15.0,
        }
    return own | {"fc0_k": 4.3 * sqrt(fm_k), "g_mean": e0_mean / 16.0, "rho_mean": 1.2 * rho_k}
