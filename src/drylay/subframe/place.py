"""The frame under an outline, placed: rims, lines, joists, and what seams and openings want."""

import math
from collections.abc import Sequence
from functools import partial
from itertools import pairwise

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.marks import exact
from drylay.outline.model import Outline, Side
from drylay.reasons import Source
from drylay.subframe.bearing import bears_mm, loose_ends
from drylay.subframe.clashes import room_of
from drylay.subframe.joists import Claim, Room, place_joists, run_on
from drylay.subframe.ledges import Hole
from drylay.subframe.lines import place_lines
from drylay.subframe.moving import moved_lines
from drylay.subframe.necks import necks_of_lines, necks_of_rims
from drylay.subframe.openings import frame_openings, holes_of
from drylay.subframe.plane import NEAR_MM, Axis, Corners, place_of, spread
from drylay.subframe.rims import (
    face_axes,
    is_whole,
    lines_of_rims,
    place_rims,
    ring_of,
    room_mm,
    straights,
)
from drylay.subframe.seams import pair_lines, pair_stretches, rung_rows, seam_rows, straightened
from drylay.subframe.sizes import is_upright, too_long
from drylay.subframe.splices import with_meeting_splices
from drylay.subframe.wants import FrameWants, Placed, Timber

OURS = Source(kind="assumption", title="docs/outline-conventions.md", clause="Frame")
#: How often lines are moved aside before a joist's end is told as bad.
MOST_MOVES = 5


def place_frame(outline: Outline, wants: FrameWants) -> Placed:
    """Return the frame under an outline: rims, joists, trimmers, and noggins under seams.

    What cannot be framed is told in `findings`, all of them stops, and then no timbers are placed
    that rest on it.

    Source: docs/outline-conventions.md, Frame.
    """
    numbered = straights(outline.sides)
    axes = face_axes([side for _, side in numbered], wants.joist_run)
    placed = Placed(
        wants=wants,
        sides=tuple(side.mark for _, side in numbered),
        ring=ring_of(axes),
        holes=tuple(
            tuple(place_of(spot, wants.joist_run) for spot in opening.corners)
            for opening in outline.openings
        ),
        hatches=tuple(
            number for number, opening in enumerate(outline.openings) if opening.kind == "hatch"
        ),
        seams=tuple(
            straightened(
                place_of(seam.start, wants.joist_run),
                place_of(seam.end, wants.joist_run),
                wants.timber_thickness_mm,
            )
            for seam in wants.seams
        ),
    )
    rims = place_rims(numbered, wants.joist_run, wants.timber_thickness_mm)
    stops = [*_short_sides(numbered, rims, axes), *_no_room(placed)]
    stops = stops or necks_of_rims(placed, rims)
    if stops:
        return evolve(placed, findings=tuple(stops))
    return _filled(placed, [opening.mark for opening in outline.openings], rims, axes)


def _filled(
    placed: Placed, openings: Sequence[str], rims: Sequence[Timber], axes: Sequence[Axis]
) -> Placed:
    """Return the frame with all its timbers, and the stops they meet.

    A line whose joist would end in the angle of two rims, where no straight cut bears, is moved
    aside; it is two lines where the limit leaves no room for that.
    """
    of_rims = lines_of_rims(axes, placed.wants.timber_thickness_mm)
    must = _must(placed, of_rims)
    lines = _lines(placed, must)
    holes = holes_of(placed, openings)
    frame = _framed(placed, lines, rims, holes, of_rims)
    for _ in range(MOST_MOVES):
        loose = _loose_lines(frame)
        moved = moved_lines(_room(placed, lines, rims), loose, must, frame, placed.wants)
        if moved == lines:
            break
        lines = _marked(placed, must, lines, moved)
        frame = _framed(placed, lines, rims, holes, of_rims)
    return evolve(
        frame,
        findings=(
            *necks_of_lines(frame),
            *room_of(frame, holes),
            *_badly_ended(frame),
            *too_long(frame, jointed=False),
        ),
    )


def _marked(
    placed: Placed,
    must: Sequence[float],
    lines_mm: tuple[float, ...],
    moved_mm: tuple[float, ...],
) -> tuple[float, ...]:
    """Return moved lines; spread afresh between those moved where even bays had left the marks.

    Bays so tight that no marks do are even to a hair between lines that must be. Beside a moved
    line they are no longer, and those between may find marks.
    """
    mark = exact(placed.wants.mark_mm)
    if all(line in must or exact(line) % mark == 0 for line in moved_mm):
        return moved_mm
    return _lines(placed, [*must, *(line for line in moved_mm if line not in lines_mm)])


def _room(placed: Placed, lines_mm: tuple[float, ...], rims: Sequence[Timber]) -> Room:
    return Room(
        rims=tuple(rims),
        lines_mm=lines_mm,
        claims=tuple(_claims(placed, lines_mm, rims)),
        thickness_mm=placed.wants.timber_thickness_mm,
        ring=placed.ring,
    )


def _framed(
    placed: Placed,
    lines_mm: tuple[float, ...],
    rims: Sequence[Timber],
    holes: Sequence[Hole],
    of_rims: Sequence[float],
) -> Placed:
    room = _room(placed, lines_mm, rims)
    trimmers = frame_openings(placed, holes, rims, partial(place_joists, room))
    joists = place_joists(room, [*(timber.corners for timber in trimmers), *placed.holes])
    longer, joists = run_on(rims, joists)
    thick = placed.wants.timber_thickness_mm
    lines_mm, joists = _without_empty(lines_mm, joists, of_rims, thick)
    timbers = [*longer, *_with_pairs(placed, lines_mm, joists), *trimmers]
    timbers += seam_rows(placed, timbers)
    timbers += rung_rows(placed, timbers)
    widest = max((far - near for near, far in pairwise(lines_mm)), default=0.0)
    return with_meeting_splices(
        evolve(placed, lines_mm=lines_mm, centres_mm=widest, timbers=tuple(timbers))
    )


