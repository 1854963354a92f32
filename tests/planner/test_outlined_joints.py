"""What boards on an outline may be jointed over, by hand: a row beside an opening, joists across.

Joists stand at 4525, 4775 and 4975 of the row's 5000; before them an opening, whose trimmer lies
under the row's middle line.
"""

from drylay.laying.axes import Axes
from drylay.laying.carried import Along, Standing
from drylay.laying.parts import Band, Part
from drylay.outline.model import Spot
from drylay.planner.outlined_boards import _under
from drylay.planner.outlined_stretches import Stretch
from drylay.subframe.model import Member

BAND = Band(row="B1", axes=Axes(cos_ratio=1.0, sin_ratio=0.0), low_mm=0.0, high_mm=140.0)
ALONG = Along(most_mm=400.0, thickness_mm=45.0)


def member(mark: str, kind: str, *ends: tuple[float, float], line: int | None) -> Standing:
    start, end = (Spot(along_mm=x, across_mm=y) for x, y in ends)
    return Standing(
        member=Member(mark=mark, kind=kind, start=start, end=end, corners=(), length_mm=0.0,
                      start_deg=0.0, end_deg=0.0, start_on="", end_on=""),
        line=line,
    )  # fmt: skip


MEMBERS = [
    member("U1", "trimmer", (0.0, 70.0), (4525.0, 70.0), line=None),
    *(
        member(f"J{line}", "joist", (at, -500.0), (at, 500.0), line=line)
        for line, at in ((13, 4525.0), (14, 4775.0), (15, 4975.0))
    ),
]


def stretch(kind: str, long_mm: float = 5000.0) -> Stretch:
    ring = ((0.0, 0.0), (long_mm, 0.0), (long_mm, 140.0), (0.0, 140.0))
    part = Part(band=BAND, ring=ring)
    return Stretch(prefix="B1.", kind=kind, row="B1", row_number=1, part=part, width_mm=140.0)


def test_a_row_is_jointed_over_joists_and_a_borders_board_anywhere_along_its_member() -> None:
    row, border = (_under(stretch(kind), MEMBERS, ALONG, 4.0) for kind in ("field", "border"))
    assert [each.at_mm for each in row] == [4525.0, 4775.0, 4975.0]
    assert {each.member for each in border} == {"U1"}
    # 5000 less a timber's 45 in bays of 400 at the most
    assert len(border) == 14
