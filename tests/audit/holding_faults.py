"""Planted faults in what holds noggins, splices, fascia and joists, in metals and treatment."""

from audit.planting import Fault, both, by, finding, to, turned, twice, without

TIMBERS, FASCIA, HUNG = "fixings.frame_screws", "fixings.fascia_screws", "fixings.hangers"
PLACES = f"{FASCIA}.places"
METAL, CLASS = "fixings.metals", "fixings.use_classes"

HOLDING: tuple[Fault, ...] = (
    ("AUD-621", "frame screws miscounted", by(f"{TIMBERS}.count", -2)),
    ("AUD-621", "noggin ends miscounted", by(f"{TIMBERS}.noggin_ends", 2)),
    ("AUD-621", "splice sides miscounted", by(f"{TIMBERS}.splice_sides", -2)),
    ("AUD-621", "a noggin without its screws", without("frame.noggins", 9)),
    ("AUD-622", "a frame screw too short", to(f"{TIMBERS}.length_mm", 80.0)),
    (
        "AUD-622",
        "a frame screw as short as the joist",
        both(to(f"{TIMBERS}.length_mm", 45.0), to(f"{TIMBERS}.length_least_mm", 40.0)),
    ),
    ("AUD-622", "a frame screw's pilot of another ratio", to(f"{TIMBERS}.pilot_mm", 5.0)),
    ("AUD-623", "fascia screws miscounted", by(f"{FASCIA}.count", 2)),
    ("AUD-624", "a fascia screw a mark off", by(f"{PLACES}[3].offset_mm", 0.5)),
    ("AUD-624", "a fascia screw into a coach screw", to(f"{PLACES}[0].offset_mm", 60.0)),
    ("AUD-624", "a place left out", without(PLACES, 4)),
    ("AUD-624", "a place on no piece", to(f"{PLACES}[0].fascia", "F-house.1")),
    ("AUD-624", "places further apart than the limit", to(f"{FASCIA}.spacing_most_mm", 450.0)),
    ("AUD-624", "a place on the joint of a rim", to(f"{PLACES}[8].offset_mm", 600.0)),
    ("AUD-624", "no place keeps clear", to(f"{FASCIA}.end_least_mm", 1100.0)),
    ("AUD-625", "pieces in another order", turned(PLACES, 1, 2)),
    ("AUD-626", "a head forgotten", to(f"{FASCIA}.clear_mm", 2.5)),
    ("AUD-627", "a fascia screw too short", to(f"{FASCIA}.length_mm", 35.0)),
    (
        "AUD-627",
        "a fascia screw as short as the fascia",
        both(to(f"{FASCIA}.length_mm", 20.0), to(f"{FASCIA}.length_least_mm", 15.0)),
    ),
    ("AUD-627", "a fascia screw out behind", to(f"{FASCIA}.length_mm", 66.0)),
    ("AUD-627", "a fascia screw's pilot of another ratio", to(f"{FASCIA}.pilot_mm", 4.5)),
    # by hand: 3/4 of 154 is 115.5, and a shank of 5: 120.5 of 120
    ("AUD-627", "the lower fascia screws in the air", to("edges.fascia_depth_mm", 154.0)),
    ("AUD-628", "a hanger at a corner", by(f"{HUNG}.count", 2)),
    ("AUD-628", "hanger screws miscounted", by(f"{HUNG}.screw_count", -8)),
    ("AUD-629", "a hanger too wide", to(f"{HUNG}.joist_mm", 46.5)),
    ("AUD-629", "a hanger too narrow", to(f"{HUNG}.joist_mm", 43.5)),
    ("AUD-629", "a hanger too shallow", to(f"{HUNG}.depth_mm", 71.5)),
    ("AUD-629", "a hanger below the joist", to(f"{HUNG}.depth_mm", 120.5)),
    ("AUD-629", "hanger screws out behind", to(f"{HUNG}.screw_length_mm", 50.0)),
    ("AUD-629", "another share of the joist", to(f"{HUNG}.depth_least_mm", 60.0)),
    ("AUD-630", "a fixing without its metal", without(METAL, 2)),
    ("AUD-630", "a metal told twice", twice(METAL, 0)),
    ("AUD-630", "a metal of another article", to(f"{METAL}[1].article", "QC-8-120")),
    ("AUD-630", "a refused metal in an order", to(f"{METAL}[1].allowed", False)),
    ("AUD-636", "a coach screw told to go into a board", to(f"{METAL}[1].driven_into", "board")),
    ("AUD-636", "a screw that goes into nothing known", to(f"{METAL}[0].driven_into", "")),
    ("AUD-630", "no metal", to(f"{METAL}[1].metal", " ")),
    ("AUD-631", "boards for indoors", to(f"{CLASS}[0].use_class", 2)),
    ("AUD-631", "frame timber for boards", to(f"{CLASS}[1].use_class", 3)),
    ("AUD-631", "a fascia for indoors", to(f"{CLASS}[2].use_class", 1)),
    ("AUD-631", "timber nobody speaks of", without(CLASS, 1)),
    ("AUD-632", "an unknown class hushed up", to(f"{CLASS}[0].use_class", None)),
    (
        "AUD-632",
        "a known class called unknown",
        to("findings", (finding(code="MAT-006", subject="fascia"),)),
    ),
    ("AUD-633", "frame screws of no article", to(f"{TIMBERS}.article", "")),
    ("AUD-633", "no screw at a place", to(f"{FASCIA}.per_place", 0)),
    ("AUD-633", "hangers on no screw", to(f"{HUNG}.screws_each", 0)),
    # by hand: 120 of timber and 12 of room less 10: 122 at most
    ("AUD-634", "a fascia in the ground", to("edges.fascia_depth_mm", 133.0)),
    (
        "AUD-634",
        "a fascia in the ground by its packers",
        both(to("site", None), to("edges.fascia_depth_mm", 133.0)),
    ),
    (
        "AUD-635",
        "a fascia on nobody knows what, untold",
        both(to("site", None), to("groundwork", None)),
    ),
    # by hand: 70 - 28 = 42 of screw, a shank of 8, a washer of 24 and half of one: 86
    ("AUD-635", "bare heads untold", to("edges.fascia_depth_mm", 85.5)),
)

