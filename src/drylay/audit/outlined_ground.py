"""The ground under an outline: dig, roots, fabric and packers, measured again slab by slab."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, dist, hypot, pi, sin, sqrt

from drylay.audit.exact import PER_MM, ceil_div, mm, ticks
from drylay.audit.flaws import need, off_by, same_count, same_text
from drylay.audit.ground import dig_of, ground_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import fault, near, outline_of, outlines, place, subframe_of
from drylay.audit.site import levels_of
from drylay.audit.slabs import Flat, Trapezoid, area, reaches, trapezoids, turned
from drylay.groundwork.model import Dig, Fabric, Packing, RootZone
from drylay.outline.model import Side, Spot
from drylay.plan.model import Plan
from drylay.subframe.model import Member

GROUND = outlines("Ground, site and work: ground")
#: Roots reach 12 stem diameters, over no more than 707 m2 (BS 5837), as a shape of 64 corners.
STEMS, MOST_M2, CORNERS = 12, 707, 64
#: How far a place may be off for its rounding, and what is measured between two such, in 1/320 mm.
OFF, LONG_OFF = 2, 4
#: Sides that no dig reaches beyond.
UNDUG = {"boundary", "pool"}
#: What stands on packers.
CARRIED = {"joist", "pair", "rim", "trimmer", "double"}
#: A packer carries what is no more thicknesses off it than this, an end no more than that.
BESIDE, AT_END = 1, 2


def outlined_dig(plan: Plan) -> Dig:
    """Return the dig under an outline, if the plan has one."""
    outline_of(plan)
    return dig_of(plan)


def margin_of(dig: Dig, side: Side) -> int:
    """Return how far beyond a side is dug."""
    if side.kind == "house":
        return ticks(dig.house_margin_mm)
    return 0 if side.kind in UNDUG else ticks(dig.margin_mm)


def grown(plan: Plan, dig: Dig) -> list[tuple[Flat, ...]]:
    """Return shapes that together are the outline and its margins."""
    sides = outline_of(plan).sides
    ring = [place(side.start) for side in sides]
    found: list[tuple[Flat, ...]] = [tuple(ring)]
    outer = []
    for index, side in enumerate(sides):
        (ax, ay), (bx, by) = ring[index], ring[(index + 1) % len(ring)]
        long, out = hypot(bx - ax, by - ay), margin_of(dig, side)
        dx, dy = (by - ay) / long * out, -(bx - ax) / long * out
        outer.append(((ax + dx, ay + dy), (bx + dx, by + dy)))
        found.append(((ax, ay), outer[-1][0], outer[-1][1], (bx, by)))
    for index, corner in enumerate(ring):
        after = ring[(index + 1) % len(ring)]
        found += _at_corner(ring[index - 1], corner, after, outer[index - 1], outer[index])
    return found


def _at_corner(
    before: Flat, corner: Flat, after: Flat, one: tuple[Flat, Flat], two: tuple[Flat, Flat]
) -> list[tuple[Flat, ...]]:
    """Return what lies between two margins where an outline turns round a corner."""
    first = (corner[0] - before[0], corner[1] - before[1])
    second = (after[0] - corner[0], after[1] - corner[1])
    bend = first[0] * second[1] - first[1] * second[0]
    if bend <= 0:
        return []
    (px, py), (qx, qy) = one[1], two[0]
    share = ((qx - px) * second[1] - (qy - py) * second[0]) / bend
    back = ((qx - px) * first[1] - (qy - py) * first[0]) / bend
    met = ((px + share * first[0], py + share * first[1]),)
    on = share >= -1e-9 and back <= 1e-9
    return [(corner, one[1], *(met if on else ()), two[0])]


def round_it(zone: RootZone) -> tuple[Flat, ...]:
    """Return the shape of 64 corners that goes just round a root zone."""
    reach = ticks(zone.radius_mm) / cos(pi / CORNERS)
    x, y = place(zone.middle)
    turns = [pi / CORNERS * (2 * step + 1) for step in range(CORNERS)]
    return tuple((x + reach * cos(turn), y + reach * sin(turn)) for turn in turns)


def water(plan: Plan) -> list[tuple[Flat, ...]]:
    """Return the water of pools in the deck."""
    pools = [each for each in outline_of(plan).openings if each.kind == "pool"]
    return [tuple(place(spot) for spot in pool.within) for pool in pools]


def _m2(ticks2: float) -> float:
    return ticks2 / PER_MM**2 / 1e6


def dig_is_outline_and_margins(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the dig is the outline with its margins, less roots and pools."""
    dig = outlined_dig(plan)
    told_m2 = need(dig.area_m2, "area of the dig")
    shapes, pools = grown(plan, dig), water(plan)
    zones = [round_it(zone) for zone in dig.roots]
    found = _m2(area(trapezoids(shapes, [*pools, *zones])))
    slack = outline_of(plan).perimeter_mm * LONG_OFF / PER_MM / 1e6 + 2e-6
    yield from near("groundwork.dig.area_m2", "not the outline and its margins", told_m2, found,
                    slack=slack, unit="m2", source=GROUND)  # fmt: skip
    if dig.roots:
        left = _m2(area(trapezoids(shapes, pools))) - found
        yield from near("groundwork.dig.roots_m2", "not what roots keep of it",
                        dig.roots_m2 or 0.0, left, slack=slack, unit="m2",
                        source=GROUND)  # fmt: skip
    for name, axis, long_mm in (("along", 0, dig.along_mm), ("across", 1, dig.across_mm)):
        ends = [corner[axis] for ring in shapes for corner in ring]
        yield from near(f"groundwork.dig.{name}_mm", "not from end to end of its margins",
                        long_mm, mm(max(ends) - min(ends)), slack=mm(LONG_OFF), unit="mm",
                        source=GROUND)  # fmt: skip


