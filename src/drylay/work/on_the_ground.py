"""Tasks before any timber is cut: checks, delivery, setting out, dig, fabric, gravel, packers."""

from attrs import evolve

from drylay.work.drafts import Deck, Draft, OnGround, told
from drylay.work.on_posts import drafts_of_posts


def drafts_on_the_ground(deck: Deck) -> list[Draft]:
    """Return the tasks from the first check to what a frame can lie on: a bed, or posts."""
    first = [check_draft(deck, holes=deck.legs.footings is not None), delivery_draft(deck),
             _set_out(deck)]  # fmt: skip
    if deck.legs.raised is None:
        return [*first, *ground_drafts(deck)]
    dug, covered = list[Draft](), list[Draft]()
    for draft in ground_drafts(deck):
        (dug if draft.key == "dig" else covered).append(draft)
    return [*first, *dug, *drafts_of_posts(deck), *(_round_the_posts(each) for each in covered)]


def _round_the_posts(draft: Draft) -> Draft:
    """Return a task on the ground under a deck that stands: after its posts, and cut round them."""
    steps = draft.steps
    if draft.key == "fabric":
        steps = (steps[0], "Weigh the edges down; cut it close round the posts, else no holes but "
                 "for drains.")  # fmt: skip
    return evolve(draft, steps=steps, after=(*draft.after, "posts", "concrete"))


def ground_drafts(deck: OnGround) -> list[Draft]:
    """Return the tasks on the ground itself, whatever is to lie on it."""
    ground, drafts = deck.groundwork, list[Draft]()
    drafts += [_dig(deck)] if ground and ground.dig else []
    drafts += [_fabric()] if ground and ground.fabric else []
    drafts += [_gravel()] if ground and ground.gravel else []
    drafts += [_packing(deck)] if ground and ground.packing else []
    return drafts


def _digs(deck: OnGround) -> bool:
    return deck.groundwork is not None and deck.groundwork.dig is not None


def check_draft(deck: OnGround, *, holes: bool = False) -> Draft:
    """Return the task of looking at the place before any money is spent; `holes` are dug too."""
    levels, digs = deck.site.levels, _digs(deck) or holes
    return Draft(
        key="check", title="Check the place",
        steps=told(
            "Read the findings and what was taken on trust, and settle each before money is spent.",
            "Ask the local authority about height, boundaries, trees and drains.",
            (digs, "Ask for the plans of buried services, and go over the ground with a locator."),
            (levels is not None, "Measure again from the datum: the deck's top is to be at "
             "{site.levels.deck_top_mm}, the frame's underside at {site.levels.underside_mm}."),
        ),
        holds=("rules", "services") if digs else ("rules",),
        tools=("tape", "locator") if digs else ("tape",),
    )  # fmt: skip


def delivery_draft(deck: OnGround) -> Draft:
    """Return the task of taking the order in."""
    delivery = deck.buying.delivery
    lifted = delivery is not None and delivery.lift_kg > delivery.lift_most_kg
    return Draft(
        key="delivery", title="Take the delivery in",
        steps=told(
            (delivery is not None, "The order weighs {buying.delivery.total_kg} at most; the "
             "heaviest single lift is {buying.delivery.lift_article}, "
             "{buying.delivery.lift_kg}."),
            "Count it against the order, lengths and boxes.",
            "Stack boards and timber off the ground on level bearers, covered on top and open at "
            "the sides.",
            "Measure ten boards across, and take the mean.",
        ),
        after=("check",), holds=("delivered", "board_width"), tools=("gloves", "tape"),
        care=("lift",), hands=2 if lifted else 1,
    )  # fmt: skip


def _set_out(deck: Deck) -> Draft:
    triangle = deck.setting_out.slant_mm is not None
    return Draft(
        key="set_out", title="Set out",
        steps=told(
            "Drive pegs for the frame's outer corners by the setting-out drawing, and strings "
            f"from profile boards outside {_dug(deck)}, so that they can be put back; at a house "
            "wall mark the line on the wall.",
            (triangle, "At P1 mark {work.setting_out.leg_along_mm} along the house and "
             "{work.setting_out.leg_across_mm} away from it: square when the marks are "
             "{work.setting_out.slant_mm} apart."),
            "Measure both diagonals: {frame.diagonal_mm} each.",
        ),
        after=("check",), holds=("square",), tools=("pegs", "tape", "hammer"),
        hands=2,
    )  # fmt: skip


