"""Does memory grow over a long study? What this process and its workers hold, as rows go by.

    python tests/benchmarks/study_memory.py 100000 2

plans so many small decks in so many processes, writes their rows to a file of CSV as they come, and
prints what each process holds at every twentieth part. Linux, which tells it under /proc.
"""

import sys
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path

import drylay
from drylay.compare.cases import vary
from drylay.compare.compared import compare
from drylay.compare.rows_file import write_rows

CATALOGUE = Path(__file__).parents[2] / "catalogs" / "hobbleden.toml"
SHED = {
    "title": "Step at the shed",
    "cover": {"along_mm": 1200, "across_mm": 595},
    "board": {"article": "DB-28-145"},
    "frame": {"article": "FT-45-145", "most_centres_mm": 400},
    "joints": {"most_per_row": 0},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
}
PARTS = 20


def held_mb(process: str) -> int:
    """What a process holds in memory, in MB."""
    status = Path(f"/proc/{process}/status").read_text()
    kb = next(line.split()[1] for line in status.splitlines() if line.startswith("VmRSS"))
    return int(kb) // 1024


def workers() -> list[int]:
    """What each worker holds, the largest first."""
    children = Path("/proc/self/task").glob("*/children")
    found = []
    for each in {pid for file in children for pid in file.read_text().split()}:
        try:
            found.append(held_mb(each))
        except (OSError, StopIteration):
            continue
    return sorted(found, reverse=True)


def watched(rows: Iterable[dict[str, object]], count: int) -> Iterator[dict[str, object]]:
    """Rows as they go by, with what is held told at every twentieth part."""
    for done, row in enumerate(rows, start=1):
        if done % max(1, count // PARTS) == 0:
            print(f"{done:8} rows: {held_mb('self')} MB here, workers {workers()}", flush=True)
        yield row


def main() -> None:
    """Plan the decks."""
    count, processes = int(sys.argv[1]), int(sys.argv[2])
    brief = drylay.read_brief(SHED)
    across_mm = range(595, 595 + count // 1000)
    sizes = {"cover.along_mm": range(1200, 2200), "cover.across_mm": across_mm}
    cases = vary(brief, sizes)
    rows = compare(cases, stock=drylay.load_catalogue(CATALOGUE), mode="quick", workers=processes)
    with tempfile.TemporaryDirectory() as folder:
        told = write_rows(watched(rows, len(cases)), Path(folder) / "rows.csv")
        print(f"{told} rows, {(Path(folder) / 'rows.csv').stat().st_size // 1_000_000} MB of CSV")


if __name__ == "__main__":
    main()
