"""Ways out of both directions of a grid: all there are, as honest as they say, priced, chosen."""

from collections.abc import Iterator

from attrs import frozen

from drylay.audit.exact import mark_of, mm, ticks
from drylay.audit.flaws import conventions, need, same_count, same_length, same_money, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.audit.tiles import Courses, columns_of, rows_of, tiling_of
from drylay.audit.wanted import buying_of
from drylay.plan.model import Plan
from drylay.surface.model import WayOut

WAYS = conventions("Tiles (tiling): ways out")
#: Rules met when the figure is no less than the limit; all others when it is no more.
AT_LEAST = {"gap not under the least", "no sliver", "rip not under the least"}

MAY_CUT = "boards may be ripped"


@frozen(kw_only=True)
class Direction:
    """One direction of a grid with its ways out, and the one that is told to be laid."""

    path: str
    courses: Courses
    told: str
    sliver_mm: float
    ways: tuple[WayOut, ...]


def directions_of(plan: Plan) -> tuple[Direction, Direction]:
    """Return both directions of a grid with their ways out."""
    surface, tiling = surface_of(plan), tiling_of(plan)
    return (
        Direction(path="surface", courses=rows_of(plan), told=surface.way_out,
                  sliver_mm=surface.sliver_limit_mm, ways=surface.ways_out),
        Direction(path="tiling", courses=columns_of(plan), told=tiling.way_out,
                  sliver_mm=tiling.least_cut_mm, ways=tiling.ways_out),
    )  # fmt: skip


#: A way out by its kind, its courses, its change of the cover, its first and its last course.
Figures = tuple[str, int, int, int, int]


def _wanted(courses: Courses, joint: int) -> list[Figures]:
    """Return every way out that there is for a direction, by the conventions."""
    side, depth = courses.side, courses.depth - courses.change
    whole = (depth + joint) // (side + joint)
    fills = whole * (side + joint) - joint
    if whole and fills == depth:
        return [("as_wished", whole, 0, side, side)]
    found: list[Figures] = [("shrink", whole, fills - depth, side, side)] if whole else []
    more = (whole + 1) * (side + joint) - joint - depth
    found.append(("grow", whole + 1, more, side, side))
    for between in (whole - 1, whole):
        left = depth - between * side - (between + 1) * joint
        last = left // 2
        if between >= 0 and last > 0 and left - last < side:
            found.append(("rip_both", between + 2, 0, left - last, last))
    return found if whole else [*found, ("rip_last", 1, 0, depth, depth)]


def _figures(way: WayOut) -> Figures:
    change, first, last = way.cover_change_mm, way.first_row_mm, way.last_row_mm
    return way.kind, way.rows, ticks(change), ticks(first), ticks(last)


def all_ways_are_listed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each way out left out, or listed and not there."""
    joint = ticks(surface_of(plan).gap_preferred_mm)
    for direction in directions_of(plan):
        need(direction.courses.side + joint or None, "size of a tile")
        wanted = _wanted(direction.courses, joint)
        told = [_figures(way) for way in direction.ways]
        for figures in sorted({*wanted, *told}):
            if told.count(figures) != wanted.count(figures):
                listed = "listed, and not there" if figures in told else "there, and not listed"
                message = f"{figures[0]} with {figures[1]} courses is {listed}"
                yield Flaw(subject=f"{direction.path}.ways_out", message=message, source=WAYS)


def the_way_laid_is_chosen(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless one way out is chosen either way: honest, laid, and priced as ordered."""
    buying = buying_of(plan)
    for direction in directions_of(plan):
        chosen = [way for way in direction.ways if way.chosen]
        subject, courses = f"{direction.path}.way_out", direction.courses
        yield from same_count(subject, "ways out that are chosen", len(chosen), 1, WAYS)
        for way in chosen:
            yield from same_text(subject, "not the way chosen", direction.told, way.kind, WAYS)
            edges = (*courses.widths[:1], *courses.widths[-1:])
            laid = (len(courses.widths), courses.change, *edges)
            if _figures(way)[1:] != laid or way.gap_mm != _gap(plan, way):
                message = "what is laid is not the way out that is chosen"
                yield Flaw(subject=subject, message=message, source=WAYS)
            if not way.honest:
                yield Flaw(subject=subject, message="chosen, and not honest", source=WAYS)
            message, cost = "not what the order costs", need(way.cost, "cost of the chosen way")
            yield from same_money(subject, message, cost, buying.order_total, WAYS)


