"""The proof slip runs with nothing but the standard library, and sees what is wrong."""

import json
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from attrs import asdict, evolve

from cutting.test_engine import boards, pieces, s03
from cutting.test_verify import (
    SPLITS_TAMPERED,
    TAMPERED,
    a_split,
    by_hand,
    s03_proof,
    s03_vector,
    searched,
    tampered,
)
from drylay.cutting import check_proof
from drylay.cutting.engine import solve
from drylay.cutting.model import CutPlan, Proof, ProvenOrder, Stock, Task
from drylay.cutting.slip import slip
from drylay.cutting.verify import verify


def run(folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-I", "-S", "check_proof.py"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


def written(folder: Path, files: dict[str, bytes]) -> Path:
    for name, content in files.items():
        (folder / name).write_bytes(content)
    return folder


def as_read(noun: Any) -> Any:
    return json.loads(json.dumps(asdict(noun)))


def script_holds(proof: Proof) -> bool:
    try:
        return bool(check_proof.why_it_holds(as_read(proof)))
    except check_proof.NotProven:
        return False


def ordered(name: str, plan: CutPlan) -> ProvenOrder:
    return ProvenOrder(name=name, proof=plan.proof, cuts=plan.cuts, joints=plan.joints)


def test_the_slip_runs_alone_and_speaks_money_and_metres(tmp_path: Path) -> None:
    plan = solve(s03())
    pieces_plan = solve(Task(stock=boards((2100, 1005)), kerf=4, pieces=pieces(_1000=3)))
    files = slip(
        (ordered("deck boards", plan), ordered("frame", pieces_plan)),
        currency="EUR",
        units_per_m=2000,
    )
    assert sorted(files) == ["check_proof.py", "proof.json"]
    done = run(written(tmp_path, files))
    assert (done.returncode, done.stderr) == (0, "")
    assert "deck boards: holds" in done.stdout
    assert "none can cost less than    13.20 EUR" in done.stdout  # 1320 in minor units
    assert "2 x 1.050 m at 10.05 EUR: 20.10 EUR" in done.stdout
    assert "cost in all                20.10 EUR" in done.stdout


def test_the_slip_sees_a_bound_one_too_high(tmp_path: Path) -> None:
    plan = solve(s03())
    higher = evolve(plan.proof.certificate, bound=plan.bound + 1)
    order = evolve(ordered("boards", plan), proof=evolve(plan.proof, certificate=higher))
    done = run(written(tmp_path, slip((order,))))
    assert done.returncode == 1
    assert "DOES NOT HOLD" in done.stdout


def test_the_same_proof_makes_the_same_bytes() -> None:
    assert slip((ordered("boards", solve(s03())),)) == slip((ordered("boards", solve(s03())),))


@pytest.mark.parametrize(
    "content", [None, b"", b"{", b"[]", b'{"orders": [{}]}', b"\xff", b"[" * 9999]
)
def test_a_missing_or_damaged_slip_is_told_in_one_line(
    tmp_path: Path, content: bytes | None
) -> None:
    files = {"check_proof.py": slip(())["check_proof.py"]}
    done = run(written(tmp_path, files if content is None else files | {"proof.json": content}))
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    assert "is missing or damaged" in done.stderr


def test_a_slip_without_an_order_proves_nothing(tmp_path: Path) -> None:
    assert run(written(tmp_path, slip(()))).returncode == 1


def an_order() -> Any:
    """Return S03's boards and a few fixed pieces, bought from a limited stock, as read back."""
    task = s03(pieces=pieces(_1000=2), joint_price=3)
    first = evolve(task.stock[0], limit=100)
    return as_read(ordered("boards", solve(evolve(task, stock=(first, *task.stock[1:])))))


def _dearer(order: Any) -> None:
    order["proof"]["task"]["stock"][0]["price"] += 1


def _one_board_less(order: Any) -> None:
    order["cuts"][0]["boards"] -= 1
    order["cuts"] = [cut for cut in order["cuts"] if cut["boards"]]


def _not_on_sale(order: Any) -> None:
    order["cuts"][0]["stock"] = "none such"


def _kerf_forgotten(order: Any) -> None:
    order["proof"]["task"]["kerf"] += 1_000


def _longer_piece(order: Any) -> None:
    order["cuts"][0]["pieces"][0] += 1


def _shorter_piece(order: Any) -> None:
    order["cuts"][0]["pieces"][0] -= 1


def _too_many(order: Any) -> None:
    for stock in order["proof"]["task"]["stock"]:
        stock["limit"] = 1


def _row_missing(order: Any) -> None:
    order["joints"][0].pop()


def _rows_missing(order: Any) -> None:
    order["joints"].pop()


def _joint_moved(order: Any) -> None:
    order["joints"][0][0][0] += 1


def _joints_in_line(order: Any) -> None:
    order["joints"][0][1] = order["joints"][0][0]


def _joint_nowhere(order: Any) -> None:
    order["joints"][0][0] = [10_000]


def _cap_lowered(order: Any) -> None:
    order["proof"]["task"]["lines"][0]["most_joints"] = 0


def _joints_cheaper(order: Any) -> None:
    order["proof"]["task"]["joint_price"] -= 1


TOUCHED = {
    _dearer: "do not add up",
    _one_board_less: "not those wanted",
    _not_on_sale: "not on sale",
    _kerf_forgotten: "do not fit",
    _longer_piece: "do not fit|not those wanted",
    _shorter_piece: "not those wanted",
    _too_many: "more boards",
    _row_missing: "more or fewer rows",
    _rows_missing: "other lines",
    _joint_moved: "too near|not those wanted|forbid",
    _joints_in_line: "too near",
    _joint_nowhere: "forbid",
    _cap_lowered: "forbid",
    _joints_cheaper: "do not add up",
}


@pytest.mark.parametrize("touch", TOUCHED, ids=lambda touch: touch.__name__)
def test_the_script_sees_every_order_that_is_not_the_plan(touch: Callable[[Any], None]) -> None:
    order = an_order()
    assert check_proof.check_order(order)[0]
    touch(order)
    holds, why = check_proof.check_order(order)
    assert not holds
    assert re.search(TOUCHED[touch], why)


@pytest.mark.parametrize("how", TAMPERED)
def test_the_script_sees_every_tampering(how: str) -> None:
    proof = s03_proof()
    vector = evolve(s03_vector(), **TAMPERED[how])
    forged = evolve(proof, certificate=evolve(proof.certificate, vectors=(vector,)))
    assert script_holds(proof)
    assert not script_holds(forged)


@pytest.mark.parametrize("how", [how for how in SPLITS_TAMPERED if not how.startswith("half")])
def test_the_script_sees_every_split_tampered_with(how: str) -> None:
    assert script_holds(by_hand(a_split()))
    assert not script_holds(tampered(how))


@pytest.mark.parametrize("limit", [None, 0, 1, 2])
@pytest.mark.parametrize("bound", [17, 18, 19, 20, 21])
def test_the_script_and_the_library_agree(limit: int | None, bound: int) -> None:
    proof = searched(bound, limit=limit)
    assert script_holds(proof) == verify(proof).holds


def test_the_script_refuses_what_is_not_a_proof() -> None:
    assert not script_holds(s03_proof(objective=1319))
    unmade = evolve(s03_proof(), task=s03(stock=boards((4000, 30))))
    assert not script_holds(unmade)


def test_free_boards_and_joint_prices_in_the_script() -> None:
    free = Stock(name="free", length=9600, price=0, limit=3)
    for task in (
        s03(5, joint_price=3),
        s03(4, stock=(*boards((7200, 36), (9600, 48)), free)),
        Task(stock=(*boards((100, 5)), evolve(free, length=100)), kerf=0, pieces=pieces(_40=9)),
    ):
        proof = solve(task).proof
        assert verify(proof).holds
        assert script_holds(proof)
        higher = evolve(proof.certificate, bound=proof.certificate.bound + 1)
        forged = evolve(proof, certificate=higher, objective=proof.objective + 1)
        assert not verify(forged).holds
        assert not script_holds(forged)


def test_money_without_places(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = written(tmp_path, slip((ordered("boards", solve(s03())),), money_places=0))
    assert check_proof.main(folder / "proof.json") == 0
    assert "none can cost less than    1320\n" in capsys.readouterr().out


@pytest.mark.parametrize("field", ["limit", "price", "trim", "length"])
def test_a_stock_below_nothing_proves_nothing(field: str) -> None:
    """A length that can be bought less than no times would carry any bound."""
    plan = solve(s03())
    first = plan.proof.task.stock[0]
    odd = evolve(first, name="odd", price=1)
    task = evolve(plan.proof.task, stock=(first, evolve(odd, **{field: -100_000})))
    forged = evolve(plan.proof, task=task)
    assert not verify(forged).holds
    assert not script_holds(forged)


def test_a_name_that_stands_twice_proves_nothing() -> None:
    plan = solve(s03())
    first, *_ = plan.proof.task.stock
    forged = evolve(plan.proof, task=evolve(plan.proof.task, stock=(first, first)))
    assert not verify(forged).holds
    assert not script_holds(forged)


@pytest.mark.parametrize("number", [b"NaN", b"Infinity", b"1.5"])
def test_numbers_that_are_not_whole_are_a_damaged_slip(tmp_path: Path, number: bytes) -> None:
    files = slip((ordered("boards", solve(s03())),))
    proof = re.sub(rb'"bound": \d+', b'"bound": ' + number, files["proof.json"])
    assert proof != files["proof.json"]
    done = run(written(tmp_path, files | {"proof.json": proof}))
    assert done.returncode == 2
    assert "is no whole number" in done.stderr
