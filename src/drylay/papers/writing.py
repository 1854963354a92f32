"""Files written as one folder: a killed run leaves the old folder or the new one."""

import ctypes
import hashlib
import os
import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from uuid import uuid4

from drylay.errors import Fault, PapersError

#: What the folder holds, in the format that `sha256sum --check` of GNU coreutils reads.
CONTENTS = "contents.sha256"
#: renameat2(2) of Linux: this folder, and "swap the two".
AT_FDCWD, RENAME_EXCHANGE = -100, 2


def write_folder(files: Mapping[str, bytes], folder: str | os.PathLike[str]) -> Path:
    """Return the folder, written whole; one written before is replaced whole.

    The files are written beside it first. On Linux the two folders are then swapped in one
    step; elsewhere by two renamings, and a run killed between them leaves the old folder
    beside the place, named `.<name>.<digits>.old`.

    Raises:
        PapersError: The place holds something that was not written here, or was changed since.
    """
    target = Path(folder).absolute().resolve()
    faults = _foreign(target)
    if faults:
        raise PapersError(faults)
    target.parent.mkdir(parents=True, exist_ok=True)
    fresh = target.parent / f".{target.name}.{uuid4().hex}.new"
    try:
        _fill(fresh, files)
        old = _take_place(fresh, target)
    except BaseException:
        _remove(fresh)
        raise
    _remove(old)
    return target


def contents(files: Mapping[str, bytes]) -> bytes:
    """Return the list of a folder's files with their SHA-256."""
    lines = (f"{hashlib.sha256(files[name]).hexdigest()}  {name}\n" for name in sorted(files))
    return "".join(lines).encode("utf-8")


def _fill(folder: Path, files: Mapping[str, bytes]) -> None:
    folder.mkdir()
    for name, held in {**files, CONTENTS: contents(files)}.items():
        with (folder / name).open("xb") as stream:
            stream.write(held)
            stream.flush()
            os.fsync(stream.fileno())
    _settle(folder)


def _settle(folder: Path) -> None:
    """Bring a folder's own entries to the disk, where the system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _take_place(fresh: Path, target: Path) -> Path:
    """Put the fresh folder in the target's place; return where the old one is then."""
    old = fresh.with_suffix(".old")
    if not target.exists():
        fresh.rename(target)
    elif exchange(fresh, target):
        old = fresh
    else:
        target.rename(old)
        try:
            fresh.rename(target)
        except BaseException:
            old.rename(target)
            raise
    _settle(target.parent)
    return old


def exchange(one: Path, other: Path) -> bool:
    """Swap two folders in one step and return True; False where the system cannot."""
    if sys.platform != "linux":
        return False
    rename = getattr(ctypes.CDLL(None), "renameat2", None)
    if rename is None:
        return False
    places = (AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other))
    return bool(rename(*places, RENAME_EXCHANGE) == 0)


def _remove(folder: Path) -> None:
    """Take away a folder that was written here, and nothing that others put into it."""
    for name in [*_listed(folder), CONTENTS]:
        (folder / name).unlink(missing_ok=True)
    with suppress(OSError):
        folder.rmdir()


def _listed(folder: Path) -> dict[str, str]:
    """Return the names and sums that a folder's own list gives, none without a list."""
    try:
        text = (folder / CONTENTS).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return {}
    pairs = (line.split("  ", 1) for line in text.splitlines() if "  " in line)
    return {name: digest for digest, name in pairs if name == Path(name).name}


def _foreign(folder: Path) -> tuple[Fault, ...]:
    """Return a fault for everything at a place that was not written here or has changed."""
    if not folder.exists():
        return ()
    if not folder.is_dir():
        return (Fault(path=str(folder), found="a file", wanted="a folder, or nothing"),)
    listed = _listed(folder)
    strange = [place for place in sorted(folder.iterdir()) if not _is_ours(place, listed)]
    wanted = "only papers written before, as they were written"
    fix = "another folder, or move this away"
    return tuple(
        Fault(path=place.name, found="not ours, or changed", wanted=wanted, nearest=fix)
        for place in strange
    )


def _is_ours(place: Path, listed: Mapping[str, str]) -> bool:
    if place.name == CONTENTS or place.is_symlink() or not place.is_file():
        return place.name == CONTENTS and bool(listed)
    return listed.get(place.name) == hashlib.sha256(place.read_bytes()).hexdigest()
