"""How far joists, overhangs and beams may go by the US allowable-stress basis.

Spans are clear, between faces of bearing, as the deck tables take them; nothing is rounded here.
The edge in compression is taken as held all along, by boards or by joists, and bearing is checked
apart. Even loads in kN/m are N/mm.
"""

from collections.abc import Callable
from math import sqrt

from drylay.errors import Fault, UncoveredError
from drylay.strength.meant import from_nothing, positive, refuse
from drylay.strength.model import Section
from drylay.strength.nds_faults import allowed_faults
from drylay.strength.nds_model import Allowed, Extent
from drylay.strength.sections import area_mm2, modulus_mm3, second_moment_mm4, section_faults
from drylay.strength.us_units import kn_m2_of_psf, kn_of_lb, mm_of_feet, mm_of_inches

#: What residential decks are laid out for. Source: DCA 6-2012, table 2, notes 1 to 3 and 7, read.
DECK_LIVE_KN_M2 = kn_m2_of_psf(40)
DECK_DEAD_KN_M2 = kn_m2_of_psf(10)
SPAN_OVER = 360.0
OVERHANG_OVER = 180.0
OVERHANG_LOAD_KN = kn_of_lb(220)
OVERHANG_PART_RATIO = 0.25
LONGEST_JOIST_MM = mm_of_feet(18)
#: Repeated members: three or more share load. Source: NDS 4.3.9, read as transcribed. Two plies
#: have no such factor in the NDS; the beam tables come only with 1.10, which is inferred.
REPEATED_RATIO = 1.15
TWO_PLY_TABLE_RATIO = 1.10
#: The overhang of DCA 6-2012 comes only with half a bearing of 3 in at each support, inferred.
OVERHANG_BEARING_MM = mm_of_inches(1.5)
_HALVINGS = 80


def deck_loads_kn_m2(use: str) -> tuple[float, float]:
    """Return the live and the dead load that a deck of some use is laid out for.

    Raises:
        UncoveredError: The deck tables do not cover this use: a licensed engineer.

    Source: DCA 6-2012, table 2, note 1, read: 40 and 10 psf for decks of dwellings.
    """
    if use != "dwelling":
        wanted = "dwelling, or a licensed engineer"
        raise UncoveredError((Fault(path="use", found=repr(use), wanted=wanted),))
    return DECK_LIVE_KN_M2, DECK_DEAD_KN_M2


def joist_span(
    allowed: Allowed,
    section: Section,
    *,
    centres_mm: float,
    live_kn_m2: float = DECK_LIVE_KN_M2,
    dead_kn_m2: float = DECK_DEAD_KN_M2,
    over: float = SPAN_OVER,
    most_mm: float = LONGEST_JOIST_MM,
) -> Extent:
    """Return how far a joist may span: bending by all load, deflection by the live load alone.

    L_b = sqrt(8 Fb' S / w), L_d = (384 E' I / (5 x 360 w_live))^(1/3), and the cap.

    Raises:
        UncoveredError: Nothing is loaded, or a number is not above 0; the dead load may be 0.

    Source: DCA 6-2012 table 2 and notes; NDS.
    """
    faults = positive(centres_mm=centres_mm, live_kn_m2=live_kn_m2, over=over, most_mm=most_mm)
    refuse(_of(allowed, section), [*faults, *from_nothing(dead_kn_m2=dead_kn_m2)])
    metres = centres_mm / 1000
    return _least(
        bending=bending_extent_mm(allowed, section, (live_kn_m2 + dead_kn_m2) * metres),
        deflection=deflection_extent_mm(allowed, section, live_kn_m2 * metres, over=over),
        cap=most_mm,
    )


def overhang(
    allowed: Allowed,
    section: Section,
    *,
    back_span_mm: float,
    load_kn: float = OVERHANG_LOAD_KN,
    bearing_mm: float = 0.0,
    over: float = OVERHANG_OVER,
) -> Extent:
    """Return how far a joist may reach past its beam with one load at its end.

    P (a + b)^2 (L + a + 2 b) / (3 E' I) = a / 180, and at most a quarter of the back span. The
    bearing b is 0 for the tables of the 2018 and 2021 editions, `OVERHANG_BEARING_MM` for that of
    DCA 6-2012. One joist carries the whole load.

    Raises:
        UncoveredError: A number is not above 0; the bearing may be 0.

    Source: DCA 6-2012 table 2, note 3, read; statics. The bearing is inferred from that table.
    """
    faults = positive(back_span_mm=back_span_mm, load_kn=load_kn, over=over)
    refuse(_of(allowed, section), [*faults, *from_nothing(bearing_mm=bearing_mm)])
    most_mm = back_span_mm * OVERHANG_PART_RATIO
    soft = load_kn * 1000 / (3 * allowed.stiffness_n_mm2 * second_moment_mm4(section))

    def too_deep(a: float) -> float:
        whole = a + bearing_mm
        return soft * whole**2 * (back_span_mm + bearing_mm + whole) - a / over

    return _least(deflection=_last_within(too_deep, most_mm), quarter=most_mm)


