"""Prints rows of a benchmark: a line for each, and what each group of them comes to.

No line is wider than 120 characters. Nothing is cut short: a name too long for its column gets
a line of its own.
"""

import statistics
import textwrap
from collections.abc import Iterable, Iterator

from cutting.measured import BASELINES, Row
from drylay.cutting.model import GRADES

WIDE = 120
NAME = 22

#: Columns left of the bar: head, how wide.
COLUMNS = (
    ("m", 1),
    ("proven", 6),
    ("cost", 7),
    ("gap %", 6),
    ("over %", 6),
    ("gr", 2),
    ("LPs", 4),
    ("splits", 6),
    ("ms", 6),
)
#: Columns right of it: baselines in per cent over the plan, and HiGHS's time.
BESIDE = (("longest", 7), ("single", 6), ("multi", 5), ("exact", 5), ("HiGHS", 7), ("ms", 6))

LEGEND = """\
m: mode, proven or quick. proven: yes, no, none (certain that there is no plan), - (no plan found).
gap %: what the plan may cost over the cheapest, at most. over %: over the best known, of the file
or proven in this run. gr: grade of the certificate (1 one worth vector, 2 these and splits,
3 resting on the solver). LPs, splits: linear programmes solved, splits in the certificate. Right of
the bar: per cent dearer than the plan, then HiGHS's time; ~ given what column generation finds, not
all fillings; ! stopped by the clock."""


def head() -> Iterator[str]:
    """Yield the lines above the rows."""
    yield from LEGEND.splitlines()
    for name, does in BASELINES.items():
        yield f"{name}: {does}."
    yield ""
    yield _line("job", [name for name, _ in COLUMNS], [name for name, _ in BESIDE])
    yield "-" * len(_line("", [], []))


def lines_of(row: Row) -> Iterator[str]:
    """Yield the line of a row, and below it all that is wrong."""
    name = row.name
    if len(name) > NAME:
        yield name
        name = ""
    own, beside = _cells(_own(row), COLUMNS), _cells(_beside(row), BESIDE)
    line = f"{name:{NAME}} {own} | {beside}"
    yield from [line] if len(line) <= WIDE else [f"{name:{NAME}} {own} |", f"{beside:>{WIDE}}"]
    for wrong in row.wrong:
        yield from _wrapped(f"WRONG: {wrong}")


def _line(name: str, own: Iterable[str], beside: Iterable[str]) -> str:
    return f"{name:{NAME}} {_cells(own, COLUMNS)} | {_cells(beside, BESIDE)}"


def _cells(values: Iterable[str], columns: tuple[tuple[str, int], ...]) -> str:
    shown = list(values) or [""] * len(columns)
    return " ".join(f"{value:>{wide}}" for value, (_, wide) in zip(shown, columns, strict=True))


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDE, initial_indent="    ", subsequent_indent="        ")


# -- cells -------------------------------------------------------------------------------


def _own(row: Row) -> list[str]:
    plan = row.plan
    if plan is None:
        return [row.mode[0], "none" if row.none_proven else "-", *["-"] * 6, ms_told(row.seconds)]
    return [
        row.mode[0],
        "yes" if row.proven else "no",
        str(plan.cost),
        per_cent_told(plan.gap_per_cent),
        per_cent_told(over(plan.cost, row.known)),
        str(plan.grade),
        str(plan.lp_solves),
        str(plan.nodes),
        ms_told(row.seconds),
    ]


def _beside(row: Row) -> list[str]:
    told = [_baseline(row, name) for name in BASELINES]
    highs = row.baselines.get("HiGHS")
    return [*told, "-" if highs is None else ms_told(highs.seconds)]


def _baseline(row: Row, name: str) -> str:
    baseline = row.baselines.get(name)
    if baseline is None or baseline.cost is None or row.plan is None:
        return "-"
    marks = ("" if baseline.whole else "~") + ("!" if baseline.stopped else "")
    if name == "HiGHS":
        return marks + per_cent_told(over(baseline.cost, row.plan.cost))
    return f"{over(baseline.cost, row.plan.cost):.2f}"


def ms_told(seconds: float) -> str:
    """Return milliseconds, with a tenth where there are few."""
    return f"{1000 * seconds:.{1 if seconds < 1 else 0}f}"


def over(cost: int, base: int | None) -> float | None:
    """Return by how many per cent a cost is over another; None where there is no telling."""
    if base is None:
        return None
    return 100 * (cost - base) / base if base else 0.0 if cost == base else float("inf")


