"""The same forecasts by seeded simulation: what closed forms are held against."""

from collections.abc import Callable
from math import fsum, sqrt
from random import Random

from drylay.correcting.model import Simulated, Tolerances

#: One run draws from a random source and returns how far off it came out.
Run = Callable[[Random], float]


def simulate(run: Run, *, runs: int, seed: int, limit_mm: float = 2.0) -> Simulated:
    """Return what so many runs come to; the same seed is the same runs on every machine."""
    source = Random(seed)
    found = [run(source) for _ in range(runs)]
    mean = fsum(found) / runs

    def within(limit: float) -> float:
        return sum(abs(each) <= limit for each in found) / runs

    return Simulated(
        runs=runs,
        mean_mm=mean,
        sd_mm=sqrt(fsum((each - mean) ** 2 for each in found) / max(1, runs - 1)),
        within_1_ratio=within(1.0),
        within_2_ratio=within(2.0),
        within_limit_ratio=within(limit_mm),
    )


def simulate_edge(rows: int, tolerances: Tolerances, *, runs: int, seed: int) -> Simulated:
    """Return how far the last edge comes out where nobody measures, all errors normal."""
    each = tolerances

    def run(source: Random) -> float:
        batch, spacer = source.gauss(0, each.batch_mm), source.gauss(0, each.spacer_mm)
        boards = fsum(batch + source.gauss(0, each.width_mm) for _ in range(rows))
        return boards + fsum(spacer + source.gauss(0, each.gap_mm) for _ in range(rows - 1))

    return simulate(run, runs=runs, seed=seed)


def simulate_bearing(
    bearing_mm: float, *, joist_sd_mm: float, end_sd_mm: float, least_mm: float, runs: int,
    seed: int,
) -> tuple[Simulated, float]:  # fmt: skip
    """Return how far an end's bearing comes out from its plan, and how often it has its least."""
    enough = []

    def run(source: Random) -> float:
        off = source.gauss(0, joist_sd_mm) + source.gauss(0, end_sd_mm)
        enough.append(bearing_mm + off >= least_mm)
        return off

    found = simulate(run, runs=runs, seed=seed)
    return found, sum(enough) / runs


def simulate_level(
    point_sd_mm: float, *, points: int, limit_mm: float, runs: int, seed: int
) -> Simulated:
    """Return how far the highest of so many points lies above the lowest."""

    def run(source: Random) -> float:
        heights = [source.gauss(0, point_sd_mm) for _ in range(points)]
        return max(heights) - min(heights)

    return simulate(run, runs=runs, seed=seed, limit_mm=limit_mm)
