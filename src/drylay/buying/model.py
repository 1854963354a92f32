"""The nouns of buying. Money is Decimal in the catalogue's currency."""

from decimal import Decimal

from attrs import frozen

from drylay.cutting.model import Proof
from drylay.reasons import because


@frozen(kw_only=True)
class BoughtLength:
    """One length to buy and saw: the marks of its pieces in the order of the cuts."""

    mark: str
    length_mm: float = because("buying.order_total")
    price: Decimal = because("buying.order_total")
    pieces: tuple[str, ...]
    offcut_mm: float = because("buying.kerf_mm")


@frozen(kw_only=True)
class Purchase:
    """Everything cut from one article, with its proof.

    `objective` = `cost` + `joint_cost` (joint price x joints): that is what `bound` bounds.
    `gap` = objective - bound, what a cheaper plan could save at most.
    """

    what: str
    article: str
    lengths: tuple[BoughtLength, ...]
    cost: Decimal = because("buying.order_total")
    joint_cost: Decimal = because("buying.order_total")
    objective: Decimal = because("buying.order_total")
    bound: Decimal = because("buying.order_total")
    gap: Decimal = because("buying.order_total")
    grade: str
    mode: str
    proof: Proof = because("buying.order_total")


@frozen(kw_only=True)
class PackCount:
    """So many packs of one size."""

    pack: int = because("buying.order_total")
    packs: int = because("buying.order_total")
    price: Decimal = because("buying.order_total")


@frozen(kw_only=True)
class PackPurchase:
    """What is sold in packs: `need` and `spare` together covered at the least price.

    `unit` says what is counted: "pieces", "ml" or "kg".
    `bound` is the least price of any choice of packs, found by counting every one.
    """

    what: str
    article: str
    unit: str = "pieces"
    need: int = because("buying.order_total")
    spare: int = because("buying.spare_ratio")
    packs: tuple[PackCount, ...]
    cost: Decimal = because("buying.order_total")
    bound: Decimal = because("buying.order_total")


@frozen(kw_only=True)
class OrderLine:
    """One line of the order. `length_mm` for lengths, `pack` for packs of so many `unit`.

    `gtin` is its number in trade, "" where the stock tells none.
    """

    article: str
    title: str
    length_mm: float | None = because("buying.order_total")
    pack: int | None = because("buying.order_total")
    unit: str = "pieces"
    quantity: int = because("buying.order_total")
    unit_price: Decimal = because("buying.order_total")
    total: Decimal = because("buying.total")
    gtin: str = ""


@frozen(kw_only=True)
class WholePacks:
    """A length that is sold in whole packs only: so many `packs` of `pack` lengths are bought.

    `sawn` are in the order and `spare` are wanted as spares; the rest fills the last pack, and is
    bought among the spares.
    """

    article: str
    length_mm: float = because("buying.order_total")
    pack: int = because("buying.order_total")
    packs: int = because("buying.order_total")
    sawn: int = because("buying.order_total")
    spare: int = because("buying.spare_ratio")


@frozen(kw_only=True)
class MassPart:
    """What one purchase weighs at most as delivered, its spares with it."""

    what: str
    article: str
    mass_kg: float = because("buying.delivery.total_kg")


@frozen(kw_only=True)
class Delivery:
    """What the order weighs, spares with it, and the heaviest single thing to lift.

    That is one of `lift_article`: a length of `lift_length_mm`, or a pack of `lift_pack`.
    `lorry_packs` are the packs too heavy for anybody, which the lorry sets down. `board_kg_m` is
    what a metre of board weighs as sold, None where it is reckoned from the density;
    `extra_mass_kg_m2` is what inserts hold when wet, on top of either. `density_kg_m3` is that of
    boards and fascia, `frame_density_kg_m3` of the frame's timber, None where there is none; plans
    that tell only the one took it for both. A border's boards have figures of their own.
    """

    board_kg_m: float | None = because("buying.delivery.board_kg_m", default=None)
    extra_mass_kg_m2: float | None = because("buying.delivery.extra_mass_kg_m2", default=None)
    density_kg_m3: float | None = because("buying.delivery.density_kg_m3")
    frame_density_kg_m3: float | None = because("buying.delivery.frame_density_kg_m3", default=None)
    border_kg_m: float | None = because("buying.delivery.border_kg_m", default=None)
    border_extra_mass_kg_m2: float | None = because(
        "buying.delivery.border_extra_mass_kg_m2", default=None
    )
    border_density_kg_m3: float | None = because(
        "buying.delivery.border_density_kg_m3", default=None
    )
    parts: tuple[MassPart, ...]
    total_kg: float = because("buying.delivery.total_kg")
    lift_article: str
    lift_length_mm: float | None = because("buying.delivery.lift_kg")
    lift_pack: int | None = because("buying.delivery.lift_kg")
    lift_kg: float = because("buying.delivery.lift_kg")
    lift_most_kg: float = because("buying.delivery.lift_most_kg")
    lorry_packs: int = because("buying.delivery.lift_kg")


@frozen(kw_only=True)
class Buying:
    """The whole purchase: what the plan needs, spares apart, and totals.

    Spare lengths are in `spares` only, what fills whole packs with them; spare screws are in the
    packs, counted in `PackPurchase.spare`.
    """

    currency: str
    vat: str
    kerf_mm: float = because("buying.kerf_mm")
    end_trim_mm: float = because("buying.end_trim_mm")
    spare_ratio: float = because("buying.spare_ratio")
    purchases: tuple[Purchase, ...]
    packs: tuple[PackPurchase, ...]
    order: tuple[OrderLine, ...]
    spares: tuple[OrderLine, ...]
    order_total: Decimal = because("buying.total")
    spares_total: Decimal = because("buying.total")
    total: Decimal = because("buying.total")
    delivery: Delivery | None = None
    whole_packs: tuple[WholePacks, ...] = ()
