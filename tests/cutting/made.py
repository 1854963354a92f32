"""Cutting jobs made up with fixed seeds: pieces of frames, decks of rows on joists.

Each kind takes a seed and returns a `Job`; the same seed is the same job. Sizes, prices and
shapes follow what the open files in `tests/reference/cutting` hold: lengths in 0.1 mm, money
in cents. Everything here has a plan: the longest length is on sale without limit.
"""

import json
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

from cutting.jobs import Job, job_of

METRIC = (24000, 30000, 36000, 42000, 48000, 54000)
FEET = (24384, 30480, 36576, 42672, 48768)
LONGER = {METRIC: (60000,), FEET: (54864, 60960)}  # where six or seven lengths are wanted
CENTRES = {METRIC: (3000, 4000, 4500, 5000, 6000), FEET: (3048, 4064, 4877, 6096)}
HALF_JOIST = 225
SHARES = ("flat", "near flat", "rising", "falling", "uneven")


# -- stock -------------------------------------------------------------------------------


def lengths_on_sale(rng: Random, ladder: tuple[int, ...], count: int) -> list[int]:
    """Return stock lengths, the longest (or one long enough for any joists) among them."""
    every = [*ladder, *LONGER[ladder][: max(0, count - len(ladder))]]
    long = [length for length in every if length >= 42000]
    longest = rng.choice(long[-2:])
    shorter = [length for length in every if length < longest]
    if len(shorter) < count - 1:
        longest, shorter = every[-1], every[:-1]
    return sorted([*rng.sample(shorter, min(count - 1, len(shorter))), longest])


def priced(rng: Random, lengths: list[int], shape: str) -> list[dict[str, Any]]:
    """Return lengths with prices: so much a metre, more or less so for longer ones."""
    per_metre, step = rng.uniform(280, 900), rng.choice([1, 1, 5, 10])
    if shape == "near flat":
        step = rng.choice([1, 1, 5])
    lean = {"rising": rng.uniform(0.01, 0.045), "falling": -rng.uniform(0.005, 0.02)}.get(shape, 0)
    blur = {"uneven": 0.05, "near flat": 0.002}.get(shape, 0)
    stocks = []
    for length in lengths:
        metres = length / 10_000
        rate = per_metre * (1 + lean * (metres - lengths[0] / 10_000) + rng.uniform(-blur, blur))
        cost = max(step, step * round(rate * metres / step))
        stocks.append({"length": length, "cost": cost, "available": None})
    return stocks


def leftovers(rng: Random, trim: int) -> list[dict[str, Any]]:
    """Return what stands in a shed: short, at no price."""
    lengths = sorted(rng.sample(range(900, 2200), rng.randint(1, 3)))
    return [
        {"length": 10 * n + 2 * trim, "cost": 0, "available": rng.randint(1, 3)} for n in lengths
    ]


def limit_one(rng: Random, stocks: list[dict[str, Any]]) -> None:
    """Limit a length that is not the longest."""
    rng.choice(stocks[:-1])["available"] = rng.randint(3, 20)


# -- pieces ------------------------------------------------------------------------------


def cut1d(seed: int) -> Job:
    """Return pieces of a frame, mixed ones, or a frame with limited and leftover lengths."""
    rng = Random(f"cut1d {seed}")
    kind = ("frame", "mixed", "frame-limited", "mixed")[seed % 4]
    return _pieces(rng, f"cut1d-{seed:04}-{kind}", kind, rng.choice(SHARES), rng.randint(3, 6))


def near_flat_pieces(seed: int) -> Job:
    """Return pieces with six or seven lengths on sale that cost nearly alike a metre."""
    rng = Random(f"near_flat_pieces {seed}")
    kind = rng.choice(["frame", "mixed"])
    return _pieces(rng, f"near-flat-pieces-{seed:04}", kind, "near flat", rng.randint(6, 7))


