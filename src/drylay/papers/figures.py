"""A figure put on the smallest sheet it reads well on, and the points of a plan on it."""

from collections.abc import Mapping

from drylay.papers.dimensions import AIR_MM, HOUSE_MM, depth_mm, overrun_mm
from drylay.papers.lettering import width_mm
from drylay.papers.model import LETTER_MM, Box, Edge, Lettering, Line, Ring, Shape, Sheet, View
from drylay.papers.sheets import INSET_MM, ROLL, roll, room, rule, sheets

#: A pitch of rows on paper that reads well, and the least that can be lettered.
WELL_MM, LEAST_MM = 4.0, 1.8
#: What "datum" beside the figure's corner takes of the paper.
DATUM_MM = 2.0 + width_mm("datum", LETTER_MM)
NONE = Edge()
#: No room is kept beside a figure.
NOTHING = (0.0, 0.0)


def upright(run: str, along_boards: float, across_boards: float) -> tuple[float, float]:
    """Return sizes in the boards' own axes as width and height on the sheet, house at the top."""
    if run == "along":
        return along_boards, across_boards
    return across_boards, along_boards


def on_paper(view: View, start_mm: float, near_mm: float) -> tuple[float, float]:
    """Return the point of the sheet for a point in the boards' own axes."""
    x, y = upright(view.run, start_mm, near_mm)
    return view.left_mm + x / view.per_mm, view.top_mm + y / view.per_mm


def block(
    view: View, layer: str, corner_mm: tuple[float, float], size_mm: tuple[float, float],
    pen_mm: float,
) -> Box:  # fmt: skip
    """Return a rectangle of the plan: its nearest corner and size, along the boards and across."""
    x, y = on_paper(view, *corner_mm)
    width, height = upright(view.run, *size_mm)
    return Box(layer=layer, x_mm=x, y_mm=y, width_mm=width / view.per_mm,
               height_mm=height / view.per_mm, pen_mm=pen_mm, fill="white")  # fmt: skip


def placed(
    run: str,
    size_mm: tuple[float, float],
    edges: Mapping[str, Edge],
    *,
    units: str,
    pitch_mm: float,
    aside_mm: tuple[float, float] = NOTHING,
) -> tuple[Sheet, View]:
    """Return the sheet and view for a figure: the smallest paper on which its rows read well.

    `size_mm` is the figure's width and height in mm of deck, `pitch_mm` what must stay legible,
    `aside_mm` the width and height in mm of paper that are kept free at the sheet's right.
    A figure too large for every sheet gets a roll as large as it needs.
    """
    fitting = [sheet for sheet in sheets(units) if _fits(sheet, size_mm, edges, aside_mm)]
    handy = [sheet for sheet in fitting if sheet.paper in ("A4", "A3", "Letter", "Tabloid")]
    well = [sheet for sheet in handy if pitch_mm / sheet.per_mm >= WELL_MM]
    legible = [sheet for sheet in fitting if pitch_mm / sheet.per_mm >= LEAST_MM]
    best = next(iter([*well, *legible]), None)
    if best is None:
        wide, high = _needed(ROLL[units][0], size_mm, edges)
        best = roll(units, wide + aside_mm[0], max(high, aside_mm[1]))
    return best, _centred(run, best, size_mm, edges, aside_mm)


def _around(
    edges: Mapping[str, Edge], per_mm: float, size_mm: tuple[float, float]
) -> dict[str, float]:
    """Return the paper taken on each side of a figure, labels that run past corners included."""
    around = {
        side: max(AIR_MM, depth_mm(edges.get(side, NONE), per_mm))
        for side in ("left", "right", "top", "bottom")
    }
    around["top"] += HOUSE_MM
    around["left"] = max(around["left"], DATUM_MM)
    for side, edge in edges.items():
        ends, extent = ("left", "right"), size_mm[0]
        if side in ends:
            ends, extent = ("top", "bottom"), size_mm[1]
        for end, past in zip(ends, overrun_mm(edge, per_mm, extent), strict=True):
            around[end] = max(around[end], past)
    return around


def _needed(
    per_mm: float, size_mm: tuple[float, float], edges: Mapping[str, Edge]
) -> tuple[float, float]:
    around = _around(edges, per_mm, size_mm)
    wide = size_mm[0] / per_mm + around["left"] + around["right"]
    return wide, size_mm[1] / per_mm + around["top"] + around["bottom"]


def _fits(
    sheet: Sheet, size_mm: tuple[float, float], edges: Mapping[str, Edge],
    aside_mm: tuple[float, float],
) -> bool:  # fmt: skip
    width, height = room(sheet)
    wide, high = _needed(sheet.per_mm, size_mm, edges)
    return wide + aside_mm[0] <= width and max(high, aside_mm[1]) <= height


def _centred(
    run: str, sheet: Sheet, size_mm: tuple[float, float], edges: Mapping[str, Edge],
    aside_mm: tuple[float, float],
) -> View:  # fmt: skip
    width, height = room(sheet)
    around = _around(edges, sheet.per_mm, size_mm)
    wide, high = _needed(sheet.per_mm, size_mm, edges)
    return View(
        left_mm=INSET_MM + around["left"] + (width - aside_mm[0] - wide) / 2,
        top_mm=INSET_MM + around["top"] + (height - high) / 2,
        per_mm=sheet.per_mm,
        run=run,
    )


def house_side(view: View, extent: tuple[float, float]) -> list[Shape]:
    """Return the hatched strip that says where the house is, and the datum corner."""
    left, top = view.left_mm, view.top_mm
    right, up = left + extent[0], top - HOUSE_MM
    shapes: list[Shape] = [rule("house", left, up, right, up)]
    steps = int(extent[0] // 3.0)
    shapes += [
        Line(layer="house", x1_mm=left + 3.0 * n, y1_mm=top - 0.8,
             x2_mm=min(left + 3.0 * n + 3.0, right), y2_mm=up, pen_mm=0.13)
        for n in range(steps)
    ]  # fmt: skip
    return [
        *shapes,
        Lettering(layer="house", x_mm=(left + right) / 2, y_mm=(top + up) / 2 - 0.4,
                  text=" HOUSE SIDE ", knocked=True),
        Ring(layer="datum", x_mm=left, y_mm=top, radius_mm=1.2),
        Lettering(layer="datum", x_mm=left - 2.0, y_mm=top - 2.6, text="datum", anchor="end"),
    ]  # fmt: skip
