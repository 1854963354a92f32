"""What a deck that stands adds to a plan, put together by hand: one bearer on two posts.

Levels: 600 of finished deck, less boards of 28, joists of 145 and a bearer of 145, leave post tops
at 282. The ground lies at 0 and at -100, metal feet hold the posts 50 off it: 232 and 332 long.
All loads and lengths are round figures, chosen to be added up in one's head.
"""

from attrs import evolve

from drylay.flights.model import Flight, Steps
from drylay.groundwork.model import Footing, Footings, PostFooting
from drylay.guards.model import (
    Edge,
    Facet,
    GroundSpot,
    Guard,
    GuardRun,
    Guards,
    Infill,
    Passage,
    PostLine,
    Stretch,
)
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.raised.model import (
    Bearer,
    Brace,
    Bracing,
    Heights,
    Ledger,
    LegPiece,
    PlyJoint,
    Post,
    PostRow,
    RaisedDeck,
    RaisedFrame,
)
from drylay.reasons import Source
from drylay.strength.model import (
    BeamAsked,
    BoardAsked,
    Check,
    LedgerAsked,
    PostAsked,
    Screened,
    Section,
    Strength,
)
from plan.sample import sample_plan

MADE_UP = Source(kind="assumption", title="made up for this test")
JOIST, BEARER = (
    Section(breadth_mm=45.0, depth_mm=145.0),
    Section(breadth_mm=45.0, depth_mm=145.0, plies=2),
)
POST = Section(breadth_mm=95.0, depth_mm=95.0)
#: Mark, place along, ground, post: top at 282, and what is between that and the foot, 50 up.
POSTS = (("PO1", 400.0, 0.0, 232.0), ("PO2", 2600.0, -100.0, 332.0))
ACROSS_MM = 1800.0


def post_of(mark: str, along_mm: float, ground_mm: float, length_mm: float) -> Post:
    return Post(
        mark=mark, bearer="BR1", place=Spot(along_mm=along_mm, across_mm=ACROSS_MM), section=POST,
        top_mm=282.0, ground_mm=ground_mm, stand_off_mm=50.0, embed_mm=0.0, length_mm=length_mm,
        whole_mm=length_mm, height_class="plain",
    )  # fmt: skip


def row_of(mark: str, along_mm: float, ground_mm: float, length_mm: float) -> PostRow:
    return PostRow(
        mark=mark, bearer="BR1", along_mm=along_mm, across_mm=ACROSS_MM, ground_mm=ground_mm,
        top_mm=282.0, cut_below_mm=-282.0, length_mm=length_mm, whole_mm=length_mm,
        height_class="plain", braces=("KT1",) if mark == "PO2" else (),
    )  # fmt: skip


def raised_frame() -> RaisedFrame:
    heights = Heights(
        finished_mm=600.0, board_mm=28.0, joist_over_mm=145.0, bearer_mm=145.0, stand_off_mm=50.0,
        embed_mm=0.0, short_mm=150.0, brace_over_mm=300.0, screened_mm=1800.0,
    )  # fmt: skip
    bearer = Bearer(
        mark="BR1", line="line 1", section=BEARER, across_mm=ACROSS_MM, start_mm=0.0,
        end_mm=3000.0, carried_mm=1100.0, joints=(PlyJoint(ply=1, post=2, at_mm=2600.0),),
    )  # fmt: skip
    ledger = Ledger(
        mark="LG1", wall="solid masonry", section=JOIST, start_mm=0.0, end_mm=3000.0,
        spacing_most_mm=500.0, stations_mm=(100.0, 600.0, 1100.0), source=MADE_UP,
    )  # fmt: skip
    brace = Brace(mark="KT1", post="PO2", way="along", hand=-1, leg_mm=200.0, length_mm=282.84375)
    return RaisedFrame(
        heights=heights, joist_from_mm=0.0, joist_to_mm=2000.0, ledger=ledger, bearers=(bearer,),
        posts=tuple(post_of(*post) for post in POSTS),
        bracing=Bracing(over_mm=300.0, leg_mm=200.0, braces=(brace,), source=MADE_UP),
        schedule=tuple(row_of(*post) for post in POSTS), buildable=True,
    )  # fmt: skip


def raised_deck() -> RaisedDeck:
    return RaisedDeck(
        bearer_article="FT45x145", post_article="PO95x95", bearer="2 x FT45x145", post="PO95x95",
        foot="metal foot, 50 mm off the ground", line_count=1, post_count=2,
        ledger_wall="solid masonry", ledger_fixing="bolt", sharing="levered",
        joist_span_mm=1777.5, joist_end_mm=200.0, bearer_span_mm=2200.0, bearer_end_mm=400.0,
        post_top_mm=282.0, brace_over_mm=300.0, frame=raised_frame(),
        pieces=tuple(LegPiece(mark=post[0], kind="post", length_mm=post[3]) for post in POSTS),
    )  # fmt: skip


def screened(subject: str, ratio: float) -> Screened:
    """Return one check with a limit of 10, so that a ratio of 0.25 measures 2.5."""
    check = Check(
        name="bending", subject=subject, measured=10.0 * ratio, limit=10.0, unit="N/mm2",
        utilisation_ratio=ratio, case="all", formula="M / W over f", source=MADE_UP,
        inputs=(("M_kn_m", 1.5), ("depth_mm", 145.0)),
    )  # fmt: skip
    return Screened(
        basis="made-up", subject=subject, checks=(check,), assumed=("one joist takes it all",)
    )


