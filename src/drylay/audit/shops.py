"""The witnessed audit at the merchant's: sizes, prices, limits and packs as in the stock."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import TypeVar

from drylay.audit.exact import ticks
from drylay.audit.flaws import (
    conventions,
    need,
    of_boards,
    same_length,
    same_money,
    same_text,
)
from drylay.audit.leaves import at
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.packs import cheaper_packs
from drylay.audit.proofs import in_minor
from drylay.audit.rows import surface_of
from drylay.audit.wanted import buying_of
from drylay.buying.model import Buying, PackPurchase, Purchase
from drylay.materials.stock_model import (
    Bag,
    Board,
    Catalogue,
    Clip,
    CoachScrew,
    Coating,
    ConcreteMix,
    Fabric,
    FasciaBoard,
    Gravel,
    Hanger,
    Pack,
    Packer,
    PostFoot,
    Screw,
    StockLength,
    Tile,
    Timber,
    Tin,
)
from drylay.plan.model import Plan
from drylay.reasons import Source

Sawn = Board | Timber | FasciaBoard | Fabric
Packed = (
    Screw | CoachScrew | Hanger | Packer | Clip | Coating | Gravel | Tile | ConcreteMix | PostFoot
)  # fmt: skip
Sold = TypeVar("Sold", Board, Timber, FasciaBoard, Screw, CoachScrew)
SALE = conventions("Buying; what is on sale")


def stock_of(witness: Witness) -> Catalogue:
    """Return the stock the plan was bought from, if it is at hand."""
    return need(witness.stock, "stock as witness")


def _record(stock: Catalogue, clause: str) -> Source:
    return Source(kind="merchant record", title=stock.name or "stock", clause=clause)


def _named(articles: tuple[Sold, ...], code: str) -> Sold:
    found = next((article for article in articles if article.code == code), None)
    return need(found, f"article {code!r} in the stock")


def _same_sizes(plan: Plan, at_path: str, article: object, names: dict[str, str]) -> Iterator[Flaw]:
    for field, own in names.items():
        told, size = at(plan, f"{at_path}.{field}"), getattr(article, own)
        message = "not the article's size"
        yield from same_length(f"{at_path}.{field}", message, told, ticks(size), SALE)


def board_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the board has its article's thickness, and its or the measured width."""
    of_boards(plan)
    board = _named(stock_of(witness).boards, surface_of(plan).board_article)
    yield from _same_sizes(plan, "surface", board, {"board_thickness_mm": "thickness_mm"})
    brief = need(witness.brief, "brief as witness")
    measured = brief.board.measured_width_mm
    overrides = [o.value for o in brief.overrides if o.path == "surface.board_width_mm"]
    width = overrides[0] if overrides else board.width_mm if measured is None else measured
    message = "not the board's width as measured or as sold"
    told = surface_of(plan).board_width_mm
    yield from same_length("surface.board_width_mm", message, told, ticks(width), SALE)


def family_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where a board's family is not among those that answered."""
    of_boards(plan)
    surface, boards = surface_of(plan), stock_of(witness).boards
    articles = [surface.board_article, *([surface.border.article] if surface.border else [])]
    for board in [_named(boards, article) for article in articles]:
        if board.family not in {family.id for family in plan.families}:
            message = f"the board's family, {board.family!r}, is not among them"
            yield Flaw(subject="families", message=message, source=SALE)


def timber_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless frame timber and fascia have their articles' sizes."""
    stock, frame = stock_of(witness), need(plan.frame, "frame")
    timber = _named(stock.timbers, frame.timber_article)
    sizes = {"timber_thickness_mm": "thickness_mm", "timber_depth_mm": "depth_mm"}
    yield from _same_sizes(plan, "frame", timber, sizes)
    edges = need(plan.edges, "edges")
    if edges.fascia_article:
        fascia = _named(stock.fascias, edges.fascia_article)
        sizes = {"fascia_thickness_mm": "thickness_mm", "fascia_depth_mm": "depth_mm"}
        yield from _same_sizes(plan, "edges", fascia, sizes)


def board_sizes(plan: Plan, witness: Witness, article: str, *, sold: bool) -> Iterator[Flaw]:
    """Yield a flaw unless boards on an outline have their article's sizes; thickness at least."""
    board = _named(stock_of(witness).boards, article)
    sizes = {"board_thickness_mm": "thickness_mm"} | (
        {"board_width_mm": "width_mm"} if sold else {}
    )
    yield from _same_sizes(plan, "laying", board, sizes)


def timber_sizes(plan: Plan, witness: Witness, article: str) -> Iterator[Flaw]:
    """Yield a flaw unless the timber of a frame under an outline has its article's sizes."""
    timber = _named(stock_of(witness).timbers, article)
    sizes = {"timber_thickness_mm": "thickness_mm", "timber_depth_mm": "depth_mm"}
    yield from _same_sizes(plan, "subframe", timber, sizes)


def fascia_sizes(plan: Plan, witness: Witness, article: str) -> Iterator[Flaw]:
    """Yield a flaw unless the fascia of an outline has its article's sizes."""
    fascia = _named(stock_of(witness).fascias, article)
    sizes = {"facing_thickness_mm": "thickness_mm", "facing_depth_mm": "depth_mm"}
    yield from _same_sizes(plan, "subframe", fascia, sizes)


def screws_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless screws have their articles' sizes."""
    stock, fixings = stock_of(witness), need(plan.fixings, "fixings")
    sizes = {"shank_mm": "shank_mm", "length_mm": "length_mm"}
    if fixings.deck_screws is not None:
        screw = _named(stock.screws, fixings.deck_screws.article)
        yield from _same_sizes(plan, "fixings.deck_screws", screw, sizes)
    coach = _named(stock.coach_screws, fixings.coach_screws.article)
    sizes = {**sizes, "head_mm": "head_mm"}
    yield from _same_sizes(plan, "fixings.coach_screws", coach, sizes)


