"""A garden worked out, as papers: text, plans, and all its figures as JSON."""

import json
from collections.abc import Iterator
from enum import Enum

import attrs

from drylay.counting import counted
from drylay.papers.garden_text import best_lines, place_lines, seating_lines, survey_lines
from drylay.papers.seating_drawing import seating_svg
from drylay.papers.siting_drawing import siting_svg
from drylay.papers.survey_drawing import survey_svg
from drylay.planner.garden_model import GardenReport
from drylay.seating.model import DeckSides, Sized
from drylay.siting.drawn import site_plan

TITLE = "Garden"


def garden_text(report: GardenReport) -> str:
    """Return what follows of a garden file as lines."""
    return "\n".join(_lines(report)).strip() + "\n"


def _lines(report: GardenReport) -> Iterator[str]:
    if report.survey is not None:
        yield from survey_lines(report.survey)
    for place in report.places:
        yield from place_lines(place.verdict, place.notes)
    if report.best:
        yield from best_lines(report.best)
    if report.seating is not None:
        yield from seating_lines(report.seating, report.fitted)
    yield ""
    yield "Within the screened limits, and no more: local rules and licensed people come first."


@counted
def garden_papers(report: GardenReport, *, title: str = TITLE) -> dict[str, bytes]:
    """Return the papers of a garden by their names: `garden.txt`, `garden.json`, and its plans.

    `survey.svg`; `place-1.svg` and on, in the file's order; `seating-least.svg` and
    `seating-comfortable.svg`. What the file does not tell has no paper.
    """
    made = {"garden.txt": garden_text(report).encode(), "garden.json": garden_json(report)}
    made |= dict(_plans(report, title))
    return {name: paper for name, paper in made.items() if paper}


def _plans(report: GardenReport, title: str) -> Iterator[tuple[str, bytes]]:
    if report.survey is not None:
        yield "survey.svg", survey_svg(report.survey, title=title)
    garden = report.file.siting
    for number, place in enumerate(report.places, 1):
        assert garden is not None
        plan = site_plan(garden, place.verdict.place, title=title)
        yield f"place-{number}.svg", siting_svg(plan)
    wish = report.file.seating
    if report.seating is not None and wish is not None:
        for sized in (report.seating.least, report.seating.comfortable):
            yield f"seating-{sized.level}.svg", _seated(sized, wish.sides, title)


def _seated(sized: Sized, sides: DeckSides, title: str) -> bytes:
    if sized.best is None:
        return b""
    return seating_svg(sized.best, sides, sized.allowances, title=title)


def garden_json(report: GardenReport) -> bytes:
    """Return everything that follows of a garden file as JSON, keys sorted; no number is nan."""
    plain = attrs.asdict(report, value_serializer=_plain)
    text = json.dumps(plain, sort_keys=True, indent=1, allow_nan=False, ensure_ascii=False)
    return f"{text}\n".encode()


def _plain(_owner: object, _field: object, value: object) -> object:
    """Return days as ISO 8601 text and words as text; all else as it is."""
    if isinstance(value, Enum):
        return value.value
    isoformat = getattr(value, "isoformat", None)
    return isoformat() if callable(isoformat) else value
