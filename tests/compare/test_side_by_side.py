"""Groups side by side: laws against plain sorting, examples by hand, and bad input."""

import statistics
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.compare.side_by_side import side_by_side
from drylay.compare.study_model import Row
from drylay.errors import InputError

FIGURES = st.one_of(st.none(), st.integers(-9, 9), st.integers(-99, 99).map(lambda n: n / 10))


def deck(made_of: object, total: object, least: object = None, most: object = None,
         **more: object) -> Row:  # fmt: skip
    return {"made_of": made_of, "outcome": "planned", "codes": "", "stop_codes": "",
            "currency": "GBP", "total": total, "yearly_least": least, "yearly_most": most,
            **more}  # fmt: skip


def blocked(made_of: object, codes: str, outcome: str = "blocked") -> Row:
    return deck(made_of, None) | {"outcome": outcome, "codes": codes, "currency": None,
                                    "stop_codes": codes[:7]}  # fmt: skip


# --- laws -------------------------------------------------------------------------------------

ROWS = st.lists(st.builds(
    lambda name, total, life, outcome: deck(name, total, life_years=life) | {"outcome": outcome},
    st.sampled_from(["oak", None, 2400, "2400"]), FIGURES, FIGURES,
    st.sampled_from(["planned", "planned", "refused"]),
), min_size=1, max_size=25)  # fmt: skip


@given(ROWS)
@settings(max_examples=40)
def test_every_row_is_in_one_group_and_spreads_are_those_of_sorted_figures(rows: list[Row]) -> None:
    """`statistics` of the standard library has both medians of its own."""
    found = side_by_side(iter(rows), by="made_of", of=("total", "life_years"))
    assert sum(group.count for group in found.groups) == len(rows)
    names = list(dict.fromkeys(str(row["made_of"] or "none") + type(row["made_of"]).__name__
                               for row in rows))  # fmt: skip
    assert len(found.groups) == len(names)
    assert len({group.name for group in found.groups}) == len(names)
    values = list(dict.fromkeys(row["made_of"] for row in rows))
    for value, group in zip(values, found.groups, strict=True):
        own = [row for row in rows if row["made_of"] == value and row["outcome"] == "planned"]
        assert group.buildable == len(own)
        for spread, middle in zip(group.spreads, (statistics.median_high, statistics.median_low),
                                  strict=True):  # fmt: skip
            told = [Fraction(str(v)) for row in own if (v := row[spread.figure]) is not None]
            assert spread.count == len(told)
            if told:
                seen = [Fraction(str(v)) for v in (spread.least, spread.median, spread.most)]
                assert seen == [min(told), middle(told), max(told)]
            else:
                assert spread.least is spread.median is spread.most is None


# --- by hand ----------------------------------------------------------------------------------


def test_of_two_middle_costs_the_higher_one_counts_and_of_lives_the_lower() -> None:
    rows = [
        deck("oak", Decimal(cost), life_least_years=years)
        for cost, years in (("10.00", 8), ("30.00", 12), ("20.00", 9), ("40.00", 15))
    ]
    (group,) = side_by_side(rows, by="made_of", of=["total", "life_least_years", "total"]).groups
    assert [str(spread.median) for spread in group.spreads] == ["30.00", "9"]


def test_a_group_that_cannot_be_built_still_stands_there() -> None:
    rows = [blocked("oak", "ROW-001 GAP-002"), deck("softwood", Decimal(5)),
            blocked("oak", "ROW-001"), blocked("oak", "", "refused"), deck(None, Decimal(7)),
            {"made_of": "oak", "buildable": False, "total": None}]  # fmt: skip
    found = side_by_side(rows, by="made_of", of=["total"])
    assert [(g.name, g.count, g.buildable) for g in found.groups] == [
        ("oak", 4, 0), ("softwood", 1, 1), ("none", 1, 1)]  # fmt: skip
    assert found.groups[0].stop_codes == (
        ("ROW-001", 2), ("GAP-002", 1), ("blocked", 1), ("refused", 1))  # fmt: skip
    assert found.groups[1].stop_codes == ()
    assert "- oak: 4 of 4 decks: ROW-001 (2), GAP-002 (1), blocked (1), refused (1)" in str(found)
    assert found.currency == "GBP"


def test_values_that_are_alike_are_one_group() -> None:
    values = [2400, 2400.0, Decimal("2400.0"), "2400", True, 1, None, "none", [4800, 5400],
              (1.5,), "", float("nan")]  # fmt: skip
    rows = [deck(value, 1) for value in values]
    names = [group.name for group in side_by_side(rows, by="made_of", of=["total"]).groups]
    assert names == ["2400", "2400 (2)", "yes", "1", "none", "none (2)", "4800 5400", "1.5",
                     '""', "nan"]  # fmt: skip


# --- bad input --------------------------------------------------------------------------------


