"""Fixings of a deck on an outline: counted again where boards and members really meet."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.exact import Fraction, ticks
from drylay.audit.fixings import coach_screws, deck_screws, fixings_of
from drylay.audit.flaws import NothingToMeasure, need, off_by, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    DEGREES,
    SLACK,
    fault,
    laying_of,
    outline_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_carried import MemberLines, carried_at, member_lines, tips
from drylay.audit.outlined_joints import course_of
from drylay.audit.outlined_openings import panel_of
from drylay.audit.outlined_strips import JUST
from drylay.audit.plane import (
    UNIT,
    Place,
    Run,
    box,
    run_of,
    squared_reach,
    squared_to_edge,
)
from drylay.laying.model import LaidPiece
from drylay.plan.model import Plan
from drylay.subframe.model import Member

DECK = outlines("Fixings on an outline: where a board is carried")
COACH = outlines("Fixings on an outline: joist_ends")
FRAME = outlines("Fixings on an outline: noggin_ends")
FASCIA = outlines("Fixings on an outline: a facing's screws")
HANGING = outlines("Fixings on an outline: hangers")
SHARP = outlines("Fixings on an outline: ends too sharp for screws")
#: Ends further off square than this are sharp; so much over it is not told apart from it.
SHARP_DEG, SHARP_SLACK_DEG = 60.0, 0.05
FRAMED = {"joist", "pair", "trimmer", "double"}


def screwed_at(plan: Plan, piece: LaidPiece, run: Run, lines: MemberLines) -> int:
    """Return at how many places a board is screwed down, those at its joints left out."""
    found = carried_at(plan, piece, run, lines)
    joints = _meeting_at(plan, piece, run)
    near = Fraction(3 * ticks(subframe_of(plan).timber_thickness_mm), 4) + JUST
    apart = [each for each in found if all(abs(each - joint) >= near for joint in joints)]
    return len(apart) + _far_ends(plan, piece, run, found, joints)


def _far_ends(
    plan: Plan, piece: LaidPiece, run: Run, found: list[Fraction], joints: list[Fraction]
) -> int:
    """Return how many ends, not at joints, have no place within twice what ends may reach."""
    reach = 2 * ticks(subframe_of(plan).end_support_most_mm) + JUST
    gap = ticks(laying_of(plan).end_gap_mm)
    return sum(
        not any(abs(tip - each) <= gap for each in joints)
        and not any(abs(tip - each) < reach for each in found)
        for tip in tips(run, piece)
    )


def _meeting_at(plan: Plan, piece: LaidPiece, run: Run) -> list[Fraction]:
    """Return where along the run joints lie that a piece ends at."""
    if not (piece.from_member or piece.to_member):
        return []
    _, low, _, high = box(run.all_told(shape(piece.corners)))
    # those of its own row alone: a border's may lie beside the end of a row
    mine = [joint for joint in laying_of(plan).joints if joint.row == course_of(piece)]
    told = [run.told(place(joint.at)) for joint in mine]
    gap = ticks(laying_of(plan).end_gap_mm)
    # of a board cut off along its row's middle line they lie on its edge
    slack = SLACK * UNIT
    found = [Fraction(u) / UNIT for u, v in told if low - slack <= v <= high + slack]
    return [at for at in found if any(abs(tip - at) <= gap for tip in tips(run, piece))]


def deck_screws_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless crossings and deck screws are counted where boards are carried."""
    laying, screws = laying_of(plan), deck_screws(plan)
    if fixings_of(plan).clips is not None:
        raise NothingToMeasure("clips hold the boards")
    runs, lines = runs_of(plan), member_lines(plan)
    crossings = sum(
        screwed_at(plan, piece, runs[piece.mark], lines)
        for piece in laying.pieces
        if piece.mark in runs and piece.kind != "hatch"
    )
    crossings += len(laying.joints) + tied_places(plan)
    at = "fixings.deck_screws"
    message = "not the places where boards are carried"
    yield from same_count(f"{at}.crossings", message, screws.crossings, crossings, DECK)
    found, message = len(laying.joints), "not the butt joints"
    yield from same_count(f"{at}.joints", message, screws.joints, found, DECK)
    count = screws.per_crossing * (screws.crossings + screws.joints)
    message = "not so many at each crossing and joint"
    yield from same_count(f"{at}.count", message, screws.count, count, DECK)


