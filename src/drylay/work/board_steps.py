"""Steps that the boards' own make asks for: arrows, wax, strips of turf, holes for every screw."""

from drylay.surface.model import Row
from drylay.work.drafts import Deck, told


def _handed(deck: Deck) -> bool:
    border = deck.pieces.border
    return deck.pieces.handed is True or (border is not None and border.handed)


def strip_rows(deck: Deck) -> tuple[Row, ...]:
    """Return the rows that carry strips."""
    surface, border = deck.surface, deck.surface.border
    grooves = {False: surface.groove_mm, True: border.groove_mm if border else None}
    return tuple(row for row in surface.rows if grooves[row.border] is not None)


def inserted(deck: Deck) -> bool:
    """Whether strips are let into any boards."""
    return bool(strip_rows(deck))


def predrilled(deck: Deck) -> bool:
    """Whether every screw has its hole before it is driven."""
    screws = deck.fixings.deck_screws
    return screws is not None and screws.predrill_all is True


def sealed(deck: Deck) -> bool:
    """Whether sawn ends of any boards take preserver: then they are treated timber."""
    fixings = deck.fixings
    return fixings.seal_board_ends is not False or fixings.seal_border_ends is True


def brushed(deck: Deck) -> bool:
    """Whether anything is brushed on sawn ends of boards."""
    fixings = deck.fixings
    return sealed(deck) or fixings.wax_board_ends is True or fixings.wax is not None


def care(deck: Deck) -> tuple[str, ...]:
    """Return the kinds of caution that sawn boards ask for, beyond the saw's own."""
    return ("treated", "preserver") if sealed(deck) else ()


def falling(deck: Deck) -> tuple[str, ...]:
    """Return how the frame is built out of level, for boards that are to fall along their rows."""
    low = deck.surface.low_side
    if not low:
        return ()
    high = {"right": "left", "front": "house"}[low]
    return (
        f"Build it falling along the boards, straight from end to end: its {low} end "
        "{surface.fall_mm} lower than its " + high + " end over a whole row, packers and bed with "
        "it; across the boards it is level. Hold a line at that fall from peg to peg.",
    )


def sawn(deck: Deck, *kinds: str) -> bool:
    """Whether any bought length of these purchases is sawn, of all boards where none is named."""
    wanted = kinds or ("boards", "border boards")
    if deck.buying.end_trim_mm or deck.pieces.trim_allowance_mm:
        return True
    return any(
        len(bought.pieces) > 1 or bought.offcut_mm > 0
        for purchase in deck.buying.purchases
        if purchase.what in wanted
        for bought in purchase.lengths
    )


def strips_sawn(deck: Deck) -> bool:
    """Whether any board that carries a strip is sawn."""
    edged = {row.border for row in strip_rows(deck)}
    names = {False: "boards", True: "border boards"}
    return bool(edged) and sawn(deck, *(names[each] for each in sorted(edged)))


def _warmth_counts(deck: Deck) -> bool:
    return deck.pieces.movement is not None and bool(deck.pieces.joints)


def day_holds(deck: Deck) -> tuple[str, ...]:
    """Return the keys of what is measured on laying day before boards are sawn."""
    warm = ("board_warmth",) if _warmth_counts(deck) else ()
    return (*warm, *(("board_moisture",) if deck.surface.gaps_by_moisture is not None else ()))


def on_the_day(deck: Deck) -> tuple[str, ...]:
    """Return what is measured on laying day, before a board is sawn."""
    return told(
        (_warmth_counts(deck), "Let the boards lie in the shade for a day, take their temperature, "
         "and write it down: it sets the end gap."),
        (deck.surface.gaps_by_moisture is not None, "Take the moisture of ten boards, well away "
         "from their ends, and write the mean down: it sets the gaps."),
    )  # fmt: skip


def before_sawing(deck: Deck) -> tuple[str, ...]:
    """Return what is done to the bought lengths first."""
    return told(
        (_handed(deck), "Draw an arrow along every handed length before it is sawn, all the same "
         "way, with the lie of the pile where there is one; write each piece's mark beside its "
         "arrow."),
    )  # fmt: skip


