"""A cutting task made ready for the engine: distinct lengths, spaces, the pieces of lines."""

from collections import Counter
from collections.abc import Mapping
from itertools import pairwise
from math import gcd
from types import MappingProxyType

from attrs import frozen

from drylay.cutting.errors import CutTaskError, NoPlan, Shortfall
from drylay.cutting.lanes import EACH, Lane, Near, lanes_near, lanes_of, useful_pieces
from drylay.cutting.model import Stock, Task
from drylay.cutting.verify import fewest_joints, room
from drylay.errors import Fault

GREATEST = 10**15  # what the solver's numbers hold exactly, with room for a share of it
NOTHING: Mapping[int, int] = MappingProxyType({})


@frozen(kw_only=True)
class Board:
    """A stock that can be used: its place in the task, the space it has, its price."""

    stock: int
    space: int
    price: int
    limit: int | None


@frozen(kw_only=True)
class Ready:
    """A task made ready: `lengths` longest first, `sizes` and spaces counted in `unit`.

    Of each length so many are `wanted` in any case, and no plan has more than the `most`.
    """

    task: Task
    unit: int
    lengths: tuple[int, ...]
    sizes: tuple[int, ...]
    wanted: tuple[int, ...]
    most: tuple[int, ...]
    boards: tuple[Board, ...]
    lanes: tuple[Lane, ...]
    near: Near
    fewest_joints: int
    each: frozenset[int] = frozenset()  # sets in which every line has been parted from the others


