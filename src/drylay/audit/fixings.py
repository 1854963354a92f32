"""Fixings: counted again from rows, joists and joints; long enough, and where they fit."""

from collections.abc import Iterator

from attrs import frozen

from drylay.audit.between import hung
from drylay.audit.edged import border_rows, field_rows, thickest
from drylay.audit.edges import edges_of, ends_of, thickness_at
from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import (
    NothingToMeasure,
    conventions,
    need,
    off_by,
    practice,
    same_count,
    same_length,
)
from drylay.audit.frame import frame_of, thickness_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import pieces_of, sets_of
from drylay.audit.rows import surface_of
from drylay.audit.supports import paired, supports_of
from drylay.fixings.model import (
    BorderScrews,
    CoachScrews,
    DeckScrews,
    DoubleScrews,
    FasciaScrews,
    Fixings,
    FrameScrews,
)
from drylay.plan.model import Plan
from drylay.surface.model import Row

FIXINGS = conventions("Fixings")
GEOMETRY = conventions("Fixings: what fits into what")
#: A coach screw's middle is so many shanks from the rim's edges, and from the next.
EDGE_SHANKS = 4
FAMILY = practice("the family's limit, quoted in the plan")


def fixings_of(plan: Plan) -> Fixings:
    """Return the plan's fixings, if it has any."""
    return need(plan.fixings, "fixings")


def deck_screws(plan: Plan) -> DeckScrews:
    """Return the plan's deck screws, if it has fixings."""
    return need(need(plan.fixings, "fixings").deck_screws, "deck screws")


def coach_screws(plan: Plan) -> CoachScrews:
    """Return the plan's coach screws, if it has fixings."""
    return need(plan.fixings, "fixings").coach_screws


def _driven(plan: Plan) -> CoachScrews:
    """Return the coach screws, if any are driven: none are between bearers."""
    return need(None if hung(plan) else coach_screws(plan), "coach screws in joists' ends")


@frozen(kw_only=True)
class BoardScrews:
    """What holds the boards of field or border: where the plan tells it, which rows, how thick."""

    path: str
    screws: DeckScrews | BorderScrews
    rows: tuple[Row, ...]
    thickness: int

    @property
    def shank(self) -> int:
        """What two screws side by side take of a row besides their distances from its edges."""
        return ticks(self.screws.shank_mm) if self.screws.per_crossing > 1 else 0


def board_screws(plan: Plan) -> tuple[BoardScrews, ...]:
    """Return what holds the field's boards, and the border's where there is one."""
    surface, fixings = surface_of(plan), fixings_of(plan)
    field = BoardScrews(
        path="fixings.deck_screws",
        screws=deck_screws(plan),
        rows=field_rows(surface),
        thickness=ticks(surface.board_thickness_mm),
    )
    if surface.border is None:
        return (field,)
    border = BoardScrews(
        path="fixings.border_screws",
        screws=need(fixings.border_screws, "screws of the border"),
        rows=border_rows(surface),
        thickness=ticks(surface.border.thickness_mm),
    )
    return (field, border)


