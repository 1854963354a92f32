"""Decks that stand on outlines: bearers and posts under the deck, joists on them, edges, steps.

Places of what stands run along the bearers: the outline's are swapped where joists run along.
"""

from collections.abc import Iterator
from itertools import pairwise

from attrs import frozen

from drylay.audit.exact import ceil_div, ticks
from drylay.audit.flaws import same_count, same_length, same_text
from drylay.audit.guards_seen import GUARDS, guards_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import all_holes, cover, outline_of, place, subframe_of
from drylay.audit.plane import Shape, twice_area, twice_common
from drylay.audit.raised_parts import RAISED, broad, deck_of, stand_of
from drylay.audit.statics import carried_by
from drylay.audit.strength_asked import STRENGTH, strength_of
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, Post
from drylay.subframe.model import Member, Subframe

#: What runs from rim to rim, or to what trims an opening.
JOISTS = {"joist", "pair", "double", "rim"}
TRIMMING = {"trimmer", "double"}
#: Kinds of sides as guards take them: all others one may fall off.
CLOSED = {"house", "pool"}


@frozen(kw_only=True)
class Lies:
    """A joist as it lies: where, from where to where, what it rests on, in 1/320 mm.

    A free end is told as far as the joist itself goes: rims beyond it are not counted.
    """

    mark: str
    at: int
    low: int
    high: int
    rests: tuple[int, ...]


def _swapped(frame: Subframe, spot: tuple[int, int]) -> tuple[int, int]:
    return spot if frame.joist_run == "across" else spot[::-1]


def _outlines(plan: Plan) -> tuple[Shape, tuple[Shape, ...]]:
    """Return the cover and all holes as what stands has its places."""
    frame = subframe_of(plan)
    turned = [
        tuple(_swapped(frame, (int(x), int(y))) for x, y in each)
        for each in (cover(plan), *all_holes(plan))
    ]
    return turned[0], tuple(turned[1:])


def _box(low: tuple[int, int], high: tuple[int, int]) -> Shape:
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def _bearer_box(bearer: Bearer) -> Shape:
    half, at = broad(bearer) // 2, ticks(bearer.across_mm)
    return _box((ticks(bearer.start_mm), at - half), (ticks(bearer.end_mm), at + half))


def _post_box(post: Post) -> Shape:
    (x, y), section = place(post.place), post.section
    wide, deep = ticks(section.breadth_mm) // 2, ticks(section.depth_mm) // 2
    return _box((x - wide, y - deep), (x + wide, y + deep))


