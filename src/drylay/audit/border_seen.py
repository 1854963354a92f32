"""The border before its witnesses: is it the brief's, of the board and screw that are sold?"""

from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal
from fractions import Fraction
from math import ceil

from drylay.audit.exact import ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, need, same_count, same_length, same_money, same_text
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.packs import least_price
from drylay.audit.pieces import pieces_of
from drylay.audit.ranking import border_of
from drylay.audit.rows import surface_of
from drylay.audit.wanted import buying_of
from drylay.brief.model import Brief
from drylay.materials.stock_model import Board, Catalogue
from drylay.plan.model import Plan
from drylay.surface.model import Border

BRIEF = conventions("Border; the brief's own wish")
SOLD = conventions("Border; what is on sale")
AT = "surface.border"


def _brief(witness: Witness) -> Brief:
    return need(witness.brief, "brief as witness")


def _stock(witness: Witness) -> Catalogue:
    return need(witness.stock, "stock as witness")


def border_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless border, rows and screw are the brief's, or none where it wishes none."""
    border, brief = surface_of(plan).border, _brief(witness)
    found, wanted = border.article if border else "", brief.border.article or ""
    yield from same_text(f"{AT}.article", "not the brief's", found, wanted, BRIEF)
    screws = fixings_of(plan).border_screws
    if border is not None and screws is not None:
        rows = brief.border.rows
        yield from same_count(f"{AT}.rows", "not the brief's", border.rows, rows, BRIEF)
        screw = brief.border.screw or brief.fixings.screw or ""
        path = "fixings.border_screws.article"
        yield from same_text(path, "not the brief's article", screws.article, screw, BRIEF)


def _sold(plan: Plan, witness: Witness) -> tuple[Border, Board] | None:
    """Return the border and its board as sold; None without a border."""
    border = surface_of(plan).border
    if border is None:
        return None
    board = border_of(plan, _stock(witness))
    return border, need(board, f"article {border.article!r} in the stock")


def border_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the border's board has the sizes of its article, or those measured."""
    found = _sold(plan, witness)
    if found is None:
        return
    border, board = found
    measured = _brief(witness).border.measured_width_mm
    sizes = {
        "width_mm": board.width_mm if measured is None else measured,
        "thickness_mm": board.thickness_mm,
        "groove_mm": board.groove_mm,
    }
    for name, size in sizes.items():
        told = getattr(border, name) or 0.0
        yield from same_length(f"{AT}.{name}", "not the article's", told, ticks(size), SOLD)
    brought = buying_of(plan).delivery
    if brought is not None and brought.border_kg_m != board.mass_kg_m:
        yield Flaw(
            subject="buying.delivery.border_kg_m",
            message="not what a metre of the article weighs",
            measured=brought.border_kg_m,
            limit=board.mass_kg_m,
            unit="kg/m",
            source=SOLD,
        )


def border_joints_priced(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless joints of the border have the brief's price, or that of 100 mm."""
    found, joints = _sold(plan, witness), pieces_of(plan).border
    if found is None or joints is None:
        return
    wished = _brief(witness).joints.price_each
    if wished is None:
        lengths = found[1].lengths
        on_sale = [sold for sold in lengths if sold.limit != 0] or lengths
        each = [100 * sold.price / Decimal(str(sold.length_mm)) for sold in on_sale]
        coin = Decimal(1).scaleb(-_stock(witness).minor_digits)
        wished = min(each).quantize(coin, rounding=ROUND_CEILING)
    path, message = "pieces.border.joint_price", "not the brief's, nor that of 100 mm of board"
    yield from same_money(path, message, joints.joint_price, wished, BRIEF)


def border_face_up(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the border's face up is one its board has, smooth of two."""
    found, finish = _sold(plan, witness), fixings_of(plan).finish
    if found is None or finish is None:
        return
    wanted = {"one grooved": "smooth", None: "grooved"}.get(found[1].faces, found[1].faces or "")
    path, message = "fixings.finish.border_face_up", "not the face that lies up"
    yield from same_text(path, message, finish.border_face_up, wanted, SOLD)


def packers_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless packers under boards are plain, as high as told, and cheapest of such."""
    packers, stock = fixings_of(plan).board_packers, _stock(witness)
    if packers is None:
        return
    high = ticks(packers.height_mm)
    fit = [each for each in stock.packers
           if ticks(each.least_mm) == ticks(each.most_mm) == high]  # fmt: skip
    codes = [each.code for each in fit]
    path = "fixings.board_packers.article"
    if packers.article not in (codes or [""]):
        found = packers.article or "none"
        message = f"{found}, of those so high on sale {', '.join(codes) or 'none'}"
        yield Flaw(subject=path, message=message, source=SOLD)
        return
    ratio = Fraction(str(buying_of(plan).spare_ratio))
    need_and_spare = packers.count + ceil(ratio * packers.count)
    costs = {}
    for each in fit:
        sizes = tuple((pack.count, pack.price) for pack in each.packs)
        costs[each.code] = need(least_price(need_and_spare, sizes), "packs of packers")
    if costs:
        cheapest = min(costs, key=lambda code: (costs[code], code))
        yield from same_text(path, "another is cheaper", packers.article, cheapest, SOLD)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W85", "the border is the brief's", border_as_wished),
    ("AUD-W86", "the border's board is as sold, or as measured", border_as_sold),
    ("AUD-W87", "a joint of the border has the brief's price, or that of 100 mm of board",
     border_joints_priced),
    ("AUD-W88", "the border's face up is one its board has", border_face_up),
    ("AUD-W89", "packers under boards are plain, so high, and the cheapest such on sale",
     packers_as_sold),
)  # fmt: skip
