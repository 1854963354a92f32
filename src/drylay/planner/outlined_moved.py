"""Where an opening would have room that the frame has none for: found by standing the frame."""

import math
from collections.abc import Iterator

from attrs import evolve

from drylay.brief.outline_model import OpeningWish
from drylay.findings import Finding
from drylay.geometry import Place
from drylay.marks import exact, to_mm
from drylay.outline.clashes import nearest_room
from drylay.outline.model import Outline
from drylay.outline.sides import WORKS, middle_told, with_openings
from drylay.planner.buy import Blocked
from drylay.planner.job import Job
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_frame import stand_frame
from drylay.planner.outlined_openings import nearest_hatch, openings_alone, openings_of

#: Stops of openings that leave the frame no room.
NO_ROOM = ("SUB-004", "SUB-005", "SUB-007", "SUB-008", "SUB-013")
#: How far apart the places are that are tried for an opening, and how far off the last of them.
#: Assumption: a step that a builder would take, as far as an opening can mostly be moved.
STEP_MM, FURTHEST_MM = 50.0, 600.0

#: Stops of openings that are told the nearest place clear of sides, others, borders; of rows.
NO_ROOM_BESIDE = ("OUT-001", "OUT-002", "OUT-003", "OUT-005")
OFF_ROWS = ("OUT-009", "OUT-013")

Deck = tuple[Outline, FieldsLaid]


def with_nearest(job: Job, deck: Deck, blocked: Blocked) -> Blocked:
    """Return the frame's stops, those of openings without room with the nearest place that works.

    That is the nearest of those every 50 mm around where the frame has no stop about the opening,
    all others staying as they are.
    """
    return Blocked(
        findings=tuple(
            _with_place(job, deck, stop, stop.subject) if stop.code in NO_ROOM else stop
            for stop in blocked.findings
        )
    )


def with_standing(job: Job, deck: Deck, blocked: Blocked) -> Blocked:
    """Return the stops of openings, their nearest places tried in the frame.

    Where the frame has no room for an opening at the place told, the nearest that it has room for
    is told besides. Others that are stopped are left out of the trial: they will move too.
    """
    stopped = {stop.subject for stop in blocked.findings}
    return Blocked(findings=tuple(_tried(job, deck, stop, stopped) for stop in blocked.findings))


def _tried(job: Job, deck: Deck, stop: Finding, stopped: set[str]) -> Finding:
    near = _place_told(job, deck, stop)
    if near is None:
        return stop
    wishes = job.brief.outline.openings
    own = int(stop.subject[1:]) - 1
    kept = [at for at in range(len(wishes)) if at == own or f"O{at + 1}" not in stopped]
    moved = tuple(near if at == own else wishes[at] for at in kept)
    mark = f"O{kept.index(own) + 1}"
    if _stands(job, deck, mark, moved):
        return stop
    clear = stop.message.replace(WORKS, "the nearest place clear of all that has")
    return _with_place(
        _wished(job, moved), deck, evolve(stop, message=f"{clear}; the frame has no room there"),
        mark,
    )  # fmt: skip


def _place_told(job: Job, deck: Deck, stop: Finding) -> OpeningWish | None:
    """Return the opening of a stop where it is told to be moved; None where it is told nowhere."""
    at = int(stop.subject[1:]) - 1 if stop.code in NO_ROOM_BESIDE + OFF_ROWS else 0
    if stop.code in OFF_ROWS:
        return nearest_hatch(job, deck, at)
    if stop.code not in NO_ROOM_BESIDE:
        return None
    placed = openings_alone(job, *deck)
    if len(placed) != len(job.brief.outline.openings):
        return None
    middle = nearest_room(
        deck[0], placed, at,
        timber_mm=job.articles.timber.thickness_mm, border_mm=deck[1].border_mm,
    )  # fmt: skip
    if middle is None:
        return None
    wish = job.brief.outline.openings[at]
    return evolve(wish, along_mm=to_mm(middle[0]), across_mm=to_mm(middle[1]))


def _with_place(job: Job, deck: Deck, stop: Finding, mark: str) -> Finding:
    near = _nearest(job, deck, mark)
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
    other = _wished(job, wishes)
    openings = openings_of(other, outline, laid)
    if isinstance(openings, Blocked):
        return False
    placed = stand_frame(other, with_openings(outline, openings), laid)
    return not (
        isinstance(placed, Blocked)
        and any(stop.subject == mark or stop.code not in NO_ROOM for stop in placed.findings)
    )


def _wished(job: Job, wishes: tuple[OpeningWish, ...]) -> Job:
    """Return a job with other openings."""
    return evolve(job, brief=evolve(job.brief, outline=evolve(job.brief.outline, openings=wishes)))
