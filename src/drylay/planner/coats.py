"""What is brushed on: preserver and wax on sawn ends, finish on boards and fascia."""

from collections.abc import Iterator
from typing import Any, Protocol

from attrs import frozen

from drylay.buying.model import BoughtLength
from drylay.edges.model import Edges
from drylay.findings import Finding, Severity
from drylay.fixings.coats import (
    BORDER,
    BORDER_IN_LINE,
    IN_LINE,
    OF_BOARDS,
    OF_BORDER,
    Coat,
    Face,
    SawnLength,
    coat_ends,
    count_ends,
    wax_ends,
)
from drylay.fixings.model import EndWax, Finish, Fixings, Preserver
from drylay.frame.model import Frame
from drylay.marks import exact
from drylay.materials.stock_model import Coating, Pack
from drylay.pieces.model import Pieces
from drylay.planner import finishing, waxing
from drylay.planner.built import Framed, Wanted
from drylay.planner.buy import Shape
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row
from drylay.raised.model import RaisedDeck
from drylay.reasons import Inputs
from drylay.surface.model import Surface

#: Governed paths that a plan only has where something is brushed on.
GOVERNED = ("fixings.preserver.coats", "fixings.finish.coats", "fixings.finish.groove_ratio",
            "fixings.finish.border_groove_ratio")  # fmt: skip
#: Purchases that are cut with a knife, and have no ends to seal.
NOT_SAWN = "fabric"


class Bundle(Protocol):
    """Lengths of one article, sawn into pieces."""

    @property
    def what(self) -> str:
        """Return what they are bought for."""
        ...

    @property
    def lengths(self) -> tuple[BoughtLength, ...]:
        """Return every length with the marks of its pieces."""
        ...


@frozen(kw_only=True)
class Sawn:
    """What is sawn of a deck, and from what."""

    surface: Surface
    edges: Edges
    pieces: Pieces | None
    frame: Frame
    purchases: tuple[Bundle, ...]
    raised: RaisedDeck | None = None


def sawn(
    shaped: Shape, pieces: Pieces | None, frame: Frame, purchases: tuple[Bundle, ...],
    raised: RaisedDeck | None = None,
) -> Sawn:  # fmt: skip
    """Return what is sawn of a shape; of tiles, which are no timber, only the frame is."""
    return Sawn(surface=shaped.surface, edges=shaped.edges, pieces=pieces, frame=frame,
                purchases=purchases, raised=raised)  # fmt: skip


def coated(job: Job, deck: Sawn) -> dict[str, Any]:
    """Return preserver, wax and finish, as fields of the fixings."""
    preserver, finish = job.articles.preserver, job.articles.finish
    return {
        "seal_board_ends": _ruled(job, "fixings.seal_board_ends"),
        "wax_board_ends": _ruled(job, "fixings.wax_board_ends"),
        "wax": wax(job, deck, job.articles.end_wax) if job.articles.end_wax else None,
        "preserver": None if preserver is None else _preserver(job, deck, preserver),
        "board_finish_coats": _coats(job, "fixings.board_finish_coats"),
        "finish": None if finish is None else finishing.brushed(job, deck.surface, deck.edges),
    }


def _coats(job: Job, path: str) -> int | None:
    return job.rules.count(path) if path in job.rules.rulings else None


def _ruled(job: Job, path: str) -> bool | None:
    return job.rules.count(path) == 1 if path in job.rules.rulings else None


def wax(job: Job, deck: Sawn, article: Coating | None) -> EndWax | None:
    """Return the wax for the boards' sawn ends, counted also where no article is named."""
    coat = Coat(
        article=article.code if article else "",
        coats=1,
        covers_m2_per_l=article.covers_m2_per_l if article else 1.0,
    )
    kinds = _waxed(job)
    sections = {kind: face for kind, face in _sections(deck).items() if kind in kinds}
    return wax_ends(coat, _ends(job, deck), sections)


def _waxed(job: Job) -> tuple[str, ...]:
    """Return the kinds of ends that are waxed: of boards that ask for it, of all where none do."""
    asked: tuple[str, ...] = OF_BOARDS if _ruled(job, "fixings.wax_board_ends") else ()
    if job.articles.border and _ruled(job, "fixings.wax_border_ends"):
        asked += OF_BORDER
    return asked or (*OF_BOARDS, *OF_BORDER)