def tied_places(plan: Plan) -> int:
    """Return at how many places boards of panels are screwed to battens: each to each."""
    openings, battens = outline_of(plan).openings, subframe_of(plan).battens
    return sum(
        len(panel_of(plan, opening)) * sum(each.opening == opening.mark for each in battens)
        for opening in openings
        if opening.kind == "hatch"
    )


def short(plan: Plan, member: Member) -> bool:
    """Return whether coach screws from both ends of a member would meet."""
    reach = ticks(coach_screws(plan).length_mm) - ticks(subframe_of(plan).timber_thickness_mm)
    return member.kind in FRAMED and ticks(member.length_mm) < 2 * reach


def _carried(member: Member) -> int:
    return bool(member.start_on) + bool(member.end_on)


def butting(plan: Plan, member: Member) -> int:
    """Return how many ends of a rim butt against what they name, faces on faces."""
    members = {each.mark: each for each in subframe_of(plan).members}
    found = 0
    for mark, spot in ((member.start_on, member.start), (member.end_on, member.end)):
        if mark in members and members[mark].kind != "splice":
            carrier = shape(members[mark].corners)
            found += squared_to_edge(place(spot), carrier) <= SLACK**2
    return found


def hanging(plan: Plan) -> int:
    """Return how many square ends of joists hang: on all lines but the first and the last."""
    subframe = subframe_of(plan)
    axis = 0 if subframe.joist_run == "across" else 1
    outer = {ticks(line) for line in (*subframe.lines_mm[:1], *subframe.lines_mm[-1:])}
    found = 0
    for member in subframe.members:
        inner = place(member.start)[axis] not in outer
        if member.kind == "joist" and inner and not short(plan, member):
            found += bool(member.start_on) and abs(member.start_deg) < DEGREES
            found += bool(member.end_on) and abs(member.end_deg) < DEGREES
    return found


def frame_fixings_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless coach screws, hangers and frame screws are counted from members' ends."""
    members, fixings = subframe_of(plan).members, fixings_of(plan)
    coach = coach_screws(plan)
    ends = sum(_carried(m) for m in members if m.kind in FRAMED and not short(plan, m))
    ends += sum(butting(plan, m) for m in members if m.kind == "rim")
    hang = hanging(plan) if fixings.hangers is not None else 0
    message = "not the ends of members that are carried"
    yield from same_count(
        "fixings.coach_screws.joist_ends", message, coach.joist_ends, ends - hang, COACH
    )
    message, count = "not so many at each end", coach.per_joist_end * coach.joist_ends
    yield from same_count("fixings.coach_screws.count", message, coach.count, count, COACH)
    if fixings.hangers is not None:
        message = "not the square ends of inner joists"
        yield from same_count(
            "fixings.hangers.count", message, fixings.hangers.count, hang, HANGING
        )
    screws = need(fixings.frame_screws, "frame screws")
    ends = sum(_carried(m) for m in members if m.kind == "noggin" or short(plan, m))
    ends += mitred_corners(plan)
    message = "not the ends of noggins and short members, and mitred corners"
    yield from same_count(
        "fixings.frame_screws.noggin_ends", message, screws.noggin_ends, ends, FRAME
    )
    sides, message = 2 * sum(m.kind == "splice" for m in members), "not two for each splice"
    yield from same_count(
        "fixings.frame_screws.splice_sides", message, screws.splice_sides, sides, FRAME
    )
    count = (
        screws.per_noggin_end * screws.noggin_ends + screws.per_splice_side * screws.splice_sides
    )
    message = "not so many at each end and side"
    yield from same_count("fixings.frame_screws.count", message, screws.count, count, FRAME)


def mitred_corners(plan: Plan) -> int:
    """Return how many corners rims are mitred at."""
    ends = 0
    for member in subframe_of(plan).members:
        if member.kind == "rim":
            ends += not member.start_on and abs(member.start_deg) > DEGREES
            ends += not member.end_on and abs(member.end_deg) > DEGREES
    return ends // 2


