"""What a region may want somebody asked about a deck: told as notes, never decided."""

from collections.abc import Mapping

from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.regions.hard_stops import heights_told
from drylay.regions.model import NOTE_FACTS, RegionNote
from drylay.regions.packs import region_pack

#: The facts that a host may tell; "anywhere" needs none.
FACTS = tuple(fact for fact in NOTE_FACTS if fact != "anywhere")


@counted
def region_notes(
    region: str,
    *,
    height_mm: float,
    area_m2: float,
    garden_m2: float | None = None,
    covered_m2: float = 0.0,
    facts: Mapping[str, bool] | None = None,
) -> tuple[Finding, ...]:
    """Return what to ask the local authority about: heights first, then all else.

    A caution where the deck goes over a figure or a fact holds, a note where it does not or where
    nobody told. Whether a rule holds is the local authority's to say: nothing is decided here.

    Args:
        region: A pack's id, such as "united-kingdom".
        height_mm: From the deck's top to the lowest ground beside it.
        area_m2: The deck's own area.
        garden_m2: The land round the house without the house itself, None where nobody knows.
        covered_m2: What else is built on that land.
        facts: "forward" of the principal front, "listed" building, "designated" land, "flat":
            those left out are asked about.

    Raises:
        InputError: There is no such region or fact, or an area is none.

    Source: that of each height and note, with its standing and the day it was looked at.
    """
    told = dict(facts or {})
    _check(told, (("area_m2", area_m2), ("garden_m2", garden_m2)), covered_m2)
    pack = region_pack(region)
    share = None if garden_m2 is None else (area_m2 + covered_m2) / garden_m2
    figures = {"area_m2": area_m2, "garden_ratio": share}
    notes = (_told(note, figures, told) for note in pack.notes)
    return (*heights_told(pack, height_mm), *notes)


def _check(
    facts: Mapping[str, bool], areas: tuple[tuple[str, float | None], ...], covered_m2: float
) -> None:
    faults = [
        Fault(path=f"facts.{fact}", found="an unknown fact", wanted=f"one of {', '.join(FACTS)}")
        for fact in facts
        if fact not in FACTS
    ]
    faults += [
        Fault(path=path, found=f"{area:g}", wanted="an area above 0 m2")
        for path, area in areas
        if area is not None and not area > 0
    ]
    if not covered_m2 >= 0:
        faults.append(Fault(path="covered_m2", found=f"{covered_m2:g}", wanted="0 m2 or more"))
    if faults:
        raise InputError(tuple(faults))


def _told(
    note: RegionNote, figures: Mapping[str, float | None], facts: Mapping[str, bool]
) -> Finding:
    measured = figures.get(note.about)
    if note.limit is not None:
        holds = None if measured is None else note.limit.exceeded_by(measured)
    else:
        holds = None if note.about == "anywhere" else facts.get(note.about)
    head = {True: "", False: "not so here: ", None: ""}[holds]
    if holds is None and note.about != "anywhere":
        head = "nobody told: "
    return Finding(
        code="RGN-002" if note.limit is not None else "RGN-003",
        severity=Severity.CAUTION if holds else Severity.NOTE,
        subject=note.name,
        message=f"{head}{note.asks} ({_known(note)})",
        measured=measured if note.limit is not None else None,
        limit=note.limit.value if note.limit is not None and measured is not None else None,
        unit=note.limit.unit if note.limit is not None else "",
        source=note.source,
    )


def _known(note: RegionNote) -> str:
    return f"{note.standing}, looked at {note.checked}" if note.checked else note.standing
