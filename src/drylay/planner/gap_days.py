"""How moist boards are laid, where the gap hangs on it; gaps for boards drier or wetter."""

import math
from fractions import Fraction

from drylay.planner.job import Job
from drylay.surface.model import GapLaidAt, GapsByMoisture

LEAST = "surface.gap_least_mm"
#: Moistures on laying day for which least gaps are told, in per cent.
DAYS_PCT = (10, 12, 14, 16, 18, 20, 22, 24)
#: Gaps are told up to the next of these parts of a millimetre.
TENTHS = 10


def gaps_by_moisture(job: Job, board_width_mm: float) -> GapsByMoisture | None:
    """Return what the least gap hangs on; None where its ruling was not reckoned from moisture.

    Source: Wood Handbook FPL-GTR-190, ch. 13: change of width = width x movement x change of
    moisture; the ruling's own inputs for the numbers.
    """
    told = dict(job.rules.rulings[LEAST].inputs)
    keys = ("laying_pct", "wettest_pct", "movement_per_pct", "year_gap_least_mm")
    laying, wettest, movement, open_mm = (told.get(key) for key in keys)
    if not all(isinstance(each, float | int) for each in (laying, wettest, movement, open_mm)):
        return None
    numbers = tuple(float(each or 0) for each in (laying, wettest, movement, open_mm))
    return GapsByMoisture(
        laying_pct=numbers[0],
        wettest_pct=numbers[1],
        movement_per_pct=numbers[2],
        open_least_mm=numbers[3],
        others=tuple(
            GapLaidAt(laying_pct=float(day), gap_least_mm=_least(day, board_width_mm, numbers[1:]))
            for day in DAYS_PCT
        ),
    )


def _least(day_pct: int, width_mm: float, numbers: tuple[float, ...]) -> float:
    wettest, movement, open_mm = (Fraction(repr(each)) for each in numbers)
    swelling = max(wettest - day_pct, Fraction(0))
    least = open_mm + Fraction(repr(width_mm)) * movement * swelling
    return math.ceil(least * TENTHS) / TENTHS
