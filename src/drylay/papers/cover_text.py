"""The summary's part on the cover: its size, the rows, their gaps, and every way out."""

from collections.abc import Callable

from drylay.papers.border_text import board_told, border_told
from drylay.papers.fall_text import fall_told
from drylay.papers.layout import heading, para, points
from drylay.papers.wording import (
    RUNS,
    WAYS,
    clean,
    decision_at,
    fine,
    many,
    marks_told,
    money,
    ripped_edge_told,
    said_by,
    size,
    size_least,
    size_most,
)
from drylay.plan.model import Plan
from drylay.surface.model import RuleMet, Surface, WayOut


def cover_lines(plan: Plan) -> list[str]:
    """Return what the summary says of the cover; nothing where the plan has none."""
    surface, units = plan.surface, plan.units
    if surface is None or plan.tiling is not None:
        return []
    told = [
        tell(surface, units)
        for tell in (cover_told, rows_told, fall_told, gaps_told, moisture_told)
    ]
    lines = [line for text in (*told, ripped_told(plan)) for line in para(text)]
    lines += [line for text in border_told(plan) for line in para(text)]
    return [*heading("COVER AND ROWS"), *lines, *_ways_out(plan, surface)]


def cover_told(surface: Surface, units: str) -> str:
    """Return the cover's size, and whether it is as wished."""
    along, across = size(surface.cover_along_mm, units), size(surface.cover_across_mm, units)
    return (
        f"Cover {along} along the house, {across} away from it. {_changed(surface, units)} Left "
        "and right: as you stand in the garden facing the house."
    )


def rows_told(surface: Surface, units: str) -> str:
    """Return how many rows of which board there are, and which way they run."""
    field = [row.mark for row in surface.rows if not row.border]
    board = board_told(
        surface.board_article, surface.board_width_mm, surface.board_thickness_mm, units
    )
    inside = f" in the field, {marks_told(field)}," if surface.border else ""
    return f"{many(len(field), 'row')}{inside} of {board}, running {RUNS[surface.run]}."


def _changed(surface: Surface, units: str) -> str:
    if not surface.cover_change_mm:
        return "As wished."
    word = "more" if surface.cover_change_mm > 0 else "less"
    by = size(abs(surface.cover_change_mm), units)
    return f"That is {by} {word} than wished, across the rows, so that the rows come out."


def gaps_told(surface: Surface, units: str) -> str:
    """Return every gap by its value, with the rows it stands before."""
    before: dict[str, list[str]] = {}
    for row in surface.rows[1:]:
        before.setdefault(size(row.gap_mm, units), []).append(row.mark)
    told = "; ".join(f"{gap} before {marks_told(marks)}" for gap, marks in before.items())
    least, most = gap_limits(surface, units)
    where = " in the field" if surface.border else ""
    return f"Gaps {told or 'none'}. Allowed{where}: {least} to {most}."


def moisture_told(surface: Surface, units: str) -> str:
    """Return how moist the gaps want the boards, and the least gap for others; "" without that."""
    moist = surface.gaps_by_moisture
    if moist is None:
        return ""
    others = "; ".join(
        f"{day.laying_pct:g} %: {size_least(day.gap_least_mm, units)}" for day in moist.others
    )
    return (
        f"Gaps are for boards laid at {moist.laying_pct:g} % moisture, which get up to "
        f"{moist.wettest_pct:g} % and then leave {size(moist.open_least_mm, units)} open. Least "
        f"gap for boards laid at {others}. Where that is more than these gaps, let the boards take "
        "up moisture, or plan again with climate.laying_pct; wetter boards only open further."
    )


