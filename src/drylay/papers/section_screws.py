"""Deck screws in the section: where they are drawn, and what they are called."""

from attrs import frozen

from drylay.fixings.model import INSIDE_FACE_MM, DeckScrews, Fixings
from drylay.papers.section_clips import clip_name
from drylay.papers.wording import bare


@frozen(kw_only=True)
class Cut:
    """What the section cuts; `rows` holds each row's outer and inner edge, the outermost first.

    `shown_mm` is how far inwards the figure reaches, `proud_mm` how far heads stand out of it.
    """

    side: str
    rows: tuple[tuple[float, float], ...]
    board_mm: float
    fascia_mm: float
    fascia_depth_mm: float
    rim_mm: float
    depth_mm: float
    sink_mm: float
    shown_mm: float
    proud_mm: float


def by(one_mm: float, other_mm: float, units: str) -> str:
    """Return two sizes, as a part's name tells them."""
    return f"{bare(one_mm, units)} x {bare(other_mm, units)}"


def deck_names(cut: Cut, fixings: Fixings, units: str) -> list[tuple[float, float, str]]:
    """Return the deck screw's name, and the clip's where clips hold all rows but the last.

    With how far down and inwards the leader of each begins; nothing under tiles.
    """
    deck, clips = fixings.deck_screws, fixings.clips
    names = []
    if deck is not None and deck.per_crossing:
        where = "a joist, in the last row" if clips else "a crossing"
        told = f"{by(deck.shank_mm, deck.length_mm, units)}, {deck.per_crossing} to {where}"
        place = _deck_places(cut, deck, cut.rows[0], clipped=clips is not None)[0]
        names = [((cut.board_mm + deck.length_mm) / 2, place, f"deck screw {told}")]
    if clips is not None:
        names += clip_name(clips, cut.rows, cut.board_mm, cut.shown_mm, units)
    return names


def deck_shanks(cut: Cut, fixings: Fixings) -> list[tuple[float, float, float]]:
    """Return half the width, the length and the place of each deck screw that is shown."""
    deck = fixings.deck_screws
    if deck is None:
        return []
    half, clipped = deck.shank_mm / 2, fixings.clips is not None
    places = [at for row in cut.rows for at in _deck_places(cut, deck, row, clipped=clipped)]
    return [(half, deck.length_mm, at) for at in places if at + half < cut.shown_mm]


def _deck_places(
    cut: Cut, deck: DeckScrews, row: tuple[float, float], *, clipped: bool
) -> list[float]:
    """Return where a row's screws are drawn: at their least distance from its edges.

    Where clips hold the boards: of the outermost row those at its outer edge, of others none.

    The outermost row's outer screw has to hit the rim, not a fascia: it is drawn in the rim's
    middle, or where the row is narrow as far inside the rim's face as the summary tells.
    """
    outer, inner = row[0] + deck.edge_least_mm, row[1] - deck.edge_least_mm
    if clipped and (row != cut.rows[0] or not deck.per_crossing):
        return []
    if row == cut.rows[0]:
        rim_mm = cut.fascia_mm + cut.rim_mm / 2
        face_mm = cut.fascia_mm + INSIDE_FACE_MM if cut.fascia_mm else 0.0
        outer = max(outer, min(rim_mm, max(face_mm, inner - deck.shank_mm)))
    count = deck.per_crossing
    if clipped:
        return [min(outer, inner)]
    if count < 2 or outer >= inner:
        return [min(outer, inner) if outer >= inner else (outer + inner) / 2]
    return [outer + (inner - outer) * n / (count - 1) for n in range(count)]
