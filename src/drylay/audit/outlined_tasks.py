"""Tasks of boards on an outline: the proof speaks of this plan's own stretches and stations."""

from collections import Counter
from collections.abc import Iterator, Sequence
from math import ceil, floor

from attrs import frozen

from drylay.audit.exact import Fraction, mark_of, mm, ticks
from drylay.audit.flaws import need, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    SLACK,
    fault,
    laying_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_carried import (
    Line,
    MemberLines,
    closely,
    evenly,
    may_cross,
    member_lines,
    stretches,
    told_crossing,
)
from drylay.audit.outlined_joints import course_of, edges_of, in_line
from drylay.audit.plane import UNIT, Number, Run, box
from drylay.audit.shapes import LineShape, TaskShape
from drylay.audit.wanted import all_wanted
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan

TASK = outlines("Laying: what is longer than the longest board is jointed")
#: What a joint may lie over.
JOINTED_OVER = {"rim", "joist", "pair", "double"}


@frozen(kw_only=True)
class Chain:
    """Pieces that meet at joints: how long together, and where members cross under them."""

    pieces: tuple[LaidPiece, ...]
    length: Fraction
    stations: tuple[tuple[Fraction, int | None], ...]


@frozen(kw_only=True)
class Carried:
    """The middle lines of what carries boards, and which joist line each member stands on."""

    lines: MemberLines
    numbers: tuple[int | None, ...]


def task_of(plan: Plan) -> TaskShape:
    """Return the task that the boards' proof is of."""
    wanted = next((each for each in all_wanted(plan) if each.name == "boards"), None)
    bought = None if wanted is None else wanted.purchase
    return need(bought, "purchase of boards").proof.task


def chains_of(plan: Plan) -> list[Chain]:
    """Return all pieces that meet at joints, row by row along the run."""
    found: list[Chain] = []
    gap, carried = ticks(laying_of(plan).end_gap_mm), _carried(plan)
    for run, pieces in _lines_of(plan):
        pieces.sort(key=lambda piece: _ends(run, piece)[0])
        lot: list[LaidPiece] = []
        for piece in pieces:
            if lot and _ends(run, piece)[0] - _ends(run, lot[-1])[1] > gap + 2 * SLACK:
                found.append(_chain(plan, run, lot, carried))
                lot = []
            lot.append(piece)
        found.append(_chain(plan, run, lot, carried))
    return found


def _lines_of(plan: Plan) -> list[tuple[Run, list[LaidPiece]]]:
    """Return the pieces that end at joints by the lines they lie in, each with its run."""
    runs = runs_of(plan)
    found: list[tuple[Run, tuple[Number, Number], list[LaidPiece]]] = []
    for piece in laying_of(plan).pieces:
        if not (piece.from_member or piece.to_member):
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


def _ends(run: Run, piece: LaidPiece) -> tuple[Fraction, Fraction]:
    left, _, right, _ = box(run.all_told(shape(piece.corners)))
    return Fraction(left) / UNIT, Fraction(right) / UNIT


def _chain(plan: Plan, run: Run, lot: list[LaidPiece], carried: Carried) -> Chain:
    start, end = _ends(run, lot[0])[0], _ends(run, lot[-1])[1]
    own = _middle_lines(plan, run, lot)
    found = _crossings(run, own, carried.lines.plain, carried)
    if not closely(plan, [at for at, _ in found], start, end):
        found = _crossings(run, own, carried.lines.drawn, carried)
    stations = _once([(at - start, number) for at, number in found])
    return Chain(pieces=tuple(lot), length=end - start, stations=stations)


def _middle_lines(plan: Plan, run: Run, lot: list[LaidPiece]) -> list[Line]:
    """Return the middle line of boards that meet, in one over each joint: as before it was cut."""
    own = [run.all_told(line) for piece in lot for line in stretches(plan, piece, run)]
    spans: list[tuple[Number, Number]] = []
    for (start, _), (end, _) in own:
        if spans and start - spans[-1][1] <= (ticks(laying_of(plan).end_gap_mm) + 2 * SLACK) * UNIT:
            spans[-1] = (spans[-1][0], end)
        else:
            spans.append((start, end))
    return [
        (run.place((start, own[0][0][1])), run.place((end, own[0][0][1]))) for start, end in spans
    ]


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
    run: Run, whole: list[Line], lines: Sequence[Line], carried: Carried
) -> list[tuple[Fraction, int | None]]:
    """Return where lines along a run cross what carries boards, in order, with joist lines."""
    found: list[tuple[Fraction, int | None]] = []
    own = [run.all_told(line) for line in whole]
    levels = [line[0][1] for line in own] or [0]
    low, high = floor(min(levels)), ceil(max(levels))
    for line, number in zip(lines, carried.numbers, strict=True):
        other = run.all_told(line)
        if not may_cross(other, low, high):
            continue
        crossed = [told_crossing(each, other) for each in own]
        found += [(at, number) for at in crossed if at is not None]
    return sorted(found, key=lambda each: each[0])


