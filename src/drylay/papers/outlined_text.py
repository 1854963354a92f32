"""In words: a deck on an outline, its boards, its openings, its frame."""

from collections.abc import Sequence
from math import ceil

from drylay.laying.model import Laying, Mitre, Zone
from drylay.outline.model import Opening, Outline
from drylay.papers.layout import heading, para, points
from drylay.papers.outlined_ends import STEEP_DEG, ends_of, folded
from drylay.papers.outlined_first_peg import first_peg, minus_told
from drylay.papers.outlined_ledges import ledge_notes
from drylay.papers.outlined_panels import batten_notes
from drylay.papers.outlined_view import angle, kinds_told
from drylay.papers.outlined_ways import from_told
from drylay.papers.quantities import area
from drylay.papers.trust_text import finding_told
from drylay.papers.wording import bare, clean, many, marks_told, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.subframe.model import Subframe
from drylay.units import mass_text

#: Metres nearer than this to a tenth are told as that.
NEAR_M = 1e-6
#: What stands in an opening, in words.
WITHIN = {
    "hatch": "the cover under it",
    "tree": "the trunk, grown and swaying",
    "post": "the post",
    "pool": "the water",
}


def clear_told(openings: Sequence[Opening], units: str) -> str:
    """Return how far the boards keep from what stands in openings that are alike."""
    first = openings[0]
    marks = marks_told([opening.mark for opening in openings])
    what = WITHIN.get(first.kind, "it")
    if first.clear_mm < 0:
        over = size(-first.clear_mm, units)
        return f"{marks} {first.kind}: boards reach {over} over {what}"
    if not first.clear_mm and not first.clear_least_mm:
        return f"{marks} {first.kind}: the hole is as large as {what}"
    told = f"{marks} {first.kind}: {size(first.clear_mm, units)} clear of {what}"
    limits = [f"at least {size_least(first.clear_least_mm, units)}"]
    if first.clear_most_mm is not None:
        limits.append(f"at most {size_most(first.clear_most_mm, units)}")
    return f"{told} ({', '.join(limits)})"


def boards_notes(plan: Plan) -> tuple[str, ...]:
    """Return the notes of the drawing of boards."""
    laying, outline, units = plan.laying, plan.outline, plan.units
    if laying is None or outline is None:
        return ()
    wide, thick = bare(laying.board_width_mm, units), bare(laying.board_thickness_mm, units)
    notes = [
        f"Board {clean(laying.board_article, 40)}, {wide} x {thick}. Pieces of row B1 are B1.1, "
        f"B1.2 ... {gaps_told(laying, units)} {kinds_told(outline)}",
        *(runs_told(laying, plan.outline)),
        "Dashed: frame below." + (f" {joints_told(laying, units)}" if laying.joints else ""),
        *(mitre_notes(laying)),
        *(rips_told(laying, units)),
        *(shaped_told(laying)),
    ]
    return tuple(note for note in notes if note)


def frame_notes(plan: Plan) -> tuple[str, ...]:
    """Return the notes of the drawing of the frame."""
    frame, outline, units = plan.subframe, plan.outline, plan.units
    if frame is None:
        return ()
    thick, deep = bare(frame.timber_thickness_mm, units), bare(frame.timber_depth_mm, units)
    notes = [
        f"Frame timber {clean(frame.timber_article, 40)}, {thick} x {deep}, on edge. Joists and "
        f"what crosses them: centres from {_from(plan)}.{_minus(plan, frame)}",
        f"Centres {bare(frame.centres_mm, units)} at most "
        f"(limit {bare(frame.most_centres_mm, units)}).",
    ]
    if frame.seams:
        notes.append("Bold lines between two members: board ends meet over them.")
    notes += [*lines_meant(outline), *ledge_notes(frame, outline), *batten_notes(frame)]
    if frame.facings:
        thin = bare(frame.facing_thickness_mm, units)
        marks = marks_told([facing.mark for facing in frame.facings])
        notes.append(f"Fascia {clean(frame.facing_article, 40)}, {thin} thick: {marks}.")
    return tuple(notes)


def _from(plan: Plan) -> str:
    """Return what centres are measured from."""
    peg = first_peg(plan)
    if peg is None:
        return "the datum corner"
    at = f"{bare(peg.along_mm, plan.units)} along, {bare(peg.across_mm, plan.units)} across"
    return f"peg P1 (which stands at {at} in the lists), along and across the deck's own line"


