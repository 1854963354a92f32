"""The reasons of a plan: every decision with its rule, source and inputs, in building order."""

from drylay.buying.model import Buying
from drylay.fixings.model import CoachScrews, Fixings
from drylay.planner import (
    board_notes,
    border_fixings,
    border_notes,
    clips,
    coats,
    ground,
    growing,
    holding,
    moist,
    pairs,
    siting,
    standing_rows,
    working,
)
from drylay.planner.built import Built, Framed, Standing
from drylay.planner.governed import STAND_IN
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.planner.screwed import CLEAR_OF_EDGES
from drylay.planner.stood import hung
from drylay.reasons import Reasons, Source, TurnedDown, adopt
from drylay.surface.model import WayOut


def explain(
    job: Job,
    built: Built,
    ways: tuple[WayOut, ...],
    lines_tried: tuple[TurnedDown, ...],
    seams_tried: tuple[TurnedDown, ...] = (),
) -> Reasons:
    """Return all decisions of a built plan."""
    reasons = Reasons()
    for path in governed_paths(job, built):
        ruling = job.rules.rulings[path]
        reasons = adopt(reasons, path, ruling.value, ruling, job.rules.turned_down.get(path, ()))
    for path, value, ruling, turned_down in (
        *_surface(job, built, ways),
        *board_notes.rows(job, built),
        *border_notes.rows(job, built),
        *border_fixings.rows(job, built),
        *_supports(job, built, lines_tried),
        *edge_rows(built),
        *_pieces(job, built),
        *frame_rows(built),
        *deck_screw_rows(job, built.fixings),
        *buying_rows(job, built),
        *pairs.rows(job, built, seams_tried),
        *clips.rows(job, built),
        *growing.rows(job, built),
        *moist.rows(job, built),
        *holding.rows(job, built),
        *coats.rows(job, built),
        *siting.rows(job, built),
        *ground.rows(job, built),
        *working.rows(job, built),
        *standing_rows.rows(job, built.stood),
    ):
        reasons = adopt(reasons, path, value, ruling, turned_down)
    return reasons


NO_COACH_SCREWS = "joists hang between bearers, no coach screws are driven"
#: Governed paths that the plan states in its own way (see the rows below).
RESTATED = {"surface.may_rip", STAND_IN, "fixings.coach_screws.sink_mm", *coats.GOVERNED,
            pairs.BATTENS, clips.PER_CROSSING}  # fmt: skip


def governed_paths(job: Job, built: Standing) -> list[str]:
    """Return the governed paths that this plan has: no fascia screws, no rule on them."""
    return [path for path in job.rules.rulings if path not in RESTATED and _stands(built, path)]


def _stands(built: object, path: str) -> bool:
    part: object = built
    for name in path.split(".")[:-1]:
        part = getattr(part, name, None)
    return part is not None


def _surface(job: Job, built: Built, ways: tuple[WayOut, ...]) -> list[Row]:
    surface, brief = built.surface, job.brief
    along = surface.run == "along"
    measured = brief.board.measured_width_mm is not None
    board = job.articles.board
    width_source = (
        brief_says("board.measured_width_mm") if measured else merchant_says(job, board.code)
    )
    cover_key = ("cover.along_mm", "cover.across_mm")
    return [
        row("surface.row_length_mm", surface.row_length_mm, "mm", "the cover along the boards",
             brief_says(cover_key[0 if along else 1])),
        row("surface.board_width_mm", surface.board_width_mm, "mm",
             "mean of ten boards measured" if measured else "true width as sold", width_source),
        row("surface.board_thickness_mm", surface.board_thickness_mm, "mm",
             "true thickness as sold", merchant_says(job, board.code)),
        row("surface.rows_depth_mm", surface.rows_depth_mm, "mm",
             "the wished cover across the rows, changed as the way out asks",
             brief_says(cover_key[1 if along else 0]),
             (("wished_mm", surface.rows_depth_mm - surface.cover_change_mm),
              ("cover_change_mm", surface.cover_change_mm))),
        row("surface.way_out", surface.way_out, "",
             "first honest way out in the order " + ", ".join(brief.rows.prefer),
             brief_says("rows.prefer"),
             (("whole_rows", surface.whole_rows), ("remainder_mm", surface.remainder_mm),
              ("strip_mm", surface.strip_mm)),
             [turned_way(way) for way in ways if not way.chosen]),
    ]  # fmt: skip


