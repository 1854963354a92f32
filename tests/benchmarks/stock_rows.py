"""How long a CSV price list takes to check, beside what `csv.DictReader` alone takes for it.

    python tests/benchmarks/stock_rows.py [--rows 10000 100000 300000] [--repeats 3]

Each size is measured turn by turn in the processor's time, the least of the repeats counted, and
once more for the peak of memory that Python allocates (tracemalloc). Four lists are made for each
size: five lengths an article, standing together (`together`) or sorted by length (`sorted`);
every row an article of its own (`single`); and so that no two articles are of one size (`unlike`).
"""

import argparse
import csv
import tempfile
import time
import tracemalloc
from collections.abc import Callable, Iterator
from pathlib import Path

from drylay.intake.gtin import check_digit
from drylay.materials.loader import each_fault

HEADER = "Item;Description;Thick mm;Wide mm;Length m;Price;Left;GTIN;Treatment;Use class;Batch"
MAPPING = b"""
[file]
encoding = "utf-8"
delimiter = ";"
decimal = ","

[catalogue]
name = "A yard (invented)"
currency = "EUR"
vat = "included"

[[rows]]
kind = "boards"
constants = { family = "softwood" }

[rows.columns]
code = "Item"
title = "Description"
thickness_mm = { column = "Thick mm", unit = "mm" }
width_mm = { column = "Wide mm", unit = "mm" }
length_mm = { column = "Length m", unit = "m" }
price = "Price"
limit = "Left"
gtin = "GTIN"
treatment = "Treatment"
use_class = "Use class"
batch = "Batch"
"""
LENGTHS = ("2,4", "3,0", "3,6", "4,2", "4,8")


SHAPES = ("together", "sorted", "single", "unlike")


def rows(count: int, shape: str) -> Iterator[str]:
    """Yield the lines of a list of so many rows in one of the shapes."""
    yield HEADER
    for at in range(count):
        article, length = at, at % 5
        if shape == "together":
            article = at // 5
        elif shape == "sorted":
            length, article = divmod(at, count // 5)
        width = f"{90 + article % 60}"
        if shape == "unlike":
            width = f"{90 + article % 300},{article // 300 % 1000:03d}"
        gtin = f"2{at:011d}"
        yield (
            f"DB-{article:06d};Deck board no. {article}, redwood, planed;28;{width};"
            f"{LENGTHS[length]};{9 + at % 40},{at % 100:02d};{at % 90};{gtin}{check_digit(gtin)};"
            f"use class 3;3;B{article % 12}"
        )


def by_dict_reader(path: Path) -> int:
    """Return how many rows `csv.DictReader` reads."""
    with path.open(encoding="utf-8", newline="") as file:
        return sum(1 for _ in csv.DictReader(file, delimiter=";"))


def by_check(path: Path) -> int:
    """Return how many faults a check finds, which must be none."""
    return sum(1 for _ in each_fault(path, mapping=MAPPING))


def seconds(work: Callable[[Path], int], path: Path) -> float:
    """Return the processor's time of one run."""
    start = time.process_time()
    work(path)
    return time.process_time() - start


def peak_kb(work: Callable[[Path], int], path: Path) -> float:
    """Return the most that Python had allocated at once."""
    tracemalloc.start()
    work(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak / 1000


def measure(count: int, shape: str, repeats: int, folder: Path) -> str:
    """Return one line of the table."""
    path = folder / f"{count}-{shape}.csv"
    path.write_text("\n".join(rows(count, shape)) + "\n", encoding="utf-8")
    assert by_check(path) == 0
    turns = [(seconds(by_dict_reader, path), seconds(by_check, path)) for _ in range(repeats)]
    plain, checked = (min(turn[at] for turn in turns) for at in (0, 1))
    peak = peak_kb(by_check, path)
    path.unlink()
    times = f"{plain:>12.3f} {checked:>10.3f} {checked / plain:>7.2f}"
    return f"{count:>8} {shape:>9} {times} {peak:>9.0f}"


def main() -> None:
    """Print a line for each size and shape."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--rows", type=int, nargs="+", default=[10_000, 100_000, 300_000])
    parser.add_argument("--repeats", type=int, default=3)
    arguments = parser.parse_args()
    print(f"{'rows':>8} {'shape':>9} {'DictReader s':>12} {'check s':>10} {'times':>7}", end="")
    print(f" {'peak kB':>9}")
    with tempfile.TemporaryDirectory() as folder:
        for count in arguments.rows:
            for shape in SHAPES:
                print(measure(count, shape, arguments.repeats, Path(folder)), flush=True)


if __name__ == "__main__":
    main()