def _loose_lines(frame: Placed) -> list[float]:
    """Return the lines with a joist that an end of rests on no face in its middle."""
    standing = [timber.corners for timber in frame.timbers]
    found = {
        frame.lines_mm[timber.number]
        for timber in frame.timbers
        if timber.kind == "joist" and loose_ends(timber, standing)
    }
    return sorted(found)


def _badly_ended(frame: Placed) -> list[Finding]:
    standing = [timber.corners for timber in frame.timbers]
    return [
        _in_an_angle(frame, timber, standing)
        for timber in frame.timbers
        if timber.kind in {"joist", "pair"} and loose_ends(timber, standing)
    ]


def _in_an_angle(frame: Placed, timber: Timber, standing: Sequence[Corners]) -> Finding:
    thick, line_mm = frame.wants.timber_thickness_mm, frame.lines_mm[timber.number]
    return Finding(
        code="SUB-006",
        severity=Severity.STOP,
        subject=f"J{timber.number + 1}",
        message=f"the joist, its line at {line_mm:g} mm, ends in the angle of two members, where "
        "no straight cut bears, and cannot be moved: more than half of its thickness is to stand "
        "against one of them; move the corner of the outline or the opening beside it",
        measured=math.floor(bears_mm(timber, standing, thick) * 10 + 1e-6) / 10,
        limit=thick / 2,
        unit="mm",
        source=OURS,
    )


def _claims(placed: Placed, lines_mm: Sequence[float], rims: Sequence[Timber]) -> list[Claim]:
    """Return which lines must have a joist where: beyond the ends of rims, and under seams."""
    wanted = [
        ((rim.corners[0][0] + rim.corners[3][0]) / 2, *spread(v for _, v in rim.corners))
        for rim in rims
        if is_upright(rim)
    ]
    stretches = [(at, low - 1.0, high + 1.0) for at, low, high in wanted]
    return [
        Claim(number, low, high)
        for at, low, high in (*stretches, *pair_stretches(placed))
        for number, line in enumerate(lines_mm)
        if abs(line - at) < NEAR_MM
    ]


def _with_pairs(
    placed: Placed, lines_mm: Sequence[float], joists: Sequence[Timber]
) -> list[Timber]:
    """Return the joists, of which the further one of every pair is told as such."""
    pairs = pair_lines(placed)
    return [
        evolve(joist, kind="pair")
        if any(abs(lines_mm[joist.number] - pair) < NEAR_MM for pair in pairs)
        else joist
        for joist in joists
    ]


def _must(placed: Placed, of_rims: Sequence[float]) -> list[float]:
    """Return the lines that must be; where no rim runs the joists' way at an end, one close to it.

    That one carries nothing, it is a help to keep the bay beside it.
    """
    thick = placed.wants.timber_thickness_mm
    low, high = spread(u for u, _ in placed.ring)
    must = [*of_rims]
    for pair in pair_lines(placed):
        must += [pair - thick, pair]
    for end in (low + thick / 2, high - thick / 2):
        if not any(abs(end - line) < NEAR_MM for line in of_rims):
            must.append(end)
    return [line for line in must if low < line < high]


def _lines(placed: Placed, must: Sequence[float]) -> tuple[float, ...]:
    wants = placed.wants
    return place_lines(
        must,
        thickness_mm=wants.timber_thickness_mm,
        most_centres_mm=wants.most_centres_mm,
        mark_mm=wants.mark_mm,
    ).lines_mm


def _without_empty(
    lines_mm: tuple[float, ...], joists: list[Timber], of_rims: Sequence[float], thickness_mm: float
) -> tuple[tuple[float, ...], list[Timber]]:
    """Return the lines without those that carry nothing at either end, or close beside another."""
    used = {joist.number for joist in joists} | {
        number
        for number, line in enumerate(lines_mm)
        if any(abs(line - rim) < NEAR_MM for rim in of_rims)
    }
    low, high = (min(used), max(used)) if used else (0, 0)
    kept = [
        number
        for number in range(low, high + 1)
        if number in used
        or all(abs(lines_mm[other] - lines_mm[number]) >= thickness_mm for other in used)
    ]
    numbers = {number: at for at, number in enumerate(kept)}
    return tuple(lines_mm[number] for number in kept), [
        evolve(joist, number=numbers[joist.number]) for joist in joists
    ]


def _short_sides(
    numbered: Sequence[tuple[int, Side]], rims: Sequence[Timber], axes: Sequence[Axis]
) -> list[Finding]:
    """Return a stop for every side with no room for its rim between its neighbours'."""
    return [
        Finding(
            code="SUB-001",
            severity=Severity.STOP,
            subject=side.mark,
            message="the side is too short for a rim between those of its neighbours: "
            "make it longer, or leave its corner out",
            measured=side.length_mm,
            limit=math.ceil((side.length_mm - room_mm(rim, axis)) * 10 - 1e-6) / 10,
            unit="mm",
            source=OURS,
        )
        for (_, side), rim, axis in zip(numbered, rims, axes, strict=True)
        if not is_whole(rim, axis)
    ]


def _no_room(placed: Placed) -> list[Finding]:
    """Return a stop where the frame is narrower than two joists."""
    low, high = spread(u for u, _ in placed.ring)
    least = 2 * placed.wants.timber_thickness_mm
    if high - low >= least:
        return []
    return [
        Finding(
            code="SUB-002",
            severity=Severity.STOP,
            subject="frame",
            message="there is no room for two joists side by side",
            measured=high - low,
            limit=least,
            unit="mm",
            source=OURS,
        )
    ]
