"""One bad plugin spoils only itself, and is named."""

import importlib.metadata
import subprocess
import sys
from collections.abc import Iterator
from decimal import Decimal

import pytest
from attrs import evolve

from drylay.errors import PluginsError
from drylay.materials.model import Family
from drylay.materials.stock_model import Pack
from drylay.plugins.guard import ask
from drylay.plugins.hooks import GROUP, MEANT, hookimpl
from drylay.plugins.loading import installed_catalogues, installed_families
from drylay.plugins.model import PLUGIN_FAULTS, FamilySet, RuleFault
from liars import (
    QUERY,
    SCREW,
    Unsayable,
    catalogue,
    catalogues_plugin,
    entry,
    entry_raising,
    families_plugin,
    family,
    module,
)

GOOD = entry("good", families_plugin([family("good")]), "drylay-good")


def ids(families: FamilySet) -> list[str]:
    return [installed.family.id for installed in families.families]


@hookimpl
def misspelt() -> list[Family]:
    return []


@hookimpl
def wants_more(rules: object) -> list[Family]:  # noqa: ARG001
    return []


def wrapping() -> Iterator[None]:
    yield


class SlyFamily(Family):
    """A family that could answer otherwise the second time."""


class Grumpy:
    """A plugin that cannot even be looked at."""

    def __dir__(self) -> list[str]:
        raise RuntimeError("do not look")


class RudeId(str):
    __slots__ = ()

    def __repr__(self) -> str:
        raise SystemExit(4)


LIARS = {
    "import error": (entry_raising("liar", ImportError("no module oak")), "import failed: ImportE"),
    "exits at import": (entry_raising("liar", SystemExit(3)), "import failed: SystemExit: 3"),
    "wordless": (entry_raising("liar", Unsayable()), "its message cannot be read"),
    "raises": (entry("liar", families_plugin(ValueError("bad day"))), "ValueError: bad day"),
    "exits": (entry("liar", families_plugin(SystemExit())), "drylay_families failed: SystemExit"),
    "None": (entry("liar", families_plugin(None)), "answered None"),
    "no list": (entry("liar", families_plugin(family())), "answered Family, wanted a list"),
    "no family": (entry("liar", families_plugin([{"id": "oak"}])), "found dict, wanted Family"),
    "subclass": (
        entry("liar", families_plugin([SlyFamily(id="oak", title="oak", rules={})])),
        "found SlyFamily, wanted Family",
    ),
    "bad id": (entry("liar", families_plugin([family("Oak!")])), "family id 'Oak!'"),
    "rude id": (entry("liar", families_plugin([family(RudeId("OAK"))])), "cannot be looked at"),
    "no title": (
        entry("liar", families_plugin([Family(id="oak", title=" ", rules={})])),
        "family oak: no title",
    ),
    "rules no dict": (
        entry("liar", families_plugin([Family(id="oak", title="oak", rules=[])])),  # type: ignore[arg-type]
        "rules are list, wanted dict",
    ),
    "unknown rule": (
        entry("liar", families_plugin([family(most_centers_mm=print)])),
        "unknown rule 'most_centers_mm'",
    ),
    "rule no function": (
        entry("liar", families_plugin([family(end_gap_mm=4.0)])),
        "rule end_gap_mm is float, wanted a function",
    ),
    "cautions no tuple": (
        entry("liar", families_plugin([Family(id="oak", title="oak", rules={}, cautions="x")])),  # type: ignore[arg-type]
        "cautions, wanted a tuple of texts",
    ),
    "same id twice": (
        entry("liar", families_plugin([family("oak"), family("oak")])),
        "supplies oak twice",
    ),
    "misspelt hook": (entry("liar", module(drylay_familes=misspelt)), "misspelt hook"),
    "wrong arguments": (
        entry("liar", module(drylay_families=wants_more)),
        "registration failed: PluginValidationError",
    ),
    "unmarked hook": (
        entry("liar", module(drylay_families=list)),
        "drylay_families does not carry hookimpl",
    ),
    "wrapper": (
        entry("liar", module(drylay_families=hookimpl(hookwrapper=True)(wrapping))),
        "answered None",
    ),
    "no hook": (entry("liar", module(families=list)), "offers no hook"),
    "unlookable": (entry("liar", Grumpy()), "registration failed: RuntimeError: do not look"),
}


