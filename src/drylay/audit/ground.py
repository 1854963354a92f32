"""The ground: dig, fabric, gravel and packers counted again, in fractions."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from math import ceil

from drylay.audit import lorry
from drylay.audit.exact import PER_MM, ceil_div, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    off_by,
    on_pads,
    same_count,
    same_length,
    same_text,
)
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.packs import least_price
from drylay.audit.rows import surface_of
from drylay.audit.wanted import wanted_fabric
from drylay.brief.model import SPOIL
from drylay.buying.model import Purchase
from drylay.groundwork.model import Dig, Fabric, GravelBed, Groundwork, Packing
from drylay.plan.model import Plan

GROUND = conventions("Ground")
#: What conventions have said once for every plan: bulking, a bulk bag, a skip.
BULKING, BAG_M3, SKIP_M3 = Fraction("1.25"), Fraction("0.7"), Fraction("4.587")
#: The thinnest bed of gravel, and how high a frame stands on packers at most.
THINNEST_MM, HIGHEST_MM, MADE_UP_MM = 20, 150, 25


def ground_of(plan: Plan) -> Groundwork:
    """Return what lies under the deck, if the plan tells of it."""
    return need(plan.groundwork, "groundwork")


def dig_of(plan: Plan) -> Dig:
    """Return the dig, if there is one."""
    return need(ground_of(plan).dig, "dig")


def _fabric(plan: Plan) -> Fabric:
    return need(ground_of(plan).fabric, "ground fabric")


def _gravel(plan: Plan) -> GravelBed:
    return need(ground_of(plan).gravel, "gravel")


def _packing(plan: Plan) -> Packing:
    return need(ground_of(plan).packing, "packers")


def _as_written(figure: float) -> Fraction:
    return Fraction(repr(float(figure)))


def _m3(dig: Dig, deep_mm: float) -> Fraction:
    """Return what a bed so deep holds, over the whole dig; on an outline over its area as told."""
    if dig.area_m2 is not None:
        return _as_written(dig.area_m2) * Fraction(ticks(deep_mm), 1000 * PER_MM)
    sides = ticks(dig.along_mm) * ticks(dig.across_mm)
    return Fraction(sides * ticks(deep_mm), (1000 * PER_MM) ** 3)


def _of_a_rectangle(plan: Plan) -> Dig:
    """Return the dig under a plain rectangle; what lies under an outline has checks of its own."""
    dig = dig_of(plan)
    return need(dig if dig.area_m2 is None else None, "dig under a rectangle")


def same_figure(
    subject: str, message: str, found: float, wanted: Fraction, unit: str
) -> Iterator[Flaw]:
    """Yield a flaw unless a figure is written as it ought to be."""
    if _as_written(found) != wanted:
        yield Flaw(
            subject=subject,
            message=message,
            measured=found,
            limit=float(wanted),
            unit=unit,
            source=GROUND,
        )


def dig_is_cover_and_margin(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the dig reaches a margin beyond the cover, less at a house wall."""
    dig, surface = dig_of(plan), surface_of(plan)
    margin, at_house = ticks(dig.margin_mm), ticks(dig.house_margin_mm)
    along = ticks(surface.cover_along_mm) + 2 * margin
    across = ticks(surface.cover_across_mm) + margin + at_house
    message = "not the cover and its margins"
    yield from same_length("groundwork.dig.along_mm", message, dig.along_mm, along, GROUND)
    yield from same_length("groundwork.dig.across_mm", message, dig.across_mm, across, GROUND)
    walls = [margin]
    if plan.site is not None:
        walls.append(min(margin, ticks(plan.site.wall_gap_mm)))
    if at_house not in walls:
        message = "neither the margin nor what a wall leaves of it"
        yield off_by("groundwork.dig.house_margin_mm", message, at_house, walls[-1], GROUND)
    if margin < 0 or dig.depth_mm <= 0:
        message = "a margin or a depth below nothing"
        yield off_by("groundwork.dig", message, min(margin, ticks(dig.depth_mm)), 0, GROUND)


def _loose(dig: Dig) -> Fraction:
    return _m3(dig, dig.depth_mm) * BULKING


