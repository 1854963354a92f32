"""A small deck worked out by hand from docs/conventions.md, without drylay's planner.

4085 x 595 mm, four rows of 145 mm boards at 5 mm gaps, fascia of 20 mm on the right, front
and left. Every figure below is a hand sum; where it is not plain, the sum stands beside it.
"""

from decimal import Decimal

from audit.edits import at
from drylay.audit.model import Witness
from drylay.brief.model import (
    BoardWish,
    Brief,
    CoverWish,
    CuttingWish,
    FasciaWish,
    FixingsWish,
    FrameWish,
    GapWish,
    JointsWish,
    Override,
)
from drylay.buying.model import (
    BoughtLength,
    Buying,
    OrderLine,
    PackCount,
    PackPurchase,
    Purchase,
)
from drylay.cutting.model import (
    Certificate,
    Line,
    Proof,
    Stock,
    Task,
    WorthVector,
)
from drylay.cutting.model import Piece as Fixed
from drylay.edges.model import Edges, FasciaFace, FasciaPiece
from drylay.fixings.model import CoachScrews, DeckScrews, Fixings
from drylay.frame.model import Frame, Joist, Noggin, Rim, RimPiece, Splice
from drylay.materials.model import (
    ArticleRule,
    Board,
    Catalogue,
    CoachScrew,
    FasciaBoard,
    Pack,
    Screw,
    StockLength,
    Timber,
)
from drylay.pieces.model import Joint, Piece, Pieces
from drylay.plan.model import Digests, FamilyUsed, Plan
from drylay.reasons import Decision, Reasons, Ruling, Source
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
        cost=Decimal("182.00"),
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
        honest=True, cost=Decimal("182.00"),
    )  # fmt: skip
    return Surface(
        run="along", cover_along_mm=4085.0, cover_across_mm=595.0, cover_change_mm=0.0,
        row_length_mm=4085.0, rows_depth_mm=595.0, board_article="QB-28-145",
        board_width_mm=145.0, board_thickness_mm=28.0, gap_preferred_mm=5.0, gap_least_mm=4.0,
        gap_most_mm=8.0, sliver_limit_mm=72.5, least_rip_mm=72.5,
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
        joint_price=Decimal("0.50"), trim_allowance_mm=0.0,
        end_bearing_mm=20.5,  # (45 - 4) / 2
        end_bearing_least_mm=20.0, joint_count=4, joints=tuple(joints), pieces=tuple(laid),
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
            Splice(mark=f"S{n}", rim=rim, offset_mm=2642.5, length_mm=355.0)
            for n, rim in ((1, "RA"), (2, "RB"))
        ),
    )  # fmt: skip


def fixings() -> Fixings:
    return Fixings(
        deck_screws=DeckScrews(
            article="QS-45-70", shank_mm=4.5, length_mm=70.0, length_least_mm=70.0,
            per_crossing=2, crossings=44, joints=4, count=96,  # 4 x 11; 2 x (44 + 4)
            edge_least_mm=20.0, end_least_mm=15.0, pilot_ratio=0.7, pilot_mm=3.15,
        ),
        coach_screws=CoachScrews(
            article="QC-8-110", shank_mm=8.0, length_mm=110.0, length_least_mm=105.0,
            per_joist_end=2, joist_ends=22, count=44, head_mm=7.5, sink_mm=12.0,
        ),
    )  # fmt: skip


def board_proof() -> Proof:
    """Each row needs pieces worth 18.00: the longer half worth a board, the other half of one.

    With one joint a row, its pieces are 1240.5 + 2840.5, 1640.5 + 2440.5 or 2040.5 twice. A
    3000 board holds two of 1240.5, or one of 1240.5 with one of 1640.5 (2884 with the kerf),
    or just one of the others. 4 x (18.00 + 0.50) = 74.00.
    """
    worths = {1240.5: 600, 1640.5: 600, 2040.5: 1200, 2440.5: 1200, 2840.5: 1200}
    task = Task(
        stock=(Stock(name="3000", length=3000 * MM, price=1200),),
        kerf=3 * MM,
        lines=(
            Line(
                count=4, start=0, end=4085 * MM, stations=tuple(int(x * MM) for x in LINES),
                joint_gap=4 * MM, least_bays=2, stagger=2, most_joints=1,
            ),
        ),
        joint_price=50,
    )  # fmt: skip
    vector = WorthVector(
        scale=1, lengths=tuple(int(x * MM) for x in worths), worths=tuple(worths.values())
    )
    return Proof(
        task=task,
        objective=7400,
        certificate=Certificate(grade="one worth vector", bound=7400, vectors=(vector,)),
    )


