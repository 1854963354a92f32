"""Places of an outline that look like metres among millimetres: asked about, never guessed.

The bounds here are sense, not trade. Source: assumption.
"""

from collections.abc import Iterator, Sequence

from drylay.brief.outline_model import OutlinePoint, OutlineRectangle
from drylay.errors import Fault

Read = dict[str, object]

#: An outline all within this looks like metres.
ALL_WITHIN_MM = 100.0
#: So does a place within this of the datum where another lies just a thousand times as far.
METRES_BELOW_MM = 100.0
_WAYS = ("along", "across")


def points_in_metres(read: Read, points: list[tuple[int, OutlinePoint]]) -> Iterator[Fault]:
    """Yield coordinates that look like metres: all of them, or one beside what it would match."""
    every = {way: [getattr(point, f"{way}_mm") for _, point in points] for way in _WAYS}
    far = max(abs(value) for values in every.values() for value in values)
    all_small = 0 < far <= ALL_WITHIN_MM
    for at, point in points:
        for way in _WAYS:
            value = getattr(point, f"{way}_mm")
            if value and (all_small or looks_like_metres(value, every[way])):
                yield _asked(read, f"outline.points[{at}].{way}_mm", value)


def rectangles_in_metres(
    read: Read, blocks: list[tuple[int, OutlineRectangle]]
) -> Iterator[Fault]:  # fmt: skip
    """Yield lowest corners that look like metres beside another rectangle's edge."""
    for way in _WAYS:
        lows = [(at, getattr(block, f"from_{way}_mm")) for at, block in blocks]
        sizes = [getattr(block, f"{way}_mm") for _, block in blocks]
        edges = [low for _, low in lows]
        edges += [low + size for (_, low), size in zip(lows, sizes, strict=True)]
        for at, low in lows:
            if looks_like_metres(low, edges):
                yield _asked(read, f"outline.rectangles[{at}].from_{way}_mm", low)


def looks_like_metres(value: float, others: Sequence[float]) -> bool:
    """Return whether a place is just a thousandth of another, on one axis."""
    large = value * 1000
    if abs(value) >= METRES_BELOW_MM or abs(large) < ALL_WITHIN_MM:
        return False
    return any(abs(other - large) < 1 for other in others)


def _asked(read: Read, path: str, value: float) -> Fault:
    spelled = read.get(f"written at {path}")
    given = spelled if isinstance(spelled, float) and spelled else value
    return Fault(
        path=path,
        found=f"{given:g} among millimetres",
        wanted="mm: metres look to be meant",
        nearest=f"{path.rpartition('.')[2]} = {given * 1000:.15g}, if metres are meant",
    )
