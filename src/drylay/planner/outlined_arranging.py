"""Bearers and posts under an outline: of a short list the cheapest arrangement that passes."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal

from attrs import evolve, frozen

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.planner.arranging import (
    BACK_RATIO,
    LEAST_MM,
    STEP_MM,
    bearers_made,
    joist_limits,
    no_bearer,
    post_price,
    price_per_m,
    shorter_ends,
)
from drylay.planner.buy import longest_mm
from drylay.planner.carrying import brace_over_mm, head_held
from drylay.planner.job import Job
from drylay.planner.outlined_asks import (
    Stand,
    bearer_span_asked,
    bearers_asked,
    joists_asked,
    posts_asked,
    trims_asked,
)
from drylay.planner.outlined_bed import Bed
from drylay.planner.outlined_borne import Borne, Trim, borne_on, load_of, more_of
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import Screen, fails
from drylay.planner.stood import BearerMade
from drylay.raised.fitting import Fitted, Rules, bearer_on
from drylay.raised.model import SpanLimit
from drylay.raised.outline_model import OutlinedLines
from drylay.raised.outlined import outlined_lines
from drylay.reasons import Source, TurnedDown
from drylay.strength.choosing import longest_span
from drylay.strength.model import Screened

#: Parts of the longest span that lines, and posts, are set out by: closer ones carry less each.
PARTS = (1.0, 0.8, 0.6)
#: Openings are trimmed however wide they are: their trimmers are screened.
ANY_MM = 1e5
#: A bearer's load is looked up by so much, rounded up: spans are asked for once for each.
LOAD_STEP_MM = 20.0
#: So often a bearer's load of openings and its posts are settled against one another.
TURNS = 3
#: The most arrangements that are put to the basis.
MOST_TRIES = 80
WHOLE = Source(kind="arithmetic", title="as far as the bearer goes")


@frozen(kw_only=True)
class OutlinedArranged:
    """What passes, the bearer it is of, what was turned down."""

    made: BearerMade
    stand: Stand
    tried: tuple[TurnedDown, ...]


@frozen(kw_only=True)
class _Trial:
    cost: Decimal
    made: BearerMade
    stand: Stand


@frozen(kw_only=True)
class _Lines:
    """Lines with the joists over them; `loads_mm` are what their stretches carry of plain ones."""

    lines: OutlinedLines
    loads_mm: tuple[float, ...]
    runs: tuple[Borne, ...]
    trims: tuple[Trim, ...]


def arrange_outlined(
    job: Job, screen: Screen, bed: Bed
) -> OutlinedArranged | tuple[Finding, ...]:  # fmt: skip
    """Return the cheapest arrangement on the list that passes, or the stops that leave none.

    Listed are lines by the whole of what joists span and by parts of it, with long and short free
    ends, each bearer that may be built, posts by the whole of what it spans and by parts of that.
    """
    limits = joist_limits(job, screen, bed.under)
    if isinstance(limits, Finding):
        return (limits,)
    made = bearers_made(job)
    if not made:
        return (no_bearer(job),)
    laid, why = _all_lines(job, bed, *limits)
    if not laid:
        return (_none_lies(why),)
    short: list[TurnedDown] = []
    trials = [
        trial
        for each in made
        for rules in (_all_rules(job, screen, bed, each),)
        for lines in _that_carry(job, screen, bed, each, laid, short)
        for trial in _trials(job, bed, each, lines, rules)
    ]
    trials.sort(key=lambda trial: trial.cost)
    return _first_that_passes(job, screen, bed, trials, short)


def _that_carry(  # noqa: PLR0917 - what joists are asked with
    job: Job, screen: Screen, bed: Bed, made: BearerMade, laid: Sequence[_Lines],
    short: list[TurnedDown],
) -> Iterator[_Lines]:  # fmt: skip
    """Yield the lines over which all joists and trimmers pass; tell of the others."""
    bearing_mm = made.section.breadth_mm * made.section.plies
    for lines in laid:
        asks = (
            *trims_asked(job, screen, bed, lines.trims),
            *joists_asked(job, screen, bed, lines.runs, bearing_mm),
        )
        answers = (screen.basis.beam(asked, screen.use) for asked in asks)
        why = next((why for found in answers if (why := fails(found))), "")
        if not why:
            yield lines
            continue
        told = TurnedDown(value=f"{lines.lines.line_count} lines under {_code(made)}", because=why)
        if told not in short:
            short.append(told)


def _code(made: BearerMade) -> str:
    return f"{made.section.plies} x {made.timber.code}"


def _first_that_passes(
    job: Job, screen: Screen, bed: Bed, trials: Sequence[_Trial], short: Sequence[TurnedDown]
) -> OutlinedArranged | tuple[Finding, ...]:  # fmt: skip
    tried: list[TurnedDown] = []
    for trial in trials[:MOST_TRIES]:
        why = next(
            (why for found in _answers(job, screen, bed, trial) if (why := fails(found))), ""
        )
        if not why:
            return OutlinedArranged(
                made=trial.made, stand=trial.stand, tried=(*short, *tried)
            )  # fmt: skip
        tried.append(_turned_down(trial, why))
    return (_none_passes((*tried, *short)),)


def _all_lines(
    job: Job, bed: Bed, span: SpanLimit, end: SpanLimit
) -> tuple[tuple[_Lines, ...], str]:  # fmt: skip
    """Return every different set of lines on the list; and why there are none, where so."""
    found: dict[tuple[float, ...], _Lines] = {}
    why = ""
    for part in PARTS:
        near = evolve(span, most_mm=max(LEAST_MM, span.most_mm * part // STEP_MM * STEP_MM))
        for _, shorter in shorter_ends(near, end):
            try:
                lines = _lines(job, bed, near, shorter)
            except InputError as error:
                why = why or "; ".join(fault.found for fault in error.faults)
                continue
            if lines.lines_mm not in found:
                found[lines.lines_mm] = _loaded(job, bed, lines)
    return tuple(found.values()), why


def _loaded(job: Job, bed: Bed, lines: OutlinedLines) -> _Lines:
    runs, trims = borne_on(bed, lines, _broad_mm(job))
    loads = tuple(load_of(lines, each, runs) for each in lines.stretches)
    return _Lines(lines=lines, loads_mm=loads, runs=runs, trims=trims)


def _broad_mm(job: Job) -> float:
    """Return how broad what stands on a line is: a post, which no bearer is broader than."""
    post = job.articles.post
    assert post is not None
    return post.thickness_mm


def _lines(job: Job, bed: Bed, span: SpanLimit, end: SpanLimit) -> OutlinedLines:
    return outlined_lines(
        outline_mm=bed.ring_mm, openings_mm=bed.holes_mm, joists_mm=bed.lines_mm,
        joist_mm=bed.under.joist.breadth_mm, bearer_mm=_broad_mm(job), post_mm=_broad_mm(job),
        span=span, end=end, back_ratio=BACK_RATIO, ledger_mm=bed.ledger_mm, trimmed_most_mm=ANY_MM,
        trimmer_mm=bed.under.joist.breadth_mm, units=job.brief.units,
    )  # fmt: skip


def _trials(
    job: Job, bed: Bed, made: BearerMade, laid: _Lines, all_rules: Sequence[Rules]
) -> Iterator[_Trial]:  # fmt: skip
    seen = set()
    for rules in all_rules:
        fitted = _fitted(laid, rules)
        places = tuple(each.posts.places_mm for each in fitted)
        if fitted and places not in seen:
            seen.add(places)
            stand = Stand(lines=laid.lines, runs=laid.runs, trims=laid.trims, fitted=fitted)
            yield _Trial(cost=_cost(job, bed, made, fitted), made=made, stand=stand)


def _all_rules(job: Job, screen: Screen, bed: Bed, made: BearerMade) -> tuple[Rules, ...]:
    """Return what a bearer and its posts keep, by the whole of what it spans and parts of it."""
    spans = _spans(job, screen, bed, made)
    whole = Rules(
        section=made.section, post_mm=_broad_mm(job), spans=spans,
        end=SpanLimit(most_mm=bed.under.length_mm, measured="centres", source=WHOLE),
        back_ratio=BACK_RATIO, longest_mm=longest_mm(made.timber.lengths, job.brief),
        units=job.brief.units,
    )  # fmt: skip
    return tuple(evolve(whole, spans=_part_of(spans, part)) for part in PARTS)


def _part_of(
    spans: Callable[[float], SpanLimit], part: float
) -> Callable[[float], SpanLimit]:  # fmt: skip
    def parted(load_mm: float) -> SpanLimit:
        whole = spans(-(-load_mm // LOAD_STEP_MM) * LOAD_STEP_MM)
        return evolve(whole, most_mm=max(STEP_MM, whole.most_mm * part // STEP_MM * STEP_MM))

    return parted


def _spans(
    job: Job, screen: Screen, bed: Bed, made: BearerMade
) -> Callable[[float], SpanLimit]:  # fmt: skip
    """Return what tells how far a bearer spans under a width of deck, by the basis."""
    wood = made.timber.strength_class
    most_mm = max(bed.under.length_mm, LEAST_MM)

    def at(load_mm: float, span_mm: float) -> Screened:
        asked = bearer_span_asked(job, screen, bed, wood, made.section, load_mm, span_mm)
        return screen.basis.beam(asked, screen.use)

    known: dict[float, float] = {}

    def spans(load_mm: float) -> SpanLimit:
        if load_mm not in known:
            known[load_mm] = _between(known, load_mm, lambda span_mm: at(load_mm, span_mm), most_mm)
        return SpanLimit(
            most_mm=known[load_mm], measured="centres",
            source=Source(kind="standard", title=screen.basis.title, clause="longest that passes"),
        )  # fmt: skip

    return spans


def _between(
    known: Mapping[float, float], load_mm: float, at: Callable[[float], Screened], most_mm: float
) -> float:  # fmt: skip
    """Return the longest span under a load, sought between those of lighter and heavier ones.

    Nothing spans further under more; what is known of other loads narrows what has to be asked.
    """
    high = min((span for load, span in known.items() if load < load_mm), default=most_mm)
    low = max((span for load, span in known.items() if load > load_mm), default=LEAST_MM)
    if low == high:
        return low
    found = longest_span(at, least_mm=low, most_mm=high, step_mm=STEP_MM)
    return found.span_mm or LEAST_MM


def _fitted(laid: _Lines, rules: Rules) -> tuple[Fitted, ...]:
    """Return every bearer that carries joists on its posts; none where one finds no room."""
    found: list[Fitted] = []
    for stretch, load in zip(laid.lines.stretches, laid.loads_mm, strict=True):
        if not load:
            continue
        mark, whole = f"BR{len(found) + 1}", load
        try:
            for _ in range(TURNS):
                one, told = bearer_on(mark, stretch, whole, rules)
                more = more_of(stretch, laid.runs, one.posts.places_mm, rules.post_mm)
                if not more:
                    break
                whole = to_mm(exact(load) + exact(more))
        except InputError:
            return ()
        if told:
            return ()
        found.append(evolve(one, bearer=evolve(one.bearer, carried_mm=whole)))
    return tuple(found)


def _cost(job: Job, bed: Bed, made: BearerMade, fitted: Sequence[Fitted]) -> Decimal:
    """Return what bearers and posts cost by length."""
    metre = price_per_m(made.timber.lengths, made.timber.price_per_m)
    long = sum((Decimal(repr(each.posts.length_mm)) for each in fitted), Decimal(0))
    posts = sum(len(each.posts.places_mm) for each in fitted)
    return metre * made.section.plies * long / 1000 + posts * post_price(job, bed.under)


def _answers(job: Job, screen: Screen, bed: Bed, trial: _Trial) -> Iterator[Screened]:
    """Yield what the basis says of bearers and posts, joists having passed."""
    stand, made = trial.stand, trial.made
    for asked in bearers_asked(job, screen, bed, made.timber.strength_class, stand.fitted):
        yield screen.basis.beam(asked, screen.use)
    held = bed.held.ledger
    top_mm = bed.under.underside_mm - made.section.depth_mm
    high_mm = top_mm - bed.under.ground_least_mm - bed.under.stand_off_mm
    count = sum(len(each.posts.places_mm) for each in stand.fitted)
    braced = high_mm > brace_over_mm(job, held=held)
    each = (high_mm, head_held(high_mm, held=held, braced=braced))
    for one in posts_asked(job, screen, bed, stand.fitted, [each] * count):
        yield screen.basis.post(one, screen.use)


def _turned_down(trial: _Trial, why: str) -> TurnedDown:
    return TurnedDown(value=_told(trial), because=f"{why}; would cost {trial.cost:.2f}")


def _told(trial: _Trial) -> str:
    made, stand = trial.made, trial.stand
    posts = sum(len(each.posts.places_mm) for each in stand.fitted)
    return (f"{_code(made)}: {stand.lines.line_count} lines, "
            f"{len(stand.fitted)} bearers, {posts} posts")  # fmt: skip


def _none_lies(why: str) -> Finding:
    return Finding(code="STR-005", severity=Severity.STOP, subject="bearers", source=PRACTICE,
                   message=f"no bearers carry every joist under this outline: {why}")  # fmt: skip


def _none_passes(tried: Sequence[TurnedDown]) -> Finding:
    near = f"; the first: {tried[0].value}, {tried[0].because}" if tried else ""
    return Finding(
        code="STR-005", severity=Severity.STOP, subject="arrangement", source=PRACTICE,
        measured=float(len(tried)), unit="arrangements",
        message="no arrangement of bearers and posts that was listed passes" + near,
    )  # fmt: skip
