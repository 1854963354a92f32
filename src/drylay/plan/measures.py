"""A plan's main figures as one flat row, for tables."""

from collections import Counter
from decimal import Decimal

from drylay.buying.model import Buying, PackPurchase, Purchase
from drylay.findings import Finding, Severity
from drylay.laying.model import Laying
from drylay.outline.model import Outline
from drylay.plan.model import Plan
from drylay.tiling.model import Tiling
from drylay.tiling.outline_model import OutlineTiles

WHATS = ("boards", "frame", "fascia", "fabric")
#: Fixings that a plan need not have.
MORE_FIXINGS = (
    "frame_screws", "double_screws", "fascia_screws", "hangers", "clips", "end_caps",
)  # fmt: skip


def measures(plan: Plan) -> dict[str, object]:
    """Return the plan's figures by name, units in the names, None where it has none.

    The names are the same for every plan, blocked ones too. Money is Decimal.
    """
    severities = Counter(finding.severity for finding in plan.findings)
    return {
        "title": plan.title,
        "units": plan.units,
        "buildable": plan.buildable,
        "notes": severities[Severity.NOTE],
        "cautions": severities[Severity.CAUTION],
        "stops": severities[Severity.STOP],
        "stop_codes": " ".join(sorted({f.code for f in plan.findings if _stops(f)})),
        **_surface(plan),
        **_outline(plan.outline),
        **_frame(plan),
        **_pieces(plan),
        **_laying(plan.laying),
        **_tiles(plan.tiling, plan.tiles),
        **_site(plan),
        **_fixings(plan),
        **_money(plan.buying),
        **_lengths(plan),
        **_ground(plan),
        **_work(plan),
        **_standing(plan),
    }


def _standing(plan: Plan) -> dict[str, object]:
    """Return what a deck that stands is made of, how far its timber is used, guards and steps."""
    raised, footings, guards = plan.raised, plan.footings, plan.guards
    posts = raised.frame.posts if raised else ()
    return {
        "bearer_count": len(raised.frame.bearers) if raised else None,
        "post_count": len(posts) if raised else None,
        "post_m": sum(post.whole_mm for post in posts) / 1000 if raised else None,
        "footing_count": len(footings.under) if footings else None,
        "concrete_m3": footings.concrete_m3 if footings else None,
        "strength_most_ratio": plan.strength.most_ratio if plan.strength else None,
        "guard_m": guards.length_mm / 1000 if guards else None,
        "riser_count": plan.steps.flight.risers if plan.steps else None,
    }


def _work(plan: Plan) -> dict[str, object]:
    """Return who builds and how long it may take."""
    work = plan.work
    return {
        "people": work.people if work else None,
        "least_h": work.least_h if work else None,
        "most_h": work.most_h if work else None,
        "tasks": len(work.tasks) if work else None,
        "hold_points": work.holds if work else None,
        "lights": work.lighting.count if work and work.lighting else None,
    }


def _ground(plan: Plan) -> dict[str, object]:
    """Return the earth, the gravel and the packers, and what the order weighs."""
    ground = plan.groundwork
    dig, fabric = (ground.dig, ground.fabric) if ground else (None, None)
    packers = plan.fixings.board_packers if plan.fixings else None
    gravel, packing = (ground.gravel, ground.packing) if ground else (None, None)
    brought = plan.buying.delivery if plan.buying else None
    return {
        "dig_m3": dig.solid_m3 if dig else None,
        "loose_m3": dig.loose_m3 if dig else None,
        "fabric_strips": len(fabric.strips) if fabric else None,
        "gravel_kg": gravel.mass_kg if gravel else None,
        "packers": packing.count if packing else None,
        "board_packers": packers.count if packers else None,
        "delivery_kg": brought.total_kg if brought else None,
        "lift_kg": brought.lift_kg if brought else None,
    }


def _stops(finding: Finding) -> bool:
    return finding.severity is Severity.STOP


