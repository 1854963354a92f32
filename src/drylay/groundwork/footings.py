"""Footings: how large, how thick, how deep, how much concrete; rounded up wherever one builds."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, isfinite, isqrt, sqrt

from attrs import evolve, frozen

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity, against
from drylay.groundwork.model import Footing, FootingRules
from drylay.groundwork.rounding import MM2_PER_M2, MM3_PER_M3, MM_PER_M, litres_up, said
from drylay.regions.model import Bag, Limit, RegionPack, Soil

SHAPES = ("square", "round")
KINDS = ("pad", "concreted hole")
#: The ratio of a circle to its diameter lies between these.
PI_LOW, PI_HIGH = Fraction("3.14159265358979"), Fraction("3.14159265358980")
#: What concrete weighs. Source: EN 1991-1-1, table A.1, plain concrete of normal weight, from
#: memory; 150 pcf, which North America takes, is less.
CONCRETE_KN_M3 = 24.0
#: How much concrete lies under the end of a post that stands in it. Common practice, no source.
UNDER_POST_MM = 100
#: How much a pier reaches past its post on every side. Common practice, no source.
PIER_PAST_MM = 50
#: What units lose as they are turned into one another, as a share: no size grows by a step for it.
TURNED = Fraction(1, 10**9)


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
    _refuse(shape, load_kn=load_kn, bearing_kn_m2=bearing_kn_m2, step_mm=step_mm)
    area = said(load_kn) / said(bearing_kn_m2) * MM2_PER_M2
    squared = area if shape == "square" else area * 4 / PI_LOW
    step = said(step_mm)
    steps = isqrt(_up(squared / step**2) - 1) + 1
    return float(max(steps, ceil(said(least_mm) / step)) * step)


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
        InputError: A figure is not above 0, or the kind or the shape neither.
    """
    if kind not in KINDS:
        raise _fault("kind", repr(kind), " or ".join(KINDS))
    _refuse(shape, load_kn=load_kn, post_mm=post_mm, step_mm=step_mm)
    if frost_mm is not None and not (isfinite(frost_mm) and frost_mm >= 0):
        raise _fault("frost_mm", f"{frost_mm:g} mm", "0 mm or more")
    stops = (*_soil_stops(soil), *_frost_stops(rules.frost, frost_mm))
    if stops or soil.bearing.value is None:
        return stops
    asked = Asked(kind=kind, shape=shape, load_kn=load_kn, side_mm=post_mm,
                  post_depth_mm=post_depth_mm, pier=pier and kind == "pad")  # fmt: skip
    body = _body(asked, soil.bearing.value, rules, frost_mm, step_mm)
    if isinstance(body, float):
        return (_heavy(soil, body),)
    volume = concrete_m3(
        shape=shape,
        size_mm=body.size_mm,
        depth_mm=body.tall_mm,
        post_mm=post_mm,
        post_depth_mm=post_depth_mm,
    ) + pier_m3(shape=shape, pier_mm=body.pier_mm, tall_mm=_over(body))
    return Footing(
        kind=kind,
        shape=shape,
        load_kn=load_kn,
        soil=soil.name,
        soil_named=soil_named,
        bearing_kn_m2=soil.bearing.value,
        size_mm=body.size_mm,
        thickness_mm=body.tall_mm,
        depth_mm=body.depth_mm,
        pier_mm=body.pier_mm,
        own_kn_m2=_own(body),
        carries_kn=carried_kn(shape, body.size_mm, float(_left(soil.bearing.value, body))),
        concrete_m3=litres_up(volume),
        bag=bag.name,
        bags=bags_for(volume, bag),
    )


@frozen(kw_only=True)
class Asked:
    """What a footing is asked for: a square post, its load, and how it is to stand."""

    kind: str
    shape: str
    load_kn: float
    side_mm: float
    post_depth_mm: float = 0.0
    pier: bool = False


@frozen(kw_only=True)
class Body:
    """A footing's concrete: how large, how deep its underside lies, how tall it is, its pier."""

    size_mm: float
    depth_mm: float
    tall_mm: float
    pier_mm: float = 0.0


def _body(
    asked: Asked, bearing_kn_m2: float, rules: FootingRules, frost_mm: float | None, step_mm: float
) -> Body | float:
    """Return the least concrete that carries a post and itself.

    A larger footing is thicker and weighs more, so it grows until it carries both; where it never
    does, what is returned is the weight, in kN/m2, that the soil does not bear.
    """
    least = rules.square_least if asked.shape == "square" else rules.round_least
    buried = max(_frost_mm(rules.frost, frost_mm), rules.depth_least.value or 0.0)
    least_mm = max(least.value or 0.0, _across_mm(asked.shape, asked.side_mm))

    def size_beside(own: float) -> float:
        left = said(bearing_kn_m2) - said(own)
        return footing_size_mm(load_kn=asked.load_kn, bearing_kn_m2=float(left),
                               shape=asked.shape, step_mm=step_mm, least_mm=least_mm)  # fmt: skip

    size = size_beside(0.0)
    while True:
        thick = thickness_mm(size, asked.side_mm, rules.thick_least, step_mm)
        thick = max(thick, _under_the_post(asked.post_depth_mm, step_mm))
        body = _shaped(asked, size, thick, max(buried, thick), step_mm)
        if own_kn_m2(thick) >= bearing_kn_m2 or (not asked.pier and _own(body) >= bearing_kn_m2):
            return _own(body)
        if _own(body) < bearing_kn_m2 and size_beside(_own(body)) <= size:
            return body
        size = _next(size, step_mm)


