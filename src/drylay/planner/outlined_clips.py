"""Hidden clips on an outline: in the gaps, under first edges; screws where no next row lies."""

from collections.abc import Iterable
from typing import Any

from attrs import frozen

from drylay.fixings.clips import count_end_caps
from drylay.fixings.model import Clips, EndCaps, FixedPoint, Fixings
from drylay.laying.model import LaidPiece, Laying
from drylay.planner import clips
from drylay.planner.job import Job
from drylay.planner.outlined_boards import BoardsLaid
from drylay.planner.rows import ARITHMETIC, Row, merchant_says, row
from drylay.planner.screwed import DECK

PATH, CAPS = clips.PATH, clips.CAPS
#: Kinds of pieces that no clip holds.
LOOSE = ("border", "breaker")


@frozen(kw_only=True)
class ClipCount:
    """Where boards are held: in gaps between rows, under edges before a row, by screws after one.

    `loose` are crossings of boards that lie in no row: borders and breaker boards. Those of panels
    are screwed to battens.
    """

    gaps: int
    starters: int
    ends: int
    loose: int


def count_held(laying: Laying, boards: BoardsLaid) -> ClipCount:
    """Return how often clips, starters and screws hold boards over members.

    A gap is clipped on every member that both its rows lie over. Where a row has no neighbour over
    a member, its edge there has a starter on the side rows are counted from, else screws.
    """
    over = _over_by_row(laying.pieces, boards)
    gaps = starters = ends = 0
    by_zone: dict[str, list[str]] = {}
    for laid in laying.rows:
        by_zone.setdefault(laid.zone, []).append(laid.mark)
    for marks in by_zone.values():
        for at, mark in enumerate(marks):
            here = over.get(mark, set())
            before = over.get(marks[at - 1], set()) if at else set()
            after = over.get(marks[at + 1], set()) if at + 1 < len(marks) else set()
            gaps += len(here & after)
            starters += len(here - before)
            ends += len(here - after)
    loose = sum(len(boards.over[each.mark]) for each in laying.pieces if each.kind in LOOSE)
    return ClipCount(gaps=gaps, starters=starters, ends=ends, loose=loose)


def _over_by_row(pieces: Iterable[LaidPiece], boards: BoardsLaid) -> dict[str, set[str]]:
    """Return by row the members that its boards lie over."""
    found: dict[str, set[str]] = {}
    for piece in pieces:
        if piece.kind == "field":
            members = {each.member for each in boards.over[piece.mark]}
            found.setdefault(piece.row, set()).update(members)
    return found


def clipped(job: Job, laying: Laying, boards: BoardsLaid) -> dict[str, Any]:
    """Return the clips and end caps, and who rules on them, as fields of the fixings."""
    return {
        "hidden_clips": job.rules.count(clips.HIDDEN),
        "clips": _clips(job, laying, boards),
        "end_caps": _caps(job, laying),
    }


def _clips(job: Job, laying: Laying, boards: BoardsLaid) -> Clips | None:
    clip, starter = job.articles.clip, job.articles.starter_clip
    if clip is None:
        return None
    rules, counted = clips.clip_rules(job), count_held(laying, boards)
    named = starter is not None and "starter clips" not in clips.idle(job)
    fixed = tuple(_fixed(piece, boards) for piece in laying.pieces
                  if piece.kind != "hatch" and boards.over[piece.mark])  # fmt: skip
    return Clips(
        article=clip.code,
        gap_mm=clip.gap_mm or 0.0,
        per_crossing=rules.per_crossing,
        crossings=counted.gaps,
        count=rules.per_crossing * counted.gaps,
        starter_article=starter.code if starter is not None and named else "",
        starter_per_joist=rules.starter_per_joist,
        starter_count=rules.starter_per_joist * counted.starters,
        end_row_screws_per_joist=rules.end_row_screws_per_joist,
        fixed_points=fixed,
        fixed_screws=sum(piece.kind == "field" for piece in laying.pieces),
    )


def _fixed(piece: LaidPiece, boards: BoardsLaid) -> FixedPoint:
    """Return where a board is fixed: over the member nearest its middle, of two the first."""
    part = boards.parts[piece.mark]
    middle = (part.start_mm + part.end_mm) / 2
    over = min(boards.over[piece.mark], key=lambda each: (round(abs(each.at_mm - middle), 3),
                                                         each.at_mm))  # fmt: skip
    return FixedPoint(piece=piece.mark, joist=over.member)


def _caps(job: Job, laying: Laying) -> EndCaps | None:
    cap = job.articles.end_cap
    per_end = job.rules.count(f"{CAPS}.per_end") if job.articles.board.hollow else 0
    if cap is None or not per_end:
        return None
    return count_end_caps(len(laying.pieces), per_end=per_end, article=cap.code)


def screwed_crossings(job: Job, laying: Laying, boards: BoardsLaid) -> int | None:
    """Return how many crossings of clipped boards are screwed; None where no clips hold them."""
    if job.articles.clip is None:
        return None
    counted = count_held(laying, boards)
    return counted.ends + counted.loose


def rows(job: Job, fixings: Fixings, laying: Laying) -> list[Row]:
    """Return the decisions taken here."""
    held, caps = fixings.clips, fixings.end_caps
    path = f"{DECK}.per_crossing" if held is None else f"{PATH}.end_row_screws_per_joist"
    ruling, screws = job.rules.rulings[path], fixings.deck_screws
    return [
        (f"{DECK}.per_crossing", screws.per_crossing if screws else 0, ruling, ()),
        *(_clip_rows(held) if held is not None else ()),
        *((_gap_row(job, held),) if held is not None else ()),
        *(_cap_rows(caps, laying) if caps is not None else ()),
    ]


def _gap_row(job: Job, held: Clips) -> Row:
    return row(f"{PATH}.gap_mm", held.gap_mm, "mm", "the gap that the clip leaves",
               merchant_says(job, held.article))  # fmt: skip


def _clip_rows(held: Clips) -> list[Row]:
    return [
        row(f"{PATH}.count", held.count, "count",
            "so many on every member that both rows of a gap lie over", ARITHMETIC,
            (("per_crossing", held.per_crossing), ("crossings", held.crossings))),
        row(f"{PATH}.starter_count", held.starter_count, "count",
            "so many on each member under an edge that no row lies before", ARITHMETIC,
            (("starter_per_joist", held.starter_per_joist),)),
        row(f"{PATH}.fixed_screws", held.fixed_screws, "count",
            "a deck screw at the fixed point of each board of a row", clips.OURS),
        row(f"{PATH}.edge_screws", held.edge_screws, "count",
            "none: a ripped row is an outer one here, and screwed", clips.OURS),
    ]  # fmt: skip


def _cap_rows(caps: EndCaps, laying: Laying) -> list[Row]:
    return [
        row(f"{CAPS}.count", caps.count, "count", "both ends of every piece of a hollow board",
            ARITHMETIC, (("per_end", caps.per_end), ("ends", caps.ends),
                         ("piece_count", laying.piece_count))),
    ]  # fmt: skip
