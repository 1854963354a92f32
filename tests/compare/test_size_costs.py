"""What a size costs: laws of its lines and steps, examples by hand, and bad input."""

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.compare.size_costs import cost_by_size
from drylay.compare.study_model import Row, SizeStep
from drylay.errors import InputError

ALONG = "cover.along_mm"


def deck(along_mm: object, total: object, made_of: str = "oak", **more: object) -> Row:
    cost = None if total is None else Decimal(str(total))
    return {"case": 0, ALONG: along_mm, "run": "along", "made_of": made_of,
            "outcome": "blocked" if total is None else "planned",
            "currency": None if total is None else "GBP", "total": cost, "cover_m2": 3.0,
            **more}  # fmt: skip


# --- laws -------------------------------------------------------------------------------------

COSTS = st.dictionaries(
    st.tuples(st.sampled_from(["oak", "turf"]), st.integers(10, 30)),
    st.one_of(st.none(), st.integers(1, 4)),
    min_size=1, max_size=30,
)  # fmt: skip


@given(COSTS, st.randoms(use_true_random=False))
@settings(max_examples=40)
def test_steps_are_all_changes_between_neighbours_and_nothing_else(
    told: dict[tuple[str, int], int | None], lot: object
) -> None:
    """Walked over every whole millimetre by hand; rows in any order, the first one twice."""
    rows = [deck(size, cost, name) for (name, size), cost in told.items()]
    rows += rows[:1]
    lot.shuffle(rows)  # type: ignore[attr-defined]
    found = cost_by_size(iter(rows), ALONG, by="made_of")
    wanted = set()
    for name in ("oak", "turf"):
        last: tuple[int, int] | None = None
        for size in range(10, 31):
            if (name, size) in told:
                cost = told[name, size]
                if last is not None and cost is not None and cost != last[1]:
                    wanted.add((name, last[0], size, cost - last[1]))
                last = None if cost is None else (size, cost)
    assert {(s.line, s.from_mm, s.to_mm, int(s.change)) for s in found.steps} == wanted
    assert all(step.change == step.after - step.before for step in found.steps)
    for line in found.lines:
        assert all(one < other for one, other in pairwise(line.sizes_mm))
        assert line.costs == tuple(told[line.name, int(size)] for size in line.sizes_mm)
    assert sum(len(line.sizes_mm) for line in found.lines) == len(told)


# --- by hand ----------------------------------------------------------------------------------


def test_a_step_and_a_line_that_is_broken() -> None:
    """Nothing is told across 2460, which cannot be built."""
    rows = [deck(2470, 14), deck(2460, None), deck(2450.0, "12.50"), deck(2440, "12.50"),
            deck(2430, 11), deck(None, 9)]  # fmt: skip
    found = cost_by_size(rows, ALONG)
    (line,) = found.lines
    assert (line.name, line.sizes_mm) == ("", (2430, 2440, 2450, 2460, 2470))
    assert line.costs == (11, Decimal("12.5"), Decimal("12.5"), None, 14)
    assert found.steps == (
        SizeStep(line="", from_mm=2430, to_mm=2440, before=Decimal(11), after=Decimal("12.50"),
                 change=Decimal("1.50")),
    )  # fmt: skip
    assert (found.without, found.currency) == (1, "GBP")


def test_lengths_with_a_unit_count_as_a_brief_reads_them() -> None:
    """1 ft = 304.8 mm. What nobody can read is left out where it is why there is no deck."""
    rows = [deck("1 ft", 5), deck(304.8, 5), deck("2 m", 7), deck("wide", None), deck(-1, None)]
    found = cost_by_size(rows, ALONG)
    assert found.lines[0].sizes_mm == (-1, 304.8, 2000)
    assert found.without == 1


def test_lines_stand_in_the_order_of_their_first_rows() -> None:
    rows = [deck(2, 9, "turf"), deck(1, 5, "oak"), deck(1, 8, "turf"), deck(2, 4, "oak")]
    found = cost_by_size(rows, ALONG, by="made_of")
    assert [(line.name, line.costs) for line in found.lines] == [("turf", (8, 9)), ("oak", (5, 4))]
    assert [(step.line, step.change) for step in found.steps] == [("turf", 1), ("oak", -1)]


# --- bad input --------------------------------------------------------------------------------


def faults(rows: object, size: object = ALONG, **named: object) -> list[tuple[str, str, str, str]]:
    with pytest.raises(InputError) as raised:
        cost_by_size(rows, size, **named)  # type: ignore[arg-type]
    return [(f.path, f.found, f.wanted, f.nearest) for f in raised.value.faults]


