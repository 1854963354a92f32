"""Decks on an outline put together with a ruler: enough to draw, no plan that an audit would pass.

Boards are strips clipped to the outline, joists are strips across it. What counts here is that
papers meet every kind of shape; whether a deck is right is the planner's and the auditor's.
"""

from decimal import Decimal
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from attrs import evolve, frozen
from shapely.geometry import Polygon, box
from shapely.geometry.polygon import orient
from shapely.ops import unary_union

from drylay.buying.model import OrderLine
from drylay.laying.model import LaidJoint, LaidPiece, LaidRow, Laying, Mitre, Zone
from drylay.outline.model import Opening, Outline, Side, Spot
from drylay.plan.model import Plan
from drylay.subframe.model import Facing, Member, Seam, Subframe
from drylay.work.model import Peg, PegTie
from plan.sample import purchase_of, sample_plan

BOARD_MM, GAP_MM, JOIST_MM, BAY_MM, FACE_MM = 145.0, 5.0, 45.0, 400.0, 28.0

Point = tuple[float, float]


@frozen(kw_only=True)
class Hole:
    """An opening to leave: its kind, its middle and its sizes, its name."""

    kind: str
    along_mm: float
    across_mm: float
    size_along_mm: float
    size_across_mm: float
    name: str = ""


def spot(point: Point) -> Spot:
    return Spot(along_mm=point[0], across_mm=point[1])


def spots(points: list[Point]) -> tuple[Spot, ...]:
    return tuple(spot(point) for point in points)


def ring(shape: Polygon) -> list[Point]:
    """Corners the way that turns from along towards across, straight ones left out."""
    points = list(orient(shape.simplify(0.01), 1.0).exterior.coords)[:-1]
    around = zip(points[-1:] + points[:-1], points, points[1:] + points[:1], strict=True)
    return [
        b
        for a, b, c in around
        if abs((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])) > 1e-3
    ]


def set_in(points: list[Point], by_mm: list[float]) -> list[Point]:
    """A ring with each side moved inside by its own distance, corners where the lines meet."""
    lines = []
    for (a, b), by in zip(pairwise([*points, points[0]]), by_mm, strict=True):
        long = hypot(b[0] - a[0], b[1] - a[1])
        u = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
        lines.append(((a[0] - u[1] * by, a[1] + u[0] * by), u))
    found = []
    for (p, u), (q, v) in pairwise([lines[-1], *lines]):
        t = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / (u[0] * v[1] - u[1] * v[0])
        found.append((p[0] + u[0] * t, p[1] + u[1] * t))
    return found


def sides_of(points: list[Point], kinds: dict[int, str]) -> tuple[Side, ...]:
    found = []
    for index, (a, b) in enumerate(pairwise([*points, points[0]])):
        before = points[index - 1]
        turn = degrees(atan2(b[1] - a[1], b[0] - a[0]) - atan2(a[1] - before[1], a[0] - before[0]))
        kind = kinds.get(index, "house" if a[1] == b[1] == 0 else "open")
        found.append(
            Side(mark=f"E{index + 1}", kind=kind, start=spot(a), end=spot(b),
                 length_mm=hypot(b[0] - a[0], b[1] - a[1]), corner_deg=(180 - turn) % 360,
                 facing_mm=FACE_MM if kind == "open" else 0.0)
        )  # fmt: skip
    return tuple(found)


def opening_of(index: int, hole: Hole) -> Opening:
    def rectangle(more_mm: float) -> tuple[Spot, ...]:
        half = (hole.size_along_mm / 2 + more_mm, hole.size_across_mm / 2 + more_mm)
        at = (hole.along_mm, hole.across_mm)
        return spots([(at[0] + x * half[0], at[1] + y * half[1])
                      for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))])  # fmt: skip

    clear = {"post": 10.0, "hatch": 45.0, "tree": 0.0, "pool": -40.0}[hole.kind]
    return Opening(mark=f"O{index + 1}", kind=hole.kind, name=hole.name, corners=rectangle(clear),
                   within=rectangle(0.0), clear_mm=clear, clear_least_mm=clear,
                   clear_most_mm=100.0 if hole.kind == "post" else None,
                   panel_kg=12.5 if hole.kind == "hatch" else None,
                   panel_most_kg=20.0 if hole.kind == "hatch" else None)  # fmt: skip


