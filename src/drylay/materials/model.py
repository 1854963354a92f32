"""What a family of boards rules: every question it may be asked, and their bounds of sense."""

from collections.abc import Callable

from attrs import frozen

from drylay.reasons import Ruling

#: What a fixing may be driven into; `RuleQuery.driven_into` tells what each word is for.
DRIVEN_INTO = ("board", "frame", "fascia")


@frozen(kw_only=True)
class RuleQuery:
    """What a family is asked about: the board as it lies, and what it is fixed to.

    `metal` is that of a fixing, `exposure` where the deck stands: inland, coast or pool.
    `driven_into` is what the fixing touches: a board (and the frame below it), the frame alone, or
    a fascia (and the frame behind it); a clip counts as driven into its board.
    `board_length_mm` is the longest a piece may be, `groove_mm` what an insert takes out of the
    board's thickness, `clip_gap_mm` the gap its clip leaves. Temperatures are those of the boards;
    moistures are theirs too, in per cent of dry mass. `durability_class` is that of the wood
    (EN 350: 1 lasts longest). `finished` is whether the brief buys a finish. What nobody told is
    None.
    """

    board_width_mm: float
    board_thickness_mm: float
    joist_thickness_mm: float
    board_to_joist_deg: float = 90.0
    use: str = "dwelling"
    treatment: str = ""
    head_sunk_mm: float = 0.0
    fascia_thickness_mm: float = 0.0
    metal: str = ""
    driven_into: str = "board"
    exposure: str = "inland"
    species: str = ""
    board_length_mm: float = 0.0
    groove_mm: float = 0.0
    hollow: bool = False
    turnable: bool | None = None
    support: str = "frame"
    clip_gap_mm: float | None = None
    growth_per_k: float | None = None
    movement_per_pct: float | None = None
    laying_c: float | None = None
    hottest_c: float | None = None
    coldest_c: float | None = None
    laying_pct: float | None = None
    wettest_pct: float | None = None
    driest_pct: float | None = None
    durability_class: int | None = None
    finished: bool = False


Rule = Callable[[RuleQuery], Ruling]

#: Every rule a family must answer: its unit and what it answers. A family that leaves one
#: out does not cover it, which is a stop, never a fallback to another family.
RULES: dict[str, tuple[str, str]] = {
    "most_centres_mm": ("mm", "furthest apart the joists may be, centre to centre"),
    "gap_preferred_mm": ("mm", "gap between rows to aim for when laying"),
    "gap_least_mm": ("mm", "narrowest gap between rows when laying"),
    "gap_most_mm": ("mm", "widest gap between rows when laying"),
    "end_gap_mm": ("mm", "gap between board ends at a butt joint"),
    "end_bearing_least_mm": ("mm", "least bearing of a board end at a butt joint"),
    "least_supports": ("count", "fewest joists under one piece of board"),
    "stagger_bays": ("count", "bays between joints of neighbouring rows"),
    "sliver_mm": ("mm", "a row narrower than this is a sliver"),
    "may_rip": ("yes/no", "1 if a board may be ripped to width, else 0"),
    "least_rip_mm": ("mm", "narrowest a board may be ripped"),
    "screws_per_crossing": ("count", "screws where a board crosses a joist, 0 for none"),
    "screw_length_least_mm": ("mm", "shortest deck screw"),
    "screw_edge_least_mm": ("mm", "least distance of a screw from the board's edge"),
    "screw_end_least_mm": ("mm", "least distance of a screw from the board's end"),
    "screw_pilot_ratio": ("ratio", "pilot hole over screw shank, near a board's end"),
    "coach_screws_per_joist_end": ("count", "coach screws at each end of a joist"),
    "coach_screw_length_least_mm": ("mm", "shortest coach screw through a rim into a joist end"),
    "coach_screw_sink_mm": ("mm", "how deep a coach screw's head is sunk under a fascia"),
    "coach_screw_pilot_ratio": ("ratio", "pilot hole over coach screw shank, in the joist's end"),
    "frame_screws_per_noggin_end": ("count", "screws at each end of a noggin"),
    "frame_screws_per_splice_side": ("count", "screws of a splice plate each side of its joint"),
    "frame_screw_length_least_mm": ("mm", "shortest screw of noggins and splices"),
    "fascia_screws_per_place": ("count", "screws one above the other where a fascia is held"),
    "fascia_screw_spacing_most_mm": ("mm", "furthest apart the places where a fascia is held"),
    "fascia_screw_end_least_mm": ("mm", "least distance of a fascia screw from an end"),
    "fascia_screw_length_least_mm": ("mm", "shortest screw of a fascia"),
    "metal_allowed": ("yes/no", "1 if a fixing of this metal may be driven in here, else 0"),
    "board_use_class_least": ("count", "lowest use class of boards and fascia"),
    "frame_use_class_least": ("count", "lowest use class of frame timber"),
    "noggin_spacing_most_mm": ("mm", "furthest apart the rows of noggins may be"),
    "preserver_coats": ("count", "coats of end-grain preserver on a sawn end"),
    "finish_coats": ("count", "coats of finish on boards and fascia, 0 for none"),
    "groove_ratio": ("ratio", "how much more surface a grooved face has than a smooth one"),
    "spare_ratio": ("ratio", "spare bought on top, shown apart"),
    "density_most_kg_m3": ("kg/m3", "heaviest the boards may be as delivered"),
}

