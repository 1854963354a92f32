"""What of a frame under an outline coach screws do not hold: mitres, short members, doubles."""

from drylay.subframe.model import Member
from drylay.work.drafts import OutlinedDeck, told

#: Members that coach screws hold by their ends, where they are long enough.
HELD = ("joist", "pair", "trimmer", "double")
PER_END = "{fixings.frame_screws.per_noggin_end} frame screws"
NONE = "its screws are not in the order"


def fixed_otherwise(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how mitred corners of rims, and members too short for coach screws, are fixed."""
    screwed = deck.fixings.frame_screws is not None
    short = ", ".join(member.mark for member in deck.subframe.members if _is_short(deck, member))
    mitred = any(
        member.kind == "rim" and not on and degrees
        for member in deck.subframe.members
        for on, degrees in (
            (member.start_on, member.start_deg),
            (member.end_on, member.end_deg),
        )
    )
    each = PER_END if screwed else NONE
    return told(
        (mitred, f"Mitred corners of rims: draw the mitre tight, {each} at each, one from either "
         "face by turns, square across the mitre." if screwed else
         f"Mitred corners of rims: {NONE.replace('its', 'their')}."),
        (bool(short), f"{short}: coach screws from both ends would meet. {each[0].upper()}"
         f"{each[1:]} at each end instead, through the timber that carries it."),
    )  # fmt: skip


def _is_short(deck: OutlinedDeck, member: Member) -> bool:
    """Whether a member has no length for coach screws from both its ends, and has ends carried."""
    reach_mm = deck.fixings.coach_screws.length_mm - deck.subframe.timber_thickness_mm
    carried = bool(member.start_on or member.end_on)
    return member.kind in HELD and carried and member.length_mm < 2 * reach_mm


def doubled(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how doubles come to be one timber with their neighbours; nothing without any."""
    marks = [member.mark for member in deck.subframe.members if member.kind == "double"]
    if not marks:
        return ()
    return (
        f"Screw doubles ({', '.join(marks)}) to their neighbours into one timber before they are "
        "hung: from both faces by turns, two screws near either end and one every 300 mm (12 in) "
        "or less between, high and low. Choose screws shorter than the two timbers together are "
        "thick: they are not in the order (SUB-015).",
    )
