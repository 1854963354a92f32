"""The frame: rims, joists and noggins where the lines and the fascia put them."""

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from drylay.audit.between import bands, between, closing, joists_are_in_parts
from drylay.audit.edges import edges_of
from drylay.audit.exact import ceil_div, mark_of, ticks
from drylay.audit.flaws import (
    conventions,
    need,
    off_by,
    same_count,
    same_half,
    same_length,
    same_text,
)
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.supports import offsets, supports_of
from drylay.frame.model import Frame, Noggin, Rim
from drylay.plan.model import Plan

FRAME = conventions("Frame")
PYTHAGORAS = conventions("Frame: the diagonal, by Pythagoras")


def frame_of(plan: Plan) -> Frame:
    """Return the plan's frame, if it has one."""
    return need(plan.frame, "frame")


def thickness_of(plan: Plan) -> int:
    """Return the frame timber's thickness in 1/320 mm."""
    return ticks(frame_of(plan).timber_thickness_mm)


def open_bays(plan: Plan) -> tuple[tuple[int, int, int], ...]:
    """Return number and both centres of each bay with room between its joists, in 1/320 mm."""
    at, thickness = offsets(plan), thickness_of(plan)
    found = enumerate(pairwise(at))
    return tuple((index, a, b) for index, (a, b) in found if b - a > thickness)


def clear_bays(plan: Plan) -> tuple[int, ...]:
    """Return the open bays face to face of the joists, in 1/320 mm."""
    return tuple(b - a - thickness_of(plan) for _, a, b in open_bays(plan))