def turned_way(way: WayOut) -> TurnedDown:
    """Return a way out as it was turned down, and why."""
    label = f"{way.kind}: {way.rows} rows, gap {way.gap_mm:.2f} mm"
    if way.cover_change_mm:
        label += f", cover {way.cover_change_mm:+g} mm"
    if not way.honest:
        broken = [rule.rule for rule in way.rules if not rule.met]
        return TurnedDown(value=label, because="does not hold: " + "; ".join(broken))
    if way.cost is None:
        return TurnedDown(value=label, because=way.cost_note)
    return TurnedDown(value=label, because=f"comes later in the order; would cost {way.cost}")


def _supports(job: Job, built: Built, tried: tuple[TurnedDown, ...]) -> list[Row]:
    supports = built.supports
    inputs = (("frame_length_mm", built.edges.frame_length_mm),
              ("joist_thickness_mm", supports.joist_thickness_mm),
              ("most_centres_mm", supports.most_centres_mm))  # fmt: skip
    fewest = job.brief.frame.lines == "fewest"
    rule = "fewest joists within the limit" if fewest else "cheapest count within the limit"
    return [
        row("supports.joist_thickness_mm", supports.joist_thickness_mm, "mm",
             "true thickness as sold", merchant_says(job, job.articles.timber.code)),
        row("supports.line_count", supports.line_count, "count", rule, ARITHMETIC, inputs,
             tried),
        row("supports.centres_mm", supports.centres_mm, "mm",
             "the widest bay: lines on pencil marks, within 1 mm or a mark of even spacing",
             PRACTICE, (*inputs, ("line_count", supports.line_count))),
    ]  # fmt: skip


def edge_rows(built: Standing) -> list[Row]:
    """Return the decisions taken on the edges."""
    edges, surface = built.edges, built.surface
    sides = ", ".join(face.side for face in edges.faces) or "none"
    inputs = (("fascia_thickness_mm", edges.fascia_thickness_mm), ("sides", sides))
    return [
        row("edges.fascia_thickness_mm", edges.fascia_thickness_mm, "mm",
             "true thickness as sold; 0 without fascia", brief_says("fascia.sides"),
             (("sides", sides),)),
        row("edges.frame_length_mm", edges.frame_length_mm, "mm",
             "the planted fascia comes off the cover first", ARITHMETIC,
             (("row_length_mm", surface.row_length_mm), *inputs)),
        row("edges.frame_depth_mm", edges.frame_depth_mm, "mm",
             "the planted fascia comes off the cover first", ARITHMETIC,
             (("rows_depth_mm", surface.rows_depth_mm), *inputs)),
    ]  # fmt: skip


def _pieces(job: Job, built: Built) -> list[Row]:
    pieces, brief = built.pieces, job.brief
    priced = brief.joints.price_each is not None
    price = brief_says("joints.price_each") if priced else Source(
        kind="assumption", title="a joint is worth 100 mm of the cheapest board"
    )  # fmt: skip
    return [
        row("pieces.most_joints_per_row", pieces.most_joints_per_row, "count",
             "most joints in a row, as the brief wishes", brief_says("joints.most_per_row")),
        row("pieces.joint_price", str(pieces.joint_price), job.stock.currency,
             "what one joint is reckoned to cost", price),
        row("pieces.trim_allowance_mm", pieces.trim_allowance_mm, "mm",
             "left on at the deck's edge, to be trimmed in one line; 0 if cut first",
             brief_says("board.ends"), (("ends", brief.board.ends),)),
        row("pieces.end_bearing_mm", pieces.end_bearing_mm, "mm",
             _bearing_rule(built), ARITHMETIC,
             (("joist_thickness_mm", built.supports.joist_thickness_mm),
              ("end_gap_mm", pieces.end_gap_mm))),
        row("pieces.joint_count", pieces.joint_count, "count",
             "joints and purchase chosen together: least purchase + joint price x joints",
             ARITHMETIC, (("rows", sum(not line.border for line in built.surface.rows)),
                          ("joint_price", str(pieces.joint_price)))),
    ]  # fmt: skip