def facing_screws(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each facing is held from end to end, clear of screws behind it."""
    screws = need(fixings_of(plan).fascia_screws, "fascia screws")
    subframe = subframe_of(plan)
    message, count = "not so many at each place", screws.per_place * len(screws.places)
    yield from same_count("fixings.fascia_screws.count", message, screws.count, count, FASCIA)
    marks = {facing.mark for facing in subframe.facings}
    for held in screws.places:
        if held.fascia not in marks:
            yield fault(held.fascia, "a place on a fascia that is none of the plan's", FASCIA)
    most, least = ticks(screws.spacing_most_mm), ticks(screws.end_least_mm)
    clear = ticks(screws.clear_mm)
    behind = ends_behind(plan)
    for facing in subframe.facings:
        run = run_of(place(facing.start), place(facing.end))
        at = sorted(ticks(each.offset_mm) for each in screws.places if each.fascia == facing.mark)
        if run is None or not at:
            yield fault(facing.mark, "nothing holds it", FASCIA)
            continue
        long = ticks(facing.length_mm)
        for end in (at[0], long - at[-1]):
            if end < least - SLACK or end > least + most:
                yield off_by(facing.mark, "its outer place is too near its end, or too far", end,
                             least, FASCIA)  # fmt: skip
        for one, other in pairwise(at):
            if other - one > most + SLACK:
                message = "it is held too far apart"
                yield off_by(facing.mark, message, other - one, most, FASCIA)
        start = Fraction(run.told(place(facing.start))[0]) / UNIT
        line = (place(facing.start), place(facing.end))
        for spot in behind:
            if squared_reach(spot, *line) <= (3 * ticks(subframe.timber_thickness_mm)) ** 2:
                there = Fraction(run.told(spot)[0]) / UNIT - start
                for each in at:
                    if abs(each - there) < clear - SLACK:
                        message = "a place is not clear of what is screwed behind it"
                        found = float(abs(each - there))
                        yield off_by(facing.mark, message, found, clear, FASCIA)


def ends_behind(plan: Plan) -> list[Place]:
    """Return where members are screwed through rims into their ends."""
    members = {member.mark: member for member in subframe_of(plan).members}
    found: list[Place] = []
    for member in members.values():
        for mark, spot in ((member.start_on, member.start), (member.end_on, member.end)):
            if mark not in members or members[mark].kind != "rim" or member.kind == "splice":
                continue
            if squared_to_edge(place(spot), shape(members[mark].corners)) <= SLACK**2:
                found.append(place(spot))
    return found


def sharp_ends_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless members with carried ends too sharp for screws are cautioned."""
    sharp: dict[str, float] = {}
    for member in subframe_of(plan).members:
        for on, off_deg in ((member.start_on, member.start_deg), (member.end_on, member.end_deg)):
            if on and abs(off_deg) > SHARP_DEG + SHARP_SLACK_DEG:
                sharp[member.mark] = max(abs(off_deg), sharp.get(member.mark, 0.0))
    findings = [finding for finding in plan.findings if finding.code == "FIX-026"]
    told = {mark for finding in findings for mark in finding.subject.split(", ")}
    for mark in sorted(told ^ set(sharp)):
        yield fault(mark, "its ends and the caution on sharp ones (FIX-026) do not agree", SHARP)
    wanted = max(sharp.values(), default=None)
    for finding in findings:
        if finding.measured != wanted or finding.limit != SHARP_DEG:
            yield Flaw(
                subject=finding.code, message="it does not measure the sharpest end",
                measured=finding.measured, limit=wanted, unit="degrees", source=SHARP,
            )  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-980", "deck screws are counted where boards are carried", deck_screws_counted),
    ("AUD-981", "fixings of the frame are counted from members' ends", frame_fixings_counted),
    ("AUD-982", "facings are screwed from end to end, clear of what is behind", facing_screws),
    ("AUD-997", "ends too sharp for screws are cautioned", sharp_ends_are_told),
)
