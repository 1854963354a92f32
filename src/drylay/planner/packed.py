"""The strength of a frame on packers: its joists span from one packer to the next."""

from drylay.findings import Finding, Severity
from drylay.planner.buy import Shape
from drylay.planner.ground import packer_spacing_mm
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import Asks, Screen, one_ply, screen_of, strength_of, untold
from drylay.planner.standing import boards_asked
from drylay.strength.model import BeamAsked, Strength


def packed_strength(job: Job, shaped: Shape) -> Strength | None:
    """Return joists over packers as the basis screens them, and the boards; None without a basis.

    Without packers the frame lies on the ground along its whole length, and its joists span
    nothing: the boards alone are asked of.
    """
    screen = screen_of(job)
    if screen is None or screen.loads.stops:
        return None
    span_mm = min(packer_spacing_mm(job), shaped.edges.frame_depth_mm)
    supports, boards = shaped.supports, boards_asked(job, shaped)
    joists = joists_on_packers(job, screen, span_mm, supports.centres_mm, supports.line_count)
    return strength_of(screen, Asks(beams=joists, boards=boards)) if joists or boards else None


def unscreened(job: Job) -> tuple[Finding, ...]:
    """Return what of a frame that stands on nothing is not screened though its brief asks for it.

    Joists on packers of a timber that nobody graded stop the plan; a frame that is to lie on the
    ground along its whole length spans nothing, and that is told.
    """
    screen = screen_of(job)
    if screen is None or screen.loads.stops:
        return ()
    if job.articles.packer is not None:
        return untold((job.articles.timber,))
    return (Finding(
        code="STR-013", severity=Severity.NOTE, subject="frame", source=PRACTICE,
        message="its timber is not screened: without packers or posts it is to lie on the ground "
        "along its whole length, and spans nothing",
    ),)  # fmt: skip


def joists_on_packers(
    job: Job, screen: Screen, span_mm: float, centres_mm: float, count: int
) -> tuple[BeamAsked, ...]:
    """Return joists from one packer to the next; none without packers, or of ungraded timber."""
    timber = job.articles.timber
    if job.articles.packer is None or not timber.strength_class:
        return ()
    return (
        BeamAsked(
            kind="joist", subject="joists", wood=timber.strength_class, section=one_ply(timber),
            length_mm=span_mm, supports_mm=(0.0, span_mm), carried_mm=centres_mm,
            bearing_mm=timber.thickness_mm, alike=min(screen.alike_most, count),
            sharing=screen.sharing, held_each_mm=screen.joists_held_mm,
            more_dead_kn_m2=screen.heavier_kn_m2,
        ),
    )  # fmt: skip
