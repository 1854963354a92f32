"""How a deck on an outline is built: ties, tasks with hold points, tools, hours."""

from collections.abc import Callable
from typing import Protocol

from attrs import evolve

from drylay.buying.model import Purchase
from drylay.findings import Finding, Severity
from drylay.fixings.model import Fixings
from drylay.geometry import Place, Region, grown, inset, region, shifted, stretches
from drylay.laying.model import Laying
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline, Side
from drylay.outline.sides import ring_of
from drylay.own_line import turned_back
from drylay.planner.built import Sited
from drylay.planner.job import Job
from drylay.planner.outlined_panels import wide_panels
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, row
from drylay.planner.standing_fixings import outlined_ties
from drylay.planner.standing_work import legs_at_work, legs_work_rows, with_legs
from drylay.planner.stood import Stood
from drylay.planner.working import FRAME_FAMILY, face_up, lift_told, people_row, whole_rows
from drylay.rings import inside
from drylay.subframe.model import Subframe
from drylay.work.cautions import FamilyCautions
from drylay.work.drafts import OnGround, OutlinedDeck
from drylay.work.model import PegTie, SettingOut, Work
from drylay.work.outlined_order import order_outlined_work
from drylay.work.outlined_setting_out import SHARPEST_DEG, set_out_corners, tie_mm
from drylay.work.posts_out import with_posts

#: No tape is pulled through the house: the ground so far behind a house side. Assumption.
BEHIND_WALL_MM = 1000.0
#: A tape along a wall touches it, and is clear.
TOUCHING_MM = 1.0


class OutlinedBuilt(OnGround, Protocol):
    """A deck on an outline bought through, as far as its work hangs on it."""

    @property
    def outline(self) -> Outline:
        """Return its sides."""
        ...

    @property
    def laying(self) -> Laying:
        """Return its boards."""
        ...

    @property
    def subframe(self) -> Subframe:
        """Return its frame."""
        ...

    @property
    def fixings(self) -> Fixings:
        """Return its fixings."""
        ...

    @property
    def stood(self) -> Stood:
        """Return what stands under it and round it."""
        ...


def plan_work(job: Job, built: OutlinedBuilt) -> Work:
    """Return how the deck is built."""
    raised = built.stood.raised
    run = "along" if built.subframe.joist_run == "across" else "across"
    deck = OutlinedDeck(
        outline=built.outline,
        laying=built.laying,
        subframe=built.subframe,
        fixings=built.fixings,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        setting_out=with_posts(set_out(job, built.outline), raised, run=run),
        base_side=base_side(built.outline).mark,
        face_up=face_up(job.brief.board.face_up, job.articles.board),
        wide_panels=tuple(
            mark for mark, _ in wide_panels(built.outline, built.laying, built.subframe)
        ),
        ledges=_ledges(built.outline, built.subframe),
        legs=legs_at_work(built.stood, built.site, outlined_ties(raised, built.subframe)),
    )
    work = order_outlined_work(
        deck, people=job.brief.crew.people, families=_cautions(job, built)
    )  # fmt: skip
    return with_legs(work, job.upkeep, deck.legs)


def _ledges(outline: Outline, frame: Subframe) -> dict[str, tuple[str, ...]]:
    """Return the marks of the trimmers that stand inside each hatch's hole."""
    middles = {
        each.mark: (
            (exact(each.start.along_mm) + exact(each.end.along_mm)) // 2,
            (exact(each.start.across_mm) + exact(each.end.across_mm)) // 2,
        )
        for each in frame.members
        if each.kind == "trimmer"
    }
    return {
        hatch.mark: tuple(
            mark for mark, at in middles.items() if inside(ring_of(hatch.corners), at) > 0
        )
        for hatch in outline.openings
        if hatch.kind == "hatch"
    }


def base_side(outline: Outline) -> Side:
    """Return the side that P1 and P2 stand at the ends of: the longest of the house, else of all.

    Of like long ones the first.
    """
    house = [side for side in outline.sides if side.kind == "house"]
    return max(house or outline.sides, key=lambda side: side.length_mm)


def frame_corners(outline: Outline) -> tuple[Place, ...]:
    """Return the corners of the frame's face, in step with the sides: each at a side's start."""
    ring = tuple((side.start.along_mm, side.start.across_mm) for side in outline.sides)
    inner = inset(ring, [side.facing_mm for side in outline.sides])
    return tuple((to_mm(exact(along)), to_mm(exact(across))) for along, across in inner)


def set_out(job: Job, outline: Outline) -> SettingOut:
    """Return pegs and ties: P1 to P2 along the base side, the others round from there."""
    first = outline.sides.index(base_side(outline))
    corners = frame_corners(outline)
    out = set_out_corners(
        (*corners[first:], *corners[:first]), units=job.brief.units, clear=clear_on(outline)
    )
    return _as_measured(out, outline.turned_deg) if outline.turned_deg else out


def _as_measured(out: SettingOut, turned_deg: float) -> SettingOut:
    """Return pegs told as the brief measures its corners too: from there the first are set."""
    pegs = []
    for peg in out.pegs:
        x, y = turned_back((exact(peg.along_mm), exact(peg.across_mm)), turned_deg)
        pegs.append(evolve(peg, brief_along_mm=to_mm(x), brief_across_mm=to_mm(y)))
    return evolve(out, pegs=tuple(pegs))


