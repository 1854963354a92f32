"""The frame as the plan's noun, with the limits it was given."""

from drylay.subframe.finish import seams_of
from drylay.subframe.model import Facing, Member, PanelBatten, Subframe
from drylay.subframe.panels import PLAY_MM
from drylay.subframe.wants import Placed


def to_subframe(
    placed: Placed,
    members: tuple[Member, ...],
    facings: tuple[Facing, ...] = (),
    battens: tuple[PanelBatten, ...] = (),
    *,
    timber_article: str,
    timber_depth_mm: float,
    square_centres_mm: float,
    board_to_joist_deg: float,
    joists_under_joint: int,
    facing_article: str = "",
    facing_thickness_mm: float = 0.0,
    facing_depth_mm: float = 0.0,
    facing_run_mm: float = 0.0,
) -> Subframe:
    """Return the frame as the plan holds it, with the limits handed in as they are."""
    wants = placed.wants
    return Subframe(
        timber_article=timber_article,
        timber_thickness_mm=wants.timber_thickness_mm,
        timber_depth_mm=timber_depth_mm,
        joist_run=wants.joist_run,
        square_centres_mm=square_centres_mm,
        board_to_joist_deg=board_to_joist_deg,
        most_centres_mm=wants.most_centres_mm,
        centres_mm=placed.centres_mm,
        line_count=len(placed.lines_mm),
        lines_mm=placed.lines_mm,
        end_support_most_mm=wants.end_support_most_mm,
        noggin_spacing_most_mm=wants.noggin_spacing_most_mm,
        joists_under_joint=joists_under_joint,
        seam_count=len(seams_of(placed, members)),
        member_count=len(members),
        members=members,
        seams=seams_of(placed, members),
        facing_article=facing_article,
        facing_thickness_mm=facing_thickness_mm,
        facing_depth_mm=facing_depth_mm,
        facing_run_mm=facing_run_mm,
        facings=facings,
        battens=battens,
        batten_count=len(battens) or None,
        batten_play_mm=PLAY_MM if battens else None,
    )
