"""All closed checks of decks on an outline, in the order of the job."""

from drylay.audit import (
    outlined_bearing,
    outlined_border,
    outlined_facing,
    outlined_fixings,
    outlined_frame,
    outlined_jointed,
    outlined_joints,
    outlined_openings,
    outlined_pieces,
    outlined_rows,
    outlined_sawn,
    outlined_seams,
    outlined_sides,
    outlined_tasks,
    outlined_trimmed,
    outlined_zones,
    own_line,
)
from drylay.audit.model import ClosedCheck

CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    *outlined_sides.CHECKS,
    *outlined_openings.CHECKS,
    *own_line.CHECKS,
    *outlined_zones.CHECKS,
    *outlined_rows.CHECKS,
    *outlined_pieces.CHECKS,
    *outlined_sawn.CHECKS,
    *outlined_joints.CHECKS,
    *outlined_border.CHECKS,
    *outlined_frame.CHECKS,
    *outlined_bearing.CHECKS,
    *outlined_trimmed.CHECKS,
    *outlined_seams.CHECKS,
    *outlined_jointed.CHECKS,
    *outlined_facing.CHECKS,
    *outlined_fixings.CHECKS,
    *outlined_tasks.CHECKS,
)
