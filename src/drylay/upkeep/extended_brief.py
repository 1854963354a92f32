"""The brief of an extension: boards, frame and fixings of the old deck, gaps that run on."""

from attrs import frozen

from drylay.brief.model import (
    WAYS_OUT,
    BoardWish,
    Brief,
    ClimateWish,
    CoverWish,
    CuttingWish,
    FasciaWish,
    FixingsWish,
    FrameWish,
    GapWish,
    JointsWish,
    RowsWish,
)
from drylay.marks import exact, to_mm
from drylay.plan.model import Plan
from drylay.surface.model import Surface

SIDES = ("house", "right", "front", "left")
#: The side that lies across the cover from each.
ACROSS = {"house": "front", "front": "house", "left": "right", "right": "left"}
#: Sides whose edge lies at the datum.
DATUM_SIDES = ("house", "left")


@frozen(kw_only=True)
class Old:
    """What is extended: the old rows in 1/320 mm, and what the extension is to be."""

    plan: Plan
    surface: Surface
    side: str
    by: int
    width: int
    gap: int
    phase: int

    @property
    def over(self) -> int:
        """How far a whole board in the outer row's place reaches over the old edge."""
        if self.side in DATUM_SIDES:
            return -self.phase
        return self.phase + self.width - exact(self.surface.rows_depth_mm)

    @property
    def pitch(self) -> int:
        """From near edge to near edge of two rows."""
        return self.width + self.gap


def brief_of(old: Old, reach: int, *, rows: bool) -> Brief:
    """Return the brief of the new part: the same boards and frame, gaps fixed where rows follow."""
    surface, plan = old.surface, old.plan
    across = (
        (exact(surface.row_length_mm), reach) if rows else (reach, exact(surface.rows_depth_mm))
    )
    along, away = across if surface.run == "along" else across[::-1]
    gap = to_mm(old.gap)
    wished = (gap, gap, gap)
    if not rows:
        wished = (surface.gap_least_mm, surface.gap_preferred_mm, surface.gap_most_mm)
    return Brief(
        title=f"{plan.title[:60]}, extended",
        cover=CoverWish(along_mm=to_mm(along), across_mm=to_mm(away)),
        board=BoardWish(article=surface.board_article, run=surface.run,
                        measured_width_mm=to_mm(old.width)),
        gap=GapWish(least_mm=wished[0], preferred_mm=wished[1], most_mm=wished[2]),
        rows=RowsWish(prefer=_prefer(surface, rows=rows)),
        frame=_frame(plan),
        fascia=_fascia(plan, old.side),
        joints=_joints(plan),
        cutting=_cutting(plan),
        climate=_climate(plan),
        fixings=_fixings(plan),
        use=plan.use,
        units=plan.units,
    )  # fmt: skip


def _prefer(surface: Surface, *, rows: bool) -> tuple[str, ...]:
    """Return ways out with the old one first where rows are in line with the old ones."""
    first = (
        "as_wished"
        if rows or surface.way_out not in {"gaps", "rip_last", "rip_both"}
        else surface.way_out
    )
    return (first, *(way for way in WAYS_OUT if way != first))


def _climate(plan: Plan) -> ClimateWish:
    """Return how warm and moist boards get here; of laying day what held then."""
    heat = plan.pieces.movement if plan.pieces else None
    damp = plan.surface.moisture if plan.surface else None
    return ClimateWish(
        laying_c=heat.laying_c if heat else None,
        hottest_board_c=heat.hottest_c if heat else None,
        coldest_board_c=heat.coldest_c if heat else None,
        laying_pct=damp.laying_pct if damp else None,
        wettest_pct=damp.wettest_pct if damp else None,
        driest_pct=damp.driest_pct if damp else None,
    )


def _frame(plan: Plan) -> FrameWish:
    frame, supports = plan.frame, plan.supports
    return FrameWish(
        article=frame.timber_article if frame else None,
        most_centres_mm=supports.most_centres_mm if supports else None,
    )


def _fascia(plan: Plan, side: str) -> FasciaWish:
    """Return fascia on the sides that the old deck has some on, but where old and new meet."""
    edges = plan.edges
    faces = [face.side for face in edges.faces] if edges else []
    sides = tuple(its for its in SIDES if its in faces and its != ACROSS[side])
    return FasciaWish(sides=sides, article=edges.fascia_article if edges and sides else None)


def _joints(plan: Plan) -> JointsWish:
    pieces = plan.pieces
    return JointsWish(
        end_gap_mm=pieces.end_gap_mm if pieces else None,
        most_per_row=pieces.most_joints_per_row if pieces else None,
        price_each=pieces.joint_price if pieces else None,
    )


def _cutting(plan: Plan) -> CuttingWish:
    buying = plan.buying
    if buying is None:
        return CuttingWish()
    return CuttingWish(kerf_mm=buying.kerf_mm, end_trim_mm=buying.end_trim_mm)


def _fixings(plan: Plan) -> FixingsWish:
    """Return the articles that the old deck is held by."""
    its = plan.fixings
    if its is None:
        return FixingsWish()
    return FixingsWish(
        screw=its.deck_screws.article if its.deck_screws else None,
        coach_screw=its.coach_screws.article or None,
        frame_screw=its.frame_screws.article if its.frame_screws else None,
        fascia_screw=its.fascia_screws.article if its.fascia_screws else None,
        hanger=its.hangers.article if its.hangers else None,
        clip=its.clips.article if its.clips else None,
        starter_clip=(its.clips.starter_article or None) if its.clips else None,
        end_cap=its.end_caps.article if its.end_caps else None,
    )
