"""The nouns of the site. Levels are from the brief's own datum, upwards."""

from attrs import frozen

from drylay.reasons import Source, because

#: What is known of the deck over the garden's lowest spot.
HOLLOWS = ("not known", "elsewhere", "with outfall", "outfall not known", "no outfall")


@frozen(kw_only=True)
class LevelMark:
    """Something at the house to measure from; the deck's top lies `down_mm` below it."""

    name: str
    level_mm: float = because("site.levels.deck_top_mm")
    down_mm: float = because("site.levels.deck_top_mm")


@frozen(kw_only=True)
class LevelLimit:
    """One thing that keeps the deck's top down (`bound` "most") or up ("least").

    It lies `off_mm` below the mark it is reckoned from.
    """

    name: str
    bound: str
    level_mm: float = because("site.levels.deck_top_mm")
    mark: str
    off_mm: float = because("site.levels.deck_top_mm")
    rule: str
    source: Source


@frozen(kw_only=True)
class HeightTrigger:
    """A height of the deck at which a rule of some country asks for more than a plan."""

    name: str
    limit_mm: float = because("site.levels.ground_least_mm")
    reached: bool
    rule: str
    source: Source


@frozen(kw_only=True)
class Levels:
    """Heights of the deck: what limits its top, which limit governs, what the ground does.

    `highest_mm` and `lowest_mm` are None where nothing limits that side; `highest_by` and
    `lowest_by` name the limits that govern. `ground_most_mm` and `ground_least_mm` are those
    under the cover, `edge_least_mm` the lowest along its edges, `drop_mm` from the deck's top
    to that. `under_most_mm` is the frame's underside above the lowest ground, `under_least_mm`
    above the highest. `fall_to_house_mm` is how much lower the ground lies at the house than
    at the front, at the worse end. `beyond` names corners outside the points measured. `steps_down`
    rises of `rise_mm` lead down from the floor. `rises_to_ground`, those among them, lead
    on to the lowest ground at the edges, each of the last ones `last_rise_mm`; None where the
    brief asks for no equal rises.
    """

    datum: str
    marks: tuple[LevelMark, ...]
    limits: tuple[LevelLimit, ...]
    highest_mm: float | None = because("site.levels.deck_top_mm")
    lowest_mm: float | None = because("site.levels.deck_top_mm")
    highest_by: str
    lowest_by: str
    deck_top_mm: float = because("site.levels.deck_top_mm")
    underside_mm: float = because("site.levels.deck_top_mm")
    steps_down: int | None = because("site.levels.deck_top_mm")
    rise_mm: float | None = because("site.levels.deck_top_mm")
    rises_to_ground: int | None = because("site.levels.deck_top_mm", default=None)
    last_rise_mm: float | None = because("site.levels.deck_top_mm", default=None)
    ground_most_mm: float | None = because("site.levels.ground_least_mm")
    ground_least_mm: float | None = because("site.levels.ground_least_mm")
    edge_least_mm: float | None = because("site.levels.ground_least_mm")
    drop_mm: float | None = because("site.levels.ground_least_mm")
    under_most_mm: float | None = because("site.levels.ground_least_mm")
    under_least_mm: float | None = because("site.levels.ground_least_mm")
    fall_to_house_mm: float | None = because("site.levels.ground_least_mm")
    garden_lowest_mm: float | None = because("site.levels.ground_least_mm")
    beyond: tuple[str, ...] = ()
    hollow: str = "not known"
    triggers: tuple[HeightTrigger, ...] = ()


@frozen(kw_only=True)
class Site:
    """Where the deck stands. `wall_gap_mm` is left between house wall and cover.

    `wall_gap_least_mm` is what the boards' family asks for, `air_below_least_mm` the clear air that
    it wants under the frame. `beside_house`: whether the brief tells
    of a house at all.
    """

    exposure: str
    beside_house: bool = False
    wall_gap_mm: float = because("site.wall_gap_mm")
    wall_gap_least_mm: float | None = because("site.wall_gap_least_mm", default=None)
    air_below_least_mm: float | None = because("site.air_below_least_mm", default=None)
    levels: Levels | None
