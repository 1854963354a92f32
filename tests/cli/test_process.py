"""The command line as a process of its own: streams, pipes, exit codes."""

import json
import signal
import subprocess
import sys
from pathlib import Path

from drylay.cli import codes

ROOT = Path(__file__).parents[2]
DRYLAY = [sys.executable, "-m", "drylay"]
DESIGN = [*DRYLAY, "design", "docs/examples/garden.toml", "--stock", "catalogs/hobbleden.toml"]


def test_json_is_all_there_is_on_standard_output() -> None:
    done = subprocess.run(
        [*DESIGN, "--json", "--progress"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == codes.FINE, done.stderr
    assert json.loads(done.stdout)["schema_version"] == 3
    assert done.stderr


def test_two_runs_say_the_same_bytes() -> None:
    first, second = (
        subprocess.run([*DESIGN, "--json"], cwd=ROOT, capture_output=True, check=True).stdout
        for _ in range(2)
    )
    assert first == second


def test_a_pipe_closed_early_is_no_traceback() -> None:
    with subprocess.Popen(
        [*DESIGN, "--json"], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        run.stdout.close()
        said = run.stderr.read()
        code = run.wait()
    assert said == b""
    assert code == codes.READER_GONE


def test_an_interrupt_is_one_word() -> None:
    """The process interrupts itself at its first step, so that no clock decides.

    A process started in the background of a shell ignores interrupts and hands that on, so the
    handler is set back first.
    """
    told = (
        "import os, signal, sys\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "from drylay.cli import main, screen\n"
        "from drylay.cli import commands\n"
        "commands.progress_of = lambda _: lambda *_: os.kill(os.getpid(), signal.SIGINT)\n"
        "sys.exit(main(sys.argv[1:]))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", told, *DESIGN[3:]],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert signal.SIGINT == 2
    assert (done.returncode, done.stdout) == (codes.INTERRUPTED, "")
    assert done.stderr == "interrupted\n"
