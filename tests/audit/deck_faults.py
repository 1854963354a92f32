"""Planted faults in the deck itself: rows, edges, supports, pieces, frame, fixings."""

from decimal import Decimal

from attrs import evolve

from audit.edits import change
from audit.planting import (
    NO_KIND,
    Fault,
    both,
    by,
    finding,
    to,
    turned,
    twice,
    without,
)
from drylay.findings import Severity

WHOLE: tuple[Fault, ...] = (
    ("AUD-001", "a gap that is no number", to("surface.rows[1].gap_mm", float("nan"))),
    ("AUD-001", "a price without end", to("buying.total", Decimal("Infinity"))),
    ("AUD-002", "a length between the 1/320 mm", by("pieces.pieces[1].start_mm", 0.001)),
    ("AUD-003", "units nobody knows", to("units", "cubits")),
    ("AUD-003", "a plan file of another day", to("schema_version", 99)),
    ("AUD-004", "a digest that is none", to("digests.brief", "1234")),
    ("AUD-005", "no family", to("families", ())),
    ("AUD-005", "a family of no package", to("families[0].package", "")),
    ("AUD-006", "a stop with an order", to("findings", (finding(severity=Severity.STOP),))),
    ("AUD-007", "a frame left out", to("frame", None)),
    ("AUD-008", "a finding by hearsay", to("findings", (finding(source=NO_KIND),))),
    ("AUD-008", "a finding in the audit's name", to("findings", (finding(code="AUD-1"),))),
    ("AUD-009", "a finding of no figure", to("findings", (finding(measured=123.25, limit=5.0),))),
)

ROWS: tuple[Fault, ...] = (
    ("AUD-101", "rows that do not add up to the cover", by("surface.rows[1].width_mm", 1.0)),
    ("AUD-102", "a row set beyond its gap", by("surface.rows[2].near_mm", 1.0)),
    ("AUD-102", "a gap before the first row", to("surface.rows[0].gap_mm", 5.0)),
    ("AUD-102", "a last row short of the cover", by("surface.rows_depth_mm", 1.0)),
    ("AUD-103", "a gap too wide", to("surface.rows[1].gap_mm", 8.5)),
    ("AUD-103", "a gap too narrow", to("surface.rows[1].gap_mm", 3.5)),
    ("AUD-104", "a wish outside its range", to("surface.gap_preferred_mm", 9.0)),
    ("AUD-104", "a wish below its range", to("surface.gap_preferred_mm", 3.0)),
    ("AUD-104", "an empty range", to("surface.gap_least_mm", 9.0)),
    ("AUD-105", "a narrow row that is not ripped", to("surface.rows[3].width_mm", 140.0)),
    ("AUD-105", "a ripped row of full width", to("surface.rows[3].ripped", True)),
    (
        "AUD-105",
        "a rip too narrow",
        both(to("surface.rows[3].ripped", True), to("surface.rows[3].width_mm", 70.0)),
    ),
    ("AUD-106", "a rip in the middle", to("surface.rows[1].ripped", True)),
    ("AUD-107", "a sliver", to("surface.rows[3].width_mm", 40.0)),
    ("AUD-108", "rows in the wrong order", turned("surface.rows", 1, 2)),
    ("AUD-109", "a row off the pencil marks", by("surface.rows[1].near_mm", 0.1)),
    ("AUD-110", "a naive count one too many", by("surface.whole_rows", 1)),
    ("AUD-110", "a remainder where there is none", to("surface.remainder_mm", 5.0)),
    ("AUD-110", "a strip where there is none", to("surface.strip_mm", 5.0)),
    ("AUD-111", "a cover longer than its rows", by("surface.cover_along_mm", 1.0)),
    ("AUD-111", "a cover deeper than its rows", by("surface.cover_across_mm", 1.0)),
    ("AUD-111", "boards that run nowhere", to("surface.run", "askew")),
    ("AUD-111", "boards that run the other way", to("surface.run", "across")),
    ("AUD-112", "a deck without rows", to("surface.rows", ())),
    ("AUD-112", "a board of no width", to("surface.board_width_mm", 0.0)),
    ("AUD-112", "a board of no thickness", to("surface.board_thickness_mm", 0.0)),
)

