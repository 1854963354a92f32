"""Papers of plugins: one that goes wrong spoils only itself, and is named."""

import importlib.metadata
from collections.abc import Callable
from pathlib import Path

import pytest

import drylay
from drylay.cli import main
from drylay.papers.writing import CONTENTS
from drylay.plan.model import Plan
from drylay.planner.folder import LEFT_OUT, MAKERS
from drylay.plugins import found
from drylay.plugins.model import PaperSet
from liars import Unsayable, entry, entry_raising, families_plugin, family, papers_plugin
from plan.made import ROOT
from plan.sample import blocked_plan, sample_plan

PLAN = sample_plan()


def title(plan: Plan) -> bytes:
    return plan.title.encode()


def raising(error: BaseException) -> Callable[[Plan], bytes]:
    def make(_: Plan) -> bytes:
        raise error

    return make


class Sly(bytes):
    """Bytes that could answer otherwise the second time."""


class SlyName(str):
    __slots__ = ()


GOOD = entry("good", papers_plugin([("site.txt", title)]), "drylay-good")
LONG = "a" * 81

LIARS = {
    "import error": (entry_raising("liar", ImportError("no")), "import failed: ImportError: no"),
    "exits at import": (entry_raising("liar", SystemExit(3)), "import failed: SystemExit: 3"),
    "raises": (entry("liar", papers_plugin(ValueError("bad"))), "drylay_papers failed: ValueError"),
    "None": (entry("liar", papers_plugin(None)), "answered None"),
    "no list": (entry("liar", papers_plugin(title)), "answered function, wanted a list"),
    "no pair": (entry("liar", papers_plugin(["a.txt"])), "found str, wanted a pair"),
    "three": (entry("liar", papers_plugin([("a", title, title)])), "wanted a pair"),
    "no text": (entry("liar", papers_plugin([(b"a.txt", title)])), "file name is bytes"),
    "sly name": (entry("liar", papers_plugin([(SlyName("a"), title)])), "file name is SlyName"),
    "no function": (entry("liar", papers_plugin([("a.txt", b"x")])), "is bytes, wanted a function"),
    "twice": (entry("liar", papers_plugin([("a", title), ("A", title)])), "supplies a twice"),
    "ours": (entry("liar", papers_plugin([("plan.json", title)])), "which is drylay's own"),
    "ours shouted": (entry("liar", papers_plugin([("PLAN.JSON", title)])), "drylay's own"),
    "the list of files": (entry("liar", papers_plugin([(CONTENTS, title)])), "drylay's own"),
    "what was left out": (entry("liar", papers_plugin([(LEFT_OUT, title)])), "drylay's own"),
    "one bad of two": (
        entry("liar", papers_plugin([("fine.txt", title), ("../x", title)])),
        "file name '../x'",
    ),
}
UNSAFE = (
    "", ".", "..", ".hidden", "a/b", "a\\b", "/etc/passwd", "C:x", "a b",
    "a\n", "a\x00", "a.", "-r",
    "\u00e9.txt", "\uff41.txt", "\u202eexe.txt", "a*", "%s", LONG, "CON", "nul", "Aux.txt",
    "com1.csv", "LPT9", "prn.tar.gz",
)  # fmt: skip


def names(papers: PaperSet) -> list[str]:
    return [paper.name for paper in papers.papers]


@pytest.mark.parametrize("liar", LIARS)
def test_a_liar_spoils_only_itself_and_is_named(liar: str) -> None:
    lying, says = LIARS[liar]
    for order in ([GOOD, lying], [lying, GOOD]):
        papers = drylay.installed_papers(entry_points=order)
        assert names(papers) == ["site.txt"]
        (fault,) = papers.faults
        assert fault.origin.plugin == "liar"
        assert says in fault.wrong
        made = drylay.papers(PLAN, plugins=papers)
        assert made["site.txt"] == b"Sample deck"
        assert "plugin liar: " in made[LEFT_OUT].decode()
        assert made.items() >= drylay.papers(PLAN).items()


@pytest.mark.parametrize("name", UNSAFE)
def test_an_unsafe_file_name_is_refused(name: str) -> None:
    papers = drylay.installed_papers(entry_points=(), extra=[(name, title)])
    assert papers.papers == ()
    (fault,) = papers.faults
    assert fault.origin.plugin == "handed in"
    assert "file name" in fault.wrong


@pytest.mark.parametrize("name", ["a", "_a", "A-b_c.d", "9.txt", "com10.x", "a" * 80])
def test_a_plain_file_name_is_taken(name: str, tmp_path: Path) -> None:
    papers = drylay.installed_papers(entry_points=(), extra=[(name, title)])
    folder = drylay.write_papers(PLAN, tmp_path / "deck", plugins=papers)
    assert (folder / name).read_bytes() == b"Sample deck"
    assert drylay.write_papers(PLAN, folder, plugins=papers) == folder


def test_two_plugins_with_one_name_both_lose_it() -> None:
    thief = entry("thief", papers_plugin([("SITE.txt", title), ("mine.txt", title)]))
    other = entry("other", papers_plugin([("other.txt", title)]))
    papers = drylay.installed_papers(entry_points=[GOOD, thief, other])
    assert names(papers) == ["other.txt"]
    assert [fault.origin.plugin for fault in papers.faults] == ["good", "thief"]
    assert "claims site.txt, which plugin " in papers.faults[0].wrong


#: What is made of a deck of boards on the ground.
STANDING = {"posts.svg", "standing.svg", "standing-front.svg", "edges.svg", "posts.csv",
            "footings.csv", "strength.csv"}  # fmt: skip
USUAL = [name for name in MAKERS if name not in {"tiles.svg", "correction.svg", *STANDING}]

