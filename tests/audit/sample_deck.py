"""The hand-made deck, part by part: every number by arithmetic of its own."""

from decimal import Decimal

from audit.sample_coats import COATS_COST, sample_finish, sample_preserver, sample_wax
from drylay.edges.model import Edges, FasciaFace, FasciaPiece
from drylay.fixings.model import (
    CoachScrews,
    DeckScrews,
    FasciaScrewPlace,
    FasciaScrews,
    FixingMetal,
    Fixings,
    FrameScrews,
    Hangers,
    TimberClass,
)
from drylay.frame.model import Frame, Joist, Noggin, Rim, RimPiece, Splice
from drylay.pieces.model import Joint, Piece, Pieces
from drylay.reasons import Source
from drylay.supports.model import JoistLine, Supports
from drylay.surface.model import Row, RuleMet, Surface, WayOut

MM = 320
PRACTICE = Source(kind="common practice", title="common practice, no source")
BRIEF = Source(kind="brief", title="the brief")
RECORD = Source(kind="merchant record", title="Quillhaven Yard (invented)")
PERSON = Source(kind="named person's override", title="A. Nobody, engineer (invented)")
SUM = Source(kind="arithmetic", title="docs/conventions.md")


def rule(name: str, measured: float, limit: float, *, met: bool = True) -> RuleMet:
    return RuleMet(rule=name, met=met, measured=measured, limit=limit, unit="mm", source=BRIEF)


def surface() -> Surface:
    gaps = (rule("gap not under the least", 5, 4), rule("gap not over the most", 5, 8))
    laid = WayOut(
        kind="as_wished", run="along", rows=4, gap_mm=5.0, cover_change_mm=0.0,
        first_row_mm=145.0, last_row_mm=145.0, rules=gaps, honest=True, chosen=True,
        cost=Decimal("250.00") + COATS_COST,
    )  # fmt: skip
    grown = WayOut(  # 5 x 145 + 4 x 5 = 745 = 595 + 150
        kind="grow", run="along", rows=5, gap_mm=5.0, cover_change_mm=150.0,
        first_row_mm=145.0, last_row_mm=145.0,
        rules=(*gaps, rule("cover may grow", 150, 0, met=False)), honest=False,
    )  # fmt: skip
    ripped = WayOut(  # 3 x 145 + 140 + 3 x 20/3 = 595
        kind="rip_last", run="along", rows=4, gap_mm=20 / 3, cover_change_mm=0.0,
        first_row_mm=145.0, last_row_mm=140.0,
        rules=(
            rule("boards may be ripped", 1, 1),
            rule("gap not under the least", 20 / 3, 4),
            rule("no sliver", 140, 72.5),
            rule("rip not under the least", 140, 72.5),
            rule("the saw takes off a whole kerf", 140, 142),
        ),
        honest=True, cost=Decimal("250.00") + COATS_COST,
    )  # fmt: skip
    return Surface(
        run="along", cover_along_mm=4085.0, cover_across_mm=595.0, cover_change_mm=0.0,
        row_length_mm=4085.0, rows_depth_mm=595.0, board_article="QB-28-145",
        board_width_mm=145.0, board_thickness_mm=28.0, gap_preferred_mm=5.0, gap_least_mm=4.0,
        gap_most_mm=8.0, fall_least_ratio=0.0, sliver_limit_mm=72.5, least_rip_mm=72.5,
        whole_rows=4, remainder_mm=0.0, strip_mm=0.0,  # (595 + 5) / (145 + 5) = 4 exactly
        way_out="as_wished",
        rows=tuple(
            Row(
                mark=f"B{n + 1}", near_mm=150.0 * n, width_mm=145.0,
                gap_mm=5.0 if n else 0.0, ripped=False,
            )
            for n in range(4)
        ),
        ways_out=(laid, grown, ripped),
    )  # fmt: skip


def edges() -> Edges:
    front = tuple(FasciaPiece(mark=f"F-front.{n}", length_mm=2042.5) for n in (1, 2))
    faces = (
        FasciaFace(
            mark="F-right", side="right", length_mm=575.0, long_face=False,
            pieces=(FasciaPiece(mark="F-right.1", length_mm=575.0),),
        ),
        FasciaFace(
            mark="F-front", side="front", length_mm=4085.0, long_face=True, pieces=front
        ),
        FasciaFace(
            mark="F-left", side="left", length_mm=575.0, long_face=False,
            pieces=(FasciaPiece(mark="F-left.1", length_mm=575.0),),
        ),
    )  # fmt: skip
    return Edges(
        fascia_article="QF-20-120", fascia_thickness_mm=20.0, fascia_depth_mm=120.0,
        faces=faces, frame_start_mm=20.0, frame_near_mm=0.0,
        frame_length_mm=4045.0,  # 4085 - 20 - 20
        frame_depth_mm=575.0,  # 595 - 20
    )  # fmt: skip


