"""Steps that the boards' own make asks for: arrows, wax, strips of turf, holes for every screw."""

from drylay.work.drafts import Deck, told


def _handed(deck: Deck) -> bool:
    return deck.pieces.handed is True


def inserted(deck: Deck) -> bool:
    """Whether strips are let into the boards."""
    return deck.surface.groove_mm is not None


def predrilled(deck: Deck) -> bool:
    """Whether every screw has its hole before it is driven."""
    screws = deck.fixings.deck_screws
    return screws is not None and screws.predrill_all is True


def before_sawing(deck: Deck) -> tuple[str, ...]:
    """Return what is done to the bought lengths first."""
    return told(
        (_handed(deck), "Draw an arrow along every length before it is sawn, all the same way, "
         "with the lie of the pile where there is one; write each piece's mark beside its arrow."),
    )  # fmt: skip


def on_ends(deck: Deck) -> tuple[str, ...]:
    """Return what is done to sawn ends before the boards are laid."""
    ripped = any(row.ripped for row in deck.surface.rows)
    fixings = deck.fixings
    sealed = fixings.seal_board_ends is not False
    return told(
        (sealed, f"Give sawn ends{' and ripped edges' if ripped else ''} their preserver, let it "
         "dry."),
        (fixings.wax is not None, "Wax every sawn end within hours of sawing it."),
        (fixings.wax is None and fixings.wax_board_ends is True,
         "Wax every sawn end within hours of sawing it; the wax is not in the order."),
        (inserted(deck), "Trim each strip back by 3 mm (1/8 in) from the board's end and glue its "
         "last 30 mm (1 1/4 in); try glue beside preserver on an offcut first."),
    )  # fmt: skip


def swapping(deck: Deck) -> str:
    """Return what to heed where pieces of one length are swapped; "" where they are all alike."""
    if not _handed(deck):
        return ""
    return f" Turn none end for end: every arrow points to the {deck.pieces.pieces[0].arrow}."


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
    bits = ("deck_clear_bit", "countersink") if predrilled(deck) else ()
    return (*bits, *(("strip_knife",) if inserted(deck) else ()))
