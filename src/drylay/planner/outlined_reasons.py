"""The reasons of a plan of a deck on an outline, in building order."""

from drylay.outline.model import Outline
from drylay.outline.notes import OWN_LINE
from drylay.planner import (
    coats,
    ground_rows,
    holding,
    lorry,
    outlined_clips,
    outlined_doubles,
    outlined_panels,
    outlined_site,
    outlined_work,
    standing_rows,
)
from drylay.planner.angles import angle_of, joist_run
from drylay.planner.explain import deck_screw_rows, order_rows
from drylay.planner.governed import JOISTS
from drylay.planner.job import Job
from drylay.planner.outlined_build import BuiltOutlined
from drylay.planner.outlined_fields import FieldLaid
from drylay.planner.outlined_laying import width_lost_mm
from drylay.planner.outlined_rules import CENTRES, SQUARE
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.reasons import Reasons, Source, TurnedDown, adopt

#: Where a plan on an outline has what is ruled under a path of a rectangle's.
LAID_AT = {
    **{
        f"surface.{name}": f"laying.{name}"
        for name in ("gap_least_mm", "gap_most_mm", "gap_preferred_mm", "sliver_limit_mm",
                     "least_rip_mm", "fall_least_ratio", "combustible", "timber",
                     "wet_slip_least")
    },
    **{
        f"pieces.{name}": f"laying.{name}"
        for name in ("end_gap_mm", "end_bearing_least_mm", "least_supports", "stagger_bays",
                     "least_piece_mm", "handed")
    },
    CENTRES: "subframe.most_centres_mm",
    SQUARE: SQUARE,
    JOISTS: "subframe.joists_under_joint",
    "frame.noggin_spacing_most_mm": "subframe.noggin_spacing_most_mm",
}  # fmt: skip
#: Paths that a plan on an outline has under the same name, where it has what they speak of.
SAME = ("fixings.", "buying.", "site.")
#: Told in the plan's own way: see the rows of fixings and coats.
RESTATED = {"fixings.coach_screws.sink_mm", "fixings.deck_screws.per_crossing", *coats.GOVERNED}


def explain_outlined(job: Job, built: BuiltOutlined) -> Reasons:
    """Return all decisions of a built plan."""
    reasons = Reasons()
    for path, ruling in job.rules.rulings.items():
        at = LAID_AT.get(path, path if path.startswith(SAME) else "")
        if at and path not in RESTATED and _stands(built, at):
            down = job.rules.turned_down.get(path, ())
            reasons = adopt(reasons, at, ruling.value, ruling, down)
    for path, value, ruling, turned_down in (
        *outline_rows(job, built.outline),
        *_laying(job, built),
        *_joints(job, built),
        *_border(job, built),
        *_frame(job, built),
        *outlined_panels.rows(built.subframe),
        *outlined_site.rows(job, built),
        *_fixings(job, built),
        *order_rows(job, built.buying),
        *ground_rows.rows(job, built),
        *lorry.rows_of(job, built.buying),
        *(outlined_work.rows(job, built.outline, built.work) if built.work else ()),
        *standing_rows.rows(job, built.stood),
    ):
        reasons = adopt(reasons, path, value, ruling, turned_down)
    return reasons


def _stands(built: object, path: str) -> bool:
    part: object = built
    for name in path.split(".")[:-1]:
        part = getattr(part, name, None)
    return part is not None


def outline_rows(job: Job, outline: Outline) -> list[Row]:
    """Return the decisions taken on the outline itself."""
    wish = job.brief.outline
    said = "outline.points" if wish.points else "outline.rectangles"
    return [
        row("outline.net_m2", outline.net_m2, "m2",
            "the outline as the brief draws it, less openings but hatches", brief_says(said),
            (("gross_m2", outline.gross_m2), ("sides", len(outline.sides)))),
        row("outline.opening_count", outline.opening_count, "count",
            "what the deck leaves room for, each by its own clear distance",
            brief_says("outline.openings")),
        row("outline.turned_deg", outline.turned_deg, "deg",
            "the line that most of the sides run along or square to, the house's counted twice",
            OWN_LINE, (("moved_mm", outline.moved_mm),)),
    ]  # fmt: skip


def _laying(job: Job, built: BuiltOutlined) -> list[Row]:
    laying, board = built.laying, job.articles.board
    wish, main = job.brief.laying, built.laid.fields[0]
    measured = job.brief.board.measured_width_mm is not None
    said = "laying.angle_deg" if wish.angle_deg is not None else "board.run"
    found = [
        row("laying.board_width_mm", laying.board_width_mm, "mm",
            "mean of ten boards measured" if measured else "true width as sold",
            brief_says("board.measured_width_mm") if measured else merchant_says(job, board.code)),
        row("laying.board_thickness_mm", laying.board_thickness_mm, "mm",
            "true thickness as sold", merchant_says(job, board.code)),
        row("laying.angle_deg", angle_of(job.brief), "deg", "which way boards run, from the house",
            brief_says(said)),
        row("laying.way_out", laying.way_out, "",
            "first honest way out in the order " + ", ".join(job.brief.rows.prefer),
            brief_says("rows.prefer"), (), _turned_down(main)),
        row("laying.zone_count", laying.zone_count, "count",
            "fields, parted by breaker boards", brief_says("laying"),
            (("fields", len(built.laid.fields)),)),
        row("laying.row_count", laying.row_count, "count", "rows of all zones", ARITHMETIC),
        row("laying.fan_mm", laying.fan_mm, "mm",
            "what a side that is not parallel to the boards takes up over all gaps", PRACTICE,
            (("leans_mm", round(main.leans_mm, 3)), ("fan_most_mm", laying.fan_most_mm))),
        row("laying.fan_most_mm", laying.fan_most_mm, "mm",
            "what no eye sees in one row", PRACTICE),
        row("laying.breaker_count", laying.breaker_count, "count",
            "breaker boards part rows that would be jointed", brief_says("laying.breakers")),
        row("laying.piece_count", laying.piece_count, "count",
            "every row's board inside its zone and outside all openings", ARITHMETIC,
            (("joint_count", laying.joint_count),)),
    ]  # fmt: skip
    if laying.groove_mm is not None:
        found.append(row("laying.groove_mm", laying.groove_mm, "mm",
                         "how deep the insert is let in, as sold",
                         merchant_says(job, board.code)))  # fmt: skip
    return found


