"""Footings: how large, how thick, how deep, how much concrete; rounded up wherever one builds."""

from collections.abc import Iterator
from fractions import Fraction

from drylay.findings import Finding, Severity, against
from drylay.groundwork.footing_faults import (
    above_nothing,
    bag_faults,
    from_nothing,
    kind_faults,
    limit_faults,
    post_faults,
    refuse,
    rules_faults,
    shape_faults,
)
from drylay.groundwork.footing_growth import (
    PI_HIGH,
    PI_LOW,
    Asked,
    Body,
    across_mm,
    least_body,
    over_mm,
    own_of,
    spread_mm,
    stepped_size_mm,
    up,
    weight_kn_m2,
)
from drylay.groundwork.model import Footing, FootingRules
from drylay.groundwork.rounding import MM2_PER_M2, MM3_PER_M3, litres_up, said
from drylay.regions.model import Bag, Limit, RegionPack, Soil


def footing_rules(pack: RegionPack) -> FootingRules:
    """Return a region's limits for footings."""
    limits = {limit.name: limit for limit in pack.limits}
    return FootingRules(
        square_least=limits["footing_square_least_mm"],
        round_least=limits["footing_round_least_mm"],
        thick_least=limits["footing_thick_least_mm"],
        depth_least=limits["footing_depth_least_mm"],
        frost=limits["frost_depth_mm"],
    )


def footing_size_mm(
    *, load_kn: float, bearing_kn_m2: float, shape: str, step_mm: float, least_mm: float = 0.0
) -> float:
    """Return the side of a square footing or the diameter of a round one, up to a whole step.

    Raises:
        InputError: A figure is not above 0, or the shape neither.

    Source: statics, load over area; holds for a load on the footing's middle. Tables
        of the International Residential Code take the load without the concrete's own weight;
        `footing_for` takes that weight off the bearing first.
    """
    figures = above_nothing(load_kn=load_kn, bearing_kn_m2=bearing_kn_m2, step_mm=step_mm)
    refuse([*figures, *from_nothing(least_mm=least_mm), *shape_faults(shape)])
    return stepped_size_mm(shape, said(load_kn) / said(bearing_kn_m2), step_mm, least_mm)


def footing_for(
    *,
    kind: str,
    shape: str,
    load_kn: float,
    soil: Soil,
    soil_named: bool,
    post_mm: float,
    rules: FootingRules,
    bag: Bag,
    frost_mm: float | None = None,
    post_depth_mm: float = 0.0,
    step_mm: float = 10.0,
    pier: bool = False,
) -> Footing | tuple[Finding, ...]:
    """Return a footing that carries its load, or the stops that keep it from being told.

    Args:
        kind: "pad", concrete at the hole's bottom, or "concreted hole", filled to the ground.
        soil_named: Whether the brief names the soil; else it is the one that the pack assumes.
        post_mm: Side of the square post.
        frost_mm: The place's own frost line; None leaves it to the region, which may not know it.
            The deeper of the two holds.
        post_depth_mm: How deep the post stands in the concrete, which is at least 100 mm thicker.
        step_mm: What sizes are rounded up to: 10, or an inch.
        pier: Whether a pier of concrete stands on a pad that ends below the ground, up to it, for
            the foot of a post. One as broad as its pad fills the hole.

    Raises:
        InputError: A figure is not above 0, the frost line or the post's depth below 0, the kind or
            the shape none there is, or a figure of soil, rules or bag cannot be meant; all at once.
    """
    bears = soil.bearing.value
    known = {} if bears is None else {"soil.bearing.value": bears}
    figures = above_nothing(load_kn=load_kn, post_mm=post_mm, step_mm=step_mm, **known)
    depths = from_nothing(frost_mm=frost_mm, post_depth_mm=post_depth_mm)
    words = [*kind_faults(kind), *shape_faults(shape)]
    refuse([*words, *figures, *depths, *rules_faults(rules), *bag_faults(bag)])
    stops = (*_soil_stops(soil), *_frost_stops(rules.frost, frost_mm))
    if stops or bears is None:
        return stops
    asked = Asked(
        kind=kind, shape=shape, load_kn=load_kn, side_mm=post_mm, bearing_kn_m2=bears,
        buried_mm=max(_frost_mm(rules.frost, frost_mm), rules.depth_least.value or 0.0),
        thick_least_mm=rules.thick_least.value or 0.0, step_mm=step_mm,
        size_least_mm=_size_least(rules, shape).value or 0.0,
        post_depth_mm=post_depth_mm, pier=pier and kind == "pad",
    )  # fmt: skip
    body = least_body(asked)
    if isinstance(body, float):
        return (_heavy(soil, body),)
    volume = concrete_m3(
        shape=shape, size_mm=body.size_mm, depth_mm=body.tall_mm, post_mm=post_mm,
        post_depth_mm=post_depth_mm,
    ) + pier_m3(shape=shape, pier_mm=body.pier_mm, tall_mm=over_mm(body))  # fmt: skip
    return Footing(
        kind=kind,
        shape=shape,
        load_kn=load_kn,
        soil=soil.name,
        soil_named=soil_named,
        bearing_kn_m2=bears,
        size_mm=body.size_mm,
        thickness_mm=body.tall_mm,
        depth_mm=body.depth_mm,
        pier_mm=body.pier_mm,
        own_kn_m2=own_of(body),
        carries_kn=_carried_kn(shape, body.size_mm, float(_left(bears, body))),
        concrete_m3=litres_up(volume),
        bag=bag.name,
        bags=bags_for(volume, bag),
    )


