"""A mapping file in, a SheetMapping out, or everything that is wrong with it."""

from collections.abc import Mapping

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.cells import CellForm
from drylay.intake.document import open_document
from drylay.intake.sheet import SheetForm
from drylay.intake.shown import shown, shown_text
from drylay.intake.tables import Reading, all_faults, read_table, read_tables, report
from drylay.intake.values import fault, unfit
from drylay.materials import mapping_keys
from drylay.materials.checks import repeated
from drylay.materials.head import read_head
from drylay.materials.mapping_keys import row_keys
from drylay.materials.mapping_model import RowsOf, SheetMapping
from drylay.materials.mapping_rows import read_rows

MOST_BYTES = 1_000_000


def read_mapping(source: object) -> tuple[SheetMapping | None, tuple[Fault, ...]]:
    """Return a mapping, or None and everything that is wrong with it."""
    document, faults = open_document(source, what="mapping", most_bytes=MOST_BYTES)
    if document is None:
        return None, faults
    reading, tables = Reading(document=document), document.tables
    read_table(reading, (), tables, mapping_keys.TOP)
    form = _file(reading)
    head = read_head(reading)
    rows = _all_rows(reading, form, int(head.get("minor_digits", 2)))
    leave_out = _leave_out(reading, form.get("leave_out"))
    _check_kinds(reading, form, rows, leave_out)
    if reading.faults:
        return None, all_faults(reading)
    return SheetMapping(
        document=document,
        sheet=SheetForm(
            encoding=str(form["encoding"]),
            delimiter=mapping_keys.DELIMITERS[str(form["delimiter"])],
            skip_lines=int(str(form.get("skip_lines", 0))),
            trim=form.get("trim") is True,
        ),
        cells=_cell_form(form),
        kind_column=str(form.get("kind_column", "")),
        leave_out=leave_out,
        head=head,
        rows=rows,
    ), ()


def _file(reading: Reading) -> Mapping[str, object]:
    table = reading.document.tables.get("file")
    return {} if table is None else read_table(reading, ("file",), table, mapping_keys.FILE)


def _cell_form(form: Mapping[str, object]) -> CellForm:
    return CellForm(decimal=str(form.get("decimal", ".")), dates=str(form.get("dates", "")))


def _leave_out(reading: Reading, value: object) -> tuple[str, ...]:
    """Return what the kind column says of rows that are not read."""
    items = [] if value is None else value
    if not isinstance(items, list | tuple) or not all(isinstance(item, str) for item in items):
        report(reading, ("file", "leave_out"), unfit(value, "a list of texts"))
        return ()
    return tuple(items)


def _check_kinds(
    reading: Reading,
    form: Mapping[str, object],
    rows: tuple[RowsOf, ...],
    leave_out: tuple[str, ...],
) -> None:
    """Report rows that could not be told from each other."""
    told = "kind_column" in form
    for each in rows:
        if told and not each.says:
            wanted = "what the kind column says of these rows"
            report(reading, (*each.there, "says"), fault("nothing", wanted), at_key=True)
        elif each.says and not told:
            wanted = "file.kind_column, the column that says so"
            report(reading, (*each.there, "says"), fault(f"says = {shown(each.says)}", wanted))
    if not told and len(rows) > 1:
        found = fault(f"{len(rows)} kinds of rows", "file.kind_column, which tells them apart")
        report(reading, ("rows",), found)
    for at in repeated([each.says for each in rows if each.says]):
        found = fault(f"{shown_text(rows[at].says)} a second time", "each kind of rows once")
        report(reading, (*rows[at].there, "says"), found)
    for each in rows:
        if each.says in leave_out:
            found = fault(f"{shown_text(each.says)} in leave_out too", "read, or left out")
            report(reading, (*each.there, "says"), found)


def _all_rows(reading: Reading, form: Mapping[str, object], digits: int) -> tuple[RowsOf, ...]:
    given = reading.document.tables.get("rows")
    if given is None or given == []:
        report(reading, ("rows",), fault("nothing", "at least one [[rows]], with its kind"))
        return ()
    found = read_tables(reading, ("rows",), given, mapping_keys.ROWS)
    tables = given if isinstance(given, list | tuple) else []
    rows = [
        read_rows(reading, ("rows", at), read, tables[at], dated="dates" in form, digits=digits)
        for at, read in enumerate(found)
        if isinstance(read.get("kind"), str) and isinstance(tables[at], Mapping)
    ]
    _refuse_unused(reading, rows, digits)
    return tuple(rows)


def _refuse_unused(reading: Reading, rows: list[RowsOf], digits: int) -> None:
    """Report shared columns that no kind of rows has a key for."""
    shared = reading.document.tables.get("columns", {})
    known = {key.name: key for each in rows for key in row_keys(each.kind, digits)}
    if rows and isinstance(shared, Mapping):
        raw = tuple(evolve(key, kind="measure", required=False) for key in known.values())
        read_table(reading, ("columns",), shared, raw)
