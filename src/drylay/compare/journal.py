"""A study's journal: a line of JSON for each row, so that a killed study goes on where it was.

A line is written whole before the row is told, and ends in a digest of itself: a row that somebody
edited, or that a disk spoiled, is not believed. A line cut short by a kill is the last one, has no
line end, and is cut off; its case is planned again.
"""

import hashlib
import json
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO, Any

from attrs import Factory, frozen

from drylay.compare.study_model import Row
from drylay.compare.worker import packed, unpacked
from drylay.errors import Fault, InputError
from drylay.intake.shown import shown

#: How a line begins. What a kill left of one is all that is ever cut off a file.
BEGINS = re.compile(rb'\{"case": "[0-9a-f]{64}", "money": \[')
BEGUN = b'{"case": "' + b"0" * 64 + b'", "money": ['
#: What each line must have.
KEYS = {"case", "money", "row", "sum"}
#: How a line ends: so many hexadecimal digits of the SHA-256 of all before.
SUM = b', "sum": "'
SUM_DIGITS = 16
#: A file that is no journal is not read to its end.
MOST_FAULTS = 20
ROOM = "room for its rows: the study goes on from those that it holds"
NO_PLACE = "a file that can be written, in a folder that is there"


@frozen(kw_only=True)
class Journal:
    """An open journal: where in the file the row of each case begins, by the case's digest."""

    name: str
    stream: IO[bytes]
    starts: dict[bytes, int] = Factory(dict)


@contextmanager
def opened_journal(path: str | os.PathLike[str] | None) -> Iterator[Journal | None]:
    """Open a journal for one study at a time; None where none is kept.

    Raises:
        InputError: It cannot be opened, is no journal, or another study is writing it.
    """
    if path is None:
        yield None
        return
    name = _name(path)
    try:
        stream = open(name, "a+b")  # noqa: SIM115 - closed below, locked until then
    except OSError as error:
        raise InputError((_fault(name, 0, f"{error.strerror}", NO_PLACE),)) from None
    try:
        _lock(stream, name)
        yield Journal(name=name, stream=stream, starts=_read(stream, name))
    finally:
        _unlock(stream)
        with suppress(OSError):  # of a full disk: told already
            stream.close()


def _name(path: object) -> str:
    """Return the name of a file that may become a journal.

    Raises:
        InputError: It names none. A device or a pipe would be read without end.
    """
    if not isinstance(path, str | bytes | os.PathLike):
        raise InputError((Fault(path="journal", found=shown(path), wanted=NO_PLACE),))
    name = os.fsdecode(path)
    if "\0" in name:
        raise InputError((Fault(path="journal", found=shown(name), wanted=NO_PLACE),))
    if os.path.exists(name) and not os.path.isfile(name) and not os.path.isdir(name):
        raise InputError((_fault(name, 0, "a device or a pipe", NO_PLACE),))
    return name


def holds(journal: Journal, case: str) -> bool:
    """Return whether the journal holds the row of a case."""
    return bytes.fromhex(case) in journal.starts


def held_row(journal: Journal, case: str) -> Row | None:
    """Return the row of a case that the journal holds, None where it holds none."""
    start = journal.starts.get(bytes.fromhex(case))
    if start is None:
        return None
    journal.stream.seek(start)
    return unpacked(json.loads(journal.stream.readline()))


def write_row(journal: Journal, case: str, row: Row) -> None:
    """Write the row of a case, unless the journal holds it: none stands in it twice.

    A lost case is not written, so that it is tried again when the study goes on.

    Raises:
        InputError: There is no room.
    """
    key = bytes.fromhex(case)
    if key in journal.starts or row["outcome"] == "lost":
        return
    journal.stream.seek(0, os.SEEK_END)
    start = journal.stream.tell()
    line = json.dumps({"case": case, **packed(row)}, ensure_ascii=True).encode("ascii")
    try:
        journal.stream.write(_summed(line.removesuffix(b"}")) + b"\n")
        journal.stream.flush()
    except OSError as error:  # a full disk; what is written stays, and half a line is cut off
        raise InputError((_fault(journal.name, 0, f"{error.strerror}", ROOM),)) from None
    journal.starts[key] = start


def _summed(line: bytes) -> bytes:
    """Return a line with its sum, from all that stands before it."""
    return line + SUM + hashlib.sha256(line).hexdigest()[:SUM_DIGITS].encode("ascii") + b'"}'


def _read(stream: IO[bytes], name: str) -> dict[bytes, int]:
    """Return where each row begins; what a kill left of a last line is cut off."""
    starts: dict[bytes, int] = {}
    faults: list[Fault] = []
    stream.seek(0)
    at = 0
    for number, line in enumerate(stream, start=1):
        if _is_begun(line):
            break
        case = _case_of(line) if line.endswith(b"\n") else None
        if case is None:
            faults.append(_fault(name, number, line[:40].decode("ascii", "backslashreplace"),
                                 "a line that a study wrote, or none"))  # fmt: skip
        elif _summed(line.rpartition(SUM)[0]) + b"\n" != line:
            faults.append(_fault(name, number, "a line that was changed since a study wrote it",
                                 "the line as it was, or none: then its case is planned again",
                                 ))  # fmt: skip
        else:
            starts.setdefault(case, at)
        at += len(line)
        if len(faults) == MOST_FAULTS:
            break
    if faults:
        raise InputError(tuple(faults))
    stream.truncate(at)
    return starts


def _is_begun(line: bytes) -> bool:
    """Return whether a line is what a kill may have left of one of ours."""
    if line.endswith(b"\n"):
        return False
    return BEGINS.match(line + BEGUN[len(line) :]) is not None


def _case_of(line: bytes) -> bytes | None:
    """Return the digest of a line's case, None where it is no line of a journal."""
    with suppress(ValueError, KeyError, TypeError, RecursionError):
        plain: dict[str, Any] = json.loads(line)
        unpacked(plain)
        case = bytes.fromhex(plain["case"])
        return case if plain.keys() == KEYS and len(case) == 32 else None
    return None


def _fault(name: str, line: int, found: str, wanted: str) -> Fault:
    return Fault(path="journal", found=found, wanted=wanted, file=Path(name).name, line=line,
                 column=1 if line else 0)  # fmt: skip


def _unlock(stream: IO[bytes]) -> None:
    """Let other studies in: a process forked meanwhile would hold the lock as long as it lives."""
    with suppress(ImportError, OSError):
        import fcntl

        fcntl.flock(stream, fcntl.LOCK_UN)


def _lock(stream: IO[bytes], name: str) -> None:
    """Keep other studies out until the file is closed; the system frees it after a kill."""
    try:
        import fcntl
    except ImportError:  # not on this system: two studies with one journal are not kept apart
        return
    try:
        fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        wanted = "a journal of this study's own"
        raise InputError((_fault(name, 0, "another study writes it", wanted),)) from None