@pytest.mark.parametrize("liar", LIARS)
def test_a_liar_spoils_only_itself_and_is_named(liar: str) -> None:
    lying, says = LIARS[liar]
    for order in ([GOOD, lying], [lying, GOOD]):
        families = installed_families(entry_points=order)
        assert ids(families) == ["good"]
        (fault,) = families.faults
        assert fault.origin.plugin == "liar"
        assert fault.kind in PLUGIN_FAULTS
        assert says in fault.wrong
        assert str(fault).startswith("plugin liar: ")


def test_all_liars_at_once_spoil_nobody_else() -> None:
    liars = [lying for lying, _ in LIARS.values()]
    families = installed_families(entry_points=[*liars, GOOD])
    assert ids(families) == ["good"]
    assert len(families.faults) == len(liars)


def test_the_keyboard_still_interrupts() -> None:
    with pytest.raises(KeyboardInterrupt):
        installed_families(entry_points=[entry_raising("liar", KeyboardInterrupt())])


def test_families_come_in_the_order_of_their_ids_with_their_origin() -> None:
    other = entry("another", families_plugin((family("zebrano"), family("ash"))))
    families = installed_families(entry_points=[GOOD, other])
    assert ids(families) == ["ash", "good", "zebrano"]
    origin = families.families[1].origin
    assert (origin.plugin, origin.package, origin.version) == ("good", "drylay-good", "1.0")
    assert families.families[0].origin.package == ""
    assert families == installed_families(entry_points=[other, GOOD])


# ----- one id, two plugins: never the last one, never the first ------------------------


def test_the_entry_point_of_that_name_keeps_its_id() -> None:
    thief = entry("aaa", families_plugin([family("good"), family("oak")]), "drylay-thief")
    for order in ([GOOD, thief], [thief, GOOD]):
        families = installed_families(entry_points=order)
        assert ids(families) == ["good"]
        (fault,) = families.faults
        assert str(fault) == (
            "plugin aaa of package drylay-thief: claims good, "
            "which plugin good of package drylay-good supplies too"
        )


def test_where_nobody_owns_the_id_neither_is_used() -> None:
    first = entry("a", families_plugin([family("oak")]))
    second = entry("b", families_plugin([family("oak")]))
    families = installed_families(entry_points=[GOOD, first, second])
    assert ids(families) == ["good"]
    assert [fault.origin.plugin for fault in families.faults] == ["a", "b"]


def test_two_packages_with_an_entry_point_of_that_name_both_lose() -> None:
    copy = entry("good", families_plugin([family("good")]), "drylay-copy")
    families = installed_families(entry_points=[GOOD, copy])
    assert families.families == ()
    assert len(families.faults) == 2


# ----- blocked, handed in --------------------------------------------------------------


@pytest.mark.parametrize("name", ["good", "drylay-good"])
def test_a_blocked_plugin_is_not_asked_and_says_so(name: str) -> None:
    families = installed_families(entry_points=[GOOD], blocked=[name])
    assert families.families == ()
    assert families.faults[0].wrong == "blocked by the caller"


def test_a_blocked_plugin_is_not_even_imported() -> None:
    bomb = entry_raising("bomb", KeyboardInterrupt())
    assert len(installed_families(entry_points=[bomb], blocked=["bomb"]).faults) == 1


def test_a_family_handed_in_is_looked_at_like_any_other() -> None:
    good = installed_families(entry_points=(), extra=[family("oak")])
    assert ids(good) == ["oak"]
    assert good.families[0].origin.plugin == "handed in"
    bad = installed_families(entry_points=(), extra=[family(most_centers_mm=print)])
    assert bad.families == ()
    assert "unknown rule" in bad.faults[0].wrong


def test_one_name_to_block_may_be_a_plain_text() -> None:
    assert installed_families(entry_points=[GOOD], blocked="good").families == ()


def test_a_plugin_handed_in_by_name_is_asked_like_any_other() -> None:
    more = {"oak": families_plugin([family("oak")]), "liar": module(families=list)}
    found = installed_families(entry_points=[GOOD], more=more)
    assert ids(found) == ["good", "oak"]
    assert [fault.origin.plugin for fault in found.faults] == ["liar"]
    assert ids(installed_families(entry_points=[GOOD], more=more, blocked=["oak"])) == ["good"]


# ----- another release of the hooks ----------------------------------------------------