def _gap(plan: Plan, way: WayOut) -> float:
    """Return the joint of a way out: none beside a single course."""
    return surface_of(plan).gap_preferred_mm if way.rows > 1 else 0.0


def _limits(plan: Plan, direction: Direction, way: WayOut) -> dict[str, tuple[float, float | None]]:
    """Return each rule that a way out has to list: its figure, and its limit where it is known."""
    surface, courses = surface_of(plan), direction.courses
    change, first, last = way.cover_change_mm, way.first_row_mm, way.last_row_mm
    wanted: dict[str, tuple[float, float | None]] = {"rows fill the cover": (0.0, 0.0)}
    if way.rows > 1:
        gap = surface.gap_preferred_mm
        wanted = {
            "gap not under the least": (gap, surface.gap_least_mm),
            "gap not over the most": (gap, surface.gap_most_mm),
        }
    if change:
        wanted[f"cover may {'grow' if change > 0 else 'shrink'}"] = (abs(change), None)
    cut = [size for size in (first, last)[: way.rows] if ticks(size) < courses.side]
    if cut:
        least_off = max(ticks(buying_of(plan).kerf_mm), mark_of(plan))
        wanted |= {
            MAY_CUT: (float(len(cut)), None),
            "no sliver": (min(cut), direction.sliver_mm),
            "rip not under the least": (min(cut), mm(courses.least)),
            "the saw takes off a whole kerf": (max(cut), mm(courses.side - least_off)),
        }
    return wanted


def rules_of_ways_hold(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each way out lists its rules, measured and judged as they are."""
    for direction in directions_of(plan):
        for index, way in enumerate(direction.ways):
            subject, wanted = f"{direction.path}.ways_out[{index}]", _limits(plan, direction, way)
            told = [rule.rule for rule in way.rules]
            if sorted(told) != sorted(wanted):
                message = f"its rules are {told}, wanted {sorted(wanted)}"
                yield Flaw(subject=subject, message=message, source=WAYS)
            for rule in way.rules:
                figure, limit = wanted.get(rule.rule, (rule.measured, None))
                if rule.rule == MAY_CUT:  # as many as it takes, or none
                    limit = figure if rule.met else 0.0
                off = abs(rule.measured - figure) > 1e-6
                off |= limit is not None and abs(rule.limit - limit) > 1e-6
                over = rule.measured - rule.limit
                met = (over if rule.rule in AT_LEAST else -over) >= -1e-9
                if off or rule.met != met:
                    message = "not measured, or not judged, as the way shows"
                    yield Flaw(subject=f"{subject}: {rule.rule}", message=message,
                               measured=rule.measured, limit=rule.limit, source=WAYS)  # fmt: skip
            if way.gap_mm != _gap(plan, way):
                yield Flaw(subject=subject, message="not the joint of the spacers", source=WAYS)
            if way.honest != all(rule.met for rule in way.rules) or way.run != direction_run(plan):
                message = "'honest' is not what its rules say, or it runs otherwise"
                yield Flaw(subject=subject, message=message, source=WAYS)


def direction_run(plan: Plan) -> str:
    """Return which way tiles run, as every way out of a grid says."""
    return surface_of(plan).run


def the_grid_is_one(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless rows and tiles run one way, and the other lay is the other way."""
    surface, tiling = surface_of(plan), tiling_of(plan)
    yield from same_text("tiling.run", "not as the rows do", tiling.run, surface.run, WAYS)
    square = ticks(tiling.tile_length_mm) == ticks(surface.board_width_mm)
    if tiling.other is not None and (square or tiling.other.run == tiling.run):
        message = "square tiles, or the same way round"
        yield Flaw(subject="tiling.other", message=message, source=WAYS)
    message = "shorter than the side across the rows"
    if ticks(tiling.tile_length_mm) < ticks(surface.board_width_mm):
        width = ticks(surface.board_width_mm)
        yield from same_length("tiling.tile_length_mm", message, tiling.tile_length_mm, width, WAYS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-961", "all ways out of a grid are listed, and no other", all_ways_are_listed),
    ("AUD-962", "the ways out chosen are laid, honest and priced", the_way_laid_is_chosen),
    ("AUD-963", "rules of a grid's ways out are measured and judged", rules_of_ways_hold),
    ("AUD-964", "rows and tiles run one way", the_grid_is_one),
)
