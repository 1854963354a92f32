"""In words: what joints lie over, how boards move in the heat, and the clips that hold them."""

from collections.abc import Iterable

from drylay.fixings.model import Clips, EndCaps
from drylay.frame.model import Batten, Frame
from drylay.papers.fixed_points import fixed_lines
from drylay.papers.wording import (
    ENDS,
    bare,
    bit,
    clean,
    many,
    marks_told,
    size,
    size_least,
    size_most,
)
from drylay.pieces.model import BorderMovement, Joint, Movement, Piece
from drylay.plan.model import Plan
from drylay.supports.model import Supports
from drylay.units import mass_text


def joint_told(joint: Joint) -> str:
    """Return what a joint lies over: one joist, the two of a pair, or a joist and its batten."""
    return " ".join(filter(None, (joint.joist, joint.beside)))


def meeting_told(one: Piece, other: Piece | None) -> str:
    """Return what two pieces that meet rest on, "" at the deck's own edge."""
    marks = dict.fromkeys((one.to_joist, other.from_joist if other else ""))
    return " ".join(mark for mark in marks if mark)


def centred_on(supports: Supports | None) -> str:
    """Return what joints are centred on."""
    if supports is not None and supports.seams:
        return "the seam of a pair of joists, each end on its own joist"
    if supports is not None and supports.battens_per_joint:
        return "a joist's far face, one end on the joist and one on a batten"
    return "a joist"


NOGGINS_FIRST = " Screw the noggins to each joist of a pair before the two come together."


def support_told(plan: Plan) -> list[str]:
    """Return the pairs with their seams, or the battens; nothing where joists carry joints."""
    supports, frame, edges = plan.supports, plan.frame, plan.edges
    if supports is None or frame is None or edges is None:
        return []
    end = ENDS[plan.surface.run if plan.surface else "along"][0]
    told = []
    if supports.seams:
        told.append(_pairs_told(supports, edges.frame_start_mm, plan.units, end))
        told[0] += NOGGINS_FIRST if frame.noggins else ""
    if frame.battens:
        told.append(battens_told(frame))
    return told


def _pairs_told(supports: Supports, start_mm: float, units: str, end: str) -> str:
    seams = "; ".join(
        f"{seam.left} and {seam.right} touch at {bare(seam.offset_mm - start_mm, units)}"
        for seam in supports.seams
    )
    return f"Joints lie over pairs of joists, from the rims' {end} end: {seams}."


def battens_told(frame: Frame) -> str:
    """Return the battens joist by joist."""
    by_joist: dict[str, list[str]] = {}
    for batten in frame.battens:
        by_joist.setdefault(batten.joist, []).append(batten.mark)
    told = "; ".join(f"{joist}: {marks_told(marks)}" for joist, marks in by_joist.items())
    return (
        f"{many(len(frame.battens), 'batten')} of the frame timber, on edge against the joists' "
        f"faces away from the datum, under the further end of each joint: {told}."
    )


def batten_rows(frame: Frame, units: str) -> list[tuple[str, str, str, str]]:
    """Return each batten: joist, mark, where it begins from the near rim's outer face, length."""
    rim_mm = frame.rims[0].near_mm if frame.rims else 0.0

    def told(batten: Batten) -> tuple[str, str, str, str]:
        begins = size(batten.near_mm - rim_mm, units)
        return batten.joist, batten.mark, begins, size(batten.length_mm, units)

    return [told(batten) for batten in frame.battens]


def movement_told(plan: Plan) -> list[str]:
    """Return how boards grow and what becomes of the end gap; nothing where that is not told."""
    pieces = plan.pieces
    if pieces is None:
        return []
    border = pieces.border
    found = _moved(pieces.movement, pieces.end_gap_mm, pieces.joint_count, plan)
    if border is not None:
        own = _moved(border.movement, border.end_gap_mm, border.joint_count, plan)
        found += [f"Border: {told[0].lower()}{told[1:]}" for told in own]
    return found


def _moved(
    movement: Movement | BorderMovement | None, end_gap_mm: float, joints: int, plan: Plan
) -> list[str]:
    if movement is None:
        return []
    units = plan.units
    told = [_laid_told(movement, end_gap_mm, units)] if joints else []
    told += [_growth_told(movement, units)] if movement.growth_mm is not None else []
    return [*told, *_gaps_told(movement, plan), *_ends_told(movement, units)]


def _gaps_told(movement: Movement | BorderMovement, plan: Plan) -> list[str]:
    """Return the end gap at its narrowest and its widest, neither told better than it is."""
    narrowest, widest, units = movement.narrowest_mm, movement.widest_mm, plan.units
    parts = []
    if narrowest is not None and movement.hottest_c is not None:
        at = degrees(movement.hottest_c, units)
        least = f"{size_most(narrowest, units)} or more" if narrowest >= 0 else "none: boards press"
        parts.append(f"{least} when hottest, at {at}")
    if widest is not None and movement.coldest_c is not None:
        at = degrees(movement.coldest_c, units)
        parts.append(f"{size_least(widest, units)} or less when coldest, at {at}")
    if not parts:
        return []
    return [f"The end gap becomes {' and '.join(parts)}, each board moving from {_whence(plan)}."]


def _whence(plan: Plan) -> str:
    clipped = plan.fixings is not None and plan.fixings.clips is not None
    return "its fixed point" if clipped else "its own middle"


