"""The cutter beside what people do without it: one table of any folder of jobs, or of made ones.

    python tests/benchmarks/cutting.py tests/reference/cutting
    python tests/benchmarks/cutting.py --generate rectangle --count 100 --seed 1 --json rows.json

A row is a job: whether the plan is proven cheapest, its gap, its cost against the best others
know, work, times, and the baselines, told as per cent dearer than the plan: the longest length
only with first fit; the best of several first fits over all lengths; for rows, those laid by
habit (with the longest length, with the best one, with purchase worked out exactly after); and
the fillings and joints as one programme given straight to HiGHS. Same run, same machine, one
thread. Times are printed, never asserted. HiGHS gets the nodes the cutter gives one search,
and no more seconds than `--straight-seconds` (0 leaves it out; `~`: it was given what column
generation found, not all fillings).

The exit code is 1 where the cutter raises, breaks a rule, proves what does not hold, is dearer
than a baseline or another's known cost, or claims a bound above one.
"""

import argparse
import json
import statistics
import sys
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

sys.path.pop(0)  # else `cutting` would be this file
sys.path.insert(0, str(Path(__file__).parents[1]))

from cutting.habits import best_multi, boards_of, fixed_pieces, habit_with, habits, longest_only
from cutting.jobs import Job, JobError, jobs_in
from cutting.made import KINDS, made
from cutting.rules import assert_keeps_the_rules
from cutting.straight import straight
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import GRADES, CutPlan, Piece, Task, WorkLimits
from drylay.cutting.verify import verify

BASELINES = ("longest", "multi", "habit", "habit_best", "habit_exact", "highs")
Row = dict[str, Any]


# -- one job -----------------------------------------------------------------------------


def timed(work: Callable[[], Any]) -> tuple[Any, float]:
    """Return what work comes to and the seconds it took."""
    began = time.perf_counter()
    done = work()
    return done, time.perf_counter() - began


def row_of(job: Job, given: argparse.Namespace) -> Row:
    """Return all there is to tell of a job."""
    row: Row = {"name": job.name, "kind": job.kind, "known": job.best_known, "wrong": []}
    row |= {"known_bound": job.lower_bound}
    for mode in ("quick", "proven"):
        if mode in given.modes:
            row |= solved(job.task, mode, row["wrong"])
    row |= baselines(job.task, given)
    row["wrong"] += dearer(row)
    return row


def solved(task: Task, mode: str, wrong: list[str]) -> Row:
    """Return what the cutter makes of a task in one mode."""
    try:
        plan, took = timed(lambda: solve(task, mode=mode))
    except NoPlan as none:
        wrong += [] if none.proven else [f"{mode}: {none}"]
        return {f"{mode}_none": none.proven}
    except Exception as error:
        wrong.append(f"{mode} raised {type(error).__name__}: {error}")
        return {}
    verdict, verify_s = timed(lambda: verify(plan.proof))
    wrong += broken_rules(task, plan, mode)
    if not verdict.holds or verdict.bound < plan.bound:
        wrong.append(f"{mode}: the proof does not verify: {verdict.why}")
    told = {
        "objective": plan.objective,
        "bound": plan.bound,
        "gap": plan.gap,
        "s": took,
        "verify_s": verify_s,
        "grade": GRADES.index(plan.proof.certificate.grade) + 1,
        "vectors": len(plan.proof.certificate.vectors),
        "columns": plan.effort.columns,
        "lp_solves": plan.effort.lp_solves,
        "search_nodes": plan.effort.search_nodes,
    }
    return {f"{mode}_{key}": value for key, value in told.items()}


def broken_rules(task: Task, plan: CutPlan, mode: str) -> list[str]:
    """Return whether a plan breaks a rule of its task."""
    try:
        assert_keeps_the_rules(task, plan)
    except AssertionError as error:
        return [f"{mode}: the plan breaks a rule {error}".strip()]
    return []


def baselines(task: Task, given: argparse.Namespace) -> Row:
    """Return what each baseline costs; None where it has no plan."""
    told: Row = dict.fromkeys(BASELINES)
    if task.lines:
        told |= habit_rows(task)
    else:
        pieces = fixed_pieces(task)
        told["longest"] = longest_only(task, pieces)
        told["multi"], told["multi_s"] = timed(lambda: best_multi(task, pieces))
    if given.straight_seconds > 0:
        nodes = WorkLimits().nodes
        found, told["highs_s"] = timed(
            lambda: straight(task, nodes=nodes, seconds=given.straight_seconds)
        )
        told |= {"highs": found.objective, "fillings": found.fillings}
        told["all_fillings"] = found.all_fillings
    return told


def habit_rows(task: Task) -> Row:
    """Return what rows laid by habit cost: bought as one length, as several, and exactly."""
    unlimited = [board for board in boards_of(task) if board.limit is None]
    if not unlimited:
        return {}
    singles = [habit_with(task, board) for board in unlimited]
    rows = habits(task, unlimited[-1].space - task.kerf)
    multis = [(best_multi(task, pieces), joints) for pieces, joints in rows]
    exact = [(exact_purchase(task, pieces), joints) for pieces, joints in rows]
    price = task.joint_price
    return {
        "habit": singles[-1],
        "habit_best": least(singles),
        "multi": least(c + price * n for c, n in multis if c is not None),
        "habit_exact": least(c + price * n for c, n in exact if c is not None),
    }


