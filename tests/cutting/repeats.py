"""Solves the same tasks again, in fresh processes and in threads, beside threads that keep busy.

Run as a file with `--once` it prints, as JSON, all that the cutter tells of each job of the
set: that is the fresh process.
"""

import argparse
import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Thread

if not __package__:  # run as a file
    sys.path[0] = str(Path(__file__).parents[1])

from attrs import asdict

from cutting.jobs import jobs_in
from cutting.made import made
from cutting.tiny import tiny_decks
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Task

Solve = Callable[..., CutPlan]
MODES = ("proven", "quick")
OPEN = Path(__file__).parents[1] / "reference" / "cutting"


def few() -> list[Task]:
    """Return a set of jobs that takes about a second: tiny decks, pieces, a rectangle, a shape."""
    kinds = ("cut1d-00", "cut1d-04", "joint-02", "joint-18")
    small = [job.task for job in jobs_in(OPEN) if job.name.startswith(kinds)]
    return [*small, *(task for _, task in tiny_decks(8, 1000))]


def many() -> list[Task]:
    """Return all open jobs, some made-up ones of every kind that has rows, and tiny decks."""
    made_up = [made(kind, 2) for kind in ("cut1d", "rectangle", "limited", "shape")]
    tasks = [job.task for jobs in (jobs_in(OPEN), *made_up) for job in jobs]
    return [*tasks, *(task for _, task in tiny_decks(100, 1000))]


SETS = {"few": few, "many": many}


def told_of(task: Task, solve: Solve = solve) -> bytes:
    """Return all that the cutter tells of a task in both modes, as JSON."""
    return json.dumps([_told(task, mode, solve) for mode in MODES], indent=1).encode()


def _told(task: Task, mode: str, solve: Solve) -> object:
    try:
        return asdict(solve(task, mode=mode))
    except NoPlan as none:
        return {"none": str(none), "proven": none.proven}


# -- beside busy threads -----------------------------------------------------------------


@contextmanager
def busy_threads(count: int = 1) -> Iterator[None]:
    """Keep so many threads at work meanwhile, in Python and in the solver by turns."""
    stop = Event()
    work = tuple(task for _, task in tiny_decks(8, 2000))

    def busy() -> None:
        turn = 0
        while not stop.is_set():
            turn += 1
            sum(i * i for i in range(3000))
            told_of(work[turn % len(work)])

    threads = [Thread(target=busy, daemon=True) for _ in range(count)]
    for thread in threads:
        thread.start()
    try:
        yield
    finally:
        stop.set()
        for thread in threads:
            thread.join()


def in_threads(tasks: Sequence[Task], repeats: int, solve: Solve = solve) -> list[list[bytes]]:
    """Return what is told of tasks, so many times: in two threads, each time another order."""

    def once(turn: int) -> list[bytes]:
        order = [(i + turn) % len(tasks) for i in range(len(tasks))]
        told = {i: told_of(tasks[i], solve) for i in order}
        return [told[i] for i in range(len(tasks))]

    with busy_threads(), ThreadPoolExecutor(2) as pool:
        return list(pool.map(once, range(repeats)))


def in_a_fresh_process(name: str, turn: int) -> list[bytes]:
    """Return what a fresh process tells of a set of jobs; each turn hashes differently.

    Standard output is taken as it comes: a solver's banner there would be a difference too.
    """
    environment = {**os.environ, "PYTHONHASHSEED": str(turn)}
    command = [sys.executable, str(Path(__file__)), "--once", name]
    done = subprocess.run(command, env=environment, capture_output=True, check=False)
    if done.returncode:
        raise RuntimeError(done.stderr.decode())
    return done.stdout.split(b"\0")


def differences(runs: Sequence[list[bytes]]) -> list[int]:
    """Return the numbers of the jobs that not all runs tell alike; -1: not as many jobs."""
    if len({len(run) for run in runs}) != 1:
        return [-1]
    return [i for i, told in enumerate(zip(*runs, strict=True)) if len(set(told)) > 1]


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("--once", choices=SETS, required=True)
    tasks = SETS[asked.parse_args().once]()
    with busy_threads():
        told = [told_of(task) for task in tasks]
    sys.stdout.buffer.write(b"\0".join(told))


if __name__ == "__main__":
    main()
