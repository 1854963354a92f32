"""Tasks: a proof speaks of this plan only if its task is this plan's, to the last station."""

from collections import Counter
from collections.abc import Iterator

from drylay.audit.between import bands
from drylay.audit.edged import field_rows
from drylay.audit.edges import edges_of
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, off_by, same_count
from drylay.audit.frame import frame_of, middle_marks
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import Set, joint_lines, pieces_of
from drylay.audit.proofs import digits_of, in_minor
from drylay.audit.rows import surface_of
from drylay.audit.shapes import LineShape, TaskShape
from drylay.audit.standing_timber import STANDING
from drylay.audit.supports import paired
from drylay.audit.wanted import (
    Wanted,
    all_wanted,
    buying_of,
    wanted_boards,
    wanted_border,
    wanted_frame,
)
from drylay.audit.worth import arcs_of, fewest_joints, longest_piece
from drylay.laying.model import Laying
from drylay.plan.model import Plan

TASK = conventions("Buying: in a Proof, lengths are 1/320 mm and money is minor units")


def _tasks(plan: Plan) -> Iterator[tuple[Wanted, TaskShape]]:
    for wanted in all_wanted(plan):
        if wanted.purchase is not None:
            yield wanted, wanted.purchase.proof.task


def tasks_share_the_saw(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every task has the plan's kerf and end trim."""
    buying = buying_of(plan)
    kerf, trim = ticks(buying.kerf_mm), ticks(buying.end_trim_mm)
    for wanted, task in _tasks(plan):
        subject = f"{wanted.article}: task"
        if task.kerf != kerf:
            yield off_by(subject, "not the plan's kerf", task.kerf, kerf, TASK)
        for stock in task.stock:
            if stock.trim != trim:
                yield off_by(subject, "not the plan's end trim", stock.trim, trim, TASK)


def stock_is_spelt(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each stock length named twice, or named as another length."""
    for wanted, task in _tasks(plan):
        lengths = Counter(stock.length for stock in task.stock)
        for stock in task.stock:
            subject = f"{wanted.article}: stock {stock.name}"
            yield from same_count(subject, "lengths alike", lengths[stock.length], 1, TASK)
            if ticks(_as_mm(stock.name)) != stock.length:
                message = "its name is another length"
                yield off_by(subject, message, ticks(_as_mm(stock.name)), stock.length, TASK)
            if stock.price < 0 or stock.length <= 0 or (stock.limit or 0) < 0:
                message = "price, length or limit below nothing"
                yield Flaw(subject=subject, message=message, source=TASK)


def _as_mm(name: str) -> float:
    try:
        return float(name.removesuffix("mm").strip())
    except ValueError:
        return 0.0


def fixed_pieces_are_wanted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless fixed pieces and lines of a task come to the plan's own cut list."""
    laid = () if plan.laying is None else plan.laying.pieces
    jointed = {piece.mark for piece in laid if piece.from_member or piece.to_member}
    for wanted, task in _tasks(plan):
        fixed = Counter({piece.length: 0 for piece in task.pieces})
        for piece in task.pieces:
            fixed[piece.length] += piece.count
        cut = Counter(
            length
            for mark, length in wanted.pieces
            if not (_in_a_line(mark, wanted, task) if plan.laying is None else mark in jointed)
        )
        if plan.laying is not None and wanted.name == "boards":
            cut.subtract(_whole_lines(plan.laying, task))
        for length in {**fixed, **cut}:
            message = "fixed pieces of one length in the task"
            subject = f"{wanted.article}: {length / 320:g} mm"
            yield from same_count(subject, message, fixed[length], cut[length], TASK)


def _whole_lines(laying: Laying, task: TaskShape) -> Iterator[int]:
    """Yield how long each line is that is told to have no joint: its row might have had some."""
    for line, rows in zip(task.lines, laying.stations_met, strict=False):
        yield from (line.end - line.start for row in rows if not row)


def _in_a_line(mark: str, wanted: Wanted, task: TaskShape) -> bool:
    """Whether a piece comes from a jointed line of the task, not from its fixed pieces."""
    if not task.lines:
        return False
    return wanted.name in {"boards", "border boards"} or mark.startswith("R")


def board_lines(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the boards' task is this plan's rows, the border's its two sets."""
    surface, pieces = surface_of(plan), pieces_of(plan)
    task = need(wanted_boards(plan).purchase, "purchase of boards").proof.task
    yield from _row_sets(plan, "boards", task, pieces, [len(field_rows(surface))])
    for wanted in wanted_border(plan):
        task = need(wanted.purchase, "purchase of border boards").proof.task
        sets = [surface.border.rows if surface.border else 0] * 2
        joints = need(pieces.border, "joints of the border")
        yield from _row_sets(plan, wanted.name, task, joints, sets)


def _row_sets(
    plan: Plan, what: str, task: TaskShape, limits: Set, counts: list[int]
) -> Iterator[Flaw]:
    """Yield a flaw unless a task has a set of lines for each count of rows, by these limits."""
    yield from same_count(f"{what}: task", "sets of lines", len(task.lines), len(counts), TASK)
    outer = ticks(pieces_of(plan).trim_allowance_mm)
    for line, count in zip(task.lines, counts, strict=False):
        wanted = {
            "count": count,
            "start": -outer,
            "end": ticks(surface_of(plan).row_length_mm) + outer,
            "joint_gap": ticks(limits.end_gap_mm),
            "least_bays": 0 if paired(plan) else _bays_of_a_piece(plan, line, limits),
            "stagger": min(limits.stagger_bays, 1) if paired(plan) else limits.stagger_bays,
            "most_joints": pieces_of(plan).most_joints_per_row,
            "first_station": 0,
        }
        yield from _same_line(what, line, wanted)
        yield from _same_stations(what, line, list(joint_lines(plan).values()))


def _bays_of_a_piece(plan: Plan, line: LineShape, limits: Set) -> int:
    """Return the fewest bays that hold a piece up, and none over so many of which is too short."""
    at, gap = line.stations, ticks(limits.end_gap_mm)
    row, least = ticks(surface_of(plan).row_length_mm), ticks(limits.least_piece_mm or 0)
    bays, most = limits.least_supports - 1, len(at) - 1
    while bays <= most:
        first, last = 2 * at[bays] - gap, 2 * (row - at[most - bays]) - gap
        inner = [
            2 * (at[near + bays] - at[near] - gap)
            for near in range(bays, most + 1)
            if near + bays <= most - bays
        ]
        # halves: an odd gap gives its spare 320th to the one side or the other
        if min(first + gap % 2, last - gap % 2, *inner) >= 2 * least:
            break
        bays += 1
    return bays


def _same_line(what: str, line: LineShape, wanted: dict[str, int | None]) -> Iterator[Flaw]:
    for name, value in wanted.items():
        found = getattr(line, name)
        if found != value:
            yield Flaw(
                subject=f"{what}: task {name}",
                message="the task is not this plan's",
                measured=found,
                limit=value,
                source=TASK,
            )


def _same_stations(what: str, line: LineShape, wanted_640: list[int]) -> Iterator[Flaw]:
    message = "stations where pieces may meet"
    yield from same_count(f"{what}: task", message, len(line.stations), len(wanted_640), TASK)
    for index, (station, wanted) in enumerate(zip(line.stations, wanted_640, strict=False)):
        if abs(2 * station - wanted) > 1:
            subject = f"{what}: task station {index}"
            yield off_by(subject, "not where pieces may meet", station, wanted / 2, TASK)


def rim_lines(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the frame's task has no lines but one set: this plan's own rims.

    Where bearers take their place there may be one, or none and no set of lines.
    """
    borne = {face.mark for face in bands(plan)}
    rims = [rim for rim in need(frame_of(plan).rims or None, "rims") if rim.mark not in borne]
    task = need(wanted_frame(plan).purchase, "purchase of frame timber").proof.task
    start = ticks(edges_of(plan).frame_start_mm)
    middles = [2 * middle for middle in middle_marks(plan)]
    for line in task.lines:
        wanted: dict[str, int | None] = {
            "count": len(rims),
            "start": start,
            "end": start + ticks(edges_of(plan).frame_length_mm),
            "joint_gap": 0,
            "least_bays": 1,
            "stagger": 0,
            "most_joints": fewest_joints(line, arcs_of(line, longest_piece(task)), cap=None),
            "first_station": 0,
        }
        yield from _same_line("rims", line, wanted)
        yield from _same_stations("rims", line, middles)
    sets = max(len(task.lines), 1) if rims else len(task.lines)
    yield from same_count("rims: task", "sets of lines", sets, int(bool(rims)), TASK)


def no_lines_elsewhere(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where fascia or fabric is proven as if it could be jointed anywhere."""
    for wanted, task in _tasks(plan):
        timbers = {"frame"} if plan.laying is not None else set()
        if wanted.name in {"fascia", "fabric", *STANDING} | timbers:
            subject = f"{wanted.name}: task"
            yield from same_count(subject, "sets of lines", len(task.lines), 0, TASK)


def sets_lie_beside_one_another(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where sets are told beside one another: a plan's rows, or rims, are one set."""
    for wanted, task in _tasks(plan):
        if plan.laying is not None and wanted.name == "boards":
            continue  # rows on an outline are many sets, see outlined_tasks
        message = "pairs of sets beside one another"
        yield from same_count(f"{wanted.article}: task", message, len(task.beside), 0, TASK)


def joints_have_the_plans_price(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the boards' task prices joints as the plan does, and no other does."""
    laid = any(part is not None for part in (plan.tiling, plan.laying, plan.tiles))
    pieces = None if laid else pieces_of(plan)
    prices = {"boards": pieces.joint_price} if pieces is not None else {}
    if plan.laying is not None:
        prices["boards"] = plan.laying.joint_price
    if pieces is not None and pieces.border is not None:
        prices["border boards"] = pieces.border.joint_price
    for wanted, task in _tasks(plan):
        purchase, price = need(wanted.purchase, "purchase"), prices.get(wanted.name)
        told = 0 if price is None else in_minor(price, digits_of(purchase))
        idle = plan.laying is not None and not task.lines and task.joint_price == 0
        if task.joint_price != told and not idle:
            yield Flaw(
                subject=f"{wanted.article}: task joint price",
                message="not the plan's joint price",
                measured=task.joint_price,
                limit=told,
                unit="minor units",
                source=TASK,
            )


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-801", "tasks have the plan's kerf and end trim", tasks_share_the_saw),
    ("AUD-802", "stock in a task is named by its length", stock_is_spelt),
    ("AUD-803", "fixed pieces of a task are the plan's cut list", fixed_pieces_are_wanted),
    ("AUD-804", "the boards' task is this plan's rows and lines", board_lines),
    ("AUD-805", "the frame's task is this plan's rims", rim_lines),
    ("AUD-806", "fascia and fabric are proven as they are cut", no_lines_elsewhere),
    ("AUD-807", "joints are priced in the proof as in the plan", joints_have_the_plans_price),
    ("AUD-808", "sets of lines lie beside one another as rows do", sets_lie_beside_one_another),
)
