"""What members of a frame under an outline are called: what panels lie on is a ledge."""

from itertools import pairwise

from drylay.outline.model import Outline, Spot
from drylay.papers.wording import marks_told
from drylay.subframe.model import Member, Subframe


def kind_told(member: Member, outline: Outline | None) -> str:
    """Return what a member is called: a ledge where it stands inside a hatch's hole."""
    return "ledge" if is_ledge(member, outline) else member.kind


def is_ledge(member: Member, outline: Outline | None) -> bool:
    """Return whether a member stands inside the hole of a hatch."""
    hatches = [] if outline is None else [each for each in outline.openings if each.kind == "hatch"]
    return member.kind == "trimmer" and any(_is_in(member, each.corners) for each in hatches)


def _is_in(member: Member, corners: tuple[Spot, ...]) -> bool:
    """Whether the middle of a member lies in a hole: a line to one side crosses its edge oddly."""
    along = (member.start.along_mm + member.end.along_mm) / 2
    across = (member.start.across_mm + member.end.across_mm) / 2
    inside = False
    for one, other in pairwise([*corners, corners[0]]):
        if (one.across_mm > across) != (other.across_mm > across):
            share = (across - one.across_mm) / (other.across_mm - one.across_mm)
            inside ^= along < one.along_mm + share * (other.along_mm - one.along_mm)
    return inside


def ledge_notes(frame: Subframe, outline: Outline | None) -> list[str]:
    """Return the note of the frame's drawing on ledges; nothing without any."""
    marks = [member.mark for member in frame.members if is_ledge(member, outline)]
    if not marks:
        return []
    return [f"Ledges inside holes, which panels lie on: {marks_told(marks)}."]
