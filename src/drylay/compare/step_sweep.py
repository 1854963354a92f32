"""A brief looked at with one of its figures changed, at every value within reach."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import groupby, pairwise

from attrs import evolve, field, frozen

from drylay.brief.model import Brief
from drylay.compare.step_figures import figures_of
from drylay.compare.step_model import Figures, Flat, Sweep
from drylay.errors import BriefError
from drylay.marks import MARK_320, PER_MM, exact, to_mm
from drylay.plan.model import Plan
from drylay.planner.design import design
from drylay.planner.glance import Glances, glance

#: How far apart sizes are looked at: whole millimetres, or the sixteenths of an inch of a rule.
APART_320 = {"metric": PER_MM, "imperial": MARK_320["imperial"]}
SIZES = ("cover.along_mm", "cover.across_mm")
GAP, CENTRES, TOP = "gap.preferred_mm", "frame.most_centres_mm", "levels.deck_top_mm"
#: What stands for the stops of a brief that nothing can be planned from.
NO_BRIEF = "brief"


@frozen(kw_only=True)
class Looker:
    """A brief with what it is planned from and by, and what was seen of it so far.

    `designs` are whole plans, audited, by path and value; `told` is called at every look.
    """

    brief: Brief
    glances: Glances
    told: Callable[[str], None] = lambda _: None
    seen: dict[tuple[str, object], Figures] = field(factory=dict)
    designs: dict[tuple[str, object], Plan | None] = field(factory=dict)


@frozen(kw_only=True)
class Walk:
    """Values in rising order with what the plan comes to at each; `here` counts to the brief's."""

    path: str
    apart_mm: float
    values_mm: tuple[float, ...]
    figures: tuple[Figures, ...]
    here: int

    @property
    def here_mm(self) -> float:
        """Return the brief's own value."""
        return self.values_mm[self.here]


def values_about(
    here_mm: float, within_mm: float, apart_320: int, *, least_mm: float | None = 0.0
) -> tuple[float, ...]:
    """Return every value within reach of one, that one among them, all of them above the least."""
    here, reach = exact(here_mm), exact(within_mm) // apart_320
    counted = (to_mm(here + step * apart_320) for step in range(-reach, reach + 1))
    return tuple(value_mm for value_mm in counted if least_mm is None or value_mm > least_mm)


def walk(looker: Looker, path: str, here_mm: float, values_mm: tuple[float, ...]) -> Walk:
    """Return what the plan comes to at every value of one figure of the brief.

    Raises:
        Cancelled: The cancel token was set.
    """
    figures = []
    for value_mm in values_mm:
        looker.told(f"{path} {value_mm:g}")
        figures.append(look(looker, path, value_mm if value_mm != here_mm else None))
    apart = [after - before for before, after in pairwise(values_mm)]
    return Walk(
        path=path,
        apart_mm=min(apart, default=0.0),
        values_mm=values_mm,
        figures=tuple(figures),
        here=values_mm.index(here_mm),
    )


def look(looker: Looker, path: str, value: object) -> Figures:
    """Return what the plan comes to with another value at a path; None for the brief's own."""
    key = _key(path, value)
    if key not in looker.seen:
        looker.seen[key] = _figures(looker, partial(_changed, looker, *key))
    return looker.seen[key]


def _key(path: str, value: object) -> tuple[str, object]:
    return ("", None) if value is None else (path, value)


def _figures(looker: Looker, changed: Callable[[], Brief]) -> Figures:
    try:
        return figures_of(glance(looker.glances, changed()))
    except BriefError:
        return Figures(stops=(NO_BRIEF,))


def _changed(looker: Looker, path: str, value: object) -> Brief:
    """Return the brief with another value; another board's own width has not been measured."""
    if not path:
        return looker.brief
    brief = looker.brief
    if path == "board.article":
        brief = evolve(brief, board=evolve(brief.board, measured_width_mm=None))
    return brief.replace(path, value)


def designed(looker: Looker, path: str, value: object) -> Plan | None:
    """Return the whole plan, audited, with another value; None where the brief cannot be used.

    Raises:
        PlannerFault: The audit stopped a plan the planner thought sound.
        Cancelled: The cancel token was set.
    """
    key = _key(path, value)
    if key not in looker.designs:
        looker.designs[key] = _design(looker, *key)
    return looker.designs[key]


def _design(looker: Looker, path: str, value: object) -> Plan | None:
    glances = looker.glances
    try:
        return design(
            _changed(looker, path, value), stock=glances.stock, families=glances.families,
            local_rules=glances.local_rules, bases=glances.bases, cancel=glances.cancel,
        )  # fmt: skip
    except BriefError:
        return None


def sweep_of(walked: Walk) -> Sweep:
    """Return a walk as flats of values that come to the same."""
    return Sweep(
        path=walked.path,
        here_mm=walked.here_mm,
        apart_mm=walked.apart_mm,
        flats=tuple(_flats(walked)),
    )


def _flats(walked: Walk) -> Iterator[Flat]:
    pairs = zip(walked.values_mm, walked.figures, strict=True)
    for figures, same in groupby(pairs, key=lambda pair: pair[1]):
        values_mm = [value_mm for value_mm, _ in same]
        yield Flat(first_mm=values_mm[0], last_mm=values_mm[-1], figures=figures)