def test_several_costs_of_one_size_name_what_may_tell_them_apart() -> None:
    """`run` differs, but not wherever costs do; an area is no column that was put in."""
    rows = [deck(10, 5), deck(10, 6, "turf", run="across", cover_m2=4.0), deck(20, 7),
            deck(20, None, "turf")]  # fmt: skip
    (clash,) = faults(rows)
    assert clash == (
        ALONG, "several costs at 10 mm: 5, 6, and so at 1 more",
        "one cost of each size in a line; columns that differ: made_of, run", 'by="made_of"',
    )  # fmt: skip
    assert len(cost_by_size(rows, ALONG, by="made_of").lines) == 2
    (clash,) = faults([*rows, deck(20, 8)], by="made_of")
    assert clash[1:] == (
        'several costs at 20 mm in "oak": 7, 8',
        "one cost of each size in a line; columns that differ: none", "",
    )  # fmt: skip


def test_rows_of_no_study_may_differ_in_any_column() -> None:
    rows = [{"long_mm": 1, "shop": shop, "total": Decimal(len(shop))} for shop in ("a", "bc")]
    assert faults(rows, "long_mm")[0][3] == 'by="shop"'
    mode = [deck(1, 2, mode="quick"), deck(1, 3, mode="proven")]
    assert faults(mode)[0][3] == 'by="mode"'


def test_every_fault_is_told_at_once() -> None:
    rows = [deck("wide", 4), deck(10, 5) | {"currency": "EUR", "total": 5}]
    assert [(path, found, nearest) for path, found, _, nearest in
            faults(rows, "cover.along", cost="totals", by="madeof")] == [
        ("currency", "EUR, GBP", ""),
        ("size", '"cover.along"', ALONG),
        ("cost", '"totals"', "total"),
        ("by", '"madeof"', "made_of"),
    ]  # fmt: skip
    assert [(path, found, wanted) for path, found, wanted, _ in faults(rows)[1:]] == [
        (ALONG, '"wide"', "a length in mm, or with its unit"),
        ("total", "5", "money as Decimal, or None"),
    ]
    assert faults(rows)[2][3].startswith("json.loads(line, parse_float=Decimal")
    area = faults(rows[:1], "cover_m2")[0]
    assert area[2] == "a column of lengths in mm, such as cover.along_mm"
    assert faults([{"a": 1}], "a")[0][2] == "a column of lengths in mm"
    assert faults([{"a": 1}], "b_mm")[0][2] == "a column of the rows"
    assert [path for path, *_ in faults([])] == ["rows"]


# --- told -------------------------------------------------------------------------------------


def test_it_is_told_in_words() -> None:
    rows = [deck(2400, "400.00"), deck(2450, "400.00"), deck(2500, "412.50"), deck(2550, None),
            deck(2600.5, "410.00"), deck(2400, "900.00", "turf"), deck(2450, "890.10", "turf"),
            deck(None, 1)]  # fmt: skip
    assert (
        str(cost_by_size(rows, ALONG, by="made_of"))
        == """\
WHAT cover.along_mm COSTS
=========================
First cost in GBP. It changes 2 times.

oak
  2400 to 2450 mm   400.00
  2500 mm           412.50  12.50 more
  2550 mm          no cost
  2600.5 mm         410.00

turf
  2400 mm  900.00
  2450 mm  890.10  9.90 less

A cost is told of the sizes that were looked at, and of none between them: a
step lies somewhere between the two sizes beside it.
No cost: it cannot be built at that size, or what it costs is not known.
1 row without this size left out.
"""
    )


def test_long_lines_are_cut_off_and_what_is_known_of_none_is_told() -> None:
    rows = [deck(at, at % 7 + 1, f"\u202emade\nof {line}") for at in range(100)
            for line in range(3)]  # fmt: skip
    text = str(cost_by_size(rows, ALONG, by="made_of"))
    assert "\u202e" not in text
    assert "180 more lines in the table." in text
    assert "made of 2" not in text
    assert "It is known of no size." in str(cost_by_size([deck(1, None)], ALONG))
    assert "It never changes." in str(cost_by_size([deck(1, 4)], ALONG, cost="total"))


def test_flat_rows_tell_each_size_and_its_change() -> None:
    rows = cost_by_size([deck(1, 4), deck(2, 6), deck(3, None), deck(4, 7)], ALONG).measures()
    assert rows[0] == {
        "by": None, "line": None, "size": ALONG, "size_mm": 1.0, "measure": "total",
        "cost": Decimal(4), "change": None, "currency": "GBP",
    }  # fmt: skip
    assert [row["change"] for row in rows] == [None, 2, None, None]
