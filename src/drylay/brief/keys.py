"""Every key of a brief, with its bounds.

The bounds keep slips out (metres taken for millimetres, a kerf of 40); they are sense, not
trade: what the trade allows, families and merchants say later. Source: assumption.
"""

from attrs import frozen

from drylay.brief.model import (
    DOORS,
    DRAINS,
    ENDS,
    EXPOSURES,
    FACES_UP,
    FALLS,
    JOINT_SUPPORTS,
    LINE_CHOICES,
    RUNS,
    SIDES,
    SKIRTINGS,
    SPOIL,
    SUPPORTS,
    UNITS,
    USES,
    WAYS_OUT,
)
from drylay.brief.outline_model import BREAKERS, FIRST_ROWS, HOW, OPENING_KINDS, SIDE_KINDS
from drylay.brief.raised_model import FEET, FOOTINGS, INFILLS, JOISTS, SHAPES, WALLS
from drylay.intake.keys import (
    Key,
    choice,
    choices,
    count,
    flag,
    length,
    lengths,
    money,
    number,
    table,
    tables,
    text,
)

#: A joint's price may have as many decimals as any currency has. Source: ISO 4217.
PRICE_DIGITS = 4


def level(name: str, *, required: bool = False) -> Key:
    """Return the key of a height above the datum, or below it."""
    return length(name, -5000, 5000, required=required)


def place(name: str, *, required: bool = False) -> Key:
    """Return the key of a distance from the datum corner, on either side of it."""
    return length(name, -100_000, 100_000, required=required)


