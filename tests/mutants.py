"""Files that people write, spoilt in every way: bytes, tokens, lines and values; all seeded."""

import random
import re
from collections.abc import Callable
from pathlib import Path

from attrs import frozen

ROOT = Path(__file__).parents[1]
BRIEFS = ("garden", "imperial", "long-terrace")
STOCKS = ("hobbleden", "marrowick", "sallowby")

#: What is written over bytes: half a letter, marks, ends of lines, a byte order mark.
RAW = (b"\x00", b"\xff", b"\xc3", b"\xe2\x82", b"\xef\xbb\xbf", b"\xff\xfe", b"\r", b"\n", b"\r\n",
       b"\x1a", b"\t", b" ", b'"', b"'", b"\\", b";", b",", b"=", b"[", b"]", b"{", b"}", b"#",
       b".", b"-", b"0", b"9", "½".encode(), "\u202e".encode(), "\ufeff".encode(),
       b"\xed\xa0\x80", "💡".encode())  # fmt: skip
#: What is written over values.
VALUES = ("", "0", "-1", "1", "nan", "inf", "-inf", "1e999", "1e-999", "true", "false", "[]", "{}",
          "[[]]", '""', "''", '"x"', '"6 m"', '"3 ft 6 in"', '"1/0 in"', "0x1F", "1_000", "007",
          "2027-03-31", "2027-02-30", "12:00:00", "9" * 50, "9" * 5000, '"' + "x" * 5000 + '"',
          '"14,40"', '"1.234,50"', "3.6", "{ a = 1 }", "[1, 2, 3]", '"\\u0000"', '"\\ud800"',
          '"9**9**9 mm"', '"""x"""', "0.1", "1e3", "-0.0", "null", "= 3", '"2000000000015"',
          '"B1"', "2.0", "1.5", "12;13", "-", "−5", "١٢", "½")  # fmt: skip
_TOKEN = re.compile(r'"[^"\n]*"|[\w.+-]+|[^\w\s]|\s+')
_VALUE = re.compile(r"(?<=[=;,\[{])[^=;,\[\]{}\n]+")


@frozen(kw_only=True)
class Mutant:
    """One spoilt input: what kind it is, its bytes, and a mapping where it is a CSV file."""

    kind: str
    level: str
    file: bytes
    mapping: bytes | None = None


def _bytes(text: bytes, dice: random.Random) -> bytes:
    at = dice.randrange(len(text) + 1)
    end = min(len(text), at + dice.choice((0, 0, 1, 1, 2, 8, 40)))
    part = dice.choice((b"", dice.choice(RAW), text[at:end] * 2, bytes([dice.randrange(256)])))
    return text[:at] + part + text[end:]


def _tokens(text: str, dice: random.Random) -> str:
    tokens = _TOKEN.findall(text)
    one, other = dice.randrange(len(tokens)), dice.randrange(len(tokens))
    match dice.randrange(4):
        case 0:
            tokens[one] = ""
        case 1:
            tokens[one] *= 2
        case 2:
            tokens[one], tokens[other] = tokens[other], tokens[one]
        case _:
            tokens[one] = tokens[other]
    return "".join(tokens)


def _lines(text: str, dice: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    one, other = dice.randrange(len(lines)), dice.randrange(len(lines))
    match dice.randrange(6):
        case 0:
            del lines[one]
        case 1:
            lines.insert(other, lines[one])
        case 2:
            lines[one], lines[other] = lines[other], lines[one]
        case 3:
            lines = lines[:one]
        case 4:
            lines[one] = lines[one].rstrip("\n") + dice.choice(("\r\n", "\r", "", "\x0b\n", " \n"))
        case _:
            lines = lines[one:]
    return "".join(lines)


def _values(text: str, dice: random.Random) -> str:
    found = list(_VALUE.finditer(text))
    if not found:
        return text
    spot = dice.choice(found)
    new = dice.choice((*VALUES, dice.choice(found)[0]))
    return text[: spot.start()] + new + text[spot.end() :]


_TEXT_LEVELS: dict[str, Callable[[str, random.Random], str]] = {
    "token": _tokens,
    "line": _lines,
    "value": _values,
}
LEVELS = ("byte", *_TEXT_LEVELS)


def spoilt(text: str, level: str, dice: random.Random) -> bytes:
    """Return a text as bytes, spoilt in one to three places at a level."""
    raw = text.encode("utf-8")
    for _ in range(dice.choice((1, 1, 1, 2, 3))):
        if level == "byte":
            raw = _bytes(raw, dice)
        elif raw:
            changed = _TEXT_LEVELS[level](raw.decode("utf-8") or " ", dice)
            raw = changed.encode("utf-8", "replace")
    return raw


def _read(path: str) -> str:
    return (ROOT / path).read_text(encoding="utf-8")


class Sources:
    """The sound files that are spoilt, read once."""

    def __init__(self) -> None:
        self.briefs = [_read(f"docs/examples/{name}.toml") for name in BRIEFS]
        stocks = [_read(f"catalogs/{name}.toml").split("\n[[") for name in STOCKS]
        self.heads = [parts[0] for parts in stocks]
        self.articles = [part for parts in stocks for part in parts[1:]]
        self.sheet, self.mapping = (
            _read("catalogs/tarnbeck.csv"),
            _read("catalogs/tarnbeck.map.toml"),
        )

    def stock(self, dice: random.Random) -> str:
        """Return a small stock file: a head, and some articles of any of the yards."""
        some = dice.sample(self.articles, dice.randint(1, 4))
        return "\n[[".join([dice.choice(self.heads), *some])


def mutant(seed: int, sources: Sources) -> Mutant:
    """Return the spoilt input of a seed."""
    dice = random.Random(seed)
    kind = ("brief", "stock", "sheet", "mapping")[seed % 4]
    level = LEVELS[seed // 4 % len(LEVELS)]
    if kind == "brief":
        return Mutant(kind=kind, level=level, file=spoilt(dice.choice(sources.briefs), level, dice))
    if kind == "stock":
        return Mutant(kind=kind, level=level, file=spoilt(sources.stock(dice), level, dice))
    sheet, mapping = sources.sheet.encode(), sources.mapping.encode()
    if kind == "sheet":
        sheet = spoilt(sources.sheet, level, dice)
    if kind == "mapping" or dice.random() < 0.1:
        mapping = spoilt(sources.mapping, level, dice)
    return Mutant(kind=kind, level=level, file=sheet, mapping=mapping)
