"""Where the plies of a bearer are jointed: over posts only, never two plies over one post."""

from collections.abc import Sequence

from drylay.errors import Fault, InputError
from drylay.marks import exact, to_mm
from drylay.raised.limits import length_faults
from drylay.raised.model import PlyJoint

#: Plies beyond this are a slip. Assumption.
MOST_PLIES = 6
#: What has been jointed so far: each ply's last joint in 1/320 mm, and all joints (post, ply).
State = tuple[tuple[int, ...], tuple[tuple[int, int], ...]]


def ply_joints(
    *, length_mm: float, posts_mm: Sequence[float], plies: int, longest_mm: float
) -> tuple[PlyJoint, ...] | None:
    """Return the fewest joints that keep every piece of every ply within a length on sale.

    A joint lies over the middle of a post, not over the first or last (a ply's end piece would
    stand on one post alone), and over each post at most one ply is jointed: a post's breadth
    bears both ends of one ply, and the others run on. None where that cannot be.

    Args:
        length_mm: The bearer's.
        posts_mm: Posts' centres from the bearer's start, in order.
        plies: How many stand side by side.
        longest_mm: The longest timber on sale, as it can be used.

    Raises:
        InputError: A value is no length, or there are no plies or too many.

    Source: joints over posts and staggered, common practice, no source.
    """
    faults = length_faults(length_mm=length_mm, longest_mm=longest_mm)
    if type(plies) is not int or not 1 <= plies <= MOST_PLIES:
        faults.append(Fault(path="plies", found=repr(plies), wanted=f"1 to {MOST_PLIES}"))
    if faults:
        raise InputError(tuple(faults))
    longest, length = exact(longest_mm), exact(length_mm)
    inner = [exact(at) for at in posts_mm][1:-1]
    states: list[State] = [((0,) * plies, ())]
    for number, at in enumerate(inner, 2):
        states = _kept(states, number, at, longest)
    ends = [joints for last, joints in states if all(length - at <= longest for at in last)]
    if not ends:
        return None
    at_mm = {number: to_mm(at) for number, at in enumerate(inner, 2)}
    return tuple(
        PlyJoint(ply=ply + 1, post=post, at_mm=at_mm[post])
        for post, ply in min(ends, key=lambda joints: (len(joints), joints))
    )


def _kept(states: list[State], number: int, at: int, longest: int) -> list[State]:
    """Return what can come of each state at one post: no joint there, or one of one ply.

    Of states that leave the same last joints the one with fewest joints is kept.
    """
    best: dict[tuple[int, ...], State] = {}
    for last, joints in states:
        if any(at - before > longest for before in last):
            continue
        for ply in (None, *range(len(last))):
            now = last if ply is None else (*last[:ply], at, *last[ply + 1 :])
            told = joints if ply is None else (*joints, (number, ply))
            old = best.get(now)
            if old is None or (len(told), told) < (len(old[1]), old[1]):
                best[now] = (now, told)
    return sorted(best.values())
