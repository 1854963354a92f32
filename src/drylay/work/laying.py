"""How the boards are laid: screwed down, or row after row into clips."""

from drylay.work import board_steps
from drylay.work.drafts import Deck, Draft, told


def boards_draft(deck: Deck) -> Draft:
    """Return the task of laying the boards."""
    joints, ripped = bool(deck.pieces.joints), any(row.ripped for row in deck.surface.rows)
    clipped = deck.fixings.clips is not None
    return Draft(
        key="boards", title="Lay the boards",
        steps=(*_before(deck, ripped=ripped), *(_into_clips(deck) if clipped else _screwed(deck)),
               *_over_bearers(deck), *_at_joints(deck),
               "Write on the rod where every fifth row came to lie."),
        after=("frame", "cable"),
        holds=(*board_steps.day_holds(deck), "first_row", "fifth_row", "last_rows"),
        tools=("gloves", "rcd", "saw", *(("rip_saw",) if ripped else ()), "driver", "deck_bit",
               *board_steps.tools(deck),
               *(() if clipped else ("gap_spacer",)), *(("end_spacer",) if joints else ()), "pegs",
               "block" if clipped else "hammer", "tape",
               *(("brush",) if board_steps.brushed(deck) else ())),
        care=("saw", *board_steps.care(deck), "drill", "kneel"),
    )  # fmt: skip


def _before(deck: Deck, *, ripped: bool) -> tuple[str, ...]:
    """Return the steps before the first board is fixed."""
    capped, edged = deck.fixings.end_caps is not None, deck.surface.border is not None
    return told(
        *board_steps.on_the_day(deck),
        *board_steps.before_sawing(deck),
        (board_steps.sawn(deck), "Saw length by length as the cut list says, and write its mark on "
         "every piece."),
        (not board_steps.sawn(deck), "Write its mark on every length as the cut list says: none is "
         "sawn across."),
        (ripped, f"Rip the {'field' if edged else 'deck'}'s outer rows to their widths, factory "
         "edge outwards."),
        *board_steps.on_ends(deck),
        (capped, "Press a cap on every open end, {fixings.end_caps.count} in all, and glue it as "
         "its maker says. The end gap is clear between caps: where they stand out, saw "
         "both ends at a joint shorter by that first."),
        f"Lay every row out loose, {board_steps.which_face_up(deck)}, by the boards drawing; swap "
        "pieces of one length until the best stand where the eye falls."
        + board_steps.swapping(deck),
    )  # fmt: skip


def _screwed(deck: Deck) -> tuple[str, ...]:
    return (
        "Fix the first row to a string line, then row after row with the spacers, drawing "
        "bowed boards in.",
        board_steps.driving(deck) + "{fixings.deck_screws.per_crossing} "
        "screws at every joist, {fixings.deck_screws.edge_least_mm} or more from the edge and "
        "{fixings.deck_screws.end_least_mm} from the end, heads flush"
        + ("; further in over a fascia, see Fixings." if deck.edges.faces else "."),
        *board_steps.of_the_border(deck),
        *board_steps.beside_strips(deck),
        *told((bool(deck.supports.seams), "A board that passes over a pair is screwed to one "
               "joist of it.")),
    )  # fmt: skip


def _into_clips(deck: Deck) -> tuple[str, ...]:
    """Return how rows are laid into clips: the starters first, the last row's screws last."""
    clips = deck.fixings.clips
    starters = clips is not None and bool(clips.starter_article)
    screws = deck.fixings.deck_screws
    last = screws is not None and screws.per_crossing > 0
    fixed = clips is not None and bool(clips.fixed_screws)
    slotted = clips is not None and clips.slot_mm is not None
    also = ", both joists of a pair" if deck.supports.seams else ""
    also += ", and at the batten beside a joint" if deck.frame.battens else ""
    return told(
        (starters, "By a string line screw starter clips down under the first row's outer edge, "
         "{fixings.clips.starter_per_joist} to every joist, {fixings.clips.starter_count} in all, "
         "and push the first row home."),
        (not starters, "Fix the first row's outer edge to a string line; its starter clips are "
         "not in the order."),
        f"Set clips in the row's other edge at every joist{also}, "
        "{fixings.clips.count} in all; push the next row home before their screws are driven "
        "tight, and so on row after row: the clips leave {fixings.clips.gap_mm}.",
        "Fix every board at one joist, its fixed point, which rod and boards drawing tell; in all "
        "other clips it must slide.",
        (fixed, "The fixed point is one deck screw from above, {fixings.deck_screws.edge_least_mm} "
         "from the edge that the next row lies against: drill the board "
         "{fixings.deck_screws.shank_mm}, the joist {fixings.deck_screws.pilot_mm}, and drive it "
         "before that row goes on; {fixings.clips.fixed_screws} in all."),
        (last, "Screw the last row's outer edge from above, {fixings.deck_screws.per_crossing} to "
         "every joist, drilled {fixings.deck_screws.pilot_mm} and "
         "{fixings.deck_screws.end_least_mm} or more from ends."),
        (slotted, "Drive these tight at the last row's fixed points only. At all other joists cut "
         "slots along the board, {fixings.clips.slot_mm} long and {fixings.clips.slot_width_mm} "
         "wide, put the screw in the middle of its slot, and let its head just touch."),
        (clips is not None and clips.edge_screws > 0, "Screw ripped rows beside their ripped edge, "
         "where the clips have no groove to hold in, likewise: {fixings.clips.edge_screws} in "
         "all."),
    )  # fmt: skip


def _over_bearers(deck: Deck) -> tuple[str, ...]:
    """Return where no screw goes on a deck whose joists hang between bearers."""
    return told((bool(deck.frame.hung), "Where a row lies over a bearer's face, drive no screw "
                 "where bearer and joist meet, nor through a hanger."))  # fmt: skip


def _at_joints(deck: Deck) -> tuple[str, ...]:
    """Return how board ends meet, and what the end gap hangs on."""
    supports, laid = deck.supports, deck.pieces.movement is not None
    if not deck.pieces.joints:
        return ()
    middle = "the joist's"
    if supports.seams:
        middle = "the seam of the pair, each end on its own joist"
    elif supports.battens_per_joint:
        middle = "the joist's face, one end on the joist and one on its batten"
    return told(
        "At a joint leave {pieces.end_gap_mm} between the ends, its middle over " + middle + ".",
        (board_steps.border_apart(deck), "In the border leave {pieces.border.end_gap_mm}."),
        (laid, "That end gap is for boards at {pieces.movement.laying_c}. Colder ones want the "
         "wider gap of the table of end gaps: saw either end at a joint shorter by half of "
         "what that is more. Warmer ones may lie as planned: their gaps open wider in the cold."),
    )  # fmt: skip
