"""Where each piece of what a deck stands on goes: bearers' plies, posts, braces."""

from collections.abc import Iterator

from drylay.papers.frame_text import courses
from drylay.papers.model import Placed
from drylay.papers.wording import ENDS, size
from drylay.plan.model import Plan
from drylay.raised.model import Brace, LegPiece, PostRow, RaisedFrame

#: What a piece is called, by its kind.
KINDS = {"bearers": "bearer", "posts": "post", "braces": "brace"}
WAYS = {"along": "to the bearer", "across": "to the joist"}
HANDS = {-1: "towards the datum", 1: "away from the datum"}


def standing_places(plan: Plan) -> Iterator[Placed]:
    """Yield every piece sawn for what a deck stands on; nothing where it does not stand."""
    raised = plan.raised
    if raised is None:
        return
    run = plan.surface.run if plan.surface else "along"
    frame = raised.frame
    places = {row.mark: _post(row, plan.units, courses(plan)) for row in frame.schedule}
    places |= {brace.mark: _brace(brace) for brace in frame.bracing.braces}
    for piece in raised.pieces:
        yield Placed(
            mark=piece.mark,
            kind=KINDS.get(piece.kind, piece.kind),
            saw_mm=piece.length_mm,
            width_mm=_depth_mm(piece, plan, frame),
            where=places.get(piece.mark) or _ply(piece, ENDS[run][0]),
        )


def _depth_mm(piece: LegPiece, plan: Plan, frame: RaisedFrame) -> float:
    """Return how deep a piece's timber is; braces are of the frame's."""
    if piece.kind == "braces" and plan.frame is not None:
        return plan.frame.timber_depth_mm
    members = frame.posts if piece.kind == "posts" else frame.bearers
    named = {member.mark: member.section.depth_mm for member in members}
    return named.get(piece.mark, named.get(piece.mark.split(".")[0], 0.0))


def _ply(piece: LegPiece, end: str) -> str:
    """Return which part of which ply of a bearer a piece is: its mark tells all three."""
    bearer, ply, part = [*piece.mark.rsplit(".", 2), "?", "?"][:3]
    return f"bearer {bearer}, ply {ply}, part {part} from its {end} end"


def _post(row: PostRow, units: str, laid: str) -> str:
    along, across = size(row.along_mm, units), size(row.across_mm, units)
    return f"under {row.bearer}, {along} along the {laid}, {across} across, from the datum corner"


def _brace(brace: Brace) -> str:
    way, hand = WAYS.get(brace.way, brace.way), HANDS.get(brace.hand, "")
    return f"from {brace.post} {way}, {hand}; 45 degrees at both ends, long edge as sawn"