def clear_on(outline: Outline) -> Callable[[Place, Place], bool]:
    """Return what tells whether a tape is clear of the house, and of what stands in openings."""
    shut = _behind_walls(outline)
    for opening in outline.openings:
        if opening.kind != "hatch":  # a cover lies no higher than the ground
            within = region((spot.along_mm, spot.across_mm) for spot in opening.within)
            shut.append(grown(within, -TOUCHING_MM))
    return lambda one, other: not any(stretches(each, one, other) for each in shut)


def _behind_walls(outline: Outline) -> list[Region]:
    """Return the ground behind each house side, which no tape goes through."""
    found = []
    for side in outline.sides:
        if side.kind == "house":
            start = (side.start.along_mm, side.start.across_mm)
            end = (side.end.along_mm, side.end.across_mm)
            behind = shifted(start, end, -BEHIND_WALL_MM)
            found.append(grown(region((start, behind[0], behind[1], end)), -TOUCHING_MM))
    return found


def _cautions(job: Job, built: OutlinedBuilt) -> tuple[FamilyCautions, ...]:
    """Return the cautions of the boards' family, and whether any board is sawn."""
    board = job.articles.board
    sawn = any(_is_sawn(built, bought) for bought in built.buying.purchases)
    return (
        FamilyCautions(
            texts=job.cautions_by.get(board.family, ()),
            sawn=sawn,
            like_frame=board.family == FRAME_FAMILY,
        ),
    )


def _is_sawn(built: OutlinedBuilt, bought: Purchase) -> bool:
    """Whether a saw touches any board of a purchase, across or along."""
    if bought.what != "boards":
        return False
    ripped = any(row.ripped for row in built.laying.rows)
    cut = any(len(length.pieces) > 1 or length.offcut_mm > 0 for length in bought.lengths)
    return ripped or cut or built.buying.end_trim_mm > 0


def rows(job: Job, outline: Outline, work: Work) -> list[Row]:
    """Return the decisions taken here."""
    wish, board, out = job.brief.board.face_up, job.articles.board, work.setting_out
    along = [peg.along_mm for peg in out.pegs]
    across = [peg.across_mm for peg in out.pegs]
    faced = max(side.facing_mm for side in outline.sides)
    return [
        people_row(work),
        row("work.face_up", work.face_up, "", "as the brief wishes" if wish else
            "the smooth face, kinder to feet, where there is one",
            brief_says("board.face_up") if wish else PRACTICE, (("faces", board.faces),)),
        row("edges.frame_length_mm", to_mm(exact(max(along)) - exact(min(along))), "mm",
            "pegs from end to end along the house: the outline's corners, as far back as its "
            "fascia is thick", ARITHMETIC, (("facing_mm", faced),)),
        row("edges.frame_depth_mm", to_mm(exact(max(across)) - exact(min(across))), "mm",
            "pegs from end to end away from the house, likewise", ARITHMETIC,
            (("facing_mm", faced),)),
        row("work.setting_out.slant_mm", out.slant_mm, "mm",
            "the largest 3-4-5 that the frame's sides at P1 carry, where its corner is square",
            ARITHMETIC),
        row("work.setting_out.accepted_mm", out.accepted_mm, "mm",
            "how far a tie that checks may be off", PRACTICE),
        row("work.setting_out.tie_count", out.tie_count, "count", "two to each peg after P2 from "
            "pegs that stand, meeting as near to square as may be, and one more to check each "
            "after the third", PRACTICE, (("sharpest_deg", SHARPEST_DEG),
                                          ("pegs", len(out.pegs)))),
        *legs_work_rows(work),
        *whole_rows(work),
    ]  # fmt: skip


def remarks(job: Job, built: Sited) -> list[Finding]:
    """Return what is worth telling about the work."""
    return lift_told(job, built)


def stopped_tapes(outline: Outline, work: Work | None) -> list[Finding]:
    """Return a caution for each peg that no two tapes place clear of house, trees, posts, pools.

    Where the middle of the base line sees it, the tape from there is told.

    Source: docs/outline-conventions.md, Ties; what to do instead is common practice.
    """
    if work is None:
        return []
    at = {peg.mark: (peg.along_mm, peg.across_mm) for peg in work.setting_out.pegs}
    clear, (x1, y1), (x2, y2) = clear_on(outline), at["P1"], at["P2"]
    middle = ((x1 + x2) / 2, (y1 + y2) / 2)
    return [
        _stopped(tie, tie_mm(middle, at[tie.end]) if clear(middle, at[tie.end]) else None)
        for tie in work.setting_out.ties
        if not tie.check and not clear(at[tie.start], at[tie.end])
    ]


def _stopped(tie: PegTie, from_middle_mm: float | None) -> Finding:
    instead = (
        "set it by a line above what stands there, plumbed down on either side"
        if from_middle_mm is None
        else f"pull {from_middle_mm:.1f} mm from the middle between P1 and P2 instead"
    )
    return Finding(
        code="WRK-002",
        severity=Severity.CAUTION,
        subject=tie.end,
        message=f"the tape from {tie.start} goes through the house or what stands in the deck, and "
        f"no two other pegs place it: {instead}",
        measured=tie.length_mm,
        unit="mm",
        source=PRACTICE,
    )
