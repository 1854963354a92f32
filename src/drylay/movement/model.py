"""The nouns of movement.

A moisture content is water in per cent of dry wood, `_pct`. A `movement_per_pct` is the share
of its width by which a board changes for each 1 % of moisture content; a `growth_per_k` is the
share of its length for each kelvin. What is wider or longer than before changed by more than 0.
"""

from attrs import frozen

from drylay.findings import Finding
from drylay.reasons import Source


@frozen(kw_only=True)
class Moisture:
    """The moisture content at which wood settles in air of one temperature and humidity."""

    temperature_c: float
    humidity_ratio: float
    moisture_pct: float
    findings: tuple[Finding, ...] = ()
    source: Source


@frozen(kw_only=True)
class WidthChange:
    """How much a width changes from one moisture content to another."""

    width_mm: float
    from_pct: float
    to_pct: float
    change_mm: float
    findings: tuple[Finding, ...] = ()
    source: Source


@frozen(kw_only=True)
class EndGap:
    """The gap to lay between board ends, and what becomes of it.

    `growth_mm` is that of the longest board from laying to hottest. `hottest_mm` and
    `coldest_mm` are the gap between two such boards then; each is fixed at its own middle.
    """

    length_mm: float
    growth_per_k: float
    laying_c: float
    hottest_c: float
    coldest_c: float
    growth_mm: float
    laid_mm: float
    hottest_mm: float
    coldest_mm: float
    source: Source


@frozen(kw_only=True)
class GapRange:
    """A gap as laid, and between which gaps it moves while boards dry and get wet.

    A `narrowest_mm` below 0 says by how much the boards would overlap: they press.
    """

    board_mm: float
    movement_per_pct: float
    laying_pct: float
    driest_pct: float
    wettest_pct: float
    laid_mm: float
    narrowest_mm: float
    widest_mm: float
    findings: tuple[Finding, ...] = ()
    source: Source


@frozen(kw_only=True)
class MonthOfGaps:
    """One month: its air, the moisture content boards tend to, the gap they then leave."""

    month: str
    temperature_c: float
    humidity_ratio: float
    moisture_pct: float
    gap_mm: float


@frozen(kw_only=True)
class YearOfGaps:
    """A gap as laid, and what becomes of it month by month.

    `narrowest_in` and `widest_in` name the month, or `wettest_pct` and `driest_pct` where such
    a moisture content was stated and lies beyond every month's.
    """

    board_mm: float
    movement_per_pct: float
    laying_pct: float
    laid_mm: float
    narrowest_mm: float
    narrowest_in: str
    widest_mm: float
    widest_in: str
    months: tuple[MonthOfGaps, ...]
    findings: tuple[Finding, ...] = ()
    source: Source


@frozen(kw_only=True)
class Species:
    """How one wood moves, along the year rings (flat sawn boards) and across them.

    A shrinkage is from green to oven-dry. Shrinkage begins at `saturation_pct`. What no table
    of the source has is None.
    """

    name: str
    flat_per_pct: float | None
    quarter_per_pct: float | None
    movement_source: Source | None
    flat_shrinkage_pct: float | None
    quarter_shrinkage_pct: float | None
    shrinkage_source: Source | None
    saturation_pct: float
    saturation_source: Source
    note: str = ""
