"""Packs: the need counted again, spares within, and no cheaper choice of packs."""

from collections.abc import Iterable, Iterator
from decimal import Decimal
from fractions import Fraction
from math import ceil, gcd

from drylay.audit.cutting import BUYING
from drylay.audit.exact import ceil_div, total
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import need, off_by, on_pads, same_count, same_money, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.wanted import buying_of
from drylay.buying.model import PackPurchase
from drylay.fixings.model import (
    BorderScrews,
    CoachScrews,
    DeckScrews,
    DoubleScrews,
    FasciaScrews,
    Fixings,
    FrameScrews,
    Hangers,
)
from drylay.plan.model import Plan

MOST_STEPS = 100_000
PIECES = "pieces"


def _needs(plan: Plan) -> dict[str, int]:
    """Return how many of each article the plan asks for: pieces, ml or kg."""
    needs: dict[str, int] = {}
    for article, count, _unit in (*_in_pieces(plan), *_in_ml(plan), *_in_kg(plan)):
        needs[article] = needs.get(article, 0) + count
    return needs


def _in_pieces(plan: Plan) -> Iterator[tuple[str, int, str]]:
    """Yield the article and the count of all that is sold by the piece."""
    yield from _tiles_and_pads(plan)
    yield from _post_feet(plan)
    fixings, groundwork = _fixings(plan), plan.groundwork
    yield from _clips_in_pieces(fixings) if fixings is not None else ()
    for more in _screws_and_hangers(fixings) if fixings is not None else ():
        if more is not None:
            yield more.article, more.count, PIECES
    if fixings is not None and fixings.hangers is not None:
        yield fixings.hangers.screw, fixings.hangers.screw_count, PIECES
    if groundwork is not None and groundwork.packing is not None:
        yield groundwork.packing.article, groundwork.packing.count, PIECES
    packers = fixings.board_packers if fixings is not None else None
    if packers is not None and packers.article:
        yield packers.article, packers.count, PIECES


def _fixings(plan: Plan) -> Fixings | None:
    """Return the plan's fixings, which only tiles on pads do without."""
    return plan.fixings if on_pads(plan) else fixings_of(plan)


Counted = (
    DeckScrews | BorderScrews | CoachScrews | FrameScrews | DoubleScrews | FasciaScrews
    | Hangers | None
)  # fmt: skip


def _screws_and_hangers(fixings: Fixings) -> tuple[Counted, ...]:
    """Return all of them; of deck screws and coach screws only where any are counted."""
    deck, coach = fixings.deck_screws, fixings.coach_screws
    return (deck if deck and deck.count else None, coach if coach and coach.count else None,
            fixings.border_screws, fixings.frame_screws, fixings.double_screws,
            fixings.fascia_screws, fixings.hangers)  # fmt: skip


def _clips_in_pieces(fixings: Fixings) -> Iterator[tuple[str, int, str]]:
    clips, caps = fixings.clips, fixings.end_caps
    if clips is not None:
        if clips.fixed_screws and fixings.deck_screws is not None:
            yield fixings.deck_screws.article, clips.fixed_screws, PIECES
        if clips.count:
            yield clips.article, clips.count, PIECES
        if clips.starter_article and clips.starter_count:
            yield clips.starter_article, clips.starter_count, PIECES
        if clips.edge_screws and fixings.deck_screws is not None:
            yield fixings.deck_screws.article, clips.edge_screws, PIECES
    if caps is not None and caps.count:
        yield caps.article, caps.count, PIECES


def _tiles_and_pads(plan: Plan) -> Iterator[tuple[str, int, str]]:
    tiling, surface = plan.tiling, plan.surface
    if tiling is not None and surface is not None:
        yield surface.board_article, tiling.need, PIECES
        if tiling.pads is not None:
            yield tiling.pads.article, tiling.pads.count, PIECES
    if plan.tiles is not None:
        yield plan.tiles.article, plan.tiles.need, PIECES
        yield plan.tiles.pads.article, plan.tiles.pads.count, PIECES


def _post_feet(plan: Plan) -> Iterator[tuple[str, int, str]]:
    deck = plan.raised
    if deck is not None and deck.foot_article:
        yield deck.foot_article, len(deck.frame.posts), PIECES


def _in_ml(plan: Plan) -> Iterator[tuple[str, int, str]]:
    fixings = _fixings(plan)
    brushed = (fixings.preserver, fixings.wax, fixings.finish) if fixings is not None else ()
    for coating in brushed:
        if coating is not None:
            yield coating.article, coating.need_ml, "ml"


def _in_kg(plan: Plan) -> Iterator[tuple[str, int, str]]:
    gravel = plan.groundwork.gravel if plan.groundwork is not None else None
    if gravel is not None:
        yield gravel.article, ceil(Fraction(repr(gravel.mass_kg))), "kg"
    feet = plan.footings
    if feet is not None and feet.mix_article:
        yield feet.mix_article, feet.mix_kg or 0, "kg"


