"""Decks so tiny that every sequence of lines and every way of cutting can be gone through."""

from collections.abc import Callable, Iterator
from itertools import count, islice
from random import Random

from cutting.brute import least_cost
from cutting.rules import assert_keeps_the_rules
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import Beside, CutPlan, Line, Piece, Stock, Task
from drylay.cutting.verify import verify

FEW_PIECES = 16  # going through all cuttings of more takes too long


def tiny_decks(many: int, first_seed: int = 0) -> Iterator[tuple[int, Task]]:
    """Yield so many tiny decks with their seeds, from the first seed on."""
    made = ((seed, tiny(seed)) for seed in count(first_seed))
    return islice(((s, task) for s, task in made if most_pieces(task) <= FEW_PIECES), many)


def tiny(seed: int) -> Task:
    """Return a tiny deck: by turns one set of lines, sets beside one another, parted lines."""
    make = (one_set, several_sets, parted_sets, several_sets)[seed % 4]
    return make(Random(f"tiny {seed}"))


def stock(rng: Random, i: int) -> Stock:
    """Return a length on sale: some are limited, some sold out, some stand in the shed."""
    length = rng.choice([90, 120, 150, 180, 210, 240, 300])
    shed = rng.random() < 0.15
    return Stock(
        name=f"S{i}",
        length=length,
        price=0 if shed else length * rng.randint(8, 12) // 10 + rng.randint(0, 9),
        trim=rng.choice([0, 0, 2]),
        limit=rng.randint(1, 2) if shed else rng.choice([None, None, None, None, 0, 1, 2, 4]),
    )


def task(rng: Random, lines: tuple[Line, ...], beside: tuple[Beside, ...]) -> Task:
    """Return a task with some stock, at times a fixed piece."""
    count = rng.randint(0, 1) if lines else 3
    most = 1 if lines else 3
    lengths = [rng.randint(10, 120) for _ in range(count)]
    return Task(
        stock=tuple(stock(rng, i) for i in range(rng.randint(1, 4))),
        kerf=rng.choice([0, 2, 3]),
        pieces=tuple(Piece(length=n, count=rng.randint(1, most)) for n in lengths),
        lines=lines,
        beside=beside,
        joint_price=rng.choice([0, 5, 20]),
    )


def loose_pieces(rng: Random) -> Task:
    return task(rng, (), ())


def one_set(rng: Random) -> Task:
    bays = rng.randint(3, 6)
    stations = (*_grid(rng, bays),)
    least = rng.randint(1, 2)
    most = {3: 5, 4: 5, 5: 3, 6: 2}[bays]
    line = _line(rng, stations, first=0, least=least, count=rng.randint(1, most))
    return task(rng, (line,), ())


def several_sets(rng: Random) -> Task:
    """Return sets that lie one after another, as the rows of an L, of steps or of a slope."""
    grid = (*_grid(rng, rng.randint(4, 6)),)
    least = rng.randint(1, 2)
    lines = []
    for _ in range(rng.randint(2, 3)):
        first = rng.randint(0, 1)
        last = rng.randint(first + 2, len(grid) - 1)
        ends = grid[first] - rng.randint(0, 9), grid[last] + rng.randint(0, 9)
        stations = (ends[0], *grid[first + 1 : last], ends[1])
        count = rng.choice([1, 1, 2, 3])
        lines.append(_line(rng, stations, first=first, least=least, count=count))
    beside = tuple(Beside(one=i, other=i + 1) for i in range(len(lines) - 1))
    return task(rng, tuple(lines), beside)


def parted_sets(rng: Random) -> Task:
    """Return a line, one in two parts beside an opening, and perhaps a line after it."""
    grid = (*_grid(rng, 6),)
    least = rng.randint(1, 2)
    spans = [(0, 6), (0, 3), (4, 6), (0, 6)][: rng.randint(3, 4)]
    lines = [
        _line(rng, grid[first : last + 1], first=first, least=least, count=1)
        for first, last in spans
    ]
    pairs = [(0, 1), (0, 2), (1, 3), (2, 3)]
    beside = tuple(Beside(one=a, other=b) for a, b in pairs if b < len(lines))
    return task(rng, tuple(lines), beside)


def _grid(rng: Random, bays: int) -> range:
    pitch = rng.choice([40, 45, 50])
    return range(2, 3 + pitch * bays, pitch)


def _line(rng: Random, stations: tuple[int, ...], *, first: int, least: int, count: int) -> Line:
    return Line(
        count=count,
        start=stations[0] - rng.choice([0, 2]),
        end=stations[-1] + rng.choice([0, 2]),
        stations=stations,
        joint_gap=rng.choice([0, 1, 2, 3]),
        least_bays=least,
        stagger=rng.choice([0, 1, 1, 2, 2, 3]),
        most_joints=rng.choice([None, None, 1, 2]),
        first_station=first,
    )


def most_pieces(task: Task) -> int:
    """Return how many pieces a task may come to."""
    total = sum(piece.count for piece in task.pieces)
    for line in task.lines:
        most = (len(line.stations) - 1) // max(1, line.least_bays)
        capped = most if line.most_joints is None else min(most, line.most_joints + 1)
        total += line.count * max(1, capped)
    return total


def wrong_with(task: Task, solve: Callable[..., CutPlan] = solve) -> str:
    """Return what is wrong with what the cutter makes of a tiny task, "" if nothing is."""
    least = least_cost(task)
    return _wrong_in_mode(task, least, "proven", solve) or _wrong_in_mode(
        task, least, "quick", solve
    )


def _wrong_in_mode(task: Task, least: int | None, mode: str, solve: Callable[..., CutPlan]) -> str:
    try:
        plan = solve(task, mode=mode)
    except NoPlan as none:
        return "" if least is None else f"{mode}: no plan ({none}), but there is one at {least}"
    if least is None:
        return f"{mode}: a plan at {plan.objective}, but there is none"
    try:
        assert_keeps_the_rules(task, plan)
    except AssertionError as error:
        return f"{mode}: the plan breaks a rule: {error}"
    verdict = verify(plan.proof)
    if not verdict.holds or verdict.bound < plan.bound:
        return f"{mode}: the proof does not hold: {verdict.why}"
    if plan.bound > least:
        return f"{mode}: a bound of {plan.bound}, but there is a plan at {least}"
    if plan.objective < least or (mode == "proven" and plan.objective > least):
        return f"{mode}: a plan at {plan.objective}, but the least is {least}"
    return ""


def traits(task: Task, plan: CutPlan | None) -> Iterator[str]:
    """Yield what is notable about a task and its plan, so that a campaign tells what it met."""
    lines = task.lines
    told = {
        "several sets": len(lines) > 1,
        "three lines or more side by side": any(line.count > 2 for line in lines),
        "a stagger larger than the least bays": any(n.stagger > n.least_bays for n in lines),
        "a cap of joints": any(line.most_joints is not None for line in lines),
        "a limited length": any(s.limit is not None for s in task.stock),
        "a length at no price": any(s.price == 0 for s in task.stock),
        "a fixed piece": bool(task.pieces),
        "no plan": plan is None,
        "joints in the plan": plan is not None and plan.joint_count > 0,
        "proven": plan is not None and plan.gap == 0,
    }
    return (name for name, holds in told.items() if holds)