def shape_of(corners: tuple[Spot, ...]) -> Polygon:
    return Polygon([(corner.along_mm, corner.across_mm) for corner in corners])


def parts_of(shape: object) -> list[Polygon]:
    parts = getattr(shape, "geoms", [shape])
    return [
        part
        for part in parts
        if isinstance(part, Polygon) and part.area > 100 and len(ring(part)) > 2
    ]


def piece_of(mark: str, kind: str, row: str, shape: Polygon, angle_deg: float) -> LaidPiece:
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    corners = ring(shape)
    flat = [(x * c + y * s, y * c - x * s) for x, y in corners]
    right, left = min(n for _, n in flat), max(n for _, n in flat)
    reach = {side: sorted(t for t, n in flat if abs(n - side) < 0.05) for side in (right, left)}
    shaped = len(corners) != 4 or any(len(found) != 2 for found in reach.values())
    wide = max(left - right, 0.1)
    off = [0.0 if shaped else degrees(atan2(reach[left][end] - reach[right][end], wide))
           for end in (0, 1)]  # fmt: skip
    along = [t for t, _ in flat]
    return LaidPiece(
        mark=mark, kind=kind, row=row, corners=spots(corners), length_mm=max(along) - min(along),
        cut_mm=max(along) - min(along), width_mm=wide, start_deg=off[0], end_deg=off[1],
        shaped=shaped,
    )  # fmt: skip


def rows_of(
    zone: Polygon, holes: Polygon, angle_deg: float, first: int, mark: str
) -> tuple[list[LaidRow], list[LaidPiece], list[LaidJoint]]:
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    flat = [(x * c + y * s, y * c - x * s) for x, y in ring(zone)]
    low, high = min(t for t, _ in flat), max(t for t, _ in flat)
    near, far = min(n for _, n in flat), max(n for _, n in flat)
    rows, pieces, joints = [], [], []

    def back(t: float, n: float) -> Point:
        return t * c - n * s, t * s + n * c

    while near < far - 1:
        row = f"B{first + len(rows)}"
        wide = min(BOARD_MM, far - near)
        rows.append(LaidRow(mark=row, zone=mark, start=spot(back(low, near)),
                            end=spot(back(high, near)), width_mm=wide,
                            ripped=wide < BOARD_MM))  # fmt: skip
        strip = Polygon([back(low, near), back(high, near), back(high, near + wide),
                         back(low, near + wide)])  # fmt: skip
        laid = sorted(parts_of(strip.intersection(zone).difference(holes)),
                      key=lambda part: part.centroid.x * c + part.centroid.y * s)  # fmt: skip
        halves = []
        for part in laid:
            ends = [x * c + y * s for x, y in ring(part)]
            if max(ends) - min(ends) < 4800:
                halves.append(part)
                continue
            at = (max(ends) + min(ends)) / 2 + (400 if len(rows) % 2 else 0)
            joints.append(LaidJoint(row=row, member="J7", at=spot(back(at, near + wide / 2))))
            gap = Polygon([back(at - 2, near - 9), back(at + 2, near - 9),
                           back(at + 2, near + 999), back(at - 2, near + 999)])  # fmt: skip
            halves += parts_of(part.difference(gap))
        pieces += [
            piece_of(f"{row}.{index + 1}", "field", row, part, angle_deg)
            for index, part in enumerate(halves)
        ]
        near += wide + GAP_MM
    return rows, pieces, joints


def member_of(mark: str, kind: str, corners: list[Point], **more: str) -> Member:
    shape = Polygon(corners)
    points = ring(shape)
    around = pairwise([*points, points[0]])
    sides = sorted(around, key=lambda e: -hypot(e[1][0] - e[0][0], e[1][1] - e[0][1]))
    (a, b), (c, d) = sides[0], sides[1] if len(sides) > 3 else sides[0]
    start, end = ((a[0] + d[0]) / 2, (a[1] + d[1]) / 2), ((b[0] + c[0]) / 2, (b[1] + c[1]) / 2)
    long = hypot(b[0] - a[0], b[1] - a[1])
    return Member(mark=mark, kind=kind, start=spot(start), end=spot(end), corners=spots(points),
                  length_mm=long, start_deg=0.0, end_deg=0.0, **more)  # fmt: skip