def screws_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless crossings, joints and deck screws are those of the deck.

    Where clips hold the boards, those of the last row: its joists, and battens it is jointed on.
    """
    clipped = fixings_of(plan).clips is not None
    for held in board_screws(plan):
        screws, at = held.screws, held.path
        crossings, joints = _in_the_last_row(plan) if clipped else _crossed(plan, held.rows)
        message = "not rows x joists"
        yield from same_count(f"{at}.crossings", message, screws.crossings, crossings, FIXINGS)
        message = "not the butt joints"
        yield from same_count(f"{at}.joints", message, screws.joints, joints, FIXINGS)
        message = "not so many at each crossing and joint"
        count = screws.per_crossing * (crossings + joints)
        yield from same_count(f"{at}.count", message, screws.count, count, FIXINGS)


def _crossed(plan: Plan, rows: tuple[Row, ...]) -> tuple[int, int]:
    """Return at how many joists rows lie, a pair counted once, and how many joints they have."""
    joists, marks = len(frame_of(plan).joists), {row.mark for row in rows}
    bearers = joists - (len(supports_of(plan).seams) if paired(plan) else 0)
    joints = sum(joint.row in marks for joint in pieces_of(plan).joints)
    return len(rows) * bearers, joints


def _in_the_last_row(plan: Plan) -> tuple[int, int]:
    """Return at how many places a last row is screwed whose boards clips hold, and no joints."""
    rows = surface_of(plan).rows
    last = [j for j in pieces_of(plan).joints if rows and j.row == rows[-1].mark]
    extra = sum(bool(joint.beside) for joint in last if not paired(plan))
    return len(frame_of(plan).joists) + extra, 0


def screws_long_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the deck screw is shorter than its limit, or than the board."""
    thick = thickest(surface_of(plan))
    for held in board_screws(plan):
        packed = thick - held.thickness
        length, least = ticks(held.screws.length_mm), ticks(held.screws.length_least_mm) + packed
        subject = f"{held.path}.length_mm"
        if length < least:
            yield off_by(subject, "the screw is too short", length, least, FAMILY)
        if length <= thick:
            yield off_by(subject, "the screw does not reach the joist", length, thick, GEOMETRY)


