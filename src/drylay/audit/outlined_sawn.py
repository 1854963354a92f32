"""Saw settings, gaps and sums of pieces on an outline: nothing missing, and nothing twice."""

from collections.abc import Iterator
from itertools import pairwise, product
from math import atan2, degrees

from attrs import frozen

from drylay.audit.exact import PER_MM, Fraction, ticks
from drylay.audit.flaws import off_by, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    DEGREES,
    SLACK,
    all_holes,
    cover,
    fault,
    holes,
    laying_of,
    near,
    outline_of,
    outlines,
    place,
    run_at,
    shape,
    square_m,
)
from drylay.audit.outlined_pieces import round_about
from drylay.audit.outlined_sides import rounding_m2
from drylay.audit.outlined_strips import (
    JUST,
    Strip,
    cut_back,
    hatch_holes,
    parted,
    room_for,
    strips_of,
)
from drylay.audit.outlined_zones import out_of
from drylay.audit.plane import (
    UNIT,
    Number,
    Place,
    Run,
    Shape,
    box,
    boxes_meet,
    inside,
    root,
    size,
    squared_apart,
)
from drylay.audit.sweep import trapezia, twice_area_of
from drylay.laying.model import LaidPiece, Zone
from drylay.plan.model import Plan

SAW = outlines("Laying: start_deg and end_deg")
APART = outlines("Laying: gaps between pieces")
SUMS = outlines("Laying: face_m2, with the gaps and the openings")


@frozen(kw_only=True)
class Cuts:
    """How a piece is cut: the saw's settings, None at an end that is not one straight cut."""

    start_deg: float | None
    end_deg: float | None
    shaped: bool


@frozen(kw_only=True)
class Lying:
    """How a board that lies in no row lies: its run, and its edges to the left of that."""

    run: Run
    low: Number
    high: Number


def cuts_of(strip: Strip | Lying, piece: LaidPiece) -> tuple[Cuts, ...]:
    """Return how a piece has to be cut, from its corners.

    Where several corners lie at an end of an edge, within 0.1 mm, the end begins at any of them.
    """
    told, slack = strip.run.all_told(shape(piece.corners)), JUST * UNIT
    right = [index for index, (_, v) in enumerate(told) if size(v - strip.low) <= slack]
    left = [index for index, (_, v) in enumerate(told) if size(v - strip.high) <= slack]
    if not right or not left:
        return (Cuts(start_deg=None, end_deg=None, shaped=True),)

    def far(indices: list[int], sign: int) -> list[int]:
        most = max(sign * told[index][0] for index in indices)
        return [index for index in indices if most - sign * told[index][0] <= slack]

    # along the right edge, up the end, back along the left edge, down the start
    ends = (far(right, -1), far(right, 1), far(left, 1), far(left, -1))
    return tuple(_cut(told, chain, strip.high - strip.low) for chain in product(*ends))


def _cut(told: Shape, chain: tuple[int, ...], width: Number) -> Cuts:
    """Return how a piece is cut whose two edges end at these corners, and begin."""
    between = [(after - before) % len(told) > 1 for before, after in pairwise([*chain, chain[0]])]
    return Cuts(
        start_deg=None if between[3] else _saw(told[chain[3]], told[chain[0]], width),
        end_deg=None if between[1] else _saw(told[chain[2]], told[chain[1]], width),
        shaped=any(between),
    )


def _saw(left: Place, right: Place, width: Number) -> float:
    """Return how far off square an end is sawn: not at all where it leans by less than 0.1 mm."""
    leans = left[0] - right[0]
    square = size(leans) < JUST * UNIT
    return 0.0 if square else degrees(atan2(float(leans), float(width)))


