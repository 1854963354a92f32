"""Lists that people write: old boards to be used again, factors of carbon. TOML, or CSV of boards.

```toml
[[boards]]
mark = "A"
length = "3.6 m"
width_mm = 145
thickness_mm = 28
first_hole_mm = 40
holes_apart_mm = 400          # or holes = ["40 mm", "440 mm"]
treatment = "copper"          # none, copper, arsenic or not known

[[factors]]
material = "treated timber"   # an article of the order, or a class of waste
per = "kg"                    # kg, m3 or m2
least_kg = 0.3
most_kg = 0.7
source = { kind = "handbook", title = "...", clause = "..." }
```
"""

import csv
import os
from collections.abc import Mapping
from io import StringIO
from typing import Any

from attrs import evolve

from drylay.errors import Fault, InputError
from drylay.intake import keys
from drylay.intake.document import Document, open_document
from drylay.intake.keys import Key
from drylay.intake.places import Places, Span, line_starts
from drylay.intake.sources import UNOPENED, file_given, no_file, unopened
from drylay.intake.tables import UNREADABLE, Reading, all_faults, read_table, read_tables, report
from drylay.intake.values import fault
from drylay.marks import exact, to_mm
from drylay.reasons import SOURCE_KINDS, Source
from drylay.upkeep.salvage import NEXT_USE
from drylay.upkeep.stock_model import (
    FACTOR_UNITS,
    OLD_TREATMENTS,
    SOUNDNESS,
    CarbonFactor,
    OldBoard,
)

MOST_BYTES = 1_000_000
#: No old board is longer; none is shorter and worth a line.
LONGEST_MM, SHORTEST_MM = 10_000, 100
BOARD_KEYS: tuple[Key, ...] = (
    keys.text("mark", 40, required=True),
    keys.length("length_mm", SHORTEST_MM, LONGEST_MM, required=True),
    keys.length("width_mm", 20, 500, required=True),
    keys.length("thickness_mm", 5, 200, required=True),
    keys.count("count", 1, 10_000),
    keys.lengths("holes_mm", 0, LONGEST_MM),
    keys.length("first_hole_mm", 0, LONGEST_MM),
    keys.length("holes_apart_mm", 100, 1_500),
    keys.choice("soundness", SOUNDNESS),
    keys.choice("treatment", OLD_TREATMENTS),
    keys.choice("was", tuple(NEXT_USE)),
)
FACTOR_KEYS: tuple[Key, ...] = (
    keys.text("material", 80, required=True),
    keys.choice("per", FACTOR_UNITS, required=True),
    keys.number("least_kg", -1e6, 1e6, required=True),
    keys.number("most_kg", -1e6, 1e6, required=True),
    keys.table("source", required=True),
)
SOURCE_KEYS: tuple[Key, ...] = (
    keys.choice("kind", SOURCE_KINDS, required=True),
    keys.text("title", 200, required=True),
    keys.text("clause", 200, empty=True),
)


class OldBoardsError(InputError):
    """A list of old boards cannot be used."""

    noun = "list of old boards"


class FactorsError(InputError):
    """A list of carbon factors cannot be used."""

    noun = "list of carbon factors"


def read_old_boards(
    source: str | os.PathLike[str] | bytes | Mapping[str, object],
) -> tuple[OldBoard, ...]:
    """Return the old boards in a TOML or CSV file, or in a mapping with `boards`.

    A text is a path; a file whose name ends in .csv is read as CSV in UTF-8, its first line the
    keys, several holes in a cell parted by spaces. Lengths are mm, or texts with their unit.

    Raises:
        OldBoardsError: With everything that is wrong, each with place, found and wanted.
    """
    document, faults = _opened(source)
    if document is None:
        raise OldBoardsError(faults)
    reading = Reading(document=document)
    read_table(reading, (), document.tables, (keys.tables("boards"),))
    rows = read_tables(reading, ("boards",), document.tables.get("boards"), BOARD_KEYS)
    if not rows and not reading.faults:
        report(reading, ("boards",), fault("none", "a list of old boards, [[boards]]"))
    boards = [_board(reading, at, row) for at, row in enumerate(rows)]
    if reading.faults:
        raise OldBoardsError(all_faults(reading))
    return tuple(board for board in boards if board is not None)


def _opened(source: object) -> tuple[Document | None, tuple[Fault, ...]]:
    """Return the document of a source; of CSV each row as a table of its cells."""
    name = os.fspath(source) if isinstance(source, str | os.PathLike) else ""
    if not str(name).lower().endswith(".csv"):
        return open_document(source, what="list", most_bytes=MOST_BYTES)
    file = file_given(source, what="list")
    if file is None:
        return None, (no_file(source, what="list"),)
    try:
        with file.open() as stream:
            raw = stream.read(MOST_BYTES + 1)
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:  # a ValueError, as no usable path is
        found = fault("bytes that are not text", "UTF-8 text", "save it as CSV UTF-8")
        return None, (evolve(found, file=file.name, path="list"),)
    except UNOPENED as error:
        return None, (unopened(file.name, error, what="list"),)
    if len(raw) > MOST_BYTES:
        wanted = f"a file of at most {MOST_BYTES // 1000} kB"
        return None, (Fault(file=file.name, path="list", found="a larger one", wanted=wanted),)
    return _sheet(file.name, text.replace("\r\n", "\n")), ()


