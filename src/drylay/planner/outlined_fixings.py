"""What holds a deck on an outline, counted from its members and pieces, and what is brushed on."""

import math
from collections.abc import Sequence
from typing import Any

from drylay.buying.model import Purchase
from drylay.fixings.fascia import clear_of_heads_mm, spread
from drylay.fixings.frame_screws import hanger_depth_least_mm
from drylay.fixings.model import (
    CoachScrews,
    DeckScrews,
    FasciaScrewPlace,
    FasciaScrews,
    Fixings,
    FrameScrews,
    Hangers,
)
from drylay.fixings.screws import EDGE_SHANKS
from drylay.groundwork.model import Groundwork
from drylay.laying.axes import place_of
from drylay.laying.carried import JUST_MM
from drylay.laying.model import LaidPiece, Laying
from drylay.marks import exact, to_mm
from drylay.planner import (
    clips,
    ground,
    holding,
    outlined_clips,
    outlined_coats,
    outlined_doubles,
)
from drylay.planner.built import Wanted
from drylay.planner.buy import in_boxes
from drylay.planner.job import Job
from drylay.planner.outlined_boards import BoardsLaid
from drylay.planner.outlined_job import END_SUPPORT_MM, sizes_of
from drylay.planner.outlined_panels import ties
from drylay.raised.model import RaisedDeck
from drylay.subframe.finish import member_ends
from drylay.subframe.model import Facing, Member, Subframe

DECK, COACH = "fixings.deck_screws", "fixings.coach_screws"
FRAME, FASCIA = "fixings.frame_screws", "fixings.fascia_screws"
#: No place is further from a joint that it is at, in timber's thicknesses. Source: assumption.
AT_JOINT_RATIO = 0.75
#: Kinds of members that coach screws hold by their ends.
SHORTENED = frozenset({"joist", "pair", "trimmer", "double"})


def fixings_of(  # noqa: PLR0917 - what is fixed, and what is sawn besides
    job: Job, laying: Laying, subframe: Subframe, boards: BoardsLaid,
    purchases: Sequence[Purchase], raised: RaisedDeck | None = None,
) -> Fixings:  # fmt: skip
    """Return all fixings counted, and what is brushed on."""
    frame_screws = _frame_screws(job, subframe)
    hangers = _hangers(job, subframe)
    idle = {"frame screws"} if frame_screws is None else set()
    idle |= {"hangers", "hanger screws"} if hangers is None else set()
    idle |= clips.idle(job)
    doubles = outlined_doubles.double_screws(job, subframe.members)
    return Fixings(
        deck_screws=_deck_screws(job, laying, subframe, boards),
        coach_screws=_coach_screws(job, subframe, hangers),
        frame_screws=frame_screws,
        fascia_screws=_fascia_screws(job, subframe),
        hangers=hangers,
        double_screws=doubles,
        **_held(job, idle, doubled=doubles is not None),
        **outlined_clips.clipped(job, laying, boards),
        **outlined_coats.coated(job, laying, subframe, purchases, raised),
    )


def _held(job: Job, idle: set[str], *, doubled: bool) -> dict[str, Any]:
    return {
        "metals": holding.metals(
            job, idle, outlined_doubles.screw_of_doubles(job) if doubled else None
        ),
        "board_use_class_least": job.rules.count("fixings.board_use_class_least"),
        "frame_use_class_least": job.rules.count("fixings.frame_use_class_least"),
        "use_classes": holding.use_classes(job.articles),
    }


def _deck_screws(
    job: Job, laying: Laying, subframe: Subframe, boards: BoardsLaid
) -> DeckScrews:  # fmt: skip
    """Return so many screws wherever a board's middle line crosses a member, and at each end else.

    As many again at each joint: both board ends have their own. Where clips hold the boards, only
    those that no next row lies beside are screwed, and what lies in no row. Boards of panels are
    screwed to their battens instead.
    """
    rules, screw = job.rules, job.articles.screw
    screwed = outlined_clips.screwed_crossings(job, laying, boards)
    crossings = (_carried(job, boards) if screwed is None else screwed) + ties(laying, subframe)
    joints = len(boards.joints) if screwed is None else 0
    path = f"{DECK}.per_crossing" if screwed is None else f"{clips.PATH}.end_row_screws_per_joist"
    per = rules.count(path)
    ratio = rules.value(f"{DECK}.pilot_ratio")
    return DeckScrews(
        article=screw.code,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        length_least_mm=rules.value(f"{DECK}.length_least_mm"),
        per_crossing=per,
        crossings=crossings,
        joints=joints,
        count=per * (crossings + joints),
        driver=screw.driver,
        edge_least_mm=rules.value(f"{DECK}.edge_least_mm"),
        end_least_mm=rules.value(f"{DECK}.end_least_mm"),
        predrill_all=rules.count(f"{DECK}.predrill_all") == 1,
        pilot_ratio=ratio,
        pilot_mm=to_mm(exact(screw.shank_mm * ratio)),
    )


