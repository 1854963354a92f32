"""Panels of hatches: battens that tie their boards, clear of the frame."""

from collections.abc import Iterator
from itertools import pairwise

from attrs import frozen

from drylay.audit.exact import Fraction, mark_of, ticks
from drylay.audit.fixings import deck_screws
from drylay.audit.flaws import NothingToMeasure, off_by, same_count, same_length, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    LONG_OFF,
    SLACK,
    fault,
    outline_of,
    outlines,
    place,
    shape,
    subframe_of,
)
from drylay.audit.outlined_openings import panel_of
from drylay.audit.plane import (
    UNIT,
    Number,
    Run,
    Shape,
    box,
    boxes_meet,
    root,
    run_of,
    size,
    squared_apart,
)
from drylay.outline.model import Opening
from drylay.plan.model import Plan
from drylay.subframe.model import PanelBatten

BATTENS = outlines("Frame: battens of a hatch's panel")
PLAY_MM = 10.0


@frozen(kw_only=True)
class Tied:
    """A hatch with its battens in the plan's order.

    `run` goes as battens do, to the left of its boards' run; `hole` is its hole as `_seen`.
    """

    opening: Opening
    battens: tuple[PanelBatten, ...]
    run: Run
    hole: Shape


def _hatches(plan: Plan) -> list[Opening]:
    return [each for each in outline_of(plan).openings if each.kind == "hatch"]


def tied_hatches(plan: Plan) -> list[Tied]:
    """Return each hatch with a hole of four corners, and its battens.

    Raises:
        NothingToMeasure: There are no hatches, and no battens are told.
    """
    subframe, hatches = subframe_of(plan), _hatches(plan)
    if not hatches and subframe.batten_count is None and not subframe.battens:
        raise NothingToMeasure("the plan has no battens of panels")
    found = []
    for opening in hatches:
        hole = shape(opening.corners)
        run = run_of(hole[0], hole[-1]) if len(hole) == 4 else None
        if run is not None:
            own = tuple(each for each in subframe.battens if each.opening == opening.mark)
            found.append(Tied(opening=opening, battens=own, run=run, hole=_seen(run, hole)))
    return found


def _seen(run: Run, places: Shape) -> Shape:
    """Return places as how far they are along the boards' run, and to its left, in 1/320 mm."""
    return tuple((Fraction(-v) / UNIT, Fraction(u) / UNIT) for u, v in run.all_told(places))


def battens_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless battens are counted and marked in order, two or more for each hatch."""
    subframe, tied = subframe_of(plan), tied_hatches(plan)
    marks = [each.mark for each in _hatches(plan)]
    path, message = "subframe.batten_count", "not the battens there are"
    found, wanted = subframe.batten_count or 0, len(subframe.battens)
    yield from same_count(path, message, found, wanted, BATTENS)
    for number, batten in enumerate(subframe.battens, start=1):
        yield from same_text(batten.mark, "not its mark", batten.mark, f"Q{number}", BATTENS)
        if batten.opening not in marks:
            yield fault(batten.mark, f"no hatch is {batten.opening!r}", BATTENS)
    order = [each.mark for hatch in tied for each in hatch.battens]
    if sorted(order) == sorted(each.mark for each in subframe.battens) and order != [
        each.mark for each in subframe.battens
    ]:
        yield fault(path, "battens do not come hatch by hatch", BATTENS)
    for hatch in tied:
        if len(hatch.battens) < 2:
            yield fault(hatch.opening.mark, "no two battens tie its panel", BATTENS)
    path, message = "subframe.batten_play_mm", "not what battens keep off timbers"
    yield from same_length(path, message, subframe.batten_play_mm or 0.0, ticks(PLAY_MM), BATTENS)


@frozen(kw_only=True)
class Lying:
    """A batten as the boards see it: its centre along their run, its ends to the left of it."""

    at: Fraction
    start: Fraction
    end: Fraction


def _lying(hatch: Tied, batten: PanelBatten) -> Lying:
    (at, start), (_, end) = _seen(hatch.run, (place(batten.start), place(batten.end)))
    return Lying(at=Fraction(at), start=Fraction(start), end=Fraction(end))


def battens_lie_in_place(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless battens stand beside the ledges and evenly between, from side to side."""
    for hatch in tied_hatches(plan):
        for batten in hatch.battens:
            yield from _is_straight(plan, hatch, batten)
            yield from _reaches_across(plan, hatch, batten)
        yield from _stand_even(plan, hatch)


def _is_straight(plan: Plan, hatch: Tied, batten: PanelBatten) -> Iterator[Flaw]:
    """Yield a flaw unless a batten lies square to the boards and is as long as told, on a mark."""
    (one, start), (other, end) = _seen(hatch.run, (place(batten.start), place(batten.end)))
    if size(one - other) > SLACK:
        yield fault(batten.mark, "it does not lie square to the panel's boards", BATTENS)
    long = ticks(batten.length_mm)
    if size(end - start - long) > LONG_OFF:
        message = "not as long as its middle line"
        yield off_by(batten.mark, message, long, float(end - start), BATTENS)
    if long % mark_of(plan):
        yield fault(batten.mark, "its length lies on no mark", BATTENS)


