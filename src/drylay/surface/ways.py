"""Every honest way out of a sliver, with its numbers and the rules it meets.

Arithmetic in exact integers. With D the depth, w the board, g a gap, n rows:
equal gaps g = (D - n w)/(n - 1); a changed cover D' = n w + (n - 1) g; the last row ripped
r = D - k (w + g) beside k whole rows; both edges ripped 2 r = D - k w - (k + 1) g.
"""

from fractions import Fraction

from attrs import frozen

from drylay.marks import PER_MM, ceil_mark, exact, floor_mark, to_mm
from drylay.reasons import Source
from drylay.surface.limits import ARITHMETIC, WISHED, RowLimits
from drylay.surface.model import RuleMet, WayOut


@frozen(kw_only=True)
class Trial:
    """Row widths that fill a depth, before anyone asks whether they may."""

    kind: str
    widths_320: tuple[int, ...]
    change_320: int = 0


def ways_out(limits: RowLimits) -> tuple[WayOut, ...]:
    """Return every way out worth a look, honest or not, in order of kind."""
    trials = [
        *_as_wished(limits),
        *_gaps(limits),
        *_shrink(limits),
        *_grow(limits),
        *_rip_both(limits),
        *_rip_last(limits),
    ]
    return tuple(judge(limits, trial) for trial in trials)


def widths_of(limits: RowLimits, way: WayOut) -> tuple[int, ...]:
    """Return the row widths of a way out: only its outer rows may differ from the board."""
    first, last = exact(way.first_row_mm), exact(way.last_row_mm)
    if way.rows == 1:
        return (first,)
    return (first, *(limits.board_320,) * (way.rows - 2), last)


def mean_gap(limits: RowLimits, trial: Trial) -> float:
    """Return the mean gap of a trial in millimetres; 0 for a single row."""
    gaps = len(trial.widths_320) - 1
    free = limits.depth_320 + trial.change_320 - sum(trial.widths_320)
    return free / (gaps * PER_MM) if gaps else 0.0


def judge(limits: RowLimits, trial: Trial) -> WayOut:
    """Return a trial as a way out, each rule measured against its limit."""
    rules = tuple(_rules(limits, trial))
    return WayOut(
        kind=trial.kind,
        run=limits.run,
        rows=len(trial.widths_320),
        gap_mm=mean_gap(limits, trial),
        cover_change_mm=to_mm(trial.change_320),
        first_row_mm=to_mm(trial.widths_320[0]) if trial.widths_320 else 0.0,
        last_row_mm=to_mm(trial.widths_320[-1]) if trial.widths_320 else 0.0,
        rules=rules,
        honest=all(rule.met for rule in rules),
    )


def _rules(limits: RowLimits, trial: Trial) -> list[RuleMet]:
    return [
        *_gap_rules(limits, trial),
        *_size_rules(limits, trial),
        *_rip_rules(limits, trial),
    ]


def _gap_rules(limits: RowLimits, trial: Trial) -> list[RuleMet]:
    gaps = len(trial.widths_320) - 1
    free = limits.depth_320 + trial.change_320 - sum(trial.widths_320)
    if gaps < 1:
        filled = _met("rows fill the cover", free == 0, free, 0, ARITHMETIC)
        return [filled]
    mean_mm = mean_gap(limits, trial)
    return [
        RuleMet(
            rule="gap not under the least",
            met=free >= gaps * limits.least_320,
            measured=mean_mm,
            limit=to_mm(limits.least_320),
            unit="mm",
            source=limits.gap_least_source,
        ),
        RuleMet(
            rule="gap not over the most",
            met=free <= gaps * limits.most_320,
            measured=mean_mm,
            limit=to_mm(limits.most_320),
            unit="mm",
            source=limits.gap_most_source,
        ),
    ]


def _size_rules(limits: RowLimits, trial: Trial) -> list[RuleMet]:
    change = trial.change_320
    if change < 0:
        met = -change <= limits.shrink_320
        return [_met("cover may shrink", met, -change, limits.shrink_320, WISHED)]
    if change > 0:
        met = change <= limits.grow_320
        return [_met("cover may grow", met, change, limits.grow_320, WISHED)]
    return []


def _rip_rules(limits: RowLimits, trial: Trial) -> list[RuleMet]:
    ripped = [width for width in trial.widths_320 if width < limits.board_320]
    if not ripped:
        return []
    least, most = min(ripped), max(ripped)
    may = RuleMet(
        rule="boards may be ripped",
        met=limits.may_rip,
        measured=float(len(ripped)),
        limit=float(len(ripped)) if limits.may_rip else 0.0,
        unit="rows",
        source=limits.rip_source,
    )
    return [
        may,
        _met("no sliver", least >= limits.sliver_320, least, limits.sliver_320,
             limits.sliver_source),
        _met("rip not under the least", least >= limits.least_rip_320, least,
             limits.least_rip_320, limits.rip_source),
        _met("the saw takes off a whole kerf", most <= limits.most_rip_320, most,
             limits.most_rip_320, ARITHMETIC),
    ]  # fmt: skip


