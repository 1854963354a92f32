"""What a brief wishes that no deck should have, whatever its rows come to."""

from collections.abc import Iterator
from math import ceil

from drylay.brief.model import InspectionCover
from drylay.brief.outline_model import OpeningWish, OutlineWish
from drylay.findings import Finding, Severity
from drylay.geometry import common, region
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE
from drylay.reasons import Source
from drylay.regions.hard_stops import WHO
from drylay.rings import Ring, about, apart, holds, rectangle
from drylay.shapes import place_of, shape_of
from drylay.site.limits import VENT_SOURCE, bricks_beside

#: Who lives by a sewer that is not one's own is asked this near to it.
#: Source: Approved Document H4, England.
SEWER_NEAR_MM = 3000.0
H4 = Source(kind="standard", title="Approved Document H, England", clause="H4")
#: Standard acceleration of gravity, m/s2. Source: ISO 80000-3.
GRAVITY = 9.80665
_PER_MM = 320

STOP, CAUTION, NOTE = Severity.STOP, Severity.CAUTION, Severity.NOTE


def remarks(job: Job) -> Iterator[Finding]:
    """Yield everything that is wrong with a brief's wishes beside its rows."""
    yield from _joists_along_boards(job)
    yield from _no_way_for_air(job)
    yield from _falls(job)
    yield from _tub(job)
    yield from _drains(job)


def _told(
    code: str, severity: Severity, subject: str, message: str, source: Source = PRACTICE
) -> Finding:
    return Finding(code=code, severity=severity, subject=subject, message=message, source=source)


def _joists_along_boards(job: Job) -> Iterator[Finding]:
    run = job.brief.board.run
    if job.asked.frame.run == run:
        other = "across" if run == "along" else "along"
        yield _told("FRM-005", STOP, "joists",
                    f"they would run {run} the house as the boards do, and carry none of them: "
                    f"joists lie across the boards; frame.run = {other}, or turn the "
                    "boards")  # fmt: skip


def _no_way_for_air(job: Job) -> Iterator[Finding]:
    """Yield that a skirting to the ground shuts the deck in; its slots are the builder's."""
    skirting, house = job.brief.fascia.skirting, job.brief.house
    if skirting == "slotted":
        yield _told("AIR-004", NOTE, "skirting", "it is not planned or bought here; leave 10 mm "
                    "open at its top and bottom, on two sides at least")  # fmt: skip
    if skirting != "solid":
        return
    yield _told("AIR-003", STOP, "skirting",
                "it closes every way for air below the deck, and timber that does not dry rots in "
                "years: slot it, or leave 10 mm open at its top and bottom on two sides at "
                "least")  # fmt: skip
    if bricks := tuple(bricks_beside(house, job.brief.cover.along_mm)):
        blocked = ", ".join(name for name, _ in bricks)
        yield _told("AIR-003", STOP, "air bricks",
                    f"a solid skirting shuts off {blocked}: under-deck ventilation is blocked, "
                    "and 1500 mm2 of vent to each metre of wall must stay free",
                    VENT_SOURCE)  # fmt: skip


def _falls(job: Job) -> Iterator[Finding]:
    """Yield what is wrong with a deck's own fall; who wishes it to the house says there is one."""
    if job.brief.levels.falls == "to the house":
        yield _told("LVL-027", STOP, "deck top",
                    "it would fall towards the house, and water must run away from it: a fall "
                    "of 1 in 80 to 1 in 100 along the boards goes from the house, or "
                    "none")  # fmt: skip
    elif job.brief.levels.falls not in {None, "level"}:
        yield _told("LVL-028", NOTE, "deck top",
                    "it is planned level: a fall is set on site, 1 in 80 to 1 in 100 along the "
                    "boards and away from the house; posts and packers are reckoned "
                    "without it")  # fmt: skip


def _tub(job: Job) -> Iterator[Finding]:
    tub = job.brief.tub
    if tub.foot_along_mm is None or tub.foot_across_mm is None or tub.filled_kg is None:
        return
    foot, cover = (tub.foot_along_mm, tub.foot_across_mm), job.asked.cover
    if any(x > y for x, y in zip(sorted(foot), sorted((cover.along_mm, cover.across_mm)),
                                 strict=True)):  # fmt: skip
        yield _told("ENG-011", STOP, "hot tub",
                    f"its foot of {foot[0]:g} by {foot[1]:g} mm is larger than the deck of "
                    f"{cover.along_mm:g} by {cover.across_mm:g} mm, and would stand over its "
                    "edge", ARITHMETIC)  # fmt: skip
    newtons, area_m2 = tub.filled_kg * GRAVITY, tub.foot_along_mm * tub.foot_across_mm / 1e6
    yield Finding(
        code="ENG-011", severity=STOP, subject="hot tub",
        message=f"{tub.filled_kg:g} kg on {tub.foot_along_mm:g} by {tub.foot_across_mm:g} mm: so "
        f"much lies on the deck below it, and it is not screened; {WHO} has to design what "
        "carries it",
        measured=ceil(newtons / area_m2) / 1000, unit="kN/m2", source=ARITHMETIC,
    )  # fmt: skip


def _drains(job: Job) -> Iterator[Finding]:
    """Yield covers that the deck would close, and drains that somebody has to be asked about."""
    for number, cover in enumerate(job.asked.drains.covers, 1):
        mark, ring = f"inspection cover {number}", _ring(cover)
        deck = _deck(job)
        under = bool(common(region(deck), region(ring)).area)
        if under and not any(holds(hatch, ring) for hatch in _hatches(job)):
            yield _told("DRN-001", STOP, mark,
                        f"the deck would lie over it, {_whose(cover)}, and nothing opens: give "
                        "the deck an [outline] with a hatch over it, or stand it "
                        "elsewhere")  # fmt: skip
        off_mm = 0.0 if under else apart(deck, ring) / _PER_MM
        if cover.whose != "own" and off_mm < SEWER_NEAR_MM:
            yield Finding(
                code="DRN-002", severity=CAUTION, subject=mark, measured=_down(off_mm),
                limit=SEWER_NEAR_MM, unit="mm", source=H4,
                message=f"{_whose(cover)}, so near the deck: to build over or beside a shared "
                "sewer takes consent; ask whose it is before you dig",
            )  # fmt: skip


def _whose(cover: InspectionCover) -> str:
    return {
        "own": "of the house's own drain",
        "shared": "of a sewer shared with a neighbour",
        "public": "of a public sewer",
    }.get(cover.whose, "of a drain that nobody says whose it is")


def _down(length_mm: float) -> float:
    """Return a length rounded down to 0.1 mm: what is near is not told as further off."""
    return float(int(length_mm * 10)) / 10


def _ring(cover: InspectionCover) -> Ring:
    low = place_of(cover.from_along_mm, cover.from_across_mm)
    size = place_of(cover.along_mm, cover.across_mm)
    return rectangle(low, (low[0] + size[0], low[1] + size[1]))


def _deck(job: Job) -> Ring:
    """Return the deck as its brief tells it, in 1/320 mm."""
    asked = job.asked
    if asked.outline != OutlineWish():
        return shape_of(asked.outline).corners
    return rectangle((0, 0), place_of(asked.cover.along_mm, asked.cover.across_mm))


def _hatches(job: Job) -> Iterator[Ring]:
    for opening in job.asked.outline.openings:
        if opening.kind == "hatch":
            yield _hatch(opening)


def _hatch(opening: OpeningWish) -> Ring:
    size = place_of(opening.size_along_mm or 0.0, opening.size_across_mm or 0.0)
    return about(place_of(opening.along_mm, opening.across_mm), size)