def earth_is_the_digs(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the earth is the dig's volume, solid and loose, up to a litre."""
    dig = dig_of(plan)
    yield from same_figure(
        "groundwork.dig.bulking_ratio", "not what dug earth bulks", dig.bulking_ratio, BULKING, ""
    )
    solid = _m3(dig, dig.depth_mm)
    for name, told, volume in (
        ("solid", dig.solid_m3, solid),
        ("loose", dig.loose_m3, _loose(dig)),
    ):
        message = "not the dig's volume, up to the next litre"
        wanted = Fraction(ceil(volume * 1000), 1000)
        yield from same_figure(f"groundwork.dig.{name}_m3", message, told, wanted, "m3")


def earth_fits_bags_or_skips(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless bags and skips are those of the conventions, and enough."""
    dig = dig_of(plan)
    sizes = (("bag", dig.bag_m3, dig.bags, BAG_M3), ("skip", dig.skip_m3, dig.skips, SKIP_M3))
    for name, told, count, holds in sizes:
        yield from same_figure(f"groundwork.dig.{name}_m3", "not what one holds", told, holds, "m3")
        message = "not as many as the loose earth fills"
        wanted = ceil(_loose(dig) / holds)
        yield from same_count(f"groundwork.dig.{name}s", message, count, wanted, GROUND)
    if dig.spoil not in SPOIL:
        yield from same_text("groundwork.dig.spoil", "unknown", dig.spoil, SPOIL[0], GROUND)


def _breadth_and_length(dig: Dig, run: str) -> tuple[int, int]:
    """Return how broad the dig is across strips that run so, and how long the strips are."""
    along, across = ticks(dig.along_mm), ticks(dig.across_mm)
    return (across, along) if run == "along" else (along, across)


def _strips(dig: Dig, fabric: Fabric, run: str) -> int:
    """Return the fewest strips: the first covers a roll's width, each other that less a lap."""
    breadth, _length = _breadth_and_length(dig, run)
    width, lap = ticks(fabric.width_mm), ticks(fabric.lap_mm)
    more = need(width - lap if width > lap else None, "fabric wider than its lap")
    return 1 + max(0, ceil_div(breadth - width, more))


def strips_cover_the_dig(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless strips as long as the dig cover its breadth, and none is too many."""
    dig, fabric = _of_a_rectangle(plan), _fabric(plan)
    if fabric.run not in {"along", "across"}:
        yield from same_text("groundwork.fabric.run", "unknown", fabric.run, "along", GROUND)
    width, lap = ticks(fabric.width_mm), ticks(fabric.lap_mm)
    if lap < 0 or 2 * lap > width:
        message = "a lap below nothing, or over half the roll's width"
        yield off_by("groundwork.fabric.lap_mm", message, lap, width // 2, GROUND)
    wanted = _strips(dig, fabric, fabric.run)
    message = "not the fewest strips that cover the dig"
    yield from same_count("groundwork.fabric.strips", message, len(fabric.strips), wanted, GROUND)
    _breadth, length = _breadth_and_length(dig, fabric.run)
    for number, strip in enumerate(fabric.strips, 1):
        yield from same_text(strip.mark, "not its mark", strip.mark, f"G{number}", GROUND)
        yield from same_length(strip.mark, "not the dig's length", strip.length_mm, length, GROUND)


def other_way_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the strips of the other way are counted and as long as they would be."""
    dig, fabric = _of_a_rectangle(plan), _fabric(plan)
    other = "across" if fabric.run == "along" else "along"
    message, path = "not what the other way would take", "groundwork.fabric.other_strips"
    wanted = _strips(dig, fabric, other)
    yield from same_count(path, message, fabric.other_strips, wanted, GROUND)
    _breadth, length = _breadth_and_length(dig, other)
    path = "groundwork.fabric.other_length_mm"
    yield from same_length(path, message, fabric.other_length_mm, length, GROUND)


def cheaper_way_is_taken(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the other way's strips cost less, or no more and are fewer.

    Strips are all alike, so rolls are like packs of strips. Where rolls are limited, what the
    other way costs is not told by that, and nothing is said.
    """
    _of_a_rectangle(plan)
    fabric = _fabric(plan)
    each = need(fabric.strips or None, "strips of fabric")[0].length_mm
    bought = need(next((w.purchase for w in wanted_fabric(plan)), None), "purchase of fabric")
    if any(roll.limit is not None for roll in bought.proof.task.stock):
        return
    here = least_price(len(fabric.strips), _packs_of_strips(bought, each))
    there = least_price(fabric.other_strips, _packs_of_strips(bought, fabric.other_length_mm))
    if here is None or there is None:
        return
    first, count = fabric.run == "along", len(fabric.strips)
    if (there, fabric.other_strips, first) < (here, count, not first):
        message = "the other way costs less, or as much and takes fewer strips"
        yield Flaw(subject="groundwork.fabric.run", message=message, source=GROUND)


def _packs_of_strips(bought: Purchase, length_mm: float) -> tuple[tuple[int, Decimal], ...]:
    """Return how many strips each roll gives, with its price in minor units."""
    task = bought.proof.task
    each = ticks(length_mm) + task.kerf
    rooms = [(roll.length - 2 * roll.trim + task.kerf, roll.price) for roll in task.stock]
    return tuple((room // each, Decimal(price)) for room, price in rooms)


def gravel_fills_the_dig(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the gravel reaches from the dig's bottom to just under the lawn."""
    dig, gravel = dig_of(plan), _gravel(plan)
    below, path = ticks(gravel.below_lawn_mm), "groundwork.gravel.depth_mm"
    deep = ticks(dig.depth_mm) - below
    yield from same_length(path, "not what the dig leaves", gravel.depth_mm, deep, GROUND)
    if below < 0 or deep < THINNEST_MM * PER_MM:
        message = "too thin a bed, or one above the lawn"
        yield off_by(path, message, deep, THINNEST_MM * PER_MM, GROUND)
    volume = _m3(dig, gravel.depth_mm)
    wanted = Fraction(ceil(volume * 1000), 1000)
    message = "not the bed's volume, up to the next litre"
    yield from same_figure("groundwork.gravel.volume_m3", message, gravel.volume_m3, wanted, "m3")
    mass = Fraction(ceil(volume * _as_written(gravel.density_kg_m3) * 10), 10)
    message = "not volume x density, up to the next 100 g"
    yield from same_figure("groundwork.gravel.mass_kg", message, gravel.mass_kg, mass, "kg")


def packers_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each joist has a packer at both ends and none is too far apart."""
    packing, joists = _packing(plan), frame_of(plan).joists
    most = ticks(packing.spacing_most_mm)
    need(most if most > 0 else None, "spacing of packers")
    longest = max((ticks(joist.length_mm) for joist in joists), default=0)
    each = 1 + ceil_div(longest, most)
    path = "groundwork.packing.per_joist"
    yield from same_count(path, "not as many as the spacing asks", packing.per_joist, each, GROUND)
    path, wanted = "groundwork.packing.count", each * len(joists)
    yield from same_count(path, "not those of all joists", packing.count, wanted, GROUND)


def _bed_sunk(ground: Groundwork) -> int:
    """Return how far the bed lies under the lawn, in 1/320 mm."""
    if ground.gravel is not None:
        return ticks(ground.gravel.below_lawn_mm)
    return ticks(ground.dig.depth_mm) if ground.dig is not None else 0


def room_under_the_frame(plan: Plan) -> tuple[int, int] | None:
    """Return the least and the most between bed and frame; None without levels of the ground."""
    levels = plan.site.levels if plan.site is not None else None
    if levels is None or levels.ground_most_mm is None or levels.ground_least_mm is None:
        return None
    over = ticks(levels.underside_mm) + (_bed_sunk(plan.groundwork) if plan.groundwork else 0)
    return over - ticks(levels.ground_most_mm), over - ticks(levels.ground_least_mm)


def packers_fill_the_room(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless packers reach over all the room between bed and frame."""
    packing, room = _packing(plan), room_under_the_frame(plan)
    least, most = ticks(packing.reach_least_mm), ticks(packing.reach_most_mm)
    if packing.levels_known != (room is not None):
        message = "says otherwise than the site whether levels are known"
        yield Flaw(subject="groundwork.packing.levels_known", message=message, source=GROUND)
    heights = room or (least, least)
    path, message = "groundwork.packing.height", "not what lies between bed and frame"
    told = (packing.height_least_mm, packing.height_most_mm)
    for name, found, wanted in zip(("least", "most"), told, heights, strict=True):
        yield from same_length(f"{path}_{name}_mm", message, found, wanted, GROUND)
    if not least <= heights[0] <= heights[1] <= most:
        message = "out of the packers' reach"
        yield off_by(path, message, heights[1] if heights[1] > most else heights[0], most, GROUND)


def frame_stands_on_the_ground(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the frame would lie in the ground, or needs legs."""
    ground_of(plan)
    low, high = room_under_the_frame(plan) or (0, 0)  # nothing to say where nobody gave levels
    if low < 0:
        yield off_by("frame", "its underside lies in the ground", low, 0, GROUND)
    if on_pads(plan) or plan.raised is not None:
        return  # pads have their own reach, posts their own lengths
    if high > HIGHEST_MM * PER_MM:
        message = "so high over the ground it needs legs or bearers"
        yield off_by("frame", message, high, HIGHEST_MM * PER_MM, GROUND)
    elif high > MADE_UP_MM * PER_MM and ground_of(plan).packing is None:
        message = "lies over its bed, on nothing"
        yield off_by("frame", message, high, MADE_UP_MM * PER_MM, GROUND)


def highest_packer(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where packers stand higher than a frame stands on packers."""
    height = ticks(_packing(plan).height_most_mm)
    if height > HIGHEST_MM * PER_MM:
        message = "so high it needs legs or bearers"
        yield off_by("groundwork.packing", message, height, HIGHEST_MM * PER_MM, GROUND)


def parts_have_a_dig(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where fabric or gravel lies in no dig, or the groundwork is empty."""
    ground = ground_of(plan)
    if ground.dig is None and (ground.fabric is not None or ground.gravel is not None):
        message = "fabric or gravel without a dig to lie in"
        yield Flaw(subject="groundwork", message=message, source=GROUND)
    if ground.dig is None and ground.packing is None:
        yield Flaw(subject="groundwork", message="nothing in it", source=GROUND)


def ground_cautions_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each caution on dig, drainage and packers that the findings leave out."""
    ground, told = ground_of(plan), {finding.code for finding in plan.findings}
    packing = ground.packing
    wanted = {
        "GND-008": ground.dig is not None,
        "GND-009": packing is not None,
        "GND-010": packing is not None and not packing.levels_known,
        "GND-013": ground.dig is not None,
    }
    for code in (code for code, holds in wanted.items() if holds and code not in told):
        yield Flaw(subject=code, message="not among the findings", source=GROUND)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-841", "the dig is the cover and its margins", dig_is_cover_and_margin),
    ("AUD-842", "the earth is the dig's, solid and loose", earth_is_the_digs),
    ("AUD-843", "bags and skips hold the loose earth", earth_fits_bags_or_skips),
    ("AUD-844", "strips of fabric cover the dig with their laps", strips_cover_the_dig),
    ("AUD-845", "strips of the other way are counted", other_way_is_told),
    ("AUD-846", "fabric runs the way that costs less", cheaper_way_is_taken),
    ("AUD-847", "gravel fills the dig to just under the lawn", gravel_fills_the_dig),
    ("AUD-848", "packers are counted from their spacing", packers_are_counted),
    ("AUD-849", "packers fill the room between bed and frame", packers_fill_the_room),
    ("AUD-850", "the frame lies neither in the ground nor far over it", frame_stands_on_the_ground),
    ("AUD-851", "packers are no higher than packers go", highest_packer),
    ("AUD-852", "fabric and gravel lie in a dig", parts_have_a_dig),
    ("AUD-853", "cautions on the ground stand among the findings", ground_cautions_are_told),
    *lorry.CHECKS,
)
