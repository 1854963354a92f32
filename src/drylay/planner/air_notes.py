"""What is to be said of the air under boards that want some, and of edges shut against it."""

from collections.abc import Iterator

from drylay.findings import Finding, Severity
from drylay.planner.built import Framed, Sited
from drylay.planner.fascia_notes import under_mm
from drylay.planner.job import Job
from drylay.units import length_text

PATH = "site.air_below_least_mm"
SLAB = "never on a flat slab without battens and drainage"


def remarks(job: Job, built: Framed) -> Iterator[Finding]:
    """Yield what boards that want air below lack; nothing of boards that want none."""
    shut = len({face.side for face in built.edges.faces}) == 4
    yield from lacking(job, built, "four" if shut else "")


def lacking(job: Job, built: Sited, shut: str) -> Iterator[Finding]:
    """Yield what boards lack that want air below; `shut` counts sides, where all carry fascia."""
    least_mm, room_mm = built.site.air_below_least_mm or 0.0, under_mm(built)
    if not least_mm:
        return
    wants = f"these boards want {length_text(least_mm, job.brief.units)} of clear air below"
    if room_mm is None:
        yield _told(job, "AIR-001", Severity.NOTE, f"{wants} and open edges, {SLAB}; nothing tells "
                    "how much there is: give levels, or name a packer as high", None)  # fmt: skip
    elif room_mm < least_mm:
        there = length_text(room_mm, job.brief.units)
        yield _told(job, "AIR-001", Severity.CAUTION, f"{wants} and open edges, {SLAB}; here are "
                    f"{there}: name packers as high, dig deeper, or raise the deck's top",
                    _as_held(built, room_mm))  # fmt: skip
    if shut:
        yield _told(job, "AIR-002", Severity.CAUTION, f"{wants} and edges that let it through: all "
                    f"{shut} sides carry fascia; leave one off, or leave a slot below it",
                    None)  # fmt: skip


def _as_held(built: Sited, room_mm: float) -> float | None:
    """Return the room where the plan holds it as it is, None where it is a sum over gravel."""
    levels, ground = built.site.levels, built.groundwork
    packing = ground.packing if ground else None
    held = (levels and levels.under_least_mm, packing and packing.height_least_mm)
    return room_mm if room_mm in held else None


def _told(job: Job, code: str, severity: Severity, message: str, measured: float | None) -> Finding:
    known = measured is not None
    return Finding(
        code=code,
        severity=severity,
        subject="air below",
        message=message,
        measured=measured,
        limit=job.rules.value(PATH) if known else None,
        unit="mm" if known else "",
        source=job.rules.source(PATH),
    )
