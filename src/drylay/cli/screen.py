"""Where a command writes: answers to one stream, everything else to the other."""

import json
from collections.abc import Callable
from typing import TextIO

from attrs import frozen

Progress = Callable[[str, int, int], None]


@frozen(kw_only=True)
class Screen:
    """The two streams, whether answers are JSON, and whether progress is shown."""

    out: TextIO
    err: TextIO
    as_json: bool
    progress: bool


def say(stream: TextIO, text: str) -> None:
    """Write text and a newline, with escapes where the stream cannot spell a character."""
    encoding = getattr(stream, "encoding", None) or "utf-8"
    spelt = text.encode(encoding, "backslashreplace").decode(encoding)
    stream.write(spelt if spelt.endswith("\n") else spelt + "\n")


def answer(screen: Screen, text: str, plain: object) -> None:
    """Write an answer: `text` for people, `plain` as JSON."""
    as_json = json.dumps(plain, indent=1, sort_keys=True, allow_nan=False)
    say(screen.out, as_json if screen.as_json else text)


def progress_of(screen: Screen) -> Progress | None:
    """Return what the planner calls as it goes, None where nobody wants to see it."""
    if not screen.progress:
        return None
    return _on_one_line(screen.err) if screen.err.isatty() else _on_many_lines(screen.err)


def _on_one_line(stream: TextIO) -> Progress:
    def show(step: str, done: int, total: int) -> None:
        line = f"{step} {done}/{total}"
        stream.write(f"\r{line[:78]:<78}" + ("\r" + " " * 78 + "\r" if done >= total else ""))
        stream.flush()

    return show


def _on_many_lines(stream: TextIO) -> Progress:
    def show(step: str, done: int, total: int) -> None:
        say(stream, f"{step} {done}/{total}")

    return show
