"""What is cut again while laying: sizes, boards at hand, each piece once, and its proof."""

from collections import Counter
from collections.abc import Iterator

from attrs import evolve, frozen

from drylay.audit.edged import border_marks
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, off_by, same_count, same_length
from drylay.audit.laid_rests import laid_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.proofs import CHECKS as PROOFS
from drylay.audit.rows import surface_of
from drylay.audit.wanted import buying_of
from drylay.buying.model import Purchase
from drylay.correcting.model import Laid, Recut
from drylay.plan.model import Plan

AGAIN = conventions("Rows while laying (laid): cut again")
#: Sides at the left end of rows, at the right end, and along the last row.
SIDES = {"along": ("left", "right", "front"), "across": ("house", "front", "right")}


@frozen(kw_only=True)
class Sized:
    """A piece of a row or of a face: what it is a piece of, its row, its size then and now.

    `gone_320` is what its board lost for it: a piece that was trimmed since was longer.
    `wide_320` are a ripped row's widths at both ends, None where it is as wide as planned.
    """

    what: str
    row: str
    was_320: int
    now_320: int
    gone_320: int
    was_wide_320: int = 0
    slack_320: float = 0.0
    wide_320: tuple[int, int] | None = None

    @property
    def changed(self) -> bool:
        """Whether it is of another size now."""
        return self.now_320 != self.was_320 or self.wide_320 is not None

    @property
    def too_small(self) -> bool:
        """Whether what it was cut to is too short now, or too narrow."""
        wide = max(self.wide_320 or (0, 0))
        return self.now_320 > self.was_320 or wide > self.was_wide_320 + self.slack_320


def sizes(plan: Plan, laid: Laid) -> dict[str, Sized]:
    """Return every piece of the field's boards and of fascia by mark."""
    surface, last = surface_of(plan), laid.readings[-1]
    longer = ticks(laid.row_length_mm) - ticks(surface.row_length_mm)
    depth, edged = ticks(surface.rows_depth_mm), border_marks(plan)
    lie = {row.mark for row in surface.rows[: laid.rows_laid]}
    cut, known = _cut(laid), _known_before(plan, laid)
    rips, slack = _rips(plan, laid), ticks(laid.step_mm) / 2
    found = {}
    pieces = need(plan.pieces, "pieces").pieces
    for piece in (each for each in pieces if each.row not in edged):
        planned, fixed = ticks(piece.cut_mm), piece.to_joist or piece.row in lie
        was = planned + (known[0] if piece.mark in cut and not fixed else 0)
        now = planned + (0 if fixed else longer)
        found[piece.mark] = Sized(
            what="boards", row=piece.row, was_320=was, now_320=now, gone_320=max(planned, was),
            was_wide_320=rips[piece.row][0] if piece.row in rips else 0, slack_320=slack,
            wide_320=rips[piece.row][1] if piece.row in rips else None,
        )  # fmt: skip
    left, right, front = SIDES[surface.run]
    grown = {left: ticks(last.target_left_mm) - depth, right: ticks(last.target_right_mm) - depth,
             front: longer}  # fmt: skip
    before = {left: known[1] - depth, right: known[2] - depth, front: known[0]}
    for face in need(plan.edges, "edges").faces:
        for part in face.pieces:
            planned, at_end = ticks(part.length_mm), part is face.pieces[-1]
            was = planned + (before.get(face.side, 0) if at_end and part.mark in cut else 0)
            now = planned + (grown.get(face.side, 0) if at_end else 0)
            found[part.mark] = Sized(
                what="fascia", row="", was_320=was, now_320=now, gone_320=max(planned, was)
            )
    return found


def _known_before(plan: Plan, laid: Laid) -> tuple[int, int, int]:
    """Return what held before the last reading: how much longer rows were, and both targets."""
    surface, length = surface_of(plan), None
    targets = [surface.rows_depth_mm, surface.rows_depth_mm]
    for entry in laid.readings[:-1]:
        length = entry.reading.row_length_mm or length
        targets = [entry.target_left_mm, entry.target_right_mm]
    longer = 0 if length is None else ticks(length) - ticks(surface.row_length_mm)
    return longer, ticks(targets[0]), ticks(targets[1])


