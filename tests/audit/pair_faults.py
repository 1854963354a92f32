"""Planted faults in pairs, battens, clips and movement: what the hand-made deck does not have."""

from attrs import evolve

from audit.planting import Edit, Fault, both, by, to, turned, without
from audit.site_faults import in_reason
from drylay.plan.model import Plan

SEAM, BATTEN, CLIPS = "supports.seams[0]", "frame.battens[0]", "fixings.clips"
MOVES, CAPS = "pieces.movement", "fixings.end_caps"


def told(code: str, *, said: bool) -> Edit:
    """Return an edit that hushes a finding up."""
    assert not said

    def run(plan: Plan) -> Plan:
        kept = tuple(finding for finding in plan.findings if finding.code != code)
        return evolve(plan, findings=kept)

    return run


def behind_a_batten(plan: Plan) -> Plan:
    """Return a plan with a noggin in the middle of a batten of its bay."""
    batten = plan.frame.battens[0]
    index = next(n for n, each in enumerate(plan.frame.noggins) if each.left == batten.joist)
    middle_mm = batten.near_mm + batten.length_mm / 2
    return to(f"frame.noggins[{index}].across_mm", middle_mm)(plan)


def over_a_batten(plan: Plan) -> Plan:
    """Return a plan with its first light over the middle of a batten."""
    batten = plan.frame.battens[12]
    middle_mm = batten.near_mm + batten.length_mm / 2
    return both(
        to("work.lighting.lights[0].along_mm", batten.offset_mm),
        to("work.lighting.lights[0].across_mm", middle_mm),
    )(plan)


