"""Joints on an outline: where a part of a row may be jointed, and rows as the cutter's lines."""

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import evolve, frozen

from drylay.cutting.model import Beside, Line
from drylay.geometry import SAME_MM
from drylay.laying.axes import placed
from drylay.laying.carried import JUST_MM, Crossing
from drylay.laying.parts import Part
from drylay.marks import ceil_mark, exact, nearest_mark

#: How far the end of a border's board at a joint is at least off its mitre.
OFF_MITRE_MM = 1.0


@frozen(kw_only=True)
class JointLimits:
    """What joints keep to; lengths in 1/320 mm."""

    gap_320: int
    least_supports: int
    stagger_bays: int
    most_per_row: int | None
    least_piece_320: int
    mark_320: int
    joist_lines: int


@frozen(kw_only=True)
class Row:
    """A part of a row that may be jointed: what the cutter is told, and where stations are."""

    part: Part
    line: Line
    stations: tuple[Crossing, ...]


@frozen(kw_only=True)
class Sets:
    """All lines of a task, which part each line of them is, and which sets lie side by side."""

    lines: tuple[Line, ...]
    parts: tuple[tuple[int, ...], ...]
    beside: tuple[Beside, ...]


def row_of(
    part: Part, over: tuple[Crossing, ...], limits: JointLimits, *, filled: bool, longest_320: int
) -> Row | None:
    """Return a part as a line of the cutter's; None where it cannot be jointed at all.

    Stations are the first member under it, the joists between, and the last; their places are on
    marks from the part's own tip. Neighbours count stations in common: where an opening cuts joist
    lines off only the most that follow one another are told; or, where no board reaches to these
    or all are to be told (`filled`), those cut off 1/320 mm each beyond the last one before.
    `fewest_supports` and `lines_apart` look at what became of that. None, too, where two stations
    would fall on one mark, or those of cut-off lines have no room before the next.
    """
    length = length_320(part, limits.mark_320)
    over = _once(over)
    real = None if filled else _longest_run(over)
    if real is None or not _reached(part, real, longest_320):
        real = _stations(over)
    if real is None:
        return None
    at = [nearest_mark(exact(each.at_mm - part.start_mm), limits.mark_320) for each in real]
    least = _least_bays(at, length, limits)
    if least is None or 2 * least > len(real) - 1:
        return None
    told = _filled(list(zip(at, real, strict=True)))
    if any(far <= near for (near, _), (far, _) in pairwise(told)):
        return None
    line = Line(
        count=1,
        start=0,
        end=length,
        stations=tuple(place for place, _ in told),
        joint_gap=limits.gap_320,
        least_bays=least,
        stagger=limits.stagger_bays,
        most_joints=limits.most_per_row,
        first_station=_number(real, limits.joist_lines),
    )
    return Row(part=part, line=line, stations=tuple(each for _, each in told))


def _once(over: tuple[Crossing, ...]) -> tuple[Crossing, ...]:
    """Return crossings, one of each joist line where two of its lengths meet under a board.

    They do where both are drawn on over a doubled trimmer between them. It names the length whose
    mark comes first: which of the two lies first along the board is a matter of a float's last
    digit.
    """
    kept: list[Crossing] = []
    for each in over:
        at = next((n for n, one in enumerate(kept) if _meets(one, each)), None)
        if at is None:
            kept.append(each)
        elif each.member < kept[at].member:
            kept[at] = evolve(kept[at], member=each.member)
    return tuple(kept)


def _meets(one: Crossing, other: Crossing) -> bool:
    """Whether two crossings, the second no nearer, are of lengths of one joist line that meet."""
    return other.line is not None and one.line == other.line and other.at_mm - one.at_mm < SAME_MM


def _reached(part: Part, run: tuple[Crossing, ...], longest_320: int) -> bool:
    """Whether a board reaches from either end of a part to the nearest station it has there."""
    ends = (run[1].at_mm - part.start_mm, part.end_mm - run[-2].at_mm)
    return max(exact(each) for each in ends) <= longest_320


