"""The witnessed audit of a deck on an outline: wishes of the brief, limits of their sources."""

from collections.abc import Iterator

from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import need, off_by, same_count, same_text
from drylay.audit.leaves import at
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.outlined import (
    DEGREES,
    OFF,
    SLACK,
    fault,
    laying_of,
    near,
    outline_of,
    outlines,
    place,
    run_at,
    shape,
    subframe_of,
)
from drylay.audit.outlined_doubles import double_screws_as_sold
from drylay.audit.outlined_fields import fields_as_wished
from drylay.audit.own_line import corners_on_line, middle_on_line, most_moved
from drylay.audit.plane import UNIT, box, sides_of, size, twice_area
from drylay.audit.ranking import LIMITS, given
from drylay.audit.reasons import same_value
from drylay.audit.shops import board_sizes, fascia_sizes, timber_sizes
from drylay.brief.model import Brief
from drylay.brief.outline_model import OpeningWish
from drylay.outline.model import Opening, Outline
from drylay.plan.model import Plan
from drylay.reasons import Scalar

#: What a tree does where the brief does not say: docs/brief.md, from memory.
GROWTH_A_YEAR_MM, SWAY_MM = 10.0, 50.0
BRIEF = outlines("Outline and Laying: the brief's own wish")
RULED = outlines("Laying and Frame: limits")

#: Limits of a deck on an outline, and where a rectangle has them: there families were asked.
RULED_AS = {
    "laying.gap_preferred_mm": "surface.gap_preferred_mm",
    "laying.gap_least_mm": "surface.gap_least_mm",
    "laying.gap_most_mm": "surface.gap_most_mm",
    "laying.sliver_limit_mm": "surface.sliver_limit_mm",
    "laying.least_rip_mm": "surface.least_rip_mm",
    "laying.fall_least_ratio": "surface.fall_least_ratio",
    "laying.combustible": "surface.combustible",
    "laying.timber": "surface.timber",
    "laying.wet_slip_least": "surface.wet_slip_least",
    "laying.end_gap_mm": "pieces.end_gap_mm",
    "laying.least_supports": "pieces.least_supports",
    "laying.stagger_bays": "pieces.stagger_bays",
    "laying.most_joints_per_row": "pieces.most_joints_per_row",
    "laying.end_bearing_least_mm": "pieces.end_bearing_least_mm",
    "laying.least_piece_mm": "pieces.least_piece_mm",
    "laying.handed": "pieces.handed",
    "subframe.joists_under_joint": "supports.joists_under_joint",
    "subframe.noggin_spacing_most_mm": "frame.noggin_spacing_most_mm",
}
CENTRES = "supports.most_centres_mm"


def _brief(witness: Witness) -> Brief:
    return need(witness.brief, "brief as witness")


def ruled(plan: Plan, path: str, witness: Witness) -> Scalar:
    """Return what a limit of an outline ought to be, None where the witnesses cannot tell."""
    for override in _brief(witness).overrides:
        if override.path == path:
            return override.value
    older = RULED_AS.get(path, CENTRES)
    limit = next(each for each in LIMITS if each.path == older)
    ought = given(plan, limit, witness)
    return None if ought is None else ought.value


