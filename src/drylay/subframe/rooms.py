"""How much room is left beside a timber that wants a double."""

from collections.abc import Iterator, Sequence

from drylay.subframe.ledges import Hole
from drylay.subframe.plane import Place
from drylay.subframe.sizes import is_flat
from drylay.subframe.wants import Placed, Timber

#: A shape that ends so near to a face, in mm, stands beside it, not under it.
TOUCH_MM = 0.05
#: A joist's double reaches so many thicknesses past the middle of the trimmer that it carries.
PAST = 1.5


def room_beside(placed: Placed, hole: Hole, single: Timber, trimmer: Timber) -> tuple[float, float]:
    """Return how much is free beside a single timber, away from a hole, and how much it wants.

    `single` is the trimmer itself or a joist that carries it. What it wants is a timber's
    thickness; two where the other is a timber round another opening, which wants a double too.
    """
    thick = placed.wants.timber_thickness_mm
    flat = is_flat(single)
    shape = _turned(single.corners) if flat else list(single.corners)
    sides = (hole.low_mm, hole.high_mm) if flat else (hole.left_mm, hole.right_mm)
    us = [u for u, _ in shape]
    way = 1.0 if min(us) + max(us) > sum(sides) else -1.0
    face = max(way * u for u in us)
    span = (hole.left_mm, hole.right_mm) if flat else _past(trimmer, thick)
    found = []
    for wants, corners in _obstacles(placed, hole, single, flat=flat):
        near = min(
            (way * u for u, _ in _clipped(_turned(corners) if flat else corners, span)),
            default=None,
        )
        if near is not None and near >= face - TOUCH_MM:
            found.append((near - face, wants * thick))
    return min(found, key=lambda each: each[0] - each[1], default=(thick, thick))


def _obstacles(
    placed: Placed, hole: Hole, single: Timber, *, flat: bool
) -> Iterator[tuple[int, Sequence[Place]]]:
    """Yield what may stand beside a timber; how many timbers are to have room before it."""
    for timber in placed.timbers:
        tail = flat and timber.kind in {"joist", "pair"}
        if timber is not single and not tail and timber.kind not in {"noggin", "splice"}:
            round_another = timber.kind == "trimmer" and timber.side != hole.mark
            yield (2 if round_another and flat else 1), timber.corners
    for number, ring in enumerate(placed.holes):
        if number != hole.number:
            yield 1, ring


def _past(trimmer: Timber, thickness_mm: float) -> tuple[float, float]:
    vs = [v for _, v in trimmer.corners]
    level = (min(vs) + max(vs)) / 2
    return level - PAST * thickness_mm, level + PAST * thickness_mm


def _turned(shape: Sequence[Place]) -> list[Place]:
    return [(v, u) for u, v in shape]


def _clipped(shape: Sequence[Place], span: tuple[float, float]) -> Iterator[Place]:
    """Yield corners of what of a shape lies from one level to another."""
    low, high = span
    for (u, v), (w, x) in zip(shape, (*shape[1:], shape[0]), strict=True):
        if low < v < high:
            yield u, v
        for level in span:
            if (v < level) != (x < level):
                yield u + (w - u) * (level - v) / (x - v), level
