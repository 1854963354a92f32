"""The audit's sums of splits, against the engine's own proofs and splits tampered with."""

import pytest
from attrs import evolve

from cutting.made import made
from cutting.test_verify import SPLITS_TAMPERED, a_split, by_hand, searched, tampered
from drylay.audit import proofs
from drylay.audit.proofs import BY_SPLITS, bound_holds
from drylay.cutting.engine import solve


@pytest.fixture
def no_search(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(proofs, "none_is_cheaper", lambda *_: False)


@pytest.mark.usefixtures("no_search")
def test_the_split_by_hand_bears_out_its_bound_and_no_more() -> None:
    assert bound_holds(by_hand(a_split()))[0] == BY_SPLITS
    assert bound_holds(by_hand(a_split(), bound=21))[0] == ""
    assert bound_holds(by_hand())[0] == ""


@pytest.mark.usefixtures("no_search")
@pytest.mark.parametrize("how", [how for how in SPLITS_TAMPERED if not how.startswith("half")])
def test_a_split_tampered_with_bears_out_nothing(how: str) -> None:
    assert bound_holds(tampered(how))[0] == ""


def test_without_splits_the_search_bears_it_out() -> None:
    proof = searched(20, limit=0)
    untold = evolve(proof, certificate=evolve(proof.certificate, splits=()))
    assert bound_holds(untold)[0] == BY_SPLITS


@pytest.mark.usefixtures("no_search")
@pytest.mark.parametrize("kind", ["cut1d", "near_flat_pieces", "limited"])
def test_splits_of_the_engine_bear_out_its_bounds(kind: str) -> None:
    by_search = 0
    for job in made(kind, 6):
        plan = solve(job.task)
        if plan.proof.certificate.grade != BY_SPLITS:
            continue
        by_search += bool(plan.proof.certificate.splits)
        assert bound_holds(plan.proof)[0], job.name
        dearer = evolve(plan.proof.certificate, bound=plan.bound + 1_000)
        assert bound_holds(evolve(plan.proof, certificate=dearer))[0] == "", job.name
    assert by_search
