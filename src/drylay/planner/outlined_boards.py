"""Boards on an outline: parts of rows jointed and bought together, every piece as it is sawn."""

import math
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import product

from attrs import evolve, frozen

from drylay.buying.model import Purchase
from drylay.buying.purchase import minor, purchase
from drylay.cutting.model import CutPlan, Piece, Task
from drylay.findings import Finding
from drylay.geometry import SAME_MM, area_mm2
from drylay.laying.axes import Axes, place_of, seen, spot
from drylay.laying.carried import Along, Crossing, Standing, crossed, crossings, is_strip
from drylay.laying.joints import (
    Broken,
    JointLimits,
    Row,
    Sets,
    at_joint,
    fewest_supports,
    length_320,
    lines_apart,
    off_mitres,
    row_of,
    sets_of,
)
from drylay.laying.model import LaidJoint, LaidPiece
from drylay.laying.parts import (
    Part,
    between,
    corners_of,
    ends_of,
    is_shaped,
)
from drylay.marks import exact, to_mm
from drylay.outline.model import Opening
from drylay.planner.buy import Blocked, joint_price, stock_for
from drylay.planner.cuts import Cutter, as_large, cut
from drylay.planner.job import Job
from drylay.planner.outlined_field_stops import not_apart
from drylay.planner.outlined_job import joint_limits, sizes_of
from drylay.planner.outlined_stretches import Stretch
from drylay.planner.too_long import strips_too_long, with_rows


@frozen(kw_only=True)
class BoardsLaid:
    """All boards: pieces and joints, and their purchase; `over` are the members under each piece.

    `across_joints` are those over a single member, not along one. `border_sides` tells of a
    border's pieces which course and side they are of. `stations_met` are the joints as the proof
    counts them: by set of lines, by line.
    """

    pieces: tuple[LaidPiece, ...]
    joints: tuple[LaidJoint, ...]
    purchase: Purchase
    over: dict[str, tuple[Crossing, ...]]
    parts: dict[str, Part]
    border_sides: dict[str, tuple[int, int]]
    across_joints: int
    joint_price: Decimal
    stations_met: tuple[tuple[tuple[int, ...], ...], ...] = ()


@frozen(kw_only=True)
class _Told:
    """What the cutter is told of all stretches: lines where they may be jointed, else pieces."""

    stretches: tuple[Stretch, ...]
    rows: tuple[Row | None, ...]
    sets: Sets
    over: tuple[tuple[Crossing, ...], ...]


@frozen(kw_only=True)
class Jointing:
    """What may be jointed: across members at all, what is longer, and how stations are told."""

    jointed: bool
    whole_320: int
    filled: bool
    longest_320: int


def lay_boards(
    cutter: Cutter,
    stretches: Sequence[Stretch],
    standing: Sequence[Standing],
    *,
    joist_lines: int,
    jointed: bool,
    along: Along,
) -> BoardsLaid | Blocked:
    """Return all boards jointed and bought together, or why they cannot be."""
    job = cutter.job
    limits = joint_limits(job, joist_lines)
    price = joint_price(job, job.articles.board)
    lengths = _whole_lengths(job)
    broken = None
    for whole_320, filled in product(lengths, (False, True)):
        may = Jointing(
            jointed=jointed, whole_320=whole_320, filled=filled, longest_320=max(lengths)
        )
        told = _told(stretches, standing, limits, may, along)
        task = _task(job, told, price)
        plan = cut(as_large(cutter, task), task, what="deck boards")
        broken = None if isinstance(plan, Finding) else _broken(told, plan, limits)
        if not isinstance(plan, Finding) and broken is None:
            return _bought(job, told, plan, price, standing, along)
    if broken is not None:
        return Blocked(findings=(not_apart(job, broken),))
    assert isinstance(plan, Finding)
    return Blocked(
        findings=(*strips_too_long(job, list(_whole(told, strips=jointed))),
                  with_rows(job, plan, list(_whole(told)))),
    )  # fmt: skip


def _whole(told: _Told, *, strips: bool | None = None) -> Iterator[tuple[str, float]]:
    """Yield what cannot be jointed: the mark of its row, and its length; of strips alone if so."""
    for each, row in zip(told.stretches, told.rows, strict=True):
        if row is None and (strips is None or (strips and _is_strip(each))):
            yield each.prefix.rstrip("."), to_mm(exact(each.part.end_mm - each.part.start_mm))


def _is_strip(stretch: Stretch) -> bool:
    return stretch.kind == "field" and is_strip(stretch.part)


