"""A deck that stands under an outline, put together: bearers, posts, ledger, bracing, strength."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from attrs import evolve, frozen

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline
from drylay.planner.carrying import FLANGE_MM, head_held
from drylay.planner.job import Job
from drylay.planner.outlined_arranging import OutlinedArranged, arrange_outlined
from drylay.planner.outlined_asks import (
    bearers_asked,
    joists_asked,
    posts_asked,
    trims_asked,
)
from drylay.planner.outlined_bed import Beam, Bed
from drylay.planner.outlined_borne import Borne
from drylay.planner.outlined_site import sides_over
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import Asks, Screen, one_ply, strength_of, unloaded, untold
from drylay.planner.standing import (
    BRACE_LEG_MM,
    foot_told,
    heights_of,
    no_levels,
    timbers_of,
)
from drylay.planner.standing_ledger import FROM_END_MM, no_fixings
from drylay.raised.fitting import Fitted, trimmer_findings
from drylay.raised.ledger import ledger_on
from drylay.raised.model import Ledger, RaisedDeck, RaisedFrame
from drylay.raised.sawn import leg_pieces
from drylay.raised.standing import PostSpot, raised_frame
from drylay.reasons import Source
from drylay.site.model import Site
from drylay.site.outlined_terrain import ground_within
from drylay.site.terrain import levels_at
from drylay.strength.model import BoardAsked, LedgerAsked, Strength


@frozen(kw_only=True)
class OutlinedSettled:
    """Where bearers and posts stand under an outline, or the stops."""

    bed: Bed
    screen: Screen
    arranged: OutlinedArranged | None
    stops: tuple[Finding, ...] = ()


def settle_outlined(job: Job, screen: Screen, bed: Bed, site: Site) -> OutlinedSettled:
    """Return where bearers and posts stand, or what keeps them from it."""
    stops = (*unloaded(screen), *untold(timbers_of(job)), *no_levels(site), *_not_placed(job))
    if stops:
        return OutlinedSettled(bed=bed, screen=screen, arranged=None, stops=stops)
    found = arrange_outlined(job, screen, bed)
    if isinstance(found, OutlinedArranged):
        return OutlinedSettled(bed=bed, screen=screen, arranged=found)
    return OutlinedSettled(bed=bed, screen=screen, arranged=None, stops=found)


def _not_placed(job: Job) -> Iterator[Finding]:
    if job.brief.raised.joists == "between":
        yield Finding(
            code="STR-009", severity=Severity.STOP, subject="raised.joists", source=PRACTICE,
            message="not planned under outlines yet: joists that hang between bearers; leave out "
            "raised.joists",
        )  # fmt: skip
    for name in ("lines_mm", "posts_mm"):
        if getattr(job.brief.raised, name) is not None:
            yield Finding(
                code="STR-009", severity=Severity.STOP, subject=f"raised.{name}", source=PRACTICE,
                message="not planned under outlines yet: bearers and posts where the brief has "
                f"them; leave out raised.{name}",
            )  # fmt: skip


def raised_outlined(
    job: Job, outline: Outline, site: Site, found: OutlinedSettled
) -> tuple[RaisedDeck, tuple[Finding, ...]]:
    """Return the raised deck under its outline with what is told of it."""
    bed, arranged = found.bed, found.arranged
    assert arranged is not None
    ledger, told = _ledger(job, found)
    frame = _frame(job, outline, site, found, ledger)
    lines = arranged.stand.lines
    told = (*told, *trimmer_findings(lines.trimmers), *_as_if_all_along(arranged),
            *_jointed_off(bed, frame), *frame.findings)  # fmt: skip
    return _deck(job, found, evolve(frame, findings=())), told


def _deck(job: Job, found: OutlinedSettled, frame: RaisedFrame) -> RaisedDeck:
    arranged, bed, articles = found.arranged, found.bed, job.articles
    assert arranged is not None
    assert articles.post is not None
    made, stand = arranged.made, arranged.stand
    return RaisedDeck(
        bearer_article=made.timber.code, post_article=articles.post.code,
        foot_article=articles.post_foot.code if articles.post_foot else "",
        bearer=f"{made.section.plies} x {made.timber.code}", post=articles.post.code,
        foot=foot_told(job), line_count=stand.lines.line_count, post_count=len(frame.posts),
        ledger_wall=bed.held.wall, ledger_fixing=bed.held.fixing,
        sharing="halved" if found.screen.basis.halved else "levered",
        joist_span_mm=max((_widest(each.supports_mm) for each in stand.runs), default=0.0),
        joist_end_mm=max((_end_of(each) for each in stand.runs), default=0.0),
        bearer_span_mm=max(_widest(each.posts.places_mm) for each in stand.fitted),
        bearer_end_mm=max(each.posts.places_mm[0] for each in stand.fitted),
        post_top_mm=frame.posts[0].top_mm, brace_over_mm=frame.heights.brace_over_mm, frame=frame,
        pieces=leg_pieces(frame, bed.under.joist.depth_mm),
    )  # fmt: skip


def _widest(places_mm: Sequence[float]) -> float:
    return to_mm(max((exact(b) - exact(a) for a, b in pairwise(places_mm)), default=0))


def _end_of(each: Borne) -> float:
    """Return how far a run reaches past its outer bearers, the further way."""
    near = exact(each.supports_mm[0]) - exact(each.start_mm)
    return to_mm(max(near, exact(each.end_mm) - exact(each.supports_mm[-1])))


def _frame(
    job: Job, outline: Outline, site: Site, found: OutlinedSettled, ledger: Ledger | None
) -> RaisedFrame:  # fmt: skip
    arranged, bed, post = found.arranged, found.bed, job.articles.post
    assert arranged is not None
    assert post is not None
    fitted, runs = arranged.stand.fitted, arranged.stand.runs
    heights = heights_of(job, site, arranged.made.section, held=bed.held.ledger)
    grounds = iter(_grounds(job, outline, bed, fitted))
    spots = [
        [_spot(along, next(grounds), each.bearer.across_mm, runs) for along in _places(each)]
        for each in fitted
    ]
    leg = min(max(BRACE_LEG_MM, heights.bearer_mm + bed.under.joist.depth_mm),
              heights.brace_over_mm)  # fmt: skip
    return raised_frame(
        bearers=[each.bearer for each in fitted], spots=spots, post_section=one_ply(post),
        heights=heights, brace_leg_mm=leg, ledger=ledger,
    )  # fmt: skip


def _places(each: Fitted) -> list[float]:
    return [to_mm(exact(each.bearer.start_mm) + exact(at)) for at in each.posts.places_mm]


def _spot(along: float, ground: float, across: float, runs: Sequence[Borne]) -> PostSpot:
    """Return a post's spot, with the nearest of the joists that its bearer carries."""
    over = [each for each in runs if across in each.supports_mm]
    near = min(over, key=lambda each: (abs(each.run.along_mm - along), each.run.along_mm))
    return PostSpot(along_mm=along, ground_mm=ground, joist_from_mm=near.start_mm,
                    joist_to_mm=near.end_mm)  # fmt: skip


