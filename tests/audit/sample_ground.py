"""The ground under the hand-made deck, and what its order weighs: every figure a hand sum.

The dig: 4085 + 2 x 100 = 4285 along, 595 + 100 + 12 = 707 across (the house wall stands 12 from
the cover), 60 deep. It adds to the order
9.00 of fabric, 40.00 of gravel and 12.00 of packers: 61.00.
"""

from decimal import Decimal

from attrs import evolve

from audit.sample_buying import line, purchase
from audit.sample_deck import MM, PRACTICE
from drylay.brief.model import Brief, GroundworkWish
from drylay.buying.model import Buying, Delivery, MassPart, OrderLine, PackCount, PackPurchase
from drylay.cutting.model import Certificate, Proof, Stock, Task, WorthVector
from drylay.cutting.model import Piece as Fixed
from drylay.findings import Finding, Severity
from drylay.groundwork.model import Dig, Fabric, FabricStrip, GravelBed, Groundwork, Packing
from drylay.materials.stock_model import Bag, Catalogue, Gravel, Pack, Packer, StockLength
from drylay.materials.stock_model import Fabric as Roll
from drylay.plan.model import Plan

ADDED = Decimal("61.00")
FROM_BRIEF = {"groundwork.dig.depth_mm", "groundwork.packing.spacing_most_mm"}
FROM_FAMILY = {"buying.delivery.density_kg_m3"}
BY_SUM = {
    "groundwork.dig.margin_mm", "groundwork.dig.house_margin_mm", "groundwork.dig.bulking_ratio",
    "groundwork.dig.bags", "groundwork.dig.skips", "groundwork.fabric.width_mm",
    "groundwork.fabric.lap_mm", "groundwork.fabric.run", "groundwork.gravel.below_lawn_mm",
    "groundwork.gravel.density_kg_m3", "groundwork.packing.reach_least_mm",
    "groundwork.packing.reach_most_mm", "groundwork.packing.height_least_mm",
    "groundwork.packing.height_most_mm", "groundwork.packing.per_joist",
    "buying.delivery.total_kg", "buying.delivery.lift_kg", "buying.delivery.lift_most_kg",
}  # fmt: skip


def groundwork() -> Groundwork:
    return Groundwork(
        dig=Dig(
            margin_mm=100.0, house_margin_mm=12.0, along_mm=4285.0, across_mm=707.0,
            depth_mm=60.0,
            solid_m3=0.182,  # 4.285 x 0.707 x 0.060 = 0.1817697
            bulking_ratio=1.25,
            loose_m3=0.228,  # 0.1817697 x 1.25 = 0.2272121
            spoil="skip", bag_m3=0.7, bags=1, skip_m3=4.587, skips=1,
        ),
        fabric=Fabric(
            article="QG-1", width_mm=1000.0, lap_mm=100.0, run="along",
            strips=(FabricStrip(mark="G1", length_mm=4285.0),),  # 707 is less than a roll's width
            other_strips=5,  # (4285 - 100) / (1000 - 100) = 4.65
            other_length_mm=707.0, other_note="costs as much: 9.00",
        ),
        gravel=GravelBed(
            article="QS-20", below_lawn_mm=10.0, depth_mm=50.0,
            volume_m3=0.152,  # 4.285 x 0.707 x 0.050 = 0.15147475
            density_kg_m3=1600.0,
            mass_kg=242.4,  # 0.15147475 x 1600 = 242.3596
        ),
        packing=Packing(
            article="QP-20-50", reach_least_mm=10.0, reach_most_mm=50.0, levels_known=True,
            height_least_mm=12.0,  # the underside at -298, the bed 10 under the lawn: -298 + 310
            height_most_mm=22.0,  # and -298 + 320 where the ground is lowest
            spacing_most_mm=300.0,
            per_joist=3,  # 485 / 300 = 1.6, so 2 fields and 3 packers
            count=33,  # 11 joists
        ),
    )  # fmt: skip


def fabric_proof() -> Proof:
    """A roll of 10 m holds two strips of 4285, 8573 with the cut: one roll for one strip."""
    task = Task(
        stock=(Stock(name="10000", length=10_000 * MM, price=900),),
        kerf=3 * MM,
        pieces=(Fixed(length=4285 * MM, count=1),),
    )
    vector = WorthVector(scale=2, lengths=(4285 * MM,), worths=(900,))
    return Proof(
        task=task, objective=900,
        certificate=Certificate(
            grade="worth vectors and splits", bound=900, vectors=(vector,), nodes=1
        ),
    )  # fmt: skip


