"""What of each article is built in, what falls off, what goes to dust: exact, in kg."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import ceil

from attrs import frozen

from drylay.buying.model import BoughtLength, Buying, PackPurchase, Purchase
from drylay.marks import PER_MM, exact
from drylay.plan.model import Plan
from drylay.upkeep.parts import tops
from drylay.upkeep.plane import area_mm2, ring_of
from drylay.upkeep.stock_model import Weighed

TREATED, UNKNOWN, UNTREATED, PLASTIC, MINERAL = (
    "treated timber", "timber, treatment not known", "untreated timber", "composite or plastic",
    "mineral",
)  # fmt: skip
#: Ground fabric at most, as the delivery has it. Assumption.
FABRIC_KG_PER_MM2 = Fraction(2, 10**7)
#: No wood is as heavy, as the tiles' own rules have it. Assumption.
NO_WOOD_KG_M3 = 1500.0
#: Masses are told up to the next gram, and sums are of these.
PER_KG = 1000


@frozen(kw_only=True)
class Stuff:
    """What a purchase is of: its section in mm, what a mm of length weighs, its class."""

    wide_mm: float
    thick_mm: float
    kg_per_mm: Fraction
    waste_class: str


def weighed(plan: Plan, untreated: tuple[str, ...]) -> tuple[Weighed, ...]:
    """Return every article of the order that the plan tells a mass of, lengths first."""
    buying = plan.buying
    if buying is None:
        return ()
    spares = _spare_mm(buying)
    found = []
    for purchase in buying.purchases:
        stuff = stuff_of(plan, purchase, untreated)
        if stuff is not None:
            # spares of an article are told once, with its first purchase
            found.append(_of_lengths(plan, purchase, stuff, spares.pop(purchase.article, 0)))
    return (*found, *_of_packs(plan, buying))


def _spare_mm(buying: Buying) -> dict[str, int]:
    """Return the length of all spares by article, in 1/320 mm."""
    found: dict[str, int] = {}
    for line in buying.spares:
        if line.length_mm is not None:
            more = exact(line.length_mm) * line.quantity
            found[line.article] = found.get(line.article, 0) + more
    return found


def stuff_of(plan: Plan, purchase: Purchase, untreated: tuple[str, ...]) -> Stuff | None:
    """Return what a purchase of lengths is of; None where the plan tells no section or mass."""
    section = _section(plan, purchase)
    density = _density(plan, purchase.what)
    if section is None:
        return None
    wide, thick = section
    area = Fraction(exact(wide) * exact(thick), PER_MM**2)
    per_mm = _sold_kg_per_mm(plan, purchase.what)
    if purchase.what == "fabric":
        per_mm = FABRIC_KG_PER_MM2 * Fraction(exact(wide), PER_MM)
    if per_mm is None and density is not None:
        per_mm = area * _as_told(density) / 10**9
    if per_mm is None:
        return None
    return Stuff(
        wide_mm=wide,
        thick_mm=thick,
        kg_per_mm=per_mm + _insert_kg_per_mm(plan, purchase.what, wide),
        waste_class=class_of(plan, purchase, untreated),
    )


def _as_told(figure: float) -> Fraction:
    return Fraction(repr(float(figure)))


def _section(plan: Plan, purchase: Purchase) -> tuple[float, float] | None:
    """Return width and thickness of what a purchase is of."""
    surface, laying, frame = plan.surface, plan.laying, plan.frame
    what = purchase.what
    if what == "border boards" and surface and surface.border:
        return surface.border.width_mm, surface.border.thickness_mm
    if what == "boards":
        top = surface or laying
        return (top.board_width_mm, top.board_thickness_mm) if top else None
    if what == "fascia":
        edges, under = plan.edges, plan.subframe
        if edges is not None:
            return edges.fascia_depth_mm, edges.fascia_thickness_mm
        return (under.facing_depth_mm, under.facing_thickness_mm) if under else None
    if what == "fabric":
        fabric = plan.groundwork.fabric if plan.groundwork else None
        return (fabric.width_mm, 0.0) if fabric else None
    timber = frame or plan.subframe
    if timber is not None and purchase.article == timber.timber_article:
        return timber.timber_depth_mm, timber.timber_thickness_mm
    return _leg_section(plan, purchase.article)


def _leg_section(plan: Plan, article: str) -> tuple[float, float] | None:
    raised = plan.raised
    if raised is None:
        return None
    if article == raised.bearer_article and raised.frame.bearers:
        section = raised.frame.bearers[0].section
        return section.depth_mm, section.breadth_mm
    if article == raised.post_article and raised.frame.posts:
        section = raised.frame.posts[0].section
        return section.depth_mm, section.breadth_mm
    return None


def _density(plan: Plan, what: str) -> float | None:
    brought = plan.buying.delivery if plan.buying else None
    if brought is None:
        return None
    if what == "border boards":
        return brought.border_density_kg_m3
    if what in {"boards", "fascia"}:
        return brought.density_kg_m3
    return brought.frame_density_kg_m3 or brought.density_kg_m3


def _sold_kg_per_mm(plan: Plan, what: str) -> Fraction | None:
    """Return what a mm of board weighs where the merchant tells it."""
    brought = plan.buying.delivery if plan.buying else None
    if brought is None or what not in {"boards", "border boards"}:
        return None
    sold = brought.board_kg_m if what == "boards" else brought.border_kg_m
    return None if sold is None else _as_told(sold) / 1000


def _insert_kg_per_mm(plan: Plan, what: str, wide_mm: float) -> Fraction:
    """Return what a mm of board's insert holds when wet, as the delivery reckons it."""
    brought = plan.buying.delivery if plan.buying else None
    if brought is None or what not in {"boards", "border boards"}:
        return Fraction(0)
    extra = brought.extra_mass_kg_m2 if what == "boards" else brought.border_extra_mass_kg_m2
    return _as_told(extra or 0.0) * Fraction(exact(wide_mm), PER_MM) / 10**6


