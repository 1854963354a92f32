"""Boards' screws in the section: where they are drawn, and what boards and screws are called."""

from drylay.fixings.model import INSIDE_FACE_MM, BorderScrews, DeckScrews, Fixings
from drylay.papers.section_clips import clip_name
from drylay.papers.section_cut import Cut
from drylay.papers.wording import bare, clean
from drylay.surface.model import Border, Surface

#: A part's name: how far down and how far inwards its leader begins, and what it says.
Name = tuple[float, float, str]


def by(one_mm: float, other_mm: float, units: str) -> str:
    """Return two sizes, as a part's name tells them."""
    return f"{bare(one_mm, units)} x {bare(other_mm, units)}"


def screws_of(fixings: Fixings, *, edged: bool) -> DeckScrews | BorderScrews | None:
    """Return what holds a row: the border's screws, or the field's; nothing under tiles."""
    return fixings.border_screws if edged and fixings.border_screws else fixings.deck_screws


def board_names(cut: Cut, surface: Surface, fixings: Fixings, units: str) -> list[Name]:
    """Return the names of boards and their screws, each kind once; of clips and of packers too."""
    names: list[Name] = []
    border, clips = surface.border, fixings.clips
    for edged in dict.fromkeys(cut.edged):
        at = cut.edged.index(edged)
        inwards_mm = _inside(cut, at, 0.6)
        if inwards_mm >= cut.shown_mm:
            continue
        what = "board" if fixings.deck_screws else "tile"
        article, width_mm = surface.board_article, surface.board_width_mm
        if border and edged:
            what, article, width_mm = "border", border.article, border.width_mm
        down_mm = cut.thick_mm[at] * (0.5 if at == 0 else 0.8)
        sized = by(width_mm, cut.thick_mm[at], units)
        names.append((down_mm, inwards_mm, f"{what} {clean(article, 24)}, {sized}"))
        names += _screw_name(cut, fixings, at, units)
    names += _packer_name(cut, border, units)
    return names if clips is None else [
        *names, *clip_name(clips, cut.rows, cut.board_mm, cut.shown_mm, units)
    ]  # fmt: skip


def _inside(cut: Cut, at: int, ratio: float) -> float:
    """Return how far inwards this ratio of a row's width is."""
    outer, inner = cut.rows[at]
    return outer + (inner - outer) * ratio


def _screw_name(cut: Cut, fixings: Fixings, at: int, units: str) -> list[Name]:
    """Return the name of the screws that hold a row's boards; nothing under tiles."""
    edged, clipped = cut.edged[at], fixings.clips is not None
    screws = screws_of(fixings, edged=edged)
    if screws is None or not screws.per_crossing:
        return []
    where = "a joist, in the last row" if clipped else "a crossing"
    name = "border screw" if edged and fixings.border_screws else "deck screw"
    sized = by(screws.shank_mm, screws.length_mm, units)
    low_mm = cut.board_mm + (screws.length_mm - cut.board_mm) * (0.5 if at == 0 else 0.75)
    place = _deck_places(cut, screws, cut.rows[at], clipped=clipped)[0]
    return [(low_mm, place, f"{name} {sized}, {screws.per_crossing} to {where}")]


def _packer_name(cut: Cut, border: Border | None, units: str) -> list[Name]:
    """Return the name of what the thinner boards lie on, if it is shown."""
    if border is None or not border.packed:
        return []
    inwards_mm = _inside(cut, cut.thick_mm.index(min(cut.thick_mm)), 0.3)
    if inwards_mm >= cut.shown_mm:
        return []
    told = f"packer {bare(border.packing_mm, units)}"
    return [(cut.board_mm - border.packing_mm / 2, inwards_mm, told)]


def deck_shanks(cut: Cut, fixings: Fixings) -> list[tuple[float, float, float]]:
    """Return half the width, the length and the place of each screw of boards that is shown."""
    found = []
    for row, edged in zip(cut.rows, cut.edged, strict=True):
        screws = screws_of(fixings, edged=edged)
        if screws is not None:
            half = screws.shank_mm / 2
            places = _deck_places(cut, screws, row, clipped=fixings.clips is not None)
            found += [(half, screws.length_mm, at) for at in places if at + half < cut.shown_mm]
    return found


def _deck_places(
    cut: Cut, deck: DeckScrews | BorderScrews, row: tuple[float, float], *, clipped: bool
) -> list[float]:
    """Return where a row's screws are drawn: at their least distance from its edges.

    Where clips hold the boards: of the outermost row those at its outer edge, and beside the edge
    it is ripped at; of others none.

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
        return [outer, inner] if cut.ripped and outer < inner else [min(outer, inner)]
    if count < 2 or outer >= inner:
        return [min(outer, inner) if outer >= inner else (outer + inner) / 2]
    return [outer + (inner - outer) * n / (count - 1) for n in range(count)]