def per_cent_told(value: float | None) -> str:
    """Return a per cent with three places; what is not nought never looks like it."""
    if value is None:
        return "-"
    places = 3 if abs(value) < 100 else 0
    told = f"{value:.{places}f}" if abs(value) < 100_000 else f"{value:.2g}"
    if value and not float(told):
        return "<.001" if value > 0 else ">-.001"
    return told


# -- what a group comes to ---------------------------------------------------------------


def summary(rows: list[Row]) -> Iterator[str]:
    """Yield what the rows of one group and mode come to."""
    for line in _facts(rows):
        yield from textwrap.wrap(line, WIDE, subsequent_indent=" " * 22, break_on_hyphens=False)


def _facts(rows: list[Row]) -> Iterator[str]:
    title = f"{rows[0].group}, {rows[0].mode} mode"
    yield title
    yield "-" * len(title)
    planned = [row for row in rows if row.plan is not None]
    none = sum(row.none_proven for row in rows)
    told = f"{len(planned)} of {len(rows)}"
    yield _fact("with a plan", told + (f", certain that there is none: {none}" if none else ""))
    if planned:
        yield from _plans(planned)
    yield _fact("time", spread([1000 * row.seconds for row in planned or rows], "ms"))
    yield _fact("  processor's", spread([1000 * row.cpu_seconds for row in planned or rows], "ms"))
    if planned:
        yield from _over_baselines(planned)
    wrong = [row.name for row in rows if row.wrong]
    yield _fact("wrong", f"{len(wrong)} {' '.join(wrong)}")


def _plans(planned: list[Row]) -> Iterator[str]:
    plans = [row.plan for row in planned if row.plan is not None]
    yield _fact("proven cheapest", _share(row.proven for row in planned))
    for seconds in (2, 5):
        clock = _share(row.proven and row.seconds <= seconds for row in planned)
        own = _share(row.proven and row.cpu_seconds <= seconds for row in planned)
        yield _fact(f"  within {seconds} s", f"{clock}; of the processor's {own}")
    gaps = [plan.gap_per_cent for plan in plans]
    yield _fact("gap", spread(gaps, "%", 4))
    for most in (0.05, 0.1, 0.5):
        yield _fact(f"  at most {most} %", _share(gap <= most for gap in gaps))
    yield from _over_known(planned)
    yield _fact("cost, all together", str(sum(plan.cost for plan in plans)))
    for name, work in (
        ("columns", [plan.columns for plan in plans]),
        ("LPs", [plan.lp_solves for plan in plans]),
        ("splits", [plan.nodes for plan in plans]),
    ):
        yield _fact(f"work: {name}", spread(work, "", 0))
    for number, grade in enumerate(GRADES, 1):
        yield _fact(f"grade {number}", f"{_share(p.grade == number for p in plans)} {grade}")
    yield _fact("verify, processor's", spread([1000 * plan.verify_seconds for plan in plans], "ms"))
    quick = _share(plan.verify_seconds < 0.05 for plan in plans)
    yield _fact("  under 50 ms", quick)


def _over_known(planned: list[Row]) -> Iterator[str]:
    known = [over(row.plan.cost, row.known) for row in planned if row.plan]
    told = [value for value in known if value is not None]
    if told:
        yield _fact("over best known", f"{spread(told, '%', 4)} ({len(told)} jobs)")
        yield _fact("  not dearer", _share(value <= 0 for value in told))


def _over_baselines(planned: list[Row]) -> Iterator[str]:
    for name in BASELINES:
        found = [
            over(row.baselines[name].cost, row.plan.cost)
            for row in planned
            if row.plan and name in row.baselines and row.baselines[name].cost is not None
        ]
        if found:
            yield _fact(f"{name} is dearer by", f"{spread(found, '%', 3)} ({len(found)} jobs)")
    highs = [1000 * row.baselines["HiGHS"].seconds for row in planned if "HiGHS" in row.baselines]
    if highs:
        yield _fact("HiGHS's time", spread(highs, "ms"))


def _fact(name: str, told: str) -> str:
    return f"{name:21} {told}".rstrip()


def _share(which: Iterable[bool]) -> str:
    found = list(which)
    return f"{sum(found)} of {len(found)} ({100 * sum(found) / len(found):.1f} %)"


def spread(values: Iterable[float], unit: str, places: int = 1) -> str:
    """Return median, the 95th of a hundred, the most, mean and sum of values."""
    ordered = sorted(values)
    late = ordered[-(-95 * len(ordered) // 100) - 1]
    told = {
        "median": statistics.median(ordered),
        "p95": late,
        "most": ordered[-1],
        "mean": statistics.fmean(ordered),
    }
    if unit != "%":
        told["sum"] = sum(ordered)
    return ", ".join(f"{name} {value:.{places}f}" for name, value in told.items()) + f" {unit}"
