"""Hatching: thin slanted lines inside a rectangle, for cut wood and for what is left over."""

from drylay.papers.model import FINE_MM, Box, Line, Shape


def hatch(box: Box, pitch_mm: float, *, rising: bool = True) -> list[Shape]:
    """Return lines at 45 degrees that fill a rectangle and do not leave it."""
    wide, high = box.width_mm, box.height_mm
    count = int((wide + high) // pitch_mm)
    return [
        _slant(box, index * pitch_mm, rising=rising)
        for index in range(1, count + 1) if index * pitch_mm < wide + high
    ]  # fmt: skip


def _slant(box: Box, sum_mm: float, *, rising: bool) -> Line:
    """Return the line of all points whose distances from two sides add up to `sum_mm`."""
    right, down = min(sum_mm, box.width_mm), min(sum_mm, box.height_mm)
    ends = ((right, sum_mm - right), (sum_mm - down, down))
    (x1, y1), (x2, y2) = ends if rising else ((x, box.height_mm - y) for x, y in ends)
    return Line(layer=f"{box.layer}-hatch", x1_mm=box.x_mm + x1, y1_mm=box.y_mm + y1,
                x2_mm=box.x_mm + x2, y2_mm=box.y_mm + y2, pen_mm=FINE_MM)  # fmt: skip
