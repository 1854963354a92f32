"""What is cut again: the pieces not yet cut, out of the boards at hand, and out of cut ones."""

from collections import Counter
from collections.abc import Iterator
from decimal import Decimal

from attrs import evolve

from drylay.buying.model import BoughtLength, Purchase
from drylay.buying.purchase import money, pieces_of, purchase
from drylay.correcting.model import Laid, Recut, SawnAgain
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import CutPlan, Stock, Task
from drylay.cutting.shed import shed_first
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.plan.model import Plan
from drylay.planner.corrected_pieces import (
    BOARDS,
    FASCIA,
    Sized,
    boards_of,
    cut_again,
    fascia_of,
)
from drylay.reasons import Source

SUM = Source(kind="arithmetic", title="docs/correcting.md", clause="Cutting again")
#: What begins the marks of boards as they are sawn again.
MARKS = {BOARDS: "RB", FASCIA: "RF"}


def recut_of(plan: Plan, laid: Laid) -> tuple[tuple[Recut, ...], tuple[Finding, ...]]:
    """Return what is cut again of boards and fascia, nothing where no size changed; and findings.

    Boards at hand cost nothing: those not opened, what is left of opened ones, spares, and pieces
    that are too short now. What they do not yield is bought at the prices of the plan's proof.
    """
    found, told = [], []
    for what, pieces in ((BOARDS, boards_of(plan, laid)), (FASCIA, fascia_of(plan, laid))):
        again = _recut(plan, what, pieces)
        if again is None:
            continue
        found += [again] if isinstance(again, Recut) else []
        told += [again] if isinstance(again, Finding) else list(_told(again))
    return tuple(found), tuple(told)


def _recut(plan: Plan, what: str, pieces: list[Sized]) -> Recut | Finding | None:
    changed = cut_again(pieces)
    bought = _bought(plan, what)
    if not changed or bought is None:
        return None
    longer = any(piece.now_320 > piece.was_320 and not piece.laid for piece in pieces)
    if not longer and not any(piece.wasted for piece in pieces):
        return Recut(what=what, pieces=changed, boards=(), cost=Decimal(0))
    task, wanted = _task(plan, bought, pieces)
    try:
        cuts = shed_first(solve(task))
    except NoPlan:
        return _cannot(what)
    digits = _digits(bought)
    sawn = purchase(
        what=what, article=bought.article, mark=MARKS[what], plan=cuts, named_mm=wanted,
        minor_digits=digits,
    )  # fmt: skip
    return Recut(
        what=what,
        pieces=changed,
        boards=tuple(_sawn(cuts, sawn, dict(wanted))),
        purchase=sawn,
        cost=money(cuts.cost, digits),
    )


def _bought(plan: Plan, what: str) -> Purchase | None:
    purchases = plan.buying.purchases if plan.buying else ()
    return next((bought for bought in purchases if bought.what == what), None)


def _task(
    plan: Plan, bought: Purchase, pieces: list[Sized]
) -> tuple[Task, list[tuple[str, float]]]:
    """Return the cutter's task of all that is still to be cut, and its pieces by mark."""
    task = bought.proof.task
    todo = [piece for piece in pieces if not piece.laid and (not piece.cut or piece.wasted)]
    wanted = [(piece.mark, to_mm(piece.now_320)) for piece in todo]
    hand = [*_at_hand(bought, pieces, task), *_spares(plan, bought, task)]
    hand += [
        Stock(name=piece.mark, length=piece.was_320, price=0, limit=1)
        for piece in pieces
        if piece.wasted and not piece.rip  # a ripped strip is no board
    ]
    sold = [evolve(entry, name=f"buy {entry.name}", limit=None) for entry in task.stock]
    again = Task(stock=(*hand, *sold), kerf=task.kerf, pieces=pieces_of(wanted))
    return again, wanted


def _at_hand(bought: Purchase, pieces: list[Sized], task: Task) -> Iterator[Stock]:
    """Yield every board with something left in it: whole, or what its cut pieces leave."""
    cut = {piece.mark: piece.gone_320 for piece in pieces if piece.cut}
    trims = {entry.length: entry.trim for entry in task.stock}
    for length in bought.lengths:
        whole = exact(length.length_mm)
        trim = trims.get(whole, 0)
        gone = [cut[mark] for mark in length.pieces if mark in cut]
        if not gone:
            yield Stock(name=length.mark, length=whole, price=0, limit=1, trim=trim)
            continue
        rest = whole - 2 * trim - sum(gone) - task.kerf * len(gone)
        if rest > 0:
            yield Stock(name=length.mark, length=rest, price=0, limit=1)


def _spares(plan: Plan, bought: Purchase, task: Task) -> Iterator[Stock]:
    trims = {entry.length: entry.trim for entry in task.stock}
    spares: Counter[int] = Counter()
    for line in plan.buying.spares if plan.buying else ():
        if line.article == bought.article and line.length_mm is not None:
            spares[exact(line.length_mm)] += line.quantity
    for length, count in sorted(spares.items()):
        yield Stock(name=f"spare {to_mm(length):.10g}", length=length, price=0, limit=count,
                    trim=trims.get(length, 0))  # fmt: skip


def _digits(bought: Purchase) -> int:
    """Return how many decimals the currency's minor unit stands for."""
    exponents = (entry.price.as_tuple().exponent for entry in bought.lengths)
    return max((-each for each in exponents if isinstance(each, int)), default=2)


def _sawn(cuts: CutPlan, sawn: Purchase, lengths_mm: dict[str, float]) -> Iterator[SawnAgain]:
    stock = {entry.name: entry for entry in cuts.proof.task.stock}
    names = [cut.stock for cut in cuts.cuts for _ in range(cut.boards)]
    bought: list[BoughtLength] = list(sawn.lengths)
    for name, board in zip(names, bought, strict=True):
        yield SawnAgain(
            stock=name,
            length_mm=to_mm(stock[name].length),
            pieces=board.pieces,
            pieces_mm=tuple(lengths_mm[mark] for mark in board.pieces),
        )


def _cannot(what: str) -> Finding:
    return Finding(
        code="COR-010",
        severity=Severity.CAUTION,
        subject=what,
        message="what is still to be cut cannot be had from the boards at hand, nor from the "
        "lengths that the plan was bought from: buy a longer one, or keep the size as planned",
        source=SUM,
    )


def _told(recut: Recut) -> Iterator[Finding]:
    cut = [piece for piece in recut.pieces if piece.do != "cut"]
    trims = sum(piece.do == "trim" for piece in cut)
    again = f"{len(recut.pieces)} pieces change size; of those already cut {trims} are trimmed and "
    again += f"{len(cut) - trims} become offcuts of the shed"
    yield Finding(
        code="COR-008",
        severity=Severity.NOTE,
        subject=recut.what,
        message=f"{again}: see the list of what is cut again",
        source=SUM,
    )
    if recut.cost:
        to_buy = sum(board.stock.startswith("buy ") for board in recut.boards)
        yield Finding(
            code="COR-009",
            severity=Severity.CAUTION,
            subject=recut.what,
            message=f"boards at hand do not yield all that is still to be cut: {to_buy} to buy, "
            "at the prices of the plan's order",
            measured=float(recut.cost),
            unit="money",
            source=SUM,
        )
