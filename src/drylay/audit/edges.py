"""Fascia: does it come off the cover first, does every face and piece have its length?"""

from collections.abc import Iterator

from attrs import frozen

from drylay.audit.exact import ceil_div, mark_of, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    off_by,
    same_count,
    same_length,
    same_text,
)
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.brief.model import SIDES
from drylay.edges.model import Edges, FasciaFace
from drylay.plan.model import Plan
from drylay.surface.model import Surface

FASCIA = conventions("Fascia and frame (edges)")


@frozen(kw_only=True)
class Ends:
    """Which sides of the cover are the boards' start and end, and the rows' near and far."""

    start: str
    end: str
    near: str
    far: str


def ends_of(run: str) -> Ends:
    """Return which side is which for boards that run along or across."""
    if run == "across":
        return Ends(start="house", end="front", near="left", far="right")
    return Ends(start="left", end="right", near="house", far="front")


def edges_of(plan: Plan) -> Edges:
    """Return the plan's edges, if it has them."""
    return need(plan.edges, "edges")


def thickness_at(edges: Edges, side: str) -> int:
    """Return how thick the fascia of a side is, 0 where it has none."""
    faced = any(face.side == side for face in edges.faces)
    return ticks(edges.fascia_thickness_mm) if faced else 0


def fascia_off_the_sum(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the frame is the cover less the fascia of each faced side."""
    surface, edges = surface_of(plan), edges_of(plan)
    ends = ends_of(surface.run)
    start, near = thickness_at(edges, ends.start), thickness_at(edges, ends.near)
    length = ticks(surface.row_length_mm) - start - thickness_at(edges, ends.end)
    depth = ticks(surface.rows_depth_mm) - near - thickness_at(edges, ends.far)
    wanted = {
        "frame_start_mm": start,
        "frame_near_mm": near,
        "frame_length_mm": length,
        "frame_depth_mm": depth,
    }
    for name, size in wanted.items():
        message = "not the cover less the fascia"
        yield from same_length(f"edges.{name}", message, getattr(edges, name), size, FASCIA)


def long_sides(surface: Surface) -> tuple[str, str]:
    """Return the cover's two longer sides; house and front where it is square."""
    along, across = ticks(surface.cover_along_mm), ticks(surface.cover_across_mm)
    return ("house", "front") if along >= across else ("right", "left")


def side_length(surface: Surface, side: str) -> int:
    """Return the cover's length on one side."""
    along = side in {"house", "front"}
    return ticks(surface.cover_along_mm if along else surface.cover_across_mm)


def faces_have_their_length(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a long face is not the cover's side, a short one not the frame's."""
    surface, edges = surface_of(plan), edges_of(plan)
    long = long_sides(surface)
    for face in edges.faces:
        wanted = side_length(surface, face.side)
        if face.side not in long:
            wanted -= sum(thickness_at(edges, side) for side in long)
        yield from same_length(face.mark, "not its side's length", face.length_mm, wanted, FASCIA)
        if face.long_face != (face.side in long):
            message = "long and short faces are mixed up"
            yield Flaw(subject=face.mark, message=message, source=FASCIA)


def faces_add_up(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the pieces of a face do not add up to it."""
    for face in edges_of(plan).faces:
        summed = sum(ticks(piece.length_mm) for piece in face.pieces)
        if summed != ticks(face.length_mm):
            message = "its pieces do not add up to the face"
            yield off_by(face.mark, message, summed, ticks(face.length_mm), FASCIA)


def face_pieces_are_equal(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where pieces of a face differ by more than the pencil."""
    mark = mark_of(plan)
    for face in edges_of(plan).faces:
        for piece in face.pieces:
            off = ticks(piece.length_mm) * len(face.pieces) - ticks(face.length_mm)
            if abs(off) >= mark * len(face.pieces):
                equal = ticks(face.length_mm) / len(face.pieces)
                message = "not an equal part of its face"
                yield off_by(piece.mark, message, ticks(piece.length_mm), equal, FASCIA)


def face_pieces_are_fewest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a face is in more pieces than the longest length on sale asks for."""
    edges, buying = edges_of(plan), need(plan.buying, "purchase")
    task = need(
        next((p.proof.task for p in buying.purchases if p.article == edges.fascia_article), None),
        "purchase of fascia",
    )
    usable = {stock.length - 2 * stock.trim: stock.limit for stock in task.stock}
    endless = max((length for length, limit in usable.items() if limit is None), default=0)
    reaches = sorted((length for length in usable if length >= max(endless, 1)), reverse=True)
    for face in edges.faces:
        # a longer length may have sold out, an unlimited one has not
        allowed = [max(ceil_div(ticks(face.length_mm), reach), 1) for reach in reaches]
        if len(face.pieces) not in need(allowed or None, "fascia"):
            message = "not the fewest pieces that the longest length to be had allows"
            yield from same_count(face.mark, message, len(face.pieces), allowed[0], FASCIA)


def faces_are_marked(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each face on no side, on a side already faced, or marked wrongly."""
    seen: set[str] = set()
    for face in edges_of(plan).faces:
        if face.side not in SIDES:
            yield Flaw(subject=face.mark, message=f"no side is {face.side!r}", source=FASCIA)
        if face.side in seen:
            yield Flaw(subject=face.mark, message="its side is faced twice", source=FASCIA)
        seen.add(face.side)
        yield from _face_marks(face)


def _face_marks(face: FasciaFace) -> Iterator[Flaw]:
    yield from same_text(face.mark, "wrong mark", face.mark, f"F-{face.side}", FASCIA)
    for index, piece in enumerate(face.pieces, 1):
        yield from same_text(piece.mark, "wrong mark", piece.mark, f"{face.mark}.{index}", FASCIA)


def fascia_is_named(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where faces have no article or size, or an article has no face."""
    edges = edges_of(plan)
    sizes = (edges.fascia_thickness_mm, edges.fascia_depth_mm)
    if edges.faces and not (edges.fascia_article and min(sizes) > 0):
        message = "faces are planted, but of no article or no size"
        yield Flaw(subject="edges.fascia_article", message=message, source=FASCIA)
    if not edges.faces and (edges.fascia_article or any(sizes)):
        message = "a fascia is named, but no side carries it"
        yield Flaw(subject="edges.fascia_article", message=message, source=FASCIA)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-201", "the fascia comes off the cover before the frame", fascia_off_the_sum),
    ("AUD-202", "long faces cover the ends of short ones", faces_have_their_length),
    ("AUD-203", "pieces of a face add up to it", faces_add_up),
    ("AUD-204", "pieces of a face are equal parts", face_pieces_are_equal),
    ("AUD-205", "a face is in as few pieces as the stock allows", face_pieces_are_fewest),
    ("AUD-206", "faces and their pieces are marked by side", faces_are_marked),
    ("AUD-207", "a fascia has faces, faces have a fascia", fascia_is_named),
)
