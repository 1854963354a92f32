"""The command for studies: a study file in; rows, answers and pictures out."""

import argparse
import time
from argparse import Namespace
from collections.abc import Callable
from typing import TextIO

from drylay.cli import codes, plugged
from drylay.cli.options import add_command, add_progress
from drylay.cli.plugged import chosen, rules_asked
from drylay.cli.screen import Progress, Screen, answer, progress_of, say
from drylay.cli.texts import plain_figures

#: How many characters a bar is wide.
WIDE = 30
#: Where rows are kept while a study runs, beside its folder.
JOURNAL = ".journal.jsonl"
SECONDS_PER_MINUTE = 60


def add_study(below: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command."""
    says = "plan the many decks of a study file, and answer what it asks of them"
    made = add_command(below, "study", study, says)
    made.add_argument("study", metavar="STUDY", help="study file, TOML")
    made.add_argument("--out", metavar="FOLDER", help="write rows, answers and pictures there")
    made.add_argument("--workers", type=int, metavar="COUNT", help="plan in so many processes")
    limit = "plan in processes, and end one that takes longer: 10 or more, for what loops for ever"
    made.add_argument("--most-seconds", type=float, metavar="SECONDS", help=limit)
    made.add_argument(
        "--journal",
        metavar="FILE",
        help="keep rows there and go on from it (default FOLDER.journal.jsonl)",
    )
    plugged.add_options(made)
    add_progress(made)


def study(arguments: Namespace, screen: Screen) -> int:
    """Run a study; stopped, the same command goes on where it was."""
    from drylay.compare.study_errors import StudyStopped
    from drylay.compare.study_file import read_study
    from drylay.compare.study_run import run_study

    read = read_study(arguments.study)
    journal = arguments.journal or (arguments.out and arguments.out.rstrip("/\\") + JOURNAL)
    try:
        told = run_study(
            read,
            out=arguments.out,
            workers=arguments.workers,
            journal=journal,
            most_s=arguments.most_seconds,
            progress=bar_of(screen),
            **rules_asked(screen, chosen(arguments)),
        )
    except KeyboardInterrupt:
        if journal:
            say(screen.err, f"rows so far are in {journal}: the same command goes on from there")
        raise
    except StudyStopped as error:
        say(screen.err, f"the study stopped: {error}")
        return codes.STOPPED
    answers = {name: [plain_figures(row) for row in each.measures()] for name, each in told.answers}
    plain = {"title": told.title, "decks": told.count, "outcomes": dict(told.outcomes),
             "codes": dict(told.codes), "gaps": told.seen.gaps,
             "most_gap": str(told.seen.most_gap), "answers": answers}  # fmt: skip
    answer(screen, str(told), plain)
    return codes.STOPPED if {"failed", "lost"} & dict(told.outcomes).keys() else codes.FINE


def bar_of(screen: Screen, clock: Callable[[], float] = time.monotonic) -> Progress | None:
    """Return what draws a bar on a terminal, with the time that is left; lines elsewhere."""
    if not screen.progress or not screen.err.isatty():
        return progress_of(screen)
    return _bar(screen.err, clock)


def _bar(stream: TextIO, clock: Callable[[], float]) -> Progress:
    began = clock()

    def show(step: str, done: int, total: int) -> None:
        if not total:
            stream.write(f"\r{step} {done}")
        elif done >= total:
            stream.write("\r" + " " * 78 + "\r")
        else:
            full = "#" * (WIDE * done // total)
            left = left_text((clock() - began) / done * (total - done)) if done else ""
            line = f"{step} [{full:.<{WIDE}}] {done}/{total} {left}"
            stream.write(f"\r{line[:78]:<78}")
        stream.flush()

    return show


def left_text(left_s: float) -> str:
    """Return how long is left, in words, up to the next minute."""
    minutes = int(-(-left_s // SECONDS_PER_MINUTE))
    if minutes <= 1:
        return "1 minute or less left"
    return f"about {minutes} minutes left"
