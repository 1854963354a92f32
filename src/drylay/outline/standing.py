"""Openings for what stands or lies in the deck: a tree, a post, a pool; and a hatch's cover."""

from drylay.brief.outline_model import OpeningWish
from drylay.marks import exact, to_mm
from drylay.outline.model import Opening
from drylay.outline.sides import spot_of
from drylay.reasons import Source
from drylay.rings import Place, Ring, about
from drylay.shapes import place_of

COMMON_PRACTICE = Source(kind="common practice", title="common practice, no source")
FROM_MEMORY = Source(kind="from memory", title="from memory: how trees grow and sway")

#: How much thicker a trunk gets a year, and how far it sways to either side. Source: from memory.
GROWTH_A_YEAR_MM, SWAY_MM = 10.0, 50.0
#: Left all round a post, and the most where a board's end meets it. Source: common practice.
POST_CLEAR_MM, POST_CLEAR_MOST_MM = 6.0, 100.0
#: Boards reach over a pool's edge by no more than this. Source: common practice.
OVERHANG_MOST_MM = 40.0
#: Boards end flush with the water's edge, so that no trimmer hangs over it. Source: assumption.
OVERHANG_MM = 0.0


def tree_side_mm(trunk_mm: float, growth_a_year_mm: float, years: int, sway_mm: float) -> float:
    """Return the side of the square a tree needs: trunk, growth, and its sway either way.

    Source: arithmetic. `growth_a_year_mm` is that of the trunk's diameter.
    """
    return trunk_mm + growth_a_year_mm * years + 2 * sway_mm


def standing_size(wish: OpeningWish) -> Place:
    """Return the sizes of what stands or lies in an opening, in 1/320 mm."""
    if wish.kind != "tree":
        return (exact(wish.size_along_mm or 0.0), exact(wish.size_across_mm or 0.0))
    growth, sway = wish.growth_a_year_mm, wish.sway_mm
    side = tree_side_mm(
        wish.trunk_mm or 0.0,
        GROWTH_A_YEAR_MM if growth is None else growth,
        wish.years or 0,
        SWAY_MM if sway is None else sway,
    )
    return (exact(side), exact(side))


def within_of(wish: OpeningWish) -> Ring:
    """Return the corners of what stands or lies in an opening."""
    return about(place_of(wish.along_mm, wish.across_mm), standing_size(wish))


def opening_of(wish: OpeningWish, *, mark: str) -> Opening:
    """Return the opening for a tree, a post or a pool.

    Raises:
        ValueError: The wish is for a hatch, whose hole follows from the rows.
    """
    if wish.kind == "hatch":
        raise ValueError("a hatch's hole follows from the rows: snap_hatch")
    within = within_of(wish)
    clear_mm, least_mm, most_mm = {
        "tree": (0.0, 0.0, None),
        "post": (POST_CLEAR_MM, POST_CLEAR_MM, POST_CLEAR_MOST_MM),
        "pool": (-OVERHANG_MM, -OVERHANG_MOST_MM, None),
    }[wish.kind]
    return Opening(
        mark=mark,
        kind=wish.kind,
        name=wish.name,
        corners=tuple(spot_of(place) for place in grown(within, exact(clear_mm))),
        within=tuple(spot_of(place) for place in within),
        clear_mm=to_mm(exact(clear_mm)) + 0.0,
        clear_least_mm=least_mm,
        clear_most_mm=most_mm,
    )


def grown(ring: Ring, by: int) -> Ring:
    """Return an upright rectangle larger by so much all round; smaller where below 0."""
    (low_x, low_y), _, (high_x, high_y), _ = ring
    low, high = (low_x - by, low_y - by), (high_x + by, high_y + by)
    return (low, (high[0], low[1]), high, (low[0], high[1]))
