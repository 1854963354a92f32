"""A lift-out hatch: its hole is snapped outwards to the rows, so that whole boards lift out."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, cos, floor, radians, sin
from typing import Protocol

from attrs import evolve, frozen

from drylay.brief.outline_model import OpeningWish
from drylay.findings import Finding, Severity
from drylay.marks import ceil_mark, exact, floor_mark, nearest_mark, to_mm
from drylay.outline.model import Opening, Spot
from drylay.outline.sides import middle_told, spot_of
from drylay.outline.standing import COMMON_PRACTICE, within_of
from drylay.rings import Place, Ring, apart

#: From the cover under a hatch to its hole before it is snapped. Source: common practice.
CLEAR_LEAST_MM = 40.0
#: What one person lifts out. Source: common practice.
PANEL_MOST_KG = 20.0
#: So many marks further than need be a hatch is moved at most, where marks lie skew to the rows.
TRIES = 4

Way = tuple[float, float]


class RowLaid(Protocol):
    """A row as it lies: the edge that rows are counted from, and how wide it is."""

    @property
    def start(self) -> Spot:
        """Return where that edge begins."""

    @property
    def end(self) -> Spot:
        """Return where it ends."""

    @property
    def width_mm(self) -> float:
        """Return the row's width."""


@frozen(kw_only=True)
class Rows:
    """The rows of one zone, in order; `angle_deg` is their run, see `laying.model.Zone`.

    `ledge_mm` is the thickness of the timber that carries a panel inside its hole, at either end;
    `turned_deg` the outline's.
    """

    angle_deg: float
    first_row: str
    rows: Sequence[RowLaid]
    end_gap_mm: float
    ledge_mm: float
    mark_320: int
    turned_deg: float = 0.0


@frozen(kw_only=True)
class _Strip:
    """A row's edges to the left of the run, at its start and its end: lower, then upper."""

    low: Way
    high: Way
    reach: Way


def snap_hatch(wish: OpeningWish, rows: Rows, *, mark: str) -> Opening | Finding:
    """Return a hatch's opening among the rows of its zone, or why no whole rows make its panel.

    The hole is the cover with `CLEAR_LEAST_MM` all round, outwards to the middle of the gaps
    between rows; along them it is a ledge longer at either end, outwards to a mark. `panel_kg` is
    left to who knows what boards weigh.

    Raises:
        ValueError: There are no rows.
    """
    if not rows.rows:
        raise ValueError("no rows to snap a hatch to")
    within = within_of(wish)
    ends, middles, wanted = _among(within, rows)
    low = [each for each in middles if max(each) <= wanted[1]]
    high = [each for each in middles if min(each) >= wanted[3]]
    if not low or not high:
        return _no_gap(wish, rows, mark, _past(middles, wanted))
    run, ledge = _run(rows.angle_deg), exact(rows.ledge_mm)
    hole = _hole(run, ends, max(low), min(high))
    between_ledges = _hole(run, (ends[0] + ledge, ends[1] - ledge), max(low), min(high))
    return Opening(
        mark=mark,
        kind="hatch",
        name=wish.name,
        corners=tuple(spot_of(place) for place in hole),
        within=tuple(spot_of(place) for place in within),
        clear_mm=to_mm(int(min(apart(each, within) for each in (hole, between_ledges)))),
        clear_least_mm=CLEAR_LEAST_MM,
        clear_most_mm=None,
        panel_most_kg=PANEL_MOST_KG,
    )


def _among(
    within: Ring, rows: Rows
) -> tuple[tuple[int, int], list[Way], tuple[float, float, float, float]]:
    """Return a hole's ends along the run, the gaps' middles there, and what the hole has to hold.

    That is its least way along the run and to the left of it, then its greatest ways; a ledge's
    thickness at either end along the run is in it.
    """
    run = _run(rows.angle_deg)
    seen = [_seen(run, place) for place in within]
    # a corner of a skew hole is rounded: two of 1/320 mm keep it clear all the same
    clear = exact(CLEAR_LEAST_MM) + (0 if 0.0 in run else 2)
    ends_clear = clear + exact(rows.ledge_mm)
    wanted = (
        min(u for u, _ in seen) - ends_clear, min(v for _, v in seen) - clear,
        max(u for u, _ in seen) + ends_clear, max(v for _, v in seen) + clear,
    )  # fmt: skip
    ends = (floor_mark(floor(wanted[0]), rows.mark_320), ceil_mark(ceil(wanted[2]), rows.mark_320))
    return ends, _middles(rows, run, ends), wanted


