"""Doubles of a frame under an outline: which screw makes two timbers one, and what is said."""

from collections.abc import Iterator, Sequence

from drylay.findings import Finding, Severity
from drylay.fixings.doubles import (
    END_SHANKS,
    POINT_SHANKS,
    SHANK_LEAST_MM,
    count_double_screws,
    doubled_members,
    may_join,
)
from drylay.fixings.model import DoubleScrews, Fixings
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Screw
from drylay.planner.built import Wanted
from drylay.planner.buy import in_boxes
from drylay.planner.job import Job
from drylay.planner.metals import metal_rulings
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.reasons import Source, TurnedDown
from drylay.subframe.model import Member, Subframe

PATH, WHAT = "fixings.double_screws", "screws of doubles"
RATIO = "fixings.frame_screws.pilot_ratio"
HANDBOOK = Source(
    kind="handbook",
    title="US Army engineer training text on carpentry (EN0069), girders",
    clause="two joists: nails 24 in apart, 1 1/2 in from the edges, staggered, from both faces",
)
ENDS = Source(
    kind="from memory", title="IRC, table R602.3(1)", clause="built-up girders: two at either end"
)
EUROCODE = "EN 1995-1-1"
POINT = Source(kind="from memory", title=EUROCODE, clause="8.7.2 (3): 6 d in the second timber")
END = Source(kind="from memory", title=EUROCODE, clause="table 8.2, a3,c: 10 d to an end")


def screw_of_doubles(job: Job) -> Screw | None:
    """Return the brief's frame screw if it makes two timbers one, else the longest that does.

    Of those on sale whose metal may be driven into the frame; of equally long ones the thickest,
    then the first by its code. None where none does.

    Source: docs/outline-conventions.md, Fixings on an outline.
    """
    named = job.articles.frame_screw
    if named is not None and _joins(job, named):
        return named
    fit = [each for each in job.stock.screws if _joins(job, each) and _is_allowed(job, each)]
    order = sorted(fit, key=lambda each: each.code)
    return max(order, key=lambda each: (each.length_mm, each.shank_mm), default=None)


def _joins(job: Job, screw: Screw) -> bool:
    return may_join(job.articles.timber.thickness_mm, screw.shank_mm, screw.length_mm)


def _is_allowed(job: Job, screw: Screw) -> bool:
    return all(
        screw.metal in rulings and rulings[screw.metal].value == 1
        for rulings in metal_rulings(job, WHAT)
    )


def double_screws(job: Job, members: Sequence[Member]) -> DoubleScrews | None:
    """Return the screws of doubles; None without doubles, or where no screw on sale will do."""
    screw, timber = screw_of_doubles(job), job.articles.timber
    if screw is None:
        return None
    return count_double_screws(
        members,
        timber_mm=(timber.thickness_mm, timber.depth_mm),
        article=screw.code,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        pilot_ratio=job.rules.value(RATIO),
        driver=screw.driver,
    )


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return what of them is to be bought."""
    screw, counted = screw_of_doubles(job), fixings.double_screws
    return (in_boxes(WHAT, screw, counted.count),) if screw and counted else ()


def rows(job: Job, fixings: Fixings) -> list[Row]:
    """Return the decisions taken here."""
    screws = fixings.double_screws
    return [] if screws is None else [*_of_length(job, screws), *_of_places(job, screws)]


def _of_length(job: Job, screws: DoubleScrews) -> list[Row]:
    named = job.articles.frame_screw
    own = named is not None and named.code == screws.article
    timber_mm = job.articles.timber.thickness_mm
    turned_down = [] if own or named is None else [TurnedDown(
        value=f"{named.code}, {named.length_mm:g} mm",
        because="it stands out behind two timbers, reaches too little into the second, or is too "
        "thin")]  # fmt: skip
    told = "the frame screw the brief names: it holds two timbers and does not stand out behind"
    other = "the longest on sale that holds two timbers and does not stand out behind"
    return [
        row(f"{PATH}.length_mm", screws.length_mm, "mm", told if own else other,
            brief_says("fixings.frame_screw") if own else merchant_says(job, screws.article),
            (("length_least_mm", screws.length_least_mm),
             ("length_most_mm", screws.length_most_mm), ("shank_least_mm", SHANK_LEAST_MM)),
            turned_down),
        row(f"{PATH}.length_least_mm", screws.length_least_mm, "mm",
            "through one timber and six shanks into the other", POINT,
            (("timber_thickness_mm", timber_mm), ("shank_mm", screws.shank_mm),
             ("shanks", POINT_SHANKS))),
        row(f"{PATH}.length_most_mm", screws.length_most_mm, "mm",
            "no point stands out behind the second timber", ARITHMETIC,
            (("timber_thickness_mm", timber_mm),)),
    ]  # fmt: skip


def _of_places(job: Job, screws: DoubleScrews) -> list[Row]:
    ruled = job.rules.rulings[RATIO]
    return [
        row(f"{PATH}.pilot_ratio", screws.pilot_ratio, ruled.unit, ruled.rule, ruled.source,
            ruled.inputs),
        row(f"{PATH}.per_end", screws.per_end, "count",
            "so many one above the other near either end of every stretch", ENDS),
        row(f"{PATH}.spacing_most_mm", screws.spacing_most_mm, "mm",
            "one by turns near the top and near the foot, so that those along either edge are "
            "twice as far apart", HANDBOOK),
        row(f"{PATH}.end_least_mm", screws.end_least_mm, "mm",
            "ten shanks from the ends of a stretch to the first screws", END,
            (("shank_mm", screws.shank_mm), ("shanks", END_SHANKS))),
        row(f"{PATH}.edge_mm", screws.edge_mm, "mm",
            "off the top and off the foot; a quarter of the depth where that is less", HANDBOOK,
            (("timber_depth_mm", job.articles.timber.depth_mm),)),
        row(f"{PATH}.count", screws.count, "count",
            "two near either end of every stretch that two timbers touch along, and the fewest "
            "between that keep the spacing", ARITHMETIC,
            (("per_end", screws.per_end), ("stretches", len(screws.stretches)),
             ("between", sum(each.between for each in screws.stretches)))),
    ]  # fmt: skip


def remarks(frame: Subframe, fixings: Fixings) -> Iterator[Finding]:
    """Yield which doubles no screw of the order holds, and along how much they touch."""
    screws = fixings.double_screws
    held = {each.member for each in screws.stretches} if screws else set()
    loose = [each for each in doubled_members(frame.members) if each.member.mark not in held]
    if loose:
        because = (
            "no screw on sale is long and thick enough for two timbers without standing out behind"
            if screws is None
            else "they touch along too little for a screw with wood enough before it"
        )
        yield Finding(
            code="SUB-015",
            severity=Severity.CAUTION,
            subject=", ".join(dict.fromkeys(each.member.mark for each in loose)),
            message="these are to be screwed to their neighbours into one timber, along so much in "
            f"all, and their screws are not in this order: {because}. Choose them with your "
            "merchant",
            measured=to_mm(sum(exact(each.length_mm) for each in loose)),
            unit="mm",
            source=PRACTICE,
        )
