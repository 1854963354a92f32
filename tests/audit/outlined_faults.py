"""Faults planted in the hand-made L: at least one for each check of decks on an outline."""

from audit.outlined_frame_faults import FRAME
from audit.outlined_laying_faults import LAYING
from audit.outlined_planting import CROSSED, askew_sides
from audit.outlined_sample import box, spot
from audit.planting import Fault, both, by, to, turned, twice
from drylay.audit import outlined_checks

OUTLINE: tuple[Fault, ...] = (
    ("AUD-750", "a mark twice", to("outline.sides[1].mark", "E1")),
    ("AUD-750", "a side that begins elsewhere", to("outline.sides[1].start", spot((1999.0, 0.0)))),
    (
        "AUD-750",
        "sides that cross",
        both(
            to("outline.sides[0].end", spot((0.0, 520.0))),
            to("outline.sides[1].start", spot((0.0, 520.0))),
            to("outline.sides[1].end", spot((2000.0, 0.0))),
            to("outline.sides[2].start", spot((2000.0, 0.0))),
        ),
    ),
    ("AUD-750", "a corner on the straight", to("outline.sides[1].start", spot((1500.0, 0.0)))),
    ("AUD-751", "another first corner", turned("outline.sides", 0, 1)),
    ("AUD-752", "an unknown kind", to("outline.sides[0].kind", "hedge")),
    ("AUD-752", "another fascia", to("outline.sides[0].facing_mm", 18.0)),
    ("AUD-752", "a fascia below nothing", to("outline.sides[0].facing_mm", -20.0)),
    ("AUD-753", "a longer side", by("outline.sides[2].length_mm", 0.5)),
    ("AUD-753", "another angle", by("outline.sides[3].corner_deg", 0.1)),
    ("AUD-753", "another perimeter", by("outline.perimeter_mm", 1.0)),
    ("AUD-754", "more area", by("outline.gross_m2", 0.001)),
    ("AUD-754", "less net area", by("outline.net_m2", -0.001)),
    ("AUD-755", "an opening more", by("outline.opening_count", 1)),
    ("AUD-755", "another mark", to("outline.openings[0].mark", "O2")),
    ("AUD-759", "turned further than to the nearest line", to("outline.turned_deg", 50.0)),
    ("AUD-759", "corners moved on no turned line", to("outline.moved_mm", 0.5)),
    (
        "AUD-759",
        "corners moved too far",
        both(to("outline.turned_deg", 20.0), to("outline.moved_mm", 2.5)),
    ),
    (
        "AUD-759",
        "sides along another line",
        both(to("outline.turned_deg", 20.0), to("outline.sides", askew_sides(3.0))),
    ),
    ("AUD-756", "an unknown kind", to("outline.openings[0].kind", "pit")),
    ("AUD-756", "a hole that is no shape", to("outline.openings[0].corners", CROSSED)),
    (
        "AUD-756",
        "a hole outside",
        to("outline.openings[0].corners", box(990.0, 735.0, 1100.0, 870.0)),
    ),
    ("AUD-756", "two holes that meet", twice("outline.openings", 0)),
    ("AUD-757", "less clear than told", by("outline.openings[0].clear_mm", 1.0)),
    (
        "AUD-757",
        "a post out of its hole",
        to("outline.openings[0].within", box(390.0, 745.0, 500.0, 860.0)),
    ),
    (
        "AUD-757",
        "too near",
        both(
            to("outline.openings[0].within", box(405.0, 740.0, 505.0, 865.0)),
            to("outline.openings[0].clear_mm", 5.0),
        ),
    ),
    ("AUD-757", "too far", to("outline.openings[0].clear_most_mm", 9.0)),
    ("AUD-757", "a least below practice", to("outline.openings[0].clear_least_mm", 5.0)),
    ("AUD-757", "a most above practice", to("outline.openings[0].clear_most_mm", 120.0)),
    (
        "AUD-757",
        "boards far over water",
        both(
            to("outline.openings[0].kind", "pool"),
            to("outline.openings[0].within", box(350.0, 735.0, 510.0, 870.0)),
        ),
    ),
    ("AUD-757", "boards short of the water", to("outline.openings[0].kind", "pool")),
    (
        "AUD-757",
        "another overhang",
        both(
            to("outline.openings[0].kind", "pool"),
            to("outline.openings[0].within", box(390.0, 725.0, 520.0, 880.0)),
            to("outline.openings[0].clear_mm", 12.0),
        ),
    ),
    ("AUD-758", "a post with a panel", to("outline.openings[0].panel_kg", 3.0)),
    ("AUD-758", "a hatch without a mass", to("outline.openings[0].kind", "hatch")),
    (
        "AUD-758",
        "a heavy hatch",
        both(
            to("outline.openings[0].kind", "hatch"),
            to("outline.openings[0].panel_kg", 21.0),
            to("outline.openings[0].panel_most_kg", 20.5),
        ),
    ),
)

#: Checks that are run on decks on an outline alone.
OF_OUTLINES = {code for code, *_ in outlined_checks.CHECKS}
OUTLINED_FAULTS = (*OUTLINE, *LAYING, *FRAME)