#: Traits that not every family has: unit and meaning. Leaving one out is no gap: the family has it
#: at its plain value, and the reasons say so.
TRAITS: dict[str, tuple[str, str]] = {
    "joists_under_joint": ("count", "joists side by side under a butt joint: 1, or 2 for a pair"),
    "battens_per_joint": ("count", "battens on a joist's side under a butt joint, 0 or 1"),
    "batten_for_pair": (
        "yes/no",
        "1 if a batten under a joint does where a pair is wanted, else 0",
    ),
    "hidden_clips": ("yes/no", "1 if boards are held by clips between rows, 0 if by screws"),
    "clips_per_crossing": ("count", "clips where a gap between rows crosses a joist"),
    "starter_clips_per_joist": ("count", "clips that hold the first row's outer edge on a joist"),
    "end_row_screws_per_joist": ("count", "screws that hold the last row's outer edge on a joist"),
    "overhang_most_mm": ("mm", "furthest a board may reach past its last joist"),
    "wall_gap_least_mm": ("mm", "least gap between what is walked on and a wall or post"),
    "least_piece_mm": ("mm", "shortest piece that may be laid"),
    "handed": ("yes/no", "1 if a piece may not be turned end for end, else 0"),
    "end_caps": ("count", "caps on a sawn end of a board"),
    "seal_board_ends": ("yes/no", "1 if boards' sawn ends get end-grain preserver, else 0"),
    "wax_board_ends": ("yes/no", "1 if boards' sawn ends get end-grain wax, else 0"),
    "frame_screw_pilot_ratio": ("ratio", "pilot hole over screw shank, in the frame's own timber"),
    "predrill_all": ("yes/no", "1 if every screw is pre-drilled and countersunk, else 0"),
    "frame_density_most_kg_m3": ("kg/m3", "heaviest the frame's timber may be as delivered"),
    "extra_mass_kg_m2": ("kg/m2", "what inserts add to the mass of boards when wet"),
    "fall_least_ratio": ("ratio", "least fall of the surface, 0 where it may lie level"),
    "pads_at_edges_most_mm": ("mm", "furthest apart pads may be along a tile's edge"),
    "pads_at_centre": ("count", "pads under the middle of a tile"),
    "bays_per_piece": ("count", "bays that each piece spans where joints stand at fixed lines"),
    "combustible": ("yes/no", "1 if boards may burn, else 0"),
    "air_below_least_mm": ("mm", "least clear air between the frame and what it lies over"),
    "timber": ("yes/no", "1 if boards are of wood, else 0"),
    "centres_stand_in": (
        "yes/no",
        "1 if the joist centres only stand in for those of the product's record, else 0",
    ),
}
#: A trait's plain value.
PLAIN: dict[str, float] = {
    "joists_under_joint": 1,
    "battens_per_joint": 0,
    "batten_for_pair": 0,
    "hidden_clips": 0,
    "clips_per_crossing": 1,
    "starter_clips_per_joist": 1,
    "end_row_screws_per_joist": 1,
    "overhang_most_mm": 100,
    "wall_gap_least_mm": 0,
    "least_piece_mm": 0,
    "handed": 0,
    "end_caps": 0,
    "seal_board_ends": 1,
    "wax_board_ends": 0,
    "frame_screw_pilot_ratio": 0.7,
    "predrill_all": 0,
    "frame_density_most_kg_m3": 700,
    "extra_mass_kg_m2": 0,
    "fall_least_ratio": 0,
    "pads_at_edges_most_mm": 600,
    "pads_at_centre": 0,
    "bays_per_piece": 0,
    "combustible": 0,
    "air_below_least_mm": 0,
    "timber": 1,
    "centres_stand_in": 0,
}
#: What no plan needs: asked of a family where movement, or figures over years, are wanted.
YEARLY: dict[str, tuple[str, str]] = {
    "movement_per_pct": ("per %", "change of width for 1 % of moisture, as a share of the width"),
    "wettest_board_pct": ("%", "wettest the boards get in a year"),
    "driest_board_pct": ("%", "driest the boards get in a year"),
    "growth_per_k": ("per K", "change of length for 1 K, as a share of the length"),
    "wet_slip_least": ("count", "wet pendulum value to ask the merchant for"),
    "hottest_board_c": ("C", "hottest a board is likely to be in full sun"),
    "upkeep_h_m2_year": ("h/m2", "upkeep of a square metre in a year"),
    "life_least_years": ("years", "shortest likely service life of the boards"),
    "life_most_years": ("years", "longest likely service life of the boards"),
    "frame_life_least_years": ("years", "shortest likely service life of the frame under them"),
    "frame_life_most_years": ("years", "longest likely service life of the frame under them"),
}
#: Every question a family may answer.
QUESTIONS = {**RULES, **TRAITS, **YEARLY}

