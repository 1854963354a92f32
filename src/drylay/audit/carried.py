"""What tiles lie on: joists under every joint, or pads under every corner."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from drylay.audit.edges import edges_of
from drylay.audit.exact import PER_MM, ceil_div, mark_of, ticks
from drylay.audit.flaws import (
    NothingToMeasure,
    conventions,
    need,
    off_by,
    same_count,
    same_half,
    same_length,
)
from drylay.audit.frame import frame_of
from drylay.audit.ground import room_under_the_frame
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import surface_of
from drylay.audit.supports import offsets, supports_of
from drylay.audit.tiles import Courses, columns_of, rows_of, tiling_of
from drylay.plan.model import Plan
from drylay.tiling.model import Bedding, Pads

FRAME = conventions("Tiles (tiling): on a frame")
PADS = conventions("Tiles (tiling): on pads")
#: A slab below tiles falls 1 in 80.
BASE_FALL = 1 / 80
#: A splice holds nothing that is shorter, in mm.
SPLICE_LEAST_MM = 150


def bedding_of(plan: Plan) -> Bedding:
    """Return how tiles lie on joists, if they do."""
    return need(tiling_of(plan).bedding, "tiles on a frame")


def pads_of(plan: Plan) -> Pads:
    """Return the pads under tiles, if they stand on any."""
    return need(tiling_of(plan).pads, "tiles on pads")


def carried_one_way(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless tiles lie on a frame, with bedding, or on pads, with neither."""
    tiling = tiling_of(plan)
    wanted = {"frame": (True, False), "pads": (False, True)}.get(tiling.support)
    if wanted != (tiling.bedding is not None, tiling.pads is not None):
        message = f"support {tiling.support!r} does not go with bedding and pads"
        yield Flaw(subject="tiling.support", message=message, source=FRAME)
    framed = (plan.supports, plan.frame, plan.fixings)
    if tiling.pads is not None and any(part is not None for part in framed):
        message = "on pads, and yet there is a frame"
        yield Flaw(subject="tiling.support", message=message, source=PADS)
    if tiling.pads is not None and edges_of(plan).faces:
        yield Flaw(subject="edges.faces", message="fascia on pads", source=PADS)
    if plan.pieces is not None:
        yield Flaw(subject="pieces", message="pieces of board under tiles", source=FRAME)


def _fixed_lines(plan: Plan) -> list[int]:
    """Return the lines that have to be there, in 1/320 mm, halves of that left out."""
    supports, edges, columns = supports_of(plan), edges_of(plan), columns_of(plan)
    start, thick = ticks(edges.frame_start_mm), ticks(supports.joist_thickness_mm)
    end = start + ticks(edges.frame_length_mm)
    joints = [
        (near + width + after) // 2
        for near, width, after in zip(
            columns.nears, columns.widths, columns.nears[1:], strict=False
        )
    ]
    first, last = start + thick // 2, end - thick + thick // 2
    return [first, *(joint for joint in joints if first < joint < last), last]


