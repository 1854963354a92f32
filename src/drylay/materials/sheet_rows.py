"""A CSV stock file read row by row: every fault as it is met, every row sold as it is read."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.sheet import Row, sheet_rows
from drylay.intake.shown import shown_text, shown_word
from drylay.intake.sources import FileGiven
from drylay.intake.tables import UNREADABLE
from drylay.intake.values import fault
from drylay.intake.words import nearest_of
from drylay.materials.checks import check_article, check_rules, check_sold
from drylay.materials.days import clashing_days, take_from_head
from drylay.materials.mapping_model import SheetMapping
from drylay.materials.seen import MOST_GATHERED, shelf
from drylay.materials.sheet_columns import CellOf, Common, Reckoning
from drylay.materials.sheet_header import read_header
from drylay.materials.sheet_places import Reading, Run, at_name, in_row
from drylay.materials.sheet_twice import put_gtins, put_runs, size_again
from drylay.materials.stock_model import ArticleRule
from drylay.materials.swaps import swap_fix
from drylay.materials.treatment import take_class_from_treatment

#: Values of one column that are kept read; past so many they are read again.
MOST_KNOWN = 500
_NEEDED = {"price": "a price", "length_mm": "a length", "code": "a code"}


Sold = tuple[Run, dict[str, Any]]


def sheet_events(file: FileGiven, mapping: SheetMapping) -> Iterator[Fault | Sold]:
    """Yield every fault of a file as it is met, and what every sound row sells, with its run."""
    rows = sheet_rows(file, mapping.sheet, what="catalogue")
    columns, faults = read_header(file, mapping, rows)
    yield from faults
    if columns is None:
        return
    with shelf() as seen:
        reading = Reading(file=file.name, mapping=mapping, columns=columns, seen=seen)
        yield from _read_rows(reading, rows)


def _read_rows(reading: Reading, rows: Iterable[Row | Fault]) -> Iterator[Fault | Sold]:
    run: Run | None = None
    empty = True
    columns, width = reading.columns, reading.columns.width
    only = None if columns.kind_at is not None else next(iter(columns.by_word))
    for row in rows:
        if isinstance(row, Fault):
            empty = False
            yield row
            continue
        word = only
        if word is None or len(row[1]) != width:
            word, wrong = _word_of(reading, row)
            if wrong is not None:
                empty = False
                yield wrong
            if word is None:
                continue
        empty = False
        reckoning = reading.columns.by_word[word]
        picked = reckoning.pick(row[1])
        if run is None or picked != run.picked or word != run.word:
            begun, faults = _begun(reading, word, picked, row)
            if faults and _shifted(reading, row):
                yield _other_count(reading, row)
                continue
            if run is not None and run.code:
                reading.runs.append(run)
            run = begun
            yield from faults
        sold, faults = _sold(reading, run, row)
        yield from [_other_count(reading, row)] if faults and _shifted(reading, row) else faults
        if sold is not None:
            yield run, sold
        if len(reading.runs) >= MOST_GATHERED or len(reading.gtins) >= MOST_GATHERED:
            yield from (*put_runs(reading), *put_gtins(reading))
    reading.runs += [run] if run is not None and run.code else []
    yield from (*put_runs(reading), *put_gtins(reading))
    if empty:
        found = fault("no article", "rows of at least one article")
        yield evolve(found, path="catalogue", file=reading.file)


def _word_of(reading: Reading, row: Row) -> tuple[str | None, Fault | None]:
    """Return what says which kind a row is, None where it is not read; and what is wrong."""
    columns, cells = reading.columns, row[1]
    if len(cells) != columns.width and (len(cells) < columns.width or any(cells[columns.width :])):
        return None, _other_count(reading, row)
    if columns.kind_at is None:
        return next(iter(columns.by_word)), None
    word = cells[columns.kind_at]
    if word in columns.by_word:
        return word, None
    if word in reading.mapping.leave_out:
        return None, None
    if _shifted(reading, row):
        return None, _other_count(reading, row)
    words = tuple(columns.by_word)
    near = nearest_of(word, words)
    found = fault(
        shown_text(word) if word else "nothing",
        f"one of {', '.join(map(shown_word, words))}, or a word of leave_out",
        shown_word(near) if near else "",
    )
    path = f"kind ({reading.mapping.kind_column})"
    return None, in_row(reading, row, columns.kind_at, evolve(found, path=path))


def _shifted(reading: Reading, row: Row) -> bool:
    """Whether a row has a cell too many: what stands in its columns then may be another's."""
    return len(row[1]) != reading.columns.width


def _other_count(reading: Reading, row: Row) -> Fault:
    """Return the fault of a row with more or fewer cells than the first row has."""
    count, width = len(row[1]), reading.columns.width
    told = fault(
        f"{count} cells",
        f"{width} cells, as many as the first row",
        f"quotes round a text that holds a {shown_text(reading.mapping.sheet.delimiter)}"
        if count > width
        else "",
    )
    return in_row(reading, row, min(count, width), evolve(told, path="row"))


def _begun(
    reading: Reading, word: str, picked: tuple[str, ...], row: Row
) -> tuple[Run, list[Fault]]:
    """Return the run that begins with a row, and what is wrong with its article's facts."""
    reckoning = reading.columns.by_word[word]
    alike = picked[len(reckoning.own) :]
    common = reckoning.known.get(alike)
    if common is None:
        common = _common(reading, reckoning, row)
        if len(reckoning.known) >= MOST_KNOWN:
            reckoning.known.clear()
        reckoning.known[alike] = common
    facts = dict(common.facts)
    wrong = _read(reckoning.own, row[1], facts)
    faults: list[Fault] = []
    if wrong or common.wrong:
        faults = _placed(reading, row, reckoning, (*wrong, *common.wrong))
    code = str(facts.get("code", ""))
    run = Run._make((reckoning, word, code, picked, row, facts, common.rules, {}))
    return run, faults


