"""What the command line says of plugins, and leaves out of them when told to."""

import json

import pytest

import drylay
from cli.conftest import BRIEF, STOCK, Run
from drylay.cli import codes
from drylay.plugins import found
from liars import (
    catalogue,
    catalogues_plugin,
    entry,
    entry_raising,
    families_plugin,
    family,
    module,
    papers_plugin,
)

GONE = entry_raising("gone", ImportError("no gone_rules"))


@pytest.fixture
def plugged(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let there be some plugins beside the real ones, a faulty one among them."""
    yard = module(
        drylay_catalogues=catalogues_plugin([catalogue()]).drylay_catalogues,
        drylay_papers=papers_plugin([("a.txt", len)]).drylay_papers,
    )
    points = (
        *(point for point in found.read_entry_points()[0] if point.name == "softwood"),
        entry("oak", families_plugin([family("bogoak")]), "drylay-oak"),
        entry("yard", yard),
        entry("idle", families_plugin([])),
        GONE,
    )
    for place in ("drylay.plugins.found", "drylay.planner.plugged"):
        monkeypatch.setattr(f"{place}.read_entry_points", lambda: (points, []))


@pytest.mark.usefixtures("plugged")
def test_plugins_are_listed_with_what_they_supply_and_what_is_wrong(run: Run) -> None:
    code, out, err = run("plugins")
    assert (code, err) == (codes.STOPPED, "")
    assert out.splitlines() == [
        f"eurocode-5 (drylay {drylay.__version__})",
        "  design bases: eurocode-5",
        "gone",
        "  not used: import: import failed: ImportError: no gone_rules",
        "idle: supplies nothing",
        "oak (drylay-oak 1.0)",
        "  families: bogoak",
        "softwood (drylay-softwood 0.1.0)",
        "  families: softwood",
        f"us-allowable-stress (drylay {drylay.__version__})",
        "  design bases: us-allowable-stress",
        "yard",
        "  catalogues: Test yard",
        "  papers: a.txt",
    ]


@pytest.mark.usefixtures("plugged")
def test_plugins_in_json(run: Run) -> None:
    code, out, _ = run("plugins", "--json", "--without-plugin", "drylay-oak")
    assert code == codes.STOPPED
    ec5, gone, idle, oak, *_ = json.loads(out)["plugins"]
    assert gone["faults"] == [
        {"kind": "import", "wrong": "import failed: ImportError: no gone_rules", "wrongs": []}
    ]
    assert idle == {
        "plugin": "idle", "package": "", "version": "", "families": [], "catalogues": [],
        "papers": [], "local_rules": [], "design_bases": [], "faults": [],
    }  # fmt: skip
    assert ec5["design_bases"] == ["eurocode-5"]
    assert (oak["families"], [each["kind"] for each in oak["faults"]]) == ([], ["blocked"])


@pytest.mark.usefixtures("plugged")
@pytest.mark.parametrize("command", ["plugins", "families"])
def test_what_is_left_out_is_no_fault(run: Run, command: str) -> None:
    assert run(command)[0] == codes.STOPPED
    assert run(command, "--without-plugin", "gone")[0] == codes.FINE
    assert run(command, "--without-plugin", "gone", "--strict")[0] == codes.FINE


@pytest.mark.usefixtures("plugged")
@pytest.mark.parametrize(
    "argv",
    [
        ["plugins"],
        ["families"],
        ["check-stock", STOCK],
        ["design", BRIEF, "--stock", STOCK],
        ["design", BRIEF, "--stock-of", "yard"],
    ],
)
def test_strict_does_nothing_where_a_plugin_is_faulty(run: Run, argv: list[str]) -> None:
    code, out, err = run(*argv, "--strict")
    assert (code, out) == (codes.UNUSABLE, "")
    assert err == (
        "plugin gone: found import failed: ImportError: no gone_rules, "
        "wanted a plugin without fault\n"
    )


@pytest.mark.parametrize("command", [["plugins"], ["design", BRIEF, "--stock", STOCK]])
def test_a_plugin_to_leave_out_that_is_not_there_is_told(run: Run, command: list[str]) -> None:
    code, out, err = run(*command, "--without-plugin", "softwod")
    assert (code, out) == (codes.UNUSABLE, "")
    assert err.startswith("--without-plugin: found 'softwod', wanted an installed plugin: ")
    assert err.endswith("; nearest fix: softwood\n")


def test_a_design_without_its_family_stops_and_says_who_left_it_out(run: Run) -> None:
    code, out, err = run("design", BRIEF, "--stock", STOCK, "--without-plugin", "softwood")
    assert (code, err) == (codes.STOPPED, "")
    assert "blocked by the caller" in " ".join(out.split())


@pytest.mark.usefixtures("plugged")
def test_a_design_names_plugins_that_are_not_used(run: Run) -> None:
    code, _, err = run("design", BRIEF, "--stock", STOCK)
    assert code == codes.FINE
    assert err == "not used: plugin gone: import failed: ImportError: no gone_rules\n"


@pytest.mark.usefixtures("plugged")
def test_stock_that_cannot_be_had_from_a_plugin(run: Run) -> None:
    code, _, err = run("design", BRIEF, "--stock-of", "gone")
    assert code == codes.UNUSABLE
    assert "'gone'; plugin gone: import failed: ImportError: no gone_rules, wanted a plug" in err
    code, _, err = run("design", BRIEF, "--stock", STOCK, "--stock-of", "yard")
    assert code == codes.UNUSABLE
    assert "not allowed with argument" in err
