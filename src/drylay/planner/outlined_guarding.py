"""The edges of a deck on an outline, and where on them the steps that its brief wishes begin."""

from math import hypot

from drylay.findings import Finding, Severity
from drylay.guards.model import Edge, Passage
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline, Side
from drylay.planner.guarding import OUT, STEPS_WIDE_MM, Head
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE

#: A side faces a way that is no more than half a right angle off its own.
FACING = 0.5**0.5
#: Sides as guards take them: nobody falls off at the house, and a pool's edge is told of apart.
KINDS = {"house": "house", "pool": "pool"}


def outlined_edges(
    outline: Outline, top_mm: float, head: Head | Finding | None
) -> tuple[Edge, ...]:
    """Return an edge for every side in order, the head of the steps among them."""
    return tuple(
        Edge(
            mark=side.mark, start=side.start, end=side.end, top_mm=top_mm,
            kind=KINDS.get(side.kind, "open"),
            passages=(Passage(name="steps", from_mm=head.edge_from_mm, to_mm=head.edge_to_mm),)
            if isinstance(head, Head) and head.edge == side.mark else (),
        )
        for side in outline.sides
    )  # fmt: skip


def head_outlined(job: Job, outline: Outline) -> Head | Finding | None:
    """Return where the steps begin: on the longest open side that faces the way wished.

    `from_mm` counts from the end of it that is nearer the datum along the house, or away from it;
    where the brief says no place they stand in its middle. None where it wishes none; a stop
    where no open side faces that way, or none that is long enough.
    """
    wish = job.brief.steps
    if wish.side is None:
        return None
    side = max((each for each in outline.sides if _faces(each, wish.side)),
               key=lambda each: each.length_mm, default=None)  # fmt: skip
    long_mm = side.length_mm if side else 0.0
    wide_mm = min(STEPS_WIDE_MM, long_mm) if wish.width_mm is None else wish.width_mm
    middle = to_mm(max(0, (exact(long_mm) - exact(wide_mm)) // 2))
    start = middle if wish.from_mm is None else wish.from_mm
    end = to_mm(exact(start) + exact(wide_mm))
    if side is None or end > long_mm:
        return _no_side(wish.side, end if side else None, long_mm if side else None)
    back = _runs_back(side, wish.side)
    edge = (to_mm(exact(long_mm) - exact(end)), to_mm(exact(long_mm) - exact(start)))
    own = edge if back else (start, end)
    return Head(
        side=wish.side, edge=side.mark, from_mm=start, to_mm=end, edge_from_mm=own[0],
        edge_to_mm=own[1], places=(_at(side, own[0]), _at(side, own[1])), out=_out(side),
    )  # fmt: skip


def _no_side(name: str, reach_mm: float | None, long_mm: float | None) -> Finding:
    told = "no open side faces that way" if reach_mm is None else "the side there is shorter"
    return Finding(
        code="STP-015", severity=Severity.STOP, subject="steps", measured=reach_mm, limit=long_mm,
        unit="" if reach_mm is None else "mm", source=PRACTICE,
        message=f"no room for the steps at the {name}: {told}",
    )  # fmt: skip


def _vector(side: Side) -> tuple[float, float]:
    x = side.end.along_mm - side.start.along_mm
    y = side.end.across_mm - side.start.across_mm
    long = hypot(x, y)
    return x / long, y / long


def _out(side: Side) -> tuple[float, float]:
    """Return which way is out of the deck at a side: to the right of it as it runs."""
    x, y = _vector(side)
    return y, -x


def _faces(side: Side, name: str) -> bool:
    (x, y), (u, v) = _out(side), OUT[name]
    return side.kind not in KINDS and x * u + y * v > FACING


def _runs_back(side: Side, name: str) -> bool:
    """Whether a side runs towards the datum, along the house or away from it."""
    x, y = _vector(side)
    return (x if name in {"front", "house"} else y) < 0


def _at(side: Side, from_mm: float) -> tuple[float, float]:
    x, y = _vector(side)
    return side.start.along_mm + x * from_mm, side.start.across_mm + y * from_mm
