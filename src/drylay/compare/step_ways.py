"""What of a brief is changed to see what would change the deck, and how far."""

from collections.abc import Iterable

from attrs import frozen

from drylay.compare.step_sweep import (
    APART_320,
    CENTRES,
    GAP,
    SIZES,
    TOP,
    Looker,
    designed,
    values_about,
)
from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.intake.words import nearest_of
from drylay.marks import MARK_320, is_number
from drylay.planner.angles import is_outlined
from drylay.planner.glance import jobs_asked
from drylay.planner.job import Job
from drylay.reasons import Source

RUN, BOARD = "board.run", "board.article"
#: All that is changed, one at a time.
PATHS = (*SIZES, GAP, CENTRES, TOP, RUN, BOARD)
MOST_WITHIN_MM = 1000.0
OTHER_RUN = {"along": "across", "across": "along"}
LOOKED_AT = Source(kind="assumption", title="docs/step-points.md", clause="What is not looked at")


@frozen(kw_only=True)
class Way:
    """A figure of the brief, its own value, and every value it is looked at with."""

    path: str
    here_mm: float
    values_mm: tuple[float, ...]


def checked_paths(
    within_mm: float, counts_within_mm: float, paths: Iterable[str] | None
) -> tuple[str, ...]:
    """Return the paths to change, in their order.

    Raises:
        InputError: The reach is not above 0 or over 1000 mm, or a path is none of `PATHS`.
    """
    reaches = {"within_mm": within_mm, "counts_within_mm": counts_within_mm}
    wanted = f"a length above 0 and not over {MOST_WITHIN_MM:g} mm"
    faults = [
        Fault(path=name, found=repr(reach_mm), wanted=wanted)
        for name, reach_mm in reaches.items()
        if not is_number(reach_mm) or not 0 < reach_mm <= MOST_WITHIN_MM
    ]
    asked = PATHS if paths is None else tuple(paths)
    for path in asked:
        if path not in PATHS:
            near = nearest_of(str(path), PATHS) or ""
            wanted = f"one of {', '.join(PATHS)}"
            faults.append(Fault(path="paths", found=repr(path), wanted=wanted, nearest=near))
    if faults:
        raise InputError(tuple(faults))
    return tuple(path for path in PATHS if path in asked)


def ways_of(
    looker: Looker, paths: tuple[str, ...], within_mm: float
) -> tuple[list[Way], tuple[Finding, ...]]:
    """Return what is changed in mm, and notes on what cannot be.

    Raises:
        BriefError: The brief cannot be planned from.
    """
    job, *_ = jobs_asked(looker.glances, looker.brief)
    ways, untold = [], []
    for path in paths:
        if path in {RUN, BOARD}:
            continue
        found = _way(looker, job, path, within_mm)
        if isinstance(found, Way):
            ways.append(found)
        else:
            untold.append(not_told(path, f"not looked at: {found}"))
    return ways, tuple(untold)


def _way(looker: Looker, job: Job, path: str, within_mm: float) -> Way | str:
    """Return the values of a path, or why there are none."""
    if path in SIZES:
        return _size(job, path, within_mm)
    if path == GAP:
        return _gap(job)
    apart_320 = APART_320[job.brief.units]
    here_mm = _centres_mm(job) if path == CENTRES else _top_mm(looker)
    if here_mm is None:
        return "nothing tells it" if path == TOP else "nothing rules it in this deck"
    return Way(path=path, here_mm=here_mm, values_mm=values_about(
        here_mm, within_mm, apart_320, least_mm=None if path == TOP else 0.0))  # fmt: skip


def _size(job: Job, path: str, within_mm: float) -> Way | str:
    if is_outlined(job.asked):
        return "the size of an outline is that of its points: change these, and plan again"
    cover = job.asked.cover
    here_mm = cover.along_mm if path == SIZES[0] else cover.across_mm
    values_mm = values_about(here_mm, within_mm, APART_320[job.brief.units])
    return Way(path=path, here_mm=here_mm, values_mm=values_mm)


def _gap(job: Job) -> Way | str:
    """Return the pencil marks between the least gap and the most, and the preferred one."""
    named = [f"surface.gap_{which}_mm" for which in ("least", "preferred", "most")]
    if any(path not in job.rules.rulings for path in named):
        return "no rule tells the gap"
    least, here, most = (job.rules.value(path) for path in named)
    if least == most:
        return "the gap is fixed: whatever holds the boards sets it"
    mark = MARK_320[job.brief.units]
    reach_mm = max(here - least, most - here)
    values = (mm for mm in values_about(here, reach_mm, mark, least_mm=None) if least <= mm <= most)
    return Way(path=GAP, here_mm=here, values_mm=tuple(values))


def _centres_mm(job: Job) -> float | None:
    known = "supports.most_centres_mm" in job.rules.rulings and job.asked.frame.article is not None
    return job.rules.value("supports.most_centres_mm") if known else None


def _top_mm(looker: Looker) -> float | None:
    told_mm = looker.brief.levels.deck_top_mm
    if told_mm is not None:
        return told_mm
    plan = designed(looker, "", None)
    levels = plan.site.levels if plan is not None and plan.site is not None else None
    return None if levels is None else levels.deck_top_mm


def swaps_of(looker: Looker, paths: tuple[str, ...]) -> list[tuple[str, str]]:
    """Return the words that are tried in the brief: the other run, other boards on sale."""
    board, stock = looker.brief.board, looker.glances.stock
    found = [(RUN, OTHER_RUN[board.run])] if RUN in paths else []
    others = stock.tiles if board.support else stock.boards
    if BOARD in paths:
        found += [(BOARD, other.code) for other in others if other.code != board.article]
    return found


def not_told(path: str, why: str) -> Finding:
    """Return the note on a change that was not looked at, or that comes to nothing."""
    return Finding(
        code="STP-001",
        severity=Severity.NOTE,
        subject=path,
        message=why,
        source=LOOKED_AT,
    )
