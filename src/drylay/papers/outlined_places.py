"""Where each piece of a deck on an outline goes, in words."""

from collections.abc import Iterator

from drylay.laying.model import LaidPiece, Laying
from drylay.papers.model import Placed
from drylay.papers.outlined_ends import ends_of, lie_of
from drylay.papers.outlined_ledges import kind_told
from drylay.plan.model import Plan
from drylay.subframe.model import Member

KINDS = {"field": "board", "border": "border board", "breaker": "breaker board",
         "hatch": "hatch board"}  # fmt: skip


def outlined_places(plan: Plan) -> Iterator[Placed]:
    """Yield every piece of a deck on an outline: boards, the frame, the fascia."""
    laying, subframe = plan.laying, plan.subframe
    for piece in laying.pieces if laying else ():
        yield Placed(mark=piece.mark, kind=KINDS.get(piece.kind, piece.kind),
                        saw_mm=piece.cut_mm, width_mm=piece.width_mm,
                        where=_lies(laying, piece) if laying else "")  # fmt: skip
    if subframe is None:
        return
    for member in subframe.members:
        yield Placed(mark=member.mark, kind=kind_told(member, plan.outline),
                        saw_mm=member.length_mm,
                        width_mm=subframe.timber_depth_mm, where=_stands(member))  # fmt: skip
    for batten in subframe.battens:
        yield Placed(mark=batten.mark, kind="batten", saw_mm=batten.length_mm,
                        width_mm=batten.depth_mm,
                        where=f"panel of {batten.opening}")  # fmt: skip
    for facing in subframe.facings:
        yield Placed(mark=facing.mark, kind="fascia", saw_mm=facing.length_mm,
                        width_mm=subframe.facing_depth_mm, where=f"side {facing.side}")  # fmt: skip


def _lies(laying: Laying, piece: LaidPiece) -> str:
    """Return where a board lies: its row, and what its jointed ends rest on."""
    if not piece.row:
        return f"{KINDS.get(piece.kind, piece.kind)}, as drawn"
    if not piece.from_member and not piece.to_member:
        return f"row {piece.row}"
    lie = lie_of(laying, piece)
    one, other = ends_of(lie.steep)[:: -1 if lie.backwards else 1]
    start = piece.from_member or f"the {one} end"
    return f"row {piece.row}, from {start} to {piece.to_member or f'the {other} end'}"


def _stands(member: Member) -> str:
    """Return where a member stands: for which side or opening, and on what its ends do."""
    on = " and ".join(dict.fromkeys(mark for mark in (member.start_on, member.end_on) if mark))
    told = [f"for {member.side}"] if member.side else []
    told += [f"between {on}" if " and " in on else f"on {on}"] if on else []
    return ", ".join(told) or "as drawn"
