"""A garden file read and worked out: survey, places for a deck, room for its furniture.

The one place where these rooms meet: the survey's ground lies under every place that is asked
about, and the region says what of its height and size has to be asked.
"""

import os
from collections.abc import Iterator, Mapping
from math import ceil, floor

from attrs import evolve

from drylay.counting import counted
from drylay.errors import Fault, GardenError, InputError
from drylay.findings import Finding, Severity
from drylay.intake.document import Document, keys_of, open_document
from drylay.intake.keys import Key, table
from drylay.intake.tables import Reading, all_faults, read_table, report
from drylay.marks import exact, to_mm
from drylay.planner.garden_model import GardenFile, GardenReport, PlaceSeen
from drylay.reasons import Source
from drylay.regions.model import Soil
from drylay.regions.notes import region_notes
from drylay.regions.packs import PACKS, region_pack, soil_named
from drylay.seating.fits import fits_on
from drylay.seating.least import least_deck
from drylay.seating.model import Fitted, LeastSize, SeatingWish
from drylay.seating.reader import read_seating
from drylay.siting.model import DeckPlace, Garden, LowSpot, Verdict
from drylay.siting.reader import read_siting
from drylay.siting.verdict import GroundAt, best_places, site_verdict
from drylay.survey.clipping import area_of
from drylay.survey.earth import pieces_over
from drylay.survey.model import Surface, SurveyReport
from drylay.survey.reader import read_survey
from drylay.survey.report import survey_garden

MOST_BYTES = 1_000_000
TOP: tuple[Key, ...] = (table("survey"), table("siting"), table("seating"))
LEVELS = ("least", "comfortable")
#: What of a place lies beyond the levels measured, up to which its ground still counts as known.
#: Dust of sums, no rule: a share of its area.
DUST_RATIO = 1e-9
SQUARE_DEG = 90.0
#: Bearings of one garden differ from a right angle by no more. Assumption: a hand compass.
BEARING_OFF_DEG = 5.0
#: What regions ask of heights is told under this code.
OVER_HEIGHT = "RGN-001"
NO_HEIGHT = Finding(
    code=OVER_HEIGHT, severity=Severity.NOTE, subject="height",
    message="the ground's levels under the deck are not told, so that its height is not known: "
    "whether one has to ask because of it is not known either; measure them",
    source=Source(kind="arithmetic", title="deck top over lowest ground"),
)  # fmt: skip


@counted
def read_garden(source: str | os.PathLike[str] | Mapping[str, object]) -> GardenFile:
    """Return what a garden file tells: its `[survey]`, `[siting]` and `[seating]`.

    A text is a path, bytes are the file itself. A mapping has the same keys as the file.

    Raises:
        GardenError: With everything that is wrong, each with place, found and wanted.
    """
    document, faults = open_document(source, what="garden", most_bytes=MOST_BYTES)
    if document is None:
        raise GardenError(faults)
    reading = Reading(document=document)
    read_table(reading, (), document.tables, TOP)
    found = GardenFile(
        survey=read_survey(reading), siting=read_siting(reading), seating=read_seating(reading)
    )
    for wrong in (*_bearings(found), *_soils(found.siting)):
        report(reading, keys_of(wrong.path), wrong)
    if reading.faults:
        raise GardenError(all_faults(reading))
    if found == GardenFile():
        raise GardenError((_nothing(document),))
    return found


def _bearings(found: GardenFile) -> Iterator[Fault]:
    """Yield that two tables turn the same axes otherwise: across lies a right angle beyond along.

    A survey's compass may be off by a little; by more one of the two is wrong.
    """
    along = found.siting.along_bearing_deg if found.siting else None
    across = found.survey.across_bearing_deg if found.survey else None
    if along is None or across is None:
        return
    off = abs((across - along - SQUARE_DEG + 180) % 360 - 180)
    if off > BEARING_OFF_DEG:
        wanted = (SQUARE_DEG + along) % 360
        yield Fault(
            path="survey.across_bearing_deg", found=f"{across:g}",
            wanted=f"{wanted:g}, a right angle clockwise from siting.along_bearing_deg = "
            f"{along:g}, within {BEARING_OFF_DEG:g} degrees",
            nearest=f"{wanted:g}, or along_bearing_deg = {(across - SQUARE_DEG) % 360:g}; both are "
            "true bearings: a compass lacks its declination",
        )  # fmt: skip


def _soils(garden: Garden | None) -> Iterator[Fault]:
    """Yield a soil without a region, and a region or soil that no pack has, with the nearest."""
    if garden is None or not (garden.region or garden.soil):
        return
    if not garden.region:
        wanted = f"the region whose soil {garden.soil!r} is: one of {', '.join(PACKS)}"
        yield Fault(path="siting.region", found="nothing", wanted=wanted)
        return
    try:
        pack = region_pack(garden.region)
        if garden.soil:
            soil_named(pack, garden.soil)
    except InputError as error:
        yield from (evolve(each, path=f"siting.{each.path}") for each in error.faults)