def _filled(real: list[tuple[int, Crossing]]) -> list[tuple[int, Crossing]]:
    """Return stations with one for each joist line that is cut off, just beyond the one before."""
    told = [real[0]]
    for at, each in real[1:-1]:
        before = told[-1][1].line
        missing = 0 if len(told) == 1 or before is None else abs((each.line or 0) - before) - 1
        told += [(told[-1][0] + n, told[-1][1]) for n in range(1, missing + 1)]
        told.append((at, each))
    return [*told, real[-1]]


@frozen(kw_only=True)
class Broken:
    """A limit that joints do not keep: of which rows, how much there is, how much there should be.

    `unit` is "supports" under the piece that has fewest, or "joist lines" between two joints.
    """

    rows: tuple[str, ...]
    measured: int
    limit: int
    unit: str


def fewest_supports(row: Row, joints: Sequence[int]) -> int:
    """Return on how few members a piece of a jointed row rests: a station told twice is one."""
    places = [each.at_mm for each in row.stations]
    edges = [0, *joints, len(places) - 1]
    return min(len(set(places[start : end + 1])) for start, end in pairwise(edges))


def lines_apart(one: Row, joints: Sequence[int], other: Row, others: Sequence[int]) -> float:
    """Return how many joist lines the joints of two neighbours are apart; endless without any."""
    lines, beside = ([row.stations[j].line for j in at] for row, at in
                     ((one, joints), (other, others)))  # fmt: skip
    return min((abs((a or 0) - (b or 0)) for a in lines for b in beside), default=math.inf)


def off_mitres(part: Part, over: tuple[Crossing, ...], gap_mm: float) -> tuple[Crossing, ...]:
    """Return what a border's board may be jointed over: its ends there are whole, off its mitres.

    Its first and last support stay.
    """
    across = [v for _, v in part.ring]
    edges = [[u for u, v in part.ring if abs(v - level) < SAME_MM]
             for level in (min(across), max(across))]  # fmt: skip
    clear = gap_mm / 2 + OFF_MITRE_MM - JUST_MM
    start = max(min(edge) for edge in edges) + clear
    end = min(max(edge) for edge in edges) - clear
    inner = (each for each in over[1:-1] if start < each.at_mm < end)
    return (*over[:1], *inner, *over[1:][-1:])


def _number(stations: tuple[Crossing, ...], joist_lines: int) -> int:
    """Return the number of a part's first station, counted the way its run goes.

    One joist line comes before the first joist of any part: the rim's own, or one that is cut off.
    """
    first, last = stations[1].line, stations[-2].line
    assert first is not None
    assert last is not None
    falling = last < first or (first == last and _falls(stations))
    return joist_lines - 1 - first if falling else first


def _falls(stations: tuple[Crossing, ...]) -> bool:
    ends = (stations[0].line, stations[-1].line)
    middle = stations[1].line or 0
    return (ends[0] is not None and ends[0] > middle) or (ends[1] is not None and ends[1] < middle)


def _up(length_mm: float) -> int:
    """Return a length in 1/320 mm, rounded up but for what reckoning with angles leaves."""
    return math.ceil(length_mm * 320 - 0.5)


def length_320(part: Part, mark_320: int) -> int:
    """Return what is bought for a part in one piece: its length tip to tip, up to a mark."""
    return ceil_mark(_up(part.end_mm - part.start_mm), mark_320)


def _stations(over: tuple[Crossing, ...]) -> tuple[Crossing, ...] | None:
    """Return the stations a part may be jointed at, with its first and last support."""
    inner = [each for each in over[1:-1] if each.line is not None]
    return (over[0], *inner, over[-1]) if inner else None


def _longest_run(over: tuple[Crossing, ...]) -> tuple[Crossing, ...] | None:
    """Return the same of those joist lines only, the most there are, that follow one another."""
    runs: list[list[Crossing]] = []
    for each in over[1:-1]:
        if each.line is None:
            continue
        if runs and _follow(runs[-1], each.line):
            runs[-1].append(each)
        else:
            runs.append([each])
    return (over[0], *max(runs, key=len), over[-1]) if runs else None