def gap_limits(surface: Surface, units: str) -> tuple[str, str]:
    """Return the limits of gaps, told so that no gap of the plan lies beyond them as printed.

    A limit that is no whole 0.1 mm is told on its strict side, but where a gap is planned between
    it and there, by its nearest figure with a "~", as that gap is.
    """
    gaps = [row.gap_mm for row in surface.rows[1:] if not row.border]
    least, most = surface.gap_least_mm, surface.gap_most_mm
    return (
        size(least, units)
        if _between(gaps, least, size_least, units)
        else size_least(least, units),
        size(most, units) if _between(gaps, most, size_most, units) else size_most(most, units),
    )


def _between(
    gaps: list[float], limit_mm: float, told: Callable[[float, str], str], units: str
) -> bool:
    """Whether some gap lies between a limit and the limit as told on its strict side."""
    return any(
        told(gap, units) == told(limit_mm, units) and size(gap, units) != told(gap, units)
        for gap in gaps
    )


def ripped_told(plan: Plan) -> str:
    """Return which rows are ripped to which width; "" where none is."""
    ripped = [row for row in plan.surface.rows if row.ripped] if plan.surface else []
    told = ", ".join(f"{row.mark} to {size(row.width_mm, plan.units)}" for row in ripped)
    return f"Ripped: {told}. {ripped_edge_told(plan).capitalize()}." if ripped else ""


def _ways_out(plan: Plan, surface: Surface) -> list[str]:
    decision = decision_at(plan, "surface.way_out")
    why = f" Why: {clean(decision.rule, 200)} ({said_by(decision)})." if decision else ""
    left = ""
    if surface.remainder_mm:
        left = f", which leaves {size(surface.remainder_mm, plan.units)}"
    text = (
        f"{many(surface.whole_rows, 'whole row')} fit at the gap wished{left}. "
        f"Chosen: {WAYS[surface.way_out]}.{why}"
    )
    currency = plan.buying.currency if plan.buying else ""
    honest = [_way(way, plan.units, currency) for way in surface.ways_out if way.honest]
    other = [_way(way, plan.units, currency) for way in surface.ways_out if not way.honest]
    costs = "What each way costs, the whole order:" if currency else "Every way out:"
    return [
        *para(text), costs, *points(honest),
        *(["Not possible:", *points(other)] if other else []),
    ]  # fmt: skip


def _way(way: WayOut, units: str, currency: str) -> str:
    turned = f", boards {RUNS[way.run]}" if way.kind == "turn" else ""
    return way_told(way, units, currency, name=f"{WAYS[way.kind]}{turned}")


def way_told(
    way: WayOut, units: str, currency: str, *, name: str, what: str = "row", gap: str = "mean gap"
) -> str:  # fmt: skip
    """Return a way out of so many rows or columns, with its cost and the rules it breaks."""
    chosen = "chosen: " if way.chosen else ""
    parts = [f"{chosen}{name}: {many(way.rows, what)}"]
    if way.rows > 1:
        parts.append(f"{gap} {size(way.gap_mm, units)}" if way.gap_mm >= 0 else "no gaps left")
    if way.cover_change_mm:
        word = "more" if way.cover_change_mm > 0 else "less"
        parts.append(f"cover {size(abs(way.cover_change_mm), units)} {word}")
    if way.first_row_mm != way.last_row_mm:
        parts.append(f"first {what} {size(way.first_row_mm, units)}")
        parts.append(f"last {what} {size(way.last_row_mm, units)}")
    parts += [money(way.cost, currency)] if way.cost is not None else []
    parts += [clean(way.cost_note, 200)] if way.cost_note and way.honest else []
    parts += [_broken(rule, units) for rule in way.rules if not rule.met]
    return ", ".join(parts)


def _broken(rule: RuleMet, units: str) -> str:
    """Return a rule that is not kept, with both its figures."""
    found, limit = f"{rule.measured:g}", f"{rule.limit:g}"
    if rule.unit == "mm":
        found, limit = size(rule.measured, units), size(rule.limit, units)
        if found.removeprefix("~") == limit.removeprefix("~"):
            found, limit = fine(rule.measured, units), fine(rule.limit, units)
    return f"not kept: {clean(rule.rule)} (would be {found}, limit {limit})"
