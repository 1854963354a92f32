"""Files in and out, every failure told as a fault of the file."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial, reduce
from operator import or_
from pathlib import Path
from typing import TypeVar

from attrs import evolve

from drylay.brief.model import Brief
from drylay.cli.days import on_day
from drylay.errors import BriefError, Fault, InputError, PlanFileError
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan

PLAN_FILE = "plan.json"
MOST_BYTES = 1_000_000
_Named = TypeVar("_Named")
_Read = TypeVar("_Read")
#: Reads the stock that was named, wherever it lies.
StockReader = Callable[[], Catalogue]


def read_inputs(brief: str, read_stock: StockReader) -> tuple[Brief, Catalogue]:
    """Return the brief in a file, and the stock that is read for it.

    Raises:
        InputError: Something cannot be used; lists the faults of all files together.
    """
    faults: list[Fault] = []
    wished = _collected(faults, read_brief_file, brief)
    shelves = _collected(faults, lambda read: read(), read_stock)
    if wished is None or shelves is None:
        raise InputError(tuple(faults))
    return wished, shelves


def read_to_compare(
    brief: str, read_stock: StockReader, alternatives: str
) -> tuple[Brief, Catalogue]:
    """Return the brief and the stock that alternatives are for.

    Raises:
        InputError: One of them cannot be used; lists what is wrong with the alternatives as well.
    """
    from drylay.compare.alternatives import check_alternatives

    try:
        return read_inputs(brief, read_stock)
    except InputError as error:
        raise InputError((*error.faults, *check_alternatives(alternatives))) from None


def read_brief_file(path: str) -> Brief:
    """Return the brief in a file.

    Raises:
        BriefError: It cannot be planned from.
    """
    from drylay.brief.reader import read_brief

    return read_brief(Path(path))


def mapping_file(path: str | None) -> Path | None:
    """Return the mapping beside a CSV file, if one is given."""
    return None if path is None else Path(path)


def read_stock_files(
    paths: Sequence[str], *, mappings: Sequence[str] = (), on: str | None = None
) -> Catalogue:
    """Return all stock files as one catalogue.

    Raises:
        InputError: Something cannot be used; lists the faults of all files together.
    """
    from drylay.materials.loader import load_catalogue

    mapped = _mappings(paths, mappings)
    faults: list[Fault] = []
    shelves = [
        _collected(
            faults,
            partial(load_catalogue, mapping=mapping_file(mapped.get(path))),
            Path(path),
        )
        for path in paths
    ]
    if faults:
        raise InputError(tuple(faults))
    return reduce(or_, on_day([shelf for shelf in shelves if shelf is not None], on))


def _mappings(paths: Sequence[str], mappings: Sequence[str]) -> dict[str, str]:
    """Return the mapping of each CSV file: one for all, or one for each.

    Raises:
        InputError: There are more or fewer than that.
    """
    sheets = [path for path in paths if path.lower().endswith(".csv")]
    if len(mappings) == 1 and sheets:
        return dict.fromkeys(sheets, mappings[0])
    if len(mappings) != len(sheets) and mappings:
        found = f"{len(mappings)} mappings for {len(sheets)} CSV files"
        wanted = "one mapping for all, or one for each"
        raise InputError((Fault(path="--mapping", found=found, wanted=wanted),))
    return dict(zip(sheets, mappings, strict=False))


def read_plan(path: str) -> Plan:
    """Return the plan in a file, or in a folder of papers.

    Raises:
        PlanFileError: It cannot be read, or is no plan file.
    """
    from drylay.plan.codec import plan_from_json

    file = Path(path)
    if file.is_dir():  # a folder of papers holds its plan
        file /= PLAN_FILE
    try:
        text = file.read_text(encoding="utf-8")
    except OSError as error:
        raise PlanFileError((_file_fault(path, error, "a plan file"),)) from None
    except UnicodeDecodeError as error:
        found = f"bytes that are not UTF-8 (at byte {error.start})"
        raise PlanFileError((Fault(path=path, found=found, wanted="a plan file"),)) from None
    try:
        return plan_from_json(text)
    except PlanFileError as error:
        raise PlanFileError(tuple(evolve(fault, file=path) for fault in error.faults)) from None


@contextmanager
def named_in(brief: str) -> Iterator[None]:
    """Give the faults of a brief that only the planner could see their place in the file."""
    from drylay.intake.document import keys_of, open_document, placed

    try:
        yield
    except BriefError as error:
        document, _ = open_document(brief, what="brief", most_bytes=MOST_BYTES)
        if document is None:
            raise
        found = [placed(document, keys_of(fault.path), fault) for fault in error.faults]
        raise BriefError(tuple(found)) from None


@contextmanager
def writing(path: str, wanted: str) -> Iterator[None]:
    """Tell what keeps a file or folder from being written as a fault of it."""
    try:
        yield
    except OSError as error:
        raise InputError((_file_fault(path, error, wanted),)) from None


def _collected(faults: list[Fault], read: Callable[[_Named], _Read], named: _Named) -> _Read | None:
    try:
        return read(named)
    except InputError as error:
        faults.extend(error.faults)
        return None


def _file_fault(path: str, error: OSError, wanted: str) -> Fault:
    found = (error.strerror or type(error).__name__).lower()
    if error.filename and str(error.filename) != path:
        found += f" ({error.filename})"
    return Fault(path=path, found=found, wanted=wanted)