def _follow(run: list[Crossing], line: int) -> bool:
    """Whether a joist line is the next in a run of them, the way that run goes."""
    last = run[-1].line
    before = run[-2].line if len(run) > 1 else None
    assert last is not None
    return abs(line - last) == 1 and (before is None or line - last == last - before)


def _least_bays(at: list[int], length: int, limits: JointLimits) -> int | None:
    """Return over how many bays a piece must reach at least: for supports, and its own length.

    Pieces between joints have as many bays again to both ends of the row.
    """
    most, least, gap = len(at) - 1, 2 * limits.least_piece_320, limits.gap_320
    for bays in range(limits.least_supports - 1, most + 1):
        inner = [
            2 * (at[near + bays] - at[near] - gap) for near in range(bays, most + 1 - 2 * bays)
        ]
        outer = (2 * at[bays] - gap, 2 * (length - at[most - bays]) - gap)
        if min(*outer, *inner) >= least:
            return bays
    return None


def sets_of(rows: Sequence[tuple[int, Row | None]], stagger: int) -> Sets:
    """Return rows as sets of lines: `rows` are row number and line, in the order they lie.

    Rows that follow one another and are alike are one set; where they are not, neighbours are told
    to lie beside one another.
    """
    lines: list[Line] = []
    parts: list[list[int]] = []
    beside: set[tuple[int, int]] = set()
    set_of: dict[int, int] = {}
    by_row: dict[int, list[int]] = {}
    for index, (number, row) in enumerate(rows):
        if row is not None:
            by_row.setdefault(number, []).append(index)
    for number in sorted(by_row):
        before = by_row.get(number - 1, [])
        for index in by_row[number]:
            row = rows[index][1]
            assert row is not None
            near = [other for other in before if _overlap(row, rows[other][1])]
            joined = near[0] if len(near) == 1 else None
            if joined is not None and _follows(rows, joined, by_row[number], row):
                set_of[index] = set_of[joined]
                parts[set_of[index]].append(index)
                continue
            set_of[index] = len(lines)
            lines.append(row.line)
            parts.append([index])
            beside |= {(set_of[other], set_of[index]) for other in near}
    counted = tuple(
        _counted(line, len(members)) for line, members in zip(lines, parts, strict=True)
    )
    pairs = tuple(Beside(one=one, other=other) for one, other in sorted(beside)) if stagger else ()
    return Sets(lines=counted, parts=tuple(tuple(each) for each in parts), beside=pairs)


def _counted(line: Line, count: int) -> Line:
    return Line(
        count=count, start=line.start, end=line.end, stations=line.stations,
        joint_gap=line.joint_gap, least_bays=line.least_bays, stagger=line.stagger,
        most_joints=line.most_joints, first_station=line.first_station,
    )  # fmt: skip


def _follows(
    rows: Sequence[tuple[int, Row | None]], before: int, beside: Sequence[int], row: Row
) -> bool:
    """Whether a part only goes on in the next row: alike, and neither has another neighbour."""
    earlier = rows[before][1]
    assert earlier is not None
    next_to = [index for index in beside if _overlap(earlier, rows[index][1])]
    return len(next_to) == 1 and row.line == earlier.line


def _overlap(one: Row, other: Row | None) -> bool:
    """Whether two parts of neighbouring rows lie side by side along some of their length."""
    if other is None:
        return False
    return (
        min(one.part.end_mm, other.part.end_mm) - max(one.part.start_mm, other.part.start_mm)
        > SAME_MM
    )


def at_joint(row: Row, station: int) -> tuple[float, float]:
    """Return where a joint at a station lies in the cover's axes, on the row's middle line."""
    middle = (row.part.band.low_mm + row.part.band.high_mm) / 2
    u = row.part.start_mm + row.line.stations[station] / 320
    return placed(row.part.band.axes, (u, middle))
