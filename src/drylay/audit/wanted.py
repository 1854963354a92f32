"""What each purchase has to yield: every mark that must be sawn from each article."""

from collections.abc import Iterator

from attrs import frozen

from drylay.audit.between import joists_sawn
from drylay.audit.edged import border_marks
from drylay.audit.edges import edges_of
from drylay.audit.exact import ticks
from drylay.audit.flaws import need
from drylay.audit.frame import frame_of
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.buying.model import Buying, Purchase
from drylay.plan.model import Plan
from drylay.raised.model import LegPiece

#: What bought lengths of bearers and of posts are marked with.
PREFIX = {"bearers": "BT", "posts": "PT"}


@frozen(kw_only=True)
class Wanted:
    """One article's share of the cut list: marks with their lengths in 1/320 mm.

    `prefix` begins the marks of its bought lengths; `joints` is how many are priced.
    """

    name: str
    article: str
    prefix: str
    pieces: tuple[tuple[str, int], ...]
    joints: int = 0
    purchase: Purchase | None


def buying_of(plan: Plan) -> Buying:
    """Return the plan's purchase, if it has one."""
    return need(plan.buying, "purchase")


def _board_marks(plan: Plan, *, border: bool) -> tuple[tuple[str, int], ...]:
    edged = border_marks(plan)
    return tuple(
        (piece.mark, ticks(piece.cut_mm))
        for piece in pieces_of(plan).pieces
        if (piece.row in edged) == border
    )


def joints_of(plan: Plan, *, border: bool) -> int:
    """Return how many joints the field's rows have, or the border's."""
    edged = border_marks(plan)
    return sum((joint.row in edged) == border for joint in pieces_of(plan).joints)


def _frame_marks(plan: Plan) -> tuple[tuple[str, int], ...]:
    frame = frame_of(plan)
    members = [(piece.mark, piece.length_mm) for rim in frame.rims for piece in rim.pieces]
    members += joists_sawn(frame)
    members += [(noggin.mark, noggin.length_mm) for noggin in frame.noggins]
    members += [(splice.mark, splice.length_mm) for splice in frame.splices]
    members += [(batten.mark, batten.length_mm) for batten in frame.battens]
    return tuple((mark, ticks(length)) for mark, length in (*members, *_framed_legs(plan)))


def _framed_legs(plan: Plan) -> tuple[tuple[str, float], ...]:
    """Return what of the frame's own timber stands under it."""
    own = _framed_of(plan)
    return tuple((piece.mark, piece.length_mm) for article, piece in _legs(plan) if article == own)


def _framed_of(plan: Plan) -> str:
    """Return the article that the frame is of, under a rectangle or an outline."""
    under = plan.subframe
    return frame_of(plan).timber_article if under is None else under.timber_article


def _legs(plan: Plan) -> Iterator[tuple[str, LegPiece]]:
    """Yield every piece that stands under a frame with the article it is sawn of."""
    deck = plan.raised
    if deck is not None:
        of = {"bearers": deck.bearer_article, "posts": deck.post_article}
        for piece in deck.pieces:
            yield of.get(piece.kind, _framed_of(plan)), piece


def wanted_legs(plan: Plan) -> tuple[Wanted, ...]:
    """Return what the purchases of bearers and posts have to yield, each article once."""
    articles: dict[str, list[LegPiece]] = {}
    for article, piece in _legs(plan):
        if article != _framed_of(plan):
            articles.setdefault(article, []).append(piece)
    return tuple(
        Wanted(
            name=pieces[0].kind, article=article, prefix=PREFIX[pieces[0].kind],
            pieces=tuple((piece.mark, ticks(piece.length_mm)) for piece in pieces),
            purchase=_bought(plan, article),
        )
        for article, pieces in articles.items()
    )  # fmt: skip


def _fascia_marks(plan: Plan) -> tuple[tuple[str, int], ...]:
    faces = edges_of(plan).faces
    return tuple((p.mark, ticks(p.length_mm)) for face in faces for p in face.pieces)


