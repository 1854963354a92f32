"""In words: the ground under the deck."""

from drylay.groundwork.model import Dig, Fabric, GravelBed, Packing
from drylay.papers.quantities import area
from drylay.papers.wording import RUNS, clean, many, marks_told, size, size_most
from drylay.plan.model import Plan
from drylay.units import mass_text, volume_held_text, volume_text

#: Where the earth goes, by the brief's word for it.
SPOIL = {
    "skip": "It goes into a skip.",
    "bags": "It goes into bulk bags.",
    "kept": "It is kept and spread in the garden.",
}
OTHER = {"along": "across", "across": "along"}
ROUNDED = "Volumes and masses are rounded up."


def ground_told(plan: Plan) -> list[str]:
    """Return the ground under the deck, a line each, in the order of the work."""
    ground = plan.groundwork
    if ground is None:
        return []
    told = [] if ground.dig is None else [*dig_told(ground.dig, plan.units)]
    told += [] if ground.fabric is None else [fabric_told(ground.fabric, plan.units)]
    told += [] if ground.gravel is None else [gravel_told(ground.gravel, plan)]
    told += [] if ground.packing is None else [packing_told(ground.packing, plan.units)]
    return told + ([] if ground.dig is None else [ROUNDED])


def dig_told(dig: Dig, units: str) -> list[str]:
    """Return what to strip, and what comes of it."""
    beyond = f"{size(dig.margin_mm, units)} beyond it on every side"
    if dig.house_margin_mm == dig.margin_mm:
        beyond += ", but to the wall only where one stands"
    else:
        beyond += f", but {size(dig.house_margin_mm, units)} on the house side, to the wall"
    where = (
        f"{size(dig.along_mm, units)} along the house and {size(dig.across_mm, units)} away from "
        f"it, {size(dig.depth_mm, units)} deep: the cover, and {beyond}."
    )
    if dig.area_m2 is not None:
        where = _over_outline(dig, units)
    bags = f"{many(dig.bags, 'bulk bag')} of {volume_held_text(dig.bag_m3, units)}"
    held = "" if units == "imperial" else f" ({volume_held_text(dig.skip_m3, units)})"
    skips = f"{many(dig.skips, 'skip')} of 6 cubic yards{held}"
    return [
        f"Strip turf over {where}",
        *_roots(dig, units),
        f"Earth: {volume_text(dig.solid_m3, units)} in the ground, "
        f"{volume_text(dig.loose_m3, units)} as a heap ({dig.bulking_ratio:g} times as much). "
        f"That fills {bags}, or {skips}. {SPOIL.get(dig.spoil, clean(dig.spoil))}",
    ]


def _over_outline(dig: Dig, units: str) -> str:
    """Return what is dug under an outline, and how far beyond it."""
    return (
        f"{area(dig.area_m2 or 0.0, units)}, {size(dig.depth_mm, units)} deep: the outline, and "
        f"{size(dig.margin_mm, units)} beyond its open sides, {size(dig.house_margin_mm, units)} "
        "at the house, nothing past a boundary or a pool."
    )


def _roots(dig: Dig, units: str) -> list[str]:
    """Return where roots keep the ground as it is."""
    zones = [f"{size(zone.radius_mm, units)} round the tree in {zone.opening}"
             for zone in dig.roots]  # fmt: skip
    if not zones:
        return []
    return [f"Dig nothing within {', '.join(zones)}: roots keep {area(dig.roots_m2 or 0.0, units)} "
            "as it is."]  # fmt: skip


def _lengths(fabric: Fabric, units: str) -> str:
    """Return how long strips are: all alike, or one by one."""
    told = [size(strip.length_mm, units) for strip in fabric.strips]
    return ", ".join(told if len(set(told)) > 1 else told[:1]) or "nothing"


def fabric_told(fabric: Fabric, units: str) -> str:
    """Return the strips to cut and how they lie."""
    strips, each = fabric.strips, _lengths(fabric, units)
    most = "" if len({strip.length_mm for strip in strips}) < 2 else "up to "
    other = many(fabric.other_strips, "strip")
    return (
        f"Ground fabric {clean(fabric.article, 40)}: {many(len(strips), 'strip')} of {each}, laid "
        f"{RUNS.get(fabric.run, clean(fabric.run))}, "
        f"{marks_told([strip.mark for strip in strips])}; each laps the next by "
        f"{size(fabric.lap_mm, units)} or more, of {size(fabric.width_mm, units)} width. Laid "
        f"{RUNS.get(OTHER.get(fabric.run, ''), 'the other way')} it would take {other} of "
        f"{most}{size(fabric.other_length_mm, units)} ({clean(fabric.other_note)})."
    )


def gravel_told(gravel: GravelBed, plan: Plan) -> str:
    """Return how deep the gravel lies, how much it is, and in which bags it comes."""
    units = plan.units
    packs = plan.buying.packs if plan.buying else ()
    bags = [
        f"{box.packs} x {box.pack} kg"
        for pack in packs
        if pack.article == gravel.article
        for box in pack.packs
    ]
    bought = f"; bought: {', '.join(bags)}" if bags else ""
    return (
        f"Gravel {clean(gravel.article, 40)}: {size(gravel.depth_mm, units)} deep, up to "
        f"{size(gravel.below_lawn_mm, units)} under the lawn: "
        f"{volume_text(gravel.volume_m3, units)}, {mass_text(gravel.mass_kg, units)}{bought}."
    )


def packing_told(packing: Packing, units: str) -> str:
    """Return how many packers stand where, and how high."""
    least, most = size(packing.height_least_mm, units), size(packing.height_most_mm, units)
    high = f"{least} high" if least == most else f"{least} to {most} high"
    if not packing.levels_known:
        high = f"how high, nobody knows without levels: counted at {least}"
    under = f"{packing.per_joist} under each joist: one at each end"
    if packing.places:
        under = "under both ends of every joist, trimmer and rim, what touches shares"
    return (
        f"Packers {clean(packing.article, 40)}: {packing.count}, {under}, and none further apart "
        f"than {size_most(packing.spacing_most_mm, units)}; {high}."
    )
