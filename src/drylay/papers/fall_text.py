"""In words: how far boards fall along their rows, and which end is the lower one."""

from drylay.papers.wording import size
from drylay.surface.model import Surface
from drylay.units import fall_text

#: The end of rows that stays at the plan's own heights, by the one that is built lower.
HIGH = {"right": "left", "front": "house"}


def fall_told(surface: Surface, units: str) -> str:
    """Return the fall along the rows with its lower end; "" where boards lie level."""
    if surface.fall_mm is None or not surface.fall_least_ratio or surface.low_side not in HIGH:
        return ""
    return (
        f"Boards fall {fall_text(surface.fall_least_ratio)} along their rows: the "
        f"{surface.low_side} end is built {size(surface.fall_mm, units)} lower over a whole row. "
        f"Heights are told for the {HIGH[surface.low_side]} end."
    )


def fall_note(surface: Surface, units: str) -> tuple[str, ...]:
    """Return the fall as a drawing's foot has room for it; nothing where boards lie level."""
    if surface.fall_mm is None or not surface.low_side:
        return ()
    return (
        f"Boards fall along their rows: {surface.low_side} end {size(surface.fall_mm, units)} "
        "lower.",
    )