def _outlined(plan: Plan) -> tuple[Wanted, ...]:
    """Return what boards, frame and fascia of a deck on an outline have to yield."""
    laying = need(plan.laying, "boards laid on an outline")
    subframe = need(plan.subframe, "frame under an outline")
    boards = tuple((piece.mark, ticks(piece.cut_mm)) for piece in laying.pieces)
    timbers = tuple((member.mark, ticks(member.length_mm)) for member in subframe.members)
    timbers += tuple((batten.mark, ticks(batten.length_mm)) for batten in subframe.battens)
    timbers += tuple((mark, ticks(length)) for mark, length in _framed_legs(plan))
    faces = tuple((facing.mark, ticks(facing.length_mm)) for facing in subframe.facings)
    parts = (
        ("boards", laying.board_article, "DB", boards, len(laying.joints)),
        ("frame", subframe.timber_article, "T", timbers, 0),
        ("fascia", subframe.facing_article, "FB", faces, 0),
    )
    return tuple(
        Wanted(
            name=name, article=article, prefix=prefix, pieces=pieces, joints=joints,
            purchase=_bought(plan, article),
        )
        for name, article, prefix, pieces, joints in parts
        if pieces
    )  # fmt: skip


def wanted_boards(plan: Plan) -> Wanted:
    """Return what the purchase of the field's boards has to yield."""
    article = surface_of(plan).board_article
    marks, joints = _board_marks(plan, border=False), joints_of(plan, border=False)
    return Wanted(
        name="boards",
        article=article,
        prefix="DB",
        pieces=marks,
        joints=joints,
        purchase=_bought(plan, article),
    )


def wanted_border(plan: Plan) -> tuple[Wanted, ...]:
    """Return what the purchase of the border's boards has to yield, if there is a border."""
    border = surface_of(plan).border
    if border is None:
        return ()
    wanted = Wanted(
        name="border boards",
        article=border.article,
        prefix="E",
        pieces=_board_marks(plan, border=True),
        joints=joints_of(plan, border=True),
        purchase=_bought(plan, border.article),
    )
    return (wanted,)


def wanted_frame(plan: Plan) -> Wanted:
    """Return what the frame timber's purchase has to yield."""
    article = frame_of(plan).timber_article
    return Wanted(
        name="frame",
        article=article,
        prefix="T",
        pieces=_frame_marks(plan),
        purchase=_bought(plan, article),
    )


def wanted_fascia(plan: Plan) -> Wanted:
    """Return what the fascia's purchase has to yield."""
    article = edges_of(plan).fascia_article
    return Wanted(
        name="fascia",
        article=article,
        prefix="FB",
        pieces=_fascia_marks(plan),
        purchase=_bought(plan, article),
    )


def wanted_fabric(plan: Plan) -> tuple[Wanted, ...]:
    """Return the strips that the rolls of ground fabric have to yield, if there is any."""
    fabric = plan.groundwork.fabric if plan.groundwork is not None else None
    if fabric is None:
        return ()
    wanted = Wanted(
        name="fabric",
        article=fabric.article,
        prefix="GF",
        pieces=tuple((strip.mark, ticks(strip.length_mm)) for strip in fabric.strips),
        purchase=_bought(plan, fabric.article),
    )
    return (wanted,)


def all_wanted(plan: Plan) -> tuple[Wanted, ...]:
    """Return what every purchase has to yield; of border, fascia and fabric where there are any."""
    if plan.tiles is not None:
        return wanted_fabric(plan)
    if plan.laying is not None:
        return (*_outlined(plan), *wanted_legs(plan), *wanted_fabric(plan))
    fascia = wanted_fascia(plan)
    faced = (fascia,) if fascia.pieces else ()
    boards = () if plan.tiling is not None else (wanted_boards(plan), *wanted_border(plan))
    framed = () if plan.tiling is not None and plan.frame is None else (wanted_frame(plan),)
    return (*boards, *framed, *faced, *wanted_legs(plan), *wanted_fabric(plan))


def _bought(plan: Plan, article: str) -> Purchase | None:
    purchases = buying_of(plan).purchases
    return next((bought for bought in purchases if bought.article == article), None)
