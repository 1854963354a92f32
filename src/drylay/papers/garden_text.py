"""What follows of a garden file as plain lines: corners, water, earth, places, furniture."""

from collections.abc import Iterable, Iterator, Sequence

from drylay.findings import Finding
from drylay.seating.model import Fitted, Layout, LeastSize, Sized
from drylay.siting.model import Verdict
from drylay.survey.model import Earthwork, Fit, SurveyReport

#: Of so many places the best are told; a file holds all of them.
FEW = 10


def survey_lines(report: SurveyReport) -> Iterator[str]:
    """Yield what a survey comes to, figures first, then everything found."""
    yield from _heading("SURVEY")
    if report.fit is not None:
        yield from _corners(report.fit)
    if report.slopes is not None:
        yield (
            f"slope: {_one_in(report.slopes.mean_ratio)} as a whole, at the steepest "
            f"{_one_in(report.slopes.steepest_ratio)}"
        )
    for pond in report.ponds:
        yield (
            f"water stands to {pond.water_mm:g} mm, {pond.depth_mm:g} mm deep, over "
            f"{pond.area_m2:g} m2, {pond.volume_m3:g} m3; then it runs off at "
            f"{pond.spill_along_mm:g} along, {pond.spill_across_mm:g} across"
        )
    for work in report.earthworks:
        yield from _earth(work)
    yield from findings_lines(report.findings)


def _corners(fit: Fit) -> Iterator[str]:
    for corner in fit.corners:
        yield (
            f"corner {corner.name}: {corner.along_mm:g} along +/- {corner.error_along_mm:g}, "
            f"{corner.across_mm:g} across +/- {corner.error_across_mm:g} mm"
        )
    for tape in fit.tapes:
        tested = tape.residual_mm is not None and tape.implied_mm is not None
        left = f"{tape.residual_mm:+g} mm left over" if tested else "not tested"
        yield f"tape {tape.start}-{tape.end}: {tape.measured_mm:g} mm, {left}"
    if fit.next_measure is not None:
        yield f"measure next: {fit.next_measure.told}"


def _earth(work: Earthwork) -> Iterator[str]:
    yield (
        f"to {work.formation.level_mm:g} mm: cut {work.cut_m3:g} m3, fill {work.fill_m3:g} m3; "
        f"spoil {work.loose_m3:g} m3 loose, {work.skips} skips of {work.skip_m3:g} m3"
    )
    if work.unmeasured_m2:
        yield f"  of which {work.unmeasured_m2:g} m2 lie beyond the levels: not in these figures"
    if work.balance_mm is not None:
        yield f"  cut and fill are equal at {work.balance_mm:g} mm"


def _one_in(ratio: float) -> str:
    return f"1 in {1 / ratio:.3g}" if ratio > 0 else "level"


def place_lines(found: Verdict, notes: Sequence[Finding]) -> Iterator[str]:
    """Yield the verdict on a place: every answer with its findings and its nearest changes."""
    place = found.place
    yield from _heading(f"PLACE: {place.name}")
    yield (
        f"{place.size_along_mm:g} by {place.size_across_mm:g} mm, from {place.along_mm:g} along, "
        f"{place.across_mm:g} across; top at {place.top_mm:g} mm"
    )
    sun = "" if found.sun_h is None else f"; {found.sun_h:g} h of sun at the hours that matter"
    yield f"{found.stops} stops, {found.cautions} cautions{sun}; stands: {found.standing.stands}"
    for answer in found.answers:
        yield from (str(each) for each in answer.findings)
        yield from (f"  nearest change: {change.text}" for change in answer.changes)
    if found.move is not None:
        yield (
            "nearest place clear of boundary, buildings, buried services, root zones and wet "
            f"ground, not of anything else: {found.move.text}"
        )
    yield from findings_lines(notes)


def best_lines(best: Sequence[Verdict]) -> Iterator[str]:
    """Yield the best places of a grid in their order."""
    yield from _heading(f"PLACES LOOKED AT: {len(best)}, THE BEST FIRST")
    for found in best[:FEW]:
        place = found.place
        sun = "" if found.sun_h is None else f", {found.sun_h:g} h of sun"
        door = "" if found.door_mm is None else f", {found.door_mm:g} mm from the door"
        yield (
            f"{place.along_mm:g} along, {place.across_mm:g} across: {found.stops} stops, "
            f"{found.cautions} cautions{sun}{door}"
        )
    yield "order: stops, cautions, hours of sun, way to the door; nothing is weighed"


def seating_lines(least: LeastSize, fitted: Iterable[Fitted]) -> Iterator[str]:
    """Yield how large a deck its furniture needs, and whether it fits on the cover told."""
    yield from _heading("FURNITURE")
    for sized in (least.least, least.comfortable):
        yield from _sized(sized)
    for one in fitted:
        verdict = "all fits" if one.fits else "does not fit"
        yield f"{one.along_mm:g} by {one.across_mm:g} mm with {one.level} room: {verdict}"
        yield from findings_lines(one.findings)


def _sized(sized: Sized) -> Iterator[str]:
    if sized.best is None:
        yield f"{sized.level}: no size within the bounds of the search"
    else:
        proven = (
            f"none on a grid of {sized.grid_mm:g} mm has less" if sized.proven else "not proven"
        )
        yield f"{sized.level}: {_size(sized.best)} ({proven})"
        others = [_size(each) for each in sized.layouts if each != sized.best]
        if others:
            yield f"  other shapes: {'; '.join(others)}"
    yield from findings_lines(sized.findings)


def _size(layout: Layout) -> str:
    return f"{layout.along_mm:g} by {layout.across_mm:g} mm, {layout.area_m2:g} m2"


def findings_lines(findings: Iterable[Finding]) -> Iterator[str]:
    """Yield findings, a line each."""
    yield from (str(finding) for finding in findings)


def _heading(title: str) -> Iterator[str]:
    yield ""
    yield title
