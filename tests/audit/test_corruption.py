"""The corruption campaign in small; `tests/campaigns/corrupt.py` runs the whole of it."""

import pytest

from audit.corrupt import SEED, Tally, campaign, of_a_certificate, said, why_missed
from audit.edits import double, drop, swap
from audit.planting import Edit
from audit.real import example, planned, stock
from audit.sample import sample_plan, sample_witness
from drylay.audit.closed import audit_plan
from drylay.audit.model import Witness
from drylay.plan.model import Plan


def share_caught(tally: Tally) -> float:
    own = tally.changes - tally.of_certificates
    return 1 - sum(not of_a_certificate(miss.path) for miss in tally.missed) / own


@pytest.fixture(scope="module")
def garden() -> tuple[Plan, Witness]:
    return planned(example("garden"), stock("hobbleden"))


def test_numbers_of_the_hand_made_deck() -> None:
    tally = campaign(sample_plan(), sample_witness(), sample=400, seed=SEED)
    assert share_caught(tally) >= 0.99
    assert {why_missed(miss.pattern) for miss in tally.missed} != {"unexplained"}


def test_numbers_of_a_real_deck(garden: tuple[Plan, Witness]) -> None:
    tally = campaign(*garden, sample=300, seed=SEED)
    assert share_caught(tally) >= 0.99
    assert "unexplained" not in {why_missed(miss.pattern) for miss in tally.missed}


def test_a_real_deck_is_sound_before_witnesses(garden: tuple[Plan, Witness]) -> None:
    plan, witness = garden
    assert audit_plan(plan, witness=witness).findings == ()


STRUCTURE: tuple[tuple[str, Edit], ...] = (
    ("a piece dropped", lambda plan: drop(plan, "pieces.pieces", 3)),
    ("a joint dropped", lambda plan: drop(plan, "pieces.joints", 0)),
    ("a board doubled", lambda plan: double(plan, "buying.purchases[0].lengths", 0)),
    ("a board dropped", lambda plan: drop(plan, "buying.purchases[0].lengths", 0)),
    ("two joists changed over", lambda plan: swap(plan, "frame.joists", 2, 5)),
    ("two rows changed over", lambda plan: swap(plan, "surface.rows", 1, 2)),
    ("a row dropped", lambda plan: drop(plan, "surface.rows", 4)),
    ("a joist line dropped", lambda plan: drop(plan, "supports.lines", 4)),
    ("a noggin dropped", lambda plan: drop(plan, "frame.noggins", 0)),
    ("a face dropped", lambda plan: drop(plan, "edges.faces", 0)),
    ("a line of the order dropped", lambda plan: drop(plan, "buying.order", 0)),
    ("a line of the order doubled", lambda plan: double(plan, "buying.order", 0)),
    ("a pack dropped", lambda plan: drop(plan, "buying.packs", 1)),
    ("a way out dropped", lambda plan: drop(plan, "surface.ways_out", 1)),
    ("a decision dropped", lambda plan: drop(plan, "reasons.decisions", 3)),
    (
        "a worth vector dropped",
        lambda plan: drop(plan, "buying.purchases[2].proof.certificate.vectors", 0),
    ),
)


@pytest.mark.parametrize(("name", "edit"), STRUCTURE, ids=[name for name, _ in STRUCTURE])
def test_what_is_dropped_doubled_or_changed_over(
    garden: tuple[Plan, Witness], name: str, edit: Edit
) -> None:
    plan, witness = garden
    assert said(audit_plan(edit(plan), witness=witness)), name