def margins_of_the_dig(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless margins and depth are above nothing, and the house's is its wall's."""
    dig, site = outlined_dig(plan), need(plan.site, "site")
    margin, at_house = ticks(dig.margin_mm), ticks(dig.house_margin_mm)
    wanted = min(margin, ticks(site.wall_gap_mm)) if site.beside_house else margin
    if at_house != wanted:
        message = "not what the house wall leaves of the margin"
        yield off_by("groundwork.dig.house_margin_mm", message, at_house, wanted, GROUND)
    if margin < 0 or dig.depth_mm <= 0:
        message = "a margin or a depth below nothing"
        yield off_by("groundwork.dig", message, min(margin, ticks(dig.depth_mm)), 0, GROUND)


def roots_are_kept(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each tree without its root zone, and each zone that is no tree's."""
    dig, openings = outlined_dig(plan), outline_of(plan).openings
    trees = {each.mark: each for each in openings if each.kind == "tree"}
    marks = [zone.opening for zone in dig.roots]
    if marks != list(trees):
        yield fault("groundwork.dig.roots", "not one root zone for each tree, in order", GROUND)
    for zone in dig.roots:
        reach = min(STEMS * zone.trunk_mm, sqrt(MOST_M2 * 1e6 / pi))
        yield from near(zone.opening, "not 12 stem diameters, or 707 m2", zone.radius_mm, reach,
                        slack=mm(1), unit="mm", source=GROUND)  # fmt: skip
        tree = trees.get(zone.opening)
        if tree is not None:
            yield from _in_the_middle(zone, tree.within)


def _in_the_middle(zone: RootZone, within: Sequence[Spot]) -> Iterator[Flaw]:
    corners = [place(spot) for spot in within]
    alongs, acrosses = [x for x, _ in corners], [y for _, y in corners]
    middle = (sum(alongs) / len(corners), sum(acrosses) / len(corners))
    off = dist(middle, place(zone.middle))
    if off > OFF:
        yield off_by(zone.opening, "its roots are not round its middle", off, 0, GROUND)
    widest = max(abs(along - middle[0]) for along in alongs)
    if ticks(zone.trunk_mm) > 2 * widest + OFF:
        message = "a trunk wider than the room it is given"
        yield off_by(zone.opening, message, ticks(zone.trunk_mm), 2 * widest, GROUND)


def _fabric(plan: Plan) -> Fabric:
    return need(ground_of(plan).fabric, "ground fabric")


def strips_of(plan: Plan, run: str) -> list[float]:
    """Return how long strips of fabric that run so have to be, in 1/320 mm, band by band."""
    dig, fabric = outlined_dig(plan), _fabric(plan)
    shapes, pools = grown(plan, dig), water(plan)
    if run == "across":
        shapes, pools = [turned(each) for each in shapes], [turned(each) for each in pools]
    heights = [corner[1] for ring in shapes for corner in ring]
    low, breadth = min(heights), ticks(dig.across_mm if run == "along" else dig.along_mm)
    width, lap = ticks(fabric.width_mm), ticks(fabric.lap_mm)
    more = need(width - lap if width > lap else None, "fabric wider than its lap")
    count = 1 + max(0, ceil_div(breadth - width, more))
    bands = [(low + number * more, low + number * more + width) for number in range(count)]
    parts = trapezoids(shapes, pools, [edge for band in bands for edge in band])
    return [end - start for band in bands for start, end in reaches(_within(parts, band))]


def _within(parts: Sequence[Trapezoid], band: Flat) -> list[Trapezoid]:
    middle = [(part, (part.low + part.high) / 2) for part in parts]
    return [part for part, height in middle if band[0] < height < band[1]]


def strips_cover_the_outline(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each strip is as long as the ground in its band, and none is missing."""
    outline_of(plan)
    fabric = _fabric(plan)
    if fabric.run not in {"along", "across"}:
        yield from same_text("groundwork.fabric.run", "unknown", fabric.run, "along", GROUND)
    wanted = strips_of(plan, fabric.run)
    message = "not the strips that cover the ground"
    yield from same_count("groundwork.fabric.strips", message, len(fabric.strips), len(wanted),
                          GROUND)  # fmt: skip
    for number, (strip, long) in enumerate(zip(fabric.strips, wanted, strict=False), start=1):
        yield from same_text(strip.mark, "not its mark", strip.mark, f"G{number}", GROUND)
        yield from near(strip.mark, "not as long as the ground in its band", strip.length_mm,
                        mm(long), slack=mm(LONG_OFF), unit="mm", source=GROUND)  # fmt: skip


def the_other_way_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the strips of the other way are counted, and the longest is told."""
    outline_of(plan)
    fabric = _fabric(plan)
    other = strips_of(plan, "across" if fabric.run == "along" else "along")
    message, path = "not what the other way would take", "groundwork.fabric.other_strips"
    yield from same_count(path, message, fabric.other_strips, len(other), GROUND)
    yield from near("groundwork.fabric.other_length_mm", message, fabric.other_length_mm,
                    mm(max(other)), slack=mm(LONG_OFF), unit="mm", source=GROUND)  # fmt: skip


def _packing(plan: Plan) -> Packing:
    return need(ground_of(plan).packing, "packers")


def packers_carry_the_frame(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a timber has no packer at an end, or two too far apart."""
    frame, packing = subframe_of(plan), _packing(plan)
    thick, most = ticks(frame.timber_thickness_mm), ticks(packing.spacing_most_mm)
    spots = [place(spot) for spot in packing.places]
    under = 0
    for member in (each for each in frame.members if each.kind in CARRIED):
        reach = _reaches(member, spots, thick)
        under = max(under, len(reach))
        long = dist(place(member.start), place(member.end))
        ends = (reach[0], long - reach[-1]) if reach else (long, long)
        for far in ends:
            if far > AT_END * thick + OFF:
                yield off_by(member.mark, "no packer at its end", far, AT_END * thick, GROUND)
        widest = max((b - a for a, b in pairwise(reach)), default=0.0)
        if widest > most + LONG_OFF:
            yield off_by(member.mark, "packers too far apart", widest, most, GROUND)
    path = "groundwork.packing"
    yield from same_count(f"{path}.count", "not those told", packing.count, len(spots), GROUND)
    message = "not the most under any one timber"
    yield from same_count(f"{path}.per_joist", message, packing.per_joist, under, GROUND)
    if len(set(spots)) != len(spots):
        yield fault(f"{path}.places", "two packers in one place", GROUND)


def _reaches(member: Member, spots: Sequence[Flat], thick: int) -> list[float]:
    """Return how far along a timber the packers stand that carry it, in order."""
    (ax, ay), (bx, by) = place(member.start), place(member.end)
    long = hypot(bx - ax, by - ay)
    nearest = BESIDE * thick + OFF
    found = []
    for x, y in spots:
        along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / long
        off = abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / long
        if off <= nearest and -nearest <= along <= long + nearest:
            found.append(min(max(along, 0.0), long))
    return sorted(found)


def the_underside_lies_under_boards_and_timber(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the frame's underside is the top less board and timber."""
    levels, laying = levels_of(plan), need(plan.laying, "boards laid on an outline")
    frame = subframe_of(plan)
    thick = ticks(laying.board_thickness_mm) + ticks(frame.timber_depth_mm)
    wanted, found = ticks(levels.deck_top_mm) - thick, ticks(levels.underside_mm)
    if found != wanted:
        message = "not the top less board and timber"
        yield off_by("site.levels.underside_mm", message, found, wanted, GROUND)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-884", "the dig is the outline and its margins, less roots", dig_is_outline_and_margins),
    ("AUD-885", "margins of an outline's dig are what walls leave", margins_of_the_dig),
    ("AUD-886", "roots of every tree are kept", roots_are_kept),
    ("AUD-887", "fabric covers the ground under an outline", strips_cover_the_outline),
    ("AUD-888", "the other way's fabric under an outline is told", the_other_way_is_told),
    ("AUD-889", "packers carry every timber under an outline", packers_carry_the_frame),
    ("AUD-890", "an outline's underside is the top less board and timber",
     the_underside_lies_under_boards_and_timber),
)  # fmt: skip
