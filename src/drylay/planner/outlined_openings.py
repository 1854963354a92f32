"""Openings of an outline: what stands there, what is kept clear, where hatches snap to rows."""

from math import ceil, cos, hypot, radians, sin

from attrs import evolve

from drylay.brief.outline_model import OpeningWish
from drylay.findings import Finding, Severity
from drylay.geometry import bounds, box, common, parts_of, region, ring_of, turned, within
from drylay.laying.axes import all_seen, axes_of, place_of
from drylay.laying.model import Zone
from drylay.marks import exact, to_mm
from drylay.outline.clashes import TO_A_SIDE, TO_ANOTHER, clashes
from drylay.outline.hatches import CLEAR_LEAST_MM, Rows, snap_hatch
from drylay.outline.model import Opening, Outline
from drylay.outline.sides import WORKS, middle_told
from drylay.outline.sides import ring_of as ring_of_spots
from drylay.outline.standing import opening_of
from drylay.planner.angles import on_rungs
from drylay.planner.buy import Blocked
from drylay.planner.job import Job
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_job import sizes_of
from drylay.planner.rows import ARITHMETIC
from drylay.spaces import Room, nearest_place, stands_in


def openings_of(job: Job, outline: Outline, laid: FieldsLaid) -> tuple[Opening, ...] | Blocked:
    """Return all openings as the deck leaves them, or every clash that keeps them from it."""
    found: list[Opening] = []
    stops: list[Finding] = []
    for number, wish in enumerate(job.brief.outline.openings, start=1):
        opening = _opening(job, (outline, laid), wish, f"O{number}")
        if isinstance(opening, Finding):
            stops.append(_with_place(job, (outline, laid), number - 1, opening))
        else:
            found.append(opening)
    if not stops:
        timber_mm = job.articles.timber.thickness_mm
        stops += clashes(outline, tuple(found), timber_mm=timber_mm, border_mm=laid.border_mm)
    return Blocked(findings=tuple(stops)) if stops else tuple(found)


def openings_alone(job: Job, outline: Outline, laid: FieldsLaid) -> tuple[Opening, ...]:
    """Return the openings that their rows have room for, whether they clash or not."""
    wishes = enumerate(job.brief.outline.openings, start=1)
    found = [_opening(job, (outline, laid), wish, f"O{number}") for number, wish in wishes]
    return tuple(each for each in found if isinstance(each, Opening))


def _opening(
    job: Job, deck: tuple[Outline, FieldsLaid], wish: OpeningWish, mark: str
) -> Opening | Finding:
    outline, laid = deck
    if wish.kind != "hatch":
        return opening_of(wish, mark=mark)
    zone = _zone_under(laid, wish)
    if zone is None:
        return _off_its_rows(mark)
    sizes = sizes_of(job)
    rows = Rows(
        angle_deg=zone.angle_deg,
        first_row=zone.first_row,
        rows=[row for row in laid.rows if row.zone == zone.mark],
        end_gap_mm=sizes.end_gap_mm,
        ledge_mm=job.articles.timber.thickness_mm,
        mark_320=sizes.mark_320,
        turned_deg=outline.turned_deg,
    )
    hatch = snap_hatch(wish, rows, mark=mark)
    if isinstance(hatch, Finding):
        return hatch
    if not all(within(place_of(corner), laid.areas[zone.mark]) for corner in hatch.corners):
        return _off_its_rows(mark)
    return _short_of_a_seam(job, laid, zone, hatch) or hatch


def _with_place(
    job: Job, deck: tuple[Outline, FieldsLaid], at: int, stop: Finding
) -> Finding:  # fmt: skip
    """Return the stop of a hatch that its field has no room for there, with where it has."""
    if stop.code not in {"OUT-009", "OUT-013"}:
        return stop
    near = nearest_hatch(job, deck, at)
    told = "no place that works was found on this deck"
    if near is not None:
        middle = (exact(near.along_mm), exact(near.across_mm))
        told = f"{WORKS} {middle_told(middle, deck[0].turned_deg)}"
        if stop.code == "OUT-009":
            stop = evolve(stop, measured=_off_mm(job.brief.outline.openings[at], near))
    return evolve(stop, message=f"{stop.message}; {told}")


def _off_mm(wish: OpeningWish, near: OpeningWish) -> float:
    """Return how far an opening lies off a place, up to a tenth of a mm."""
    off = hypot(near.along_mm - wish.along_mm, near.across_mm - wish.across_mm)
    return ceil(off * 10 - 1e-6) / 10


