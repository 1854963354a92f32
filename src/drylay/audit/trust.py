"""What an audit takes on trust: values that no witness at hand can vouch for."""

from collections.abc import Iterator

from drylay.audit.leaves import NoSuchPath, at
from drylay.audit.model import Trustable, Trusted, Witness
from drylay.audit.outlined_witnessed import RULED_AS, ruled
from drylay.audit.ranking import LIMITS, given, quoted
from drylay.plan.model import Plan

#: Sizes and prices that only the stock can vouch for.
FROM_STOCK = (
    "surface.board_width_mm",
    "surface.board_thickness_mm",
    "surface.groove_mm",
    "surface.border.width_mm",
    "surface.border.thickness_mm",
    "surface.border.groove_mm",
    "edges.fascia_thickness_mm",
    "edges.fascia_depth_mm",
    "frame.timber_thickness_mm",
    "frame.timber_depth_mm",
    "laying.board_width_mm",
    "laying.board_thickness_mm",
    "subframe.timber_thickness_mm",
    "subframe.timber_depth_mm",
    "subframe.facing_thickness_mm",
    "subframe.facing_depth_mm",
    "fixings.deck_screws.shank_mm",
    "fixings.deck_screws.length_mm",
    "fixings.border_screws.shank_mm",
    "fixings.border_screws.length_mm",
    "fixings.coach_screws.shank_mm",
    "fixings.coach_screws.length_mm",
    "fixings.coach_screws.head_mm",
    "fixings.frame_screws.shank_mm",
    "fixings.frame_screws.length_mm",
    "fixings.double_screws.shank_mm",
    "fixings.double_screws.length_mm",
    "fixings.fascia_screws.shank_mm",
    "fixings.fascia_screws.length_mm",
    "fixings.hangers.joist_mm",
    "fixings.hangers.depth_mm",
    "fixings.hangers.screws_each",
    "fixings.hangers.screw_shank_mm",
    "fixings.hangers.screw_length_mm",
    "fixings.clips.gap_mm",
    "pieces.mass_kg",
    "fixings.preserver.covers_m2_per_l",
    "fixings.finish.covers_m2_per_l",
    "fixings.wax.covers_m2_per_l",
    "buying.delivery.board_kg_m",
    "buying.delivery.border_kg_m",
    "buying.order_total",
    "buying.spares_total",
    "tiling.tile_length_mm",
    "tiling.tile_mass_kg",
    "tiling.pads.reach_least_mm",
    "tiling.pads.reach_most_mm",
)

#: Wishes that only the brief can vouch for.
FROM_BRIEF = (
    "surface.cover_along_mm",
    "surface.cover_across_mm",
    "surface.cover_change_mm",
    "surface.border.rows",
    "laying.angle_deg",
    "laying.border_courses",
    "laying.joint_price",
    "pieces.joint_price",
    "pieces.border.joint_price",
    "pieces.trim_allowance_mm",
    "site.exposure",
    "site.wall_gap_mm",
    "site.levels.deck_top_mm",
    "site.levels.ground_most_mm",
    "site.levels.ground_least_mm",
    "site.levels.edge_least_mm",
    "site.levels.fall_to_house_mm",
    "site.levels.garden_lowest_mm",
    "fixings.finish.face_up",
    "tiling.support",
    "tiling.cover_change_mm",
)


#: What a design basis or a region says: no witness at hand tells it.
FROM_RULES = (
    "strength.dead_kn_m2",
    "strength.imposed_kn_m2",
    "strength.point_kn",
    "footings.bearing_kn_m2",
    "guards.trigger_mm",
    "guards.out_mm",
    "guards.height_mm",
    "guards.ball_mm",
    "guards.post_spacing_most_mm",
)
#: Values of the wood itself that checks of timber quote; a bending strength is in its class's name.
OF_WOOD = ("f_v,k", "f_c,90,k", "f_c,0,d", "f_m,d", "E_0,mean", "G_mean")


