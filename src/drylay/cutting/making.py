"""Makes a whole plan near a linear optimum: sides settled, lines laid, boards filled."""

from collections.abc import Sequence

from attrs import frozen

from drylay.cutting.dive import dive
from drylay.cutting.lanes import EACH
from drylay.cutting.lining import lay
from drylay.cutting.master import Master
from drylay.cutting.order import ordered
from drylay.cutting.parting import parted, places_to_part
from drylay.cutting.rounding import Draft, choice_within, lines_of, make_draft, whole_plan
from drylay.cutting.sides import settle_sides
from drylay.cutting.solver import INF

WIDE = 1200  # columns: a search over more takes very long for what it finds
FEW_LEANS = 3  # of a programme with more arcs than that
SMALL = 2000  # columns: a search over fewer may take more nodes for the same work


@frozen(kw_only=True)
class Within:
    """What a plan must keep to: boards of each stock at most, a cost of `most`."""

    caps: Sequence[float]
    most: float


def uncapped(master: Master) -> list[float]:
    """Return how many boards of each stock there are."""
    return [INF if b.limit is None else float(b.limit) for b in master.ready.boards]


def make_plan(
    master: Master, within: Within, leans: int = 1, *, in_parts: bool = False
) -> Draft | None:
    """Return a plan near the linear optimum, None if none was found.

    Lines are laid freely first; for sets of lines whose lines then have no order, it is settled
    which stations the lanes joint on. Up to `leans` times, the programme leaning to other lines
    and boards each time. At last a set of lines may joint otherwise `in_parts`.
    """
    draft, barred, sets = _on_sides(master, within)
    few = leans if len(master.arcs) <= WIDE else min(leans, FEW_LEANS)
    for lean in range(1, few):
        if draft is None and barred is not None and not master.tired:
            draft, _ = _laid_out(master, within, barred, lean)
    if draft is None and in_parts and not master.tired:
        draft = _in_parts(master, within, sets)
    if draft is not None or leans < 2 or master.tired:
        return draft
    return search_plan(master, within, -INF)


def _on_sides(
    master: Master, within: Within
) -> tuple[Draft | None, frozenset[int] | None, set[int]]:
    """Return a plan if there is one, the arcs barred for it, the sets of lines in the way."""
    sets: set[int] = set()
    barred: frozenset[int] | None = frozenset()
    while barred is not None:
        draft, without = _laid_out(master, within, barred, 0)
        if draft is not None or without <= sets:
            return draft, barred, sets | without
        sets |= without
        barred = _settled(master, within, sets)
    return None, None, sets


def _in_parts(master: Master, within: Within, sets: set[int]) -> Draft | None:
    """Return a plan in which a set of lines joints otherwise from some place on."""
    master.cap_boards(within.caps)
    prices = master.solve()
    if prices is None or len(master.arcs) > WIDE:
        return None
    for index in sorted(sets):
        for place in places_to_part(master, prices, index):
            other = parted(master, index, place)
            if place == EACH:  # windows alone keep lines apart that are alone in their lanes
                draft, _ = _laid_out(other, within, frozenset(), 0)
            else:
                draft, _, _ = _on_sides(other, within)
            master.lp_solves += other.lp_solves
            master.pivots += other.pivots
            master.add(other.fillings)
            if draft is not None:
                return draft
    return None


def _settled(master: Master, within: Within, sets: set[int]) -> frozenset[int] | None:
    if not master.staggered:
        return frozenset()
    master.cap_boards(within.caps)
    sides = settle_sides(master, within.most, sets)
    return None if sides is None else sides.barred


def search_plan(master: Master, within: Within, enough: float) -> Draft | None:
    """Return the best plan on settled sides that the solver finds, None if it finds none.

    At a cost of `enough` it may stop.
    """
    barred = _settled(master, within, set(range(len(master.ready.task.lines))))
    return None if barred is None else _searched(master, barred, within, enough)


def _searched(
    master: Master, barred: frozenset[int], within: Within, enough: float
) -> Draft | None:
    """All fillings that may be in such a plan are offered, if they are not too many."""
    master.cap_boards(within.caps)
    master.hold_arcs(barred)
    prices = master.solve()
    if prices is not None:
        master.add_rich(prices, within.most - prices.objective)
        prices = master.solve_once()
    master.hold_arcs(frozenset())
    if prices is None:
        return None
    choice = choice_within(master, prices, barred, within.most, WIDE)
    if len(choice.arcs) > WIDE // 2:
        return None
    nodes = master.limits.nodes
    return whole_plan(master, choice, within.caps, free_sides=False, nodes=nodes, enough=enough)


def _laid_out(
    master: Master, within: Within, barred: frozenset[int], lean: int
) -> tuple[Draft | None, set[int]]:
    """Return a plan if one was found, and the sets of lines that were in the way."""
    master.cap_boards(within.caps)
    master.lean(lean)
    try:
        return _dived(master, within, barred)
    finally:
        master.lean(None)
        master.hold_arcs(frozenset())


def _dived(master: Master, within: Within, barred: frozenset[int]) -> tuple[Draft | None, set[int]]:
    if not master.ready.lanes:
        return _with_boards(master, within, None, []), set()
    held = lay(master, barred, within.most)
    if held is None:
        return None, set(range(len(master.ready.task.lines)))
    flows = dict(enumerate(held))
    lines = [lines_of(master, n, flows) for n in range(len(master.ready.lanes))]
    found, without = ordered(master.ready, lines)
    return (None if without else _with_boards(master, within, held, found)), without


def _with_boards(
    master: Master, within: Within, held: list[int] | None, lines: list[list[tuple[int, ...]]]
) -> Draft | None:
    boards = dive(master, within.caps, within.most, held)
    return None if boards is None else make_draft(master.ready, boards, lines)


def over_all_sides(master: Master, most: float, enough: float) -> Draft | None:
    """Return the best plan over all sides that the solver finds among the fillings known."""
    prices = master.solve()
    if prices is None:
        return None
    choice = choice_within(master, prices, frozenset(), most, WIDE if most < INF else INF)
    if len(choice.arcs) > WIDE // 2 and most < INF:
        return None
    limits = master.limits
    size = 1 + len(choice.arcs) + len(choice.fillings)
    nodes = limits.wide_nodes * max(1, SMALL // size) if master.staggered else limits.nodes
    return whole_plan(master, choice, uncapped(master), free_sides=True, nodes=nodes, enough=enough)


def with_rich_fillings(master: Master, most: float, enough: float) -> Draft | None:
    """Return a plan that any filling good enough to better it may be part of."""
    prices = master.solve()
    if prices is None:
        return None
    for part in (1, 2, 4, 8):
        if master.add_rich(prices, (most - prices.objective) / part):
            break
    return over_all_sides(master, most, enough)