def _rips(plan: Plan, laid: Laid) -> dict[str, tuple[int, tuple[int, int]]]:
    """Return what each ripped row left was to be ripped to, and is now at both ends, if another."""
    found = {}
    for row in (each for each in laid.rows if each.ripped):
        ends = ticks(row.width_left_mm), ticks(row.width_right_mm)
        before = _ripped_to(plan, laid)
        if set(ends) != {before}:
            found[row.mark] = before, ends
    return found


def _ripped_to(plan: Plan, laid: Laid) -> int:
    """Return what the last row was to be ripped to until now, its narrower end.

    The reading before told where it was to end, and all gaps and widths before it.
    """
    rows = surface_of(plan).rows
    if len(laid.readings) < 2:
        return ticks(rows[-1].width_mm)
    entry, widths = laid.readings[-2], []
    for end in ("left", "right"):
        told = getattr(entry, end)
        whole = rows[entry.reading.rows_laid : -1]
        near = ticks(getattr(entry.reading, f"{end}_mm"))
        near += sum(ticks(gap) for gap in getattr(entry, f"to_set_{end}_mm"))
        near += sum(ticks(row.width_mm) + ticks(told.more_mm) for row in whole)
        widths.append(ticks(getattr(entry, f"target_{end}_mm")) + ticks(told.off_mm) - near)
    return min(widths)


