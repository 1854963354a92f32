"""In words: which ends of a frame under an outline are fixed by which screws."""

from drylay.fixings.model import CoachScrews, DoubledStretch, DoubleScrews, FrameScrews
from drylay.papers.wording import bit, clean, many, size, size_least, size_most
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


def doubles_where(screws: DoubleScrews) -> str:
    """Return along what doubles are screwed to their neighbours, and how many screws go there."""
    between = sum(each.between for each in screws.stretches)
    ends = many(2 * len(screws.stretches), "end")
    told = f"{screws.per_end} near each of {ends} of doubles"
    return f"{told}, {between} between" if between else told


def doubles_told(screws: DoubleScrews, units: str) -> str:
    """Return which members are screwed into one timber, with how many screws, and where."""
    each = "; ".join(_stretch(stretch, units) for stretch in screws.stretches)
    return (
        f"{screws.count} screws of doubles {clean(screws.article, 40)}, "
        f"{size(screws.shank_mm, units)} x {size(screws.length_mm, units)}, from both faces by "
        f"turns, pilot {bit(screws.pilot_mm, units)}: {screws.per_end} one above the other "
        f"{size_least(screws.end_least_mm, units)} from either end of what touches, single ones "
        f"between, {size_most(screws.spacing_most_mm, units)} or less apart, by turns "
        f"{size(screws.edge_mm, units)} off the top and off the foot. {each}."
    )


def _stretch(stretch: DoubledStretch, units: str) -> str:
    between = ""
    if stretch.between:
        apart = size_most(stretch.apart_mm, units)
        between = f", {many(stretch.between, 'single one')} between, {apart} apart"
    return (
        f"{stretch.member} to {stretch.to} along {size(stretch.length_mm, units)}: "
        f"{stretch.count}{between}"
    )
