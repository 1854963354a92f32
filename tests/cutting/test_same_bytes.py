"""The same task gives the same bytes: in fresh processes, in threads, beside busy ones."""

from itertools import count
from typing import Any

from attrs import evolve

from cutting.repeats import differences, few, in_a_fresh_process, in_threads
from drylay.cutting.engine import solve
from drylay.cutting.model import CutPlan, Task


def test_processes_and_threads_tell_the_same_bytes() -> None:
    runs = [in_a_fresh_process("few", 0), in_a_fresh_process("few", 1), *in_threads(few(), 2)]
    assert len(runs[0]) == 12
    assert min(map(len, runs[0])) > 100
    assert differences(runs) == []


def test_a_cutter_that_counts_its_calls_is_found_out() -> None:
    calls = count()

    def counting(task: Task, **options: Any) -> CutPlan:
        plan = solve(task, **options)
        return evolve(plan, effort=evolve(plan.effort, columns=next(calls)))

    tasks = few()[:2]
    assert differences(in_threads(tasks, 2, counting)) == [0, 1]


def test_runs_of_unlike_length_differ() -> None:
    assert differences([[b"a"], [b"a", b"b"]]) == [-1]
