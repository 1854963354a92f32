"""What is wrong or worth telling about the ground under the deck."""

from collections.abc import Iterable

from drylay.findings import Finding, Severity
from drylay.groundwork.gravel import LEAST_MM
from drylay.groundwork.model import Dig, GravelBed, Packing
from drylay.groundwork.packing import (
    HEIGHT_MOST_MM,
    MADE_UP_MOST_MM,
    Clearance,
    clearance,
    sunk_mm,
)
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Fabric
from drylay.planner.built import Sited
from drylay.planner.cuts import STOCK_SOURCE
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, merchant_says
from drylay.planner.stood import stands
from drylay.reasons import Source
from drylay.site.model import Site

ASSUMED = Source(kind="assumption", title="docs/conventions.md", clause="Ground")
#: A roll's width holds the widest lap so many times. Assumption.
LAPS_TO_WIDTH = 2
#: Code, subject, message, measured, limit, source.
_Stop = tuple[str, str, str, float, float, Source]


def _stop(code: str, subject: str, message: str, figures: tuple[float, float | None],
          source: Source) -> Finding:  # fmt: skip
    measured, limit = figures
    return Finding(
        code=code,
        severity=Severity.STOP,
        subject=subject,
        message=message,
        measured=measured,
        limit=limit,
        unit="mm",
        source=source,
    )


