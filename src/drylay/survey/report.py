"""A field book worked out: corners, ground, water, slopes, earth, and all to be told of them."""

from collections.abc import Iterator

from drylay.counting import counted
from drylay.findings import Finding, Severity
from drylay.survey.earth import earthwork
from drylay.survey.faults import outline_fits
from drylay.survey.flow import flow_path
from drylay.survey.ground import ground_surface, level_at, level_run, place_of
from drylay.survey.model import (
    Closure,
    Earthwork,
    FieldBook,
    Fit,
    Flow,
    Low,
    Ring,
    Slopes,
    Surface,
    SurveyReport,
)
from drylay.survey.slopes import contours_of, falls_of, slopes_within
from drylay.survey.sources import ACCURACY_MM, CLOSURE_MM, PRACTICE, SUM
from drylay.survey.tapes import fit_tapes
from drylay.survey.water import lows_of, ponds_of, water_findings

Told = list[Finding]


@counted
def survey_garden(book: FieldBook) -> SurveyReport:
    """Return what follows from a field book: corners fitted, water, slopes, cut and fill.

    What was not measured is left None. Slopes are those of the area dug, else of the outline
    measured by tapes, else of all that was levelled; earth is reckoned for every formation told.

    Raises:
        InputError: Measures that cannot be meant, all of the first kind met.
    """
    told: Told = []
    fit = _fit(book)
    surface = ground_surface(book.points) if len(book.points) > 2 else None
    area = book.area_mm or _outline(fit)
    closure = _closure(book, told)
    lows = lows_of(surface) if surface else ()
    ponds = ponds_of(surface, lows) if surface else ()
    slopes = _slopes(surface, area, told)
    works = _works(surface, area, book, told)
    return SurveyReport(
        book=book,
        fit=fit,
        surface=surface,
        closure=closure,
        lows=lows,
        ponds=ponds,
        flows=tuple(_flows(surface, book, lows)),
        slopes=slopes,
        earthworks=works,
        contours=contours_of(surface) if surface else (),
        falls=falls_of(surface) if surface else (),
        area_mm=area,
        findings=(
            *(fit.findings if fit else ()), *_ground_told(book, surface, area),
            *water_findings(lows, ponds), *told,
        ),
    )  # fmt: skip


def _fit(book: FieldBook) -> Fit | None:
    if not book.tapes:
        return None
    named = dict.fromkeys(
        (*book.outline, *(name for tape in book.tapes for name in (tape.start, tape.end)))
    )
    accuracy_mm = ACCURACY_MM if book.accuracy_mm is None else book.accuracy_mm
    return fit_tapes(
        tuple(named), book.tapes, accuracy_mm=accuracy_mm, outline=book.outline or tuple(named)
    )


def _outline(fit: Fit | None) -> Ring:
    """Return the outline that tapes give, () where they do not hold it."""
    if fit is None or not fit.corners:
        return ()
    place = {corner.name: (corner.along_mm, corner.across_mm) for corner in fit.corners}
    ring = tuple(place[name] for name in fit.outline)
    return () if list(outline_fits(ring)) else ring


def _closure(book: FieldBook, told: Told) -> Closure | None:
    if book.closing_level_mm is None:
        return None
    closure, found = level_run(opening_mm=book.opening_level_mm, closing_mm=book.closing_level_mm)
    told += found
    return closure


def _slopes(surface: Surface | None, area: Ring, told: Told) -> Slopes | None:
    if surface is None:
        return None
    hull = tuple(place_of(surface, at) for at in surface.edge)
    slopes, found = slopes_within(surface, area or hull)
    told += found
    return slopes


def _works(
    surface: Surface | None, area: Ring, book: FieldBook, told: Told
) -> tuple[Earthwork, ...]:
    if surface is None or not area:
        return ()
    works = []
    for formation in book.formations:
        work, found = earthwork(surface, area, formation)
        works.append(work)
        told += [finding for finding in found if finding not in told]
    return tuple(works)


def _flows(surface: Surface | None, book: FieldBook, lows: tuple[Low, ...]) -> Iterator[Flow]:
    for along_mm, across_mm in book.flow_from_mm:
        flow = flow_path(surface, along_mm, across_mm, lows) if surface else None
        if flow is not None:
            yield flow


def _ground_told(book: FieldBook, surface: Surface | None, area: Ring) -> Iterator[Finding]:
    if book.points and surface is None:
        yield Finding(
            code="SVY-023", severity=Severity.CAUTION, subject="levels",
            message="the levels lie in one line or are fewer than three: how the ground lies is "
            "not known; take at least four, one near each corner",
            measured=float(len(book.points)), limit=4.0, unit="levels", source=PRACTICE,
        )  # fmt: skip
    if book.points and book.closing_level_mm is None:
        yield Finding(
            code="SVY-024", severity=Severity.NOTE, subject="levels",
            message="no closing reading: whether the level was moved in between is not known; read "
            "the first spot again at the end",
            limit=CLOSURE_MM, unit="mm", source=PRACTICE,
        )  # fmt: skip
    if book.formations and (surface is None or not area):
        lacks = "levels" if surface is None else "an outline, by tapes, area or cover"
        yield Finding(
            code="SVY-040", severity=Severity.CAUTION, subject="earthwork",
            message=f"cut and fill are not reckoned: the field book lacks {lacks}", source=SUM,
        )  # fmt: skip
    for at, (along_mm, across_mm) in enumerate(book.flow_from_mm):
        if surface is not None and level_at(surface, along_mm, across_mm) is None:
            yield Finding(
                code="SVY-025", severity=Severity.NOTE, subject=f"flow_from[{at}]",
                message="lies beyond the levels measured: where its water runs is not known",
                source=SUM,
            )  # fmt: skip
