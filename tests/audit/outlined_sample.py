"""A small L worked out by hand from docs/outline-conventions.md, without drylay's planner.

2000 x 520 mm along the house and 1000 x 525 mm more at the left of it, ten rows of 100 mm boards
at 5 mm gaps: 10 x 100 + 9 x 5 = 1045. A post of 90 x 115 mm stands in rows B8 and B9, 10 mm clear
all round. The second row is jointed over R4; fascia of 20 mm stands on E2 and E3.
"""

from decimal import Decimal

from attrs import evolve

from audit.edits import at
from audit.planting import finding
from audit.sample import blank
from audit.sample_deck import PRACTICE
from drylay.findings import Severity
from drylay.laying.model import LaidJoint, LaidPiece, LaidRow, Laying, Zone
from drylay.outline.model import Opening, Outline, Side, Spot
from drylay.plan.model import Plan
from drylay.reasons import Decision, Reasons
from drylay.subframe.model import Facing, Member, Subframe

Pair = tuple[float, float]


def spot(pair: Pair) -> Spot:
    return Spot(along_mm=pair[0], across_mm=pair[1])


def spots(*pairs: Pair) -> tuple[Spot, ...]:
    return tuple(spot(pair) for pair in pairs)


def box(left: float, near: float, right: float, far: float) -> tuple[Spot, ...]:
    return spots((left, near), (right, near), (right, far), (left, far))


CORNERS: tuple[Pair, ...] = (
    (0.0, 0.0), (2000.0, 0.0), (2000.0, 520.0), (1000.0, 520.0), (1000.0, 1045.0), (0.0, 1045.0),
)  # fmt: skip
#: Kind, length, the angle inside at the start, and the fascia.
SIDES = (
    ("house", 2000.0, 90.0, 0.0), ("open", 520.0, 90.0, 20.0), ("open", 1000.0, 90.0, 20.0),
    ("open", 525.0, 270.0, 0.0), ("open", 1000.0, 90.0, 0.0), ("open", 1045.0, 90.0, 0.0),
)  # fmt: skip


def outline() -> Outline:
    """2000 x 520 + 1000 x 525 = 1.565 m2; the hole 110 x 135 = 0.01485 m2; 6090 mm round."""
    sides = tuple(
        Side(mark=f"E{n + 1}", kind=kind, start=spot(CORNERS[n]), end=spot(CORNERS[(n + 1) % 6]),
             length_mm=length, corner_deg=corner, facing_mm=facing)
        for n, (kind, length, corner, facing) in enumerate(SIDES)
    )  # fmt: skip
    post = Opening(
        mark="O1", kind="post", name="pergola post", corners=box(400.0, 735.0, 510.0, 870.0),
        within=box(410.0, 745.0, 500.0, 860.0), clear_mm=10.0, clear_least_mm=6.0,
        clear_most_mm=100.0,
    )  # fmt: skip
    return Outline(
        sides=sides, openings=(post,), opening_count=1, gross_m2=1.565, net_m2=1.55015,
        perimeter_mm=6090.0,
    )  # fmt: skip


def piece(mark: str, left: float, right: float, **more: object) -> LaidPiece:
    row = mark.split(".", maxsplit=1)[0]
    near = 105.0 * (int(row[1:]) - 1)
    known = {
        "mark": mark, "kind": "field", "row": row, "corners": box(left, near, right, near + 100.0),
        "length_mm": right - left, "cut_mm": right - left, "width_mm": 100.0, "start_deg": 0.0,
        "end_deg": 0.0, "shaped": False,
    }  # fmt: skip
    return LaidPiece(**{**known, **more})  # type: ignore[arg-type]


def pieces() -> tuple[LaidPiece, ...]:
    notched = spots(
        (0.0, 840.0), (400.0, 840.0), (400.0, 870.0), (510.0, 870.0), (510.0, 840.0),
        (1000.0, 840.0), (1000.0, 940.0), (0.0, 940.0),
    )  # fmt: skip
    return (
        piece("B1.1", 0.0, 2000.0),
        piece("B2.1", 0.0, 975.5, to_member="R4"),  # 977.5, half of 4 off
        piece("B2.2", 979.5, 2000.0, from_member="R4"),
        piece("B3.1", 0.0, 2000.0),
        piece("B4.1", 0.0, 2000.0),
        piece("B5.1", 0.0, 2000.0),
        piece("B6.1", 0.0, 1000.0),
        piece("B7.1", 0.0, 1000.0),
        piece("B8.1", 0.0, 400.0),
        piece("B8.2", 510.0, 1000.0),
        piece("B9.1", 0.0, 1000.0, corners=notched, shaped=True),
        piece("B10.1", 0.0, 1000.0),
    )


