"""Fixings and work of the plan put together by hand: screws, pegs, a 3-4-5, two tasks."""

from drylay.edges.model import Edges
from drylay.fixings.model import CoachScrews, DeckScrews, FixingMetal, Fixings
from drylay.pieces.model import Pieces
from drylay.reasons import Source
from drylay.work.model import HoldPoint, Peg, SettingOut, Task, Tool, Work

PRACTICE = Source(kind="common practice", title="softwood family", clause="laying")


def work_of(edges: Edges, run: str, units: str) -> Work:
    """Pegs at the corners, the largest 3-4-5, and two tasks."""
    start, near = edges.frame_start_mm, edges.frame_near_mm
    along, across = edges.frame_length_mm, edges.frame_depth_mm
    if run == "across":
        start, near, along, across = near, start, across, along
    unit = 304.8 if units == "imperial" else 100.0
    times = int(min(min(along, across) / 3, max(along, across) / 4) / unit)
    legs = (4, 3, 5) if along >= across else (3, 4, 5)
    told = tuple(leg * times * unit if times else None for leg in legs)
    corners = ((start, near), (start + along, near), (start + along, near + across),
               (start, near + across))  # fmt: skip
    hold = HoldPoint(mark="square", check="the diagonals, {frame.diagonal_mm} each", limit=5.0,
                     unit="mm", source=PRACTICE, signed_by="builder")  # fmt: skip
    plain = {"tools": ("tape",), "cautions": (), "people": 2, "least_h": 1.0, "most_h": 2.5}
    return Work(
        face_up="smooth", people=2, lighting=None, holds=1, least_h=2.0, most_h=5.0,
        tasks=(
            Task(mark="W1", kind="set_out", title="Set out", steps=("Drive four pegs.",),
                     after=(), holds=(hold,), **plain),
            Task(mark="W2", kind="frame", title="Put the frame together",
                 steps=("Drill {fixings.coach_screws.pilot_mm}.",), after=("W1",), holds=(),
                 **{**plain, "cautions": ("Wear gloves.",)}),
        ),
        tools=(Tool(mark="tape", what="tape measure", purpose="setting out", size_at=""),
               Tool(mark="saw", what="saw of kerf", purpose="cuts", size_at="buying.kerf_mm")),
        setting_out=SettingOut(
            pegs=tuple(Peg(mark=f"P{i + 1}", along_mm=x, across_mm=y)
                       for i, (x, y) in enumerate(corners)),
            leg_along_mm=told[0], leg_across_mm=told[1], slant_mm=told[2], accepted_mm=5.0,
        ),
    )  # fmt: skip


def fixings_of(pieces: Pieces, rows: int, joists: int) -> Fixings:
    crossings = rows * joists
    return Fixings(
        deck_screws=DeckScrews(
            article="DS5x70", shank_mm=5.0, length_mm=70.0, length_least_mm=70.0, per_crossing=2,
            crossings=crossings, joints=pieces.joint_count,
            count=2 * (crossings + pieces.joint_count), edge_least_mm=20.0, end_least_mm=20.0,
            pilot_ratio=0.8, pilot_mm=4.0,
        ),
        coach_screws=CoachScrews(
            article="CS8x120", shank_mm=8.0, length_mm=120.0, length_least_mm=110.0,
            per_joist_end=2, joist_ends=2 * joists, count=4 * joists, pilot_ratio=0.7,
            pilot_mm=5.6, head_mm=6.0, sink_mm=6.0,
        ),
        metals=(
            FixingMetal(what="deck screws", article="DS5x70", metal="stainless A2", allowed=True),
            FixingMetal(
                what="coach screws", article="CS8x120", metal="hot-dip galvanised", allowed=True
            ),
        ),
    )  # fmt: skip
