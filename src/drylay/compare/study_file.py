"""Study files are read here: a TOML file or a mapping in, a study out, or every fault at once.

    title = "How deep a deck is worth it"
    brief = "garden.toml"
    stock = ["../../catalogs/hobbleden.toml"]
    mode = "quick"

    [vary]
    cover.across_mm = { from = 2400, to = 4800, by = 25 }
    board.run = ["along", "across"]

    [[ask]]
    what = "cost_by_size"
    size = "cover.across_mm"
    by = "board.run"

Files are named from where the study file lies.
"""

import os
from collections.abc import Iterator, Mapping
from functools import reduce
from operator import or_
from pathlib import Path
from typing import Any

from attrs import evolve

from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.compare.cases import HOWS, Cases, vary
from drylay.compare.dotted import paths_in
from drylay.compare.shelf import code_faults
from drylay.compare.study_asked import read_questions
from drylay.compare.study_decks import VERBS
from drylay.compare.study_plan import Study
from drylay.compare.terms import MODES
from drylay.compare.value_ranges import values_of
from drylay.compare.years import MOST_HOUR_PRICE, MOST_RATE, PRICE_DIGITS
from drylay.counting import counted
from drylay.errors import Fault, InputError
from drylay.intake.document import Document, keys_of, open_document, placed
from drylay.intake.keys import choice, count, money, number, text
from drylay.intake.tables import UNREADABLE, Reading, all_faults, read_table, report
from drylay.intake.values import fault, unfit
from drylay.materials.loader import load_catalogue
from drylay.materials.stock_model import Catalogue

Source = str | os.PathLike[str] | Mapping[str, object]
MOST_BYTES = 1_000_000
MOST_FILES = 20
KEYS = (
    text("title", required=True),
    choice("mode", MODES),
    choice("how", HOWS),
    count("count", 1, 10_000_000),
    count("seed", 0, 2**53 - 1),
    number("rate_ratio", 0, MOST_RATE),
    money("hour_price", 0, MOST_HOUR_PRICE, digits=PRICE_DIGITS),
)
#: Keys that are read by files of their own.
OTHERS = ("brief", "stock", "vary", "ask")


@counted
def read_study(source: Source) -> Study:
    """Return the study in a TOML file or a mapping.

    Raises:
        InputError: With everything that is wrong with it, its brief and its stock, each with
            place, found and wanted.
    """
    document, faults = open_document(source, what="study", most_bytes=MOST_BYTES)
    if document is None:
        raise InputError(faults)
    reading = Reading(document=document)
    bare = {key: value for key, value in document.tables.items() if key not in OTHERS}
    answers = read_table(reading, (), bare, KEYS)
    folder = Path() if isinstance(source, Mapping) else Path(os.fsdecode(source)).parent
    brief = _brief(reading, folder)
    stock = _stock(reading, folder)
    cases = _cases(reading, brief, answers, stock)
    questions = read_questions(reading, cases, stock)
    if reading.faults or cases is None or stock is None:
        raise InputError(all_faults(reading))
    named: dict[str, Any] = {
        name: answers[name] for name in ("mode", "rate_ratio", "hour_price") if name in answers
    }
    return Study(
        title=str(answers["title"]), cases=cases, stock=stock, questions=questions, **named
    )


def _brief(reading: Reading, folder: Path) -> Brief | None:
    given = reading.document.tables.get("brief")
    if not isinstance(given, str | Mapping) or not given:
        report(reading, ("brief",), unfit(given, "a brief's file, from where this one lies"))
        return None
    try:
        return read_brief(folder / given if isinstance(given, str) else given)
    except InputError as error:
        reading.faults.extend(error.faults)
        return None


def _stock(reading: Reading, folder: Path) -> Catalogue | None:
    """Return the stock of all files together."""
    given = reading.document.tables.get("stock")
    files = [given] if isinstance(given, str) else given
    named = isinstance(files, list | tuple) and all(isinstance(each, str) for each in files)
    if isinstance(given, Catalogue):
        return given
    if not named or not isinstance(files, list | tuple) or not 1 <= len(files) <= MOST_FILES:
        wanted = f"1 to {MOST_FILES} stock files, from where this one lies"
        report(reading, ("stock",), unfit(given, wanted))
        return None
    known = len(reading.faults)
    read = [_catalogue(reading, folder / each) for each in files]
    if len(reading.faults) > known:
        return None
    try:
        return reduce(or_, (each for each in read if each is not None))
    except InputError as error:
        reading.faults.extend(error.faults)
        return None


def _catalogue(reading: Reading, path: Path) -> Catalogue | None:
    try:
        return load_catalogue(path)
    except InputError as error:
        reading.faults.extend(error.faults)
        return None


def _cases(
    reading: Reading, brief: Brief | None, answers: dict[str, object], stock: Catalogue | None
) -> Cases | None:
    table = reading.document.tables.get("vary")
    if table is None and brief is not None and _is_of_one(reading.document.tables, answers):
        return Cases(brief=brief, axes=(), how="product")
    if not isinstance(table, Mapping) or not table:
        report(reading, ("vary",), unfit(table, "a table of a brief's paths and their values"))
        return None
    values = dict(_values(reading, table))
    told = {name: answers.get(name) for name in ("how", "count", "seed")}
    if brief is None or not values or UNREADABLE in told.values():
        return None
    named: dict[str, Any] = {name: each for name, each in told.items() if each is not None}
    try:
        cases = vary(brief, values, **named)
    except InputError as error:
        reading.faults.extend(_placed(reading.document, each) for each in error.faults)
        return None
    if stock is not None:
        found = code_faults(stock, (path for axis in cases.axes for path in axis.paths))
        reading.faults.extend(_placed(reading.document, each) for each in found)
    return cases


def _is_of_one(tables: Mapping[str, Any], answers: dict[str, object]) -> bool:
    """Return whether nothing varies, since all that is asked is of the deck as it stands."""
    given = tables.get("ask")
    asks = given if isinstance(given, list | tuple) else ()
    whats = [each.get("what") for each in asks if isinstance(each, Mapping)]
    varied = {"how", "count", "seed"} & answers.keys()
    return bool(whats) and not varied and all(what in VERBS for what in whats)


def _placed(document: Document, found: Fault) -> Fault:
    """Return a fault of what varies with its place: its key, whole or in its parts."""
    if found.path in {"how", "count", "seed"}:
        return placed(document, (found.path,), found)
    path = found.path.partition("[")[0]
    whole, parts = ("vary", path), ("vary", *keys_of(path))
    keys = whole if whole in document.places else parts
    return placed(document, keys, evolve(found, path=f"vary.{found.path}"[:200]))


def _values(reading: Reading, table: Mapping[Any, Any]) -> Iterator[tuple[str, object]]:
    """Yield each path with its values, from keys that are dotted or not; spans are written out."""
    known: set[str] = set()
    for keys, given in paths_in(table):
        if ".".join(keys) in known:
            twice = fault("the path twice, dotted and whole", "each path once")
            report(reading, ("vary", ".".join(keys)), twice)
        known.add(".".join(keys))
        read = values_of(given)
        if isinstance(read, Fault):
            report(reading, ("vary", *keys), read)
            continue
        yield ".".join(keys), read