def laying() -> Laying:
    """Tip to tip: 4 x 2000 + 975.5 + 1020.5 + 4 x 1000 + 400 + 490 = 14886 mm.

    Of 100 mm each but for the notch, 110 x 30: 1.4886 - 0.0033 = 1.4853 m2.
    """
    rows = tuple(
        LaidRow(mark=f"B{n + 1}", zone="Z1", start=spot((0.0, 105.0 * n)),
                end=spot((2000.0, 105.0 * n)), width_mm=100.0, ripped=False)
        for n in range(10)
    )  # fmt: skip
    zone = Zone(
        mark="Z1", angle_deg=0.0, first_row="near", corners=spots(*CORNERS), way_out="as_wished",
        row_count=10, gap_mm=5.0, first_row_mm=100.0, last_row_mm=100.0, fan_mm=0.0,
    )  # fmt: skip
    return Laying(
        board_article="QB-28-100", board_width_mm=100.0, board_thickness_mm=28.0, angle_deg=0.0,
        gap_preferred_mm=5.0, gap_least_mm=3.0, gap_most_mm=8.0, sliver_limit_mm=50.0,
        least_rip_mm=50.0, way_out="as_wished", fan_mm=0.0, fan_most_mm=1.0, border_courses=0,
        breaker_count=0, zone_count=1, row_count=10, end_gap_mm=4.0,
        end_bearing_mm=20.5,  # (45 - 4) / 2
        end_bearing_least_mm=18.0, least_supports=2, stagger_bays=2, least_piece_mm=300.0,
        most_joints_per_row=1, joint_price=Decimal("0.50"), joint_count=1, handed=False,
        mitre_count=0, piece_count=12, splay_cuts=0, shaped_count=1, tip_to_tip_m=14.886,
        face_m2=1.4853,
        zones=(zone,), rows=rows,
        joints=(LaidJoint(row="B2", member="R4", at=spot((977.5, 155.0))),),
        pieces=pieces(),
    )  # fmt: skip


def upright(  # noqa: PLR0917 - a table of members, read by column
    mark: str, kind: str, at: float, near: float, far: float, on: str, *, back: bool = False,
    side: str = "",
) -> Member:  # fmt: skip
    """Return a member that runs away from the house, its centre line so far along it."""
    start, end = on.split("-")
    ends = (spot((at, far)), spot((at, near))) if back else (spot((at, near)), spot((at, far)))
    return Member(
        mark=mark, kind=kind, start=ends[0], end=ends[1],
        corners=box(at - 22.5, near, at + 22.5, far), length_mm=far - near, start_deg=0.0,
        end_deg=0.0, start_on=start, end_on=end, side=side,
    )  # fmt: skip


def level(  # noqa: PLR0917 - a table of members, read by column
    mark: str, kind: str, at: float, left: float, right: float, on: str = "-", *,
    back: bool = False, side: str = "",
) -> Member:  # fmt: skip
    """Return a member that runs along the house, its centre line so far away from it."""
    start, end = on.split("-")
    ends = (spot((right, at)), spot((left, at))) if back else (spot((left, at)), spot((right, at)))
    return Member(
        mark=mark, kind=kind, start=ends[0], end=ends[1],
        corners=box(left, at - 22.5, right, at + 22.5), length_mm=right - left, start_deg=0.0,
        end_deg=0.0, start_on=start, end_on=end, side=side,
    )  # fmt: skip


