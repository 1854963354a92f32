"""Along and across in words: from the house, or from the deck's own line where that is askew."""

from drylay.outline.model import Outline
from drylay.papers.outlined_view import angle

ALONG, ACROSS = "along the house", "away from the house"
OWN_ALONG, OWN_ACROSS = "along the deck's own line", "across the deck's own line"


def is_askew(outline: Outline | None) -> bool:
    """Return whether a deck stands askew to what its brief is measured from."""
    return outline is not None and outline.turned_deg != 0


def along_told(outline: Outline | None) -> str:
    """Return which way along is."""
    return OWN_ALONG if is_askew(outline) else ALONG


def across_told(outline: Outline | None) -> str:
    """Return which way across is."""
    return OWN_ACROSS if is_askew(outline) else ACROSS


def places_told(outline: Outline | None) -> str:
    """Return what places are measured along."""
    return f"{along_told(outline)} and {'across' if is_askew(outline) else 'away from'} it"


def from_told(outline: Outline | None) -> str:
    """Return what angles are measured from."""
    return "the deck's own line" if is_askew(outline) else "the house"


def ways_told(outline: Outline | None) -> tuple[str, ...]:
    """Return what along and across mean on a setting-out."""
    if outline is None or not is_askew(outline):
        return ("Along: along the house, left to right. Across: away from the house.",)
    way = "towards" if outline.turned_deg > 0 else "away from"
    return (
        f"Along: along the deck's own line, which is turned {angle(abs(outline.turned_deg))} from "
        f"the brief's along, {way} its across. Across: square to it.",
        "As measured: along and across as the brief's corners were, from the same datum corner. "
        "Set P1 and P2 by these.",
    )  # fmt: skip
