"""Money: prices that agree, sums that are exact, an order that is what was cut."""

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from drylay.audit.cutting import BUYING
from drylay.audit.exact import ceil_div, ticks, total
from drylay.audit.flaws import conventions, need, same_count, same_money
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import pieces_of
from drylay.audit.proofs import digits_of, in_minor
from drylay.audit.wanted import all_wanted, buying_of, wanted_boards, wanted_border
from drylay.buying.model import Buying, OrderLine, Purchase
from drylay.plan.model import Plan

SUMS = conventions("Lengths, marks, money: money is exact")


def _of(purchase: Purchase, field: str) -> str:
    return f"{purchase.article}: {field}"


def costs_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each purchase whose cost is not the sum of its lengths' prices."""
    for purchase in buying_of(plan).purchases:
        summed = total(bought.price for bought in purchase.lengths)
        message = "not the sum of its lengths' prices"
        yield from same_money(_of(purchase, "cost"), message, purchase.cost, summed, SUMS)


def joints_are_priced(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the boards carry joint price x joints, and others nothing."""
    for wanted in all_wanted(plan):
        purchase = wanted.purchase
        if purchase is not None:
            message = "not joint price x joints"
            cost = _joint_price(plan, wanted.name) * wanted.joints
            yield from same_money(
                _of(purchase, "joint cost"), message, purchase.joint_cost, cost, BUYING
            )


def _joint_price(plan: Plan, name: str) -> Decimal:
    """Return what a joint is priced at: in boards; frame, fascia and fabric have no joints."""
    if plan.tiling is not None or plan.tiles is not None:
        return Decimal(0)
    pieces = pieces_of(plan)
    edged = name == "border boards" and pieces.border is not None
    return pieces.border.joint_price if edged and pieces.border else pieces.joint_price


def objectives_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless objective = cost + joints, and gap = objective - bound."""
    for purchase in buying_of(plan).purchases:
        objective = purchase.cost + purchase.joint_cost
        message = "not cost + joints"
        yield from same_money(
            _of(purchase, "objective"), message, purchase.objective, objective, BUYING
        )
        gap = purchase.objective - purchase.bound
        message = "not objective - bound"
        yield from same_money(_of(purchase, "gap"), message, purchase.gap, gap, BUYING)
        if purchase.gap < 0:
            message = "cheaper than its own bound"
            yield from same_money(
                _of(purchase, "bound"), message, purchase.bound, purchase.objective, BUYING
            )


def prices_are_the_proofs(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each length that is not on sale in the proof, or at another price."""
    for purchase in buying_of(plan).purchases:
        digits = digits_of(purchase)
        prices = {stock.length: stock.price for stock in purchase.proof.task.stock}
        for bought in purchase.lengths:
            length = ticks(bought.length_mm)
            if length not in prices:
                message = "no such length is on sale in the proof"
                yield Flaw(subject=bought.mark, message=message, source=BUYING)
            elif in_minor(bought.price, digits) != prices[length]:
                message = "not the price in the proof"
                wanted = Decimal(prices[length]).scaleb(-digits)
                yield from same_money(bought.mark, message, bought.price, wanted, BUYING)


def _bought(plan: Plan) -> Counter[tuple[str, int, Decimal]]:
    """Return how many of each article and length are bought, at which price."""
    return Counter(
        (purchase.article, ticks(bought.length_mm), bought.price)
        for purchase in buying_of(plan).purchases
        for bought in purchase.lengths
    )


def stock_is_not_overdrawn(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where more of a length is bought, spares included, than there is."""
    buying = buying_of(plan)
    for purchase in buying.purchases:
        for stock in purchase.proof.task.stock:
            if stock.limit is not None:
                taken = _taken(buying, purchase, stock.length)
                if taken > stock.limit:
                    subject = f"{purchase.article} {stock.name}"
                    message = "more than there are"
                    yield from same_count(subject, message, taken, stock.limit, BUYING)


def _taken(buying: Buying, purchase: Purchase, length: int) -> int:
    spares = sum(
        line.quantity
        for line in buying.spares
        if line.article == purchase.article and ticks(line.length_mm or 0.0) == length
    )
    return spares + sum(ticks(bought.length_mm) == length for bought in purchase.lengths)


def order_is_the_purchase(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the order lists each length and pack bought, no more and no fewer."""
    buying = buying_of(plan)
    wanted: Counter[tuple[str, object, Decimal]] = Counter()
    for (article, length, price), count in _bought(plan).items():
        wanted[article, length, price] += count
    for pack in buying.packs:
        for box in pack.packs:
            wanted[pack.article, f"pack of {box.pack}", box.price] += box.packs
    listed: Counter[tuple[str, object, Decimal]] = Counter()
    for line in buying.order:
        listed[line.article, _size(line), line.unit_price] += line.quantity
    for key in {**wanted, **listed}:
        message = "in the order, against what is sawn and screwed"
        subject = f"{key[0]} {_spell(key[1])} at {key[2]}"
        yield from same_count(subject, message, listed[key], wanted[key], BUYING)


def _size(line: OrderLine) -> object:
    return f"pack of {line.pack}" if line.length_mm is None else ticks(line.length_mm)


def _spell(size: object) -> str:
    return f"{size / 320:g}" if isinstance(size, int) else str(size)


def order_lines_are_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each line of order or spares with a wrong sum, or no single size."""
    buying = buying_of(plan)
    for line in (*buying.order, *buying.spares):
        subject = f"{line.article} {_spell(_size(line))}"
        wanted = line.unit_price * line.quantity
        yield from same_money(subject, "not quantity x price", line.total, wanted, SUMS)
        if (line.length_mm is None) == (line.pack is None):
            message = "a line is sold by length or by pack"
            yield Flaw(subject=subject, message=message, source=BUYING)
        if line.quantity < 1:
            yield from same_count(subject, "a line of nothing", line.quantity, 1, BUYING)


def totals_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless order, spares and total are exact sums."""
    buying = buying_of(plan)
    sums = {
        "order_total": (buying.order_total, total(line.total for line in buying.order)),
        "spares_total": (buying.spares_total, total(line.total for line in buying.spares)),
        "total": (buying.total, buying.order_total + buying.spares_total),
    }
    for name, (told, summed) in sums.items():
        yield from same_money(f"buying.{name}", "not the sum", told, summed, SUMS)


def money_is_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each price of the order that the currency has no coin for, or below 0."""
    buying = buying_of(plan)
    need(buying.purchases or None, "purchases")
    digits = digits_of(buying.purchases[0])
    for line in (*buying.order, *buying.spares):
        if in_minor(line.unit_price, digits) is None or line.unit_price < 0:
            message = f"not an amount in {buying.currency or 'the currency'}"
            price = float(line.unit_price)
            yield Flaw(subject=line.article, message=message, measured=price, source=SUMS)


def spares_follow_the_rule(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless spare boards are the ratio of those bought, the longest used first.

    Of a length sold in whole packs only, what is sawn and spare is filled up to them.
    """
    buying, wanted = buying_of(plan), Counter[tuple[str, int]]()
    for kind in (wanted_boards(plan), *wanted_border(plan)):
        boards = need(kind.purchase, f"purchase of {kind.name}")
        needed = len(boards.lengths) * Fraction(str(buying.spare_ratio))
        wanted += spare_lengths(boards, ceil_div(needed.numerator, needed.denominator))
    for packed in buying.whole_packs:
        size = (packed.article, ticks(packed.length_mm))
        subject, message = f"{size[0]} {packed.length_mm:g}", "spares wanted of what comes in packs"
        yield from same_count(subject, message, packed.spare, wanted[size], BUYING)
        wanted[size] = packed.packs * packed.pack - packed.sawn
    listed: Counter[tuple[str, int]] = Counter()
    for line in buying.spares:
        listed[line.article, ticks(line.length_mm or 0.0)] += line.quantity
    for key in {**wanted, **listed}:
        subject = f"spares: {key[0]} {key[1] / 320:g}"
        message = "spare lengths the rule asks for"
        yield from same_count(subject, message, listed[key], wanted[key], BUYING)


def spare_lengths(purchase: Purchase, spares: int) -> Counter[tuple[str, int]]:
    """Return the spares of each length: the longest used first, as far as the stock reaches."""
    used = Counter(ticks(bought.length_mm) for bought in purchase.lengths)
    limits = {stock.length: stock.limit for stock in purchase.proof.task.stock}
    wanted: Counter[tuple[str, int]] = Counter()
    for length in sorted(used, reverse=True):
        limit = limits.get(length)
        taken = spares if limit is None else max(min(spares, limit - used[length]), 0)
        wanted[purchase.article, length] = taken
        spares -= taken
    return wanted


def spares_cost_the_same(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each spare length at another price than the length that was bought."""
    buying = buying_of(plan)
    prices = {(article, length): price for article, length, price in _bought(plan)}
    for line in buying.spares:
        key = (line.article, ticks(line.length_mm or 0.0))
        message = "not the price of that length"
        subject = f"spares: {line.article} {key[1] / 320:g}"
        price = prices.get(key, line.unit_price)
        yield from same_money(subject, message, line.unit_price, price, BUYING)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-721", "each purchase costs the sum of its lengths", costs_add_up),
    ("AUD-722", "joints are priced, on boards only", joints_are_priced),
    ("AUD-723", "objective and gap add up, and no plan beats its bound", objectives_add_up),
    ("AUD-724", "lengths and prices are those of the proof", prices_are_the_proofs),
    ("AUD-725", "limited stock is respected, spares included", stock_is_not_overdrawn),
    ("AUD-726", "the order is what is sawn and screwed", order_is_the_purchase),
    ("AUD-727", "every line is quantity x price", order_lines_are_whole),
    ("AUD-728", "totals are exact sums", totals_add_up),
    ("AUD-729", "prices are whole coins", money_is_whole),
    ("AUD-730", "spare boards follow their rule", spares_follow_the_rule),
    ("AUD-731", "spares cost what the same length costs", spares_cost_the_same),
)
