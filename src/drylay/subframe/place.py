"""The frame under an outline, placed: rims, lines, joists, and what seams and openings want."""

from collections.abc import Sequence
from functools import partial

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.outline.model import Outline
from drylay.reasons import Source
from drylay.subframe.clashes import room_of
from drylay.subframe.joists import Claim, Room, place_joists, run_on
from drylay.subframe.lines import Lines, place_lines
from drylay.subframe.openings import frame_openings, holes_of
from drylay.subframe.plane import NEAR_MM, Axis, place_of, spread
from drylay.subframe.rims import (
    face_axes,
    is_whole,
    lines_of_rims,
    place_rims,
    ring_of,
)
from drylay.subframe.seams import pair_lines, pair_stretches, seam_rows
from drylay.subframe.sizes import is_upright, too_long
from drylay.subframe.splices import with_meeting_splices
from drylay.subframe.wants import FrameWants, Placed, Timber

OURS = Source(kind="assumption", title="docs/outline-conventions.md", clause="Frame")


def place_frame(outline: Outline, wants: FrameWants) -> Placed:
    """Return the frame under an outline: rims, joists, trimmers, and noggins under seams.

    What cannot be framed is told in `findings`, all of them stops, and then no timbers are placed
    that rest on it.

    Source: docs/outline-conventions.md, Frame.
    """
    axes = face_axes(outline.sides, wants.joist_run)
    placed = Placed(
        wants=wants,
        sides=tuple(side.mark for side in outline.sides),
        ring=ring_of(axes),
        holes=tuple(
            tuple(place_of(spot, wants.joist_run) for spot in opening.corners)
            for opening in outline.openings
        ),
        seams=tuple(
            (place_of(seam.start, wants.joist_run), place_of(seam.end, wants.joist_run))
            for seam in wants.seams
        ),
    )
    rims = place_rims(outline.sides, wants.joist_run, wants.timber_thickness_mm)
    stops = [*_short_sides(outline, rims, axes), *_no_room(placed)]
    if stops:
        return evolve(placed, findings=tuple(stops))
    return _filled(placed, outline, rims, axes)


def _filled(placed: Placed, outline: Outline, rims: list[Timber], axes: Sequence[Axis]) -> Placed:
    """Return the frame with all its timbers, and the stops they meet."""
    wants = placed.wants
    of_rims = lines_of_rims(axes, wants.timber_thickness_mm)
    lines = _lines(placed, of_rims)
    room = Room(
        rims=tuple(rims),
        lines_mm=lines.lines_mm,
        claims=tuple(_claims(placed, lines, rims)),
        thickness_mm=wants.timber_thickness_mm,
        ring=placed.ring,
    )
    holes = holes_of(placed, [opening.mark for opening in outline.openings])
    trimmers = frame_openings(placed, holes, rims, partial(place_joists, room))
    joists = place_joists(room, [*(timber.corners for timber in trimmers), *placed.holes])
    rims, joists = run_on(rims, joists)
    lines, joists = _without_empty_ends(lines, joists, of_rims)
    timbers = [*rims, *_with_pairs(placed, lines, joists), *trimmers]
    timbers += seam_rows(placed, timbers)
    whole = with_meeting_splices(
        evolve(placed, lines_mm=lines.lines_mm, centres_mm=lines.centres_mm, timbers=tuple(timbers))
    )
    return evolve(whole, findings=(*room_of(whole, holes), *too_long(whole)))


def _claims(placed: Placed, lines: Lines, rims: Sequence[Timber]) -> list[Claim]:
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
        for number, line in enumerate(lines.lines_mm)
        if abs(line - at) < NEAR_MM
    ]


def _with_pairs(placed: Placed, lines: Lines, joists: Sequence[Timber]) -> list[Timber]:
    """Return the joists, of which the further one of every pair is told as such."""
    pairs = pair_lines(placed)
    return [
        evolve(joist, kind="pair")
        if any(abs(lines.lines_mm[joist.number] - pair) < NEAR_MM for pair in pairs)
        else joist
        for joist in joists
    ]


def _lines(placed: Placed, of_rims: Sequence[float]) -> Lines:
    """Return the lines; where no rim runs the joists' way at an end, one close to it is a help."""
    wants = placed.wants
    thick = wants.timber_thickness_mm
    low, high = spread(u for u, _ in placed.ring)
    must = [*of_rims]
    for pair in pair_lines(placed):
        must += [pair - thick, pair]
    for end in (low + thick / 2, high - thick / 2):
        if not any(abs(end - line) < NEAR_MM for line in of_rims):
            must.append(end)
    inside = [line for line in must if low < line < high]
    return place_lines(
        inside, thickness_mm=thick, most_centres_mm=wants.most_centres_mm, mark_mm=wants.mark_mm
    )


def _without_empty_ends(
    lines: Lines, parts: list[Timber], of_rims: Sequence[float]
) -> tuple[Lines, list[Timber]]:
    """Return the lines without those at either end of the frame that carry nothing."""
    used = {part.number for part in parts} | {
        number
        for number, line in enumerate(lines.lines_mm)
        if any(abs(line - rim) < NEAR_MM for rim in of_rims)
    }
    low, high = spread(used) if used else (0, 0)
    kept = lines.lines_mm[int(low) : int(high) + 1]
    return (
        evolve(lines, lines_mm=kept),
        [evolve(part, number=part.number - int(low)) for part in parts],
    )


def _short_sides(outline: Outline, rims: Sequence[Timber], axes: Sequence[Axis]) -> list[Finding]:
    """Return a stop for every side with no room for its rim between its neighbours'."""
    return [
        Finding(
            code="SUB-001",
            severity=Severity.STOP,
            subject=side.mark,
            message="the side is too short for a rim between those of its neighbours: "
            "make it longer, or leave its corner out",
            measured=side.length_mm,
            unit="mm",
            source=OURS,
        )
        for side, rim, axis in zip(outline.sides, rims, axes, strict=True)
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
