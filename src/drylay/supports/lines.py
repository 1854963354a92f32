"""Joist lines: the fewest within a strict limit, settled on pencil marks."""

from collections.abc import Sequence
from itertools import pairwise

from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.marks import MARK_320, PER_MM, exact, floor_mark, is_number, nearest_mark, to_mm
from drylay.supports.model import JoistLine, Supports

#: Thinner joists and more lines than these are slips, and take for ever. Assumption.
LEAST_MM, MOST_LINES = 1.0, 10_000


@counted
def place_joists(
    *,
    length_mm: float,
    joist_mm: float,
    most_centres_mm: float,
    start_mm: float = 0.0,
    more_lines: int = 0,
    units: str = "metric",
) -> Supports:
    """Return the joist lines under boards of a frame `length_mm` long.

    The count is the fewest that keeps every bay within the limit, counted exactly and
    strictly: 350.1 fails a limit of 350. First and last centres are half a joist from the
    frame's faces. Centres stand on marks, inner bays are equal where that keeps every line
    within 1 mm (or a mark) of even spacing, and the lines mirror about the middle.

    Args:
        length_mm: Frame along the boards, outer face to outer face.
        joist_mm: Joist thickness.
        most_centres_mm: Widest bay allowed, centre to centre.
        start_mm: Where the frame's face lies from the cover's datum (a fascia's thickness).
        more_lines: Lines beyond the fewest, to try closer centres.
        units: "metric" or "imperial" pencil marks.

    Raises:
        InputError: A length is not above 0, the centres are within a joist's thickness, lines
            are to be left out, or the frame is not longer than two joists.

    Source: arithmetic; even spacing by common practice, no source.
    """
    _refuse_bad(length_mm, joist_mm, most_centres_mm, more_lines, units)
    _refuse_start(start_mm)
    joist = exact(joist_mm)
    span = exact(length_mm) - joist
    limit = exact(most_centres_mm)
    bays = max(1, -(-span // limit)) + more_lines
    if bays * joist > span:
        wanted = "fewer lines: the joists would overlap"
        raise InputError((Fault(path="more_lines", found=repr(more_lines), wanted=wanted),))
    mirrored = _mirrored(span, bays, limit, MARK_320[units], joist)
    offsets = [exact(start_mm) + joist // 2 + along for along in mirrored]
    widest = max(after - before for before, after in pairwise(mirrored))
    return Supports(
        most_centres_mm=most_centres_mm,
        centres_mm=to_mm(widest),
        line_count=len(offsets),
        joist_thickness_mm=joist_mm,
        lines=tuple(JoistLine(offset_mm=to_mm(offset)) for offset in offsets),
    )


def _mirrored(span: int, bays: int, limit: int, mark: int, joist: int) -> list[int]:
    """Return the lines from the first centre on: marked where the limit allows, mirrored."""
    for half in (*_equal_inner_bays(span, bays, mark, joist), _nearest(span, bays, mark, joist)):
        lines = _unfold(half, span, bays)
        if _within(lines, limit):
            return lines
    even = [span * step // bays for step in range(1, (bays - 1) // 2 + 1)]
    return _unfold(even, span, bays)


def _equal_inner_bays(span: int, bays: int, mark: int, joist: int) -> list[list[int]]:
    """Return first halves with equal inner bays, so that few different cuts are needed.

    Only those in which no line strays from even spacing by more than 1 mm or a mark; the one
    that strays least comes first. The end bay puts the first inner centre on a mark.
    """
    tries = []
    low = floor_mark(span // bays, mark)
    for inner in (low, low + mark):
        rest = (span - inner * (bays - 2)) // 2
        onto_mark = floor_mark(rest + joist // 2, mark) - joist // 2
        for end in (onto_mark, onto_mark + mark):
            half = [end + inner * step for step in range((bays - 1) // 2)]
            stray = _stray(span, bays, half)
            if stray <= bays * max(PER_MM, mark):
                tries.append((stray, -inner, half))
    return [half for *_, half in sorted(tries)]


def _nearest(span: int, bays: int, mark: int, joist: int) -> list[int]:
    """Return the first half with every centre on the mark nearest to even spacing."""
    return [
        nearest_mark(span * step // bays + joist // 2, mark) - joist // 2
        for step in range(1, (bays - 1) // 2 + 1)
    ]


def _stray(span: int, bays: int, half: list[int]) -> int:
    """Return how far lines stray from even spacing at the most, times the number of bays."""
    return max((abs(at * bays - span * n) for n, at in enumerate(half, start=1)), default=0)


def _unfold(half: list[int], span: int, bays: int) -> list[int]:
    """Return all lines from those of the first half: ends, mirror, and a middle line."""
    middle = [span // 2] if bays % 2 == 0 else []
    return [0, *half, *middle, *(span - along for along in reversed(half)), span]


def _within(lines: Sequence[int], limit: int) -> bool:
    widths = [after - before for before, after in pairwise(lines)]
    return min(widths) > 0 and max(widths) <= limit


def _refuse_start(start_mm: float) -> None:
    if not is_number(start_mm) or not 0.0 <= start_mm <= 1e6:
        wanted = "a length of 0 mm or more, not over 1 km"
        raise InputError((Fault(path="start_mm", found=repr(start_mm), wanted=wanted),))


def _refuse_bad(
    length_mm: float, joist_mm: float, most_centres_mm: float, more_lines: int, units: str
) -> None:
    faults = [
        Fault(path=name, found=repr(value), wanted="a length of 1 mm or more, not over 1 km")
        for name, value in (
            ("length_mm", length_mm),
            ("joist_mm", joist_mm),
            ("most_centres_mm", most_centres_mm),
        )
        if not is_number(value) or not LEAST_MM <= value <= 1e6
    ]
    if not faults and most_centres_mm <= joist_mm:
        wanted = f"more than one joist's thickness, {joist_mm:g} mm"
        faults.append(Fault(path="most_centres_mm", found=f"{most_centres_mm:g}", wanted=wanted))
    if type(more_lines) is not int or more_lines < 0:
        wanted = "a whole number of lines beyond the fewest, 0 or more"
        faults.append(Fault(path="more_lines", found=repr(more_lines), wanted=wanted))
    if not faults and length_mm < 2 * joist_mm:
        wanted = f"a frame of two joists at least, {2 * joist_mm:g} mm"
        faults.append(Fault(path="length_mm", found=f"{length_mm:g}", wanted=wanted))
    if not faults and length_mm / most_centres_mm + more_lines > MOST_LINES:
        wanted = f"no more than {MOST_LINES} lines"
        faults.append(Fault(path="length_mm", found=f"{length_mm:g}", wanted=wanted))
    if not isinstance(units, str) or units not in MARK_320:
        faults.append(Fault(path="units", found=repr(units), wanted="metric or imperial"))
    if faults:
        raise InputError(tuple(faults))