def _dug(deck: Deck) -> str:
    return "the dig" if deck.legs.raised is None else "all digging"


def _dig(deck: OnGround) -> Draft:
    dig = deck.groundwork.dig if deck.groundwork else None
    kept = dig is not None and dig.spoil == "kept"
    away = "skips to fill: {groundwork.dig.skips}" if dig and dig.spoil == "skip" else (
        "bulk bags to fill: {groundwork.dig.bags}"
    )  # fmt: skip
    return Draft(
        key="dig", title="Strip the turf",
        steps=told(
            *_what_is_dug(deck),
            (not kept, "It heaps up to {groundwork.dig.loose_m3}: " + away + "."),
            (kept, "It heaps up to {groundwork.dig.loose_m3}: spread it where it cannot "
             "wash back."),
            "Take out roots, and soft spots down to firm ground, filled with gravel.",
        ),
        after=("set_out",), holds=("dig_depth",), tools=("gloves", "spade", "tape"),
        care=("dig",),
    )  # fmt: skip


def _what_is_dug(deck: OnGround) -> tuple[str, ...]:
    """Return what is dug, and what of it is left alone."""
    dig = deck.groundwork.dig if deck.groundwork else None
    if dig is None or dig.area_m2 is None:
        return (
            "Strip {groundwork.dig.along_mm} along the house by {groundwork.dig.across_mm} away "
            "from it, {groundwork.dig.depth_mm} deep: {groundwork.dig.solid_m3} in the ground.",
        )
    zones = [f"{{groundwork.dig.roots[{number}].radius_mm}} round the tree in {zone.opening}"
             for number, zone in enumerate(dig.roots)]  # fmt: skip
    return told(
        (bool(zones), f"First rope off the roots: {', '.join(zones)}. Nothing is dug there, "
         "driven on, heaped up or spread."),
        "Strip {groundwork.dig.area_m2}, the deck's outline and {groundwork.dig.margin_mm} "
        "beyond it, but to a house only {groundwork.dig.house_margin_mm} and past no boundary or "
        "pool, {groundwork.dig.depth_mm} deep: {groundwork.dig.solid_m3} in the ground.",
    )  # fmt: skip


def _fabric() -> Draft:
    return Draft(
        key="fabric", title="Lay the fabric",
        steps=(
            "Cut the strips as the cut list says, and lay them {groundwork.fabric.run}, "
            "each over the one before by {groundwork.fabric.lap_mm} or more.",
            "Weigh the edges down; cut no holes but for drains.",
        ),
        after=("dig",), holds=("laps",), tools=("gloves", "knife"), hands=2,
    )  # fmt: skip


def _gravel() -> Draft:
    return Draft(
        key="gravel", title="Spread the gravel",
        steps=(
            "Spread {groundwork.gravel.mass_kg} of gravel {groundwork.gravel.depth_mm} deep, its "
            "top {groundwork.gravel.below_lawn_mm} under the lawn, and tamp it.",
        ),
        after=("fabric", "dig"), holds=("gravel_depth",), tools=("gloves", "rake"), care=("lift",),
    )  # fmt: skip


def _packing(deck: OnGround) -> Draft:
    return Draft(
        key="packing", title="Set the packers",
        steps=told(
            _where_packers_stand(deck) + "no further apart than "
            "{groundwork.packing.spacing_most_mm}: {groundwork.packing.height_least_mm} high "
            "where the ground is highest and {groundwork.packing.height_most_mm} where it is "
            "lowest.",
            (deck.site.levels is None, "These heights are not known without levels: take levels "
             "first, and change the packers where they will not do."),
            "They reach from {groundwork.packing.reach_least_mm} to "
            "{groundwork.packing.reach_most_mm}: where that will not do, add or take gravel.",
        ),
        after=("gravel", "fabric", "dig", "set_out"), holds=("pack_level",),
        tools=("gloves", "level"),
    )  # fmt: skip


def _where_packers_stand(deck: OnGround) -> str:
    packing = deck.groundwork.packing if deck.groundwork else None
    if packing is not None and packing.places:
        return (
            "Set {groundwork.packing.count} packers under both ends of every joist, trimmer and "
            "rim and evenly between, one for timbers that touch, "
        )
    return (
        "Set {groundwork.packing.per_joist} packers under each joist's line, one at each end, the "
        "others evenly between, "
    )