def _broken(told: _Told, plan: CutPlan, limits: JointLimits) -> Broken | None:
    """Return which limit joints do not keep beside openings, where a station stands for two."""
    at = _stations(told, plan.joints)
    by_row: dict[int, list[int]] = {}
    for index in at:
        by_row.setdefault(told.stretches[index].row_number, []).append(index)
    names = [each.prefix.rstrip(".") for each in told.stretches]
    for index, joints in at.items():
        row = told.rows[index]
        assert row is not None
        if _lies_along(told.over[index]):
            continue
        held, least = fewest_supports(row, joints), limits.least_supports
        if held < least:
            return Broken(rows=(names[index],), measured=held, limit=least, unit="supports")
        for other in by_row.get(told.stretches[index].row_number + 1, []):
            beside = told.rows[other]
            assert beside is not None
            bays = lines_apart(row, joints, beside, at[other])
            if bays < limits.stagger_bays:
                return Broken(
                    rows=(names[index], names[other]), measured=int(bays),
                    limit=limits.stagger_bays, unit="joist lines",
                )  # fmt: skip
    return None


def _whole_lengths(job: Job) -> list[int]:
    """Return up to which length boards stay in one piece: as long as can be had, shorter next.

    Where the stock does not hold enough of the longest, those of which there are any number count
    as the longest; where that will not do, all may be jointed.
    """
    trim = 2 * exact(job.brief.cutting.end_trim_mm)
    lengths = [each for each in job.articles.board.lengths if each.limit != 0]
    longest = max((exact(each.length_mm) - trim for each in lengths), default=0)
    endless = max(
        (exact(each.length_mm) - trim for each in lengths if each.limit is None), default=0
    )
    return list(dict.fromkeys((longest, endless, 0)))


def _task(job: Job, told: _Told, price: Decimal) -> Task:
    single = [
        length_320(each.part, sizes_of(job).mark_320)
        for each, row in zip(told.stretches, told.rows, strict=True)
        if row is None
    ]
    return Task(
        stock=stock_for(job, job.articles.board.lengths),
        kerf=exact(job.brief.cutting.kerf_mm),
        pieces=_counted(single),
        lines=told.sets.lines,
        beside=told.sets.beside,
        joint_price=minor(price, job.stock.minor_digits) if told.sets.lines else 0,
    )


def _bought(  # noqa: PLR0917 - all that a finished plan of cuts is read with
    job: Job,
    told: _Told,
    plan: CutPlan,
    price: Decimal,
    standing: Sequence[Standing],
    along: Along,
) -> BoardsLaid:
    sawn = list(_sawn(job, told, plan.joints))
    bought = purchase(
        what="boards",
        article=job.articles.board.code,
        mark="DB",
        plan=plan,
        named_mm=[(piece.mark, piece.cut_mm) for piece, _, _ in sawn],
        minor_digits=job.stock.minor_digits,
    )
    return BoardsLaid(
        pieces=tuple(piece for piece, _, _ in sawn),
        joints=tuple(_joints(told, plan.joints)),
        purchase=bought,
        over={
            piece.mark: crossings(part, standing, along, kind=piece.kind) for piece, part, _ in sawn
        },
        parts={piece.mark: part for piece, part, _ in sawn},
        border_sides={
            piece.mark: told.stretches[index].border_side
            for piece, _, index in sawn
            if piece.kind == "border"
        },
        across_joints=sum(
            len(stations)
            for index, stations in _stations(told, plan.joints).items()
            if not _lies_along(told.over[index])
        ),
        joint_price=price,
        stations_met=tuple(tuple(tuple(stations) for stations in lines) for lines in plan.joints),
    )


def _counted(lengths: Iterable[int]) -> tuple[Piece, ...]:
    counts: dict[int, int] = {}
    for length in lengths:
        counts[length] = counts.get(length, 0) + 1
    return tuple(Piece(length=each, count=counts[each]) for each in sorted(counts, reverse=True))


def _told(
    stretches: Sequence[Stretch],
    standing: Sequence[Standing],
    limits: JointLimits,
    may: Jointing,
    along: Along,
) -> _Told:
    """Return what the cutter is told."""
    over = tuple(_under(each, standing, along, limits.gap_320 / 320) for each in stretches)
    rows = tuple(
        row_of(each.part, under, limits, filled=may.filled, longest_320=may.longest_320)
        if _may_joint(each, under, jointed=may.jointed, most=limits.most_per_row)
        and length_320(each.part, limits.mark_320) > may.whole_320
        else None
        for each, under in zip(stretches, over, strict=True)
    )
    numbered = [(each.row_number, row) for each, row in zip(stretches, rows, strict=True)]
    return _Told(
        stretches=tuple(stretches),
        rows=rows,
        sets=sets_of(numbered, limits.stagger_bays),
        over=over,
    )


def _under(
    stretch: Stretch, standing: Sequence[Standing], along: Along, gap_mm: float
) -> tuple[Crossing, ...]:
    """Return what a stretch may be jointed over: rows by joist lines alone, which all rows count.

    A row that lies along an opening's trimmer for most of its length leaves it again.
    """
    asked = crossed if stretch.kind == "field" else crossings
    found = asked(stretch.part, standing, along, kind=stretch.kind)
    return off_mitres(stretch.part, found, gap_mm) if stretch.kind == "border" else found


