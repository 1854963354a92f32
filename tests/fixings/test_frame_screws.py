"""Screws of noggins and splices, and hangers, against sums by hand."""

from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from audit.sample_deck import fixings, frame
from drylay.fixings.frame_screws import (
    FrameScrewRules,
    count_frame_screws,
    count_hangers,
    hanger_depth_least_mm,
)
from drylay.fixings.model import FrameScrews, Hangers
from drylay.fixings.screws import count_coach_screws
from drylay.frame.model import Frame


def screws(frame: Frame, noggin: int = 2, splice: int = 4) -> FrameScrews | None:
    rules = FrameScrewRules(
        per_noggin_end=noggin, per_splice_side=splice, length_least_mm=90.0, pilot_ratio=0.7
    )
    return count_frame_screws(
        frame, rules, article="QN-6-90", shank_mm=6.0, length_mm=90.0, driver="star 30"
    )


def hangers(frame: Frame) -> Hangers | None:
    return count_hangers(
        frame, article="QH-45-90", joist_mm=45.0, depth_mm=90.0, screw="QS-5-40",
        screw_shank_mm=5.0, screw_length_mm=40.0, screws_each=8,
    )  # fmt: skip


def test_the_hand_made_deck() -> None:
    """Ten noggins, two splices: 2 x 20 + 4 x 4 = 56; nine inner joists: 18 hangers, 144 screws."""
    assert screws(frame()) == fixings().frame_screws
    assert hangers(frame()) == fixings().hangers


@given(st.integers(0, 10), st.integers(0, 2), st.integers(1, 10), st.integers(1, 20))
def test_counts_follow_the_frame(noggins: int, splices: int, per_end: int, per_side: int) -> None:
    whole = frame()
    some = evolve(whole, noggins=whole.noggins[:noggins], splices=whole.splices[:splices])
    counted = screws(some, per_end, per_side)
    count = 2 * noggins * per_end + 2 * splices * per_side
    assert (counted.count if counted else 0) == count


@given(st.integers(2, 11))
def test_hangers_and_coach_screws_together_hold_every_joist_end(joists: int) -> None:
    some = evolve(frame(), joists=frame().joists[:joists])
    hung = hangers(some)
    coach = count_coach_screws(
        joists=joists, per_joist_end=2, length_least_mm=105.0, sink_mm=0.0, pilot_ratio=0.7,
        article="QC-8-110", shank_mm=8.0, length_mm=110.0, head_mm=7.5, on_hangers=True,
    )  # fmt: skip
    assert (hung.count if hung else 0) + coach.joist_ends == 2 * joists
    assert coach.count == 8
    assert (hung is None) == (joists == 2)


def test_sixty_per_cent_of_a_joist() -> None:
    """By hand: 0.6 x 145 = 87; 0.6 x 184.15 = 110.49, up to the next 1/320."""
    assert hanger_depth_least_mm(145.0) == 87.0
    assert hanger_depth_least_mm(184.15) == 35357 / 320