#: Rules that a merchant's record of a board cannot answer: they are asked of each fixing.
NO_RECORD = ("metal_allowed",)

#: Least and most a rule's answer can sensibly be, whoever gives it: beyond lies a slip.
#: Assumption; a brief's wishes and overrides have the same bounds where they speak of the same.
RULE_BOUNDS: dict[str, tuple[float, float]] = {
    "most_centres_mm": (100, 1500),
    "gap_preferred_mm": (0, 20),
    "gap_least_mm": (0, 20),
    "gap_most_mm": (0, 20),
    "end_gap_mm": (0, 20),
    "end_bearing_least_mm": (0, 100),
    "least_supports": (2, 50),
    "stagger_bays": (0, 50),
    "sliver_mm": (0, 300),
    "may_rip": (0, 1),
    "least_rip_mm": (0, 300),
    "screws_per_crossing": (0, 10),
    "screw_length_least_mm": (10, 300),
    "screw_edge_least_mm": (0, 100),
    "screw_end_least_mm": (0, 100),
    "screw_pilot_ratio": (0, 1),
    "coach_screws_per_joist_end": (1, 10),
    "coach_screw_length_least_mm": (20, 500),
    "coach_screw_sink_mm": (0, 50),
    "coach_screw_pilot_ratio": (0, 1),
    "frame_screws_per_noggin_end": (1, 10),
    "frame_screws_per_splice_side": (1, 20),
    "frame_screw_length_least_mm": (10, 500),
    "fascia_screws_per_place": (1, 10),
    "fascia_screw_spacing_most_mm": (100, 3000),
    "fascia_screw_end_least_mm": (0, 300),
    "fascia_screw_length_least_mm": (0, 500),
    "metal_allowed": (0, 1),
    "board_use_class_least": (1, 5),
    "frame_use_class_least": (1, 5),
    "noggin_spacing_most_mm": (300, 10_000),
    "preserver_coats": (1, 10),
    "finish_coats": (0, 10),
    "groove_ratio": (0, 1),
    "spare_ratio": (0, 1),
    "density_most_kg_m3": (200, 3500),
    "joists_under_joint": (1, 2),
    "battens_per_joint": (0, 1),
    "batten_for_pair": (0, 1),
    "hidden_clips": (0, 1),
    "clips_per_crossing": (1, 4),
    "starter_clips_per_joist": (0, 4),
    "end_row_screws_per_joist": (0, 10),
    "overhang_most_mm": (0, 300),
    "wall_gap_least_mm": (0, 100),
    "least_piece_mm": (0, 3000),
    "handed": (0, 1),
    "end_caps": (0, 1),
    "seal_board_ends": (0, 1),
    "wax_board_ends": (0, 1),
    "frame_screw_pilot_ratio": (0, 1),
    "predrill_all": (0, 1),
    "frame_density_most_kg_m3": (200, 1500),
    "extra_mass_kg_m2": (0, 50),
    "fall_least_ratio": (0, 0.1),
    "pads_at_edges_most_mm": (100, 3000),
    "pads_at_centre": (0, 4),
    "bays_per_piece": (0, 10),
    "combustible": (0, 1),
    "air_below_least_mm": (0, 500),
    "timber": (0, 1),
    "centres_stand_in": (0, 1),
    "movement_per_pct": (0, 0.01),
    "wettest_board_pct": (4, 60),
    "driest_board_pct": (4, 60),
    "growth_per_k": (0, 0.0005),
    "wet_slip_least": (0, 100),
    "hottest_board_c": (20, 120),
    "upkeep_h_m2_year": (0, 10),
    "life_least_years": (1, 200),
    "life_most_years": (1, 200),
    "frame_life_least_years": (1, 200),
    "frame_life_most_years": (1, 200),
}


@frozen(kw_only=True)
class Family:
    """A family of boards: an id, and one function for every rule it covers."""

    id: str
    title: str
    rules: dict[str, Rule]
    cautions: tuple[str, ...] = ()