def limits_as_ruled(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each limit that is not what the highest-ranking of its sources gives."""
    laying, subframe = laying_of(plan), subframe_of(plan)
    for path in RULED_AS:
        ought, told = ruled(plan, path, witness), at(plan, path)
        if path == "laying.gap_preferred_mm" and isinstance(ought, int | float):
            ought = min(max(ought, laying.gap_least_mm), laying.gap_most_mm)
        if ought is not None and not same_value(ought, told):
            yield fault(path, f"the plan tells {told}, its source gives {ought}", RULED)
    ought = ruled(plan, "subframe.most_centres_mm", witness)
    # a merchant's figure for square boards is brought down by the angle, to a whole mm or not
    whole = ticks(1)
    if isinstance(ought, int | float) and ticks(subframe.most_centres_mm) > ticks(ought) + whole:
        message = "more than its source gives for boards as they lie"
        found = ticks(subframe.most_centres_mm)
        yield off_by("subframe.most_centres_mm", message, found, ticks(ought), RULED)


def outline_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless corners, kinds of sides and fascia are the brief's points'."""
    wish, outline = _brief(witness).outline, outline_of(plan)
    points = need(wish.points or None, "outline told by points")
    if wish.wall:
        need(None, "outline without readings of the wall")
    corners = corners_on_line(points, plan)
    sides = [
        (one, other, point.side, point.faced)
        for (one, other), point in zip(sides_of(corners), points, strict=True)
    ]
    if twice_area(corners) < 0:  # told the other way round, each side runs the other way
        sides = [(other, one, kind, faced) for one, other, kind, faced in sides]
    told = {
        (place(side.start), place(side.end), side.kind, side.facing_mm > 0)
        for side in outline.sides
    }
    yield from same_count("outline.sides", "sides", len(outline.sides), len(sides), BRIEF)
    for number, side in enumerate(sides, 1):
        if side not in told:
            yield fault(f"point {number}", "no side of the outline is the one from here", BRIEF)
    moved = most_moved(points, plan) if outline.turned_deg else 0.0
    if abs(ticks(outline.moved_mm) - moved) > 1 + 1e-6:
        message = "not as far as corners were moved"
        yield off_by("outline.moved_mm", message, ticks(outline.moved_mm), moved, BRIEF)


def openings_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless openings are the brief's, with what stands in them where it stands."""
    wishes, openings = _brief(witness).outline.openings, outline_of(plan).openings
    yield from same_count("outline.openings", "openings", len(openings), len(wishes), BRIEF)
    for wish, opening in zip(wishes, openings, strict=False):
        yield from same_text(opening.mark, "not the kind wished", opening.kind, wish.kind, BRIEF)
        yield from same_text(opening.mark, "not the name wished", opening.name, wish.name, BRIEF)
        yield from _stands_there(wish, opening, outline_of(plan))


def _stands_there(wish: OpeningWish, opening: Opening, outline: Outline) -> Iterator[Flaw]:
    """Yield a flaw unless what stands in an opening has the size and the place wished."""
    along, across = (
        number / PER_MM for number in middle_on_line(wish.along_mm, wish.across_mm, outline)
    )  # fmt: skip
    left, near_, right, far = box(shape(opening.within))
    sizes = (wish.size_along_mm, wish.size_across_mm)
    if wish.kind == "tree":
        a_year = GROWTH_A_YEAR_MM if wish.growth_a_year_mm is None else wish.growth_a_year_mm
        sway = SWAY_MM if wish.sway_mm is None else wish.sway_mm
        wide = (wish.trunk_mm or 0.0) + a_year * (wish.years or 0) + 2 * sway
        sizes = (wide, wide)
    found = (
        ("along", right - left, sizes[0]), ("across", far - near_, sizes[1]),
        ("twice its middle along", right + left, 2 * along),
        ("twice its middle across", far + near_, 2 * across),
    )  # fmt: skip
    for name, told, wanted in found:
        if wanted is not None and size(told - ticks(wanted)) > 2 * OFF:
            message = f"what stands there is not as wished: {name}"
            yield off_by(opening.mark, message, float(told), ticks(wanted), BRIEF)


def _breakers_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless breaker boards lie where they were wished, and are none where unwished.

    Where nothing is said, boards whose ends may not share a joist have them as needed.
    """
    wish, laying = _brief(witness).laying, laying_of(plan)
    pieces = [piece for piece in laying.pieces if piece.kind == "breaker"]
    if wish.breakers_mm is None:
        if wish.breakers == "none" or (wish.breakers is None and _ends_may_share(plan)):
            message, found = "breaker boards that nobody wished", laying.breaker_count
            yield from same_count("laying.breaker_count", message, found, 0, BRIEF)
        return
    run, half = run_at(laying.angle_deg), ticks(laying.board_width_mm) / 2
    left = [ticks(at) for at in wish.breakers_mm]
    for piece in pieces:
        low, _, high, _ = (float(each) / UNIT for each in box(run.all_told(shape(piece.corners))))
        within = [at for at in map(ticks, wish.breakers_mm)
                  if at - half - SLACK <= low and high <= at + half + SLACK]  # fmt: skip
        if not within:
            yield fault(piece.mark, "no breaker board was wished there", BRIEF)
        left = [at for at in left if at not in within]
    message, found = "not the breaker boards wished", len(wish.breakers_mm) - len(left)
    yield from same_count("laying.breaker_count", message, found, len(wish.breakers_mm), BRIEF)


def laying_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless angle, border, breaker boards and articles are the brief's."""
    brief, laying = _brief(witness), laying_of(plan)
    wish = brief.laying
    angle = wish.angle_deg
    if angle is None:
        angle = 90.0 if brief.board.run == "across" else 0.0
    message = "not the angle wished"
    yield from near("laying.angle_deg", message, laying.angle_deg, angle, slack=DEGREES,
                    unit="degrees", source=BRIEF)  # fmt: skip
    message, found = "not the courses wished", laying.border_courses
    yield from same_count("laying.border_courses", message, found, wish.border_courses, BRIEF)
    yield from _breakers_as_wished(plan, witness)
    articles = (
        ("laying.board_article", laying.board_article, brief.board.article),
        ("subframe.timber_article", subframe_of(plan).timber_article, brief.frame.article),
        ("subframe.facing_article", subframe_of(plan).facing_article, brief.fascia.article),
    )
    for path, told, wanted in articles:
        if wanted and (told or path != "subframe.facing_article"):
            yield from same_text(path, "not the article wished", told, wanted, BRIEF)
    if brief.joints.price_each is not None and laying.joint_price != brief.joints.price_each:
        yield fault("laying.joint_price", "not the brief's price of a joint", BRIEF)


def _ends_may_share(plan: Plan) -> bool:
    """Whether two ends of boards may share a joist: else breaker boards are laid unasked."""
    return subframe_of(plan).joists_under_joint == 1


def outline_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless boards, timber and fascia have the sizes they are sold with."""
    brief, laying, subframe = _brief(witness), laying_of(plan), subframe_of(plan)
    sold = brief.board.measured_width_mm is None
    yield from board_sizes(plan, witness, laying.board_article, sold=sold)
    measured = brief.board.measured_width_mm
    if measured is not None and ticks(measured) != ticks(laying.board_width_mm):
        yield fault("laying.board_width_mm", "not the board's width as measured", BRIEF)
    yield from timber_sizes(plan, witness, subframe.timber_article)
    if subframe.facing_article:
        yield from fascia_sizes(plan, witness, subframe.facing_article)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W62", "limits of an outline are what their sources give", limits_as_ruled),
    ("AUD-W63", "sides are the brief's points", outline_as_wished),
    ("AUD-W64", "openings are the brief's, where things stand", openings_as_wished),
    ("AUD-W65", "angle, border, breaker boards and articles are the brief's", laying_as_wished),
    ("AUD-W97", "fields are the brief's, and run as wished", fields_as_wished),
    ("AUD-W96", "screws of doubles are the best on sale", double_screws_as_sold),
    ("AUD-W66", "boards, timber and fascia of an outline are as sold", outline_as_sold),
)