def frame_proof() -> Proof:
    """Each length is worth its share of 7.50 a board of 3000: 17685 of 3000, so six boards.

    2 x 4045 + 11 x 485 + 10 x 355 + 2 x 355 = 17685.
    """
    middles = tuple(int((x + 200.0) * MM) for x in LINES[:-1])
    pieces = (Fixed(length=485 * MM, count=11), Fixed(length=355 * MM, count=12))
    # a rim's first or last piece reaches two joists at least; one between joints, any number
    ends = {222.5 + 400 * n for n in range(1, 7)}
    between = {400.0 * n for n in range(1, 8)}
    lengths = tuple(sorted(int(x * MM) for x in {485.0, 355.0, *ends, *between}))
    task = Task(
        stock=(Stock(name="3000", length=3000 * MM, price=750),),
        kerf=3 * MM,
        pieces=pieces,
        lines=(
            Line(
                count=2, start=20 * MM, end=4065 * MM, stations=middles, joint_gap=0,
                least_bays=1, stagger=0, most_joints=1,
            ),
        ),
    )  # fmt: skip
    vector = WorthVector(
        scale=3000 * MM, lengths=lengths, worths=tuple(length * 750 for length in lengths)
    )
    return Proof(
        task=task,
        objective=4500,
        certificate=Certificate(grade="one worth vector", bound=4500, vectors=(vector,)),
    )


def fascia_proof() -> Proof:
    """A board of 2400 holds one of 2042.5 or four of 575: 2 x 6.00 + 2 x 1.50, so three."""
    task = Task(
        stock=(Stock(name="2400", length=2400 * MM, price=600, limit=5),),
        kerf=3 * MM,
        pieces=(Fixed(length=2042 * MM + 160, count=2), Fixed(length=575 * MM, count=2)),
    )
    vector = WorthVector(scale=1, lengths=(2042 * MM + 160, 575 * MM), worths=(600, 150))
    return Proof(
        task=task,
        objective=1800,
        certificate=Certificate(grade="one worth vector", bound=1800, vectors=(vector,)),
    )


def purchase(  # noqa: PLR0917 - a table of purchases, read by column
    what: str, article: str, prefix: str, length: float, price: str, joints: str,
    cuts: list[tuple[list[str], float]], proof: Proof,
) -> Purchase:  # fmt: skip
    each, joint_cost = Decimal(price), Decimal(joints)
    cost = each * len(cuts)
    return Purchase(
        what=what, article=article,
        lengths=tuple(
            BoughtLength(
                mark=f"{prefix}{n}", length_mm=length, price=each, pieces=tuple(marks),
                offcut_mm=offcut,
            )
            for n, (marks, offcut) in enumerate(cuts, 1)
        ),
        cost=cost, joint_cost=joint_cost, objective=cost + joint_cost,
        bound=cost + joint_cost, gap=Decimal("0.00"), grade="one worth vector",
        mode="proven", proof=proof,
    )  # fmt: skip


def purchases() -> tuple[Purchase, ...]:
    long_pieces = [[f"B{n}.{2 if n % 2 else 1}"] for n in range(1, 5)]
    boards = [(marks, 156.5) for marks in long_pieces]  # 3000 - 2840.5 - 3
    boards += [(["B1.1", "B2.2"], 513.0), (["B3.1", "B4.2"], 513.0)]  # 3000 - 2481 - 6
    frame_cuts = [
        (["RA.1", "S1"], 16.5),  # 3000 - 2622.5 - 355 - 6
        (["RB.1", "S2"], 16.5),
        (["RA.2", "J1", "N1", "N2", "N3"], 12.5),  # 3000 - 1422.5 - 485 - 1065 - 15
        (["RB.2", "J2", "N4", "N5", "N6"], 12.5),
        (["J3", "J4", "J5", "J6", "J7", "J8"], 72.0),  # 3000 - 2910 - 18
        (["J9", "J10", "J11", "N7", "N8", "N9", "N10"], 104.0),  # 3000 - 1455 - 1420 - 21
    ]
    fascia_cuts = [
        (["F-front.1"], 354.5),  # 2400 - 2042.5 - 3
        (["F-front.2"], 354.5),
        (["F-right.1", "F-left.1"], 1244.0),  # 2400 - 1150 - 6
    ]
    return (
        purchase("boards", "QB-28-145", "D", 3000.0, "12.00", "2.00", boards, board_proof()),
        purchase("frame", "QT-45-120", "T", 3000.0, "7.50", "0.00", frame_cuts, frame_proof()),
        purchase("fascia", "QF-20-120", "FB", 2400.0, "6.00", "0.00", fascia_cuts, fascia_proof()),
    )


