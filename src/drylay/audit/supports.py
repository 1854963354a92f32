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


def paired(plan: Plan) -> bool:
    """Return whether joints lie over pairs of joists."""
    return (supports_of(plan).joists_under_joint or 1) > 1


def sections(plan: Plan) -> list[tuple[int, int, list[int]]]:
    """Return each section between frame faces and seams: both ends, the numbers of its lines."""
    edges, at = edges_of(plan), offsets(plan)
    start = ticks(edges.frame_start_mm)
    seams = [ticks(seam.offset_mm) for seam in supports_of(plan).seams] if paired(plan) else []
    faces = [start, *seams, start + ticks(edges.frame_length_mm)]
    return [
        (near, far, [index for index, line in enumerate(at) if near < line <= far])
        for near, far in pairwise(faces)
    ]


def bays_within_the_limit(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bay wider than the strict limit, or narrower than a joist."""
    supports = supports_of(plan)
    limit, thickness = ticks(supports.most_centres_mm), ticks(supports.joist_thickness_mm)
    for index, bay in enumerate(bays(plan), 1):
        subject = f"J{index}-J{index + 1}"
        if bay > limit:
            yield off_by(subject, "the joists are too far apart", bay, limit, LINES)
        if bay < max(thickness, 1):
            message = "the joists are out of order, or overlap"
            yield off_by(subject, message, bay, thickness, LINES)


def counts_turned_down(plan: Plan) -> list[object]:
    """Return the numbers of joist lines that the plan says were weighed and turned down."""
    return [
        other.value
        for decision in plan.reasons.decisions
        if decision.path == "supports.line_count"
        for other in decision.turned_down
    ]


def as_many_lines_as_needed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless there are as many lines as the formula asks for in all sections.

    More are fair only where closer joists made the whole deck cheaper: then the decision
    lists the formula's count among what was turned down.
    """
    of_boards(plan)
    supports = supports_of(plan)
    limit = need(ticks(supports.most_centres_mm) or None, "limit of centres")
    thickness = ticks(supports.joist_thickness_mm)
    clear = [far - near - thickness for near, far, _ in sections(plan)]
    needed = sum(ceil_div(each, limit) + 1 for each in clear)
    subject = "supports.line_count"
    if supports.line_count <= needed or needed not in counts_turned_down(plan):
        yield from same_count(subject, "lines the frame needs", supports.line_count, needed, LINES)
    message = "not the number of lines listed"
    yield from same_count(subject, message, supports.line_count, len(supports.lines), LINES)


def outer_lines_at_the_faces(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless outer centres lie half a joist from frame faces and seams."""
    supports = supports_of(plan)
    need(supports.lines or None, "joist lines")
    thickness = ticks(supports.joist_thickness_mm)
    message = "not half a joist from the frame's face or the seam"
    for near, far, lines in sections(plan):
        if not lines:
            yield off_by("supports.lines", "no joist between two seams", far - near, 0, LINES)
            continue
        for line, wanted in ((lines[0], 2 * near + thickness), (lines[-1], 2 * far - thickness)):
            found = supports.lines[line].offset_mm
            yield from same_half(f"J{line + 1}", message, found, wanted, LINES)


def widest_bay_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless `centres_mm` is the widest bay."""
    widest = max(bays(plan), default=0)
    told = supports_of(plan).centres_mm
    yield from same_length("supports.centres_mm", "not the widest bay", told, widest, LINES)


def lines_mirror(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each pair of lines not at equal distances from their section's ends."""
    of_boards(plan)
    at = offsets(plan)
    for _near, _far, lines in sections(plan):
        for index in range((len(lines) + 1) // 2):
            one, other = lines[index], lines[-1 - index]
            off = at[one] + at[other] - at[lines[0]] - at[lines[-1]]
            if abs(off) > 1:
                subject = f"J{one + 1}, J{other + 1}"
                yield off_by(subject, "the lines do not mirror about the middle", off, 0, LINES)


def lines_are_even(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each line further than the pencil from even spacing in its section."""
    of_boards(plan)
    at = offsets(plan)
    reach = max(PER_MM, mark_of(plan))
    for _near, _far, lines in sections(plan):
        span = at[lines[-1]] - at[lines[0]] if lines else 0
        for step, line in enumerate(lines):
            even = at[lines[0]] + span * step / max(len(lines) - 1, 1)
            if abs(at[line] - even) > reach:
                subject = f"J{line + 1}"
                yield off_by(subject, "the lines are not evenly spaced", at[line], even, LINES)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-301", "no two joists are further apart than the strict limit", bays_within_the_limit),
    ("AUD-302", "there are exactly as many joist lines as needed", as_many_lines_as_needed),
    (
        "AUD-303",
        "outer joists lie flush with frame faces and seams",
        outer_lines_at_the_faces,
    ),
    ("AUD-304", "the centres told are the widest bay", widest_bay_is_told),
    ("AUD-305", "joist lines mirror about the middle", lines_mirror),
    ("AUD-306", "joist lines are evenly spaced, to a pencil mark", lines_are_even),
)