def _pieces(rng: Random, name: str, kind: str, shape: str, count: int) -> Job:
    trim = rng.choice([0, 0, 50, 100])
    ladder = rng.choice([METRIC, METRIC, FEET])
    stocks = priced(rng, lengths_on_sale(rng, ladder, count), shape)
    most = stocks[-1]["length"] - 2 * trim
    make = frame_pieces if kind.startswith("frame") else mixed_pieces
    pieces = _within(make(rng, most), most)
    if kind == "frame-limited":
        if rng.random() < 0.5:
            limit_one(rng, stocks)
        stocks += leftovers(rng, trim)
    return job_of(
        {
            "name": name,
            "kind": "cut1d",
            "kerf": rng.choice([20, 30, 30, 32]),
            "trim_per_end": trim,
            "stocks": stocks,
            "pieces": [{"length": n, "count": pieces[n]} for n in sorted(pieces, reverse=True)],
        }
    )


def frame_pieces(rng: Random, most: int) -> dict[int, int]:
    """Return what one to three frames take: rims, joists, blocks between, trimmers."""
    found: dict[int, int] = {}
    for _ in range(rng.randint(1, 3)):
        joists = rng.randint(8, 32)
        for length, count in (
            (10 * rng.randint(1200, most // 10), joists),
            (10 * rng.randint(3000, most // 10), 2),
            (10 * rng.randint(2500, most // 10), 2),
            (rng.choice([2500, 3000, 3500, 4000, 4550, 5500]), (joists - 1) * rng.randint(1, 2)),
            (10 * rng.randint(60, 500), 2),
        ):
            found[length] = found.get(length, 0) + count
    return found


def mixed_pieces(rng: Random, most: int) -> dict[int, int]:
    """Return joists of several fields, a slope of joists in even steps, blocks, odd ends."""
    found: dict[int, int] = {}
    for _ in range(rng.randint(1, 10)):
        found[10 * rng.randint(1200, most // 10)] = rng.randint(2, 20)
    for _ in range(rng.randint(1, 5)):
        found[rng.choice([2090, 2500, 3000, 3050, 3500, 4000, 5500, 6560])] = rng.randint(6, 48)
    if rng.random() < 0.5:
        length, step = 10 * rng.randint(2000, most // 10), 10 * rng.randint(60, 320)
        for _ in range(rng.randint(4, 18)):
            found[max(length, 600)] = 2
            length -= step
    for _ in range(rng.randint(0, 6)):
        found[10 * rng.randint(60, most // 10)] = rng.randint(1, 3)
    return found


def _within(pieces: dict[int, int], most: int) -> dict[int, int]:
    """Return at least 3 and at most 40 lengths, 29 to 400 pieces, none too long."""
    kept = dict(sorted((n, c) for n, c in pieces.items() if n <= most)[:40])
    while len(kept) < 3:
        kept[3000 + 500 * len(kept)] = 10
    while sum(kept.values()) > 400:
        kept = {n: max(1, 2 * c // 3) for n, c in kept.items()}
    if sum(kept.values()) < 29:
        kept[min(kept)] += 29 - sum(kept.values())
    return kept


def triplets(pieces: int, seed: int) -> Job:
    """Return pieces that fill bins of 1000 by threes without waste: the least is pieces / 3.

    After E. Falkenauer, A hybrid grouping genetic algorithm for bin packing, Journal of
    Heuristics 2 (1996): the first of three from 380 to 490, the second from 250 to half the
    rest, the third the rest. From memory of that paper.
    """
    rng = Random(f"triplets {pieces} {seed}")
    counts: dict[int, int] = {}
    for _ in range(pieces // 3):
        first = rng.randint(380, 490)
        second = rng.randint(250, (1000 - first) // 2)
        for length in (first, second, 1000 - first - second):
            counts[length] = counts.get(length, 0) + 1
    return job_of(
        {
            "name": f"t{pieces}-{seed:04}",
            "kind": "cut1d",
            "kerf": 0,
            "trim_per_end": 0,
            "stocks": [{"length": 1000, "cost": 1, "available": None}],
            "pieces": [{"length": n, "count": counts[n]} for n in sorted(counts, reverse=True)],
            "best_known": pieces // 3,
            "lower_bound": pieces // 3,
        }
    )


# -- rows --------------------------------------------------------------------------------

Rows = list[Any]


def rectangle(seed: int) -> Job:
    """Return a rectangle up to 12 x 8 m."""
    rng = Random(f"rectangle {seed}")
    shape, count = rng.choice(SHARES), rng.choice([2, 3, 3, 4, 4, 5, 5, 6])
    stagger = rng.choice([1, 1, 1, 1, 1, 2])
    return _rows(rng, f"rectangle-{seed:04}", _rectangle, shape=shape, count=count, stagger=stagger)


def near_flat(seed: int) -> Job:
    """Return a rectangle with six or seven lengths on sale that cost nearly alike a metre."""
    rng = Random(f"near_flat {seed}")
    count = rng.randint(6, 7)
    name = f"near-flat-{seed:04}"
    return _rows(rng, name, _rectangle, shape="near flat", count=count, stagger=rng.choice([1, 2]))


def limited(seed: int) -> Job:
    """Return a rectangle with a limited length and leftovers; some rows may be capped."""
    rng = Random(f"limited {seed}")
    name, count = f"limited-{seed:04}", rng.randint(3, 5)
    return _rows(
        rng, name, _rectangle, shape=rng.choice(SHARES), count=count, stagger=1, limits=True
    )


def shape(seed: int) -> Job:
    """Return rows of an L, a T, a U, a deck with an opening, steps or a slope, by turns."""
    rng = Random(f"shape {seed}")
    kinds = {"L": _ell, "T": _tee, "U": _you, "hole": _hole, "steps": _steps, "slope": _slope}
    name = list(kinds)[seed % len(kinds)]
    stagger = rng.choice([1, 2])
    prices, count = rng.choice(SHARES), rng.choice([2, 3, 4, 5])
    return _rows(
        rng, f"shape-{seed:04}-{name}", kinds[name], shape=prices, count=count, stagger=stagger
    )


def slope2(seed: int) -> Job:
    """Return a slope where every row differs, joints of neighbours two bays apart."""
    rng = Random(f"slope2 {seed}")
    prices, count = rng.choice(SHARES), rng.randint(3, 5)
    return _rows(rng, f"slope2-{seed:04}", _slope, shape=prices, count=count, stagger=2)


def many_classes(seed: int) -> Job:
    """Return six runs of unlike rows, or steps about an opening: about twelve kinds of row."""
    rng = Random(f"many_classes {seed}")
    make = (_six_steps, _stepped_hole)[seed % 2]
    prices, count = rng.choice(SHARES), rng.randint(3, 6)
    stagger = rng.choice([1, 2])
    return _rows(rng, f"many-{seed:04}", make, shape=prices, count=count, stagger=stagger)


def _rows(
    rng: Random,
    name: str,
    make: Callable[[Random, int], Rows | dict[str, int]],
    *,
    shape: str,
    count: int,
    stagger: int,
    limits: bool = False,
) -> Job:
    ladder = rng.choice([METRIC, METRIC, FEET])
    trim = rng.choice([0, 0, 50, 100])
    stocks = priced(rng, lengths_on_sale(rng, ladder, count), shape)
    long = stocks[-1]["length"] - 2 * trim
    centres = rng.choice([c for c in CENTRES[ladder] if 7 * c <= long])
    width = 5000 * rng.randint(9, 24) if rng.random() < 0.8 else 1000 * rng.randint(42, 120)
    rows = make(rng, width)
    document = {
        "name": name,
        "kind": "joint",
        "kerf": 30,
        "trim_per_end": trim,
        "stocks": stocks,
        "rows": rows,
        "joist_centres": joists(_width(rows), centres),
        "joint_gap": rng.choice([0, 0, 30]),
        "min_bays_per_piece": 2,
        "stagger_bays": stagger,
        "min_edge_to_joist": 1500,
        "joint_cost": rng.choice([0, 50, 50, 100, 100, 200]),
    }
    if limits:
        limit_one(rng, stocks)
        document["stocks"] = [*stocks, *leftovers(rng, trim)]
        document["most_joints_per_row"] = rng.choice([None, -(-width // (long - 2 * centres))])
    return job_of(document)


def _width(rows: Rows | dict[str, int]) -> int:
    if isinstance(rows, dict):
        return rows["x1"]
    return max(row[-1] if isinstance(row[-1], int) else row[-1][-1] for row in rows)


def joists(width: int, centres: int) -> list[int]:
    """Return joists at even centres from one end, and one at the other end."""
    last = width - HALF_JOIST
    return [*range(HALF_JOIST, last - 2 * HALF_JOIST + 1, centres), last]


def _rectangle(rng: Random, width: int) -> dict[str, int]:
    return {"count": rng.randint(15, 55), "x0": 0, "x1": width}


def _ell(rng: Random, width: int) -> Rows:
    short = _part(rng, width)
    return [[0, width]] * rng.randint(8, 24) + [[0, short]] * rng.randint(8, 20)


def _tee(rng: Random, width: int) -> Rows:
    first = 500 * rng.randint(2, width // 1800)
    return [[0, width]] * rng.randint(8, 20) + [[first, width - first]] * rng.randint(8, 20)


def _you(rng: Random, width: int) -> Rows:
    one, other = _opening(rng, width)
    return [[0, width]] * rng.randint(8, 20) + [[[0, one], [other, width]]] * rng.randint(6, 16)


def _hole(rng: Random, width: int) -> Rows:
    one, other = _opening(rng, width)
    parted = [[[0, one], [other, width]]] * rng.randint(3, 8)
    return [[0, width]] * rng.randint(5, 14) + parted + [[0, width]] * rng.randint(5, 14)


def _steps(rng: Random, width: int) -> Rows:
    return _stairs(rng, width, rng.randint(3, 5))


def _six_steps(rng: Random, width: int) -> Rows:
    return _stairs(rng, width, 6)


def _stairs(rng: Random, width: int, count: int) -> Rows:
    rows: Rows = []
    for _ in range(count):
        rows += [[0, width]] * rng.randint(2, 8)
        width -= 500 * rng.randint(2, max(3, width // 500 // (count + 3)))
    return rows


def _stepped_hole(rng: Random, width: int) -> Rows:
    one, other = _opening(rng, width)
    parted = [[[0, one], [other, width]]] * rng.randint(3, 8)
    less = width - 500 * rng.randint(2, 12)
    return [*_hole(rng, width), *parted, *[[0, less]] * rng.randint(4, 8)]


def _slope(rng: Random, width: int) -> Rows:
    rows: Rows = []
    for _ in range(rng.randint(7, 12)):
        rows.append([0, width])
        width -= 100 * rng.randint(11, min(40, max(12, (width - 20_000) // 1200)))
    return rows


def _part(rng: Random, width: int) -> int:
    return 500 * rng.randint(width // 1250, width // 600)


def _opening(rng: Random, width: int) -> tuple[int, int]:
    """Return where an opening of 1 to 2.5 m starts and ends, both parts 1 m or longer."""
    size = 100 * rng.randint(100, min(250, (width - 20_000) // 100))
    first = 100 * rng.randint(100, (width - size - 10_000) // 100)
    return first, first + size


# -- by name -----------------------------------------------------------------------------

KINDS: dict[str, Callable[[int], Job]] = {
    "cut1d": cut1d,
    "near_flat_pieces": near_flat_pieces,
    "t60": lambda seed: triplets(60, seed),
    "t120": lambda seed: triplets(120, seed),
    "rectangle": rectangle,
    "near_flat": near_flat,
    "limited": limited,
    "shape": shape,
    "slope2": slope2,
    "many_classes": many_classes,
}


def made(kind: str, count: int, first_seed: int = 0) -> list[Job]:
    """Return so many jobs of a kind, with seeds from the first one on."""
    return [KINDS[kind](seed) for seed in range(first_seed, first_seed + count)]


def write(kind: str, count: int, first_seed: int, folder: Path) -> None:
    """Write so many jobs of a kind into a folder, as files like the open ones."""
    folder.mkdir(parents=True, exist_ok=True)
    for job in made(kind, count, first_seed):
        text = json.dumps(job.document, separators=(",", ":"))
        (folder / f"{job.name}.json").write_text(text + "\n", "utf-8")
