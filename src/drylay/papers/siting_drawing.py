"""A garden drawn with one place for a deck: what lies round it, shadows, and the sun's way."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, cos, floor, radians, sin

from attrs import frozen

from drylay.papers.lettering import fitted
from drylay.papers.model import (
    FINE_MM,
    LETTER_MM,
    MEMBER_MM,
    OUTLINE_MM,
    THIN_MM,
    Area,
    Box,
    Lettering,
    Line,
    Ring,
    Shape,
    Sheet,
)
from drylay.papers.placing import Place as Taken
from drylay.papers.placing import first_clear, places_of
from drylay.papers.ruled import paragraphs
from drylay.papers.sheets import INSET_MM, room, sheets, title_block
from drylay.papers.svg import svg
from drylay.papers.wording import clean
from drylay.siting.model import ShadowAt, SitePlan, SunPath

Place = tuple[float, float]
#: The column beside the figure, and the sun's diagram in it.
BESIDE_MM, DIAGRAM_HIGH_MM, GAP_MM = 96.0, 62.0, 6.0
#: Dashes of the shadows, the earliest first; of what is underground, and of zones to keep.
SHADOW_DASH = ("0.4 1", "2 1", "5 1.2")
BURIED_DASH, ZONE_DASH, FENCE_DASH = "4 1 0.6 1", "1 1", ""
#: A plan is not drawn smaller than this, in mm of garden for one of paper, where a sheet has room.
SMALLEST = 100.0
#: Where else a name may stand about its spot: ways, and how far in ems.
AROUND = ((0, 1), (0, -1), (4, 0), (-4, 0), (3, 1), (-3, 1), (3, -1), (-3, -1))
FAR_EM = (1.3, 2.2, 3.4, 5.0, 7.0)
#: No name on the plan is longer on paper.
NAME_MM = 40.0
#: What the plan's lines mean.
LEGEND = (
    "Thick: the plot. Double: the deck's place. Plain: buildings and fences. Rings: stems and "
    "crowns of trees. Crosses: the lowest spot, flues. Long and short dashes: services and lines "
    "overhead; fine dashes beside them and round trees: what to keep clear of (500 mm of a "
    "service, the root zone of a tree). Dotted: wet ground.",
    "Dashed areas with an hour: where shadows lie on the deck's level at that hour; dots for the "
    "earliest, the longest dashes for the latest.",
)


@frozen(kw_only=True)
class _View:
    """Where the plan lies on the sheet."""

    plan: SitePlan
    left_mm: float
    top_mm: float
    per_mm: float

    def at(self, place: Place) -> Place:
        low = self.plan.low_mm
        return (
            self.left_mm + (place[0] - low[0]) / self.per_mm,
            self.top_mm + (place[1] - low[1]) / self.per_mm,
        )


def siting_svg(plan: SitePlan) -> bytes:
    """Return the garden as SVG, the house at the top: a plan, the sun's altitude over hours."""
    sheet = _sheet(plan)
    view = _View(plan=plan, left_mm=INSET_MM, top_mm=INSET_MM, per_mm=sheet.per_mm)
    figure = list(_figure(view))
    taken = places_of(figure)
    shapes = [*figure, *_names(view, taken), *_beside(sheet, plan)]
    shapes += title_block(
        sheet, title=plan.title, drawing="Place of a deck", units="metric", notes=_notes(plan)
    )
    told = f"The garden with {clean(plan.place.name)}, what lies round it, and shadows at hours."
    return svg(shapes, sheet=sheet, name="siting", title=clean(plan.title), told=told)


def _sheet(plan: SitePlan) -> Sheet:
    """Return the smallest sheet that the plan fits at SMALLEST or larger, else that it fits."""
    wide, high = (plan.high_mm[axis] - plan.low_mm[axis] for axis in (0, 1))
    fits = [
        sheet
        for sheet in sheets("metric")
        if wide / sheet.per_mm <= room(sheet)[0] - BESIDE_MM - GAP_MM
        and high / sheet.per_mm <= room(sheet)[1]
    ]
    large = [sheet for sheet in fits if sheet.per_mm <= SMALLEST]
    return (large or fits or list(sheets("metric"))[-1:])[0]


def _notes(plan: SitePlan) -> tuple[str, ...]:
    clock = plan.garden.meridian is not None and plan.garden.meridian.utc_offset_h is not None
    hours = "hours of the clock" if clock else "hours of solar time"
    return (
        f"All hours are {hours}. Shadows are of what is told, taken as solid.",
        "A plan to choose a place by, no plan of services: search and scan before any dig.",
    )