def _grounds(
    job: Job, outline: Outline, bed: Bed, fitted: Sequence[Fitted]
) -> tuple[float, ...]:  # fmt: skip
    """Return the ground's level under every post, bearer by bearer."""
    points = job.brief.levels.points
    ground = ground_within(points, sides_over(outline))
    assert ground is not None  # no levels stopped it before
    places = tuple(
        bed.at((along, each.bearer.across_mm)) for each in fitted for along in _places(each)
    )
    return levels_at(points, places, ground)


def strength_outlined(
    job: Job, found: OutlinedSettled, raised: RaisedDeck, boards: tuple[BoardAsked, ...]
) -> Strength:
    """Return every member of a raised deck under an outline as its basis screens it."""
    arranged, bed, screen = found.arranged, found.bed, found.screen
    assert arranged is not None
    stand, made = arranged.stand, arranged.made
    braced = {brace.post for brace in raised.frame.bracing.braces}
    high = [
        (each.length_mm, head_held(each.length_mm, held=bed.held.ledger,
                                   braced=each.mark in braced))
        for each in raised.frame.posts
    ]  # fmt: skip
    bearing_mm = made.section.breadth_mm * made.section.plies
    asks = Asks(
        beams=(
            *joists_asked(job, screen, bed, stand.runs, bearing_mm),
            *trims_asked(job, screen, bed, stand.trims),
            *bearers_asked(job, screen, bed, made.timber.strength_class, stand.fitted),
        ),
        posts=tuple(posts_asked(job, screen, bed, stand.fitted, high)),
        boards=boards,
        ledgers=_ledgers_asked(job, found),
    )
    return strength_of(screen, asks)


