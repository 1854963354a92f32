"""All boards on an outline as the plan holds them, with what mitres do as they dry."""

import math
from collections.abc import Sequence
from typing import Any

from attrs import evolve

from drylay.laying.axes import place_of, placed, spot
from drylay.laying.carried import Along, Standing, crossings
from drylay.laying.model import LaidJoint, LaidPiece, Laying, Mitre
from drylay.marks import exact, to_mm
from drylay.planner import slip_notes
from drylay.planner.angles import angle_of
from drylay.planner.asking import laying_pct_of
from drylay.planner.job import Job
from drylay.planner.outlined_boards import BoardsLaid, face_m2
from drylay.planner.outlined_fields import FieldsLaid
from drylay.planner.outlined_job import FAN_MOST_MM, sizes_of


def on_final_members(boards: BoardsLaid, members: Sequence[Standing], along: Along) -> BoardsLaid:
    """Return boards with what lies under them told by the frame's final marks.

    A rim that is jointed has a mark for each of its pieces only once it is cut.
    """
    over = {
        piece.mark: crossings(boards.parts[piece.mark], members, along, kind=piece.kind)
        for piece in boards.pieces
    }
    joints = tuple(evolve(joint, member=_under(joint, members)) for joint in boards.joints)
    pieces = tuple(_on_members(piece, boards, joints) for piece in boards.pieces)
    return evolve(boards, over=over, joints=joints, pieces=pieces)


def _on_members(piece: LaidPiece, boards: BoardsLaid, joints: Sequence[LaidJoint]) -> LaidPiece:
    """Return a piece with the final marks of what its ends at joints rest on."""
    part = boards.parts[piece.mark]
    middle = (part.band.low_mm + part.band.high_mm) / 2
    ends = [placed(part.band.axes, (u, middle)) for u in (part.start_mm, part.end_mm)]
    return evolve(
        piece,
        from_member=_nearest(ends[0], joints) if piece.from_member else "",
        to_member=_nearest(ends[1], joints) if piece.to_member else "",
    )


def _nearest(end: tuple[float, float], joints: Sequence[LaidJoint]) -> str:
    return min(
        joints,
        key=lambda joint: math.hypot(joint.at.along_mm - end[0], joint.at.across_mm - end[1]),
    ).member


def _under(joint: LaidJoint, members: Sequence[Standing]) -> str:
    """Return the member under a joint: of that number, the one whose own length it lies on."""
    base = joint.member.split(".")[0]
    same = [each.member for each in members if each.member.mark.split(".")[0] == base]
    return min(
        same,
        key=lambda member: (
            _off(place_of(joint.at), place_of(member.start), place_of(member.end)), member.mark
        ),
    ).mark  # fmt: skip