SECTIONS: dict[str, tuple[Key, ...]] = {
    "cover": (
        length("along_mm", 100, 100_000, required=True),
        length("across_mm", 100, 100_000, required=True),
        length("grow_along_mm", 0, 10_000),
        length("shrink_along_mm", 0, 10_000),
        length("grow_across_mm", 0, 10_000),
        length("shrink_across_mm", 0, 10_000),
    ),
    "board": (
        text("article", required=True),
        choice("support", SUPPORTS),
        choice("run", RUNS),
        flag("may_turn"),
        length("measured_width_mm", 30, 400),
        choice("ends", ENDS),
        length("trim_allowance_mm", 1, 300),
        choice("face_up", FACES_UP),
    ),
    "border": (
        text("article"),
        count("rows", 1, 3),
        length("measured_width_mm", 30, 400),
        text("screw"),
    ),
    "gap": (
        length("preferred_mm", 0, 20),
        length("least_mm", 0, 20),
        length("most_mm", 0, 20),
    ),
    "rows": (
        length("sliver_mm", 0, 300),
        length("least_rip_mm", 0, 300),
        flag("may_rip"),
        choices("prefer", WAYS_OUT, least=1),
    ),
    "frame": (
        text("article", required=True),
        choice("run", RUNS),
        length("most_centres_mm", 100, 1500),
        choice("lines", LINE_CHOICES),
    ),
    "fascia": (choices("sides", SIDES), text("article"), choice("skirting", SKIRTINGS)),
    "joints": (
        length("end_gap_mm", 0, 20),
        count("least_supports", 2, 50),
        count("stagger_bays", 0, 50),
        count("most_per_row", 0, 100),
        money("price_each", 0, 10_000, digits=PRICE_DIGITS),
        choice("support", JOINT_SUPPORTS),
        lengths("lines_mm", 100, 100_000),
    ),
    "cutting": (length("kerf_mm", 0, 10), length("end_trim_mm", 0, 300)),
    "fixings": (
        text("screw", required=True),
        text("coach_screw", required=True),
        text("frame_screw"),
        text("fascia_screw"),
        text("hanger"),
        text("clip"),
        text("starter_clip"),
        text("end_cap"),
    ),
    "climate": (
        number("laying_c", -20, 45),
        number("hottest_board_c", 0, 120),
        number("coldest_board_c", -60, 30),
        number("laying_humidity_ratio", 0.05, 1),
        number("laying_pct", 4, 60),
        number("wettest_pct", 4, 60),
        number("driest_pct", 4, 60),
    ),
    "site": (
        choice("exposure", EXPOSURES),
        flag("roof"),
        text("region"),
        text("soil"),
        length("frost_mm", 0, 3000),
    ),
    "house": (
        length("wall_gap_mm", 0, 100),
        level("dpc_mm"),
        level("floor_mm"),
        count("steps_down", 1, 20),
        count("rises_to_ground", 2, 40),
        choice("door_opens", DOORS),
        level("door_leaf_mm"),
        level("sill_mm"),
        tables("air_bricks"),
        choice("wall", WALLS),
    ),
    "levels": (
        text("datum", 80, empty=True),
        level("deck_top_mm"),
        level("lowest_mm"),
        flag("outfall"),
        choice("falls", FALLS),
        tables("points"),
    ),
    "groundwork": (
        length("margin_mm", 0, 2000),
        length("strip_mm", 10, 500),
        length("below_lawn_mm", 0, 200),
        length("lap_mm", 0, 1000),
        choice("spoil", SPOIL),
        text("fabric"),
        text("gravel"),
        text("packer"),
        length("packer_spacing_mm", 100, 2000),
    ),
    "finish": (text("preserver"), text("end_wax"), text("article"), count("coats", 1, 10)),
    "lights": (
        count("count", 0, 200),
        choice("side", SIDES),
        length("hole_mm", 5, 200),
        length("depth_mm", 5, 200),
    ),
    "outline": (tables("points"), tables("rectangles"), tables("wall"), tables("openings")),
    "laying": (
        number("angle_deg", 0, 180),
        choice("first_row", FIRST_ROWS),
        count("border_courses", 0, 2),
        choice("breakers", BREAKERS),
        lengths("breakers_mm", -100_000, 100_000),
        tables("fields"),
    ),
    "strength": (text("basis"), text("sharing"), text("board_class")),
    "raised": (
        text("post"),
        text("bearer"),
        count("plies", 1, 4),
        choice("joists", JOISTS),
        lengths("lines_mm", 0, 100_000),
        lengths("posts_mm", 0, 100_000),
        flag("ledger"),
        text("ledger_fixing"),
        length("ledger_spacing_mm", 50, 2000),
        choice("foot", FEET),
        length("stand_off_mm", 0, 500),
        length("embed_mm", 0, 2000),
        length("brace_over_mm", 300, 3000),
        number("hold_down_kn", 0, 100),
        choice("footing", FOOTINGS),
        choice("shape", SHAPES),
        number("screw_kn", 0.1, 500),
        text("concrete"),
        text("post_foot"),
    ),
    "guards": (
        choice("infill", INFILLS),
        length("thickness_mm", 10, 150),
        length("post_mm", 30, 300),
        length("post_spacing_mm", 300, 3000),
        length("height_mm", 600, 1800),
        text("post_article"),
        text("bolt"),
        length("washer_mm", 10, 200),
        length("upper_bolt_mm", 10, 500),
        length("bolts_apart_mm", 20, 600),
    ),
    "steps": (
        choice("side", SIDES),
        length("from_mm", 0, 100_000),
        length("width_mm", 300, 10_000),
        length("tread_mm", 10, 200),
        length("going_mm", 100, 1000),
        count("risers", 1, 30),
    ),
    "crew": (count("people", 1, 2),),
    "tub": (
        length("foot_along_mm", 300, 10_000),
        length("foot_across_mm", 300, 10_000),
        number("filled_kg", 50, 20_000),
    ),
    "drains": (tables("covers"),),
}

#: Where a rectangle lies, and how large it is.
_RECTANGLE = (
    place("from_along_mm", required=True),
    place("from_across_mm", required=True),
    length("along_mm", 10, 100_000, required=True),
    length("across_mm", 10, 100_000, required=True),
)