#: (4045 - 45) / 400 = 10 bays of 400; the first centre is 20 + 22.5.
LINES = tuple(42.5 + 400.0 * n for n in range(11))


def supports() -> Supports:
    return Supports(
        most_centres_mm=400.0, centres_mm=400.0, line_count=11, joist_thickness_mm=45.0,
        lines=tuple(JoistLine(offset_mm=line) for line in LINES),
    )  # fmt: skip


def pieces() -> Pieces:
    """Odd rows joint on J4 (1242.5), even rows on J8 (2842.5): 4 bays apart."""
    joints, laid = [], []
    for n in range(4):
        row, joist, centre = f"B{n + 1}", *(("J8", 2842.5) if n % 2 else ("J4", 1242.5))
        joints.append(Joint(row=row, joist=joist, centre_mm=centre))
        first, second = centre - 2.0, 4085.0 - centre - 2.0  # 1240.5 and 2840.5, or turned
        laid.append(
            Piece(
                mark=f"{row}.1", row=row, start_mm=0.0, length_mm=first, cut_mm=first,
                width_mm=145.0, from_joist="", to_joist=joist,
            )
        )  # fmt: skip
        laid.append(
            Piece(
                mark=f"{row}.2", row=row, start_mm=centre + 2.0, length_mm=second,
                cut_mm=second, width_mm=145.0, from_joist=joist, to_joist="",
            )
        )  # fmt: skip
    return Pieces(
        end_gap_mm=4.0, least_supports=3, stagger_bays=2, most_joints_per_row=1,
        least_piece_mm=0.0,
        joint_price=Decimal("0.50"), trim_allowance_mm=0.0,
        end_bearing_mm=20.5,  # (45 - 4) / 2
        end_bearing_least_mm=20.0, joint_count=4, handed=False,
        joints=tuple(joints), pieces=tuple(laid),
    )  # fmt: skip


def frame() -> Frame:
    rims = tuple(
        Rim(
            mark=mark, near_mm=near, start_mm=20.0, length_mm=4045.0,
            pieces=(  # joint in the middle of J7 (2442.5) and J8 (2842.5)
                RimPiece(mark=f"{mark}.1", start_mm=20.0, length_mm=2622.5),
                RimPiece(mark=f"{mark}.2", start_mm=2642.5, length_mm=1422.5),
            ),
        )
        for mark, near in (("RA", 0.0), ("RB", 530.0))  # 575 - 45
    )  # fmt: skip
    noggins = tuple(  # the row's line is at 45 + 485 / 2 = 287.5
        Noggin(
            mark=f"N{n + 1}", left=f"J{n + 1}", right=f"J{n + 2}",
            across_mm=310.0 if n % 2 else 265.0, length_mm=355.0,
        )
        for n in range(10)
    )  # fmt: skip
    return Frame(
        timber_article="QT-45-120", timber_thickness_mm=45.0, timber_depth_mm=120.0,
        diagonal_mm=4085.66,  # 4045 squared + 575 squared = 16 692 650
        noggin_spacing_most_mm=300.0,
        noggin_rows=1,  # 485 / 300 = 1.6, so two fields
        rim_joints=2, rims=rims,
        joists=tuple(
            Joist(mark=f"J{n + 1}", offset_mm=line, near_mm=45.0, length_mm=485.0)
            for n, line in enumerate(LINES)
        ),
        noggins=noggins,
        splices=tuple(
            Splice(mark=f"S{n}", rim=rim, offset_mm=2642.5, length_mm=254.5)  # 355 - 0.5 - 100
            for n, rim in ((1, "RA"), (2, "RB"))
        ),
    )  # fmt: skip


