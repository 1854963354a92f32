"""What would make guards' posts pass at their feet: each single change that does, nearest first."""

from collections.abc import Callable, Iterable, Iterator

from attrs import evolve

from drylay.planner.job import Job
from drylay.planner.screening import Screen, one_ply
from drylay.strength.checks import passes
from drylay.strength.model import GuardPostAsked

#: By which steps washers and distances between bolts are tried, in mm. Assumption.
STEP_MM = 5.0
#: No larger washer is tried. Assumption.
WASHER_MOST_MM = 100.0


def nearest_change(
    job: Job, screen: Screen, asked: GuardPostAsked, spacings: Iterable[float]
) -> str:
    """Return in words which single changes would pass, or that none that was tried does.

    Posts closer together, bolts further apart and larger washers as far as the frame's edge has
    room, and other graded posts of the stock.
    """
    asks = screen.basis.guard_post
    assert asks is not None

    def passing(change: GuardPostAsked) -> bool:
        return passes(asks(change, screen.use))

    found = [
        *_first(passing, ((f"posts no further apart than {mm:g} mm", evolve(asked, centres_mm=mm))
                          for mm in spacings)),
        *_first(passing, ((f"bolts {mm:g} mm apart", evolve(asked, bolts_mm=mm))
                          for mm in _steps(asked.bolts_mm, asked.edge.depth_mm - asked.washer_mm))),
        *_first(passing, ((f"washers {mm:g} mm across", evolve(asked, washer_mm=mm))
                          for mm in _steps(asked.washer_mm, _washer_most_mm(asked)))),
        *_first(passing, _other_posts(job, asked)),
    ]  # fmt: skip
    if found:
        return "within the screened limits with " + ", or with ".join(found)
    return (
        "no single change passes of posts, spacing, bolts and washers on sale or with room: a "
        "deeper frame's edge, or hardware that a licensed person names"
    )


Change = tuple[str, GuardPostAsked]


def _first(passing: Callable[[GuardPostAsked], bool], changes: Iterable[Change]) -> list[str]:
    return next(([said] for said, change in changes if passing(change)), [])


def _steps(start_mm: float, most_mm: float) -> Iterator[float]:
    at = (start_mm // STEP_MM + 1) * STEP_MM
    while at <= most_mm:
        yield at
        at += STEP_MM


def _washer_most_mm(asked: GuardPostAsked) -> float:
    """Return how large washers may be: no broader than the post, nor over one another."""
    room = asked.edge.depth_mm - asked.bolts_mm
    return min(WASHER_MOST_MM, asked.section.breadth_mm, asked.bolts_mm, room)


def _other_posts(job: Job, asked: GuardPostAsked) -> Iterator[Change]:
    """Yield other graded posts of the stock no thinner than this, the lightest first."""
    own = asked.section
    others = [
        timber for timber in job.stock.timbers
        if timber.strength_class and timber.thickness_mm >= own.breadth_mm
        and timber.depth_mm >= own.depth_mm
    ]  # fmt: skip
    for timber in sorted(others, key=lambda each: (each.thickness_mm * each.depth_mm, each.code)):
        section, wood = one_ply(timber), timber.strength_class
        yield f"posts of {timber.code}", evolve(asked, section=section, wood=wood)
