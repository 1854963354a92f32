"""A purchase taken apart: which of it wears out with the boards, and how it is sawn."""

from collections.abc import Iterator
from decimal import Decimal

from drylay.buying.model import BoughtLength, Buying, Purchase
from drylay.compare.model import Outlay
from drylay.marks import exact
from drylay.plan.model import Plan

#: What carries the boards, as purchases call it. All else is bought again with the boards, and so
#: is what serves both, such as one box of screws: boards are bought at least as often as frames, so
#: that never tells a deck cheaper than it is.
FRAME = frozenset(
    {
        "frame",
        "fabric",
        "coach screws",
        "frame screws",
        "screws of doubles",
        "hangers",
        "hanger screws",
        "gravel",
        "packers",
        "pads",
    }
)
#: Purchases that are cut with a knife.
NOT_SAWN = "fabric"


def outlay(buying: Buying) -> Outlay:
    """Return a purchase's total, spares with it, as boards' part and frame's part."""
    uses = _uses(buying)
    frame = sum(
        (
            line.total
            for line in (*buying.order, *buying.spares)
            if line.article in uses and uses[line.article] <= FRAME
        ),
        Decimal(0),
    )
    return Outlay(surface=buying.total - frame, frame=frame)


def _uses(buying: Buying) -> dict[str, set[str]]:
    """Return what each article is bought for."""
    bought = [(part.article, part.what) for part in buying.purchases]
    bought += [(part.article, part.what) for part in buying.packs]
    uses: dict[str, set[str]] = {}
    for article, what in bought:  # one pack purchase names all uses of its article
        uses.setdefault(article, set()).update(what.split(", "))
    return uses


def saw_cuts(plan: Plan) -> int:
    """Return how many times a board or timber is sawn across, out of what is bought.

    One cut takes off a trim at the first end, one ends each piece; a last piece that ends with its
    board needs none. A whole edge sawn in one line is not among them, nor is ripping. Of
    tiles every edge sawn counts.
    """
    return sum(cuts for cuts, _ in _sawn(plan)) + _tile_cuts(plan)


def _tile_cuts(plan: Plan) -> int:
    tiling, surface = plan.tiling, plan.surface
    if tiling is None or surface is None:
        return 0
    sides = (tiling.tile_length_mm, surface.board_width_mm)
    return sum(
        (tile.length_mm < sides[0]) + (tile.width_mm < sides[1]) for tile in tiling.cut_tiles
    )


def sawn_pieces(plan: Plan) -> int:
    """Return how many pieces have an end that was sawn: all but those bought just so."""
    laid = plan.tiling or plan.tiles
    tiles = laid.cut if laid else 0
    return sum(len(length.pieces) for cuts, length in _sawn(plan) if cuts) + tiles


def _sawn(plan: Plan) -> Iterator[tuple[int, BoughtLength]]:
    """Yield every length that a saw opens, with its cuts."""
    if plan.buying is None:
        return
    sizes = {mark: exact(size_mm) for mark, size_mm in plan.sizes_mm().items()}
    kerf, trim = exact(plan.buying.kerf_mm), exact(plan.buying.end_trim_mm)
    for purchase in _by_saw(plan.buying):
        for length in purchase.lengths:
            used = sum(sizes[mark] for mark in length.pieces) + kerf * (len(length.pieces) - 1)
            filled = used == exact(length.length_mm)
            yield len(length.pieces) + bool(trim) - filled, length


def _by_saw(buying: Buying) -> Iterator[Purchase]:
    return (purchase for purchase in buying.purchases if purchase.what != NOT_SAWN)
