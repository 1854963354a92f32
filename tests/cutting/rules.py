"""Holds a cut plan against the rules of its task, in plain words."""

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from drylay.cutting.model import CutPlan, Line, Task


def pieces_of(line: Line, joints: tuple[int, ...]) -> list[int]:
    left, right = line.joint_gap // 2, line.joint_gap - line.joint_gap // 2
    at = [line.stations[j] for j in joints]
    starts, ends = [line.start, *(a + right for a in at)], [*(a - left for a in at), line.end]
    return [e - s for s, e in zip(starts, ends, strict=True)]


def assert_keeps_the_rules(task: Task, plan: CutPlan) -> None:
    wanted = Counter({p.length: 0 for p in task.pieces})
    for piece in task.pieces:
        wanted[piece.length] += piece.count
    assert len(plan.joints) == len(task.lines)
    for line, lines in zip(task.lines, plan.joints, strict=True):
        assert len(lines) == line.count
        for joints in lines:
            wanted.update(pieces_of(line, joints))
            assert_a_line_is_legal(line, joints)
        for one, other in pairwise(lines):
            assert all(abs(a - b) >= line.stagger for a in one for b in other)
    assert_sets_keep_apart(task, plan.joints)
    sawn = Counter()
    bought = Counter()
    stock = {s.name: s for s in task.stock}
    for cut in plan.cuts:
        board = stock[cut.stock]
        used = sum(cut.pieces) + task.kerf * (len(cut.pieces) - 1)
        assert cut.pieces
        assert cut.boards > 0
        assert used <= board.length - 2 * board.trim
        assert list(cut.pieces) == sorted(cut.pieces, reverse=True)
        bought[cut.stock] += cut.boards
        for piece in cut.pieces:
            sawn[piece] += cut.boards
    assert +sawn == +wanted
    for name, count in bought.items():
        assert stock[name].limit is None or count <= stock[name].limit
    assert plan.cost == sum(stock[name].price * count for name, count in bought.items())
    assert plan.joint_count == sum(len(joints) for lines in plan.joints for joints in lines)
    assert plan.objective == plan.cost + task.joint_price * plan.joint_count
    assert plan.bound <= plan.objective
    assert plan.proof.certificate.bound == plan.bound
    assert plan.proof.objective == plan.objective
    assert plan.proof.task == task


def assert_a_line_is_legal(line: Line, joints: tuple[int, ...]) -> None:
    assert line.most_joints is None or len(joints) <= line.most_joints
    if joints:
        spans = [
            b - a for a, b in zip((0, *joints), (*joints, len(line.stations) - 1), strict=True)
        ]
        assert min(spans) >= line.least_bays
        assert min(pieces_of(line, joints)) > 0


def assert_sets_keep_apart(task: Task, joints: Sequence[Sequence[tuple[int, ...]]]) -> None:
    """Hold the joints of sets beside one another apart, counted in the stations all share."""
    for pair in task.beside:
        one, other = task.lines[pair.one], task.lines[pair.other]
        for last, first in zip(joints[pair.one][-1:], joints[pair.other][:1], strict=False):
            ones = {a + one.first_station for a in last}
            others = {b + other.first_station for b in first}
            stagger = max(one.stagger, other.stagger)
            assert all(abs(a - b) >= stagger for a in ones for b in others)
