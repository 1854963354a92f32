"""The proof slip runs with nothing but the standard library, and sees what is wrong."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from attrs import asdict, evolve

from cutting.test_engine import boards, pieces, s03
from cutting.test_verify import TAMPERED, s03_proof, s03_vector, searched
from drylay.cutting import check_proof
from drylay.cutting.engine import solve
from drylay.cutting.model import Stock, Task
from drylay.cutting.slip import slip
from drylay.cutting.verify import verify


def run(folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-I", "-S", "check_proof.py"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


def written(folder: Path, files: dict[str, bytes]) -> Path:
    for name, content in files.items():
        (folder / name).write_bytes(content)
    return folder


def test_the_slip_runs_alone_and_speaks_money_and_metres(tmp_path: Path) -> None:
    plan = solve(s03())
    pieces_plan = solve(Task(stock=boards((2100, 1005)), kerf=4, pieces=pieces(_1000=3)))
    files = slip(
        (("deck boards", plan.proof), ("frame", pieces_plan.proof)),
        currency="EUR",
        units_per_m=2000,
    )
    assert sorted(files) == ["check_proof.py", "proof.json"]
    done = run(written(tmp_path, files))
    assert (done.returncode, done.stderr) == (0, "")
    assert "deck boards: holds" in done.stdout
    assert "no plan is below   13.20 EUR" in done.stdout  # 1320 in minor units
    assert "cost with joints   20.10 EUR" in done.stdout
    assert "4.800 m" in done.stdout


def test_the_slip_sees_a_bound_one_too_high(tmp_path: Path) -> None:
    done = run(written(tmp_path, slip((("boards", s03_proof(bound=1321, objective=1332)),))))
    assert done.returncode == 1
    assert "DOES NOT HOLD" in done.stdout


def test_the_same_proof_makes_the_same_bytes() -> None:
    assert slip((("boards", solve(s03()).proof),)) == slip((("boards", solve(s03()).proof),))


def as_read(proof: Any) -> Any:
    return json.loads(json.dumps(asdict(proof)))


@pytest.mark.parametrize("how", TAMPERED)
def test_the_script_sees_every_tampering(how: str) -> None:
    proof = s03_proof()
    vector = evolve(s03_vector(), **TAMPERED[how])
    forged = evolve(proof, certificate=evolve(proof.certificate, vectors=(vector,)))
    assert check_proof.check(as_read(proof))[0]
    assert not check_proof.check(as_read(forged))[0]


@pytest.mark.parametrize("limit", [None, 0, 1, 2])
@pytest.mark.parametrize("bound", [17, 18, 19, 20, 21])
def test_the_script_and_the_library_agree(limit: int | None, bound: int) -> None:
    proof = searched(bound, limit=limit)
    assert check_proof.check(as_read(proof))[0] == verify(proof).holds


def test_the_script_refuses_what_is_not_a_proof() -> None:
    assert not check_proof.check(as_read(s03_proof(objective=1319)))[0]
    unmade = evolve(s03_proof(), task=s03(stock=boards((4000, 30))))
    assert not check_proof.check(as_read(unmade))[0]


def test_free_boards_and_joint_prices_in_the_script() -> None:
    free = Stock(name="free", length=9600, price=0, limit=3)
    for task in (
        s03(5, joint_price=3),
        s03(4, stock=(*boards((7200, 36), (9600, 48)), free)),
        Task(stock=(*boards((100, 5)), evolve(free, length=100)), kerf=0, pieces=pieces(_40=9)),
    ):
        proof = solve(task).proof
        assert verify(proof).holds
        assert check_proof.check(as_read(proof))[0]
        higher = evolve(proof.certificate, bound=proof.certificate.bound + 1)
        forged = evolve(proof, certificate=higher, objective=proof.objective + 1)
        assert not verify(forged).holds
        assert not check_proof.check(as_read(forged))[0]


def test_money_without_places(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = written(tmp_path, slip((("boards", s03_proof()),), money_places=0))
    assert check_proof.main(folder / "proof.json") == 0
    assert "no plan is below   1320\n" in capsys.readouterr().out
