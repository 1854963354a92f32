"""Screws, counted by hand."""

from drylay.fixings.screws import ScrewRules, count_coach_screws, count_deck_screws

RULES = ScrewRules(
    per_crossing=2, length_least_mm=70.0, edge_least_mm=20.0, end_least_mm=15.0, pilot_ratio=0.7
)


def test_deck_screws_by_hand() -> None:
    """20 rows x 16 joists x 2 + 20 joints x 2 = 680. Worked separately from the library."""
    found = count_deck_screws(
        rows=20, joists=16, joints=20, rules=RULES, article="DS", shank_mm=4.5, length_mm=70.0
    )
    assert (found.crossings, found.joints, found.count) == (320, 20, 680)
    assert found.pilot_mm == 3.15  # 0.7 x 4.5


def test_coach_screws_by_hand() -> None:
    """16 joists x 2 ends x 2 screws = 64, eight of them at the four corners."""
    found = count_coach_screws(
        joists=16, per_joist_end=2, length_least_mm=93.0, sink_mm=12.0, article="CS",
        shank_mm=8.0, length_mm=100.0, head_mm=8.0, pilot_ratio=0.7, driver="hex 13 mm",
    )  # fmt: skip
    assert (found.joist_ends, found.count) == (32, 64)
    assert (found.pilot_mm, found.driver) == (5.6, "hex 13 mm")  # 0.7 x 8
