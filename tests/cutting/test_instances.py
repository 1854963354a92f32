"""Deck-like jobs with proven least costs, worked separately from the library."""

from pathlib import Path

import pytest

from cutting.jobs import Job, jobs_in
from cutting.rules import assert_keeps_the_rules
from drylay.cutting.engine import solve
from drylay.cutting.model import GRADES, Certificate, Proof, WorthVector
from drylay.cutting.verify import verify

JOBS = jobs_in(Path(__file__).parents[1] / "reference" / "cutting")
PIECES = [job for job in JOBS if job.kind == "cut1d"]


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.name)
def test_the_proven_least_cost_is_found_and_proven(job: Job) -> None:
    plan = solve(job.task)
    assert_keeps_the_rules(plan.proof.task, plan)
    assert (plan.objective, plan.bound) == (job.best_known, job.lower_bound)
    assert verify(plan.proof).holds


@pytest.mark.parametrize("job", PIECES, ids=lambda job: job.name)
def test_the_other_works_worths_support_no_more_than_its_bound(job: Job) -> None:
    given = job.document["price_certificate"]
    lengths = tuple(piece.length for piece in job.task.pieces)
    vector = WorthVector(scale=given["scale"], lengths=lengths, worths=tuple(given["prices"]))
    certificate = Certificate(grade=GRADES[0], bound=0, vectors=(vector,))
    found = verify(Proof(task=job.task, objective=job.best_known, certificate=certificate))
    assert found.holds
    assert 0.98 * job.lower_bound <= found.bound <= job.lower_bound
