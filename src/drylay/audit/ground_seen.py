"""The witnessed audit on the ground: what the brief wishes and the merchant sells."""

from collections.abc import Iterator
from math import dist, pi, sqrt
from typing import TypeVar

from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, on_pads, same_length, same_text
from drylay.audit.ground import dig_of, ground_of
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.site_witnessed import has_house
from drylay.brief.model import Brief, GroundworkWish
from drylay.brief.outline_model import OpeningWish
from drylay.materials.stock_model import Catalogue, Fabric, Gravel, Packer
from drylay.plan.model import Plan

WISHED = conventions("Ground; the brief's own wish")
SOLD = conventions("Ground; what is on sale")
#: What holds where the brief says nothing. Common practice and assumptions of the conventions.
MARGIN_MM, STRIP_MM, LAP_MM, BELOW_LAWN_MM, SPACING_MM = 100.0, 50.0, 100.0, 10.0, 600.0
DENSITY_KG_M3, SPOIL = 1600.0, "skip"
#: Roots reach 12 stem diameters, over no more than 707 m2 (BS 5837).
STEMS, ROOTS_M2 = 12, 707
Sold = TypeVar("Sold", Fabric, Gravel, Packer)


def _wish(witness: Witness) -> GroundworkWish:
    return need(witness.brief, "brief as witness").groundwork


def _asks_for_a_dig(wish: GroundworkWish) -> bool:
    said = (wish.margin_mm, wish.strip_mm, wish.below_lawn_mm, wish.lap_mm, wish.spoil)
    return any(each is not None for each in (*said, wish.fabric, wish.gravel))


def ground_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the plan has the groundwork that the brief asks for, of its articles."""
    wish, ground = _wish(witness), plan.groundwork
    need(plan.buying, "purchase")
    asked = {
        "dig": "dig" if _asks_for_a_dig(wish) else None,
        "fabric": wish.fabric,
        "gravel": wish.gravel,
        "packing": None if on_pads(plan) else wish.packer,
    }
    if _all_within_roots(plan, need(witness.brief, "brief as witness")):
        asked |= dict.fromkeys(("dig", "fabric", "gravel"))
    for name, wanted in asked.items():
        part = getattr(ground, name) if ground is not None else None
        if (part is None) != (wanted is None):
            message = "asked for, not planned" if part is None else "planned, not asked for"
            yield Flaw(subject=f"groundwork.{name}", message=message, source=WISHED)
        elif part is not None and name != "dig":
            subject = f"groundwork.{name}.article"
            yield from same_text(subject, "not the brief's", part.article, wanted or "", WISHED)


def _all_within_roots(plan: Plan, brief: Brief) -> bool:
    """Whether each corner of an outline lies within the roots of a tree: then nothing is dug."""
    if plan.outline is None or (plan.groundwork is not None and plan.groundwork.dig is not None):
        return False
    trees = [wish for wish in brief.outline.openings if wish.kind == "tree"]
    return bool(trees) and all(
        any(
            dist((spot.along_mm, spot.across_mm), (tree.along_mm, tree.across_mm))
            <= _reach_mm(tree)
            for tree in trees
        )
        for spot in (side.start for side in plan.outline.sides)
    )


def _or(wished: float | None, otherwise: float) -> float:
    return otherwise if wished is None else wished


def sizes_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless margin, depth, lap and spacing are the brief's, or the conventions'."""
    wish, ground = _wish(witness), ground_of(plan)
    pairs = []
    if ground.dig is not None:
        pairs.append(("dig.margin_mm", ground.dig.margin_mm, _or(wish.margin_mm, MARGIN_MM)))
        pairs.append(("dig.depth_mm", ground.dig.depth_mm, _or(wish.strip_mm, STRIP_MM)))
    if ground.fabric is not None:
        pairs.append(("fabric.lap_mm", ground.fabric.lap_mm, _or(wish.lap_mm, LAP_MM)))
    if ground.gravel is not None:
        below = _or(wish.below_lawn_mm, BELOW_LAWN_MM)
        pairs.append(("gravel.below_lawn_mm", ground.gravel.below_lawn_mm, below))
    if ground.packing is not None:
        spacing = _or(wish.packer_spacing_mm, SPACING_MM)
        pairs.append(("packing.spacing_most_mm", ground.packing.spacing_most_mm, spacing))
    for path, found, wanted in pairs:
        message = "not the brief's, nor what holds without it"
        yield from same_length(f"groundwork.{path}", message, found, ticks(wanted), WISHED)


