"""Drawings by what a deck is: on an outline, or a rectangle."""

from collections.abc import Callable
from functools import partial

from drylay.papers.boards_drawing import boards_svg
from drylay.papers.frame_drawing import frame_svg
from drylay.papers.guards_drawing import edges_svg
from drylay.papers.outlined_boards import outlined_boards_svg
from drylay.papers.outlined_frame import frame_page_svg, outlined_frame_svg
from drylay.papers.outlined_frame_layout import MOST_PAGES, frame_layout, page_file
from drylay.papers.outlined_guards import outlined_edges_svg
from drylay.papers.outlined_posts import outlined_posts_svg
from drylay.papers.outlined_setting import outlined_setting_svg
from drylay.papers.outlined_tiles import outlined_tiles_svg
from drylay.papers.posts_drawing import posts_svg
from drylay.papers.setting_out import setting_out_svg
from drylay.papers.tiles_drawing import tiles_svg
from drylay.plan.model import Plan


def boards_drawn(plan: Plan) -> bytes:
    """Return the drawing of a plan's boards; b"" where the plan has none."""
    return boards_svg(plan) if plan.outline is None else outlined_boards_svg(plan)


def frame_drawn(plan: Plan) -> bytes:
    """Return the drawing of a plan's frame; b"" where the plan has none."""
    return frame_svg(plan) if plan.outline is None else outlined_frame_svg(plan)


def setting_out_drawn(plan: Plan) -> bytes:
    """Return the drawing that a deck is pegged out by; b"" without any."""
    return setting_out_svg(plan) if plan.outline is None else outlined_setting_svg(plan)


def tiles_drawn(plan: Plan) -> bytes:
    """Return the drawing of a plan's tiles; b"" where the plan has none."""
    return tiles_svg(plan) if plan.outline is None else outlined_tiles_svg(plan)


def posts_drawn(plan: Plan) -> bytes:
    """Return the drawing of what a deck stands on; b"" where nothing stands."""
    return posts_svg(plan) if plan.outline is None else outlined_posts_svg(plan)


def edges_drawn(plan: Plan) -> bytes:
    """Return the drawing of a plan's guards and steps; b"" where it has neither."""
    return edges_svg(plan) if plan.outline is None else outlined_edges_svg(plan)


#: The files of further pages that the frame of a deck on an outline may have.
FRAME_PAGES = tuple(page_file(number) for number in range(2, MOST_PAGES + 1))


def frame_pages(plan: Plan) -> dict[str, Callable[[Plan], bytes]]:
    """Return the further pages that a plan's frame has, by their files: openings enlarged."""
    if plan.outline is None or plan.subframe is None:
        return {}
    count = len(frame_layout(plan, plan.outline, plan.subframe).pages)
    return {
        file: partial(frame_page_svg, number=number)
        for number, file in enumerate(FRAME_PAGES[:count], 2)
    }