def units_are_right(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where packs or their lines of the order count in another unit than the need."""
    units = {a: unit for a, _, unit in (*_in_pieces(plan), *_in_ml(plan), *_in_kg(plan))}
    buying = buying_of(plan)
    sold = [(pack.article, pack.unit) for pack in buying.packs]
    sold += [(line.article, line.unit) for line in (*buying.order, *buying.spares)]
    for article, unit in sold:
        wanted = units.get(article, PIECES)
        yield from same_text(article, "counted in another unit", unit, wanted, BUYING)


def packs_meet_the_need(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each fixing is bought once, as many as were counted."""
    needs = _needs(plan)
    bought = [pack.article for pack in buying_of(plan).packs]
    for article in {**needs, **dict.fromkeys(bought)}:
        wanted = int(article in needs)
        message = "purchases of packs"
        yield from same_count(article, message, bought.count(article), wanted, BUYING)
    for pack in buying_of(plan).packs:
        need_here = needs.get(pack.article, pack.need)
        message = "not what the fixings count"
        yield from same_count(f"{pack.article}: need", message, pack.need, need_here, BUYING)


def spare_screws(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless spares of what is sold by the piece are their ratio, rounded up."""
    buying = buying_of(plan)
    for pack in buying.packs:
        ratio = Fraction(str(buying.spare_ratio)) if pack.unit == PIECES else Fraction(0)
        spare = ratio * pack.need
        wanted = ceil_div(spare.numerator, spare.denominator)
        message = "not the ratio of the need, rounded up"
        yield from same_count(f"{pack.article}: spare", message, pack.spare, wanted, BUYING)


def packs_hold_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the packs hold fewer than need and spares."""
    for pack in buying_of(plan).packs:
        held = sum(box.pack * box.packs for box in pack.packs)
        if held < pack.need + pack.spare:
            message = "the packs hold too few"
            yield from same_count(pack.article, message, held, pack.need + pack.spare, BUYING)


def packs_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a fixing's cost is the sum of its packs, and no less than its bound."""
    for pack in buying_of(plan).packs:
        summed = total(box.price * box.packs for box in pack.packs)
        message = "not the sum of its packs"
        yield from same_money(f"{pack.article}: cost", message, pack.cost, summed, BUYING)
        message = "not the least price its packs could cost"
        yield from same_money(f"{pack.article}: bound", message, pack.bound, pack.cost, BUYING)


def packs_are_cheapest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the same sizes of pack would do for less."""
    for pack in buying_of(plan).packs:
        sizes = [(box.pack, box.price) for box in pack.packs]
        yield from cheaper_packs(pack, sizes)


def cheaper_packs(pack: PackPurchase, sizes: Iterable[tuple[int, Decimal]]) -> Iterator[Flaw]:
    """Yield a flaw where some choice of these packs covers need and spares for less."""
    least = least_price(pack.need + pack.spare, tuple(sizes))
    if least is not None and least < pack.cost:
        message = "a cheaper choice of packs covers the need"
        yield from same_money(pack.article, message, pack.cost, least, BUYING)


def least_price(needed: int, sizes: tuple[tuple[int, Decimal], ...]) -> Decimal | None:
    """Return the least price of packs that hold at least so many, None where none can.

    Counted out for every number up to the need, in steps of the packs' common divisor.

    Raises:
        NothingToMeasure: The need is beyond counting out.
    """
    real = [(count, price) for count, price in sizes if count > 0]
    if not real:
        return None
    step = gcd(*(count for count, _price in real))
    steps = max(ceil_div(needed, step), 0)
    need(steps if steps <= MOST_STEPS else None, "need that can be counted out")
    least = [Decimal(0)]
    for held in range(1, steps + 1):
        least.append(min(price + least[max(held - count // step, 0)] for count, price in real))
    return least[steps]


def packs_are_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each pack of nothing, bought less than once, or below no price."""
    for pack in buying_of(plan).packs:
        need(pack.packs or None, "packs")
        for box in pack.packs:
            if box.pack < 1 or box.packs < 1 or box.price < 0:
                message = "a pack of nothing, or bought less than once"
                yield off_by(pack.article, message, 320 * box.packs, 320, BUYING)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-741", "packs are bought for the fixings counted", packs_meet_the_need),
    ("AUD-742", "spare fixings follow their ratio", spare_screws),
    ("AUD-743", "packs hold need and spares", packs_hold_enough),
    ("AUD-744", "packs add up to their cost, and to the least there is", packs_add_up),
    ("AUD-745", "no cheaper choice of the same packs would do", packs_are_cheapest),
    ("AUD-746", "packs are whole and hold something", packs_are_whole),
    ("AUD-747", "packs count in the unit of what they are for", units_are_right),
)
