"""The words that certain texts of a plan, a brief or a catalogue must be one of."""

from drylay.brief.model import (
    ENDS,
    LINE_CHOICES,
    RUNS,
    SIDES,
    UNITS,
    USES,
    WAYS_OUT,
    BoardWish,
    Brief,
    FasciaWish,
    FrameWish,
    RowsWish,
)
from drylay.edges.model import FasciaFace
from drylay.materials.model import RULES, ArticleRule
from drylay.plan.model import Plan
from drylay.reasons import SOURCE_KINDS, Source
from drylay.surface.model import Surface, WayOut

Words = dict[tuple[type, str], tuple[str, ...]]

WORDS: Words = {
    (Plan, "units"): UNITS,
    (Plan, "use"): USES,
    (Surface, "run"): RUNS,
    (Surface, "way_out"): WAYS_OUT,
    (WayOut, "kind"): WAYS_OUT,
    (WayOut, "run"): RUNS,
    (FasciaFace, "side"): SIDES,
    (Source, "kind"): SOURCE_KINDS,
}

#: What a brief and a catalogue may say; of a list, what each of its words may be.
INPUT_WORDS: Words = {
    (Brief, "units"): UNITS,
    (Brief, "use"): USES,
    (BoardWish, "run"): RUNS,
    (BoardWish, "ends"): ENDS,
    (FrameWish, "lines"): LINE_CHOICES,
    (FasciaWish, "sides"): SIDES,
    (RowsWish, "prefer"): WAYS_OUT,
    (ArticleRule, "rule"): tuple(RULES),
    (Source, "kind"): SOURCE_KINDS,
}
