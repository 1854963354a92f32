"""Pieces whose size changes once rows lie: ends of rows, rips, fascia; and what is cut already."""

from collections.abc import Iterator

from attrs import frozen

from drylay.correcting.model import CutAgain, Laid
from drylay.edges.model import FasciaFace
from drylay.marks import exact, to_mm
from drylay.plan.model import Plan

#: Which sides of the cover lie at the left end of rows, at the right end, and along the last row.
SIDES = {"along": ("left", "right", "front"), "across": ("house", "front", "right")}
#: What is cut of each purchase.
BOARDS, FASCIA = "boards", "fascia"


@frozen(kw_only=True)
class Sized:
    """A piece by mark: what it was cut to and what it is cut to now, and its width at both ends.

    `laid`: it lies already. `cut`: it is cut already, laid or not. `was_wide_mm` is what it was
    ripped to, `slack_mm` what it may lack of that. `gone_320` is what its board lost for it: a
    piece that was trimmed since was longer. `rip`: it is of a row that is ripped, and narrower than
    a board.
    """

    mark: str
    was_320: int
    now_320: int
    was_wide_mm: float | None = None
    wide_mm: tuple[float, float] | None = None
    slack_mm: float = 0.0
    gone_320: int = 0
    rip: bool = False
    laid: bool = False
    cut: bool = False

    @property
    def changed(self) -> bool:
        """Whether a piece that does not lie yet is of another size now."""
        return not self.laid and (self.was_320 != self.now_320 or self.wide_mm is not None)

    @property
    def wasted(self) -> bool:
        """Whether it is cut already, and too short or too narrow now."""
        if not self.cut or self.laid:
            return False
        least = (self.was_wide_mm or 0.0) + self.slack_mm
        narrow = self.wide_mm is not None and max(self.wide_mm) > least
        return self.now_320 > self.was_320 or narrow


def marks_known(plan: Plan) -> frozenset[str]:
    """Return the marks of all board and fascia pieces."""
    boards = (piece.mark for piece in plan.pieces.pieces) if plan.pieces else ()
    faces = plan.edges.faces if plan.edges else ()
    return frozenset((*boards, *(piece.mark for face in faces for piece in face.pieces)))


def boards_of(plan: Plan, laid: Laid) -> list[Sized]:
    """Return the field's board pieces with their sizes now; rows that lie stay as they are."""
    assert plan.surface is not None
    assert plan.pieces is not None
    more = exact(laid.row_length_mm) - exact(plan.surface.row_length_mm)
    known = plan.laid.row_length_mm if plan.laid else plan.surface.row_length_mm
    known_more = exact(known) - exact(plan.surface.row_length_mm)
    border = {row.mark for row in plan.surface.rows if row.border}
    left = {row.mark for row in laid.rows}
    cut = cut_marks(laid)
    last = laid.rows[-1]
    wide = (last.width_left_mm, last.width_right_mm) if last.ripped else None
    before = _ripped_to(plan)
    found = []
    for piece in plan.pieces.pieces:
        if piece.row in border:
            continue
        lies, ends = piece.row not in left, not piece.to_joist
        planned = exact(piece.cut_mm)
        is_cut = lies or piece.mark in cut
        # what is cut was cut, or trimmed, as told last; what is not is still to be cut as planned
        was = planned + known_more if is_cut and ends and not lies else planned
        ripped = wide is not None and piece.row == last.mark
        rip = wide if wide and ripped and set(wide) != {before} else None
        found.append(
            Sized(
                mark=piece.mark,
                was_320=was,
                now_320=planned + more if ends and not lies else planned,
                was_wide_mm=before,
                wide_mm=rip,
                slack_mm=laid.step_mm / 2,
                gone_320=max(planned, was),
                rip=ripped,
                laid=lies,
                cut=is_cut,
            )
        )
    return found


def _ripped_to(plan: Plan) -> float:
    """Return what the last row was to be ripped to until now, its narrower end."""
    assert plan.surface is not None
    last = plan.laid.rows[-1] if plan.laid else None
    if last is not None and last.ripped:
        return min(last.width_left_mm, last.width_right_mm)
    return plan.surface.rows[-1].width_mm


def cut_marks(laid: Laid) -> frozenset[str]:
    """Return the marks of all pieces that any reading tells are cut."""
    return frozenset(mark for entry in laid.readings for mark in entry.reading.cut)


def fascia_of(plan: Plan, laid: Laid) -> list[Sized]:
    """Return the fascia's pieces with their sizes now: along the ends, and along the last row."""
    assert plan.surface is not None
    assert plan.edges is not None
    cut = cut_marks(laid)
    more = _more_by_side(plan, laid)
    known = _more_by_side(plan, plan.laid) if plan.laid else {}
    found = []
    for face in plan.edges.faces:
        grown, before = more.get(face.side, 0), known.get(face.side, 0)
        for mark, planned, now in _face(face, grown):
            last = now != planned or (mark == face.pieces[-1].mark)
            was = planned + (before if last and mark in cut else 0)
            gone = max(planned, was)
            found.append(Sized(mark=mark, was_320=was, now_320=now, gone_320=gone, cut=mark in cut))
    return found


def _more_by_side(plan: Plan, laid: Laid) -> dict[str, int]:
    assert plan.surface is not None
    left, right, front = SIDES[plan.surface.run]
    last = laid.readings[-1]
    depth = exact(plan.surface.rows_depth_mm)
    return {
        left: exact(last.target_left_mm) - depth,
        right: exact(last.target_right_mm) - depth,
        front: exact(laid.row_length_mm) - exact(plan.surface.row_length_mm),
    }


def _face(face: FasciaFace, more: int) -> Iterator[tuple[str, int, int]]:
    """Yield a face's pieces, its last one longer by what the face is."""
    for piece in face.pieces:
        was = exact(piece.length_mm)
        yield piece.mark, was, was + more if piece is face.pieces[-1] else was


def cut_again(pieces: list[Sized]) -> tuple[CutAgain, ...]:
    """Return every piece whose size changed, and what to do where it is cut already."""
    return tuple(_cut_again(piece) for piece in pieces if piece.changed)


def _cut_again(piece: Sized) -> CutAgain:
    wide = piece.wide_mm or (None, None)
    do = "shed" if piece.wasted else "trim" if piece.cut else "cut"
    return CutAgain(
        mark=piece.mark,
        was_mm=to_mm(piece.was_320),
        now_mm=to_mm(piece.now_320),
        width_left_mm=wide[0],
        width_right_mm=wide[1],
        do=do,
        trim_mm=to_mm(piece.was_320 - piece.now_320) if do == "trim" else 0.0,
    )
