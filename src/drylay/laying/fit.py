"""How rows fill a field of any shape: their gap, their edges, and the slivers they would leave.

Everything is counted in 1/320 mm from the side that rows are counted from.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, frozen

from drylay.marks import nearest_mark

KINDS = ("as_wished", "gaps", "rip_both", "rip_last")


@frozen(kw_only=True)
class Step:
    """A side parallel to the rows: boards lie beyond it (`beyond`), or on this side of it."""

    at_320: int
    beyond: bool


@frozen(kw_only=True)
class Depth:
    """A field across its rows: how deep, and what its two ends are.

    `far_flat`: it ends at a side parallel to the rows, else at a corner. `gap_before` and
    `gap_after`: a border or another field lies alongside there, a gap away. `steps` are sides
    between the two ends.
    """

    depth_320: int
    far_flat: bool
    gap_before: bool = False
    gap_after: bool = False
    steps: tuple[Step, ...] = ()


@frozen(kw_only=True)
class FitRules:
    """What rows keep to; `fan_320` is how much all gaps together grow along the run."""

    board_320: int
    gap_least_320: int
    gap_preferred_320: int
    gap_most_320: int
    sliver_320: int
    least_rip_320: int
    may_rip: bool
    mark_320: int
    fan_320: int = 0


@frozen(kw_only=True)
class Strip:
    """What a side leaves of a row: so wide, at so far from where rows are counted from."""

    at_320: int
    width_320: int


@frozen(kw_only=True)
class FitRow:
    """A row: where its nearer edge lies, and how wide it is."""

    edge_320: int
    width_320: int


@frozen(kw_only=True)
class RowFit:
    """One way to fill a field: its rows, and the strips narrower than they may be.

    `mark_320` is what edges are told to: pencil marks, or 1/320 mm where these do not do.
    """

    kind: str
    gap_320: Fraction
    rows: tuple[FitRow, ...]
    slivers: tuple[Strip, ...]
    broken: tuple[str, ...]
    mark_320: int

    @property
    def honest(self) -> bool:
        """Whether it keeps every rule."""
        return not self.slivers and not self.broken


def fits(depth: Depth, rules: FitRules) -> tuple[RowFit, ...]:
    """Return every way to fill a field that is worth weighing, in no order."""
    return tuple(_judged(depth, rules, *way) for way in _ways(depth, rules))


def best_of(ways: tuple[RowFit, ...], prefer: tuple[str, ...], preferred_320: int) -> RowFit | None:
    """Return the first honest way in the order of kinds, nearest the gap aimed for; None if none.

    Where none is honest, of those that only leave a sliver the one whose narrowest is widest.
    """
    asked = [way for way in ways if way.kind in prefer and not way.broken]
    if not asked:
        return None
    honest = [way for way in asked if way.honest]
    if honest:
        return min(
            honest, key=lambda way: (prefer.index(way.kind), abs(way.gap_320 - preferred_320))
        )
    return max(
        asked,
        key=lambda way: (
            min(strip.width_320 for strip in way.slivers),
            -prefer.index(way.kind),
            -abs(way.gap_320 - preferred_320),
        ),
    )


def _ways(depth: Depth, rules: FitRules) -> Iterator[tuple[str, Fraction, int | None]]:
    """Yield kind, gap and the first row's width (None for a whole board) of each way."""
    wished = Fraction(rules.gap_preferred_320)
    yield "as_wished", wished, None
    if depth.far_flat:
        yield "rip_last", wished, None
        yield from (("gaps", gap, None) for gap in _filling(depth, rules))
        yield from (("rip_both", wished, first) for first in _both(depth, rules))
    yield from (("gaps", gap, None) for gap in _on_marks(rules)) if not depth.far_flat else ()


def _ends(depth: Depth) -> int:
    return int(depth.gap_before) + int(depth.gap_after)


