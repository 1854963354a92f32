"""Footings: does the ground bear every post, deep enough, with concrete for all of them?"""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, sqrt

from drylay.audit.flaws import need, same_count, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import stand_of
from drylay.groundwork.model import Footing, Footings, PostFooting
from drylay.plan.model import Plan
from drylay.raised.model import Post
from drylay.reasons import Source

FOOTINGS = Source(kind="arithmetic", title="docs/guards-steps-footings.md", clause="Footings")
KINDS, SHAPES = ("pad", "concreted hole"), ("square", "round")
#: What concrete weighs, kN/m3: EN 1991-1-1 table A.1, from memory.
CONCRETE = Fraction(24)
#: The ratio of a circle to its diameter lies between these.
PI_LOW, PI_HIGH = Fraction("3.141592653589793"), Fraction("3.141592653589794")
#: What sums of floats, and units turned into one another, may lose as a share.
NOISE = Fraction(1, 10**6)


def footings_of(plan: Plan) -> Footings:
    """Return what posts stand on, if the plan tells it."""
    return need(plan.footings, "footings")


def _as_told(figure: float) -> Fraction:
    return Fraction(repr(float(figure)))


def _area(footing: Footing, pi: Fraction) -> Fraction:
    """Return what a footing covers, in m2."""
    squared = (_as_told(footing.size_mm) / 1000) ** 2
    return squared if footing.shape == "square" else squared * pi / 4


def _tall(footing: Footing) -> Fraction:
    """Return how tall a footing's concrete is, in mm: a pier as if spread over its pad."""
    tall, size = _as_told(footing.thickness_mm), _as_told(footing.size_mm)
    over = _as_told(footing.depth_mm) - tall
    return tall + over * (_as_told(footing.pier_mm) / size) ** 2 if footing.pier_mm else tall


def _less(subject: str, message: str, found: float, wanted: float, unit: str) -> Flaw:
    return Flaw(subject=subject, message=message, measured=found, limit=wanted, unit=unit,
                source=FOOTINGS)  # fmt: skip