def _surface(plan: Plan) -> dict[str, object]:
    names = ("run", "cover_along_mm", "cover_across_mm", "cover_change_mm")
    surface, laying = plan.surface, plan.laying
    laid, rows = surface or laying, surface.rows if surface else ()
    gaps = [row.gap_mm for row in rows[1:]]
    return {
        **{name: getattr(surface, name, None) for name in names},
        "board_article": laid.board_article if laid else None,
        "way_out": laid.way_out if laid else None,
        "rows": len(laid.rows) if laid else None,
        "border_article": surface.border.article if surface and surface.border else None,
        "border_rows": sum(row.border for row in rows) if surface else None,
        "ripped_rows": sum(row.ripped for row in laid.rows) if laid else None,
        "first_row_mm": rows[0].width_mm if rows else None,
        "last_row_mm": rows[-1].width_mm if rows else None,
        "narrowest_gap_mm": min(gaps, default=None),
        "widest_gap_mm": max(gaps, default=None),
    }


def _frame(plan: Plan) -> dict[str, object]:
    supports, edges, frame = plan.supports, plan.edges, plan.frame
    lines = supports or plan.subframe
    return {
        "joists": lines.line_count if lines else None,
        "centres_mm": lines.centres_mm if lines else None,
        "most_centres_mm": lines.most_centres_mm if lines else None,
        "frame_length_mm": edges.frame_length_mm if edges else None,
        "frame_depth_mm": edges.frame_depth_mm if edges else None,
        "diagonal_mm": frame.diagonal_mm if frame else None,
        "seams": len(lines.seams) if lines else None,
        "battens": _battens(plan),
        "noggins": _noggins(plan),
        "rim_joints": frame.rim_joints if frame else None,
        "fascia_faces": _faces(plan),
        "members": plan.subframe.member_count if plan.subframe else None,
        "facing_run_mm": plan.subframe.facing_run_mm if plan.subframe else None,
    }


def _battens(plan: Plan) -> int | None:
    """Return how many battens lie under joints, or tie panels of hatches."""
    framed = plan.subframe or plan.frame
    return len(framed.battens) if framed else None


def _noggins(plan: Plan) -> int | None:
    if plan.subframe is not None:
        return sum(member.kind == "noggin" for member in plan.subframe.members)
    return len(plan.frame.noggins) if plan.frame else None


def _faces(plan: Plan) -> int | None:
    """Return how many sides carry a fascia."""
    if plan.subframe is not None:
        return len({facing.side for facing in plan.subframe.facings})
    return len(plan.edges.faces) if plan.edges else None


def _outline(outline: Outline | None) -> dict[str, object]:
    """Return the sides, the openings and the areas of a deck on an outline."""
    return {
        "sides": len(outline.sides) if outline else None,
        "openings": outline.opening_count if outline else None,
        "gross_m2": outline.gross_m2 if outline else None,
        "area_m2": outline.net_m2 if outline else None,
        "perimeter_mm": outline.perimeter_mm if outline else None,
    }


def _laying(laying: Laying | None) -> dict[str, object]:
    """Return what only boards on an outline have."""
    names = ("angle_deg", "border_courses", "breaker_count", "fan_mm", "tip_to_tip_m", "face_m2")
    return {
        "zones": laying.zone_count if laying else None,
        "mitres": laying.mitre_count if laying else None,
        **{name: getattr(laying, name, None) for name in names},
    }


def _pieces(plan: Plan) -> dict[str, object]:
    pieces = plan.pieces or plan.laying
    lengths = [piece.length_mm for piece in pieces.pieces] if pieces else []
    return {
        "pieces": len(lengths) if pieces else None,
        "joints": len(pieces.joints) if pieces else None,
        "shortest_piece_mm": min(lengths, default=None),
        "end_gap_mm": pieces.end_gap_mm if pieces else None,
        "boards_kg": plan.pieces.mass_kg if plan.pieces else None,
    }


