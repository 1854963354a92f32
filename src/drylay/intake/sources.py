"""Where the text of a file comes from: a path, bytes at hand, or a package's own file."""

import io
import os
from collections.abc import Callable
from importlib.resources.abc import Traversable
from typing import BinaryIO, cast

from attrs import frozen

from drylay.errors import Fault

#: What opening or reading a file may raise: no such file, no usable path, no such file in a zip.
UNOPENED = (OSError, ValueError, KeyError)
#: How spreadsheets begin that are no text: a zip file, and the older kind.
SPREADSHEETS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")


@frozen(kw_only=True)
class FileGiven:
    """A file as somebody handed it over: how faults name it, and how it is opened."""

    name: str
    open: Callable[[], BinaryIO]


def file_given(source: object, *, what: str) -> FileGiven | None:
    """Return the file behind a path, bytes or a package's file; None if it is none of them."""
    if isinstance(source, str | os.PathLike):
        path = source
        return FileGiven(name=_shown_path(str(source)), open=lambda: open(path, "rb"))
    if isinstance(source, bytes | bytearray | memoryview):
        raw = bytes(source)
        return FileGiven(name=f"<{what}>", open=lambda: io.BytesIO(raw))
    if isinstance(source, Traversable):
        packed = source
        return FileGiven(
            name=_shown_path(str(packed.name)), open=lambda: cast(BinaryIO, packed.open("rb"))
        )
    return None


def no_file(source: object, *, what: str, mapping: bool = True) -> Fault:
    """Return the fault of something that is neither a file nor, where one will do, a mapping."""
    wanted = "a path, bytes or a package's file"
    found = f"a value of type {type(source).__name__}"
    return Fault(path=what, found=found, wanted=f"{wanted}, or a mapping" if mapping else wanted)


def unopened(name: str, error: Exception, *, what: str) -> Fault:
    """Return the fault of a file that could not be opened."""
    reason = getattr(error, "strerror", None) or "no usable path"
    return Fault(path=what, found=str(reason).lower(), wanted=f"a {what} file", file=name)


def _shown_path(file: str) -> str:
    return file if len(file) <= 200 and file.isprintable() else ascii(file[:60]) + "..."