WAY = "surface.ways_out"
WAYS: tuple[Fault, ...] = (
    ("AUD-121", "two ways out chosen", to(f"{WAY}[2].chosen", True)),
    ("AUD-121", "no way out chosen", to(f"{WAY}[0].chosen", False)),
    ("AUD-122", "another way out than is laid", to("surface.way_out", "grow")),
    ("AUD-122", "a chosen way of other rows", by(f"{WAY}[0].rows", 1)),
    ("AUD-122", "a chosen way of another first row", by(f"{WAY}[0].first_row_mm", -1.0)),
    ("AUD-122", "a chosen way of another change", by(f"{WAY}[0].cover_change_mm", 1.0)),
    ("AUD-123", "a way out that does not fill", by(f"{WAY}[1].gap_mm", 0.5)),
    ("AUD-123", "a way out of one row too wide", both(to(f"{WAY}[1].rows", 1))),
    ("AUD-123", "a turned way that does not fill", to(f"{WAY}[1].run", "across")),
    ("AUD-124", "a grown cover that shrinks", to(f"{WAY}[1].cover_change_mm", -150.0)),
    ("AUD-124", "a rip that is none", to(f"{WAY}[2].last_row_mm", 145.0)),
    ("AUD-124", "boards turned unsaid", to(f"{WAY}[1].run", "across")),
    ("AUD-125", "a way out told twice", twice(WAY, 1)),
    ("AUD-125", "a way out nobody knows", to(f"{WAY}[1].kind", "pray")),
    ("AUD-125", "a way out without rows", to(f"{WAY}[1].rows", 0)),
    ("AUD-126", "a dishonest way called honest", to(f"{WAY}[1].honest", True)),
    ("AUD-127", "a chosen way that breaks a rule", to(f"{WAY}[0].rules[0].met", False)),
    ("AUD-128", "a chosen way of another price", by(f"{WAY}[0].cost", Decimal("0.01"))),
    ("AUD-129", "a rule of another figure", by(f"{WAY}[2].rules[2].measured", 1.0)),
    ("AUD-129", "a rule of another limit", by(f"{WAY}[2].rules[4].limit", 1.0)),
    ("AUD-129", "rips allowed for other rows", by(f"{WAY}[2].rules[0].limit", 1.0)),
    ("AUD-130", "a broken rule called met", to(f"{WAY}[1].rules[2].met", True)),
    ("AUD-130", "a met rule called broken", to(f"{WAY}[2].rules[4].met", False)),
)

EDGES: tuple[Fault, ...] = (
    ("AUD-201", "fascia missing from the sum", to("edges.frame_length_mm", 4085.0)),
    ("AUD-201", "fascia missing from the depth", to("edges.frame_depth_mm", 595.0)),
    ("AUD-201", "fascia missing at the start", to("edges.frame_start_mm", 0.0)),
    ("AUD-202", "a short face over its corners", to("edges.faces[0].length_mm", 595.0)),
    ("AUD-202", "a long face called short", to("edges.faces[1].long_face", False)),
    ("AUD-203", "fascia pieces that do not add up", by("edges.faces[1].pieces[0].length_mm", 1.0)),
    (
        "AUD-204",
        "fascia pieces of unequal length",
        both(
            by("edges.faces[1].pieces[0].length_mm", 20.0),
            by("edges.faces[1].pieces[1].length_mm", -20.0),
        ),
    ),
    ("AUD-205", "more pieces of fascia than needed", twice("edges.faces[1].pieces", 0)),
    ("AUD-206", "a face on no side", to("edges.faces[1].side", "top")),
    ("AUD-206", "a side faced twice", twice("edges.faces", 1)),
    ("AUD-206", "a face of another mark", to("edges.faces[1].mark", "F-house")),
    ("AUD-206", "a piece of another mark", to("edges.faces[1].pieces[1].mark", "F-front.1")),
    ("AUD-207", "a fascia of no article", to("edges.fascia_article", "")),
    ("AUD-207", "a fascia on no side", to("edges.faces", ())),
)

