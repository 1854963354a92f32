"""Posts set out, fixings that no order holds, upkeep of what stands: measured again."""

from collections.abc import Iterator
from math import hypot

from drylay.audit.exact import ticks
from drylay.audit.flaws import (
    conventions,
    need,
    practice,
    same_count,
    same_length,
)
from drylay.audit.legs_tasks import fixings_wanted
from drylay.audit.model import ClosedCheck, Flaw
from drylay.plan.model import Plan
from drylay.work.model import SettingOut

WORK = conventions("Work")
ACCEPTED_320 = 5 * 320
#: What is looked at every spring of what stands.
UPKEEP = ("post feet", "ledger fixings", "braces", "guard posts")
Place = tuple[float, float]


def posts_are_set_out(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each post that is not where its list says, and each diagonal."""
    out = need(plan.work, "work").setting_out
    wanted = _places(plan)
    told = tuple(place.mark for place in out.posts)
    if told != tuple(wanted):
        message = f"places of {told}"
        yield Flaw(subject="work.setting_out.posts", message=message, source=WORK)
        return
    first = _first_peg(out)
    for place in out.posts:
        along, across = wanted[place.mark]
        parts = (("along_mm", place.along_mm, along), ("across_mm", place.across_mm, across),
                 ("from_along_mm", place.from_along_mm, along - first[0]),
                 ("from_across_mm", place.from_across_mm, across - first[1]))  # fmt: skip
        for name, found_mm, at in parts:
            yield from same_length(f"{place.mark}.{name}", "not the post's place", found_mm, at,
                                   WORK)  # fmt: skip
    yield from _ties(plan, out, wanted)


def _places(plan: Plan) -> dict[str, tuple[int, int]]:
    """Return where posts stand in the axes of the pegs, by mark."""
    posts = plan.raised.frame.posts if plan.raised is not None else ()
    turned = plan.surface is not None and plan.surface.run == "across"
    turned |= plan.subframe is not None and plan.subframe.joist_run == "along"
    places = {post.mark: (ticks(post.place.along_mm), ticks(post.place.across_mm))
              for post in posts}  # fmt: skip
    return {mark: place[::-1] if turned else place for mark, place in places.items()}


def _first_peg(out: SettingOut) -> tuple[int, int]:
    pegs = {peg.mark: (ticks(peg.along_mm), ticks(peg.across_mm)) for peg in out.pegs}
    return need(pegs.get("P1"), "peg P1")


def _ties(
    plan: Plan, out: SettingOut, wanted: dict[str, tuple[int, int]]
) -> Iterator[Flaw]:  # fmt: skip
    """Yield a flaw unless the diagonals run between the outermost posts, as long as they are."""
    known = {peg.mark: (ticks(peg.along_mm), ticks(peg.across_mm)) for peg in out.pegs} | wanted
    pairs = _diagonals(plan)
    if {(tie.start, tie.end) for tie in out.post_ties} != pairs:
        message = "no diagonals over the outermost posts, or others"
        yield Flaw(subject="work.setting_out.post_ties", message=message, source=WORK)
        return
    for tie in out.post_ties:
        one, other = need(known.get(tie.start), tie.start), known[tie.end]
        length_mm = hypot(other[0] - one[0], other[1] - one[1]) / 320
        if abs(tie.length_mm - length_mm) > 0.05:
            yield Flaw(subject=f"{tie.start}-{tie.end}", message="not so long",
                       measured=tie.length_mm, limit=length_mm, unit="mm", source=WORK)  # fmt: skip
    if wanted:
        message = "not what a post's place may be off"
        yield from same_length("work.setting_out.post_accepted_mm", message,
                               out.post_accepted_mm or 0.0, ACCEPTED_320, WORK)  # fmt: skip


def _diagonals(plan: Plan) -> set[tuple[str, str]]:
    """Return from where to where diagonals are taped: first bearer's ends to the last one's."""
    posts = plan.raised.frame.posts if plan.raised is not None else ()
    lines = list(dict.fromkeys(post.bearer for post in posts))
    if not lines:
        return set()
    far = [post.mark for post in posts if post.bearer == lines[-1]]
    near = [post.mark for post in posts if post.bearer == lines[0]]
    near = ["P1", "P2"] if len(lines) == 1 else near
    return {(near[0], far[-1]), (near[-1], far[0])}


def fixings_not_ordered_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each kind of fixings miscounted, left out, or not told in a finding."""
    work, wanted = need(plan.work, "work"), fixings_wanted(plan)
    told = {each.what: each.count for each in work.not_ordered}
    notes = {each.subject: each.measured for each in plan.findings if each.code == "RSD-010"}
    yield from same_count("work.not_ordered_count", "not so many kinds",
                          work.not_ordered_count or 0, len(work.not_ordered), WORK)  # fmt: skip
    for what in sorted(wanted.keys() | told.keys() | notes.keys()):
        yield from same_count(f"work.not_ordered: {what}", "not so many fixings",
                              told.get(what, 0), wanted.get(what, 0), WORK)  # fmt: skip
        if notes.get(what) != (wanted.get(what) or None):
            message = "no finding tells that they are not in the order, or not so many"
            yield Flaw(subject=f"RSD-010: {what}", message=message, source=WORK)


def what_stands_is_looked_after(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each task of upkeep that what stands wants, and is not told."""
    raised, guards = plan.raised, plan.guards
    parts = {
        "post feet": raised,
        "ledger fixings": raised and raised.frame.ledger,
        "braces": raised and raised.frame.bracing.braces,
        "guard posts": guards and guards.runs,
    }
    told = {task.what for task in need(plan.work, "work").upkeep if task.times >= task.in_years}
    for what in UPKEEP:
        if bool(parts[what]) != (what in told):
            message = "not looked at every spring, or told where there is none"
            yield Flaw(subject=f"work.upkeep: {what}", message=message, source=practice("upkeep"))


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-907", "posts are set out where they stand, diagonals proven", posts_are_set_out),
    (
        "AUD-908",
        "fixings that no order holds are counted and told",
        fixings_not_ordered_are_counted,
    ),
    ("AUD-909", "what stands is looked at every spring", what_stands_is_looked_after),
)
