"""Boards that meet at joints, in chains: how long together, and the stations they may meet at."""

from collections.abc import Iterator, Sequence
from math import ceil, floor

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.outlined import SLACK, laying_of, place, shape, subframe_of
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_carried import (
    Line,
    MemberLines,
    closely,
    may_cross,
    member_lines,
    tips,
    told_crossing,
    told_stretches,
)
from drylay.audit.outlined_joints import course_of, edges_of, in_line
from drylay.audit.outlined_strips import JUST
from drylay.audit.plane import UNIT, Number, Run, Shape, box, size
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan

#: What a joint may lie over.
JOINTED_OVER = {"rim", "joist", "pair", "double"}

Stations = tuple[tuple[Fraction, int | None], ...]
Room = tuple[Fraction, Fraction]


@frozen(kw_only=True)
class Chain:
    """Pieces that meet at joints: how long together, and where members cross under them.

    `room` is from where to where a border's boards may meet, off its mitres.
    """

    pieces: tuple[LaidPiece, ...]
    length: Fraction
    stations: Stations
    room: Room | None = None


@frozen(kw_only=True)
class Carried:
    """The middle lines of what carries boards, and which joist line each member stands on."""

    lines: MemberLines
    numbers: tuple[int | None, ...]


def chains_of(plan: Plan) -> list[Chain]:
    """Return all pieces that meet at joints, row by row along the run; with them whole ones.

    These only where a line of the proof is told to have no joint: which of them it is stays open.
    """
    carried, lots = _carried(plan), list(lots_of(plan))
    if _some_whole(plan):
        order = {piece.mark: index for index, piece in enumerate(laying_of(plan).pieces)}
        lots = sorted([*lots, *_whole(plan)], key=lambda each: order[each[1][0].mark])
    return [_chain(plan, run, lot, carried) for run, lot in lots]


def is_whole(piece: LaidPiece) -> bool:
    """Return whether a piece ends at no joint."""
    return not (piece.from_member or piece.to_member)


def _some_whole(plan: Plan) -> bool:
    return any(not row for rows in laying_of(plan).stations_met for row in rows)


def _whole(plan: Plan) -> Iterator[tuple[Run, list[LaidPiece]]]:
    runs = runs_of(plan)
    for piece in laying_of(plan).pieces:
        if is_whole(piece) and piece.kind != "hatch" and piece.mark in runs:
            yield runs[piece.mark], [piece]


def lots_of(plan: Plan) -> Iterator[tuple[Run, list[LaidPiece]]]:
    """Yield the pieces of each chain along its run, which comes first."""
    most = ticks(laying_of(plan).end_gap_mm) + 2 * SLACK
    for run, pieces in _lines_of(plan):
        lot: list[LaidPiece] = []
        end = Fraction(0)
        along = sorted(((*tips(run, piece), piece) for piece in pieces), key=lambda each: each[0])
        for start, last, piece in along:
            if lot and start - end > most:
                yield run, lot
                lot = []
            lot.append(piece)
            end = last
        yield run, lot


def _lines_of(plan: Plan) -> list[tuple[Run, list[LaidPiece]]]:
    """Return the pieces that end at joints by the lines they lie in, each with its run."""
    runs = runs_of(plan)
    found: list[tuple[Run, tuple[Number, Number], list[LaidPiece]]] = []
    for piece in laying_of(plan).pieces:
        if is_whole(piece):
            continue
        for run, edges, pieces in found:
            alike = course_of(piece) == course_of(pieces[0])
            if alike and (piece.kind == "field" or in_line(run, edges, piece)):
                pieces.append(piece)
                break
        else:
            run = runs[piece.mark]
            found.append((run, edges_of(run, piece), [piece]))
    return [(run, pieces) for run, _, pieces in found]


def _chain(plan: Plan, run: Run, lot: list[LaidPiece], carried: Carried) -> Chain:
    start, end = tips(run, lot[0])[0], tips(run, lot[-1])[1]
    own = _middle_lines(plan, run, lot)
    found = _crossings(own, carried.lines.along(run, drawn=False), carried)
    if not closely(plan, [at for at, _ in found], start, end):
        found = _crossings(own, carried.lines.along(run, drawn=True), carried)
    stations = _once([(at - start, number) for at, number in found])
    room = _room(plan, run, lot, start) if lot[0].kind == "border" else None
    return Chain(
        pieces=tuple(lot), length=end - start, stations=off_mitres(room, stations), room=room
    )  # fmt: skip