def _placed(
    reading: Reading, row: Row, reckoning: Reckoning, wrong: Sequence[tuple[str, Fault]]
) -> list[Fault]:
    return [at_name(reading, row, reckoning, name, found) for name, found in wrong] if wrong else []


def _common(reading: Reading, reckoning: Reckoning, row: Row) -> Common:
    """Return the facts of an article that others may have alike, and what is wrong with them."""
    facts = dict(reckoning.constants)
    wrong = _read(reckoning.common, row[1], facts)
    if wrong:
        facts.update(dict.fromkeys((name for name, _ in wrong), UNREADABLE))
        wrong = _swapped(reckoning, row, wrong)
    wrong += [(found.path, found) for found in check_article(reckoning.kind, facts)]
    take_class_from_treatment(facts)
    rules = _rules(reckoning, row, wrong) if reckoning.rules else ()
    head: Any = reading.mapping.head
    if reckoning.dated:
        wrong += [(found.path, found) for found in clashing_days(head, facts)]
        take_from_head(head, facts)
    elif "batch" in head:
        facts.setdefault("batch", head["batch"])
    return Common(facts, rules, wrong)


def _swapped(
    reckoning: Reckoning, row: Row, wrong: list[tuple[str, Fault]]
) -> list[tuple[str, Fault]]:
    """Return faults of sizes that stand in each other's place with the swap as their fix."""
    swap = reckoning.swap
    if swap is None:
        return wrong
    first, second = (read(row[1][at]) for read, at in zip(swap.read, swap.at, strict=True))
    if not isinstance(first, float) or not isinstance(second, float):
        return wrong
    fix, names = swap_fix(swap.pair, first, second), {key.name for key in swap.pair}
    return [(name, evolve(f, nearest=fix) if fix and name in names else f) for name, f in wrong]


def _rules(
    reckoning: Reckoning, row: Row, wrong: list[tuple[str, Fault]]
) -> tuple[ArticleRule, ...]:
    """Return the merchant's own rules for an article; what is wrong with them goes on the list."""
    rules: dict[str, Any] = {}
    wrong += _read(reckoning.rules, row[1], rules)
    first = next(iter(rules), "rules")
    wrong += [(first, found) for found in check_rules(rules)]
    return _recorded(reckoning.rules, rules)


def _recorded(cells: tuple[CellOf, ...], rules: dict[str, Any]) -> tuple[ArticleRule, ...]:
    return tuple(
        ArticleRule(rule=cell.name, value=float(rules[cell.name]), source=cell.source)
        for cell in cells
        if cell.name in rules and cell.source is not None
    )


def _read(
    parts: tuple[CellOf, ...], cells: list[str], values: dict[str, Any]
) -> list[tuple[str, Fault]]:
    """Put what cells hold among the values; return what cannot be read, by its key."""
    wrong: list[tuple[str, Fault]] = []
    for at, name, read, required, known, _, _ in parts:
        text = cells[at]
        if not text:
            if required:
                wrong.append((name, fault("nothing", _NEEDED.get(name, f"a value for {name}"))))
            continue
        if known is None:
            value = read(text)
        elif (value := known.get(text)) is None:  # no cell reads as None
            value = read(text)
            if len(known) >= MOST_KNOWN:
                known.clear()
            known[text] = value
        if value.__class__ is Fault:
            wrong.append((name, value))
        else:
            values[name] = value
    return wrong


def _sold(reading: Reading, run: Run, row: Row) -> tuple[dict[str, Any] | None, list[Fault]]:
    """Return the length or pack that a row sells, None if it is not to be read, and its faults."""
    reckoning = run.reckoning
    values: dict[str, Any] = dict(reckoning.sold_constants)
    faults = _placed(reading, row, reckoning, _read(reckoning.sold, row[1], values))
    per_m = run.facts.get("price_per_m")
    plain = per_m is None and "price" in values and reckoning.size in values
    if not plain or "each" in values:
        for name, found in _priced(values, reckoning.size, per_m, whole=not faults):
            faults.append(at_name(reading, row, reckoning, name, found))
    if "pack" in values:
        for found in check_sold(values):
            fix = found.nearest.removeprefix("limit = ")
            faults.append(at_name(reading, row, reckoning, "limit", evolve(found, nearest=fix)))
    size = values.get(reckoning.size)
    if size is not None:
        earlier = run.sizes.setdefault(size, row)
        if earlier is not row:
            faults.append(size_again(reading, run, row, size, earlier[0]))
    if "gtin" in values:
        reading.gtins.append((int(values["gtin"]), run, row))
    return None if faults else values, faults


def _priced(
    values: dict[str, Any], size: str, per_m: object, *, whole: bool
) -> Iterator[tuple[str, Fault]]:
    """Settle what a row costs; yield what is missing, or told in two ways."""
    told, fix = "one of the two", "leave one of them empty"
    if "each" in values:
        each = values.pop("each")
        for name in (size, "price"):
            if name in values:
                yield name, fault(f"{name} beside each", told, fix)
        values.update({size: 1, "price": each})
    if per_m is not None and "price" in values:
        yield "price", fault("a price beside price_per_m", told, fix)
    for name in (size,) if per_m is not None else (size, "price"):
        if whole and name not in values:
            yield name, fault("nothing", _NEEDED.get(name, f"a value for {name}"))
