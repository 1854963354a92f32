"""Whether timber lies under the lines that boards end over, all along them."""

import math
from collections.abc import Iterator, Sequence

from drylay.findings import Finding, Severity
from drylay.geometry import SAME_MM, Place, grown, minus, region, stretches
from drylay.laying.axes import place_of
from drylay.laying.carried import JUST_MM
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_held import Wood
from drylay.planner.outlined_under import Seam
from drylay.planner.rows import PRACTICE
from drylay.subframe.grid import near

#: So many thicknesses of timber in a row a seam may be bare, where none has room. Assumption.
BARE_TIMBERS = 4


def bare_seams(
    outline: Outline, laid: FieldsLaid, wood: Wood, *, thickness_mm: float
) -> tuple[Finding, ...]:
    """Return a stop for each line that boards end over and no timber lies under for too far.

    Source: docs/outline-conventions.md, Frame.
    """
    deck = region(laid.ring)
    for opening in outline.openings:
        deck = minus(deck, region(map(place_of, opening.corners)))
    most_mm = BARE_TIMBERS * thickness_mm
    found = []
    for seam in laid.seams:
        for start, end in stretches(deck, *seam):
            bare_mm = _bare_mm(seam, (start, end), wood)
            if bare_mm > most_mm + SAME_MM:
                found.append(_bare(seam, bare_mm, most_mm))
    return tuple(found)


def _bare_mm(seam: Seam, stretch: tuple[float, float], wood: Wood) -> float:
    """Return how long a part of a seam's stretch at most has no timber under it."""
    held = sorted(_held(seam, wood))
    at, bare = stretch[0], 0.0
    for start, end in (*held, (stretch[1], stretch[1])):
        bare = max(bare, min(start, stretch[1]) - at)
        at = max(at, end)
    return bare


def _held(seam: Seam, wood: Wood) -> Iterator[tuple[float, float]]:
    for number in near(wood.grid, seam):
        yield from stretches(grown(region(wood.shapes[number]), JUST_MM), *seam)


def _bare(seam: Seam, bare_mm: float, most_mm: float) -> Finding:
    (x, y), (w, z) = (tuple(to_mm(exact(each)) for each in place) for place in seam)
    return Finding(
        code="SUB-014",
        severity=Severity.STOP,
        subject="seam",
        message=f"boards end over the line from along {x:g}, across {y:g} to along {w:g}, across "
        f"{z:g}, and no timber has room under it for so far: {_told(seam)}",
        measured=round(bare_mm, 4),
        limit=most_mm,
        unit="mm",
        source=PRACTICE,
    )


def _told(seam: Sequence[Place]) -> str:
    """Return what would help: such a line runs nearly as the joists do, and drifts off them."""
    (x1, y1), (x2, y2) = seam
    off = min(abs(x2 - x1), abs(y2 - y1))
    lean = math.degrees(math.asin(off / math.dist(*seam)))
    return (
        f"lay it straight along the joists (it drifts off by {off:.1f} mm, {lean:.1f} degrees), "
        "turn it further off, or lay other courses (laying.border_courses, laying.breakers)"
    )
