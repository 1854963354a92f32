"""Planted faults: at least one for every check, each a small change of the hand-made deck.

A fault names the check that is meant to see it. Others may see it too.
"""

from decimal import Decimal

from attrs import evolve

from audit.border_faults import BORDERS
from audit.buying_faults import (
    BUY,
    CUTTING,
    DECISION,
    MONEY,
    PACKS,
    PROOFS,
    REASONS,
    TASKS,
)
from audit.coats_faults import COATS, COATS_HELD
from audit.deck_faults import EDGES, FIXINGS, FRAME, PIECES, ROWS, SUPPORTS, WAYS, WHOLE
from audit.edits import put
from audit.ground_faults import GROUND, GROUND_SEEN
from audit.holding_faults import HOLDING, WITNESSED_HOLDING
from audit.planting import (
    Edit,
    Fault,
    both,
    by,
    to,
    without,
)
from audit.sample_deck import BRIEF
from audit.site_faults import SITE, SITE_WITNESSED
from audit.work_faults import WORK
from drylay.plan.model import Plan
from drylay.reasons import TurnedDown

MORE = (TurnedDown(value=11, because="dearer"),)

CLOSED_FAULTS = (
    *BORDERS, *WHOLE, *ROWS, *WAYS, *EDGES, *SUPPORTS, *PIECES, *FRAME, *FIXINGS, *HOLDING,
    *CUTTING, *MONEY, *COATS, *PACKS, *TASKS, *PROOFS, *REASONS, *WORK, *GROUND, *SITE,
)  # fmt: skip


def decision_at(path: str, field: str, value: object) -> Edit:
    """Return an edit of the decision that stands under a path."""

    def run(plan: Plan) -> Plan:
        decisions = tuple(
            evolve(decision, **{field: value}) if decision.path == path else decision
            for decision in plan.reasons.decisions
        )
        return put(plan, DECISION, decisions)

    return run


WITNESSED_FAULTS: tuple[Fault, ...] = (
    *GROUND_SEEN,
    *SITE_WITNESSED,
    ("AUD-W01", "another title", to("title", "Another deck")),
    ("AUD-W17", "a line of what was not checked left out", to("not_checked", ("the sky",))),
    ("AUD-W16", "another caution", to("cautions", ("Burn the offcuts.",))),
    ("AUD-W01", "another use", to("use", "public")),
    ("AUD-W02", "boards turned against the brief", to("surface.run", "across")),
    ("AUD-W03", "a cover nobody wished", by("surface.cover_along_mm", 1.0)),
    ("AUD-W03", "a cover grown too far", by("surface.cover_change_mm", 10.0)),
    ("AUD-W03", "a cover shrunk too far", by("surface.cover_change_mm", -10.0)),
    (
        "AUD-W03",
        "a turned cover, grown the wrong way",
        both(to("surface.run", "across"), by("surface.cover_change_mm", 10.0)),
    ),
    ("AUD-W04", "a side left bare", without("edges.faces", 0)),
    ("AUD-W04", "a side faced unasked", to("edges.faces[0].side", "house")),
    ("AUD-W04", "another fascia", to("edges.fascia_article", "QF-99")),
    ("AUD-W05", "another board", to("surface.board_article", "QB-99")),
    ("AUD-W05", "another timber", to("frame.timber_article", "QT-99")),
    ("AUD-W05", "another screw", to("fixings.deck_screws.article", "QS-99")),
    ("AUD-W07", "boards run long unasked", to("pieces.trim_allowance_mm", 20.0)),
    ("AUD-W08", "a joint of another price", to("pieces.joint_price", Decimal("0.60"))),
    ("AUD-W09", "a limit the brief never gave", to("supports.most_centres_mm", 450.0)),
    ("AUD-W09", "a limit the family never gave", to("fixings.deck_screws.edge_least_mm", 15.0)),
    ("AUD-W09", "a limit the merchant never gave", to("pieces.stagger_bays", 1)),
    ("AUD-W09", "a limit the engineer never gave", to("frame.noggin_spacing_most_mm", 400.0)),
    ("AUD-W09", "a cap nobody gave", to("pieces.most_joints_per_row", 2)),
    (
        "AUD-W10",
        "a family's limit in the brief's name",
        decision_at("buying.spare_ratio", "source", BRIEF),
    ),
    (
        "AUD-W12",
        "a family asked for another board",
        decision_at(
            "fixings.deck_screws.length_least_mm", "inputs", (("board_thickness_mm", 21.0),)
        ),
    ),
    (
        "AUD-W12",
        "another limit told as what would hold otherwise",
        decision_at("buying.spare_ratio", "inputs", (("otherwise", 0.1),)),
    ),
    ("AUD-W13", "a way out that may grow unasked", to("surface.ways_out[1].rules[2].limit", 200.0)),
    ("AUD-W15", "joists nobody asked for", decision_at("supports.line_count", "turned_down", MORE)),
    ("AUD-W11", "another brief", to("digests.brief", "c" * 64)),
    ("AUD-W11", "another stock", to("digests.stock", "c" * 64)),
    ("AUD-W19", "a local finding hushed up", without("findings", 1)),
    ("AUD-W19", "a local finding made milder", to("findings[1].limit", 20.0)),
    ("AUD-W21", "another board width", to("surface.board_width_mm", 144.0)),
    ("AUD-W21", "another board thickness", to("surface.board_thickness_mm", 27.0)),
    ("AUD-W22", "another family", to("families[0].id", "hardwood")),
    ("AUD-W23", "another timber depth", to("frame.timber_depth_mm", 145.0)),
    ("AUD-W23", "another fascia thickness", to("edges.fascia_thickness_mm", 21.0)),
    ("AUD-W24", "another screw shank", to("fixings.deck_screws.shank_mm", 5.0)),
    ("AUD-W24", "another coach screw head", to("fixings.coach_screws.head_mm", 8.0)),
    ("AUD-W25", "another price in the proof", to(f"{BUY}[0].proof.task.stock[0].price", 1100)),
    ("AUD-W25", "a length not on sale", to(f"{BUY}[0].proof.task.stock[0].length", 1)),
    ("AUD-W26", "a pack not on sale", to("buying.packs[0].packs[0].pack", 120)),
    ("AUD-W26", "another price of a pack", to("buying.packs[0].packs[0].price", Decimal(11))),
    ("AUD-W61", "no work at all", to("work", None)),
    ("AUD-W61", "another crew", to("work.people", 1)),
    ("AUD-W61", "lights nobody wished", to("work.lighting.count", 3)),
    ("AUD-W61", "lights along another side", to("work.lighting.side", "front")),
    ("AUD-W61", "another hole", to("work.lighting.hole_mm", 35.0)),
    ("AUD-W61", "another face up", to("work.face_up", "grooved")),
    ("AUD-W27", "another currency", to("buying.currency", "GBP")),
    ("AUD-W27", "a GTIN nobody told", to("buying.order[0].gtin", "6291041500213")),
    ("AUD-W29", "packs that nobody sells", to("buying.whole_packs[0].pack", 8)),
    ("AUD-W29", "packs forgotten", to("buying.whole_packs", ())),
    *COATS_HELD,
    ("AUD-W27", "another title of an article", to("buying.order[0].title", "Oak")),
    *WITNESSED_HOLDING,
)
