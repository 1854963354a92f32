"""Hatches on an outline: their ledges, and how their panels are made and kept."""

from drylay.work.drafts import Draft, OutlinedDeck, told
from drylay.work.outlined_boards import openings_of


def all_ledges(deck: OutlinedDeck) -> list[str]:
    """Return the marks of the ledges of all hatches."""
    return [mark for hatch in openings_of(deck, "hatch") for mark in deck.ledges[hatch.mark]]


def listed(marks: list[str] | tuple[str, ...]) -> str:
    """Return marks as a sentence lists them: "Q1, Q2 and Q3"."""
    *first, last = marks
    return f"{', '.join(first)} and {last}" if first else last


def hatches_draft(deck: OutlinedDeck) -> list[Draft]:
    """Return the task on the panels of hatches, if there is any."""
    hatches = openings_of(deck, "hatch")
    if not hatches:
        return []
    index = {opening.mark: n for n, opening in enumerate(deck.outline.openings)}
    weighs = ", ".join(f"{each.mark} {{outline.openings[{index[each.mark]}].panel_kg}}"
                       for each in hatches)  # fmt: skip
    return [
        Draft(
            key="hatches", title="Make the panels of the hatches",
            steps=told(
                *_tied(deck),
                f"Fit two lifting holes or rings; a panel is for one person to lift: {weighs}.",
                *_lying(deck),
                "Lay it in loose, rows in line with those around: even gaps, no screw into the "
                "frame.",
                *barred(deck),
            ),
            after=("boards",),
            holds=("panels", *(("panels_barred",) if deck.wide_panels else ())),
            tools=("gloves", "driver", "deck_bit", "tape"), care=("drill", "lift"),
        )
    ]  # fmt: skip


def barred(deck: OutlinedDeck) -> tuple[str, ...]:
    """Return that nobody is to stand on panels that span too far; nothing without one."""
    if not deck.wide_panels:
        return ()
    return (
        f"Nobody is to stand on the panel of {listed(deck.wide_panels)}, nor set a load on it, "
        "before its boards are carried between the ledges: they span further than such boards may, "
        "and its battens only tie them (OUT-025).",
    )


def _tied(deck: OutlinedDeck) -> list[str]:
    """Return how each panel's boards are screwed to its battens."""
    found = []
    for number, hatch in enumerate(openings_of(deck, "hatch"), start=1):
        marks = [each.mark for each in deck.subframe.battens if each.opening == hatch.mark]
        found.append(
            f"{hatch.mark}: stand {listed(marks)} on edge on something flat, as the list of "
            f"battens tells in Frame; lay the boards of its panel, H{number}.1 and on, square "
            "across them, ends level, with the gaps of the rows beside it, and screw each board to "
            "each batten from above: {fixings.deck_screws.edge_least_mm} or more from the boards' "
            "edges, {fixings.deck_screws.end_least_mm} from the battens' ends."
        )
    return found


def _lying(deck: OutlinedDeck) -> list[str]:
    """Return what each panel lies on, and what room it has."""
    ledges = [
        f"{listed(deck.ledges[hatch.mark] or ('its ledges',))}, inside the hole {hatch.mark}"
        for hatch in openings_of(deck, "hatch")
    ]
    return [
        f"Every board of a panel lies with both its ends on the ledges ({'; '.join(ledges)}). A "
        "panel is shorter than its hole by the end gap, {laying.end_gap_mm}: leave half of it at "
        "either end. Battens fit between the ledges, {subframe.batten_play_mm} off every timber: "
        "try that it lifts out, then let it lie."
    ]
