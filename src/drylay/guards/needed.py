"""Where edges need a guard, from real drops, and how stretches join round corners."""

from collections.abc import Iterator
from math import ceil, floor, hypot

from drylay.findings import Finding, Severity
from drylay.guards.ground import (
    CLOSED,
    REACH_MM,
    Beside,
    Slope,
    Span,
    edge_mm,
    ground_beside,
    united,
    without,
)
from drylay.guards.model import Edge, Facet, GuardRun, Stretch
from drylay.marks import MARK_320, PER_MM, to_mm
from drylay.reasons import Source
from drylay.regions.model import Limit

_ASSUMED = Source(kind="assumption", title="a drop that nobody knows is taken to need a guard")
_POOLS = Source(kind="assumption", title="what drylay screens", clause="pool barriers are not")


def guard_stretches(
    edge: Edge,
    facets: tuple[Facet, ...],
    *,
    trigger: Limit,
    out_mm: float,
    mark_320: int = MARK_320["metric"],
) -> tuple[Stretch, ...]:
    """Return the stretches of an edge that need a guard, in order, outwards to pencil marks.

    A stretch needs one where any ground straight out from it, up to `out_mm`, lies further below
    the deck's top than the trigger; and where no ground is known at the edge. Passages are left
    out. Ground out from a corner only, beyond both its edges, is `corner_findings`.

    Args:
        trigger: The region's `guard_trigger_mm`.
        out_mm: The region's `guard_measured_out_mm`.

    Source: the region's limits; that a drop nobody knows needs a guard is an assumption.
    """
    if edge.kind in CLOSED:
        return ()
    beside = ground_beside(edge, facets, out_mm)
    whole = (0.0, edge_mm(edge))
    unknown = _unknown(whole, beside.at_edge)
    deep = [span for slope in beside.slopes if (span := _deep(slope, edge.top_mm, trigger))]
    rounded = united(tuple(_outwards(span, whole, mark_320) for span in [*deep, *unknown]))
    kept = [part for span in rounded for part in without(span, _passages(edge))]
    return tuple(_stretch(edge, span, beside, unknown) for span in kept)


def guard_runs(edges: tuple[Edge, ...], stretches: tuple[Stretch, ...]) -> tuple[GuardRun, ...]:
    """Return stretches joined to guards, where one ends at the corner that the next begins at.

    Args:
        edges: All edges of a deck in their order round it; of several decks one after another.
        stretches: What `guard_stretches` found of them, in the same order.
    """
    known = {edge.mark: edge for edge in edges}
    chains: list[list[Stretch]] = []
    for stretch in stretches:
        if chains and _follows(known, chains[-1][-1], stretch):
            chains[-1].append(stretch)
        else:
            chains.append([stretch])
    if len(chains) > 1 and _follows(known, chains[-1][-1], chains[0][0]):
        chains[0] = [*chains.pop(), *chains[0]]
    return tuple(_run(f"G{at}", known, chain) for at, chain in enumerate(chains, start=1))


def needed_findings(
    edge: Edge,
    facets: tuple[Facet, ...],
    stretches: tuple[Stretch, ...],
    *,
    trigger: Limit,
    out: Limit,
) -> tuple[Finding, ...]:
    """Return what is to be told of an edge: the guard it needs, ground nobody knows, a pool."""
    if edge.kind in CLOSED:
        return _beside_told(edge)
    out_mm = out.value or 0.0
    beside = ground_beside(edge, facets, out_mm)
    whole = (0.0, edge_mm(edge))
    found = [
        *_drops_told(stretches, trigger),
        *_unknown_told(edge, _unknown(whole, beside.at_edge)),
    ]
    beyond = _unknown(whole, beside.at_reach)
    return (*found, *_reach_told(edge, beyond, out))


def _deep(slope: Slope, top_mm: float, trigger: Limit) -> Span | None:
    """Return where along a patch's side the drop is over the trigger."""
    assert trigger.value is not None  # a region without a trigger needs no stretches
    level_mm = top_mm - trigger.value
    first, last = level_mm - slope.from_level_mm, level_mm - slope.to_level_mm
    if not _over(max(first, last), trigger):
        return None
    start, end = slope.from_mm, slope.to_mm
    if not _over(first, trigger):
        start = end - (end - start) * last / (last - first)
    elif not _over(last, trigger):
        end = start + (end - start) * first / (first - last)
    return start, end


def _over(excess_mm: float, trigger: Limit) -> bool:
    return excess_mm > 0 or (trigger.reached and excess_mm == 0)


def _unknown(whole: Span, known: tuple[Span, ...]) -> tuple[Span, ...]:
    """Return where no ground is known; slivers of no more than 1 mm are none."""
    return tuple(span for span in without(whole, known) if span[1] - span[0] > REACH_MM)


