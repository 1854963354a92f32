"""The dry lay: how many rows, what the naive count leaves, and the ways out of it."""

from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, exact, is_number, to_mm
from drylay.surface.limits import RowLimits
from drylay.surface.model import Row, RowFit, WayOut
from drylay.surface.settle import settle
from drylay.surface.ways import ways_out, widths_of

#: Narrower boards and more rows than these are slips, and take for ever. Assumption.
LEAST_MM, MOST_ROWS = 1.0, 10_000


@counted
def fit_rows(
    *,
    depth_mm: float,
    board_mm: float,
    gap_mm: tuple[float, float, float],
    grow_mm: float = 0.0,
    shrink_mm: float = 0.0,
    sliver_mm: float | None = None,
    least_rip_mm: float | None = None,
    may_rip: bool = True,
    kerf_mm: float = 4.0,
    units: str = "metric",
) -> RowFit:
    """Return the naive row count, the strip it leaves, and every way out with its rules.

    Args:
        depth_mm: Cover across the rows, edge to edge.
        board_mm: True board width, best the mean of ten.
        gap_mm: Least, preferred and most gap between rows.
        grow_mm: How far the cover may grow across the rows.
        shrink_mm: How far it may shrink.
        sliver_mm: A row narrower than this is a sliver; by default the larger of 60 mm and
            half a board.
        least_rip_mm: Narrowest a board may be ripped; by default the sliver limit.
        may_rip: Whether boards may be ripped at all.
        kerf_mm: What a rip must at least take off.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A length is negative or not finite, or the gaps are not in order.

    Source: arithmetic; slivers by common practice, no source.
    """
    _refuse_bad(
        {
            "depth_mm": depth_mm,
            "board_mm": board_mm,
            "grow_mm": grow_mm,
            "shrink_mm": shrink_mm,
            "kerf_mm": kerf_mm,
            "sliver_mm": 0.0 if sliver_mm is None else sliver_mm,
            "least_rip_mm": 0.0 if least_rip_mm is None else least_rip_mm,
        },
        gap_mm,
        units,
        may_rip,
    )
    sliver = max(60.0, board_mm / 2) if sliver_mm is None else sliver_mm
    return fit(
        RowLimits(
            depth_320=exact(depth_mm),
            board_320=exact(board_mm),
            least_320=exact(gap_mm[0]),
            preferred_320=exact(gap_mm[1]),
            most_320=exact(gap_mm[2]),
            grow_320=exact(grow_mm),
            shrink_320=exact(shrink_mm),
            sliver_320=exact(sliver),
            least_rip_320=exact(sliver if least_rip_mm is None else least_rip_mm),
            least_off_320=exact(kerf_mm),
            may_rip=may_rip,
            mark_320=MARK_320[units],
        )
    )


def fit(limits: RowLimits) -> RowFit:
    """Return the row fit for limits already in exact units."""
    strip = limits.strip_320
    return RowFit(
        depth_mm=to_mm(limits.depth_320),
        board_mm=to_mm(limits.board_320),
        gap_least_mm=to_mm(limits.least_320),
        gap_preferred_mm=to_mm(limits.preferred_320),
        gap_most_mm=to_mm(limits.most_320),
        sliver_limit_mm=to_mm(limits.sliver_320),
        whole_rows=limits.whole_rows,
        remainder_mm=to_mm(limits.remainder_320),
        strip_mm=to_mm(strip),
        sliver_mm=to_mm(strip) if strip < limits.sliver_320 else 0.0,
        ways_out=ways_out(limits),
    )


def in_order(
    ways: tuple[WayOut, ...], prefer: tuple[str, ...], gap_mm: float
) -> tuple[WayOut, ...]:
    """Return the honest ways out, best first.

    By the stated order of kinds; within a kind the gap nearest to the preferred one, then
    the least change of the cover, then fewer rows.
    """
    honest = [way for way in ways if way.honest and way.kind in prefer]
    return tuple(
        sorted(
            honest,
            key=lambda way: (
                prefer.index(way.kind),
                abs(way.gap_mm - gap_mm) if way.rows > 1 else 0.0,
                abs(way.cover_change_mm),
                way.rows,
            ),
        )
    )


def lay(limits: RowLimits, way: WayOut) -> tuple[Row, ...]:
    """Return the rows of an honest way out, settled on pencil marks."""
    widths = widths_of(limits, way)
    depth = limits.depth_320 + exact(way.cover_change_mm)
    edges = settle(limits, widths, depth)
    rows, before = [], 0
    for number, (edge, width) in enumerate(zip(edges, widths, strict=True), start=1):
        row = Row(
            mark=f"B{number}",
            near_mm=to_mm(edge),
            width_mm=to_mm(width),
            gap_mm=to_mm(edge - before),
            ripped=width < limits.board_320,
        )
        rows.append(row)
        before = edge + width
    return tuple(rows)


def _refuse_bad(
    lengths_mm: dict[str, float],
    gap_mm: tuple[float, float, float],
    units: str,
    may_rip: bool,
) -> None:
    faults = [
        Fault(path=name, found=repr(value), wanted="a length of 0 mm or more, not over 1 km")
        for name, value in lengths_mm.items()
        if not is_number(value) or not 0.0 <= value <= 1e6
    ]
    board_mm = lengths_mm["board_mm"]
    if is_number(board_mm) and 0 <= board_mm < LEAST_MM:
        wanted = "a width of 1 mm or more"
        faults.append(Fault(path="board_mm", found=repr(board_mm), wanted=wanted))
    if not faults and lengths_mm["depth_mm"] > MOST_ROWS * board_mm:
        wanted = f"no more than {MOST_ROWS} rows of boards"
        faults.append(Fault(path="depth_mm", found=repr(lengths_mm["depth_mm"]), wanted=wanted))
    if not _in_order(gap_mm):
        wanted = "least, preferred and most gap in mm, in rising order"
        faults.append(Fault(path="gap_mm", found=repr(gap_mm), wanted=wanted))
    if not isinstance(may_rip, bool):
        faults.append(Fault(path="may_rip", found=repr(may_rip), wanted="True or False"))
    if not isinstance(units, str) or units not in MARK_320:
        faults.append(Fault(path="units", found=repr(units), wanted="metric or imperial"))
    if faults:
        raise InputError(tuple(faults))


def _in_order(gap_mm: object) -> bool:
    if not isinstance(gap_mm, tuple | list) or len(gap_mm) != 3:
        return False
    if not all(is_number(gap) for gap in gap_mm):
        return False
    return bool(0.0 <= gap_mm[0] <= gap_mm[1] <= gap_mm[2] <= 1e6)
