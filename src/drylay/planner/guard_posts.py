"""The feet of guards' posts: put to the design basis, and posts closer together until they pass."""

from collections.abc import Iterator

from attrs import evolve, frozen

from drylay.findings import Finding, Severity
from drylay.guards.model import Guard, GuardFoot, Guards
from drylay.marks import exact, to_mm
from drylay.planner.guard_ways_out import nearest_change
from drylay.planner.guarding import Around, Held, guards_of, height_of
from drylay.planner.job import Job
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import (
    Screen,
    answers_told,
    fails,
    most_used,
    one_ply,
    screen_of,
    untold,
)
from drylay.planner.stood import FOOT_KEYS, Stood, hung
from drylay.reasons import TurnedDown
from drylay.regions.model import RegionPack
from drylay.regions.packs import limit_of
from drylay.site.model import Levels
from drylay.strength.checks import passes
from drylay.strength.model import GuardPostAsked, Screened

#: How close together guards' posts are put at the most, and by which steps. Common practice, no
#: source; no brief can wish them closer.
CLOSEST_MM, STEP_MM = 300.0, {"metric": 25.0, "imperial": 25.4}


@frozen(kw_only=True)
class Feet:
    """What holds guards' posts: `why_not` says why nobody is asked about it, `screen` who is."""

    foot: GuardFoot | None = None
    screen: Screen | None = None
    why_not: str = ""
    stops: tuple[Finding, ...] = ()


def guarded(job: Job, pack: RegionPack, around: Around, levels: Levels, under: Stood) -> Stood:
    """Return what stands with its guards, their posts' feet among its strength, and all told."""
    feet = feet_of(job, pack, levels, under)
    guards, told = guards_of(job, pack, around, Held(foot=feet.foot))
    if not guards.built:
        return evolve(under, guards=guards, findings=(*under.findings, *told))
    closer_mm, tried = _closer(job, pack, feet)
    if closer_mm is not None:
        guards, told = guards_of(job, pack, around, Held(foot=feet.foot, closer_mm=closer_mm))
    with_guards = evolve(under, guards=guards, guards_tried=tried)
    if feet.screen is None or feet.foot is None:
        unasked = (*feet.stops, _not_screened(feet.why_not))
        return evolve(with_guards, findings=(*under.findings, *told, *unasked))
    return _screened(job, feet.foot, feet.screen, with_guards, guards, told)


def _screened(  # noqa: PLR0917 - what guards are asked about with
    job: Job, foot: GuardFoot, screen: Screen, under: Stood, guards: Guards,
    told: tuple[Finding, ...],
) -> Stood:  # fmt: skip
    strength = under.strength
    assert strength is not None  # without it nobody is asked
    asked = tuple(asked_of(job, foot, guard) for guard in guards.built)
    answers = tuple(_answer(screen, each) for each in asked)
    screened = (*strength.screened, *answers)
    more = (
        *_off_the_edge(foot),
        *answers_told(strength, answers),
        *_ways_out(job, screen, asked, answers),
    )
    full = evolve(strength, guard_posts=asked, screened=screened, most_ratio=most_used(screened))
    return evolve(under, strength=full, findings=(*under.findings, *told, *more))


def feet_of(job: Job, pack: RegionPack, levels: Levels, under: Stood) -> Feet:
    """Return what holds guards' posts, and who is asked about it, or why nobody is."""
    wish, post = job.brief.guards, job.articles.guard_post
    unsaid = [key for key in FOOT_KEYS if getattr(wish, key) is None]
    missing = [f"guards.{key.removesuffix('_mm')}" for key in unsaid]
    if missing or post is None:
        return Feet(why_not=f"the brief does not tell {', '.join(missing)}")
    foot = _foot(job, pack, levels)
    screen = screen_of(job)
    if ungraded := untold((post, job.articles.timber)):
        return Feet(foot=foot, why_not="timber is not graded", stops=ungraded)
    if screen is None or under.strength is None:
        return Feet(foot=foot, why_not="no design basis screens what they are bolted to")
    if screen.basis.guard_post is None:
        known = f"the design basis {screen.basis.id} knows nothing of guards' posts"
        return Feet(foot=foot, why_not=known)
    if other := _other_edge(job, under):
        return Feet(foot=foot, why_not=other)
    if foot.line_kn_m is None and foot.point_kn is None:
        return Feet(foot=foot, why_not=f"{pack.pack} tells no load on a guard's top")
    return Feet(foot=foot, screen=screen)


def _other_edge(job: Job, under: Stood) -> str:
    """Return why nobody is asked where joists hang and bearers of another wood close the frame."""
    own, strength = job.articles.timber.strength_class, under.strength
    bearers = [each.wood for each in strength.beams if each.kind == "bearer"] if strength else []
    other = next((wood for wood in bearers if wood != own), "")
    if not hung(job.brief) or not other:
        return ""
    return f"the frame's edge is of {own} and, where bearers close it, of {other}"


