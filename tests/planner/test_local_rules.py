"""Local rules: they may add findings and do nothing else, and who spoke is told in the plan."""

import functools
from collections.abc import Callable, Sequence
from copy import deepcopy

import pytest
from attrs import evolve

import drylay
from drylay.errors import PluginsError
from drylay.findings import Finding, Severity
from drylay.plan.model import LocalRuleUsed, Plan
from drylay.planner.local import with_local_rules
from drylay.plugins.hooks import hookimpl
from drylay.plugins.loading import installed_local_rules
from drylay.plugins.model import LocalRuleSet
from drylay.reasons import Source
from liars import entry, entry_raising, module
from plan.made import ROOT
from plan.sample import blocked_plan

BYELAW = Source(kind="standard", title="Quarl byelaws (invented)", clause="7")


@functools.cache
def plan() -> Plan:
    brief = drylay.read_brief(ROOT / "docs/examples/garden.toml")
    stock = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
    return drylay.design(brief, stock=stock, local_rules=LocalRuleSet())


def finding(**more: object) -> Finding:
    known = {
        "code": "7", "severity": Severity.CAUTION, "subject": "deck", "source": BYELAW,
        "message": "decks over 10 m2 are told to the parish", "measured": 18.24, "limit": 10,
        "unit": "m2",
    }  # fmt: skip
    return Finding(**{**known, **more})  # type: ignore[arg-type]


def rules(*answers: object, name: str = "quarl") -> LocalRuleSet:
    """Return local rules, handed in, that answer so or raise that."""

    def rule(answer: object) -> Callable[[Plan], Sequence[Finding]]:
        def look(_: Plan) -> Sequence[Finding]:
            if isinstance(answer, BaseException):
                raise answer
            return answer  # type: ignore[return-value]

        return look

    pairs = [(f"{name}{at or ''}", rule(answer)) for at, answer in enumerate(answers)]
    return installed_local_rules(entry_points=(), extra=pairs)


def added(answer: object) -> tuple[Finding, ...]:
    told = with_local_rules(plan(), rules(answer))
    assert told.findings[: len(plan().findings)] == plan().findings
    return told.findings[len(plan().findings) :]


# ----- what they may do ----------------------------------------------------------------


def test_what_a_local_rule_finds_is_added_under_its_name() -> None:
    told = with_local_rules(plan(), rules([finding()], []))
    assert told.findings == (*plan().findings, finding(code="quarl/7", limit=10.0))
    assert [used.name for used in told.local_rules] == ["quarl", "quarl1"]
    assert told == evolve(plan(), findings=told.findings, local_rules=told.local_rules)


def test_the_plan_names_package_and_release_of_who_spoke() -> None:
    @hookimpl
    def drylay_local_rules() -> object:
        return [("quarl", lambda _: (finding(),))]

    spoken = entry("quarl", module(drylay_local_rules=drylay_local_rules), "drylay-quarl")
    told = with_local_rules(plan(), installed_local_rules(entry_points=[spoken]))
    assert told.local_rules == (LocalRuleUsed(name="quarl", package="drylay-quarl", version="1.0"),)
    handed = with_local_rules(plan(), rules([]))
    assert handed.local_rules == (
        LocalRuleUsed(name="quarl", package="handed in", version="no release"),
    )


def test_design_asks_them_and_its_plan_is_the_same_each_time() -> None:
    brief = drylay.read_brief(ROOT / "docs/examples/garden.toml")
    stock = drylay.load_catalogue(ROOT / "catalogs/hobbleden.toml")
    asked = rules([finding()])
    made = drylay.design(brief, stock=stock, local_rules=asked)
    assert made == with_local_rules(plan(), asked)
    assert drylay.plan_to_json(made) == drylay.plan_to_json(with_local_rules(plan(), asked))
    assert drylay.plan_from_json(drylay.plan_to_json(made)) == made


def test_papers_tell_which_local_rules_were_asked() -> None:
    told = drylay.papers(with_local_rules(plan(), rules([finding()])))
    for name in ("summary.txt", "jobsheet.html"):
        text = told[name].decode("utf-8").lower()
        assert "held against local rules" in text
        assert "quarl/7" in text
    assert b"LOCAL RULES\n" not in drylay.papers(plan(), only="summary.txt")["summary.txt"]


def test_a_stop_blocks_the_plan_which_then_holds_no_room_and_no_order() -> None:
    told = with_local_rules(plan(), rules([finding(severity=Severity.STOP)]))
    assert not told.buildable
    rooms = ("surface", "edges", "supports", "pieces", "frame", "fixings", "buying", "site")
    assert {getattr(told, room) for room in (*rooms, "groundwork", "work")} == {None}
    assert told.reasons.decisions == ()
    assert set(drylay.papers(told)) == {"plan.json", "summary.txt"}
    assert drylay.audit(told).findings == ()


def test_a_blocked_plan_is_no_deck_to_be_looked_at() -> None:
    asked = rules(AssertionError("asked"))
    assert with_local_rules(blocked_plan(), asked) == blocked_plan()


# ----- what they may not ---------------------------------------------------------------


