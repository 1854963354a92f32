"""The fewest lines that serve many runs at once: swept across the deck, line after line.

A state is the last two lines; what a run asks of three lines in a row (span, free end, the share
of the span behind) is looked at when the third is put, so that every state's future depends on
nothing but itself. Fewest lines first, then fewest bearers, then the least largest share.
"""

from collections.abc import Sequence
from fractions import Fraction
from functools import cached_property

from attrs import frozen

from drylay.raised.limits import Limits, end_alone

#: Lines, bearers, largest share.
Cost = tuple[int, int, float]
NONE = -1


@frozen(kw_only=True)
class Run:
    """A run across, in 1/320 mm, and at which of the places tried a bearer carries it."""

    start: int
    end: int
    start_held: bool
    end_held: bool
    at: frozenset[int]


@frozen(kw_only=True)
class Sweep:
    """Places tried, how many bearers a line at each is, the runs, the limits."""

    places: tuple[int, ...]
    bearers: tuple[int, ...]
    runs: tuple[Run, ...]
    limits: Limits

    @cached_property
    def alone(self) -> Fraction:
        """Return `end_alone` of the limits, which is asked for each run at each line."""
        return end_alone(self.limits)


def fewest_lines(sweep: Sweep) -> tuple[tuple[int, ...], float] | None:
    """Return the places of the fewest lines and the largest share; None if none serve all runs."""
    if any(not run.at and not hangs(run, sweep.limits) for run in sweep.runs):
        return None
    best: dict[tuple[int, int], tuple[Cost, tuple[int, ...]]] = {}
    count = len(sweep.places)
    on = [tuple(run for run in sweep.runs if line in run.at) for line in range(count)]
    for now in range(count):
        if not _missed(sweep, NONE, now):
            _better(best, (NONE, now), (1, sweep.bearers[now], 0.0), (now,))
        near = {last for last in range(now) if _pairs(sweep, on[last], last, now)}
        for (before, last), (cost, lines) in list(best.items()):
            share = _step(sweep, on[last], before, last, now) if last in near else None
            if share is not None:
                told = (cost[0] + 1, cost[1] + sweep.bearers[now], max(cost[2], share))
                _better(best, (last, now), told, (*lines, now))
    ended = [
        ((*cost[:2], max(cost[2], share)), lines)
        for (before, last), (cost, lines) in best.items()
        if not _missed(sweep, last, NONE)
        and (share := _step(sweep, on[last], before, last, NONE)) is not None
    ]
    if not ended:
        return None
    cost, lines = min(ended)
    return tuple(sweep.places[line] for line in lines), cost[2]


def _pairs(sweep: Sweep, runs: Sequence[Run], last: int, now: int) -> bool:
    """Whether two lines may follow one another for all that spans between them ask."""
    apart = sweep.places[now] - sweep.places[last]
    if apart <= 2 * sweep.limits.half or _missed(sweep, last, now):
        return False
    return apart <= sweep.limits.span or not any(now in run.at for run in runs)


def _better(
    best: dict[tuple[int, int], tuple[Cost, tuple[int, ...]]], state: tuple[int, int], cost: Cost,
    lines: tuple[int, ...],
) -> None:  # fmt: skip
    if state not in best or (cost, lines) < best[state]:
        best[state] = (cost, lines)


def _missed(sweep: Sweep, last: int, now: int) -> bool:
    """Whether a run that needs a bearer has places for one between two lines only."""
    for run in sweep.runs:
        if not run.at:
            continue
        low, high = min(run.at), max(run.at)
        between = (last == NONE or last < low) and (now == NONE or high < now)
        if between and not hangs(run, sweep.limits):
            return True
    return False


def hangs(run: Run, limits: Limits) -> bool:
    """Whether a run is held at both ends and no longer than a span, so that it needs no bearer."""
    return run.start_held and run.end_held and run.end - run.start <= limits.span - limits.span_less


def _step(
    sweep: Sweep, runs: Sequence[Run], before: int, last: int, now: int
) -> float | None:  # fmt: skip
    """Return the largest share of what is settled by a line after two others; None if too much.

    `runs` are those that the middle line carries.
    """
    worst = 0.0
    for run in runs:
        share = _of_run(sweep, run, before if before in run.at else NONE, last,
                        now if now in run.at else NONE)  # fmt: skip
        if share is None:
            return None
        worst = max(worst, share)
    return worst


def _of_run(sweep: Sweep, run: Run, before: int, last: int, now: int) -> float | None:
    """Return the largest share of one run about a line that carries it; None if too much.

    `before` and `now` are the lines that carry it besides, next to that one; NONE for none.
    """
    limits, at = sweep.limits, sweep.places[last]
    behind = sweep.places[before] if before != NONE else _virtual(run, limits, start=True)
    beyond = sweep.places[now] if now != NONE else _virtual(run, limits, start=False)
    if behind is None and beyond is None:
        return None
    found = [0.0]
    for place, side in ((behind, -1), (beyond, 1)):
        if place is not None:
            span = (place - at) * side - limits.span_less
            if span > limits.span - limits.span_less:
                return None
            found.append(span / (limits.span - limits.span_less))
    for place, other, end in ((behind, beyond, at - run.start), (beyond, behind, run.end - at)):
        if place is None and other is not None:
            share = _free(sweep, end, abs(other - at) - limits.span_less)
            if share is None:
                return None
            found.append(share)
    return max(found)


def _virtual(run: Run, limits: Limits, *, start: bool) -> int | None:
    """Return where a support would stand that spans like a held end; None for a free one."""
    half = limits.half if limits.span_less else 0
    if start:
        return run.start - half if run.start_held else None
    return run.end + half if run.end_held else None


def _free(sweep: Sweep, end: int, back: int) -> float | None:
    """Return a free end's share, told from the support's centre; None if it is too long."""
    limits, alone = sweep.limits, sweep.alone
    if end <= limits.half:
        return 0.0
    free, most = end - limits.end_less, limits.back
    # in whole numbers: fractions took a third of the sweep's time
    if end > limits.end_most or (
        most is not None and free * most.denominator > most.numerator * back
    ):
        return None
    return free * alone.denominator / alone.numerator if alone else None


def serves(run: Run, lines: Sequence[int], sweep: Sweep) -> bool:
    """Whether chosen lines, by their numbers, keep all that a run asks: looked at by itself."""
    own = [line for line in lines if line in run.at]
    if not own:
        return hangs(run, sweep.limits)
    chain = [NONE, *own, NONE]
    return all(
        _of_run(sweep, run, chain[n - 1], chain[n], chain[n + 1]) is not None
        for n in range(1, len(chain) - 1)
    )
