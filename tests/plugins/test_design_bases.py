"""Design bases come through a hook, drylay's own two as well, and no call of one is trusted."""

from collections.abc import Callable
from types import SimpleNamespace

import pytest
from attrs import evolve

import drylay
from basis_liars import BEAM, BOOK, CHECK, FOUND, LOADS, answering, bases_plugin, plain
from drylay.errors import Fault, InputError, PluginsError, UncoveredError
from drylay.planner import bases as planner_bases
from drylay.planner.bases import installed_design_bases
from drylay.planner.own_bases import OWN, own_bases
from drylay.planner.plugged import installed_plugins
from drylay.plugins.basis_guard import Asked, find_basis, loads_by, screened_by
from drylay.plugins.found import installed_names
from drylay.plugins.guard import suspects
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.model import BasisSet, InstalledBasis, Origin, PluginFault
from drylay.strength.model import DeckLoads, Screened
from liars import Unsayable, entry, entry_raising
from strength.asked import bearer, board, ledger, post


class SlyScreened(Screened):
    """An answer that could change after it was looked at."""


def mute() -> InputError:
    """Return a refusal whose faults cannot be said."""
    error = InputError(())
    error.faults = (Unsayable(),)  # type: ignore[assignment]
    return error


def ids(found: BasisSet) -> list[str]:
    return [each.basis.id for each in found.bases]


def kinds(found: BasisSet) -> list[tuple[str, str]]:
    return [(fault.origin.plugin, fault.kind) for fault in found.faults]


def installed(**more: object) -> InstalledBasis:
    origin = Origin(plugin="quarl", package="drylay-quarl")
    return InstalledBasis(basis=plain(**more), origin=origin)  # type: ignore[arg-type]


def test_both_of_drylays_own_come_through_the_hook() -> None:
    found = drylay.installed_design_bases()
    assert (ids(found), found.faults) == (list(OWN), ())
    for each in found.bases:
        version = drylay.__version__
        assert each.origin == Origin(plugin=each.basis.id, package="drylay", version=version)


def test_own_ones_may_be_left_out_and_that_is_told() -> None:
    without = installed_design_bases(blocked=["eurocode-5"])
    assert (ids(without), kinds(without)) == (["us-allowable-stress"], [("eurocode-5", "blocked")])
    assert [kind for _, kind in kinds(installed_design_bases(blocked=["drylay"]))] == [
        "blocked"
    ] * 2
    assert installed_design_bases(blocked=["drylay"]).bases == ()
    assert find_basis(without, "eurocode-5") is None
    assert suspects(without, "eurocode-5") == without.faults


def test_own_ones_are_not_asked_where_the_caller_says_what_to_ask() -> None:
    assert installed_design_bases(entry_points=()) == BasisSet()


def test_one_of_our_own_that_cannot_be_made_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(OWN, "eurocode-5", ("drylay.strength.gone", "eurocode_5"))
    found = installed_design_bases()
    assert ids(found) == ["us-allowable-stress"]
    assert kinds(found) == [("eurocode-5", "import")]
    with pytest.raises(PluginsError, match="plugin eurocode-5 of package drylay"):
        installed_design_bases(strict=True)


def test_packages_that_cannot_be_read_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    fault = PluginFault(origin=Origin(plugin="x", package="spoilt"), kind="import", wrong="spoilt")
    monkeypatch.setattr(planner_bases, "read_entry_points", lambda: ((), [fault]))
    assert installed_design_bases().faults == (fault,)
    with pytest.raises(PluginsError, match="spoilt"):
        installed_design_bases(strict=True)


def test_a_basis_of_a_package_is_found() -> None:
    found = installed_design_bases(more={"quarl": bases_plugin([plain()])})
    assert ids(found) == ["eurocode-5", "quarl", "us-allowable-stress"]
    there = find_basis(found, "quarl")
    assert there is not None
    assert there.origin == Origin(plugin="quarl")
    assert ids(installed_design_bases(entry_points=(), extra=[plain("handed")])) == ["handed"]


def test_an_id_that_is_taken_is_a_clash_and_ours_stays() -> None:
    points = (*own_bases(), entry("quarl", bases_plugin([plain("eurocode-5")]), "drylay-quarl"))
    found = installed_design_bases(entry_points=points)
    assert (ids(found), kinds(found)) == (list(OWN), [("quarl", "clash")])
    assert "which plugin eurocode-5 of package drylay supplies too" in found.faults[0].wrong


def test_two_that_claim_one_id_lose_it() -> None:
    points = [entry(name, bases_plugin([plain()])) for name in ("one", "two")]
    found = installed_design_bases(entry_points=points)
    assert (ids(found), kinds(found)) == ([], [("one", "clash"), ("two", "clash")])


