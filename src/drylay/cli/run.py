"""One command from its arguments to its exit code."""

import os
import sys
import traceback
from argparse import Namespace
from collections.abc import Sequence
from contextlib import redirect_stdout, suppress

import drylay
from drylay.cli import codes
from drylay.cli.parser import parser
from drylay.cli.screen import Screen, answer, say
from drylay.errors import InputError, PlannerFault, UnknownPathError


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code (see `drylay.cli.codes`)."""
    top = parser()
    try:
        arguments = top.parse_args(argv)
    except SystemExit as asked:  # argparse has said it all
        return codes.FINE if not asked.code else codes.UNUSABLE
    if arguments.version:
        say(sys.stdout, f"drylay {drylay.__version__}")
        return codes.FINE
    if not hasattr(arguments, "run"):
        say(sys.stderr, top.format_help())
        return codes.UNUSABLE
    return _guarded(arguments)


def _guarded(arguments: Namespace) -> int:
    screen = Screen(
        out=sys.stdout,
        err=sys.stderr,
        as_json=arguments.json,
        progress=getattr(arguments, "progress", False) or sys.stderr.isatty(),
    )
    try:
        with redirect_stdout(screen.err):  # what a plugin prints is no part of the answer
            code = _run(arguments, screen)
        screen.out.flush()
    except BrokenPipeError:
        _let_go_of(screen)
        return codes.READER_GONE
    except KeyboardInterrupt:
        say(screen.err, "interrupted")
        return codes.INTERRUPTED
    return code


def _run(arguments: Namespace, screen: Screen) -> int:
    try:
        return int(arguments.run(arguments, screen))
    except InputError as error:
        return _unusable(screen, "\n".join(map(str, error.faults)), error.to_dict())
    except UnknownPathError as error:
        plain = {"error": "path", "path": error.path, "nearest": list(error.nearest)}
        return _unusable(screen, str(error), plain)
    except PlannerFault as error:
        return _our_fault(screen, str(error))
    except (BrokenPipeError, KeyboardInterrupt):
        raise
    except Exception:
        return _our_fault(screen, traceback.format_exc())


def _unusable(screen: Screen, text: str, plain: object) -> int:
    if screen.as_json:
        answer(screen, "", plain)
    else:
        say(screen.err, text)
    return codes.UNUSABLE


def _our_fault(screen: Screen, text: str) -> int:
    if screen.as_json:
        answer(screen, "", {"error": "drylay itself", "says": text})
    else:
        say(screen.err, f"a fault in drylay itself, please report it:\n{text}")
    return codes.OUR_FAULT


def _let_go_of(screen: Screen) -> None:
    """Give the lost output a place to go, or the interpreter complains when it ends."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), screen.out.fileno())
