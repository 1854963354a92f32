"""Correction while laying: new gaps at both ends from what was measured after a row.

After i of n rows the far edge is measured. What one row really takes more than planned is
(edge - gaps set so far - widths planned so far) / i; the rows left take that too, so the gaps left
share target - edge - what they take. Source: arithmetic; how gaps may change by common practice.
"""

from math import sqrt

from attrs import evolve, frozen

from drylay.correcting.chance import between, chance_down, spread
from drylay.correcting.checked import refuse_bad, refuse_impossible
from drylay.correcting.checks import checks_to_come
from drylay.correcting.findings import findings_of
from drylay.correcting.model import Correction, EndForecast, EndLaid, LaidSoFar, RowToLay
from drylay.correcting.share import share
from drylay.correcting.ways_back import ways_back
from drylay.marks import exact, to_mm

#: Fewer rows than these say little of the batch: the plan's width is better. The rule is to
#: measure every 5 to 10 rows.
LEAST_ROWS = 5
#: As many boards are measured together before the last gaps are set.
LAST_ROWS = 4
#: Boards whose mean stands for the batch, by common practice.
TEN = 10


@frozen(kw_only=True)
class _End:
    """One end while it is reckoned: gaps to set, what boards take more, the width of a rip."""

    laid: EndLaid
    more_320: int
    gaps_320: tuple[int, ...]
    widths_320: tuple[int, ...]
    forecast: EndForecast


def correct(laid: LaidSoFar) -> Correction:
    """Return the rows left with their gaps at both ends, and how the last edge will come out.

    The ends are corrected each by itself, so that rows fan until both edges are in. Gaps are whole
    steps within their limits, none further from the one before than `most_change_mm`.

    Raises:
        InputError: A figure makes no sense, or no row count fits what was measured: each fault
            is told, with the count that fits best.

    Source: see the file; widths measured stand for the batch where they are ten or all there are.
    """
    refuse_bad(laid)
    refuse_impossible(laid)
    left, right = _end(laid, laid.left), _end(laid, laid.right)
    found = Correction(
        rows_laid=laid.rows_laid,
        rows_left=_left(laid),
        board_takes=board_takes(laid),
        rows=_rows(laid, left, right),
        left=left.forecast,
        right=right.forecast,
        checks=checks_to_come(laid, left.gaps_320, right.gaps_320),
        ways_back=ways_back(laid, left.forecast, right.forecast),
        findings=(),
    )
    return evolve(found, findings=findings_of(laid, found))


def board_takes(laid: LaidSoFar) -> str:
    """Return what the widths of the boards to come are reckoned from."""
    if laid.together_mm is not None:
        return "boards laid tight"
    if laid.measured_mm and len(laid.measured_mm) >= min(TEN, _left(laid)):
        return "boards measured"
    return "rows laid" if laid.rows_laid >= LEAST_ROWS else "plan"


def more_320(laid: LaidSoFar, end: EndLaid) -> int:
    """Return what one board takes more than planned at an end, in 1/320 mm."""
    source = board_takes(laid)
    if source == "boards laid tight":
        assert laid.together_mm is not None
        return _nearest(exact(laid.together_mm) - sum(whole_320(laid)), _left(laid))
    if source == "boards measured":
        summed = sum(exact(width) for width in laid.measured_mm)
        count = len(laid.measured_mm)
        return _nearest(summed - count * exact(laid.board_mm), count)
    return seen_more_320(laid, end) if source == "rows laid" else 0


def whole_320(laid: LaidSoFar) -> list[int]:
    """Return how wide the boards left are as planned, that of a ripped row before it is ripped."""
    widths = [exact(width) for width in laid.widths_mm[laid.rows_laid :]]
    return [*widths[:-1], exact(laid.board_mm)] if laid.rip_planned else widths


def seen_more_320(laid: LaidSoFar, end: EndLaid) -> int:
    """Return what a row that lies took more than planned, as the edge and the gaps set tell."""
    planned = sum(exact(width) for width in laid.widths_mm[: laid.rows_laid])
    return _nearest(exact(end.edge_mm) - exact(end.gaps_set_mm) - planned, laid.rows_laid)


def _nearest(total: int, count: int) -> int:
    return (2 * total + count) // (2 * count)


def _left(laid: LaidSoFar) -> int:
    return len(laid.widths_mm) - laid.rows_laid


def _end(laid: LaidSoFar, end: EndLaid) -> _End:
    more = more_320(laid, end)
    widths = _widths(laid, more)
    free = exact(end.target_mm) - exact(end.edge_mm) - sum(widths)
    gaps = share(
        free,
        [(exact(g.least_mm), exact(g.most_mm)) for g in laid.gaps[laid.rows_laid - 1 :]],
        before_320=exact(end.gap_before_mm),
        change_320=exact(laid.most_change_mm),
        step_320=exact(laid.step_mm),
    )
    short = free - sum(gaps)
    if laid.rip_planned and laid.rip_least_mm is not None and laid.rip_most_mm is not None:
        rip = min(max(widths[-1] + short, exact(laid.rip_least_mm)), exact(laid.rip_most_mm))
        short -= rip - widths[-1]
        widths = (*widths[:-1], rip)
    forecast = _forecast(laid, end, more, free, short)
    return _End(laid=end, more_320=more, gaps_320=gaps, widths_320=widths, forecast=forecast)


