"""The words that certain texts of a plan must be one of."""

from drylay.brief.model import RUNS, SIDES, UNITS, USES, WAYS_OUT
from drylay.edges.model import FasciaFace
from drylay.plan.model import Plan
from drylay.reasons import SOURCE_KINDS, Source
from drylay.surface.model import Surface, WayOut

WORDS: dict[tuple[type, str], tuple[str, ...]] = {
    (Plan, "units"): UNITS,
    (Plan, "use"): USES,
    (Surface, "run"): RUNS,
    (Surface, "way_out"): WAYS_OUT,
    (WayOut, "kind"): WAYS_OUT,
    (WayOut, "run"): RUNS,
    (FasciaFace, "side"): SIDES,
    (Source, "kind"): SOURCE_KINDS,
}
