"""Which way boards and joists run on an outline, and the angle between them."""

import math

from drylay.brief.model import Brief


def is_outlined(brief: Brief) -> bool:
    """Whether a brief is of a deck on an outline, not of a plain rectangle."""
    return bool(brief.outline.points or brief.outline.rectangles)


def angle_of(brief: Brief) -> float:
    """Return how boards of the main field run, from the house."""
    wished = brief.laying.angle_deg
    return wished if wished is not None else 0.0 if brief.board.run == "along" else 90.0


def angles_of(brief: Brief) -> tuple[float, ...]:
    """Return how boards of every field run, the main one's first."""
    return (angle_of(brief), *(each.angle_deg for each in brief.laying.fields))


def joist_run(brief: Brief) -> str:
    """Return which way joists run: across the boards of the main field, as nearly as may be.

    Halfway between the two they run the shorter way of the box around the deck.
    """
    angle = angle_of(brief)
    if angle in {45.0, 135.0}:
        return "along" if brief.cover.along_mm < brief.cover.across_mm else "across"
    return "along" if 45 < angle < 135 else "across"


#: Boards that lie nearer to the joists' way than this are carried by noggins across it. Source: the
#: angle rule's own range, 30 to 90 degrees.
NEAREST_DEG = 30.0


def on_rungs(brief: Brief, angle_deg: float) -> bool:
    """Whether boards at an angle run so near the joists' way that noggins carry them."""
    return _between(angle_deg, _joists_deg(brief)) < NEAREST_DEG


def board_to_joist_deg(brief: Brief) -> float:
    """Return the least angle between the boards of any field and the joists: 90 where square.

    Of boards that noggins carry it is that between them and the noggins.
    """
    if not is_outlined(brief):
        return 90.0
    return min(carried_deg(brief, angle) for angle in angles_of(brief))


def carried_deg(brief: Brief, angle_deg: float) -> float:
    """Return the angle between boards that run so and what carries them: joists, or noggins."""
    apart = _between(angle_deg, _joists_deg(brief))
    return 90.0 - apart if apart < NEAREST_DEG else apart


def _joists_deg(brief: Brief) -> float:
    return 0.0 if joist_run(brief) == "along" else 90.0


def _between(one: float, other: float) -> float:
    apart = abs(one - other) % 180
    return min(apart, 180 - apart)


def square_to_here(brief: Brief, square_mm: float) -> float:
    """Return centres at right angles to joists for boards at an angle: times its sine.

    Down to tenths of a mm, as families tell theirs: the same centres must not count as wider.
    """
    angle = board_to_joist_deg(brief)
    if angle == 90:
        return square_mm
    return math.floor(square_mm * math.sin(math.radians(angle)) * 10 + 1e-9) / 10
