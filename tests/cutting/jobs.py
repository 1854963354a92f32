"""Reads cutting jobs from files: fixed pieces, or rows on joists, as `tests/reference/cutting`.

A job file is JSON. Every job tells `name` (else its file's is taken), `kind`, `kerf`,
`trim_per_end` and `stocks` (each `length`, `cost`, `available`: a count, or null for as many as
wanted). Kind "cut1d" tells `pieces` (`length`, `count`); kind "joint" tells `rows`,
`joist_centres`, `joint_gap`, `min_bays_per_piece`, `stagger_bays`, `min_edge_to_joist`,
`joint_cost`, and may tell `pieces` and `most_joints_per_row` too. `rows` are equal ones,
`{count, x0, x1}`, or a list from the first row to the last; each is `[x0, x1]`, or a list of
those where an opening parts it. `best_known`, `lower_bound`, `baselines` (costs by name) and
`plan` are what others found; an `objective`, where told, is the one every job of its kind has.
Further keys say nothing to this reader.

Lengths stay in the file's own unit, money too.
"""

import json
from bisect import bisect_left
from collections.abc import Iterable
from itertools import groupby, pairwise
from pathlib import Path
from typing import Any

from attrs import field, frozen

from drylay.cutting.model import Beside, Line, Piece, Stock, Task
from drylay.errors import Fault, InputError

KINDS = ("cut1d", "joint")
OBJECTIVE = "purchase + joint_cost * joints"
Parts = tuple[tuple[int, int], ...]  # the stretches of one row


class JobError(InputError):
    """A cutting job cannot be used; `faults` lists every reason."""

    noun = "cutting job"


@frozen(kw_only=True)
class Job:
    """A task with its name and, where its file tells them, the least cost and bound known."""

    name: str
    kind: str
    task: Task
    best_known: int | None = None
    lower_bound: float | None = None
    baselines: dict[str, int] = field(factory=dict)
    document: dict[str, Any]


def jobs_in(folder: Path) -> list[Job]:
    """Return the jobs of a folder's `*.json` files by name.

    Raises:
        JobError: any of them cannot be used, or there is none; every fault is listed.
    """
    jobs, faults = [], []
    for path in sorted(folder.glob("*.json")):
        try:
            jobs.append(read_job(path))
        except JobError as error:
            faults += error.faults
    if not jobs and not faults:
        faults = [Fault(path=str(folder), found="no *.json", wanted="job files")]
    if faults:
        raise JobError(tuple(faults))
    return jobs


def read_job(path: Path) -> Job:
    """Return the job of a file."""
    try:
        document = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError) as error:
        fault = Fault(path=path.name, found=str(error), wanted="a JSON file")
        raise JobError((fault,)) from None
    return job_of(document, file=path.name)


def job_of(document: Any, *, file: str = "") -> Job:
    """Return the job that a file's content tells."""
    reader = _Reader(file)
    if not isinstance(document, dict):
        reader.fault("whole file", document, "a table")
        raise JobError(tuple(reader.faults))
    task = _task(reader, document)
    name, kind = document.get("name", Path(file).stem), document.get("kind")
    if not isinstance(name, str) or not name.isprintable() or not name.strip():
        reader.fault("name", name, "a text in one line")
    if kind not in KINDS:
        reader.fault("kind", kind, f"one of {', '.join(KINDS)}")
    if document.get("objective", OBJECTIVE) != OBJECTIVE:
        reader.fault("objective", document["objective"], f"{OBJECTIVE!r}, or nothing")
    known = reader.whole(document, "best_known", "", 0, other=None)
    baselines = _baselines(reader, document.get("baselines"))
    bound = document.get("lower_bound")
    if bound is not None and (isinstance(bound, bool) or not isinstance(bound, int | float)):
        reader.fault("lower_bound", bound, "a number, or null")
    if reader.faults:
        raise JobError(tuple(reader.faults))
    return Job(
        name=name,
        kind=kind,
        task=task,
        best_known=known,
        lower_bound=bound,
        baselines=baselines,
        document=document,
    )


def _baselines(reader: "_Reader", told: Any) -> dict[str, int]:
    """Return the costs of plans that others made by simpler means; null where they had none."""
    if told is None:
        return {}
    if not isinstance(told, dict):
        reader.fault("baselines", told, "a table of costs")
        return {}
    costs = {name: reader.whole(told, name, "baselines.", 0, other=None) for name in told}
    return {name: cost for name, cost in costs.items() if cost is not None}


# -- reading -----------------------------------------------------------------------------


class _Reader:
    """Takes values out of a document and keeps every fault."""

    def __init__(self, file: str) -> None:
        self.file, self.faults = file, []

    def fault(self, path: str, found: Any, wanted: str) -> None:
        shown = repr(found)
        shown = shown if len(shown) <= 60 else f"{shown[:57]}..."
        self.faults.append(Fault(path=path, found=shown, wanted=wanted, file=self.file))

    def whole(
        self, table: dict[str, Any], key: str, where: str, least: int, **other: int | None
    ) -> Any:
        """Return a whole number of a table; `other` is what a missing one or null stands for."""
        value = table.get(key)
        if value is None and "other" in other:
            return other["other"]
        if isinstance(value, bool) or not isinstance(value, int) or value < least:
            wanted = f"a whole number of at least {least}"
            found = value if key in table else "nothing"
            self.fault(f"{where}{key}", found, wanted + (", or null" if other else ""))
            return least
        return value

    def tables(self, table: dict[str, Any], key: str) -> Iterable[tuple[str, dict[str, Any]]]:
        """Return the tables of a list with their places."""
        rows = table.get(key)
        if not isinstance(rows, list) or not rows:
            self.fault(key, rows, "a list of one table or more")
            return
        for i, row in enumerate(rows):
            if isinstance(row, dict):
                yield f"{key}[{i}].", row
            else:
                self.fault(f"{key}[{i}]", row, "a table")

    def span(self, where: str, value: Any) -> tuple[int, int] | None:
        """Return a stretch from one place to another."""
        whole = isinstance(value, list) and len(value) == 2 and all(type(x) is int for x in value)
        if not whole or value[0] >= value[1]:
            self.fault(where, value, "[x0, x1], whole numbers, the lesser first")
            return None
        return value[0], value[1]