def _ring(layer: str, view: _View, ring: Sequence[Place], pen: float, dash: str = "") -> Area:
    corners = tuple(view.at(place) for place in ring)
    return Area(layer=layer, corners_mm=corners, pen_mm=pen, dash=dash)


def _line(layer: str, view: _View, ends: Sequence[Place], pen: float, dash: str = "") -> Line:
    (x1, y1), (x2, y2) = (view.at(place) for place in ends)
    return Line(layer=layer, x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=pen, dash=dash)


def _figure(view: _View) -> Iterator[Shape]:
    plan, garden = view.plan, view.plan.garden
    for at, shadow in enumerate(plan.shadows):
        for ring in shadow.rings_mm:
            yield _ring("shadows", view, ring, FINE_MM, SHADOW_DASH[at % len(SHADOW_DASH)])
    for zone in plan.zones:
        for ring in zone.rings_mm:
            yield _ring("zones", view, ring, FINE_MM, ZONE_DASH)
    for _, ring in plan.buildings_mm:
        yield _ring("buildings", view, ring, MEMBER_MM)
    if garden.plot_mm:
        yield _ring("plot", view, garden.plot_mm, OUTLINE_MM)
    for service in garden.services:
        for ends in pairwise(service.line_mm):
            yield _line("services", view, _cut(plan, ends), THIN_MM, BURIED_DASH)
    for fence in garden.fences:
        yield _line("fences", view, _cut(plan, (fence.start_mm, fence.end_mm)), MEMBER_MM)
    for spot in garden.wet:
        yield _ring("wet", view, spot.corners_mm, THIN_MM, "0.5 0.5")
    yield from _marks(view)
    yield from _deck(view)
    yield from _north(view)


def _cut(plan: SitePlan, ends: tuple[Place, Place]) -> tuple[Place, Place]:
    """Return a straight with its ends held to what is drawn: its middle part where both lie out."""
    first, last = 0.0, 1.0
    (x1, y1), (x2, y2) = ends
    for start, way, low, high in (
        (x1, x2 - x1, plan.low_mm[0], plan.high_mm[0]),
        (y1, y2 - y1, plan.low_mm[1], plan.high_mm[1]),
    ):
        if way:
            near, far = sorted(((low - start) / way, (high - start) / way))
            first, last = max(first, near), min(last, far)
    last = max(first, last)
    return (
        (x1 + (x2 - x1) * first, y1 + (y2 - y1) * first),
        (x1 + (x2 - x1) * last, y1 + (y2 - y1) * last),
    )


def _marks(view: _View) -> Iterator[Shape]:
    garden = view.plan.garden
    for tree in garden.trees:
        x, y = view.at(tree.at_mm)
        radius = max(0.6, tree.stem_mm / 2 / view.per_mm)
        yield Ring(layer="trees", x_mm=x, y_mm=y, radius_mm=radius)
        if tree.crown_mm is not None:
            crown = tree.crown_mm / 2 / view.per_mm
            yield Ring(layer="trees", x_mm=x, y_mm=y, radius_mm=crown, pen_mm=FINE_MM)
    for cover in garden.covers:
        x, y = view.at(cover.at_mm)
        side = cover.size_mm / view.per_mm
        yield Box(layer="covers", x_mm=x - side / 2, y_mm=y - side / 2, width_mm=side,
                  height_mm=side, pen_mm=THIN_MM)  # fmt: skip
    for spot in [flue.at_mm for flue in garden.flues] + ([garden.low.at_mm] if garden.low else []):
        x, y = view.at(spot)
        yield Line(layer="spots", x1_mm=x - 1, y1_mm=y - 1, x2_mm=x + 1, y2_mm=y + 1)
        yield Line(layer="spots", x1_mm=x - 1, y1_mm=y + 1, x2_mm=x + 1, y2_mm=y - 1)


def _deck(view: _View) -> Iterator[Shape]:
    """Yield the deck's place as a double line."""
    place = view.plan.place
    x, y = view.at((place.along_mm, place.across_mm))
    wide, high = place.size_along_mm / view.per_mm, place.size_across_mm / view.per_mm
    for inset, pen in ((0.0, OUTLINE_MM), (0.8, FINE_MM)):
        yield Box(layer="deck", x_mm=x + inset, y_mm=y + inset, width_mm=wide - 2 * inset,
                  height_mm=high - 2 * inset, pen_mm=pen)  # fmt: skip


