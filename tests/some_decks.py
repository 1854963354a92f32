"""Random valid briefs with a random stock to plan them from, by seed."""

import random
from decimal import Decimal

from drylay.brief.codec import brief_to_dict
from drylay.brief.model import (
    WAYS_OUT,
    BoardWish,
    Brief,
    CoverWish,
    CuttingWish,
    FasciaWish,
    FixingsWish,
    FrameWish,
    GapWish,
    JointsWish,
    RowsWish,
)
from drylay.brief.reader import read_brief
from drylay.materials.stock_model import (
    Board,
    Catalogue,
    CoachScrew,
    FasciaBoard,
    Pack,
    Screw,
    StockLength,
    Timber,
)

SIDES = ("house", "right", "front", "left")


def some_lengths(dice: random.Random, low: int, high: int) -> tuple[StockLength, ...]:
    """Stock lengths in steps of 300, priced roughly by the metre; now and then one is short."""
    steps = range(low // 300, high // 300 + 1)
    chosen = sorted(dice.sample(steps, dice.randint(1, min(5, len(steps)))))
    rate = dice.uniform(1.5, 6.0)
    lengths = []
    for at in chosen:
        metres = at * 0.3
        price = Decimal(round(metres * rate * dice.uniform(0.95, 1.1) * 20)) / 20
        short = dice.random() < 0.15 and at != chosen[-1]
        lengths.append(
            StockLength(
                length_mm=at * 300.0,
                price=price.quantize(Decimal("0.01")),
                limit=dice.randint(0, 6) if short else None,
            )
        )
    return tuple(lengths)


def some_packs(dice: random.Random) -> tuple[Pack, ...]:
    sizes = dice.sample([10, 25, 50, 100, 200, 500], dice.randint(1, 3))
    return tuple(
        Pack(count=size, price=Decimal(round(size * dice.uniform(8, 14))).scaleb(-2) + 1)
        for size in sorted(sizes)
    )


def some_stock(dice: random.Random) -> Catalogue:
    thick = dice.choice([28.0, 33.0])
    joist = dice.choice([38.0, 45.0, 47.0])
    return Catalogue(
        name="Random stock",
        currency="EUR",
        vat="included",
        boards=(
            Board(
                code="DB", title="deck board", family="softwood", thickness_mm=thick,
                width_mm=dice.choice([95.0, 120.0, 144.0, 145.0]),
                lengths=some_lengths(dice, 1_800, 6_000), treatment="use class 3",
            ),
        ),
        timbers=(
            Timber(
                code="FT", title="frame timber", thickness_mm=joist, depth_mm=145.0,
                lengths=(
                    *some_lengths(dice, 1_800, 5_700),
                    StockLength(length_mm=6_000.0, price=Decimal("31.20")),
                ),
            ),
        ),
        fascias=(
            FasciaBoard(
                code="FA", title="fascia", thickness_mm=dice.choice([20.0, 28.0]),
                depth_mm=145.0, lengths=some_lengths(dice, 2_400, 5_400),
            ),
        ),
        screws=(
            Screw(code="DS", title="deck screw", shank_mm=5.0, length_mm=90.0,
                  metal="stainless A2", packs=some_packs(dice)),
        ),
        coach_screws=(
            CoachScrew(code="CS", title="coach screw", shank_mm=8.0, length_mm=140.0,
                       head_mm=8.0, metal="hot-dip galvanised", packs=some_packs(dice)),
        ),
    )  # fmt: skip


def some_brief(dice: random.Random, stock: Catalogue, *, most_mm: int = 9_000) -> Brief:
    run = dice.choice(["along", "across"])
    small = dice.random() < 0.1
    row_mm = dice.randint(120, 1_200) if small else dice.randint(1_200, most_mm)
    rows_mm = dice.randint(120, 700) if small else dice.randint(700, 5_400)
    along, across = (row_mm, rows_mm) if run == "along" else (rows_mm, row_mm)
    trim = dice.random() < 0.2
    sides = tuple(side for side in SIDES if dice.random() < 0.4)
    board = stock.boards[0]
    tight = dice.random() < 0.3
    prefer = list(WAYS_OUT)
    dice.shuffle(prefer)
    return Brief(
        title=f"Deck {dice.randint(1, 9_999)}",
        cover=CoverWish(
            along_mm=float(along),
            across_mm=across + dice.choice([0.0, 0.5, 0.3]),
            grow_along_mm=float(dice.choice([0, 0, 60])),
            shrink_along_mm=0.0 if small else float(dice.choice([0, 0, 60])),
            grow_across_mm=float(dice.choice([0, 0, 80])),
            shrink_across_mm=0.0 if small else float(dice.choice([0, 0, 80])),
        ),
        board=BoardWish(
            article="DB", run=run, may_turn=dice.random() < 0.2,
            measured_width_mm=dice.choice([None, None, board.width_mm + 0.4]),
            ends="trim_in_line" if trim else "cut_first",
            trim_allowance_mm=15.0 if trim else None,
        ),
        frame=FrameWish(article="FT", most_centres_mm=dice.choice([None, 400.0, 350.0])),
        fixings=FixingsWish(screw="DS", coach_screw="CS"),
        gap=GapWish(preferred_mm=6.0, least_mm=5.5, most_mm=6.5) if tight else GapWish(),
        rows=RowsWish(prefer=tuple(prefer) if dice.random() < 0.3 else WAYS_OUT,
                      may_rip=dice.random() < 0.8),
        fascia=FasciaWish(sides=sides, article="FA" if sides else None),
        joints=JointsWish(
            end_gap_mm=dice.choice([None, 3.0, 5.0]),
            stagger_bays=dice.choice([None, None, 3]),
            most_per_row=dice.choice([None, None, 3]),
            price_each=dice.choice([None, Decimal("0.00"), Decimal("1.50")]),
        ),
        cutting=CuttingWish(kerf_mm=dice.choice([0.0, 2.0, 3.0, 4.0]),
                            end_trim_mm=dice.choice([0.0, 0.0, 10.0])),
    )  # fmt: skip


def some_case(seed: int, *, most_mm: int = 9_000) -> tuple[Brief, Catalogue]:
    """A brief and its stock; the brief has been through the reader, so it is a valid one."""
    dice = random.Random(seed)
    stock = some_stock(dice)
    return read_brief(brief_to_dict(some_brief(dice, stock, most_mm=most_mm))), stock
