"""Tiny tasks with sets of lines beside one another, and certificates made up for them."""

from random import Random

from cutting.brute import ways_of
from drylay.cutting.model import Beside, Line, Piece, Stock, Task, WindowPrice, WorthVector


def tiny_sets(rng: Random) -> Task:
    """Return up to three sets of lines, most of them beside one another, four lines in all."""
    pitch = rng.choice([40, 45, 50])
    counts = rng.choice([(2,), (3,), (4,), (1, 1), (2, 1), (1, 2), (2, 2), (1, 1, 1), (1, 2, 1)])
    lines = tuple(tiny_line(rng, count, pitch, sum(counts)) for count in counts)
    pairs = [(0, 1), (1, 2), (0, 2), (1, 0)]
    pairs = [(a, b) for a, b in pairs if max(a, b) < len(counts) and rng.random() < 0.7]
    return Task(
        stock=tuple(tiny_stock(rng, i) for i in range(rng.randint(1, 3))),
        kerf=rng.choice([0, 2, 3]),
        pieces=tuple(Piece(length=rng.randint(10, 90), count=1) for _ in range(rng.randint(0, 1))),
        lines=lines,
        beside=tuple(Beside(one=a, other=b) for a, b in pairs),
        joint_price=rng.choice([0, 0, 5, 20]),
    )


def tiny_line(rng: Random, count: int, pitch: int, in_all: int) -> Line:
    caps = {2: [None, 1, 2], 3: [1, 1, 2], 4: [1]}  # more pieces take brute force too long
    bays, first = rng.randint(2, 4), rng.randint(0, 2)
    stations = tuple(2 + pitch * (first + j) for j in range(bays + 1))
    return Line(
        count=count,
        start=stations[0] - 2,
        end=stations[-1] + 2,
        stations=stations,
        joint_gap=rng.choice([0, 1, 2]),
        least_bays=rng.randint(0, 2),
        stagger=rng.randint(0, 3),
        most_joints=rng.choice(caps[in_all]),
        first_station=first,
    )


def tiny_stock(rng: Random, i: int) -> Stock:
    length = rng.choice([90, 120, 150, 180, 210])
    return Stock(
        name=f"S{i}",
        length=length,
        price=rng.choice([0, 1, 1, 1, 1]) * (length * rng.randint(8, 12) // 10 + rng.randint(0, 9)),
        trim=rng.choice([0, 0, 2]),
        limit=rng.choice([None, None, None, 0, 1, 3]),
    )


def made_up_vector(rng: Random, task: Task) -> WorthVector:
    """Return worths near what boards cost, and windows of any sort, many of which hold nothing."""
    lengths = {piece.length for piece in task.pieces}
    lengths |= {n for line in task.lines for _, pieces in ways_of(line) for n in pieces}
    chosen = sorted(n for n in lengths if rng.random() < 0.9)
    scale, rate = rng.choice([1, 2, 7, 10**12]), rng.choice([0.6, 0.8, 0.9, 1.0, 1.1])
    return WorthVector(
        scale=scale,
        lengths=tuple(chosen),
        worths=tuple(int(n * scale * rate * rng.uniform(0.85, 1.1)) for n in chosen),
        windows=tuple(made_up_window(rng, task, scale) for _ in range(rng.randint(0, 3))),
    )


def made_up_window(rng: Random, task: Task, scale: int) -> WindowPrice:
    pairs = [(pair.one, pair.other) for pair in task.beside]
    pairs += [(s, s) for s, line in enumerate(task.lines) if line.count > 1]
    anything = (rng.randrange(len(task.lines)), rng.randrange(len(task.lines)))
    line, beside = rng.choice(pairs) if pairs and rng.random() < 0.9 else anything
    numbers = [task.lines[k].first_station + 1 for k in (line, beside)]
    near = max(numbers) + rng.choice([0, 0, 0, 1])
    return WindowPrice(
        line=line,
        first=near - numbers[0] + 1,
        width=rng.choice([1, 1, 1, 2]),
        beside=beside,
        beside_first=near - numbers[1] + 1 + rng.choice([-1, 0, 0, 0, 1]),
        beside_width=rng.choice([1, 1, 1, 2]),
        price=rng.randint(0, 30) * scale,
    )