def _north(view: _View) -> Iterator[Shape]:
    """Yield an arrow to true north at the figure's top right corner."""
    bearing = view.plan.garden.along_bearing_deg
    if bearing is None:
        return
    right, _ = view.at(view.plan.high_mm)
    x, y = right - 8.0, view.top_mm + 8.0
    along, down = cos(radians(bearing)), -sin(radians(bearing))
    tip, tail = (x + 6 * along, y + 6 * down), (x - 6 * along, y - 6 * down)
    yield Line(layer="north", x1_mm=tail[0], y1_mm=tail[1], x2_mm=tip[0], y2_mm=tip[1],
               pen_mm=MEMBER_MM)  # fmt: skip
    for side in (-1.2, 1.2):
        back = (tip[0] - 3 * along - side * down, tip[1] - 3 * down + side * along)
        yield Line(layer="north", x1_mm=back[0], y1_mm=back[1], x2_mm=tip[0], y2_mm=tip[1],
                   pen_mm=MEMBER_MM)  # fmt: skip
    yield Lettering(layer="north", x_mm=x + 8.5 * along, y_mm=y + 8.5 * down, text="N",
                    size_mm=3.0)  # fmt: skip


def _names(view: _View, taken: list[Taken]) -> Iterator[Shape]:
    """Yield every name where it strikes nothing, the deck's first; what finds no room is left."""
    plan, garden, place = view.plan, view.plan.garden, view.plan.place
    middle = (place.along_mm + place.size_along_mm / 2, place.across_mm + place.size_across_mm / 2)
    size = f"{place.size_along_mm:g} x {place.size_across_mm:g} mm, top {place.top_mm:g}"
    yield from _name(view, place.name, middle, taken, size_mm=3.0)
    yield from _name(view, size, (middle[0], middle[1] + 4.5 * view.per_mm), taken)
    for shadow in plan.shadows:
        yield from _hour(view, shadow, taken)
    spots: list[tuple[str, Place]] = [(name, _middle(ring)) for name, ring in plan.buildings_mm]
    spots += [(fence.name, _middle((fence.start_mm, fence.end_mm))) for fence in garden.fences]
    spots += [(one.name, _middle(_cut(plan, _ends(one.line_mm)))) for one in garden.services]
    spots += [(spot.name, _middle(spot.corners_mm)) for spot in garden.wet]
    spots += [(cover.name, cover.at_mm) for cover in garden.covers]
    spots += [(tree.name, tree.at_mm) for tree in garden.trees]
    spots += [(flue.name, flue.at_mm) for flue in garden.flues]
    spots += [(garden.low.name, garden.low.at_mm)] if garden.low else []
    for name, spot in spots:
        yield from _name(view, name, spot, taken)


def _ends(line: Sequence[Place]) -> tuple[Place, Place]:
    return line[0], line[-1]


def _middle(ring: Sequence[Place]) -> Place:
    alongs, acrosses = zip(*ring, strict=True)
    return ((min(alongs) + max(alongs)) / 2, (min(acrosses) + max(acrosses)) / 2)


def _name(
    view: _View, name: str, spot: Place, taken: list[Taken], *, size_mm: float = LETTER_MM
) -> tuple[Lettering, ...]:
    """Return a name on white at a spot, or as near below, above or beside as there is room."""
    x, y = view.at(spot)
    text = fitted(clean(name), size_mm, NAME_MM)
    right, bottom = view.at(view.plan.high_mm)
    tries = [(0.0, 0.0)] + [
        (dx * far * size_mm, dy * far * size_mm) for far in FAR_EM for dx, dy in AROUND
    ]
    found = [
        Lettering(layer="names", x_mm=x + dx, y_mm=y + dy, text=text, size_mm=size_mm, knocked=True)
        for dx, dy in tries
        if view.left_mm + 4 < x + dx < right - 4 and view.top_mm + 2 < y + dy < bottom - 2
    ]
    return first_clear(found, taken)


def _hour(view: _View, shadow: ShadowAt, taken: list[Taken]) -> Iterator[Shape]:
    """Yield the hour beside the longest ring of a shadow, at its corner furthest from the house."""
    if not shadow.rings_mm:
        return
    ring = max(shadow.rings_mm, key=len)
    far = max(ring, key=lambda corner: (corner[1], corner[0]))
    yield from _name(view, hour_told(shadow.hour_h), far, taken)


def hour_told(hour_h: float) -> str:
    """Return an hour as clocks show it, to the nearest minute: 17.5 as "17:30"."""
    minutes = floor(hour_h * 60 + 0.5)
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _beside(sheet: Sheet, plan: SitePlan) -> Iterator[Shape]:
    left = sheet.width_mm - INSET_MM - BESIDE_MM
    top = INSET_MM
    if plan.paths:
        yield from _diagram(plan, left, top)
        top += DIAGRAM_HIGH_MM + 16.0
    yield from paragraphs((*LEGEND, *_hours_told(plan)), "legend", left, top, BESIDE_MM)


