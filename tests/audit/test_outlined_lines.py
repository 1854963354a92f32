"""Whether a joist line that nothing stands on would have room for a joist."""

from itertools import pairwise

from drylay.audit.exact import ticks
from drylay.audit.outlined_lines import has_room
from outlined_gardens import plain


def test_a_line_in_the_middle_of_a_bay_has_room() -> None:
    lines = [ticks(line) for line in plain().subframe.lines_mm]
    open_bays = [(a + b) // 2 for a, b in pairwise(lines) if b - a > ticks(250)]
    assert open_bays
    assert all(has_room(plain(), line) for line in open_bays)


def test_a_line_that_a_joist_fills_from_rim_to_rim_has_none() -> None:
    """Of the joists of the garden, the longest stands between two rims."""
    joists = [member for member in plain().subframe.members if member.kind == "joist"]
    longest = max(joists, key=lambda member: member.length_mm)
    assert not has_room(plain(), ticks(longest.start.along_mm))
