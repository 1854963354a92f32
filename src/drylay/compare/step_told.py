"""Step points as they are told: with what they save, each designed and audited on both sides."""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from math import ceil

from attrs import evolve

from drylay.compare.step_figures import area_m2, changes_of, figures_of, findings_between
from drylay.compare.step_found import KINDS, Point, amounts, free_to, points_of
from drylay.compare.step_model import Effect, Figures, FreeSize, Step, Swap
from drylay.compare.step_sweep import NO_BRIEF, SIZES, Looker, Walk, designed, look
from drylay.compare.step_ways import not_told
from drylay.errors import PlannerFault
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.plan.model import Plan
from drylay.reasons import Source

DESIGNED = Source(
    kind="arithmetic",
    title="docs/step-points.md",
    clause="planned at every value on the way, designed and audited on both sides of the step",
)
#: Areas are told by so many parts of a square metre: what is lost up to the next, what is won down.
AREA_PARTS = 10_000


def steps_of(looker: Looker, walks: list[Walk]) -> tuple[Step, ...]:
    """Return the steps of all walks.

    Raises:
        PlannerFault: A design comes to something else than the same plan at a glance.
    """
    return tuple(
        step_of(looker, walked.path, walked.values_mm, walked.here, point)
        for walked in walks
        for point in points_of(walked)
    )


def in_order(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Return steps by kind, and within a kind the smallest change first."""
    return tuple(
        sorted(steps, key=lambda step: (KINDS.index(step.effect.kind), abs(step.change_mm)))
    )


def step_of(looker: Looker, path: str, values_mm: Sequence[float], here: int, point: Point) -> Step:
    """Return a point as a step, designed on both its sides.

    Raises:
        PlannerFault: A design comes to something else than the same plan at a glance.
    """
    to_value_mm, here_mm = values_mm[point.at], values_mm[here]
    last_mm = values_mm[point.before]
    _checked(looker, path, None if point.before == here else last_mm)
    there = _checked(looker, path, to_value_mm)
    return Step(
        path=path,
        from_mm=here_mm,
        last_mm=last_mm,
        to_mm=to_value_mm,
        change_mm=to_mm(exact(to_value_mm) - exact(here_mm)),
        holds_to_mm=values_mm[point.holds_to],
        effect=_effect(looker, there, point.kind, point.fewer, point.more),
    )


def _checked(looker: Looker, path: str, value: object) -> Plan | None:
    """Return the whole design at a value, held against what was seen of it at a glance.

    Raises:
        PlannerFault: They differ.
    """
    plan, seen = designed(looker, path, value), look(looker, path, value)
    found = Figures(stops=(NO_BRIEF,)) if plan is None else figures_of(plan)
    if found != seen:
        raise PlannerFault((_unlike(path, value),))
    return plan


def _unlike(path: str, value: object) -> Finding:
    return Finding(
        code="STP-002",
        severity=Severity.STOP,
        subject=path or "the brief",
        message=f"designed at {value}, it comes to something else than at a glance",
        source=DESIGNED,
    )


def _effect(
    looker: Looker, there: Plan | None, kind: str, fewer: tuple[str, ...], more: tuple[str, ...]
) -> Effect:
    here = _checked(looker, "", None)
    effect = Effect(
        kind=kind, fewer=fewer, more=more, currency=looker.glances.stock.currency, source=DESIGNED
    )
    if here is None or there is None:
        return effect
    gained, lost = findings_between(here, there)
    return evolve(
        effect,
        changes=changes_of(here, there) if kind != "blocks" else (),
        saving=_saving(here, there),
        area_lost_m2=_less_area_m2(here, there),
        gained=gained,
        lost=lost,
    )


def _saving(here: Plan, there: Plan) -> Decimal | None:
    if here.buying is None or there.buying is None:
        return None
    return here.buying.total - there.buying.total


def _less_area_m2(here: Plan, there: Plan) -> float | None:
    one, other = area_m2(here), area_m2(there)
    if one is None or other is None:
        return None
    # a millionth of a part less: what floats add to a whole number of parts
    return ceil((one - other) * AREA_PARTS - 1e-6) / AREA_PARTS


def swapped(
    looker: Looker, words: list[tuple[str, str]]
) -> tuple[tuple[Swap, ...], tuple[Finding, ...]]:
    """Return what other words in the brief change, nearest in cost first; and notes on the rest.

    Raises:
        PlannerFault: A design comes to something else than the same plan at a glance.
    """
    swaps, untold = [], []
    for path, word in words:
        looker.told(f"{path} {word}")
        figures = look(looker, path, word)
        if figures.stops:
            why = f"with {word} it cannot be built: {', '.join(figures.stops)}"
            untold.append(not_told(path, why))
        elif figures != look(looker, "", None):
            swaps.append(_swap(looker, path, word))
    ordered = sorted(swaps, key=lambda swap: (KINDS.index(swap.effect.kind), _dearer(swap)))
    return tuple(ordered), tuple(untold)


def _swap(looker: Looker, path: str, word: str) -> Swap:
    here, there = look(looker, "", None), look(looker, path, word)
    one, other = amounts(here), amounts(there)
    fewer = tuple(name for name in one if name in other and other[name] < one[name])
    more = tuple(name for name in one if name in other and other[name] > one[name])
    kind = "unblocks" if here.stops else "saves" if fewer else "adds"
    board = looker.brief.board
    return Swap(
        path=path,
        from_word=getattr(board, path.split(".")[1]),
        to_word=word,
        effect=_effect(looker, _checked(looker, path, word), kind, fewer, more),
    )


def _dearer(swap: Swap) -> Decimal:
    return -(swap.effect.saving or Decimal(0))


def free_sizes_of(looker: Looker, walks: list[Walk]) -> tuple[FreeSize, ...]:
    """Return how much more size is free, each way; nothing of a plan that is blocked."""
    if look(looker, "", None).stops:
        return ()
    return tuple(_free(looker, walked) for walked in walks if walked.path in SIZES)


def _free(looker: Looker, walked: Walk) -> FreeSize:
    at, beyond = free_to(walked)
    path, here_mm, to_value_mm = walked.path, walked.here_mm, walked.values_mm[at]
    here = _checked(looker, "", None)
    there = _checked(looker, path, to_value_mm) if at != walked.here else here
    assert here is not None  # neither is blocked
    assert there is not None
    won = _less_area_m2(here, there)
    dearer = None if beyond is None else walked.figures[beyond].total
    cost = walked.figures[walked.here].total
    return FreeSize(
        path=path,
        from_mm=here_mm,
        to_mm=to_value_mm,
        free_mm=to_mm(exact(to_value_mm) - exact(here_mm)),
        area_m2=None if won is None else -won + 0.0,
        next_mm=None if beyond is None else walked.values_mm[beyond],
        extra=None if dearer is None or cost is None else dearer - cost,
        currency=looker.glances.stock.currency,
    )
