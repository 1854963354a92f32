"""The nouns of the surface.

Rows lie side by side across the boards' run, counted from the datum edge (the house side,
or the left side where boards run across). `near_mm` is a row's edge nearest the datum.
"""

from decimal import Decimal

from attrs import frozen

from drylay.reasons import Source, because


@frozen(kw_only=True)
class RuleMet:
    """Whether a way out meets one rule: measured against limit, and who says so."""

    rule: str
    met: bool
    measured: float = because("surface.way_out")
    limit: float = because("surface.way_out")
    unit: str
    source: Source


@frozen(kw_only=True)
class WayOut:
    """One way to make the rows fill the cover.

    `kind` is one of `drylay.brief.model.WAYS_OUT`, `run` the way the boards then run.
    `gap_mm` is the mean gap, `cover_change_mm` how far the cover grows (+) or shrinks (-)
    across the rows, `first_row_mm` and `last_row_mm` the outer rows' widths. `honest`: every
    rule is met. `cost` is the whole order's price where it was worked out, and `cost_note`
    says why where it was not.
    """

    kind: str
    run: str
    rows: int = because("surface.way_out")
    gap_mm: float = because("surface.way_out")
    cover_change_mm: float = because("surface.way_out")
    first_row_mm: float = because("surface.way_out")
    last_row_mm: float = because("surface.way_out")
    rules: tuple[RuleMet, ...]
    honest: bool
    chosen: bool = False
    cost: Decimal | None = because("surface.way_out", default=None)
    cost_note: str = ""


@frozen(kw_only=True)
class RowFit:
    """What `fit_rows` answers: the naive count, the strip it leaves, every way out.

    `whole_rows` rows fit at the preferred gap; `remainder_mm` is what is left beyond the
    last of them (0 for an exact fit), `strip_mm` that less one gap, never below 0: the row
    a naive laying would add. `sliver_mm` is the strip where it is a sliver, else 0.
    """

    depth_mm: float
    board_mm: float
    gap_least_mm: float
    gap_preferred_mm: float
    gap_most_mm: float
    sliver_limit_mm: float
    whole_rows: int
    remainder_mm: float
    strip_mm: float
    sliver_mm: float
    ways_out: tuple[WayOut, ...]


@frozen(kw_only=True)
class Row:
    """One row: its near edge, its width, and the gap before it (0 for the first).

    `border`: it is of the border's board, not of the field's.
    """

    mark: str
    near_mm: float = because("surface.way_out")
    width_mm: float = because("surface.way_out")
    gap_mm: float = because("surface.way_out")
    ripped: bool
    border: bool = False


@frozen(kw_only=True)
class Border:
    """The first and the last rows of the cover, `rows` at either edge, of another board.

    The gaps are those within the border; `beside_mm` is the gap between border and field, which
    both their ranges allow: `beside_least_mm` to `beside_most_mm`. `field_depth_mm` is what the
    border leaves of the wished cover. `packed` is "border" or "field", whichever is
    `packing_mm` thinner and lies on packers of that, "" where both are of one thickness.
    """

    article: str
    rows: int = because("surface.border.rows")
    width_mm: float = because("surface.border.width_mm")
    thickness_mm: float = because("surface.border.thickness_mm")
    groove_mm: float | None = because("surface.border.groove_mm", default=None)
    timber: bool | None = because("surface.border.timber", default=None)
    gap_preferred_mm: float = because("surface.border.gap_preferred_mm")
    gap_least_mm: float = because("surface.border.gap_least_mm")
    gap_most_mm: float = because("surface.border.gap_most_mm")
    beside_mm: float = because("surface.border.beside_mm")
    beside_least_mm: float = because("surface.border.beside_mm")
    beside_most_mm: float = because("surface.border.beside_mm")
    field_depth_mm: float = because("surface.border.field_depth_mm")
    packing_mm: float = because("surface.border.packing_mm")
    packed: str = ""