def class_of(plan: Plan, purchase: Purchase, untreated: tuple[str, ...]) -> str:
    """Return the class of waste that what is left of a purchase is of.

    Timber is treated where its use class is told, untreated only where the caller names it.
    """
    if purchase.what == "fabric":
        return PLASTIC
    top = plan.surface or plan.laying
    if purchase.what in {"boards", "border boards"} and top is not None and top.timber is False:
        return PLASTIC
    if purchase.article in untreated:
        return UNTREATED
    known = plan.fixings.use_classes if plan.fixings else ()
    treated = any(its.article == purchase.article and its.use_class for its in known)
    return TREATED if treated else UNKNOWN


def _of_lengths(plan: Plan, purchase: Purchase, stuff: Stuff, spare: int) -> Weighed:
    """Return a purchase of lengths: what is bought is built in, or offcut, or dust."""
    sizes, trim = plan.sizes_mm(), {its.name: its.trim for its in purchase.proof.task.stock}
    trims = max(trim.values(), default=0)
    bought = sum(exact(its.length_mm) for its in purchase.lengths)
    dust = sum(_dust(its, sizes, trims) for its in purchase.lengths)
    built = min(_built_mm(plan, purchase, stuff, sizes), Fraction(bought - dust, PER_MM))
    kg = stuff.kg_per_mm
    bought_kg, dust_kg = kg * Fraction(bought, PER_MM), kg * Fraction(dust, PER_MM)
    built_kg = kg * built
    all_mm = Fraction(bought + spare, PER_MM)
    area_mm2 = all_mm * Fraction(exact(stuff.wide_mm), PER_MM)
    volume_mm3 = area_mm2 * Fraction(exact(stuff.thick_mm), PER_MM)
    return Weighed(
        what=purchase.what,
        article=purchase.article,
        waste_class=stuff.waste_class,
        bought_kg=grams(bought_kg),
        built_kg=grams(built_kg),
        offcuts_kg=grams(bought_kg - built_kg - dust_kg),
        dust_kg=grams(dust_kg),
        spares_kg=grams(kg * Fraction(spare, PER_MM)),
        volume_m3=float(round(volume_mm3 / 10**9, 6)),
        area_m2=float(round(area_mm2 / 10**6, 4)),
    )


