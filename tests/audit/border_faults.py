"""Faults planted about a border, in a deck that has none: a border in one part of the plan alone.

The borders of real decks have their faults in tests/planner/test_border.py.
"""

from audit.planting import Fault, both, to, without
from drylay.fixings.model import BoardPackers
from drylay.surface.model import Border

#: A border that would fit the hand-made deck, 595 deep with rows of 145 at gaps of 5: by hand,
#: 595 - 2 x (145 + 5) = 295.
FITS = Border(
    article="QB-28-120", rows=1, width_mm=145.0, thickness_mm=28.0, gap_preferred_mm=5.0,
    gap_least_mm=4.0, gap_most_mm=8.0, beside_mm=5.0, beside_least_mm=4.0, beside_most_mm=8.0,
    field_depth_mm=295.0, packing_mm=0.0, packed="",
)  # fmt: skip
AT, ROWS = "surface.border", "surface.rows"
EDGED = both(to(AT, FITS), to(f"{ROWS}[0].border", True), to(f"{ROWS}[3].border", True))

BORDERS: tuple[Fault, ...] = (
    ("AUD-141", "a row of a border that is not there", to(f"{ROWS}[0].border", True)),
    ("AUD-141", "a border without its rows", to(AT, FITS)),
    ("AUD-141", "a border inside the field", both(EDGED, to(f"{ROWS}[1].border", True))),
    ("AUD-141", "a row of another width", both(EDGED, to(f"{AT}.width_mm", 140.0))),
    ("AUD-141", "a border ripped", both(EDGED, to(f"{ROWS}[0].ripped", True))),
    ("AUD-141", "a border and no field", both(
        EDGED, to(f"{AT}.rows", 2), to(f"{ROWS}[1].border", True), to(f"{ROWS}[2].border", True))),
    ("AUD-141", "a border of nothing but itself", both(
        EDGED, without(ROWS, 2), without(ROWS, 1))),
    ("AUD-142", "another gap beside it", both(EDGED, to(f"{AT}.beside_mm", 6.0))),
    ("AUD-142", "a least gap that one board does not allow", both(
        EDGED, to(f"{AT}.beside_least_mm", 3.0))),
    ("AUD-142", "a most gap that one board does not allow", both(
        EDGED, to(f"{AT}.beside_most_mm", 9.0))),
    ("AUD-142", "its own gaps out of order", both(EDGED, to(f"{AT}.gap_least_mm", 6.0))),
    ("AUD-142", "no gap that suits both", both(
        EDGED, to(f"{AT}.gap_least_mm", 9.0), to(f"{AT}.gap_preferred_mm", 9.0),
        to(f"{AT}.gap_most_mm", 9.0))),
    ("AUD-143", "a field deeper than is left", both(EDGED, to(f"{AT}.field_depth_mm", 300.0))),
    ("AUD-144", "packers that nobody needs", both(EDGED, to(f"{AT}.packing_mm", 7.0))),
    ("AUD-144", "a border packed that is not thinner", both(EDGED, to(f"{AT}.packed", "border"))),
    ("AUD-144", "packers that no finding tells of", both(
        EDGED, to(f"{AT}.thickness_mm", 21.0), to(f"{AT}.packing_mm", 7.0),
        to(f"{AT}.packed", "border"))),
    ("AUD-144", "a fixed gap that no finding tells of", both(
        EDGED, to(f"{AT}.gap_least_mm", 5.0), to(f"{AT}.gap_most_mm", 5.0))),
    ("AUD-145", "a border in the surface alone", EDGED),
    ("AUD-146", "packers under boards that have no border", to(
        "fixings.board_packers", BoardPackers(article="QP-3", height_mm=3.0, count=4))),
    ("AUD-146", "no packers under a thinner border", both(EDGED, to(f"{AT}.thickness_mm", 21.0))),
    ("AUD-145", "a border in the fixings alone", to("fixings.seal_border_ends", True)),
    ("AUD-105", "a whole row of no board's width", both(EDGED, to(f"{ROWS}[1].width_mm", 140.0))),
)  # fmt: skip