def every_post_has_its_footing(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless one footing lies under each post, in order, with what comes down it."""
    footings, stand = footings_of(plan), stand_of(plan)
    message = "footings, one under each post"
    found, wanted = len(footings.under), len(stand.posts)
    yield from same_count("footings.under", message, found, wanted, FOOTINGS)
    asked = {} if plan.strength is None else {each.subject: each for each in plan.strength.posts}
    for number, (under, post) in enumerate(zip(footings.under, stand.posts, strict=False), 1):
        yield from same_text(under.mark, "wrong mark", under.mark, f"FT{number}", FOOTINGS)
        yield from same_text(under.mark, "under another post", under.post, post.mark, FOOTINGS)
        load = _as_told(under.dead_kn) + _as_told(under.live_kn)
        if _as_told(under.footing.load_kn) < load * (1 - NOISE):
            message = "made for less than comes down on it"
            yield _less(under.mark, message, under.footing.load_kn, float(load), "kN")
        if post.mark in asked:
            screened = asked[post.mark]
            for name in ("dead_kn", "live_kn"):
                told, down = getattr(under, name), getattr(screened, name)
                if told < down * (1 - float(NOISE)):
                    message = f"{name}: less than its post was screened with"
                    yield _less(under.mark, message, told, down, "kN")


def the_ground_bears_every_footing(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each footing too small for its load and its own weight on its soil."""
    footings = footings_of(plan)
    for under in footings.under:
        footing, mark = under.footing, under.mark
        if footing.kind not in KINDS or footing.shape not in SHAPES:
            message = f"no such footing: {footing.shape} {footing.kind}"
            yield Flaw(subject=mark, message=message, source=FOOTINGS)
            continue
        own = _tall(footing) / 1000 * CONCRETE
        if abs(_as_told(footing.own_kn_m2) - own) > own * NOISE:
            message = "not what its concrete weighs"
            yield _less(mark, message, footing.own_kn_m2, float(own), "kN/m2")
        carries = _area(footing, PI_LOW) * (_as_told(footing.bearing_kn_m2) - own)
        if abs(_as_told(footing.carries_kn) - carries) > abs(carries) * NOISE:
            message = "not what its ground carries beside it"
            yield _less(mark, message, footing.carries_kn, float(carries), "kN")
        load = _as_told(footing.load_kn)
        if load > carries * (1 + NOISE):
            message = "the ground does not bear its load and its own weight"
            yield _less(mark, message, float(load), float(carries), "kN")


def footings_are_deep_enough(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each footing too thin, above the frost, or narrower than its post."""
    footings = footings_of(plan)
    posts = {post.mark: post for post in stand_of(plan).posts}
    for under in footings.under:
        footing, post = under.footing, posts.get(under.post)
        frost = footings.frost_mm or 0.0
        least = max(frost, footing.thickness_mm)
        if footing.depth_mm < least:
            message = "its underside lies above the frost, or above its own top"
            yield _less(under.mark, message, footing.depth_mm, least, "mm")
        if footing.kind == "concreted hole" and footing.thickness_mm < footing.depth_mm:
            message = "a hole not filled to the ground"
            yield _less(under.mark, message, footing.thickness_mm, footing.depth_mm, "mm")
        if post is not None:
            yield from _round_its_post(under, post)


def _round_its_post(under: PostFooting, post: Post) -> Iterator[Flaw]:
    footing, side = under.footing, max(post.section.breadth_mm, post.section.depth_mm)
    reach = (footing.size_mm - side) / 2
    if footing.thickness_mm < reach - float(NOISE):
        message = "thinner than it reaches past its post"
        yield _less(under.mark, message, footing.thickness_mm, reach, "mm")
    across = side if footing.shape == "square" else side * sqrt(2)
    if footing.size_mm < across - float(NOISE):
        message = "narrower than its post"
        yield _less(under.mark, message, footing.size_mm, across, "mm")
    yield from _carried_up(under, post, across)
    if post.embed_mm > footing.thickness_mm:
        message = "its post runs deeper than its concrete"
        yield _less(under.mark, message, footing.thickness_mm, post.embed_mm, "mm")


def _carried_up(under: PostFooting, post: Post, across: float) -> Iterator[Flaw]:
    """Yield a flaw where nothing carries a post's foot at the ground down to a pad below it."""
    footing, mark = under.footing, under.mark
    if footing.thickness_mm < footing.depth_mm and not footing.pier_mm and not post.embed_mm:
        message = "its pad ends below the ground, and nothing carries the post's foot over it"
        yield _less(mark, message, footing.thickness_mm, footing.depth_mm, "mm")
    if footing.pier_mm and not across - float(NOISE) <= footing.pier_mm <= footing.size_mm:
        message = "a pier narrower than its post, or broader than its pad"
        yield _less(mark, message, footing.pier_mm, across, "mm")


def concrete_fills_the_footings(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless concrete fills each footing, up to a litre, and adds up."""
    footings = footings_of(plan)
    for under, volume in _volumes(plan):
        litres = Fraction(ceil(volume * 1000), 1000)
        if abs(_as_told(under.footing.concrete_m3) - litres) > NOISE:
            message = "not the concrete that fills it, up to a litre"
            yield _less(under.mark, message, under.footing.concrete_m3, float(litres), "m3")
    summed = sum((_as_told(under.footing.concrete_m3) for under in footings.under), Fraction(0))
    if abs(_as_told(footings.concrete_m3) - summed) > NOISE:
        message = "not the sum of its footings"
        found = footings.concrete_m3
        yield _less("footings.concrete_m3", message, found, float(summed), "m3")


def _volumes(plan: Plan) -> Iterator[tuple[PostFooting, Fraction]]:
    """Yield every footing with what fills it, without the post that stands in it, in m3."""
    posts = {post.mark: post for post in stand_of(plan).posts}
    for under in footings_of(plan).under:
        footing, post = under.footing, posts.get(under.post)
        volume = _area(footing, PI_HIGH) * _tall(footing) / 1000
        if post is not None:
            side = max(post.section.breadth_mm, post.section.depth_mm)
            volume -= (_as_told(side) / 1000) ** 2 * _as_told(post.embed_mm) / 1000
        yield under, volume


def bags_fill_each_footing(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless whole bags fill each footing by itself, and add up.

    How much a bag makes is told where the mix is bought: its kg over those of a m3. Where none is,
    footings as large take as many bags.
    """
    footings = footings_of(plan)
    made: dict[float, int] = {}
    for under, volume in _volumes(plan):
        bags = made.setdefault(under.footing.concrete_m3, under.footing.bags)
        message = "other bags than another footing as large"
        yield from same_count(under.mark, message, under.footing.bags, max(bags, 1), FOOTINGS)
        if footings.mix_bag_kg and footings.mix_kg_m3:
            mass = volume * (1 - NOISE) * _as_told(footings.mix_kg_m3)
            least = ceil(mass / footings.mix_bag_kg)
            if under.footing.bags < least:
                message = "bags that do not fill it"
                yield _less(under.mark, message, under.footing.bags, least, "count")
    bags = sum(under.footing.bags for under in footings.under)
    message = "not the sum of its footings"
    yield from same_count("footings.bags", message, footings.bags, bags, FOOTINGS)
    if footings.mix_kg is not None:
        held = bags * (footings.mix_bag_kg or 0)
        message = "not what so many bags hold"
        yield from same_count("footings.mix_kg", message, footings.mix_kg, held, FOOTINGS)


def footings_are_of_one_kind(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each footing of another kind, shape, soil or bag than is told of all."""
    footings = footings_of(plan)
    for under in footings.under:
        for name in ("kind", "shape", "soil", "bag"):
            message = f"another {name} than is told of all"
            found, wanted = getattr(under.footing, name), getattr(footings, name)
            yield from same_text(under.mark, message, found, wanted, FOOTINGS)
        if under.footing.bearing_kn_m2 > footings.bearing_kn_m2:
            message = "its soil is said to bear more than that told of all"
            found, most = under.footing.bearing_kn_m2, footings.bearing_kn_m2
            yield _less(under.mark, message, found, most, "kN/m2")
    if not footings.soil_named and not any(f.code == "FTG-001" for f in plan.findings):
        message = "a soil was assumed, and no finding tells it"
        yield Flaw(subject="footings.soil", message=message, source=FOOTINGS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-341", "every post has its footing, with what comes down it", every_post_has_its_footing),
    ("AUD-342", "the ground bears every footing and its own weight",
     the_ground_bears_every_footing),
    ("AUD-343", "footings are thick and deep enough", footings_are_deep_enough),
    ("AUD-344", "concrete fills the footings, and adds up", concrete_fills_the_footings),
    ("AUD-360", "whole bags fill each footing", bags_fill_each_footing),
    ("AUD-345", "footings are of one kind, on one soil", footings_are_of_one_kind),
)  # fmt: skip
