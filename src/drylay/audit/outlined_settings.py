"""Saw settings of boards that lie in no row: a border's, and breaker boards."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import SLACK, cover, laying_of, run_at, shape
from drylay.audit.outlined_border import courses, inset, lies_in
from drylay.audit.outlined_sawn import Lying, set_as_it_lies
from drylay.audit.plane import UNIT, Run, box, run_of, sides_of, size
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan


def set_beside_rows(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the saw is set to the ends of borders and breaker boards as they lie.

    Of a breaker board that is cut off along its length the edges are not known: it is left out.
    """
    for run, piece in (*_borders(plan), *_breakers(plan)):
        _, low, _, high = box(run.all_told(shape(piece.corners)))
        width = ticks(laying_of(plan).board_width_mm) * UNIT
        if size(high - low - width) <= SLACK * UNIT:
            yield from set_as_it_lies(Lying(run=run, low=low, high=high), piece)


def _borders(plan: Plan) -> Iterator[tuple[Run, LaidPiece]]:
    """Yield the boards of a border, each with the way its side runs round the outline."""
    corners = cover(plan)
    pieces = [piece for piece in laying_of(plan).pieces if piece.kind == "border"]
    runs = [run for start, end in sides_of(corners) if (run := run_of(start, end)) is not None]
    for outer_way, inner_way in courses(plan) if len(runs) == len(corners) else ():
        outer, inner = inset(corners, outer_way), inset(corners, inner_way)
        for index, run in enumerate(runs):
            after = (index + 1) % len(corners)
            wanted = (outer[index], outer[after], inner[after], inner[index])
            yield from ((run, each) for each in pieces if lies_in(shape(each.corners), wanted))


def _breakers(plan: Plan) -> Iterator[tuple[Run, LaidPiece]]:
    """Yield breaker boards, each with the way to the left of the boards that it parts."""
    laying = laying_of(plan)
    ways = {run_at(zone.angle_deg + 90.0) for zone in laying.zones}
    for piece in laying.pieces:
        if piece.kind == "breaker":
            yield from ((run, piece) for run in ways if _runs(plan, run, piece))


def _runs(plan: Plan, run: Run, piece: LaidPiece) -> bool:
    """Whether a board lies along a run: no wider across it than boards are."""
    _, low, _, high = box(run.all_told(shape(piece.corners)))
    return high - low <= (ticks(laying_of(plan).board_width_mm) + SLACK) * UNIT


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-998", "the saw is set to the ends of borders and breaker boards", set_beside_rows),
)
