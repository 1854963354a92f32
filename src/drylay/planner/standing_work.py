"""The work of what stands: what its tasks are drafted from, its upkeep, the reasons for either."""

from drylay.planner.built import Built
from drylay.planner.rows import PRACTICE, Row, row
from drylay.reasons import Source
from drylay.work.drafts import Legs
from drylay.work.model import Upkeep, Work
from drylay.work.not_ordered import not_ordered

STANDS = "upkeep of a deck that stands"
UPKEEP = Source(kind="common practice", title="common practice, no source", clause=STANDS)


def legs_at_work(built: Built) -> Legs:
    """Return what stands under a deck and round it, as tasks are drafted from it."""
    stood, levels = built.stood, built.site.levels
    return Legs(
        raised=stood.raised, footings=stood.footings, guards=stood.guards, steps=stood.steps,
        drop_mm=(levels.drop_mm or 0.0) if levels else 0.0, hold_down_at=_hold_down_at(built),
        not_ordered=not_ordered(stood.raised, len(built.frame.joists), stood.guards),
    )  # fmt: skip


def _hold_down_at(built: Built) -> str:
    """Return where the plan tells what ties hold down by design, "" where nobody told."""
    beams = built.stood.strength.beams if built.stood.strength else ()
    told = (number for number, beam in enumerate(beams)
            if beam.kind == "joist" and beam.hold_down_kn > 0)  # fmt: skip
    at = next(told, None)
    return "" if at is None else f"strength.beams[{at}].hold_down_kn"


def legs_upkeep(legs: Legs) -> tuple[Upkeep, ...]:
    """Return what is looked at every spring of what stands. Source: common practice, no source."""
    raised = legs.raised
    parts = (
        ("post feet", raised is not None),
        ("ledger fixings", raised is not None and raised.frame.ledger is not None),
        ("braces", raised is not None and bool(raised.frame.bracing.braces)),
        ("guard posts", legs.guards is not None and bool(legs.guards.runs)),
    )
    return tuple(
        Upkeep(what=what, times=1, in_years=1, source=UPKEEP) for what, there in parts if there
    )


def legs_work_rows(work: Work) -> list[Row]:
    """Return the decisions taken on the work of what stands."""
    found, out = [], work.setting_out
    if out.posts:
        found.append(
            row(
                "work.setting_out.post_accepted_mm",
                out.post_accepted_mm,
                "mm",
                "how far a post's place, or a diagonal over them, may be off",
                PRACTICE,
            )
        )
    if work.not_ordered:
        counted = tuple((each.what, each.count) for each in work.not_ordered)
        found.append(
            row(
                "work.not_ordered_count",
                work.not_ordered_count,
                "count",
                "kinds of fixings that the order does not hold, each counted",
                PRACTICE,
                counted,
            )
        )
    return found