def unfit_fabric(job: Job, lap_mm: float) -> tuple[Finding, ...]:
    """Return why the fabric named is none to lay under a deck, whatever its lengths."""
    fabric = job.articles.fabric
    if fabric is None:
        return ()
    record, found = merchant_says(job, fabric.code), []
    if not fabric.permeable:
        found.append(
            Finding(
                code="GND-001",
                severity=Severity.STOP,
                subject="ground fabric",
                message=f"{fabric.code} is a sealed sheet, which holds water under the deck: name "
                "a fabric that lets water through",
                source=record,
            )
        )
    most_mm = to_mm(exact(fabric.width_mm) // LAPS_TO_WIDTH)
    if lap_mm > most_mm:
        message = (
            "strips that lap by more than half their width lie threefold and buy fabric for "
            "nothing: lap them less, or name a wider roll"
        )
        figures = (lap_mm, most_mm)
        found.append(_stop("GND-003", "ground fabric", message, figures, ASSUMED))
    return tuple(found)


def no_roll(job: Job, strip_mm: float, roll: Fabric, refused: Iterable[Finding]) -> Finding:
    """Return the stop for a dig that no roll on sale covers, strips of the shorter way so long."""
    longest_mm = max((e.length_mm for e in roll.lengths if e.limit != 0), default=0.0)
    trimmed_mm = longest_mm - 2 * job.brief.cutting.end_trim_mm
    if strip_mm > trimmed_mm:
        message = (
            "no roll is as long as a strip, along the house or away from it: name a fabric sold "
            f"in rolls of {strip_mm:g} mm or longer, or a smaller margin"
        )
        figures = (strip_mm, trimmed_mm)
        return _stop("GND-002", "ground fabric", message, figures, merchant_says(job, roll.code))
    return Finding(
        code="GND-002",
        severity=Severity.STOP,
        subject="ground fabric",
        message="; ".join(f"{finding.subject}: {finding.message}" for finding in refused),
        source=STOCK_SOURCE,
    )


def stops(
    job: Job, site: Site, *, dig: Dig | None, gravel: GravelBed | None, packing: Packing | None
) -> tuple[Finding, ...]:
    """Return everything of gravel, packers and levels that keeps the deck from being built."""
    found = [] if gravel is None or dig is None else _thin(gravel)
    if found:  # the bed has no height to reckon from
        return tuple(found)
    room = clearance(site.levels, sunk_mm(dig, gravel))
    if room is not None and (dig is not None or packing is not None):
        found += _in_the_ground(room)
    if stands(job.brief):
        return tuple(found)
    found += _out_of_reach(job, packing, room) if packing is not None else _hanging(dig, room)
    return tuple(found)


def stops_under_pads(
    _job: Job, site: Site, *, dig: Dig | None, gravel: GravelBed | None, packing: Packing | None
) -> tuple[Finding, ...]:
    """Return what keeps tiles on pads from being laid there, but for the pads themselves."""
    assert packing is None
    found = [] if gravel is None or dig is None else _thin(gravel)
    room = clearance(site.levels, sunk_mm(dig, gravel))
    if found or room is None or room.least_mm >= 0:
        return tuple(found)
    message = (
        f"their underside would lie {-room.least_mm:g} mm in the ground: dig that much deeper, or "
        "raise the deck"
    )
    return (_stop("GND-007", "tiles", message, (room.least_mm, 0.0), ARITHMETIC),)


def _thin(gravel: GravelBed) -> list[Finding]:
    if gravel.depth_mm >= LEAST_MM:
        return []
    message = (
        "so thin a bed of gravel is no bed: dig deeper, "
        f"strip_mm = {LEAST_MM + gravel.below_lawn_mm:g} or more, or leave it less far under "
        f"the lawn than {gravel.below_lawn_mm:g} mm"
    )
    return [_stop("GND-004", "gravel", message, (gravel.depth_mm, LEAST_MM), ASSUMED)]


def _in_the_ground(room: Clearance) -> list[Finding]:
    if room.least_mm >= 0:
        return []
    message = (
        f"its underside would lie {-room.least_mm:g} mm in the ground: dig that much deeper, or "
        "raise the deck"
    )
    return [_stop("GND-007", "frame", message, (room.least_mm, 0.0), ARITHMETIC)]


def _too_high(height_mm: float) -> list[Finding]:
    message = "so high over the ground it needs legs or bearers, which are not planned here"
    return [_stop("GND-006", "frame", message, (height_mm, HEIGHT_MOST_MM), ASSUMED)]


def _hanging(dig: Dig | None, room: Clearance | None) -> list[Finding]:
    """Return the stop for a frame over its bed, on nothing that this plan has.

    A bed can be made up by so much more gravel; assumption.
    """
    if dig is None or room is None or room.most_mm <= MADE_UP_MOST_MM:
        return []
    if room.most_mm > HEIGHT_MOST_MM:
        return _too_high(room.most_mm)
    message = (
        f"it lies on nothing where the ground is lowest: name packers that reach from "
        f"{room.least_mm:g} to {room.most_mm:g} mm, or lower the deck"
    )
    return [_stop("GND-014", "frame", message, (room.most_mm, MADE_UP_MOST_MM), ASSUMED)]


def _out_of_reach(job: Job, packing: Packing, room: Clearance | None) -> list[Finding]:
    """Return the stop for packers that do not fill the room between bed and frame."""
    if packing.height_most_mm > HEIGHT_MOST_MM:
        return _too_high(packing.height_most_mm)
    if room is None or room.least_mm < 0:
        return []
    least, most = packing.reach_least_mm, packing.reach_most_mm
    fix = f"name packers that reach from {room.least_mm:g} to {room.most_mm:g} mm"
    record = merchant_says(job, packing.article)
    found = []
    if room.most_mm > most:
        message = f"too low for where the ground is lowest: {fix}, or raise the ground there"
        found.append(_stop("GND-005", "packers", message, (room.most_mm, most), record))
    if room.least_mm < least:
        message = (
            f"too high for where the ground is highest: {fix}, or dig {least - room.least_mm:g} "
            "mm deeper there"
        )
        found.append(_stop("GND-005", "packers", message, (room.least_mm, least), record))
    return found


def remarks(built: Sited) -> list[Finding]:
    """Return what is worth telling about the ground."""
    ground = built.groundwork
    dig = ground.dig if ground else None
    packing = ground.packing if ground else None
    room = clearance(built.site.levels, sunk_mm(dig, ground.gravel if ground else None))
    found = _of_the_dig() if dig is not None else []
    if packing is not None:
        found += _of_packers(packing)
    elif dig is not None and room is not None and room.most_mm > 0:
        message = (
            "where the ground is lower than its underside make the bed up to it: gravel for that "
            "is not counted"
        )
        found.append(_told("GND-011", Severity.CAUTION, "frame", message, ARITHMETIC))
    asked = bool(built.stops)  # the ground was asked for, and cannot be had
    if ground is None and not asked and room is not None and room.least_mm < 0:
        message = "its underside lies in the ground, and the brief asks for no dig: give strip_mm"
        found.append(_told("GND-012", Severity.CAUTION, "frame", message, ARITHMETIC))
    return found


def _told(code: str, severity: Severity, subject: str, message: str, source: Source) -> Finding:
    return Finding(code=code, severity=severity, subject=subject, message=message, source=source)


def _of_the_dig() -> list[Finding]:
    return [
        _told("GND-013", Severity.CAUTION, "dig", "have buried cables, pipes and drains found "
              "before the first spade; stop at anything unknown", PRACTICE),
        _told("GND-008", Severity.NOTE, "ground", "gravel drains only where the ground beneath it "
              "does; no sealed sheet under the deck", PRACTICE),
    ]  # fmt: skip


def _of_packers(packing: Packing) -> list[Finding]:
    found = [
        Finding(
            code="GND-009",
            severity=Severity.NOTE,
            subject="packers",
            message="they stand under the joists, which carry; so far apart at most they are taken "
            "as lying on the ground, strength is not checked",
            measured=packing.spacing_most_mm,
            unit="mm",
            source=ASSUMED,
        )
    ]
    if not packing.levels_known:
        found.append(
            Finding(
                code="GND-010",
                severity=Severity.CAUTION,
                subject="packers",
                message="without levels nobody knows how high they stand: counted at their least "
                "height; give the levels of deck and ground",
                measured=packing.height_least_mm,
                unit="mm",
                source=ASSUMED,
            )
        )
    return found