@pytest.mark.parametrize(
    ("answer", "kind", "wrong"),
    [
        (plain(), "bad answer", "wanted a list"),
        ([1], "bad answer", "wanted DesignBasis"),
        ([plain("Quarl 5")], "bad answer", "small letters"),
        ([plain(title="")], "bad answer", "no title"),
        ([plain(sharings=())], "bad answer", "sharings"),
        ([plain(sharings=["one joist"])], "bad answer", "sharings"),
        ([plain(fixings=(1,))], "bad answer", "fixings"),
        ([plain(halved=1)], "bad answer", "halved is int"),
        ([plain(ledger=None)], "bad answer", "ledger is NoneType"),
        ([plain(), plain()], "bad answer", "twice"),
        (ValueError("no book"), "failed", "no book"),
        (SystemExit(3), "failed", "SystemExit"),
    ],
)
def test_a_bad_plugin_supplies_no_basis(answer: object, kind: str, wrong: str) -> None:
    found = installed_design_bases(entry_points=[entry("quarl", bases_plugin(answer))])
    assert (ids(found), kinds(found)) == ([], [("quarl", kind)])
    assert wrong in found.faults[0].wrong


def test_a_plugin_that_cannot_be_imported_is_told() -> None:
    gone = entry_raising("gone", ImportError("no gone_rules"))
    assert kinds(installed_design_bases(entry_points=[gone])) == [("gone", "import")]


def test_plugins_are_listed_with_their_bases() -> None:
    listed = {each.origin.plugin: each for each in installed_plugins()}
    assert listed["eurocode-5"].design_bases == ("eurocode-5",)
    assert listed["us-allowable-stress"].families == ()
    assert listed["softwood"].design_bases == ()
    assert {"drylay", "eurocode-5"} <= set(installed_names(own_bases()))
    theirs = installed_plugins(entry_points=[entry("quarl", bases_plugin([plain()]))])
    assert [(each.origin.plugin, each.design_bases) for each in theirs] == [("quarl", ("quarl",))]


@pytest.mark.parametrize("asked", [BEAM, bearer(hold_down_kn=1.0), post(), board(), ledger()])
def test_a_good_answer_comes_through(asked: Asked) -> None:
    found = screened_by(installed(), asked, "dwelling")
    assert (found.basis, found.subject, found.stops) == ("quarl", asked.subject, ())
    assert found.checks


def test_a_basis_that_calls_itself_otherwise_is_called_by_its_id() -> None:
    other = answering(evolve(FOUND, basis="eurocode-5"))
    assert screened_by(installed(beam=other), BEAM, "dwelling") == FOUND


def test_loads_come_through() -> None:
    assert loads_by(installed(), "dwelling").imposed_kn_m2 == 1.5
    assert loads_by(installed(), "crowd").stops


def checked(**more: object) -> Screened:
    return evolve(FOUND, checks=(evolve(CHECK, **more),))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("answer", "wrong"),
    [
        (None, "found NoneType, wanted Screened"),
        (SlyScreened(basis="quarl", subject="joists", checks=(CHECK,)), "wanted Screened"),
        (evolve(FOUND, basis=""), "by which basis"),
        (evolve(FOUND, subject="B1"), "something else than joists"),
        (evolve(FOUND, checks=[CHECK]), "checks, wanted a tuple"),
        (evolve(FOUND, checks=(CHECK,) * 201), "checks, wanted a tuple"),
        (evolve(FOUND, checks=(1,)), "check 0: found int, wanted Check"),
        (evolve(FOUND, checks=()), "neither a check nor a stop"),
        (evolve(FOUND, assumed=("a\nb",)), "assumed, wanted"),
        (evolve(FOUND, stops=["no"]), "stops, wanted"),
        (checked(subject="B1"), "something else than joists"),
        (checked(name=""), "name, wanted text"),
        (checked(case=1), "case, wanted text"),
        (checked(formula=" "), "formula, wanted text"),
        (checked(unit=None), "unit, wanted text"),
        (checked(source=None), "source is NoneType"),
        (checked(source=evolve(BOOK, kind="hearsay")), "source kind 'hearsay'"),
        (checked(inputs=(("x", float("nan")),)), "inputs, wanted"),
        (checked(measured=float("nan")), "measured is nan"),
        (checked(measured=-1.0), "measured is -1.0"),
        (checked(measured=True), "measured is bool"),
        (checked(limit=0), "limit is 0"),
        (checked(limit=float("inf")), "limit is inf"),
        (checked(utilisation_ratio=0.4), "is not measured over limit"),
        (checked(utilisation_ratio=-0.5), "utilisation_ratio is -0.5"),
    ],
)
def test_a_bad_answer_is_a_stop(answer: object, wrong: str) -> None:
    found = screened_by(installed(beam=answering(answer)), BEAM, "dwelling")
    assert (found.basis, found.subject, found.checks) == ("quarl", "joists", ())
    (stop,) = found.stops
    assert stop.startswith(
        "design basis quarl (plugin quarl of package drylay-quarl): bad answer: "
    )
    assert wrong in stop


