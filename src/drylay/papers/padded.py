"""A figure with room about its cover: for what reaches past it, holes beside posts or steps."""

from collections.abc import Iterable, Mapping

from attrs import evolve, frozen

from drylay.papers.dimensions import all_edges
from drylay.papers.figures import house_side, placed
from drylay.papers.model import Edge, Lettering, Shape, Sheet, View
from drylay.papers.ruled import paragraphs, paragraphs_height
from drylay.papers.sheets import INSET_MM, body_notes, room

#: How wide notes stand beside a figure, and how far from it.
NOTES_MM, BESIDE_MM = 66.0, 4.0


@frozen(kw_only=True)
class Past:
    """How far things reach past each side of the cover as drawn, in mm of deck."""

    left_mm: float = 0.0
    top_mm: float = 0.0
    right_mm: float = 0.0
    bottom_mm: float = 0.0


@frozen(kw_only=True)
class Padded:
    """A sheet with a figure on it: the cover's own view, and that of all round it.

    `extent` is the cover's size on paper, `whole` that of the figure with all that reaches past
    it; `edges` are the dimensions outside the whole, counted from its corner. Of the notes those
    at the sheet's `foot` find room there; where they do not, all stand `beside` the figure.
    """

    sheet: Sheet
    cover: View
    extent: tuple[float, float]
    around: View
    whole: tuple[float, float]
    edges: Mapping[str, Edge]
    foot: tuple[str, ...]
    beside: tuple[str, ...]


def past_of(
    boxes: Iterable[tuple[float, float, float, float]], size_mm: tuple[float, float]
) -> Past:  # fmt: skip
    """Return how far boxes reach past a cover: each left, top, right, bottom, as drawn."""
    lefts, tops, rights, bottoms = zip((0.0, 0.0, *size_mm), *boxes, strict=True)
    return Past(left_mm=-min(lefts), top_mm=-min(tops), right_mm=max(rights) - size_mm[0],
                bottom_mm=max(bottoms) - size_mm[1])  # fmt: skip


def padded(
    run: str, size_mm: tuple[float, float], past: Past, edges: Mapping[str, Edge], *, units: str,
    pitch_mm: float, notes: tuple[str, ...],
) -> Padded:  # fmt: skip
    """Return a figure's sheet and views: the smallest paper on which it reads well.

    `edges` are told from the cover's corner, `size_mm` is its width and height as drawn.
    """
    wide = size_mm[0] + past.left_mm + past.right_mm
    high = size_mm[1] + past.top_mm + past.bottom_mm
    moved = {
        side: _moved(edge, past.left_mm if side in {"top", "bottom"} else past.top_mm)
        for side, edge in edges.items()
    }
    size = (wide, high)
    sheet, around = placed(run, size, moved, units=units, pitch_mm=pitch_mm)
    beside = body_notes(sheet, notes)
    if beside:
        aside = (NOTES_MM + BESIDE_MM, paragraphs_height(notes, NOTES_MM))
        sheet, around = placed(run, size, moved, units=units, pitch_mm=pitch_mm, aside_mm=aside)
    per_mm = around.per_mm
    cover = evolve(around, left_mm=around.left_mm + past.left_mm / per_mm,
                   top_mm=around.top_mm + past.top_mm / per_mm)  # fmt: skip
    return Padded(
        sheet=sheet, cover=cover, extent=(size_mm[0] / per_mm, size_mm[1] / per_mm),
        around=around, whole=(wide / per_mm, high / per_mm), edges=moved,
        foot=() if beside else notes, beside=beside,
    )  # fmt: skip


def outside(figure: Padded) -> list[Shape]:
    """Return the dimensions outside a figure, the house beside its cover, and notes beside it."""
    house = house_side(figure.cover, figure.extent)
    return [*dimensions(figure), *house, *notes_beside(figure)]


def dimensions(figure: Padded) -> list[Shape]:
    """Return the dimensions outside a figure.

    Texts stand on white and last: short dimensions are narrower than what is told of them.
    """
    drawn = all_edges(figure.edges, figure.around, figure.whole)
    texts = [evolve(shape, knocked=True) for shape in drawn if isinstance(shape, Lettering)]
    return [*(shape for shape in drawn if not isinstance(shape, Lettering)), *texts]


def notes_beside(figure: Padded) -> list[Shape]:
    """Return the notes that stand beside a figure."""
    left = figure.sheet.width_mm - INSET_MM - NOTES_MM
    return paragraphs(figure.beside, "notes", left, INSET_MM, NOTES_MM)


def framed(figure: Padded) -> tuple[tuple[float, float], ...]:
    """Return the corners of the paper that a figure's texts may stand on: not on its notes."""
    wide, high = room(figure.sheet)
    right = INSET_MM + wide - (NOTES_MM + BESIDE_MM if figure.beside else 0.0)
    bottom = INSET_MM + high
    return (INSET_MM, INSET_MM), (right, INSET_MM), (right, bottom), (INSET_MM, bottom)


def _moved(edge: Edge, by_mm: float) -> Edge:
    """Return an edge's dimensions counted from a corner that lies so much before it."""
    return evolve(
        edge,
        marks=tuple(evolve(mark, at_mm=mark.at_mm + by_mm) for mark in edge.marks),
        spans=tuple(
            evolve(span, from_mm=span.from_mm + by_mm, to_mm=span.to_mm + by_mm)
            for span in edge.spans
        ),
    )
