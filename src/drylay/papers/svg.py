"""A drawing as SVG: plain XML, black on white, the same bytes for the same shapes."""

from collections.abc import Iterable
from xml.etree import ElementTree as ET

from drylay.papers.lettering import bounds, is_measured, quad, width_mm
from drylay.papers.model import Area, Box, Lettering, Line, Ring, Shape, Sheet, Trace
from drylay.papers.wording import printable

FONTS = "Liberation Sans, Arial, Helvetica, DejaVu Sans, sans-serif"
#: How far below the middle of its height a text's base line lies, in ems.
BASE_EM = 0.35


def svg(shapes: Iterable[Shape], *, sheet: Sheet, name: str, title: str, told: str) -> bytes:
    """Return a drawing as an SVG file; `title` and `told` are for those who hear it read."""
    root = ET.Element("svg", _root(sheet, name))
    ET.SubElement(root, "title", {"id": f"{name}-title"}).text = title
    ET.SubElement(root, "desc", {"id": f"{name}-desc"}).text = told
    size = {"width": _mm(sheet.width_mm), "height": _mm(sheet.height_mm)}
    ET.SubElement(root, "rect", {"x": "0", "y": "0", **size, "fill": "white"})
    groups: dict[str, ET.Element] = {}
    for shape in shapes:
        if shape.layer not in groups:
            groups[shape.layer] = ET.SubElement(root, "g", {"id": f"{name}-{shape.layer}"})
        _add(groups[shape.layer], shape)
    ET.indent(root, space=" ")
    text = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'.encode()


def _root(sheet: Sheet, name: str) -> dict[str, str]:
    width, height = _mm(sheet.width_mm), _mm(sheet.height_mm)
    scale = {"data-deck-mm-per-paper-mm": _mm(sheet.per_mm)} if sheet.per_mm else {}
    return {
        "xmlns": "http://www.w3.org/2000/svg",
        "width": f"{width}mm",
        "height": f"{height}mm",
        "viewBox": f"0 0 {width} {height}",
        "role": "img",
        "aria-labelledby": f"{name}-title {name}-desc",
        "font-family": FONTS,
        **scale,
    }


def _mm(size_mm: float) -> str:
    """Return mm of paper as text, to a thousandth: finer than any printer."""
    text = f"{size_mm:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _add(group: ET.Element, shape: Shape) -> None:
    match shape:
        case Line():
            ET.SubElement(group, "line", _line(shape))
        case Trace():
            ET.SubElement(group, "polyline", _trace(shape))
        case Box():
            ET.SubElement(group, "rect", _box(shape))
        case Ring():
            ET.SubElement(group, "circle", _ring(shape))
        case Area():
            ET.SubElement(group, "polygon", _area(shape))
        case _:
            _add_lettering(group, shape)


def _line(line: Line) -> dict[str, str]:
    ends = {"x1": line.x1_mm, "y1": line.y1_mm, "x2": line.x2_mm, "y2": line.y2_mm}
    return {key: _mm(value) for key, value in ends.items()} | _pen(line.pen_mm) | _dash(line.dash)


def _trace(trace: Trace) -> dict[str, str]:
    return {"points": _points(trace.points_mm), **_pen(trace.pen_mm), **_dash(trace.dash)}


def _dash(dash: str) -> dict[str, str]:
    return {"stroke-dasharray": dash} if dash else {}


def _box(box: Box) -> dict[str, str]:
    size = {"x": box.x_mm, "y": box.y_mm, "width": box.width_mm, "height": box.height_mm}
    return {key: _mm(value) for key, value in size.items()} | _pen(box.pen_mm, box.fill)


def _ring(ring: Ring) -> dict[str, str]:
    size = {"cx": ring.x_mm, "cy": ring.y_mm, "r": ring.radius_mm}
    return {key: _mm(value) for key, value in size.items()} | _pen(ring.pen_mm, ring.fill)


def _area(area: Area) -> dict[str, str]:
    fill = _pen(area.pen_mm, area.fill)
    return {"points": _points(area.corners_mm), **fill, **_dash(area.dash)}


def _points(corners: Iterable[tuple[float, float]]) -> str:
    return " ".join(f"{_mm(x)},{_mm(y)}" for x, y in corners)


def _pen(pen_mm: float, fill: str = "none") -> dict[str, str]:
    pen = {"stroke": "black", "stroke-width": _mm(pen_mm)} if pen_mm else {"stroke": "none"}
    return {"fill": fill, **pen}


def _add_lettering(group: ET.Element, text: Lettering) -> None:
    if text.knocked and text.slope_deg:
        ET.SubElement(group, "polygon", {"points": _points(quad(text)), "fill": "white"})
    elif text.knocked:
        left, top, right, bottom = bounds(text)
        size = {"x": left, "y": top, "width": right - left, "height": bottom - top}
        ground = {key: _mm(value) for key, value in size.items()}
        ET.SubElement(group, "rect", {**ground, "fill": "white"})
    # marks come from the plan file as they are, and XML has no place for a null
    ET.SubElement(group, "text", _lettering(text)).text = printable(text.text)


def _lettering(text: Lettering) -> dict[str, str]:
    base_mm = text.size_mm * BASE_EM
    x, y = (text.x_mm + base_mm, text.y_mm) if text.turned else (text.x_mm, text.y_mm + base_mm)
    attributes = {
        "x": _mm(x),
        "y": _mm(y),
        "font-size": _mm(text.size_mm),
        "text-anchor": text.anchor,
        "fill": "black",
    }
    if text.turned:
        attributes["transform"] = f"rotate(-90 {_mm(x)} {_mm(y)})"
    elif text.slope_deg:
        turn = f"{_mm(text.slope_deg)} {_mm(text.x_mm)} {_mm(text.y_mm)}"
        attributes["transform"] = f"rotate({turn})"
    if not is_measured(text.text):  # signs of unknown width are held to the room they were given
        attributes["textLength"] = _mm(width_mm(text.text, text.size_mm))
        attributes["lengthAdjust"] = "spacingAndGlyphs"
    return attributes
