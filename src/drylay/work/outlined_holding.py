"""How boards on an outline are held down: screws, or clips and what no next row holds."""

from drylay.work.drafts import OutlinedDeck, told


def predrilled(deck: OutlinedDeck) -> bool:
    """Return whether every deck screw has its hole before it is driven."""
    screws = deck.fixings.deck_screws
    return screws is not None and screws.predrill_all is True


def inserted(deck: OutlinedDeck) -> bool:
    """Return whether strips are let into the boards."""
    return deck.laying.groove_mm is not None


def clipped(deck: OutlinedDeck) -> bool:
    """Return whether clips hold the boards."""
    return deck.fixings.clips is not None


def held(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how boards are held down."""
    found = _into_clips(deck) if clipped(deck) else _screwed(deck)
    return told(
        *found,
        (inserted(deck), "Screws go through the timber beside the strips, never through a strip, "
         "and before any infill is brushed in."),
    )  # fmt: skip


def _screwed(deck: OutlinedDeck) -> tuple[str, ...]:
    if deck.fixings.deck_screws is None:
        return ()
    drill = "Drill {fixings.deck_screws.pilot_mm} near ends; "
    if predrilled(deck):
        drill = (
            "Drill for every screw: {fixings.deck_screws.shank_mm} through the board, "
            "{fixings.deck_screws.pilot_mm} into the timber, countersunk; "
        )
    return told(
        drill + "{fixings.deck_screws.per_crossing} screws wherever a board crosses a timber, "
        "{fixings.deck_screws.edge_least_mm} or more from the edge and "
        "{fixings.deck_screws.end_least_mm} from the end, heads flush"
        + ("; further in over a fascia, see Fixings." if deck.subframe.facings else "."),
        (bool(deck.subframe.seams), "A board that passes over two timbers that touch is screwed "
         "to both: so its screws are counted."),
    )  # fmt: skip


def _into_clips(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how rows go into clips, round corners and openings too."""
    clips, screws = deck.fixings.clips, deck.fixings.deck_screws
    starters = clips is not None and bool(clips.starter_article)
    last = screws is not None and screws.per_crossing > 0
    return told(
        (starters, "Under every edge that no row lies before, openings' far edges too, screw "
         "starter clips down by a string line, {fixings.clips.starter_per_joist} to every timber, "
         "{fixings.clips.starter_count} in all, and push the row home."),
        (not starters, "Fix every edge that no row lies before to a string line; its starter "
         "clips are not in the order."),
        "Set clips in the row's other edge wherever both rows lie over a timber, "
        "{fixings.clips.count} in all; push the next row home before their screws are driven "
        "tight: the clips leave {fixings.clips.gap_mm}.",
        "Fix every board at one timber, its fixed point, which the boards drawing tells; in all "
        "other clips it must slide.",
        (clips is not None and bool(clips.fixed_screws), "The fixed point is one deck screw from "
         "above, {fixings.deck_screws.edge_least_mm} from the edge that the next row lies "
         "against: drill the board {fixings.deck_screws.shank_mm}, the timber "
         "{fixings.deck_screws.pilot_mm}, and drive it before that row goes on; "
         "{fixings.clips.fixed_screws} in all."),
        (last, "Screw edges that no row lies after, and boards in no row, from above, "
         "{fixings.deck_screws.per_crossing} to every timber, drilled "
         "{fixings.deck_screws.pilot_mm} and {fixings.deck_screws.end_least_mm} or more from "
         "ends."),
    )  # fmt: skip


def bits(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return the keys of bits and blocks that holding boards down takes."""
    clips = deck.fixings.clips
    wanted = (
        (predrilled(deck), "deck_clear_bit"),
        (predrilled(deck), "countersink"),
        (not predrilled(deck) and bool(clips and clips.fixed_screws), "fixed_bit"),
        (inserted(deck), "strip_knife"),
        (clips is None, "gap_spacer"),
        (clips is not None, "block"),
        (clips is None, "hammer"),
    )
    return tuple(key for is_wanted, key in wanted if is_wanted)
