"""A deck on an outline as notes see it that ask for sizes and counts only, not for places.

Notes on screws, metals, timber and stock are the same for every deck. They are written for
rectangles, and are handed the box around the outline, its rows by their widths and its frame by its
members: nothing of it goes into a plan.
"""

from drylay.edges.model import Edges, FasciaFace, FasciaPiece
from drylay.frame.model import Frame, Joist, Noggin, Splice
from drylay.pieces.model import Pieces
from drylay.planner.built import Built
from drylay.planner.outlined_build import BuiltOutlined
from drylay.subframe.model import Facing, Subframe
from drylay.supports.model import JoistLine, Supports
from drylay.surface.model import Row, Surface


def as_rectangle(built: BuiltOutlined) -> Built:
    """Return what notes that speak of sizes and counts may look at."""
    return Built(
        surface=_surface(built),
        edges=_edges(built),
        supports=_supports(built.subframe),
        pieces=_pieces(built),
        frame=_frame(built),
        fixings=built.fixings,
        buying=built.buying,
        site=built.site,
        groundwork=built.groundwork,
        work=built.work,
        spares_missing=built.spares_missing,
    )


def _box_mm(built: BuiltOutlined) -> tuple[float, float]:
    along = [side.start.along_mm for side in built.outline.sides]
    across = [side.start.across_mm for side in built.outline.sides]
    return max(along) - min(along), max(across) - min(across)


def _surface(built: BuiltOutlined) -> Surface:
    laying, (along, across) = built.laying, _box_mm(built)
    gap_mm = laying.gap_preferred_mm
    return Surface(
        run="along",
        cover_along_mm=along,
        cover_across_mm=across,
        cover_change_mm=0.0,
        row_length_mm=max(piece.length_mm for piece in laying.pieces),
        rows_depth_mm=across,
        board_article=laying.board_article,
        board_width_mm=laying.board_width_mm,
        board_thickness_mm=laying.board_thickness_mm,
        groove_mm=laying.groove_mm,
        fall_least_ratio=laying.fall_least_ratio,
        combustible=laying.combustible,
        timber=laying.timber,
        wet_slip_least=laying.wet_slip_least,
        gap_preferred_mm=laying.gap_preferred_mm,
        gap_least_mm=laying.gap_least_mm,
        gap_most_mm=laying.gap_most_mm,
        sliver_limit_mm=laying.sliver_limit_mm,
        least_rip_mm=laying.least_rip_mm,
        whole_rows=laying.row_count,
        remainder_mm=0.0,
        strip_mm=0.0,
        way_out=laying.way_out,
        rows=tuple(
            Row(mark=row.mark, near_mm=0.0, width_mm=row.width_mm, gap_mm=gap_mm, ripped=row.ripped)
            for row in laying.rows
        ),
        ways_out=(),
    )


def _edges(built: BuiltOutlined) -> Edges:
    frame, (along, across) = built.subframe, _box_mm(built)
    return Edges(
        fascia_article=frame.facing_article,
        fascia_thickness_mm=frame.facing_thickness_mm,
        fascia_depth_mm=frame.facing_depth_mm,
        faces=tuple(_face(facing) for facing in frame.facings),
        frame_start_mm=0.0,
        frame_near_mm=0.0,
        frame_length_mm=along,
        frame_depth_mm=across,
    )


def _face(facing: Facing) -> FasciaFace:
    piece = FasciaPiece(mark=facing.mark, length_mm=facing.length_mm)
    return FasciaFace(
        mark=facing.side,
        side=facing.side,
        length_mm=facing.length_mm,
        long_face=True,
        pieces=(piece,),
    )


def _supports(frame: Subframe) -> Supports:
    return Supports(
        most_centres_mm=frame.most_centres_mm,
        centres_mm=frame.centres_mm,
        line_count=frame.line_count,
        joist_thickness_mm=frame.timber_thickness_mm,
        lines=tuple(JoistLine(offset_mm=at) for at in frame.lines_mm),
    )


def _pieces(built: BuiltOutlined) -> Pieces:
    laying = built.laying
    return Pieces(
        end_gap_mm=laying.end_gap_mm,
        least_supports=laying.least_supports,
        stagger_bays=laying.stagger_bays,
        least_piece_mm=laying.least_piece_mm,
        most_joints_per_row=laying.most_joints_per_row,
        joint_price=laying.joint_price,
        trim_allowance_mm=0.0,
        end_bearing_mm=laying.end_bearing_mm or 0.0,
        end_bearing_least_mm=laying.end_bearing_least_mm,
        joint_count=built.boards.across_joints,
        handed=False,
        joints=(),
        pieces=(),
    )


def _frame(built: BuiltOutlined) -> Frame:
    frame, coach = built.subframe, built.fixings.coach_screws
    least = 2 * (coach.length_mm - frame.timber_thickness_mm)
    kinds = [member.kind for member in frame.members]
    shortest = min(
        (member.length_mm for member in frame.members if member.start_on and member.end_on
         and member.kind in {"joist", "pair", "double", "trimmer"}
         and member.length_mm >= least), default=least,
    )  # fmt: skip
    return Frame(
        timber_article=frame.timber_article,
        timber_thickness_mm=frame.timber_thickness_mm,
        timber_depth_mm=frame.timber_depth_mm,
        diagonal_mm=0.0,
        noggin_spacing_most_mm=frame.noggin_spacing_most_mm,
        noggin_rows=0,
        rim_joints=kinds.count("splice"),
        rims=(),
        joists=(Joist(mark="J1", offset_mm=0.0, near_mm=0.0, length_mm=shortest),),
        noggins=tuple(
            Noggin(mark="N", left="", right="", across_mm=0.0, length_mm=0.0)
            for kind in kinds if kind == "noggin"
        ),
        splices=tuple(
            Splice(mark="S", rim="", offset_mm=0.0, length_mm=0.0)
            for kind in kinds if kind == "splice"
        ),
    )  # fmt: skip