def joists_on_lines(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless one joist stands on every line, marked in order."""
    frame, lines = frame_of(plan), offsets(plan)
    message = "not as many joists as joist lines"
    yield from same_count("frame.joists", message, len(frame.joists), len(lines), FRAME)
    for index, (joist, line) in enumerate(zip(frame.joists, lines, strict=False)):
        message = "the joist is off its line"
        yield from same_length(joist.mark, message, joist.offset_mm, line, FRAME)
        yield from same_text(joist.mark, "wrong mark", joist.mark, f"J{index + 1}", FRAME)


def joists_between_rims(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each joist that does not reach from rim to rim."""
    outer = closing(plan)
    near, far = outer[0].far, outer[1].near
    for joist in frame_of(plan).joists:
        message = "does not begin at the near rim's inner face"
        yield from same_length(joist.mark, message, joist.near_mm, near, FRAME)
        message = "not as long as between the rims"
        yield from same_length(joist.mark, message, joist.length_mm, far - near, FRAME)


def timber_is_the_joists(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the frame's timber is as thick as the joists the lines count on."""
    frame = frame_of(plan)
    wanted = ticks(supports_of(plan).joist_thickness_mm)
    message = "not the joist thickness the lines count on"
    subject = "frame.timber_thickness_mm"
    yield from same_length(subject, message, frame.timber_thickness_mm, wanted, FRAME)
    if not 0 < wanted <= ticks(frame.timber_depth_mm):
        message = "timber stands on edge: its depth is not below its thickness"
        yield off_by(subject, message, ticks(frame.timber_depth_mm), wanted, FRAME)


def rims_close_the_frame(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless two rims lie at the frame's edges over its full length."""
    edges, rims = edges_of(plan), frame_of(plan).rims
    yield from same_count("frame.rims", "a frame has two rims", len(rims), 2, FRAME)
    for rim, face in zip(rims, closing(plan), strict=False):
        start, length = ticks(edges.frame_start_mm), ticks(edges.frame_length_mm)
        yield from same_text(rim.mark, "wrong mark", rim.mark, face.mark, FRAME)
        yield from same_length(rim.mark, "not at the frame's edge", rim.near_mm, face.near, FRAME)
        message = "does not begin at the frame's end"
        yield from same_length(rim.mark, message, rim.start_mm, start, FRAME)
        message = "not as long as the frame"
        yield from same_length(rim.mark, message, rim.length_mm, length, FRAME)
        for bearer in (bearer for bearer in bands(plan) if bearer.mark == face.mark):
            if bearer.near != face.near:
                message = "joists hang on it, and it does not close the frame"
                yield off_by(bearer.mark, message, bearer.near, face.near, FRAME)


def rim_pieces_butt(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where the pieces of a rim leave a gap, overlap or are marked wrongly."""
    borne = {face.mark for face in bands(plan)}
    for rim in frame_of(plan).rims:
        if rim.mark in borne:  # its plies are sawn as the bearer's
            message = "pieces of a rim that a bearer is"
            yield from same_count(rim.mark, message, len(rim.pieces), 0, FRAME)
            continue
        edge = ticks(rim.start_mm)
        for index, piece in enumerate(rim.pieces, 1):
            message = "does not begin where the piece before it ends"
            yield from same_length(piece.mark, message, piece.start_mm, edge, FRAME)
            wanted = f"{rim.mark}.{index}"
            yield from same_text(piece.mark, "wrong mark", piece.mark, wanted, FRAME)
            edge = ticks(piece.start_mm) + ticks(piece.length_mm)
        end = ticks(rim.start_mm) + ticks(rim.length_mm)
        if edge != end:
            yield off_by(rim.mark, "its pieces do not reach its end", edge, end, FRAME)


def _meetings(rim: Rim) -> list[int]:
    return [ticks(piece.start_mm) for piece in rim.pieces[1:]]


def rim_joints_mid_bay(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each rim joint that is not at the mark nearest the middle of a bay."""
    middles = middle_marks(plan)
    for rim in frame_of(plan).rims:
        for joint in _meetings(rim):
            if joint not in middles:
                nearest = min(middles, key=lambda middle: abs(joint - middle), default=0)
                message = "a joint that is not at the mark nearest the middle of a bay"
                yield off_by(rim.mark, message, joint, nearest, FRAME)


def middle_marks(plan: Plan) -> list[int]:
    """Return the mark nearest the middle of each bay, of two the one nearer mid frame."""
    mark, at, found = mark_of(plan), offsets(plan), []
    for _, before, after in open_bays(plan):
        doubled = before + after
        below = doubled // 2 // mark * mark
        over = doubled - 2 * below
        rises = over > mark or (over == mark and doubled < (at[0] + at[-1]) // 2 * 2)
        found.append(below + mark if rises else below)
    return found


def rim_pieces_reach_two_joists(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece of a rim over fewer than two joists."""
    at = offsets(plan)
    for rim in frame_of(plan).rims:
        for piece in rim.pieces if len(rim.pieces) > 1 else ():
            start = ticks(piece.start_mm)
            held = sum(start <= centre <= start + ticks(piece.length_mm) for centre in at)
            if held < 2:
                message = "the piece reaches too few joists"
                yield from same_count(piece.mark, message, held, 2, FRAME)


def rim_joints_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless `rim_joints` counts the joints of both rims."""
    frame = frame_of(plan)
    joints = sum(len(_meetings(rim)) for rim in frame.rims)
    message = "not the joints of both rims"
    yield from same_count("frame.rim_joints", message, frame.rim_joints, joints, FRAME)


#: What a splice leaves free of its bay where joists hang: 100 mm.
FLANGES = 32_000


def splices_back_the_joints(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each rim joint has its splice, all a mark short of the least bay."""
    frame, mark = frame_of(plan), mark_of(plan)
    joints = [(rim.mark, joint) for rim in frame.rims for joint in _meetings(rim)]
    told = [(splice.rim, ticks(splice.offset_mm)) for splice in frame.splices]
    beside = FLANGES if plan.fixings is not None and plan.fixings.hangers is not None else 0
    if told != joints:
        message = "splices are not where the rims' joints are, in order"
        yield Flaw(subject="frame.splices", message=message, source=FRAME)
    for index, splice in enumerate(frame.splices, 1):
        yield from same_text(splice.mark, "wrong mark", splice.mark, f"S{index}", FRAME)
        clear = min(clear_bays(plan), default=0)
        message = "not the narrowest clear bay less a mark, and room for hangers"
        length = (clear - beside) // mark * mark - mark
        yield from same_length(splice.mark, message, splice.length_mm, length, FRAME)


def noggin_rows_needed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless there are as many rows of noggins as the joists' length asks for."""
    frame, rows = frame_of(plan), sum(_rows_between(plan))
    message = "rows of noggins the joists need"
    yield from same_count("frame.noggin_rows", message, frame.noggin_rows, rows, FRAME)
    wanted = frame.noggin_rows * len(open_bays(plan))
    message = "not one noggin per bay and row"
    yield from same_count("frame.noggins", message, len(frame.noggins), wanted, FRAME)


def _rows_between(plan: Plan) -> list[int]:
    """Return how many rows of noggins each stretch between rims, or bearers, asks for."""
    spacing = need(ticks(frame_of(plan).noggin_spacing_most_mm) or None, "noggin spacing")
    return [max(ceil_div(far - near, spacing) - 1, 0) for near, far in between(plan)]


def _noggins_by_bay(plan: Plan) -> Iterator[tuple[int, int, Noggin]]:
    """Yield each noggin with its row and its bay, both from 0."""
    count = need(len(open_bays(plan)) or None, "bays")
    for index, noggin in enumerate(frame_of(plan).noggins):
        yield index // count, index % count, noggin


def noggins_fit_their_bay(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each noggin not between its two joists, or not as long as the bay."""
    clear, numbers = clear_bays(plan), [index for index, *_ in open_bays(plan)]
    for row, bay, noggin in _noggins_by_bay(plan):
        mark = f"N{row * len(clear) + bay + 1}"
        yield from same_text(noggin.mark, "wrong mark", noggin.mark, mark, FRAME)
        between = f"{noggin.left}-{noggin.right}"
        wanted = f"J{numbers[bay] + 1}-J{numbers[bay] + 2}"
        yield from same_text(noggin.mark, "between other joists", between, wanted, FRAME)
        message = "not as long as its bay is clear"
        yield from same_length(noggin.mark, message, noggin.length_mm, clear[bay], FRAME)


def noggins_stand_either_side(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each noggin not half a thickness from its row's line, turn about.

    One that a batten keeps from there stands at the mark nearest to it.
    """
    thickness = thickness_of(plan)
    lines = _row_lines(plan)
    for row, bay, noggin in _noggins_by_bay(plan):
        wanted = lines[row] + (thickness if bay % 2 else -thickness)
        shut = _shut(plan, noggin)
        if any(near < wanted < far for near, far in shut):
            wanted = _nearest_clear(plan, wanted, shut)
        message = "not half a thickness from its row's line"
        yield from same_half(noggin.mark, message, noggin.across_mm, wanted, FRAME)


def _row_lines(plan: Plan) -> dict[int, int]:
    """Return each row's line by the first noggin that no batten may have moved, doubled."""
    thickness, lines = thickness_of(plan), dict[int, int]()
    for row, bay, noggin in _noggins_by_bay(plan):
        at = 2 * ticks(noggin.across_mm) + (-thickness if bay % 2 else thickness)
        if not _shut(plan, noggin):
            lines.setdefault(row, at)
    for row, _bay, noggin in _noggins_by_bay(plan):
        lines.setdefault(row, 2 * ticks(noggin.across_mm) + thickness)
    return lines


def _shut(plan: Plan, noggin: Noggin) -> list[tuple[int, int]]:
    """Return between which places a noggin's centre would run into a batten, doubled."""
    frame, thickness = frame_of(plan), thickness_of(plan)
    return [
        (2 * near - thickness, 2 * (near + ticks(batten.length_mm)) + thickness)
        for batten in frame.battens
        if batten.joist == noggin.left
        for near in (ticks(batten.near_mm),)
    ]


def _nearest_clear(plan: Plan, wanted: int, shut: list[tuple[int, int]]) -> int:
    """Return the mark nearest to a place that is clear of all battens and both rims, doubled."""
    edges, thickness, mark = edges_of(plan), thickness_of(plan), 2 * mark_of(plan)
    low = 2 * ticks(edges.frame_near_mm) + 3 * thickness
    high = 2 * (ticks(edges.frame_near_mm) + ticks(edges.frame_depth_mm)) - 3 * thickness
    spots = [near // mark * mark for near, _ in shut] + [-(-far // mark) * mark for _, far in shut]
    free = [
        spot for spot in spots
        if low <= spot <= high and not any(near < spot < far for near, far in shut)
    ]  # fmt: skip
    return min(free, key=lambda spot: (abs(spot - wanted), spot), default=wanted)


def _even_lines(plan: Plan) -> list[float]:
    """Return where rows of noggins divide the joists evenly, stretch by stretch.

    Where joists lie over bearers, or on the ground, in as many rows as there are.
    """
    stretches = between(plan)
    rows = _rows_between(plan) if len(stretches) > 1 else [frame_of(plan).noggin_rows]
    return [
        near + (far - near) * row / (count + 1)
        for (near, far), count in zip(stretches, rows, strict=True)
        for row in range(1, count + 1)
    ]


def noggins_divide_evenly(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a row of noggins does not divide the joists evenly, to a mark."""
    thickness, mark = thickness_of(plan), mark_of(plan)
    need(max(frame_of(plan).noggin_rows, 0), "rows of noggins")
    even = _even_lines(plan)
    for row, bay, noggin in _noggins_by_bay(plan) if even else ():  # else AUD-510 tells it
        line = even[min(row, len(even) - 1)]
        off = abs(ticks(noggin.across_mm) + thickness / 2 - line)
        if bay == 0 and off > mark / 2 + 1 and not _shut(plan, noggin):
            message = "its row does not divide the joists evenly"
            measured = ticks(noggin.across_mm) + thickness / 2
            yield off_by(noggin.mark, message, measured, line, FRAME)


def diagonal(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the diagonal is the frame's, outer corner to outer corner."""
    edges, told = edges_of(plan), frame_of(plan).diagonal_mm
    wanted = hypot(edges.frame_length_mm, edges.frame_depth_mm)
    if abs(told - wanted) > 0.05:
        message = "not the frame's diagonal"
        yield Flaw(
            subject="frame.diagonal_mm",
            message=message,
            measured=told,
            limit=wanted,
            unit="mm",
            source=PYTHAGORAS,
        )


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-501", "a joist stands on every joist line", joists_on_lines),
    ("AUD-502", "joists reach from rim to rim", joists_between_rims),
    ("AUD-503", "the frame's timber is the joists'", timber_is_the_joists),
    ("AUD-504", "rims close the frame at both edges", rims_close_the_frame),
    ("AUD-505", "pieces of a rim butt from end to end", rim_pieces_butt),
    ("AUD-506", "rims are jointed at the mark nearest a bay's middle", rim_joints_mid_bay),
    ("AUD-507", "every piece of a rim reaches two joists", rim_pieces_reach_two_joists),
    ("AUD-508", "joints of both rims are counted", rim_joints_counted),
    ("AUD-509", "a splice backs every rim joint", splices_back_the_joints),
    ("AUD-510", "there are enough rows of noggins", noggin_rows_needed),
    ("AUD-511", "noggins fit between their joists", noggins_fit_their_bay),
    ("AUD-512", "noggins stand either side of their line", noggins_stand_either_side),
    ("AUD-513", "rows of noggins divide the joists evenly", noggins_divide_evenly),
    ("AUD-514", "the diagonal is the frame's", diagonal),
    ("AUD-517", "joists that hang have a part in every bay, others none", joists_are_in_parts),
)