def strength() -> Strength:
    """Return joists, bearer, posts, boards and ledger: the bearer is used most, to 0.75."""
    joists = BeamAsked(
        kind="joist", subject="joists", wood="C24", section=JOIST, length_mm=2000.0,
        supports_mm=(22.5, 1800.0), carried_mm=400.0, bearing_mm=45.0, alike=4, sharing="one joist",
    )  # fmt: skip
    bearer = BeamAsked(
        kind="bearer", subject="BR1", wood="C24", section=BEARER, length_mm=3000.0,
        supports_mm=(400.0, 2600.0), carried_mm=1100.0, bearing_mm=90.0, held_each_mm=400.0,
    )  # fmt: skip
    return Strength(
        basis="made-up", title="A basis made up", use="dwelling", sharing="one joist",
        dead_kn_m2=0.5, imposed_kn_m2=2.0, point_kn=2.0, own_weight_apart=False,
        beams=(joists, bearer),
        posts=tuple(
            PostAsked(subject=mark, wood="C24", section=POST, length_mm=length, dead_kn=1.0,
                      live_kn=4.0)
            for mark, _, _, length in POSTS
        ),
        boards=(BoardAsked(subject="boards", wood="C18", bay_mm=400.0, bays=2,
                           section=Section(breadth_mm=145.0, depth_mm=28.0)),),
        ledgers=(LedgerAsked(subject="LG1", wood="C24", section=JOIST, span_mm=1777.5,
                             spacing_mm=500.0, fixing="bolt"),),
        screened=(screened("joists", 0.5), screened("BR1", 0.75), screened("PO1", 0.125),
                  screened("PO2", 0.125), screened("boards", 0.5), screened("LG1", 0.25)),
        most_ratio=0.75,
    )  # fmt: skip


def footings() -> Footings:
    """Return two pads of 300 x 300 x 200: 0.018 m3 each."""
    pad = Footing(
        kind="pad", shape="square", load_kn=5.0, soil="firm clay", soil_named=True,
        bearing_kn_m2=75.0, size_mm=300.0, thickness_mm=200.0, depth_mm=450.0, own_kn_m2=4.8,
        carries_kn=6.318, concrete_m3=0.018, bag="20 kg bag", bags=2,
    )  # fmt: skip
    return Footings(
        kind="pad", shape="square", soil="firm clay", soil_named=True, bearing_kn_m2=75.0,
        frost_mm=450.0, bag="20 kg bag", bags=4, concrete_m3=0.036,
        under=tuple(
            PostFooting(mark=f"FT{number}", post=post[0], dead_kn=1.0, live_kn=4.0, footing=pad)
            for number, post in enumerate(POSTS, 1)
        ),
    )  # fmt: skip


def guards() -> Guards:
    """Return a guard along the front, 3000 less a passage of 1000: a run on either hand."""
    edge = Edge(
        mark="E1", start=Spot(along_mm=3000.0, across_mm=2000.0),
        end=Spot(along_mm=0.0, across_mm=2000.0), top_mm=600.0,
        passages=(Passage(name="steps", from_mm=1000.0, to_mm=2000.0),),
    )  # fmt: skip
    ground = Facet(
        corners=(
            GroundSpot(along_mm=0.0, across_mm=0.0, level_mm=0.0),
            GroundSpot(along_mm=3000.0, across_mm=0.0, level_mm=0.0),
            GroundSpot(along_mm=0.0, across_mm=4000.0, level_mm=-200.0),
        )
    )
    bay = Infill(
        kind="balusters", opening_mm=905.0, thickness_mm=40.0, count=6,
        starts_mm=(95.0, 230.0, 365.0, 500.0, 635.0, 770.0), gap_most_mm=95.0, gap_least_mm=95.0,
        ball_mm=100.0,
    )  # fmt: skip
    line = PostLine(length_mm=1000.0, centres_mm=(0.0, 1000.0), spacing_most_mm=1000.0)
    parts = (("G1", 0.0, 1000.0), ("G2", 2000.0, 3000.0))
    return Guards(
        region="united-kingdom", trigger_mm=600.0, out_mm=0.0, height_mm=1100.0, ball_mm=100.0,
        post_spacing_most_mm=None, length_mm=2000.0, edges=(edge,), facets=(ground,),
        runs=tuple(
            GuardRun(
                mark=mark, length_mm=1000.0, drop_mm=700.0, bends=0, closed=False,
                stretches=(Stretch(edge="E1", from_mm=start, to_mm=end, drop_mm=700.0),),
            )
            for mark, start, end in parts
        ),
        built=tuple(
            Guard(run=mark, height_mm=1100.0, post_mm=95.0, lines=(line,), bays=(bay,), posts=2,
                  pieces=6, handrail_mm=1000.0)
            for mark, _, _ in parts
        ),
    )  # fmt: skip


def steps() -> Steps:
    """Return four risers of 175: 700 from the deck's top to the ground in front of it."""
    flight = Flight(
        risers=4, drop_mm=700.0, rise_mm=700.0, riser_mm=175.0,
        heights_mm=(175.0, 350.0, 525.0, 700.0), going_mm=280.0, going_from_mm=220.0,
        going_to_mm=300.0, two_rise_going_mm=630.0, pitch_deg=32.005, run_mm=840.0, treads=3,
        first_cut_mm=147.0, seat_below_top_mm=203.0, seat_below_frame_mm=175.0, stringer_mm=1100.0,
        notch_mm=148.0, handrail=True, handrail_by="made up", why=("twice the rise and the going",),
    )  # fmt: skip
    return Steps(
        region="united-kingdom", side="front", from_mm=1000.0, width_mm=1000.0, tread_mm=28.0,
        risers=4, fall_ratio=0.05, across_fall_mm=0.0, flight=flight,
    )  # fmt: skip


def standing_plan() -> Plan:
    """Return the sample plan with all of it: a deck that stands."""
    return evolve(
        sample_plan(), raised=raised_deck(), strength=strength(), footings=footings(),
        guards=guards(), steps=steps(),
    )  # fmt: skip
