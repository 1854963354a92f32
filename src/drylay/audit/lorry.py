"""The lorry: what each purchase weighs at most, their sum, and the heaviest thing to lift."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import conventions, need, same_count, same_text
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.audit.wanted import buying_of
from drylay.buying.model import Delivery, OrderLine
from drylay.plan.model import Plan
from drylay.surface.model import Border

LORRY = conventions("Delivery")
#: What conventions have said once for every plan: kg a litre, kg a m2, what one person lifts,
#: what only the lorry lifts.
COATING_KG_PER_L, FABRIC_KG_PER_M2 = Fraction("1.3"), Fraction("0.2")
LIFT_MOST_KG, LORRY_KG = 25, 100


def delivery_of(plan: Plan) -> Delivery:
    """Return what the plan says of its delivery."""
    return need(buying_of(plan).delivery, "delivery")


def _sections(plan: Plan) -> dict[str, Fraction]:
    """Return the section of each timber of the plan, in m2; tiles are none."""
    edges, sizes = plan.edges, {}
    if plan.tiles is not None:
        return {}
    if plan.tiling is None:
        surface = surface_of(plan)
        sizes[surface.board_article] = (surface.board_width_mm, surface.board_thickness_mm)
    if plan.tiling is None or plan.frame is not None:
        frame = frame_of(plan)
        sizes[frame.timber_article] = (frame.timber_depth_mm, frame.timber_thickness_mm)
    sizes |= _standing(plan)
    if edges is not None and edges.fascia_article:
        sizes[edges.fascia_article] = (edges.fascia_depth_mm, edges.fascia_thickness_mm)
    per_m = (1000 * PER_MM) ** 2
    return {code: Fraction(ticks(w) * ticks(t), per_m) for code, (w, t) in sizes.items()}


def _standing(plan: Plan) -> dict[str, tuple[float, float]]:
    """Return the sections of bearers and posts, by article."""
    deck = plan.raised
    if deck is None:
        return {}
    bearer, post = deck.frame.bearers[0].section, deck.frame.posts[0].section
    return {deck.bearer_article: (bearer.depth_mm, bearer.breadth_mm),
            deck.post_article: (post.depth_mm, post.breadth_mm)}  # fmt: skip


def _kg_per_m(plan: Plan) -> dict[str, Fraction]:
    brought = delivery_of(plan)
    density, framed = _dense(brought.density_kg_m3), _dense(brought.frame_density_kg_m3)
    framed = density if brought.frame_density_kg_m3 is None else framed
    timbers = {plan.frame.timber_article} if plan.frame is not None else set()
    timbers |= set(_standing(plan))
    known = {
        code: section * (framed if code in timbers else density)
        for code, section in _sections(plan).items()
    }
    surface = surface_of(plan) if plan.tiles is None else None
    if surface is not None and plan.tiling is None:
        known[surface.board_article] = board_kg_per_m(
            surface.board_width_mm, known[surface.board_article],
            brought.board_kg_m, brought.extra_mass_kg_m2,
        )  # fmt: skip
    if surface is not None and surface.border is not None:
        known[surface.border.article] = border_kg_per_m(surface.border, brought)
    fabric = plan.groundwork.fabric if plan.groundwork is not None else None
    if fabric is not None:
        width = Fraction(ticks(fabric.width_mm), 1000 * PER_MM)
        known[fabric.article] = width * FABRIC_KG_PER_M2
    return known


def _dense(kg_m3: float | None) -> Fraction:
    return Fraction(repr(float(kg_m3 or 0)))


def board_kg_per_m(
    width_mm: float, by_section: Fraction, sold: float | None, wet: float | None
) -> Fraction:
    """Return what a metre of board weighs: as sold, else by section, and its wet inserts."""
    dry = by_section if sold is None else Fraction(repr(float(sold)))
    return dry + Fraction(repr(float(wet or 0.0))) * Fraction(ticks(width_mm), 1000 * PER_MM)


def border_kg_per_m(border: Border, brought: Delivery) -> Fraction:
    """Return what a metre of a border's board weighs."""
    density = _dense(brought.border_density_kg_m3)
    section = Fraction(ticks(border.width_mm) * ticks(border.thickness_mm), (1000 * PER_MM) ** 2)
    sold, wet = brought.border_kg_m, brought.border_extra_mass_kg_m2
    return board_kg_per_m(border.width_mm, section * density, sold, wet)


def _tile_kg(plan: Plan) -> dict[str, Fraction]:
    """Return what a tile of the plan weighs, by its article; nothing where there are none."""
    if plan.tiles is not None:
        return {plan.tiles.article: Fraction(repr(float(plan.tiles.tile_mass_kg)))}
    if plan.tiling is None:
        return {}
    return {surface_of(plan).board_article: Fraction(repr(float(plan.tiling.tile_mass_kg)))}


def _each(line: OrderLine, kg_per_m: dict[str, Fraction], tile_kg: dict[str, Fraction]) -> Fraction:
    """Return what one of a line weighs; 0 for what is counted by the piece, tiles apart."""
    if line.length_mm is not None:
        metres = Fraction(ticks(line.length_mm), 1000 * PER_MM)
        return kg_per_m.get(line.article, Fraction(0)) * metres
    match line.unit:
        case "kg":
            return Fraction(line.pack or 0)
        case "ml":
            return COATING_KG_PER_L * (line.pack or 0) / 1000
    return tile_kg.get(line.article, Fraction(0)) * (line.pack or 0)


