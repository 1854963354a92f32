"""A joist held against the published deck table as well: its longest span, its longest free end.

The table is laid out for one span with an overhang, of single joists 12, 16 or 24 in apart, and
prints whole inches. Between two spacings the wider holds. Other joists go by the formulas alone.
"""

from collections.abc import Iterator
from itertools import pairwise

from drylay.errors import Fault, UncoveredError
from drylay.reasons import Source
from drylay.strength.basis_answers import refuse_beam
from drylay.strength.checks import check
from drylay.strength.meant import refuse, together
from drylay.strength.model import BeamAsked, Check
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_faults import wood_faults
from drylay.strength.nds_model import Conditions
from drylay.strength.nds_spans import (
    OVERHANG_BEARING_MM,
    OVERHANG_PART_RATIO,
    REPEATED_RATIO,
    joist_span,
    overhang,
)
from drylay.strength.us_units import inches_of_mm, mm_of_inches, table_inches

#: Spacings of the table, and the sizes that it has: nominal 2 in, 6 to 12 in deep.
SPACINGS_INCH = (12.0, 16.0, 24.0)
THICK_INCH, SHALLOW_INCH, DEEP_INCH = 1.5, 5.5, 11.25
_TABLE = Source(kind="handbook", title="DCA 6 (2012)", clause="table 2")
_NOISE_INCH = 1e-6


def table_checks(asked: BeamAsked, wood: tuple[str, str]) -> Iterator[Check]:
    """Yield a joist's widest span and longest free end against the table's; none where it has none.

    The table's cell is worked out and rounded as it is printed, to the nearest inch: what is
    reproduced is a published limit. A wood that the table does not have has no check either.

    Raises:
        InputError: A number is not what a beam's can be, it stands on one support or none, or the
            wood is no species and grade; all at once, as the first check is asked for.

    Source: DCA 6-2012 table 2, read; its formulas by `joist_span` and `overhang`.
    """
    together(lambda: refuse_beam(asked), lambda: refuse([*_stands(asked), *wood_faults(wood)]))
    spacing = _spacing_inch(asked)
    if spacing is None:
        return
    try:
        left = allowed(*wood, asked.section, Conditions(repeated_ratio=REPEATED_RATIO))
    except UncoveredError:
        return
    span = joist_span(left, asked.section, centres_mm=mm_of_inches(spacing)).extent_mm
    end = overhang(left, asked.section, back_span_mm=span, bearing_mm=OVERHANG_BEARING_MM)
    widest = max((b - a for a, b in pairwise(asked.supports_mm)), default=0.0)
    free, beside = max(_ends(asked))
    laid = f"{' '.join(wood)}, {spacing:g} in on centre"
    yield _held("span, deck table", asked, widest, span, laid)
    if free > asked.bearing_mm:
        yield _held("free end, deck table", asked, free, end.extent_mm, laid)
        yield _quarter(asked, free, beside, laid)


def _stands(asked: BeamAsked) -> list[Fault]:
    if len(asked.supports_mm) >= 2:
        return []
    return [Fault(path="supports_mm", found=repr(asked.supports_mm), wanted="two or more")]


def _ends(asked: BeamAsked) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return each end past its support, and the span beside it."""
    places = asked.supports_mm
    first, last = places[1] - places[0], places[-1] - places[-2]
    return (places[0], first), (asked.length_mm - places[-1], last)


def _quarter(asked: BeamAsked, free_mm: float, beside_mm: float, laid: str) -> Check:
    """The table prints free ends of its longest spans: beside a shorter one a quarter is the most.

    Source: DCA 6-2012 table 2 and its figure, by `OVERHANG_PART_RATIO`.
    """
    return check(
        "free end, quarter of the span",
        asked.subject,
        measured=free_mm,
        limit=beside_mm * OVERHANG_PART_RATIO,
        unit="mm",
        case=laid,
        formula="free end <= L / 4",
        source=_TABLE,
        inputs=(("span_mm", beside_mm),),
    )


def _spacing_inch(asked: BeamAsked) -> float | None:
    """Return the table's spacing that holds for a joist, None where it has no such joist."""
    section = asked.section
    thick, deep = inches_of_mm(section.breadth_mm), inches_of_mm(section.depth_mm)
    sold = abs(thick - THICK_INCH) < 0.01 and SHALLOW_INCH - 0.01 <= deep <= DEEP_INCH + 0.01
    if asked.kind != "joist" or section.plies != 1 or not sold:
        return None
    apart = inches_of_mm(asked.carried_mm)
    return next((inch for inch in SPACINGS_INCH if apart <= inch + _NOISE_INCH), None)


def _held(name: str, asked: BeamAsked, found_mm: float, most_mm: float, laid: str) -> Check:
    printed = table_inches(most_mm)
    return check(
        name,
        asked.subject,
        measured=found_mm,
        limit=mm_of_inches(printed),
        unit="mm",
        case=laid,
        formula="at most what the table prints",
        source=_TABLE,
        inputs=(("printed_in", printed), ("asked_spacing_mm", asked.carried_mm)),
    )