def _nothing(document: Document) -> Fault:
    return Fault(
        path="garden file", file=document.file, found="none of its tables",
        wanted="one of [survey], [siting], [seating]",
    )  # fmt: skip


@counted
def look_at_garden(garden: GardenFile, *, step_mm: float | None = None) -> GardenReport:
    """Return what follows of a garden file.

    Every place that the file names has its verdict. Ground under a place is that of the survey
    where its levels reach under all of it, else what the place itself tells.

    Args:
        garden: As `read_garden` reads it.
        step_mm: Also look at places on a grid of this step over the plot, of the size and height of
            the first place named, and put them in order.

    Raises:
        GardenError: Figures that cannot be meant, told by the room whose they are.

    Source: that of each finding.
    """
    try:
        survey = survey_garden(garden.survey) if garden.survey else None
        plot = with_low(garden.siting, survey) if garden.siting else None
        return GardenReport(
            file=garden,
            survey=survey,
            places=tuple(_places(plot, survey)),
            best=_best(plot, survey, step_mm),
            seating=_least(garden.seating),
            fitted=tuple(_fitted(garden.seating)),
        )
    except InputError as error:
        raise GardenError(error.faults) from None


def with_low(garden: Garden, survey: SurveyReport | None) -> Garden:
    """Return the garden with the lowest ground that was levelled, where it tells none itself.

    Whether water can run off from there no level tells: that stays to be asked.
    """
    if garden.low is not None or survey is None or survey.surface is None:
        return garden
    low = min(survey.surface.points, key=lambda p: (p.level_mm, p.along_mm, p.across_mm))
    spot = LowSpot(name="lowest level measured", at_mm=(low.along_mm, low.across_mm))
    return evolve(garden, low=spot)


def _places(garden: Garden | None, survey: SurveyReport | None) -> Iterator[PlaceSeen]:
    for place in garden.places if garden else ():
        assert garden is not None
        found = site_verdict(garden, place, soil=_soil(garden), ground=ground_of(survey))
        yield PlaceSeen(verdict=found, notes=_notes(garden, found.place))


def _best(
    garden: Garden | None, survey: SurveyReport | None, step_mm: float | None
) -> tuple[Verdict, ...]:
    if garden is None or not garden.places or step_mm is None:
        return ()
    ground = ground_of(survey)
    like = garden.places[0]
    return best_places(garden, like, step_mm=step_mm, soil=_soil(garden), ground=ground)


def _soil(garden: Garden) -> Soil | None:
    if not garden.region or not garden.soil:
        return None
    return soil_named(region_pack(garden.region), garden.soil)


def _notes(garden: Garden, place: DeckPlace) -> tuple[Finding, ...]:
    """Return what the region has to be asked about a place, its height taken from lowest ground.

    Where nobody knows that ground, all that hangs on no height, and that the height is not known.
    """
    if not garden.region:
        return ()
    area_m2 = place.size_along_mm * place.size_across_mm / 1e6
    if place.ground_least_mm is None:
        notes = region_notes(garden.region, height_mm=0.0, area_m2=area_m2)
        return (NO_HEIGHT, *(each for each in notes if each.code != OVER_HEIGHT))
    high_mm = to_mm(exact(place.top_mm) - exact(place.ground_least_mm))
    return region_notes(garden.region, height_mm=high_mm, area_m2=area_m2)


def ground_of(survey: SurveyReport | None) -> GroundAt | None:
    """Return what answers with the lowest and highest ground under a place; None without levels."""
    if survey is None or survey.surface is None:
        return None
    surface = survey.surface
    return lambda place: _under(surface, place)


def _under(surface: Surface, place: DeckPlace) -> tuple[float, float] | None:
    """Return lowest and highest ground under a place; None where not all of it was levelled."""
    left, near = place.along_mm, place.across_mm
    right, far = left + place.size_along_mm, near + place.size_across_mm
    pieces = pieces_over(surface, ((left, near), (right, near), (right, far), (left, far)))
    whole = place.size_along_mm * place.size_across_mm
    if sum(area_of(piece) for piece in pieces) < whole * (1 - DUST_RATIO):
        return None
    levels = [level for piece in pieces for _, _, level in piece]
    return floor(min(levels) * 10) / 10, ceil(max(levels) * 10) / 10


def _least(wish: SeatingWish | None) -> LeastSize | None:
    if wish is None:
        return None
    return least_deck(
        wish.pieces, sides=wish.sides, passages=wish.passages, grid_mm=wish.grid_mm,
        most_along_mm=wish.most_along_mm, most_across_mm=wish.most_across_mm,
    )  # fmt: skip


def _fitted(wish: SeatingWish | None) -> Iterator[Fitted]:
    """Yield whether the furniture fits on the cover that is fixed, at either level of room."""
    if wish is None or wish.along_mm is None or wish.across_mm is None:
        return
    for level in LEVELS:
        yield fits_on(
            wish.pieces, along_mm=wish.along_mm, across_mm=wish.across_mm, sides=wish.sides,
            passages=wish.passages, level=level,
        )  # fmt: skip
