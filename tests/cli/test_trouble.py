"""The command line when something breaks: faults of ours, interruptions, odd streams."""

import errno
import io
import json
import sys
from collections.abc import Callable
from decimal import Decimal

import pytest

from cli.conftest import Run
from drylay.audit.model import AuditReport, NotRun, Trusted
from drylay.cli import codes, main, texts
from drylay.cli.files import writing
from drylay.cli.screen import Screen, progress_of, say
from drylay.errors import InputError, PlannerFault
from drylay.plugins.loading import installed_families
from liars import entry_raising

# ----- when something breaks -----------------------------------------------------------


def broken(error: BaseException) -> Callable[..., object]:
    def breaks(*_: object, **__: object) -> object:
        raise error

    return breaks


@pytest.mark.parametrize(
    ("error", "says"),
    [(PlannerFault(("stop AUD-101",)), "AUD-101"), (RuntimeError("oh"), "RuntimeError: oh")],
)
def test_a_fault_of_ours(
    run: Run, monkeypatch: pytest.MonkeyPatch, error: Exception, says: str
) -> None:
    monkeypatch.setattr("drylay.plugins.loading.installed_families", broken(error))
    code, out, err = run("families")
    assert (code, out) == (codes.OUR_FAULT, "")
    assert err.startswith("a fault in drylay itself")
    assert says in err
    code, out, err = run("families", "--json")
    assert (code, err) == (codes.OUR_FAULT, "")
    assert says in json.loads(out)["says"]


def test_the_keyboard_interrupts(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("drylay.plugins.loading.installed_families", broken(KeyboardInterrupt()))
    assert run("families") == (codes.INTERRUPTED, "", "interrupted\n")


class ClosedPipe(io.StringIO):
    def write(self, _: str) -> int:
        raise BrokenPipeError


def test_a_reader_that_went_away(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", ClosedPipe())
    assert main(["families"]) == codes.READER_GONE


# ----- texts ---------------------------------------------------------------------------


def test_no_family_is_said_and_failed_plugins_are_named() -> None:
    lost = entry_raising("oak", ImportError("no oak_rules"))
    text = texts.families_text(installed_families(entry_points=[lost]))
    assert text.splitlines() == [
        "no family is installed",
        "not used: plugin oak: import failed: ImportError: no oak_rules",
    ]


def test_a_failed_plugin_is_told_by_the_exit_code(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    lost = installed_families(entry_points=[entry_raising("oak", ImportError("no oak_rules"))])
    monkeypatch.setattr("drylay.plugins.loading.installed_families", lambda **_: lost)
    code, out, _ = run("families", "--json")
    assert code == codes.STOPPED
    assert json.loads(out)["faults"][0]["plugin"] == "oak"


def test_a_report_says_what_did_not_run() -> None:
    report = AuditReport(
        audit="closed",
        checks=("AUD-001",),
        not_run=(NotRun(code="AUD-002", because="the plan has no frame"),),
    )
    assert texts.report_text(report).splitlines() == [
        "closed audit; checks run: 1",
        "  not run: AUD-002, the plan has no frame",
        "within the screened limits",
    ]


def test_money_stays_exact_in_plain_data() -> None:
    trusted = Trusted(path="buying.total", value=Decimal("10.10"))
    assert texts.plain(trusted) == {"path": "buying.total", "value": "10.10"}


def test_a_file_fault_names_the_file_that_failed() -> None:
    with pytest.raises(InputError) as caught, writing("deck", "a folder"):
        raise FileExistsError(errno.EEXIST, "File exists", "deck/plan.json")
    assert str(caught.value.faults[0]) == (
        "deck: found file exists (deck/plan.json), wanted a folder"
    )


# ----- the screen ----------------------------------------------------------------------


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_progress_on_a_terminal_stays_on_one_line_and_clears_it() -> None:
    stream = Terminal()
    screen = Screen(out=io.StringIO(), err=stream, as_json=False, progress=True)
    show = progress_of(screen)
    assert show is not None
    show("dry lay", 1, 2)
    assert stream.getvalue().startswith("\rdry lay 1/2")
    show("done", 2, 2)
    assert "\n" not in stream.getvalue()
    assert stream.getvalue().endswith(" \r")


def test_no_progress_where_nobody_wants_it() -> None:
    screen = Screen(out=io.StringIO(), err=io.StringIO(), as_json=False, progress=False)
    assert progress_of(screen) is None


def test_a_stream_that_cannot_spell_a_character_gets_an_escape() -> None:
    raw = io.BytesIO()
    stream = io.TextIOWrapper(raw, encoding="ascii")
    say(stream, "2 × 4")
    stream.flush()
    assert raw.getvalue().rstrip() == b"2 \\xd7 4"
