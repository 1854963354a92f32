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

**Window prices** bring the stagger in. A window is two stretches of stations, one for each of
two neighbours. A stretch is no wider than the `least_bays` of its set (or than 1, where those
are 0), so a line has at most one joint in it: joints of a line are at least so many bays
apart. And each station of the one stretch is less than the stagger away from each station of
the other, so two neighbours have at most one joint in both stretches together.

*Across sets* the neighbours are the last line of one set and the first of another, which the
task tells to lie beside one another; stations are counted in the numbers all sets share, and
the stagger is the greater of both. With U and V for the joints that the two have in their
stretches,

    U + V <= 1.                                                                        (2)

A window price p charges p for each of these joints and gives back p: by (2) never less than
was charged.

*Within a set* the first stretch is for the odd lines (the 1st, 3rd, ...), the second for the
even ones. Let a be how many are odd and b how many are even: a = b or a = b + 1. Of the lines
that joint in their stretch no two are neighbours. Say k of them are even. If k = 0, at most a
odd ones do, and a / a = 1. If k > 0, the odd lines that come just before these k even ones do
not, nor, where a = b + 1, does the one that comes after the last of them: that leaves b - k
odd lines in either case, and (b - k) / a + k / b <= (b - k) / b + k / b = 1. Always, then,

    odd joints / a + even joints / b <= 1,

that is, with g = gcd(a, b),

    (b/g) x odd joints + (a/g) x even joints <= a b / g.                               (3)

A window price p charges p b/g for a joint of an odd line in the first stretch, p a/g for one
of an even line in the second, and gives back p a b / g: by (3) never less than was charged. A
single line has no neighbour (b = 0) and no windows.

Where the stagger is no wider than the least bays, both stretches may be the same. A wider one
is told by several windows, their stretches shifted against one another.

So (1) holds with the charges put into the lines' joints and the refunds taken off the demand.
It does so for any windows together, as (2) and (3) hold each by itself: they may overlap, and a
line may be charged by many. That leaves four kinds of lines in a set, each with charges of its
own: the first, the last, the other odd and the other even lines.

**From (1) to a bound.** *One worth vector*: if `carries[s] <= price[s] x scale` for every
stock without a limit, (1) bounds the cost: `scale x cost >= demand - sum(limit[s] x
max(0, carries[s] - price[s] x scale))`; for a limited stock the excess can be had at most
limit times. The cost is a sum of prices, so it is rounded up to a multiple of their gcd.
*Worth vectors and splits*: no whole board counts z (within the limits) and joint
count J (no fewer than the lines' fewest) cost less than the bound and satisfy (1) for every
vector. The certificate's splits show it; `counting` says how.
"""

from attrs import astuple

from drylay.cutting.counting import splits_leave_none
from drylay.cutting.model import GRADES, Line, Proof, Split, Task, Verdict, WindowPrice, WorthVector
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
    "Weighed",
    "carried",
    "direct_bound",
    "fewest_joints",
    "legal_pieces",
    "lines_worth",
    "longest_usable",
    "price_step",
    "room",
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
    splits = proof.certificate.splits
    if splits_leave_none(proof.task, weighed, claimed - 1, splits):
        why = f"no board counts under {claimed} satisfy the worth vectors: {len(splits)} splits"
        return Verdict(holds=True, bound=claimed, why=why)
    why = f"the splits do not show that no board counts under {claimed} satisfy the worth vectors"
    return Verdict(holds=False, bound=direct, why=why)


def _fault(proof: Proof) -> str:
    """Return what makes a proof unfit to be checked, "" if nothing."""
    if wrong := task_fault(proof.task):
        return wrong
    if proof.certificate.grade not in GRADES:
        return f"no such grade: {proof.certificate.grade}"
    if not type(proof.certificate.bound) is type(proof.objective) is int:
        return "the bound or the objective is not whole"
    if proof.certificate.bound > proof.objective:
        return "the bound is above the objective"
    longest = longest_usable(proof.task)
    if any(line.count and fewest_joints(line, longest) is None for line in proof.task.lines):
        return "a line of the task cannot be made from this stock"
    if not all(map(_is_whole, proof.certificate.splits)):
        return "a number of a split is not whole"
    faults = (_vector_fault(proof.task, vector) for vector in proof.certificate.vectors)
    return next((fault for fault in faults if fault), "")


def _is_whole(split: Split) -> bool:
    numbers = [*split.weights]
    for blend in (split.least, split.most):
        numbers += [blend.times, *blend.vectors, blend.money, *blend.limits, *blend.splits]
    return all(type(number) is int for number in numbers)


def _vector_fault(task: Task, vector: WorthVector) -> str:
    windows = (number for window in vector.windows for number in astuple(window))
    numbers = (vector.scale, *vector.lengths, *vector.worths, *windows)
    if not all(type(number) is int for number in numbers):
        return "a number of a worth vector is not whole"
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
    faults = (_window_fault(task, window) for window in vector.windows)
    return next((fault for fault in faults if fault), "")


def _window_fault(task: Task, window: WindowPrice) -> str:
    """Return why neighbours may have more than one joint in a window, "" if they cannot."""
    sets = range(len(task.lines))
    if window.line not in sets or window.beside not in sets or window.price < 0:
        return "a window price is negative or on no line"
    one, other = task.lines[window.line], task.lines[window.beside]
    within = window.line == window.beside
    if within and one.count < 2:
        return "a window is within a set of one line"
    if not within and not _lie_beside(task, window):
        return "a window is across sets that do not lie beside one another"
    stagger = one.stagger if within else max(one.stagger, other.stagger)
    if not _is_stretch(one, window.first, window.width):
        return "a window is wider than least bays allow, or out of range"
    if not _is_stretch(other, window.beside_first, window.beside_width):
        return "a window is wider than least bays allow, or out of range"
    first, beside_first = (
        one.first_station + window.first,
        other.first_station + window.beside_first,
    )
    reach = max(
        first + window.width - 1 - beside_first, beside_first + window.beside_width - 1 - first
    )
    return "" if reach < stagger else "a window is wider than the stagger allows"


def _lie_beside(task: Task, window: WindowPrice) -> bool:
    pairs = {(pair.one, pair.other) for pair in task.beside}
    counts = (task.lines[window.line].count, task.lines[window.beside].count)
    return (window.line, window.beside) in pairs and min(counts) > 0


def _is_stretch(line: Line, first: int, width: int) -> bool:
    return 1 <= width <= max(1, line.least_bays) and 0 <= first <= len(line.stations) - width
