"""A network solved from every start that may be right, and the shape that fits best taken."""

from math import dist

from attrs import frozen

from drylay.survey.network import Net, Solved, is_rigid, solve, without
from drylay.survey.start import ALIKE_MM, longest_beyond, starts_of

#: Sums of squares within so much of each other do not tell two shapes, or two suspects, apart:
#: chi-square of one, 99 in 100.
LIKELY = 6.63


@frozen(kw_only=True, eq=False)
class Settled:
    """The shape that tapes fit best; `others` tells whether they fit another as well."""

    solved: Solved
    others: bool


def settled(net: Net) -> Settled | None:
    """Return the shape of a network; None where its tapes do not lay it out, or make it flat."""
    solved = [one for start in starts_of(net) if (one := solve(net, start)) is not None]
    if not solved:
        return None
    least = min(one.chi for one in solved)
    best, *rest = [one for one in solved if one.chi <= least + LIKELY]
    return Settled(solved=best, others=any(_differ(best, other) for other in rest))


def settled_without(net: Net, at: int) -> Solved | None:
    """Return a network solved without one of its tapes; None where that leaves it loose."""
    rest = without(net, at)
    if not is_rigid(rest.count, rest.lines) or longest_beyond(rest) is not None:
        return None
    found = settled(rest)
    return found.solved if found else None


def _differ(one: Solved, other: Solved) -> bool:
    return any(dist(a, b) > ALIKE_MM for a, b in zip(one.places, other.places, strict=True))
