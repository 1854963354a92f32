"""Files that are no brief at all: each is refused with the documented error."""

from pathlib import Path
from typing import Any

import pytest

from brief.test_faults import GOOD, faults_of
from drylay.brief.model import Brief
from drylay.brief.reader import check_brief, read_brief
from drylay.errors import BriefError


def test_toml_that_does_not_parse_is_placed(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path, 'title = "x"\n[cover]\nalong_mm = = 3\n')
    assert (fault.line, fault.column, fault.path) == (3, 12, "file")


def test_toml_that_ends_too_soon_is_placed_at_its_end(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path, 'title = "x"\nuse = [')
    assert fault.line == 2


def test_a_key_given_twice_is_placed(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path, GOOD.replace("across_mm = 3000", "along_mm = 3000"))
    assert fault.line == 7


@pytest.mark.parametrize(
    ("raw", "found"),
    [
        (b"\xff\xfe\x00\x01", "bytes that are not text"),
        (b"title = '\xe9'", "bytes that are not text"),
        (b"\x00" * 100, "TOML that does not parse"),
        (b"x = " + b"[" * 100_000, "tables nested too deep"),
        (b"x = " + b"[" * 3000 + b"]" * 3000, "tables nested too deep"),
        (b"a" + b".a" * 400_000 + b" = 1", "an endless dotted key"),
        (b"a = " + b"9" * 5000, "a number of thousands of digits"),
        (b"#" * 1_000_001, "more than 1000 kB"),
        (b"", "nothing"),
    ],
)
def test_a_file_that_is_no_brief_is_refused(tmp_path: Path, raw: bytes, found: str) -> None:
    path = tmp_path / "bad.toml"
    path.write_bytes(raw)
    faults = check_brief(path)
    assert found in faults[0].found


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ("no-such-file.toml", "no such file or directory"),
        (".", "is a directory"),
        ("\x00", "no usable path"),
        ("x" * 5000, "file name too long"),
        ('title = "x"\n[cover]', "no such file or directory"),
        (b"bytes", "TOML that does not parse (expected '=' after a key in a key/value pair)"),
        (3j, "a value of type complex"),
        (3, "a value of type int"),
        (None, "a value of type NoneType"),
    ],
)
def test_what_is_no_file_is_refused(source: Any, found: str) -> None:
    (fault,) = check_brief(source)
    assert fault.found == found
    with pytest.raises(BriefError):
        read_brief(source)


def test_a_byte_order_mark_and_other_line_ends_do_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "brief.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert isinstance(read_brief(path), Brief)
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("6000", "6").replace("\n", "\r\n").encode())
    (fault,) = check_brief(path)
    assert (fault.line, fault.column) == (6, 12)