def _sheet(name: str, text: str) -> Document:
    """Return a CSV text as a document: each row a table, empty cells left out, lines as places."""
    reader = csv.DictReader(StringIO(text), restkey="more cells than heads")
    starts = line_starts(text)
    rows: list[dict[str, object]] = []
    places: Places = {}
    for at, row in enumerate(reader):
        rows.append(
            {str(key).strip(): _cell(str(key).strip(), cell) for key, cell in row.items() if cell}
        )
        offset = starts[min(reader.line_num, len(starts)) - 1]
        places["boards", at] = Span(key=offset, start=offset, end=offset)
    return Document(tables={"boards": rows}, file=name, text=text, starts=starts, places=places)


def _cell(key: str, cell: object) -> object:
    """Return a cell as TOML would have it: numbers under keys that hold them, holes as a list."""
    text = str(cell).strip()
    if key == "holes_mm":
        return [_number(part) for part in text.split()]
    return _number(text) if key.endswith("_mm") or key == "count" else text


def _number(text: str) -> object:
    try:
        return int(text) if text.lstrip("-").isdigit() else float(text)
    except ValueError:
        return text


def _board(reading: Reading, at: int, row: dict[str, Any]) -> OldBoard | None:
    """Return one old board, its even holes placed; None where it could not be read whole."""
    needed = {key.name for key in BOARD_KEYS if key.required}
    if UNREADABLE in row.values() or not needed <= set(row):
        return None
    first, apart = row.pop("first_hole_mm", None), row.get("holes_apart_mm")
    if first is not None and apart is None:
        found = fault("first_hole_mm without holes_apart_mm", "how far apart the holes lie")
        report(reading, ("boards", at, "first_hole_mm"), found)
    if first is not None and "holes_mm" in row:
        found = fault("both holes_mm and first_hole_mm", "one of them")
        report(reading, ("boards", at, "first_hole_mm"), found)
    elif first is not None and apart is not None:
        row["holes_mm"] = _even(first, apart, row["length_mm"])
    beyond = [hole for hole in row.get("holes_mm", ()) if hole > row["length_mm"]]
    if beyond:
        wanted = f"a hole on the board, which is {row['length_mm']:g} mm long"
        report(reading, ("boards", at, "holes_mm"), fault(f"{beyond[0]:g} mm", wanted))
    return OldBoard(**row)


def _even(first_mm: float, apart_mm: float, length_mm: float) -> tuple[float, ...]:
    holes, step, end = [], exact(apart_mm), exact(length_mm)
    at = exact(first_mm)
    while at <= end:
        holes.append(to_mm(at))
        at += step
    return tuple(holes)


def read_factors(
    source: str | os.PathLike[str] | bytes | Mapping[str, object],
) -> tuple[CarbonFactor, ...]:
    """Return the carbon factors in a TOML file or a mapping with `factors`.

    Each says of which material, by what it counts, kg of CO2e at least and most, and who says so.

    Raises:
        FactorsError: With everything that is wrong, a missing source above all.
    """
    document, faults = open_document(source, what="list", most_bytes=MOST_BYTES)
    if document is None:
        raise FactorsError(faults)
    reading = Reading(document=document)
    read_table(reading, (), document.tables, (keys.tables("factors"),))
    given = document.tables.get("factors")
    rows = read_tables(reading, ("factors",), given, FACTOR_KEYS)
    if not rows and not reading.faults:
        report(reading, ("factors",), fault("none", "a list of factors, [[factors]]"))
    factors = [_factor(reading, at, row, given) for at, row in enumerate(rows)]
    if reading.faults:
        raise FactorsError(all_faults(reading))
    return tuple(factor for factor in factors if factor is not None)


def _factor(reading: Reading, at: int, row: dict[str, Any], given: object) -> CarbonFactor | None:
    """Return one factor with its source; None where either could not be read whole."""
    item = given[at] if isinstance(given, list | tuple) else None
    source = item.get("source") if isinstance(item, Mapping) else None
    told = read_table(reading, ("factors", at, "source"), source, SOURCE_KEYS) if source else {}
    whole = {"material", "per", "least_kg", "most_kg"} <= set(row) and {"kind", "title"} <= set(
        told
    )
    if not whole or UNREADABLE in (*row.values(), *told.values()):
        return None
    if row["least_kg"] > row["most_kg"]:
        found = f"{row['least_kg']:g} to {row['most_kg']:g}"
        wrong = fault(found, "the least no more than the most")
        report(reading, ("factors", at, "least_kg"), wrong)
    return CarbonFactor(**row, source=Source(**told))  # type: ignore[arg-type]
