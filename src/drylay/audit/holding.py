"""What holds noggins, splices and fascia, what joists hang in, metals and treatment."""

from collections.abc import Iterator

from drylay.audit.between import between, hung
from drylay.audit.edges import edges_of, ends_of
from drylay.audit.exact import ceil_div, ticks
from drylay.audit.fascia_places import places_of
from drylay.audit.fixings import (
    FAMILY,
    FIXINGS,
    GEOMETRY,
    coach_top,
    fixings_of,
    never_hung,
    of_the_first_schema,
    pilot,
)
from drylay.audit.flaws import conventions, need, off_by, same_count, same_length, same_text
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import pieces_of
from drylay.fixings.model import FasciaScrews, Fixings, FrameScrews, Hangers
from drylay.plan.model import Plan

HANGERS = conventions("Hangers")
DEPTH = conventions("Fascia and frame (edges)")
METALS = conventions("Metals and treatment")
TIMBERS, FASCIA, HUNG = "fixings.frame_screws", "fixings.fascia_screws", "fixings.hangers"
#: A hanger may be so far off its joist's thickness: 1 mm, by the conventions.
OFF = 320
#: Screws of a batten for each joint on it, by the conventions.
PER_BATTEN_JOINT = 3
#: How far a fascia stays clear of the ground: 10 mm, by the conventions.
CLEAR = 3200


def frame_screws(plan: Plan) -> FrameScrews:
    """Return the screws of noggins and splices, if the plan counts any."""
    return need(fixings_of(plan).frame_screws, "frame screws")


def fascia_screws(plan: Plan) -> FasciaScrews:
    """Return the fascia's screws, if the plan counts any."""
    return need(fixings_of(plan).fascia_screws, "fascia screws")


def hangers(plan: Plan) -> Hangers:
    """Return the hangers, if joists hang."""
    return need(fixings_of(plan).hangers, "hangers")


def frame_screws_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless frame screws are counted from noggins and splices."""
    screws, frame = frame_screws(plan), frame_of(plan)
    ends, sides = 2 * len(frame.noggins), 2 * len(frame.splices)
    message = "not both ends of every noggin"
    yield from same_count(f"{TIMBERS}.noggin_ends", message, screws.noggin_ends, ends, FIXINGS)
    message = "not both sides of every splice"
    yield from same_count(f"{TIMBERS}.splice_sides", message, screws.splice_sides, sides, FIXINGS)
    joints = len(pieces_of(plan).joints) if frame.batten_count is not None else None
    if screws.batten_joints != joints or (screws.per_batten_joint is None) != (joints is None):
        message = f"{screws.batten_joints} joints on battens, wanted {joints}"
        yield Flaw(subject=f"{TIMBERS}.batten_joints", message=message, source=FIXINGS)
    count = screws.per_noggin_end * ends + screws.per_splice_side * sides
    if joints is not None:
        least = PER_BATTEN_JOINT
        told, message = screws.per_batten_joint or 0, "not so many for each joint on a batten"
        yield from same_count(f"{TIMBERS}.per_batten_joint", message, told, least, FIXINGS)
        count += least * joints
    message = "not so many at each noggin's end and each splice's side"
    yield from same_count(f"{TIMBERS}.count", message, screws.count, count, FIXINGS)


def frame_screws_fit(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a frame screw is too short, or its pilot is not its ratio."""
    screws, subject = frame_screws(plan), f"{TIMBERS}.length_mm"
    length, least = ticks(screws.length_mm), ticks(screws.length_least_mm)
    if length < least:
        yield off_by(subject, "the screw is too short", length, least, FAMILY)
    if length <= thickness_of(plan):
        message = "the screw does not reach the second timber"
        yield off_by(subject, message, length, thickness_of(plan), GEOMETRY)
    yield from pilot("frame_screws", screws)


def fascia_screws_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless fascia screws are so many at each place."""
    screws = fascia_screws(plan)
    count = screws.per_place * len(screws.places)
    message = "not so many at each place"
    yield from same_count(f"{FASCIA}.count", message, screws.count, count, FIXINGS)


def fascia_screws_placed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece of fascia not screwed at the places the conventions give."""
    screws = fascia_screws(plan)
    told: dict[str, list[int]] = {}
    for place in screws.places:
        told.setdefault(place.fascia, []).append(ticks(place.offset_mm))
    wanted = places_of(plan, screws)
    for piece in sorted(told.keys() | wanted.keys()):
        found, right = told.get(piece, []), wanted.get(piece, [])
        subject = f"{FASCIA}.places: {piece}"
        if not right:
            message = "no place for screws keeps clear and close enough, or no such piece"
            yield Flaw(subject=subject, message=message, source=GEOMETRY)
        message = "not as many places as the spacing asks for"
        yield from same_count(subject, message, len(found), len(right), FIXINGS)
        for at, ought in zip(found, right, strict=False):
            if at != ought:
                message = "not the open mark nearest its even share"
                yield off_by(subject, message, at, ought, FIXINGS)


