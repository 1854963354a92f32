"""In words: which ends of a frame under an outline are fixed by which screws."""

from drylay.fixings.model import CoachScrews, FrameScrews
from drylay.papers.wording import many
from drylay.subframe.model import Subframe


def coach_ends_told(coach: CoachScrews, frame: Subframe) -> str:
    """Return which ends coach screws hold, and how many rims' corners are among them."""
    butted = sum(
        1
        for member in frame.members
        for on in (member.start_on, member.end_on)
        if member.kind == "rim" and on and not on.startswith("S")
    )
    told = f"the timber that carries it into each of {many(coach.joist_ends, 'end')} of joists "
    told += "and of what is framed round openings" if _is_framed(frame) else ""
    among = f", {many(butted, 'butted corner')} of rims among them" if butted else ""
    return f"{told.rstrip()}{among}"


def _is_framed(frame: Subframe) -> bool:
    return any(member.kind in {"trimmer", "double"} for member in frame.members)


def mitred_corners(frame: Subframe) -> int:
    """Return how many corners of rims are mitred."""
    ends = [
        not on and bool(degrees)
        for member in frame.members
        if member.kind == "rim"
        for on, degrees in (
            (member.start_on, member.start_deg),
            (member.end_on, member.end_deg),
        )
    ]
    return sum(ends) // 2


def _noggin_ends(frame: Subframe) -> int:
    noggins = [member for member in frame.members if member.kind == "noggin"]
    return sum(bool(each.start_on) + bool(each.end_on) for each in noggins)


def short_ends(screws: FrameScrews, frame: Subframe) -> int:
    """Return how many ends of members too short for coach screws are counted with noggins' ends."""
    return max(0, screws.noggin_ends - _noggin_ends(frame) - mitred_corners(frame))


def frame_ends_told(screws: FrameScrews, frame: Subframe) -> str:
    """Return what a count of noggin ends stands for: these, mitred corners, short members' ends."""
    kinds = (
        (_noggin_ends(frame), "noggin end", "noggin ends"),
        (mitred_corners(frame), "mitred corner of rims", "mitred corners of rims"),
        (short_ends(screws, frame), "end of a member too short for coach screws",
         "ends of members too short for coach screws"),
    )  # fmt: skip
    *first, last = [many(*kind) for kind in kinds if kind[0]] or [many(0, "noggin end")]
    told = f"{', '.join(first)} and {last}" if first else last
    return f"{screws.per_noggin_end} at each of {told}"


def frame_ways_told(screws: FrameScrews, frame: Subframe) -> str:
    """Return through what into what these ends are screwed."""
    told = ""
    if _noggin_ends(frame):
        told += " Noggins through the joist into their ends."
    if mitred_corners(frame):
        told += (
            " Mitred corners, drawn tight, square across the mitre, one screw from either face by "
            "turns."
        )
    if short_ends(screws, frame):
        told += " Short members through the timber that carries them into their ends."
    return told