def line(
    article: str, quantity: int, price: str, *, length: float | None = None,
    pack: int | None = None,
) -> OrderLine:  # fmt: skip
    return OrderLine(
        article=article, title=f"{article} (invented)", length_mm=length, pack=pack,
        quantity=quantity, unit_price=Decimal(price), total=quantity * Decimal(price),
    )  # fmt: skip


def buying() -> Buying:
    screws = PackPurchase(  # 101 screws: 100 + 50 for 19.00, 3 x 50 for 21.00, 2 x 100 for 24.00
        what="deck screws", article="QS-45-70", need=96, spare=5,
        packs=(
            PackCount(pack=100, packs=1, price=Decimal("12.00")),
            PackCount(pack=50, packs=1, price=Decimal("7.00")),
        ),
        cost=Decimal("19.00"), bound=Decimal("19.00"),
    )  # fmt: skip
    coach = PackPurchase(  # 47: one of 50 for 28.00, two of 25 for 30.00
        what="coach screws", article="QC-8-110", need=44, spare=3,
        packs=(PackCount(pack=50, packs=1, price=Decimal("28.00")),),
        cost=Decimal("28.00"), bound=Decimal("28.00"),
    )  # fmt: skip
    return Buying(
        currency="EUR", vat="included", kerf_mm=3.0, end_trim_mm=0.0, spare_ratio=0.05,
        purchases=purchases(), packs=(screws, coach),
        order=(
            line("QB-28-145", 6, "12.00", length=3000.0),
            line("QT-45-120", 6, "7.50", length=3000.0),
            line("QF-20-120", 3, "6.00", length=2400.0),
            line("QS-45-70", 1, "12.00", pack=100),
            line("QS-45-70", 1, "7.00", pack=50),
            line("QC-8-110", 1, "28.00", pack=50),
        ),
        spares=(line("QB-28-145", 1, "12.00", length=3000.0),),  # 5 % of 6, rounded up
        order_total=Decimal("182.00"),  # 72 + 45 + 18 + 19 + 28
        spares_total=Decimal("12.00"), total=Decimal("194.00"),
    )  # fmt: skip


#: The brief's own limits, the merchant's, a named person's; the family rules the rest.
FROM_BRIEF = {
    "surface.gap_preferred_mm", "surface.gap_least_mm", "surface.gap_most_mm",
    "supports.most_centres_mm", "pieces.end_gap_mm", "pieces.most_joints_per_row",
    "pieces.joint_price", "buying.kerf_mm", "buying.end_trim_mm",
}  # fmt: skip
FROM_MERCHANT = {"pieces.stagger_bays"}
FROM_PERSON = {"frame.noggin_spacing_most_mm"}
FROM_FAMILY = {
    "surface.sliver_limit_mm", "surface.least_rip_mm", "pieces.least_supports",
    "pieces.end_bearing_least_mm", "fixings.deck_screws.per_crossing",
    "fixings.deck_screws.length_least_mm", "fixings.deck_screws.edge_least_mm",
    "fixings.deck_screws.end_least_mm", "fixings.deck_screws.pilot_ratio",
    "fixings.coach_screws.per_joist_end", "fixings.coach_screws.length_least_mm",
    "fixings.coach_screws.sink_mm", "buying.spare_ratio",
}  # fmt: skip
BY_SUM = {
    "surface.row_length_mm", "surface.rows_depth_mm", "surface.board_width_mm",
    "surface.board_thickness_mm", "surface.way_out", "supports.line_count",
    "supports.centres_mm", "supports.joist_thickness_mm", "edges.fascia_thickness_mm",
    "edges.frame_length_mm", "edges.frame_depth_mm", "pieces.trim_allowance_mm",
    "pieces.end_bearing_mm", "pieces.joint_count", "frame.noggin_rows", "frame.rim_joints",
    "fixings.deck_screws.length_mm", "fixings.deck_screws.count",
    "fixings.coach_screws.length_mm", "fixings.coach_screws.count", "buying.order_total",
    "buying.total",
}  # fmt: skip


def source_of(path: str) -> Source:
    kinds = ((FROM_BRIEF, BRIEF), (FROM_MERCHANT, RECORD), (FROM_PERSON, PERSON), (BY_SUM, SUM))
    return next((source for paths, source in kinds if path in paths), PRACTICE)


#: Rules of the family whose answer depends on something say on what.
INPUTS = {
    "fixings.deck_screws.length_least_mm": (("board_thickness_mm", 28.0),),
    "supports.line_count": (("frame_length_mm", 4045.0), ("most_centres_mm", 400.0)),
}