def faults(rows: object, **named: object) -> list[tuple[str, str, str]]:
    with pytest.raises(InputError) as raised:
        side_by_side(rows, **named)  # type: ignore[arg-type]
    return [(fault.path, fault.found, fault.nearest) for fault in raised.value.faults]


def test_every_fault_is_told_at_once() -> None:
    rows = [deck("oak", "12.00"), deck("oak", Decimal(3)) | {"currency": "EUR"}]
    assert faults(rows, by="madeof", of=["total", "yearly_lest", 3]) == [
        ("by", '"madeof"', "made_of"),
        ("total", '"12.00"', ""),
        ("of", '"yearly_lest"', "yearly_least"),
        ("of", "3", ""),
        ("currency", "EUR, GBP", ""),
    ]
    assert faults(rows[:1], by="made_of", of="yearly_least") == [
        ("of", '"yearly_least"', '("yearly_least",)')]  # fmt: skip
    assert faults(rows[:1], by="made_of", of=())[0][2] == "total, yearly_least, yearly_most"
    assert faults(rows[:1], by="made_of", of=3)[0][1] == "3"
    assert [path for path, *_ in faults([], by="made_of")] == ["rows"]


# --- told -------------------------------------------------------------------------------------


def test_it_is_told_in_words() -> None:
    rows = [deck("softwood", Decimal("400.10"), Decimal("30.00"), Decimal("60.00")),
            deck("softwood", Decimal("410.00"), Decimal("31.00"), Decimal("70.00")),
            deck("oak", Decimal("900.00")), blocked("turf", "ROW-001")]  # fmt: skip
    assert (
        str(side_by_side(rows, by="made_of"))
        == """\
SIDE BY SIDE: made_of
=====================
All money in GBP.

                                          softwood        oak  turf
decks                                            2          1     1
can be built                                     2          1     0
first cost: least                           400.10     900.00     -
  median                                    410.00     900.00     -
  most                                      410.00     900.00     -
cost a year, lives at most: least            30.00  not known     -
  median                                     31.00  not known     -
  most                                       31.00  not known     -
  known of                                       2          0     0
cost a year, lives at least: least           60.00  not known     -
  median                                     70.00  not known     -
  most                                       70.00  not known     -
  known of                                       2          0     0
COST A YEAR                         30.00 to 70.00  not known     -

CANNOT BE BUILT
- turf: 1 of 1 deck: ROW-001 (1)

HOW TO READ IT
- Median: of two figures in the middle the higher one is told.
- Figures are of the decks that can be built. Where some cannot, groups are
  not of the same decks: hold them against each other with care.
- Upkeep is in a year's cost only where the study was told the price of an
  hour.
- Not in a year's cost: the work of building, lifting and renewing, what
  upkeep uses up, taking away what is worn out, delivery, tools, and prices
  that change.
"""
    )


def test_many_groups_and_hostile_names_stay_on_the_page() -> None:
    by = "\u202eboard\n" + "x" * 90
    rows = [{by: f"a\nb {at} " + "y" * 60, "outcome": "planned", "total": Decimal(10) ** 30,
             "life_years": 8} for at in range(45)]  # fmt: skip
    rows += [{by: rows[0][by], "outcome": "blocked", "codes": " ".join(f"C-{n}" for n in range(9))}]
    text = str(side_by_side(rows, by=by, of=["life_years", "total"]))
    assert max(map(len, text.splitlines())) <= 78
    assert "\u202e" not in text
    assert "5 more groups in the table." in text
    assert "\n- a b 1 yyyyyyyyyyy...: a b 1\n  yyyy" in text
    assert "C-5 (1), and 3 more codes" in text
    assert "the higher one is told, of years the\n  lower." in text


def test_names_that_are_alike_once_cut_off_are_numbered() -> None:
    rows = [deck(f"softwood of a large mill {at}", Decimal(at)) for at in range(3)]
    text = str(side_by_side(rows, by="made_of", of=["total"]))
    assert "softwood of a lar...  softwood of a... (2)" in text
    assert "- softwood of a... (3): softwood of a large mill 2\n" in text


def test_flat_rows_have_units_at_the_end_of_their_names() -> None:
    rows = [deck("oak", Decimal("1.50")), blocked("turf", "ROW-001")]
    oak, turf = side_by_side(rows, by="made_of", of=["total"]).measures()
    assert oak == {
        "by": "made_of", "group": "oak", "count": 1, "buildable_count": 1, "stop_codes": "",
        "currency": "GBP", "known_total": 1, "least_total": Decimal("1.50"),
        "median_total": Decimal("1.50"), "most_total": Decimal("1.50"),
    }  # fmt: skip
    assert list(turf) == list(oak)
    assert (turf["stop_codes"], turf["known_total"], turf["most_total"]) == ("ROW-001", 0, None)
