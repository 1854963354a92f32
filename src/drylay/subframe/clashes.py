"""Openings that leave no room for what they want."""

from collections.abc import Sequence

from drylay.findings import Finding, Severity
from drylay.reasons import Source
from drylay.subframe.bearing import loose_ends, overlap
from drylay.subframe.ledges import Hole
from drylay.subframe.plane import Place
from drylay.subframe.rooms import room_beside
from drylay.subframe.sizes import is_flat, is_upright
from drylay.subframe.wants import Placed, Timber

OURS = Source(kind="assumption", title="docs/outline-conventions.md", clause="Frame")
#: How far two tops may run into one another by rounding, in mm.
TOUCH_MM = 0.05


def room_of(placed: Placed, holes: Sequence[Hole]) -> list[Finding]:
    """Return a stop for every opening whose trimmers have no room beside rims or other openings."""
    rims = [timber for timber in placed.timbers if timber.kind == "rim"]
    found = []
    for hole in holes:
        own = [timber for timber in placed.timbers if timber.side == hole.mark]
        ring = placed.holes[hole.number]
        round_it = [one for one in own if one.kind == "trimmer" and not _lies_in(one, ring)]
        across = [timber for timber in round_it if is_flat(timber)]
        ledges = len([one for one in own if _lies_in(one, ring)])
        near = [rim for rim in rims if _gap(ring, rim) < placed.wants.timber_thickness_mm]
        others = [timber for timber in placed.timbers if timber not in own]
        if any(overlap(ring, rim.corners) > TOUCH_MM for rim in rims) or (len(across) < 2 and near):
            found.append(_too_near_rim(placed, hole, near or rims))
        elif hole.number in placed.hatches and ledges < 2:
            found.append(_no_ledge(placed, hole))
        elif len(across) < 2 or _run_into(own, others):
            found.append(_too_near_other(placed, hole))
        elif _is_loose(own, placed.timbers):
            found.append(_in_an_angle(hole))
        elif single := [(one, at) for at in across for one in _single(placed, at)]:
            found.append(_not_doubled(placed, hole, single))
    return found


def _lies_in(timber: Timber, ring: Sequence[Place]) -> bool:
    """Return whether a timber stands inside a hole, as a hatch's ledges do."""
    return overlap(timber.corners, ring) > TOUCH_MM


def _no_ledge(placed: Placed, hole: Hole) -> Finding:
    least = placed.wants.timber_thickness_mm
    return Finding(
        code="SUB-008",
        severity=Severity.STOP,
        subject=hole.mark,
        message="the hatch has no room for a ledge that carries its panel at either end: move it, "
        "or lay the boards of its field square to the joists",
        limit=least,
        unit="mm",
        source=OURS,
    )


def _single(placed: Placed, trimmer: Timber) -> list[Timber]:
    """Return which is single of a trimmer that carries two tails and the joists that carry it."""
    joists = [timber for timber in placed.timbers if timber.kind in {"joist", "pair"}]
    doubles = [timber for timber in placed.timbers if timber.kind in {"double", "pair"}]
    lot = [trimmer, *(one for one in doubles if _lies_along(one, trimmer))]
    tails = [one for one in joists if any(_rests_on(one, other) for other in lot)]
    if len(tails) < 2:
        return []
    bearers = [one for one in joists if one.kind == "joist" and _rests_on(trimmer, one)]
    return [
        *([trimmer] if len(lot) < 2 else []),
        *(one for one in bearers if not any(_lies_along(double, one) for double in doubles)),
    ]


def _rests_on(one: Timber, other: Timber) -> bool:
    return one is not other and len(loose_ends(one, [other.corners])) < 2


def _lies_along(one: Timber, other: Timber) -> bool:
    """Return whether two timbers run the same way and touch."""
    same = is_upright(one) == is_upright(other)
    return one is not other and same and abs(overlap(one.corners, other.corners)) < TOUCH_MM


def _run_into(own: Sequence[Timber], others: Sequence[Timber]) -> bool:
    return any(overlap(one.corners, other.corners) > TOUCH_MM for one in own for other in others)


def _is_loose(own: Sequence[Timber], timbers: Sequence[Timber]) -> bool:
    standing = [timber.corners for timber in timbers]
    return any(loose_ends(timber, standing) for timber in own)


def _gap(ring: Sequence[Place], rim: Timber) -> float:
    """Return how far a hole stays from a rim's inner face, below 0 where it runs into it."""
    return -overlap(ring, rim.corners)


def _too_near_rim(placed: Placed, hole: Hole, near: Sequence[Timber]) -> Finding:
    least = placed.wants.timber_thickness_mm
    gaps = {rim.side: _gap(placed.holes[hole.number], rim) for rim in near}
    side = min(gaps, key=lambda mark: (gaps[mark], mark))
    return Finding(
        code="SUB-004",
        severity=Severity.STOP,
        subject=hole.mark,
        message=f"the opening is too near the rim of side {side} for a trimmer: move it "
        f"{least - gaps[side]:.1f} mm away from there",
        measured=round(gaps[side], 4),
        limit=least,
        unit="mm",
        source=OURS,
    )


def _not_doubled(placed: Placed, hole: Hole, single: Sequence[tuple[Timber, Timber]]) -> Finding:
    """Return the stop; where the double only cannot end there, no figure says how much it lacks."""
    rooms = [room_beside(placed, hole, one, trimmer) for one, trimmer in single]
    room, least = min(rooms, key=lambda each: each[0] - each[1])
    return Finding(
        code="SUB-007",
        severity=Severity.STOP,
        subject=hole.mark,
        message="there is no room to double a trimmer of the opening that carries more than one "
        f"joist, or the joist that carries it: leave {least:g} mm beside it",
        measured=max(0.0, round(room, 4)) if room < least else None,
        limit=least,
        unit="mm",
        source=OURS,
    )


def _too_near_other(placed: Placed, hole: Hole) -> Finding:
    least = 4 * placed.wants.timber_thickness_mm
    return Finding(
        code="SUB-005",
        severity=Severity.STOP,
        subject=hole.mark,
        message="there is no room for the opening's trimmers beside another opening: leave "
        f"{least:g} mm between openings",
        limit=least,
        unit="mm",
        source=OURS,
    )


def _in_an_angle(hole: Hole) -> Finding:
    return Finding(
        code="SUB-013",
        severity=Severity.STOP,
        subject=hole.mark,
        message="a timber round the opening would end in the angle of two others, where no "
        "straight cut bears: move the opening, or turn the boards of its field",
        source=OURS,
    )