def _task(reader: _Reader, document: dict[str, Any]) -> Task:
    pieces: tuple[Piece, ...] = ()
    lines: tuple[Line, ...] = ()
    beside: tuple[Beside, ...] = ()
    price = 0
    if document.get("kind") == "cut1d" or "pieces" in document:
        pieces = tuple(_pieces(reader, document))
    if document.get("kind") == "joint":
        lines, beside = _lines(reader, document)
        price = reader.whole(document, "joint_cost", "", 0)
    return Task(
        stock=tuple(_stock(reader, document)),
        kerf=reader.whole(document, "kerf", "", 0),
        pieces=pieces,
        lines=lines,
        beside=beside,
        joint_price=price,
    )


def _stock(reader: _Reader, document: dict[str, Any]) -> Iterable[Stock]:
    trim = reader.whole(document, "trim_per_end", "", 0)
    for i, (where, row) in enumerate(reader.tables(document, "stocks")):
        yield Stock(
            name=f"S{i}",
            length=reader.whole(row, "length", where, 1),
            price=reader.whole(row, "cost", where, 0),
            limit=reader.whole(row, "available", where, 0, other=None),
            trim=trim,
        )


def _pieces(reader: _Reader, document: dict[str, Any]) -> Iterable[Piece]:
    for where, row in reader.tables(document, "pieces"):
        yield Piece(
            length=reader.whole(row, "length", where, 1),
            count=reader.whole(row, "count", where, 0),
        )


def _lines(
    reader: _Reader, document: dict[str, Any]
) -> tuple[tuple[Line, ...], tuple[Beside, ...]]:
    """Return a set of lines for every part of every run of equal rows, and what lies beside."""
    joists = _joists(reader, document)
    edge = max(1, reader.whole(document, "min_edge_to_joist", "", 0))
    rules = {
        "joint_gap": reader.whole(document, "joint_gap", "", 0),
        "least_bays": reader.whole(document, "min_bays_per_piece", "", 0),
        "stagger": reader.whole(document, "stagger_bays", "", 0),
        "most_joints": reader.whole(document, "most_joints_per_row", "", 0, other=None),
    }
    lines: list[Line] = []
    runs: list[list[int]] = []
    for parts, count in _runs(reader, document.get("rows")):
        runs.append(list(range(len(lines), len(lines) + len(parts))))
        lines += [_line(part, count, joists, edge, rules) for part in parts]
    beside = [
        Beside(one=one, other=other)
        for run, following in pairwise(runs)
        for one in run
        for other in following
        if lines[one].start < lines[other].end and lines[other].start < lines[one].end
    ]
    return tuple(lines), tuple(beside)


def _line(
    part: tuple[int, int], count: int, joists: list[int], edge: int, rules: dict[str, Any]
) -> Line:
    """Return a set of lines: its ends bear it like joists, those too near an end do not count.

    Joists are numbered from 1 on, so that the start of a row is one before its first joist.
    """
    start, end = part
    first, last = bisect_left(joists, start + edge), bisect_left(joists, end - edge + 1)
    kept = joists[first : max(first, last)]
    return Line(
        count=count,
        start=start,
        end=end,
        stations=(start, *kept, end),
        first_station=first,
        **rules,
    )


def _joists(reader: _Reader, document: dict[str, Any]) -> list[int]:
    joists = document.get("joist_centres")
    if not isinstance(joists, list) or not all(type(x) is int for x in joists):
        reader.fault("joist_centres", joists, "a list of whole numbers")
        return []
    if any(a >= b for a, b in pairwise(joists)):
        reader.fault("joist_centres", joists, "each farther than the last")
        return []
    return joists


def _runs(reader: _Reader, rows: Any) -> list[tuple[Parts, int]]:
    """Return the runs of equal rows: the parts of one, and how many there are."""
    if isinstance(rows, dict):
        count = reader.whole(rows, "count", "rows.", 1)
        span = reader.span("rows", [rows.get("x0"), rows.get("x1")])
        return [((span,), count)] if span else []
    if not isinstance(rows, list) or not rows:
        reader.fault("rows", rows, "{count, x0, x1}, or a list of rows")
        return []
    parted = [_parts(reader, f"rows[{i}]", row) for i, row in enumerate(rows)]
    return [(parts, len(list(run))) for parts, run in groupby(parted)]


def _parts(reader: _Reader, where: str, row: Any) -> Parts:
    if not isinstance(row, list) or not row or not isinstance(row[0], list):
        span = reader.span(where, row)
        return (span,) if span else ()
    spans = [reader.span(f"{where}[{i}]", part) for i, part in enumerate(row)]
    parts = tuple(span for span in spans if span)
    if any(one[1] >= other[0] for one, other in pairwise(parts)):
        reader.fault(where, row, "parts in order, with room between them")
    return parts
