"""The frame under an outline, placed: rims, lines, joists, and what seams and openings want."""

from collections.abc import Sequence

from attrs import evolve

from drylay.findings import Finding, Severity
from drylay.outline.model import Outline
from drylay.reasons import Source
from drylay.subframe.clashes import room_of
from drylay.subframe.joists import place_joists, run_on
from drylay.subframe.lines import Lines, place_lines
from drylay.subframe.openings import frame_openings, holes_of
from drylay.subframe.plane import Axis, Place, is_inside, place_of, spread
from drylay.subframe.rims import (
    face_axes,
    is_whole,
    lines_of_rims,
    place_rims,
    ring_of,
)
from drylay.subframe.seams import pair_lines, seam_rows
from drylay.subframe.sizes import too_long
from drylay.subframe.splices import meeting_splices
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
    wants = placed.wants
    thick = wants.timber_thickness_mm
    of_rims = lines_of_rims(axes, thick)
    lines = _lines(placed, of_rims)
    first = [
        number
        for number, line in enumerate(lines.lines_mm)
        if any(abs(line - rim) < 0.01 for rim in of_rims)
    ]
    pairs = pair_lines(placed)

    def joists(obstacles: Sequence[Sequence[Place]]) -> list[Timber]:
        return place_joists(
            rims, lines.lines_mm, first, thick, lambda at: is_inside(at, placed.ring), obstacles
        )

    holes = holes_of(placed, [opening.mark for opening in outline.openings])
    trimmers = frame_openings(placed, holes, rims, joists)
    stand = [*(timber.corners for timber in trimmers), *placed.holes]
    rims, parts = run_on(rims, joists(stand))
    lines, parts = _without_empty_ends(lines, parts, of_rims)
    parts = [
        evolve(part, kind="pair") if abs(lines.lines_mm[part.number] - pair) < 0.01 else part
        for part in parts
        for pair in [min(pairs, key=lambda at: abs(at - lines.lines_mm[part.number]), default=-1e9)]
    ]
    timbers = [*rims, *parts, *trimmers]
    timbers += seam_rows(placed, timbers)
    whole = evolve(
        placed, lines_mm=lines.lines_mm, centres_mm=lines.centres_mm, timbers=tuple(timbers)
    )
    whole = evolve(whole, timbers=(*timbers, *meeting_splices(whole)))
    return evolve(whole, findings=(*room_of(whole, holes), *too_long(whole)))


def _lines(placed: Placed, of_rims: Sequence[float]) -> Lines:
    """Return the lines; where no rim runs the joists' way at an end, one close to it is a help."""
    wants = placed.wants
    thick = wants.timber_thickness_mm
    low, high = spread(u for u, _ in placed.ring)
    must = [*of_rims]
    for pair in pair_lines(placed):
        must += [pair - thick, pair]
    for end in (low + thick / 2, high - thick / 2):
        if not any(abs(end - line) < 0.01 for line in of_rims):
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
        if any(abs(line - rim) < 0.01 for rim in of_rims)
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