def grams(mass_kg: Fraction) -> float:
    """Return a mass in kg, up to the next gram."""
    return ceil(mass_kg * PER_KG) / PER_KG


def _dust(length: BoughtLength, sizes: Mapping[str, float], trim: int) -> int:
    """Return what the saw takes of a length: all that is no piece, offcut or end trim."""
    sawn = sum(exact(sizes[mark]) for mark in length.pieces)
    return max(0, exact(length.length_mm) - 2 * trim - sawn - exact(length.offcut_mm))


def _built_mm(plan: Plan, purchase: Purchase, stuff: Stuff, sizes: Mapping[str, float]) -> Fraction:
    """Return the length of an article that is built in: of boards that of their tops' area."""
    marks = [mark for length in purchase.lengths for mark in length.pieces]
    if purchase.what not in {"boards", "border boards"}:
        return Fraction(sum(exact(sizes[mark]) for mark in marks), PER_MM)
    areas = {top.mark: abs(area_mm2(ring_of(top.corners))) for top in tops(plan)}
    whole = sum(Fraction(round(areas[mark] * 1000), 1000) for mark in marks if mark in areas)
    others = sum(exact(sizes[mark]) for mark in marks if mark not in areas)
    return whole / Fraction(exact(stuff.wide_mm), PER_MM) + Fraction(others, PER_MM)


def _of_packs(plan: Plan, buying: Buying) -> Iterator[Weighed]:
    """Yield what comes in packs and has a mass: tiles, gravel, concrete mix."""
    for packed in buying.packs:
        bought = sum(its.pack * its.packs for its in packed.packs)
        if packed.unit == "kg":
            left = float(bought - packed.need)
            yield _packed(packed, MINERAL, float(packed.need), float(packed.need), left)
        elif packed.article == _tile_article(plan):
            yield _tiles(plan, packed, bought)


def _tile_article(plan: Plan) -> str | None:
    if plan.tiles is not None:
        return plan.tiles.article
    return plan.surface.board_article if plan.surface and plan.tiling else None


def _tiles(plan: Plan, packed: PackPurchase, bought: int) -> Weighed:
    tiling, surface = plan.tiles or plan.tiling, plan.surface
    each = _as_told(tiling.tile_mass_kg) if tiling else Fraction(0)
    long_mm = tiling.tile_length_mm if tiling else 0.0
    wide_mm = plan.tiles.tile_width_mm if plan.tiles else surface.board_width_mm if surface else 0.0
    thick_mm = (
        plan.tiles.thickness_mm if plan.tiles else surface.board_thickness_mm if surface else 0.0
    )
    face = Fraction(exact(long_mm) * exact(wide_mm), PER_MM**2)
    laid = sum(Fraction(round(abs(area_mm2(ring_of(t.corners))) * 1000), 1000) for t in tops(plan))
    top = plan.tiles or surface
    called = top is not None and top.timber is True
    timber = called and tiling is not None and tiling.density_kg_m3 < NO_WOOD_KG_M3
    built = min(each * laid / face, each * packed.need) if face else Fraction(0)
    own = _packed(packed, UNKNOWN if timber else MINERAL, float(each * packed.need), 0.0, 0.0)
    area = face * bought / 10**6
    return Weighed(
        what=own.what,
        article=own.article,
        waste_class=own.waste_class,
        bought_kg=grams(each * packed.need),
        built_kg=grams(built),
        offcuts_kg=grams(each * packed.need - built),
        dust_kg=0.0,
        spares_kg=grams(each * (bought - packed.need)),
        volume_m3=float(round(area * Fraction(exact(thick_mm), PER_MM) / 1000, 6)),
        area_m2=float(round(area, 4)),
    )


def _packed(
    packed: PackPurchase, waste_class: str, bought_kg: float, built_kg: float, spares_kg: float
) -> Weighed:  # fmt: skip
    return Weighed(
        what=packed.what, article=packed.article, waste_class=waste_class, bought_kg=bought_kg,
        built_kg=built_kg, offcuts_kg=0.0, dust_kg=0.0, spares_kg=spares_kg, volume_m3=0.0,
        area_m2=0.0,
    )  # fmt: skip
