"""A footing grown until it carries its load and itself: the least in whole steps that does.

Its verbs are asked by those of `footings`, which refuse what cannot be meant.
"""

from fractions import Fraction
from math import ceil, isqrt, sqrt

from attrs import evolve, frozen

from drylay.groundwork.rounding import MM2_PER_M2, MM_PER_M, said

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


@frozen(kw_only=True)
class Asked:
    """What a footing is asked for: a square post, its load and ground, and how it is to stand.

    `thick_least_mm` and `size_least_mm` are what rules set, `buried_mm` how deep its underside lies
    at least.
    """

    kind: str
    shape: str
    load_kn: float
    side_mm: float
    bearing_kn_m2: float
    buried_mm: float
    thick_least_mm: float
    size_least_mm: float
    step_mm: float
    post_depth_mm: float = 0.0
    pier: bool = False


@frozen(kw_only=True)
class Body:
    """A footing's concrete: how large, how deep its underside lies, how tall it is, its pier."""

    size_mm: float
    depth_mm: float
    tall_mm: float
    pier_mm: float = 0.0


def least_body(asked: Asked) -> Body | float:
    """Return the least concrete that carries a post and itself.

    A larger footing is thicker and weighs more, so it grows until it carries both; where it never
    does, what is returned is the weight, in kN/m2, that the soil does not bear. It grows by one
    step, or by more where nothing between can carry.
    """
    size, stride = _size_beside(asked, 0.0), 1
    while True:
        thick = _thick(asked, size)
        body = _shaped(asked, size, thick)
        if _too_heavy(asked, body, thick):
            return own_of(body)
        if _carries(asked, body):
            return body
        while stride > 1 and not _none_to(asked, _further(size, asked.step_mm, stride - 1), thick):
            stride //= 2
        size, stride = _further(size, asked.step_mm, stride), stride * 2


def _none_to(asked: Asked, size_mm: float, thick_mm: float) -> bool:
    """Return whether no size up to this carries, of those no thinner, and none is too heavy.

    A larger one is thicker, and its pier weighs less on each m2: this size, so thin, is the
    lightest of them all.
    """
    thick = _thick(asked, size_mm)
    if _too_heavy(asked, _shaped(asked, size_mm, thick), thick):
        return False
    return not _carries(asked, _shaped(asked, size_mm, thick_mm))


def _too_heavy(asked: Asked, body: Body, thick_mm: float) -> bool:
    """Return whether the ground bears no concrete so thick, nor any thicker."""
    alone = weight_kn_m2(thick_mm) >= asked.bearing_kn_m2
    return alone or (not asked.pier and own_of(body) >= asked.bearing_kn_m2)


def _carries(asked: Asked, body: Body) -> bool:
    own = own_of(body)
    return own < asked.bearing_kn_m2 and _size_beside(asked, own) <= body.size_mm


def _size_beside(asked: Asked, own: float) -> float:
    """Return the size that carries the load on what concrete so heavy leaves of the bearing."""
    left = float(said(asked.bearing_kn_m2) - said(own))
    least_mm = max(asked.size_least_mm, across_mm(asked.shape, asked.side_mm))
    area_m2 = said(asked.load_kn) / said(left)
    return stepped_size_mm(asked.shape, area_m2, asked.step_mm, least_mm)


def _thick(asked: Asked, size_mm: float) -> float:
    spread = spread_mm(size_mm, asked.side_mm, asked.step_mm)
    thick = max(spread, asked.thick_least_mm)
    return max(thick, _under_the_post(asked.post_depth_mm, asked.step_mm))


def _further(size_mm: float, step_mm: float, steps: int) -> float:
    """Return a size so many whole steps larger."""
    step = said(step_mm)
    return float((said(size_mm) // step + steps) * step)


def _shaped(asked: Asked, size_mm: float, thick_mm: float) -> Body:
    """Return the concrete of a footing so large and thick: filled up, a pad, or with its pier."""
    depth_mm = max(asked.buried_mm, thick_mm)
    filled = Body(size_mm=size_mm, depth_mm=depth_mm, tall_mm=depth_mm)
    if asked.kind == "concreted hole" or depth_mm == thick_mm:
        return filled
    pad = Body(size_mm=size_mm, depth_mm=depth_mm, tall_mm=thick_mm)
    if not asked.pier:
        return pad
    step = said(asked.step_mm)
    across = said(across_mm(asked.shape, asked.side_mm)) + 2 * PIER_PAST_MM
    wide = float(ceil(across / step) * step)
    return filled if wide >= size_mm else evolve(pad, pier_mm=wide)


def _under_the_post(post_depth_mm: float, step_mm: float) -> float:
    """Return how thick concrete is at least that a post stands in: deeper than it, up to a step."""
    if not post_depth_mm:
        return 0.0
    step = said(step_mm)
    return float(ceil((said(post_depth_mm) + UNDER_POST_MM) / step) * step)


def over_mm(body: Body) -> float:
    """Return how tall a pier is: from its pad's top to the ground."""
    return float(said(body.depth_mm) - said(body.tall_mm))


def own_of(body: Body) -> float:
    """Return what a footing's concrete weighs on the ground under it, its pier spread over it."""
    if not body.pier_mm:
        return weight_kn_m2(body.tall_mm)
    share = (said(body.pier_mm) / said(body.size_mm)) ** 2
    tall = said(body.tall_mm) + said(over_mm(body)) * share
    return float(tall * said(CONCRETE_KN_M3) / MM_PER_M)


def weight_kn_m2(tall_mm: float) -> float:
    """Return what concrete so tall weighs on the ground under it."""
    return float(said(tall_mm) * said(CONCRETE_KN_M3) / MM_PER_M)


def spread_mm(size_mm: float, post_mm: float, step_mm: float) -> float:
    """Return how far a footing reaches past its post, up to a step."""
    step = said(step_mm)
    reach = (said(size_mm) - said(post_mm)) / 2
    return float(ceil(reach / step) * step)


def stepped_size_mm(shape: str, area_m2: Fraction, step_mm: float, least_mm: float) -> float:
    """Return the side or the diameter of an area, up to a whole step."""
    area = area_m2 * MM2_PER_M2
    squared = area if shape == "square" else area * 4 / PI_LOW
    step = said(step_mm)
    steps = isqrt(up(squared / step**2) - 1) + 1
    return float(max(steps, ceil(said(least_mm) / step)) * step)


def across_mm(shape: str, post_mm: float) -> float:
    """Return the least size that a square post goes into: its side, or corner to corner."""
    return post_mm if shape == "square" else post_mm * sqrt(2)


def up(figure: Fraction) -> int:
    """Return the next whole number, 1 at least; what units lost as they were turned is none."""
    return max(1, ceil(figure * (1 - TURNED)))
