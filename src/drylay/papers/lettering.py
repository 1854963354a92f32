"""How wide a text is when drawn, never less than it will be; which of two texts collide."""

from collections.abc import Iterable
from math import cos, radians, sin

from drylay.papers.model import Lettering

#: Widths in ems, rounded up, the wider of the free DejaVu Sans and Liberation Sans for each
#: sign (measured from the fonts): whatever sans-serif a viewer has is hardly wider.
WIDTHS_EM = {
    0.3: "'Iijl",
    0.35: " \u00a0,./:;\\|",
    0.4: "()-[]ft",
    0.45: "!r",
    0.5: '"*J`\u00b0',
    0.55: "csz",
    0.6: "?L_kvxy",
    0.65: "$0123456789FTabdeghnopqu{}",
    0.7: "ABEKPSVXYZ",
    0.75: "CNRU",
    0.8: "&DGHOQ",
    0.85: "#+<=>^w~",
    0.9: "M",
    1.0: "%Wm",
    1.05: "@",
}
_EM = {sign: width for width, signs in WIDTHS_EM.items() for sign in signs}
#: Signs outside the table are taken as this wide and are held to it when drawn.
OTHER_EM = 1.1
#: Air between texts that share a line.
AIR_MM = 0.8

Bounds = tuple[float, float, float, float]
Point = tuple[float, float]


def width_mm(text: str, size_mm: float) -> float:
    """Return the width of a text, rounded up."""
    return sum(_EM.get(sign, OTHER_EM) for sign in text) * size_mm


def is_measured(text: str) -> bool:
    """Whether every sign of a text is in the table of widths."""
    return all(sign in _EM for sign in text)


def fitted(text: str, size_mm: float, most_mm: float) -> str:
    """Return a text, its end cut off where it is wider than `most_mm`."""
    if width_mm(text, size_mm) <= most_mm:
        return text
    while text and width_mm(f"{text}...", size_mm) > most_mm:
        text = text[:-1]
    return f"{text.rstrip()}..."


def bounds(text: Lettering) -> Bounds:
    """Return left, top, right and bottom of a text on the sheet, in mm."""
    if text.slope_deg:
        across, down = zip(*quad(text), strict=True)
        return min(across), min(down), max(across), max(down)
    long, high = width_mm(text.text, text.size_mm), text.size_mm
    before = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * long
    if text.turned:  # reads upwards: its start is at the bottom
        bottom = text.y_mm + before
        return text.x_mm - high / 2, bottom - long, text.x_mm + high / 2, bottom
    left = text.x_mm - before
    return left, text.y_mm - high / 2, left + long, text.y_mm + high / 2


def quad(text: Lettering, air_mm: float = 0.0) -> tuple[Point, ...]:
    """Return the four corners that a text takes on the sheet, with air before and behind it."""
    if not text.slope_deg:
        left, top, right, bottom = bounds(text)
        aside, above = (0.0, air_mm) if text.turned else (air_mm, 0.0)
        left, top, right, bottom = left - aside, top - above, right + aside, bottom + above
        return (left, top), (right, top), (right, bottom), (left, bottom)
    long, half = width_mm(text.text, text.size_mm), text.size_mm / 2
    before = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * long
    ends = (-before - air_mm, long - before + air_mm)
    flat = ((ends[0], -half), (ends[1], -half), (ends[1], half), (ends[0], half))
    c, s = cos(radians(text.slope_deg)), sin(radians(text.slope_deg))
    return tuple((text.x_mm + x * c - y * s, text.y_mm + x * s + y * c) for x, y in flat)


def collide(one: Bounds, other: Bounds) -> bool:
    """Whether two bounds overlap."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def first_free(candidates: Iterable[Lettering], taken: list[Bounds]) -> tuple[Lettering, ...]:
    """Return the first text that collides with nothing taken, and take its place; () if none."""
    for text in candidates:
        place = bounds(text)
        if not any(collide(_with_air(text, place), other) for other in taken):
            taken.append(place)
            return (text,)
    return ()


def _with_air(text: Lettering, place: Bounds) -> Bounds:
    """Return a text's bounds with some air before and behind it."""
    left, top, right, bottom = place
    if text.turned:
        return left, top - AIR_MM, right, bottom + AIR_MM
    return left - AIR_MM, top, right + AIR_MM, bottom