def nearest_hatch(
    job: Job, deck: tuple[Outline, FieldsLaid], at: int
) -> OpeningWish | None:  # fmt: skip
    """Return a hatch moved to the nearest place of any field where it fits beside the others."""
    outline, laid = deck
    wishes = job.brief.outline.openings
    wish, others = wishes[at], [each for number, each in enumerate(wishes) if number != at]
    standing = tuple(opening_of(each, mark="") for each in others if each.kind != "hatch")
    timber_mm = job.articles.timber.thickness_mm
    middle = (exact(wish.along_mm), exact(wish.across_mm))
    found = []
    for zone in laid.zones:
        room = _room(job, wish, zone)
        for part in parts_of(laid.areas[zone.mark]):
            ring = tuple((exact(x), exact(y)) for x, y in ring_of(part))
            taken = [ring_of_spots(each.corners) for each in standing]
            near = nearest_place(ring, taken, middle, room)
            if near is None:
                continue
            moved = evolve(wish, along_mm=to_mm(near[0]), across_mm=to_mm(near[1]))
            hatch = _opening(job, deck, moved, "O")
            if isinstance(hatch, Opening) and not clashes(
                outline, (*standing, hatch), timber_mm=timber_mm, border_mm=laid.border_mm
            ):
                found.append((hypot(near[0] - middle[0], near[1] - middle[1]), near, moved))
    return min(found, key=lambda each: each[:2])[2] if found else None


def _room(job: Job, wish: OpeningWish, zone: Zone) -> Room:
    """Return the room a hatch may take, snapped to a zone's rows, and what its timber wants."""
    timber_mm, sizes = job.articles.timber.thickness_mm, sizes_of(job)
    cosine, sine = (abs(way(radians(zone.angle_deg))) for way in (cos, sin))
    wide, deep = wish.size_along_mm or 0.0, wish.size_across_mm or 0.0
    pitch_mm = job.articles.board.width_mm + sizes.end_gap_mm
    along = wide * cosine + deep * sine + 2 * (CLEAR_LEAST_MM + timber_mm + sizes.end_gap_mm)
    across = wide * sine + deep * cosine + 2 * (CLEAR_LEAST_MM + pitch_mm)
    return stands_in(
        (exact(along * cosine + across * sine), exact(along * sine + across * cosine)),
        exact(TO_A_SIDE * timber_mm),
        exact(TO_ANOTHER * timber_mm),
    )


def _off_its_rows(mark: str) -> Finding:
    return Finding(
        code="OUT-009",
        severity=Severity.STOP,
        subject=mark,
        limit=0.0,
        unit="mm",
        message="the hatch lies on a border, a breaker board or between two fields: move it "
        "so that rows of one field run over all of it",
        source=ARITHMETIC,
    )


def _short_of_a_seam(
    job: Job, laid: FieldsLaid, zone: Zone, hatch: Opening
) -> Finding | None:  # fmt: skip
    """Return the stop of a hatch that leaves pieces of board beside it with no room for a timber.

    Under the seam that they end at stands a joist of its own on their side: the hole would cut it.
    """
    thick_mm, half_mm = job.articles.timber.thickness_mm, sizes_of(job).end_gap_mm / 2
    axes = axes_of(zone.angle_deg)
    if 0.0 not in (axes.cos_ratio, axes.sin_ratio) or on_rungs(job.brief, zone.angle_deg):
        return None  # seams lie over noggins there, which go where there is room
    area = turned(laid.areas[zone.mark], axes.cos_ratio, axes.sin_ratio)
    u1, low, u2, high = bounds(region(all_seen(axes, map(place_of, hatch.corners))))
    for seam in laid.seams:
        (s, v), (t, w) = all_seen(axes, seam)
        if max(low, min(v, w)) >= min(high, max(v, w)) or abs(s - t) > thick_mm / 2:
            continue
        at = (s + t) / 2
        for off, start, end in ((u1 - at, at, u1 - half_mm), (at - u2, u2 + half_mm, at)):
            left = 0 < off < thick_mm and start < end
            if left and not common(area, box(start, low, end, high)).is_empty:
                return _no_room(hatch, off, thick_mm)
    return None


def _no_room(hatch: Opening, off_mm: float, thick_mm: float) -> Finding:
    return Finding(
        code="OUT-013",
        severity=Severity.STOP,
        subject=hatch.mark,
        message="the hatch leaves pieces of board between it and the border, breaker board or "
        "field beside it that no timber has room under: its hole is so near the line they end at",
        measured=to_mm(exact(off_mm)),
        limit=thick_mm,
        unit="mm",
        source=ARITHMETIC,
    )


def _zone_under(laid: FieldsLaid, wish: OpeningWish) -> Zone | None:
    at = (wish.along_mm, wish.across_mm)
    return next((zone for zone in laid.zones if within(at, laid.areas[zone.mark])), None)