SUPPORTS: tuple[Fault, ...] = (
    ("AUD-301", "a joist too far", by("supports.lines[4].offset_mm", 1.0)),
    ("AUD-301", "a strict limit missed by a tenth", to("supports.most_centres_mm", 399.9)),
    ("AUD-301", "joists out of order", turned("supports.lines", 3, 4)),
    ("AUD-302", "a joist line too many", by("supports.line_count", 1)),
    ("AUD-302", "a joist line not listed", without("supports.lines", 4)),
    ("AUD-303", "a first joist off the frame's face", by("supports.lines[0].offset_mm", 1.0)),
    ("AUD-303", "a last joist off the frame's face", by("supports.lines[10].offset_mm", -1.0)),
    ("AUD-304", "centres that are not the widest bay", to("supports.centres_mm", 399.0)),
    ("AUD-305", "lines that do not mirror", by("supports.lines[3].offset_mm", -0.5)),
    ("AUD-306", "a line far from even", by("supports.lines[3].offset_mm", -20.0)),
)

P = "pieces.pieces"
PIECES: tuple[Fault, ...] = (
    ("AUD-401", "a joint off its joist", by("pieces.joints[0].centre_mm", 1.0)),
    ("AUD-401", "a joint over no joist", to("pieces.joints[0].joist", "J99")),
    (
        "AUD-402",
        "neighbours' joints too near",
        both(to("pieces.joints[1].joist", "J5"), to("pieces.joints[1].centre_mm", 1642.5)),
    ),
    ("AUD-403", "a piece on two joists", to("pieces.least_supports", 5)),
    ("AUD-404", "more joints than the cap", to("pieces.most_joints_per_row", 0)),
    ("AUD-405", "pieces that do not fill the row", by(f"{P}[0].length_mm", 1.0)),
    ("AUD-406", "a piece that begins elsewhere", by(f"{P}[1].start_mm", 1.0)),
    ("AUD-406", "a piece that ends elsewhere", by(f"{P}[1].length_mm", -1.0)),
    ("AUD-407", "pieces that meet on another joist", to(f"{P}[0].to_joist", "J5")),
    ("AUD-408", "a cut without its allowance", to("pieces.trim_allowance_mm", 20.0)),
    ("AUD-408", "a piece cut long", by(f"{P}[0].cut_mm", 1.0)),
    ("AUD-409", "a piece wider than its row", by(f"{P}[0].width_mm", 1.0)),
    ("AUD-409", "a piece of no row", to(f"{P}[0].row", "B99")),
    ("AUD-410", "pieces in the wrong order", turned(P, 0, 1)),
    ("AUD-410", "two pieces of one mark", to(f"{P}[1].mark", "B1.1")),
    ("AUD-411", "joints miscounted", by("pieces.joint_count", 1)),
    ("AUD-411", "a piece left out", without(P, 1)),
    ("AUD-412", "a joint of no row", to("pieces.joints[0].row", "B99")),
    ("AUD-412", "a joint told twice", twice("pieces.joints", 0)),
    ("AUD-413", "a bearing that is not half the joist", by("pieces.end_bearing_mm", 1.0)),
    ("AUD-413", "a bearing below its least", to("pieces.end_bearing_least_mm", 25.0)),
    ("AUD-414", "a stagger below nothing", to("pieces.stagger_bays", -1)),
)