def _foot(job: Job, pack: RegionPack, levels: Levels) -> GuardFoot:
    wish, post, timber = job.brief.guards, job.articles.guard_post, job.articles.timber
    assert post is not None
    top_mm = exact(levels.deck_top_mm) - exact(levels.underside_mm) - exact(timber.depth_mm)
    return GuardFoot(
        article=post.code, breadth_mm=post.thickness_mm, depth_mm=post.depth_mm,
        bolt=wish.bolt or "", washer_mm=wish.washer_mm or 0.0,
        upper_bolt_mm=wish.upper_bolt_mm or 0.0, bolts_apart_mm=wish.bolts_apart_mm or 0.0,
        edge_top_mm=to_mm(top_mm), edge_depth_mm=timber.depth_mm,
        line_kn_m=limit_of(pack, "guard_line_kn_m").value,
        point_kn=limit_of(pack, "guard_point_kn").value,
    )  # fmt: skip


def asked_of(job: Job, foot: GuardFoot, guard: Guard) -> GuardPostAsked:
    """Return the posts of a guard as a basis is asked about them, at their widest bay."""
    widest = max(line.spacing_most_mm for line in guard.lines)
    return _asked(job, foot, f"guard posts {guard.run}", guard.height_mm, widest)


def _asked(
    job: Job, foot: GuardFoot, subject: str, high_mm: float, centres_mm: float
) -> GuardPostAsked:
    post, timber = job.articles.guard_post, job.articles.timber
    assert post is not None
    return GuardPostAsked(
        subject=subject, wood=post.strength_class, section=one_ply(post),
        edge_wood=timber.strength_class, edge=one_ply(timber), centres_mm=centres_mm,
        rail_mm=to_mm(exact(high_mm) + exact(foot.upper_bolt_mm)), bolts_mm=foot.bolts_apart_mm,
        bolt=foot.bolt, washer_mm=foot.washer_mm, line_kn_m=foot.line_kn_m or 0.0,
        point_kn=foot.point_kn or 0.0,
    )  # fmt: skip


def _answer(screen: Screen, asked: GuardPostAsked) -> Screened:
    asks = screen.basis.guard_post
    assert asks is not None
    return asks(asked, screen.use)


def _closer(job: Job, pack: RegionPack, feet: Feet) -> tuple[float | None, tuple[TurnedDown, ...]]:
    """Return the furthest that posts may stand apart where the region's most is too far.

    None where the brief wishes how far, where that most passes, or where no distance does.
    """
    most_mm, foot, screen = limit_of(pack, "guard_post_spacing_mm").value, feet.foot, feet.screen
    wished = job.brief.guards.post_spacing_mm is not None
    if foot is None or screen is None or most_mm is None or wished:
        return None, ()
    asked = _asked(job, foot, "guard posts", height_of(job, pack), most_mm)
    found = _answer(screen, asked)
    if passes(found) or not found.checks:
        return None, ()
    for centres_mm in spacings(job.brief.units, most_mm):
        if passes(_answer(screen, evolve(asked, centres_mm=centres_mm))):
            return centres_mm, (TurnedDown(value=most_mm, because=fails(found)),)
    return None, ()


def spacings(units: str, most_mm: float) -> Iterator[float]:
    """Yield distances between posts below the most, the furthest first, in whole steps."""
    step, least = exact(STEP_MM[units]), exact(CLOSEST_MM)
    at = exact(most_mm) // step * step
    while at >= least:
        if at < exact(most_mm):
            yield to_mm(at)
        at -= step


def _not_screened(why: str) -> Finding:
    return Finding(
        code="GRD-011", severity=Severity.CAUTION, subject="guard posts", source=PRACTICE,
        message=f"what holds them at their feet is not screened: {why}; a licensed person says "
        "what they are fixed by",
    )  # fmt: skip


def _off_the_edge(foot: GuardFoot) -> Iterator[Finding]:
    """Yield a stop where a washer would lie off the frame's edge, or on the other one."""
    half = -(-exact(foot.washer_mm) // 2)
    upper, top = exact(foot.upper_bolt_mm), exact(foot.edge_top_mm)
    lower, bottom = upper + exact(foot.bolts_apart_mm), top + exact(foot.edge_depth_mm)
    for key, measured, limit, too_much, where in (
        ("upper_bolt", upper, top + half, -1, "the upper bolt's washer reaches over the top of"),
        ("bolts_apart", lower, bottom - half, 1, "the lower bolt's washer reaches below"),
        ("bolts_apart", exact(foot.bolts_apart_mm), 2 * half, -1,
         "the washers of both bolts do not lie beside one another on"),
    ):  # fmt: skip
        if (measured - limit) * too_much > 0:
            yield Finding(
                code="GRD-012", severity=Severity.STOP, subject="guard posts", source=PRACTICE,
                measured=to_mm(measured), limit=to_mm(limit), unit="mm",
                message=f"{where} the frame's edge: change guards.{key}",
            )  # fmt: skip


def _ways_out(
    job: Job, screen: Screen, asked: tuple[GuardPostAsked, ...], answers: tuple[Screened, ...]
) -> Iterator[Finding]:
    """Yield the nearest changes beside every answer that is over its limit."""
    for each, found in zip(asked, answers, strict=True):
        if found.checks and not found.stops and not passes(found):
            worst = found.checks[0]
            steps = tuple(spacings(job.brief.units, each.centres_mm))
            yield Finding(
                code="GRD-013", severity=Severity.STOP, subject=found.subject,
                measured=worst.measured, limit=worst.limit, unit=worst.unit, source=worst.source,
                message=f"their feet are too weak: {nearest_change(job, screen, each, steps)}",
            )  # fmt: skip
