"""Lines moved aside so that their joists' ends bear."""

from collections.abc import Iterator, Sequence

from attrs import evolve

from drylay.marks import exact, floor_mark, to_mm
from drylay.subframe.bearing import loose_ends
from drylay.subframe.joists import Room, place_joists
from drylay.subframe.plane import NEAR_MM, spread
from drylay.subframe.wants import FrameWants, Placed, Timber

#: How far a line is moved at the most, and in steps of about what. In mm.
FURTHEST_MM, STEP_MM = 90.0, 2.0


def moved_lines(
    room: Room,
    loose_mm: Sequence[float],
    must_mm: Sequence[float],
    frame: Placed,
    wants: FrameWants,
) -> tuple[float, ...]:
    """Return the lines with those that have a loose end moved to the nearest place where none is.

    Lines that must be stay. Where no place keeps both bays beside it within the limit, there are
    two lines instead, one to either side.
    """
    lines = list(room.lines_mm)
    for line in loose_mm:
        if any(abs(line - other) < NEAR_MM for other in must_mm):
            continue
        at = lines.index(line)
        near = [*lines[:at][-1:], *lines[at + 1 :][:1]]
        good = [to for to in _places(line, frame, wants) if _bears(room, to, frame, near)]
        alone = [to for to in good if all(abs(to - one) <= wants.most_centres_mm for one in near)]
        if alone:
            lines[at] = alone[0]
        else:
            before = [to for to in good if to < line][:1]
            after = [to for to in good if to > line][:1]
            if before and after and after[0] - before[0] >= wants.timber_thickness_mm:
                lines[at : at + 1] = [*before, *after]
    return tuple(lines)


def _places(line_mm: float, frame: Placed, wants: FrameWants) -> Iterator[float]:
    """Yield marks further and further from a line, on the frame's inner side first."""
    low, high = spread(u for u, _ in frame.ring)
    inwards = 1.0 if line_mm < (low + high) / 2 else -1.0
    mark = exact(wants.mark_mm)
    step = max(mark, floor_mark(exact(STEP_MM), mark))
    for turn in range(1, int(exact(FURTHEST_MM) // step) + 1):
        for way in (inwards, -inwards):
            to = to_mm(floor_mark(exact(line_mm), mark) + int(way) * turn * step)
            if low < to < high:
                yield to


def _bears(room: Room, line_mm: float, frame: Placed, near: Sequence[float]) -> bool:
    """Return whether a line has joists clear of its neighbours, all with both ends on a face."""
    if any(abs(line_mm - one) < room.thickness_mm for one in near):
        return False
    others = [timber.corners for timber in frame.timbers if timber.kind in {"trimmer", "double"}]
    alone = evolve(room, lines_mm=(line_mm,), claims=())
    joists: list[Timber] = place_joists(alone, [*others, *frame.holes])
    standing = [*(rim.corners for rim in room.rims), *others]
    return bool(joists) and not any(loose_ends(joist, standing) for joist in joists)