def delivery() -> Delivery:
    """Boards 0.145 x 0.028 x 3 x 700 = 8.526 each, frame 11.34, fascia 4.032, fabric 2 kg."""
    masses = (
        ("boards", "QB-28-145", 59.7),  # 6 and a spare: 7 x 8.526 = 59.682
        ("frame", "QT-45-120", 68.1),  # 0.045 x 0.120 x 3 x 700 = 11.34; x 6 = 68.04
        ("fascia", "QF-20-120", 12.1),  # 0.020 x 0.120 x 2.4 x 700 = 4.032; x 3 = 12.096
        ("fabric", "QG-1", 2.0),  # 10 x 1 x 0.2
        ("end-grain preserver", "QP-1", 0.4),  # 0.25 x 1.3 = 0.325
        ("end-grain wax", "QW-1", 0.2),  # 0.1 x 1.3 = 0.13
        ("finish", "QO-1", 1.3),
        ("gravel", "QS-20", 300.0),
    )
    return Delivery(
        density_kg_m3=700.0, frame_density_kg_m3=700.0, extra_mass_kg_m2=0.0,
        parts=tuple(MassPart(what=w, article=a, mass_kg=kg) for w, a, kg in masses),
        total_kg=443.8, lift_article="QT-45-120", lift_length_mm=3000.0, lift_pack=None,
        lift_kg=11.4, lift_most_kg=25.0, lorry_packs=1,
    )  # fmt: skip


def _packs(named: tuple[str, str, str], need: int, spare: int, box: PackCount) -> PackPurchase:
    what, article, unit = named
    cost = box.price * box.packs
    return PackPurchase(
        what=what, article=article, unit=unit, need=need, spare=spare, packs=(box,), cost=cost,
        bound=cost,
    )  # fmt: skip


def _kg(made: OrderLine) -> OrderLine:
    return evolve(made, unit="kg")


def with_ground_bought(buying: Buying) -> Buying:
    """Return the order with the ground in it: fabric behind the lengths, the rest at the end."""
    rolls = purchase(  # 10 000 - 4285 - 3 = 5712
        "fabric", "QG-1", "GF", 10_000.0, "9.00", "0.00", [(["G1"], 5712.0)], fabric_proof()
    )
    rolls = evolve(rolls, grade="worth vectors and splits")
    stones = PackCount(pack=300, packs=1, price=Decimal("40.00"))  # as much as 10 x 25 kg
    packers = PackCount(pack=20, packs=2, price=Decimal("6.00"))  # 33 and 5 %, 1.65: 35
    lengths = sum(bought.length_mm is not None for bought in buying.order)
    return evolve(
        buying,
        purchases=(*buying.purchases, rolls),
        packs=(
            *buying.packs,
            _packs(("gravel", "QS-20", "kg"), 243, 0, stones),
            _packs(("packers", "QP-20-50", "pieces"), 33, 2, packers),
        ),
        order=(
            *buying.order[:lengths],
            line("QG-1", 1, "9.00", length=10_000.0),
            *buying.order[lengths:],
            _kg(line("QS-20", 1, "40.00", pack=300)),
            line("QP-20-50", 2, "6.00", pack=20),
        ),
        order_total=buying.order_total + ADDED,
        total=buying.total + ADDED,
        delivery=delivery(),
    )


TOLD = (
    ("GND-013", Severity.CAUTION, "dig", None),
    ("GND-010", Severity.CAUTION, "packers", 20.0),
    ("GND-008", Severity.NOTE, "ground", None),
    ("GND-009", Severity.NOTE, "packers", 300.0),
    ("BUY-005", Severity.NOTE, "delivery", 1.0),
)


def with_ground(plan: Plan) -> Plan:
    """Return the deck with its ground: ways out cost that much more, whichever is laid."""
    assert plan.surface is not None
    assert plan.buying is not None
    ways = tuple(
        evolve(way, cost=None if way.cost is None else way.cost + ADDED)
        for way in plan.surface.ways_out
    )
    told = tuple(
        Finding(code=code, severity=severity, subject=subject, message="a sample",
                measured=measured, source=PRACTICE)
        for code, severity, subject, measured in TOLD
    )  # fmt: skip
    return evolve(
        plan,
        surface=evolve(plan.surface, ways_out=ways),
        buying=with_ground_bought(plan.buying),
        groundwork=groundwork(),
        findings=(*plan.findings, *told),
    )


def with_ground_wished(brief: Brief) -> Brief:
    return evolve(
        brief,
        groundwork=GroundworkWish(
            strip_mm=60.0, fabric="QG-1", gravel="QS-20", packer="QP-20-50",
            packer_spacing_mm=300.0,
        ),
    )  # fmt: skip


def with_ground_sold(stock: Catalogue) -> Catalogue:
    def titled(code: str) -> dict[str, str]:
        return {"code": code, "title": f"{code} (invented)"}

    roll = StockLength(length_mm=10_000.0, price=Decimal("9.00"))
    return evolve(
        stock,
        fabrics=(Roll(**titled("QG-1"), width_mm=1000.0, permeable=True, lengths=(roll,)),),
        gravels=(
            Gravel(
                **titled("QS-20"),
                packs=(Bag(kg=300, price=Decimal("40.00")), Bag(kg=25, price=Decimal("4.00"))),
            ),
        ),
        packers=(
            Packer(
                **titled("QP-20-50"), least_mm=10.0, most_mm=50.0,
                packs=(Pack(count=20, price=Decimal("6.00")),),
            ),
        ),
    )  # fmt: skip
