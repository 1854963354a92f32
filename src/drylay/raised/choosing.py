"""The cheapest arrangement of bearer lines, bearers and posts that passes, out of a short list."""

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from itertools import pairwise

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.raised.bearers import bearer_lines
from drylay.raised.carried import carried_mm, hung_carried_mm
from drylay.raised.fitting import lines_carried_mm
from drylay.raised.model import (
    BearerChoice,
    Choice,
    JoistChoice,
    SpanLimit,
    Trial,
    Tried,
    Verdict,
)
from drylay.raised.posts import post_places
from drylay.reasons import Source

CHEAPEST = Source(kind="arithmetic", title="the cheapest of all that were listed")


@frozen(kw_only=True)
class Job:
    """A rectangle to be carried: its size, ledger, how far things may reach, what posts cost.

    `post_price` is of one post with its foot, at the length that the caller reckons with. With
    `lines_mm` bearers stand there and nowhere else, with `posts_mm` posts do, from every bearer's
    start: whether these pass is for the check to say.
    """

    depth_mm: float
    length_mm: float
    ledger_mm: float | None
    post_mm: float
    post_end: SpanLimit
    back_ratio: float | None
    post_price: Decimal
    more_lines: int = 2
    most_posts: int = 8
    sharing: str = "levered"
    units: str = "metric"
    lines_mm: tuple[float, ...] | None = None
    posts_mm: tuple[float, ...] | None = None


def choose(
    job: Job,
    joists: Sequence[JoistChoice],
    bearers: Sequence[BearerChoice],
    passes: Callable[[Trial], Verdict],
    *,
    most_tries: int = 60,
    beside: int = 0,
) -> Choice:
    """Return the cheapest arrangement that passes, and every one that was put to the check.

    All arrangements are listed: each joist, with its fewest bearer lines and up to `more_lines`
    more; each bearer; two posts and up to `most_posts`, under every line alike. They are put to
    `passes` the cheapest first until one passes, so that everything cheaper has been turned down.
    After `most_tries` it gives up (RSD-009). Of equal cost the one listed first comes first.

    Prices are by length, joists and all plies: what is bought in the end is worked out with the
    lengths on sale, elsewhere.

    Args:
        job: What is to be carried.
        joists: Joists on sale, with their own limits.
        bearers: Bearers that may be built.
        passes: Says whether an arrangement is strong enough, and why not.
        most_tries: The most that are put to it.
        beside: So many dearer ones are looked for besides, each of another bearer or number of
            lines, to be weighed against the cheapest: the next `BESIDE_TRIES` are put to it.

    Raises:
        InputError: Nothing is on the list, or a limit or length cannot be used.

    Source: arithmetic.
    """
    if not joists or not bearers or most_tries < 1:
        wanted = "a joist, a bearer and a try at least"
        raise InputError((Fault(path="joists", found=f"{len(joists)}", wanted=wanted),))
    listed = sorted(
        ((_cost(job, trial), number, trial) for number, trial in enumerate(
            trial for joist in joists for bearer in bearers
            for trial in _trials(job, joist, bearer))),
        key=lambda row: row[:2],
    )  # fmt: skip
    tried: list[Tried] = []
    for cost, _, trial in listed[:most_tries]:
        verdict = passes(trial)
        why = "" if verdict.passes else verdict.why
        tried.append(Tried(trial=trial, cost=cost, most_ratio=verdict.most_ratio, turned_down=why))
        if verdict.passes:
            others = _beside(trial, listed[len(tried) :][:BESIDE_TRIES], passes, beside)
            return Choice(chosen=tried[-1], tried=tuple(tried), listed=len(listed),
                          cheaper_open=0, most_tries=most_tries, beside=others)  # fmt: skip
    return Choice(
        chosen=None, tried=tuple(tried), listed=len(listed), most_tries=most_tries,
        cheaper_open=len(listed) - len(tried), findings=(_none(job, tried, listed, most_tries),),
    )  # fmt: skip


#: So many dearer arrangements are looked through for some to weigh the cheapest against.
BESIDE_TRIES = 60


def _beside(
    chosen: Trial, listed: Sequence[tuple[Decimal, int, Trial]],
    passes: Callable[[Trial], Verdict], most: int,
) -> tuple[Tried, ...]:  # fmt: skip
    """Return dearer arrangements that pass, one of each bearer and number of lines."""
    seen = {_kind(chosen)}
    found: list[Tried] = []
    for cost, _, trial in listed:
        if len(found) >= most or _kind(trial) in seen:
            continue
        verdict = passes(trial)
        if verdict.passes:
            seen.add(_kind(trial))
            found.append(
                Tried(trial=trial, cost=cost, most_ratio=verdict.most_ratio, turned_down="")
            )
    return tuple(found)


def _kind(trial: Trial) -> tuple[str, int]:
    return trial.bearer.article, len(trial.lines_mm)


