"""Families that stand in for plugins where a test wants a rule of its own."""

from collections.abc import Callable
from math import ceil

import drylay
from drylay.materials.model import QUESTIONS, Family, RuleQuery
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling, Source

BOOK = Source(kind="assumption", title="a family that stands in for one, tests/stand_ins.py")
Answer = float | Callable[[RuleQuery], float]

#: Screws, frame and edges as a softwood family has them (assumption): no test rests on them.
PLAIN: dict[str, Answer] = {
    "most_centres_mm": 400.0, "gap_preferred_mm": 5.0, "gap_least_mm": 4.0,
    "gap_most_mm": 8.0, "end_gap_mm": 4.0, "end_bearing_least_mm": 10.0, "least_supports": 3,
    "stagger_bays": 2, "sliver_mm": 60.0, "may_rip": 1, "least_rip_mm": 60.0,
    "screws_per_crossing": 2, "screw_length_least_mm": 50.0, "screw_edge_least_mm": 20.0,
    "screw_end_least_mm": 15.0, "screw_pilot_ratio": 0.7, "coach_screws_per_joist_end": 2,
    "coach_screw_length_least_mm": 100.0, "coach_screw_sink_mm": 12.0,
    "coach_screw_pilot_ratio": 0.7, "frame_screws_per_noggin_end": 2,
    "frame_screws_per_splice_side": 4, "frame_screw_length_least_mm": 80.0,
    "fascia_screws_per_place": 2, "fascia_screw_spacing_most_mm": 600.0,
    "fascia_screw_end_least_mm": 40.0, "fascia_screw_length_least_mm": 40.0,
    "metal_allowed": 1, "board_use_class_least": 3, "frame_use_class_least": 4,
    "noggin_spacing_most_mm": 1800.0, "spare_ratio": 0.05, "preserver_coats": 2,
    "finish_coats": 2, "groove_ratio": 0.3, "density_most_kg_m3": 700.0,
}  # fmt: skip


def clip_gap(query: RuleQuery) -> float:
    """The gap is the clip's."""
    return 0.0 if query.clip_gap_mm is None else query.clip_gap_mm


def grown(query: RuleQuery) -> float:
    """Growth of the longest board from laying to hottest, up to a whole mm; 6 where untold."""
    if None in (query.growth_per_k, query.laying_c, query.hottest_c):
        return 6.0
    kelvins = query.hottest_c - query.laying_c
    return float(ceil(round(query.board_length_mm * query.growth_per_k * kelvins, 9)))


#: Composite boards on hidden clips, joints over pairs. Rules: common practice, no source.
COMPOSITE: dict[str, Answer] = {
    **PLAIN,
    "most_centres_mm": 300.0, "gap_preferred_mm": clip_gap, "gap_least_mm": clip_gap,
    "gap_most_mm": clip_gap, "end_gap_mm": grown, "may_rip": 0, "least_supports": 3,
    "stagger_bays": 1, "joists_under_joint": 2, "hidden_clips": 1, "clips_per_crossing": 1,
    "starter_clips_per_joist": 1, "end_row_screws_per_joist": 1, "overhang_most_mm": 25,
    "wall_gap_least_mm": 10, "seal_board_ends": 0, "end_caps": 1, "growth_per_k": 50e-6,
    "hottest_board_c": 65, "density_most_kg_m3": 1400.0,
}  # fmt: skip


def family(name: str, answers: dict[str, Answer | None]) -> Family:
    """Return a family of these answers, each a number or a function of the question."""

    def rule(question: str, answer: Answer) -> Callable[[RuleQuery], Ruling]:
        def ruled(query: RuleQuery) -> Ruling:
            value = answer(query) if callable(answer) else answer
            return Ruling(
                value=value, unit=QUESTIONS[question][0], rule=f"stand-in {question}", source=BOOK
            )

        return ruled

    rules = {name: rule(name, answer) for name, answer in answers.items() if answer is not None}
    return Family(id=name, title=f"{name} that stands in", rules=rules)


def families(name: str = "composite", **changed: Answer | None) -> FamilySet:
    """Return one stand-in family alone: composite, or any other as plain as softwood."""
    answers = COMPOSITE if name == "composite" else PLAIN
    return drylay.installed_families(entry_points=(), extra=(family(name, {**answers, **changed}),))