def carried_by_beam_mm(span_mm: float, overhang_mm: float = 0.0) -> float:
    """Return the width of deck that a beam carries: (L + a)^2 / (2 L), from joists over it.

    Raises:
        UncoveredError: The span is not above 0, or the overhang below 0.

    Source: statics of one span with an overhang, the ledger at the other end.
    """
    refuse((), [*positive(span_mm=span_mm), *from_nothing(overhang_mm=overhang_mm)])
    return (span_mm + overhang_mm) ** 2 / (2 * span_mm)


def beam_span(
    allowed: Allowed,
    section: Section,
    *,
    carried_mm: float,
    live_kn_m2: float = DECK_LIVE_KN_M2,
    dead_kn_m2: float = DECK_DEAD_KN_M2,
    over: float = SPAN_OVER,
) -> Extent:
    """Return how far a beam of one or more plies may span, with a width of deck on it.

    Bending and shear by all load, without taking off what lies near the supports; deflection by
    the live load and half the dead, which the beam tables imply (inferred).

    Raises:
        UncoveredError: A number is not above 0; the dead load may be 0.

    Source: NDS 3.3, 3.4; IRC 2018 table R507.5 follows, from memory.
    """
    faults = positive(carried_mm=carried_mm, live_kn_m2=live_kn_m2, over=over)
    refuse(_of(allowed, section), [*faults, *from_nothing(dead_kn_m2=dead_kn_m2)])
    metres = carried_mm / 1000
    total = (live_kn_m2 + dead_kn_m2) * metres
    part = (live_kn_m2 + dead_kn_m2 / 2) * metres
    return _least(
        bending=bending_extent_mm(allowed, section, total),
        shear=4 / 3 * allowed.shear_n_mm2 * area_mm2(section) / total,
        deflection=deflection_extent_mm(allowed, section, part, over=over),
    )


def bending_extent_mm(allowed: Allowed, section: Section, load_kn_m: float) -> float:
    """Return sqrt(8 Fb' S / w).

    Raises:
        InputError: A size, a stress or the load is not above 0.

    Source: statics, one span under an even load.
    """
    refuse([*_of(allowed, section), *positive(load_kn_m=load_kn_m)])
    return sqrt(8 * allowed.bending_n_mm2 * modulus_mm3(section) / load_kn_m)


def deflection_extent_mm(
    allowed: Allowed, section: Section, load_kn_m: float, *, over: float
) -> float:
    """Return (384 E' I / (5 over w))^(1/3).

    Raises:
        InputError: A size, a stress, the load or `over` is not above 0.

    Source: statics, one span under an even load.
    """
    refuse([*_of(allowed, section), *positive(load_kn_m=load_kn_m, over=over)])
    stiff = allowed.stiffness_n_mm2 * second_moment_mm4(section)
    return float((384 * stiff / (5 * over * load_kn_m)) ** (1 / 3))


def _last_within(too_much: Callable[[float], float], most: float) -> float:
    """Return the greatest place from 0 to `most` where a function that dips is not above 0."""
    if too_much(most) <= 0:
        return most
    low, high = 0.0, most
    for _ in range(_HALVINGS):  # where it is least: it falls, then rises
        third = (high - low) / 3
        if too_much(low + third) < too_much(high - third):
            high -= third
        else:
            low += third
    if too_much(low) > 0:
        return 0.0
    high = most
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if too_much(middle) > 0 else (middle, high)
    return low


def _least(**limits_mm: float) -> Extent:
    governs = min(limits_mm, key=lambda name: limits_mm[name])
    by_limit_mm = tuple(limits_mm.items())
    return Extent(extent_mm=limits_mm[governs], governs=governs, by_limit_mm=by_limit_mm)


def _of(allowed: Allowed, section: Section) -> list[Fault]:
    return [*allowed_faults(allowed), *section_faults(section)]
