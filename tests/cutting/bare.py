"""One set of lines, or pieces alone, with few boards: what tests bend to their own ends."""

from random import Random

from drylay.cutting.model import Line, Piece, Stock, Task


def tiny_deck(rng: Random) -> Task:
    bays, pitch = rng.randint(3, 6), rng.choice([40, 45, 50])
    stations = tuple(2 + pitch * j for j in range(bays + 1))
    line = Line(
        count=rng.randint(1, 3),
        start=0,
        end=stations[-1] + 2,
        stations=stations,
        joint_gap=rng.choice([0, 1, 2, 3]),
        least_bays=rng.randint(1, 2),
        stagger=rng.randint(0, 3),
        most_joints=rng.choice([None, 1, 2]),
    )
    return Task(
        stock=tuple(tiny_stock(rng, i) for i in range(rng.randint(1, 3))),
        kerf=rng.choice([0, 2, 3]),
        pieces=tuple(Piece(length=rng.randint(10, 120), count=1) for _ in range(rng.randint(0, 1))),
        lines=(line,),
        joint_price=rng.choice([0, 5, 20]),
    )


def tiny_stock(rng: Random, i: int) -> Stock:
    length = rng.choice([90, 120, 150, 180, 210, 240, 300])
    return Stock(
        name=f"S{i}",
        length=length,
        price=length * rng.randint(8, 12) // 10 + rng.randint(0, 9),
        trim=rng.choice([0, 0, 2]),
        limit=rng.choice([None, None, None, 0, 1, 3]),
    )


def tiny_cuts(rng: Random) -> Task:
    return Task(
        stock=tuple(tiny_stock(rng, i) for i in range(rng.randint(1, 3))),
        kerf=rng.choice([0, 3]),
        pieces=tuple(
            Piece(length=rng.randint(20, 130), count=rng.randint(1, 3)) for _ in range(3)
        ),
    )  # fmt: skip
