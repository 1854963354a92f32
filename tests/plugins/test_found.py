"""Entry points found: one package with a spoilt record spoils only itself."""

import sys
from importlib.metadata import EntryPoint
from pathlib import Path

import pytest
from attrs import frozen

from drylay.plugins.found import installed_names, read_entry_points
from drylay.plugins.loading import installed_catalogues, installed_families
from drylay.plugins.model import Origin
from drylay.plugins.single import origin_of
from liars import FakeEntryPoint
from real_packages import ROOT, install

TABLE = (
    '[family]\nid = "bogoak"\ntitle = "oak"\n[[rules]]\nrule = "end_gap_mm"\nvalue = 4\n'
    'source = { kind = "assumption", title = "a test" }\n'
)


def test_a_spoilt_list_of_entry_points_spoils_only_its_package(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    install(tmp_path, "drylay-spoilt", {}, points="[drylay.v1]\nspoilt drylay_spoilt\n")
    install(tmp_path, "another", {}, points="[console_scripts]\nspoilt another\n")
    monkeypatch.syspath_prepend(tmp_path)
    points, faults = read_entry_points()
    assert "softwood" in {point.name for point in points}
    (fault,) = faults  # what is spoilt in packages that have nothing to do with drylay is not told
    assert (fault.kind, fault.origin) == (
        "import", Origin(plugin="(unreadable)", package="drylay-spoilt")
    )  # fmt: skip
    assert "drylay-spoilt" in installed_names()
    assert "(unreadable)" not in installed_names()


def test_the_first_of_two_packages_of_one_name_counts_as_with_imports(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for folder, group in (("late", "drylay.v1"), ("early", "drylay.v2")):
        install(tmp_path / folder, "drylay-oak", {}, plugin="bogoak", group=group)
        monkeypatch.syspath_prepend(tmp_path / folder)
    install(tmp_path / "early", "another", {}, points="[drylay.v1]\nspoilt\n")
    points, _ = read_entry_points()
    assert [point.group for point in points if point.name == "bogoak"] == ["drylay.v2"]


@frozen
class Nameless:
    """A package whose record cannot be read."""

    @property
    def name(self) -> str:
        raise KeyError("Name")

    @property
    def version(self) -> str:
        raise KeyError("Version")


def test_a_package_without_a_record_has_no_name() -> None:
    point = FakeEntryPoint(name="oak", load=list, dist=Nameless())  # type: ignore[arg-type]
    assert origin_of(point) == Origin(plugin="oak", package="", version="")


def test_files_in_a_package_are_asked_for_what_they_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "drylay_files"
    folder.mkdir()
    for name in ("hobbleden.toml", "tarnbeck.csv", "tarnbeck.map.toml"):
        (folder / name).write_bytes((ROOT / "catalogs" / name).read_bytes())
    (folder / "oak.toml").write_text(TABLE, encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    point = EntryPoint(name="files", value="drylay_files", group="drylay.v1")
    stock, families = (
        ask(entry_points=[point]) for ask in (installed_catalogues, installed_families)
    )
    assert (stock.faults, families.faults) == ((), ())
    assert [each.catalogue.name for each in stock.catalogues] == [
        "Hobbleden Timber Yard, Upper Quarl",
        "Tarnbeck Sawmill, Low Quarl",
    ]
    assert [each.family.id for each in families.families] == ["bogoak"]
    monkeypatch.delitem(sys.modules, "drylay_files")


def test_a_fault_of_a_file_in_a_package_is_told_with_package_line_and_key(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "drylay_faulty"
    folder.mkdir()
    (folder / "oak.toml").write_text(TABLE.replace("4", "400"), encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    point = EntryPoint(name="faulty", value="drylay_faulty", group="drylay.v1")
    (fault,) = installed_families(entry_points=[point]).faults
    assert fault.kind == "failed"
    assert "drylay_faulty/oak.toml:6:9: rules[0].value: found 400, wanted" in fault.wrong
    monkeypatch.delitem(sys.modules, "drylay_faulty")
