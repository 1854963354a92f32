"""What a plan does not check, count or order: less, the more its brief tells."""

from drylay.brief.model import Brief, HouseWish
from drylay.planner.stood import strength_not_checked

GAP_IS_YOURS = (
    "the gap to the wall, which is yours to leave outside the cover (10 to 12 mm: common practice, "
    "no source)"
)
#: What no brief for tiles can order, by what they lie on.
TRIMS = {
    "frame": "what holds the outer edges of the tiles, pads or adhesive under them",
    "pads": "what holds the outer edges of the tiles, the base they stand on",
}
#: What a brief leaves uncounted by naming no screw for it.
UNCOUNTED = {
    "frame_screw": "fixings of noggins and splices (fixings.frame_screw names none)",
    "fascia_screw": "fixings of the fascia (fixings.fascia_screw names none)",
}


def not_checked(brief: Brief) -> tuple[str, ...]:
    """Return what a plan for this brief does not check: less, the more the brief tells."""
    return (
        strength_not_checked(brief),
        *_ground_not_checked(brief),
        *_house_not_checked(brief),
        "local planning and building rules",
        *_not_counted(brief),
        *_not_ordered(brief),
    )


def _not_counted(brief: Brief) -> tuple[str, ...]:
    """Return which fixings are not counted, for want of a screw to count."""
    framed = brief.board.support != "pads"
    wished = {"frame_screw": framed, "fascia_screw": bool(brief.fascia.sides)}
    return tuple(
        told for name, told in UNCOUNTED.items()
        if wished[name] and getattr(brief.fixings, name) is None
    )  # fmt: skip


def _not_ordered(brief: Brief) -> tuple[str, ...]:
    """Return what is not in the order, for the brief names no article for it."""
    ground = brief.groundwork
    articles = (("end-grain preserver", brief.finish.preserver), ("ground fabric", ground.fabric),
                ("gravel", ground.gravel), ("packers", ground.packer))  # fmt: skip
    left = [name for name, article in articles if article is None]
    if brief.board.support == "pads":  # no timber, and the pads are named
        left.remove("end-grain preserver")
    if brief.raised.post is not None:
        left.remove("packers")  # posts lift the frame
    left += [TRIMS[brief.board.support]] if brief.board.support else []
    left += _standing_not_ordered(brief)
    left += ["lights, their cable and supply"] if brief.lights.count else []
    return (f"not in this order: {', '.join(left)}",) if left else ()


def _standing_not_ordered(brief: Brief) -> list[str]:
    """Return what of a deck that stands no article is named for, or none can be."""
    raised = brief.raised
    if raised.post is None:
        return []
    mixed = raised.footing != "ground screw"
    parts = (
        ("concrete mix", mixed and raised.concrete is None),
        ("ground screws", not mixed),
        ("feet of posts", raised.foot == "metal foot" and raised.post_foot is None),
        ("posts, infill and handrails of guards", brief.guards.infill is not None),
        ("stringers, treads and handrails of steps", brief.steps.side is not None),
    )
    return [name for name, lacks in parts if lacks]


def _ground_not_checked(brief: Brief) -> tuple[str, ...]:
    """Return what of the ground is not checked: its levels are where the brief gives points."""
    house, levels = brief.house, brief.levels
    beside = (house.dpc_mm, house.floor_mm, house.door_leaf_mm, house.sill_mm, *house.air_bricks)
    if not levels.points:
        by_house = "" if any(found is not None for found in beside) else "levels beside the house, "
        return (f"ground, drainage, {by_house}buried services",)
    if levels.lowest_mm is None:
        return ("ground: what it bears, drainage, buried services",)
    return ("ground: what it bears, where rain runs beyond the points measured, buried services",)


def _house_not_checked(brief: Brief) -> tuple[str, ...]:
    """Return what of the house is not checked, if anything."""
    house = brief.house
    checked = (
        ("damp course", house.dpc_mm is not None),
        ("air bricks", bool(house.air_bricks)),
        ("doors", house.door_leaf_mm is not None or house.door_opens in {"inward", "sliding"}),
    )
    left = [name for name, given in checked if not given]
    if house != HouseWish():
        return (f"the house: {', '.join(left)}",) if left else ()
    return (f"the house: {', '.join(left)}, and {GAP_IS_YOURS}",)
