"""Hours in words, and texts with the plan's figures filled in."""

import re
from collections.abc import Callable
from typing import Any

from drylay.papers.quantities import area
from drylay.papers.support_text import degrees
from drylay.papers.wording import RUNS, bit, clean, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.units import mass_text, volume_text

_PATH = re.compile(r"\{([a-z_0-9.\[\]]+)\}")
_STEP = re.compile(r"([a-z_0-9]+)(?:\[(\d+)\])?")


def hours(least_h: float, most_h: float) -> str:
    """Return a range of hours: "2 to 5 3/4 h"."""
    return f"{_quarters(least_h)} to {_quarters(most_h)} h"


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


#: How a figure is written, by how its path ends; limits are never rounded past themselves.
WRITTEN: tuple[tuple[str, Callable[[float, str], str]], ...] = (
    *((limit, size_least) for limit in ("edge_least_mm", "end_least_mm", "clear_least_mm")),
    ("spacing_most_mm", size_most),
    ("pilot_mm", bit),
    ("shank_mm", bit),
    ("_mm", size),
    ("_m2", area),
    ("_m3", volume_text),
    ("_kg", mass_text),
    ("_c", degrees),
)


def _written(value: Any, path: str, units: str) -> str:
    for ending, write in WRITTEN:
        if path.endswith(ending) and isinstance(value, float):
            return write(value, units)
    if isinstance(value, float):
        return f"{value:g}"
    return RUNS.get(str(value), clean(str(value)))
