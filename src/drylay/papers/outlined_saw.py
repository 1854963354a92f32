"""What the saw does to pieces on an outline: settings off square, and corners to mark out."""

from attrs import frozen

from drylay.laying.model import LaidPiece, Laying
from drylay.papers.outlined_ends import (
    Ends,
    edges_of,
    ends_of,
    in_axes,
    is_off_square,
    lie_of,
    sawn_ends,
)
from drylay.papers.wording import marks_told
from drylay.plan.model import Plan

SETTINGS = (
    "Lengths are from tip to tip. Settings are how far the saw is turned off a square cut; the "
    "edge named is the longer one at that end. House, garden, left and right edges and ends are "
    "those of the piece as it lies. Where that is more than your saw turns, mark the slant and saw "
    "along the line."
)
TIPS_FIRST = (
    "Cross-cut each piece square first, as long as it is from tip to tip; then saw its slanted "
    "ends out of that. What is bought is reckoned so: a slanted cut takes more along the length "
    "than a square one, so never saw two pieces apart along a slant."
)
ON_EDGE = (
    "Frame timber and fascia stand on edge: their degrees slant across the thickness, as seen from "
    "above. With the timber laid flat saw straight across its wide face, the blade tilted so far; "
    "with it on edge turn the saw instead."
)
DRAWN_SQUARE = (
    "Every cut is drawn square, and sawn so first: lengths are from tip to tip. Slanted ends come "
    "after; the cut list tells how the saw is set."
)
MARK_OUT = "mark out from its corners"
CORNERS = (
    "Mark each piece out on a length as bought: along it from the end named, and in from the edge "
    "named."
)


@frozen(kw_only=True)
class Corner:
    """A corner of a shaped piece: along it from its start, and in from an edge of its board."""

    along_mm: float
    in_mm: float


@frozen(kw_only=True)
class Shaped:
    """A piece to mark out: its corners in order, from which end and which edge they count."""

    mark: str
    end: str
    edge: str
    corners: tuple[Corner, ...]


def settings_told(plan: Plan) -> list[tuple[str, str, tuple[str, ...]]]:
    """Return both ends of pieces off square, and the marks of those that are alike."""
    alike: dict[tuple[str, str], list[str]] = {}
    for mark, ends in sawn_ends(plan).items():
        if is_off_square(ends):
            one, other = ends
            alike.setdefault((str(one), str(other)), []).append(mark)
    return [(one, other, tuple(marks)) for (one, other), marks in alike.items()]


def how_sawn(plan: Plan) -> tuple[str, ...]:
    """Return how ends off square are sawn, a text each; nothing where all ends are square."""
    if not saw_notes(plan):
        return ()
    frame, sawn = plan.subframe, sawn_ends(plan)
    upright = [part.mark for part in frame.members] if frame else []
    upright += [part.mark for part in frame.facings] if frame else []
    slanted = any(is_off_square(sawn[mark]) for mark in upright)
    return (TIPS_FIRST, SETTINGS, *((ON_EDGE,) if slanted else ()))


def saw_notes(plan: Plan) -> list[str]:
    """Return the settings of the saw as lines of text; nothing where all ends are square."""
    found = [f"{marks_told(marks)}: {one}; {other}" for one, other, marks in settings_told(plan)]
    shaped = [piece.mark for piece in shaped_pieces(plan)]
    if shaped:
        found.append(f"{marks_told(shaped)}: {MARK_OUT}, in the job sheet")
    return found


def setting_of(ends: Ends | None) -> str:
    """Return what is written behind a cut: its ends off square; "" where both are square."""
    if ends is None:
        return ""
    return "; ".join(str(end) for end in ends if end.value_deg)


def shaped_pieces(plan: Plan) -> tuple[LaidPiece, ...]:
    """Return the pieces that two straight cuts do not make."""
    return tuple(piece for piece in plan.laying.pieces if piece.shaped) if plan.laying else ()


def corners_of(laying: Laying, piece: LaidPiece) -> Shaped:
    """Return a shaped piece's corners along its board and in from the edge it is measured from.

    They are the plan's own corners in the axes of the board, from its tip; nothing is rounded.
    """
    lie = lie_of(laying, piece)
    flat = in_axes(piece.corners, lie.turn_deg)
    start = min(along for along, _ in flat)
    right = min(off for _, off in flat)
    return Shaped(
        mark=piece.mark, end=ends_of(lie.steep)[0], edge=edges_of(lie.steep)[1],
        corners=tuple(Corner(along_mm=along - start, in_mm=off - right) for along, off in flat),
    )  # fmt: skip