def _ledgers_asked(job: Job, found: OutlinedSettled) -> tuple[LedgerAsked, ...]:
    """Return the ledger with the widest span that hangs on it; nothing where there is none."""
    if found.bed.ledger_mm is None or found.arranged is None:
        return ()
    off = found.bed.ledger_mm[2]
    spans = [
        each.from_start_mm[1] - each.from_start_mm[0]
        for each in found.arranged.stand.runs
        if each.run.start_held and each.start_mm == off and len(each.supports_mm) > 1
    ]
    widest_mm = max(spans, default=LEAST_HUNG_MM)
    return found.bed.held.asked(job, found.screen, widest_mm)


#: A ledger that no joist hangs on still carries its boards' edge. Assumption.
LEAST_HUNG_MM = 300.0


def _ledger(
    job: Job, found: OutlinedSettled
) -> tuple[Ledger | None, tuple[Finding, ...]]:  # fmt: skip
    """Return the rim at the house as a ledger with its fixings, and why it finds no room."""
    bed, screen, asked = found.bed, found.screen, _ledgers_asked(job, found)
    if bed.ledger_mm is None or not asked:
        return None, ()
    low, high, thick = bed.ledger_mm
    try:
        one = ledger_on(
            wall=bed.held.wall, section=one_ply(job.articles.timber), start_mm=low, end_mm=high,
            spacing_most_mm=asked[0].spacing_mm, from_end_mm=FROM_END_MM,
            joists_mm=[at for at in bed.lines_mm if low <= at <= high],
            clear_mm=thick / 2 + FLANGE_MM, units=job.brief.units,
            source=Source(kind="standard", title=screen.basis.title, clause="ledger fixings"),
        )  # fmt: skip
    except InputError as error:
        return None, (no_fixings(error),)
    return (one, ()) if isinstance(one, Ledger) else (None, (one,))


def _as_if_all_along(arranged: OutlinedArranged) -> Iterator[Finding]:
    """Yield what is taken of the loads beside openings: more than they are."""
    wide = [each.wide_mm for each in arranged.stand.runs if each.trims]
    if wide:
        yield Finding(
            code="STR-011", severity=Severity.NOTE, subject="openings", source=PRACTICE,
            measured=max(wide), unit="mm",
            message="joists beside an opening, and bearers under these, are screened as if what "
            "its trimmers bring lay all along them and the opening were deck: more than it is; "
            "the widest strip that a joist is so taken to carry",
        )  # fmt: skip


def _jointed_off(bed: Bed, frame: RaisedFrame) -> Iterator[Finding]:
    """Yield a stop where joists, or rims that run their way, are jointed with no bearer below."""
    spliced = [each for each in bed.beams if each.kind == "splice" and each.as_joists]
    off = [each for each in spliced if not _on_bearer(bed, frame, each)]
    if off:
        yield Finding(
            code="STR-009", severity=Severity.STOP, subject="frame", source=PRACTICE,
            measured=float(len(off)), unit="splices",
            message="not planned under outlines yet: joists that are jointed with no bearer under "
            "the joint; name frame timber that is on sale as long as the deck is deep",
        )  # fmt: skip


def _on_bearer(bed: Bed, frame: RaisedFrame, beam: Beam) -> bool:
    along, middle = beam.start[0], (beam.start[1] + beam.end[1]) / 2
    near = bed.under.joist.breadth_mm * 2
    return any(
        each.start_mm - near <= along <= each.end_mm + near
        and abs(each.across_mm - middle) <= each.section.breadth_mm * each.section.plies / 2
        for each in frame.bearers
    )
