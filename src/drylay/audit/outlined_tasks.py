"""Tasks of boards on an outline: the proof speaks of this plan's own stretches and stations."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from drylay.audit.exact import mark_of, ticks
from drylay.audit.flaws import need, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    SLACK,
    fault,
    laying_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_carried import stretches
from drylay.audit.plane import UNIT, Run, box, segments_meet
from drylay.audit.shapes import LineShape, TaskShape
from drylay.audit.wanted import all_wanted
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan

TASK = outlines("Laying: what is longer than the longest board is jointed")
#: What a joint may lie over.
JOINTED_OVER = {"rim", "joist", "pair"}


@frozen(kw_only=True)
class Chain:
    """Pieces that meet at joints: how long together, and where members cross under them."""

    pieces: tuple[LaidPiece, ...]
    length: Fraction
    stations: tuple[tuple[Fraction, int | None], ...]


def task_of(plan: Plan) -> TaskShape:
    """Return the task that the boards' proof is of."""
    wanted = next((each for each in all_wanted(plan) if each.name == "boards"), None)
    bought = None if wanted is None else wanted.purchase
    return need(bought, "purchase of boards").proof.task


def chains_of(plan: Plan) -> list[Chain]:
    """Return all pieces that meet at joints, row by row along the run."""
    found: list[Chain] = []
    runs = runs_of(plan)
    links: dict[str, list[LaidPiece]] = {}
    for piece in laying_of(plan).pieces:
        if piece.from_member or piece.to_member:
            run = runs[piece.mark]
            _, low, _, _ = box(run.all_told(shape(piece.corners)))
            side = f"{run.cos} {run.sin} {round(low / UNIT / 320)}"
            links.setdefault(f"{piece.mark.split('.')[0]} {side}", []).append(piece)
    for pieces in links.values():
        run = runs[pieces[0].mark]
        pieces.sort(key=lambda piece: _ends(run, piece)[0])
        lot: list[LaidPiece] = []
        gap = ticks(laying_of(plan).end_gap_mm)
        for piece in pieces:
            if lot and _ends(run, piece)[0] - _ends(run, lot[-1])[1] > gap + 2 * SLACK:
                found.append(_chain(plan, run, lot))
                lot = []
            lot.append(piece)
        found.append(_chain(plan, run, lot))
    return found


def _ends(run: Run, piece: LaidPiece) -> tuple[Fraction, Fraction]:
    left, _, right, _ = box(run.all_told(shape(piece.corners)))
    return Fraction(left) / UNIT, Fraction(right) / UNIT


def _chain(plan: Plan, run: Run, lot: list[LaidPiece]) -> Chain:
    start, end = _ends(run, lot[0])[0], _ends(run, lot[-1])[1]
    subframe = subframe_of(plan)
    axis = 0 if subframe.joist_run == "across" else 1
    lines = [ticks(line) for line in subframe.lines_mm]
    told = [part for piece in lot for part in stretches(plan, piece, run)]
    if not told:
        return Chain(pieces=tuple(lot), length=end - start, stations=())
    first, last = run.told(told[0][0]), run.told(told[-1][1])
    whole = (run.place(first), run.place((last[0], first[1])))
    found: list[tuple[Fraction, int | None]] = []
    for member in subframe.members:
        a, b = place(member.start), place(member.end)
        if member.kind in JOINTED_OVER and segments_meet(*whole, a, b):
            (u, v), (w, x) = run.told(a), run.told(b)
            if v == x:
                continue  # it lies along the row, and carries it anywhere
            at = Fraction(u + (w - u) * Fraction(first[1] - v) / (x - v)) / UNIT - start
            number = min(range(len(lines)), key=lambda index: abs(lines[index] - a[axis]))
            on_line = abs(a[axis] - b[axis]) <= 1 and abs(lines[number] - a[axis]) <= 1
            found.append((at, number if on_line else None))
    in_order = _once(sorted(found, key=lambda each: each[0]))
    return Chain(pieces=tuple(lot), length=end - start, stations=in_order)


def _once(stations: list[tuple[Fraction, int | None]]) -> tuple[tuple[Fraction, int | None], ...]:
    """Return stations in order, one where lengths of a member meet."""
    kept: list[tuple[Fraction, int | None]] = []
    for at, number in stations:
        if not kept or at - kept[-1][0] > SLACK:
            kept.append((at, number))
    return tuple(kept)


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


def _same(plan: Plan, line: LineShape, chain: Chain) -> bool:
    """Whether a line of the proof is as long as a stretch, with stations where members are."""
    mark = mark_of(plan)
    if abs(line.end - line.start - chain.length) > mark:
        return False
    if len(line.stations) != len(chain.stations):
        return False
    at = [station for station, _ in chain.stations]
    # a border's boards run as its sides do, some of them against the rows
    back = [chain.length - station for station in reversed(at)]
    told = [station - line.start for station in line.stations]
    return any(
        all(abs(one - other) <= mark for one, other in zip(told, way, strict=True))
        for way in ([at] if chain.pieces[0].kind == "field" else [at, back])
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
    offsets = set()
    for line, chains in zip(task.lines, sets, strict=True):
        offsets |= {
            number - line.first_station - index
            for chain in chains
            for index, (_, number) in enumerate(chain.stations)
            if number is not None and chain.pieces[0].kind == "field"
        }
    if len(offsets) > 1 and task.beside:
        yield fault("boards: task", "sets do not number their stations by one count", TASK)
    told = {(pair.one, pair.other) for pair in task.beside}
    for one, other in sorted(_beside(rows, sets) - told):
        message = f"sets {one} and {other} lie side by side, and the task does not say so"
        yield fault("boards: task", message, TASK)
    for one, other in sorted(told - _beside(rows, sets)):
        message = f"sets {one} and {other} do not lie side by side, and the task says so"
        yield fault("boards: task", message, TASK)


def _beside(rows: list[str], sets: list[list[Chain]]) -> set[tuple[int, int]]:
    """Return which sets have the last row of the one beside the first row of the other."""
    found: set[tuple[int, int]] = set()
    ends = []
    for chains in sets:
        marks = [chain.pieces[0].row for chain in chains if chain.pieces[0].row in rows]
        order = sorted(rows.index(mark) for mark in marks)
        ends.append((order[0], order[-1]) if order else None)
    for one, first in enumerate(ends):
        for other, second in enumerate(ends):
            if first is not None and second is not None and first[1] + 1 == second[0]:
                found.add((one, other))
    return found


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-985", "the proof's lines are the jointed rows of the outline", stretches_are_lines),
    ("AUD-986", "lines are jointed on the plan's own terms", lines_have_the_plans_terms),
    ("AUD-987", "sets of rows side by side share one count of lines", sets_share_their_numbers),
)
