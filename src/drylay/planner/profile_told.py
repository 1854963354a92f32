"""What is to be said of lines and profiles: where there is less room than was asked for."""

from collections.abc import Iterator, Mapping, Sequence

from drylay.findings import Finding, Severity
from drylay.geometry import Place
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.planner.profile_places import Strung
from drylay.planner.rows import PRACTICE
from drylay.work.model import Profile


def findings_of(  # noqa: PLR0917 - what is told, and all that it is told of
    plan: Plan, strung: Sequence[Strung], boards: Sequence[Profile], clear_mm: float,
    over_top_mm: float | None, struck: Mapping[str, Sequence[str]],
) -> Iterator[Finding]:  # fmt: skip
    """Yield what is to be said, in the order of the lines."""
    for board in boards:
        if board.clear_mm < clear_mm:
            yield _found("SET-101", Severity.CAUTION, board.mark,
                         f"stands nearer to the dig than was asked for: {board.line} has no more "
                         "room there", board.clear_mm, clear_mm)  # fmt: skip
    for each in strung:
        yield from _of_line(each, struck.get(each.line.mark, ()))
    yield from _passed(strung, boards)
    if over_top_mm is None:
        yield _found("SET-105", Severity.NOTE, "lines",
                     "the brief tells no levels of the ground: string all lines at one level of "
                     "your own, clear of the ground, and write it down")  # fmt: skip
    if plan.groundwork is None or plan.groundwork.dig is None:
        yield _found(
            "SET-106",
            Severity.NOTE,
            "profiles",
            "the plan digs nothing: profiles are clear of the cover's own edge",
        )


def _of_line(each: Strung, struck: Sequence[str]) -> Iterator[Finding]:
    for peg, end in zip(each.line.pegs, each.ends, strict=True):
        if end.kind == "none":
            yield _found("SET-102", Severity.CAUTION, each.line.mark,
                         f"there is no room for a profile past {peg}, and no wall: set {peg} by "
                         "its ties or diagonals")  # fmt: skip
    if each.line.off_mm:
        yield _found("SET-103", Severity.NOTE, each.line.mark,
                     "strung inside its pegs, for want of room over them: the frame's side lies so "
                     "far outside the string", each.line.off_mm)  # fmt: skip
    for what in struck:
        yield _found(
            "SET-104",
            Severity.CAUTION,
            each.line.mark,
            f"{what} stands in its way: string it in two, or set its pegs by their ties",
        )


def _passed(strung: Sequence[Strung], boards: Sequence[Profile]) -> Iterator[Finding]:
    """Yield the profiles that another line runs over."""
    for board in boards:
        straight = (_place(board.start), _place(board.end))
        over = [
            each.line.mark
            for each in strung
            if each.line.mark != board.line and each.runs_over(straight)
        ]
        for mark in over:
            yield _found(
                "SET-107",
                Severity.NOTE,
                board.mark,
                f"{mark} runs over it: keep its board and its nail just under that line",
            )


def _place(spot: Spot) -> Place:
    return spot.along_mm, spot.across_mm


def _found(  # noqa: PLR0917 - what every finding has
    code: str, severity: Severity, subject: str, message: str,
    measured_mm: float | None = None, limit_mm: float | None = None,
) -> Finding:  # fmt: skip
    return Finding(code=code, severity=severity, subject=subject, message=message,
                   measured=measured_mm, limit=limit_mm, source=PRACTICE,
                   unit="" if measured_mm is None else "mm")  # fmt: skip