def _carried(job: Job, boards: BoardsLaid) -> int:
    """Return at how many places boards but panels' are carried, each joint counted once."""
    found = len(boards.joints)
    for piece in boards.pieces:
        if piece.kind == "hatch":
            continue
        found += len(boards.over[piece.mark]) + _loose_ends(piece, boards)
        found -= _at_joints(job, piece, boards)
    return found


def _at_joints(job: Job, piece: LaidPiece, boards: BoardsLaid) -> int:
    """Return how many places a piece is carried at are at the joints that it ends at."""
    part, sizes = boards.parts[piece.mark], sizes_of(job)
    half, near = sizes.end_gap_mm / 2, AT_JOINT_RATIO * job.articles.timber.thickness_mm + JUST_MM
    joints = [part.start_mm - half] if piece.from_member else []
    joints += [part.end_mm + half] if piece.to_member else []
    return sum(
        any(abs(over.at_mm - joint) < near for joint in joints) for over in boards.over[piece.mark]
    )


def _loose_ends(piece: LaidPiece, boards: BoardsLaid) -> int:
    """Return how many cut ends no place is near: they are screwed to the noggin under them."""
    part, at = boards.parts[piece.mark], [over.at_mm for over in boards.over[piece.mark]]
    found = 0
    for end, joined in ((part.start_mm, piece.from_member), (part.end_mm, piece.to_member)):
        if not joined and not any(abs(each - end) < 2 * END_SUPPORT_MM + JUST_MM for each in at):
            found += 1
    return found


def _coach_screws(job: Job, subframe: Subframe, hangers: Hangers | None) -> CoachScrews:
    rules, coach = job.rules, job.articles.coach_screw
    ends = member_ends([each for each in subframe.members if not _is_short(job, each)])
    held = ends.hung + ends.rim_corners_butted - (hangers.count if hangers else 0)
    per = rules.count(f"{COACH}.per_joist_end")
    ratio = rules.value(f"{COACH}.pilot_ratio")
    edge_mm = to_mm(EDGE_SHANKS * exact(coach.shank_mm))
    reach = exact(job.articles.screw.length_mm) - exact(sizes_of(job).thickness_mm)
    return CoachScrews(
        article=coach.code,
        shank_mm=coach.shank_mm,
        length_mm=coach.length_mm,
        length_least_mm=rules.value(f"{COACH}.length_least_mm"),
        per_joist_end=per,
        joist_ends=held,
        count=per * held,
        pilot_ratio=ratio,
        pilot_mm=to_mm(exact(coach.shank_mm * ratio)),
        driver=coach.driver,
        head_mm=coach.head_mm,
        sink_mm=rules.value(f"{COACH}.sink_mm") if subframe.facings else 0.0,
        edge_least_mm=edge_mm,
        top_least_mm=max(edge_mm, to_mm(max(0, reach) + exact(coach.shank_mm))),
    )


def _hangers(job: Job, subframe: Subframe) -> Hangers | None:
    """Return a hanger at every square end of a joist that is neither outermost nor paired."""
    hanger, screw = job.articles.hanger, job.articles.hanger_screw
    if hanger is None or screw is None:
        return None
    outer = {subframe.lines_mm[0], subframe.lines_mm[-1]}
    count = sum(
        bool(on) and deg == 0
        for member in subframe.members
        if member.kind == "joist"
        and _line_of(member, subframe) not in outer
        and not _is_short(job, member)
        for on, deg in ((member.start_on, member.start_deg), (member.end_on, member.end_deg))
    )
    if not count:
        return None
    return Hangers(
        article=hanger.code,
        joist_mm=hanger.joist_mm,
        depth_mm=hanger.depth_mm,
        depth_least_mm=hanger_depth_least_mm(subframe.timber_depth_mm),
        count=count,
        screw=screw.code,
        screw_shank_mm=screw.shank_mm,
        screw_length_mm=screw.length_mm,
        driver=screw.driver,
        screws_each=hanger.screws_each,
        screw_count=count * hanger.screws_each,
    )