def _may_joint(
    stretch: Stretch, over: tuple[Crossing, ...], *, jointed: bool, most: int | None
) -> bool:
    """Whether a stretch may be jointed: any that lies along its members, ends bear on all of them.

    Across them where the family lets two ends share a joist, and the brief allows joints in rows.
    """
    if stretch.kind == "hatch":
        return False
    if _lies_along(over):
        return True
    return jointed and (most != 0 or stretch.kind != "field")


def _lies_along(over: tuple[Crossing, ...]) -> bool:
    """Whether boards lie along one member, and cross none."""
    return len(over) > 1 and len({each.member for each in over}) == 1


def _stations(told: _Told, joints: Sequence[Sequence[Sequence[int]]]) -> dict[int, tuple[int, ...]]:
    """Return at which stations each stretch is jointed, by its number."""
    found: dict[int, tuple[int, ...]] = {}
    for members, lines in zip(told.sets.parts, joints, strict=True):
        for index, stations in zip(members, lines, strict=True):
            found[index] = tuple(stations)
    return found


def _sawn(
    job: Job, told: _Told, joints: Sequence[Sequence[Sequence[int]]]
) -> Iterator[tuple[LaidPiece, Part, int]]:
    """Yield every piece with its part, in the order of the stretches."""
    at = _stations(told, joints)
    counts: dict[str, int] = {}
    for index, stretch in enumerate(told.stretches):
        row, stations = told.rows[index], at.get(index, ())
        for piece, part in _pieces_of(job, stretch, row, stations):
            counts[stretch.prefix] = counts.get(stretch.prefix, 0) + 1
            mark = f"{stretch.prefix}{counts[stretch.prefix]}"
            yield evolve(piece, mark=mark), part, index


def _pieces_of(
    job: Job, stretch: Stretch, row: Row | None, stations: tuple[int, ...]
) -> Iterator[tuple[LaidPiece, Part]]:
    if row is None or not stations:
        cut_320 = length_320(stretch.part, sizes_of(job).mark_320)
        yield _piece(job, stretch, stretch.part, cut_320), stretch.part
        return
    line, half = row.line, row.line.joint_gap // 2
    cuts = [line.stations[station] for station in stations]
    starts = [None, *(cut + line.joint_gap - half for cut in cuts)]
    ends = [*(cut - half for cut in cuts), None]
    names = ["", *(row.stations[station].member for station in stations), ""]
    for number, (start, end) in enumerate(zip(starts, ends, strict=True), start=1):
        part = between(
            stretch.part,
            None if start is None else stretch.part.start_mm + start / 320,
            None if end is None else stretch.part.start_mm + end / 320,
        )
        cut_320 = (line.end if end is None else end) - (start or 0)
        piece = _piece(job, stretch, part, cut_320)
        yield evolve(piece, from_member=names[number - 1], to_member=names[number]), part


def _piece(job: Job, stretch: Stretch, part: Part, cut_320: int) -> LaidPiece:
    ends = ends_of(part)
    angle = stretch.angle_deg
    if job.rules.count("pieces.handed") != 1:
        angle = None
    elif angle is None:
        angle = _angle_deg(part.band.axes)
    return LaidPiece(
        mark="",
        kind=stretch.kind,
        row=stretch.row,
        corners=tuple(spot(place) for place in corners_of(part)),
        length_mm=to_mm(exact(part.end_mm - part.start_mm)),
        cut_mm=to_mm(cut_320),
        width_mm=stretch.width_mm,
        start_deg=round(ends[0].saw_deg, 3) + 0.0,
        end_deg=round(ends[1].saw_deg, 3) + 0.0,
        shaped=is_shaped(part, ends),
        arrow_deg=angle,
    )


def _angle_deg(axes: Axes) -> float:
    return round(math.degrees(math.atan2(axes.sin_ratio, axes.cos_ratio)), 3) + 0.0


def _joints(told: _Told, joints: Sequence[Sequence[Sequence[int]]]) -> Iterator[LaidJoint]:
    for index, stations in sorted(_stations(told, joints).items()):
        row = told.rows[index]
        assert row is not None
        for station in stations:
            yield LaidJoint(
                row=told.stretches[index].prefix.rstrip("."),
                member=row.stations[station].member,
                at=spot(at_joint(row, station)),
            )


def face_m2(pieces: Iterable[LaidPiece]) -> float:
    """Return what the tops of pieces cover together."""
    return sum(area_mm2([place_of(corner) for corner in piece.corners]) for piece in pieces) / 1e6


def necks(boards: BoardsLaid, openings: Iterable[Opening]) -> Iterator[tuple[str, float, str]]:
    """Yield each piece that goes past an opening, what is left of its width, and the opening."""
    for opening in openings:
        ring = tuple(place_of(corner) for corner in opening.corners)
        for mark, part in boards.parts.items():
            band = part.band
            u, v = zip(*(seen(band.axes, place) for place in ring), strict=True)
            taken = min(band.high_mm, max(v)) - max(band.low_mm, min(v))
            if taken > SAME_MM and part.start_mm < min(u) and part.end_mm > max(u):
                yield mark, band.high_mm - band.low_mm - taken, opening.mark