def _once(stations: list[tuple[Fraction, int | None]]) -> tuple[tuple[Fraction, int | None], ...]:
    """Return stations in order, one where lengths of a member meet."""
    kept: list[tuple[Fraction, int | None]] = []
    for at, number in stations:
        if not kept or at - kept[-1][0] > SLACK:
            kept.append((at, number))
    return tuple(kept)


Stations = tuple[tuple[Fraction, int | None], ...]


def _ways_told(stations: Stations) -> list[Stations]:
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


def stretches_are_lines(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the proof's lines are the plan's jointed stretches, stations and all."""
    left = chains_of(plan)
    for index, line in enumerate(task_of(plan).lines):
        alike = [chain for chain in left if _same(plan, line, chain)][: line.count]
        left = [chain for chain in left if chain not in alike]
        message = "rows that are jointed so, against the lines of the set"
        yield from same_count(f"boards: set {index}", message, len(alike), line.count, TASK)
    for chain in left:
        mark = chain.pieces[0].mark
        yield fault(mark, "the proof has no line for the boards that begin with it", TASK)


def stations_are_joints(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pieces end at the stations that are told for each line of the proof."""
    lines, told = task_of(plan).lines, laying_of(plan).stations_met
    path = "laying.stations_met"
    yield from same_count(path, "not one for each set of lines", len(told), len(lines), TASK)
    wanted: Counter[tuple[int, ...]] = Counter()
    for index, (line, rows) in enumerate(zip(lines, told, strict=False)):
        at, message = f"{path}[{index}]", "not one for each line of the set"
        yield from same_count(at, message, len(rows), line.count, TASK)
        if any(not 0 <= each < len(line.stations) for row in rows for each in row):
            yield fault(at, "a station that the line has not", TASK)
            return
        wanted.update(_either_way(_lengths(line, row)) for row in rows)
    found = Counter(
        _either_way(tuple(ticks(piece.cut_mm) for piece in chain.pieces))
        for chain in chains_of(plan)
    )
    for lengths in (wanted - found) + (found - wanted):
        sawn = " + ".join(f"{mm(each):g}" for each in lengths)
        message = f"rows of {sawn} mm: told by stations and laid are not the same"
        yield fault(path, message, TASK)


def _lengths(line: LineShape, row: tuple[int, ...]) -> tuple[int, ...]:
    """Return how long the pieces of a line are that meet at these stations."""
    before, after = line.joint_gap // 2, -(-line.joint_gap // 2)
    starts = [line.start, *(line.stations[each] + after for each in row)]
    ends = [*(line.stations[each] - before for each in row), line.end]
    return tuple(end - start for start, end in zip(starts, ends, strict=True))


def _either_way(lengths: tuple[int, ...]) -> tuple[int, ...]:
    return min(lengths, lengths[::-1])


def _same(plan: Plan, line: LineShape, chain: Chain) -> bool:
    """Whether a line of the proof is as long as a stretch, with stations where it is carried."""
    mark = mark_of(plan)
    # up to a mark longer than what is measured between rounded corners
    if abs(line.end - line.start - chain.length) > mark + LONG_OFF:
        return False
    told = [station - line.start for station in line.stations]
    ways = [[at for at, _ in way] for way in _ways_told(chain.stations)]
    if chain.pieces[0].kind != "field":
        # a border's boards run as its sides do, some of them against the rows
        ways += [[chain.length - at for at in reversed(way)] for way in ways]
        ways += [evenly(plan, chain.length)]
    return any(
        len(way) == len(told)
        and all(abs(one - other) <= mark for one, other in zip(told, way, strict=True))
        for way in ways
    )


def lines_have_the_plans_terms(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless lines are jointed on the plan's own terms."""
    laying = laying_of(plan)
    for index, line in enumerate(task_of(plan).lines):
        terms = {
            "joint_gap": (line.joint_gap, ticks(laying.end_gap_mm)),
            "least_bays": (line.least_bays, _bays(plan, line)),
            "stagger": (line.stagger, laying.stagger_bays),
            "most_joints": (line.most_joints, laying.most_joints_per_row),
        }
        for name, (found, wanted) in terms.items():
            if found != wanted:
                yield Flaw(
                    subject=f"boards: set {index}: {name}", message="the task is not this plan's",
                    measured=found, limit=wanted, source=TASK,
                )  # fmt: skip


def _bays(plan: Plan, line: LineShape) -> int:
    """Return the fewest bays that hold a piece up, and none over so many of which is too short."""
    laying = laying_of(plan)
    gap, least = ticks(laying.end_gap_mm), ticks(laying.least_piece_mm)
    at, most = [station - line.start for station in line.stations], len(line.stations) - 1
    bays, row = laying.least_supports - 1, line.end - line.start
    while bays <= most:
        inner = [2 * (at[near + bays] - at[near] - gap) for near in range(most + 1 - bays)]
        outer = [2 * at[bays] - gap, 2 * (row - at[most - bays]) - gap]
        if min(outer + inner[bays : most + 1 - 2 * bays]) >= 2 * least:
            break
        bays += 1
    return bays


def sets_share_their_numbers(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless sets of rows side by side are told so, numbered by one count of lines."""
    task = task_of(plan)
    rows = [row.mark for row in laying_of(plan).rows]
    left = chains_of(plan)
    sets: list[list[Chain]] = []
    for line in task.lines:
        alike = [chain for chain in left if _same(plan, line, chain)][: line.count]
        left = [chain for chain in left if chain not in alike]
        sets.append(alike)
    if task.beside:
        yield from _count_alike(plan, list(zip(task.lines, sets, strict=True)))
    told = {(pair.one, pair.other) for pair in task.beside}
    beside = _beside(plan, rows, sets) if laying_of(plan).stagger_bays else told
    for one, other in sorted(beside - told):
        message = f"sets {one} and {other} lie side by side, and the task does not say so"
        yield fault("boards: task", message, TASK)
    for one, other in sorted(told - beside):
        message = f"sets {one} and {other} do not lie side by side, and the task says so"
        yield fault("boards: task", message, TASK)


def _count_alike(plan: Plan, told: list[tuple[LineShape, list[Chain]]]) -> Iterator[Flaw]:
    """Yield a flaw for a zone whose rows do not number their stations by one count of lines.

    It goes up along all its boards, or down where these run against the order of the lines.
    """
    zones = {row.mark: row.zone for row in laying_of(plan).rows}
    up: dict[str, set[int]] = {}
    down: dict[str, set[int]] = {}
    for line, chains in told:
        for chain in chains:
            for index, number in _numbered(plan, line, chain):
                zone, counted = zones[chain.pieces[0].row], line.first_station + index
                up.setdefault(zone, set()).add(number - counted)
                down.setdefault(zone, set()).add(number + counted)
    for zone, risen in up.items():
        if len(risen) > 1 and len(down[zone]) > 1:
            yield fault("boards: task", f"sets of {zone} do not number their stations by one count",
                        TASK)  # fmt: skip


def _numbered(plan: Plan, line: LineShape, chain: Chain) -> Iterator[tuple[int, int]]:
    """Yield the joist line of each station of a row's line that stands on one, by its number."""
    if chain.pieces[0].kind == "field":
        half = mark_of(plan) // 2
        known = [
            (ceil(at - half), floor(at + half), number)
            for at, number in chain.stations
            if number is not None
        ]
        for index, station in enumerate(line.stations[1:-1], 1):
            near = [n for low, high, n in known if low <= station - line.start <= high]
            yield from ((index, n) for n in near[:1])


def _beside(plan: Plan, rows: list[str], sets: list[list[Chain]]) -> set[tuple[int, int]]:
    """Return which sets have rows side by side: the next row of a zone, and some of it beside."""
    zones = {row.mark: row.zone for row in laying_of(plan).rows}
    runs = runs_of(plan)
    placed = [
        (at, rows.index(chain.pieces[0].row), *_span_of(runs, chain), zones[chain.pieces[0].row])
        for at, chains in enumerate(sets)
        for chain in chains
        if chain.pieces[0].row in rows
    ]
    return {
        (one, other)
        for one, row, start, end, zone in placed
        for other, next_row, first, last, beside in placed
        if one != other and next_row == row + 1 and zone == beside
        and min(end, last) - max(start, first) > SLACK
    }  # fmt: skip


def _span_of(runs: dict[str, Run], chain: Chain) -> tuple[Fraction, Fraction]:
    run = runs[chain.pieces[0].mark]
    return _ends(run, chain.pieces[0])[0], _ends(run, chain.pieces[-1])[1]


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-985", "the proof's lines are the jointed rows of the outline", stretches_are_lines),
    ("AUD-990", "pieces end at the stations told for each line of the proof", stations_are_joints),
    ("AUD-986", "lines are jointed on the plan's own terms", lines_have_the_plans_terms),
    ("AUD-987", "sets of rows side by side share one count of lines", sets_share_their_numbers),
)
