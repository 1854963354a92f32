"""Gaps between rows of wood through the year, from the moisture of laying day."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.marks import PER_MM, to_mm
from drylay.movement.width import SATURATION_PCT
from drylay.planner.asking import laying_pct_of
from drylay.planner.built import Built
from drylay.planner.governed import MOIST
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, brief_says, row
from drylay.plugins.table_rules import has_word
from drylay.reasons import Source
from drylay.surface.model import Moisture, Surface
from drylay.units import length_at_least, length_at_most

AT = "surface.moisture"
PHYSICS = Source(
    kind="handbook",
    title="Wood Handbook FPL-GTR-190",
    clause="ch. 13: change of width = width x movement x change of moisture; made for 6 to 14 %, "
    "rougher above",
)
OPENS = Source(kind="from memory", title="green oak boards", clause="will open 6 and more")
#: So far green boards open, at least, where nobody tells their moisture.
GREEN_OPENS_MM = 6.0


def with_moisture(job: Job, surface: Surface) -> Surface:
    """Return the surface with what its gaps become, where moisture and movement are told."""
    laying_pct, rulings = laying_pct_of(job.brief.climate), job.rules.rulings
    gaps = [after.gap_mm for before, after in pairwise(surface.rows)
            if not before.border and not after.border]  # fmt: skip
    if laying_pct is None or not gaps or any(each.path not in rulings for each in MOIST):
        return surface
    movement, wettest_pct, driest_pct = (job.rules.value(each.path) for each in MOIST)
    swelling = _change_mm(surface, movement, laying_pct, wettest_pct)
    shrinkage = _change_mm(surface, movement, driest_pct, laying_pct)
    return evolve(
        surface,
        moisture=Moisture(
            movement_per_pct=movement,
            laying_pct=laying_pct,
            wettest_pct=wettest_pct,
            driest_pct=driest_pct,
            narrowest_mm=to_mm(floor((_exactly(min(gaps)) - swelling) * PER_MM)),
            widest_mm=to_mm(ceil((_exactly(max(gaps)) + shrinkage) * PER_MM)),
        ),
    )


def _exactly(value: float) -> Fraction:
    return Fraction(repr(float(value)))


def _change_mm(surface: Surface, movement: float, from_pct: float, to_pct: float) -> Fraction:
    """Return how much wider a board is at a wetter end; nothing where that end is no wetter."""
    wet, dry = (min(_exactly(each), _exactly(SATURATION_PCT)) for each in (to_pct, from_pct))
    return max(Fraction(0), wet - dry) * _exactly(movement) * _exactly(surface.board_width_mm)


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here; rules on movement and the year are adopted apart."""
    found = built.surface.moisture
    if found is None:
        return []
    inputs = (("board_width_mm", built.surface.board_width_mm),
              ("movement_per_pct", found.movement_per_pct),
              ("laying_pct", found.laying_pct))  # fmt: skip
    told = job.brief.climate.laying_pct is not None
    return [
        row(f"{AT}.laying_pct", found.laying_pct, "%",
            "moisture of the boards on laying day" if told
            else "what boards settle at in the air of laying day",
            brief_says("climate.laying_pct" if told else "climate.laying_humidity_ratio")),
        row(f"{AT}.narrowest_mm", found.narrowest_mm, "mm",
            "the narrowest gap as laid, less what a board swells to its wettest", ARITHMETIC,
            (*inputs, ("wettest_pct", found.wettest_pct))),
        row(f"{AT}.widest_mm", found.widest_mm, "mm",
            "the widest gap as laid, and what a board shrinks to its driest", ARITHMETIC,
            (*inputs, ("driest_pct", found.driest_pct))),
    ]  # fmt: skip


def remarks(job: Job, built: Built) -> Iterator[Finding]:
    """Yield what becomes of the gaps in the year, and that boards press or were laid green."""
    found, units, green = built.surface.moisture, job.brief.units, _green(job)
    if found is None:
        if green:
            opens = length_at_least(GREEN_OPENS_MM, units)
            yield _told("MOV-105", Severity.CAUTION, f"green boards shrink: these gaps will open "
                        f"to {opens} and more; tell climate.laying_pct, and the plan reckons it",
                        None, OPENS)  # fmt: skip
        return
    widest = length_at_least(found.widest_mm, units)
    narrowest = length_at_most(max(0.0, found.narrowest_mm), units)
    laid = length_at_least(built.surface.gap_preferred_mm, units)
    yield _told("MOV-103", Severity.NOTE, f"laid at {laid} and {found.laying_pct:g} % moisture, "
                f"the gap between rows will be {narrowest} to {widest} through the year",
                found.widest_mm, PHYSICS)  # fmt: skip
    if green:
        yield _told("MOV-105", Severity.CAUTION, f"green boards shrink: these gaps will open to "
                    f"{widest}", found.widest_mm, PHYSICS)  # fmt: skip
    if found.narrowest_mm <= 0:
        yield _told("MOV-104", Severity.CAUTION, "boards press against each other when wettest, "
                    "and water stands: lay them further apart, or drier boards later",
                    found.narrowest_mm, PHYSICS)  # fmt: skip


def _green(job: Job) -> bool:
    return has_word(job.articles.board.species, "green")


def _told(
    code: str, severity: Severity, message: str, measured: float | None, source: Source
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        subject="gap",
        message=message,
        measured=measured,
        unit="" if measured is None else "mm",
        source=source,
    )