def _ends_told(movement: Movement | BorderMovement, units: str) -> list[str]:
    """Return how far board ends come out beyond the deck's edge; nothing where they do not."""
    if not movement.outer_mm or movement.outer_mm < 0:
        return []
    return [
        f"Ends at the deck's edge come out by up to {size_least(movement.outer_mm, units)} when "
        "hottest: leave so much and the gap wished before a wall, a post or whatever else stands "
        "there; beyond a fascia's face they stand proud by so much."
    ]


def _laid_told(movement: Movement | BorderMovement, gap_mm: float, units: str) -> str:
    return (
        f"End gap {size(gap_mm, units)}, for boards laid at {degrees(movement.laying_c, units)}."
        + _other_days(movement, units)
    )


def _other_days(movement: Movement | BorderMovement, units: str) -> str:
    """Return the table of end gaps for boards colder or warmer, and what to do by it."""
    days = "; ".join(
        f"{degrees(day.laying_c, units)}: {size_least(day.end_gap_mm, units)}"
        for day in movement.other_days
    )
    if not days:
        return " Laid colder they grow more, and the gap has to be planned again."
    return (
        f" Boards that turn out otherwise want at least, at {days}. Where that is more than "
        "planned, saw either end at a joint shorter by half the difference, or wait for a warmer "
        "day; where it is less, lay as planned: the gaps open the wider in the cold."
    )


def _growth_told(movement: Movement | BorderMovement, units: str) -> str:
    return (
        f"The longest board that there might be, {size(movement.board_mm, units)}, grows by "
        f"{size_least(movement.growth_mm or 0.0, units)} from laying to hottest "
        f"({movement.growth_per_k * 1e6:.4g} millionths of its length for each K). The end gap is "
        "reckoned for that one: it has to be known before joints are placed and boards chosen, "
        "and shorter ones then want less."
    )


def degrees(temperature_c: float, units: str) -> str:
    """Return a temperature: "12 C", or "53.6 F" where the papers are imperial."""
    if units == "metric":
        return f"{temperature_c:g} C"
    return f"{temperature_c * 1.8 + 32:g} F"


def clips_told(plan: Plan) -> list[str]:
    """Return clips, starters, last row, fixed points and end caps; nothing without any."""
    fixings = plan.fixings
    if fixings is None:
        return []
    told = [*_clips(fixings.clips, plan)] if fixings.clips else []
    return [*told, *([_caps_told(fixings.end_caps)] if fixings.end_caps else [])]


def _clips(clips: Clips, plan: Plan) -> Iterable[str]:
    units = plan.units
    yield (
        f"{clips.count} clips {clean(clips.article, 40)}, which leave a gap of "
        f"{size(clips.gap_mm, units)}: {clips.per_crossing} at each of "
        f"{many(clips.crossings, 'crossing')} of a gap between rows, at every joist{_also(plan)}."
    )
    named = f" {clean(clips.starter_article, 40)}" if clips.starter_article else ""
    missing = "" if clips.starter_article else ", which are not in the order"
    if clips.starter_count:
        yield (
            f"{clips.starter_count} starter clips{named}{missing}: "
            f"{clips.starter_per_joist} on each joist under the first row's outer edge."
        )
    yield from _fixing_told(clips, plan)
    if clips.edge_screws:
        yield (
            f"{clips.edge_screws} deck screws more, beside the ripped edges, which have no groove "
            "for the clips there: from above, drilled and driven as in the last row."
        )


def _fixing_told(clips: Clips, plan: Plan) -> Iterable[str]:
    """Return how boards are fixed at one joist each, and what lets them slide everywhere else."""
    deck, units = plan.fixings.deck_screws if plan.fixings else None, plan.units
    yield (
        "Every board is fixed at one joist, its fixed point, and slides in all other clips. Where "
        f"that is: {fixed_lines(clips)}."
    )
    if deck is not None and clips.fixed_screws:
        yield (
            f"At the fixed point a deck screw {clean(deck.article, 40)} holds the board, "
            f"{clips.fixed_screws} in all besides the last row's: from above, "
            f"{size_least(deck.edge_least_mm, units)} from the edge that the next row lies "
            f"against, through a plain hole with a pilot of {bit(deck.pilot_mm, units)} below, "
            "driven before that row goes on. A fixing clip that the boards' maker has for it does "
            "as well."
        )
    if clips.slot_mm is not None and clips.slot_width_mm is not None:
        yield (
            "The last row's screws are driven tight at its fixed points only. All others stand in "
            f"the middle of a slot along the board, {size_least(clips.slot_mm, units)} long and "
            f"{bit(clips.slot_width_mm, units)} wide, their heads just touching: it has to slide."
        )


def _also(plan: Plan) -> str:
    """Return what else clips stand on, besides a joist alone."""
    paired = plan.supports is not None and bool(plan.supports.seams)
    battened = plan.frame is not None and bool(plan.frame.battens)
    return ", both joists of a pair" * paired + ", and the batten beside a joint" * battened


def _caps_told(caps: EndCaps) -> str:
    return (
        f"{caps.count} end caps {clean(caps.article, 40)}: {caps.per_end} on each of "
        f"{many(caps.ends, 'open end')}, pressed in and glued as their maker says. The end gap is "
        "clear between caps: saw ends at a joint shorter by what their caps stand out."
    )


def mass_told(plan: Plan) -> str:
    """Return what the boards weigh as laid; "" where the merchant does not tell."""
    weighs = plan.pieces.mass_kg if plan.pieces else None
    return "" if weighs is None else f"Boards as laid weigh {mass_text(weighs, plan.units)}."
