"""Step points further out than sizes are planned: found by dry counts, then designed."""

from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from drylay.compare.step_figures import COUNTS
from drylay.compare.step_found import Point, amounts
from drylay.compare.step_model import Step
from drylay.compare.step_sweep import APART_320, SIZES, Looker, Walk, look, values_about
from drylay.compare.step_told import step_of
from drylay.compare.step_ways import not_told
from drylay.errors import BriefError
from drylay.findings import Finding
from drylay.planner.dry_counts import DryCounts, dry_counts, not_counted
from drylay.reasons import Source

#: Dry counts by the names that a plan's figures have for them.
DRY = {"rows": "rows", "rips": "rips", "joints": "jointed", "joists": "joists",
       "noggins": "noggins"}  # fmt: skip
COUNTED_DRY = Source(
    kind="arithmetic",
    title="docs/step-points.md",
    clause="counted dry at every value on the way, designed and audited on both sides of the step",
)


@frozen(kw_only=True)
class DryWalk:
    """Sizes in rising order with the dry counts at each; `here` counts to the brief's own."""

    path: str
    values_mm: tuple[float, ...]
    counts: tuple[DryCounts | None, ...]
    here: int


def why_not_far(looker: Looker, paths: tuple[str, ...]) -> tuple[Finding, ...]:
    """Return the note on sizes that are not looked at any further, nothing where they are."""
    why = not_counted(looker.glances, looker.brief)
    asked = bool(why) and not set(paths).isdisjoint(SIZES)
    return (not_told("further out", f"not looked at: {why}"),) if asked else ()


def far_steps(looker: Looker, walks: Sequence[Walk], reach_mm: float) -> tuple[Step, ...]:
    """Return the steps beyond what was planned, as far as dry counts tell them and designs agree.

    Raises:
        Cancelled: The cancel token was set.
    """
    if not_counted(looker.glances, looker.brief):
        return ()
    near = [walked for walked in walks if walked.path in SIZES]
    return tuple(step for walked in near for step in _far(looker, walked, reach_mm))


def _far(looker: Looker, near: Walk, reach_mm: float) -> Iterator[Step]:
    far = dry_walk(looker, near.path, near.here_mm, reach_mm)
    for point in far_points(far):
        inside = near.values_mm[0] <= far.values_mm[point.at] <= near.values_mm[-1]
        if not inside and (agreed := _agreed(looker, far, point)):
            step = step_of(looker, far.path, far.values_mm, far.here, agreed)
            yield evolve(step, effect=evolve(step.effect, source=COUNTED_DRY))


def dry_walk(looker: Looker, path: str, here_mm: float, reach_mm: float) -> DryWalk:
    """Return the dry counts at every size within reach."""
    values_mm = values_about(here_mm, reach_mm, APART_320[looker.brief.units])
    return DryWalk(
        path=path,
        values_mm=values_mm,
        counts=tuple(_dry(looker, path, value_mm) for value_mm in values_mm),
        here=values_mm.index(here_mm),
    )


def _dry(looker: Looker, path: str, value_mm: float) -> DryCounts | None:
    looker.told(f"{path} {value_mm:g}, counted")
    name = path.split(".")[1]
    cover = evolve(looker.brief.cover, **{name: value_mm})
    try:
        return dry_counts(looker.glances, evolve(looker.brief, cover=cover))
    except BriefError:
        return None


def far_points(walked: DryWalk) -> Iterator[Point]:
    """Yield where there is less of something than at every size nearer to the brief's."""
    last = len(walked.counts) - 1
    for way in (range(walked.here, last + 1), range(walked.here, -1, -1)):
        yield from _outwards(walked.counts, way)


def _outwards(counts: Sequence[DryCounts | None], way: range) -> Iterator[Point]:
    here = counts[way[0]]
    if here is None:
        return
    least = _amounts(here)
    for number in range(1, len(way)):
        found = counts[way[number]]
        now = {} if found is None else _amounts(found)
        fewer = tuple(word for word in now if now[word] < least[word])
        least |= {word: now[word] for word in fewer}
        if fewer:
            holds_to = way[_held(counts, way, number, fewer)]
            yield Point(kind="saves", at=way[number], before=way[number - 1], fewer=fewer,
                        holds_to=holds_to)  # fmt: skip


def _held(
    counts: Sequence[DryCounts | None], way: range, number: int, fewer: tuple[str, ...]
) -> int:
    """Return how far on what a step brought still is so, in one go."""
    at = counts[way[number]]
    assert at is not None
    while number + 1 < len(way):
        further = counts[way[number + 1]]
        if further is None or any(_amounts(further)[w] > _amounts(at)[w] for w in fewer):
            break
        number += 1
    return number


def _amounts(found: DryCounts) -> dict[str, int]:
    return {COUNTS[name][0]: getattr(found, dry) for name, dry in DRY.items()}


def _agreed(looker: Looker, walked: DryWalk, point: Point) -> Point | None:
    """Return a point with what plans agree to, of either side of it and of the brief's own."""
    to_mm, last_mm = walked.values_mm[point.at], walked.values_mm[point.before]
    there, before = look(looker, walked.path, to_mm), look(looker, walked.path, last_mm)
    here = look(looker, "", None)
    if there.stops or before.stops or here.stops:
        return None
    now, then, own = amounts(there), amounts(before), amounts(here)
    fewer = tuple(word for word in point.fewer if now[word] < min(then[word], own[word]))
    return evolve(point, fewer=fewer) if fewer else None