def exact_purchase(task: Task, pieces: list[int]) -> int | None:
    """Return the least cost of pieces, as the cutter itself finds it."""
    counts = {length: pieces.count(length) for length in set(pieces)}
    wanted = tuple(Piece(length=n, count=counts[n]) for n in sorted(counts))
    try:
        return solve(Task(stock=task.stock, kerf=task.kerf, pieces=wanted)).objective
    except NoPlan:
        return None


def least(costs: Iterable[int | None]) -> int | None:
    return min((cost for cost in costs if cost is not None), default=None)


def dearer(row: Row) -> list[str]:
    """Return where the proven plan is dearer than it may be, or its bound too high."""
    others = {name: row.get(name) for name in (*BASELINES, "known")}
    others = {name: cost for name, cost in others.items() if cost is not None}
    if "proven_objective" not in row:
        return [f"no plan, {name} has one" for name in others] if "proven_none" in row else []
    own = row["proven_objective"]
    bound = max(row["proven_bound"], row.get("quick_bound", 0))
    wrong = [f"dearer than {name}: {own} > {cost}" for name, cost in others.items() if own > cost]
    wrong += [f"bound {bound} above {name} {cost}" for name, cost in others.items() if bound > cost]
    if row["known_bound"] is not None and own < row["known_bound"]:
        wrong.append(f"cheaper than the known bound: {own} < {row['known_bound']}")
    return wrong


# -- the table ---------------------------------------------------------------------------

HEAD = (
    f"{'job':26}{'proven':>7}{'cost':>9}{'gap':>7}{'gap %':>8}{'known %':>9}{'grade':>6}"
    f"{'columns':>8}{'LPs':>6}{'nodes':>8}{'quick ms':>9}{'dearer %':>9}{'ms':>9}{'verify':>8} |"
    f"{'longest':>8}{'multi':>7}{'habit':>7}{'best':>7}{'exact':>7}{'HiGHS':>8}{'ms':>8}"
)


def line_of(row: Row) -> str:
    """Return a row of the table."""
    own = row.get("proven_objective", row.get("quick_objective"))
    mode = "proven" if "proven_objective" in row else "quick"
    known = per_cent(own, row["known"])
    told = (
        f"{row['name'][:25]:26}{proven_word(row):>7}{shown(own):>9}{shown(row.get(f'{mode}_gap')):>7}"
        f"{shown(gap_of(row, mode), 3):>8}{shown(known, 3):>9}{shown(row.get(f'{mode}_grade')):>6}"
    )
    for key, width in (("columns", 8), ("lp_solves", 6), ("search_nodes", 8)):
        told += f"{shown(row.get(f'{mode}_{key}')):>{width}}"
    excess = per_cent(row.get("quick_objective"), row.get("proven_objective"))
    told += f"{ms(row, 'quick_s'):>9}{shown(excess, 3):>9}{ms(row, 'proven_s'):>9}"
    told += f"{ms(row, f'{mode}_verify_s'):>8} |"
    for name, width in zip(BASELINES[:-1], (8, 7, 7, 7, 7), strict=True):
        told += f"{shown(per_cent(row[name], own), 2):>{width}}"
    partly = "" if row.get("all_fillings", True) else "~"
    told += f"{partly + shown(per_cent(row['highs'], own), 3):>8}{ms(row, 'highs_s'):>8}"
    return told + "".join(f"\n    WRONG: {wrong}" for wrong in row["wrong"])


def proven_word(row: Row) -> str:
    if "proven_objective" not in row:
        return "none" if row.get("proven_none") else "-"
    return "yes" if row["proven_gap"] == 0 else "no"


def gap_of(row: Row, mode: str) -> float | None:
    gap, cost = row.get(f"{mode}_gap"), row.get(f"{mode}_objective")
    return None if gap is None else 100 * gap / cost if cost else 0.0


def per_cent(cost: int | None, base: int | None) -> float | None:
    """Return how much dearer a cost is than another, in per cent."""
    return None if cost is None or not base else 100 * (cost - base) / base


def shown(value: float | int | None, places: int = 0) -> str:
    return "-" if value is None else f"{value:.{places}f}"


def ms(row: Row, key: str) -> str:
    return shown(row[key] * 1000, 1) if key in row else "-"


# -- the summary -------------------------------------------------------------------------


