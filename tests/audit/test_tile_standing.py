"""Decks of tiles that stand before the audit: sound as planned, and every planted fault caught."""

from functools import cache
from pathlib import Path

import pytest
from attrs import evolve

import drylay
from audit.edits import at, change
from audit.planting import Edit, both, by, to, without
from audit.tile_faults import findings_without
from drylay.audit import strength_loose
from drylay.audit.closed import audit_plan
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.strength.model import BoardAsked, Check, Section
from tile_legs import BRIEFS, LEGS, deck, on_posts, yards

S = "strength"
Planted = tuple[str, str, str, Edit]
BOARD = BoardAsked(subject="boards", wood="C24", section=Section(breadth_mm=145.0, depth_mm=28.0),
                   bay_mm=452.0, bays=2)  # fmt: skip


def _quoting(name: str, factor: float) -> Edit:
    """Return an edit by which the joists' first check quotes a factor."""
    path = f"{S}.screened[0].checks[0].inputs"
    return lambda plan: change(
        plan, path, lambda told: (*told, (name, factor))  # type: ignore[misc]
    )  # fmt: skip


def _sagging(check: Check) -> Check:
    twice = check.measured * 1.5, check.utilisation_ratio * 1.5
    is_sag = check.name == "deflection, instant"
    return evolve(check, measured=twice[0], utilisation_ratio=twice[1]) if is_sag else check


def sagging_more(plan: Plan) -> Plan:
    path = f"{S}.screened[0].checks"
    return change(plan, path, lambda found: tuple(_sagging(c) for c in found))  # type: ignore[attr-defined]


def cautioned(plan: Plan) -> Plan:
    def harder(found: Finding) -> Finding:
        return evolve(found, severity=Severity.CAUTION) if found.code == "TIL-014" else found

    return evolve(plan, findings=tuple(harder(each) for each in plan.findings))


def before_its_braces(plan: Plan) -> Plan:
    """Return a plan whose tiles are laid before the posts are braced."""
    kinds = [task.kind for task in at(plan, "work.tasks")]  # type: ignore[attr-defined]
    braces = f"W{kinds.index('braces') + 1}"
    path = f"work.tasks[{kinds.index('tiles')}].after"
    return change(plan, path, lambda after: tuple(m for m in after if m != braces))  # type: ignore[attr-defined]


FAULTS: tuple[Planted, ...] = (
    ("AUD-368", "posts", "heavier tiles", both(
        to("tiling.tile_mass_kg", 40.0), to("tiling.mass_kg_m2", 74.1),
        to("tiling.dead_load_kn_m2", 0.73))),
    ("AUD-368", "posts", "tiles told as light", to(f"{S}.heavier_kn_m2", 0.1)),
    ("AUD-368", "ledger", "a ledger without tiles", to(f"{S}.ledgers[0].more_dead_kn_m2", 0.0)),
    ("AUD-368", "packers", "joists on packers without tiles",
     to(f"{S}.beams[0].more_dead_kn_m2", 0.0)),
    ("AUD-333", "posts", "a post without its tiles", by(f"{S}.posts[0].dead_kn", -0.7)),
    ("AUD-377", "posts", "joists that share", to(f"{S}.beams[0].alike", 4)),
    ("AUD-377", "packers", "joists on packers that share", to(f"{S}.beams[0].alike", 4)),
    ("AUD-377", "posts", "joists held by tiles", to(f"{S}.beams[0].held_each_mm", 0.0)),
    ("AUD-377", "posts", "k sys", _quoting("k_sys", 1.1)),
    ("AUD-377", "posts", "a factor of repeated members", _quoting("Cr bending", 1.15)),
    ("AUD-377", "posts", "boards asked about", to(f"{S}.boards", (BOARD,))),
    ("AUD-377", "ledger", "posts held by the ledger", to("raised.frame.bracing.braces", ())),
    ("AUD-378", "posts", "a sag untold", sagging_more),
    ("AUD-378", "posts", "a sag told for nothing", cautioned),
    ("AUD-959", "posts", "tiles cut round guard posts, untold", findings_without("TIL-023")),
    ("AUD-310", "posts", "a thicker tile to the top", by("raised.frame.heights.board_mm", 5.0)),
    ("AUD-311", "posts", "a tile of another thickness", by("surface.board_thickness_mm", 5.0)),
    ("AUD-311", "ledger", "braces as under boards", to("raised.brace_over_mm", 1200.0)),
    ("AUD-324", "ledger", "a brace left out", without("raised.frame.bracing.braces", 0)),
    ("AUD-330", "posts", "a post unasked", without(f"{S}.posts", 0)),
    ("AUD-331", "posts", "joists closer", by(f"{S}.beams[0].carried_mm", -100.0)),
    ("AUD-341", "posts", "footings too few", without("footings.under", 0)),
    ("AUD-354", "posts", "guards not looked for", to("guards", None)),
    ("AUD-356", "posts", "steps down to another ground", by("steps.flight.rise_mm", 40.0)),
    ("AUD-861", "posts", "posts not weighed", without("buying.delivery.parts", 2)),
    ("AUD-914", "ledger", "tiles laid before the braces", before_its_braces),
    ("AUD-907", "posts", "a post set out elsewhere",
     by("work.setting_out.posts[0].along_mm", 10.0)),
    ("AUD-908", "posts", "ties miscounted", by("work.not_ordered[0].count", 1)),
)  # fmt: skip
SEEN: tuple[Planted, ...] = (
    ("AUD-W46", "ledger", "braces as under boards", to("raised.brace_over_mm", 1200.0)),
    ("AUD-W47", "posts", "bearers elsewhere", by("raised.frame.bearers[0].across_mm", 10.0)),
    ("AUD-W48", "posts", "other posts", to("raised.frame.posts[0].section.breadth_mm", 120.0)),
    ("AUD-W50", "packers", "another basis", to(f"{S}.basis", "us-allowable-stress")),
    ("AUD-W55", "posts", "other ground", by("raised.frame.posts[0].ground_mm", 10.0)),
    ("AUD-W58", "posts", "other treads", to("steps.tread_mm", 20.0)),
    ("AUD-W59", "posts", "nothing that stands", to("raised", None)),
    ("AUD-W59", "posts", "no guards", to("guards", None)),
    ("AUD-W59", "posts", "no steps", to("steps", None)),
    ("AUD-W59", "packers", "nothing screened", to(f"{S}", None)),
)  # fmt: skip