@frozen(kw_only=True)
class Moisture:
    """The gaps of the field as laid at `laying_pct`, when boards are wettest and when driest.

    Moisture contents are in per cent of dry wood. `narrowest_mm` is what the narrowest gap as laid
    becomes, below 0 where boards press; `widest_mm` what the widest does.
    """

    movement_per_pct: float = because("surface.moisture.movement_per_pct")
    laying_pct: float = because("surface.moisture.laying_pct")
    wettest_pct: float = because("surface.moisture.wettest_pct")
    driest_pct: float = because("surface.moisture.driest_pct")
    narrowest_mm: float = because("surface.moisture.narrowest_mm")
    widest_mm: float = because("surface.moisture.widest_mm")


@frozen(kw_only=True)
class GapLaidAt:
    """The narrowest gap to lay where boards are so moist; up to the next 0.1 mm."""

    laying_pct: float = because("surface.gap_least_mm")
    gap_least_mm: float = because("surface.gap_least_mm")


@frozen(kw_only=True)
class GapsByMoisture:
    """What the least gap hangs on: how moist boards are laid, and how moist they will get.

    `open_least_mm` is what is left open then, `movement_per_pct` the share of its width that a
    board swells for 1 %; `others` are least gaps for boards that turn out drier or wetter.
    """

    laying_pct: float = because("surface.gap_least_mm")
    wettest_pct: float = because("surface.gap_least_mm")
    movement_per_pct: float = because("surface.gap_least_mm")
    open_least_mm: float = because("surface.gap_least_mm")
    others: tuple[GapLaidAt, ...]


@frozen(kw_only=True)
class Surface:
    """The finished cover and its rows.

    `cover_along_mm` runs along the house, `cover_across_mm` away from it; `row_length_mm`
    runs along the boards, `rows_depth_mm` across them. All four already hold the change of
    size the way out asked for, `cover_change_mm`. `groove_mm` is how deep an insert is let into the
    boards, None where there is none; `fall_least_ratio` the least fall that they ask for: that is
    `fall_mm` over a row, down to the `low_side`, "" where boards lie level.
    `combustible`: they burn, which no roof or balcony may hold. `timber`: they are of wood.
    `wet_slip_least` is the wet pendulum value to ask the merchant for. With a `border` the board,
    its gaps, the naive count and the ways out are those of the field between.
    `moisture` tells what becomes of gaps in the year, where the brief tells it of laying day.
    `gaps_by_moisture` is there where the least gap was reckoned from that.
    """

    run: str
    cover_along_mm: float = because("surface.rows_depth_mm")
    cover_across_mm: float = because("surface.rows_depth_mm")
    cover_change_mm: float = because("surface.rows_depth_mm")
    row_length_mm: float = because("surface.row_length_mm")
    rows_depth_mm: float = because("surface.rows_depth_mm")
    board_article: str
    board_width_mm: float = because("surface.board_width_mm")
    board_thickness_mm: float = because("surface.board_thickness_mm")
    groove_mm: float | None = because("surface.groove_mm", default=None)
    fall_least_ratio: float | None = because("surface.fall_least_ratio", default=None)
    combustible: bool | None = because("surface.combustible", default=None)
    timber: bool | None = because("surface.timber", default=None)
    wet_slip_least: float | None = because("surface.wet_slip_least", default=None)
    fall_mm: float | None = because("surface.fall_mm", default=None)
    low_side: str = ""
    gap_preferred_mm: float = because("surface.gap_preferred_mm")
    gap_least_mm: float = because("surface.gap_least_mm")
    gap_most_mm: float = because("surface.gap_most_mm")
    sliver_limit_mm: float = because("surface.sliver_limit_mm")
    least_rip_mm: float = because("surface.least_rip_mm")
    whole_rows: int = because("surface.way_out")
    remainder_mm: float = because("surface.way_out")
    strip_mm: float = because("surface.way_out")
    way_out: str = because("surface.way_out")
    rows: tuple[Row, ...]
    ways_out: tuple[WayOut, ...]
    border: Border | None = None
    moisture: Moisture | None = None
    gaps_by_moisture: GapsByMoisture | None = None
