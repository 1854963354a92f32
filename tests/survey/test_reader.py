"""`[survey]` of a garden file: read whole, or every fault told with its place."""

import tomllib
from pathlib import Path

import pytest

from drylay.errors import Fault
from drylay.intake.document import Document, open_document
from drylay.intake.tables import Reading
from drylay.survey.model import FieldBook, Formation, Tape
from drylay.survey.reader import read_survey
from drylay.survey.report import survey_garden

BOOK = Path(__file__).with_name("book.toml")


def read(text: str) -> tuple[FieldBook | None, list[Fault]]:
    document, faults = open_document(text.encode(), what="garden", most_bytes=100_000)
    assert document is not None, faults
    reading = Reading(document=document)
    return read_survey(reading), reading.faults


def told(text: str) -> list[str]:
    book, faults = read(text)
    assert book is None
    return [str(fault) for fault in faults]


def test_a_field_book_is_read_whole() -> None:
    book, faults = read(BOOK.read_text(encoding="utf-8"))
    assert faults == []
    assert book is not None
    assert book.outline == ("A", "B", "C", "D")
    assert book.tapes[0] == Tape(start="A", end="B", length_mm=5200.0)
    assert book.tapes[5].accuracy_mm == 5.0
    assert book.points[3].across_mm == 4400.0
    assert book.formations[0] == Formation(level_mm=-200, fall_across_ratio=0.0125)
    assert book.flow_from_mm == ((500.0, 500.0),)
    assert (book.accuracy_mm, book.closing_level_mm, book.across_bearing_deg) == (2.0, 1.5, 200.0)


def test_a_garden_without_a_survey_has_none_and_one_of_mappings_is_read_alike() -> None:
    assert read("[siting]\n") == (None, [])
    tables = tomllib.loads(BOOK.read_text(encoding="utf-8"))
    assert (
        read_survey(Reading(document=Document(tables=tables)))
        == read(BOOK.read_text(encoding="utf-8"))[0]
    )


def test_a_cover_is_an_area_and_both_are_one_too_many() -> None:
    cover = "[survey.cover]\nalong_mm = 3000\nacross_mm = 2000\nfrom_across_mm = 10\n"
    book, _ = read(cover)
    assert book is not None
    assert book.area_mm == ((0, 10), (3000, 10), (3000, 2010), (0, 2010))
    spots = ", ".join(f"{{along_mm = {x}, across_mm = {y}}}" for x, y in
                      ((0, 0), (900, 0), (0, 900)))  # fmt: skip
    (fault,) = told(f"survey.area = [{spots}]\n{cover}")
    assert "both cover and area" in fault


@pytest.mark.parametrize(
    ("change", "parts"),
    [
        (('length_mm = 3630', 'length_mm = 3.63'),
         ("survey.tapes[1].length_mm", 'length = "3.63 m"')),
        (('length_mm = 3630', 'length_mm = 3630, unit = "mm"'),
         ("survey.tapes[1].unit", "unknown key")),
        (('end = "C", length_mm = 3630', 'end = "B", length_mm = 3630'),
         ("survey.tapes[1].end", "B twice")),
        (('"A B C D"', '"A B C C"'), ("survey.outline", "C 2 times")),
        (('"A B C D"', '"A B C E"'), ("survey.outline", "E, which no tape reaches")),
        (('"A B C D"', '"A B"'), ("survey.outline", "three or more")),
        (('level_mm = -260', 'level_mm = -0.26'),
         ("survey.points[2].level_mm", "level_mm = -260, if that is meant")),
        (('level_mm = -260', 'level_mm = 175'),
         ("survey.points[2].level_mm", "level_mm = -175, if that is meant")),
        (('level_mm = -260', 'level_mm = -19000'),
         ("survey.points[2].level_mm", "level_mm = -1900, if that is meant")),
        (('along_mm = 2000, across_mm = 2100', 'along_mm = 5700, across_mm = 0'),
         ("survey.points[2].along_mm", "the same place as survey.points[1]")),
        (('closing_level_mm = 1.5', 'opening_level_mm = 1.5'),
         ("survey.opening_level_mm", "no closing_level_mm")),
        (('length_mm = 3601', 'length_mm = 360'),
         ("survey.tapes[3].length_mm", "length_mm = 3600, if that is meant")),
        (('length_mm = 3601', 'length_mm = 60000'),
         ("survey.tapes[3].length_mm", "length_mm = 6000, if that is meant")),
        (('fall_across_ratio = 0.0125', 'fall_across_ratio = 1.25'),
         ("survey.formations[0].fall_across_ratio", "-0.25 to 0.25")),
    ],
)  # fmt: skip
def test_a_slip_is_asked_with_its_place(change: tuple[str, str], parts: tuple[str, str]) -> None:
    text = BOOK.read_text(encoding="utf-8")
    assert change[0] in text
    (fault,) = told(text.replace(*change, 1))
    for part in parts:
        assert part in fault


