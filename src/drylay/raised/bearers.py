"""Where bearers stand along the joists of a rectangle: the fewest lines within the limits."""

from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, exact, is_number, to_mm
from drylay.raised.limits import (
    Limits,
    end_alone,
    ends_of,
    length_faults,
    limits_of,
    mm,
    ratio_told,
    refuse_units,
    shares,
    spans_of,
)
from drylay.raised.model import BearerLines, SpanLimit
from drylay.raised.spread import Length, spread, spread_over, used_up
from drylay.reasons import TurnedDown


def bearer_lines(
    *,
    depth_mm: float,
    bearer_mm: float,
    span: SpanLimit,
    end: SpanLimit | None,
    back_ratio: float | None = None,
    ledger_mm: float | None = None,
    more_lines: int = 0,
    inset_mm: float = 0.0,
    units: str = "metric",
) -> BearerLines:
    """Return the fewest bearer lines that carry joists `depth_mm` long, or some more than those.

    Spans and free ends are within their limits, counted exactly and strictly, however they are
    measured. Of the fewest lines those places are taken on marks at which spans and free ends are
    used up alike, as near as marks and the share of the span behind let them. Without a ledger
    the lines mirror about the middle; with one they are set out from the house.

    Args:
        depth_mm: The frame along the joists, outer face to outer face, from the house's end.
        bearer_mm: How broad a bearer is, all its plies together.
        span: The most a joist may span.
        end: The most it may reach past the outer bearer; None where joists hang between bearers,
            face to face, and the outer bearers close the frame.
        back_ratio: The most a free end may be of the span behind it, as each is measured.
        ledger_mm: How thick the ledger at the house is; None for a deck that stands free.
        more_lines: Lines beyond the fewest, to try shorter spans.
        inset_mm: Outer bearers' centres are no nearer to a free end than this.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A value is no length, or no number of bearers keeps all that is asked.

    Source: arithmetic; the limits' own sources say where they come from.
    """
    _refuse(depth_mm, bearer_mm, ledger_mm, more_lines, units)
    limits = limits_of(span, end, back_ratio=back_ratio, support_mm=bearer_mm, inset_mm=inset_mm)
    held = None if ledger_mm is None else exact(ledger_mm)
    of = Length(length=exact(depth_mm), held=held, mark=MARK_320[units])
    found = spread(of, limits, more=more_lines)
    if found is None:
        wanted = "a depth that some number of bearers carries within the limits"
        raise InputError((Fault(path="depth_mm", found=f"{depth_mm:g}", wanted=wanted),))
    free = () if end is None else mm(ends_of(found, of.length, limits, held))
    return BearerLines(
        depth_mm=depth_mm, bearer_mm=bearer_mm, ledger_mm=ledger_mm, hung=end is None,
        span=span, end=end, back_ratio=back_ratio, line_count=len(found), lines_mm=mm(found),
        spans_mm=mm(spans_of(found, limits, held)), ends_mm=free,
        most_ratio=ratio_told(max(shares(found, of.length, limits, held))),
        turned_down=turned_down(len(found), of, limits, "bearer"),
    )  # fmt: skip


def turned_down(count: int, of: Length, limits: Limits, what: str) -> tuple[TurnedDown, ...]:
    """Return what else might be: one support fewer, one more, none that reaches past them."""
    found = []
    least = 2 if of.held is None else 1
    if count > least:
        found.append(TurnedDown(value=count - 1, because=_fewer(count - 1, of, limits, what)))
    more = spread_over(count + 1, of, limits)
    if more is not None:
        share = float(ratio_told(max(shares(more, of.length, limits, of.held))))
        told = f"one {what} more than it takes; at most {share:.0%} of the limits used"
        found.append(TurnedDown(value=count + 1, because=told))
    if limits.end is not None and limits.inset == limits.half:
        found += _closed(count, of, limits, what)
    return tuple(found)


def _fewer(count: int, of: Length, limits: Limits, what: str) -> str:
    """Return why so few do not do: how long spans and ends would be, all alike used up."""
    spans, ends = (count - 1, 2) if of.held is None else (count, 1)
    share = used_up(of, limits, spans, ends=ends)
    span_mm = float(share * (limits.span - limits.span_less)) / 320
    told = f"spans of {span_mm:.0f} mm over {to_mm(limits.span - limits.span_less):g}"
    if limits.end is not None:
        end_mm = float(share * end_alone(limits)) / 320
        most_mm = float(end_alone(limits)) / 320
        told += f", or free ends of {end_mm:.0f} mm over {most_mm:g}, all alike"
    if share <= 1:
        told = "no places on marks keep every limit, the share of the span behind among them"
    return f"{count} {what}{'s' if count > 1 else ''}: {told}"


def _closed(count: int, of: Length, limits: Limits, what: str) -> list[TurnedDown]:
    """Return what it would take with outer supports at the very ends, where that differs."""
    flush = Limits(half=limits.half, inset=limits.half, span=limits.span,
                   span_less=limits.span_less, end=None, end_less=0, back=None)  # fmt: skip
    found = spread(of, flush)
    if found is None or len(found) == count:
        return []
    told = f"{what}s at the very ends, nothing reaching past them: {len(found)} of them"
    return [TurnedDown(value=len(found), because=told)]


def _refuse(
    depth_mm: float, bearer_mm: float, ledger_mm: float | None, more: int, units: str
) -> None:
    refuse_units(units)
    faults = length_faults(depth_mm=depth_mm, bearer_mm=bearer_mm)
    if ledger_mm is not None:
        faults += length_faults(ledger_mm=ledger_mm)
    if type(more) is not int or more < 0:
        faults.append(Fault(path="more_lines", found=repr(more), wanted="0 or more lines"))
    numbers = all(is_number(value) for value in (depth_mm, bearer_mm))
    if numbers and not faults and depth_mm < 2 * bearer_mm + (ledger_mm or 0.0):
        wanted = "room for two bearers, or for one beside the ledger"
        faults.append(Fault(path="depth_mm", found=f"{depth_mm:g}", wanted=wanted))
    if faults:
        raise InputError(tuple(faults))
