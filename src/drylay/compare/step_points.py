"""What would change a deck: the smallest changes of its brief that save or cost something."""

from collections.abc import Callable, Iterable

from attrs import evolve

from drylay.brief.model import Brief
from drylay.compare.step_far import far_steps, why_not_far
from drylay.compare.step_model import StepPoints
from drylay.compare.step_sweep import APART_320, SIZES, Looker, look, sweep_of, values_about, walk
from drylay.compare.step_told import free_sizes_of, in_order, steps_of, swapped
from drylay.compare.step_ways import Way, checked_paths, swaps_of, ways_of
from drylay.counting import counted
from drylay.marks import to_mm
from drylay.materials.stock_model import Catalogue
from drylay.planner.glance import Glances
from drylay.planner.job import CancelToken, Progress
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_families, installed_local_rules
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

#: How far sizes are looked at where nobody says otherwise.
WITHIN_MM = 40.0
#: How far beyond that they are counted before anything is cut.
COUNTS_WITHIN_MM = 200.0


@counted
def what_would_change(
    brief: Brief,
    *,
    stock: Catalogue,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
    within_mm: float = WITHIN_MM,
    counts_within_mm: float = COUNTS_WITHIN_MM,
    paths: Iterable[str] | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> StepPoints:
    """Return the smallest changes of a brief that save or cost something, at their exact points.

    The deck is planned at every value within reach, a whole millimetre apart (a sixteenth of an
    inch in an imperial brief; gaps lie a pencil mark apart), so that none is missed: purchases do
    not rise evenly with size. Each step is then designed and audited on both its sides.

    Args:
        brief: What is wanted; its plan may be blocked.
        stock: The merchant's stock: other boards come from it.
        families: Whose rules to use; by default those of the installed plugins.
        local_rules: What each plan is held against besides; by default those of the installed
            plugins.
        bases: Among which the design basis is looked for that the brief names.
        within_mm: How far up and down each size is looked at, in mm; above 0, 1000 at most.
        counts_within_mm: How far rows, joists and noggins are counted beyond that, for the steps
            that save some; no further than `within_mm` where it is less.
        paths: What to change, of `PATHS`; by default all of them.
        progress: Called as `progress(step, done, total)`, one for each plan looked at.
        cancel: Asked `is_set()` between looks and while cutting.

    Raises:
        InputError: `within_mm` or `paths` cannot be used.
        BriefError: The stock does not hold an article the brief names, or nothing supplies its
            design basis, region or soil.
        Cancelled: The cancel token was set.
        PlannerFault: The audit stopped a plan the planner thought sound, or a design came to
            something else than the same plan at a glance.
    """
    wanted = checked_paths(within_mm, counts_within_mm, paths)
    glances = Glances(
        stock=stock,
        families=asked_once(installed_families() if families is None else families),
        local_rules=installed_local_rules() if local_rules is None else local_rules,
        bases=bases,
        cancel=cancel,
    )
    looker = Looker(brief=brief, glances=glances)
    ways, untold = ways_of(looker, wanted, within_mm)
    words = swaps_of(looker, wanted)
    unseen = why_not_far(looker, wanted)
    reach_mm = 0.0 if unseen else counts_within_mm
    looker = evolve(
        looker, told=_counter(progress, ways, words, (reach_mm, APART_320[brief.units]))
    )
    walks = [walk(looker, way.path, way.here_mm, way.values_mm) for way in ways]
    swaps, unlike = swapped(looker, words)
    told = StepPoints(
        title=brief.title,
        units=brief.units,
        currency=stock.currency,
        apart_mm=to_mm(APART_320[brief.units]),
        within_mm=within_mm,
        counts_within_mm=reach_mm,
        here=look(looker, "", None),
        steps=in_order((*steps_of(looker, walks), *far_steps(looker, walks, reach_mm))),
        swaps=swaps,
        free_sizes=free_sizes_of(looker, walks),
        sweeps=tuple(map(sweep_of, walks)),
        untold=(*untold, *unseen, *unlike),
    )
    looker.told("done")
    return told


def _counter(
    progress: Progress | None, ways: list[Way], words: list[tuple[str, str]], far: tuple[float, int]
) -> Callable[[str], None]:
    """Return what is called at every look, and at the end: it counts them."""
    reach_mm, apart_320 = far
    counted = sum(
        len(values_about(way.here_mm, reach_mm, apart_320))
        for way in ways
        if reach_mm and way.path in SIZES
    )
    total = sum(len(way.values_mm) for way in ways) + len(words) + counted
    count = iter(range(total + 1))

    def told(name: str) -> None:
        if progress is not None:
            progress(name, next(count), total)

    return told