BAD_MAKERS = {
    "raises": (raising(ValueError("bad day")), "bad.txt failed: ValueError: bad day"),
    "exits": (raising(SystemExit(4)), "bad.txt failed: SystemExit: 4"),
    "wordless": (raising(Unsayable()), "bad.txt failed: Unsayable: (its message cannot be read"),
    "text": (lambda _: "text", "bad.txt answered str, wanted bytes"),
    "None": (lambda _: None, "bad.txt answered NoneType, wanted bytes"),
    "sly": (lambda _: Sly(b"x"), "bad.txt answered Sly, wanted bytes"),
    "wants more": (lambda _, more: more, "bad.txt failed: TypeError"),
}


@pytest.mark.parametrize("maker", BAD_MAKERS)
def test_a_paper_that_fails_is_left_out_and_told(maker: str) -> None:
    make, says = BAD_MAKERS[maker]
    bad = entry("bad", papers_plugin([("bad.txt", make), ("fine.txt", title)]), "drylay-bad")
    papers = drylay.installed_papers(entry_points=[bad, GOOD])
    assert papers.faults == ()
    made = drylay.papers(PLAN, plugins=papers)
    assert list(made) == sorted([*USUAL, "fine.txt", LEFT_OUT, "site.txt"])
    told = " ".join(made[LEFT_OUT].decode().split())
    assert f"- plugin bad of package drylay-bad: {says}" in told
    assert drylay.papers(PLAN, only="site.txt", plugins=papers) == {"site.txt": b"Sample deck"}
    with pytest.raises(drylay.PapersError) as caught:
        drylay.papers(PLAN, only=["site.txt", "bad.txt"], plugins=papers)
    (fault,) = caught.value.faults
    assert says in fault.found
    assert "plugin bad of package drylay-bad" in fault.found


def test_the_keyboard_still_interrupts() -> None:
    papers = drylay.installed_papers(
        entry_points=(), extra=[("a.txt", raising(KeyboardInterrupt()))]
    )
    with pytest.raises(KeyboardInterrupt):
        drylay.papers(PLAN, plugins=papers)


def test_nothing_is_told_where_nothing_is_left_out() -> None:
    papers = drylay.installed_papers(entry_points=[GOOD])
    assert LEFT_OUT not in drylay.papers(PLAN, plugins=papers)
    assert drylay.papers(PLAN, plugins=papers) == drylay.papers(PLAN, plugins=papers)
    blocked = drylay.installed_papers(entry_points=[GOOD], blocked=["good"])
    assert [fault.wrong for fault in blocked.faults] == ["blocked by the caller"]
    assert drylay.papers(PLAN, plugins=blocked) == drylay.papers(PLAN)


def test_a_plugin_asked_for_what_it_does_not_offer_is_no_fault() -> None:
    oak = entry("oak", families_plugin([family("oak")]))
    assert drylay.installed_papers(entry_points=[oak]) == PaperSet()


def test_only_some_in_the_order_asked() -> None:
    papers = drylay.installed_papers(entry_points=[GOOD])
    asked = ["site.txt", "summary.txt"]
    assert list(drylay.papers(PLAN, only=asked, plugins=papers)) == asked
    with pytest.raises(drylay.PapersError) as caught:
        drylay.papers(PLAN, only=["site.tzt"], plugins=papers)
    assert caught.value.faults[0].nearest == "site.txt"


def test_a_name_that_nobody_offers_is_told_with_the_plugins_that_failed() -> None:
    liar = entry_raising("liar", ImportError("no module oak"))
    papers = drylay.installed_papers(entry_points=[liar])
    with pytest.raises(drylay.PapersError, match=r"'site.txt'; plugin liar: import failed"):
        drylay.papers(PLAN, only="site.txt", plugins=papers)


def test_a_blocked_plan_has_none() -> None:
    liar = entry_raising("liar", ImportError("no"))
    asked: list[Plan] = []
    extra = [("spy.txt", lambda plan: asked.append(plan) or b"")]
    papers = drylay.installed_papers(entry_points=[liar], extra=extra)
    assert set(drylay.papers(blocked_plan(), plugins=papers)) == {"plan.json", "summary.txt"}
    with pytest.raises(drylay.PapersError, match=r"'spy.txt', which a blocked plan has not"):
        drylay.papers(blocked_plan(), only="spy.txt", plugins=papers)
    assert asked == []


def test_papers_without_plugins_ask_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(importlib.metadata, "entry_points", None)
    assert set(drylay.papers(PLAN)) == set(USUAL)


# ----- the command line ----------------------------------------------------------------

DESIGN = ["design", str(ROOT / "docs/examples/garden.toml"), "--stock",
          str(ROOT / "catalogs/hobbleden.toml"), "--out"]  # fmt: skip


def install(monkeypatch: pytest.MonkeyPatch, *more: object) -> None:
    """Let the installed entry points be the real ones and some more."""
    real, faults = found.read_entry_points()
    monkeypatch.setattr(found, "read_entry_points", lambda: ((*real, *more), [*faults]))


def test_the_command_line_writes_the_papers_of_installed_plugins(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    install(monkeypatch, GOOD)
    assert main([*DESIGN, str(tmp_path / "deck")]) == 0
    assert (tmp_path / "deck" / "site.txt").read_bytes() == b"Deck behind the house"
    assert capsys.readouterr().err == ""


def test_the_command_line_says_what_was_left_out(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bad = entry("bad", papers_plugin([("bad.txt", raising(ValueError("bad day")))]))
    install(monkeypatch, bad)
    assert main([*DESIGN, str(tmp_path / "deck"), "--json"]) == 0
    told = capsys.readouterr().err
    assert "plugin bad: bad.txt failed: ValueError: bad day" in told
    assert (tmp_path / "deck" / LEFT_OUT).read_text("utf-8") == told
