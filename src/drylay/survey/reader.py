"""`[survey]` of a garden file is read here: a field book, or every fault with its place."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from attrs import evolve

from drylay.brief.model import GroundPoint
from drylay.errors import Fault
from drylay.intake.document import keys_of
from drylay.intake.keys import Key
from drylay.intake.tables import UNREADABLE, Reading, read_table, read_tables, report
from drylay.intake.values import fault
from drylay.marks import is_number
from drylay.survey.faults import MOST_CORNERS, MOST_POINTS, MOST_TAPES, outline_fits
from drylay.survey.keys import COVER, FORMATION, POINT, SPOT, SURVEY, TAPE
from drylay.survey.model import FieldBook, Formation, Place, Ring, Tape
from drylay.survey.sense import makes_sense

PLAIN = ("accuracy_mm", "opening_level_mm", "closing_level_mm", "across_bearing_deg")
Table = dict[str, Any]
#: Where in the file each item of a list in the book stands.
Places = dict[str, list[int]]
_ITEM = re.compile(r"survey\.(tapes|points)\[(\d+)\]")


def read_survey(reading: Reading) -> FieldBook | None:
    """Return the field book of a garden file; None where it has no `[survey]`, or a faulty one.

    Every fault is reported with its place. What looks like a slip of sign or unit is a fault: it
    is asked, with the nearest fix, and not guessed.
    """
    table = reading.document.tables.get("survey")
    if table is None:
        return None
    before = len(reading.faults)
    top = read_table(reading, ("survey",), table, SURVEY)
    places: Places = {}
    book = _book(reading, table if isinstance(table, dict) else {}, top, places)

    def said(path: str) -> float | None:
        return _number_at(reading.document.tables, _in_file(path, places))

    for wrong in (*_meaning(book, top), *makes_sense(book, said)):
        path = _in_file(wrong.path, places)
        told = evolve(wrong, path=path, found=_in_file(wrong.found, places))
        report(reading, keys_of(path), told)
    return book if len(reading.faults) == before else None


def _in_file(text: str, places: Places) -> str:
    """Return a text with each item of a list named as it stands in the file.

    Items that could not be read are not in the book, so that those after them count less there.
    """
    return _ITEM.sub(lambda m: f"survey.{m[1]}[{places[m[1]][int(m[2])]}]", text)


def _number_at(tables: object, path: str) -> float | None:
    """Return the bare number that stands at a path of the file, None where none does."""
    for key in keys_of(path):
        if isinstance(key, int):
            tables = tables[key] if isinstance(tables, list | tuple) else None
        else:
            tables = tables.get(key) if isinstance(tables, Mapping) else None
    return float(tables) if is_number(tables) else None


def _book(reading: Reading, table: Table, top: Table, places: Places) -> FieldBook:
    plain = {name: top[name] for name in PLAIN if top.get(name, UNREADABLE) is not UNREADABLE}
    outline = top.get("outline")
    return FieldBook(
        outline=tuple(outline.split()) if isinstance(outline, str) else (),
        tapes=tuple(Tape(**one) for one in _whole(reading, table, "tapes", TAPE, places)),
        points=tuple(GroundPoint(**one) for one in _whole(reading, table, "points", POINT, places)),
        area_mm=_area(reading, table),
        formations=tuple(Formation(**one) for one in _whole(reading, table, "formations",
                                                            FORMATION)),
        flow_from_mm=tuple(_spot(one) for one in _whole(reading, table, "flow_from", SPOT)),
        **plain,
    )  # fmt: skip


def _whole(
    reading: Reading, table: Table, name: str, known: tuple[Key, ...], places: Places | None = None
) -> list[Table]:
    """Return the tables of a list that could be read whole, and note where; others are reported."""
    needed = {key.name for key in known if key.required}
    found = read_tables(reading, ("survey", name), table.get(name), known)
    whole = [at for at, one in enumerate(found)
             if needed <= set(one) and UNREADABLE not in one.values()]  # fmt: skip
    if places is not None:
        places[name] = whole
    return [found[at] for at in whole]


def _spot(one: Table) -> Place:
    return (one["along_mm"], one["across_mm"])


def _area(reading: Reading, table: Table) -> Ring:
    """Return what is dug: an outline of places, or the rectangle of a cover."""
    places = tuple(_spot(one) for one in _whole(reading, table, "area", SPOT))
    if table.get("cover") is None:
        return places
    cover: Table = read_table(reading, ("survey", "cover"), table["cover"], COVER)
    if places:
        report(reading, ("survey", "cover"), fault("both cover and area", "one of them"),
               at_key=True)  # fmt: skip
    if UNREADABLE in cover.values() or not {"along_mm", "across_mm"} <= set(cover):
        return ()
    left, near = cover.get("from_along_mm", 0.0), cover.get("from_across_mm", 0.0)
    right, far = left + cover["along_mm"], near + cover["across_mm"]
    return ((left, near), (right, near), (right, far), (left, far))


def _meaning(book: FieldBook, top: Table) -> Iterator[Fault]:
    """Yield what is wrong between keys that are each right by themselves."""
    yield from _corners(book)
    for name, found, most in (("tapes", book.tapes, MOST_TAPES), ("points", book.points,
                                                                 MOST_POINTS)):  # fmt: skip
        if len(found) > most:
            yield Fault(path=f"survey.{name}", found=f"{len(found)}", wanted=f"at most {most}")
    if book.area_mm:
        yield from (evolve(each, path="survey.area") for each in outline_fits(book.area_mm))
    first: dict[Place, int] = {}
    for at, point in enumerate(book.points):
        other = first.setdefault((point.along_mm, point.across_mm), at)
        if other != at:
            yield Fault(path=f"survey.points[{at}].along_mm",
                        found=f"the same place as survey.points[{other}]",
                        wanted="every place once", nearest="leave one of them out")  # fmt: skip
    if top.get("opening_level_mm") is not None and book.closing_level_mm is None:
        yield Fault(path="survey.opening_level_mm", found="no closing_level_mm",
                    wanted="the same spot read again at the end",
                    nearest="leave out opening_level_mm, or give closing_level_mm")  # fmt: skip


def _corners(book: FieldBook) -> Iterator[Fault]:
    """Yield what is wrong with the names of corners."""
    names = dict.fromkeys(name for tape in book.tapes for name in (tape.start, tape.end))
    every = {*names, *book.outline}
    if len(every) > MOST_CORNERS:
        yield Fault(path="survey.tapes", found=f"{len(every)} corners",
                    wanted=f"at most {MOST_CORNERS}")  # fmt: skip
    for at, tape in enumerate(book.tapes):
        if tape.start == tape.end:
            yield Fault(path=f"survey.tapes[{at}].end", found=f"{tape.end} twice",
                        wanted="a tape between two corners")  # fmt: skip
    if book.tapes and len(book.tapes) < 3:
        yield Fault(path="survey.tapes", found=f"{len(book.tapes)}", wanted="three tapes or more",
                    nearest="measure all sides and both diagonals")  # fmt: skip
    if not book.outline:
        return
    for name in dict.fromkeys(book.outline):
        count = book.outline.count(name)
        if count > 1:
            yield Fault(path="survey.outline", found=f"{name} {count} times",
                        wanted="each corner once")  # fmt: skip
        elif book.tapes and name not in names:
            yield Fault(path="survey.outline", found=f"{name}, which no tape reaches",
                        wanted=f"corners of tapes: {', '.join(names)}")  # fmt: skip
    if len(book.outline) < 3:
        yield Fault(path="survey.outline", found=f"{len(book.outline)} corners",
                    wanted="three or more, in order round, such as A B C D")  # fmt: skip
