"""What is brushed on a deck on an outline: preserver and wax on sawn ends, finish on boards."""

import math
from collections.abc import Iterator, Sequence
from typing import Any

from drylay.buying.model import Purchase
from drylay.fixings.coats import Coat, Face, Tops, coat_ends, coat_faces, face_up, wax_ends
from drylay.fixings.model import Finish, Fixings, Preserver
from drylay.laying.model import LaidPiece, Laying
from drylay.marks import exact
from drylay.planner import coats
from drylay.planner.built import Wanted
from drylay.planner.coats import sections_of_legs
from drylay.planner.job import Job
from drylay.raised.model import LegPiece, RaisedDeck
from drylay.subframe.model import Subframe

#: What ends are called that are sawn off square, or by more cuts than one.
ANGLED = "boards at an angle"


def coated(
    job: Job,
    laying: Laying,
    subframe: Subframe,
    purchases: Sequence[Purchase],
    raised: RaisedDeck | None = None,
) -> dict[str, Any]:
    """Return preserver, wax and finish, as fields of the fixings."""
    rules, articles = job.rules, job.articles
    legs = raised.pieces if raised is not None else ()
    ends = _ends(job, laying, subframe, purchases, legs)
    sections = _sections(laying, subframe)
    sections |= sections_of_legs(raised, sections["frame"]) if raised is not None else {}
    seal, wax = (rules.count(f"fixings.{name}_board_ends") == 1 for name in ("seal", "wax"))
    of_boards = {kind: sections[kind] for kind in ("boards", ANGLED)}
    return {
        "seal_board_ends": seal,
        "wax_board_ends": wax,
        "wax": None
        if articles.end_wax is None
        else wax_ends(
            Coat(article=articles.end_wax.code, coats=1,
                 covers_m2_per_l=articles.end_wax.covers_m2_per_l),
            ends, of_boards),
        "preserver": _preserver(job, (laying, subframe), ends, sections, seal=seal),
        "board_finish_coats": rules.count("fixings.board_finish_coats"),
        "finish": _finish(job, laying, subframe),
    }  # fmt: skip


def _preserver(
    job: Job,
    deck: tuple[Laying, Subframe],
    ends: dict[str, int],
    sections: dict[str, Face],
    *,
    seal: bool,
) -> Preserver | None:
    article = job.articles.preserver
    if article is None:
        return None
    laying, subframe = deck
    kept = {k: face for k, face in sections.items() if seal or k not in {"boards", ANGLED}}
    return coat_ends(
        Coat(
            article=article.code,
            coats=job.rules.count("fixings.preserver.coats"),
            covers_m2_per_l=article.covers_m2_per_l,
        ),
        ends,
        kept,
        [*_ripped_battens(subframe), *(_ripped(laying) if seal else ())],
    )


def _ripped(laying: Laying) -> Iterator[Face]:
    """Yield the edges that are sawn along the grain: of ripped rows, and what is marked out."""
    ripped = {row.mark for row in laying.rows if row.ripped}
    for piece in laying.pieces:
        if piece.row in ripped or piece.shaped:
            yield Face(length_mm=piece.length_mm, width_mm=laying.board_thickness_mm)


def _ripped_battens(subframe: Subframe) -> Iterator[Face]:
    """Yield the edges that battens of panels are ripped along."""
    for batten in subframe.battens:
        if batten.depth_mm < subframe.timber_depth_mm:
            yield Face(length_mm=batten.length_mm, width_mm=subframe.timber_thickness_mm)


def _finish(job: Job, laying: Laying, subframe: Subframe) -> Finish | None:
    article = job.articles.finish
    if article is None or not job.rules.count("fixings.board_finish_coats"):
        return None
    # the boards' own area as a strip one metre wide: it is counted exactly
    boards = Face(length_mm=round(laying.face_m2 * 1000, 3), width_mm=1000.0)
    return coat_faces(
        Coat(
            article=article.code,
            coats=job.rules.count("fixings.finish.coats"),
            covers_m2_per_l=article.covers_m2_per_l,
        ),
        field=Tops(
            up=face_up(job.articles.board.faces, job.brief.board.face_up),
            groove_ratio=job.rules.value("fixings.finish.groove_ratio"),
            rows=(boards,),
        ),
        border=None,
        fascia=[
            Face(length_mm=each.length_mm, width_mm=subframe.facing_depth_mm)
            for each in subframe.facings
        ],
    )


def _sections(laying: Laying, subframe: Subframe) -> dict[str, Face]:
    """Return the section of every kind of end; of those at an angle the longest of all."""
    board = Face(length_mm=laying.board_width_mm, width_mm=laying.board_thickness_mm)
    steepest = max((_lean_deg(piece) for piece in laying.pieces), default=0.0)
    longest = math.ceil(laying.board_width_mm / math.cos(math.radians(steepest)) * 10) / 10
    timber = Face(length_mm=subframe.timber_depth_mm, width_mm=subframe.timber_thickness_mm)
    bevel = max(
        (max(abs(each.start_deg), abs(each.end_deg)) for each in subframe.members), default=0.0
    )
    thick = math.ceil(timber.width_mm / math.cos(math.radians(bevel)) * 10) / 10
    fascia = Face(length_mm=subframe.facing_depth_mm, width_mm=subframe.facing_thickness_mm)
    return {
        "boards": board,
        ANGLED: Face(length_mm=longest, width_mm=board.width_mm),
        "frame": Face(length_mm=timber.length_mm, width_mm=thick),
        "fascia": fascia,
    }


def _lean_deg(piece: LaidPiece) -> float:
    """Return how far a piece's ends lean at most; one that is marked out is taken as at 45."""
    least = 45.0 if piece.shaped else 0.0
    return max(least, abs(piece.start_deg), abs(piece.end_deg))


def _ends(
    job: Job,
    laying: Laying,
    subframe: Subframe,
    purchases: Sequence[Purchase],
    legs: Sequence[LegPiece],
) -> dict[str, int]:
    """Return how many ends of each kind are sawn; a square end may stay as it was bought."""
    kinds = {
        piece.mark: ANGLED if piece.shaped or piece.start_deg or piece.end_deg else "boards"
        for piece in laying.pieces
    }
    sizes = {piece.mark: piece.cut_mm for piece in laying.pieces}
    for member in subframe.members:
        kinds[member.mark], sizes[member.mark] = "frame", member.length_mm
    for batten in subframe.battens:
        kinds[batten.mark], sizes[batten.mark] = "frame", batten.length_mm
    for facing in subframe.facings:
        kinds[facing.mark], sizes[facing.mark] = "fascia", facing.length_mm
    for leg in legs:
        kinds[leg.mark], sizes[leg.mark] = leg.kind, leg.length_mm
    found: dict[str, int] = {}
    kerf, trimmed = exact(job.brief.cutting.kerf_mm), job.brief.cutting.end_trim_mm > 0
    for length in (each for bought in purchases if bought.what != coats.NOT_SAWN
                   for each in bought.lengths):  # fmt: skip
        used = sum(exact(sizes[mark]) for mark in length.pieces) + kerf * (len(length.pieces) - 1)
        last = len(length.pieces) - 1
        for at, mark in enumerate(length.pieces):
            kind = kinds[mark]
            filled = at == last and used == exact(length.length_mm)
            bought_ends = 0 if trimmed or kind == ANGLED else (at == 0) + filled
            found[kind] = found.get(kind, 0) + 2 - bought_ends
    return found


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return what of it is to be bought."""
    return coats.wanted(job, fixings)
