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


def doubles_bits(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return the bits for doubles: to let heads in, and for pilots unlike the frame screws'."""
    screws, frame = deck.fixings.double_screws, deck.fixings.frame_screws
    alike = frame is not None and screws is not None and frame.pilot_mm == screws.pilot_mm
    let_in = ("let_in_bit",) if any(m.kind == "double" for m in deck.subframe.members) else ()
    return let_in if screws is None or alike else (*let_in, "double_bit")


def doubled(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how doubles come to be one timber with their neighbours; nothing without any."""
    screws = deck.fixings.double_screws
    held = [(each.member, each.to) for each in screws.stretches] if screws else []
    named = {member for member, _ in held}
    loose = [
        member.mark
        for member in deck.subframe.members
        if member.kind == "double" and member.mark not in named
    ]
    at = "{fixings.double_screws."
    return told(
        (bool(held or loose), "Before a timber is set against its double, fix what ends on it: "
         "drive those coach screws through that timber alone, heads and washers let in flush. "
         "Through both timbers they would reach too little into the end."),
        (bool(held), f"Screw doubles ({', '.join(f'{one} to {to}' for one, to in held)}) into one "
         "timber then, tops level and drawn tight: from both faces by turns, "
         f"pilots {at}pilot_mm}}. {at}per_end}} screws one above the other {at}end_least_mm}} from "
         f"either end of what touches, and single ones between, none further apart than "
         f"{at}spacing_most_mm}}, by turns {at}edge_mm}} off the top and off the foot, as the list "
         "of fixings says. Where another screw or an end is in the way, shift that one along."),
        (bool(loose), f"Screw doubles ({', '.join(loose)}) to their neighbours into one timber "
         "then: their screws are not in the order (SUB-015). Ask your merchant for "
         "ones that reach well into the second timber and do not stand out behind it."),
    )  # fmt: skip
