"""The cutter beside what people do without it: one table of any folder of jobs.

    python tests/benchmarks/cutting.py tests/reference/cutting
    python tests/benchmarks/cutting.py --generate rectangle 100 1 made --json rows.json made

A folder holds job files (`tests/cutting/jobs.py` says what they are); `--generate` writes some.
Plans and baselines are made in the same run, one after another, with one thread. HiGHS gets the
nodes that one search of the cutter gets, and `--highs-seconds` at most, lest it never ends.

Each proof is verified and each plan held against its rules. The exit code is 1 where a plan is
invalid or unverified, where one in proven mode is dearer than any baseline or known cost, where
one in quick mode is dearer than a baseline that searches nothing, where a bound is above any
cost, or where the cutter raises; 2 where a job file cannot be used. Times are printed, never
judged.
"""

import argparse
import json
import sys
from itertools import groupby
from pathlib import Path

from attrs import asdict

if not __package__:  # run as a file: `cutting` would be this one
    sys.path[0] = str(Path(__file__).parents[1])

from cutting.jobs import Job, JobError, jobs_in
from cutting.made import KINDS, write
from cutting.measured import Effort, Row, Solve, rows_of
from cutting.table import head, lines_of, summary
from drylay.cutting.engine import solve as _solve
from drylay.cutting.model import Piece, Stock, Task, WorkLimits


def main(words: list[str] | None = None, solve: Solve = _solve) -> int:
    """Print the table that is asked for and return the exit code."""
    given = _asked(words)
    for kind, count, seed, folder in given.generate:
        write(kind, count, seed, folder)
    try:
        jobs = _jobs(given.folders)
    except JobError as error:
        print(error, file=sys.stderr)
        return 2
    jobs = [(group, job) for group, job in jobs if given.match in job.name]
    effort = Effort(solve=solve, nodes=given.nodes, highs_seconds=given.highs_seconds)
    if jobs:
        _load_the_solver()
    rows = _measured(jobs, given.modes, effort)
    _print_summaries(rows)
    if given.json:
        told = [asdict(row) | {"proven": row.proven} for row in rows]
        given.json.write_text(json.dumps(told, indent=1) + "\n", "utf-8")
    return 1 if any(row.wrong for row in rows) else 0


def _load_the_solver() -> None:
    """Cut one piece, so that no job pays for what is loaded once."""
    board = Stock(name="board", length=2, price=1)
    _solve(Task(stock=(board,), kerf=0, pieces=(Piece(length=1, count=1),)))


def _jobs(folders: list[Path]) -> list[tuple[str, Job]]:
    """Return the jobs of folders, each with the group it is summed up in."""
    found, faults = [], []
    for folder in folders:
        try:
            found += [(f"{folder.name}: {_sort_of(job)}", job) for job in jobs_in(folder)]
        except JobError as error:
            faults += error.faults
    if faults:
        raise JobError(tuple(faults))
    return found


def _sort_of(job: Job) -> str:
    return ("pieces", "rectangles")[len(job.task.lines)] if len(job.task.lines) < 2 else "shapes"


def _measured(jobs: list[tuple[str, Job]], modes: list[str], effort: Effort) -> list[Row]:
    """Return the rows of jobs, printing each as it comes."""
    rows = []
    print("\n".join(head() if jobs else ()), flush=True)
    for i, (group, job) in enumerate(jobs, 1):
        print(f"{i} of {len(jobs)}: {job.name}", file=sys.stderr, flush=True)
        for row in rows_of(job, group, modes, effort):
            rows.append(row)
            print("\n".join(lines_of(row)), flush=True)
    return rows


def _print_summaries(rows: list[Row]) -> None:
    def key(row: Row) -> tuple[str, str]:
        return row.group, row.mode

    for _, group in groupby(sorted(rows, key=key), key):
        print()
        print("\n".join(summary(list(group))))


# -- what is asked -----------------------------------------------------------------------


class _Generate(argparse.Action):
    """Takes KIND COUNT SEED FOLDER, as often as it is given."""

    def __call__(self, parser, namespace, values, option_string=None):
        kind, count, seed, folder = values
        if kind not in KINDS:
            parser.error(f"{option_string}: found {kind!r}, wanted one of {', '.join(KINDS)}")
        if not count.isdecimal() or not seed.isdecimal():
            parser.error(f"{option_string}: COUNT and SEED are whole numbers")
        namespace.generate = [*namespace.generate, (kind, int(count), int(seed), Path(folder))]


def _asked(words: list[str] | None) -> argparse.Namespace:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    add = asked.add_argument
    add("folders", nargs="*", type=Path, help="folders of job files")
    add("--quick", dest="modes", action="append_const", const="quick", help="quick mode")
    add("--proven", dest="modes", action="append_const", const="proven",
        help="proven mode, the default; may be given beside --quick")  # fmt: skip
    add("--generate", nargs=4, action=_Generate, default=[],
        metavar=("KIND", "COUNT", "SEED", "FOLDER"),
        help=f"write made-up jobs into a folder; kinds: {', '.join(KINDS)}")  # fmt: skip
    add("--nodes", type=_count, default=WorkLimits().nodes,
        help="nodes of a whole-number search, the cutter's and HiGHS's (%(default)s)")  # fmt: skip
    add("--highs-seconds", type=float, default=20.0,
        help="the most HiGHS takes for a job (%(default)s); 0 leaves it out")  # fmt: skip
    add("--match", default="", help="only jobs whose name holds this")
    add("--json", type=Path, metavar="FILE", help="write the rows to this file too")
    given = asked.parse_intermixed_args(words)
    given.modes = list(dict.fromkeys(given.modes or ["proven"]))
    if not given.folders and not given.generate:
        asked.error("name a folder of job files, or --generate some")
    return given


def _count(word: str) -> int:
    value = int(word)
    if value < 1:
        raise ValueError
    return value


if __name__ == "__main__":
    sys.exit(main())