def _run(angle_deg: float) -> Way:
    whole: dict[float, Way] = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0)}
    return whole.get(angle_deg, (cos(radians(angle_deg)), sin(radians(angle_deg))))


def _seen(run: Way, place: Place) -> Way:
    """Return a place as how far it is along the run, and to the left of it."""
    x, y = place
    return x * run[0] + y * run[1], y * run[0] - x * run[1]


def _strips(rows: Rows, run: Way) -> list[_Strip]:
    """Return the rows' edges from the right of the run to its left."""
    found = []
    for row in rows.rows:
        (u0, v0), (u1, v1) = (
            _seen(run, (exact(spot.along_mm), exact(spot.across_mm)))
            for spot in (row.start, row.end)
        )
        wide = exact(row.width_mm)
        low = (v0, v1) if rows.first_row == "near" else (v0 - wide, v1 - wide)
        found.append(_Strip(low=low, high=(low[0] + wide, low[1] + wide), reach=(u0, u1)))
    return sorted(found, key=lambda strip: strip.low)


def _middles(rows: Rows, run: Way, ends: tuple[int, int]) -> list[Way]:
    """Return the middle of every gap between rows, at either end of the hole."""
    return [
        (_between(one, other, ends[0]), _between(one, other, ends[1]))
        for one, other in pairwise(_strips(rows, run))
    ]


def _between(one: _Strip, other: _Strip, u: float) -> float:
    return (_at(one.high, one.reach, u) + _at(other.low, other.reach, u)) / 2


def _at(edge: Way, reach: Way, u: float) -> float:
    """Return how far left an edge lies at a place along the run."""
    (v0, v1), (u0, u1) = edge, reach
    return v0 if u1 == u0 else v0 + (v1 - v0) * (u - u0) / (u1 - u0)


def _hole(run: Way, ends: tuple[int, int], low: Way, high: Way) -> Ring:
    corners = ((ends[0], low[0]), (ends[1], low[1]), (ends[1], high[1]), (ends[0], high[0]))
    return tuple(
        (round(u * run[0] - v * run[1]), round(u * run[1] + v * run[0])) for u, v in corners
    )


def _past(middles: list[Way], wanted: tuple[float, float, float, float]) -> tuple[float, float]:
    """Return how far a hatch reaches past the outer gaps, right of the run and left of it."""
    deep = wanted[3] - wanted[1]
    if not middles:
        return deep, deep
    right = min(max(each) for each in middles) - wanted[1]
    left = wanted[3] - max(min(each) for each in middles)
    return max(0.0, right), max(0.0, left)


def _no_gap(wish: OpeningWish, rows: Rows, mark: str, past: tuple[float, float]) -> Finding:
    """Return that a hatch reaches past the last gap between rows, and where it would not."""
    near = None if min(past) > 0 else _moved(wish, rows, past[0] - past[1])
    return Finding(
        code="OUT-004",
        severity=Severity.STOP,
        subject=mark,
        message=f"the hatch {wish.name or mark} reaches past the last gap between whole rows, by "
        "the way told; "
        + (
            "no rows here are enough for its panel"
            if near is None
            else "the nearest place that works has "
            + middle_told((exact(near.along_mm), exact(near.across_mm)), rows.turned_deg)
        ),
        measured=to_mm(round(max(past))),
        limit=0.0,
        unit="mm",
        source=COMMON_PRACTICE,
    )


def _moved(wish: OpeningWish, rows: Rows, left: float) -> OpeningWish | None:
    """Return a hatch moved to the left of the run, by so much up to marks; None if that is no help.

    Moved to the right where `left` is below 0.
    """
    run = _run(rows.angle_deg)
    for more in range(TRIES):
        by = left + (more * rows.mark_320 if left > 0 else -more * rows.mark_320)
        x, y = exact(wish.along_mm) - by * run[1], exact(wish.across_mm) + by * run[0]
        moved = evolve(
            wish,
            along_mm=to_mm(nearest_mark(round(x), rows.mark_320)),
            across_mm=to_mm(nearest_mark(round(y), rows.mark_320)),
        )
        _, middles, wanted = _among(within_of(moved), rows)
        if not any(_past(middles, wanted)):
            return moved
    return None
