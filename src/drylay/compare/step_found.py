"""Step points found in a walk outwards from the brief: where there is fewer of something."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from attrs import frozen

from drylay.compare.step_figures import COUNTS, ORDER
from drylay.compare.step_model import Figures
from drylay.compare.step_sweep import Walk

#: Kinds of steps in the order in which they are told.
KINDS = ("unblocks", "saves", "adds", "blocks")


@frozen(kw_only=True)
class Point:
    """A place in a walk where something changes, seen outwards: `at` counts to the value.

    `before` is the value last passed, `holds_to` the last in one go with it.
    """

    kind: str
    at: int
    before: int
    holds_to: int
    fewer: tuple[str, ...] = ()
    more: tuple[str, ...] = ()


def amounts(figures: Figures) -> dict[str, int | Decimal]:
    """Return what is told of a plan, by what it is called: what it does not have is left out."""
    found = {word: getattr(figures, name) for name, (word, _) in COUNTS.items()}
    found[ORDER] = figures.total
    return {word: amount for word, amount in found.items() if amount is not None}


def points_of(walked: Walk) -> Iterator[Point]:
    """Yield every step of a walk, up from the brief's value and then down from it.

    A step saves where there is less of something than at every value nearer to the brief's. It adds
    where there is more of something than at all of them, the first time. It blocks where a plan can
    no longer be built; of a plan that is blocked the nearest value that unblocks it is the step.
    """
    last = len(walked.figures) - 1
    for way in (range(walked.here, last + 1), range(walked.here, -1, -1)):
        yield from _outwards(walked.figures, way)


def _outwards(figures: Sequence[Figures], way: range) -> Iterator[Point]:
    here = figures[way[0]]
    if here.stops:
        yield from _unblocked(figures, way)
        return
    least, added, first = amounts(here), set[str](), amounts(here)
    for number in range(1, len(way)):
        at, before = way[number], way[number - 1]
        if figures[at].stops:
            if not figures[before].stops:
                yield _point(figures, way, number, kind="blocks")
            continue
        now = amounts(figures[at])
        fewer = tuple(word for word in least if word in now and now[word] < least[word])
        more = tuple(w for w in first if w in now and now[w] > first[w] and w not in added)
        least |= {word: now[word] for word in fewer}
        added |= set(more)
        if fewer or more:
            kind = "saves" if fewer else "adds"
            yield _point(figures, way, number, kind=kind, fewer=fewer, more=more)


def _unblocked(figures: Sequence[Figures], way: range) -> Iterator[Point]:
    number = next((n for n, at in enumerate(way) if not figures[at].stops), None)
    if number is not None:
        yield _point(figures, way, number, kind="unblocks")


def _point(
    figures: Sequence[Figures], way: range, number: int, *, kind: str,
    fewer: tuple[str, ...] = (), more: tuple[str, ...] = (),
) -> Point:  # fmt: skip
    held = number
    while held + 1 < len(way) and _holds(figures[way[number]], figures[way[held + 1]], fewer, more):
        held += 1
    return Point(
        kind=kind, at=way[number], before=way[number - 1], holds_to=way[held],
        fewer=fewer, more=more,
    )  # fmt: skip


def _holds(at: Figures, further: Figures, fewer: tuple[str, ...], more: tuple[str, ...]) -> bool:
    """Whether what a step brought still is so further out: built, or blocked, as there."""
    if bool(at.stops) != bool(further.stops):
        return False
    one, other = amounts(at), amounts(further)
    kept = all(word in other and other[word] <= one[word] for word in fewer)
    return kept and all(word in other and other[word] >= one[word] for word in more)


def free_to(walked: Walk) -> tuple[int, int | None]:
    """Return how far up a walk no value costs more than the brief's, and the next that does.

    Of a plan that is not blocked; a blocked value costs more.
    """
    here = walked.figures[walked.here].total
    assert here is not None
    for at in range(walked.here + 1, len(walked.figures)):
        total = walked.figures[at].total
        if total is None or total > here:
            return at - 1, at
    return len(walked.figures) - 1, None