def _minus(plan: Plan, frame: Subframe) -> str:
    peg = first_peg(plan)
    return "" if peg is None else minus_told(frame, peg)


def lines_meant(outline: Outline | None) -> list[str]:
    """Return what lines drawn in openings stand for; nothing without any."""
    if outline is None or not outline.openings:
        return []
    return ["Short dashes: holes in the boards; dash and dot: what stands or lies in them."]


def runs_told(laying: Laying, outline: Outline | None) -> list[str]:
    """Return how boards run where they do not lie along the house or straight away from it."""
    angles = {zone.angle_deg for zone in laying.zones}
    if len(angles) == 1 and angles <= {0.0, 90.0}:
        return []
    told = []
    for zone in laying.zones:
        marks = [row.mark for row in laying.rows if row.zone == zone.mark]
        told.append(f"{marks_told(marks)} at {angle(zone.angle_deg)}")
    return [f"Boards run, from {from_told(outline)}: {'; '.join(told)}."]


def gaps_told(laying: Laying, units: str) -> str:
    """Return the gap of every zone, those alike together."""
    alike: dict[float, list[str]] = {}
    for zone in laying.zones:
        alike.setdefault(zone.gap_mm, []).append(zone.mark)
    if len(alike) == 1:
        return f"Gap {bare(laying.zones[0].gap_mm, units)}."
    return "Gaps " + ", ".join(f"{marks_told(m)}: {bare(g, units)}" for g, m in alike.items()) + "."


def joints_told(laying: Laying, units: str) -> str:
    """Return what the ticks of joints mean."""
    gap = bare(laying.end_gap_mm, units)
    return f"Bold ticks: joints on the member named, board ends {gap} apart."


def mitre_notes(laying: Laying) -> list[str]:
    """Return the saw settings of mitres, those alike together; nothing without any."""
    alike: dict[str, list[str]] = {}
    for mitre in laying.mitres:
        alike.setdefault(saw_told(mitre), []).append(mitre.mark)
    if not alike:
        return []
    told = "; ".join(f"{marks_told(marks)} {saw}" for saw, marks in alike.items())
    return [f"Mitres, saw off square: {told}."]


def saw_told(mitre: Mitre) -> str:
    """Return how far off square a mitre is sawn; at a re-entrant corner the other way."""
    told = angle(abs(mitre.saw_deg))
    return f"{told} the other way, into the deck" if mitre.saw_deg < 0 else told


def rips_told(laying: Laying, units: str) -> list[str]:
    """Return which rows are ripped, and to what width; nothing where none is."""
    ripped = [row for row in laying.rows if row.ripped]
    told = "; ".join(f"{row.mark} to {bare(row.width_mm, units)}" for row in ripped)
    return [f"Ripped: {told}."] if ripped else []


def shaped_told(laying: Laying) -> list[str]:
    """Return which pieces are marked out from their corners; nothing where none is."""
    marks = [piece.mark for piece in laying.pieces if piece.shaped]
    if not marks:
        return []
    return [f"Mark out from the job sheet's corners: {' '.join(marks)}."]


def outlined_lines(plan: Plan) -> list[str]:
    """Return what the summary says of outline, boards and frame; nothing of other decks."""
    if plan.outline is None or plan.laying is None:
        return []
    return [
        *heading("OUTLINE"),
        *para(outline_told(plan.outline, plan.units)),
        *points(openings_told(plan.outline, plan.units)),
        *heading("BOARDS"),
        *para(boards_told(plan.laying, plan.units)),
        *points(zone_told(zone, plan.outline, plan.units) for zone in plan.laying.zones),
        *points([*rips_told(plan.laying, plan.units), *mitres_told(plan.laying, plan.units),
                 *shaped_told(plan.laying)]),
    ]  # fmt: skip


def outline_told(outline: Outline, units: str) -> str:
    """Return the outline side by side, and its areas."""
    sides = "; ".join(
        f"{side.mark} {side.kind} {size(side.length_mm, units)}" for side in outline.sides
    )
    net = f", {area(outline.net_m2, units)} less openings" if outline.openings else ""
    return f"{area(outline.gross_m2, units)}{net}. Sides in order round the deck: {sides}."


def openings_told(outline: Outline, units: str) -> list[str]:
    """Return every opening, and what is left clear."""
    return [_opening_told(opening, units) for opening in outline.openings]


