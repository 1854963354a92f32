"""Ways out: does each one's arithmetic hold, is it as honest as it says, which was chosen?"""

from collections.abc import Iterator
from fractions import Fraction

from drylay.audit.edged import field_rows, taken_by_border
from drylay.audit.exact import PER_MM, mark_of, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    of_boards,
    off_by,
    same_count,
    same_length,
    same_money,
    same_text,
)
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.brief.model import WAYS_OUT
from drylay.plan.model import Plan
from drylay.surface.model import Surface, WayOut

WAYS = conventions("Rows (surface): ways out")


def _ways(surface: Surface) -> Iterator[tuple[str, WayOut]]:
    for index, way in enumerate(surface.ways_out):
        yield f"surface.ways_out[{index}]", way


def chosen_way(surface: Surface) -> WayOut:
    """Return the way out that was chosen, if just one was."""
    chosen = [way for way in surface.ways_out if way.chosen]
    return need(chosen[0] if len(chosen) == 1 else None, "single chosen way out")


def one_way_chosen(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless exactly one way out is chosen."""
    chosen = sum(way.chosen for way in surface_of(plan).ways_out)
    yield from same_count("surface.ways_out", "ways out that are chosen", chosen, 1, WAYS)


def chosen_way_is_laid(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the chosen way out is not what the rows show."""
    surface = surface_of(plan)
    way = chosen_way(surface)
    subject = "surface.way_out"
    yield from same_text(subject, "not the way out that is chosen", surface.way_out, way.kind, WAYS)
    yield from same_text(subject, "the chosen way runs otherwise", way.run, surface.run, WAYS)
    rows = field_rows(surface)
    yield from same_count(subject, "rows of the chosen way", way.rows, len(rows), WAYS)
    message = "the chosen way's change of the cover"
    change = ticks(surface.cover_change_mm)
    yield from same_length(subject, message, way.cover_change_mm, change, WAYS)
    if rows:
        first, last = ticks(rows[0].width_mm), ticks(rows[-1].width_mm)
        yield from same_length(subject, "the chosen way's first row", way.first_row_mm, first, WAYS)
        yield from same_length(subject, "the chosen way's last row", way.last_row_mm, last, WAYS)


def wished_depth(surface: Surface, way: WayOut) -> int:
    """Return how deep the field's rows of a way out were wished to be, in 1/320 mm."""
    taken = taken_by_border(surface.border)
    if way.run == surface.run:
        return ticks(surface.rows_depth_mm) - ticks(surface.cover_change_mm) - taken
    return ticks(surface.row_length_mm) - taken


def ways_fill_the_cover(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each way out whose rows and mean gap do not fill its cover."""
    surface = surface_of(plan)
    board = ticks(surface.board_width_mm)
    for subject, way in _ways(surface):
        edges = ticks(way.first_row_mm) + ticks(way.last_row_mm)
        widths = (way.rows - 2) * board + edges if way.rows > 1 else ticks(way.first_row_mm)
        gaps = Fraction(way.gap_mm) * PER_MM * (way.rows - 1)
        wanted = wished_depth(surface, way) + ticks(way.cover_change_mm)
        if abs(widths + gaps - wanted) > Fraction(1, 100):
            message = f"{way.kind}: its rows and gaps do not fill its cover"
            yield off_by(subject, message, float(widths + gaps), wanted, WAYS)


def ways_keep_their_kind(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each way out that is not what its name says."""
    surface = surface_of(plan)
    board = ticks(surface.board_width_mm)
    for subject, way in _ways(surface):
        first, last = ticks(way.first_row_mm), ticks(way.last_row_mm)
        if not _is_kind(way, first - board, last - board, ticks(way.cover_change_mm)):
            message = f"its rows or its change of the cover are not those of {way.kind!r}"
            yield Flaw(subject=subject, message=message, source=WAYS)
        if way.run != surface.run and way.kind != "turn" and surface.way_out != "turn":
            yield Flaw(subject=subject, message="the boards turn, unsaid", source=WAYS)


def _is_kind(way: WayOut, first: int, last: int, change: int) -> bool:
    """Whether a way is its kind; `first`, `last`: how much wider than a board those rows are."""
    whole = first == last == 0
    alone = way.rows == 1  # a cover narrower than a board: its one row is first and last
    kinds = {
        "as_wished": (first == 0 or alone) and last <= 0 and change == 0,
        "gaps": whole and change == 0,
        "shrink": whole and change < 0,
        "grow": whole and change > 0,
        "rip_last": (first == 0 or alone) and last < 0 and change == 0,
        "rip_both": first < 0 and last < 0 and 0 <= first - last <= PER_MM and change == 0,
        "turn": first <= 0 and last <= 0,
    }
    return kinds.get(way.kind, False)


def ways_differ(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a way out is named twice, or has no rows."""
    seen: set[tuple[object, ...]] = set()
    for subject, way in _ways(surface_of(plan)):
        same = (way.kind, way.run, way.rows, way.gap_mm, way.cover_change_mm, way.last_row_mm)
        if same in seen:
            yield Flaw(subject=subject, message=f"{way.kind} is listed twice", source=WAYS)
        seen.add(same)
        if way.kind not in WAYS_OUT:
            yield Flaw(subject=subject, message=f"no way out is {way.kind!r}", source=WAYS)
        if way.rows < 1:
            yield from same_count(subject, "a way out without rows", way.rows, 1, WAYS)


def rules_are_measured(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a rule of a way out is not what the way shows against the plan's limit."""
    surface = surface_of(plan)
    kerf = ticks(plan.buying.kerf_mm) if plan.buying is not None else None
    least_off = None if kerf is None else max(kerf, mark_of(plan))
    for subject, way in _ways(surface):
        figures = _figures(surface, way, least_off)
        for rule in way.rules:
            shown, limit = figures.get(rule.rule, (None, None))
            if rule.rule == "boards may be ripped":  # allowed as many as it takes, or none
                limit = shown if rule.met else 0.0
            yield from _same_figure(f"{subject}: {rule.rule}", rule.measured, shown)
            yield from _same_figure(f"{subject}: limit of {rule.rule}", rule.limit, limit)


def _figures(
    surface: Surface, way: WayOut, least_off: int | None
) -> dict[str, tuple[float | None, float | None]]:
    """Return what each rule ought to measure on a way out, and its limit where the plan has it."""
    first, last, board = way.first_row_mm, way.last_row_mm, surface.board_width_mm
    ripped = [width for width in (first, last)[: way.rows] if width != board]
    sawn = None if least_off is None else board - least_off / PER_MM
    return {
        "gap not under the least": (way.gap_mm, surface.gap_least_mm),
        "gap not over the most": (way.gap_mm, surface.gap_most_mm),
        "no sliver": (min(first, last), surface.sliver_limit_mm),
        "rip not under the least": (min(ripped, default=board), surface.least_rip_mm),
        "the saw takes off a whole kerf": (max(ripped, default=board), sawn),
        "boards may be ripped": (len(ripped), None),
        "cover may shrink": (-way.cover_change_mm, None),
        "cover may grow": (way.cover_change_mm, None),
    }


def _same_figure(subject: str, told: float, wanted: float | None) -> Iterator[Flaw]:
    if wanted is not None and abs(told - wanted) > 1e-6:
        message = "not the figure the way out or the plan shows"
        yield Flaw(subject=subject, message=message, measured=told, limit=wanted, source=WAYS)


#: Rules met when the figure is no less than the limit; all others when it is no more.
AT_LEAST = {"gap not under the least", "no sliver", "rip not under the least"}


def rules_are_judged(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where `met` is not what a rule's figure and limit say."""
    for subject, way in _ways(surface_of(plan)):
        for rule in way.rules:
            over, under = rule.measured - rule.limit, rule.limit - rule.measured
            met = (over if rule.rule in AT_LEAST else under) >= -1e-9
            if rule.met != met:
                yield Flaw(
                    subject=f"{subject}: {rule.rule}",
                    message=f"said to be {'met' if rule.met else 'broken'}, and it is not",
                    measured=rule.measured,
                    limit=rule.limit,
                    unit=rule.unit,
                    source=WAYS,
                )


def ways_are_honest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where `honest` is not that every rule is met."""
    for subject, way in _ways(surface_of(plan)):
        if way.honest != all(rule.met for rule in way.rules):
            message = f"{way.kind}: 'honest' is not what its rules say"
            yield Flaw(subject=subject, message=message, source=WAYS)


def chosen_way_is_honest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the chosen way out breaks a rule."""
    way = chosen_way(surface_of(plan))
    for rule in way.rules:
        if not rule.met:
            yield Flaw(
                subject="surface.way_out",
                message=f"the chosen way breaks {rule.rule}",
                measured=rule.measured,
                limit=rule.limit,
                unit=rule.unit,
                source=WAYS,
            )


def chosen_cost_is_the_order(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the chosen way costs what the order comes to."""
    buying = need(plan.buying, "purchase")
    way = chosen_way(surface_of(plan))
    message = "the chosen way's cost is not the order's total"
    cost = need(way.cost, "cost of the chosen way")
    yield from same_money("surface.way_out", message, cost, buying.order_total, WAYS)


def no_way_left_out(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each way out of whole boards that the figures allow and nobody lists.

    Of a deck whose boards were turned only the chosen way's own figures are at hand.
    """
    of_boards(plan)
    surface = surface_of(plan)
    if surface.way_out == "turn" or not ticks(surface.remainder_mm):
        return
    listed = {(way.kind, way.rows) for way in surface.ways_out if way.run == surface.run}
    whole = surface.whole_rows
    wanted = {("gaps", rows) for rows in _row_counts(surface)}
    wanted |= {("shrink", whole)} if whole else set()
    wanted |= {("grow", whole + 1)}
    for kind, rows in sorted(wanted - listed):
        message = f"{kind} with {rows} rows is possible to judge, and is not listed"
        yield Flaw(subject="surface.ways_out", message=message, source=WAYS)


def _row_counts(surface: Surface) -> set[int]:
    """Return how many whole boards, two or more, fill the wished depth with gaps in range."""
    depth = ticks(surface.rows_depth_mm - surface.cover_change_mm)
    depth -= taken_by_border(surface.border)
    board = ticks(surface.board_width_mm)
    least, most = ticks(surface.gap_least_mm), ticks(surface.gap_most_mm)
    near = {surface.whole_rows, surface.whole_rows + 1}
    fitting = range(2, depth // max(board, 1) + 2)
    kept = {n for n in fitting if (n - 1) * least <= depth - n * board <= (n - 1) * most}
    return kept | {n for n in near if n > 1}


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-121", "exactly one way out is chosen", one_way_chosen),
    ("AUD-122", "the chosen way out is what is laid", chosen_way_is_laid),
    ("AUD-123", "each way out fills its cover", ways_fill_the_cover),
    ("AUD-124", "each way out is what its name says", ways_keep_their_kind),
    ("AUD-125", "ways out differ and have rows", ways_differ),
    ("AUD-126", "a way out is honest when every rule is met", ways_are_honest),
    ("AUD-127", "the chosen way out breaks no rule", chosen_way_is_honest),
    ("AUD-129", "rules of ways out measure what the way shows", rules_are_measured),
    ("AUD-130", "rules of ways out are judged by figure and limit", rules_are_judged),
    ("AUD-131", "no way out of whole boards is left out", no_way_left_out),
    ("AUD-128", "the chosen way out costs what the order comes to", chosen_cost_is_the_order),
)