def _sawn(stock: Catalogue) -> list[Sawn]:
    return [*stock.boards, *stock.timbers, *stock.fascias, *stock.fabrics]


def _packed(stock: Catalogue) -> list[Packed]:
    pieces: list[Packed] = [*stock.screws, *stock.coach_screws, *stock.hangers, *stock.packers]
    pieces += [*stock.concretes, *stock.post_feet]
    return [*pieces, *stock.clips, *stock.coatings, *stock.gravels, *stock.tiles]


def lengths_of(stock: Catalogue, code: str) -> tuple[StockLength, ...]:
    """Return the lengths of an article on sale."""
    found = [article.lengths for article in _sawn(stock) if article.code == code]
    return need(found[0] if found else None, f"article {code!r} in the stock")


def lengths_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless each proof knows all lengths on sale, their prices and limits."""
    stock = stock_of(witness)
    for purchase in buying_of(plan).purchases:
        yield from _lengths_as_sold(stock, purchase)


def _lengths_as_sold(stock: Catalogue, purchase: Purchase) -> Iterator[Flaw]:
    digits = stock.minor_digits
    on_sale = {
        ticks(sold.length_mm): (in_minor(sold.price, digits), _can_be_had(sold))
        for sold in lengths_of(stock, purchase.article)
    }
    told = {sold.length: (sold.price, sold.limit) for sold in purchase.proof.task.stock}
    for length in sorted(on_sale.keys() | told.keys()):
        if on_sale.get(length) != told.get(length):
            subject = f"{purchase.article} {length / 320:g} mm"
            message = f"the proof tells {told.get(length)}, the stock {on_sale.get(length)}"
            source = _record(stock, purchase.article)
            yield Flaw(subject=subject, message=f"{message} (price, limit)", source=source)


def _can_be_had(sold: StockLength) -> int | None:
    """Return how many of a length there are in whole packs."""
    return None if sold.limit is None else sold.limit // sold.pack * sold.pack


def _packs_of(stock: Catalogue, code: str) -> dict[int, Decimal]:
    """Return the packs of an article on sale, what each holds with its price."""
    found = [article.packs for article in _packed(stock) if article.code == code]
    packs: Sequence[Pack | Tin | Bag]
    packs = need(found[0] if found else None, f"article {code!r} in the stock")
    return {_holds(pack): pack.price for pack in packs}


def _holds(pack: Pack | Tin | Bag) -> int:
    match pack:
        case Tin():
            return pack.ml
        case Bag():
            return pack.kg
    return pack.count


def packs_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for packs not on sale so, or dearer than the best choice on sale."""
    stock = stock_of(witness)
    for pack in buying_of(plan).packs:
        yield from _packs_as_sold(stock, pack)


def _packs_as_sold(stock: Catalogue, pack: PackPurchase) -> Iterator[Flaw]:
    on_sale = _packs_of(stock, pack.article)
    for box in pack.packs:
        subject = f"{pack.article} pack of {box.pack}"
        if box.pack not in on_sale:
            message = "no such pack is on sale"
            yield Flaw(subject=subject, message=message, source=_record(stock, pack.article))
        else:
            message = "not its price"
            source = _record(stock, pack.article)
            yield from same_money(subject, message, box.price, on_sale[box.pack], source)
    yield from cheaper_packs(pack, on_sale.items())


def order_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless currency, tax, titles and numbers in trade are the stock's."""
    stock, buying = stock_of(witness), buying_of(plan)
    source = _record(stock, "")
    yield from same_text(
        "buying.currency", "another currency", buying.currency, stock.currency, source
    )
    yield from same_text("buying.vat", "other terms of tax", buying.vat, stock.vat, source)
    sold: tuple[Sawn | Packed, ...] = (*_sawn(stock), *_packed(stock))
    titles = {article.code: article.title for article in sold}
    for line in (*buying.order, *buying.spares):
        wanted = titles.get(line.article, "")
        yield from same_text(line.article, "not its title", line.title, wanted, source)
    yield from _numbers_as_sold(stock, buying, source)


def _numbers_as_sold(stock: Catalogue, buying: Buying, source: Source) -> Iterator[Flaw]:
    """Yield a flaw for each line with another number in trade than what it buys."""
    numbers: dict[tuple[str, str], str] = {}
    for long in _sawn(stock):
        for length in long.lengths:
            numbers[long.code, f"{ticks(length.length_mm)}"] = length.gtin or long.record.gtin
    for packed in _packed(stock):
        for pack in packed.packs:
            numbers[packed.code, f"of {_holds(pack)}"] = pack.gtin or packed.record.gtin
    for line in (*buying.order, *buying.spares):
        size = f"of {line.pack}" if line.length_mm is None else f"{ticks(line.length_mm)}"
        message = "not its number in trade"
        wanted = numbers.get((line.article, size), "")
        yield from same_text(line.article, message, line.gtin, wanted, source)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W21", "the board is as sold, or as measured", board_as_sold),
    ("AUD-W22", "the board's family answered", family_as_sold),
    ("AUD-W23", "timber and fascia are as sold", timber_as_sold),
    ("AUD-W24", "screws are as sold", screws_as_sold),
    ("AUD-W25", "the proofs know every length on sale, price and limit", lengths_as_sold),
    ("AUD-W26", "packs are on sale, and none is a better choice", packs_as_sold),
    ("AUD-W27", "currency, tax, titles and GTINs are the stock's", order_as_sold),
)