def places_in_order(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless places run piece by piece, as the pieces do, from the datum."""
    order = [piece.mark for face in edges_of(plan).faces for piece in face.pieces]
    told = [place.fascia for place in fascia_screws(plan).places]
    known = [mark for mark in told if mark in order]
    if known != sorted(known, key=order.index):
        message = "places are not in the order of the pieces"
        yield Flaw(subject=f"{FASCIA}.places", message=message, source=FIXINGS)


def fascia_screws_clear_heads(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless `clear_mm` is half a washer of three shanks and half the own shank."""
    screws, coach = fascia_screws(plan), fixings_of(plan).coach_screws
    wanted = ceil_div(3 * ticks(coach.shank_mm) + ticks(screws.shank_mm), 2)
    message = "not half a washer and half a shank"
    yield from same_length(f"{FASCIA}.clear_mm", message, screws.clear_mm, wanted, FIXINGS)


def fascia_screws_fit(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a fascia screw is too short, comes out behind, or its pilot is off."""
    screws, subject = fascia_screws(plan), f"{FASCIA}.length_mm"
    length, least = ticks(screws.length_mm), ticks(screws.length_least_mm)
    fascia = ticks(edges_of(plan).fascia_thickness_mm)
    wood = fascia + thickness_of(plan)
    if length < least:
        yield off_by(subject, "the screw is too short", length, least, FAMILY)
    if length <= fascia:
        yield off_by(subject, "the screw does not reach the frame", length, fascia, GEOMETRY)
    if length > wood:
        yield off_by(subject, "the screw comes out behind the frame", length, wood, GEOMETRY)
    lower, timber = ceil_div(3 * ticks(edges_of(plan).fascia_depth_mm), 4), _timber_depth(plan)
    if lower + ticks(screws.shank_mm) > timber:
        message = "the lower screws miss the frame"
        yield off_by("edges.fascia_depth_mm", message, lower, timber, FIXINGS)
    yield from pilot("fascia_screws", screws)


def _timber_depth(plan: Plan) -> int:
    return ticks(frame_of(plan).timber_depth_mm)


def _room(plan: Plan) -> int | None:
    """Return the least room under the frame: by levels, else by packers; None if unknown."""
    room = room_under_the_frame(plan)
    if room is not None:
        return room[0]
    packing = plan.groundwork.packing if plan.groundwork is not None else None
    return ticks(packing.height_least_mm) if packing is not None else None


def fascia_clears_the_ground(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a fascia reaches into a ground that is known."""
    edges = edges_of(plan)
    room = need(_room(plan) if edges.faces else 0, "levels nor packers")
    depth = ticks(edges.fascia_depth_mm)
    most = _timber_depth(plan) + room
    if edges.faces and depth > most:
        message = "in the ground"
        yield off_by("edges.fascia_depth_mm", message, depth, most, DEPTH)


def fascia_cautions_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each caution on a fascia's depth that the findings leave out."""
    edges, surface = edges_of(plan), need(plan.surface, "surface")
    coach, depth = fixings_of(plan).coach_screws, ticks(edges.fascia_depth_mm)
    # below the first centre: 4 shanks to each next, 1.5 of washer
    halves = 8 * (coach.per_joist_end - 1) + 3
    heads = coach_top(plan) + ceil_div(halves * ticks(coach.shank_mm), 2)
    ends = ends_of(surface.run)
    sides = {face.side for face in edges.faces}
    wanted = {
        "FAS-001": sides and depth > _timber_depth(plan) + (_room(plan) or 0) - CLEAR,
        "FAS-003": not hung(plan) and sides & {ends.near, ends.far} and depth < heads,
    }
    told = {finding.code for finding in plan.findings}
    for code in (code for code, holds in wanted.items() if holds and code not in told):
        yield Flaw(subject=code, message="not among the findings", source=DEPTH)


def hangers_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every joist but the outer two and pairs hangs at both ends."""
    hung, joists = hangers(plan), len(frame_of(plan).joists)
    ends = 2 * (joists - len(never_hung(plan))) * len(between(plan))
    message = "not both ends of every joist but the outer two and pairs"
    yield from same_count(f"{HUNG}.count", message, hung.count, ends, HANGERS)
    message = "not so many screws for each hanger"
    count = hung.count * hung.screws_each
    yield from same_count(f"{HUNG}.screw_count", message, hung.screw_count, count, HANGERS)


def hangers_take_the_joist(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the hanger is not as wide as the joist, too shallow or too deep."""
    hung, thickness = hangers(plan), thickness_of(plan)
    depth, timber = ticks(hung.depth_mm), ticks(frame_of(plan).timber_depth_mm)
    least = ceil_div(3 * timber, 5)
    message = "not three fifths of the joist's depth"
    yield from same_length(f"{HUNG}.depth_least_mm", message, hung.depth_least_mm, least, HANGERS)
    if abs(ticks(hung.joist_mm) - thickness) > OFF:
        message = "not as wide as the joist is thick"
        yield off_by(f"{HUNG}.joist_mm", message, ticks(hung.joist_mm), thickness, HANGERS)
    if not least <= depth <= timber:
        message = "holds too little of the joist, or is deeper than it"
        yield off_by(f"{HUNG}.depth_mm", message, depth, least, HANGERS)
    if not 0 < ticks(hung.screw_length_mm) <= thickness:
        message = "its screws come out of rim and joist"
        length = ticks(hung.screw_length_mm)
        yield off_by(f"{HUNG}.screw_length_mm", message, length, thickness, HANGERS)


def metals_of_all_fixings(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each fixing has its row of metals, and none that is not allowed."""
    fixings = fixings_of(plan)
    need(None if of_the_first_schema(plan) else True, "metals, as plans of the first schema")
    told, wanted = [(metal.what, metal.article) for metal in fixings.metals], _articles(plan)
    caps = fixings.end_caps
    of_metal = [*wanted, ("end caps", caps.article)] if caps is not None else wanted
    if told not in (wanted, of_metal):
        message = "not one row for each fixing, in order"
        yield Flaw(subject="fixings.metals", message=message, source=METALS)
    for index, metal in enumerate(fixings.metals):
        if not metal.metal.strip():
            message = "of no metal"
            yield Flaw(subject=f"fixings.metals[{index}]", message=message, source=METALS)
        if not metal.allowed:
            message = f"{metal.metal} is not allowed here, and nothing stops the plan"
            yield Flaw(subject=f"fixings.metals[{index}]", message=message, source=METALS)


#: What each fixing is driven into by the conventions, but for hangers and theirs.
INTO = {
    "deck screws": "board", "border screws": "board", "clips": "board", "starter clips": "board",
    "end caps": "board", "coach screws": "frame", "frame screws": "frame",
    "screws of doubles": "frame", "fascia screws": "fascia",
}  # fmt: skip


def into_of(plan: Plan, what: str) -> str:
    """Return what a fixing is driven into: a hanger no lower than its joist touches boards."""
    hung = fixings_of(plan).hangers
    reaches = hung is not None and ticks(hung.depth_mm) >= _timber_depth(plan)
    return INTO.get(what, "board" if reaches else "frame")


def metals_tell_what_holds_them(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each fixing told to be driven into something else than it is."""
    metals = fixings_of(plan).metals
    need(metals if any(metal.driven_into for metal in metals) else None, "what fixings go into")
    for index, metal in enumerate(metals):
        subject, wanted = f"fixings.metals[{index}].driven_into", into_of(plan, metal.what)
        message = "not what the fixing goes into"
        yield from same_text(subject, message, metal.driven_into, wanted, METALS)


def _articles(plan: Plan) -> list[tuple[str, str]]:
    """Return what each fixing is for, and its article, in the order of the conventions."""
    fixings = fixings_of(plan)
    found = []
    if fixings.deck_screws is not None:
        found.append(("deck screws", fixings.deck_screws.article))
    if fixings.border_screws is not None:
        found.append(("border screws", fixings.border_screws.article))
    if not hung(plan):
        found.append(("coach screws", fixings.coach_screws.article))
    if fixings.frame_screws is not None:
        found.append(("frame screws", fixings.frame_screws.article))
    if fixings.double_screws is not None:
        found.append(("screws of doubles", fixings.double_screws.article))
    if fixings.fascia_screws is not None:
        found.append(("fascia screws", fixings.fascia_screws.article))
    if fixings.hangers is not None:
        found.append(("hangers", fixings.hangers.article))
        found.append(("hanger screws", fixings.hangers.screw))
    if fixings.clips is not None:
        found.append(("clips", fixings.clips.article))
        if fixings.clips.starter_article:
            found.append(("starter clips", fixings.clips.starter_article))
    return found


def timber_is_treated(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless boards, frame timber and fascia have their row, of class enough."""
    fixings, edges = fixings_of(plan), edges_of(plan)
    need(None if of_the_first_schema(plan) else True, "use classes, as plans of the first schema")
    surface = need(plan.surface, "surface")
    wanted = [] if plan.tiling is not None else [("deck boards", surface.board_article)]
    wanted += [("border boards", surface.border.article)] if surface.border else []
    wanted.append(("frame timber", frame_of(plan).timber_article))
    wanted += [("fascia", edges.fascia_article)] if edges.faces else []
    if [(row.what, row.article) for row in fixings.use_classes] != wanted:
        message = "not one row for boards, frame timber and fascia, in order"
        yield Flaw(subject="fixings.use_classes", message=message, source=METALS)
    for row in fixings.use_classes:
        least = least_class(fixings, row.what)
        if row.use_class is not None and row.use_class < need(least, "least use class"):
            yield Flaw(
                subject=f"fixings.use_classes: {row.what}",
                message="treated for too low a use class",
                measured=row.use_class,
                limit=least,
                source=FAMILY,
            )


def least_class(fixings: Fixings, what: str) -> int | None:
    """Return the least use class that holds for a timber, boards and fascia alike."""
    leasts = {
        "frame timber": fixings.frame_use_class_least,
        "border boards": fixings.border_use_class_least,
    }
    return leasts.get(what, fixings.board_use_class_least)


def unknown_treatment_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each timber of unknown use class that no finding tells of."""
    told = {finding.subject for finding in plan.findings if finding.code == "MAT-006"}
    fixings = fixings_of(plan)
    for row in fixings.use_classes:
        least = least_class(fixings, row.what)
        asked = least is None or least > 1  # class 1 asks for no treatment
        if (asked and row.use_class is None) != (row.what in told):
            message = "its use class is unknown, and no finding tells" if row.what not in told \
                else "its use class is known, and a finding says otherwise"  # fmt: skip
            yield Flaw(subject=f"fixings.use_classes: {row.what}", message=message, source=METALS)


def articles_are_named(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each fixing here without an article, a size or a count."""
    fixings = fixings_of(plan)
    for name in ("frame_screws", "fascia_screws", "hangers"):
        part = getattr(fixings, name)
        if part is not None and not part.article.strip():
            yield Flaw(subject=f"fixings.{name}", message="no article", source=FIXINGS)
    sizes: list[tuple[str, float]] = []
    if (frame := fixings.frame_screws) is not None:
        sizes += [(f"{TIMBERS}.per_noggin_end", frame.per_noggin_end)]
        sizes += [(f"{TIMBERS}.per_splice_side", frame.per_splice_side)]
    if (fascia := fixings.fascia_screws) is not None:
        sizes += [(f"{FASCIA}.per_place", fascia.per_place)]
        sizes += [(f"{FASCIA}.spacing_most_mm", fascia.spacing_most_mm)]
    if (hung := fixings.hangers) is not None:
        sizes += [(f"{HUNG}.screws_each", hung.screws_each), (f"{HUNG}.count", hung.count)]
    for subject, value in sizes:
        if value <= 0:
            message = "must be above nothing"
            yield Flaw(subject=subject, message=message, measured=value, limit=0, source=FIXINGS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-621", "frame screws are counted from noggins and splices", frame_screws_counted),
    ("AUD-622", "frame screws are long enough, their pilots their ratio", frame_screws_fit),
    ("AUD-623", "fascia screws are counted from their places", fascia_screws_counted),
    ("AUD-624", "places of fascia screws are even, close enough and clear", fascia_screws_placed),
    ("AUD-625", "places of fascia screws run in the order of the pieces", places_in_order),
    ("AUD-626", "fascia screws keep clear of coach screws' heads", fascia_screws_clear_heads),
    ("AUD-627", "fascia screws are long enough and end in the frame", fascia_screws_fit),
    ("AUD-628", "hangers and their screws are counted from inner joists", hangers_counted),
    ("AUD-629", "hangers take the joist", hangers_take_the_joist),
    ("AUD-630", "every fixing has a metal, and one that is allowed", metals_of_all_fixings),
    ("AUD-631", "timber is treated for its use class", timber_is_treated),
    ("AUD-632", "an unknown use class is told", unknown_treatment_is_told),
    ("AUD-633", "fixings of frame, fascia and joists have an article and a count",
     articles_are_named),
    ("AUD-634", "a fascia does not reach into the ground", fascia_clears_the_ground),
    ("AUD-635", "cautions on a fascia's depth stand among the findings", fascia_cautions_are_told),
    ("AUD-636", "every metal tells what its fixing is driven into", metals_tell_what_holds_them),
)  # fmt: skip
