"""The nouns of the fixings."""

from attrs import frozen

from drylay.reasons import because

#: How far inside the frame's face a deck screw stands at least, beside a fascia. Assumption, in
#: docs/conventions.md, from which the auditor has its own.
INSIDE_FACE_MM = 10.0


@frozen(kw_only=True)
class DeckScrews:
    """Screws of boards into joists: `per_crossing` at each, as many again at each joint."""

    article: str
    shank_mm: float = because("fixings.deck_screws.length_mm")
    length_mm: float = because("fixings.deck_screws.length_mm")
    length_least_mm: float = because("fixings.deck_screws.length_least_mm")
    per_crossing: int = because("fixings.deck_screws.per_crossing")
    crossings: int = because("fixings.deck_screws.count")
    joints: int = because("fixings.deck_screws.count")
    count: int = because("fixings.deck_screws.count")
    edge_least_mm: float = because("fixings.deck_screws.edge_least_mm")
    end_least_mm: float = because("fixings.deck_screws.end_least_mm")
    pilot_ratio: float = because("fixings.deck_screws.pilot_ratio")
    pilot_mm: float = because("fixings.deck_screws.pilot_ratio")


@frozen(kw_only=True)
class CoachScrews:
    """Coach screws through the rims into the joists' ends, frame corners among them.

    `sink_mm` is how deep the heads go into rims that carry a fascia, 0 where none does.
    """

    article: str
    shank_mm: float = because("fixings.coach_screws.length_mm")
    length_mm: float = because("fixings.coach_screws.length_mm")
    length_least_mm: float = because("fixings.coach_screws.length_least_mm")
    per_joist_end: int = because("fixings.coach_screws.per_joist_end")
    joist_ends: int = because("fixings.coach_screws.count")
    count: int = because("fixings.coach_screws.count")
    head_mm: float = because("fixings.coach_screws.sink_mm")
    sink_mm: float = because("fixings.coach_screws.sink_mm")


@frozen(kw_only=True)
class Fixings:
    """All fixings of the deck."""

    deck_screws: DeckScrews
    coach_screws: CoachScrews