def _none(
    job: Job, tried: Sequence[Tried], listed: Sequence[object], most: int
) -> Finding:  # fmt: skip
    least = min((one.most_ratio for one in tried if one.most_ratio is not None), default=None)
    told = "all that were listed" if len(tried) == len(listed) else f"the {most} cheapest"
    full = any(len(one.trial.posts_mm) >= job.most_posts for one in tried)
    if full and job.posts_mm is None:
        told += (
            f", with {job.most_posts} posts under a bearer at most: for more, say where they stand"
        )
    return Finding(
        code="RSD-009", severity=Severity.STOP, subject="arrangement", source=CHEAPEST,
        measured=least, limit=1.0 if least is not None else None,
        message=f"no arrangement of joists, bearers and posts passes among {told}",
    )  # fmt: skip


def _trials(job: Job, joist: JoistChoice, bearer: BearerChoice) -> Iterator[Trial]:
    """Yield the arrangements of one joist with one bearer; none where it carries nothing."""
    for lines_mm, carried in _lines(job, joist, bearer):
        for posts_mm in _posts(job, carried):
            yield _trial(job, joist, bearer, lines_mm, posts_mm, carried)


def _lines(
    job: Job, joist: JoistChoice, bearer: BearerChoice
) -> Iterator[tuple[tuple[float, ...], float]]:
    """Yield where bearers stand, with the most that any of them carries."""
    broad_mm = bearer.section.breadth_mm * bearer.section.plies
    if job.lines_mm is not None:
        hung_mm = broad_mm if joist.end is None else None
        yield job.lines_mm, _most_carried(job, job.lines_mm, hung_mm)
        return
    for more in range(job.more_lines + 1):
        try:
            lines = bearer_lines(
                depth_mm=job.depth_mm, bearer_mm=broad_mm, span=joist.span, end=joist.end,
                back_ratio=job.back_ratio, ledger_mm=job.ledger_mm, more_lines=more,
                units=job.units,
            )  # fmt: skip
        except InputError:
            if not more:
                raise
            return
        yield lines.lines_mm, max(lines_carried_mm(lines, job.sharing))


def _most_carried(job: Job, lines_mm: tuple[float, ...], hung_mm: float | None) -> float:
    """Return the most that a bearer carries of those that stand where they were told to.

    `hung_mm`: how broad bearers are that joists hang between, None where joists lie over them.
    """
    off = exact(job.ledger_mm or 0.0)
    held = () if job.ledger_mm is None else (0.0,)
    supports = (*held, *(to_mm(exact(line) - off) for line in lines_mm))
    if len(supports) < 2:
        wanted = "two bearers at least, or one and a ledger"
        raise InputError((Fault(path="lines_mm", found=f"{len(lines_mm)}", wanted=wanted),))
    if hung_mm is not None:
        return max(hung_carried_mm(lines_mm=lines_mm, bearer_mm=hung_mm, ledger_mm=job.ledger_mm))
    length_mm = to_mm(exact(job.depth_mm) - off)
    shares = carried_mm(length_mm=length_mm, supports_mm=supports, sharing=job.sharing)
    return max(shares[len(held) :])


def _posts(job: Job, carried: float) -> Iterator[tuple[float, ...]]:
    """Yield where posts stand under every bearer."""
    if job.posts_mm is not None:
        yield job.posts_mm
        return
    long = SpanLimit(most_mm=job.length_mm, measured="centres", source=CHEAPEST)
    for more in range(job.most_posts - 1):
        try:
            posts = post_places(
                length_mm=job.length_mm, post_mm=job.post_mm, carried_mm=carried,
                spans=lambda _: long, end=job.post_end, back_ratio=job.back_ratio,
                more_posts=more, units=job.units,
            )  # fmt: skip
        except InputError:
            return
        yield posts.places_mm


def _trial(  # noqa: PLR0917 - what an arrangement is made of
    job: Job, joist: JoistChoice, bearer: BearerChoice, lines_mm: tuple[float, ...],
    posts_mm: tuple[float, ...], carried: float,
) -> Trial:  # fmt: skip
    held = () if job.ledger_mm is None else (job.ledger_mm,)
    along = carried_mm(length_mm=job.length_mm, supports_mm=posts_mm, sharing=job.sharing)
    end_mm = 0.0 if joist.end is None else to_mm(exact(job.depth_mm) - exact(lines_mm[-1]))
    return Trial(
        joist=joist, bearer=bearer, lines_mm=lines_mm, posts_mm=posts_mm,
        joist_span_mm=_widest((*held, *lines_mm)), joist_end_mm=end_mm,
        bearer_span_mm=_widest(posts_mm), bearer_end_mm=posts_mm[0],
        carried_mm=carried, post_m2=max(along) * carried / 1e6,
    )  # fmt: skip


def _widest(places_mm: Sequence[float]) -> float:
    return to_mm(max((exact(b) - exact(a) for a, b in pairwise(places_mm)), default=0))


def _cost(job: Job, trial: Trial) -> Decimal:
    """Return what joists, bearers and posts cost by length: exact, in the prices' currency."""
    deep = Decimal(exact(job.depth_mm)) / 320000
    long = Decimal(exact(job.length_mm)) / 320000
    joists = trial.joist.price_per_m * trial.joist.count * deep
    lines = len(trial.lines_mm)
    bearers = trial.bearer.price_per_m * trial.bearer.section.plies * lines * long
    return joists + bearers + job.post_price * lines * len(trial.posts_mm)