def _hours_told(plan: SitePlan) -> tuple[str, ...]:
    return tuple(
        f"Shadows at {hour_told(shadow.hour_h)} on {shadow.day.isoformat()}: the sun stands "
        f"{shadow.altitude_deg:.1f} degrees up."
        for shadow in plan.shadows
    )


@frozen(kw_only=True)
class _Axes:
    """Where hours and degrees of the sun's diagram stand on the sheet."""

    left_mm: float
    bottom_mm: float
    from_h: int
    hour_mm: float
    degree_mm: float

    def at(self, hour_h: float, altitude_deg: float) -> Place:
        return (
            self.left_mm + (hour_h - self.from_h) * self.hour_mm,
            self.bottom_mm - altitude_deg * self.degree_mm,
        )


def _diagram(plan: SitePlan, left: float, top: float) -> Iterator[Shape]:
    """Yield the sun's altitude over the hours of every day told, the hours that matter marked."""
    hours = [hour for path in plan.paths for hour in path.hours_h] or [0.0, 24.0]
    highest = max((a for path in plan.paths for a in path.altitudes_deg), default=10.0)
    begin, end = floor(min(hours)), ceil(max(hours))
    most = 10 * ceil((highest + 1) / 10)
    wide, high = BESIDE_MM - 12.0, DIAGRAM_HIGH_MM - 10.0
    axes = _Axes(left_mm=left + 10.0, bottom_mm=top + 8.0 + high, from_h=begin,
                 hour_mm=wide / max(1, end - begin), degree_mm=high / most)  # fmt: skip
    title = "The sun's altitude in degrees over the hours"
    yield Lettering(layer="sun", x_mm=left, y_mm=top + 2.0, text=title, anchor="start")
    yield from _grid(axes, end, most)
    for when in plan.garden.hours:
        yield from _mattering(axes, when.from_h, when.to_h, most)
    taken: list[Taken] = []
    for path in plan.paths:
        yield from _way(axes, path, taken)


def _grid(axes: _Axes, end: int, most: int) -> Iterator[Shape]:
    step = 10 if most <= 60 else 20
    for degrees in range(0, most + 1, step):
        (x1, y), (x2, _) = axes.at(axes.from_h, degrees), axes.at(end, degrees)
        pen = THIN_MM if degrees == 0 else FINE_MM
        yield Line(layer="sun-grid", x1_mm=x1, y1_mm=y, x2_mm=x2, y2_mm=y, pen_mm=pen)
        yield Lettering(layer="sun-grid", x_mm=x1 - 1.5, y_mm=y, text=f"{degrees}", anchor="end")
    for hour in range(axes.from_h, end + 1, 2):
        (x, y1), (_, y2) = axes.at(hour, 0), axes.at(hour, most)
        yield Line(layer="sun-grid", x1_mm=x, y1_mm=y1, x2_mm=x, y2_mm=y2, pen_mm=FINE_MM)
        yield Lettering(layer="sun-grid", x_mm=x, y_mm=y1 + 3.0, text=f"{hour}")


def _mattering(axes: _Axes, from_h: float, to_h: float, most: int) -> Iterator[Shape]:
    (x1, bottom), (x2, top) = axes.at(from_h, 0), axes.at(to_h, most)
    yield Box(layer="sun-hours", x_mm=x1, y_mm=top, width_mm=x2 - x1, height_mm=bottom - top,
              pen_mm=MEMBER_MM)  # fmt: skip
    yield Box(layer="sun-hours", x_mm=x1, y_mm=bottom - 0.6, width_mm=x2 - x1, height_mm=1.2,
              pen_mm=0.0, fill="black")  # fmt: skip


def _way(axes: _Axes, path: SunPath, taken: list[Taken]) -> Iterator[Shape]:
    points = [axes.at(*one) for one in zip(path.hours_h, path.altitudes_deg, strict=True)]
    for (x1, y1), (x2, y2) in pairwise(points):
        yield Line(layer="sun-way", x1_mm=x1, y1_mm=y1, x2_mm=x2, y2_mm=y2, pen_mm=MEMBER_MM)
    if points:
        x, y = min(points, key=lambda point: point[1])
        text = path.day.isoformat()
        tries = [Lettering(layer="sun-way", x_mm=x, y_mm=y + down, text=text, knocked=True)
                 for down in (-2.5, 3.0, 6.0, 9.0, 12.0)]  # fmt: skip
        yield from first_clear(tries, taken)