def _off(at: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    """Return how far a place is from a stretch, to a thousandth."""
    long = math.dist(start, end)
    share = sum((at[n] - start[n]) * (end[n] - start[n]) for n in (0, 1)) / long**2
    share = min(1.0, max(0.0, share))
    foot = tuple(start[n] + share * (end[n] - start[n]) for n in (0, 1))
    return round(math.dist(at, foot), 3)


def laying_of(job: Job, laid: FieldsLaid, boards: BoardsLaid) -> Laying:
    """Return all boards as the plan holds them."""
    mitres = _mitres(job, laid, boards)
    return Laying(
        **_of_the_board(job),
        **_limits(job),
        **_counts(job, laid, boards),
        end_bearing_mm=_bearing_mm(job, boards),
        joint_price=boards.joint_price,
        mitre_count=len(mitres),
        mitre_opens_mm=max((m.opens_mm for m in mitres if m.opens_mm is not None), default=None),
        zones=laid.zones,
        rows=laid.rows,
        joints=boards.joints,
        pieces=boards.pieces,
        mitres=mitres,
    )


def _of_the_board(job: Job) -> dict[str, Any]:
    """Return what is told of the boards themselves."""
    rules, sizes = job.rules, sizes_of(job)
    return {
        "board_article": job.articles.board.code,
        "board_width_mm": sizes.board_mm,
        "board_thickness_mm": sizes.thickness_mm,
        "groove_mm": job.articles.board.groove_mm or None,
        "fall_least_ratio": rules.value("surface.fall_least_ratio"),
        "combustible": bool(rules.value("surface.combustible")),
        "timber": bool(rules.value("surface.timber")),
        "wet_slip_least": slip_notes.least(job),
        "handed": rules.count("pieces.handed") == 1,
    }


def _limits(job: Job) -> dict[str, Any]:
    """Return the limits that rows and joints keep."""
    rules, sizes = job.rules, sizes_of(job)
    return {
        "gap_preferred_mm": sizes.gap_mm,
        "gap_least_mm": rules.value("surface.gap_least_mm"),
        "gap_most_mm": rules.value("surface.gap_most_mm"),
        "sliver_limit_mm": rules.value("surface.sliver_limit_mm"),
        "least_rip_mm": rules.value("surface.least_rip_mm"),
        "fan_most_mm": FAN_MOST_MM,
        "end_gap_mm": sizes.end_gap_mm,
        "end_bearing_least_mm": rules.value("pieces.end_bearing_least_mm"),
        "least_supports": rules.count("pieces.least_supports"),
        "stagger_bays": rules.count("pieces.stagger_bays"),
        "least_piece_mm": rules.value("pieces.least_piece_mm"),
        "most_joints_per_row": job.brief.joints.most_per_row,
    }


def _counts(job: Job, laid: FieldsLaid, boards: BoardsLaid) -> dict[str, Any]:
    """Return how many there are of everything, and how the main field is laid."""
    main, pieces = laid.fields[0], boards.pieces
    return {
        "angle_deg": angle_of(job.brief),
        "way_out": main.fit.kind,
        "fan_mm": main.grid.fan_mm,
        "border_courses": job.brief.laying.border_courses,
        "breaker_count": sum(1 for piece in pieces if piece.kind == "breaker"),
        "zone_count": len(laid.zones),
        "row_count": len(laid.rows),
        "joint_count": len(boards.joints),
        "stations_met": boards.stations_met,
        "piece_count": len(pieces),
        "splay_cuts": sum(
            bool(piece.start_deg) + bool(piece.end_deg)
            for piece in pieces
            if piece.kind != "border"
        ),
        "shaped_count": sum(piece.shaped for piece in pieces),
        "tip_to_tip_m": to_mm(sum(exact(piece.length_mm) for piece in pieces)) / 1000,
        "face_m2": round(face_m2(pieces), 6),
    }


def _bearing_mm(job: Job, boards: BoardsLaid) -> float | None:
    """Return what a board end rests on at a joint over one member, None without such joints."""
    if not boards.across_joints:
        return None
    thick = exact(job.articles.timber.thickness_mm)
    return to_mm((thick - exact(sizes_of(job).end_gap_mm)) // 2)


def _mitres(job: Job, laid: FieldsLaid, boards: BoardsLaid) -> tuple[Mitre, ...]:
    lost = width_lost_mm(job)
    sides = len(laid.ring)
    found = []
    for mitre in laid.mitres:
        before = (mitre.side - 1) % sides
        pieces = _meeting(laid, boards, before, mitre.side)
        half = math.radians(90 - mitre.saw_deg)
        found.append(
            Mitre(
                mark=f"M{mitre.side + 1}",
                pieces=pieces,
                start=spot(mitre.start),
                end=spot(mitre.end),
                length_mm=to_mm(exact(mitre.length_mm)),
                saw_deg=round(mitre.saw_deg, 3) + 0.0,
                opens_mm=None if lost is None else round(lost / math.sin(half), 4),
            )
        )
    return tuple(found)


def _meeting(laid: FieldsLaid, boards: BoardsLaid, before: int, after: int) -> tuple[str, ...]:
    """Return the pieces that meet at a corner, course by course: the side's before, then its own.

    Pieces of a border stand in order of course and side, those of a jointed side together.
    """
    sides = len(laid.ring)
    by_side: dict[tuple[int, int], list[str]] = {}
    for mark, (course, side) in boards.border_sides.items():
        by_side.setdefault((course, side), []).append(mark)
    courses = len(laid.border) // sides
    return tuple(
        mark
        for course in range(courses)
        for mark in (by_side[course, before][-1], by_side[course, after][0])
    )


def width_lost_mm(job: Job) -> float | None:
    """Return what a board loses in width from laying to its driest; None where that is not told.

    Source: its movement for each per cent of moisture, as its record or family rules.
    """
    laid_pct = laying_pct_of(job.brief.climate)
    path = "surface.moisture"
    wanted = (f"{path}.movement_per_pct", f"{path}.driest_pct")
    if laid_pct is None or any(each not in job.rules.rulings for each in wanted):
        return None
    per_pct, driest_pct = (job.rules.value(each) for each in wanted)
    return max(0.0, laid_pct - driest_pct) * per_pct * sizes_of(job).board_mm