def lines_under_every_joint(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless a joist lies under each joint, with the fewest even bays between."""
    bedding, at, fixed = bedding_of(plan), offsets(plan), _fixed_lines(plan)
    module = ticks(tiling_of(plan).tile_length_mm) + ticks(surface_of(plan).gap_preferred_mm)
    most = need(ticks(supports_of(plan).most_centres_mm) or None, "limit of centres")
    count = 1 + sum(
        _bays(far - near, most, module, bedding.bays_per_tile) for near, far in pairwise(fixed)
    )
    message = "joist lines that joints and bays ask for"
    told = supports_of(plan).line_count
    yield from same_count("supports.line_count", message, told, count, FRAME)
    yield from same_count("supports.lines", message, len(at), count, FRAME)
    if len(at) == count:
        yield from _even(plan, at, fixed, most, module)


def _bays(apart: int, most: int, module: int, each: int) -> int:
    """Return the fewest bays between two lines that keep within the limit and a part of a tile."""
    return max(1, ceil_div(apart, most), ceil_div(apart * each, module))


def _even(
    plan: Plan, at: tuple[int, ...], fixed: list[int], most: int, module: int
) -> Iterator[Flaw]:
    each, mark, index = bedding_of(plan).bays_per_tile, mark_of(plan), 0
    for near, far in pairwise(fixed):
        bays = _bays(far - near, most, module, each)
        for part in range(bays):
            wanted = near + (far - near) * part // bays
            if 2 * abs(at[index] - wanted) > (mark if part else 0):
                subject = f"J{index + 1}"
                message = "not where joints and even bays put it"
                yield off_by(subject, message, at[index], wanted, FRAME)
            index += 1
    if at[index] != fixed[-1]:
        yield off_by(f"J{index + 1}", "not at the frame's end", at[index], fixed[-1], FRAME)


def joists_leave_room(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for joists or splices too near each other to be fixed, or too short to hold."""
    bedding_of(plan)
    least = 2 * ticks(supports_of(plan).joist_thickness_mm)
    for index, (near, far) in enumerate(pairwise(offsets(plan)), start=1):
        if far - near < least:
            message = "no room to drive a screw between"
            yield off_by(f"J{index}-J{index + 1}", message, far - near, least, FRAME)
    for splice in frame_of(plan).splices:
        if ticks(splice.length_mm) < ticks(SPLICE_LEAST_MM):
            message, length = "too short to hold a joint", ticks(splice.length_mm)
            yield off_by(splice.mark, message, length, ticks(SPLICE_LEAST_MM), FRAME)


def tiles_bear_on_joists(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless bearing and rests are those of the joists and rows."""
    bedding, supports = bedding_of(plan), supports_of(plan)
    left = ticks(supports.joist_thickness_mm) - ticks(surface_of(plan).gap_preferred_mm)
    message = "not half of what the joist leaves beside a joint"
    yield from same_half("tiling.bedding.bearing_mm", message, bedding.bearing_mm, left, FRAME)
    rests = len(offsets(plan)) * (len(surface_of(plan).rows) + 1)
    message = "not where joists cross joints and edges"
    yield from same_count("tiling.bedding.rests", message, bedding.rests, rests, FRAME)


def _lines(courses: Courses) -> list[int]:
    """Return the lines of a grid in one direction, in halves of 1/320 mm."""
    ends = [near + width for near, width in zip(courses.nears, courses.widths, strict=True)]
    inner = [end + after for end, after in zip(ends, courses.nears[1:], strict=False)]
    return [2 * courses.nears[0], *inner, 2 * ends[-1]]


def _between(courses: Courses, most: int) -> list[int]:
    """Return where pads stand between the corners of edges, in halves of 1/320 mm."""
    found = []
    for near, width in zip(courses.nears, courses.widths, strict=True):
        parts = ceil_div(width, most)
        found += [2 * near + 2 * width * part // parts for part in range(1, parts)]
    return found


def _pads_wanted(plan: Plan) -> Counter[tuple[str, int, int]]:
    """Return every pad that the conventions ask for, in halves of 1/320 mm."""
    pads, rows, columns = pads_of(plan), rows_of(plan), columns_of(plan)
    most = need(ticks(pads.at_edges_most_mm) or None, "spacing of pads")
    if not rows.nears or not columns.nears:
        raise NothingToMeasure("the plan has no grid")
    starts, nears = _lines(columns), _lines(rows)
    wanted = [("corner", start, near) for start in starts for near in nears]
    wanted += [("edge", start, near) for start in _between(columns, most) for near in nears]
    wanted += [("edge", start, near) for start in starts for near in _between(rows, most)]
    parts = pads.at_centre + 1
    wanted += [
        ("centre", 2 * start + 2 * length * part // parts, 2 * near + width)
        for start, length in zip(columns.nears, columns.widths, strict=True)
        for near, width in zip(rows.nears, rows.widths, strict=True)
        for part in range(1, parts)
    ]
    return Counter(wanted)


def pads_stand_in_the_grid(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pads are counted, and stand where corners, edges and middles are."""
    pads, wanted = pads_of(plan), _pads_wanted(plan)
    kinds = Counter(kind for kind, _, _ in wanted.elements())
    for name, kind in (("corners", "corner"), ("edges", "edge"), ("centres", "centre")):
        told = getattr(pads, name)
        message = "not as many as the grid asks"
        yield from same_count(f"tiling.pads.{name}", message, told, kinds[kind], PADS)
    for subject, told in (("tiling.pads.count", pads.count), ("tiling.pads.pads", len(pads.pads))):
        yield from same_count(subject, "not all pads", told, wanted.total(), PADS)
    left = [*wanted.elements()]
    places = {(kind, start // 2, near // 2) for kind, start, near in left}
    told_places = {(pad.kind, ticks(pad.start_mm), ticks(pad.across_mm)) for pad in pads.pads}
    for kind, start, near in sorted(told_places - places):
        message = f"a pad at {start / 320:g}, {near / 320:g} that no {kind} asks for"
        yield Flaw(subject="tiling.pads.pads", message=message, source=PADS)
    for kind, start, near in sorted(places - told_places):
        message = f"no pad at {start / 320:g}, {near / 320:g}, where a {kind} asks for one"
        yield Flaw(subject="tiling.pads.pads", message=message, source=PADS)


def pads_stay_inside(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each pad whose middle lies outside the cover."""
    surface = surface_of(plan)
    long, deep = ticks(surface.row_length_mm), ticks(surface.rows_depth_mm)
    for index, pad in enumerate(pads_of(plan).pads):
        if not (0 <= ticks(pad.start_mm) <= long and 0 <= ticks(pad.across_mm) <= deep):
            subject = f"tiling.pads.pads[{index}]"
            yield off_by(subject, "outside the cover", ticks(pad.start_mm), long, PADS)


def pads_fill_the_room(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pads reach over all the room between base and tiles."""
    pads, room = pads_of(plan), room_under_the_frame(plan)
    least, most = ticks(pads.reach_least_mm), ticks(pads.reach_most_mm)
    if pads.levels_known != (room is not None):
        message = "says otherwise than the site whether levels are known"
        yield Flaw(subject="tiling.pads.levels_known", message=message, source=PADS)
    heights, told = room or (least, least), (pads.height_least_mm, pads.height_most_mm)
    for name, found, wanted in zip(("least", "most"), told, heights, strict=True):
        message = "not what lies between base and tiles"
        yield from same_length(f"tiling.pads.height_{name}_mm", message, found, wanted, PADS)
    if pads.base_fall_ratio != BASE_FALL:
        yield Flaw(subject="tiling.pads.base_fall_ratio", message="not the base's fall",
                   measured=pads.base_fall_ratio, limit=BASE_FALL, unit="ratio",
                   source=PADS)  # fmt: skip
    yield from _base_falls(plan)
    known = room is not None and any(pad.height_mm is not None for pad in pads.pads)
    for index, pad in enumerate(pads.pads):
        inside = pad.height_mm is not None and heights[0] <= ticks(pad.height_mm) <= heights[1]
        if inside != known:
            yield Flaw(subject=f"tiling.pads.pads[{index}].height_mm", measured=pad.height_mm,
                       message="not between the lowest and the highest pads", unit="mm",
                       source=PADS)  # fmt: skip
    if not least <= heights[0] <= heights[1] <= most:
        beyond = heights[1] if heights[1] > most else heights[0]
        yield off_by("tiling.pads", "out of the pads' reach", beyond, most, PADS)


def _base_falls(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the base's fall is that of the ground under the cover."""
    pads, levels = pads_of(plan), plan.site.levels if plan.site else None
    away_mm = None if levels is None else levels.fall_to_house_mm
    wanted: dict[str, Fraction | None] = {"base_fall_mm": None, "base_measured_ratio": None}
    if away_mm is not None:
        deep = need(ticks(surface_of(plan).cover_across_mm) or None, "depth of the cover")
        falls = -ticks(away_mm)
        wanted = {"base_fall_mm": Fraction(falls, PER_MM),
                  "base_measured_ratio": Fraction(falls, deep)}  # fmt: skip
    for name, figure in wanted.items():
        told = getattr(pads, name)
        known = told is not None and figure is not None
        if known != (figure is not None) or (known and abs(told - float(figure or 0)) > 1e-9):
            yield Flaw(subject=f"tiling.pads.{name}", message="not the base's fall by its levels",
                       measured=told, limit=None if figure is None else float(figure),
                       source=PADS)  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-971", "tiles lie on a frame or on pads", carried_one_way),
    ("AUD-972", "a joist lies under every joint, with even bays between", lines_under_every_joint),
    ("AUD-973", "joists and splices under tiles leave room and hold", joists_leave_room),
    ("AUD-974", "tiles bear on their joists, every rest counted", tiles_bear_on_joists),
    ("AUD-975", "pads stand under corners, edges and middles", pads_stand_in_the_grid),
    ("AUD-976", "no pad stands outside the cover", pads_stay_inside),
    ("AUD-977", "pads fill the room between base and tiles", pads_fill_the_room),
)
