"""How far one may fall beside an edge: the ground straight out from it, facet by facet, exactly.

Along an edge its length is told in 1/320 mm times `UNIT`, so that directions are whole numbers.
"""

from collections.abc import Callable, Sequence

from attrs import frozen

from drylay.audit.exact import Fraction, ticks
from drylay.audit.plane import UNIT, Run, run_of
from drylay.guards.model import Edge, Facet

Number = Fraction | int
#: Along the edge and out from it, x UNIT, with the ground's level, all in 1/320 mm.
Place = tuple[Number, Number, Number]
Span = tuple[Number, Number]
#: Ground within 1 mm of a line is taken to reach it.
REACH = 320 * UNIT


@frozen(kw_only=True)
class Beside:
    """What lies beside an edge: its length, the patches of ground that count, where it is known."""

    length: int
    patches: tuple[tuple[Place, ...], ...]
    known: tuple[Span, ...]


def beside(edge: Edge, facets: Sequence[Facet], out_mm: float) -> Beside | None:
    """Return the ground from an edge to so far out; None of an edge without a length."""
    start = (ticks(edge.start.along_mm), ticks(edge.start.across_mm))
    end = (ticks(edge.end.along_mm), ticks(edge.end.across_mm))
    run = run_of(start, end)
    if run is None:
        return None
    length = int(run.told(end)[0] - run.told(start)[0])
    patches = [_patch(run, start, facet) for facet in facets]
    whole = [_strip(patch, length, ticks(out_mm) * UNIT) for patch in patches]
    counted = tuple(tuple(patch) for patch in whole if patch)
    return Beside(length=length, patches=counted, known=_known(counted))


def _patch(run: Run, start: tuple[int, int], facet: Facet) -> list[Place]:
    """Return a facet's corners as they lie to the edge: along it, out from it (to its right)."""
    zero, across = run.told(start)
    found: list[Place] = []
    for spot in facet.corners:
        u, v = run.told((ticks(spot.along_mm), ticks(spot.across_mm)))
        found.append((u - zero, across - v, ticks(spot.level_mm)))
    return found


def _strip(patch: list[Place], length: int, out: int) -> list[Place]:
    for over in (
        lambda place: place[0],
        lambda place: length - place[0],
        lambda place: place[1] + REACH,
        lambda place: out - place[1],
    ):
        patch = kept(patch, over)
    return patch


def kept(patch: Sequence[Place], over: Callable[[Place], Number]) -> list[Place]:
    """Return what of a flat patch is left where `over` is not below 0."""
    found: list[Place] = []
    for at, place in enumerate(patch):
        before = patch[at - 1]
        here, there = over(place), over(before)
        if (here < 0 < there) or (there < 0 < here):
            share = Fraction(there) / (there - here)
            x, y, z = (a + (b - a) * share for a, b in zip(before, place, strict=True))
            found.append((x, y, z))
        if here >= 0:
            found.append(place)
    return found


def _known(patches: Sequence[Sequence[Place]]) -> tuple[Span, ...]:
    """Return where along an edge the ground is known right at it."""
    spans = []
    for patch in patches:
        near = kept(patch, lambda place: REACH - place[1])
        if near:
            spans.append((min(p[0] for p in near), max(p[0] for p in near)))
    return joined(spans, slack=REACH)


def joined(spans: Sequence[Span], *, slack: int = 0) -> tuple[Span, ...]:
    """Return spans put together where they touch, or lie no further apart than the slack."""
    found: list[Span] = []
    for start, end in sorted(spans):
        if found and start <= found[-1][1] + slack:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        else:
            found.append((start, end))
    return tuple(found)


def lacking(whole: Span, taken: Sequence[Span]) -> tuple[Span, ...]:
    """Return what of a span none of the others covers."""
    left, at = [], whole[0]
    for start, end in joined(taken):
        if start > at:
            left.append((at, min(start, whole[1])))
        at = max(at, end)
    return (
        *(span for span in left if span[1] > span[0]),
        *([(at, whole[1])] if at < whole[1] else ()),
    )


def deep_spans(ground: Beside, level: int) -> tuple[Span, ...]:
    """Return where along an edge some ground beside it lies below a level."""
    spans = []
    for patch in ground.patches:
        below = kept(patch, lambda place: level - place[2])
        if any(place[2] < level for place in below):
            spans.append((min(p[0] for p in below), max(p[0] for p in below)))
    return joined(spans)


def lowest(ground: Beside, span: Span) -> Number | None:
    """Return the lowest ground beside a stretch of an edge, None where none is known."""
    start, end = span
    levels: list[Number] = []
    for patch in ground.patches:
        part = kept(kept(patch, lambda place: place[0] - start), lambda place: end - place[0])
        levels += [place[2] for place in part]
    return min(levels, default=None)