def test_all_faults_are_told_at_once() -> None:
    text = BOOK.read_text(encoding="utf-8")
    for old, new in (("5.2 m", "5.2"), ("level_mm = -260", 'level_mm = "x"'), ('"A B', '"A A B')):
        text = text.replace(old, new, 1)
    assert len(told(text)) == 3


def test_a_place_is_right_also_behind_what_could_not_be_read() -> None:
    text = BOOK.read_text(encoding="utf-8")
    text = text.replace("along_mm = -500, across_mm = 0", 'along_mm = "?", across_mm = 0', 1)
    first, second = told(text.replace("level_mm = -260", "level_mm = -0.26"))
    assert "survey.points[0].along_mm" in first
    assert ":19:51: survey.points[2].level_mm" in second


def test_levels_all_in_metres_are_asked_one_by_one() -> None:
    spots = ", ".join(f"{{along_mm = {x}, across_mm = {y}, level_mm = {z}}}" for x, y, z in
                      ((0, 0, -0.15), (4000, 0, -0.2), (0, 3000, 0)))  # fmt: skip
    assert len(told(f"survey.points = [{spots}]")) == 2


def test_places_all_in_metres_are_asked() -> None:
    spots = ", ".join(f"{{along_mm = {x}, across_mm = {y}, level_mm = {z}}}" for x, y, z in
                      ((0, 0, -150), (4.2, 0, -200), (0, 3, -170)))  # fmt: skip
    faults = told(f"survey.points = [{spots}]")
    assert len(faults) == 2
    assert "along_mm = 4200, if that is meant" in faults[0]


def test_a_book_is_worked_out_whole() -> None:
    """The tapes are those of a shape 30 deeper at its right side; levels close within 1.5."""
    book, _ = read(BOOK.read_text(encoding="utf-8"))
    assert book is not None
    report = survey_garden(book)
    assert report.fit is not None
    assert report.fit.verdict.agrees
    assert len(report.earthworks) == 2
    assert report.earthworks[0].cut_m3 > report.earthworks[1].cut_m3
    assert len(report.area_mm) == 4
    assert report.closure is not None
    assert [low.name for low in report.lows] == ["L1"]
    assert report.flows[0].ends == "L1"
    found = [finding.code for finding in report.findings]
    assert found.count("SVY-021") == 1
    assert "SVY-024" not in found
    assert survey_garden(book) == report


def test_what_was_not_measured_is_left_out_and_told() -> None:
    assert survey_garden(FieldBook()).findings == ()
    book, _ = read(BOOK.read_text(encoding="utf-8"))
    assert book is not None
    line = FieldBook(points=book.points[:2])
    assert [f.code for f in survey_garden(line).findings] == ["SVY-023", "SVY-024"]
    bare = FieldBook(points=book.points, formations=book.formations, closing_level_mm=0)
    assert "SVY-040" in [f.code for f in survey_garden(bare).findings]
    far = FieldBook(points=book.points, flow_from_mm=((90_000.0, 0.0),))
    assert "SVY-025" in [f.code for f in survey_garden(far).findings]