def _opening_told(opening: Opening, units: str) -> str:
    name = f" ({clean(opening.name, 40)})" if opening.name else ""
    panel = ""
    if opening.panel_kg is not None:
        panel = f"; its panel weighs {mass_text(opening.panel_kg, units)}"
    return f"{clear_told([opening], units)}{name}{panel}"


#: What to heed at openings of each kind, beside what the plan found there.
HEED = {
    "hatch": "Nothing of the frame crosses it; it must lift out by itself, without a tool.",
    "tree": (
        "Do not dig, drive posts or heap earth inside the tree's root-protection radius, and fix "
        "nothing to the trunk."
    ),
    "post": "Keep the clearance all round: the post must not carry the deck, nor the deck it.",
    "pool": (
        "The law of many places asks for a barrier round water: ask before you build. Here is "
        "none planned."
    ),
}


def heed_told(plan: Plan, opening: Opening) -> list[str]:
    """Return what to heed at an opening: of its kind, its panel, and what was found of it."""
    told = [HEED[opening.kind]] if opening.kind in HEED else []
    if opening.panel_kg is not None and opening.panel_most_kg is not None:
        told.append(
            f"The panel weighs {mass_text(opening.panel_kg, plan.units)}, at most "
            f"{mass_text(opening.panel_most_kg, plan.units)} for one person."
        )
    found = [
        finding_told(finding, plan.units)
        for finding in plan.findings
        if finding.subject == opening.mark
    ]
    return [*told, *(clean(text, 400) for text in found)]


def boards_told(laying: Laying, units: str) -> str:
    """Return the boards: article, size, rows, pieces, joints, their length together."""
    wide, thick = size(laying.board_width_mm, units), size(laying.board_thickness_mm, units)
    return (
        f"{many(laying.row_count, 'row')} of {clean(laying.board_article, 40)}, {wide} x {thick}, "
        f"in {many(laying.piece_count, 'piece')} with {many(laying.joint_count, 'joint')}; "
        f"{metres(laying.tip_to_tip_m)} from tip to tip. Gaps {gap_limits_told(laying, units)}."
    )


def metres(length_m: float) -> str:
    """Return a long run in metres up to the next tenth: never told shorter than it is."""
    tenths = ceil(round(length_m * 10, 6))
    about = "" if abs(tenths / 10 - length_m) < NEAR_M else "~"
    return f"{about}{tenths / 10:g} m"


def gap_limits_told(laying: Laying, units: str) -> str:
    """Return the gap wished and its limits."""
    least, most = size_least(laying.gap_least_mm, units), size_most(laying.gap_most_mm, units)
    return f"wished {size(laying.gap_preferred_mm, units)}, allowed {least} to {most}"


def zone_told(zone: Zone, outline: Outline | None, units: str) -> str:
    """Return one zone: how its boards run, its rows and gaps, its outer rows."""
    fan = ""
    if zone.fan_mm:
        wider = "wider" if zone.fan_mm > 0 else "narrower"
        there, here = _far_and_near(zone)
        fan = f"; all gaps together {size(abs(zone.fan_mm), units)} {wider} at the {there} end "
        fan += f"than at the {here} one"
    return (
        f"{zone.mark}: boards at {angle(zone.angle_deg)} from {from_told(outline)}, "
        f"{many(zone.row_count, 'row')}, gaps {size(zone.gap_mm, units)}, first row "
        f"{size(zone.first_row_mm, units)}, last row {size(zone.last_row_mm, units)}{fan}"
    )


def _far_and_near(zone: Zone) -> tuple[str, str]:
    """Return what the end of a zone's run is called, and its start."""
    turn_deg = folded(zone.angle_deg)
    one, other = ends_of(turn_deg > STEEP_DEG)
    same = abs((zone.angle_deg - turn_deg + 180.0) % 360.0 - 180.0) < STEEP_DEG
    return (other, one) if same else (one, other)


def mitres_told(laying: Laying, units: str) -> list[str]:
    """Return every mitre's saw setting, length, and how it opens."""
    return [
        f"{mitre.mark}: saw {saw_told(mitre)}, off square; {size(mitre.length_mm, units)} long"
        + (f", opens {size(mitre.opens_mm, units)} as boards dry" if mitre.opens_mm else "")
        for mitre in laying.mitres
    ]
