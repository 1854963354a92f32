"""What a view of a raised frame shows, and where its places and levels lie on paper."""

from collections.abc import Mapping

from attrs import frozen

from drylay.groundwork.model import Footing
from drylay.papers.model import Box, View
from drylay.raised.model import Bearer, Post


@frozen(kw_only=True)
class Figure:
    """What one view shows: from where to where, levels of top and bottom, its posts and bearers.

    From the side bearers on one line hide one another: one is shown, and `marks` names them all.
    """

    from_mm: float
    to_mm: float
    high_mm: float
    low_mm: float
    posts: tuple[Post, ...]
    bearers: tuple[Bearer, ...]
    marks: tuple[str, ...]
    side: bool
    under: Mapping[str, Footing]


def place_of(figure: Figure, post: Post) -> float:
    """Return where a post stands along the view."""
    return post.place.across_mm if figure.side else post.place.along_mm


def half_of(figure: Figure, post: Post) -> float:
    """Return half of how broad a post is as it is seen."""
    return (post.section.depth_mm if figure.side else post.section.breadth_mm) / 2


def level_box(  # noqa: PLR0917 - a rectangle of the view, level by level
    figure: Figure, view: View, layer: str, across: tuple[float, float],
    levels: tuple[float, float], pen_mm: float,
) -> Box:  # fmt: skip
    """Return a rectangle from a place to a place, from its upper level to its lower one."""
    x, y = paper_place(figure, view, across[0], levels[0])
    return Box(layer=layer, x_mm=x, y_mm=y, width_mm=(across[1] - across[0]) / view.per_mm,
               height_mm=(levels[0] - levels[1]) / view.per_mm, pen_mm=pen_mm,
               fill="white")  # fmt: skip


def paper_place(figure: Figure, view: View, place: float, level: float) -> tuple[float, float]:
    """Return where a place at a level lies on paper."""
    x, y = (place - figure.from_mm) / view.per_mm, (figure.high_mm - level) / view.per_mm
    return view.left_mm + x, view.top_mm + y
