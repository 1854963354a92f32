"""Guards: is every edge that falls too deep guarded, high enough, with no gap for the ball?"""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.drops import Beside, Span, beside, deep_spans, lacking, lowest
from drylay.audit.exact import PER_MM, ticks
from drylay.audit.flaws import need, off_by, same_count, same_length
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.plane import UNIT
from drylay.audit.raised_parts import stopped
from drylay.audit.rows import surface_of
from drylay.brief.model import SIDES
from drylay.guards.model import Edge, Guard, GuardRun, Guards, Infill, PostLine, Stretch
from drylay.plan.model import Plan
from drylay.reasons import Source

GUARDS = Source(kind="arithmetic", title="docs/guards-steps-footings.md", clause="Guards")
#: Kinds of sides where nobody falls off, or another barrier is ruled.
CLOSED = ("house", "pool")
#: A drop over which any guard is for somebody licensed: common practice, no source.
DEEPEST = 1000
#: No region known here lets a higher drop go without a guard: Australia's 1000 mm, from memory.
ANYWHERE = 1000


def guards_of(plan: Plan) -> Guards:
    """Return where the deck needs guards, if the plan tells it."""
    return need(plan.guards, "guards")


def edges_are_the_covers(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the edges looked at are the cover's four sides, at the deck's top."""
    guards, surface = guards_of(plan), surface_of(plan)
    along, across = ticks(surface.cover_along_mm), ticks(surface.cover_across_mm)
    corners = ((0, 0), (along, 0), (along, across), (0, across))
    told = [
        ((ticks(e.start.along_mm), ticks(e.start.across_mm)),
         (ticks(e.end.along_mm), ticks(e.end.across_mm)))
        for e in guards.edges
    ]  # fmt: skip
    wanted = [(corners[at], corners[(at + 1) % 4]) for at in range(4)]
    if sorted(told) != sorted(wanted):
        message = "the edges looked at are not the cover's sides, run round once"
        yield Flaw(subject="guards.edges", message=message, source=GUARDS)
    at_house = plan.site is not None and plan.site.beside_house
    for edge, ends in zip(guards.edges, told, strict=True):
        if edge.kind in CLOSED and not (at_house and ends == wanted[0] and edge.kind == "house"):
            message = f"an edge told as {edge.kind!r}, and no house stands there"
            yield Flaw(subject=edge.mark, message=message, source=GUARDS)
        if plan.site is not None and plan.site.levels is not None:
            top = ticks(plan.site.levels.deck_top_mm)
            yield from same_length(edge.mark, "not the deck's top", edge.top_mm, top, GUARDS)


def _span(start_mm: float, end_mm: float) -> Span:
    return ticks(start_mm) * UNIT, ticks(end_mm) * UNIT


def _length(edge: Edge) -> int:
    return abs(ticks(edge.end.along_mm) - ticks(edge.start.along_mm)) + abs(
        ticks(edge.end.across_mm) - ticks(edge.start.across_mm)
    )


def _guarded(guards: Guards, edge: Edge) -> list[Span]:
    """Return where along an edge guards run, or people pass."""
    spans = [_span(s.from_mm, s.to_mm) for s in _stretches(guards) if s.edge == edge.mark]
    return spans + [_span(passage.from_mm, passage.to_mm) for passage in edge.passages]


def _stretches(guards: Guards) -> Iterator[Stretch]:
    return (stretch for run in guards.runs for stretch in run.stretches)


def _grounds(plan: Plan) -> Iterator[tuple[Edge, Beside]]:
    """Yield every edge that one may fall off, with the ground beside it."""
    guards = guards_of(plan)
    for edge in guards.edges:
        ground = beside(edge, guards.facets, guards.out_mm)
        if edge.kind not in CLOSED and ground is not None:
            yield edge, ground


def deep_edges_are_guarded(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each part of an edge that falls too deep, or nobody knows how, unguarded."""
    guards = guards_of(plan)
    for edge, ground in _grounds(plan):
        level = ticks(edge.top_mm) - ticks(guards.trigger_mm)
        unknown = [
            span for span in lacking((0, ground.length), ground.known)
            if span[1] - span[0] > PER_MM * UNIT
        ]  # fmt: skip
        taken = _guarded(guards, edge)
        for span in (*deep_spans(ground, level), *unknown):
            for start, end in lacking(span, taken):
                if end - start > UNIT:
                    message = "falls deeper than without a guard, or nobody knows how deep"
                    drop = lowest(ground, (start, end))
                    deep = ticks(edge.top_mm) - (level if drop is None else drop)
                    yield off_by(
                        f"{edge.mark}: from {float(start) / UNIT / PER_MM:g} mm", message,
                        float(deep), ticks(guards.trigger_mm), GUARDS,
                    )  # fmt: skip


def drops_are_the_deepest(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each stretch tells its greatest drop, and each run that of its own."""
    guards = guards_of(plan)
    grounds = {edge.mark: (edge, ground) for edge, ground in _grounds(plan)}
    for stretch in _stretches(guards):
        subject = f"{stretch.edge}: from {stretch.from_mm:g} mm"
        if stretch.edge not in grounds:
            message = "a guard along no edge that one may fall off"
            yield Flaw(subject=subject, message=message, source=GUARDS)
            continue
        edge, ground = grounds[stretch.edge]
        low = lowest(ground, _span(stretch.from_mm, stretch.to_mm))
        deep = 0 if low is None else ticks(edge.top_mm) - low
        if stretch.drop_mm is not None and ticks(stretch.drop_mm) < deep - 1:
            message = "drops deeper than is told"
            yield off_by(subject, message, ticks(stretch.drop_mm), float(deep), GUARDS)
        if not 0 <= ticks(stretch.from_mm) < ticks(stretch.to_mm) <= _length(edge):
            message = "not along its edge"
            yield off_by(subject, message, ticks(stretch.to_mm), _length(edge), GUARDS)
    for run in guards.runs:
        drops = [stretch.drop_mm for stretch in run.stretches]
        known = [drop for drop in drops if drop is not None]
        wanted = max(known, default=None) if len(known) == len(drops) else None
        if run.drop_mm != wanted:
            message = f"told to drop {run.drop_mm}, its stretches {wanted}"
            yield Flaw(subject=run.mark, message=message, source=GUARDS)


def runs_are_as_long_as_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless runs are as long as their stretches, with their bends, and add up."""
    guards = guards_of(plan)
    for run in guards.runs:
        long = sum(ticks(s.to_mm) - ticks(s.from_mm) for s in run.stretches)
        yield from same_length(run.mark, "not its stretches' sum", run.length_mm, long, GUARDS)
        bends = len(run.stretches) - 1 + run.closed
        yield from same_count(run.mark, "bends", run.bends, bends, GUARDS)
    whole = sum(ticks(run.length_mm) for run in guards.runs)
    message = "not the sum of its runs"
    yield from same_length("guards.length_mm", message, guards.length_mm, whole, GUARDS)


def _built(guards: Guards) -> Iterator[tuple[Guard, GuardRun]]:
    runs = {run.mark: run for run in guards.runs}
    for guard in guards.built:
        if guard.run in runs:
            yield guard, runs[guard.run]


def runs_have_their_guards(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a run of a buildable plan has no guard, or one for a licensed person."""
    guards = guards_of(plan)
    names = [guard.run for guard in guards.built]
    for run in guards.runs:
        if not stopped(plan):
            yield from same_count(run.mark, "guards along it", names.count(run.mark), 1, GUARDS)
        deep = run.drop_mm is None or ticks(run.drop_mm) > ticks(DEEPEST)
        if deep and not stopped(plan):
            message = "so deep a drop is for an engineer, and nothing stops the plan"
            yield off_by(run.mark, message, ticks(run.drop_mm or 0.0), ticks(DEEPEST), GUARDS)
    for name in names:
        if name not in {run.mark for run in guards.runs}:
            message = "a guard along no run"
            yield Flaw(subject=name, message=message, source=GUARDS)


def guards_are_high_and_close(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each guard too low, and each gap that the ball passes."""
    guards = guards_of(plan)
    for guard, run in _built(guards):
        if ticks(guard.height_mm) < ticks(guards.height_mm):
            message = "lower than a guard may be"
            yield off_by(guard.run, message, ticks(guard.height_mm), ticks(guards.height_mm),
                         GUARDS)  # fmt: skip
        yield from same_length(guard.run, "handrail", guard.handrail_mm, ticks(run.length_mm),
                               GUARDS)  # fmt: skip
        for bay in guard.bays:
            yield from _gaps(guard.run, bay, guards)
        pieces = sum(bay.count for bay in guard.bays)
        yield from same_count(guard.run, "pieces of infill", guard.pieces, pieces, GUARDS)


def _gaps(mark: str, bay: Infill, guards: Guards) -> Iterator[Flaw]:
    piece = ticks(bay.thickness_mm)
    starts = [ticks(start) for start in bay.starts_mm]
    ends = [0, *(start + piece for start in starts)]
    nexts = [*starts, ticks(bay.opening_mm)]
    gaps = [after - before for before, after in zip(ends, nexts, strict=True)]
    for gap in gaps:
        if not 0 <= gap < ticks(guards.ball_mm):
            message = "a gap that the ball passes, or pieces in one another"
            yield off_by(mark, message, gap, ticks(guards.ball_mm), GUARDS)
    yield from same_count(mark, "pieces in a bay", bay.count, len(starts), GUARDS)
    for name, told_mm, wanted in (
        ("the widest gap", bay.gap_most_mm, max(gaps)),
        ("the narrowest gap", bay.gap_least_mm, min(gaps)),
        ("the ball", bay.ball_mm, ticks(guards.ball_mm)),
    ):
        yield from same_length(mark, f"not {name}", told_mm, wanted, GUARDS)


def posts_of_guards_are_close(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where guard posts stand too far apart, or bays are not what lies between."""
    guards = guards_of(plan)
    for guard, run in _built(guards):
        message = "straight parts, one along each stretch"
        found, wanted = len(guard.lines), len(run.stretches)
        yield from same_count(guard.run, message, found, wanted, GUARDS)
        openings = []
        for at, (line, stretch) in enumerate(zip(guard.lines, run.stretches, strict=False)):
            ends = 0 if run.closed else (at == 0) + (at == len(run.stretches) - 1)
            long = 2 * (ticks(stretch.to_mm) - ticks(stretch.from_mm)) - ends * ticks(guard.post_mm)
            if abs(2 * ticks(line.length_mm) - long) > 1:
                message = "not as long as its stretch, posts half their breadth in"
                yield off_by(guard.run, message, ticks(line.length_mm), long / 2, GUARDS)
            yield from _posts(guard.run, line, guards)
            openings += [b - a - ticks(guard.post_mm) for a, b in _bays(line)]
        if _filled(guard, openings) != [ticks(bay.opening_mm) for bay in guard.bays]:
            message = "bays are not what lies between posts"
            yield Flaw(subject=guard.run, message=message, source=GUARDS)
        posts = len(guard.bays) + (not run.closed)
        yield from same_count(guard.run, "posts", guard.posts, posts, GUARDS)


def _filled(guard: Guard, openings: list[int]) -> list[int]:
    """Return what each bay's infill has to fill: level rails up to a handrail as thick as they."""
    up = [
        ticks(guard.height_mm) - ticks(bay.thickness_mm) if bay.kind == "rails" else opening
        for bay, opening in zip(guard.bays, openings, strict=False)
    ]
    return [*up, *openings[len(up) :]]


def _bays(line: PostLine) -> Iterator[tuple[int, int]]:
    return pairwise([ticks(centre) for centre in line.centres_mm])


def _posts(mark: str, line: PostLine, guards: Guards) -> Iterator[Flaw]:
    most = guards.post_spacing_most_mm
    bays = [after - before for before, after in _bays(line)]
    ends = [ticks(centre) for centre in (*line.centres_mm[:1], *line.centres_mm[-1:])]
    if ends != [0, ticks(line.length_mm)] or min(bays, default=0) <= 0:
        message = "posts do not stand from end to end"
        yield off_by(mark, message, max(ends, default=0), ticks(line.length_mm), GUARDS)
        return
    if most is not None and max(bays) > ticks(most):
        message = "posts too far apart"
        yield off_by(mark, message, max(bays), ticks(most), GUARDS)
    message = "not the furthest that two posts stand apart"
    yield from same_length(mark, message, line.spacing_most_mm, max(bays), GUARDS)


def passages_are_the_steps_heads(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each way through the guards that no flight of steps leads down from."""
    guards, surface, steps = guards_of(plan), surface_of(plan), plan.steps
    for edge in guards.edges:
        for passage in edge.passages:
            if steps is None and stopped(plan):
                continue
            start, end = 0, 0
            side = _side(edge, surface.cover_along_mm, surface.cover_across_mm)
            if steps is not None and side == steps.side:
                start, end = ticks(steps.from_mm), ticks(steps.from_mm) + ticks(steps.width_mm)
                if steps.side in {"front", "left"}:  # these run towards the datum
                    start, end = _length(edge) - end, _length(edge) - start
            if not start <= ticks(passage.from_mm) < ticks(passage.to_mm) <= end:
                message = "a way through, and no steps lead down from it"
                yield off_by(f"{edge.mark}: {passage.name}", message, ticks(passage.to_mm), end,
                             GUARDS)  # fmt: skip


def _side(edge: Edge, along_mm: float, across_mm: float) -> str:
    """Return the side of the cover that an edge runs along, by where it starts."""
    corners = ((0.0, 0.0), (along_mm, 0.0), (along_mm, across_mm), (0.0, across_mm))
    at = (edge.start.along_mm, edge.start.across_mm)
    return SIDES[corners.index(at)] if at in corners else ""


def no_deep_deck_goes_unguarded(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a buildable deck is higher than any region lets it be without guards."""
    levels = need(plan.site.levels if plan.site is not None else None, "levels")
    drop = need(levels.drop_mm, "drop")
    regions = plan.steps is not None or plan.footings is not None
    if plan.guards is None and not stopped(plan) and (regions or ticks(drop) > ticks(ANYWHERE)):
        message = "guards were not looked for, though the plan names a region or the deck is high"
        yield off_by("guards", message, ticks(drop), ticks(ANYWHERE), GUARDS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-346", "edges looked at are the cover's, at the deck's top", edges_are_the_covers),
    ("AUD-347", "edges that fall too deep are guarded", deep_edges_are_guarded),
    ("AUD-348", "guards tell their deepest drop", drops_are_the_deepest),
    ("AUD-349", "runs of guards are as long as told", runs_are_as_long_as_told),
    ("AUD-350", "runs have their guards, none over so deep a drop", runs_have_their_guards),
    ("AUD-351", "guards are high enough, and no gap lets the ball pass",
     guards_are_high_and_close),
    ("AUD-352", "guard posts are close enough, bays between them", posts_of_guards_are_close),
    ("AUD-353", "ways through guards are the heads of steps", passages_are_the_steps_heads),
    ("AUD-354", "guards were looked for where there is a region", no_deep_deck_goes_unguarded),
)  # fmt: skip
