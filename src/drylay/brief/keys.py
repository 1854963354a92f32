"""Every key of a brief, with its bounds.

The bounds keep slips out (metres taken for millimetres, a kerf of 40); they are sense, not
trade: what the trade allows, families and merchants say later. Source: assumption.
"""

from attrs import frozen

from drylay.brief.model import ENDS, LINE_CHOICES, RUNS, SIDES, UNITS, USES, WAYS_OUT
from drylay.intake.keys import (
    Key,
    choice,
    choices,
    count,
    flag,
    length,
    money,
    table,
    tables,
    text,
)

#: A joint's price may have as many decimals as any currency has. Source: ISO 4217.
PRICE_DIGITS = 4

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
        choice("run", RUNS),
        flag("may_turn"),
        length("measured_width_mm", 30, 400),
        choice("ends", ENDS),
        length("trim_allowance_mm", 1, 300),
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
        length("most_centres_mm", 100, 1500),
        choice("lines", LINE_CHOICES),
    ),
    "fascia": (choices("sides", SIDES), text("article")),
    "joints": (
        length("end_gap_mm", 0, 20),
        count("least_supports", 2, 50),
        count("stagger_bays", 0, 50),
        count("most_per_row", 0, 100),
        money("price_each", 0, 10_000, digits=PRICE_DIGITS),
    ),
    "cutting": (length("kerf_mm", 0, 10), length("end_trim_mm", 0, 300)),
    "fixings": (text("screw", required=True), text("coach_screw", required=True)),
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
    "fixings.deck_screws.per_crossing": Overridable(unit="count", least=1, most=10),
    "fixings.coach_screws.length_least_mm": Overridable(unit="mm", least=20, most=500),
    "fixings.coach_screws.per_joist_end": Overridable(unit="count", least=1, most=10),
    "buying.spare_ratio": Overridable(unit="ratio", least=0, most=1),
}