def reasons(plan: Plan) -> Reasons:
    paths = sorted(FROM_BRIEF | FROM_MERCHANT | FROM_PERSON | FROM_FAMILY | BY_SUM)
    values = {path: at(plan, path) for path in paths}
    return Reasons(
        decisions=tuple(
            Decision(
                path=path,
                value=str(value) if isinstance(value, Decimal) else value,  # type: ignore[arg-type]
                unit="", rule="a rule", source=source_of(path), inputs=INPUTS.get(path, ()),
            )
            for path, value in values.items()
        )
    )  # fmt: skip


def blank() -> Plan:
    return Plan(
        drylay_version="0", title="Hand-made deck", units="metric", use="dwelling",
        digests=Digests(brief="a" * 64, stock="b" * 64),
        families=(FamilyUsed(id="softwood", title="softwood", package="none", version="0"),),
        surface=surface(), edges=edges(), supports=supports(), pieces=pieces(), frame=frame(),
        fixings=fixings(), buying=buying(), reasons=Reasons(), findings=(), cautions=(),
        not_checked=(),
    )  # fmt: skip


def sample_brief() -> Brief:
    return Brief(
        title="Hand-made deck",
        cover=CoverWish(along_mm=4085.0, across_mm=595.0),
        board=BoardWish(article="QB-28-145"),
        frame=FrameWish(article="QT-45-120", most_centres_mm=400.0),
        fixings=FixingsWish(screw="QS-45-70", coach_screw="QC-8-110"),
        gap=GapWish(preferred_mm=5.0, least_mm=4.0, most_mm=8.0),
        fascia=FasciaWish(sides=("right", "front", "left"), article="QF-20-120"),
        joints=JointsWish(end_gap_mm=4.0, most_per_row=1, price_each=Decimal("0.50")),
        cutting=CuttingWish(kerf_mm=3.0),
        overrides=(
            Override(
                path="frame.noggin_spacing_most_mm", value=300.0, unit="mm",
                by="A. Nobody, engineer (invented)", reason="a sample",
            ),
        ),
    )  # fmt: skip


def sold(length: float, price: str, limit: int | None = None) -> tuple[StockLength, ...]:
    return (StockLength(length_mm=length, price=Decimal(price), limit=limit),)


def sample_stock() -> Catalogue:
    def titled(code: str) -> dict[str, str]:
        return {"code": code, "title": f"{code} (invented)"}

    return Catalogue(
        name="Quillhaven Yard (invented)", currency="EUR", vat="included",
        boards=(
            Board(
                **titled("QB-28-145"), family="softwood", width_mm=145.0, thickness_mm=28.0,
                lengths=sold(3000.0, "12.00"),
                rules=(ArticleRule(rule="stagger_bays", value=2.0, source=RECORD),),
            ),
        ),
        timbers=(
            Timber(
                **titled("QT-45-120"), thickness_mm=45.0, depth_mm=120.0,
                lengths=sold(3000.0, "7.50"),
            ),
        ),
        fascias=(
            FasciaBoard(
                **titled("QF-20-120"), thickness_mm=20.0, depth_mm=120.0,
                lengths=sold(2400.0, "6.00", 5),
            ),
        ),
        screws=(
            Screw(
                **titled("QS-45-70"), shank_mm=4.5, length_mm=70.0, metal="coated",
                packs=(
                    Pack(count=100, price=Decimal("12.00")),
                    Pack(count=50, price=Decimal("7.00")),
                ),
            ),
        ),
        coach_screws=(
            CoachScrew(
                **titled("QC-8-110"), shank_mm=8.0, length_mm=110.0, head_mm=7.5,
                metal="galvanised",
                packs=(
                    Pack(count=50, price=Decimal("28.00")),
                    Pack(count=25, price=Decimal("15.00")),
                ),
            ),
        ),
    )  # fmt: skip


def sample_rulings(plan: Plan) -> tuple[tuple[str, Ruling], ...]:
    return tuple(
        (
            path,
            Ruling(
                value=at(plan, path),  # type: ignore[arg-type]
                unit="", rule="a rule", source=PRACTICE, inputs=INPUTS.get(path, ()),
            ),
        )
        for path in sorted(FROM_FAMILY)
    )  # fmt: skip


def sample_plan() -> Plan:
    """Return the deck with its reasons."""
    from attrs import evolve

    plan = blank()
    return evolve(plan, reasons=reasons(plan))


def sample_witness() -> Witness:
    """Return brief, stock and rulings of the deck, worked out by hand like the deck."""
    return Witness(
        brief=sample_brief(), stock=sample_stock(), rulings=sample_rulings(blank()),
        brief_digest="a" * 64, stock_digest="b" * 64,
    )  # fmt: skip