def told_sizes_hold(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where rows are not as long, or end elsewhere, than any reading told."""
    laid, surface = laid_of(plan), surface_of(plan)
    length = surface.row_length_mm
    targets = {"left": surface.rows_depth_mm, "right": surface.rows_depth_mm}
    for entry in laid.readings:
        length = entry.reading.row_length_mm or length
        for end, before in targets.items():
            told = getattr(entry.reading, f"target_{end}_mm")
            targets[end] = before if told is None else told
            message = f"not where the last row is to end at the {end} end"
            held = getattr(entry, f"target_{end}_mm")
            yield from same_length("laid.readings", message, held, ticks(targets[end]), AGAIN)
    message = "not how long rows are to be"
    yield from same_length("laid.row_length_mm", message, laid.row_length_mm, ticks(length), AGAIN)
    message = "not the depth of the cover"
    yield from same_length("laid.target_mm", message, laid.target_mm,
                           ticks(surface.rows_depth_mm), AGAIN)  # fmt: skip


def cut_again_is_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece whose size changed and that is not told so, or told wrongly."""
    laid = laid_of(plan)
    known, cut = sizes(plan, laid), _cut(laid)
    lie = {row.mark for row in surface_of(plan).rows[: laid.rows_laid]}
    told = {piece.mark for recut in laid.recut for piece in recut.pieces}
    changed = {mark for mark, size in known.items() if size.changed and size.row not in lie}
    stopped = {f.subject for f in plan.findings if f.code == "COR-010"}
    for mark in sorted(changed - told):
        if known[mark].what not in stopped:
            yield Flaw(subject=mark, message="its size changed, and nobody tells", source=AGAIN)
    for recut in laid.recut:
        for piece in recut.pieces:
            size = known.get(piece.mark)
            if size is None or size.row in lie or size.what != recut.what:
                message = "cut again, but it lies, or is none of these"
                yield Flaw(subject=piece.mark, message=message, source=AGAIN)
                continue
            message = "not the size it was"
            yield from same_length(piece.mark, message, piece.was_mm, size.was_320, AGAIN)
            message = "not the size it is now"
            yield from same_length(piece.mark, message, piece.now_mm, size.now_320, AGAIN)
            trimmed = size.was_320 - size.now_320 if piece.do == "trim" else 0
            message = "not what is trimmed off it"
            yield from same_length(piece.mark, message, piece.trim_mm, trimmed, AGAIN)
            do = ("shed" if size.too_small else "trim") if piece.mark in cut else "cut"
            if piece.do != do:
                message = f"to {piece.do}, but it is cut, or is not, or is too short or narrow"
                yield Flaw(subject=piece.mark, message=message, source=AGAIN)


def _cut(laid: Laid) -> set[str]:
    return {mark for entry in laid.readings for mark in entry.reading.cut}


def boards_hold_all(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless what is not cut, or cut too short, is sawn once out of what is there."""
    laid = laid_of(plan)
    known, cut = sizes(plan, laid), _cut(laid)
    lie = {row.mark for row in surface_of(plan).rows[: laid.rows_laid]}
    kerf = ticks(buying_of(plan).kerf_mm)
    for recut in laid.recut:
        shed = {piece.mark for piece in recut.pieces if piece.do == "shed"}
        todo = {m for m, size in known.items() if size.what == recut.what and size.row not in lie}
        grown = any(known[mark].now_320 > known[mark].was_320 for mark in todo)
        if not (recut.boards or grown or shed):
            continue
        sawn = Counter(mark for board in recut.boards for mark in board.pieces)
        for mark in sorted(todo - cut | shed | sawn.keys()):
            once = int(mark in (todo - cut | shed))
            yield from same_count(mark, "how often it is cut again", sawn[mark], once, AGAIN)
        for board in recut.boards:
            lengths = [ticks(length) for length in board.pieces_mm]
            wanted = [known[mark].now_320 for mark in board.pieces if mark in known]
            needed = sum(lengths) + kerf * (len(lengths) - 1)
            if needed > ticks(board.length_mm) or lengths != wanted:
                message = "its pieces do not fit into it, or are not as long as told"
                yield off_by(board.stock, message, needed, ticks(board.length_mm), AGAIN)
        yield from _at_hand(plan, recut, known, cut | _lying(known, lie))


def _lying(known: dict[str, Sized], lie: set[str]) -> set[str]:
    return {mark for mark, size in known.items() if size.row in lie}


def _at_hand(plan: Plan, recut: Recut, known: dict[str, Sized], cut: set[str]) -> Iterator[Flaw]:
    """Yield a flaw for each board that is not there so long, or not so often."""
    buying = buying_of(plan)
    bought = next((each for each in buying.purchases if each.what == recut.what), None)
    there = {} if bought is None else _there(plan, bought, known, cut)
    ripped = {row.mark for row in laid_of(plan).rows if row.ripped}
    there |= {
        piece.mark: (ticks(piece.was_mm), 1)
        for piece in recut.pieces
        if piece.do == "shed" and known[piece.mark].row not in ripped  # a strip is no board
    }
    used = Counter(board.stock for board in recut.boards)
    for board in recut.boards:
        length, count = there.get(board.stock, (0, 0))
        if length != ticks(board.length_mm) or used[board.stock] > count:
            message = "no such board is at hand, or not so long, or not so many"
            yield off_by(board.stock, message, ticks(board.length_mm), length, AGAIN)


def _there(
    plan: Plan, bought: Purchase, known: dict[str, Sized], cut: set[str]
) -> dict[str, tuple[int, int]]:
    """Return what there is by name: how long it is as told, and how many; any that are sold."""
    buying = buying_of(plan)
    kerf, trim = ticks(buying.kerf_mm), ticks(buying.end_trim_mm)
    there = {}
    for board in bought.lengths:
        gone = [known[mark].gone_320 for mark in board.pieces if mark in cut and mark in known]
        whole = ticks(board.length_mm)
        left = whole - 2 * trim - sum(gone) - kerf * len(gone) if gone else whole
        there[board.mark] = (left, 1)
    for line in buying.spares:
        if line.article == bought.article and line.length_mm is not None:
            there[f"spare {line.length_mm:.10g}"] = (ticks(line.length_mm), line.quantity)
    for stock in bought.proof.task.stock:
        there[f"buy {stock.name}"] = (stock.length, len(known))
    return there


def bought_again_is_proven(plan: Plan) -> Iterator[Flaw]:
    """Yield what the checks of proofs find in what is cut again."""
    laid = laid_of(plan)
    purchases = tuple(recut.purchase for recut in laid.recut if recut.purchase is not None)
    again = evolve(plan, buying=evolve(buying_of(plan), purchases=purchases))
    for _code, _title, check in PROOFS if purchases else ():
        yield from check(again)
    for recut in laid.recut:
        cost = recut.purchase.cost if recut.purchase is not None else 0
        if recut.cost != cost:
            message = "not what is bought besides"
            yield Flaw(subject=f"laid.recut: {recut.what}", message=message, source=AGAIN,
                       measured=float(recut.cost), limit=float(cost), unit="money")  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-117", "rows are as long and end where readings told", told_sizes_hold),
    ("AUD-140", "sizes that change while laying are told, and how", cut_again_is_whole),
    ("AUD-118", "what is cut again comes out of what is at hand, each once", boards_hold_all),
    ("AUD-119", "what is bought while laying is proven", bought_again_is_proven),
)