def _filling(depth: Depth, rules: FitRules) -> Iterator[Fraction]:
    """Yield the gaps that fill a flat field with whole rows."""
    for count in range(1, depth.depth_320 // rules.board_320 + 1):
        gaps = count - 1 + _ends(depth)
        left = depth.depth_320 - count * rules.board_320
        if gaps > 0 and rules.gap_least_320 * gaps <= left <= rules.gap_most_320 * gaps:
            yield Fraction(left, gaps)


def _on_marks(rules: FitRules) -> Iterator[Fraction]:
    """Yield every gap on a mark: a field that ends at a corner can be filled at any."""
    first = -(-rules.gap_least_320 // rules.mark_320) * rules.mark_320
    for gap in range(first, rules.gap_most_320 + 1, rules.mark_320):
        if gap != rules.gap_preferred_320:
            yield Fraction(gap)


def _both(depth: Depth, rules: FitRules) -> Iterator[int]:
    """Yield widths of first and last row alike that fill a flat field at the gap wished."""
    gap = rules.gap_preferred_320
    deep, pitch = depth.depth_320 - _ends(depth) * gap, rules.board_320 + gap
    whole = (deep + gap) // pitch
    for inner in (whole - 1, whole - 2):
        left = deep - inner * pitch - gap
        if inner >= 0 and 0 < left <= 2 * rules.board_320:
            yield left // 2


def _judged(
    depth: Depth, rules: FitRules, kind: str, gap: Fraction, first_320: int | None
) -> RowFit:
    first, fill = first_320 or rules.board_320, kind != "as_wished"
    rows = tuple(_rows(depth, rules, gap, first, fill=fill))
    told = rules
    if not _in_range(depth, rules, rows):  # marks leave too much for the last gap: evenly, then
        told = evolve(rules, mark_320=1)
        rows = tuple(_rows(depth, told, gap, first, fill=fill))
    end = depth.depth_320 - (round(gap) if depth.gap_after else 0)
    reach = rows[-1].edge_320 + rows[-1].width_320 if rows else 0
    broken = []
    if depth.far_flat and reach != end:
        broken.append("rows do not fill the field")
    ripped = [row for row in rows if row.width_320 < rules.board_320]
    if (ripped or _notched(depth, rows)) and not rules.may_rip:
        broken.append("boards may not be ripped")
    if any(row.width_320 < rules.least_rip_320 for row in ripped):
        broken.append("narrower than boards may be ripped")
    if rules.fan_320 and not _fans(rules, gap, len(rows)):
        broken.append("gaps beyond their range at the end of the run")
    return RowFit(
        kind=kind, gap_320=gap, rows=rows, slivers=tuple(_slivers(depth, rules, rows)),
        broken=tuple(broken), mark_320=told.mark_320,
    )  # fmt: skip


def _in_range(depth: Depth, rules: FitRules, rows: tuple[FitRow, ...]) -> bool:
    """Whether every gap keeps its range: between rows, where they start and end, and beside."""
    gaps = [b.edge_320 - a.edge_320 - a.width_320 for a, b in pairwise(rows)]
    grown = [grown_320(rules.fan_320, at, len(gaps), rules.mark_320) for at in range(len(rows))]
    ends = [
        gap + after - before for gap, (before, after) in zip(gaps, pairwise(grown), strict=True)
    ]
    beside = tuple(_beside(depth, rows))
    return all(rules.gap_least_320 <= gap <= rules.gap_most_320 for gap in (*gaps, *ends, *beside))


def _beside(depth: Depth, rows: tuple[FitRow, ...]) -> Iterator[int]:
    """Yield the gaps of the outer rows to what lies alongside."""
    if rows and depth.gap_before:
        yield rows[0].edge_320
    if rows and depth.gap_after and depth.far_flat:
        yield depth.depth_320 - rows[-1].edge_320 - rows[-1].width_320


def grown_320(fan_320: int, at: int, gaps: int, mark_320: int) -> int:
    """Return how much further out a row lies at the end of the run than at its start.

    `at` is its number from 0, `gaps` how many gaps share the fan.
    """
    return nearest_mark(round(Fraction(fan_320 * at, max(1, gaps))), mark_320)


def _notched(depth: Depth, rows: tuple[FitRow, ...]) -> bool:
    """Whether a side between the two ends cuts a row along the grain."""
    return any(
        row.edge_320 < step.at_320 < row.edge_320 + row.width_320
        for step in depth.steps
        for row in rows
    )


def _fans(rules: FitRules, gap: Fraction, rows: int) -> bool:
    """Whether every gap keeps its range where the fan is widest."""
    last = gap + Fraction(rules.fan_320, max(1, rows - 1))
    return rules.gap_least_320 <= last <= rules.gap_most_320


def _rows(
    depth: Depth, rules: FitRules, gap: Fraction, first_320: int, *, fill: bool
) -> Iterator[FitRow]:
    """Yield rows on marks; the last is cut to what a flat field leaves where it is to `fill`."""
    before = gap if depth.gap_before else Fraction(0)
    end = depth.depth_320 - (gap if depth.gap_after else 0)
    edge, width, far = before, first_320, None
    while edge < end:
        start = _settled(edge, far, rules)
        beyond = start + width - round(end)
        # what pencil marks leave over lies in the last gap, not in the last row
        if depth.far_flat and 0 < abs(beyond) < rules.mark_320:
            start -= beyond
        elif depth.far_flat and beyond > 0:
            if not fill or round(end) <= start:
                return
            width = round(end) - start
        yield FitRow(edge_320=start, width_320=width)
        edge, far = edge + width + gap, start + width
        width = rules.board_320


def _settled(edge: Fraction, before_320: int | None, rules: FitRules) -> int:
    """Return where a row's edge is marked: on the nearest mark.

    Off marks, counted in 1/320 mm, its gap is kept in its range: rounding may take it out by one.
    """
    marked = nearest_mark(round(edge), rules.mark_320)
    if before_320 is None or rules.mark_320 > 1:
        return marked
    gap = min(rules.gap_most_320, max(rules.gap_least_320, marked - before_320))
    return before_320 + gap


def _slivers(depth: Depth, rules: FitRules, rows: tuple[FitRow, ...]) -> Iterator[Strip]:
    """Yield the strips that sides leave of rows, where they are narrower than they may be."""
    for row in rows:
        if row.width_320 < rules.sliver_320:
            yield Strip(at_320=row.edge_320, width_320=row.width_320)
    for step in depth.steps:
        for row in rows:
            far = row.edge_320 + row.width_320
            if row.edge_320 < step.at_320 < far:
                left = far - step.at_320 if step.beyond else step.at_320 - row.edge_320
                if left < rules.sliver_320:
                    yield Strip(at_320=step.at_320, width_320=left)
    if rows and not depth.far_flat:
        left = depth.depth_320 - rows[-1].edge_320
        if left < rules.sliver_320:
            yield Strip(at_320=rows[-1].edge_320, width_320=left)


def whole_depths(depth: Depth, rules: FitRules) -> tuple[int, int]:
    """Return how much less, and how much more depth would be filled by whole rows.

    At the gap aimed for: the next depth below and the next above, 0 where it fits already.
    """
    pitch = rules.board_320 + rules.gap_preferred_320
    ends = _ends(depth) * rules.gap_preferred_320 - rules.gap_preferred_320
    rest = (depth.depth_320 - ends) % pitch
    return (rest, pitch - rest) if rest else (0, 0)
