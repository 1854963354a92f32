"""Which family rule governs which path of a plan, and what a brief may wish there."""

from collections.abc import Callable

from attrs import frozen

from drylay.brief.model import Brief
from drylay.findings import Severity
from drylay.planner.angles import square_to_here

Wish = Callable[[Brief], float | None]


def _none(_: Brief) -> float | None:
    return None


@frozen(kw_only=True)
class GovernedPath:
    """A path of the plan, the family rule behind it, and what the brief may wish.

    `looser`: +1 where a higher figure loosens the rule, -1 where a lower one does, 0 where
    brief and merchant are free. `severity` is that of a brief loosening it.
    """

    path: str
    rule: str
    wish: Wish = _none
    wished_at: str = ""
    looser: int = 0
    severity: Severity = Severity.CAUTION


def joists_wished(brief: Brief) -> float | None:
    """Return how many joists the brief wants under a joint."""
    support = brief.joints.support
    return None if support is None else 2.0 if support == "pair" else 1.0


def battens_wished(brief: Brief) -> float | None:
    """Return how many battens the brief wants under a joint; a pair leaves that open."""
    return {"batten": 1.0, "single": 0.0}.get(brief.joints.support or "")


def centres_wished(brief: Brief) -> float | None:
    """Return how far apart joists may be as the brief wishes: it speaks of boards square to them.

    Source: geometry; across joists at an angle a board's bay is longer by its sine.
    """
    wish = brief.frame.most_centres_mm
    return None if wish is None else square_to_here(brief, wish)


#: Whether centres only stand in for the product's own: no figure of the plan, a caution about one.
STAND_IN = "supports.centres_stand_in"
JOISTS, BATTEN_FOR_PAIR = "supports.joists_under_joint", "supports.batten_for_pair"
#: What carries boards at their joints and ends, and what holds them where clips do.
JOINTED = (
    GovernedPath(path=JOISTS, rule="joists_under_joint",
                 wish=joists_wished, wished_at="joints.support", looser=-1),
    GovernedPath(path="supports.battens_per_joint", rule="battens_per_joint",
                 wish=battens_wished, wished_at="joints.support", looser=-1),
    GovernedPath(path=BATTEN_FOR_PAIR, rule="batten_for_pair", looser=1),
    GovernedPath(path="supports.overhang_most_mm", rule="overhang_most_mm", looser=1),
    GovernedPath(path="site.wall_gap_least_mm", rule="wall_gap_least_mm", looser=-1),
    GovernedPath(path="site.air_below_least_mm", rule="air_below_least_mm", looser=-1),
    GovernedPath(path="fixings.hidden_clips", rule="hidden_clips"),
    GovernedPath(path="fixings.clips.per_crossing", rule="clips_per_crossing", looser=-1),
    GovernedPath(path="fixings.clips.starter_per_joist", rule="starter_clips_per_joist",
                 looser=-1),
    GovernedPath(path="fixings.clips.end_row_screws_per_joist", rule="end_row_screws_per_joist",
                 looser=-1),
    GovernedPath(path="fixings.end_caps.per_end", rule="end_caps", looser=-1),
)  # fmt: skip

#: How boards move in the heat: asked where the brief tells how warm they lie on laying day. What no
#: family answers is left out then, and is no stop.
DAILY = (
    GovernedPath(path="pieces.movement.growth_per_k", rule="growth_per_k"),
    GovernedPath(path="pieces.movement.hottest_c", rule="hottest_board_c",
                 wish=lambda b: b.climate.hottest_board_c, wished_at="climate.hottest_board_c",
                 looser=-1),
)  # fmt: skip

#: What to ask the merchant for: of every plan, and no stop where nobody tells it.
SLIP = GovernedPath(path="surface.wet_slip_least", rule="wet_slip_least", looser=-1)

#: What becomes of gaps between boards of wood: asked where the moisture of laying day is told.
MOIST = (
    GovernedPath(path="surface.moisture.movement_per_pct", rule="movement_per_pct"),
    GovernedPath(path="surface.moisture.wettest_pct", rule="wettest_board_pct",
                 wish=lambda b: b.climate.wettest_pct, wished_at="climate.wettest_pct"),
    GovernedPath(path="surface.moisture.driest_pct", rule="driest_board_pct",
                 wish=lambda b: b.climate.driest_pct, wished_at="climate.driest_pct"),
)  # fmt: skip

