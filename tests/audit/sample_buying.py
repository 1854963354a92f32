"""The proofs, purchases and order of the hand-made deck, worked out by hand."""

from decimal import Decimal

from audit.sample_coats import COATS_COST, coating_packs
from audit.sample_deck import (
    LINES,
    MM,
)
from drylay.buying.model import (
    BoughtLength,
    Buying,
    OrderLine,
    PackCount,
    PackPurchase,
    Purchase,
    WholePacks,
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
    """Each length is worth its share of 7.50 a board of 3000: 17484 of 3000, so six boards.

    2 x 4045 + 11 x 485 + 10 x 355 + 2 x 254.5 = 17484.
    """
    middles = tuple(int((x + 200.0) * MM) for x in LINES[:-1])
    splice = 254 * MM + MM // 2
    pieces = (
        Fixed(length=485 * MM, count=11),
        Fixed(length=355 * MM, count=10),
        Fixed(length=splice, count=2),
    )
    # a rim's first or last piece reaches two joists at least; one between joints, any number
    ends = {222.5 + 400 * n for n in range(1, 7)}
    between = {400.0 * n for n in range(1, 8)}
    lengths = tuple(sorted(int(x * MM) for x in {485.0, 355.0, 254.5, *ends, *between}))
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
        (["RA.1", "S1"], 117.0),  # 3000 - 2622.5 - 254.5 - 6
        (["RB.1", "S2"], 117.0),
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
        purchase("boards", "QB-28-145", "DB", 3000.0, "12.00", "2.00", boards, board_proof()),
        purchase("frame", "QT-45-120", "T", 3000.0, "7.50", "0.00", frame_cuts, frame_proof()),
        purchase("fascia", "QF-20-120", "FB", 2400.0, "6.00", "0.00", fascia_cuts, fascia_proof()),
    )


def line(
    article: str, quantity: int, price: str, *, length: float | None = None,
    pack: int | None = None, unit: str = "pieces",
) -> OrderLine:  # fmt: skip
    return OrderLine(
        article=article, title=f"{article} (invented)", length_mm=length, pack=pack, unit=unit,
        quantity=quantity, unit_price=Decimal(price), total=quantity * Decimal(price),
    )  # fmt: skip


def boxed(what: str, article: str, need: int, spare: int, box: PackCount) -> PackPurchase:
    cost = box.price * box.packs
    return PackPurchase(
        what=what, article=article, need=need, spare=spare, packs=(box,), cost=cost, bound=cost
    )


def holding() -> tuple[PackPurchase, ...]:
    """Spares are 5 %, rounded up: 2.8, 1.4, 0.9 and 7.2."""

    def of(pack: int, packs: int, price: str) -> PackCount:
        return PackCount(pack=pack, packs=packs, price=Decimal(price))

    return (
        boxed("frame screws", "QN-6-90", 56, 3, of(100, 1, "22.00")),
        boxed("fascia screws", "QF-5-50", 28, 2, of(50, 1, "8.00")),
        boxed("hangers", "QH-45-90", 18, 1, of(10, 2, "18.00")),
        boxed("hanger screws", "QS-5-40", 144, 8, of(200, 1, "15.00")),
    )


def buying() -> Buying:
    screws = PackPurchase(  # 101 screws: 100 + 50 for 19.00, 3 x 50 for 21.00, 2 x 100 for 24.00
        what="deck screws", article="QS-45-70", need=96, spare=5,
        packs=(
            PackCount(pack=100, packs=1, price=Decimal("12.00")),
            PackCount(pack=50, packs=1, price=Decimal("7.00")),
        ),
        cost=Decimal("19.00"), bound=Decimal("19.00"),
    )  # fmt: skip
    coach = PackPurchase(  # 9: one of 25 for 15.00, one of 50 for 28.00
        what="coach screws", article="QC-8-110", need=8, spare=1,
        packs=(PackCount(pack=25, packs=1, price=Decimal("15.00")),),
        cost=Decimal("15.00"), bound=Decimal("15.00"),
    )  # fmt: skip
    return Buying(
        currency="EUR", vat="included", kerf_mm=3.0, end_trim_mm=0.0, spare_ratio=0.05,
        purchases=purchases(), packs=(screws, coach, *holding(), *coating_packs()),
        order=(
            line("QB-28-145", 6, "12.00", length=3000.0),
            line("QT-45-120", 6, "7.50", length=3000.0),
            line("QF-20-120", 3, "6.00", length=2400.0),
            line("QS-45-70", 1, "12.00", pack=100),
            line("QS-45-70", 1, "7.00", pack=50),
            line("QC-8-110", 1, "15.00", pack=25),
            line("QN-6-90", 1, "22.00", pack=100),
            line("QF-5-50", 1, "8.00", pack=50),
            line("QH-45-90", 2, "18.00", pack=10),
            line("QS-5-40", 1, "15.00", pack=200),
            line("QP-1", 1, "5.00", pack=250, unit="ml"),
            line("QW-1", 1, "4.00", pack=100, unit="ml"),
            line("QO-1", 1, "20.00", pack=1000, unit="ml"),
        ),
        spares=(line("QB-28-145", 1, "12.00", length=3000.0),),  # 5 % of 6, rounded up
        # 72 + 45 + 18 + 19 + 15 + 22 + 8 + 36 + 15
        order_total=Decimal("250.00") + COATS_COST,
        spares_total=Decimal("12.00"), total=Decimal("262.00") + COATS_COST,
        whole_packs=(  # 6 sawn and 1 spare fill one pack of 7
            WholePacks(
                article="QB-28-145", length_mm=3000.0, pack=7, packs=1, sawn=6, spare=1
            ),
        ),
    )  # fmt: skip


#: The brief's own limits, the merchant's, a named person's; the family rules the rest.