def _weighed(plan: Plan) -> list[tuple[OrderLine, Fraction]]:
    buying, kg_per_m = buying_of(plan), _kg_per_m(plan)
    tile_kg = _tile_kg(plan)
    return [(line, _each(line, kg_per_m, tile_kg)) for line in (*buying.order, *buying.spares)]


def _up(mass_kg: Fraction) -> Fraction:
    return Fraction(ceil(mass_kg * 10), 10)


def _same_kg(subject: str, message: str, found: float, wanted: Fraction) -> Iterator[Flaw]:
    if Fraction(repr(float(found))) != wanted:
        yield Flaw(
            subject=subject,
            message=message,
            measured=found,
            limit=float(wanted),
            unit="kg",
            source=LORRY,
        )


def purchases_are_weighed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each purchase weighs what its lines do, spares with them."""
    buying, masses = buying_of(plan), dict[str, Fraction]()
    brought, framed = delivery_of(plan), delivery_of(plan).frame_density_kg_m3
    if plan.tiling is not None and framed is not None and brought.density_kg_m3 != framed:
        message = "a fascia under tiles is as dense as the frame"
        yield Flaw(subject="buying.delivery.density_kg_m3", message=message,
                   measured=brought.density_kg_m3, limit=framed, source=LORRY)  # fmt: skip
    for line, each in _weighed(plan):
        if each:
            masses[line.article] = masses.get(line.article, Fraction(0)) + each * line.quantity
    whats = {part.article: part.what for part in buying.purchases}
    whats |= {part.article: part.what for part in buying.packs}
    told = {part.article: part for part in delivery_of(plan).parts}
    message = "purchases weighed"
    found = len(delivery_of(plan).parts)
    yield from same_count("buying.delivery.parts", message, found, len(masses), LORRY)
    for article, mass in masses.items():
        subject, part = f"buying.delivery: {article}", told.get(article)
        if part is None:
            yield Flaw(subject=subject, message="not weighed", source=LORRY)
            continue
        yield from same_text(subject, "not its name", part.what, whats.get(article, ""), LORRY)
        yield from _same_kg(subject, "not what it weighs", part.mass_kg, _up(mass))


def masses_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the whole order weighs what its purchases do."""
    brought = delivery_of(plan)
    summed = sum((Fraction(repr(float(part.mass_kg))) for part in brought.parts), Fraction(0))
    message = "not the sum of its purchases"
    yield from _same_kg("buying.delivery.total_kg", message, brought.total_kg, summed)


def _lifted(
    plan: Plan, weighed: list[tuple[OrderLine, Fraction]]
) -> Iterator[tuple[OrderLine, int | None, Fraction]]:
    """Yield what somebody lifts of each line, with its count and mass: tiles one by one."""
    tile_kg = _tile_kg(plan)
    for line, kg in weighed:
        if line.article in tile_kg:
            yield line, 1, tile_kg[line.article]
        elif line.length_mm is not None or kg <= LORRY_KG:
            yield line, line.pack, kg


def heaviest_lift(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the lift told is the first of the heaviest that anybody lifts."""
    brought, weighed = delivery_of(plan), _weighed(plan)
    lifted = list(_lifted(plan, weighed))
    heaviest = max((kg for *_, kg in lifted), default=Fraction(0))
    first = next(((line, pack) for line, pack, kg in lifted if kg == heaviest), None)
    line, pack = need(first, "thing to lift")
    path, message = "buying.delivery.lift", "not the heaviest that anybody lifts"
    yield from same_text(f"{path}_article", message, brought.lift_article, line.article, LORRY)
    if (brought.lift_length_mm, brought.lift_pack) != (line.length_mm, pack):
        yield Flaw(subject=path, message=message, source=LORRY)
    yield from _same_kg(f"{path}_kg", message, brought.lift_kg, _up(heaviest))
    set_down = [w for w, kg in weighed if w.length_mm is None and kg > LORRY_KG]
    packs = sum(w.quantity for w in set_down)
    message = "not the packs that only the lorry lifts"
    yield from same_count("buying.delivery.lorry_packs", message, brought.lorry_packs, packs, LORRY)


def heavy_lifts_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a lift is beyond one person, and no finding tells it."""
    brought, told = delivery_of(plan), {finding.code for finding in plan.findings}
    most = Fraction(LIFT_MOST_KG)
    message = "not what one person lifts at most"
    yield from _same_kg("buying.delivery.lift_most_kg", message, brought.lift_most_kg, most)
    laid = surface_of(plan).board_article if plan.tiles is None else plan.tiles.article
    by_tile = brought.lift_article == laid and "TIL-011" in told
    if brought.lift_kg > brought.lift_most_kg and "BUY-004" not in told and not by_tile:
        message = "more than one person lifts, and no finding tells it"
        yield Flaw(subject="BUY-004", message=message, source=LORRY)
    if brought.lorry_packs and "BUY-005" not in told:
        message = "packs for the lorry to set down, and no finding tells it"
        yield Flaw(subject="BUY-005", message=message, source=LORRY)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-861", "each purchase weighs what its lengths and packs do", purchases_are_weighed),
    ("AUD-862", "masses add up", masses_add_up),
    ("AUD-863", "the heaviest lift is told", heaviest_lift),
    ("AUD-864", "what is too heavy for one stands among the findings", heavy_lifts_are_told),
)
