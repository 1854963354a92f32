"""The frame under an outline as the plan holds it, with the limits it keeps."""

from drylay.planner.angles import board_to_joist_deg
from drylay.planner.job import Job
from drylay.planner.outlined_facings import Faced
from drylay.planner.outlined_frame import FrameLaid
from drylay.planner.outlined_rules import SQUARE
from drylay.subframe.model import Subframe
from drylay.subframe.told import to_subframe


def subframe_of(job: Job, frame: FrameLaid, faced: Faced) -> Subframe:
    """Return the frame as the plan holds it."""
    fascia = job.articles.fascia if faced.facings else None
    return to_subframe(
        frame.placed,
        frame.members,
        faced.facings,
        frame.battens,
        timber_article=job.articles.timber.code,
        timber_depth_mm=job.articles.timber.depth_mm,
        square_centres_mm=job.rules.value(SQUARE),
        board_to_joist_deg=board_to_joist_deg(job.brief),
        joists_under_joint=job.rules.count("supports.joists_under_joint"),
        facing_article=fascia.code if fascia else "",
        facing_thickness_mm=fascia.thickness_mm if fascia else 0.0,
        facing_depth_mm=fascia.depth_mm if fascia else 0.0,
        facing_run_mm=faced.run_mm,
    )
