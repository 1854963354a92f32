"""Guards' posts at their feet: asked about as they stand, or told as not screened."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.between import hung
from drylay.audit.exact import ticks
from drylay.audit.flaws import NothingToMeasure, need, off_by, same_count, same_length, same_text
from drylay.audit.guards_seen import GUARDS, guards_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.strength_asked import STRENGTH
from drylay.findings import Severity
from drylay.frame.model import Frame
from drylay.guards.model import Guard, GuardFoot, Guards
from drylay.plan.model import Plan
from drylay.reasons import Source
from drylay.strength.model import GuardPostAsked, Section
from drylay.subframe.model import Subframe

#: What regions ask of a guard's top: kN/m along it, kN at one place. UK annex to EN 1991-1-1
#: table NA.8, AS/NZS 1170.1 table 3.3 and IRC table R301.5 (200 lb), from memory.
ASKED_OF_TOPS: dict[str, tuple[float | None, float | None]] = {
    "united-kingdom": (0.74, None), "australia": (0.75, 0.6), "new-zealand": (0.75, 0.6),
    "north-america": (None, 0.8896),
}  # fmt: skip
LOADS = Source(kind="from memory", title="loads on guards", clause="by region")
#: What a load written in pounds may differ by, as a share.
NEAR = 1e-4


def guard_posts_of(plan: Plan) -> tuple[GuardPostAsked, ...]:
    """Return the guards' posts that a basis was asked about; none where nobody was."""
    return plan.strength.guard_posts if plan.strength is not None else ()


def timber_of(plan: Plan) -> Frame | Subframe:
    """Return the frame, whose timber guards' posts are bolted to, on a rectangle or an outline."""
    return need(plan.frame, "frame") if plan.subframe is None else plan.subframe


def _built(plan: Plan) -> Guards:
    guards = guards_of(plan)
    if not guards.built:
        raise NothingToMeasure("the plan builds no guards")
    return guards


def feet_are_asked_about_or_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless every guard's posts are asked about once, or all told as not screened."""
    guards, asked = _built(plan), guard_posts_of(plan)
    told = any(finding.code == "GRD-011" for finding in plan.findings)
    if not asked:
        if not told:
            message = "nobody is asked what holds them, and no finding tells it"
            yield Flaw(subject="guard posts", message=message, source=GUARDS)
        return
    if told:
        message = "told as not screened, and asked about"
        yield Flaw(subject="guard posts", message=message, source=GUARDS)
    names = [each.subject for each in asked]
    for guard in guards.built:
        message = "its posts asked about"
        count = names.count(f"guard posts {guard.run}")
        yield from same_count(guard.run, message, count, 1, STRENGTH)
    for name in names:
        if name not in {f"guard posts {guard.run}" for guard in guards.built}:
            message = "no such guard is built"
            yield Flaw(subject=name, message=message, source=STRENGTH)


def _asked(plan: Plan) -> Iterator[tuple[GuardPostAsked, Guard]]:
    """Yield each guard's posts as asked about, with their guard."""
    by_name = {f"guard posts {guard.run}": guard for guard in _built(plan).built}
    for asked in guard_posts_of(plan):
        if asked.subject in by_name:
            yield asked, by_name[asked.subject]


def _foot(plan: Plan) -> GuardFoot:
    return need(guards_of(plan).foot, "foot of guards' posts")


