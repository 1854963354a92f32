"""Where each piece goes: what a label says, and who else needs to find a piece."""

from collections.abc import Iterator

from drylay.edges.model import Edges
from drylay.frame.model import Frame, Noggin, Rim
from drylay.papers.hung import held_by
from drylay.papers.model import Placed
from drylay.papers.outlined_places import outlined_places
from drylay.papers.standing_places import standing_places
from drylay.papers.wording import ENDS, size
from drylay.pieces.model import Piece, Pieces
from drylay.plan.model import Plan
from drylay.tiling.model import Tiling
from drylay.tiling.outline_model import OutlineTiles


def all_placed(plan: Plan) -> Iterator[Placed]:
    """Yield every piece of a plan: boards row by row, the frame, the fascia, the legs."""
    run = plan.surface.run if plan.surface else "along"
    if plan.pieces:
        edged = {row.mark for row in (plan.surface.rows if plan.surface else ()) if row.border}
        yield from _boards(plan.pieces, run, edged)
    if plan.tiling:
        yield from _cut_tiles(plan.tiling)
    if plan.tiles:
        yield from _cut_on_outline(plan.tiles)
    if plan.frame:
        yield from _frame(plan.frame, ENDS[run][0], plan.units)
    if plan.edges:
        yield from _fascia(plan.edges)
    yield from outlined_places(plan)
    yield from standing_places(plan)


def _boards(pieces: Pieces, run: str, edged: set[str]) -> Iterator[Placed]:
    for piece in pieces.pieces:
        yield Placed(
            mark=piece.mark,
            kind="border board" if piece.row in edged else "board",
            saw_mm=piece.cut_mm,
            width_mm=piece.width_mm,
            where=f"row {piece.row}, {between(piece, run)}",
        )


def _cut_tiles(tiling: Tiling) -> Iterator[Placed]:
    for piece in tiling.cut_tiles:
        row, number = piece.mark.split(".", 1) if "." in piece.mark else (piece.mark, "?")
        yield Placed(
            mark=piece.mark,
            kind="cut tile",
            saw_mm=piece.length_mm,
            width_mm=piece.width_mm,
            where=f"row {row}, column C{number}",
        )


def _cut_on_outline(tiles: OutlineTiles) -> Iterator[Placed]:
    for tile in tiles.tiles:
        if tile.cut:
            yield Placed(
                mark=tile.mark,
                kind="shaped tile" if tile.shaped else "cut tile",
                saw_mm=tile.length_mm,
                width_mm=tile.width_mm,
                where=f"row B{tile.row}, column C{tile.column}",
            )


def between(piece: Piece, run: str) -> str:
    """Return what a piece of board lies between: "from the left end to J4"."""
    near, far = ENDS[run]
    start = piece.from_joist or f"the {near} end"
    return f"from {start} to {piece.to_joist or f'the {far} end'}"


def _frame(frame: Frame, end: str, units: str) -> Iterator[Placed]:
    deep_mm = frame.timber_depth_mm
    for mark, kind, saw_mm, where in _members(frame, end, units):
        yield Placed(mark=mark, kind=kind, saw_mm=saw_mm, width_mm=deep_mm, where=where)


def _members(frame: Frame, end: str, units: str) -> Iterator[tuple[str, str, float, str]]:
    start_mm = min((rim.start_mm for rim in frame.rims), default=0.0)
    for rim in frame.rims:
        yield from _rim(rim, end, units)
    marks = " and ".join(rim.mark for rim in frame.rims)
    for joist in frame.joists:
        at = size(joist.offset_mm - start_mm, units)
        held = held_by(frame) or [marks]
        for (mark, saw_mm), told in zip(joist.sawn, held, strict=True):
            yield mark, "joist", saw_mm, f"between {told}, centre {at} from their {end} end"
    for noggin in frame.noggins:
        yield noggin.mark, "noggin", noggin.length_mm, _bay(noggin, frame, units)
    for splice in frame.splices:
        at = size(splice.offset_mm - start_mm, units)
        where = f"behind {splice.rim}, centre {at} from its {end} end"
        yield splice.mark, "splice", splice.length_mm, where
    marks = frame.rims[0].mark if frame.rims else "the near rim"
    rim_mm = frame.rims[0].near_mm if frame.rims else 0.0
    for batten in frame.battens:
        at = size(batten.near_mm - rim_mm, units)
        where = f"against {batten.joist}, its near end {at} from the outer face of {marks}"
        yield batten.mark, "batten", batten.length_mm, where


def _rim(rim: Rim, end: str, units: str) -> Iterator[tuple[str, str, float, str]]:
    for piece in rim.pieces:
        at = size(piece.start_mm - rim.start_mm, units)
        yield piece.mark, "rim", piece.length_mm, f"{rim.mark}, from its {end} end {at}"


def _bay(noggin: Noggin, frame: Frame, units: str) -> str:
    where = f"between {noggin.left} and {noggin.right}"
    if not frame.rims:
        return where
    at = size(from_rim_mm(noggin, frame), units)
    return f"{where}, centre {at} from the outer face of {frame.rims[0].mark}"


def from_rim_mm(noggin: Noggin, frame: Frame) -> float:
    """Return how far a noggin's centre is from the near rim's outer face, where a tape hooks."""
    return noggin.across_mm - (frame.rims[0].near_mm if frame.rims else 0.0)


def _fascia(edges: Edges) -> Iterator[Placed]:
    for face in edges.faces:
        for part in face.pieces:
            yield Placed(
                mark=part.mark,
                kind="fascia",
                saw_mm=part.length_mm,
                width_mm=edges.fascia_depth_mm,
                where=f"{face.side} side",
            )
