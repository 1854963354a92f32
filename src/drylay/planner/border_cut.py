"""The border's boards, jointed and bought from their own article, with a proof of their own."""

from attrs import evolve, frozen

from drylay.buying.model import Purchase
from drylay.buying.purchase import minor, purchase
from drylay.cutting.model import Task
from drylay.findings import Finding
from drylay.marks import exact
from drylay.materials.stock_model import Board
from drylay.pieces.border import border_lines, with_border
from drylay.pieces.joints import JointRules
from drylay.pieces.model import Pieces
from drylay.planner.buy import (
    Blocked,
    BoardCut,
    Shape,
    cut_boards,
    joint_rules,
    joint_rules_told,
    stock_for,
)
from drylay.planner.cuts import Cutter, cut
from drylay.planner.job import Job
from drylay.planner.too_long import with_longest

#: What the purchase is called, and how the lengths bought are marked.
WHAT, MARK = "border boards", "E"
#: Where the plan has the limits of its joints.
PART = "pieces.border"


@frozen(kw_only=True)
class BoardsCut:
    """All boards jointed and bought: the field's purchase, then the border's if there is one."""

    pieces: Pieces
    purchases: tuple[Purchase, ...]


def cut_all_boards(cutter: Cutter, shaped: Shape) -> BoardsCut | Blocked:
    """Return field and border jointed and bought, or why they cannot be."""
    cut_out = _cut(cutter, shaped)
    if isinstance(cut_out, Blocked):
        return with_longest(cutter.job, shaped.surface, cut_out)
    return cut_out


def _cut(cutter: Cutter, shaped: Shape) -> BoardsCut | Blocked:
    field, border = cut_boards(cutter, shaped), cutter.job.articles.border
    if isinstance(field, Blocked):
        return field
    if border is None:
        return BoardsCut(pieces=field.pieces, purchases=(field.purchase,))
    return _with_border(cutter, shaped, field, border)


def border_task(job: Job, shaped: Shape, board: Board, rules: JointRules) -> Task:
    """Return the border's rows as the cutter's task."""
    return Task(
        stock=stock_for(job, board.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        lines=border_lines(shaped.surface, shaped.supports, rules),
        joint_price=minor(rules.joint_price, job.stock.minor_digits),
    )


def _with_border(
    cutter: Cutter, shaped: Shape, field: BoardCut, board: Board
) -> BoardsCut | Blocked:
    job = cutter.job
    rules = joint_rules(job, board, PART)
    plan = cut(cutter, border_task(job, shaped, board, rules), what=WHAT)
    if isinstance(plan, Finding):
        told = evolve(plan, message=plan.message + joint_rules_told(rules))
        return Blocked(findings=(told,))
    pieces = with_border(field.pieces, shaped.surface, shaped.supports, rules, plan.joints)
    rows = {row.mark for row in shaped.surface.rows if row.border}
    bought = purchase(
        what=WHAT,
        article=board.code,
        mark=MARK,
        plan=plan,
        named_mm=[(piece.mark, piece.cut_mm) for piece in pieces.pieces if piece.row in rows],
        minor_digits=job.stock.minor_digits,
    )
    return BoardsCut(pieces=pieces, purchases=(field.purchase, bought))