def _is_short(job: Job, member: Member) -> bool:
    """Whether a member but a rim or noggin has no length for coach screws from both its ends."""
    reach_mm = job.articles.coach_screw.length_mm - job.articles.timber.thickness_mm
    return member.kind in SHORTENED and member.length_mm < 2 * reach_mm


def _line_of(member: Member, subframe: Subframe) -> float:
    return member.start.along_mm if subframe.joist_run == "across" else member.start.across_mm


def _frame_screws(job: Job, subframe: Subframe) -> FrameScrews | None:
    """Return the screws of noggins' ends, of mitred corners of rims as one such, of splices."""
    screw, rules = job.articles.frame_screw, job.rules
    ends = member_ends(subframe.members)
    short = member_ends([each for each in subframe.members if _is_short(job, each)])
    noggin_ends = ends.noggin_ends + ends.rim_corners_mitred + short.hung
    sides = 2 * sum(member.kind == "splice" for member in subframe.members)
    if screw is None or not noggin_ends + sides:
        return None
    per_end, per_side = (rules.count(f"{FRAME}.{n}") for n in ("per_noggin_end", "per_splice_side"))
    ratio = rules.value(f"{FRAME}.pilot_ratio")
    return FrameScrews(
        article=screw.code,
        driver=screw.driver,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        length_least_mm=rules.value(f"{FRAME}.length_least_mm"),
        per_noggin_end=per_end,
        noggin_ends=noggin_ends,
        per_splice_side=per_side,
        splice_sides=sides,
        count=per_end * noggin_ends + per_side * sides,
        pilot_ratio=ratio,
        pilot_mm=to_mm(exact(screw.shank_mm * ratio)),
    )


def _fascia_screws(job: Job, subframe: Subframe) -> FasciaScrews | None:
    screw, rules = job.articles.fascia_screw, job.rules
    if screw is None or not subframe.facings:
        return None
    clear_mm = clear_of_heads_mm(job.articles.coach_screw.shank_mm, screw.shank_mm)
    places = tuple(
        place
        for facing in subframe.facings
        for place in _places(job, facing, subframe.members, clear_mm)
    )
    per_place = rules.count(f"{FASCIA}.per_place")
    ratio = rules.value(f"{FASCIA}.pilot_ratio")
    return FasciaScrews(
        article=screw.code,
        driver=screw.driver,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        length_least_mm=rules.value(f"{FASCIA}.length_least_mm"),
        per_place=per_place,
        spacing_most_mm=rules.value(f"{FASCIA}.spacing_most_mm"),
        end_least_mm=rules.value(f"{FASCIA}.end_least_mm"),
        clear_mm=clear_mm,
        places=places,
        count=per_place * len(places),
        pilot_ratio=ratio,
        pilot_mm=to_mm(exact(screw.shank_mm * ratio)),
    )


def _places(
    job: Job, facing: Facing, members: Sequence[Member], clear_mm: float
) -> list[FasciaScrewPlace]:
    """Return where a facing is screwed, from its start: evenly, clear of coach screws behind it."""
    rules, start, end = job.rules, place_of(facing.start), place_of(facing.end)
    long = math.dist(start, end)
    run = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    shut = []
    for member in members:
        for place, on in ((member.start, member.start_on), (member.end, member.end_on)):
            dx, dy = place.along_mm - start[0], place.across_mm - start[1]
            along, off = dx * run[0] + dy * run[1], abs(dy * run[0] - dx * run[1])
            if on and off < 3 * job.articles.timber.thickness_mm:
                shut.append((exact(along - clear_mm), exact(along + clear_mm)))
    least = exact(rules.value(f"{FASCIA}.end_least_mm"))
    places = spread(
        (least, exact(long) - least),
        shut,
        spacing_most=exact(rules.value(f"{FASCIA}.spacing_most_mm")),
        mark=sizes_of(job).mark_320,
    )
    return [FasciaScrewPlace(fascia=facing.mark, offset_mm=to_mm(at)) for at in places]


def wanted_of(job: Job, fixings: Fixings, groundwork: Groundwork | None) -> tuple[Wanted, ...]:
    """Return what is to be bought in packs."""
    deck, articles = fixings.deck_screws, job.articles
    return (
        *((in_boxes("deck screws", articles.screw, deck.count),) if deck and deck.count else ()),
        in_boxes("coach screws", articles.coach_screw, fixings.coach_screws.count),
        *clips.wanted(job, fixings),
        *holding.wanted(job, fixings),
        *outlined_doubles.wanted(job, fixings),
        *outlined_coats.wanted(job, fixings),
        *ground.wanted(job, groundwork),
    )
