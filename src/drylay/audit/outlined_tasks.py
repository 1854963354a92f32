"""Tasks of boards on an outline: the proof speaks of this plan's own stretches and stations."""

from collections import Counter
from collections.abc import Iterator
from math import ceil, floor

from drylay.audit.exact import Fraction, mark_of, mm, ticks
from drylay.audit.flaws import need, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    OFF,
    SLACK,
    fault,
    laying_of,
    outlines,
)
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_carried import evenly, tips
from drylay.audit.outlined_chains import Chain, chains_of, is_whole, lots_of, off_mitres, ways_told
from drylay.audit.plane import Run
from drylay.audit.shapes import LineShape, TaskShape
from drylay.audit.wanted import all_wanted
from drylay.plan.model import Plan

TASK = outlines("Laying: what is longer than the longest board is jointed")


def task_of(plan: Plan) -> TaskShape:
    """Return the task that the boards' proof is of."""
    wanted = next((each for each in all_wanted(plan) if each.name == "boards"), None)
    bought = None if wanted is None else wanted.purchase
    return need(bought, "purchase of boards").proof.task


def stretches_are_lines(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the proof's lines are the plan's jointed stretches, stations and all."""
    left = chains_of(plan)
    for index, line in enumerate(task_of(plan).lines):
        alike = [chain for chain in left if _same(plan, line, chain)][: line.count]
        left = [chain for chain in left if chain not in alike]
        message = "rows that are jointed so, against the lines of the set"
        yield from same_count(f"boards: set {index}", message, len(alike), line.count, TASK)
    for chain in left:
        if is_whole(chain.pieces[0]):
            continue
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
        _either_way(tuple(ticks(piece.cut_mm) for piece in lot)) for _, lot in lots_of(plan)
    )
    whole: Counter[tuple[int, ...]] = Counter(
        (ticks(piece.cut_mm),) for piece in laying_of(plan).pieces if is_whole(piece)
    )  # fmt: skip
    # rows of one piece are told by their length alone: others as long need not be of the proof
    found += Counter({row: min(count, whole[row]) for row, count in wanted.items()})
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
    ways = [[at for at, _ in way] for way in ways_told(chain.stations)]
    if chain.pieces[0].kind != "field":
        # a border's boards run as its sides do, some of them against the rows
        ways += [[chain.length - at for at in reversed(way)] for way in ways]
        even = tuple((at, None) for at in evenly(plan, chain.length))
        ways += [[at for at, _ in off_mitres(chain.room, even)]]
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
    """Return the fewest bays that hold a piece up, and none over so many of which is too short.

    Of stations that have a member of their own: how short pieces over others are is not told.
    """
    laying = laying_of(plan)
    gap, least = ticks(laying.end_gap_mm), ticks(laying.least_piece_mm)
    at = [station - line.start for _, station in _own_stations(line)]
    most = len(at) - 1
    bays, row = laying.least_supports - 1, line.end - line.start
    while bays <= most:
        inner = [2 * (at[near + bays] - at[near] - gap) for near in range(most + 1 - bays)]
        outer = [2 * at[bays] - gap, 2 * (row - at[most - bays]) - gap]
        if min(outer + inner[bays : most + 1 - 2 * bays]) >= 2 * least:
            break
        bays += 1
    return bays


def _own_stations(line: LineShape) -> Iterator[tuple[int, int]]:
    """Yield stations by their number, but for those of lines cut off: just beyond the one before.

    Members do not stand so near one another.
    """
    for index, station in enumerate(line.stations):
        if index == 0 or station - line.stations[index - 1] != OFF:
            yield index, station


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
        for index, station in list(_own_stations(line))[1:-1]:
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
    return tips(run, chain.pieces[0])[0], tips(run, chain.pieces[-1])[1]


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-985", "the proof's lines are the jointed rows of the outline", stretches_are_lines),
    ("AUD-990", "pieces end at the stations told for each line of the proof", stations_are_joints),
    ("AUD-986", "lines are jointed on the plan's own terms", lines_have_the_plans_terms),
    ("AUD-987", "sets of rows side by side share one count of lines", sets_share_their_numbers),
)