def _bearing_rule(built: Built) -> str:
    supports = built.supports
    if (supports.joists_under_joint or 1) > 1 or supports.battens_per_joint:
        return "a joist or batten of its own, less half the end gap"
    return "half of what the joist leaves beside the end gap"


def frame_rows(built: Framed) -> list[Row]:
    """Return the decisions taken on the frame."""
    frame = built.frame
    return [
        row("frame.noggin_rows", frame.noggin_rows, "count",
             "fewest rows that keep joists held within the spacing", PRACTICE,
             (("joist_length_mm", frame.joists[0].length_mm),
              ("noggin_spacing_most_mm", frame.noggin_spacing_most_mm))),
        row("frame.rim_joints", frame.rim_joints, "count",
             "fewest that the longest timber allows, each spliced, at the mark nearest mid bay",
             PRACTICE, (("frame_length_mm", built.edges.frame_length_mm),)),
    ]  # fmt: skip


def deck_screw_rows(job: Job, fixings: Fixings) -> list[Row]:
    """Return the decisions taken on deck and coach screws."""
    screws = fixings.deck_screws
    assert screws is not None
    return [
        row("fixings.deck_screws.length_mm", screws.length_mm, "mm", "the screw the brief names",
             merchant_says(job, screws.article), (("length_least_mm", screws.length_least_mm),)),
        row("fixings.deck_screws.count", screws.count, "count",
             "so many at each crossing, as many again at each joint", ARITHMETIC,
             (("per_crossing", screws.per_crossing), ("crossings", screws.crossings),
              ("joints", screws.joints))),
        *coach_screw_rows(job, fixings.coach_screws),
    ]  # fmt: skip


def coach_screw_rows(job: Job, coach: CoachScrews) -> list[Row]:
    """Return the decisions taken on the coach screws of a frame."""
    sink = job.rules.rulings["fixings.coach_screws.sink_mm"]
    return [
        row("fixings.coach_screws.length_mm", coach.length_mm, "mm",
             "the coach screw the brief names", merchant_says(job, coach.article),
             (("length_least_mm", coach.length_least_mm),)),
        row("fixings.coach_screws.count", coach.count, "count",
             NO_COACH_SCREWS if hung(job.brief) else "so many at each end of each joist",
             ARITHMETIC, (("per_joist_end", coach.per_joist_end),
                          ("joist_ends", coach.joist_ends))),
        row("fixings.coach_screws.sink_mm", coach.sink_mm, "mm",
             sink.rule if coach.sink_mm else _not_sunk(job), sink.source, sink.inputs),
        row("fixings.coach_screws.edge_least_mm", coach.edge_least_mm, "mm",
             "four shanks from a rim's edges and from each other; clear of the deck screws",
             CLEAR_OF_EDGES,
             (("shank_mm", coach.shank_mm), ("top_least_mm", coach.top_least_mm))),
    ]  # fmt: skip


def _not_sunk(job: Job) -> str:
    """Return why heads of coach screws are not sunk: none are driven, or no fascia covers them."""
    if hung(job.brief):
        return f"{NO_COACH_SCREWS}: no heads to sink"
    return "no fascia over a rim: heads are not sunk"


def buying_rows(job: Job, built: Standing) -> list[Row]:
    """Return the decisions taken on the order."""
    return order_rows(job, built.buying)


def order_rows(job: Job, buying: Buying) -> list[Row]:
    """Return the decisions taken on an order."""
    gaps = tuple((f"gap_{bought.what.replace(' ', '_')}", str(bought.gap))
                 for bought in buying.purchases)  # fmt: skip
    return [
        row("buying.kerf_mm", buying.kerf_mm, "mm", "what the saw takes at each cut",
             brief_says("cutting.kerf_mm")),
        row("buying.end_trim_mm", buying.end_trim_mm, "mm", "lost at each end of a length",
             brief_says("cutting.end_trim_mm")),
        row("buying.order_total", str(buying.order_total), buying.currency,
             "least purchase found, with proof; packs rounded up, spares apart",
             merchant_says(job, ""), gaps),
        row("buying.total", str(buying.total), buying.currency, "order and spares",
             ARITHMETIC, (("order_total", str(buying.order_total)),
                          ("spares_total", str(buying.spares_total)))),
    ]  # fmt: skip
