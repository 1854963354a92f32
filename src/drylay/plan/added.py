"""What plans tell besides that older plan files do not: filled in as "not told"."""

from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import attrs

from drylay.buying.model import Delivery
from drylay.fixings.model import Clips, CoachScrews, FixingMetal, Fixings, FrameScrews
from drylay.frame.model import Frame, Joist
from drylay.groundwork.model import Dig, Footing, Packing
from drylay.guards.model import Guards
from drylay.laying.model import Laying
from drylay.outline.model import Outline
from drylay.pieces.model import BorderJoints, BorderMovement, Joint, Movement, Pieces
from drylay.plan.model import Plan
from drylay.plan.walk import plain
from drylay.raised.model import RaisedDeck
from drylay.site.model import Site
from drylay.strength.model import LedgerAsked, Strength
from drylay.subframe.model import Subframe
from drylay.supports.model import Supports
from drylay.surface.model import Border, Surface
from drylay.tiling.model import Pad, Pads
from drylay.work.model import Peg, SettingOut, Work

#: Fields that plans of version 3 may lack, by noun: each has a default that says nothing.
ADDED: dict[type, tuple[str, ...]] = {
    Surface: ("combustible", "timber", "wet_slip_least", "fall_mm", "low_side", "moisture",
              "gaps_by_moisture"),
    Border: ("timber",),
    Supports: ("joists_under_joint", "battens_per_joint", "batten_for_pair", "seam_count",
               "seams", "overhang_mm", "overhang_most_mm"),
    Joint: ("beside",),
    Pieces: ("movement", "mass_kg", "least_piece_mm"),
    BorderJoints: ("movement", "least_piece_mm"),
    BorderMovement: ("between_mm", "outer_mm", "other_days"),
    Movement: ("between_mm", "outer_mm", "other_days"),
    Clips: ("edge_screws", "fixed_screws", "slot_mm", "slot_width_mm"),
    Frame: ("batten_count", "battens"),
    FrameScrews: ("per_batten_joint", "batten_joints"),
    Fixings: ("hidden_clips", "clips", "end_caps", "board_finish_coats", "border_finish_coats",
               "board_packers", "double_screws"),
    CoachScrews: ("edge_least_mm", "top_least_mm"),
    Site: ("wall_gap_least_mm", "air_below_least_mm"),
    Pad: ("height_mm",),
    Pads: ("base_fall_mm", "base_measured_ratio"),
    FixingMetal: ("driven_into",),
    Delivery: ("frame_density_kg_m3",),
    Work: ("upkeep_count", "upkeep", "not_ordered_count", "not_ordered"),
    SettingOut: ("tie_count", "ties", "post_accepted_mm", "posts", "post_ties"),
    Peg: ("brief_along_mm", "brief_across_mm"),
    Dig: ("area_m2", "roots_m2", "roots"),
    Packing: ("places",),
    Outline: ("turned_deg", "moved_mm"),
    Laying: ("stations_met",),
    Subframe: ("battens", "batten_count", "batten_play_mm"),
    Joist: ("parts",),
    Footing: ("pier_mm",),
    LedgerAsked: ("more_dead_kn_m2",),
    RaisedDeck: ("joists", "hanger_kn"),
    Strength: ("guard_posts", "heavier_kn_m2"),
    Guards: ("foot",),
    Plan: ("outline", "laying", "subframe", "tiles", "raised", "strength", "footings", "guards",
           "steps", "laid"),
}  # fmt: skip


def with_added(document: dict[str, object]) -> dict[str, object]:
    """Return a plan file's data with every added field that it lacks, at its default.

    Faults of a damaged file are for the reader to tell: what is no object stays as it is.
    """
    filled = _filled(document, Plan)
    assert isinstance(filled, dict)
    return filled


def _filled(value: object, hint: Any) -> object:
    noun = _noun_in(hint)
    if isinstance(value, list):
        items = get_args(hint)
        return [_filled(item, items[0]) for item in value] if items else value
    if noun is None or not isinstance(value, dict):
        return value
    hints = get_type_hints(noun)
    inside = {key: _filled(part, hints[key]) if key in hints else part
              for key, part in value.items()}  # fmt: skip
    defaults = {field.name: field.default for field in attrs.fields(noun)}
    return {name: plain(defaults[name]) for name in ADDED.get(noun, ())} | inside


def _noun_in(hint: Any) -> Any:
    """Return the noun that a hint allows, None where it allows none."""
    if get_origin(hint) in (Union, UnionType):
        return next((each for each in get_args(hint) if attrs.has(each)), None)
    return hint if attrs.has(hint) else None
