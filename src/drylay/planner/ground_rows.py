"""The decisions taken on the ground under the deck."""

from drylay.groundwork.model import Dig, Fabric, GravelBed, Packing
from drylay.planner.built import Sited
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.reasons import Source, TurnedDown

ROOTS = Source(kind="standard", title="BS 5837", clause="root protection area")
ASSUMED = Source(kind="assumption", title="docs/conventions.md", clause="Ground")


def rows(job: Job, built: Sited) -> list[Row]:
    """Return the decisions taken on the ground, of what there is."""
    ground = built.groundwork
    if ground is None:
        return []
    found = [] if ground.dig is None else _dig(job, ground.dig)
    found += [] if ground.fabric is None else _fabric(job, ground.fabric)
    found += [] if ground.gravel is None else _gravel(job, ground.gravel)
    return found + ([] if ground.packing is None else _packing(job, ground.packing))


def wished(job: Job, key: str, otherwise: Source = PRACTICE) -> Source:
    """Return the brief as a source where it says something, else whoever does."""
    said = getattr(job.brief.groundwork, key) is not None
    return brief_says(f"groundwork.{key}") if said else otherwise


def _dig(job: Job, dig: Dig) -> list[Row]:
    at_wall = dig.house_margin_mm < dig.margin_mm
    loose = (("loose_m3", dig.loose_m3),)
    beyond = "dug beyond the cover on every side"
    if dig.area_m2 is not None:
        beyond = "dug beyond the outline, but past no boundary and no pool"
    return [
        row("groundwork.dig.margin_mm", dig.margin_mm, "mm", beyond, wished(job, "margin_mm")),
        row("groundwork.dig.house_margin_mm", dig.house_margin_mm, "mm",
            "as far as the house wall" if at_wall else "as on every other side",
            ARITHMETIC, (("margin_mm", dig.margin_mm),)),
        row("groundwork.dig.depth_mm", dig.depth_mm, "mm", "turf with its roots taken up",
            wished(job, "strip_mm"), (("along_mm", dig.along_mm), ("across_mm", dig.across_mm))),
        row("groundwork.dig.bulking_ratio", dig.bulking_ratio, "ratio",
            "room that dug earth takes, over what it took", PRACTICE,
            (("solid_m3", dig.solid_m3),)),
        row("groundwork.dig.bags", dig.bags, "count", "builder's bulk bags that the loose earth "
            f"fills, {dig.bag_m3:g} m3 each", ASSUMED, loose),
        row("groundwork.dig.skips", dig.skips, "count", "skips of 6 cubic yards that the loose "
            f"earth fills, {dig.skip_m3:g} m3 each", ASSUMED, loose),
        *_roots(dig),
    ]  # fmt: skip


def _roots(dig: Dig) -> list[Row]:
    if dig.roots_m2 is None:
        return []
    reach = tuple((f"{zone.opening}: radius_mm", zone.radius_mm) for zone in dig.roots)
    return [
        row("groundwork.dig.roots_m2", dig.roots_m2, "m2", "left to roots of trees: nothing is dug "
            "within 12 stem diameters of one, 15 m at most", ROOTS, reach)
    ]  # fmt: skip


def _fabric(job: Job, fabric: Fabric) -> list[Row]:
    other = "across" if fabric.run == "along" else "along"
    up_to = "" if len({strip.length_mm for strip in fabric.strips}) == 1 else "up to "
    told = f"{other}: {fabric.other_strips} strips of {up_to}{fabric.other_length_mm:g} mm"
    return [
        row("groundwork.fabric.width_mm", fabric.width_mm, "mm", "the roll as sold",
            merchant_says(job, fabric.article)),
        row("groundwork.fabric.lap_mm", fabric.lap_mm, "mm", "strips lap by this at least",
            wished(job, "lap_mm")),
        row("groundwork.fabric.run", fabric.run, "", "the way whose rolls cost less; then fewer "
            "strips, then along", ARITHMETIC,
            (("width_mm", fabric.width_mm), ("lap_mm", fabric.lap_mm)),
            (TurnedDown(value=told, because=fabric.other_note),)),
    ]  # fmt: skip


def _gravel(job: Job, gravel: GravelBed) -> list[Row]:
    article = job.articles.gravel
    sold = article is not None and article.density_kg_m3 is not None
    density = merchant_says(job, gravel.article) if sold else PRACTICE
    return [
        row("groundwork.gravel.below_lawn_mm", gravel.below_lawn_mm, "mm",
            "gravel ends just under the lawn beside it", wished(job, "below_lawn_mm"),
            (("depth_mm", gravel.depth_mm), ("volume_m3", gravel.volume_m3))),
        row("groundwork.gravel.density_kg_m3", gravel.density_kg_m3, "kg/m3",
            "gravel as it lies", density, (("mass_kg", gravel.mass_kg),)),
    ]  # fmt: skip


def _packing(job: Job, packing: Packing) -> list[Row]:
    record, known = merchant_says(job, packing.article), packing.levels_known
    source = ARITHMETIC if known else ASSUMED
    least = "between bed and frame, least" if known else "no levels: the packer's least height"
    most = "between bed and frame, most" if known else "no levels: the packer's least height"
    return [
        row("groundwork.packing.reach_least_mm", packing.reach_least_mm, "mm",
            "the packer's least height as sold", record),
        row("groundwork.packing.reach_most_mm", packing.reach_most_mm, "mm",
            "the packer's most height as sold", record),
        row("groundwork.packing.height_least_mm", packing.height_least_mm, "mm", least, source),
        row("groundwork.packing.height_most_mm", packing.height_most_mm, "mm", most, source),
        row("groundwork.packing.spacing_most_mm", packing.spacing_most_mm, "mm",
            "packers under a joist no further apart: taken as lying on the ground, strength is "
            "not checked", wished(job, "packer_spacing_mm", ASSUMED)),
        row("groundwork.packing.per_joist", packing.per_joist, "count",
            "one at each end of a joist, and as many between as the spacing asks"
            + ("; the most under any one, what touches shares" if packing.places else ""),
            ARITHMETIC,
            (("spacing_most_mm", packing.spacing_most_mm), ("count", packing.count))),
    ]  # fmt: skip
