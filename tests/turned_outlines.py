"""Briefs on an outline as plain data, turned or mirrored, and what must not change."""

from math import cos, radians, sin
from typing import Any

import drylay
from drylay.plan.model import Plan

Sections = dict[str, Any]
OTHER = {"near": "far", "far": "near"}


def quarter_turned(sections: Sections, first_row: str) -> Sections:
    """Return the same deck turned by a quarter, from along towards across.

    Boards past half a turn run the other way, and their rows are counted from the other side.
    """
    angle = sections["laying"]["angle_deg"] + 90.0
    past = angle >= 180.0
    return _changed(
        sections,
        lambda x, y: (-y, x),
        angle=angle % 180.0,
        first_row=OTHER[first_row] if past else first_row,
        swapped=True,
    )


def mirrored(sections: Sections, first_row: str) -> Sections:
    """Return the same deck seen in a mirror that stands away from the house."""
    angle = sections["laying"]["angle_deg"]
    return _changed(
        sections,
        lambda x, y: (-x, y),
        angle=0.0 if angle == 0 else 180.0 - angle,
        first_row=first_row if angle == 0 else OTHER[first_row],
        swapped=False,
    )


def askew(sections: Sections, deg: float) -> Sections:
    """Return the same deck measured from a line that is turned the other way by so much.

    Places turn about the datum; sizes and angles are along the deck's own line.
    """
    cosine, sine = cos(radians(deg)), sin(radians(deg))

    def moved(x: float, y: float) -> tuple[float, float]:
        return x * cosine - y * sine, x * sine + y * cosine

    outline, laying = sections["outline"], sections.get("laying", {})
    return {
        **sections,
        "outline": {
            **outline,
            "points": [_moved(point, moved) for point in outline["points"]],
            "openings": [_moved(opening, moved) for opening in outline.get("openings", [])],
        },
        "laying": {
            **laying,
            "fields": [_moved(field, moved, "from_") for field in laying.get("fields", [])],
        },
    }


def _changed(
    sections: Sections, moved: Any, *, angle: float, first_row: str, swapped: bool
) -> Sections:
    outline = sections["outline"]
    points = [_moved(point, moved) for point in outline["points"]]
    openings = [_moved(opening, moved) for opening in outline.get("openings", [])]
    if swapped:
        openings = [_sizes_swapped(opening) for opening in openings]
    laying = {**sections["laying"], "angle_deg": angle, "first_row": first_row}
    return {
        **sections,
        "outline": {**outline, "points": points, "openings": openings},
        "laying": laying,
    }


def _moved(at: Sections, moved: Any, before: str = "") -> Sections:
    along, across = f"{before}along_mm", f"{before}across_mm"
    x, y = moved(at[along], at[across])
    return {**at, along: x, across: y}


def _sizes_swapped(opening: Sections) -> Sections:
    if "size_along_mm" not in opening:
        return opening
    return {
        **opening,
        "size_along_mm": opening["size_across_mm"],
        "size_across_mm": opening["size_along_mm"],
    }


def unchanged(plan: Plan) -> dict[str, object]:
    """Return the figures of a plan that no turn and no mirror changes."""
    laying, frame = plan.laying, plan.subframe
    assert laying is not None
    assert frame is not None
    assert plan.outline is not None
    return {
        "rows": laying.row_count,
        "pieces": laying.piece_count,
        "splays": laying.splay_cuts,
        "gaps": sorted(round(zone.gap_mm, 1) for zone in laying.zones),
        "lines": frame.line_count,
        "net_m2": round(plan.outline.net_m2, 3),
        "face_m2": round(laying.face_m2, 2),
    }


def design(sections: Sections, stock: drylay.Catalogue, families: Any) -> Plan:
    """Return the plan for a brief as plain data."""
    return drylay.design(drylay.read_brief(sections), stock=stock, families=families)
