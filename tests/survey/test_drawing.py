"""The survey's drawing: says what the report says, the same bytes each time, texts apart."""

import re
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

from drylay.papers.survey_drawing import bar_times, survey_svg
from drylay.survey.model import FieldBook, SurveyReport
from drylay.survey.report import survey_garden
from survey.test_reader import BOOK, read

SVG = "{http://www.w3.org/2000/svg}"


def report(**more: object) -> SurveyReport:
    book, _ = read(Path(BOOK).read_text(encoding="utf-8"))
    assert book is not None
    return survey_garden(evolve(book, **more))


def texts(drawing: bytes) -> list[str]:
    return [each.text or "" for each in ET.fromstring(drawing).iter(f"{SVG}text")]


def test_it_says_what_the_report_says() -> None:
    found = report()
    drawing = survey_svg(found, title="12 Elm Lane")
    said = texts(drawing)
    assert {"A", "B", "C", "D", "L1", "north", "12 Elm Lane"} <= set(said)
    assert found.fit is not None
    for tape in found.fit.tapes:
        assert any(text.startswith(f"{tape.measured_mm:g}") for text in said)
    for point in found.book.points:
        assert f"{point.level_mm:g}" in said
    assert f"{found.earthworks[0].cut_m3:g} m3" in said
    assert any(f"{found.ponds[0].volume_m3:g} m3" in text for text in said)
    for layer in ("cut-hatch", "fill-hatch", "water-hatch", "shore", "contours", "bars", "falls"):
        assert f'id="survey-{layer}"' in drawing.decode()


def test_the_same_report_gives_the_same_bytes() -> None:
    assert survey_svg(report()) == survey_svg(report())


def test_the_factor_of_the_bars_is_told_and_drawn() -> None:
    found = report()
    drawing = survey_svg(found)
    root = ET.fromstring(drawing)
    per_mm = float(root.attrib["data-deck-mm-per-paper-mm"])
    times = bar_times(found.fit, per_mm)
    assert f"Bars at corners hold 95 of 100, drawn {times} times as large as they are." in " ".join(
        texts(drawing)
    )
    bars = next(g for g in root if g.attrib.get("id") == "survey-bars")
    longest = max(abs(float(b.attrib["x2"]) - float(b.attrib["x1"])) for b in bars)
    assert found.fit is not None
    most = max(corner.error_along_mm for corner in found.fit.corners)
    assert longest == pytest.approx(2 * most * times / per_mm, abs=0.01)


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_texts_about_the_figure_do_not_touch(units: str) -> None:
    root = ET.fromstring(survey_svg(report(), units=units))
    boxes = []
    for group in root:
        if group.attrib.get("id", "").endswith(("lengths", "names", "levels", "level-texts")):
            boxes += [each for each in group if each.tag == f"{SVG}rect"]
    spans = [tuple(float(b.attrib[k]) for k in ("x", "y", "width", "height")) for b in boxes]
    assert len(spans) > 8
    for (x, y, w, h), (a, b, c, d) in combinations(spans, 2):
        assert x + w <= a or a + c <= x or y + h <= b or b + d <= y


def test_parts_alone_are_drawn_and_nothing_is_nothing() -> None:
    book = report().book
    tapes = survey_svg(survey_garden(FieldBook(tapes=book.tapes)))
    assert b"contours" not in tapes
    levels = survey_svg(survey_garden(FieldBook(points=book.points)))
    assert b'id="survey-tapes"' not in levels
    assert survey_svg(survey_garden(FieldBook())) == b""


def test_foreign_names_are_made_harmless() -> None:
    found = survey_svg(report(), title="<b>\x00\u202e& co")
    assert ET.fromstring(found) is not None
    assert not re.search("[\x00\u202e]", found.decode())
