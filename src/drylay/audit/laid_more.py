"""What is sawn again, held to its purchase and widths; ways back and cautions, to their figures."""

from collections.abc import Iterator

from drylay.audit.exact import minor, ticks
from drylay.audit.flaws import conventions, off_by
from drylay.audit.laid_again import sizes
from drylay.audit.laid_rests import board_320, laid_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.proofs import digits_of
from drylay.audit.rows import surface_of
from drylay.audit.wanted import buying_of
from drylay.correcting.model import EndForecast, Laid, Recut
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.reasons import Source

AGAIN = conventions("Rows while laying (laid): cut again")
WAYS = Source(kind="arithmetic", title="docs/correcting.md", clause="Gaps")
OURS = Source(kind="assumption", title="docs/correcting.md", clause="Impossible readings")
ENDS = ("left", "right")
#: Ways back are told in tenths, away from nothing; expected edges of two row counts likewise.
TENTH_MM, TENTHS_MM = 0.1 + 1e-6, 0.2
#: By how much a board may differ from the plan before it matters: common practice, no source.
WIDTH_MM = 0.5


def bought_is_what_is_sawn(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless boards are those of the purchase, and cost what those to buy cost."""
    for recut in laid_of(plan).recut:
        lengths = recut.purchase.lengths if recut.purchase else ()
        if [each.pieces for each in lengths] != [board.pieces for board in recut.boards]:
            message = "boards sawn again are not those that the purchase proves"
            yield Flaw(subject=f"laid.recut: {recut.what}", message=message,
                       measured=len(recut.boards), limit=len(lengths), unit="count",
                       source=AGAIN)  # fmt: skip
        yield from _cost(plan, recut)


def _cost(plan: Plan, recut: Recut) -> Iterator[Flaw]:
    """Yield a flaw unless a cost is that of boards to buy, at the prices of the order's proof."""
    for bought in (each for each in buying_of(plan).purchases if each.what == recut.what):
        prices = {f"buy {stock.name}": stock.price for stock in bought.proof.task.stock}
        cost = sum(prices.get(board.stock, 0) for board in recut.boards)
        digits = digits_of(bought)
        if minor(recut.cost, digits) != cost:
            message = "not what the boards to buy cost"
            yield Flaw(subject=f"laid.recut: {recut.what}", message=message, source=AGAIN,
                       measured=float(recut.cost), limit=cost / 10**digits,
                       unit="money")  # fmt: skip


def strips_hold_no_wider(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece that is to come out of a ripped strip narrower than its row."""
    laid = laid_of(plan)
    known, wide = sizes(plan, laid), _wanted(plan, laid)
    strips = {row.mark: ticks(row.width_mm) for row in surface_of(plan).rows if row.ripped}
    for recut in laid.recut:
        for board in recut.boards:
            strip = strips.get(known[board.stock].row) if board.stock in known else None
            rows = (known[mark].row for mark in board.pieces if mark in known)
            widest = max((wide.get(row, 0) for row in rows), default=0)
            if strip is not None and widest > strip:
                message = "ripped narrower than a piece that is to come out of it"
                yield off_by(board.stock, message, strip, widest, AGAIN)


def _wanted(plan: Plan, laid: Laid) -> dict[str, int]:
    """Return how wide a board each row left takes: what it is ripped to, or a whole one."""
    whole = {row.mark: ticks(row.width_mm) for row in surface_of(plan).rows}
    return {
        row.mark: ticks(max(row.width_left_mm, row.width_right_mm))
        if row.ripped
        else whole.get(row.mark, 0)
        for row in laid.rows
    }


def widths_are_the_rows(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece cut again that is told another width than its row's."""
    laid = laid_of(plan)
    known = sizes(plan, laid)
    for piece in (each for recut in laid.recut for each in recut.pieces if each.mark in known):
        wanted = known[piece.mark].wide_320 or (None, None)
        told = (piece.width_left_mm, piece.width_right_mm)
        if tuple(None if width is None else ticks(width) for width in told) != wanted:
            message = f"told {told} mm wide at its ends, which its row is not"
            yield Flaw(subject=piece.mark, message=message, source=AGAIN)


def ways_back_are_measured(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where ends come out and no way back is told, or a way with other figures."""
    laid = laid_of(plan)
    off = [_out_mm(laid, end) for end in ENDS]
    kinds = [way.kind for way in laid.ways_back]
    wanted = {"move_fascia"} if max(off) > 0 else set()
    wanted |= {"leave_short"} if min(off) < 0 else set()
    if not wanted <= set(kinds) or len(set(kinds)) < len(kinds) or (kinds and not wanted):
        message = "no way back for an end that comes out, one told twice, or one for nothing"
        yield Flaw(subject="laid.ways_back", message=message, measured=len(kinds),
                   limit=len(wanted), unit="count", source=WAYS)  # fmt: skip
    for end in ENDS:
        figures = _figures(plan, laid, end)
        for way in laid.ways_back:
            told, figure = getattr(way, f"{end}_mm"), figures.get(way.kind)
            if figure is None or abs(told - figure) > TENTH_MM:
                message = f"a way back ({way.kind}) whose {end} end is not what it would take"
                yield Flaw(subject="laid.ways_back", message=message, measured=told, limit=figure,
                           unit="mm", source=WAYS)  # fmt: skip


def _out_mm(laid: Laid, end: str) -> float:
    off: float = getattr(laid.readings[-1], end).off_mm
    return off if abs(off) > laid.step_mm / 2 else 0.0


def _figures(plan: Plan, laid: Laid, end: str) -> dict[str, float]:
    """Return what each way back would come to at an end, by its kind."""
    entry, rows, left = laid.readings[-1], surface_of(plan).rows, len(laid.rows)
    its: EndForecast = getattr(entry, end)
    out = _out_mm(laid, end)
    board = board_320(plan) / 320 + its.more_mm
    gaps = its.needed_gap_mm * left
    found = {
        "more_change": abs(its.needed_gap_mm - _gap_before_mm(plan, laid, end)),
        "rip_last": rows[-1].width_mm + its.more_mm - max(0.0, its.off_mm),
        "move_fascia": max(0.0, out),
        "leave_short": max(0.0, -out),
        "more_rows": (gaps - board) / (left + 1),
    }
    return found | ({"fewer_rows": (gaps + board) / (left - 1)} if left > 1 else {})


def _gap_before_mm(plan: Plan, laid: Laid, end: str) -> float:
    gaps: tuple[float, ...] = getattr(laid.readings[-1], f"gaps_{end}_mm")
    return gaps[-1] if gaps else surface_of(plan).rows[1].gap_mm


def cautions_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where no caution tells of boards that take more, or a count that fits better."""
    laid = laid_of(plan)
    entry = laid.readings[-1]
    cautions = [f for f in plan.findings if f.severity is not Severity.NOTE]
    told = {(f.code, f.measured) for f in cautions}
    more = max(abs(entry.left.more_mm), abs(entry.right.more_mm))
    if more > WIDTH_MM and ("COR-005", more) not in told:
        message = "no caution tells how much more or less a board takes"
        yield off_by("COR-005", message, ticks(more), ticks(WIDTH_MM), WAYS)
    counted = {(f.subject, f.measured) for f in cautions if f.code == "COR-002"}
    for end in ENDS:
        edge = getattr(entry.reading, f"{end}_mm")
        nearer = _nearer_mm(plan, laid, end, edge)
        if nearer > TENTHS_MM and (f"{end} end", edge) not in counted:
            message = f"no caution tells that another row count fits the {end} end better"
            yield off_by(f"COR-002 {end} end", message, ticks(nearer), 0, OURS)


def _nearer_mm(plan: Plan, laid: Laid, end: str, edge_mm: float) -> float:
    """Return by how much the row count that fits an edge best comes nearer than the one told."""
    gaps = getattr(laid.readings[-1], f"gaps_{end}_mm")
    gap = sum(gaps) / len(gaps) if gaps else surface_of(plan).rows[1].gap_mm
    at: float = -gap
    off: list[float] = []
    for row in surface_of(plan).rows:
        at += gap + row.width_mm
        off.append(abs(at - edge_mm))
    return off[laid.rows_laid - 1] - min(off)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-153", "boards sawn again are those of their purchase, at the order's prices",
     bought_is_what_is_sawn),
    ("AUD-154", "a ripped strip holds nothing wider than itself", strips_hold_no_wider),
    ("AUD-155", "pieces cut again are as wide as their row", widths_are_the_rows),
    ("AUD-156", "ways back say what would bring the ends in", ways_back_are_measured),
    ("AUD-157", "a wrong count and boards that take more stand among the findings",
     cautions_are_told),
)  # fmt: skip