@pytest.mark.parametrize("group", ["drylay.v2", "drylay.v0", "drylay_v1", "Drylay.V1", "drylay.1"])
def test_a_plugin_for_other_hooks_is_not_imported_and_is_named(group: str) -> None:
    other = evolve(entry_raising("oak", KeyboardInterrupt()), group=group)
    found = installed_families(entry_points=[GOOD, other])
    assert ids(found) == ["good"]
    (fault,) = found.faults
    assert (fault.kind, fault.origin.plugin) == ("another release", "oak")
    assert f"written for the hooks {group}, and this drylay has drylay.v1" in fault.wrong
    answer = ask(found, "oak", "end_gap_mm", QUERY)
    assert isinstance(answer, RuleFault)
    assert answer.plugins == (fault,)


def test_groups_of_other_programs_are_none_of_ours() -> None:
    for group in ("drylay", "drylay.viewer", "drylayer.v1", "console_scripts", "drylay.v1.more"):
        assert not MEANT.fullmatch(group)


# ----- strict --------------------------------------------------------------------------


def test_strict_raises_with_every_fault_and_none_for_what_was_blocked() -> None:
    liars = [lying for lying, _ in LIARS.values()]
    with pytest.raises(PluginsError) as caught:
        installed_families(entry_points=[*liars, GOOD], blocked=["good"], strict=True)
    assert len(caught.value.faults) == len({str(f) for f in caught.value.faults}) > 15
    assert all(fault.path == "plugin liar" for fault in caught.value.faults)
    assert "set of plugins cannot be used" in str(caught.value)
    told = installed_families(entry_points=[GOOD], blocked=["good"], strict=True)
    assert told.families == ()


# ----- catalogues ----------------------------------------------------------------------


def test_catalogues_are_collected_by_name() -> None:
    both = entry("yards", catalogues_plugin([catalogue("West"), catalogue("East")]))
    found = installed_catalogues(entry_points=[both, GOOD])
    assert [installed.catalogue.name for installed in found.catalogues] == ["East", "West"]
    assert found.faults == ()


@pytest.mark.parametrize(
    ("answer", "says"),
    [
        ([catalogue(""), catalogue("East")], "catalogue without a name"),
        ([{"name": "East"}], "found dict, wanted Catalogue"),
        ([catalogue("East"), catalogue("East")], "supplies East twice"),
    ],
)
def test_a_catalogue_that_is_none_spoils_its_plugin(answer: object, says: str) -> None:
    good = entry("good", catalogues_plugin([catalogue("Good")]))
    found = installed_catalogues(entry_points=[entry("liar", catalogues_plugin(answer)), good])
    assert [installed.catalogue.name for installed in found.catalogues] == ["Good"]
    assert says in found.faults[0].wrong


def test_a_catalogue_made_by_code_is_held_to_what_a_file_is_held_to() -> None:
    nan = evolve(SCREW, packs=(Pack(count=100, price=Decimal("NaN")),))
    lying = entry("liar", catalogues_plugin([catalogue("East", screws=(nan,))]))
    found = installed_catalogues(entry_points=[lying], extra=[catalogue("West")])
    assert [installed.catalogue.name for installed in found.catalogues] == ["West"]
    assert 'screws[0].packs[0].price (DS-45-70): found "NaN"' in found.faults[0].wrong


def test_a_plugin_asked_for_what_it_does_not_offer_is_no_fault() -> None:
    found = installed_families(entry_points=[entry("yards", catalogues_plugin([catalogue()]))])
    assert found == FamilySet()


# ----- the real thing ------------------------------------------------------------------


def test_real_entry_points_of_the_standard_library_are_good_enough() -> None:
    missing = importlib.metadata.EntryPoint(name="gone", value="drylay_gone", group=GROUP)
    families = installed_families(entry_points=[missing])
    assert "No module named 'drylay_gone'" in families.faults[0].wrong


def test_softwood_is_found_installed() -> None:
    families = installed_families()
    (softwood,) = [each for each in families.families if each.family.id == "softwood"]
    assert softwood.origin.package == "drylay-softwood"
    assert softwood.origin.version == importlib.metadata.version("drylay-softwood")


def test_finding_plugins_imports_none_that_is_blocked() -> None:
    # all of them: those that lie on a frame of softwood import what rules that
    names = [entry.name for entry in importlib.metadata.entry_points(group="drylay.v1")]
    assert "softwood" in names
    told = (
        "import sys; from drylay.plugins.loading import installed_families; "
        f"installed_families(blocked={names}); print('drylay_softwood' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", told], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "False"