def saw_settings(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the saw is set to a piece's ends as they lie."""
    runs = {strip.row.mark: strip for strip in strips_of(plan)}
    for piece in laying_of(plan).pieces:
        if piece.row not in runs:
            continue
        yield from set_as_it_lies(runs[piece.row], piece)


def set_as_it_lies(strip: Strip | Lying, piece: LaidPiece) -> Iterator[Flaw]:
    """Yield a flaw unless the saw is set to a piece's ends as they lie."""
    # places are off by 1/320 mm at either edge
    slack = DEGREES + degrees(atan2(SLACK * UNIT, float(strip.high - strip.low)))
    ways = cuts_of(strip, piece)
    cuts = next((each for each in ways if _is_told(piece, each, slack)), ways[0])
    if piece.shaped != cuts.shaped:
        yield fault(piece.mark, "it is told wrong whether it is marked out", SAW)
    for name, told, wanted in (
        ("start_deg", piece.start_deg, cuts.start_deg),
        ("end_deg", piece.end_deg, cuts.end_deg),
    ):
        message = f"{name} is not what the saw is set to"
        yield from near(
            piece.mark, message, told, wanted or 0.0, slack=slack, unit="degrees", source=SAW
        )


def _is_told(piece: LaidPiece, cuts: Cuts, slack: float) -> bool:
    """Whether a piece tells one way of cutting it."""
    pairs = ((piece.start_deg, cuts.start_deg), (piece.end_deg, cuts.end_deg))
    return piece.shaped == cuts.shaped and all(
        abs(told - (wanted or 0.0)) <= slack for told, wanted in pairs
    )


def pieces_lie_apart(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where two pieces overlap, or come nearer than gaps between them may."""
    laying = laying_of(plan)
    row, end = ticks(laying.gap_least_mm), ticks(laying.end_gap_mm)
    mitred = {frozenset(mitre.pieces) for mitre in laying.mitres}
    aslant = {strip.row.mark: aslant_of(strip) for strip in strips_of(plan)}
    told = [(piece, shape(piece.corners)) for piece in laying.pieces]
    told.sort(key=lambda each: box(each[1])[0])
    boxes = [box(corners) for _, corners in told]
    for index, (one, corners) in enumerate(told):
        for later in range(index + 1, len(told)):
            if boxes[later][0] > boxes[index][2] + max(row, end):
                break
            other, others = told[later]
            if not boxes_meet(corners, others, max(row, end)):
                continue
            least: float = end if one.row == other.row else min(row, end)
            if _alike(one, other):
                least = row - max(aslant.get(each.row, 0.0) for each in (one, other))
            if frozenset((one.mark, other.mark)) in mitred or _corner_of_border(one, other):
                yield from _overlap(one, other, (corners, others))
                continue
            apart = float(root(squared_apart(corners, others)))
            if apart < least - SLACK:
                subject = f"{one.mark} and {other.mark}"
                yield off_by(subject, "nearer to each other than they may", apart, least, APART)


def aslant_of(strip: Strip) -> float:
    """Return what a fan's gap, told square to its zone, loses square to the row beside it."""
    run, own = run_at(strip.zone.angle_deg), strip.run
    cosine = float(Fraction(run.cos * own.cos + run.sin * own.sin) / UNIT**2)
    return float(strip.high - strip.low) / UNIT * max(0.0, 1.0 - cosine)


def _alike(one: LaidPiece, other: LaidPiece) -> bool:
    """Whether two pieces lie side by side, in rows of one zone."""
    return one.kind == other.kind == "field" and one.row != other.row


def _corner_of_border(one: LaidPiece, other: LaidPiece) -> bool:
    return one.kind == other.kind == "border"


def _overlap(one: LaidPiece, other: LaidPiece, told: tuple[Shape, Shape]) -> Iterator[Flaw]:
    """Yield a flaw where two pieces lie over each other by more than rounding."""
    low, high = min(box(told[0])[1], box(told[1])[1]), max(box(told[0])[3], box(told[1])[3])
    both = twice_area_of(trapezia(told, lambda into: len(into) == 2, low, high))
    if both > 2 * SLACK * min(round_about(told[0]), round_about(told[1])):
        subject = f"{one.mark} and {other.mark}"
        area = float(both) / 2 / PER_MM**2
        yield Flaw(subject=subject, message="they overlap", measured=area, limit=0.0, unit="mm2",
                   source=APART)  # fmt: skip


def pieces_lie_inside(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a piece that reaches out of the outline, or into an opening."""
    corners, laying = cover(plan), laying_of(plan)
    openings = outline_of(plan).openings
    for piece in laying.pieces:
        told = shape(piece.corners)
        for flaw in out_of(piece.mark, told, corners):
            yield flaw
            break
        for opening in openings:
            hole = shape(opening.corners)
            panel = piece.kind == opening.kind == "hatch"
            if not panel and boxes_meet(told, hole):
                yield from _into(piece, opening.mark, (told, hole))


def _into(piece: LaidPiece, mark: str, told: tuple[Shape, Shape]) -> Iterator[Flaw]:
    low, high = box(told[0])[1], box(told[0])[3]
    both = twice_area_of(trapezia(told, lambda into: len(into) == 2, low, high))
    if both > 2 * SLACK * round_about(told[0]):
        yield fault(piece.mark, f"it reaches into {mark}", APART)


def sums_of_pieces(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pieces, lengths and faces are those of all pieces together."""
    laying = laying_of(plan)
    message = "not the pieces there are"
    found, wanted = laying.piece_count, len(laying.pieces)
    yield from same_count("laying.piece_count", message, found, wanted, SUMS)
    splayed = sum(
        (piece.start_deg != 0) + (piece.end_deg != 0)
        for piece in laying.pieces
        if piece.kind != "border"
    )
    message = "not the ends sawn off square in one cut"
    yield from same_count("laying.splay_cuts", message, laying.splay_cuts, splayed, SUMS)
    shaped = sum(piece.shaped for piece in laying.pieces)
    message = "not the pieces that are marked out"
    yield from same_count("laying.shaped_count", message, laying.shaped_count, shaped, SUMS)
    long = sum(ticks(piece.length_mm) for piece in laying.pieces) / PER_MM / 1000
    message = "not the length of all pieces together"
    yield from near("laying.tip_to_tip_m", message, laying.tip_to_tip_m, long, slack=1e-6,
                    unit="m", source=SUMS)  # fmt: skip
    face = sum(square_m(shape(piece.corners)) for piece in laying.pieces)
    slack = sum(rounding_m2(shape(piece.corners)) for piece in laying.pieces)
    message = "not the area of all pieces together"
    yield from near("laying.face_m2", message, laying.face_m2, face, slack=slack, unit="m2",
                    source=SUMS)  # fmt: skip


def nothing_is_missing(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless boards, gaps and openings, each measured by itself, fill the outline."""
    laying, openings = laying_of(plan), outline_of(plan).openings
    parts = {
        "boards": sum(square_m(shape(piece.corners)) for piece in laying.pieces),
        "openings": sum(square_m(shape(o.corners)) for o in openings if o.kind != "hatch"),
        "gaps between rows": sum(_between_rows(plan, zone.mark) for zone in laying.zones),
        "gaps at joints": _at_joints(plan),
        "gaps round panels": sum(_round_panels(plan, zone) for zone in laying.zones),
        "gaps beside zones": _beside_zones(plan),
    }
    slack = sum(rounding_m2(shape(piece.corners)) for piece in laying.pieces)
    gross = square_m(cover(plan))
    told = ", ".join(f"{name} {area:.6f}" for name, area in parts.items())
    message = f"boards, gaps and openings do not fill the outline: {told} m2"
    yield from near("laying.face_m2", message, sum(parts.values()), gross, slack=slack, unit="m2",
                    source=SUMS)  # fmt: skip


def _between_rows(plan: Plan, mark: str) -> float:
    """Return the area in a zone, openings left out, that none of its rows covers, in m2."""
    strips = [strip for strip in strips_of(plan) if strip.zone.mark == mark]
    if not strips:
        return 0.0
    run = run_at(strips[0].zone.angle_deg)
    zone = run.all_told(shape(strips[0].zone.corners))
    free = [run.all_told(hole) for hole in all_holes(plan)]
    shapes = [zone, *free, *(run.all_told(as_laid(strip)) for strip in strips)]
    _, low, _, high = box(zone)
    return in_m2(twice_area_of(trapezia(shapes, lambda into: into == {0}, low, high)))


def as_laid(strip: Strip) -> Shape:
    """Return the corners of a row's strip, from its start to its end, as places.

    It is a width longer at either: rows of a fan lie aslant to the ends of their zone.
    """
    start, end = strip.run.told(place(strip.row.start)), strip.run.told(place(strip.row.end))
    low, high = strip.low, strip.high
    before, past = start[0] - (high - low), end[0] + (high - low)
    corners = ((before, low), (past, low), (past, high), (before, high))
    return tuple(strip.run.place(corner) for corner in corners)


def in_m2(twice: Number) -> float:
    """Return twice an area, as told along a run, in m2."""
    return float(Fraction(twice) / 2 / UNIT**2 / PER_MM**2) / 1e6


def _at_joints(plan: Plan) -> float:
    """Return the area that gaps at joints and where rows are parted take of zones, in m2.

    Those in a border or a breaker board are among what lies beside zones.
    """
    total = 0.0
    for strip in strips_of(plan):
        for gap in (*_joint_gaps(plan, strip), *parted(plan, strip), *cut_back(plan, strip)):
            zone, *free = room_for(plan, strip)[: 1 + len(all_holes(plan))]
            shapes = (zone, gap, *free)
            left = trapezia(shapes, lambda into: into == {0, 1}, strip.low, strip.high)
            total += in_m2(twice_area_of(left))
    return total


def _joint_gaps(plan: Plan, strip: Strip) -> Iterator[Shape]:
    """Yield the gaps at joints of a row, along its run: across all of it."""
    laying = laying_of(plan)
    half = Fraction(ticks(laying.end_gap_mm) * UNIT, 2)
    for joint in laying.joints:
        if joint.row == strip.row.mark:
            at = strip.run.told(place(joint.at))[0]
            ends, low, high = (at - half, at + half), strip.low, strip.high
            yield ((ends[0], low), (ends[1], low), (ends[1], high), (ends[0], high))


def _round_panels(plan: Plan, zone: Zone) -> float:
    """Return the area of gaps in hatches' holes and beside them along rows of a zone, in m2."""
    run, total = run_at(zone.angle_deg), 0.0
    hatches = [shape(each.corners) for each in outline_of(plan).openings if each.kind == "hatch"]
    grown, shrunk = hatch_holes(plan, run, grown=1), hatch_holes(plan, run, grown=-1)
    strips = [strip for strip in strips_of(plan) if strip.zone == zone]
    for hole, outer, inner in zip(hatches, grown, shrunk, strict=True):
        if inside(hole[0], shape(zone.corners)) > 0:
            boards = [as_laid(strip) for strip in strips if boxes_meet(as_laid(strip), hole)]
            shapes = [run.all_told(each) for each in (outer, inner, hole, *boards)]
            _, low, _, high = box(shapes[0])
            total += in_m2(twice_area_of(trapezia(shapes, _no_board, low, high)))
    return total


def _no_board(into: frozenset[int]) -> bool:
    """Whether no board lies here, of a grown hole, a shrunk one, the hole itself and then rows.

    Inside the hole that is all but boards of the panel, beside it what rows leave free.
    """
    row = any(each > 2 for each in into)
    return 0 in into and not (1 in into and row) and (2 in into or row)


def _beside_zones(plan: Plan) -> float:
    """Return the area of the outline in no zone, opening, border or breaker board, in m2."""
    laying, corners = laying_of(plan), cover(plan)
    edge = [piece for piece in laying.pieces if piece.kind in {"border", "breaker"}]
    others = [zone.corners for zone in laying.zones] + [piece.corners for piece in edge]
    shapes = [corners, *map(shape, others), *holes(plan)]
    _, low, _, high = box(corners)
    free = trapezia(shapes, lambda into: into == {0}, low, high)
    return float(Fraction(twice_area_of(free)) / 2 / PER_MM**2) / 1e6


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-774", "the saw is set to pieces' ends as they lie", saw_settings),
    ("AUD-775", "no two pieces overlap or lie nearer than gaps let them", pieces_lie_apart),
    ("AUD-776", "no piece reaches out of the outline or into an opening", pieces_lie_inside),
    ("AUD-777", "pieces are counted, their lengths and faces added up", sums_of_pieces),
    ("AUD-778", "boards, gaps and openings fill the outline", nothing_is_missing),
)