@pytest.mark.parametrize("name", BRIEFS)
def test_a_deck_of_tiles_that_stands_is_sound(name: str) -> None:
    assert deck(name).buildable
    report = drylay.audit(deck(name), brief=BRIEFS[name](), stock=yards())
    assert report.findings == ()
    assert {code for code, *_ in strength_loose.CHECKS} <= set(report.checks)


def ids(fault: object) -> str:
    return fault if isinstance(fault, str) else ""


@pytest.mark.parametrize(("code", "name", "told", "edit"), FAULTS, ids=ids)
def test_a_planted_fault_is_caught(code: str, name: str, told: str, edit: Edit) -> None:
    codes = {finding.code for finding in audit_plan(edit(deck(name))).findings}
    assert code in codes, f"{told}: {sorted(codes)}"
    assert "AUD-000" not in codes, told


@pytest.mark.parametrize(("code", "name", "told", "edit"), SEEN, ids=ids)
def test_a_planted_fault_is_caught_before_witnesses(
    code: str, name: str, told: str, edit: Edit
) -> None:
    report = drylay.audit(edit(deck(name)), brief=BRIEFS[name](), stock=yards())
    codes = {finding.code for finding in report.findings}
    assert code in codes, f"{told}: {sorted(codes)}"
    assert "AUD-000" not in codes, told


@cache
def _sagging_deck() -> Plan:
    """Return a deck whose bearers sag by more than a 500th."""
    raised = {**LEGS, "posts_mm": [400.0, 4116.0]}
    return drylay.design(on_posts(raised=raised), stock=yards())


def test_a_caution_on_sag_made_a_note_is_seen() -> None:
    def softer(found: Finding) -> Finding:
        return evolve(found, severity=Severity.NOTE) if found.code == "TIL-014" else found

    plan = _sagging_deck()
    assert audit_plan(plan).findings == ()
    soft = evolve(plan, findings=tuple(softer(each) for each in plan.findings))
    assert "AUD-378" in {each.code for each in audit_plan(soft).findings}


def test_timber_squares_do_not_break_and_no_sag_is_told_of_them() -> None:
    brief = on_posts(board={"article": "WT-500-500-32", "support": "frame"},
                     cover={"along_mm": 4532.0, "across_mm": 3020.0})  # fmt: skip
    plan = drylay.design(brief, stock=yards())
    assert plan.buildable
    assert not [each for each in plan.findings if each.code == "TIL-014"]
    assert drylay.audit(plan, brief=brief, stock=yards()).findings == ()


@pytest.mark.parametrize("board_class", ["C24", None])
def test_a_frame_that_lies_all_along_is_asked_of_no_joists(board_class: str | None) -> None:
    """Boards alone, or nothing: either was a stop of the audit once."""
    root = Path(__file__).parents[2]
    stock = drylay.load_catalogue(root / "catalogs" / "hobbleden.toml")
    plain = drylay.read_brief(root / "docs" / "examples" / "garden.toml").to_dict()
    told = {"basis": "eurocode-5", **({"board_class": board_class} if board_class else {})}
    brief = drylay.read_brief({**plain, "strength": told, "groundwork": {}})
    plan = drylay.design(brief, stock=stock)
    assert plan.buildable
    assert (plan.strength is not None) == (board_class is not None)
    assert [each.code for each in plan.findings].count("STR-013") == 1
    assert drylay.audit(plan, brief=brief, stock=stock).findings == ()


def test_every_check_of_loose_tiles_has_its_fault() -> None:
    assert {code for code, *_ in strength_loose.CHECKS} <= {code for code, *_ in FAULTS}