def frame_of(
    points: list[Point], sides: tuple[Side, ...], openings: tuple[Opening, ...], run: str
) -> Subframe:
    faces = [side.facing_mm for side in sides]
    outer, inner = set_in(points, faces), set_in(points, [face + JOIST_MM for face in faces])
    members = [
        member_of(f"R{i + 1}", "rim", [outer[i], outer[(i + 1) % len(outer)],
                                       inner[(i + 1) % len(inner)], inner[i]], side=sides[i].mark)
        for i in range(len(sides))
    ]  # fmt: skip
    for opening in openings:
        hole = shape_of(opening.corners)
        left, top, right, bottom = hole.bounds
        for x0, y0, x1, y1 in (
            (left - JOIST_MM, top - JOIST_MM, left, bottom + JOIST_MM),
            (right, top - JOIST_MM, right + JOIST_MM, bottom + JOIST_MM),
            (left, top - JOIST_MM, right, top), (left, bottom, right, bottom + JOIST_MM),
        ):  # fmt: skip
            mark = f"U{sum(m.kind == 'trimmer' for m in members) + 1}"
            corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
            members.append(member_of(mark, "trimmer", corners, side=opening.mark))
    free = Polygon(inner).difference(unary_union([Polygon(shape_of(o.corners)
                                                          .buffer(JOIST_MM, join_style=2))
                                                  for o in openings]))  # fmt: skip
    at = [p[0 if run == "across" else 1] for p in outer]
    count = -int(-(max(at) - min(at) - JOIST_MM) // BAY_MM)
    lines = [min(at) + JOIST_MM / 2 + i * (max(at) - min(at) - JOIST_MM) / count
             for i in range(count + 1)]  # fmt: skip
    for number, line in enumerate(lines[1:-1], 2):
        low, high = line - JOIST_MM / 2, line + JOIST_MM / 2
        strip = box(low, -9e4, high, 9e4) if run == "across" else box(-9e4, low, 9e4, high)
        parts = parts_of(free.intersection(strip))
        for index, part in enumerate(parts):
            mark = f"J{number}" if len(parts) == 1 else f"J{number}.{index + 1}"
            members.append(member_of(mark, "joist", ring(part)))
    facings = [
        Facing(mark=f"F{i + 1}", side=side.mark, start=side.start, end=side.end,
               length_mm=side.length_mm, start_end="mitre", end_end="free",
               start_deg=45.0, end_deg=0.0)
        for i, side in enumerate(sides) if side.facing_mm
    ]  # fmt: skip
    seam = Seam(left="J3", right="J4", start=spot((lines[2], 200.0)), end=spot((lines[2], 900.0)))
    return Subframe(
        timber_article="FT-45-145", timber_thickness_mm=JOIST_MM, timber_depth_mm=145.0,
        joist_run=run, square_centres_mm=BAY_MM, board_to_joist_deg=90.0, most_centres_mm=BAY_MM,
        centres_mm=lines[1] - lines[0], line_count=len(lines), lines_mm=tuple(lines),
        end_support_most_mm=100.0, noggin_spacing_most_mm=1800.0, joists_under_joint=1,
        seam_count=1, member_count=len(members), members=tuple(members), seams=(seam,),
        facing_article="FA-28-145", facing_thickness_mm=FACE_MM, facing_depth_mm=145.0,
        facing_run_mm=sum(f.length_mm for f in facings), facings=tuple(facings),
    )  # fmt: skip


def border_of(points: list[Point]) -> tuple[list[LaidPiece], list[Mitre], Polygon]:
    inner = set_in(points, [BOARD_MM] * len(points))
    pieces, mitres = [], []
    for i in range(len(points)):
        j = (i + 1) % len(points)
        run = degrees(atan2(points[j][1] - points[i][1], points[j][0] - points[i][0])) % 180
        shape = Polygon([points[i], points[j], inner[j], inner[i]])
        pieces.append(piece_of(f"K1.{i + 1}", "border", "", shape, run))
        length = hypot(points[i][0] - inner[i][0], points[i][1] - inner[i][1])
        mitres.append(Mitre(mark=f"M{i + 1}", pieces=(f"K1.{i or len(points)}", f"K1.{i + 1}"),
                            start=spot(points[i]), end=spot(inner[i]), length_mm=length,
                            saw_deg=45.0, opens_mm=3.0))  # fmt: skip
    return pieces, mitres, Polygon(set_in(points, [BOARD_MM + GAP_MM] * len(points)))


def laying_of(
    points: list[Point], openings: tuple[Opening, ...], angle_deg: float, *, border: bool
) -> Laying:
    edge, mitres, field = border_of(points) if border else ([], [], Polygon(points))
    holes = unary_union([shape_of(opening.corners) for opening in openings])
    rows, pieces, joints = rows_of(field, holes, angle_deg, 1, "Z1")
    zone = Zone(mark="Z1", angle_deg=angle_deg, first_row="near", corners=spots(ring(field)),
                way_out="as_wished", row_count=len(rows), gap_mm=GAP_MM,
                first_row_mm=rows[0].width_mm, last_row_mm=rows[-1].width_mm,
                fan_mm=0.0)  # fmt: skip
    laid = [*edge, *pieces]
    return Laying(
        board_article="DB-28-145", board_width_mm=BOARD_MM, board_thickness_mm=28.0,
        angle_deg=angle_deg, gap_preferred_mm=5.0, gap_least_mm=4.0, gap_most_mm=8.0,
        sliver_limit_mm=60.0, least_rip_mm=60.0, way_out="as_wished", fan_mm=0.0, fan_most_mm=1.0,
        border_courses=int(border), breaker_count=0, zone_count=1, row_count=len(rows),
        end_gap_mm=4.0, end_bearing_mm=20.5, end_bearing_least_mm=20.0, least_supports=3,
        stagger_bays=1, least_piece_mm=800.0, most_joints_per_row=None,
        joint_price=Decimal("1.50"), joint_count=len(joints), handed=False,
        mitre_count=len(mitres), piece_count=len(laid), shaped_count=sum(p.shaped for p in laid),
        splay_cuts=sum(bool(d) for p in pieces for d in (p.start_deg, p.end_deg)),
        tip_to_tip_m=sum(piece.length_mm for piece in laid) / 1000,
        face_m2=sum(shape_of(piece.corners).area for piece in laid) / 1e6, zones=(zone,),
        rows=tuple(rows), joints=tuple(joints), pieces=tuple(laid), mitres=tuple(mitres),
    )  # fmt: skip


def outlined_plan(
    points: list[Point], *, holes: tuple[Hole, ...] = (), angle_deg: float = 0.0,
    border: bool = False, kinds: dict[int, str] | None = None, joist_run: str = "across",
    units: str = "metric", title: str = "A deck on an outline",
) -> Plan:  # fmt: skip
    """A plan of these corners, given the way that turns from along towards across."""
    plan = sample_plan(units=units, title=title)
    sides = sides_of(points, kinds or {})
    openings = tuple(opening_of(index, hole) for index, hole in enumerate(holes))
    gross = Polygon(points).area / 1e6
    outline = Outline(
        sides=sides, openings=openings, opening_count=len(openings), gross_m2=gross,
        net_m2=gross - sum(shape_of(o.corners).area for o in openings if o.kind != "hatch") / 1e6,
        perimeter_mm=sum(side.length_mm for side in sides),
    )  # fmt: skip
    laying = laying_of(points, openings, angle_deg, border=border)
    subframe = frame_of(points, sides, openings, joist_run)
    rooms = dict.fromkeys(("surface", "edges", "supports", "pieces", "frame"))
    plan = evolve(plan, **rooms, outline=outline, laying=laying, subframe=subframe)
    return evolve(plan, buying=bought(plan), work=worked(plan, points, sides))


def bought(plan: Plan) -> object:
    laying, subframe, buying = plan.laying, plan.subframe, plan.buying
    assert laying is not None
    assert subframe is not None
    assert buying is not None
    purchases = (
        purchase_of("boards", "DB-28-145", [(p.mark, p.cut_mm) for p in laying.pieces], "DB"),
        purchase_of("frame", "FT-45-145", [(m.mark, m.length_mm) for m in subframe.members], "T"),
        purchase_of("fascia", "FA-28-145", [(f.mark, f.length_mm) for f in subframe.facings], "FB"),
    )
    order = tuple(
        OrderLine(article=p.article, title=p.article, length_mm=4800.0, pack=None,
                  quantity=len(p.lengths), unit_price=Decimal("14.40"), total=p.cost)
        for p in purchases
    )  # fmt: skip
    return evolve(buying, purchases=purchases, order=order)


def worked(plan: Plan, points: list[Point], sides: tuple[Side, ...]) -> object:
    assert plan.work is not None
    corners = set_in(points, [side.facing_mm for side in sides])
    pegs = tuple(
        Peg(mark=f"P{index + 1}", along_mm=x, across_mm=y) for index, (x, y) in enumerate(corners)
    )
    count = len(pegs)
    ties = tuple(
        PegTie(start=pegs[i].mark, end=pegs[(i + step) % count].mark, check=step > 1,
               length_mm=hypot(pegs[i].along_mm - pegs[(i + step) % count].along_mm,
                               pegs[i].across_mm - pegs[(i + step) % count].across_mm))
        for i in range(count) for step in (1, 2)
    )  # fmt: skip
    out = evolve(plan.work.setting_out, pegs=pegs, leg_along_mm=None, leg_across_mm=None,
                 slant_mm=None, ties=ties, tie_count=len(ties))  # fmt: skip
    return evolve(plan.work, setting_out=out)


POST = Hole(kind="post", along_mm=1800.0, across_mm=1200.0, size_along_mm=100.0,
            size_across_mm=100.0, name="pergola post")  # fmt: skip
TREE = Hole(kind="tree", along_mm=4200.0, across_mm=900.0, size_along_mm=520.0,
            size_across_mm=520.0, name="birch")  # fmt: skip
HATCH = Hole(kind="hatch", along_mm=1500.0, across_mm=3300.0, size_along_mm=600.0,
             size_across_mm=450.0, name="inspection cover")  # fmt: skip
L_SPLAYED = [(0.0, 0.0), (6000.0, 0.0), (6000.0, 1200.0), (5200.0, 2000.0), (3000.0, 2000.0),
             (3000.0, 4500.0), (0.0, 4500.0)]  # fmt: skip
WEDGE = [(0.0, 0.0), (4000.0, 0.0), (3300.0, 3600.0), (700.0, 3600.0)]
BAY = [(0.0, 0.0), (1500.0, 0.0), (2000.0, 500.0), (3500.0, 500.0), (4000.0, 0.0), (5500.0, 0.0),
       (5500.0, 3000.0), (0.0, 3000.0)]  # fmt: skip
RECTANGLE = [(0.0, 0.0), (4200.0, 0.0), (4200.0, 3000.0), (0.0, 3000.0)]


def shapes() -> dict[str, Plan]:
    """Every kind of shape that papers must draw, by name."""
    return {
        "L": outlined_plan(L_SPLAYED, holes=(POST, TREE, HATCH)),
        "L away": outlined_plan(L_SPLAYED, holes=(POST, HATCH), angle_deg=90.0, joist_run="along"),
        "wedge": outlined_plan(WEDGE, kinds={1: "boundary", 3: "boundary"}, angle_deg=90.0,
                               joist_run="along"),
        "bay": outlined_plan(BAY, kinds={1: "house", 2: "house", 3: "house"}, border=True),
        "diagonal": outlined_plan(RECTANGLE, angle_deg=45.0, holes=(POST,)),
        "feet": outlined_plan(L_SPLAYED, holes=(POST, TREE), angle_deg=30.0, units="imperial"),
        "large": outlined_plan([(x * 2.4, y * 2.4) for x, y in L_SPLAYED], holes=(POST, HATCH)),
        "small": outlined_plan([(0.0, 0.0), (900.0, 0.0), (900.0, 600.0), (300.0, 900.0),
                                (0.0, 900.0)], kinds={2: "pool"}),
    }  # fmt: skip
