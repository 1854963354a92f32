"""In words: the border, which rows it is, how it meets the field, what packs the thinner up."""

from itertools import pairwise

from drylay.fixings.model import BoardPackers
from drylay.papers.wording import bare, clean, marks_told, size, size_least, size_most
from drylay.plan.model import Plan
from drylay.surface.model import Border, Surface


def board_told(article: str, width_mm: float, thickness_mm: float, units: str) -> str:
    """Return a board with its sizes: "DB, 145 mm wide, 28 mm thick"."""
    return f"{clean(article, 40)}, {size(width_mm, units)} wide, {size(thickness_mm, units)} thick"


def border_told(plan: Plan) -> list[str]:
    """Return what is to be known of the border, a line each; nothing without one."""
    surface, units = plan.surface, plan.units
    border = surface.border if surface else None
    if surface is None or border is None:
        return []
    packers = plan.fixings.board_packers if plan.fixings else None
    return [_rows(surface, border, units), *_packers(border, packers, units)]


def border_gaps(surface: Surface, units: str) -> str:
    """Return which rows have gaps of another range for a border's sake; "" without a border."""
    border, rows = surface.border, surface.rows
    if border is None:
        return ""
    met = [row.mark for before, row in pairwise(rows) if before.border != row.border]
    own = [row.mark for before, row in pairwise(rows) if before.border and row.border]
    ranges = ((met, border.beside_least_mm, border.beside_most_mm),
              (own, border.gap_least_mm, border.gap_most_mm))  # fmt: skip
    told = [
        f"before {marks_told(marks)} {_range(least_mm, most_mm, units)}"
        for marks, least_mm, most_mm in ranges
        if marks
    ]
    return f" in the field, {', '.join(told)}"


def _rows(surface: Surface, border: Border, units: str) -> str:
    marks = marks_told([row.mark for row in surface.rows if row.border])
    board = board_told(border.article, border.width_mm, border.thickness_mm, units)
    own = _range(border.gap_least_mm, border.gap_most_mm, units)
    both = _range(border.beside_least_mm, border.beside_most_mm, units)
    within = f"; gaps within it {own}" if border.rows > 1 else ""
    return f"Border: rows {marks} of {board}; gaps to the field {both}{within}."


def _range(least_mm: float, most_mm: float, units: str) -> str:
    least, most = size_least(least_mm, units), size_most(most_mm, units)
    return least if least_mm == most_mm else f"{least} to {most}"


def _packers(border: Border, packers: BoardPackers | None, units: str) -> list[str]:
    if packers is None:
        return []
    high = size(packers.height_mm, units)
    named = f"{clean(packers.article, 40)} of {high}" if packers.article else f"of {high}"
    unsold = "" if packers.article else " None so high is on sale: they are not in the order."
    return [
        f"The {border.packed}'s boards are {high} thinner: {packers.count} packers {named} under "
        f"them, one on every joist, so that all boards lie level.{unsold}"
    ]


def edge_told(surface: Surface, units: str, how: str = "") -> str:
    """Return which rows are the border's, and of which board, for a drawing; "" without one."""
    border = surface.border
    if border is None:
        return ""
    marks = marks_told([row.mark for row in surface.rows if row.border])
    wide, thick = bare(border.width_mm, units), bare(border.thickness_mm, units)
    high = bare(border.packing_mm, units)
    packed = f", packers of {high} under the {border.packed}" if border.packed else ""
    return f"; border {how}{marks}: {clean(border.article, 40)}, {wide} x {thick}{packed}"
