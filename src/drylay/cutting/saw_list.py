"""The saw list of a plan: each board opened once, each cut with its place."""

from drylay.cutting.model import CutPlan, Stock, Task
from drylay.cutting.sharing import share_out, whole_job
from drylay.cutting.uses_model import (
    SawCut,
    SawList,
    SawnBoard,
    SawnPiece,
    SharedBoard,
    TogetherPlan,
)


def saw_list(plan: CutPlan | TogetherPlan, *, least_offcut: int | None = None) -> SawList:
    """Return a plan's boards in the order to open them, with every cut measured from one end.

    Boards come in an order that finishes lines early: each has a piece for the first line that
    is not finished, and begins as few new lines as may be (`cutting.sharing` has the rule).
    Pieces in a board run longest first. The trim of the first end is sawn off first, so that
    its cut lies in the trim; each piece then takes its length and a cut. The last piece needs
    none where it ends with the board. `least_offcut` is the shortest offcut worth keeping,
    the shortest piece of the plan unless told.

    Raises:
        CutTaskError: the boards do not make just the pieces that are wanted.
    """
    whole = plan.plan if isinstance(plan, TogetherPlan) else plan
    jobs = plan.jobs if isinstance(plan, TogetherPlan) else (whole_job(whole),)
    boards, most_open = share_out(whole, jobs)
    shortest = min((min(board.pieces) for board in boards if board.pieces), default=0)
    least = shortest if least_offcut is None else least_offcut
    return SawList(
        boards=tuple(
            _sawn(number, board, whole.proof.task, least) for number, board in enumerate(boards, 1)
        ),
        least_offcut=least,
        most_open=most_open,
    )


def _sawn(number: int, board: SharedBoard, task: Task, least: int) -> SawnBoard:
    stock = next(stock for stock in task.stock if stock.name == board.stock)
    pieces, at = [], stock.trim
    cuts = [SawCut(at=max(0, at - task.kerf), to=at)] if at else []
    for length, place in zip(board.pieces, board.places, strict=True):
        pieces.append(SawnPiece(length=length, starts=at, ends=at + length, place=place))
        at += length
        if at < stock.length:
            cuts.append(SawCut(at=at, to=min(at + task.kerf, stock.length)))
        at += task.kerf
    offcut = _left_over(stock, at)
    return SawnBoard(
        number=number,
        stock=board.stock,
        length=stock.length,
        pieces=tuple(pieces),
        cuts=tuple(cuts),
        offcut=offcut,
        usable=0 < offcut >= least,
    )


def _left_over(stock: Stock, sawn_to: int) -> int:
    return max(0, stock.length - stock.trim - sawn_to)