def screws_end_in_the_joist(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the deck screw comes out below the joist."""
    wood = thickest(surface_of(plan)) + ticks(frame_of(plan).timber_depth_mm)
    for held in board_screws(plan):
        length = ticks(held.screws.length_mm)
        if length > wood:
            message = "the screw comes out below the joist"
            yield off_by(f"{held.path}.length_mm", message, length, wood, GEOMETRY)


def screws_fit_the_board(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each row too narrow for screws at their edge distance."""
    for held in board_screws(plan):
        edges, shank = 2 * ticks(held.screws.edge_least_mm), held.shank
        for row in held.rows:
            if ticks(row.width_mm) < edges + shank:
                message = "too narrow for its screws at their distance from the edge"
                yield off_by(row.mark, message, ticks(row.width_mm), edges + shank, GEOMETRY)


def screws_hit_the_joist(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where screws at their end distance would miss the joist under a joint."""
    for held, (_, limits) in zip(board_screws(plan), sets_of(plan), strict=False):
        bearing, end = ticks(limits.end_bearing_mm), ticks(held.screws.end_least_mm)
        if limits.joint_count and end >= bearing:
            message = "so far from the board's end the screw misses the joist"
            yield off_by(f"{held.path}.end_least_mm", message, end, bearing, GEOMETRY)


def pilot_is_its_ratio(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each pilot hole is the ratio of its shank, and no thicker than it."""
    fixings = fixings_of(plan)
    if fixings.deck_screws is not None:
        yield from pilot("deck_screws", fixings.deck_screws)
    if fixings.border_screws is not None:
        yield from pilot("border_screws", fixings.border_screws)
    yield from pilot("coach_screws", fixings.coach_screws, older=of_the_first_schema(plan))


def of_the_first_schema(plan: Plan) -> bool:
    """Return whether a plan tells nothing of metals, classes and coach pilots: it knew none."""
    fixings = fixings_of(plan)
    told = (*fixings.metals, *fixings.use_classes)
    least = (fixings.board_use_class_least, fixings.frame_use_class_least)
    return not told and least == (None, None) and fixings.coach_screws.pilot_ratio is None


def _unless_older(
    name: str, ratio: float | None, told: float | None, *, older: bool
) -> Iterator[Flaw]:
    if not older or ratio is not None or told is not None:
        message = "no pilot is told"
        yield Flaw(subject=f"fixings.{name}.pilot_mm", message=message, source=FIXINGS)


def pilot(
    name: str,
    screws: DeckScrews | BorderScrews | CoachScrews | FrameScrews | DoubleScrews | FasciaScrews,
    *,
    older: bool = False,
) -> Iterator[Flaw]:
    """Yield a flaw unless a pilot hole is the ratio of the shank, and no thicker than it."""
    ratio, told = screws.pilot_ratio, screws.pilot_mm
    if ratio is None or told is None:
        yield from _unless_older(name, ratio, told, older=older)
        return
    wanted = ratio * screws.shank_mm
    if abs(told - wanted) > 0.051 or not 0 <= told <= screws.shank_mm:
        yield Flaw(
            subject=f"fixings.{name}.pilot_mm",
            message="not the shank times the pilot's ratio",
            measured=told,
            limit=wanted,
            unit="mm",
            source=FIXINGS,
        )


def never_hung(plan: Plan) -> set[str]:
    """Return the joists that stay on coach screws: the outer two, and those of pairs.

    None where all hang between bearers.
    """
    if hung(plan):
        return set()
    joists, supports = frame_of(plan).joists, supports_of(plan)
    outer = {joists[0].mark, joists[-1].mark} if joists else set()
    seams = supports.seams if paired(plan) else ()
    return outer | {mark for seam in seams for mark in (seam.left, seam.right)}


def coach_screws_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every joist's end has coach screws; just those that do not hang."""
    screws, joists = coach_screws(plan), len(frame_of(plan).joists)
    ends = 2 * joists if fixings_of(plan).hangers is None else 2 * len(never_hung(plan))
    at, message = "fixings.coach_screws", "not both ends of every joist that does not hang"
    yield from same_count(f"{at}.joist_ends", message, screws.joist_ends, ends, FIXINGS)
    message = "not so many at each joist end"
    yield from same_count(
        f"{at}.count", message, screws.count, screws.per_joist_end * ends, FIXINGS
    )


def coach_screws_long_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the coach screw is shorter than its limit, or than the rim."""
    screws, rim = _driven(plan), thickness_of(plan)
    length, least = ticks(screws.length_mm), ticks(screws.length_least_mm)
    subject = "fixings.coach_screws.length_mm"
    if length < least:
        yield off_by(subject, "the coach screw is too short", length, least, FAMILY)
    if length <= rim:
        yield off_by(subject, "the coach screw does not reach the joist", length, rim, GEOMETRY)


def heads_below_the_fascia(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a fascia would sit on a coach screw's head, or a head is sunk idly."""
    screws, edges = _driven(plan), edges_of(plan)
    ends = ends_of(surface_of(plan).run)
    covered = thickness_at(edges, ends.near) + thickness_at(edges, ends.far) > 0
    sink, head = ticks(screws.sink_mm), ticks(screws.head_mm)
    subject = "fixings.coach_screws.sink_mm"
    if covered and sink < head:
        yield off_by(subject, "the heads stand proud under the fascia", sink, head, GEOMETRY)
    if not covered and sink:
        yield off_by(subject, "sunk where no rim carries a fascia", sink, 0, FIXINGS)
    if sink >= thickness_of(plan):
        yield off_by(subject, "sunk through the rim", sink, thickness_of(plan), GEOMETRY)


#: How far inside the frame's face a screw stands at least, by the conventions: 10 mm.
INSIDE_FACE = 10 * PER_MM


def outer_rows_over_the_frame(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each outer row beside a fascia without room for its screws over timber."""
    surface, edges, held = surface_of(plan), edges_of(plan), board_screws(plan)[-1]
    ends = ends_of(surface.run)
    if not thickness_at(edges, ends.near) + thickness_at(edges, ends.far):
        return
    near = ticks(edges.frame_near_mm)
    far = near + ticks(edges.frame_depth_mm)
    room = INSIDE_FACE + ticks(held.screws.edge_least_mm) + held.shank
    for row in need(surface.rows or None, "rows")[:: max(len(surface.rows) - 1, 1)]:
        start = ticks(row.near_mm)
        over = min(start + ticks(row.width_mm), far) - max(start, near)
        if over < room:
            message = "lies too little over the frame for its screws"
            yield off_by(row.mark, message, over, room, GEOMETRY)


def coach_screws_do_not_meet(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where coach screws from both ends of a joist reach each other."""
    screws, edges, rim = _driven(plan), edges_of(plan), thickness_of(plan)
    ends = ends_of(surface_of(plan).run)
    reach = 0
    for side in (ends.near, ends.far):
        sunk = ticks(screws.sink_mm) if thickness_at(edges, side) else 0
        reach += max(ticks(screws.length_mm) - rim + sunk, 0)
    joists = need(frame_of(plan).joists or None, "joists")
    shortest = min(ticks(joist.length_mm) for joist in joists)
    if reach > shortest:
        message = "those from both ends meet in the joist"
        yield off_by("fixings.coach_screws.length_mm", message, reach, shortest, GEOMETRY)


def fixings_have_a_size(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each size or count of a fixing that is not above nothing."""
    coach = coach_screws(plan)
    least = {
        **_sizes(plan),
        "fixings.coach_screws.shank_mm": coach.shank_mm,
        "fixings.coach_screws.per_joist_end": coach.per_joist_end,
        "fixings.coach_screws.head_mm": coach.head_mm,
    }
    for subject, value in least.items():
        clipped = subject.endswith("deck_screws.per_crossing") and fixings_of(plan).clips
        if value < 0 or (value == 0 and not clipped):
            message = "must be above nothing"
            yield Flaw(subject=subject, message=message, measured=value, limit=0, source=FIXINGS)


def _sizes(plan: Plan) -> dict[str, float]:
    """Return sizes and counts of the screws of boards, by path; tiles have none."""
    return {} if fixings_of(plan).deck_screws is None else {
        f"{held.path}.{name}": getattr(held.screws, name)
        for held in board_screws(plan)
        for name in ("shank_mm", "per_crossing")
    }  # fmt: skip


def coach_top(plan: Plan) -> int:
    """Return how far below a rim's top coach screws stand at least: clear of edge and screws."""
    fixings, surface = fixings_of(plan), surface_of(plan)
    shank, outer = ticks(coach_screws(plan).shank_mm), fixings.border_screws or fixings.deck_screws
    reach = max(0, ticks(outer.length_mm) - thickest(surface)) if outer else 0
    return max(EDGE_SHANKS * shank, reach + shank)


def coach_screws_clear_edges(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless coach screws are told clear of a rim's edges, and cautioned where not."""
    screws, depth = _driven(plan), ticks(frame_of(plan).timber_depth_mm)
    edge, top = EDGE_SHANKS * ticks(screws.shank_mm), coach_top(plan)
    at, told = "fixings.coach_screws", (screws.edge_least_mm, screws.top_least_mm)
    if told == (None, None):
        raise NothingToMeasure("an older plan, which left heights of coach screws to the builder")
    for name, found, wanted in zip(("edge", "top"), told, (edge, top), strict=True):
        message = "not clear of the rim's edge, or of what comes down from above"
        yield from same_length(f"{at}.{name}_least_mm", message, found or 0.0, wanted, FIXINGS)
    shallow = top + screws.per_joist_end * edge > depth
    if shallow != any(finding.code == "FIX-025" for finding in plan.findings):
        message = "not among the findings" if shallow else "among the findings for nothing"
        yield Flaw(subject="FIX-025", message=message, source=FIXINGS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-601", "deck screws are counted from crossings and joints", screws_counted),
    ("AUD-602", "deck screws are long enough", screws_long_enough),
    ("AUD-603", "deck screws end in the joist", screws_end_in_the_joist),
    ("AUD-604", "rows are wide enough for screws at their edge distance", screws_fit_the_board),
    ("AUD-605", "screws at their end distance still hit the joist", screws_hit_the_joist),
    ("AUD-606", "pilots of deck and coach screws are their ratio of the shank", pilot_is_its_ratio),
    ("AUD-607", "coach screws are counted from joist ends", coach_screws_counted),
    ("AUD-608", "coach screws are long enough", coach_screws_long_enough),
    ("AUD-609", "heads lie below the fascia", heads_below_the_fascia),
    ("AUD-611", "outer rows have room for their screws over the frame", outer_rows_over_the_frame),
    ("AUD-612", "coach screws from both ends do not meet", coach_screws_do_not_meet),
    ("AUD-618", "coach screws stand clear of a rim's edges", coach_screws_clear_edges),
    ("AUD-610", "every fixing has a size and a count", fixings_have_a_size),
)