WITNESSED_HOLDING: tuple[Fault, ...] = (
    ("AUD-W31", "another frame screw", to(f"{TIMBERS}.article", "QN-99")),
    ("AUD-W31", "fascia screws left out", to(FASCIA, None)),
    ("AUD-W31", "another hanger", to(f"{HUNG}.article", "QH-99")),
    ("AUD-W32", "another shank of a frame screw", to(f"{TIMBERS}.shank_mm", 6.5)),
    ("AUD-W32", "another length of a fascia screw", to(f"{FASCIA}.length_mm", 55.0)),
    ("AUD-W32", "another driver", to(f"{TIMBERS}.driver", "slotted")),
    ("AUD-W32", "a hanger of another depth", to(f"{HUNG}.depth_mm", 95.0)),
    ("AUD-W32", "another screw of the hanger", to(f"{HUNG}.screw", "QS-45-70")),
    ("AUD-W32", "another shank of the hanger's screw", to(f"{HUNG}.screw_shank_mm", 4.5)),
    ("AUD-W32", "another length of the hanger's screw", to(f"{HUNG}.screw_length_mm", 35.0)),
    ("AUD-W32", "another driver of the hanger's screw", to(f"{HUNG}.driver", "slotted")),
    ("AUD-W32", "fewer screws in a hanger", to(f"{HUNG}.screws_each", 6)),
    ("AUD-W33", "another metal", to(f"{METAL}[0].metal", "stainless A4")),
    ("AUD-W34", "a metal the family refuses", to(f"{METAL}[0].metal", "bright zinc")),
    ("AUD-W35", "another use class", to(f"{CLASS}[0].use_class", 4)),
)
