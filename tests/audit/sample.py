"""A small deck worked out by hand from docs/conventions.md, without drylay's planner.

4085 x 595 mm, four rows of 145 mm boards at 5 mm gaps, fascia of 20 mm on the right, front
and left. Every figure below is a hand sum; where it is not plain, the sum stands beside it.
"""

from decimal import Decimal

from audit import sample_ground as ground
from audit.edits import at
from audit.sample_buying import (
    buying,
)
from audit.sample_coats import COATS_BY_SUM, COATS_FROM_FAMILY
from audit.sample_deck import (
    BRIEF,
    PERSON,
    PRACTICE,
    RECORD,
    SUM,
    edges,
    fixings,
    frame,
    pieces,
    supports,
    surface,
)
from audit.sample_site import site
from audit.sample_witness import (
    sample_brief,
    sample_stock,
)
from audit.sample_work import work
from drylay.audit.model import Witness
from drylay.findings import Finding, Severity
from drylay.plan.model import Digests, FamilyUsed, LocalRuleUsed, Plan
from drylay.reasons import Decision, Reasons, Ruling, Source, TurnedDown

FROM_BRIEF = ground.FROM_BRIEF | {
    "surface.gap_preferred_mm", "surface.gap_least_mm", "surface.gap_most_mm",
    "supports.most_centres_mm", "pieces.end_gap_mm", "pieces.most_joints_per_row",
    "pieces.joint_price", "buying.kerf_mm", "buying.end_trim_mm",
    "site.wall_gap_mm",
}  # fmt: skip
FROM_MERCHANT = {"pieces.stagger_bays"}
FROM_PERSON = {"frame.noggin_spacing_most_mm"}
FROM_FAMILY = ground.FROM_FAMILY | {
    "surface.fall_least_ratio", "pieces.handed", "pieces.least_piece_mm",
    "fixings.deck_screws.predrill_all",
    "buying.delivery.extra_mass_kg_m2", "buying.delivery.frame_density_kg_m3",
    "surface.sliver_limit_mm", "surface.least_rip_mm", "pieces.least_supports",
    "pieces.end_bearing_least_mm", "fixings.deck_screws.per_crossing",
    "fixings.deck_screws.length_least_mm", "fixings.deck_screws.edge_least_mm",
    "fixings.deck_screws.end_least_mm", "fixings.deck_screws.pilot_ratio",
    "fixings.coach_screws.per_joist_end", "fixings.coach_screws.length_least_mm",
    "fixings.coach_screws.sink_mm", "fixings.coach_screws.pilot_ratio", "buying.spare_ratio",
    "fixings.frame_screws.per_noggin_end", "fixings.frame_screws.per_splice_side",
    "fixings.frame_screws.length_least_mm", "fixings.frame_screws.pilot_ratio",
    "fixings.fascia_screws.per_place", "fixings.fascia_screws.spacing_most_mm",
    "fixings.fascia_screws.end_least_mm", "fixings.fascia_screws.length_least_mm",
    "fixings.fascia_screws.pilot_ratio", "fixings.board_use_class_least",
    "fixings.frame_use_class_least",
    *COATS_FROM_FAMILY,
}  # fmt: skip
BY_SUM = ground.BY_SUM | {
    "surface.row_length_mm", "surface.rows_depth_mm", "surface.board_width_mm",
    "surface.board_thickness_mm", "surface.way_out", "supports.line_count",
    "supports.centres_mm", "supports.joist_thickness_mm", "edges.fascia_thickness_mm",
    "edges.frame_length_mm", "edges.frame_depth_mm", "pieces.trim_allowance_mm",
    "pieces.end_bearing_mm", "pieces.joint_count", "frame.noggin_rows", "frame.rim_joints",
    "fixings.deck_screws.length_mm", "fixings.deck_screws.count",
    "fixings.coach_screws.length_mm", "fixings.coach_screws.count", "buying.order_total",
    "fixings.coach_screws.edge_least_mm",
    "buying.total", "fixings.frame_screws.length_mm", "fixings.frame_screws.count",
    "fixings.fascia_screws.length_mm", "fixings.fascia_screws.clear_mm",
    "fixings.fascia_screws.count", "fixings.hangers.depth_mm", "fixings.hangers.depth_least_mm",
    "fixings.hangers.count", "fixings.hangers.screw_count",
    *COATS_BY_SUM,
    "work.people", "work.face_up", "work.holds", "work.most_h",
    "work.setting_out.slant_mm",
    "work.setting_out.accepted_mm", "work.lighting.count", "work.lighting.hole_mm",
    "work.lighting.depth_mm", "work.lighting.clear_least_mm", "work.lighting.cable_mm",
    "site.levels.deck_top_mm", "site.levels.ground_least_mm",
}  # fmt: skip


