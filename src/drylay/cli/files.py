"""Files in and out, every failure told as a fault of the file."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import reduce
from operator import or_
from pathlib import Path
from typing import TypeVar

from drylay.brief.model import Brief
from drylay.errors import Fault, InputError
from drylay.materials.model import Catalogue
from drylay.plan.model import Plan

_Read = TypeVar("_Read")


def read_inputs(brief: str, stock: Sequence[str]) -> tuple[Brief, Catalogue]:
    """Return the brief and all stock files as one catalogue.

    Raises:
        InputError: Something cannot be used; lists the faults of all files together.
    """
    faults: list[Fault] = []
    wished = _collected(faults, _brief, brief)
    shelves = [_collected(faults, _catalogue, path) for path in stock]
    if faults or wished is None:
        raise InputError(tuple(faults))
    return wished, reduce(or_, [shelf for shelf in shelves if shelf is not None])


def read_brief_file(path: str) -> Brief:
    """Return the brief in a file.

    Raises:
        BriefError: It cannot be planned from.
        InputError: The file cannot be read.
    """
    return _brief(path)


def read_stock_files(paths: Sequence[str]) -> Catalogue:
    """Return all stock files as one catalogue.

    Raises:
        InputError: Something cannot be used; lists the faults of all files together.
    """
    faults: list[Fault] = []
    shelves = [_collected(faults, _catalogue, path) for path in paths]
    if faults:
        raise InputError(tuple(faults))
    return reduce(or_, [shelf for shelf in shelves if shelf is not None])


def read_plan(path: str) -> Plan:
    """Return the plan in a file.

    Raises:
        PlanFileError: It is no plan file.
        InputError: The file cannot be read.
    """
    from drylay.plan.codec import plan_from_json

    with reading(path):
        text = Path(path).read_text(encoding="utf-8")
    return plan_from_json(text)


@contextmanager
def reading(path: str) -> Iterator[None]:
    """Tell what keeps a file from being read as a fault of that file."""
    try:
        yield
    except OSError as error:
        raise InputError((_file_fault(path, error, "a file that can be read"),)) from None
    except UnicodeDecodeError as error:
        found = f"bytes that are not UTF-8 (at byte {error.start})"
        raise InputError((Fault(path=path, found=found, wanted="UTF-8 text"),)) from None


@contextmanager
def writing(path: str, wanted: str) -> Iterator[None]:
    """Tell what keeps a file or folder from being written as a fault of it."""
    try:
        yield
    except BrokenPipeError:
        raise
    except OSError as error:
        raise InputError((_file_fault(path, error, wanted),)) from None


def _brief(path: str) -> Brief:
    from drylay.brief.reader import read_brief

    with reading(path):
        return read_brief(Path(path))


def _catalogue(path: str) -> Catalogue:
    from drylay.materials.loader import load_catalogue

    with reading(path):
        return load_catalogue(Path(path))


def _collected(faults: list[Fault], read: Callable[[str], _Read], path: str) -> _Read | None:
    try:
        return read(path)
    except InputError as error:
        faults.extend(error.faults)
        return None


def _file_fault(path: str, error: OSError, wanted: str) -> Fault:
    found = (error.strerror or type(error).__name__).lower()
    if error.filename and str(error.filename) != path:
        found += f" ({error.filename})"
    return Fault(path=path, found=found, wanted=wanted)