def pier_m3(*, shape: str, pier_mm: float, tall_mm: float) -> Fraction:
    """Return the concrete of a pier so broad and tall; none where it has no breadth.

    Raises:
        InputError: A figure is below 0, or the shape none there is.
    """
    refuse([*from_nothing(pier_mm=pier_mm, tall_mm=tall_mm), *shape_faults(shape)])
    squared = said(pier_mm) ** 2
    area = squared if shape == "square" else squared * PI_HIGH / 4
    return area * said(tall_mm) / MM3_PER_M3


def own_kn_m2(tall_mm: float) -> float:
    """Return what concrete so tall weighs on the ground under it; earth dug out is not set off.

    Raises:
        InputError: It is less than 0 tall.
    """
    refuse(from_nothing(tall_mm=tall_mm))
    return weight_kn_m2(tall_mm)


def _left(bearing_kn_m2: float, body: Body) -> Fraction:
    """Return what the ground bears beside a footing's concrete."""
    return said(bearing_kn_m2) - said(own_of(body))


def _heavy(soil: Soil, own: float) -> Finding:
    message = (
        "concrete so deep or so large weighs as much as this soil bears: an engineer or a licensed "
        "person says what to stand on"
    )
    return against(soil.bearing, own, "FTG-007", Severity.STOP, soil.name, message)


def thickness_mm(size_mm: float, post_mm: float, least: Limit, step_mm: float) -> float:
    """Return how thick a footing is at least: as much as it reaches past the post, up to a step.

    Raises:
        InputError: A size or the step is not above 0, or the limit below 0.

    Source: plain concrete spreads a load at 45 degrees at most; from memory, Approved Document A
        and the International Residential Code alike.
    """
    sizes = above_nothing(size_mm=size_mm, post_mm=post_mm, step_mm=step_mm)
    refuse([*sizes, *limit_faults("least", least)])
    return max(spread_mm(size_mm, post_mm, step_mm), least.value or 0.0)


def carried_kn(shape: str, size_mm: float, bearing_kn_m2: float) -> float:
    """Return what a footing carries: its area times what the soil bears.

    Raises:
        InputError: A figure is not above 0, or the shape none there is.

    Source: statics.
    """
    figures = above_nothing(size_mm=size_mm, bearing_kn_m2=bearing_kn_m2)
    refuse([*figures, *shape_faults(shape)])
    return _carried_kn(shape, size_mm, bearing_kn_m2)


def _carried_kn(shape: str, size_mm: float, bearing_kn_m2: float) -> float:
    squared = said(size_mm) ** 2
    area = squared if shape == "square" else squared * PI_LOW / 4
    return float(area * said(bearing_kn_m2) / MM2_PER_M2)


def concrete_m3(
    *, shape: str, size_mm: float, depth_mm: float, post_mm: float, post_depth_mm: float
) -> Fraction:
    """Return the concrete that fills a footing, without the post that stands in it.

    Raises:
        InputError: The post stands deeper than the concrete, or does not go in; a size is not above
            0, or the shape none there is.
    """
    sizes = {"size_mm": size_mm, "depth_mm": depth_mm, "post_mm": post_mm}
    needs_mm = 0.0 if above_nothing(post_mm=post_mm) else across_mm(shape, post_mm)
    stands = post_faults(needs_mm, post_depth_mm=post_depth_mm, **sizes)
    refuse([*shape_faults(shape), *stands])
    squared = said(size_mm) ** 2
    area = squared if shape == "square" else squared * PI_HIGH / 4
    return (area * said(depth_mm) - said(post_mm) ** 2 * said(post_depth_mm)) / MM3_PER_M3


def bags_for(volume_m3: Fraction, bag: Bag) -> int:
    """Return how many whole bags make so much concrete: one at least.

    Raises:
        InputError: The volume is below 0, or the bag makes nothing.
    """
    refuse([*from_nothing(volume_m3=volume_m3), *bag_faults(bag)])
    assert bag.made_m3.value is not None  # a bag that makes nothing is none
    return up(volume_m3 / said(bag.made_m3.value))


def _size_least(rules: FootingRules, shape: str) -> Limit:
    return rules.square_least if shape == "square" else rules.round_least


def _frost_mm(frost: Limit, told_mm: float | None) -> float:
    """Return the deeper of the place's own frost line and the region's."""
    return max(told_mm or 0.0, frost.value or 0.0)


def _soil_stops(soil: Soil) -> Iterator[Finding]:
    if soil.poor or soil.bearing.value is None:
        yield Finding(
            code="FTG-002",
            severity=Severity.STOP,
            subject=soil.name,
            message="no bearing is presumed of this soil: an engineer or a licensed person says it",
            source=soil.bearing.source,
        )


def _frost_stops(frost: Limit, told_mm: float | None) -> Iterator[Finding]:
    if told_mm is None and frost.value is None:
        yield Finding(
            code="FTG-003",
            severity=Severity.STOP,
            subject="frost line",
            message="nobody knows how deep the ground freezes here: ask the local authority",
            source=frost.source,
        )
