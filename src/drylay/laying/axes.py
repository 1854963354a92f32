"""The axes of boards: along their run, and to its left."""

import math
from collections.abc import Iterable

from attrs import frozen

from drylay.geometry import Place, Ring
from drylay.marks import exact, to_mm
from drylay.outline.model import Spot

#: Angles whose sine and cosine are whole: these stay exact.
_WHOLE = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0)}


@frozen(kw_only=True)
class Axes:
    """Which way boards run: the cosine and the sine of their angle."""

    cos_ratio: float
    sin_ratio: float


def axes_of(angle_deg: float) -> Axes:
    """Return the axes of boards at an angle from the house."""
    radians = math.radians(angle_deg)
    cos, sin = _WHOLE.get(angle_deg, (math.cos(radians), math.sin(radians)))
    return Axes(cos_ratio=cos, sin_ratio=sin)


def seen(axes: Axes, place: Place) -> Place:
    """Return a place of the cover as the boards see it: along their run, and left of it."""
    x, y = place
    return (x * axes.cos_ratio + y * axes.sin_ratio, y * axes.cos_ratio - x * axes.sin_ratio)


def placed(axes: Axes, place: Place) -> Place:
    """Return a place that boards see in the cover's own axes."""
    u, v = place
    return (u * axes.cos_ratio - v * axes.sin_ratio, u * axes.sin_ratio + v * axes.cos_ratio)


def all_seen(axes: Axes, places: Iterable[Place]) -> Ring:
    """Return places of the cover as the boards see them."""
    return tuple(seen(axes, place) for place in places)


def spot(place: Place) -> Spot:
    """Return a place as a noun, to the nearest 1/320 mm."""
    return Spot(along_mm=to_mm(exact(place[0])), across_mm=to_mm(exact(place[1])))


def place_of(noun: Spot) -> Place:
    """Return a noun as a place."""
    return (noun.along_mm, noun.across_mm)
