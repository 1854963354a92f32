"""The questions a family is asked: sample boards, turned, in other uses and other places."""

from collections.abc import Iterable, Iterator

from attrs import evolve

from drylay.brief.model import EXPOSURES, USES
from drylay.materials.model import DRIVEN_INTO, RuleQuery
from drylay.materials.stock_model import METALS

#: Sizes that are sold in many families; common practice, no source.
THICKNESSES_MM = (20.0, 21.0, 25.0, 28.0, 32.0, 38.0)
WIDTHS_MM = (90.0, 145.0)
ANGLES_DEG = (90.0, 75.0, 60.0, 45.0, 30.0, 15.0)

#: The boards that are asked about where nobody names others.
BOARDS: tuple[RuleQuery, ...] = tuple(
    RuleQuery(
        board_width_mm=width_mm,
        board_thickness_mm=thickness_mm,
        joist_thickness_mm=45.0,
        fascia_thickness_mm=thickness_mm,
        board_length_mm=3600.0,
        laying_c=12.0,
        hottest_c=50.0,
        coldest_c=-10.0,
        laying_pct=18.0,
        wettest_pct=24.0,
        driest_pct=14.0,
    )
    for thickness_mm in THICKNESSES_MM
    for width_mm in WIDTHS_MM
)


def variants(board: RuleQuery) -> Iterator[RuleQuery]:
    """Yield a board as it is, turned, in every use and place, and with heads sunk."""
    for use in USES:
        for angle_deg in ANGLES_DEG:
            yield evolve(board, use=use, board_to_joist_deg=angle_deg)
    for exposure in EXPOSURES[1:]:
        yield evolve(board, exposure=exposure)
    yield evolve(board, head_sunk_mm=12.0)


def metal_questions(board: RuleQuery) -> Iterator[RuleQuery]:
    """Yield a board with fixings of every metal in every place, driven into all there is."""
    for driven_into in DRIVEN_INTO:
        for exposure in EXPOSURES:
            for metal in METALS:
                yield evolve(board, exposure=exposure, metal=metal, driven_into=driven_into)


def questions(rule: str, boards: Iterable[RuleQuery]) -> Iterator[RuleQuery]:
    """Yield the questions that a rule is asked about some boards."""
    for board in boards:
        yield from metal_questions(board) if rule == "metal_allowed" else variants(board)
