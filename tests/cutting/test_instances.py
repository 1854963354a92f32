"""Deck-like jobs with proven least costs, worked separately from the library."""

import json
from pathlib import Path
from typing import Any

import pytest

from cutting.rules import assert_keeps_the_rules
from drylay.cutting.engine import solve
from drylay.cutting.model import GRADES, Certificate, Line, Piece, Proof, Stock, Task, WorthVector
from drylay.cutting.verify import verify

HERE = Path(__file__).parents[1] / "reference" / "cutting"
JOBS = {path.stem: json.loads(path.read_text("utf-8")) for path in sorted(HERE.glob("*.json"))}


def task_of(job: dict[str, Any]) -> Task:
    stock = tuple(
        Stock(
            name=f"S{i}",
            length=s["length"],
            price=s["cost"],
            limit=s["available"],
            trim=job["trim_per_end"],
        )
        for i, s in enumerate(job["stocks"])
    )
    pieces = tuple(Piece(length=p["length"], count=p["count"]) for p in job.get("pieces", ()))
    lines = (
        Line(
            count=job["rows"]["count"],
            start=job["rows"]["x0"],
            end=job["rows"]["x1"],
            stations=tuple(job["joist_centres"]),
            joint_gap=job["joint_gap"],
            least_bays=job["min_bays_per_piece"],
            stagger=job["stagger_bays"],
        ),
    ) if "rows" in job else ()  # fmt: skip
    price = job.get("joint_cost", 0)
    return Task(stock=stock, kerf=job["kerf"], pieces=pieces, lines=lines, joint_price=price)


@pytest.mark.parametrize("name", JOBS)
def test_the_proven_least_cost_is_found_and_proven(name: str) -> None:
    job = JOBS[name]
    plan = solve(task_of(job))
    assert_keeps_the_rules(plan.proof.task, plan)
    assert (plan.objective, plan.bound) == (job["best_known"], job["lower_bound"])
    assert verify(plan.proof).holds


@pytest.mark.parametrize("name", [name for name in JOBS if "price_certificate" in JOBS[name]])
def test_the_other_works_worths_support_no_more_than_its_bound(name: str) -> None:
    job = JOBS[name]
    task, given = task_of(job), job["price_certificate"]
    lengths = tuple(p["length"] for p in job["pieces"])
    vector = WorthVector(scale=given["scale"], lengths=lengths, worths=tuple(given["prices"]))
    certificate = Certificate(grade=GRADES[0], bound=0, vectors=(vector,))
    found = verify(Proof(task=task, objective=job["best_known"], certificate=certificate))
    assert found.holds
    assert 0.98 * job["lower_bound"] <= found.bound <= job["lower_bound"]
