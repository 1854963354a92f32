"""Questions that cannot be meant are refused at once, whatever is handed in; none is answered."""

from datetime import date, datetime
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.upkeep.calendar import inspection_calendar
from drylay.upkeep.extension import extension
from drylay.upkeep.lift import boards_to_lift
from drylay.upkeep.locate import locate
from drylay.upkeep.model import Below
from drylay.upkeep.parts import UpkeepError
from drylay.upkeep.repair import repair
from upkeep.decks import plan_of

NO_LENGTHS = st.sampled_from([nan, inf, -inf, "500", "", None, True, [1], 1e12])


@given(NO_LENGTHS, NO_LENGTHS)
def test_a_spot_is_two_lengths(along: object, across: object) -> None:
    with pytest.raises(UpkeepError) as caught:
        locate(plan_of("S01"), along, across)  # type: ignore[arg-type]
    assert [fault.path for fault in caught.value.faults] == ["along_mm", "across_mm"]


@given(NO_LENGTHS)
def test_a_rectangle_below_is_four_lengths(bad: object) -> None:
    reach = Below(from_along_mm=bad, to_along_mm=9, from_across_mm=0, to_across_mm=bad)  # type: ignore[arg-type]
    with pytest.raises(UpkeepError) as caught:
        boards_to_lift(plan_of("S01"), reach=reach)
    wanted = ["reach.from_along_mm", "reach.to_across_mm"]
    assert [fault.path for fault in caught.value.faults] == wanted


@given(NO_LENGTHS)
def test_widths_and_moistures_of_a_repair_are_numbers(bad: object) -> None:
    with pytest.raises(UpkeepError) as caught:
        repair(plan_of("S03"), rows=["B5"], new_width_mm=bad, new_pct=bad)  # type: ignore[arg-type]
    paths = ["new_width_mm"] if bad is None else ["new_width_mm", "new_pct"]
    # True is no moisture either, and 1 would be one
    assert [fault.path for fault in caught.value.faults] == paths


def test_rows_of_a_repair_are_a_list_of_marks() -> None:
    for bad in (5, None):
        with pytest.raises(UpkeepError, match="rows: found"):
            repair(plan_of("S03"), rows=bad, new_width_mm=145)  # type: ignore[arg-type]


@given(NO_LENGTHS)
def test_an_extension_is_asked_by_lengths(bad: object) -> None:
    with pytest.raises(UpkeepError) as caught:
        extension(plan_of("S03"), "top", bad, ten_rows_mm=bad)  # type: ignore[arg-type]
    paths = ["side", "by_mm"] if bad is None else ["side", "by_mm", "ten_rows_mm"]
    assert [fault.path for fault in caught.value.faults] == paths


def test_every_fault_of_a_calendar_is_told_at_once() -> None:
    with pytest.raises(UpkeepError) as caught:
        inspection_calendar(
            plan_of("S01"), handed_over="2027-05-08", years=1.5, spring=(2, 30), autumn=5  # type: ignore[arg-type]
        )  # fmt: skip
    paths = [fault.path for fault in caught.value.faults]
    assert paths == ["handed_over", "years", "spring", "autumn"]


@pytest.mark.parametrize(
    ("more", "wanted"),
    [({"spring": (10, 15), "autumn": (10, 15)}, "autumn: found .10, 15., wanted another day"),
     ({"handed_over": date(9999, 1, 1)}, "handed_over: found 9999-01-01"),
     ({"handed_over": date(2199, 1, 1), "years": 60}, "handed_over"),
     ({"handed_over": datetime(2027, 5, 8, 12)}, "handed_over"),
     ({"years": True}, "years: found true"), ({"years": "3"}, "years"), ({"years": nan}, "years")],
)  # fmt: skip
def test_days_of_a_calendar_are_days(more: dict[str, object], wanted: str) -> None:
    asked = {"handed_over": date(2027, 5, 8), "years": 1} | more
    with pytest.raises(UpkeepError, match=wanted):
        inspection_calendar(plan_of("S01"), **asked)  # type: ignore[arg-type]


def test_a_deck_handed_over_in_the_last_year_known_has_a_calendar() -> None:
    """Of 2199 with a year more: both are years that days are known of."""
    found = inspection_calendar(plan_of("S01"), handed_over=date(2198, 6, 1), years=1)
    assert found.visits[-1].day.year == 2199
