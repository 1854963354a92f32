"""Ways to bring in what gaps within their limits cannot, each with its figures."""

from collections.abc import Iterator

from drylay.correcting.chance import tenth
from drylay.correcting.model import EndForecast, LaidSoFar, WayBack

#: An edge so near is in: the finish is held to 2 mm by common practice, no source.
FINISH_MM = 2.0


def out_mm(laid: LaidSoFar, end: EndForecast) -> float:
    """Return by how much an end comes out beyond what steps leave over, 0 where it comes in."""
    return end.off_mm if abs(end.off_mm) > laid.step_mm / 2 else 0.0


def ways_back(laid: LaidSoFar, left: EndForecast, right: EndForecast) -> tuple[WayBack, ...]:
    """Return the ways back where gaps do not bring both ends in, nothing where they do.

    Source: arithmetic; a rip within what the board's own rules allow, a fascia that is packed out.
    """
    off = out_mm(laid, left), out_mm(laid, right)
    if off == (0.0, 0.0):
        return ()
    return (
        *_more_change(laid, left, right),
        *_rip_last(laid, left, right),
        *_fascia(laid, off),
        *_leave_short(laid, off),
        *_other_count(laid, left, right, -1, "fewer_rows"),
        *_other_count(laid, left, right, 1, "more_rows"),
    )


def _more_change(laid: LaidSoFar, left: EndForecast, right: EndForecast) -> Iterator[WayBack]:
    """Yield by how much a gap would have to change at once, where only that stands in the way."""
    gaps = laid.gaps[laid.rows_laid - 1 :]
    least = max(gap.least_mm for gap in gaps)
    most = min(gap.most_mm for gap in gaps)
    needed = left.needed_gap_mm, right.needed_gap_mm
    if laid.gaps_fixed or not all(least <= gap <= most for gap in needed):
        return
    before = laid.left.gap_before_mm, laid.right.gap_before_mm
    change = [tenth(abs(gap - was)) for gap, was in zip(needed, before, strict=True)]
    told = f"let gaps change by up to {max(change):g} mm from one row to the next, where "
    told += f"{laid.most_change_mm:g} mm is what the eye does not find"
    yield WayBack(kind="more_change", left_mm=change[0], right_mm=change[1], honest=False,
                  told=told)  # fmt: skip


def _rip_last(laid: LaidSoFar, left: EndForecast, right: EndForecast) -> Iterator[WayBack]:
    """Yield the last board ripped, where boards reach out too far and it is not ripped anyway."""
    if laid.rip_planned or max(left.off_mm, right.off_mm) <= 0:
        return
    width = laid.widths_mm[-1]
    rips = [width + end.more_mm - max(0.0, end.off_mm) for end in (left, right)]
    low, high = laid.rip_least_mm, laid.rip_most_mm
    cut = [rip for rip in rips if rip < width]
    fit = low is not None and high is not None and all(low <= rip <= high for rip in cut)
    told = f"rip the last row to {rips[0]:.1f} mm at the left end and {rips[1]:.1f} at the right"
    if low is None:
        told += "; these boards may not be ripped"
    elif not fit:
        told += f"; a rip is to be {low:g} to {high:g} mm wide"
    yield WayBack(kind="rip_last", left_mm=round(rips[0], 1), right_mm=round(rips[1], 1),
                  honest=fit, told=told)  # fmt: skip


def _fascia(laid: LaidSoFar, off: tuple[float, float]) -> Iterator[WayBack]:
    if max(off) <= 0:
        return
    out = [tenth(max(0.0, each)) for each in off]
    told = f"pack the last side's fascia out by {out[0]:g} mm left and {out[1]:g} right"
    if not laid.fascia_mm:
        told = f"let the last row stand over by {out[0]:g} mm left and {out[1]:g} right"
    yield WayBack(kind="move_fascia", left_mm=out[0], right_mm=out[1], honest=min(off) >= 0,
                  told=told)  # fmt: skip


def _leave_short(laid: LaidSoFar, off: tuple[float, float]) -> Iterator[WayBack]:
    if min(off) >= 0:
        return
    short = [tenth(max(0.0, -each)) for each in off]
    told = f"leave the last row short of the edge by {short[0]:g} mm left and {short[1]:g} right"
    hidden = max(short) <= laid.fascia_mm
    told += "; the fascia's own top shows that much" if hidden else "; it leaves an open slit"
    yield WayBack(kind="leave_short", left_mm=short[0], right_mm=short[1], told=told,
                  honest=hidden and max(off) <= 0)  # fmt: skip


def _other_count(
    laid: LaidSoFar, left: EndForecast, right: EndForecast, more: int, kind: str
) -> Iterator[WayBack]:
    """Yield the gaps that a row fewer, or a row more, would have."""
    count = len(laid.widths_mm) - laid.rows_laid
    rows = count + more
    if rows < 1:
        return
    gaps = [
        (end.needed_gap_mm * count - more * (laid.board_mm + end.more_mm)) / rows
        for end in (left, right)
    ]
    least = max(gap.least_mm for gap in laid.gaps)
    most = min(gap.most_mm for gap in laid.gaps)
    fit = all(least <= gap <= most for gap in gaps)
    told = f"lay a row {'more' if more > 0 else 'less'}: gaps of {gaps[0]:.1f} mm left and "
    told += f"{gaps[1]:.1f} right, where {least:g} to {most:g} mm are allowed"
    yield WayBack(kind=kind, left_mm=round(gaps[0], 1), right_mm=round(gaps[1], 1), honest=fit,
                  told=told)  # fmt: skip