def _met(rule: str, met: bool, measured: int, limit: int, source: Source) -> RuleMet:
    return RuleMet(
        rule=rule,
        met=met,
        measured=to_mm(measured),
        limit=to_mm(limit),
        unit="mm",
        source=source,
    )


def _as_wished(limits: RowLimits) -> list[Trial]:
    """Whole rows at the preferred gap; with the sliver that leaves, to show why not."""
    rows = (limits.board_320,) * limits.whole_rows
    if not limits.remainder_320:
        return [Trial(kind="as_wished", widths_320=rows)]
    if 0 < limits.strip_320 < limits.sliver_320:
        return [Trial(kind="as_wished", widths_320=(*rows, limits.strip_320))]
    return []  # what is left is a fair rip, or too little to lay: other ways take it


def _gaps(limits: RowLimits) -> list[Trial]:
    """Whole boards, the gaps opened or closed: the two nearest counts and all that fit."""
    if not limits.remainder_320:
        return []
    board, depth = limits.board_320, limits.depth_320
    least = max(2, -(-(depth + limits.most_320) // (board + limits.most_320)))
    most = (depth + limits.least_320) // (board + limits.least_320)
    nearest = {n for n in (limits.whole_rows, limits.whole_rows + 1) if n >= 2}
    counts = sorted(nearest | set(range(least, most + 1)))
    return [Trial(kind="gaps", widths_320=(board,) * n) for n in counts]


def _changes(limits: RowLimits, rows: int, gaps: tuple[int, ...], kind: str) -> list[Trial]:
    widths = (limits.board_320,) * rows
    covers = [rows * limits.board_320 + (rows - 1) * gap for gap in gaps] if rows else []
    changes = dict.fromkeys(cover - limits.depth_320 for cover in covers)
    return [
        Trial(kind=kind, widths_320=widths, change_320=change)
        for change in changes
        if (change < 0 if kind == "shrink" else change > 0)
    ]


def _shrink(limits: RowLimits) -> list[Trial]:
    """Whole rows in a smaller cover: at the preferred gap, and with the least change."""
    gaps = (limits.preferred_320, limits.most_320)
    return _changes(limits, limits.whole_rows, gaps, "shrink")


def _grow(limits: RowLimits) -> list[Trial]:
    """One row more in a larger cover: at the preferred gap, and with the least change."""
    if not limits.remainder_320:
        return []
    gaps = (limits.preferred_320, limits.least_320)
    return _changes(limits, limits.whole_rows + 1, gaps, "grow")


def _rip_last(limits: RowLimits) -> list[Trial]:
    """Whole rows and one ripped: the rip nearest to what the preferred gap would leave."""
    if not limits.remainder_320:
        return []
    if not limits.whole_rows:
        return [Trial(kind="rip_last", widths_320=(limits.depth_320,))]
    rips = _rips(limits, range(limits.whole_rows - 1, limits.whole_rows + 2), edges=1)
    if not rips:
        return []
    rows, rip = rips[0]
    return [Trial(kind="rip_last", widths_320=(*(limits.board_320,) * rows, rip))]


def _rip_both(limits: RowLimits) -> list[Trial]:
    """Whole rows between two equal rips, in whole marks; the gaps share what that leaves."""
    if not limits.remainder_320:
        return []
    rips = _rips(limits, range(limits.whole_rows - 2, limits.whole_rows + 1), edges=2)
    if not rips:
        return []
    rows, rip = rips[0]
    return [Trial(kind="rip_both", widths_320=(rip, *(limits.board_320,) * rows, rip))]


def _rips(limits: RowLimits, counts: range, *, edges: int) -> list[tuple[int, int]]:
    """Return (whole rows, rip) for each count that allows one, nearest to the wish first."""
    found = [
        (rows, rip)
        for rows in counts
        if rows + edges >= 2 and rows >= 0  # a rip alone leaves no gap to choose
        if (rip := _rip_beside(limits, rows, edges=edges)) is not None
    ]
    return sorted(
        found, key=lambda pair: (_off_preferred(limits, pair[0], pair[1], edges), -pair[0])
    )


def _rip_beside(limits: RowLimits, rows: int, *, edges: int) -> int | None:
    """Return the legal rip, on a mark, that keeps the gap nearest to the preferred one."""
    gaps = rows + edges - 1
    free = limits.depth_320 - rows * limits.board_320
    floor = max(
        limits.least_rip_320, limits.sliver_320, -(-(free - gaps * limits.most_320) // edges)
    )
    top = min(limits.most_rip_320, (free - gaps * limits.least_320) // edges)
    low, high = ceil_mark(floor, limits.mark_320), floor_mark(top, limits.mark_320)
    if low > high:
        return None
    wished = (free - gaps * limits.preferred_320) // edges
    near = floor_mark(wished, limits.mark_320)
    choices = [min(max(rip, low), high) for rip in (near, near + limits.mark_320)]
    return min(choices, key=lambda rip: (_off_preferred(limits, rows, rip, edges), rip))


def _off_preferred(limits: RowLimits, rows: int, rip: int, edges: int) -> Fraction:
    gaps = rows + edges - 1
    free = limits.depth_320 - rows * limits.board_320 - edges * rip
    return Fraction(abs(free - gaps * limits.preferred_320), gaps)