def _ends(job: Job, deck: Sawn) -> dict[str, int]:
    """Return how many ends of each kind of piece are sawn."""
    ends = count_ends(_lengths(job, deck))
    if deck.pieces is not None and deck.pieces.trim_allowance_mm:
        edged = sum(line.border for line in deck.surface.rows)
        ends[IN_LINE] = 2 * (len(deck.surface.rows) - edged)
        ends[BORDER_IN_LINE] = 2 * edged
    return ends


def _bare(job: Job) -> tuple[str, ...]:
    """Return the kinds of ends that want no preserver."""
    bare: tuple[str, ...] = ()
    if not _ruled(job, "fixings.seal_board_ends"):
        bare += OF_BOARDS
    if job.articles.border and not _ruled(job, "fixings.seal_border_ends"):
        bare += OF_BORDER
    return bare


def _preserver(job: Job, deck: Sawn, article: Coating | None) -> Preserver | None:
    """Return the preserver for all that is sawn, counted also where no article is named.

    Boards take none, neither on ends nor on ripped edges, where their family wants none there.
    """
    coat = Coat(
        article=article.code if article else "",
        coats=job.rules.count("fixings.preserver.coats"),
        covers_m2_per_l=article.covers_m2_per_l if article else 1.0,
    )
    sections, ripped = _sections(deck), _ripped(deck)
    bare = _bare(job)
    sections = {kind: face for kind, face in sections.items() if kind not in bare}
    return coat_ends(coat, _ends(job, deck), sections, [] if "boards" in bare else ripped)


def _lengths(job: Job, deck: Sawn) -> Iterator[SawnLength]:
    """Yield every bought length as it is sawn."""
    known = dict(_members(deck))
    kerf, trim = exact(job.brief.cutting.kerf_mm), exact(job.brief.cutting.end_trim_mm)
    for purchase in deck.purchases:
        for length in () if purchase.what == NOT_SAWN else purchase.lengths:
            sizes = [exact(known[mark][1]) for mark in length.pieces]
            used = sum(sizes) + kerf * (len(sizes) - 1)
            yield SawnLength(
                kinds=tuple(known[mark][0] for mark in length.pieces),
                trimmed=trim > 0,
                filled=used == exact(length.length_mm),
            )


def _members(deck: Sawn) -> Iterator[tuple[str, tuple[str, float]]]:
    """Yield the kind and the mm to saw of every piece, by mark."""
    frame = deck.frame
    edged = {line.mark for line in deck.surface.rows if line.border}
    for piece in deck.pieces.pieces if deck.pieces else ():
        yield piece.mark, (BORDER if piece.row in edged else "boards", piece.cut_mm)
    yield from ((p.mark, ("rims", p.length_mm)) for rim in frame.rims for p in rim.pieces)
    for joist in frame.joists:
        yield from ((mark, ("joists", length_mm)) for mark, length_mm in joist.sawn)
    yield from ((noggin.mark, ("noggins", noggin.length_mm)) for noggin in frame.noggins)
    yield from ((splice.mark, ("splices", splice.length_mm)) for splice in frame.splices)
    yield from ((batten.mark, ("battens", batten.length_mm)) for batten in frame.battens)
    for face in deck.edges.faces:
        yield from ((piece.mark, ("fascia", piece.length_mm)) for piece in face.pieces)
    for leg in deck.raised.pieces if deck.raised else ():
        yield leg.mark, (leg.kind, leg.length_mm)


def _sections(deck: Sawn) -> dict[str, Face]:
    """Return the section of every kind; of ripped boards the whole board's, which is more."""
    surface, edges, frame = deck.surface, deck.edges, deck.frame
    board = Face(length_mm=surface.board_width_mm, width_mm=surface.board_thickness_mm)
    edge = surface.border
    border = Face(length_mm=edge.width_mm, width_mm=edge.thickness_mm) if edge else board
    timber = Face(length_mm=frame.timber_depth_mm, width_mm=frame.timber_thickness_mm)
    fascia = Face(length_mm=edges.fascia_depth_mm, width_mm=edges.fascia_thickness_mm)
    return {
        "boards": board,
        BORDER: border,
        IN_LINE: board,
        BORDER_IN_LINE: border,
        **dict.fromkeys(("rims", "joists", "noggins", "splices", "battens"), timber),
        "fascia": fascia,
        **(sections_of_legs(deck.raised, timber) if deck.raised else {}),
    }