def feet_are_asked_as_they_stand(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless guards' posts are asked about as they stand, at their widest bay."""
    if guard_posts_of(plan) and guards_of(plan).foot is None:
        message = "asked about, and nothing tells what holds them"
        yield Flaw(subject="guards.foot", message=message, source=GUARDS)
        return
    foot, timber = _foot(plan), timber_of(plan)
    edge = Section(breadth_mm=timber.timber_thickness_mm, depth_mm=timber.timber_depth_mm)
    post = Section(breadth_mm=foot.breadth_mm, depth_mm=foot.depth_mm)
    for asked, guard in _asked(plan):
        for name, found, wanted in (("section", asked.section, post), ("edge", asked.edge, edge)):
            if found != wanted:
                message = f"{name}: asked as {found}, built as {wanted}"
                yield Flaw(subject=asked.subject, message=message, source=STRENGTH)
        yield from _edges_woods(plan, asked)
        message = "not asked with their bolt"
        yield from same_text(asked.subject, message, asked.bolt, foot.bolt, STRENGTH)
        yield from _lengths(asked, guard, foot)


def _edges_woods(plan: Plan, asked: GuardPostAsked) -> Iterator[Flaw]:
    """Yield a flaw where bearers of another wood close the frame, whose joists hang between."""
    beams = plan.strength.beams if plan.strength is not None and hung(plan) else ()
    for beam in beams:
        if beam.kind == "bearer" and beam.wood != asked.edge_wood:
            message = f"asked with an edge of {asked.edge_wood}, closed by a bearer of {beam.wood}"
            yield Flaw(subject=asked.subject, message=message, source=STRENGTH)


def _lengths(asked: GuardPostAsked, guard: Guard, foot: GuardFoot) -> Iterator[Flaw]:
    bays = [ticks(b) - ticks(a) for line in guard.lines for a, b in pairwise(line.centres_mm)]
    rail = ticks(guard.height_mm) + ticks(foot.upper_bolt_mm)
    for name, found_mm, wanted in (
        ("breadth", foot.breadth_mm, ticks(guard.post_mm)),
        ("distance apart", asked.centres_mm, max(bays, default=0)),
        ("height over the upper bolt", asked.rail_mm, rail),
        ("bolts apart", asked.bolts_mm, ticks(foot.bolts_apart_mm)),
        ("washer", asked.washer_mm, ticks(foot.washer_mm)),
    ):
        yield from same_length(asked.subject, f"not their {name}", found_mm, wanted, STRENGTH)


def feet_are_pushed_as_the_region_asks(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a guard's top is pushed less than its region asks."""
    guards, foot = guards_of(plan), _foot(plan)
    wanted = ASKED_OF_TOPS.get(guards.region, (None, None))
    for name, told, due in zip(
        ("line_kn_m", "point_kn"), (foot.line_kn_m, foot.point_kn), wanted, strict=True
    ):
        for subject, found in (
            (f"guards.foot.{name}", told or 0.0),
            *((f"{each.subject}: {name}", getattr(each, name)) for each in guard_posts_of(plan)),
        ):
            if found < (due or 0.0) * (1 - NEAR):
                message = "pushed less than the region asks"
                yield Flaw(subject=subject, message=message, measured=found, limit=due,
                           unit="kN/m" if name == "line_kn_m" else "kN", source=LOADS)  # fmt: skip


def bolts_go_through_the_edge(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless both bolts' washers lie on the frame's edge, or a stop tells it."""
    foot, timber = _foot(plan), timber_of(plan)
    levels = need(plan.site.levels if plan.site is not None else None, "levels")
    deep = ticks(timber.timber_depth_mm)
    top = ticks(levels.deck_top_mm) - ticks(levels.underside_mm) - deep
    message = "not where the frame's edge is"
    yield from same_length("guards.foot.edge_top_mm", message, foot.edge_top_mm, top, GUARDS)
    yield from same_length("guards.foot.edge_depth_mm", message, foot.edge_depth_mm, deep, GUARDS)
    told = {f.code for f in plan.findings if f.severity is Severity.STOP}
    if not guard_posts_of(plan) or "GRD-012" in told:
        return
    upper, apart, across = (
        2 * ticks(mm) for mm in (foot.upper_bolt_mm, foot.bolts_apart_mm, foot.washer_mm / 2)
    )
    for subject, room in (
        ("upper bolt, over its washer", upper - across - 2 * top),
        ("lower bolt, under its washer", 2 * (top + deep) - upper - apart - across),
        ("between the washers", apart - 2 * across),
    ):
        if room < -1:
            message = "a washer does not lie on the frame's edge"
            yield off_by(f"guard posts: {subject}", message, room / 2, 0, GUARDS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-362", "guards' posts are screened at their feet, or told as not",
     feet_are_asked_about_or_told),
    ("AUD-363", "guards' posts are screened as they stand", feet_are_asked_as_they_stand),
    ("AUD-364", "guards' posts are pushed as their region asks",
     feet_are_pushed_as_the_region_asks),
    ("AUD-365", "bolts of guards' posts go through the frame's edge", bolts_go_through_the_edge),
)  # fmt: skip
