"""Ledger fasteners, and lag screws and nails pulled out, by the US basis."""

from collections.abc import Iterator

from drylay.errors import Fault
from drylay.strength.meant import LEAST, between, from_nothing, lies, one_of, positive, refuse
from drylay.strength.nds_spans import DECK_DEAD_KN_M2, DECK_LIVE_KN_M2
from drylay.strength.nds_tables import named_values, rows_of
from drylay.strength.us_units import (
    inches_of_mm,
    kn_of_lb,
    mm_of_inches,
    n_mm_of_lb_inch,
)

#: How far apart a ledger's fasteners stand at most. Source: IRC 2018 table R507.9.1.3(1), from
#: memory.
LEDGER_MOST_MM = mm_of_inches(36)
_NOISE_INCH = 1e-4


def ledger_spacing_mm(
    fastener: str,
    *,
    joist_span_mm: float,
    live_kn_m2: float = DECK_LIVE_KN_M2,
    dead_kn_m2: float = DECK_DEAD_KN_M2,
) -> float:
    """Return how far apart a ledger's 1/2 in fasteners may stand: P / (w L / 2), at most 36 in.

    Args:
        fastener: "lag" or "bolt" (sheathing to 15/32 in between), or "bolt+washers" (up to
            1/2 in of stacked washers).
        joist_span_mm: Of the joists that the ledger carries one end of.
        live_kn_m2: On the deck.
        dead_kn_m2: Of the deck.

    Raises:
        UncoveredError: Another fastener, or a number that is not above 0; one load may be 0.

    Source: IRC 2018 table R507.9.1.3(1), from memory; capacities fitted to it.
    """
    holds_lb = named_values("ledger_lb")
    faults = [*one_of(holds_lb, fastener=fastener), *positive(joist_span_mm=joist_span_mm)]
    loads = from_nothing(live_kn_m2=live_kn_m2, dead_kn_m2=dead_kn_m2)
    if not loads and live_kn_m2 + dead_kn_m2 < LEAST:
        found = f"{live_kn_m2:g} and {dead_kn_m2:g}"
        loads = [Fault(path="live_kn_m2, dead_kn_m2", found=found, wanted="a load above 0")]
    refuse((), [*faults, *loads])
    along_kn_m = (live_kn_m2 + dead_kn_m2) * joist_span_mm / 2 / 1000
    return min(LEDGER_MOST_MM, kn_of_lb(holds_lb[fastener]) / along_kn_m * 1000)


def lag_withdrawal_n_mm(gravity_ratio: float, diameter_mm: float) -> float:
    """Return what a lag screw holds when pulled from side grain, for each mm of its thread.

    W = 1800 G^1.5 D^0.75 in pounds for each inch; before CD and wet service.

    Raises:
        UncoveredError: The wood or the diameter, 1/4 to 1 in, is not covered.

    Source: NDS 12.2.1.1, read as transcribed; gives AWC example E2.3.
    """
    _in_range(gravity_ratio, diameter_mm, least_mm=mm_of_inches(0.25), most_mm=mm_of_inches(1))
    pounds_inch = 1800 * gravity_ratio**1.5 * inches_of_mm(diameter_mm) ** 0.75
    return n_mm_of_lb_inch(pounds_inch)


def nail_withdrawal_n_mm(gravity_ratio: float, diameter_mm: float) -> float:
    """Return what a smooth nail holds when pulled from side grain, for each mm in the wood.

    W = 1380 G^2.5 D in pounds for each inch; before CD and wet service.

    Raises:
        UncoveredError: The wood or the diameter, 0.09 to 0.375 in, is not covered.

    Source: NDS 12.2.3.1, read as transcribed; gives AWC example E2.1a.
    """
    _in_range(gravity_ratio, diameter_mm, least_mm=mm_of_inches(0.09), most_mm=mm_of_inches(0.375))
    return n_mm_of_lb_inch(1380 * gravity_ratio**2.5 * inches_of_mm(diameter_mm))


def lag_thread_mm(diameter_mm: float, length_mm: float) -> float:
    """Return how long a lag screw's thread is without its tip.

    Raises:
        UncoveredError: No such diameter or length in the table.

    Source: NDS appendix L, table L2, from memory.
    """
    refuse((), _lag_faults(diameter_mm, length_mm))
    thread_inch = _row("lag_thread", length_mm)
    return mm_of_inches(thread_inch - _row("lag_tip", diameter_mm))


def lag_in_main_mm(diameter_mm: float, length_mm: float, side_mm: float) -> float:
    """Return how much thread, without tip, is in the piece behind a side piece.

    Raises:
        UncoveredError: No such diameter or length in the table.
        InputError: The side piece is not above 0 thick.

    Source: NDS 12.2.1.1 and appendix L, table L2, from memory.
    """
    refuse(positive(side_mm=side_mm), _lag_faults(diameter_mm, length_mm))
    thread_mm = lag_thread_mm(diameter_mm, length_mm)
    tip_mm = mm_of_inches(_row("lag_tip", diameter_mm))
    return max(0.0, min(thread_mm, length_mm - side_mm - tip_mm))


def _lag_faults(diameter_mm: float, length_mm: float) -> list[Fault]:
    asked = (("diameter", "lag_tip", diameter_mm), ("length", "lag_thread", length_mm))
    return [
        Fault(path=what, found=_told_inches(mm), wanted=f"a {what} of NDS table L2")
        for what, table, mm in asked
        if not list(_rows(table, mm))
    ]


def _told_inches(mm: float) -> str:
    return repr(mm) if positive(mm=mm) else f"{inches_of_mm(mm):g} in"


def _rows(table: str, mm: float) -> Iterator[float]:
    for nominal, value in rows_of(table):
        inches = nominal - _NOISE_INCH, nominal + _NOISE_INCH
        if lies(mm, *map(mm_of_inches, inches)):
            yield value


def _row(table: str, mm: float) -> float:
    return next(_rows(table, mm))


def _in_range(gravity_ratio: float, diameter_mm: float, *, least_mm: float, most_mm: float) -> None:
    faults = between(0.3, 0.8, gravity_ratio=gravity_ratio)
    if not lies(diameter_mm, least_mm - _NOISE_INCH, most_mm + _NOISE_INCH):
        wanted = f"from {least_mm:g} to {most_mm:g} mm"
        faults.append(Fault(path="diameter_mm", found=repr(diameter_mm), wanted=wanted))
    refuse((), faults)