def make_ready(task: Task, parted: Mapping[int, int] = NOTHING) -> Ready:
    """Return a task made ready; `parted` tells of sets whose lines are apart from a place on.

    Raises:
        CutTaskError: the task makes no sense; every reason is listed.
        NoPlan: a piece is longer than every board, or a line cannot be made.
    """
    _check(task)
    usable = [s for s in task.stock if s.limit != 0 and s.length > 2 * s.trim]
    longest = max((s.length - 2 * s.trim for s in usable), default=0)
    fewest = [fewest_joints(line, longest) if line.count else 0 for line in task.lines]
    _refuse(task, longest, fewest)
    lengths = _lengths(task, longest)
    unit = gcd(*(length + task.kerf for length in lengths)) or 1
    index = {length: i for i, length in enumerate(lengths)}
    wanted = _wanted(task, index)
    sets = range(len(task.lines))
    lanes = tuple(
        lane for i in sets for lane in lanes_of(task, i, longest, index, parted.get(i, 0))
    )
    return Ready(
        task=task,
        unit=unit,
        lengths=lengths,
        sizes=tuple((length + task.kerf) // unit for length in lengths),
        wanted=wanted,
        most=_most(task, wanted, lengths, lanes),
        boards=tuple(
            Board(stock=i, space=room(s, task.kerf) // unit, price=s.price, limit=s.limit)
            for i, s in sorted(enumerate(task.stock), key=lambda item: _rank(item[1]))
            if s in usable
        ),
        lanes=lanes,
        near=lanes_near(task, lanes),
        fewest_joints=sum(
            line.count * (joints or 0) for line, joints in zip(task.lines, fewest, strict=True)
        ),
        each=frozenset(index for index, place in parted.items() if place == EACH),
    )


def _wanted(task: Task, index: dict[int, int]) -> tuple[int, ...]:
    """Return how many fixed pieces there are of each length."""
    wanted = [0] * len(index)
    for piece in task.pieces:
        if piece.count:
            wanted[index[piece.length]] += piece.count
    return tuple(wanted)


def _most(
    task: Task, wanted: tuple[int, ...], lengths: tuple[int, ...], lanes: tuple[Lane, ...]
) -> tuple[int, ...]:
    """Return how many pieces of each length a plan can have: as many as lines can hold.

    A line holds what lies between two stations once, and one piece more than it has joints.
    Too high a count brings in question fillings that no plan has, in such numbers that the
    search for plans gives up.
    """
    most = list(wanted)
    for lane in lanes:
        line = task.lines[lane.line]
        pieces = len(line.stations) + 1 if line.most_joints is None else line.most_joints + 1
        for length, places in Counter(arc.length for arc in lane.arcs).items():
            fits = (line.end - line.start) // lengths[length]
            most[length] += lane.count * min(fits, places, pieces)
    return tuple(most)


def _rank(stock: Stock) -> tuple[int, int, int, str]:
    """Return what boards are put in order by, so that their order in the task does not count."""
    return stock.length, stock.trim, stock.price, stock.name


def _lengths(task: Task, longest: int) -> tuple[int, ...]:
    found = {piece.length for piece in task.pieces if piece.count}
    for line in task.lines:
        if line.count:
            found |= {length for _, _, length in useful_pieces(line, longest)}
    return tuple(sorted(found, reverse=True))


def _refuse(task: Task, longest: int, fewest: list[int | None]) -> None:
    shortfalls = [
        Shortfall(kind="piece too long", length=length, longest=longest)
        for length in sorted({p.length for p in task.pieces if p.count and p.length > longest})
    ]
    shortfalls += [
        Shortfall(kind="line cannot be made", line=i, longest=longest)
        for i, joints in enumerate(fewest)
        if joints is None
    ]
    if shortfalls:
        raise NoPlan(tuple(shortfalls), proven=True)


def _check(task: Task) -> None:
    faults = []
    for where, value, least in _figures(task):
        if type(value) is not int:
            faults.append(Fault(path=where, found=repr(value), wanted="a whole number"))
        elif value < least:
            faults.append(Fault(path=where, found=str(value), wanted=f"{least} or more"))
        elif value > GREATEST:
            found = f"a number of {value.bit_length()} bits"
            faults.append(Fault(path=where, found=found, wanted=f"{GREATEST} or less"))
    names = [stock.name for stock in task.stock]
    if len(set(names)) != len(names):
        faults.append(Fault(path="stock", found="a name used twice", wanted="unlike names"))
    for i, line in enumerate(task.lines):
        order = (line.start, *line.stations, line.end)
        if any(type(at) is not int for at in order):
            wanted = "a start, stations and an end in whole numbers"
            faults.append(Fault(path=f"lines[{i}]", found=str(order), wanted=wanted))
            continue
        twice = len(set(line.stations)) < len(line.stations)
        if twice or any(a > b for a, b in pairwise(order)):
            faults.append(
                Fault(path=f"lines[{i}]", found="stations out of order", wanted="start to end")
            )
    faults += _beside_faults(task)
    if faults:
        raise CutTaskError(tuple(faults))


def _beside_faults(task: Task) -> list[Fault]:
    """Return what makes no sense of sets told to lie beside one another."""
    sets, faults = range(len(task.lines)), []
    pairs = [(pair.one, pair.other) for pair in task.beside]
    for i, (one, other) in enumerate(pairs):
        if one not in sets or other not in sets or one == other:
            wanted = f"two sets of lines of {len(sets)}, counted from 0"
        elif (one, other) in pairs[:i]:
            wanted = "each pair once"
        else:
            continue
        faults.append(Fault(path=f"beside[{i}]", found=f"{one} and {other}", wanted=wanted))
    return faults


def _or_none(limit: int | None) -> int:
    return 0 if limit is None else limit


def _figures(task: Task) -> list[tuple[str, int, int]]:
    """Return every figure of a task with its place and the least it may be."""
    figures = [("kerf", task.kerf, 0), ("joint_price", task.joint_price, 0)]
    for i, stock in enumerate(task.stock):
        place = f"stock[{i}]"
        figures += [(f"{place}.length", stock.length, 1), (f"{place}.price", stock.price, 0)]
        figures += [(f"{place}.trim", stock.trim, 0), (f"{place}.limit", _or_none(stock.limit), 0)]
    for i, piece in enumerate(task.pieces):
        figures += [(f"pieces[{i}].length", piece.length, 1)]
        figures += [(f"pieces[{i}].count", piece.count, 0)]
    for i, line in enumerate(task.lines):
        place = f"lines[{i}]"
        figures += [(f"{place}.count", line.count, 0)]
        if type(line.end) is type(line.start) is int:
            figures += [(f"{place}.length", line.end - line.start, 1)]
        figures += [(f"{place}.joint_gap", line.joint_gap, 0)]
        figures += [(f"{place}.least_bays", line.least_bays, 0)]
        figures += [(f"{place}.stagger", line.stagger, 0)]
        figures += [(f"{place}.most_joints", _or_none(line.most_joints), 0)]
        figures += [(f"{place}.first_station", line.first_station, 0)]
    return figures