def _turned_down(main: FieldLaid) -> list[TurnedDown]:
    """Return the other ways the main field could be filled, each kind by its best."""
    best: dict[str, TurnedDown] = {}
    for way in main.ways:
        if way == main.fit or way.kind in best:
            continue
        told = f"{way.kind}: {len(way.rows)} rows, gap {float(way.gap_320) / 320:.2f} mm"
        why = "; ".join(way.broken) or (
            f"leaves a strip of {min(s.width_320 for s in way.slivers) / 320:g} mm"
            if way.slivers
            else "comes later in the order, or is further from the gap aimed for"
        )
        best[way.kind] = TurnedDown(value=told, because=why)
    return list(best.values())


def _joints(job: Job, built: BuiltOutlined) -> list[Row]:
    laying, brief = built.laying, job.brief
    priced = brief.joints.price_each is not None
    price = brief_says("joints.price_each") if priced else Source(
        kind="assumption", title="a joint is worth 100 mm of the cheapest board"
    )  # fmt: skip
    return [
        row("laying.most_joints_per_row", laying.most_joints_per_row, "count",
            "most joints in a row, as the brief wishes", brief_says("joints.most_per_row")),
        row("laying.joint_price", str(laying.joint_price), job.stock.currency,
            "what one joint is reckoned to cost", price),
        row("laying.joint_count", laying.joint_count, "count",
            "none in what fits a board on sale; else joints and purchase chosen together: least "
            "purchase + joint price x joints", ARITHMETIC,
            (("joint_price", str(laying.joint_price)),)),
        row("laying.end_bearing_mm", laying.end_bearing_mm, "mm",
            "half of what the joist leaves beside the end gap", ARITHMETIC,
            (("end_gap_mm", laying.end_gap_mm),)),
    ]  # fmt: skip


def _border(job: Job, built: BuiltOutlined) -> list[Row]:
    laying, lost = built.laying, width_lost_mm(job)
    return [
        row("laying.border_courses", laying.border_courses, "count",
            "boards round the outline, mitred at its corners",
            brief_says("laying.border_courses")),
        row("laying.mitre_count", laying.mitre_count, "count", "one at each corner", ARITHMETIC),
        row("laying.mitre_opens_mm", laying.mitre_opens_mm, "mm",
            "what a board loses in width over the sine of half the corner", ARITHMETIC,
            () if lost is None or laying.mitre_opens_mm is None
            else (("width_lost_mm", round(lost, 4)),)),
    ]  # fmt: skip


def _frame(job: Job, built: BuiltOutlined) -> list[Row]:
    frame, timber = built.subframe, job.articles.timber
    fascia = job.articles.fascia
    return [
        row("subframe.timber_thickness_mm", frame.timber_thickness_mm, "mm",
            "true thickness as sold", merchant_says(job, timber.code)),
        row("subframe.joist_run", joist_run(job.brief), "",
            "across the boards of the main field, as nearly as may be", PRACTICE,
            (("angle_deg", angle_of(job.brief)),)),
        row("subframe.board_to_joist_deg", frame.board_to_joist_deg, "deg",
            "the least angle between boards of any field and the joists", ARITHMETIC),
        row("subframe.centres_mm", frame.centres_mm, "mm",
            "the widest bay: lines even on pencil marks between those that must be", PRACTICE,
            (("most_centres_mm", frame.most_centres_mm), ("line_count", frame.line_count))),
        row("subframe.line_count", frame.line_count, "count",
            "fewest joist lines within the limit, one under each side that runs their way",
            ARITHMETIC, (("most_centres_mm", frame.most_centres_mm),)),
        row("subframe.end_support_most_mm", frame.end_support_most_mm, "mm",
            "how far a board's cut end may be from a member under it", PRACTICE),
        row("subframe.seam_count", frame.seam_count, "count",
            "two members touch wherever boards end over a line", PRACTICE),
        row("subframe.member_count", frame.member_count, "count",
            "rims all round, joists clipped to them, trimmers round openings, noggins", PRACTICE,
            (("line_count", frame.line_count),)),
        row("subframe.facing_thickness_mm", frame.facing_thickness_mm, "mm",
            "true thickness as sold; 0 without fascia",
            merchant_says(job, fascia.code) if fascia else brief_says("outline")),
        row("subframe.facing_run_mm", frame.facing_run_mm, "mm",
            "the length of all sides that the brief has faced", brief_says("outline")),
    ]  # fmt: skip


def _fixings(job: Job, built: BuiltOutlined) -> list[Row]:
    frame = built.subframe
    behind = holding.Section(
        thickness_mm=frame.timber_thickness_mm,
        depth_mm=frame.timber_depth_mm,
        fascia_mm=frame.facing_thickness_mm,
        line_count=frame.line_count,
    )
    return [
        *deck_screw_rows(job, built.fixings),
        *outlined_clips.rows(job, built.fixings, built.laying),
        *holding.rows_of(job, built.fixings, behind),
        *outlined_doubles.rows(job, built.fixings),
        *coats.rows_of(job, built.fixings),
    ]