def _outwards(span: Span, whole: Span, mark_320: int) -> Span:
    mark_mm = mark_320 / PER_MM
    start = to_mm(floor(span[0] / mark_mm) * mark_320)
    end = to_mm(ceil(span[1] / mark_mm) * mark_320)
    return max(whole[0], start), min(whole[1], end)


def _passages(edge: Edge) -> tuple[Span, ...]:
    return tuple((passage.from_mm, passage.to_mm) for passage in edge.passages)


def _stretch(edge: Edge, span: Span, beside: Beside, unknown: tuple[Span, ...]) -> Stretch:
    lost = any(start < span[1] and end > span[0] for start, end in unknown)
    lowest = min(_levels(span, beside.slopes), default=None)
    drop = None if lowest is None or lost else edge.top_mm - lowest
    return Stretch(edge=edge.mark, from_mm=span[0], to_mm=span[1], drop_mm=drop)


def _levels(span: Span, slopes: tuple[Slope, ...]) -> Iterator[float]:
    """Yield the levels of patches' sides within a span, at both ends of what lies in it."""
    for slope in slopes:
        start, end = max(span[0], slope.from_mm), min(span[1], slope.to_mm)
        if start <= end:
            yield _level_at(slope, start)
            yield _level_at(slope, end)
            if slope.from_mm == slope.to_mm:
                yield min(slope.from_level_mm, slope.to_level_mm)


def _level_at(slope: Slope, at_mm: float) -> float:
    if slope.from_mm == slope.to_mm:
        return slope.from_level_mm
    share = (at_mm - slope.from_mm) / (slope.to_mm - slope.from_mm)
    return slope.from_level_mm + (slope.to_level_mm - slope.from_level_mm) * share


def _follows(edges: dict[str, Edge], one: Stretch, other: Stretch) -> bool:
    """Whether a stretch begins at the corner that another ends at."""
    before, after = edges[one.edge], edges[other.edge]
    if before is after:
        return False
    apart = hypot(
        before.end.along_mm - after.start.along_mm, before.end.across_mm - after.start.across_mm
    )
    return apart <= REACH_MM and one.to_mm >= edge_mm(before) and other.from_mm <= 0


def _run(mark: str, edges: dict[str, Edge], chain: list[Stretch]) -> GuardRun:
    closed = len(chain) > 2 and _follows(edges, chain[-1], chain[0])
    drops = [stretch.drop_mm for stretch in chain]
    known = [drop for drop in drops if drop is not None]
    return GuardRun(
        mark=mark,
        stretches=tuple(chain),
        length_mm=sum(stretch.to_mm - stretch.from_mm for stretch in chain),
        drop_mm=max(known) if len(known) == len(drops) else None,
        bends=len(chain) - 1 + closed,
        closed=closed,
    )


def _beside_told(edge: Edge) -> tuple[Finding, ...]:
    if edge.kind != "pool":
        return ()
    message = (
        "a pool's barrier has rules of its own, which are not covered: ask the local authority"
    )
    return (_told("GRD-004", Severity.CAUTION, edge.mark, message, source=_POOLS),)


def _drops_told(stretches: tuple[Stretch, ...], trigger: Limit) -> Iterator[Finding]:
    for stretch in stretches:
        if stretch.drop_mm is not None:
            where = f"from {stretch.from_mm:g} to {stretch.to_mm:g} mm a guard is needed"
            yield _told(
                "GRD-001",
                Severity.CAUTION,
                stretch.edge,
                where,
                figures=(stretch.drop_mm, trigger.value),
                source=trigger.source,
            )


def _unknown_told(edge: Edge, unknown: tuple[Span, ...]) -> Iterator[Finding]:
    for start, end in unknown:
        message = (
            f"nobody knows the ground from {start:g} to {end:g} mm: a guard is assumed to be needed"
        )
        yield _told(
            "GRD-002",
            Severity.CAUTION,
            edge.mark,
            message,
            figures=(end - start, None),
            source=_ASSUMED,
        )


def _reach_told(edge: Edge, unknown: tuple[Span, ...], out: Limit) -> Iterator[Finding]:
    if unknown:
        message = "the ground is not known so far out as it counts: look whether it falls there"
        yield _told(
            "GRD-003",
            Severity.CAUTION,
            edge.mark,
            message,
            figures=(sum(end - start for start, end in unknown), None),
            source=out.source,
        )


def _told(
    code: str,
    severity: Severity,
    subject: str,
    message: str,
    *,
    figures: tuple[float | None, float | None] = (None, None),
    source: Source,
) -> Finding:
    measured, limit = figures
    return Finding(
        code=code,
        severity=severity,
        subject=subject,
        message=message,
        measured=measured,
        limit=limit,
        unit="mm" if measured is not None else "",
        source=source,
    )