PAIRS: tuple[Fault, ...] = (
    ("AUD-307", "a seam off its joists", by(f"{SEAM}.offset_mm", 1.0)),
    ("AUD-307", "a seam beside other joists", to(f"{SEAM}.left", "J6")),
    ("AUD-307", "a seam beside no joist", to(f"{SEAM}.right", "J99")),
    ("AUD-307", "joists of a pair apart", by("supports.lines[7].offset_mm", 1.0)),
    ("AUD-307", "seams out of order", turned("supports.seams", 0, 1)),
    ("AUD-307", "seams miscounted", by("supports.seam_count", 1)),
    ("AUD-307", "seams without pairs", to("supports.joists_under_joint", 1)),
    ("AUD-308", "sections of too few bays", to("pieces.least_supports", 8)),
    ("AUD-308", "sections of too few bays for the stagger", to("pieces.stagger_bays", 7)),
    ("AUD-309", "an overhang nobody has", by("supports.overhang_mm", 1.0)),
    (
        "AUD-309",
        "an overhang beyond what is allowed, untold",
        to("supports.overhang_most_mm", -1.0),
    ),
    ("AUD-301", "joists that overlap", by("supports.lines[7].offset_mm", -1.0)),
    ("AUD-302", "a joist too few between two seams", without("supports.lines", 3)),
    ("AUD-303", "a joist off its seam", by("supports.lines[6].offset_mm", -1.0)),
    ("AUD-306", "a joist astray between two seams", by("supports.lines[9].offset_mm", 3.0)),
    ("AUD-401", "a joint off its seam", by("pieces.joints[0].centre_mm", 0.5)),
    ("AUD-401", "a joint over the wrong joist of a pair", to("pieces.joints[0].joist", "J8")),
    ("AUD-402", "neighbours jointed on one pair", to("pieces.joints[1].joist", "J7")),
    ("AUD-406", "a piece that begins beside its seam", by("pieces.pieces[1].start_mm", 1.0)),
    ("AUD-407", "a piece on the other joist of the pair", to("pieces.pieces[1].from_joist", "J7")),
    ("AUD-413", "the bearing of a single joist", to("pieces.end_bearing_mm", 19.5)),
    ("AUD-416", "a joint whose further end rests on nothing", to("pieces.joints[0].beside", "")),
    ("AUD-515", "battens told beside pairs", to("frame.batten_count", 0)),
    ("AUD-601", "screws at every row of a clip deck", to("fixings.deck_screws.crossings", 441)),
    ("AUD-601", "screws at joints of a clip deck", to("fixings.deck_screws.joints", 21)),
    ("AUD-613", "clips miscounted", by(f"{CLIPS}.count", 1)),
    ("AUD-613", "a gap too few", by(f"{CLIPS}.crossings", -21)),
    ("AUD-613", "starters miscounted", by(f"{CLIPS}.starter_count", -1)),
    ("AUD-614", "boards to be screwed in clips", to("fixings.hidden_clips", 0)),
    ("AUD-614", "boards to be clipped without", to(CLIPS, None)),
    ("AUD-614", "another gap than the clip's", to(f"{CLIPS}.gap_mm", 4.0)),
    ("AUD-614", "a clip without a name", to(f"{CLIPS}.article", " ")),
    ("AUD-615", "a board fixed at its end", to(f"{CLIPS}.fixed_points[0].joist", "J1")),
    ("AUD-615", "a board fixed nowhere", without(f"{CLIPS}.fixed_points", 0)),
    ("AUD-615", "a board fixed without a screw", by(f"{CLIPS}.fixed_screws", -1)),
    ("AUD-741", "screws of fixed points not bought", by("buying.packs[0].need", -40)),
    ("AUD-619", "a last row that cannot slide", by(f"{CLIPS}.slot_mm", -0.5)),
    ("AUD-619", "a slot no wider than its screw", by(f"{CLIPS}.slot_width_mm", -1.0)),
    ("AUD-619", "a last row without slots", to(f"{CLIPS}.slot_mm", None)),
    ("AUD-616", "caps miscounted", by(f"{CAPS}.count", 1)),
    ("AUD-616", "an open end forgotten", by(f"{CAPS}.ends", -1)),
    ("AUD-616", "a cap without a name", to(f"{CAPS}.article", "")),
    ("AUD-617", "starters wanted and not bought", to(f"{CLIPS}.starter_article", "")),
    ("AUD-417", "growth of another board", by(f"{MOVES}.board_mm", 100.0)),
    ("AUD-417", "another gap in the cold", by(f"{MOVES}.widest_mm", 0.1)),
    ("AUD-417", "another gap in the heat", by(f"{MOVES}.narrowest_mm", 0.1)),
    ("AUD-417", "boards fixed at their middles", by(f"{MOVES}.between_mm", -10.0)),
    ("AUD-417", "ends that stay where they are", to(f"{MOVES}.outer_mm", 0.0)),
    ("AUD-421", "too narrow a gap on a cold day", by(f"{MOVES}.other_days[0].end_gap_mm", -1.0)),
    ("AUD-421", "a day left out", without(f"{MOVES}.other_days", 2)),
    ("AUD-417", "another coefficient", to(f"{MOVES}.growth_per_k", 30e-6)),
    ("AUD-417", "another laying day", to(f"{MOVES}.laying_c", 15.0)),
    ("AUD-417", "a gap in the heat that nobody can reckon", to(f"{MOVES}.hottest_c", None)),
    (
        "AUD-418",
        "boards that press, hushed up",
        both(to(f"{MOVES}.narrowest_mm", -1.0), to("pieces.end_gap_mm", 1.0)),
    ),
    ("AUD-418", "laying day hushed up", told("MOV-101", said=False)),
    ("AUD-418", "growth told for a shorter board", to(f"{MOVES}.board_mm", 3000.0)),
    ("AUD-510", "noggins between the joists of a pair", by("frame.noggin_rows", 1)),
    ("AUD-511", "a noggin between the joists of a pair", to("frame.noggins[6].left", "J7")),
    ("AUD-741", "clips bought short of their need", by("buying.packs[2].need", -1)),
    ("AUD-741", "screws of fixed points not counted", to(f"{CLIPS}.fixed_screws", 0)),
    ("AUD-741", "screws beside ripped edges not bought", to(f"{CLIPS}.edge_screws", 40)),
    ("AUD-741", "clips bought where none is counted", to(f"{CLIPS}.count", 0)),
    ("AUD-804", "a task of other joint lines", to("supports.joists_under_joint", 1)),
    (
        "AUD-902",
        "a movement reckoned from another end gap",
        in_reason(f"{MOVES}.widest_mm", "inputs", (("end_gap_mm", 9.0),)),
    ),
    (
        "AUD-902",
        "a mass reckoned from other boards",
        in_reason("pieces.mass_kg", "inputs", (("mass_kg_m", 1.0),)),
    ),
    ("AUD-901", "seams told otherwise than they are", by("supports.seam_count", 1)),
)

