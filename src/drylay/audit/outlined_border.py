"""Borders and breaker boards: courses all round, mitres at every corner, boards across."""

from collections.abc import Iterator
from math import degrees, hypot, radians, sin

from drylay.audit.exact import PER_MM, Fraction, mm, ticks
from drylay.audit.flaws import off_by, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.outlined import (
    DEGREES,
    LONG_OFF,
    SLACK,
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
)
from drylay.audit.outlined_bearing import angle_of, runs_of
from drylay.audit.outlined_frame import between
from drylay.audit.outlined_pieces import round_about
from drylay.audit.plane import (
    UNIT,
    Number,
    Place,
    Shape,
    box,
    inside,
    meeting,
    run_of,
    sides_of,
    squared_to_edge,
    twice_common,
)
from drylay.audit.sweep import trapezia, twice_area_of
from drylay.laying.model import LaidPiece, Mitre
from drylay.plan.model import Plan

BORDER = outlines("Laying: a border's boards")
MITRES = outlines("Laying: mitres")
OPENING = outlines("Laying: a mitre opens")
BREAKERS = outlines("Laying: breaker boards")


def inset(corners: Shape, way: int) -> Shape:
    """Return the corners of a shape whose sides stand back by so much from those of another."""
    lines = []
    for start, end in sides_of(corners):
        run = run_of(start, end)
        if run is not None:
            (u, v), (w, _) = run.told(start), run.told(end)
            lines.append((run.place((u, v + way * UNIT)), run.place((w, v + way * UNIT))))
    found = []
    for index, line in enumerate(lines):
        corner = meeting(*lines[index - 1], *line)
        found.append(corner if corner is not None else line[0])
    return tuple(found)


def courses(plan: Plan) -> list[tuple[int, int]]:
    """Return from where to where each course of the border lies, in from the outline's edge."""
    laying = laying_of(plan)
    width, gap = ticks(laying.board_width_mm), ticks(laying.gap_preferred_mm)
    starts = [index * (width + gap) for index in range(laying.border_courses)]
    return [(start, start + width) for start in starts]


