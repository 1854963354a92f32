"""Checks a proof of least cost from its integers alone: no solver, nothing of the engine.

**What a worth vector says.** It puts a worth on each wanted length, in money x `scale`; a
length it leaves out is worth nothing. Two integers follow, and anyone can recompute them:

- `carries[s]`: the most worth one board of stock s can carry. n pieces fit a board when
  `sum(piece + kerf) <= length - 2 trim + kerf`.
- `demand`: the least worth any legal plan must make. A fixed piece adds its worth. A line
  adds at least the cheapest legal line, where each piece costs its worth and each joint
  `joint_price x scale`.

Add up any plan: with z boards bought and J joints made,

    sum(carries[s] z[s]) + joint_price x scale x J >= demand                          (1)

since boards carry all pieces, and each line's pieces and joints cost at least the cheapest
line. Nothing is assumed about the order of the lines, so (1) holds for every sequence.

**Window prices** bring the stagger in. A window is `width` stations in a row. Because
`width <= least_bays` a line has at most one joint in it; because `width <= stagger` two
lines side by side have at most one between them. Let a be how many lines are odd (the 1st,
3rd, ...) and b how many are even: a = b or a = b + 1. The lines that joint in the window
are no two neighbours, so if k of the even lines do, each of these blocks the odd lines
beside it, at least k of them for a = b and k + 1 for a = b + 1 (k > 0). Either way
`odd joints / a + even joints / b <= 1`, that is, with g = gcd(a, b),

    (b/g) x odd joints + (a/g) x even joints <= a b / g.                               (2)

A window price p charges p b/g for a joint in it on an odd line, p a/g on an even line, and
gives back p a b / g: by (2) never less than was charged. So (1) holds with the charges put
into the lines' joints and the refund taken off the demand. Windows may overlap, as each
inequality (2) holds by itself. A single line has no neighbour (b = 0) and no windows. A
stagger wider than `least_bays` only makes (2) weaker than it could be, never wrong.

**From (1) to a bound.** *One worth vector*: if `carries[s] <= price[s] x scale` for every
stock without a limit, (1) bounds the cost: `scale x cost >= demand - sum(limit[s] x
max(0, carries[s] - price[s] x scale))`; for a limited stock the excess can be had at most
limit times. The cost is a sum of prices, so it is rounded up to a multiple of their gcd.
*Worth vectors and integer search*: no whole board counts z (within the limits) and joint
count J (no fewer than the lines' fewest) cost less than the bound and satisfy (1) for every
vector. `search` tries them all, dropping a branch only where the money left cannot buy the
worth still missing.
"""

from drylay.cutting.counting import Searched, search
from drylay.cutting.model import GRADES, Proof, Task, Verdict, WorthVector
from drylay.cutting.sound import task_fault
from drylay.cutting.weighing import (
    Weighed,
    carried,
    direct_bound,
    fewest_joints,
    legal_pieces,
    lines_worth,
    longest_usable,
    price_step,
    room,
    weigh,
    widest_window,
)

__all__ = [
    "Searched",
    "Weighed",
    "carried",
    "direct_bound",
    "fewest_joints",
    "legal_pieces",
    "lines_worth",
    "longest_usable",
    "price_step",
    "room",
    "search",
    "verify",
    "weigh",
    "widest_window",
]


def verify(proof: Proof) -> Verdict:
    """Return whether the worth vectors of a proof support its bound, recomputed from scratch."""
    why = _fault(proof)
    if why:
        return Verdict(holds=False, bound=0, why=why)
    weighed = [weigh(proof.task, vector) for vector in proof.certificate.vectors]
    claimed, direct = proof.certificate.bound, direct_bound(proof.task, weighed)
    if proof.certificate.grade == GRADES[0] or direct >= claimed:
        why = f"one worth vector supports {direct}"
        return Verdict(holds=direct >= claimed, bound=direct, why=why)
    found = search(proof.task, weighed, claimed - 1, proof.certificate.nodes)
    if found.finished and found.boards is None:
        why = f"no board counts under {claimed} satisfy the worth vectors, {found.nodes} nodes"
        return Verdict(holds=True, bound=claimed, why=why)
    why = "the search needs more nodes than the certificate says"
    if found.finished:
        why = f"board counts under {claimed} satisfy every worth vector"
    return Verdict(holds=False, bound=direct, why=why)


def _fault(proof: Proof) -> str:
    """Return what makes a proof unfit to be checked, "" if nothing."""
    if wrong := task_fault(proof.task):
        return wrong
    if proof.certificate.grade not in GRADES:
        return f"no such grade: {proof.certificate.grade}"
    if proof.certificate.bound > proof.objective:
        return "the bound is above the objective"
    longest = longest_usable(proof.task)
    if any(line.count and fewest_joints(line, longest) is None for line in proof.task.lines):
        return "a line of the task cannot be made from this stock"
    faults = (_vector_fault(proof.task, vector) for vector in proof.certificate.vectors)
    return next((fault for fault in faults if fault), "")


def _vector_fault(task: Task, vector: WorthVector) -> str:
    if vector.scale <= 0:
        return "a worth vector's scale is not positive"
    if len(vector.lengths) != len(vector.worths):
        return "a worth vector's lengths and worths do not run in step"
    if len(set(vector.lengths)) != len(vector.lengths):
        return "a worth vector names a length twice"
    if any(worth < 0 for worth in vector.worths):
        return "a worth is negative"
    if any(length <= 0 for length in vector.lengths):
        return "a worth vector names a length that is not positive"
    for window in vector.windows:
        if not 0 <= window.line < len(task.lines) or window.price < 0:
            return "a window price is negative or on no line"
        line = task.lines[window.line]
        inside = 0 <= window.first <= len(line.stations) - window.width
        if line.count < 2 or not inside or not 1 <= window.width <= widest_window(line):
            return "a window is wider than stagger or least bays allow, or out of range"
    return ""
