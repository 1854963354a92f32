"""The nouns of the site. Levels are from the brief's own datum, upwards."""

from attrs import frozen

from drylay.reasons import Source, because


@frozen(kw_only=True)
class LevelLimit:
    """One thing that keeps the deck's top down (`bound` "most") or up ("least")."""

    name: str
    bound: str
    level_mm: float = because("site.levels.deck_top_mm")
    rule: str
    source: Source


@frozen(kw_only=True)
class Levels:
    """Heights of the deck: what limits its top, which limit governs, what the ground does.

    `highest_mm` and `lowest_mm` are None where nothing limits that side; `highest_by` and
    `lowest_by` name the limits that govern. `ground_most_mm` and `ground_least_mm` are those
    under the cover, `drop_mm` that from the deck's top to the lowest ground along its edges.
    """

    datum: str
    limits: tuple[LevelLimit, ...]
    highest_mm: float | None = because("site.levels.deck_top_mm")
    lowest_mm: float | None = because("site.levels.deck_top_mm")
    highest_by: str
    lowest_by: str
    deck_top_mm: float = because("site.levels.deck_top_mm")
    underside_mm: float = because("site.levels.deck_top_mm")
    ground_most_mm: float | None = because("site.levels.ground_least_mm")
    ground_least_mm: float | None = because("site.levels.ground_least_mm")
    drop_mm: float | None = because("site.levels.ground_least_mm")


@frozen(kw_only=True)
class Site:
    """Where the deck stands. `wall_gap_mm` is left between house wall and cover."""

    exposure: str
    wall_gap_mm: float = because("site.wall_gap_mm")
    levels: Levels | None
