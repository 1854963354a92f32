"""Puts joist lines closer than they need to be, where the brief wants the cheapest number."""

from decimal import Decimal
from math import ceil

from attrs import evolve

from drylay.planner.build import Candidate, build
from drylay.planner.built import Built
from drylay.planner.cuts import Cutter
from drylay.planner.job import Job
from drylay.planner.pairs import on_pairs
from drylay.reasons import TurnedDown

#: Closer joists than this are not worth trying. Common practice, no source.
CLOSEST_CENTRES_MM = 300.0


def closer_lines(job: Job, chosen: Candidate, first: Built) -> tuple[Built, tuple[TurnedDown, ...]]:
    """Return the built deck, with more joist lines where the brief wants the cheapest count.

    Bounded: counts are tried up to the fewest for CLOSEST_CENTRES_MM. Each is built in the quick
    mode first; one is proven only if its own bound leaves it a chance. Over pairs, boards joint at
    the seams alone: more joists between them would only cost more.
    """
    best = first
    if job.brief.frame.lines == "fewest" or on_pairs(job):
        return best, ()
    quick = Cutter(job=job, mode="quick")
    proven = Cutter(job=job)
    tries = {best.supports.line_count: best}
    span_mm = best.edges.frame_length_mm - best.supports.joist_thickness_mm
    most_lines = ceil(span_mm / CLOSEST_CENTRES_MM) + 1
    for more in range(1, most_lines - best.supports.line_count + 1):
        candidate = evolve(chosen, more_lines=chosen.more_lines + more)
        built = build(quick, candidate)
        if isinstance(built, Built) and _least(built) < _reckoned(best):
            built = build(proven, candidate)
        if isinstance(built, Built) and not built.stood.short_of_strength:
            tries[built.supports.line_count] = built
            best = min(best, built, key=_reckoned)
    turned_down = [
        TurnedDown(value=count, because=f"dearer: {_reckoned(built)} with its joints")
        for count, built in tries.items()
        if built is not best
    ]
    return best, tuple(turned_down)


def _reckoned(built: Built) -> Decimal:
    """Return the order with its joints at their price."""
    joints = sum((bought.joint_cost for bought in built.buying.purchases), Decimal(0))
    return built.buying.order_total + joints


def _least(built: Built) -> Decimal:
    """Return what boards and timber cost at least, with their joints.

    Nothing else is in it: with other joints there are other screws and sawn ends to buy for.
    """
    return sum((bought.bound for bought in built.buying.purchases), Decimal(0))
