"""Ground fabric: strips from a roll, each lapping the next, laid one way or the other."""

from attrs import frozen

from drylay.groundwork.model import Dig, FabricStrip
from drylay.marks import exact


@frozen(kw_only=True)
class Strips:
    """Strips that run one way: how long each."""

    run: str
    lengths_mm: tuple[float, ...]


def strips_over(breadth_mm: float, *, roll_mm: float, lap_mm: float) -> int:
    """Return the fewest strips that cover a breadth with laps of at least `lap_mm`.

    n strips reach over n x roll - (n - 1) x lap. `lap_mm` is below `roll_mm`.
    """
    breadth, roll, lap = exact(breadth_mm), exact(roll_mm), exact(lap_mm)
    return max(1, -(-(breadth - lap) // (roll - lap)))


def both_ways(dig: Dig, *, roll_mm: float, lap_mm: float) -> tuple[Strips, Strips]:
    """Return the strips over a dig along the house, and away from it."""
    sides = (("along", dig.along_mm, dig.across_mm), ("across", dig.across_mm, dig.along_mm))
    along, across = (
        Strips(
            run=run,
            lengths_mm=(length_mm,) * strips_over(breadth_mm, roll_mm=roll_mm, lap_mm=lap_mm),
        )
        for run, length_mm, breadth_mm in sides
    )
    return along, across


def named(strips: Strips) -> tuple[FabricStrip, ...]:
    """Return strips with their marks, from the datum."""
    return tuple(
        FabricStrip(mark=f"G{number}", length_mm=length_mm)
        for number, length_mm in enumerate(strips.lengths_mm, start=1)
    )
