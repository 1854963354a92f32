"""Lines laid out in every lawful way, to hold against what a proof says of all of them."""

from collections.abc import Mapping
from itertools import combinations, pairwise

from drylay.cutting.model import Line, Task

Way = tuple[int, ...]


def ways_of(line: Line, longest: int) -> list[Way]:
    """Return every set of stations that one line may be jointed at."""
    last = len(line.stations) - 1
    most = last if line.most_joints is None else line.most_joints
    ways = []
    for joints in (c for n in range(most + 1) for c in combinations(range(last + 1), n)):
        ends = (0, *joints, last) if joints else ()
        bays = [b - a for a, b in pairwise(ends)]
        fine = all(bay >= line.least_bays for bay in bays)
        if fine and all(0 < length <= longest for length in cut(line, joints)):
            ways.append(joints)
    return ways


def cut(line: Line, joints: Way) -> list[int]:
    """Return the pieces of one line jointed at these stations."""
    half = line.joint_gap // 2
    at = [line.start - half, *(line.stations[j] for j in joints), line.end + half]
    return [b - a - 2 * half for a, b in pairwise(at)]


def apart(stagger: int, one: Way, other: Way) -> bool:
    """Return whether joints of two neighbours keep so many bays apart."""
    return all(abs(a - b) >= stagger for a in one for b in other)


def least_laid(task: Task, worth: Mapping[int, int], joint: int, longest: int) -> int | None:
    """Return the least worth of all lines, pieces and joints, of every lawful layout.

    Lines are laid one after the other, each way after each way of the line before it. Sets
    lie beside one another in their order at most. None where nothing can be laid.
    """
    least: dict[Way, int] = {(): 0}
    stagger = 0
    for number, line in enumerate(task.lines):
        told = any((p.one, p.other) == (number - 1, number) for p in task.beside)
        stagger = max(stagger, line.stagger) if told else 0
        for _line in range(line.count):
            after: dict[Way, int] = {}
            for way in ways_of(line, longest):
                at = tuple(line.first_station + j for j in way)
                own = sum(worth.get(n, 0) for n in cut(line, way)) + joint * len(way)
                before = [held for other, held in least.items() if apart(stagger, at, other)]
                if before:
                    after[at] = min(after.get(at, own + min(before)), own + min(before))
            least, stagger = after, line.stagger
        stagger = line.stagger
    return min(least.values(), default=None)
