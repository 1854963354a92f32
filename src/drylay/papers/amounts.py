"""Volumes, masses and hours in words, and texts with the plan's figures filled in."""

import re
from math import ceil
from typing import Any

from drylay.papers.wording import RUNS, clean, size
from drylay.plan.model import Plan

#: Exactly: 1 yd = 0.9144 m and 1 lb = 0.45359237 kg (agreement of 1959).
M3_PER_YD3, KG_PER_LB = 0.9144**3, 0.45359237
_PATH = re.compile(r"\{([a-z_0-9.\[\]]+)\}")
_STEP = re.compile(r"([a-z_0-9]+)(?:\[(\d+)\])?")


def volume(volume_m3: float, units: str) -> str:
    """Return a volume, up to the next hundredth: "0.91 m3", "1.19 cu yd"."""
    if units == "imperial":
        return f"{_up(volume_m3 / M3_PER_YD3, 100):.2f} cu yd"
    return f"{_up(volume_m3, 100):.2f} m3"


def area(area_m2: float, units: str) -> str:
    """Return an area, up to the next hundredth: "18.1 m2", "194.83 sq ft"."""
    if units == "imperial":
        return f"{_up(area_m2 / 0.3048**2, 100):.2f} sq ft"
    return f"{_up(area_m2, 100):.2f} m2"


def mass(mass_kg: float, units: str) -> str:
    """Return a mass, up to the next kg or lb; tonnes from one tonne on."""
    if units == "imperial":
        return f"{ceil(mass_kg / KG_PER_LB)} lb"
    return f"{_up(mass_kg / 1000, 100):.2f} t" if mass_kg >= 1000 else f"{ceil(mass_kg)} kg"


def hours(least_h: float, most_h: float) -> str:
    """Return a range of hours: "2 to 5 3/4 h"."""
    return f"{_quarters(least_h)} to {_quarters(most_h)} h"


def _up(value: float, parts: int) -> float:
    """Return a value up to the next of so many parts of one, but for the dust of a float."""
    return ceil(round(value * parts, 6)) / parts


def _quarters(value_h: float) -> str:
    whole, part = divmod(round(value_h * 4), 4)
    fraction = {0: "", 1: "1/4", 2: "1/2", 3: "3/4"}[part]
    return f"{whole} {fraction}".strip() if whole or not fraction else fraction


def filled(text: str, plan: Plan) -> str:
    """Return a text with each "{path}" replaced by the plan's own figure, in its units."""
    return _PATH.sub(lambda match: told_at(plan, match[1]), clean(text, 2000))


def told_at(plan: Plan, path: str) -> str:
    """Return the figure at a path in the plan's units; "?" where there is none."""
    found: Any = plan
    for name, index in _STEP.findall(path):
        found = getattr(found, name, None)
        if index and isinstance(found, tuple):
            found = found[int(index)] if int(index) < len(found) else None
    return "?" if found is None else _written(found, path, plan.units)


def _written(value: Any, path: str, units: str) -> str:
    for ending, write in (("_mm", size), ("_m3", volume), ("_m2", area), ("_kg", mass)):
        if path.endswith(ending) and isinstance(value, float):
            return write(value, units)
    if isinstance(value, float):
        return f"{value:g}"
    return RUNS.get(str(value), clean(str(value)))