def wall_as_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the dig ends at the house wall where the brief tells of a house."""
    dig, brief = dig_of(plan), need(witness.brief, "brief as witness")
    margin = ticks(dig.margin_mm)
    if has_house(plan, brief):
        margin = min(margin, ticks(need(plan.site, "site").wall_gap_mm))
    path, message = "groundwork.dig.house_margin_mm", "not the margin, nor what the wall leaves"
    yield from same_length(path, message, dig.house_margin_mm, margin, WISHED)
    spoil = brief.groundwork.spoil or SPOIL
    yield from same_text("groundwork.dig.spoil", "not the brief's", dig.spoil, spoil, WISHED)


def roots_as_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless root zones are round the middles and trunks of the brief's trees.

    What findings tell of their reach is to be right of a deck without a dig, too.
    """
    brief = need(witness.brief, "brief as witness")
    openings = plan.outline.openings if plan.outline is not None else ()
    wishes = dict(zip((each.mark for each in openings), brief.outline.openings, strict=False))
    trees = {mark: wish for mark, wish in wishes.items() if wish.kind == "tree"}
    yield from _reach_as_told(plan, trees)
    if trees and (plan.groundwork is None or plan.groundwork.dig is None):
        return
    for zone in dig_of(plan).roots:
        wish = wishes.get(zone.opening)
        if wish is None or wish.kind != "tree":
            yield Flaw(subject=zone.opening, message="no tree of the brief's", source=WISHED)
            continue
        for name, found, wanted in (
            ("trunk_mm", zone.trunk_mm, wish.trunk_mm or 0.0),
            ("middle.along_mm", zone.middle.along_mm, wish.along_mm),
            ("middle.across_mm", zone.middle.across_mm, wish.across_mm),
        ):
            subject = f"{zone.opening}: {name}"
            yield from same_length(subject, "not the brief's", found, ticks(wanted), WISHED)


def _reach_as_told(plan: Plan, trees: dict[str, OpeningWish]) -> Iterator[Flaw]:
    """Yield a flaw for a tree whose finding tells of another reach of its roots, to 0.1 mm."""
    for finding in plan.findings:
        if finding.code != "OUT-020":
            continue
        tree = trees.get(finding.subject)
        reach = _reach_mm(tree) if tree is not None else 0.0
        if finding.limit is None or abs(finding.limit - reach) > 0.05 + 1e-9:
            message = "not as far as the roots of the brief's tree reach"
            yield Flaw(subject=f"{finding.subject}: {finding.code}", message=message,
                       measured=finding.limit, limit=reach, unit="mm", source=WISHED)  # fmt: skip


def _reach_mm(tree: OpeningWish) -> float:
    return min(STEMS * (tree.trunk_mm or 0.0), sqrt(ROOTS_M2 * 1e6 / pi))


def _sold(articles: tuple[Sold, ...], code: str) -> Sold:
    found = next((article for article in articles if article.code == code), None)
    return need(found, f"article {code!r} in the stock")


def _stock(witness: Witness) -> Catalogue:
    return need(witness.stock, "stock as witness")


def ground_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless fabric, gravel and packers are as sold, and the fabric lets water by."""
    stock, ground = _stock(witness), ground_of(plan)
    if ground.fabric is not None:
        roll = _sold(stock.fabrics, ground.fabric.article)
        yield from _as_sold("fabric.width_mm", ground.fabric.width_mm, roll.width_mm)
        if not roll.permeable:
            message = "a sealed sheet holds water under the deck"
            yield Flaw(subject="groundwork.fabric", message=message, source=SOLD)
    if ground.gravel is not None:
        density = _sold(stock.gravels, ground.gravel.article).density_kg_m3 or DENSITY_KG_M3
        yield from _as_sold("gravel.density_kg_m3", ground.gravel.density_kg_m3, density)
    if ground.packing is not None:
        packer, packing = _sold(stock.packers, ground.packing.article), ground.packing
        yield from _as_sold("packing.reach_least_mm", packing.reach_least_mm, packer.least_mm)
        yield from _as_sold("packing.reach_most_mm", packing.reach_most_mm, packer.most_mm)


def _as_sold(path: str, found: float, wanted: float) -> Iterator[Flaw]:
    if found != wanted:
        yield Flaw(
            subject=f"groundwork.{path}",
            message="not as sold",
            measured=found,
            limit=wanted,
            source=SOLD,
        )


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W41", "the ground is made up as the brief asks", ground_as_wished),
    ("AUD-W42", "sizes of the groundwork are the brief's", sizes_as_wished),
    ("AUD-W43", "the dig ends at the house wall the brief tells of", wall_as_told),
    ("AUD-W44", "fabric, gravel and packers are as sold", ground_as_sold),
    ("AUD-W45", "roots are kept round the brief's trees", roots_as_told),
)