def on_ends(deck: Deck) -> tuple[str, ...]:
    """Return what is done to sawn ends before the boards are laid."""
    ripped = any(row.ripped for row in deck.surface.rows)
    fixings, cut = deck.fixings, sawn(deck)
    kinds = [*(("boards",) if fixings.seal_board_ends is not False else ()),
             *(("border boards",) if fixings.seal_border_ends else ())]  # fmt: skip
    seals = bool(kinds) and (ripped or sawn(deck, *kinds))
    wants_wax = fixings.wax_board_ends is True or fixings.wax_border_ends is True
    waxed = [*(("boards",) if fixings.wax_board_ends else ()),
             *(("border boards",) if fixings.wax_border_ends else ())]  # fmt: skip
    wants_wax = wants_wax and sawn(deck, *waxed)
    return told(
        (not cut and not ripped, "No board is sawn: its ends stay as they come, and want neither "
         "preserver nor wax."),
        (seals, f"Give sawn ends{' and ripped edges' if ripped else ''} their preserver, let it "
         "dry."),
        (fixings.wax is not None, "Wax every sawn end within hours of sawing it."),
        (fixings.wax is None and wants_wax,
         "Wax every sawn end within hours of sawing it; the wax is not in the order."),
        (strips_sawn(deck), "At sawn ends trim each strip back by 3 mm (1/8 in) and glue its "
         "last 30 mm (1 1/4 in); try glue beside preserver on an offcut first."),
    )  # fmt: skip


def of_the_border(deck: Deck) -> tuple[str, ...]:
    """Return where the border's boards go, what packs the thinner boards up, and their screws."""
    border, screws = deck.surface.border, deck.fixings.border_screws
    if border is None or screws is None:
        return ()
    rows = [row.mark for row in deck.surface.rows if row.border]
    drill = "{fixings.border_screws.pilot_mm} near ends"
    if screws.predrill_all:
        drill = ("{fixings.border_screws.shank_mm} through the board and "
                 "{fixings.border_screws.pilot_mm} into the joist for every screw")  # fmt: skip
    return told(
        f"Rows {', '.join(rows)} are the border's, of its own board: drill {drill}; "
        "{fixings.border_screws.per_crossing} screws at every joist, "
        "{fixings.border_screws.edge_least_mm} or more from the edge and "
        "{fixings.border_screws.end_least_mm} from the end.",
        *_packers(deck),
    )  # fmt: skip


def _packers(deck: Deck) -> tuple[str, ...]:
    """Return what to put under the thinner boards, and whether it is in the order."""
    border, packers = deck.surface.border, deck.fixings.board_packers
    if border is None or packers is None:
        return ()
    named = f" {packers.article}" if packers.article else ""
    put = (f"Under the {border.packed}'s boards, which are thinner, put packers{named} of "
           "{fixings.board_packers.height_mm} on every joist")  # fmt: skip
    return (f"{put}." if named else f"{put}; they are not in the order.",)


def which_face_up(deck: Deck) -> str:
    """Return which face lies up, as a step says it; the better one where the boards have no two."""
    if inserted(deck):
        return "turf up"
    return "{work.face_up} face up" if deck.face_up else "the better face up"


def border_apart(deck: Deck) -> bool:
    """Whether board ends of the border stand further apart, or closer, than the field's."""
    joints = deck.pieces.border
    return (
        joints is not None
        and joints.joint_count > 0
        and (joints.end_gap_mm != deck.pieces.end_gap_mm)
    )


def swapping(deck: Deck) -> str:
    """Return what to heed where pieces of one length are swapped; "" where they are all alike."""
    if not _handed(deck):
        return ""
    arrow = next(piece.arrow for piece in deck.pieces.pieces if piece.arrow)
    return f" Turn none with an arrow end for end: every arrow points to the {arrow}."


def driving(deck: Deck) -> str:
    """Return how deck screws are driven, up to their distance from edge and end."""
    if predrilled(deck):
        return (
            "Drill for every screw: {fixings.deck_screws.shank_mm} through the board, "
            "{fixings.deck_screws.pilot_mm} into the joist, countersunk; "
        )
    return "Drill {fixings.deck_screws.pilot_mm} near ends; "


def beside_strips(deck: Deck) -> tuple[str, ...]:
    """Return where screws go in boards with strips."""
    return told(
        (inserted(deck), "Screws go through the timber beside the strips, never through a strip, "
         "and before any infill is brushed in."),
    )  # fmt: skip


def tools(deck: Deck) -> tuple[str, ...]:
    """Return the keys of the tools that these steps take."""
    border, clips = deck.fixings.border_screws, deck.fixings.clips
    edged = border is not None and border.predrill_all
    bits = (
        (predrilled(deck), "deck_clear_bit"),
        (not predrilled(deck) and bool(clips and clips.fixed_screws), "fixed_bit"),
        (clips is not None and clips.slot_mm is not None, "slot_bit"),
        (border is not None, "border_bit"),
        (edged, "border_clear_bit"),
        (predrilled(deck) or edged, "countersink"),
        (strips_sawn(deck), "strip_knife"),
        (_warmth_counts(deck), "thermometer"),
        (deck.surface.gaps_by_moisture is not None, "meter"),
        (border_apart(deck), "border_end_spacer"),
    )
    return tuple(key for wanted, key in bits if wanted)
