"""Row fit against brute force: every count, gap, rip and change of size tried one by one.

The brute force knows only what a row fit is (rows and gaps fill a depth) and counts in whole
units; it shares no formula with the library. 20,000 cases, fixed seed.
"""

import random
from fractions import Fraction

from drylay.marks import exact
from drylay.surface.limits import RowLimits
from drylay.surface.model import WayOut
from drylay.surface.rows import fit

SEED, CASES = 20261125, 20_000


def fits(free: int, gaps: int, limits: RowLimits) -> bool:
    """Whether `free` can be shared out among so many gaps, each within its range."""
    if gaps == 0:
        return free == 0
    return gaps * limits.least_320 <= free <= gaps * limits.most_320


def count_by_laying(limits: RowLimits) -> int:
    """Lay rows one by one at the preferred gap until the next would not fit."""
    rows, edge = 0, 0
    while edge + limits.board_320 <= limits.depth_320:
        rows += 1
        edge += limits.board_320 + limits.preferred_320
    return rows


def honest(ways: tuple[WayOut, ...], kind: str) -> list[WayOut]:
    return [way for way in ways if way.kind == kind and way.honest]


def brute_gaps(limits: RowLimits) -> set[int]:
    top = limits.depth_320 // limits.board_320 + 2
    return {
        n for n in range(2, top)
        if fits(limits.depth_320 - n * limits.board_320, n - 1, limits)
    }  # fmt: skip


def brute_changes(limits: RowLimits, rows: int, changes: range) -> set[int]:
    return {
        change
        for change in changes
        if rows
        and (rows > 1 or limits.depth_320 + change == limits.board_320)
        and fits(limits.depth_320 + change - rows * limits.board_320, rows - 1, limits)
    }


def brute_rips(limits: RowLimits, edges: int) -> dict[tuple[int, int], Fraction]:
    """All legal (rows, rip on a mark), with how far the mean gap is from the preferred one."""
    found = {}
    least = max(limits.sliver_320, limits.least_rip_320)
    for rows in range(limits.depth_320 // limits.board_320 + 2):
        gaps = rows + edges - 1
        for rip in range(least, limits.board_320 - max(limits.least_off_320, limits.mark_320) + 1):
            free = limits.depth_320 - rows * limits.board_320 - edges * rip
            if rip % limits.mark_320 or gaps < 1 or not fits(free, gaps, limits):
                continue
            found[rows, rip] = abs(Fraction(free, gaps) - limits.preferred_320)
    return found


def some_limits(dice: random.Random) -> RowLimits:
    board = dice.randint(4, 30)
    least = dice.randint(0, 4)
    most = least + dice.randint(0, 5)
    sliver = dice.randint(0, board)
    return RowLimits(
        depth_320=dice.randint(2, 320),
        board_320=board,
        least_320=least,
        preferred_320=dice.randint(least, most),
        most_320=most,
        grow_320=dice.choice((0, dice.randint(0, 40))),
        shrink_320=dice.choice((0, dice.randint(0, 40))),
        sliver_320=sliver,
        least_rip_320=max(1, dice.choice((sliver, dice.randint(1, board)))),
        least_off_320=dice.randint(0, 3),
        mark_320=dice.choice((1, 1, 2, 3)),
    )


def check_rips(limits: RowLimits, ways: tuple[WayOut, ...], kind: str, edges: int) -> None:
    brute = brute_rips(limits, edges)
    found = honest(ways, kind)
    alone = kind == "rip_last" and not limits.whole_rows
    if limits.depth_320 == limits.board_320 or alone or not _left_over(limits):
        return
    assert bool(found) == bool(brute), limits
    if found:
        key = found[0].rows - edges, exact(found[0].last_row_mm)
        assert brute[key] == min(brute.values()), limits


def _left_over(limits: RowLimits) -> bool:
    rows = count_by_laying(limits)
    taken = rows * limits.board_320 + max(0, rows - 1) * limits.preferred_320
    return rows == 0 or taken != limits.depth_320


def check_changes(limits: RowLimits, ways: tuple[WayOut, ...], rows: int) -> None:
    gaps = brute_gaps(limits)
    shrinks = brute_changes(limits, rows, range(-limits.shrink_320, 0))
    grows = brute_changes(limits, rows + 1, range(1, limits.grow_320 + 1))
    for kind, brute, count in (("shrink", shrinks, rows), ("grow", grows, rows + 1)):
        changes = {exact(way.cover_change_mm) for way in honest(ways, kind)}
        assert changes <= brute, limits
        if count not in gaps and _left_over(limits) and brute:
            assert min(map(abs, changes)) == min(map(abs, brute)), limits


def test_row_fit_agrees_with_brute_force_on_20000_cases() -> None:
    dice = random.Random(SEED)
    for _ in range(CASES):
        limits = some_limits(dice)
        found = fit(limits)
        rows = count_by_laying(limits)
        assert found.whole_rows == rows, limits
        exact_fit = honest(found.ways_out, "as_wished")
        assert bool(exact_fit) == (not _left_over(limits)), limits
        if _left_over(limits):
            counts = {way.rows for way in honest(found.ways_out, "gaps")}
            assert counts == brute_gaps(limits), limits
        check_changes(limits, found.ways_out, rows)
        check_rips(limits, found.ways_out, "rip_last", 1)
        check_rips(limits, found.ways_out, "rip_both", 2)
