"""A surface with a border, measured by the conventions: which rows are whose, what gaps may be."""

from collections.abc import Iterable

from drylay.audit.exact import ticks
from drylay.plan.model import Plan
from drylay.surface.model import Border, Row, Surface

#: Least and most of a gap, in 1/320 mm.
Range = tuple[int, int]


def field_rows(surface: Surface) -> tuple[Row, ...]:
    """Return the rows of the field's board."""
    return tuple(row for row in surface.rows if not row.border)


def border_rows(surface: Surface) -> tuple[Row, ...]:
    """Return the rows of the border's board."""
    return tuple(row for row in surface.rows if row.border)


def border_marks(plan: Plan) -> set[str]:
    """Return the marks of the border's rows."""
    return set() if plan.surface is None else {row.mark for row in border_rows(plan.surface)}


def ranges(surface: Surface) -> list[Range]:
    """Return what each gap may be, in the order of the rows they lie before, from the second on."""
    field = ticks(surface.gap_least_mm), ticks(surface.gap_most_mm)
    border = surface.border
    own = (ticks(border.gap_least_mm), ticks(border.gap_most_mm)) if border else field
    both = (max(field[0], own[0]), min(field[1], own[1]))
    kinds = {(False, False): field, (True, True): own}
    pairs = zip(surface.rows, surface.rows[1:], strict=False)
    return [kinds.get((one.border, other.border), both) for one, other in pairs]


def taken_by_border(border: Border | None) -> int:
    """Return what a border takes of the wished cover at both edges, gaps to the field with it."""
    if border is None:
        return 0
    gaps = (border.rows - 1) * ticks(border.gap_preferred_mm) + ticks(border.beside_mm)
    return 2 * (border.rows * ticks(border.width_mm) + gaps)


def thickest(surface: Surface) -> int:
    """Return how thick boards and what packs the thinner ones up are together."""
    border = surface.border
    thicknesses: Iterable[float] = (
        surface.board_thickness_mm, border.thickness_mm if border else 0.0,
    )  # fmt: skip
    return max(ticks(each) for each in thicknesses)