def borders_lie_round(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each course of a border lies along every side, whole boards, mitred."""
    laying, corners = laying_of(plan), cover(plan)
    pieces = [piece for piece in laying.pieces if piece.kind == "border"]
    if not laying.border_courses and pieces:
        yield fault("laying.border_courses", "there is a border, and no course of one", BORDER)
    left = list(pieces)
    for course in courses(plan):
        outer, inner = inset(corners, course[0]), inset(corners, course[1])
        for index, side in enumerate(outline_of(plan).sides):
            after = (index + 1) % len(corners)
            wanted = (outer[index], outer[after], inner[after], inner[index])
            lying = [piece for piece in left if lies_in(shape(piece.corners), wanted)]
            left = [piece for piece in left if piece not in lying]
            joints = _gaps(plan, lying)
            yield from _filled(side.mark, [shape(p.corners) for p in lying], wanted, joints)
    for piece in left:
        yield fault(piece.mark, "it lies in no course of the border", BORDER)
    for piece in pieces:
        if not piece.mark.startswith("K"):
            yield fault(piece.mark, "a border board's mark begins with K", BORDER)


def lies_in(told: Shape, wanted: Shape) -> bool:
    """Return whether a board lies in its part of a course, but for rounding."""
    slack = (2 * SLACK) ** 2
    return all(
        inside(corner, wanted) >= 0 or squared_to_edge(corner, wanted) <= slack for corner in told
    )


def _gaps(plan: Plan, lying: list[LaidPiece]) -> int:
    """Return the area that joints within one side's boards leave, in square 1/320 mm."""
    laying = laying_of(plan)
    return max(len(lying) - 1, 0) * ticks(laying.end_gap_mm) * ticks(laying.board_width_mm)


def _filled(side: str, lying: list[Shape], wanted: Shape, joints: int) -> Iterator[Flaw]:
    """Yield a flaw unless boards fill their part of a course, but for the gaps at joints."""
    shapes = (wanted, *lying)
    _, low, _, high = box(wanted)
    bare = twice_area_of(trapezia(shapes, lambda into: into == {0}, low, high))
    off = float(abs(Fraction(bare) / 2 - joints))
    if off > 2 * SLACK * round_about(wanted):
        yield Flaw(
            subject=side, message="the border does not fill its course along this side",
            measured=off / PER_MM**2, limit=0.0, unit="mm2", source=BORDER,
        )  # fmt: skip


def mitres_halve_their_corners(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless each corner of a border has its mitre, from its corner to the inner."""
    laying, corners, sides = laying_of(plan), cover(plan), outline_of(plan).sides
    message, found = "not the mitres there are", len(laying.mitres)
    yield from same_count("laying.mitre_count", message, laying.mitre_count, found, MITRES)
    if not laying.border_courses:
        yield from same_count("laying.mitres", "mitres without a border", found, 0, MITRES)
        return
    yield from same_count("laying.mitres", "mitres, one a corner", found, len(corners), MITRES)
    deep = courses(plan)[-1][1]
    inner = inset(corners, deep)
    for index, (corner, wanted) in enumerate(zip(corners, inner, strict=True)):
        mitre = next((m for m in laying.mitres if _at(m, corner)), None)
        if mitre is None:
            yield fault(sides[index].mark, "no mitre is at its start", MITRES)
            continue
        half = sides[index].corner_deg / 2
        ends = (place(mitre.start), place(mitre.end))
        far = max(min(hypot(*_way(end, each)) for end in ends) for each in (corner, wanted))
        if far > 2 * SLACK:
            message = "it does not run from the corner to the inner one"
            yield off_by(mitre.mark, message, far, 0, MITRES)
        long, told = deep / sin(radians(half)), ticks(mitre.length_mm)
        if abs(told - long) > SLACK + LONG_OFF:
            message = "not as long as all courses and gaps at half the corner's angle"
            yield off_by(mitre.mark, message, told, long, MITRES)
        message = "not 90 less half the corner's angle"
        yield from near(mitre.mark, message, mitre.saw_deg, 90 - half, slack=DEGREES,
                        unit="degrees", source=MITRES)  # fmt: skip
        marks = {piece.mark for piece in laying.pieces if piece.kind == "border"}
        if len(mitre.pieces) < 2 or not marks.issuperset(mitre.pieces):
            yield fault(mitre.mark, "its boards are not boards of the border", MITRES)


def _at(mitre: Mitre, corner: Place) -> bool:
    ends = (place(mitre.start), place(mitre.end))
    return min(hypot(*_way(end, corner)) for end in ends) <= SLACK


def _way(one: Place, other: Place) -> tuple[float, float]:
    return float(other[0] - one[0]), float(other[1] - one[1])


def mitres_open(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless mitres open like one another, at each by its corner, the widest told."""
    laying = laying_of(plan)
    told = [mitre.opens_mm for mitre in laying.mitres if mitre.opens_mm is not None]
    widest = max(told, default=None)
    if len(told) not in {0, len(laying.mitres)}:
        yield fault("laying.mitres", "some tell how far they open, and some do not", OPENING)
    if laying.mitre_opens_mm != widest:
        yield fault("laying.mitre_opens_mm", f"the widest is {widest}", OPENING)
    # the loss of width is the boards' own, so it is one and the same at every corner
    losses = []
    for mitre in laying.mitres:
        if mitre.opens_mm is not None:
            losses.append((mitre.opens_mm * sin(radians(90 - mitre.saw_deg)), mitre))
    for loss, mitre in losses[1:]:
        if abs(loss - losses[0][0]) > mm(LONG_OFF):
            message = "it does not open like the others, by its corner"
            yield off_by(mitre.mark, message, loss * PER_MM, losses[0][0] * PER_MM, OPENING)


def breakers_lie_across(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless breaker boards are counted, marked, whole, and across the main run."""
    laying = laying_of(plan)
    breakers = [piece for piece in laying.pieces if piece.kind == "breaker"]
    lines = {piece.row or piece.mark.split(".")[0] for piece in breakers}
    message = "not the breaker boards there are"
    yield from same_count("laying.breaker_count", message, laying.breaker_count, len(lines),
                          BREAKERS)  # fmt: skip
    runs, board = runs_of(plan), ticks(laying.board_width_mm)
    for piece in breakers:
        if not piece.mark.startswith("X"):
            yield fault(piece.mark, "a breaker board's mark begins with X", BREAKERS)
        if piece.mark not in runs:
            continue
        across = between(angle_of(runs[piece.mark]), laying.angle_deg)
        if abs(across - 90) > SQUARE_DEG:
            yield fault(piece.mark, "it does not lie across the main field's run", BREAKERS)
        wide = float(_narrow(plan, piece)) / UNIT
        if abs(wide - board) > SLACK:
            yield off_by(piece.mark, "not the full width of a board", wide, board, BREAKERS)


def _narrow(plan: Plan, piece: LaidPiece) -> Number:
    """Return how wide a breaker board is; a whole board's where there is no room for the rest."""
    laying = laying_of(plan)
    run, board = run_at(laying.angle_deg + 90), ticks(laying.board_width_mm) * UNIT
    left, low, right, high = box(run.all_told(shape(piece.corners)))
    deep = courses(plan)[-1][1] + ticks(laying.end_gap_mm) if laying.border_courses else 0
    others = [p for p in laying.pieces if p.kind == "breaker" and p is not piece]
    shapes = [inset(cover(plan), deep), *holes(plan), *(shape(each.corners) for each in others)]
    for a, b in ((high, low + board), (high - board, low)):
        rest = tuple(map(run.place, ((left, a), (right, a), (right, b), (left, b))))
        room, *taken = (twice_common(rest, each) for each in shapes)
        # what rounding may leave along all four of its sides
        if b > a and room - sum(taken) <= 2 * SLACK * round_about(rest):
            return board
    return high - low


#: How far from square a breaker board may be told, its corners being rounded.
SQUARE_DEG = degrees(1 / 1000)

CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-935", "a border's courses lie along every side", borders_lie_round),
    ("AUD-936", "mitres halve their corners, as long and set as told", mitres_halve_their_corners),
    ("AUD-937", "mitres open alike, each by its corner", mitres_open),
    ("AUD-938", "breaker boards lie across the main field, whole", breakers_lie_across),
)