def trusted(plan: Plan, witness: Witness | None) -> tuple[Trusted, ...]:
    """Return every value that stands on the plan's own word in this audit."""
    seen = witness or Witness()
    return (
        *_limits(plan, seen),
        *_outlined_limits(plan, seen),
        *_named(plan, () if seen.stock is not None else FROM_STOCK),
        *_named(plan, () if seen.brief is not None else FROM_BRIEF),
        *_named(plan, FROM_RULES),
        *_grounds(plan, seen),
        *_woods(plan),
        *_costs(plan),
        *_solver_bounds(plan),
    )


def _limits(plan: Plan, witness: Witness) -> Iterator[Trusted]:
    for limit in LIMITS:
        try:
            value = quoted(plan, limit)
        except NoSuchPath:
            continue
        if given(plan, limit, witness) is None:
            yield Trusted(path=limit.path, value=value)


def _outlined_limits(plan: Plan, witness: Witness) -> Iterator[Trusted]:
    """Yield the limits of a deck on an outline that no witness can tell."""
    if plan.laying is None or plan.subframe is None:
        return
    for path in (*RULED_AS, "subframe.most_centres_mm"):
        value = at(plan, path)
        told = witness.brief is not None and ruled(plan, path, witness) is not None
        if value is not None and not told:
            yield Trusted(path=path, value=_scalar(value))


def _named(plan: Plan, paths: tuple[str, ...]) -> Iterator[Trusted]:
    for path in paths:
        try:
            value = at(plan, path)
        except NoSuchPath:
            continue
        if value is not None:
            yield Trusted(path=path, value=_scalar(value))


def _grounds(plan: Plan, witness: Witness) -> Iterator[Trusted]:
    """Yield the ground under every post where no brief tells what was measured."""
    posts = plan.raised.frame.posts if plan.raised is not None else ()
    for index, post in enumerate(posts if witness.brief is None else ()):
        yield Trusted(path=f"raised.frame.posts[{index}].ground_mm", value=post.ground_mm)


def _woods(plan: Plan) -> Iterator[Trusted]:
    """Yield each value of wood that checks quote, where it is quoted first; limits without any."""
    seen: set[tuple[str, Trustable]] = set()
    for place, screened in enumerate(plan.strength.screened if plan.strength is not None else ()):
        for number, check in enumerate(screened.checks):
            at_check = f"strength.screened[{place}].checks[{number}]"
            told = dict(check.inputs)
            for index, (name, value) in enumerate(check.inputs):
                if name in OF_WOOD and (name, value) not in seen:
                    seen.add((name, value))
                    yield Trusted(path=f"{at_check}.inputs[{index}]", value=value)
            if check.unit == "N/mm2" and "k_mod" not in told and ("", check.limit) not in seen:
                seen.add(("", check.limit))
                yield Trusted(path=f"{at_check}.limit", value=check.limit)


def _scalar(value: object) -> Trustable:
    return value if isinstance(value, int | float) else str(value)


def _costs(plan: Plan) -> Iterator[Trusted]:
    """Yield what other ways out are said to cost: to know, they would have to be planned."""
    for index, way in enumerate(plan.surface.ways_out if plan.surface is not None else ()):
        if way.cost is not None and not way.chosen:
            yield Trusted(path=f"surface.ways_out[{index}].cost", value=way.cost)
    for index, way in enumerate(plan.tiling.ways_out if plan.tiling is not None else ()):
        if way.cost is not None and not way.chosen:
            yield Trusted(path=f"tiling.ways_out[{index}].cost", value=way.cost)
    if plan.tiling is not None and plan.tiling.other is not None:
        yield Trusted(path="tiling.other.cost", value=plan.tiling.other.cost)


def _solver_bounds(plan: Plan) -> Iterator[Trusted]:
    for index, purchase in enumerate(plan.buying.purchases if plan.buying is not None else ()):
        if purchase.grade == "resting on the solver":
            yield Trusted(path=f"buying.purchases[{index}].bound", value=purchase.bound)