def _widths(laid: LaidSoFar, more: int) -> tuple[int, ...]:
    """Return what the rows left take: boards as they are, a rip as it is planned."""
    widths = [exact(width) for width in laid.widths_mm[laid.rows_laid :]]
    whole = len(widths) - laid.rip_planned
    return tuple(width + more if at < whole else width for at, width in enumerate(widths))


def _forecast(laid: LaidSoFar, end: EndLaid, more: int, free: int, short: int) -> EndForecast:
    count, step = _left(laid), laid.step_mm
    target, off = end.target_mm, to_mm(-short)
    takes_sd, apart = mean_sd(laid), laid.tolerances
    needed = round(to_mm(free) / count, 3)
    gap_sd = sqrt(takes_sd**2 + (apart.width_mm**2 + apart.gap_mm**2) / count)
    gaps = laid.gaps[laid.rows_laid - 1 :]
    least = sum(gap.least_mm for gap in gaps) / count
    most = sum(gap.most_mm for gap in gaps) / count
    alone_sd, rule_sd = sd_as_set(laid), sd_by_rule(laid)
    off_rule = 0.0 if abs(off) <= step / 2 and not laid.gaps_fixed else off
    return EndForecast(
        more_mm=to_mm(more),
        needed_gap_mm=needed,
        off_mm=off,
        as_set=spread(target, target + off, alone_sd),
        by_rule=spread(target, target + off_rule, rule_sd),
        limits_ratio=chance_down(between(least - needed, most - needed, gap_sd)),
    )


def mean_sd(laid: LaidSoFar) -> float:
    """Return the sd of what one more board takes on average, by where it is known from."""
    its, source = laid.tolerances, board_takes(laid)
    if source == "boards laid tight":
        return its.tape_mm / _left(laid)
    if source == "boards measured":
        return its.width_mm / sqrt(len(laid.measured_mm))
    if source == "plan":
        return its.batch_mm
    rows = laid.rows_laid
    return sqrt(rows * its.width_mm**2 + (rows - 1) * its.gap_mm**2 + its.tape_mm**2) / rows


def sd_as_set(laid: LaidSoFar) -> float:
    """Return the sd of the last edge where nobody measures again.

    With m rows left after i: the tape's error t and what was read off the rows that lie move the
    end together, t (1 + m/i) and m x the mean's own error; then m boards and m gaps of their own.
    The rows' own spacer is in what a row takes, or, where it is not, adds m bg.
    """
    its, count, rows = laid.tolerances, _left(laid), laid.rows_laid
    source = board_takes(laid)
    if laid.rip_planned:
        return _sd_of_a_rip(laid)
    gaps = count * its.gap_mm**2 + rounding_mm2(laid)
    if source == "rows laid":
        shared = (count / rows) ** 2 * (rows * its.width_mm**2 + (rows - 1) * its.gap_mm**2)
        tape = (its.tape_mm * (1 + count / rows)) ** 2
        return sqrt(shared + tape + count * its.width_mm**2 + gaps)
    own = 0.0 if source == "boards laid tight" else count * its.width_mm**2
    mean = (count * mean_sd(laid)) ** 2 + (count * its.spacer_mm) ** 2
    return sqrt(its.tape_mm**2 + mean + own + gaps)


def sd_by_rule(laid: LaidSoFar) -> float:
    """Return the sd of the last edge where the last four are laid tight and measured together.

    Two readings of the tape, four gaps as set, and half a step of what they are shared out in.
    Where clips fix the gaps there is nothing to set: it is that of measuring no more.
    """
    if laid.rip_planned:
        return _sd_of_a_rip(laid)
    if laid.gaps_fixed:
        return sd_as_set(laid)
    its, count = laid.tolerances, min(LAST_ROWS, _left(laid))
    return sqrt(2 * its.tape_mm**2 + count * its.gap_mm**2 + rounding_mm2(laid))


def _sd_of_a_rip(laid: LaidSoFar) -> float:
    """A last row ripped to what is left: one reading, and the last gap as it is set."""
    return sqrt(laid.tolerances.tape_mm**2 + laid.tolerances.gap_mm**2)


def rounding_mm2(laid: LaidSoFar) -> float:
    """Return the variance of a sum that is rounded to whole steps, anywhere within half of one."""
    return laid.step_mm**2 / 12


def _rows(laid: LaidSoFar, left: _End, right: _End) -> tuple[RowToLay, ...]:
    rows, near = [], [exact(left.laid.edge_mm), exact(right.laid.edge_mm)]
    for at in range(_left(laid)):
        gaps = left.gaps_320[at], right.gaps_320[at]
        widths = left.widths_320[at], right.widths_320[at]
        near = [edge + gap for edge, gap in zip(near, gaps, strict=True)]
        row = RowToLay(
            mark=f"B{laid.rows_laid + at + 1}",
            gap_left_mm=to_mm(gaps[0]),
            gap_right_mm=to_mm(gaps[1]),
            near_left_mm=to_mm(near[0]),
            near_right_mm=to_mm(near[1]),
            width_left_mm=to_mm(widths[0]),
            width_right_mm=to_mm(widths[1]),
            ripped=laid.rip_planned and at == _left(laid) - 1,
        )
        rows.append(row)
        near = [edge + width for edge, width in zip(near, widths, strict=True)]
    return tuple(rows)