def what_stands_lies_under_the_deck(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bearer and post that reaches out of the outline, or into an opening."""
    stand = stand_of(plan)
    deck, holes = _outlines(plan)
    found = [(each.mark, _bearer_box(each)) for each in stand.bearers]
    found += [(each.mark, _post_box(each)) for each in stand.posts]
    for mark, own in found:
        if abs(twice_common(own, deck)) != twice_area(own):
            message = "reaches out of the outline that lies on it"
            yield Flaw(subject=mark, message=message, source=RAISED)
        if any(twice_common(own, hole) for hole in holes):
            message = "stands or lies in an opening"
            yield Flaw(subject=mark, message=message, source=RAISED)


def joists_of(plan: Plan) -> Iterator[Lies]:
    """Yield every joist, and every rim that runs their way, as it lies."""
    frame = subframe_of(plan)
    kinds = {member.mark: member.kind for member in frame.members}
    for member in frame.members:
        (x, low), (other, high) = sorted(
            _swapped(frame, place(spot)) for spot in (member.start, member.end)
        )
        if member.kind in JOISTS and x == other:
            held = set(_trimmed(frame, member, kinds))
            held |= {low} if _on_ledger(plan, x, low) else set()
            rests = held | set(_under(plan, x, low, high))
            yield Lies(mark=member.mark, at=x, low=low, high=high, rests=tuple(sorted(rests)))


def _trimmed(frame: Subframe, member: Member, kinds: dict[str, str]) -> Iterator[int]:
    for spot, on in ((member.start, member.start_on), (member.end, member.end_on)):
        if kinds.get(on) in TRIMMING:
            yield _swapped(frame, place(spot))[1]


def _on_ledger(plan: Plan, at: int, low: int) -> bool:
    ledger = stand_of(plan).ledger
    return (
        ledger is not None
        and low == ticks(subframe_of(plan).timber_thickness_mm)
        and ticks(ledger.start_mm) <= at <= ticks(ledger.end_mm)
    )


def _under(plan: Plan, at: int, low: int, high: int) -> Iterator[int]:
    """Yield the middles of bearers that a joist lies on."""
    for bearer in stand_of(plan).bearers:
        half, across = ceil_div(broad(bearer), 2), ticks(bearer.across_mm)
        within = ticks(bearer.start_mm) <= at <= ticks(bearer.end_mm)
        if within and low - half <= across <= high + half:
            yield across


def joists_rest_as_screened(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joist on less than two supports, or wider than any that is screened."""
    deck = deck_of(plan)
    asked = [
        (_widest([ticks(place_mm) for place_mm in beam.supports_mm], ticks(beam.length_mm)))
        for beam in strength_of(plan).beams
        if beam.kind == "joist"
    ]
    for joist in joists_of(plan):
        if len(joist.rests) < 2:
            message = "a joist rests on two supports"
            yield from same_count(joist.mark, message, len(joist.rests), 2, RAISED)
            continue
        rests = [at - joist.low for at in joist.rests]
        span, end = _widest(rests, joist.high - joist.low)
        if span > ticks(deck.joist_span_mm) or end > ticks(deck.joist_end_mm):
            message = "spans further, or reaches out further, than the plan tells"
            yield Flaw(subject=joist.mark, message=message, source=RAISED)
        if not any(span <= most and end <= far for most, far in asked):
            message = "no joist was screened that spans and reaches as far"
            yield Flaw(subject=joist.mark, message=message, source=STRENGTH)


def _widest(rests: list[int], length: int) -> tuple[int, int]:
    span = max((after - before for before, after in pairwise(rests)), default=0)
    return span, max(rests[0], length - rests[-1])


def bearers_carry_what_lies_on_them(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bearer that tells less than the joists over it bring by statics."""
    most: dict[int, list[tuple[int, int]]] = {}
    for joist in joists_of(plan):
        if len(joist.rests) > 1:
            low = min(joist.low, joist.rests[0])
            rests = [at - low for at in joist.rests]
            shares = carried_by(rests, max(joist.high, joist.rests[-1]) - low, "levered")
            for at, share in zip(joist.rests, shares, strict=True):
                most.setdefault(at, []).append((joist.at, int(share)))
    for bearer in stand_of(plan).bearers:
        start, end = ticks(bearer.start_mm), ticks(bearer.end_mm)
        over = most.get(ticks(bearer.across_mm), [])
        due = max((share for at, share in over if start <= at <= end), default=0)
        if ticks(bearer.carried_mm) < due - 1:
            message = "carries more than it tells"
            yield from same_length(bearer.mark, message, bearer.carried_mm, due, RAISED)


def edges_are_the_outlines(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless guards were looked for along every side of the outline, at the top."""
    guards, sides = guards_of(plan), outline_of(plan).sides
    message = "edges, one for each side"
    yield from same_count("guards.edges", message, len(guards.edges), len(sides), GUARDS)
    levels = plan.site.levels if plan.site is not None else None
    for edge, side in zip(guards.edges, sides, strict=False):
        yield from same_text(edge.mark, "not its side's mark", edge.mark, side.mark, GUARDS)
        if (place(edge.start), place(edge.end)) != (place(side.start), place(side.end)):
            message = "not along its side"
            yield Flaw(subject=edge.mark, message=message, source=GUARDS)
        kind = side.kind if side.kind in CLOSED else "open"
        yield from same_text(edge.mark, "not what its side is", edge.kind, kind, GUARDS)
        if levels is not None:
            top = ticks(levels.deck_top_mm)
            yield from same_length(edge.mark, "not the deck's top", edge.top_mm, top, GUARDS)


def ways_through_are_as_wide_as_steps(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless there is one way through guards for the steps, as wide, on its side."""
    guards, steps = guards_of(plan), plan.steps
    sides = {side.mark: side for side in outline_of(plan).sides}
    ways = [(edge, each) for edge in guards.edges for each in edge.passages]
    message = "ways through, one for the steps"
    yield from same_count("guards.edges", message, len(ways), int(steps is not None), GUARDS)
    for edge, way in ways:
        start, end = ticks(way.from_mm), ticks(way.to_mm)
        if steps is not None:
            wide, message = ticks(steps.width_mm), "not as wide as the steps"
            yield from same_length(edge.mark, message, way.to_mm - way.from_mm, wide, GUARDS)
        if edge.mark not in sides or not 0 <= start < end <= ticks(sides[edge.mark].length_mm):
            message = "a way through that is not along its side"
            yield Flaw(subject=edge.mark, message=message, source=GUARDS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-370", "what stands lies under its outline, in no opening",
     what_stands_lies_under_the_deck),
    ("AUD-371", "joists under an outline rest as they are screened", joists_rest_as_screened),
    ("AUD-372", "bearers under an outline tell no less than they carry",
     bearers_carry_what_lies_on_them),
    ("AUD-373", "edges looked at are the outline's sides", edges_are_the_outlines),
    ("AUD-374", "steps of an outline have one way through guards",
     ways_through_are_as_wide_as_steps),
)  # fmt: skip
