"""Where an opening would have room that the frame has none for: found by standing the frame."""

import math
from collections.abc import Iterator

from attrs import evolve

from drylay.brief.outline_model import OpeningWish
from drylay.findings import Finding
from drylay.geometry import Place
from drylay.marks import exact
from drylay.outline.model import Outline
from drylay.outline.sides import middle_told, with_openings
from drylay.planner.buy import Blocked
from drylay.planner.job import Job
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_frame import stand_frame
from drylay.planner.outlined_openings import openings_of

#: Stops of openings that leave the frame no room.
NO_ROOM = ("SUB-004", "SUB-005", "SUB-007", "SUB-008", "SUB-013")
#: How far apart the places are that are tried for an opening, and how far off the last of them.
#: Assumption: a step that a builder would take, as far as an opening can mostly be moved.
STEP_MM, FURTHEST_MM = 50.0, 600.0

Deck = tuple[Outline, FieldsLaid]


def with_nearest(job: Job, deck: Deck, blocked: Blocked) -> Blocked:
    """Return the frame's stops, those of openings without room with the nearest place that works.

    That is the nearest of those every 50 mm around where the frame has no stop about the opening,
    all others staying as they are.
    """
    return Blocked(
        findings=tuple(
            _with_place(job, deck, stop) if stop.code in NO_ROOM else stop
            for stop in blocked.findings
        )
    )


def _with_place(job: Job, deck: Deck, stop: Finding) -> Finding:
    near = _nearest(job, deck, stop.subject)
    told = f"none of the places within {FURTHEST_MM:g} mm works"
    if near is not None:
        middle = (exact(near.along_mm), exact(near.across_mm))
        told = (
            f"of the places every {STEP_MM:g} mm around, the nearest that works has "
            f"{middle_told(middle, deck[0].turned_deg)}"
        )
    return evolve(stop, message=f"{stop.message}; {told}")


def _nearest(job: Job, deck: Deck, mark: str) -> OpeningWish | None:
    """Return an opening moved to the nearest place tried where the frame stands."""
    wishes, at = job.brief.outline.openings, int(mark[1:]) - 1
    for along_mm, across_mm in _ways():
        moved = evolve(
            wishes[at],
            along_mm=wishes[at].along_mm + along_mm,
            across_mm=wishes[at].across_mm + across_mm,
        )
        if _stands(job, deck, mark, (*wishes[:at], moved, *wishes[at + 1 :])):
            return moved
    return None


def _ways() -> Iterator[Place]:
    """Yield the ways to the places tried, the nearest first."""
    steps = int(FURTHEST_MM / STEP_MM)
    near = [
        (along * STEP_MM, across * STEP_MM)
        for along in range(-steps, steps + 1)
        for across in range(-steps, steps + 1)
        # straight, or at half a right angle: as a person would try them
        if (along, across) != (0, 0) and (0 in (along, across) or abs(along) == abs(across))
    ]
    yield from sorted(near, key=lambda way: (math.hypot(*way), way))


def _stands(job: Job, deck: Deck, mark: str, wishes: tuple[OpeningWish, ...]) -> bool:
    """Whether no stop is about an opening when the openings lie so."""
    outline, laid = deck
    other = evolve(job, brief=evolve(job.brief, outline=evolve(job.brief.outline, openings=wishes)))
    openings = openings_of(other, outline, laid)
    if isinstance(openings, Blocked):
        return False
    placed = stand_frame(other, with_openings(outline, openings), laid)
    return not (
        isinstance(placed, Blocked)
        and any(stop.subject == mark or stop.code not in NO_ROOM for stop in placed.findings)
    )