def source_of(path: str) -> Source:
    kinds = ((FROM_BRIEF, BRIEF), (FROM_MERCHANT, RECORD), (FROM_PERSON, PERSON), (BY_SUM, SUM))
    return next((source for paths, source in kinds if path in paths), PRACTICE)


#: Rules of the family whose answer depends on something say on what.
INPUTS = {
    "fixings.deck_screws.length_least_mm": (("board_thickness_mm", 28.0),),
    "supports.line_count": (("frame_length_mm", 4045.0), ("most_centres_mm", 400.0)),
    "site.wall_gap_mm": (("least_mm", 10.0),),
    "site.levels.ground_least_mm": (("points", 4), ("level_slack_mm", 10.0)),
}
#: The limits at which the deck's top is not, in their order.
TURNED_DOWN = {
    "site.levels.deck_top_mm": tuple(
        TurnedDown(value=level, because="does not govern") for level in (-75.0, 105.0, -290.0)
    ),
}


def reasons(plan: Plan) -> Reasons:
    paths = sorted(FROM_BRIEF | FROM_MERCHANT | FROM_PERSON | FROM_FAMILY | BY_SUM)
    values = {path: at(plan, path) for path in paths}
    return Reasons(
        decisions=tuple(
            Decision(
                path=path,
                value=str(value) if isinstance(value, Decimal) else value,  # type: ignore[arg-type]
                unit="", rule="a rule", source=source_of(path), inputs=INPUTS.get(path, ()),
                turned_down=TURNED_DOWN.get(path, ()),
            )
            for path, value in values.items()
        )
    )  # fmt: skip


def _told() -> Finding:
    """Return the finding that tells of the one override, 300 instead of 1800."""
    return Finding(
        code="OVR-001", severity=Severity.CAUTION, subject="frame.noggin_spacing_most_mm",
        message="A. Nobody, engineer (invented) overrides noggin spacing: a sample",
        measured=300.0, unit="mm", source=PERSON,
    )  # fmt: skip


def local_finding() -> Finding:
    """Return what a local rule found: its figures are its own."""
    return Finding(
        code="quarl/7", severity=Severity.NOTE, subject="deck", message="tell the parish",
        measured=2.43, limit=10.0, unit="m2", source=PERSON,
    )  # fmt: skip


def blank() -> Plan:
    return ground.with_ground(Plan(
        drylay_version="0", title="Hand-made deck", units="metric", use="dwelling",
        digests=Digests(brief="a" * 64, stock="b" * 64),
        families=(FamilyUsed(id="softwood", title="softwood", package="none", version="0"),),
        surface=surface(), edges=edges(), supports=supports(), pieces=pieces(), frame=frame(),
        fixings=fixings(), buying=buying(), site=site(), work=work(), reasons=Reasons(),
        local_rules=(LocalRuleUsed(name="quarl", package="drylay-quarl", version="1"),),
        findings=(_told(), local_finding()),
        cautions=("Wear gloves.",), not_checked=("the ground",),
    ))  # fmt: skip


def metal_rulings() -> tuple[tuple[str, Ruling], ...]:
    return tuple(
        (
            f"metal in {into}: {metal}",
            Ruling(value=int(fine), unit="yes/no", rule="a rule", source=PRACTICE),
        )
        for into in ("board", "frame", "fascia")
        for metal, fine in (
            ("stainless A2", True), ("hot-dip galvanised", True), ("bright zinc", False),
            ("coated for treated timber", True),
        )
    )  # fmt: skip


def sample_rulings(plan: Plan) -> tuple[tuple[str, Ruling], ...]:
    return metal_rulings() + tuple(
        (
            path,
            Ruling(
                value=at(plan, path),  # type: ignore[arg-type]
                unit="", rule="a rule", source=PRACTICE, inputs=INPUTS.get(path, ()),
            ),
        )
        for path in sorted(FROM_FAMILY)
    )  # fmt: skip


def sample_plan() -> Plan:
    """Return the deck with its reasons."""
    from attrs import evolve

    plan = blank()
    return evolve(plan, reasons=reasons(plan))


def sample_witness() -> Witness:
    """Return brief, stock and rulings of the deck, worked out by hand like the deck."""
    return Witness(
        brief=ground.with_ground_wished(sample_brief()),
        stock=ground.with_ground_sold(sample_stock()), rulings=sample_rulings(blank()),
        brief_digest="a" * 64, stock_digest="b" * 64, cautions=("Wear gloves.",),
        not_checked=("the ground",), local_findings=(local_finding(),),
    )  # fmt: skip