def _room(plan: Plan, run: Run, lot: list[LaidPiece], start: Fraction) -> Room:
    """Return from where to where a border's boards may meet: where both are whole, a mm clear."""
    told = [place for piece in lot for place in run.all_told(shape(piece.corners))]
    _, low, _, high = box(tuple(told))
    near = SLACK * UNIT
    edges = [[u for u, v in told if size(v - level) <= near] for level in (low, high)]
    clear = Fraction(ticks(laying_of(plan).end_gap_mm), 2) + PER_MM - JUST
    first, last = max(min(edge) for edge in edges), min(max(edge) for edge in edges)
    return Fraction(first) / UNIT + clear - start, Fraction(last) / UNIT - clear - start


def off_mitres(room: Room | None, stations: Stations) -> Stations:
    """Return stations off the mitres of a border's boards; the first and the last stay."""
    if room is None:
        return stations
    inner = (each for each in stations[1:-1] if room[0] < each[0] < room[1])
    return (*stations[:1], *inner, *stations[1:][-1:])


def _middle_lines(plan: Plan, run: Run, lot: list[LaidPiece]) -> list[Line]:
    """Return the middle line of boards that meet, in one over each joint: as before it was cut.

    As told along their run.
    """
    own = [line for piece in lot for line in told_stretches(plan, piece, run)]
    spans: list[tuple[Number, Number]] = []
    for (start, _), (end, _) in own:
        if spans and start - spans[-1][1] <= (ticks(laying_of(plan).end_gap_mm) + 2 * SLACK) * UNIT:
            spans[-1] = (spans[-1][0], end)
        else:
            spans.append((start, end))
    return [((start, own[0][0][1]), (end, own[0][0][1])) for start, end in spans]


def _carried(plan: Plan) -> Carried:
    subframe, found = subframe_of(plan), member_lines(plan)
    axis = 0 if subframe.joist_run == "across" else 1
    lines = [ticks(line) for line in subframe.lines_mm]
    numbers: list[int | None] = []
    for member in found.members:
        start, end = place(member.start), place(member.end)
        off = [abs(line - start[axis]) for line in lines]
        number = off.index(min(off))
        on_line = abs(start[axis] - end[axis]) <= 1 and off[number] <= 1
        numbers.append(number if on_line and member.kind in JOINTED_OVER else None)
    return Carried(lines=found, numbers=tuple(numbers))


def _crossings(
    own: list[Line], lines: Sequence[Shape], carried: Carried
) -> list[tuple[Fraction, int | None]]:
    """Return where boards' lines cross what carries them, all told along a run, in order."""
    found: list[tuple[Fraction, int | None]] = []
    levels = [line[0][1] for line in own] or [0]
    low, high = floor(min(levels)), ceil(max(levels))
    for other, number in zip(lines, carried.numbers, strict=True):
        if not may_cross(other, low, high):
            continue
        crossed = [told_crossing(each, other) for each in own]
        found += [(at, number) for at in crossed if at is not None]
    return sorted(found, key=lambda each: each[0])


def _once(stations: list[tuple[Fraction, int | None]]) -> Stations:
    """Return stations in order, one where lengths of a member meet."""
    kept: list[tuple[Fraction, int | None]] = []
    for at, number in stations:
        if not kept or at - kept[-1][0] > SLACK:
            kept.append((at, number))
    return tuple(kept)


def ways_told(stations: Stations) -> list[Stations]:
    """Return how a row's stations may be told: its joists between the first and the last member.

    All of them; only the longest run of lines that follow one another; or all, and 1/320 mm each
    beyond the one before those that are cut off.
    """
    if len(stations) < 3:
        return [stations]
    first, *inner, last = stations
    numbered = [each for each in inner if each[1] is not None]
    runs: list[list[tuple[Fraction, int | None]]] = [[]]
    filled: list[tuple[Fraction, int | None]] = []
    for at, number in numbered:
        before = filled[-1][1] if filled else None
        step = 1 if before is None or number is None else abs(number - before)
        if filled and step != 1:
            runs.append([])
            stood = filled[-1][0]
            filled += [(stood + n, before) for n in range(1, step)]
        runs[-1].append((at, number))
        filled.append((at, number))
    longest = max(runs, key=len)
    return [(first, *each, last) for each in (tuple(numbered), tuple(longest), tuple(filled))]