def _tiles(tiling: Tiling | None, outlined: OutlineTiles | None) -> dict[str, object]:
    """Return how many places there are for tiles, and what they take."""
    laid = tiling or outlined
    pads = laid.pads if laid else None
    return {
        "tiles": tiling.places if tiling else outlined.tile_count if outlined else None,
        "cut_tiles": laid.cut if laid else None,
        "tiles_needed": laid.need if laid else None,
        "tiles_kg_m2": laid.mass_kg_m2 if laid else None,
        "pads": pads.count if pads else None,
    }


def _site(plan: Plan) -> dict[str, object]:
    """Return levels from the brief's datum, and heights above the ground."""
    names = ("deck_top_mm", "highest_mm", "highest_by", "lowest_mm", "lowest_by", "drop_mm")
    levels = plan.site.levels if plan.site else None
    return {
        "wall_gap_mm": plan.site.wall_gap_mm if plan.site else None,
        **{name: getattr(levels, name, None) for name in names},
    }


def _fixings(plan: Plan) -> dict[str, object]:
    fixings = plan.fixings
    preserver, finish = (fixings.preserver, fixings.finish) if fixings else (None, None)
    return {
        "deck_screws": fixings.deck_screws.count if fixings and fixings.deck_screws else None,
        "coach_screws": fixings.coach_screws.count if fixings else None,
        **{name: getattr(getattr(fixings, name, None), "count", None) for name in MORE_FIXINGS},
        "starter_clips": fixings.clips.starter_count if fixings and fixings.clips else None,
        "sawn_ends": preserver.ends if preserver else None,
        "preserver_m2": preserver.area_m2 if preserver else None,
        "preserver_ml": preserver.need_ml if preserver else None,
        "finish_m2": finish.area_m2 if finish else None,
        "finish_ml": finish.need_ml if finish else None,
    }


def _money(buying: Buying | None) -> dict[str, object]:
    """Return money: `objective` is the cost with joints reckoned in, `gap` that less `bound`."""
    proved: list[Purchase | PackPurchase] = []
    if buying:
        proved = [*buying.purchases, *buying.packs]
    joint_cost = sum((p.joint_cost for p in buying.purchases), Decimal(0)) if buying else None
    return {
        "currency": buying.currency if buying else None,
        "cost": buying.order_total if buying else None,
        "spares_cost": buying.spares_total if buying else None,
        "total": buying.total if buying else None,
        "joint_cost": joint_cost,
        "objective": buying.order_total + joint_cost if buying and joint_cost is not None else None,
        "bound": sum((part.bound for part in proved), Decimal(0)) if buying else None,
        "gap": sum((_gap(part) for part in proved), Decimal(0)) if buying else None,
        "spare_lengths": sum(line.quantity for line in buying.spares) if buying else None,
    }


def _gap(part: Purchase | PackPurchase) -> Decimal:
    return part.gap if isinstance(part, Purchase) else part.cost - part.bound


def _lengths(plan: Plan) -> dict[str, object]:
    """Return, for boards, frame and fascia, what is bought and how much of it is waste."""
    purchases = {part.what: part for part in plan.buying.purchases} if plan.buying else {}
    figures: dict[str, object] = {}
    for what in WHATS:
        part = purchases.get(what)
        figures[f"{what}_bought"] = len(part.lengths) if part else None
        figures[f"{what}_bought_m"] = _bought_mm(part) / 1000 if part else None
        figures[f"{what}_waste_ratio"] = _waste_ratio(part, plan) if part else None
        figures[f"{what}_cost"] = part.cost if part else None
        figures[f"{what}_grade"] = part.grade if part else None
    return figures


def _bought_mm(part: Purchase) -> float:
    return sum(length.length_mm for length in part.lengths)


def _waste_ratio(part: Purchase, plan: Plan) -> float | None:
    """Return the share of the bought length that is in no piece: offcuts, kerfs, trims."""
    sizes = plan.sizes_mm()
    marks = [mark for length in part.lengths for mark in length.pieces]
    bought_mm = _bought_mm(part)
    if not bought_mm or not sizes.keys() >= set(marks):
        return None
    return 1.0 - sum(sizes[mark] for mark in marks) / bought_mm
