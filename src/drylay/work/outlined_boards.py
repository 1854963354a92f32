"""How boards are laid on an outline: border, breaker boards, then rows, field by field."""

from drylay.laying.model import Zone
from drylay.outline.model import Opening
from drylay.work.drafts import Draft, OutlinedDeck, told
from drylay.work.outlined_holding import bits, clipped, held, inserted


def openings_of(deck: OutlinedDeck, kind: str) -> tuple[Opening, ...]:
    """Return the openings of a kind."""
    return tuple(opening for opening in deck.outline.openings if opening.kind == kind)


def is_splayed(deck: OutlinedDeck) -> bool:
    """Return whether any board's end is sawn out of square."""
    return any(piece.start_deg or piece.end_deg for piece in deck.laying.pieces)


def is_ripped(deck: OutlinedDeck) -> bool:
    """Return whether any row is ripped to its width."""
    return any(row.ripped for row in deck.laying.rows)


def is_brushed(deck: OutlinedDeck) -> bool:
    """Return whether anything is brushed on sawn ends of boards."""
    fixings = deck.fixings
    return fixings.seal_board_ends is not False or bool(fixings.wax or fixings.wax_board_ends)


def care_of(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return the kinds of caution that sawn boards ask for, beyond the saw's own."""
    return ("treated", "preserver") if deck.fixings.seal_board_ends is not False else ()


def boards_draft(deck: OutlinedDeck) -> Draft:
    """Return the task of laying the boards."""
    laying, ripped = deck.laying, is_ripped(deck)
    shaped = any(piece.shaped for piece in laying.pieces)
    degrees = is_splayed(deck) or laying.mitre_count > 0
    return Draft(
        key="boards", title="Lay the boards",
        steps=(*_sawing(deck), *_border(deck), *_breakers(deck), *_rows(deck), *_openings(deck),
               *held(deck), "Write beside every fifth row of the list where it came to lie."),
        after=("frame",), holds=("first_row", "fifth_row", "last_rows"),
        tools=("gloves", "rcd", "saw", *(("rip_saw",) if ripped else ()),
               *(("bevel",) if degrees else ()), *(("jigsaw",) if shaped else ()), "driver",
               "deck_bit", *bits(deck), *(("end_spacer",) if laying.joints else ()), "pegs", "tape",
               "pencil", *(("brush",) if is_brushed(deck) else ())),
        care=("saw", *care_of(deck), "drill", "kneel"),
    )  # fmt: skip


def _sawing(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return what is done to boards before any is fixed."""
    laying, fixings, ripped = deck.laying, deck.fixings, is_ripped(deck)
    shaped = [piece.mark for piece in laying.pieces if piece.shaped]
    face = "{work.face_up} face up" if deck.face_up else "the better face up"
    face = "turf up" if inserted(deck) else face
    return told(
        (laying.handed, "Draw an arrow along every length before it is sawn, all the same way, "
         "and write each piece's mark beside its arrow."),
        "Saw length by length as the cut list says, and write its mark on every piece: lengths "
        "are from tip to tip.",
        (is_splayed(deck), "Splayed ends: cross-cut the piece square first, as long as from tip "
         "to tip; then set the saw to the degrees that the list of pieces gives, off square, try "
         "them on an offcut, and mind which way each end leans."),
        (bool(shaped), f"Pieces with other cuts are marked out by their corners, which the job "
         f"sheet lists, and cut after they have been laid loose once: {', '.join(shaped)}."),
        (ripped, "Rip rows to their widths where they are told narrower, factory edge outwards."),
        (fixings.seal_board_ends is not False, "Give sawn ends and edges their preserver, let it "
         "dry."),
        (bool(fixings.wax or fixings.wax_board_ends), "Wax every sawn end within hours of sawing "
         "it" + ("." if fixings.wax else "; the wax is not in the order.")),
        (inserted(deck), "At sawn ends trim each strip back by 3 mm (1/8 in) and glue its last "
         "30 mm (1 1/4 in); try glue beside preserver on an offcut first."),
        (fixings.end_caps is not None, "Press a cap on every open end that is square, "
         "{fixings.end_caps.count} in all, and glue it as its maker says."),
        f"Lay out loose, {face}, by the boards drawing, before anything is screwed.",
    )  # fmt: skip


def _border(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how the border goes round: mitres closed before any of it is screwed."""
    laying = deck.laying
    if not laying.border_courses:
        return ()
    second = laying.border_courses > 1
    opens = laying.mitre_opens_mm is not None
    return told(
        "The border first: begin at a corner by the house, lay its outer course all round loose, "
        "cut each mitre by the degrees told, and close every one before any board is screwed; the "
        "last board is cut to what is left between two mitres.",
        (second, "Then the inner course, the rows' gap inside the outer, mitres in one line with "
         "it."),
        "Screw each board at its mitres from the outer corner inwards, over the timber that "
        "stands under the mitre.",
        (opens, "Mitres open as boards dry, {laying.mitre_opens_mm} at most at the inner end: "
         "leave them tight."),
    )  # fmt: skip


def _breakers(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how breaker boards are laid: before the rows that end at them."""
    if not deck.laying.breaker_count:
        return ()
    marks = ", ".join(piece.mark for piece in deck.laying.pieces if piece.kind == "breaker")
    return (
        f"Then the breaker boards ({marks}), each over its pair of timbers, square to the main "
        "field's boards: rows end {laying.end_gap_mm} before them.",
    )


def _rows(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return how rows are laid, field by field, and how a fan is shared out over them."""
    laying = deck.laying
    return told(
        *(_zone(number, zone, deck) for number, zone in enumerate(laying.zones)),
        (bool(laying.joints), "At a joint leave {laying.end_gap_mm} between the ends, its middle "
         "over the middle of the timber told, or of the seam of two."),
        *(_fan(zone) for zone in laying.zones if zone.fan_mm),
    )  # fmt: skip


def _zone(number: int, zone: Zone, deck: OutlinedDeck) -> str:
    """Return where a field begins, which way its rows count, and the gap between them."""
    at = f"laying.zones[{number}]"
    marks = [row.mark for row in deck.laying.rows if row.zone == zone.mark]
    span = f"{marks[0]} to {marks[-1]}" if len(marks) > 1 else (marks or ["none"])[0]
    line = "the deck's own line" if deck.outline.turned_deg else "the house"
    # a first row at an angle is a short one in a corner
    askew = zone.angle_deg % 90 != 0 and zone.row_count > 1
    first = "the first to a string line, then row after row"
    if askew:
        first = ("one of the longest to a string line, from side to side by the list of rows, then "
                 "row after row both ways from it")  # fmt: skip
    gap = f", {{{at}.gap_mm}} between rows" if zone.row_count > 1 and not clipped(deck) else ""
    return (
        f"Field {zone.mark}, rows {span}, {{{at}.angle_deg}} degrees from {line}: fix {first}"
        f"{gap}; a row goes on in one line past corners and "
        "openings, so string it where it is broken."
    )


def _fan(zone: Zone) -> str:
    which = "wider" if zone.fan_mm > 0 else "narrower"
    return (
        f"Field {zone.mark} fans: its gaps are {which} at one end than at the other, as the list "
        "of rows tells. Mark every row at both ends from that list, each by its own figures, and "
        "never leave the difference to the last."
    )


def _openings(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return what boards keep from the things that stand in the deck."""
    index = {opening.mark: n for n, opening in enumerate(deck.outline.openings)}

    def clear(kind: str) -> str:
        return ", ".join(
            f"{each.mark} {{outline.openings[{index[each.mark]}].clear_mm}}"
            for each in openings_of(deck, kind)
        )

    return told(
        (bool(clear("post")), f"Around posts leave the gap told on every side, no board touching: "
         f"{clear('post')}."),
        (bool(clear("tree")), "Around the tree keep to the hole as drawn: it has room for what the "
         "trunk will grow and sway."),
        (bool(openings_of(deck, "pool")), "At the water's edge ease the ends that reach over it, "
         "and screw none nearer to the end than told."),
        (bool(openings_of(deck, "hatch")), "Leave the hatches' panels open: no board crosses "
         "them."),
    )  # fmt: skip
