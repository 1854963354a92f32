"""A raised deck on a slope, worked by hand in docs/raised.md: nobody's garden."""

from attrs import evolve

from drylay.brief.model import GroundPoint
from drylay.raised.bearers import bearer_lines
from drylay.raised.fitting import Rules, bearer_on, lines_carried_mm
from drylay.raised.ledger import ledger_on
from drylay.raised.model import Heights, Ledger, RaisedFrame
from drylay.raised.outline_model import Stretch
from drylay.raised.standing import PostSpot, raised_frame
from drylay.site.terrain import ground_under, levels_at
from drylay.strength.model import Section
from raised.limits import SAID, limit

WIDE, DEEP = 4000.0, 4200.0
#: Four corners of a plane: it falls 1 in 5 along the house and 1 in 10 away from it.
CORNERS = tuple(
    GroundPoint(along_mm=x, across_mm=y, level_mm=-700 - x / 5 - y / 10)
    for x, y in ((0.0, 0.0), (WIDE, 0.0), (WIDE, DEEP), (0.0, DEEP))
)
HEIGHTS = Heights(
    finished_mm=-150.0, board_mm=28.0, joist_over_mm=145.0, bearer_mm=195.0, stand_off_mm=20.0,
    short_mm=150.0, brace_over_mm=1200.0, screened_mm=1800.0,
)  # fmt: skip
RULES = Rules(
    section=Section(breadth_mm=45.0, depth_mm=195.0, plies=2), post_mm=100.0,
    spans=lambda _: limit(1800.0), end=limit(400.0), back_ratio=0.25, longest_mm=3600.0,
)  # fmt: skip


def on_a_slope(**changed: float) -> RaisedFrame:
    """Return the frame, heights changed as told."""
    lines = bearer_lines(depth_mm=DEEP, bearer_mm=90.0, span=limit(2400.0), end=limit(500.0),
                         back_ratio=0.25, ledger_mm=45.0)  # fmt: skip
    ground = ground_under(CORNERS, WIDE, DEEP)
    assert ground is not None
    bearers, rows = [], []
    for number, (at, load) in enumerate(
        zip(lines.lines_mm, lines_carried_mm(lines), strict=True), 1
    ):
        stretch = Stretch(line=number, across_mm=at, start_mm=0.0, end_mm=WIDE)
        fitted, _ = bearer_on(f"BR{number}", stretch, load, RULES)
        spots = tuple((place, at) for place in fitted.posts.places_mm)
        levels = levels_at(CORNERS, spots, ground)
        bearers.append(fitted.bearer)
        rows.append([
            PostSpot(along_mm=along, ground_mm=level, joist_from_mm=45.0, joist_to_mm=DEEP)
            for (along, _), level in zip(spots, levels, strict=True)
        ])  # fmt: skip
    ledger = ledger_on(
        wall="solid masonry", section=Section(breadth_mm=45.0, depth_mm=145.0), start_mm=0.0,
        end_mm=WIDE, spacing_most_mm=600.0, from_end_mm=60.0, clear_mm=60.0, source=SAID,
        joists_mm=[22.5 + 395.5 * n for n in range(11)],
    )  # fmt: skip
    assert isinstance(ledger, Ledger)
    return raised_frame(
        bearers=bearers, spots=rows, post_section=Section(breadth_mm=100.0, depth_mm=100.0),
        heights=evolve(HEIGHTS, **changed), brace_leg_mm=500.0, ledger=ledger,
    )  # fmt: skip