GOVERNED = (
    GovernedPath(path="surface.gap_least_mm", rule="gap_least_mm",
                 wish=lambda b: b.gap.least_mm, wished_at="gap.least_mm", looser=-1),
    GovernedPath(path="surface.gap_most_mm", rule="gap_most_mm",
                 wish=lambda b: b.gap.most_mm, wished_at="gap.most_mm", looser=1),
    GovernedPath(path="surface.gap_preferred_mm", rule="gap_preferred_mm",
                 wish=lambda b: b.gap.preferred_mm, wished_at="gap.preferred_mm"),
    GovernedPath(path="surface.sliver_limit_mm", rule="sliver_mm",
                 wish=lambda b: b.rows.sliver_mm, wished_at="rows.sliver_mm"),
    GovernedPath(path="surface.least_rip_mm", rule="least_rip_mm",
                 wish=lambda b: b.rows.least_rip_mm, wished_at="rows.least_rip_mm", looser=-1),
    GovernedPath(path="surface.may_rip", rule="may_rip"),
    GovernedPath(path="surface.fall_least_ratio", rule="fall_least_ratio", looser=-1),
    GovernedPath(path="surface.combustible", rule="combustible", looser=-1),
    GovernedPath(path="surface.timber", rule="timber"),
    GovernedPath(path="supports.most_centres_mm", rule="most_centres_mm",
                 wish=centres_wished, wished_at="frame.most_centres_mm",
                 looser=1, severity=Severity.STOP),
    GovernedPath(path=STAND_IN, rule="centres_stand_in"),
    GovernedPath(path="pieces.end_gap_mm", rule="end_gap_mm",
                 wish=lambda b: b.joints.end_gap_mm, wished_at="joints.end_gap_mm"),
    GovernedPath(path="pieces.end_bearing_least_mm", rule="end_bearing_least_mm", looser=-1),
    GovernedPath(path="pieces.least_supports", rule="least_supports",
                 wish=lambda b: b.joints.least_supports, wished_at="joints.least_supports",
                 looser=-1),
    GovernedPath(path="pieces.stagger_bays", rule="stagger_bays",
                 wish=lambda b: b.joints.stagger_bays, wished_at="joints.stagger_bays",
                 looser=-1),
    GovernedPath(path="pieces.least_piece_mm", rule="least_piece_mm", looser=-1),
    GovernedPath(path="pieces.handed", rule="handed"),
    GovernedPath(path="frame.noggin_spacing_most_mm", rule="noggin_spacing_most_mm", looser=1),
    GovernedPath(path="fixings.deck_screws.per_crossing", rule="screws_per_crossing", looser=-1),
    GovernedPath(path="fixings.deck_screws.length_least_mm", rule="screw_length_least_mm",
                 looser=-1),
    GovernedPath(path="fixings.deck_screws.edge_least_mm", rule="screw_edge_least_mm",
                 looser=-1),
    GovernedPath(path="fixings.deck_screws.end_least_mm", rule="screw_end_least_mm", looser=-1),
    GovernedPath(path="fixings.deck_screws.pilot_ratio", rule="screw_pilot_ratio"),
    GovernedPath(path="fixings.deck_screws.predrill_all", rule="predrill_all", looser=-1),
    GovernedPath(path="fixings.coach_screws.per_joist_end", rule="coach_screws_per_joist_end",
                 looser=-1),
    GovernedPath(path="fixings.coach_screws.sink_mm", rule="coach_screw_sink_mm"),
    GovernedPath(path="fixings.coach_screws.length_least_mm",
                 rule="coach_screw_length_least_mm", looser=-1),
    GovernedPath(path="fixings.coach_screws.pilot_ratio", rule="coach_screw_pilot_ratio"),
    GovernedPath(path="fixings.frame_screws.per_noggin_end", rule="frame_screws_per_noggin_end",
                 looser=-1),
    GovernedPath(path="fixings.frame_screws.per_splice_side",
                 rule="frame_screws_per_splice_side", looser=-1),
    GovernedPath(path="fixings.frame_screws.length_least_mm",
                 rule="frame_screw_length_least_mm", looser=-1),
    GovernedPath(path="fixings.frame_screws.pilot_ratio", rule="frame_screw_pilot_ratio"),
    GovernedPath(path="fixings.fascia_screws.per_place", rule="fascia_screws_per_place",
                 looser=-1),
    GovernedPath(path="fixings.fascia_screws.spacing_most_mm",
                 rule="fascia_screw_spacing_most_mm", looser=1),
    GovernedPath(path="fixings.fascia_screws.end_least_mm", rule="fascia_screw_end_least_mm",
                 looser=-1),
    GovernedPath(path="fixings.fascia_screws.length_least_mm",
                 rule="fascia_screw_length_least_mm", looser=-1),
    GovernedPath(path="fixings.fascia_screws.pilot_ratio", rule="screw_pilot_ratio"),
    GovernedPath(path="fixings.board_use_class_least", rule="board_use_class_least", looser=-1),
    GovernedPath(path="fixings.frame_use_class_least", rule="frame_use_class_least", looser=-1),
    GovernedPath(path="fixings.seal_board_ends", rule="seal_board_ends", looser=-1),
    GovernedPath(path="fixings.wax_board_ends", rule="wax_board_ends", looser=-1),
    GovernedPath(path="fixings.preserver.coats", rule="preserver_coats", looser=-1),
    GovernedPath(path="fixings.finish.coats", rule="finish_coats",
                 wish=lambda b: b.finish.coats, wished_at="finish.coats", looser=-1),
    GovernedPath(path="fixings.board_finish_coats", rule="finish_coats",
                 wish=lambda b: b.finish.coats, wished_at="finish.coats"),
    GovernedPath(path="fixings.finish.groove_ratio", rule="groove_ratio", looser=-1),
    GovernedPath(path="buying.spare_ratio", rule="spare_ratio"),
    GovernedPath(path="buying.delivery.density_kg_m3", rule="density_most_kg_m3", looser=-1),
    GovernedPath(path="buying.delivery.frame_density_kg_m3", rule="frame_density_most_kg_m3",
                 looser=-1),
    GovernedPath(path="buying.delivery.extra_mass_kg_m2", rule="extra_mass_kg_m2", looser=-1),
    *JOINTED,
)  # fmt: skip
