"""Joist lines: near enough to each other, exactly as many as needed, where the frame is."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.edges import edges_of
from drylay.audit.exact import PER_MM, ceil_div, mark_of, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    of_boards,
    off_by,
    same_count,
    same_half,
    same_length,
)
from drylay.audit.model import ClosedCheck, Flaw
from drylay.plan.model import Plan
from drylay.supports.model import Supports

LINES = conventions("Joist lines (supports)")


def supports_of(plan: Plan) -> Supports:
    """Return the plan's supports, if it has them."""
    return need(plan.supports, "supports")


def offsets(plan: Plan) -> tuple[int, ...]:
    """Return the centres of all joist lines in 1/320 mm."""
    return tuple(ticks(line.offset_mm) for line in supports_of(plan).lines)


def bays(plan: Plan) -> tuple[int, ...]:
    """Return the bays between neighbouring lines, centre to centre, in 1/320 mm."""
    at = offsets(plan)
    return tuple(after - before for before, after in pairwise(at))


def bays_within_the_limit(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bay wider than the strict limit, or not wider than nothing."""
    limit = ticks(supports_of(plan).most_centres_mm)
    for index, bay in enumerate(bays(plan), 1):
        subject = f"J{index}-J{index + 1}"
        if bay > limit:
            yield off_by(subject, "the joists are too far apart", bay, limit, LINES)
        if bay <= 0:
            yield off_by(subject, "the joists are out of order", bay, 1, LINES)


def counts_turned_down(plan: Plan) -> list[object]:
    """Return the numbers of joist lines that the plan says were weighed and turned down."""
    return [
        other.value
        for decision in plan.reasons.decisions
        if decision.path == "supports.line_count"
        for other in decision.turned_down
    ]


def as_many_lines_as_needed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless there are as many lines as the formula asks for.

    More are fair only where closer joists made the whole deck cheaper: then the decision
    lists the formula's count among what was turned down.
    """
    of_boards(plan)
    supports, edges = supports_of(plan), edges_of(plan)
    limit = need(ticks(supports.most_centres_mm) or None, "limit of centres")
    clear = ticks(edges.frame_length_mm) - ticks(supports.joist_thickness_mm)
    needed = ceil_div(clear, limit) + 1
    subject = "supports.line_count"
    if supports.line_count <= needed or needed not in counts_turned_down(plan):
        yield from same_count(subject, "lines the frame needs", supports.line_count, needed, LINES)
    message = "not the number of lines listed"
    yield from same_count(subject, message, supports.line_count, len(supports.lines), LINES)


def outer_lines_at_the_faces(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the outer centres lie half a joist from the frame's faces."""
    supports, edges = supports_of(plan), edges_of(plan)
    need(supports.lines or None, "joist lines")
    thickness = ticks(supports.joist_thickness_mm)
    start = ticks(edges.frame_start_mm)
    end = start + ticks(edges.frame_length_mm)
    message = "not half a joist from the frame's face"
    first, last = supports.lines[0].offset_mm, supports.lines[-1].offset_mm
    yield from same_half("J1", message, first, 2 * start + thickness, LINES)
    yield from same_half(f"J{len(supports.lines)}", message, last, 2 * end - thickness, LINES)


def widest_bay_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless `centres_mm` is the widest bay."""
    widest = max(bays(plan), default=0)
    told = supports_of(plan).centres_mm
    yield from same_length("supports.centres_mm", "not the widest bay", told, widest, LINES)


def lines_mirror(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each pair of lines not at equal distances from the frame's ends."""
    of_boards(plan)
    at = offsets(plan)
    for index in range((len(at) + 1) // 2):
        off = at[index] + at[-1 - index] - at[0] - at[-1]
        if abs(off) > 1:
            subject = f"J{index + 1}, J{len(at) - index}"
            yield off_by(subject, "the lines do not mirror about the middle", off, 0, LINES)


def lines_are_even(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each line further than the pencil from even spacing."""
    of_boards(plan)
    at = offsets(plan)
    reach = max(PER_MM, mark_of(plan))
    for index, line in enumerate(at):
        even = at[0] + (at[-1] - at[0]) * index / max(len(at) - 1, 1)
        if abs(line - even) > reach:
            yield off_by(f"J{index + 1}", "the lines are not evenly spaced", line, even, LINES)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-301", "no two joists are further apart than the strict limit", bays_within_the_limit),
    ("AUD-302", "there are exactly as many joist lines as needed", as_many_lines_as_needed),
    ("AUD-303", "outer joists lie flush with the frame's faces", outer_lines_at_the_faces),
    ("AUD-304", "the centres told are the widest bay", widest_bay_is_told),
    ("AUD-305", "joist lines mirror about the middle", lines_mirror),
    ("AUD-306", "joist lines are evenly spaced, to a pencil mark", lines_are_even),
)