FRAME: tuple[Fault, ...] = (
    ("AUD-501", "joists changed over", turned("frame.joists", 2, 3)),
    ("AUD-501", "a joist off its line", by("frame.joists[3].offset_mm", 1.0)),
    ("AUD-501", "a joist too few", without("frame.joists", 3)),
    ("AUD-502", "a joist into the rim", by("frame.joists[3].near_mm", -1.0)),
    ("AUD-502", "a joist cut long", by("frame.joists[3].length_mm", 1.0)),
    ("AUD-503", "other timber than the lines count on", by("frame.timber_thickness_mm", 1.0)),
    ("AUD-503", "timber laid flat", to("frame.timber_depth_mm", 40.0)),
    ("AUD-504", "a rim off the frame's edge", by("frame.rims[1].near_mm", 1.0)),
    ("AUD-504", "a rim too long", by("frame.rims[1].length_mm", 1.0)),
    ("AUD-504", "a rim that begins elsewhere", by("frame.rims[0].start_mm", 1.0)),
    ("AUD-504", "one rim only", without("frame.rims", 1)),
    ("AUD-504", "rims changed over", turned("frame.rims", 0, 1)),
    ("AUD-505", "a gap in a rim", by("frame.rims[0].pieces[1].start_mm", 1.0)),
    ("AUD-505", "a rim that stops short", by("frame.rims[0].pieces[1].length_mm", -1.0)),
    ("AUD-505", "a rim piece of another mark", to("frame.rims[0].pieces[0].mark", "RB.1")),
    ("AUD-506", "a rim jointed on a joist", to("frame.rims[0].pieces[1].start_mm", 2442.5)),
    ("AUD-507", "a rim piece over one joist", to("frame.rims[0].pieces[1].length_mm", 300.0)),
    ("AUD-508", "rim joints miscounted", by("frame.rim_joints", -1)),
    ("AUD-509", "a splice left out", without("frame.splices", 1)),
    ("AUD-509", "a splice too long for its bay", by("frame.splices[0].length_mm", 1.0)),
    ("AUD-509", "a splice under a joist", to("frame.splices[0].offset_mm", 2442.5)),
    ("AUD-509", "a splice of another mark", to("frame.splices[0].mark", "S9")),
    ("AUD-510", "too few rows of noggins", to("frame.noggin_rows", 0)),
    ("AUD-510", "a noggin left out", without("frame.noggins", 9)),
    ("AUD-511", "a noggin longer than its bay", by("frame.noggins[0].length_mm", 1.0)),
    ("AUD-511", "a noggin between other joists", to("frame.noggins[0].right", "J3")),
    ("AUD-511", "noggins in the wrong order", turned("frame.noggins", 0, 1)),
    ("AUD-512", "a noggin in line with its neighbour", to("frame.noggins[1].across_mm", 265.0)),
    (
        "AUD-513",
        "a row of noggins off the middle",
        lambda plan: change(
            plan,
            "frame.noggins",
            lambda old: tuple(evolve(n, across_mm=n.across_mm + 10.0) for n in old),  # type: ignore[attr-defined]
        ),
    ),
    ("AUD-514", "a diagonal out of square", by("frame.diagonal_mm", 1.0)),
)

DECK, COACH = "fixings.deck_screws", "fixings.coach_screws"
FIXINGS: tuple[Fault, ...] = (
    ("AUD-601", "screws miscounted", by(f"{DECK}.count", -2)),
    ("AUD-601", "crossings miscounted", by(f"{DECK}.crossings", 1)),
    ("AUD-601", "joints miscounted", by(f"{DECK}.joints", 1)),
    ("AUD-602", "a screw too short", to(f"{DECK}.length_mm", 60.0)),
    (
        "AUD-602",
        "a screw as short as the board",
        both(to(f"{DECK}.length_mm", 28.0), to(f"{DECK}.length_least_mm", 20.0)),
    ),
    ("AUD-603", "a screw through the joist", to(f"{DECK}.length_mm", 150.0)),
    ("AUD-604", "edges wider than the board", to(f"{DECK}.edge_least_mm", 80.0)),
    ("AUD-605", "a screw beside the joist", to(f"{DECK}.end_least_mm", 20.5)),
    ("AUD-606", "a pilot of another ratio", to(f"{DECK}.pilot_mm", 4.0)),
    ("AUD-606", "a pilot as thick as the screw", to(f"{DECK}.pilot_ratio", 1.2)),
    ("AUD-607", "coach screws miscounted", by(f"{COACH}.count", 1)),
    ("AUD-607", "joist ends miscounted", by(f"{COACH}.joist_ends", 1)),
    ("AUD-608", "a coach screw too short", to(f"{COACH}.length_mm", 100.0)),
    (
        "AUD-608",
        "a coach screw as short as the rim",
        both(to(f"{COACH}.length_mm", 45.0), to(f"{COACH}.length_least_mm", 40.0)),
    ),
    ("AUD-609", "heads proud under the fascia", to(f"{COACH}.sink_mm", 5.0)),
    ("AUD-609", "heads sunk through the rim", to(f"{COACH}.sink_mm", 45.0)),
    ("AUD-609", "heads sunk under no fascia", to("edges.faces", ())),
    ("AUD-610", "a coach screw without a head", to(f"{COACH}.head_mm", 0.0)),
)