def members() -> tuple[Member, ...]:
    """Rims that run along the house go through at corners; R4 runs on to R1 as a joist."""
    return (
        level("R1", "rim", 22.5, 0.0, 1980.0, side="E1"),
        upright("R2", "rim", 1957.5, 45.0, 455.0, "R1-R3", side="E2"),
        level("R3", "rim", 477.5, 1000.0, 1980.0, "-R4", back=True, side="E3"),
        upright("R4", "rim", 977.5, 45.0, 1000.0, "R1-R5", side="E4"),
        level("R5", "rim", 1022.5, 0.0, 1000.0, back=True, side="E5"),
        upright("R6", "rim", 22.5, 45.0, 1000.0, "R5-R1", back=True, side="E6"),
        upright("J2", "joist", 341.0, 45.0, 1000.0, "R1-R5"),
        upright("J3", "joist", 659.0, 45.0, 1000.0, "R1-R5"),
        upright("J5", "joist", 1304.0, 45.0, 455.0, "R1-R3"),
        upright("J6", "joist", 1631.0, 45.0, 455.0, "R1-R3"),
        level("U1", "trimmer", 712.5, 363.5, 636.5, "J2-J3", side="O1"),
        level("U2", "trimmer", 892.5, 363.5, 636.5, "J2-J3", side="O1"),
        upright("U3", "trimmer", 532.5, 735.0, 870.0, "U1-U2", side="O1"),
        level("N1", "noggin", 522.5, 45.0, 318.5, "R6-J2"),
        level("N2", "noggin", 522.5, 363.5, 636.5, "J2-J3"),
        level("N3", "noggin", 522.5, 681.5, 955.0, "J3-R4"),
    )


def facings() -> tuple[Facing, ...]:
    """E3 is the longer and laps over the end of E2's, which stands 20 back."""
    return (
        Facing(mark="F2", side="E2", start=spot((2000.0, 0.0)), end=spot((2000.0, 500.0)),
               length_mm=500.0, start_end="free", end_end="butt", start_deg=0.0, end_deg=0.0),
        Facing(mark="F3", side="E3", start=spot((2000.0, 520.0)), end=spot((1000.0, 520.0)),
               length_mm=1000.0, start_end="lap", end_end="free", start_deg=0.0, end_deg=0.0),
    )  # fmt: skip


def subframe() -> Subframe:
    return Subframe(
        timber_article="QT-45-120", timber_thickness_mm=45.0, timber_depth_mm=120.0,
        joist_run="across", square_centres_mm=400.0, board_to_joist_deg=90.0,
        most_centres_mm=400.0, centres_mm=327.0,  # 1631 - 1304
        line_count=7, lines_mm=(22.5, 341.0, 659.0, 977.5, 1304.0, 1631.0, 1957.5),
        end_support_most_mm=100.0, noggin_spacing_most_mm=600.0, joists_under_joint=1,
        seam_count=0, member_count=16, members=members(), facing_article="QF-20-120",
        facing_thickness_mm=20.0, facing_depth_mm=120.0, facing_run_mm=1520.0, facings=facings(),
    )  # fmt: skip


#: The decisions that the L's numbers rest on.
DECIDED = {
    "outline": ("net_m2", "opening_count", "turned_deg"),
    "laying": (
        "angle_deg", "board_thickness_mm", "board_width_mm", "border_courses", "breaker_count",
        "end_bearing_least_mm", "end_bearing_mm", "end_gap_mm", "fan_mm", "fan_most_mm",
        "gap_least_mm", "gap_most_mm", "gap_preferred_mm", "handed", "joint_count", "joint_price",
        "least_piece_mm", "least_rip_mm", "least_supports", "mitre_count", "most_joints_per_row",
        "piece_count", "row_count", "sliver_limit_mm", "stagger_bays", "way_out", "zone_count",
    ),
    "subframe": (
        "board_to_joist_deg", "centres_mm", "end_support_most_mm", "facing_run_mm",
        "facing_thickness_mm", "joist_run", "joists_under_joint", "line_count", "member_count",
        "most_centres_mm", "noggin_spacing_most_mm", "seam_count", "square_centres_mm",
        "timber_thickness_mm",
    ),
}  # fmt: skip


def reasons(plan: Plan) -> Reasons:
    paths = [f"{part}.{name}" for part, names in DECIDED.items() for name in names]
    values = {path: at(plan, path) for path in paths}
    return Reasons(decisions=tuple(
        Decision(
            path=path, value=str(value) if isinstance(value, Decimal) else value,  # type: ignore[arg-type]
            unit="", rule="a rule", source=PRACTICE,
        )
        for path, value in values.items()
    ))  # fmt: skip


def outlined_plan() -> Plan:
    """Return the L with its reasons."""
    plan = unreasoned()
    return evolve(plan, reasons=reasons(plan))


def unreasoned() -> Plan:
    """Return the L, blocked by a stop of its own: it buys nothing."""
    return evolve(
        blank(), title="Hand-made L", surface=None, edges=None, supports=None, pieces=None,
        frame=None, fixings=None, buying=None, site=None, work=None, groundwork=None,
        outline=outline(), laying=laying(), subframe=subframe(), reasons=Reasons(),
        local_rules=(), findings=(finding(severity=Severity.STOP),),
    )  # fmt: skip
