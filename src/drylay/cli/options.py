"""What several commands may be given: how a command is added, stock, progress."""

import argparse
from collections.abc import Callable

from drylay.cli.screen import Screen

Command = Callable[[argparse.Namespace, Screen], int]


def add_command(
    below: "argparse._SubParsersAction[argparse.ArgumentParser]",
    name: str,
    run: Command,
    says: str,
    *,
    csv: bool = False,
) -> argparse.ArgumentParser:
    """Return the parser of a command, added below; `csv`: it may answer as CSV too."""
    made = below.add_parser(
        name, help=says, description=says.capitalize() + ".", allow_abbrev=False
    )
    made.set_defaults(run=run)
    answers = made.add_mutually_exclusive_group()
    answers.add_argument("--json", action="store_true", help="answer in JSON and nothing else")
    if csv:
        answers.add_argument("--csv", action="store_true", help="answer as a table of CSV")
    return made


def add_progress(made: argparse.ArgumentParser) -> None:
    """Let a command show its progress anywhere."""
    made.add_argument(
        "--progress", action="store_true", help="show progress where stderr is no terminal too"
    )


def add_stock(made: argparse.ArgumentParser, *, required: bool) -> None:
    """Let a command be told its stock, by files or by a plugin."""
    one_of = made.add_mutually_exclusive_group(required=required)
    one_of.add_argument(
        "--stock",
        metavar="FILE",
        action="append",
        default=[],
        help="stock file, TOML or CSV; may be given more than once",
    )
    one_of.add_argument(
        "--stock-of",
        metavar="PLUGIN",
        action="append",
        default=[],
        help="stock that an installed plugin brings along; may be given more than once",
    )
    made.add_argument(
        "--mapping",
        metavar="MAP",
        action="append",
        default=[],
        help="what a CSV file's columns mean, TOML; one for all, or one for each in their order",
    )
    made.add_argument("--on", metavar="DAY", help="only what is on sale on this day, 2027-03-31")