#: Tables inside a section: one air brick, one point of the ground, one corner of an outline.
INSIDE: dict[tuple[str, str], tuple[Key, ...]] = {
    ("house", "air_bricks"): (
        place("along_mm", required=True),
        level("under_mm", required=True),
    ),
    ("drains", "covers"): (
        place("from_along_mm", required=True),
        place("from_across_mm", required=True),
        length("along_mm", 100, 5000, required=True),
        length("across_mm", 100, 5000, required=True),
        choice("whose", DRAINS),
    ),
    ("levels", "points"): (
        place("along_mm", required=True),
        place("across_mm", required=True),
        level("level_mm", required=True),
    ),
    ("outline", "points"): (
        place("along_mm", required=True),
        place("across_mm", required=True),
        choice("side", SIDE_KINDS),
        flag("faced"),
    ),
    ("outline", "rectangles"): (
        *_RECTANGLE,
        choice("how", HOW),
        choice("side", SIDE_KINDS),
        flag("faced"),
    ),
    ("outline", "wall"): (
        place("along_mm", required=True),
        length("off_mm", -500, 500, required=True),
    ),
    ("outline", "openings"): (
        choice("kind", OPENING_KINDS, required=True),
        place("along_mm", required=True),
        place("across_mm", required=True),
        text("name", empty=True),
        length("size_along_mm", 20, 20_000),
        length("size_across_mm", 20, 20_000),
        length("trunk_mm", 20, 3000),
        length("growth_a_year_mm", 0, 100),
        count("years", 0, 100),
        length("sway_mm", 0, 1000),
    ),
    ("laying", "fields"): (
        *_RECTANGLE,
        number("angle_deg", 0, 180, required=True),
        choice("first_row", FIRST_ROWS),
    ),
}

TOP: tuple[Key, ...] = (
    text("title", 200, required=True),
    choice("use", USES),
    choice("units", UNITS),
    *(table(name, required=any(k.required for k in keys)) for name, keys in SECTIONS.items()),
    tables("overrides"),
)

OVERRIDE: tuple[Key, ...] = (
    text("path", required=True),
    Key(name="value", kind="measure", required=True),
    text("unit", 20),
    text("by", 120, required=True),
    text("reason", 400, required=True),
)


@frozen(kw_only=True)
class Overridable:
    """A decision a named person may override: its unit, and bounds of sense."""

    unit: str
    least: float
    most: float


#: Decision paths an override may name.
OVERRIDABLE: dict[str, Overridable] = {
    "surface.gap_preferred_mm": Overridable(unit="mm", least=0, most=20),
    "surface.gap_least_mm": Overridable(unit="mm", least=0, most=20),
    "surface.gap_most_mm": Overridable(unit="mm", least=0, most=20),
    "surface.sliver_limit_mm": Overridable(unit="mm", least=0, most=300),
    "surface.least_rip_mm": Overridable(unit="mm", least=0, most=300),
    "supports.most_centres_mm": Overridable(unit="mm", least=100, most=1500),
    "pieces.end_gap_mm": Overridable(unit="mm", least=0, most=20),
    "pieces.least_supports": Overridable(unit="count", least=2, most=50),
    "pieces.stagger_bays": Overridable(unit="count", least=0, most=50),
    "frame.noggin_spacing_most_mm": Overridable(unit="mm", least=300, most=10_000),
    "fixings.deck_screws.length_least_mm": Overridable(unit="mm", least=10, most=300),
    "fixings.deck_screws.per_crossing": Overridable(unit="count", least=0, most=10),
    "fixings.coach_screws.length_least_mm": Overridable(unit="mm", least=20, most=500),
    "fixings.coach_screws.per_joist_end": Overridable(unit="count", least=1, most=10),
    "buying.spare_ratio": Overridable(unit="ratio", least=0, most=1),
}
