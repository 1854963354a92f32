"""Bearers and posts under a frame: the basis's limits, the cheapest arrangement that passes."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from attrs import evolve, frozen

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import StockLength, Timber
from drylay.materials.treatment import is_untreated
from drylay.planner.buy import longest_mm
from drylay.planner.carrying import (
    Under,
    bearer_top_mm,
    brace_over_mm,
    broad_of,
    head_held,
    joist_asked,
    joist_bearing_mm,
    joist_supports,
    more_kn_m2,
    post_loads_kn,
    shares_mm,
)
from drylay.planner.job import Job
from drylay.planner.loose import ledger_holds
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import (
    Screen,
    fails,
    most_used,
    one_ply,
    unknown_post,
)
from drylay.planner.stood import BearerMade, hung
from drylay.planner.wished_places import (
    beyond,
    lines_too_near,
    none_passes,
    open_ends,
    posts_beyond,
    posts_in_wall,
)
from drylay.raised.choosing import Job as Carried
from drylay.raised.choosing import choose
from drylay.raised.model import BearerChoice, JoistChoice, SpanLimit, Trial, Tried, Verdict
from drylay.raised.plies import ply_joints
from drylay.reasons import Source, TurnedDown
from drylay.strength.choosing import longest_span
from drylay.strength.model import BeamAsked, PostAsked, Screened

#: A free end is at most this part of the span behind it. Source: residential tables of the
#: International Residential Code, from memory; kept everywhere.
BACK_RATIO = 0.25
#: Bearers shallower than this are not tried, nor thicker plies: common practice.
SHALLOWEST_MM, THICKEST_MM = 140.0, 80.0
MOST_PLIES = 3
#: So many arrangements are put to the basis at most, the cheapest first; so many dearer ones told.
MOST_TRIES, BESIDE = 1500, 3
#: Spans are looked for in whole steps of this, rounded down; none shorter than the least.
STEP_MM, LEAST_MM = 5.0, 300.0
SELLS_NONE = Source(kind="merchant record", title="the stock", clause="timber for bearers")


@frozen(kw_only=True)
class Arranged:
    """Bearer lines and posts that pass, with the bearer they are of and what was turned down."""

    made: BearerMade
    lines_mm: tuple[float, ...]
    posts_mm: tuple[float, ...]
    tried: tuple[TurnedDown, ...]


def arrange(job: Job, screen: Screen, under: Under) -> Arranged | tuple[Finding, ...]:
    """Return the cheapest bearers and posts that pass, or the stops that keep any from passing."""
    limits = joist_limits(job, screen, under)
    if isinstance(limits, Finding):
        return (limits,)
    assert job.articles.post is not None
    if unknown := unknown_post(screen, job.articles.post):
        return (unknown,)
    made = bearers_made(job)
    if not made:
        return (no_bearer(job),)
    ends = [(limits[0], None)] if under.hung else shorter_ends(*limits)
    try:
        found = choose(
            _carried(job, under),
            [_joist(job, under, *each) for each in ends],
            [_choice(each) for each in made],
            lambda trial: verdict(job, screen, under, trial),
            most_tries=MOST_TRIES,
            beside=BESIDE,
        )
    except InputError as error:
        return (_cannot_lie(error),)
    tried = _once((*(_turned_down(each) for each in found.tried if each.turned_down),
                   *(_dearer(each) for each in found.beside)))  # fmt: skip
    if found.chosen is None:
        return tuple(none_passes(one, found.tried) for one in found.findings)
    trial = found.chosen.trial
    bought = next(each for each in made if _code(each) == trial.bearer.article)
    return Arranged(made=bought, lines_mm=trial.lines_mm, posts_mm=trial.posts_mm, tried=tried)


def joist_limits(job: Job, screen: Screen, under: Under) -> tuple[SpanLimit, SpanLimit] | Finding:
    """Return the longest span of a joist and the longest free end behind it, by the basis."""
    wood = job.articles.timber.strength_class

    def at(span_mm: float, end_mm: float = 0.0) -> Screened:
        asked = joist_asked(under, wood, (0.0, span_mm), span_mm + end_mm, screen)
        return screen.basis.beam(asked, screen.use)

    most_mm = max(under.depth_mm, LEAST_MM)
    longest = longest_span(at, least_mm=LEAST_MM, most_mm=most_mm, step_mm=STEP_MM)
    if longest.span_mm is None:
        return _too_weak(longest.at)
    span_mm, source = longest.span_mm, _source(screen)
    ends = longest_span(
        lambda end_mm: at(span_mm, end_mm), least_mm=STEP_MM,
        most_mm=max(STEP_MM, span_mm * BACK_RATIO), step_mm=STEP_MM,
    )  # fmt: skip
    return (
        SpanLimit(most_mm=span_mm, measured="centres", source=source),
        SpanLimit(most_mm=ends.span_mm or 0.0, measured="centres", source=source),
    )


#: Parts of the longest free end that are tried: shorter ones lift less. None lifts nothing.
ENDS = (1.0, 0.5, 0.25, 0.0)


def shorter_ends(span: SpanLimit, end: SpanLimit) -> Iterator[tuple[SpanLimit, SpanLimit]]:
    """Yield the limits with ever shorter free ends, none at last."""
    for part in ENDS if end.most_mm else (1.0,):
        yield span, evolve(end, most_mm=end.most_mm * part // STEP_MM * STEP_MM)


def _source(screen: Screen) -> Source:
    return Source(kind="standard", title=screen.basis.title, clause="longest that passes")


def _too_weak(found: Screened) -> Finding:
    return Finding(
        code="STR-005", severity=Severity.STOP, subject="joists", source=PRACTICE,
        measured=None if found.stops else most_used((found,)),
        limit=None if found.stops else 1.0,
        message=f"no joist as short as {LEAST_MM:g} mm passes ({fails(found)}): name deeper "
        "frame timber, or put joists closer",
    )  # fmt: skip


def bearers_made(job: Job) -> tuple[BearerMade, ...]:
    """Return every bearer that may be built: of the timber named, or of all that are graded.

    Plies stand on the post: no more of them than are as broad as it. Joists that hang between
    bearers are no deeper than these.
    """
    post, wished = job.articles.post, job.brief.raised.plies
    assert post is not None
    counts = [wished] if wished else list(range(1, MOST_PLIES + 1))
    timbers = [job.articles.bearer] if job.articles.bearer else _graded(job)
    return tuple(
        BearerMade(timber=timber, section=one_ply(timber, plies))
        for timber in timbers
        for plies in counts
        if plies * timber.thickness_mm <= post.thickness_mm
        and timber.depth_mm >= (job.articles.timber.depth_mm if hung(job.brief) else 0.0)
    )


def _graded(job: Job) -> list[Timber]:
    """Return timbers on sale that a bearer may be of: graded, as good outdoors as the joists."""
    joist = job.articles.timber
    return [
        timber
        for timber in job.stock.timbers
        if timber.strength_class
        and timber.depth_mm >= SHALLOWEST_MM
        and timber.thickness_mm <= THICKEST_MM
        and not is_untreated(timber.treatment)
        and (timber.use_class or 0) >= (joist.use_class or 0)
    ]


def no_bearer(job: Job) -> Finding:
    """Return the stop where nothing on sale may be a bearer."""
    post, named = job.articles.post, job.articles.bearer
    assert post is not None
    return Finding(
        code="STR-006", severity=Severity.STOP, subject="bearers", source=SELLS_NONE,
        measured=None if named is None else named.thickness_mm * (job.brief.raised.plies or 1),
        limit=post.thickness_mm, unit="mm",
        message="no graded, treated timber on sale stands as a bearer on the posts named: name "
        "raised.bearer no broader than the post, or thicker posts"
        + (", and as deep as the joists that hang between bearers" if hung(job.brief) else ""),
    )  # fmt: skip


def _code(made: BearerMade) -> str:
    return f"{made.section.plies} x {made.timber.code}"


def price_per_m(lengths: Sequence[StockLength], told: Decimal | None) -> Decimal:
    """Return what a metre of a timber costs at its cheapest length."""
    found = [each.price * 1000 / Decimal(repr(each.length_mm)) for each in lengths]
    return told if told is not None else min(found, default=Decimal(0))


def _choice(made: BearerMade) -> BearerChoice:
    timber = made.timber
    each = price_per_m(timber.lengths, timber.price_per_m)
    return BearerChoice(article=_code(made), section=made.section, price_per_m=each)


def _joist(job: Job, under: Under, span: SpanLimit, end: SpanLimit | None) -> JoistChoice:
    timber = job.articles.timber
    return JoistChoice(
        article=timber.code, section=under.joist, count=under.joist_count, span=span, end=end,
        price_per_m=price_per_m(timber.lengths, timber.price_per_m),
    )  # fmt: skip


def _carried(job: Job, under: Under) -> Carried:
    post = job.articles.post
    assert post is not None
    whole = Source(kind="arithmetic", title="as far as the bearer goes")
    return Carried(
        depth_mm=under.depth_mm, length_mm=under.length_mm, ledger_mm=under.ledger_mm,
        post_mm=post.thickness_mm, back_ratio=BACK_RATIO, post_price=post_price(job, under),
        post_end=SpanLimit(most_mm=under.length_mm, measured="centres", source=whole),
        units=job.brief.units, lines_mm=job.brief.raised.lines_mm,
        posts_mm=job.brief.raised.posts_mm,
    )  # fmt: skip


def post_price(job: Job, under: Under) -> Decimal:
    """Return what a post costs with its foot, as long as the lowest ground asks."""
    post = job.articles.post
    assert post is not None
    high_mm = max(0.0, bearer_top_mm(under) - under.ground_least_mm - under.stand_off_mm)
    each = price_per_m(post.lengths, post.price_per_m) * Decimal(repr(high_mm)) / 1000
    return each + _foot_price(job)


def _foot_price(job: Job) -> Decimal:
    foot = job.articles.post_foot
    return min((p.price / p.count for p in foot.packs), default=Decimal(0)) if foot else Decimal(0)


def verdict(job: Job, screen: Screen, under: Under, trial: Trial) -> Verdict:
    """Return what the basis says of joists, of the bearer that carries most and its post."""
    found: list[Screened] = []
    post = job.articles.post
    assert post is not None
    why = (
        beyond(under.depth_mm, under.ledger_mm, trial)
        or (open_ends(under.depth_mm, under.ledger_mm, trial) if under.hung else "")
        or lines_too_near(under, post.depth_mm, trial)
        or posts_beyond(under.length_mm, one_ply(post).breadth_mm, trial.posts_mm)
        or posts_in_wall(under.house_mm, post.thickness_mm, trial)
        or _unjointed(job, under, trial)
    )
    for answer in () if why else _answers(job, screen, under, trial):
        found.append(answer)
        if why := fails(answer):
            break
    used = most_used(found)
    return Verdict(passes=not why, most_ratio=used, why=why, source=_source(screen))


def _answers(job: Job, screen: Screen, under: Under, trial: Trial) -> Iterator[Screened]:
    wood = job.articles.timber.strength_class
    broad_mm = broad_of(trial.bearer.section)
    supports, length_mm = joist_supports(under, trial.lines_mm, broad_mm)
    joists = joist_asked(under, wood, supports, length_mm, screen)
    bearing_mm = joist_bearing_mm(under, broad_mm)
    yield screen.basis.beam(evolve(joists, bearing_mm=bearing_mm), screen.use)
    bearer = bearer_asked(job, screen, under, trial)
    yield screen.basis.beam(bearer, screen.use)
    yield screen.basis.post(_worst_post(job, screen, under, trial), screen.use)


def bearer_asked(job: Job, screen: Screen, under: Under, trial: Trial) -> BeamAsked:
    """Return the bearer that carries most as the basis is asked for it."""
    post = job.articles.post
    assert post is not None
    made = next(each for each in bearers_made(job) if _code(each) == trial.bearer.article)
    return BeamAsked(
        kind="bearer", subject="bearers", wood=made.timber.strength_class, section=made.section,
        length_mm=under.length_mm, supports_mm=trial.posts_mm, carried_mm=trial.carried_mm,
        bearing_mm=post.thickness_mm, held_each_mm=under.centres_mm, sharing=screen.sharing,
        more_dead_kn_m2=more_kn_m2(screen, under), hold_down_kn=screen.hold_down_kn,
    )  # fmt: skip


def _worst_post(job: Job, screen: Screen, under: Under, trial: Trial) -> PostAsked:
    post = job.articles.post
    assert post is not None
    along_mm = max(shares_mm(screen, under.length_mm, trial.posts_mm))
    dead, live = post_loads_kn(
        screen, under, trial.bearer.section, along_mm * trial.carried_mm / 1e6, along_mm
    )
    held = ledger_holds(job, ledger=under.ledger_mm is not None)
    top_mm = bearer_top_mm(under) - trial.bearer.section.depth_mm
    high_mm = top_mm - under.ground_least_mm - under.stand_off_mm
    return PostAsked(
        subject="posts", wood=post.strength_class, section=one_ply(post),
        length_mm=max(high_mm, 1.0), dead_kn=dead, live_kn=max(live, screen.loads.point_kn),
        braced=head_held(high_mm, held=held, braced=high_mm > brace_over_mm(job, held=held)),
    )  # fmt: skip


def _unjointed(job: Job, under: Under, trial: Trial) -> str:
    made = next(each for each in bearers_made(job) if _code(each) == trial.bearer.article)
    reach_mm = longest_mm(made.timber.lengths, job.brief)
    joints = ply_joints(length_mm=under.length_mm, posts_mm=trial.posts_mm,
                        plies=made.section.plies, longest_mm=reach_mm)  # fmt: skip
    if joints is None:
        return "its plies cannot be jointed over posts, no two over one"
    if joints and under.hung and made.section.plies == 1:
        return "joists hang on its only ply where that is jointed"
    return ""


def _turned_down(tried: Tried) -> TurnedDown:
    trial = tried.trial
    told = f"{trial.bearer.article}: {len(trial.lines_mm)} lines, {len(trial.posts_mm)} posts each"
    return TurnedDown(value=told, because=f"{tried.turned_down}; would cost {tried.cost:.2f}")


def _once(told: Sequence[TurnedDown]) -> tuple[TurnedDown, ...]:
    """Return each arrangement once: free ends of several lengths are tried of all."""
    return tuple({each.value: each for each in reversed(told)}.values())[::-1]


def _dearer(other: Tried) -> TurnedDown:
    """Return an arrangement that passes as well, and is dearer than the one chosen."""
    trial = other.trial
    told = f"{trial.bearer.article}: {len(trial.lines_mm)} lines, {len(trial.posts_mm)} posts each"
    why = f"passes, used {other.most_ratio or 0:.2f} of 1, and would cost {other.cost:.2f}"
    return TurnedDown(value=told, because=why)


def _cannot_lie(error: InputError) -> Finding:
    told = "; ".join(f"{fault.path} {fault.found}: wanted {fault.wanted}" for fault in error.faults)
    return Finding(code="STR-005", severity=Severity.STOP, subject="bearers", source=PRACTICE,
                   message=f"no bearers carry this frame: {told}")  # fmt: skip