def test_only_boards_may_go_by_a_table_of_their_own() -> None:
    wordy = evolve(FOUND, checks=())
    boards = answering(evolve(wordy, subject="boards"))
    assert not screened_by(installed(board=boards), board(), "dwelling").stops
    mute = answering(evolve(wordy, subject="boards", assumed=()))
    assert screened_by(installed(board=mute), board(), "dwelling").stops
    for asked, name in ((post(), "post"), (ledger(), "ledger"), (bearer(), "beam")):
        answer = answering(evolve(wordy, subject=asked.subject))
        assert screened_by(installed(**{name: answer}), asked, "dwelling").stops


@pytest.mark.parametrize(
    ("error", "told"),
    [
        (NotCoveredError("glulam"), "not covered: NotCoveredError: glulam"),
        (
            UncoveredError((Fault(path="wood", found="'oak'", wanted="pine"),)),
            "not covered: wood: found 'oak', wanted pine",
        ),
        (InputError(()), "not covered: InputError"),
        (mute(), "not covered: InputError"),
        (ZeroDivisionError("by zero"), "failed: ZeroDivisionError: by zero"),
        (SystemExit(3), "failed: SystemExit: 3"),
        (Unsayable(), "failed: Unsayable"),
        (ValueError("a\x00b"), "failed: ValueError: a?b"),
    ],
)
def test_what_a_basis_raises_is_a_stop(error: BaseException, told: str) -> None:
    found = screened_by(installed(beam=answering(error)), BEAM, "dwelling")
    assert found.checks == ()
    assert f"drylay-quarl): {told}" in found.stops[0]
    loads = loads_by(installed(loads=answering(error)), "dwelling")
    assert (loads.imposed_kn_m2, loads.point_kn) == (0, 0)
    assert told in loads.stops[0]


def test_a_stop_is_no_longer_than_a_plan_can_hold() -> None:
    found = screened_by(installed(beam=answering(ValueError("a" * 5000))), BEAM, "dwelling")
    assert len(found.stops[0]) == 1000


def test_an_interrupt_passes_through() -> None:
    with pytest.raises(KeyboardInterrupt):
        screened_by(installed(beam=answering(KeyboardInterrupt())), BEAM, "dwelling")


@pytest.mark.parametrize(
    ("answer", "wrong"),
    [
        (None, "wanted DeckLoads"),
        (evolve(LOADS, use="balcony"), "not the one that was asked"),
        (evolve(LOADS, imposed_kn_m2=-1.5), "imposed_kn_m2 is -1.5"),
        (evolve(LOADS, dead_kn_m2=float("nan")), "dead_kn_m2 is nan"),
        (evolve(LOADS, point_kn="2"), "point_kn is str"),
        (evolve(LOADS, own_weight_apart=None), "own_weight_apart is NoneType"),
        (evolve(LOADS, imposed_kn_m2=0.0), "no imposed load, and no stop"),
        (evolve(LOADS, stops=[]), "stops, wanted"),
        (evolve(LOADS, source=evolve(BOOK, title="")), "the source has no title"),
    ],
)
def test_loads_that_cannot_be_believed_are_a_stop(answer: object, wrong: str) -> None:
    loads = loads_by(installed(loads=answering(answer)), "dwelling")
    assert isinstance(loads, DeckLoads)
    assert (loads.dead_kn_m2, loads.imposed_kn_m2, loads.point_kn) == (0, 0, 0)
    assert "bad answer" in loads.stops[0]
    assert wrong in loads.stops[0]


def test_what_was_asked_cannot_be_changed() -> None:
    kept: list[object] = []

    def beam(asked: object, _: str) -> Screened:
        kept.append(asked)
        return FOUND

    screened_by(installed(beam=beam), BEAM, "dwelling")
    assert kept == [BEAM]
    assert kept[0] is not BEAM


def test_a_namespace_is_a_plugin_too() -> None:
    hook: Callable[[], object] = bases_plugin([plain()]).drylay_design_bases
    plugin = SimpleNamespace(drylay_design_bases=hook)
    assert ids(installed_design_bases(entry_points=[entry("quarl", plugin)])) == ["quarl"]
