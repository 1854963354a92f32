"""A drawing measured from its SVG alone, as somebody with a ruler would."""

import re
from copy import copy
from itertools import combinations, pairwise
from math import cos, hypot, radians, sin
from xml.etree import ElementTree as ET

from drylay.units import length_mm as read_mm

SVG = "{http://www.w3.org/2000/svg}"

# Advance widths in ems of DejaVu Sans, the widest of the usual fallbacks, rounded up from the
# font's own metrics (from memory): "i" 0.278, "J" 0.295, " " 0.318, "r" 0.411, "c" 0.550,
# "y" 0.592, digits 0.636, "w" 0.818, "W" 0.989, "m" 0.974. What is not named is a small letter or
# a digit.
EMS = (
    (1.0, "WMm@%"),
    (0.84, "w+~<>=&#"),
    (0.60, "kvxy"),
    (0.56, "csz"),
    (0.50, "\u00b0"),
    (0.42, "rtfI.,:;'()[]|/"),
    (0.32, " "),
    (0.30, "J"),
    (0.28, "ijl"),
)
UPPER, LOWER = 0.84, 0.64


def em(sign: str) -> float:
    known = (wide for wide, signs in EMS if sign in signs)
    return next(known, UPPER if sign.isupper() else LOWER)


Box = tuple[float, float, float, float]
Point = tuple[float, float]


def box_of(text: ET.Element) -> Box:
    """Left, top, right, bottom: cap height above the base line, a quarter em below it."""
    size = float(text.get("font-size", "0"))
    x, y = float(text.get("x", "0")), float(text.get("y", "0"))
    wide = sum(em(sign) for sign in text.text or "") * size
    if text.get("textLength"):
        wide = float(text.get("textLength", "0"))
    back = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "start")] * wide
    above, below = 0.73 * size, 0.2 * size
    if text.get("transform"):
        assert re.fullmatch(r"rotate\(-90 [-0-9.]+ [-0-9.]+\)", text.get("transform", ""))
        return x - above, y + back - wide, x + below, y + back
    return x - back, y - above, x - back + wide, y + below


def texts(svg: bytes) -> list[ET.Element]:
    return list(ET.fromstring(svg).iter(f"{SVG}text"))


def quad_of(text: ET.Element) -> list[Point]:
    """The four corners of a text, sloped ones turned about the point that the file says."""
    slope = re.fullmatch(r"rotate\(([-0-9.]+) ([-0-9.]+) ([-0-9.]+)\)", text.get("transform", ""))
    if slope is None or slope[1] == "-90":
        left, top, right, bottom = box_of(text)
        return [(left, top), (right, top), (right, bottom), (left, bottom)]
    degrees, x, y = (float(part) for part in slope.groups())
    flat = copy(text)
    flat.attrib = {key: value for key, value in text.attrib.items() if key != "transform"}
    left, top, right, bottom = box_of(flat)
    c, s = cos(radians(degrees)), sin(radians(degrees))
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return [(x + (a - x) * c - (b - y) * s, y + (a - x) * s + (b - y) * c) for a, b in corners]


def depth_mm(one: list[Point], other: list[Point]) -> float:
    """How far two convex shapes overlap, across the line that parts them best; below 0 if apart."""
    depths = []
    for shape in (one, other):
        for (ax, ay), (bx, by) in pairwise([*shape, shape[0]]):
            long = hypot(bx - ax, by - ay) or 1.0
            nx, ny = (by - ay) / long, (ax - bx) / long
            a, b = ([x * nx + y * ny for x, y in each] for each in (one, other))
            depths.append(min(max(a), max(b)) - max(min(a), min(b)))
    return min(depths)


def overlapping(svg: bytes) -> list[tuple[str, str]]:
    """Pairs of texts that overlap by more than a tenth of a millimetre."""
    quads = [(text.text or "", quad_of(text)) for text in texts(svg)]
    # boxes once for each text: there are thousands of pairs
    boxed = [(name, quad, about(quad)) for name, quad in quads]
    return [
        (one, other)
        for (one, a, box), (other, b, its) in combinations(boxed, 2)
        if touch(box, its) and depth_mm(a, b) > 0.1
    ]


def about(shape: list[Point]) -> Box:
    """The upright box about a shape: left, top, right, bottom."""
    across, down = zip(*shape, strict=True)
    return min(across), min(down), max(across), max(down)


def touch(one: Box, other: Box) -> bool:
    """Whether two upright boxes have more than an edge in common."""
    return (
        one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
        and one[0] < one[2] and other[0] < other[2] and one[1] < one[3] and other[1] < other[3]
    )  # fmt: skip


def outside(svg: bytes) -> list[str]:
    """Texts that run out of the border, which is 10 mm inside the sheet."""
    root = ET.fromstring(svg)
    _, _, width, height = (float(part) for part in root.get("viewBox", "").split())
    found = []
    for text in root.iter(f"{SVG}text"):
        across, down = zip(*quad_of(text), strict=True)
        if (
            min(across) < 10
            or min(down) < 10
            or max(across) > width - 10
            or max(down) > height - 10
        ):
            found.append(text.text or "")
    return found


def group(svg: bytes, name: str) -> list[ET.Element]:
    for part in ET.fromstring(svg).iter(f"{SVG}g"):
        if part.get("id", "").split("-", 1)[1] == name:
            return list(part)
    return []


def bar_mm(svg: bytes) -> float:
    """The length on paper of the scale bar, first edge to last."""
    boxes = group(svg, "scale-bar")
    ends = [float(box.get("x", "0")) + float(box.get("width", "0")) for box in boxes]
    return max(ends) - min(float(box.get("x", "0")) for box in boxes)


def bar_says_mm(svg: bytes) -> float:
    """What is written at the far end of the scale bar, in mm of deck."""
    words = [text.text or "" for text in group(svg, "scale")]
    far = words[words.index("0") + 1]
    number, unit = far.split()
    return float(number) * {"mm": 1.0, "m": 1000.0, "in": 25.4, "ft": 304.8}[unit]


def rectangles(svg: bytes, layer: str) -> list[Box]:
    """x, y, width, height of every rectangle of a layer that is drawn with a pen."""
    names = ("x", "y", "width", "height")
    return [
        tuple(float(part.get(name, "0")) for name in names)  # type: ignore[misc]
        for part in group(svg, layer)
        if part.tag == f"{SVG}rect" and part.get("stroke") == "black"
    ]


def words(svg: bytes, layer: str) -> list[str]:
    """The texts of a layer, in order."""
    return [part.text or "" for part in group(svg, layer) if part.tag == f"{SVG}text"]


def cells(svg: bytes, layer: str) -> list[list[str]]:
    """A table read back line by line, blank cells left out."""
    lines: list[list[str]] = []
    at = ""
    for part in group(svg, layer):
        if part.get("y") != at:
            lines.append([])
            at = part.get("y", "")
        lines[-1].append(part.text or "")
    return lines


def told_mm(text: str, units: str) -> float:
    """A printed length in mm; "~" says that it is only near, which a comparison must allow."""
    bare = text.removeprefix("~")
    return read_mm(bare if units == "imperial" else f"{bare} mm", path="")
