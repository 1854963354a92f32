"""Screws counted from the rows, joists and joints they hold."""

from attrs import frozen

from drylay.fixings.model import CoachScrews, DeckScrews
from drylay.marks import exact, to_mm

#: A coach screw's middle is so many shanks or more from the edges of the rim and from the next.
#: From memory: 4 d to a loaded edge, EN 1995-1-1 table 8.4 and NDS table 12.5.1C, for bolts.
EDGE_SHANKS = 4


@frozen(kw_only=True)
class ScrewRules:
    """What governs the deck screws."""

    per_crossing: int
    length_least_mm: float
    edge_least_mm: float
    end_least_mm: float
    pilot_ratio: float
    predrill_all: bool = False


def count_deck_screws(
    *,
    rows: int,
    joists: int,
    joints: int,
    pairs: int = 0,
    rules: ScrewRules,
    article: str,
    shank_mm: float,
    length_mm: float,
    driver: str = "",
) -> DeckScrews:
    """Return the deck screws: so many at each crossing, as many again at each joint.

    A board that passes over a pair of joists is screwed to one of them: of `joists`, `pairs` of
    them count as one.

    Source: counting; two screws a crossing by common practice, no source.
    """
    crossings = rows * (joists - pairs)
    return DeckScrews(
        article=article,
        shank_mm=shank_mm,
        length_mm=length_mm,
        length_least_mm=rules.length_least_mm,
        per_crossing=rules.per_crossing,
        crossings=crossings,
        joints=joints,
        count=rules.per_crossing * (crossings + joints),
        driver=driver,
        edge_least_mm=rules.edge_least_mm,
        end_least_mm=rules.end_least_mm,
        predrill_all=rules.predrill_all,
        pilot_ratio=rules.pilot_ratio,
        pilot_mm=to_mm(exact(shank_mm * rules.pilot_ratio)),
    )


def count_coach_screws(
    *,
    joists: int,
    per_joist_end: int,
    length_least_mm: float,
    sink_mm: float,
    pilot_ratio: float,
    article: str,
    shank_mm: float,
    length_mm: float,
    head_mm: float,
    driver: str = "",
    on_hangers: bool = False,
    paired: int = 0,
    hung: bool = False,
    deck_reach_mm: float = 0.0,
) -> CoachScrews:
    """Return the coach screws through both rims into every joist end, corners among them.

    Where the inner joists hang (`on_hangers`), only the outer two and those in pairs are screwed;
    none where all hang between bearers (`hung`).
    Deck screws reach `deck_reach_mm` into the rim: there coach screws are a shank clear of them.

    Source: counting; two a joist end by common practice, no source; four shanks from an edge from
    memory, EN 1995-1-1 table 8.4 and NDS table 12.5.1C.
    """
    edge_mm = to_mm(EDGE_SHANKS * exact(shank_mm))
    joist_ends = 2 * min(joists, 2 + paired) if on_hangers else 2 * joists
    joist_ends = 0 if hung else joist_ends
    return CoachScrews(
        article=article,
        shank_mm=shank_mm,
        length_mm=length_mm,
        length_least_mm=length_least_mm,
        per_joist_end=per_joist_end,
        joist_ends=joist_ends,
        count=per_joist_end * joist_ends,
        pilot_ratio=pilot_ratio,
        pilot_mm=to_mm(exact(shank_mm * pilot_ratio)),
        driver=driver,
        head_mm=head_mm,
        sink_mm=sink_mm,
        edge_least_mm=edge_mm,
        top_least_mm=max(edge_mm, to_mm(exact(deck_reach_mm) + exact(shank_mm))),
    )