def sections_of_legs(deck: RaisedDeck, timber: Face) -> dict[str, Face]:
    """Return the sections of what stands under a frame; braces are of the frame's timber."""
    bearer, post = deck.frame.bearers[0].section, deck.frame.posts[0].section
    return {
        "bearers": Face(length_mm=bearer.depth_mm, width_mm=bearer.breadth_mm),
        "posts": Face(length_mm=post.depth_mm, width_mm=post.breadth_mm),
        "braces": timber,
    }


def _ripped(deck: Sawn) -> list[Face]:
    """Return every ripped edge, as long as its row is laid before any trim."""
    if deck.pieces is None:
        return []
    long_mm = deck.surface.row_length_mm + 2 * deck.pieces.trim_allowance_mm
    edge = Face(length_mm=long_mm, width_mm=deck.surface.board_thickness_mm)
    return [edge for row in deck.surface.rows if row.ripped]


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return what of them is to be bought."""
    named = (
        ("end-grain preserver", job.articles.preserver, fixings.preserver),
        ("end-grain wax", job.articles.end_wax, fixings.wax),
        ("finish", job.articles.finish, fixings.finish),
    )
    return tuple(
        Wanted(
            what=what,
            article=article.code,
            title=article.title,
            need=coat.need_ml,
            packs=tuple(Pack(count=tin.ml, price=tin.price) for tin in article.packs),
            unit="ml",
        )
        for what, article, coat in named
        if article is not None and coat is not None
    )


def rows(job: Job, built: Framed) -> list[Row]:
    """Return the decisions taken here."""
    return rows_of(job, built.fixings)


def rows_of(job: Job, fixings: Fixings) -> list[Row]:
    """Return the decisions taken on what is brushed on."""
    preserver, finish = fixings.preserver, fixings.finish
    return [
        *(_preserver_rows(job, preserver) if preserver is not None else ()),
        *waxing.rows(job, fixings.wax),
        *(_coat_rows(job, finishing.AT, finish) if finish is not None else ()),
        *finishing.rows(job, finish),
    ]


def _governed(job: Job, path: str) -> Row:
    ruling = job.rules.rulings[path]
    return path, ruling.value, ruling, ()


def _coat_rows(job: Job, at: str, coat: Preserver | Finish) -> list[Row]:
    inputs: Inputs = (("area_m2", coat.area_m2), ("coats", coat.coats),
                      ("covers_m2_per_l", coat.covers_m2_per_l))  # fmt: skip
    return [
        _governed(job, f"{at}.coats"),
        row(f"{at}.covers_m2_per_l", coat.covers_m2_per_l, "m2 per l",
            "what a litre covers once, as sold", merchant_says(job, coat.article)),
        row(f"{at}.need_ml", coat.need_ml, "ml",
            "area x coats over what a litre covers, rounded up", ARITHMETIC, inputs),
    ]  # fmt: skip


def _preserver_rows(job: Job, preserver: Preserver) -> list[Row]:
    at = "fixings.preserver"
    return [
        *_coat_rows(job, at, preserver),
        row(f"{at}.ends", preserver.ends, "count",
            "every bought length sawn piece by piece from one end", ARITHMETIC,
            (("area_m2", preserver.area_m2),)),
        row(f"{at}.ripped_m2", preserver.ripped_m2, "m2",
            "ripped rows' length by the board's thickness", ARITHMETIC),
    ]  # fmt: skip


def remarks(job: Job, built: Framed) -> list[Finding]:
    """Return what is worth telling about them."""
    deck = Sawn(surface=built.surface, edges=built.edges, pieces=built.pieces, frame=built.frame,
                purchases=built.buying.purchases, raised=built.stood.raised)  # fmt: skip
    unnamed = None
    if built.pieces is not None and job.articles.end_wax is None:
        unnamed = wax(job, deck, None)
    return [
        *_no_preserver(job, deck),
        *waxing.remarks(job, unnamed),
        *finishing.remarks(job, built),
    ]


def _no_preserver(job: Job, deck: Sawn) -> list[Finding]:
    """Return that sawn ends want preserver, where none is named: how many, and how much."""
    need = None if job.articles.preserver else _preserver(job, deck, None)
    if need is None:
        return []
    rips = " with all ripped edges" if need.ripped_m2 else ""
    told = f"{need.ends} sawn ends, {waxing.area_up(need.area_m2)} m2{rips}"
    message = f"{told}, want {need.coats} coats of end-grain preserver, which is not in the order"
    return [
        Finding(
            code="COT-001",
            severity=Severity.CAUTION,
            subject="preserver",
            message=f"{message}: name one in the brief's finish.preserver",
            source=job.rules.source("fixings.preserver.coats"),
        )
    ]
