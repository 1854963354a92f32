"""A deck's timber put to a design basis: what carries what, and what is told of the answers."""

from collections.abc import Iterable, Iterator
from typing import Protocol

from attrs import evolve, frozen

from drylay.findings import Finding, Severity
from drylay.materials.stock_model import Timber
from drylay.planner.cover_weight import heavier_kn_m2
from drylay.planner.job import Job
from drylay.planner.loose import ALIKE, alike_most, joists_held_mm
from drylay.reasons import Source
from drylay.strength.model import (
    BeamAsked,
    BoardAsked,
    DeckLoads,
    DesignBasis,
    LedgerAsked,
    PostAsked,
    Screened,
    Section,
    Strength,
)

NOT_TOLD = Source(kind="assumption", title="a strength that nobody tells is none")


class Asked(Protocol):
    """Anything that a basis is asked of."""

    @property
    def subject(self) -> str:
        """Return what it is called."""
        ...


@frozen(kw_only=True)
class Screen:
    """A basis with the use that all members are asked for, and its loads.

    `hold_down_kn` is what ties at every support hold down, as somebody declares; `heavier_kn_m2`
    how much more the cover weighs than the basis takes. `alike_most` joists share what is spread at
    most, `joists_held_mm` is how far apart their upper edges are held, 0 where boards do it.
    """

    basis: DesignBasis
    use: str
    sharing: str
    loads: DeckLoads
    hold_down_kn: float = 0.0
    heavier_kn_m2: float = 0.0
    alike_most: int = ALIKE
    joists_held_mm: float = 0.0


def screen_of(job: Job) -> Screen | None:
    """Return what a job's timber is screened by; None where the brief names no basis."""
    basis = job.basis
    if basis is None:
        return None
    use = job.brief.use
    loads = basis.loads(use)
    return Screen(
        basis=basis,
        use=use,
        sharing=job.brief.strength.sharing or basis.sharings[0],
        loads=loads,
        hold_down_kn=job.brief.raised.hold_down_kn or 0.0,
        heavier_kn_m2=heavier_kn_m2(job, loads),
        alike_most=alike_most(job),
        joists_held_mm=joists_held_mm(job),
    )


def unloaded(screen: Screen) -> tuple[Finding, ...]:
    """Return a stop for everything of the use that the basis does not cover."""
    return tuple(
        Finding(code="STR-002", severity=Severity.STOP, subject=f"use: {screen.use}",
                message=stop, source=screen.loads.source)
        for stop in screen.loads.stops
    )  # fmt: skip


def untold(timbers: Iterable[Timber]) -> tuple[Finding, ...]:
    """Return a stop for every timber whose strength the stock does not tell."""
    named = {timber.code: timber for timber in timbers if not timber.strength_class}
    return tuple(
        Finding(code="STR-002", severity=Severity.STOP, subject=code, source=NOT_TOLD,
                message="the stock does not tell its strength class: nothing is screened without "
                "one; name a graded timber")
        for code in named
    )  # fmt: skip


def one_ply(timber: Timber, plies: int = 1) -> Section:
    """Return a timber's section on edge."""
    return Section(breadth_mm=timber.thickness_mm, depth_mm=timber.depth_mm, plies=plies)


def unknown_post(screen: Screen, post: Timber) -> Finding | None:
    """Return the stop of a post that the basis says nothing of, however short and little pressed.

    Else every arrangement would be put to it in vain.
    """
    asked = PostAsked(subject="posts", wood=post.strength_class, section=one_ply(post),
                      length_mm=300.0, dead_kn=0.1, live_kn=0.1)  # fmt: skip
    found = screen.basis.post(asked, screen.use)
    if not found.stops:
        return None
    return Finding(
        code="STR-002", severity=Severity.STOP, subject=post.code, message=found.stops[0],
        source=Source(kind="assumption", title=found.basis),
    )  # fmt: skip


@frozen(kw_only=True)
class Asks:
    """Everything that a basis is asked of one deck, in the order that its answers stand in."""

    beams: tuple[BeamAsked, ...] = ()
    posts: tuple[PostAsked, ...] = ()
    boards: tuple[BoardAsked, ...] = ()
    ledgers: tuple[LedgerAsked, ...] = ()


def answered(screen: Screen, asks: Asks) -> tuple[Screened, ...]:
    """Return the basis's answer to each, in order."""
    basis, use = screen.basis, screen.use
    return (
        *(basis.beam(asked, use) for asked in asks.beams),
        *(basis.post(asked, use) for asked in asks.posts),
        *(basis.board(asked, use) for asked in asks.boards),
        *(basis.ledger(asked, use) for asked in asks.ledgers),
    )


def strength_of(screen: Screen, asks: Asks) -> Strength:
    """Return what was asked and answered, as a plan holds it."""
    found, loads = answered(screen, asks), screen.loads
    return Strength(
        basis=screen.basis.id, title=screen.basis.title, use=screen.use, sharing=screen.sharing,
        dead_kn_m2=loads.dead_kn_m2, imposed_kn_m2=loads.imposed_kn_m2, point_kn=loads.point_kn,
        own_weight_apart=loads.own_weight_apart, heavier_kn_m2=screen.heavier_kn_m2,
        beams=asks.beams, posts=asks.posts,
        boards=asks.boards, ledgers=asks.ledgers, screened=found, most_ratio=most_used(found),
    )  # fmt: skip