def test_a_local_rule_can_change_nothing() -> None:
    before = deepcopy(plan())

    def meddle(shown: Plan) -> list[Finding]:
        object.__setattr__(shown, "findings", ())
        object.__setattr__(shown.buying, "order_total", None)
        return []

    asked = installed_local_rules(entry_points=(), extra=[("quarl", meddle)])
    told = with_local_rules(plan(), asked)
    assert plan() == before
    assert evolve(told, local_rules=()) == before


class Sly(Finding):
    """A finding that could change after it was looked at."""


LIES: dict[str, tuple[object, str]] = {
    "raises": (ValueError("bad day"), "local rule quarl failed: ValueError: bad day"),
    "exits": (SystemExit(2), "local rule quarl failed: SystemExit: 2"),
    "None": (None, "found NoneType, wanted a list of findings"),
    "one finding": (finding(), "found Finding, wanted a list of findings"),
    "a text": (["7"], "finding 0: found str, wanted Finding"),
    "a subclass": ([Sly(code="7", severity=Severity.NOTE, subject="d", message="m", source=BYELAW)],
                   "finding 0: found Sly, wanted Finding"),
    "too many": ([finding()] * 1001, "1001 findings, wanted at most 1000"),
    "no source": ([finding(source=None)], "finding 0: source is NoneType, wanted Source"),
    "hearsay": ([finding(source=Source(kind="hearsay", title="a friend"))], "kind 'hearsay'"),
    "another's code": ([finding(code="AUD/1")], "code 'AUD/1', wanted letters, digits and hyphens"),
    "nan": ([finding(measured=float("nan"))], "measured is no finite number"),
    "no severity": ([finding(severity="stop")], "severity is str, wanted Severity"),
    "no subject": ([finding(subject=" ")], "subject, wanted text on one line"),
    "two lines": ([finding(message="a\nb")], "message, wanted text on one line"),
    "a unit of None": ([finding(unit=None)], "unit, wanted text on one line"),
}  # fmt: skip


@pytest.mark.parametrize("lie", LIES)
def test_a_local_rule_that_fails_spoils_only_itself_and_is_named(lie: str) -> None:
    answer, says = LIES[lie]
    (told,) = added(answer)
    assert (told.code, told.severity, told.subject) == (
        "LOC-001", Severity.CAUTION, "plugin handed in"
    )  # fmt: skip
    assert says in told.message
    beside = with_local_rules(plan(), rules(answer, [finding()]))
    assert {"quarl1/7", "LOC-001"} <= {each.code for each in beside.findings}
    assert beside.buildable
    assert drylay.audit(beside).findings == ()


def test_the_keyboard_still_interrupts() -> None:
    with pytest.raises(KeyboardInterrupt):
        with_local_rules(plan(), rules(KeyboardInterrupt()))


@pytest.mark.parametrize(
    ("answer", "says"),
    [
        ([("Quarl!", len)], "local rule 'Quarl!', wanted small letters"),
        ([("quarl", 7)], "local rule 'quarl' is int, wanted a function"),
        ([len], "wanted a pair (name, function)"),
        ([("quarl", len), ("quarl", len)], "supplies quarl twice"),
        (ValueError("bad day"), "drylay_local_rules failed: ValueError: bad day"),
    ],
)
def test_what_is_no_local_rule_is_told_in_the_plan(answer: object, says: str) -> None:
    """The plugin is known to have local rules: that they were not asked must not go unsaid."""

    @hookimpl
    def drylay_local_rules() -> object:
        if isinstance(answer, BaseException):
            raise answer
        return answer

    bad = entry("quarl", module(drylay_local_rules=drylay_local_rules), "drylay-quarl")
    found = installed_local_rules(entry_points=[bad])
    told = with_local_rules(plan(), found).findings[-1]
    assert (told.code, told.subject) == ("LOC-001", "plugin quarl")
    assert says in told.message
    with pytest.raises(PluginsError, match="plugin quarl of package drylay-quarl"):
        installed_local_rules(entry_points=[bad], strict=True)


def test_a_plugin_that_may_have_none_is_not_told_in_the_plan() -> None:
    found = installed_local_rules(entry_points=[entry_raising("x", ImportError("no x"))])
    assert with_local_rules(plan(), found) == plan()


# ----- the audit -----------------------------------------------------------------------


def test_the_audit_accepts_what_local_rules_find() -> None:
    told = with_local_rules(plan(), rules([finding(), finding(code="8", measured=1.25)]))
    assert drylay.audit(told).findings == ()


def test_the_witnessed_audit_asks_them_again() -> None:
    asked = rules([finding()])
    told = with_local_rules(plan(), asked)
    report = drylay.audit(told, local_rules=asked)
    assert (report.audit, report.findings) == ("witnessed", ())
    assert "local rules" in report.witnesses
    hushed = evolve(told, findings=plan().findings)
    (flaw,) = drylay.audit(hushed, local_rules=asked).findings
    assert (flaw.code, flaw.subject, flaw.message) == ("AUD-W19", "quarl/7 deck", "left out")
    for others in (rules([], name="other"), LocalRuleSet()):
        unasked = drylay.audit(told, local_rules=others)
        assert "AUD-W19" in {check.code for check in unasked.not_run}
        assert unasked.findings == ()
