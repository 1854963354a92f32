"""All closed checks of tiles on an outline, in the order of the job."""

from drylay.audit import (
    outlined_tile_narrow,
    outlined_tile_pads,
    outlined_tile_sawn,
    outlined_tiles,
)
from drylay.audit.model import ClosedCheck

CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    *outlined_tiles.CHECKS,
    *outlined_tile_narrow.CHECKS,
    *outlined_tile_sawn.CHECKS,
    *outlined_tile_pads.CHECKS,
)