def most_used(found: Iterable[Screened]) -> float:
    """Return the largest utilisation of any check; 0 where nothing was checked."""
    return max((check.utilisation_ratio for one in found for check in one.checks), default=0.0)


def fails(found: Screened) -> str:
    """Return why a member does not pass, "" where it does."""
    if found.stops:
        return f"{found.subject}: {found.stops[0]}"
    over = [check for check in found.checks if check.utilisation_ratio > 1.0]
    if not over:
        return ""
    return f"{found.subject}: {over[0].name} used {over[0].utilisation_ratio:.2f} times"


def strength_findings(strength: Strength, *, loose: bool = False) -> tuple[Finding, ...]:
    """Return stops for what does not pass or is not covered, and what is taken for granted.

    `loose`: whether tiles lie on the frame, not boards.
    """
    cover = (_tiles(),) if loose else _boards(strength)
    return (*_over(strength), *_at_limit(strength), *_not_covered(strength), *cover,
            *_unsaid(strength), *_assumed(strength))  # fmt: skip


def answers_told(strength: Strength, answers: tuple[Screened, ...]) -> tuple[Finding, ...]:
    """Return what is told of guards' posts' answers, which come last: nothing told before."""
    known = {said for one in strength.screened for said in one.assumed}
    fresh = tuple(
        evolve(one, assumed=tuple(said for said in one.assumed if said not in known))
        for one in answers
    )
    only = evolve(strength, screened=fresh)
    unsaid = _nothing_of(answers, GUARD_POST_CHECKS)
    return (*_over(only), *_at_limit(only), *_not_covered(only), *unsaid, *_assumed(only))


def _over(strength: Strength) -> Iterator[Finding]:
    for found in strength.screened:
        for check in found.checks:
            if check.utilisation_ratio > 1.0:
                yield Finding(
                    code="STR-001", severity=Severity.STOP, subject=found.subject,
                    measured=check.measured, limit=check.limit, unit=check.unit,
                    source=check.source,
                    message=f"not within the screened limits: {check.name} is used "
                    f"{check.utilisation_ratio:.2f} times, {check.case}",
                )  # fmt: skip


#: Used more than this a limit is told to be reached. Common practice, no source.
REACHED_RATIO = 0.98


def _at_limit(strength: Strength) -> Iterator[Finding]:
    for found in strength.screened:
        for check in found.checks:
            if REACHED_RATIO <= check.utilisation_ratio <= 1.0:
                yield Finding(
                    code="STR-010", severity=Severity.CAUTION, subject=found.subject,
                    measured=check.measured, limit=check.limit, unit=check.unit,
                    source=check.source,
                    message=f"at its limit, nothing in hand: {check.name}, {check.case}",
                )  # fmt: skip


def _boards(strength: Strength) -> Iterator[Finding]:
    """Yield that boards are not screened, where nobody tells what class they are of."""
    if not strength.boards:
        yield Finding(
            code="STR-004", severity=Severity.CAUTION, subject="boards", source=NOT_TOLD,
            message="not screened under a point load: nobody tells their strength class "
            "(strength.board_class); joists stand no further apart than their family allows",
        )  # fmt: skip


def _tiles() -> Finding:
    """Return that tiles themselves are not screened: no basis here knows what they bear."""
    return Finding(
        code="STR-004", severity=Severity.CAUTION, subject="tiles", source=NOT_TOLD,
        message="not screened under a point load: ask their maker what they bear laid on joists as "
        "the frame drawing has it; the frame's sag is held to the basis's own limits, not made for "
        "tiles",
    )  # fmt: skip


def _not_covered(strength: Strength) -> Iterator[Finding]:
    for found in strength.screened:
        for stop in found.stops:
            yield Finding(code="STR-002", severity=Severity.STOP, subject=found.subject,
                          message=stop, source=Source(kind="assumption",
                                                        title=found.basis))  # fmt: skip


#: What a beam is checked for by any basis that works by stresses.
BEAM_CHECKS = ("bending", "shear")
#: What a guard's post is checked for by any.
GUARD_POST_CHECKS = ("bending", "shear", "washer bearing", "bolt in tension")


def _unsaid(strength: Strength) -> Iterator[Finding]:
    """Yield beams of which an answer says nothing of bending or shear: nobody else looks at it."""
    yield from _nothing_of(strength.screened[: len(strength.beams)], BEAM_CHECKS)


def _nothing_of(answers: Iterable[Screened], wanted: tuple[str, ...]) -> Iterator[Finding]:
    for found in answers:
        names = {check.name for check in found.checks}
        missing = [name for name in wanted if name not in names]
        if missing and not found.stops:
            yield Finding(
                code="STR-012", severity=Severity.CAUTION, subject=found.subject,
                message=f"by {found.basis} nothing is told of {' and '.join(missing)}: ask "
                "whoever made it", source=Source(kind="assumption", title=found.basis),
            )  # fmt: skip


def _assumed(strength: Strength) -> Iterator[Finding]:
    """Yield what members take for granted, each once, with how a point load is shared first."""
    told: dict[str, str] = {}
    for found in strength.screened:
        for assumed in found.assumed:
            told.setdefault(assumed, found.basis)
    for assumed, basis in told.items():
        yield Finding(code="STR-003", severity=Severity.NOTE, subject="strength", message=assumed,
                      source=Source(kind="assumption", title=basis))  # fmt: skip