#: In a deck whose joints lie in line, so that one batten carries many rows: J11's is 1840 long.
IN_LINE: tuple[Fault, ...] = (
    ("AUD-515", "a batten under half of its rows", by("frame.battens[12].length_mm", -920.0)),
    ("AUD-515", "a batten for each row", without("frame.battens", 12)),
    ("AUD-919", "a light over a batten", over_a_batten),
)

#: In a deck with outer rows of 75, the battens under which are as short as they may be.
NARROW: tuple[Fault, ...] = (
    ("AUD-515", "a batten no longer than its row asks", by(f"{BATTEN}.length_mm", -20.0)),
    ("AUD-515", "a batten too short to be screwed", to(f"{BATTEN}.length_mm", 80.0)),
)

BATTENS: tuple[Fault, ...] = (
    ("AUD-401", "a joint over the joist's middle", by("pieces.joints[0].centre_mm", -22.5)),
    ("AUD-416", "a joint on a batten of another joist", to("pieces.joints[0].beside", "Q99")),
    ("AUD-407", "a piece beside its batten", to("pieces.pieces[1].from_joist", "J5")),
    ("AUD-515", "a batten off its joist", by(f"{BATTEN}.offset_mm", 1.0)),
    ("AUD-515", "a batten beside its row", by(f"{BATTEN}.near_mm", 100.0)),
    ("AUD-515", "a batten too short for its row", by(f"{BATTEN}.length_mm", -20.0)),
    ("AUD-515", "a batten too few", without("frame.battens", 1)),
    ("AUD-515", "battens miscounted", by("frame.batten_count", 1)),
    ("AUD-515", "a batten of another mark", to(f"{BATTEN}.mark", "X1")),
    ("AUD-516", "a noggin behind a batten", behind_a_batten),
    ("AUD-613", "clips of a deck without battens", to(f"{CLIPS}.crossings", 20 * 17)),
    ("AUD-621", "battens without screws", to("fixings.frame_screws.batten_joints", None)),
    ("AUD-621", "two screws to a batten", to("fixings.frame_screws.per_batten_joint", 2)),
    ("AUD-512", "a noggin moved for no batten", by("frame.noggins[0].across_mm", 20.0)),
    ("AUD-918", "battens nobody takes time for", by("work.tasks[4].most_h", -1.0)),
)

WITNESSED_PAIRS: tuple[Fault, ...] = (
    ("AUD-W09", "one joist under joints wished in pairs", to("supports.joists_under_joint", 1)),
    ("AUD-W09", "another overhang allowed", to("supports.overhang_most_mm", 50.0)),
    ("AUD-W09", "another coefficient of growth", to(f"{MOVES}.growth_per_k", 50e-6)),
    ("AUD-W09", "another laying day", to(f"{MOVES}.laying_c", 15.0)),
    ("AUD-W09", "two clips at a crossing", to(f"{CLIPS}.per_crossing", 2)),
    ("AUD-W09", "two screws in the last row", to("fixings.deck_screws.per_crossing", 2)),
    ("AUD-W81", "another clip", to(f"{CLIPS}.article", "K-99")),
    ("AUD-W81", "another starter", to(f"{CLIPS}.starter_article", "K-99")),
    ("AUD-W81", "another cap", to(f"{CAPS}.article", "K-99")),
    ("AUD-W81", "another gap than the clip is sold with", to(f"{CLIPS}.gap_mm", 4.0)),
    ("AUD-W82", "other joint lines than the brief fixes", by("supports.seams[0].offset_mm", 3.0)),
    ("AUD-W83", "boards that weigh less than their metres", by("pieces.mass_kg", -1.0)),
    ("AUD-W33", "a clip of another metal", to("fixings.metals[3].metal", "aluminium")),
)