def _reaches_across(plan: Plan, hatch: Tied, batten: PanelBatten) -> Iterator[Flaw]:
    """Yield a flaw unless a batten ends the play inside both sides that boards run along."""
    play, mark, lies = ticks(PLAY_MM), mark_of(plan), _lying(hatch, batten)
    right, right_end, left_end, left = hatch.hole
    faces = _faces(plan, lies.at)
    before = lies.start - max(_level(right, right_end, face) for face in faces)
    past = min(_level(left, left_end, face) for face in faces) - lies.end
    off: tuple[tuple[str, Fraction, int], ...] = (("begins", before, 0), ("ends", past, mark))
    for name, found, more in off:
        if found < play - SLACK or found > play + more + SLACK:
            message = f"it {name} elsewhere than the play inside the hole"
            yield off_by(batten.mark, message, float(found), play, BATTENS)


def _faces(plan: Plan, at: Fraction) -> tuple[Fraction, Fraction]:
    half = Fraction(ticks(subframe_of(plan).timber_thickness_mm), 2)
    return at - half, at + half


def _level(start: tuple[Number, Number], end: tuple[Number, Number], at: Fraction) -> Fraction:
    """Return how far to the left a side of a hole lies, so far along the boards' run."""
    (u0, v0), (u1, v1) = start, end
    return Fraction(v0) if u0 == u1 else v0 + Fraction(v1 - v0) * (at - u0) / (u1 - u0)


def _stand_even(plan: Plan, hatch: Tied) -> Iterator[Flaw]:
    """Yield a flaw unless a panel's battens are the fewest, even, the outer two beside ledges."""
    subframe, mark = subframe_of(plan), mark_of(plan)
    at = [_lying(hatch, batten).at for batten in hatch.battens]
    if len(at) < 2:
        return
    thick, most = ticks(subframe.timber_thickness_mm), ticks(subframe.square_centres_mm)
    in_from = Fraction(3 * thick, 2) + ticks(PLAY_MM)
    ends = [Fraction(hatch.hole[0][0]) + in_from, Fraction(hatch.hole[1][0]) - in_from]
    for batten, found, wanted in ((hatch.battens[0], at[0], ends[0]),
                                  (hatch.battens[-1], at[-1], ends[1])):  # fmt: skip
        if abs(found - wanted) > SLACK:
            message = "it does not stand the play beside its ledge"
            yield off_by(batten.mark, message, float(found), float(wanted), BATTENS)
    even, mark_of_hatch = (ends[1] - ends[0]) / (len(at) - 1), hatch.opening.mark
    for one, other in pairwise(at):
        apart = other - one
        if apart < thick - SLACK or apart > most + SLACK or abs(apart - even) > mark + SLACK:
            message = "its battens stand too near, too far apart or uneven"
            yield off_by(mark_of_hatch, message, float(apart), float(even), BATTENS)
    if len(at) > 2 and (len(at) - 2) * (most - mark) >= ends[1] - ends[0]:
        yield fault(mark_of_hatch, "more battens tie its panel than it wants", BATTENS)


def battens_are_clear(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each batten that any member of the frame is nearer to than its play."""
    play = ticks(PLAY_MM)
    told = [(member.mark, shape(member.corners)) for member in subframe_of(plan).members]
    for hatch in tied_hatches(plan):
        for batten in hatch.battens:
            corners = _corners(plan, hatch, batten)
            for mark, timber in told:
                if not boxes_meet(corners, timber, play):
                    continue
                apart = float(root(squared_apart(corners, timber)))
                if apart < play - SLACK:
                    yield off_by(batten.mark, f"too near {mark} to lift out", apart, play, BATTENS)


def _corners(plan: Plan, hatch: Tied, batten: PanelBatten) -> Shape:
    """Return the corners of a batten, seen from above."""
    lies = _lying(hatch, batten)
    one, other = _faces(plan, lies.at)
    told = ((one, lies.start), (other, lies.start), (other, lies.end), (one, lies.end))
    return tuple(hatch.run.place((v * UNIT, -u * UNIT)) for u, v in told)


def battens_hold_every_board(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each board of a panel that does not lie over all its battens."""
    screws = deck_screws(plan)
    least = ticks(screws.edge_least_mm) + ticks(screws.end_least_mm)
    for hatch in tied_hatches(plan):
        for piece in panel_of(plan, hatch.opening):
            start, low, end, high = box(_seen(hatch.run, shape(piece.corners)))
            for batten in hatch.battens:
                lies, faces = _lying(hatch, batten), _faces(plan, _lying(hatch, batten).at)
                whole = low >= lies.start and high <= lies.end
                over = min(high, lies.end) - max(low, lies.start)
                if start > faces[0] or end < faces[1] or not (whole or over >= least - SLACK):
                    message = f"it lies too little over {batten.mark}"
                    yield off_by(piece.mark, message, float(over), least, BATTENS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-996", "battens of panels are counted, two or more for each", battens_are_counted),
    ("AUD-992", "battens stand beside the ledges and evenly between", battens_lie_in_place),
    ("AUD-993", "battens of panels are clear of every member", battens_are_clear),
    ("AUD-994", "every board of a panel lies over all its battens", battens_hold_every_board),
)
