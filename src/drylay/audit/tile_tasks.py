"""The work on tiles: which tasks there are, what each waits for, holds and takes."""

from fractions import Fraction

from drylay.audit.tiles import LIFT_MOST_KG, tiling_of
from drylay.plan.model import Plan

#: Limits of hold points on tiles that have one.
TILE_LIMITS = {
    "tile_size": (1.0, "mm"), "pad_level": (2.0, "mm"), "first_tiles": (2.0, "mm"),
    "fifth_line": (3.0, "mm"), "lips": (2.0, "mm"), "tile_cuts": (2.0, "mm"),
}  # fmt: skip
#: Hold points of the tasks on tiles, and of tasks that are held otherwise than under boards.
TILE_HOLDS = {
    "pads": {"pad_level"}, "tiles": {"first_tiles", "fifth_line", "lips", "rock"},
    "cut_tiles": {"tile_cuts"},
}  # fmt: skip
OTHER_HOLDS = {"delivery": {"delivered", "tile_size"}, "hand_over": {"tiles_done"}}
TILE_WAITS = {
    "pads": ("gravel", "fabric", "dig", "set_out"), "tiles": ("pads", "frame", "braces"),
    "cut_tiles": ("tiles",),
}  # fmt: skip
#: Hours of one person, in hundredths: whatever the deck, and for each.
TILE_FIXED = {"pads": (25, 50), "tiles": (50, 100), "cut_tiles": (50, 100)}


def tile_kinds(plan: Plan) -> set[str]:
    """Return the kinds of task that only a deck of tiles has, or that its frame has."""
    tiling = tiling_of(plan)
    carried = {"pads"} if tiling.pads is not None else {"cut_frame", "frame"}
    return carried | {"tiles"} | ({"cut_tiles"} if tiling.cut else set())


def tile_holds(plan: Plan, kind: str) -> set[str]:
    """Return the hold points of a task that tiles hold otherwise; none where they do not."""
    tiled = plan.tiling is not None or plan.tiles is not None
    return OTHER_HOLDS.get(kind, set()) if tiled else set()


def tile_hands(plan: Plan, kind: str) -> int:
    """Return how many people a task takes for the mass of a tile alone."""
    tiling = plan.tiling or plan.tiles
    heavy = tiling is not None and tiling.tile_mass_kg > LIFT_MOST_KG
    return 2 if heavy and kind in {"delivery", "tiles", "cut_tiles"} else 1


def tile_sizes(plan: Plan) -> set[str]:
    """Return where the sizes of tools stand that tiles cannot be laid without."""
    cut = tiling_of(plan).cut > 0
    return {"surface.gap_preferred_mm"} | ({"buying.kerf_mm"} if cut else set())


def tile_quantities(plan: Plan, kind: str) -> list[tuple[tuple[int, int], Fraction]]:
    """Return what a task on tiles is made of: hundredths of an hour for each, and how many."""
    tiling = tiling_of(plan)
    pads = tiling.pads.count if tiling.pads is not None else 0
    counts = {"pads": ((3, 8), pads), "tiles": ((10, 20), tiling.whole),
              "cut_tiles": ((20, 40), tiling.cut)}  # fmt: skip
    rates, count = counts[kind]
    return [(rates, Fraction(count))]
