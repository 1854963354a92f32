"""What a section through the far rim cuts: rows, fascia, rim, and how far inwards it is drawn."""

from attrs import frozen

from drylay.edges.model import Edges
from drylay.fixings.model import CoachScrews
from drylay.frame.model import Frame
from drylay.papers.frame_text import thickest_mm
from drylay.papers.hung import bearers_between
from drylay.papers.wording import RIM_SIDES
from drylay.surface.model import Row, Surface

#: How much is shown beyond the last row and beyond a coach screw's point; how much of a short
#: joist is left out at least.
BEYOND_MM, PAST_POINT_MM, LEFT_OUT_MM = 40.0, 25.0, 10.0
#: Of rows wider than this, which are tiles, one is shown and where the next begins.
WIDE_MM = 250.0


@frozen(kw_only=True)
class Cut:
    """What the section cuts; `rows` holds each row's outer and inner edge, the outermost first.

    `thick_mm` is how thick each row's boards are, `edged` whether they are the border's; on
    packers they all end at `board_mm`. `ripped`: the outermost row is. `shown_mm` is how far
    inwards the figure reaches, `proud_mm` how far heads stand out of it. `rim_depth_mm` is how deep
    the rim is: where it is a `bearer`, told by its mark, that may be deeper than the joists.
    """

    side: str
    rows: tuple[tuple[float, float], ...]
    thick_mm: tuple[float, ...]
    edged: tuple[bool, ...]
    ripped: bool
    board_mm: float
    fascia_mm: float
    fascia_depth_mm: float
    rim_mm: float
    depth_mm: float
    sink_mm: float
    shown_mm: float
    proud_mm: float
    bearer: str = ""
    rim_depth_mm: float = 0.0


def cut_of(
    surface: Surface, edges: Edges, frame: Frame, coach: CoachScrews, bearer_mm: float = 0.0
) -> Cut:
    """Return what a section through the far rim shows, counted from the cover's edge there.

    `bearer_mm` is how deep the bearer is that takes the rim's place, where joists hang between.
    """
    hung, driven = bearers_between(frame, edges), bool(coach.joist_ends)
    bearer, *faces = hung[-1] if hung else ("", 0.0, frame.timber_thickness_mm)
    side = RIM_SIDES[surface.run][1]
    faced = side in {face.side for face in edges.faces}
    depth_mm = surface.rows_depth_mm
    fascia_mm = depth_mm - edges.frame_near_mm - edges.frame_depth_mm if faced else 0.0
    rows = tuple(
        (depth_mm - row.near_mm - row.width_mm, depth_mm - row.near_mm)
        for row in reversed(surface.rows)
    )
    sink_mm = coach.sink_mm if faced else 0.0
    inner = surface.border.rows if surface.border else 1
    inner = 0 if rows[0][1] - rows[0][0] > WIDE_MM else min(inner, len(rows) - 1)
    return Cut(
        side=side, rows=rows, board_mm=thickest_mm(surface), fascia_mm=fascia_mm,
        thick_mm=tuple(_thick_mm(surface, row) for row in reversed(surface.rows)),
        edged=tuple(row.border for row in reversed(surface.rows)),
        ripped=surface.rows[-1].ripped,
        fascia_depth_mm=edges.fascia_depth_mm if faced else 0.0,
        rim_mm=faces[1] - faces[0], depth_mm=frame.timber_depth_mm, sink_mm=sink_mm,
        bearer=bearer, rim_depth_mm=bearer_mm if hung else frame.timber_depth_mm,
        shown_mm=_shown(rows[inner][1], rows[-1][1], edges, frame,
                        fascia_mm + sink_mm + coach.length_mm),
        proud_mm=coach.head_mm if driven and not faced else 0.0,
    )  # fmt: skip


def _thick_mm(surface: Surface, row: Row) -> float:
    border = surface.border
    return border.thickness_mm if border and row.border else surface.board_thickness_mm


def low_mm(cut: Cut) -> float:
    """Return how far down the lowest wood ends."""
    return cut.board_mm + max(cut.depth_mm, cut.rim_depth_mm, cut.fascia_depth_mm)


def _shown(
    inner_mm: float,
    deep_mm: float,
    edges: Edges,
    frame: Frame,
    point_mm: float,
) -> float:
    """Return how far inwards to draw: rows up to there and the screws, not up to the other rim."""
    thick_mm = frame.timber_thickness_mm
    joist_mm = edges.frame_depth_mm - 2 * thick_mm
    most_mm = deep_mm - edges.frame_near_mm - thick_mm - min(LEFT_OUT_MM, joist_mm / 2)
    return min(max(inner_mm + BEYOND_MM, point_mm + PAST_POINT_MM), most_mm)