def fixings() -> Fixings:
    return Fixings(
        deck_screws=DeckScrews(
            article="QS-45-70", shank_mm=4.5, length_mm=70.0, length_least_mm=70.0,
            per_crossing=2, crossings=44, joints=4, count=96,  # 4 x 11; 2 x (44 + 4)
            edge_least_mm=20.0, end_least_mm=15.0, predrill_all=False,
            pilot_ratio=0.7, pilot_mm=3.15,
        ),
        coach_screws=CoachScrews(
            article="QC-8-110", shank_mm=8.0, length_mm=110.0, length_least_mm=105.0,
            per_joist_end=2, joist_ends=4, count=8,  # the outer two joists: 2 x (2 + 2)
            pilot_ratio=0.7, pilot_mm=5.6, head_mm=7.5, sink_mm=12.0,
            edge_least_mm=32.0, top_least_mm=50.0,  # 4 x 8; 70 - 28 + 8
        ),
        frame_screws=FrameScrews(
            article="QN-6-90", driver="star 30", shank_mm=6.0, length_mm=90.0,
            length_least_mm=90.0, per_noggin_end=2, noggin_ends=20, per_splice_side=4,
            splice_sides=4, count=56,  # 2 x 20 + 4 x 4
            pilot_ratio=0.7, pilot_mm=4.2,
        ),
        fascia_screws=fascia_screws(),
        hangers=Hangers(
            article="QH-45-90", joist_mm=45.0, depth_mm=90.0,
            depth_least_mm=72.0,  # 3 x 120 / 5
            count=18, screw="QS-5-40",  # 2 x (11 - 2)
            screw_shank_mm=5.0, screw_length_mm=40.0, screws_each=8, screw_count=144,  # 18 x 8
        ),
        metals=tuple(
            FixingMetal(what=what, article=article, metal=metal, driven_into=into, allowed=True)
            for what, article, metal, into in (
                ("deck screws", "QS-45-70", "stainless A2", "board"),
                ("coach screws", "QC-8-110", "hot-dip galvanised", "frame"),
                ("frame screws", "QN-6-90", "coated for treated timber", "frame"),
                ("fascia screws", "QF-5-50", "stainless A2", "fascia"),
                ("hangers", "QH-45-90", "hot-dip galvanised", "frame"),  # 90 of 120 deep
                ("hanger screws", "QS-5-40", "hot-dip galvanised", "frame"),
            )
        ),
        board_use_class_least=3, frame_use_class_least=4,
        use_classes=(
            TimberClass(what="deck boards", article="QB-28-145", use_class=3),
            TimberClass(what="frame timber", article="QT-45-120", use_class=4),
            TimberClass(what="fascia", article="QF-20-120", use_class=3),
        ),
        preserver=sample_preserver(), wax=sample_wax(), finish=sample_finish(),
        seal_board_ends=True, wax_board_ends=True, board_finish_coats=2,
    )  # fmt: skip


#: On an outer joist: the coach screw's 110 and half of 5 from the house side, so from 112.5;
#: at the front 12 deeper, 575 - 124.5 = 450.5. The noggins at 265 stand 22.5 each way, which
#: leaves 242.5 and 287.5 open. 112.5 to 450.5 is 338, under 600: the two ends do.
SHORT = (112.5, 450.5)
#: On the front rim, from the cover's left edge: the frame from 20 to 4065, 40 off its ends and off
#: its joint at 2642.5; heads stand at J1 (42.5) and J11 (4042.5) only, 14.5 clear of them. The
#: left piece from 60 to 2042.5 - 40 = 2002.5: 1942.5 in four is 485.625. Marks are 0.5:
#: 545.5 (545.625), 1031 (1031.25, the lower), 1517 (1516.875).
LEFT = (60.0, 545.5, 1031.0, 1517.0, 2002.5)
#: The right piece, from its own end: 40 to 4065 - 40 - 2042.5 = 1982.5: 1942.5 in four again.
#: 525.5 (525.625), 1011 (1011.25), 1497 (1496.875); the joint at 600 keeps 560 to 640 shut.
RIGHT = (40.0, 525.5, 1011.0, 1497.0, 1982.5)


def fascia_screws() -> FasciaScrews:
    spots = (("F-right.1", SHORT), ("F-front.1", LEFT), ("F-front.2", RIGHT), ("F-left.1", SHORT))
    return FasciaScrews(
        article="QF-5-50", driver="star 20", shank_mm=5.0, length_mm=50.0, length_least_mm=40.0,
        per_place=2, spacing_most_mm=600.0, end_least_mm=40.0,
        clear_mm=14.5,  # (3 x 8 + 5) / 2
        places=tuple(
            FasciaScrewPlace(fascia=mark, offset_mm=at) for mark, row in spots for at in row
        ),
        count=28,  # 2 x (2 + 5 + 5 + 2)
        pilot_ratio=0.7, pilot_mm=3.5,
    )  # fmt: skip
