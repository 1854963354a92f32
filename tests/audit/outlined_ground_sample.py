"""The hand-made L on its ground, set out by ties: every figure worked out by hand.

Margins of 100 beyond E2 to E6, 10 at the house: 2200 x 630 and 1200 x 525 more, 2.016 m2. A young
tree of 10 mm, its roots 120 round: 64 x tan(pi / 64) x 0.12^2 = 0.045275 m2 of it are left.
"""

from math import hypot

from attrs import evolve

from audit.ground_faults import levels
from audit.outlined_sample import box, outlined_plan, spot, spots
from drylay.fixings.model import CoachScrews, Fixings
from drylay.groundwork.model import Dig, Fabric, FabricStrip, Groundwork, Packing, RootZone
from drylay.outline.model import Opening
from drylay.plan.model import Plan
from drylay.work.model import Peg, PegTie, SettingOut, Work

TREE = Opening(
    mark="O2", kind="tree", corners=box(670.0, 220.0, 730.0, 280.0),
    within=box(680.0, 230.0, 720.0, 270.0), clear_mm=10.0, clear_least_mm=0.0,
    clear_most_mm=None,
)  # fmt: skip


def dig() -> Dig:
    """1.970725 x 0.05 = 0.09853625 m3, x 1.25 = 0.1231703: one bag, one skip."""
    zone = RootZone(opening="O2", middle=spot((700.0, 250.0)), trunk_mm=10.0, radius_mm=120.0)
    return Dig(
        margin_mm=100.0, house_margin_mm=10.0, along_mm=2200.0, across_mm=1155.0, depth_mm=50.0,
        solid_m3=0.099, bulking_ratio=1.25, loose_m3=0.124, spoil="skip", bag_m3=0.7, bags=1,
        skip_m3=4.587, skips=1, area_m2=1.970725, roots_m2=0.045275, roots=(zone,),
    )  # fmt: skip


def fabric() -> Fabric:
    """Along: bands of 1000 from -10 and 890, over 2200 and 1200. Across: three, 1155 the most."""
    return Fabric(
        article="QG-1", width_mm=1000.0, lap_mm=100.0, run="along",
        strips=(FabricStrip(mark="G1", length_mm=2200.0), FabricStrip(mark="G2", length_mm=1200.0)),
        other_strips=3, other_length_mm=1155.0, other_note="dearer",
    )  # fmt: skip


def packing() -> Packing:
    """Three under each joist of 955, two under each of 410 and each trimmer; R1 lies on seven."""
    places = [(x, y) for x in (22.5, 341.0, 659.0, 977.5) for y in (45.0, 522.5, 1000.0)]
    places += [(x, y) for x in (1304.0, 1631.0, 1957.5) for y in (45.0, 455.0)]
    places += [(x, y) for y in (712.5, 892.5) for x in (363.5, 636.5)]
    places += [(532.5, 735.0), (532.5, 870.0)]
    return Packing(
        article="QP-10", reach_least_mm=10.0, reach_most_mm=60.0, levels_known=True,
        height_least_mm=20.0, height_most_mm=40.0, spacing_most_mm=600.0, per_joist=7, count=24,
        places=spots(*places),
    )  # fmt: skip


def coach() -> CoachScrews:
    """Heads 48 and 80 below the rim's top, half a washer of 24 lower: 92, over 120 of fascia."""
    return CoachScrews(
        article="QC-8-120", shank_mm=8.0, length_mm=120.0, length_least_mm=100.0,
        per_joist_end=2, joist_ends=20, count=40, pilot_ratio=0.7, pilot_mm=5.6, head_mm=5.0,
        sink_mm=5.0, edge_least_mm=32.0, top_least_mm=48.0,
    )  # fmt: skip


#: The face stands 20 back from E2 and E3.
PEGS = ((0.0, 0.0), (1980.0, 0.0), (1980.0, 500.0), (1000.0, 500.0), (1000.0, 1045.0),
        (0.0, 1045.0))  # fmt: skip
#: By which two each is placed: P4 where P1 and P2 meet at 126 degrees, P6 where P1 and P5 do at 90.
PLACED = ((1, 2), (1, 3), (2, 3), (1, 4), (2, 4), (1, 5), (2, 5), (1, 6), (5, 6))
#: The longest that is left to each: the post stands between P6 and P2, and P6 and P4.
CHECKED = ((3, 4), (3, 5), (3, 6))


def tie(one: int, other: int, *, check: bool) -> PegTie:
    (ax, ay), (bx, by) = PEGS[one - 1], PEGS[other - 1]
    length_mm = round(hypot(bx - ax, by - ay) * 320) / 320
    return PegTie(start=f"P{one}", end=f"P{other}", length_mm=length_mm, check=check)


def setting_out() -> SettingOut:
    """Sides of 1980 and 1045 at P1: three times 300 and 400."""
    return SettingOut(
        pegs=tuple(Peg(mark=f"P{n}", along_mm=x, across_mm=y)
                   for n, (x, y) in enumerate(PEGS, start=1)),
        leg_along_mm=1200.0, leg_across_mm=900.0, slant_mm=1500.0, accepted_mm=5.0, tie_count=12,
        ties=(*(tie(*pair, check=False) for pair in PLACED),
              *(tie(*pair, check=True) for pair in CHECKED)),
    )  # fmt: skip


def plan_on_the_ground() -> Plan:
    """Return the L with what lies under it, where it stands, and how it is set out."""
    bare = outlined_plan()
    plan = levels(underside=30.0, least=-20.0, most=0.0)(bare)
    assert plan.site is not None
    assert bare.outline is not None
    return evolve(
        plan,
        outline=evolve(bare.outline, openings=(*bare.outline.openings, TREE)),
        site=evolve(plan.site, beside_house=True),
        fixings=Fixings(deck_screws=None, coach_screws=coach()),
        groundwork=Groundwork(dig=dig(), fabric=fabric(), gravel=None, packing=packing()),
        work=Work(face_up="", people=2, setting_out=setting_out(), tasks=(), tools=(), holds=0,
                  lighting=None, least_h=0.0, most_h=0.0),
    )  # fmt: skip