def spread(values: list[float], unit: str, scale: float = 1, places: int = 1) -> str:
    """Return median, 95th of a hundred, most and mean of values."""
    if not values:
        return "none"
    ordered = sorted(scale * value for value in values)
    late = ordered[min(len(ordered) - 1, -(-95 * len(ordered) // 100) - 1)]
    told = {
        "median": statistics.median(ordered),
        "p95": late,
        "most": ordered[-1],
        "mean": statistics.fmean(ordered),
    }
    return ", ".join(f"{name} {value:.{places}f}" for name, value in told.items()) + f" {unit}"


def summary(rows: list[Row]) -> Iterable[str]:
    """Yield what all rows come to."""
    done = [row for row in rows if "proven_objective" in row]
    yield f"jobs                {len(rows)}, with a plan {len(done)}"
    if done:
        yield from proven_summary(done)
    quick = [row for row in rows if "quick_objective" in row]
    yield f"quick mode          {spread([r['quick_s'] for r in quick], 'ms', 1000)}"
    yield f"quick mode's gap    {spread([gap_of(r, 'quick') or 0.0 for r in quick], '%', 1, 4)}"
    excess = [
        per_cent(r["quick_objective"], r["proven_objective"]) or 0.0
        for r in done
        if r["proven_gap"] == 0 and "quick_objective" in r
    ]
    yield f"quick over cheapest {spread(excess, '%', 1, 4)}"
    for name in BASELINES:
        over = [per_cent(row[name], row["proven_objective"]) for row in done]
        told = [value for value in over if value is not None]
        if told:
            yield f"{'over: ' + name:20}{spread(told, '%', 1, 3)} ({len(told)} jobs)"
    highs = [row["highs_s"] for row in rows if "highs_s" in row]
    if highs:
        yield f"HiGHS straight      {spread(highs, 'ms', 1000)}"
    wrong = [row["name"] for row in rows if row["wrong"]]
    yield f"wrong               {len(wrong)} {' '.join(wrong)}".rstrip()


def proven_summary(done: list[Row]) -> Iterable[str]:
    count, gaps = len(done), [gap_of(row, "proven") or 0.0 for row in done]
    proven = sum(row["proven_gap"] == 0 for row in done)
    yield f"proven cheapest     {proven} of {count} ({100 * proven / count:.1f} %)"
    for seconds in (2, 5):
        within = sum(row["proven_gap"] == 0 and row["proven_s"] <= seconds for row in done)
        yield f"  within {seconds} s        {within} ({100 * within / count:.1f} %)"
    yield f"gap                 {spread(gaps, '%', 1, 4)}"
    for most in (0.05, 0.1, 0.5):
        within = sum(gap <= most for gap in gaps)
        yield f"  at most {most:4} %     {within} ({100 * within / count:.1f} %)"
    yield f"proven mode         {spread([row['proven_s'] for row in done], 'ms', 1000)}"
    yield f"work: columns       {spread([row['proven_columns'] for row in done], '', 1, 0)}"
    yield f"work: LPs           {spread([row['proven_lp_solves'] for row in done], '', 1, 0)}"
    for number, grade in enumerate(GRADES, 1):
        graded = sum(row["proven_grade"] == number for row in done)
        yield f"grade {number}             {graded} ({100 * graded / count:.1f} %) {grade}"
    checked = [row["proven_verify_s"] for row in done]
    yield f"verify              {spread(checked, 'ms', 1000)}"
    fast = sum(took < 0.05 for took in checked)
    yield f"  under 50 ms       {fast} ({100 * fast / count:.1f} %)"


# -- the command -------------------------------------------------------------------------


def asked_for() -> argparse.Namespace:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("folders", nargs="*", type=Path, help="folders of job files")
    asked.add_argument("--generate", action="append", choices=KINDS, default=[])
    asked.add_argument("--count", type=int, default=20, help="how many of each kind")
    asked.add_argument("--seed", type=int, default=0, help="the first seed")
    asked.add_argument("--modes", nargs="+", choices=("quick", "proven"))
    asked.add_argument("--straight-seconds", type=float, default=20.0)
    asked.add_argument("--match", default="", help="only jobs whose name holds this")
    asked.add_argument("--json", type=Path, help="write the rows to this file")
    given = asked.parse_args()
    given.modes = given.modes or ["quick", "proven"]
    if not given.folders and not given.generate:
        asked.error("name a folder of job files, or --generate a kind")
    return given


def main() -> int:
    given = asked_for()
    try:
        jobs = [job for folder in given.folders for job in jobs_in(folder)]
    except JobError as error:
        print(error, file=sys.stderr)
        return 2
    groups = {job.name: job.kind for job in jobs}
    for kind in given.generate:
        more = made(kind, given.count, given.seed)
        groups |= {job.name: kind for job in more}
        jobs += more
    jobs = [job for job in jobs if given.match in job.name]
    solve(KINDS["cut1d"](0).task)  # loads the solver, so that no job pays for it
    print(HEAD)
    rows = []
    for i, job in enumerate(jobs, 1):
        print(f"\r{i}/{len(jobs)} {job.name:30}", end="", file=sys.stderr, flush=True)
        rows.append(row_of(job, given) | {"group": groups[job.name]})
        print("\r" + " " * 44, end="\r", file=sys.stderr, flush=True)
        print(line_of(rows[-1]), flush=True)
    for group in dict.fromkeys(row["group"] for row in rows):
        print(f"\n{group}")
        print("\n".join(summary([row for row in rows if row["group"] == group])))
    if given.json:
        given.json.write_text(json.dumps(rows, indent=1) + "\n", "utf-8")
    return 1 if any(row["wrong"] for row in rows) else 0


if __name__ == "__main__":
    sys.exit(main())
