"""What a design basis is asked of a deck that stands under an outline: every member, one each."""

from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from drylay.planner.carrying import joist_asked, more_kn_m2, post_loads_kn, shares_mm
from drylay.planner.job import Job
from drylay.planner.outlined_bed import Bed
from drylay.planner.outlined_borne import Borne, Trim
from drylay.planner.screening import Screen, one_ply
from drylay.raised.fitting import Fitted
from drylay.raised.outline_model import OutlinedLines
from drylay.strength.model import BeamAsked, PostAsked, Section


@frozen(kw_only=True)
class Stand:
    """An arrangement under an outline: lines, joists over them, trimmers, bearers on posts."""

    lines: OutlinedLines
    runs: tuple[Borne, ...]
    trims: tuple[Trim, ...]
    fitted: tuple[Fitted, ...]


def joists_asked(
    job: Job, screen: Screen, bed: Bed, runs: Sequence[Borne], bearing_mm: float
) -> tuple[BeamAsked, ...]:
    """Return every kind of run there is, each once, told by where the first of it lies."""
    found: dict[tuple[object, ...], BeamAsked] = {}
    for each in runs:
        key = (each.from_start_mm, each.length_mm, each.wide_mm, each.plies)
        if key not in found:
            found[key] = _joist_asked(job, screen, bed, each, bearing_mm)
    return tuple(found.values())


def _joist_asked(
    job: Job, screen: Screen, bed: Bed, each: Borne, bearing_mm: float
) -> BeamAsked:  # fmt: skip
    plain = joist_asked(bed.under, job.articles.timber.strength_class, each.from_start_mm,
                        each.length_mm, screen)  # fmt: skip
    alone, name = bool(each.trims), f"joists at {each.run.along_mm:g}, from {each.start_mm:g}"
    return evolve(
        plain, subject=name, carried_mm=each.wide_mm,
        section=one_ply(job.articles.timber, each.plies), alike=1 if alone else plain.alike,
        bearing_mm=bearing_mm,
    )  # fmt: skip


def trims_asked(job: Job, screen: Screen, bed: Bed, trims: Sequence[Trim]) -> tuple[BeamAsked, ...]:
    """Return every trimmer that tails hang on, from joist to joist."""
    timber = job.articles.timber
    return tuple(
        BeamAsked(
            kind="bearer", subject=trim.mark, wood=timber.strength_class,
            section=one_ply(timber, trim.plies), length_mm=trim.to_mm - trim.from_mm,
            supports_mm=(0.0, trim.to_mm - trim.from_mm), carried_mm=trim.carried_mm,
            bearing_mm=timber.thickness_mm, held_each_mm=bed.under.centres_mm,
            sharing=screen.sharing, more_dead_kn_m2=more_kn_m2(screen, bed.under),
            hold_down_kn=screen.hold_down_kn,
        )
        for trim in trims
    )  # fmt: skip


def bearer_span_asked(  # noqa: PLR0917 - a bearer over two posts
    job: Job, screen: Screen, bed: Bed, wood: str, section: Section, carried_mm: float,
    span_mm: float,
) -> BeamAsked:  # fmt: skip
    """Return a bearer over two posts, so far apart, under such a width of deck."""
    post = job.articles.post
    assert post is not None
    return BeamAsked(
        kind="bearer", subject="bearers", wood=wood, section=section, length_mm=span_mm,
        supports_mm=(0.0, span_mm), carried_mm=carried_mm, bearing_mm=post.thickness_mm,
        held_each_mm=bed.under.centres_mm, sharing=screen.sharing,
        more_dead_kn_m2=more_kn_m2(screen, bed.under), hold_down_kn=screen.hold_down_kn,
    )  # fmt: skip


def bearers_asked(
    job: Job, screen: Screen, bed: Bed, wood: str, fitted: Sequence[Fitted]
) -> tuple[BeamAsked, ...]:
    """Return every bearer over its own posts."""
    return tuple(
        evolve(
            bearer_span_asked(job, screen, bed, wood, each.bearer.section,
                              each.bearer.carried_mm, each.posts.length_mm),
            subject=each.bearer.mark, supports_mm=each.posts.places_mm,
        )
        for each in fitted
    )  # fmt: skip


def posts_asked(
    job: Job, screen: Screen, bed: Bed, fitted: Sequence[Fitted],
    high_mm: Sequence[tuple[float, bool]],
) -> Iterator[PostAsked]:  # fmt: skip
    """Yield every post with its own area; `high_mm` says how long each is, and whether braced."""
    post, number = job.articles.post, 0
    assert post is not None
    for each in fitted:
        bearer = each.bearer
        for along_mm in shares_mm(screen, each.posts.length_mm, each.posts.places_mm):
            long_mm, braced = high_mm[number]
            number += 1
            area_m2 = along_mm * bearer.carried_mm / 1e6
            dead, live = post_loads_kn(screen, bed.under, bearer.section, area_m2, along_mm)
            yield PostAsked(
                subject=f"PO{number}", wood=post.strength_class, section=one_ply(post),
                length_mm=max(long_mm, 1.0), dead_kn=dead,
                live_kn=max(live, screen.loads.point_kn), braced=braced,
            )  # fmt: skip
