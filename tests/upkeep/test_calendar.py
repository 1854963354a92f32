"""The calendar: days worked by hand, items only where the plan has their subject, its file."""

import re
from datetime import date

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.outline.model import Opening, Spot
from drylay.plan.model import Plan
from drylay.reasons import SOURCE_KINDS
from drylay.upkeep.calendar import inspection_calendar
from drylay.upkeep.days import due_days, months_after, season_days
from drylay.upkeep.ics import calendar_ics, escaped, folded
from drylay.upkeep.looked_at import told
from drylay.upkeep.model import Calendar
from drylay.upkeep.parts import UpkeepError
from drylay.work.model import Light, Lighting
from upkeep.decks import ALL, plan_of

DAY = date(2026, 6, 20)
TEXTS = st.text(st.characters(codec="utf-8"), max_size=90)


def calendar(plan: Plan, years: int = 3) -> Calendar:
    return inspection_calendar(plan, handed_over=DAY, years=years)


def whats(its: Calendar) -> set[str]:
    return {item.what for visit in its.visits for item in visit.items}


def test_days_worked_by_hand() -> None:
    """Handed over on 20 June 2026 for two years: up to 20 June 2028."""
    assert [(v.day.isoformat(), v.kind) for v in calendar(plan_of("S03"), 2).visits] == [
        ("2026-06-20", "hand_over"), ("2026-09-20", "three_months"), ("2026-10-15", "autumn"),
        ("2027-04-15", "spring"), ("2027-10-15", "autumn"), ("2028-04-15", "spring"),
    ]  # fmt: skip
    south = inspection_calendar(plan_of("S03"), handed_over=DAY, years=1, spring=(10, 15),
                                autumn=(4, 15))  # fmt: skip
    assert [(v.day.isoformat(), v.kind) for v in south.visits][2:] == [
        ("2026-10-15", "spring"), ("2027-04-15", "autumn"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("day", "months", "wanted"),
    [(date(2026, 11, 30), 3, date(2027, 2, 28)), (date(2027, 11, 30), 3, date(2028, 2, 29)),
     (date(2026, 1, 31), 12, date(2027, 1, 31)), (date(2026, 12, 1), 1, date(2027, 1, 1))],
)  # fmt: skip
def test_months_after_a_day(day: date, months: int, wanted: date) -> None:
    assert months_after(day, months) == wanted


def test_tasks_fall_due_as_often_as_the_family_says() -> None:
    seasons = season_days(DAY, 10, spring=(4, 15), autumn=(10, 15))
    last = date(2036, 6, 20)
    springs = [date(year, 4, 15) for year in range(2027, 2037)]
    assert due_days(seasons, last, times=1, in_years=1) == tuple(springs)
    assert due_days(seasons, last, times=1, in_years=5) == (springs[4], springs[9])
    assert due_days(seasons, last, times=2, in_years=1) == tuple(day for day, _ in seasons)
    four = due_days(seasons, last, times=4, in_years=1)
    assert len(four) == 37  # from spring 2027 to June 2036: nine years of four, and one more
    assert four[:4] == (date(2027, 4, 15), date(2027, 7, 15), date(2027, 10, 15), date(2028, 1, 14))
    assert due_days((), last, times=4, in_years=1) == ()


@settings(max_examples=40)
@given(st.integers(1, 12), st.integers(1, 10))
def test_a_task_is_done_about_as_often_in_many_years(times: int, in_years: int) -> None:
    seasons = season_days(DAY, 40, spring=(4, 15), autumn=(10, 15))
    days = due_days(seasons, date(2066, 6, 20), times=times, in_years=in_years)
    assert abs(len(days) - 40 * times / in_years) <= times / in_years + 1
    assert list(days) == sorted(days)
    assert all(DAY < day <= date(2066, 6, 20) for day in days)


@pytest.mark.parametrize("name", ALL)
def test_every_item_has_a_source_a_place_and_somebody_to_do_it(name: str) -> None:
    its = calendar(plan_of(name))
    assert calendar(plan_of(name)) == its
    assert [v.mark for v in its.visits] == [f"V{n}" for n in range(1, len(its.visits) + 1)]
    for visit in its.visits:
        for item in visit.items:
            assert item.where
            assert all(item.where)
            assert item.who
            assert item.rule
            assert bool(item.if_not) == bool(item.then_by)
            for source in (item.source, *(hold.source for hold in item.holds)):
                assert source.kind in SOURCE_KINDS
                assert source.title


def test_figures_to_pass_are_those_of_common_practice() -> None:
    """Common practice, no source: a probe deeper than 5 mm is soft, over 22 % is looked below."""
    holds = {
        (hold.limit, hold.unit)
        for visit in calendar(plan_of("S03")).visits
        for item in visit.items
        for hold in item.holds
        if hold.limit is not None
    }
    assert holds == {(5.0, "mm"), (22.0, "%")}


def test_what_the_plan_has_not_is_not_looked_for() -> None:
    plain = whats(calendar(plan_of("S03")))
    assert not any(word in what for what in plain for word in ("ledger", "post", "RCD", "hatches"))
    stands = whats(calendar(plan_of("S15")))
    for word in ("ledger", "post feet", "guard post"):
        assert any(word in what for what in stands)
    clipped = calendar(plan_of("S08"))
    assert not any("board ends" in what for what in whats(clipped))  # composite does not rot
    (three,) = [visit for visit in clipped.visits if visit.kind == "three_months"]
    assert three.items[0].where == ("B21",)  # clips hold all but the last row


def test_a_soft_post_or_a_moved_ledger_is_for_a_professional() -> None:
    spring = next(v for v in calendar(plan_of("S15")).visits if v.kind == "spring")
    asked = {item.what: item.then_by for item in spring.items}
    for word in ("post feet", "ledger", "frame", "guard post"):
        found = [then for what, then in asked.items() if word in what]
        assert found == ["a licensed professional"]


def test_lights_and_drains_are_looked_at_where_there_are_any() -> None:
    plan, corner = plan_of("S12"), Spot(along_mm=0.0, across_mm=0.0)
    assert plan.work is not None
    assert plan.outline is not None
    light = Light(mark="L1", row="B1", along_mm=10.0, across_mm=10.0)
    lighting = Lighting(side="front", count=1, hole_mm=30.0, depth_mm=20.0, clear_least_mm=20.0,
                        trunk_mm=None, cable_mm=900.0, lights=(light,))  # fmt: skip
    hatch = Opening(mark="O1", kind="hatch", corners=(corner,) * 3, within=(corner,) * 3,
                    clear_mm=40.0, clear_least_mm=40.0, clear_most_mm=50.0)  # fmt: skip
    lit = evolve(plan, work=evolve(plan.work, lighting=lighting),
                 outline=evolve(plan.outline, openings=(hatch,)))  # fmt: skip
    found = {item.what: item for visit in calendar(lit).visits for item in visit.items}
    assert found["Lift the hatches and look into the drains"].where == ("O1",)
    rcd = found["Press the RCD's test button, then see every light burn"]
    assert (rcd.where, rcd.then_by) == (("L1",), "a licensed electrician")


def test_marks_are_told_with_none_left_out() -> None:
    assert told(["B1", "B2", "B3", "B5", "RA", "RB"]) == ("B1 to B3", "B5", "RA", "RB")
    assert told([]) == ()


@pytest.mark.parametrize(
    ("more", "wanted"),
    [({"years": 0}, "years: found 0"), ({"years": 61}, "years"), ({"spring": (2, 30)}, "spring"),
     ({"autumn": ("x", 1)}, "autumn")],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(more: dict[str, object], wanted: str) -> None:
    asked = {"handed_over": DAY, "years": 1} | more
    with pytest.raises(UpkeepError, match=wanted):
        inspection_calendar(plan_of("S01"), **asked)  # type: ignore[arg-type]
    with pytest.raises(UpkeepError, match="a blocked plan"):
        calendar(evolve(plan_of("S01"), work=None))


def unfolded(raw: bytes) -> list[str]:
    """RFC 5545, 3.1: lines end in CRLF; a CRLF and a space in the middle of one is nothing."""
    assert raw.endswith(b"\r\n")
    assert all(len(line) <= 75 for line in raw.split(b"\r\n"))
    assert b"\n" not in raw.replace(b"\r\n", b"")
    return raw.replace(b"\r\n ", b"").decode().split("\r\n")[:-1]


def unescaped(text: str) -> str:
    """RFC 5545, 3.3.11, the other way: written here, not shared."""
    signs = {"n": "\n", "N": "\n", "\\": "\\", ";": ";", ",": ","}
    return re.sub(r"\\(.)", lambda found: signs[found[1]], text)


@pytest.mark.parametrize("name", ALL)
def test_the_file_keeps_to_the_standard(name: str) -> None:
    its = calendar(plan_of(name))
    lines = unfolded(calendar_ics(its))
    assert lines[:2] == ["BEGIN:VCALENDAR", "VERSION:2.0"]
    assert lines[-1] == "END:VCALENDAR"
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == len(its.visits)
    values = [line.partition(":") for line in lines]
    uids = [value for name, _, value in values if name == "UID"]
    assert len(set(uids)) == len(its.visits)
    assert {value for name, _, value in values if name == "DTSTAMP"} == {"20260620T000000Z"}
    days = [value for name, _, value in values if name == "DTSTART;VALUE=DATE"]
    assert days == [f"{visit.day:%Y%m%d}" for visit in its.visits]
    texts = [unescaped(value) for name, _, value in values if name == "DESCRIPTION"]
    for visit, text in zip(its.visits, texts, strict=True):
        assert all(item.what in text and item.rule in text for item in visit.items)
    assert calendar_ics(calendar(plan_of(name))) == calendar_ics(its)


def test_another_plan_has_other_uids() -> None:
    one, other = (calendar(plan_of(name), 1).plan_id for name in ("S01", "S03"))
    assert one != other


def test_what_has_a_meaning_of_its_own_is_escaped() -> None:
    """RFC 5545, 3.3.11: backslash, semicolon, comma and a line feed."""
    assert escaped("a;b,c\\d\ne\tf") == "a\\;b\\,c\\\\d\\ne f"


@settings(max_examples=40)
@given(TEXTS)
def test_any_text_survives_escaping_and_folding(text: str) -> None:
    (line,) = unfolded(folded(f"X:{escaped(text)}"))
    kept = "".join(sign if sign.isprintable() or sign == "\n" else " " for sign in text)
    assert unescaped(line[2:]) == kept
    assert not re.search(r"(?<!\\)(?:\\\\)*[;,\n]", line[2:])