def _next(size_mm: float, step_mm: float) -> float:
    """Return the next larger size in whole steps."""
    step = said(step_mm)
    return float((said(size_mm) // step + 1) * step)


def _shaped(asked: Asked, size_mm: float, thick_mm: float, depth_mm: float, step_mm: float) -> Body:
    """Return the concrete of a footing so large and thick: filled up, a pad, or with its pier."""
    filled = Body(size_mm=size_mm, depth_mm=depth_mm, tall_mm=depth_mm)
    if asked.kind == "concreted hole" or depth_mm == thick_mm:
        return filled
    pad = Body(size_mm=size_mm, depth_mm=depth_mm, tall_mm=thick_mm)
    if not asked.pier:
        return pad
    step = said(step_mm)
    across = said(_across_mm(asked.shape, asked.side_mm)) + 2 * PIER_PAST_MM
    wide = float(ceil(across / step) * step)
    return filled if wide >= size_mm else evolve(pad, pier_mm=wide)


def _over(body: Body) -> float:
    """Return how tall a pier is: from its pad's top to the ground."""
    return float(said(body.depth_mm) - said(body.tall_mm))


def _own(body: Body) -> float:
    """Return what a footing's concrete weighs on the ground under it, its pier spread over it."""
    if not body.pier_mm:
        return own_kn_m2(body.tall_mm)
    share = (said(body.pier_mm) / said(body.size_mm)) ** 2
    tall = said(body.tall_mm) + said(_over(body)) * share
    return float(tall * said(CONCRETE_KN_M3) / MM_PER_M)


def pier_m3(*, shape: str, pier_mm: float, tall_mm: float) -> Fraction:
    """Return the concrete of a pier so broad and tall; none where it has no breadth."""
    squared = said(pier_mm) ** 2
    area = squared if shape == "square" else squared * PI_HIGH / 4
    return area * said(tall_mm) / MM3_PER_M3


def _under_the_post(post_depth_mm: float, step_mm: float) -> float:
    """Return how thick concrete is at least that a post stands in: deeper than it, up to a step."""
    if not post_depth_mm:
        return 0.0
    step = said(step_mm)
    return float(ceil((said(post_depth_mm) + UNDER_POST_MM) / step) * step)


def own_kn_m2(tall_mm: float) -> float:
    """Return what concrete so tall weighs on the ground under it; earth dug out is not set off."""
    return float(said(tall_mm) * said(CONCRETE_KN_M3) / MM_PER_M)


def _left(bearing_kn_m2: float, body: Body) -> Fraction:
    """Return what the ground bears beside a footing's concrete."""
    return said(bearing_kn_m2) - said(_own(body))


def _heavy(soil: Soil, own: float) -> Finding:
    message = (
        "concrete so deep or so large weighs as much as this soil bears: an engineer or a licensed "
        "person says what to stand on"
    )
    return against(soil.bearing, own, "FTG-007", Severity.STOP, soil.name, message)


def thickness_mm(size_mm: float, post_mm: float, least: Limit, step_mm: float) -> float:
    """Return how thick a footing is at least: as much as it reaches past the post, up to a step.

    Source: plain concrete spreads a load at 45 degrees at most; from memory, Approved Document A
        and the International Residential Code alike.
    """
    step = said(step_mm)
    reach = (said(size_mm) - said(post_mm)) / 2
    return max(float(ceil(reach / step) * step), least.value or 0.0)


def carried_kn(shape: str, size_mm: float, bearing_kn_m2: float) -> float:
    """Return what a footing carries: its area times what the soil bears. Source: statics."""
    squared = said(size_mm) ** 2
    area = squared if shape == "square" else squared * PI_LOW / 4
    return float(area * said(bearing_kn_m2) / MM2_PER_M2)


def concrete_m3(
    *, shape: str, size_mm: float, depth_mm: float, post_mm: float, post_depth_mm: float
) -> Fraction:
    """Return the concrete that fills a footing, without the post that stands in it.

    Raises:
        InputError: The post stands deeper than the concrete, or does not go in.
    """
    if not 0 <= post_depth_mm <= depth_mm:
        raise _fault("post_depth_mm", f"{post_depth_mm:g} mm", f"0 to {depth_mm:g} mm")
    if post_depth_mm and _across_mm(shape, post_mm) > size_mm:
        raise _fault("post_mm", f"{post_mm:g} mm", f"a post that goes into {size_mm:g} mm")
    squared = said(size_mm) ** 2
    area = squared if shape == "square" else squared * PI_HIGH / 4
    return (area * said(depth_mm) - said(post_mm) ** 2 * said(post_depth_mm)) / MM3_PER_M3


def bags_for(volume_m3: Fraction, bag: Bag) -> int:
    """Return how many whole bags make so much concrete."""
    assert bag.made_m3.value is not None  # a bag that makes nothing is none
    return _up(volume_m3 / said(bag.made_m3.value))


def _across_mm(shape: str, post_mm: float) -> float:
    """Return the least size that a square post goes into: its side, or corner to corner."""
    return post_mm if shape == "square" else post_mm * sqrt(2)


def _up(figure: Fraction) -> int:
    return max(1, ceil(figure * (1 - TURNED)))


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


def _refuse(shape: str, **figures: float) -> None:
    faults = [
        Fault(path=path, found=f"{figure:g}", wanted="a figure above 0")
        for path, figure in figures.items()
        if not (isfinite(figure) and figure > 0)
    ]
    if shape not in SHAPES:
        faults.append(Fault(path="shape", found=repr(shape), wanted=" or ".join(SHAPES)))
    if faults:
        raise InputError(tuple(faults))


def _fault(path: str, found: str, wanted: str) -> InputError:
    return InputError((Fault(path=path, found=found, wanted=wanted),))
