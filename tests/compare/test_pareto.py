"""Decks that no other beats: laws against brute force, examples by hand, and bad input."""

import copy
from collections.abc import Iterable
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.compare.pareto import pareto
from drylay.compare.study_model import ParetoSet, Row
from drylay.errors import InputError

WANTS = st.sampled_from(["least", "most"])
NAMES = ("total", "mass_kg", "cuts", "least_h")


def figures(most: int) -> st.SearchStrategy[object]:
    """Small numbers of every kind, so that equal ones and ties are common; now and then none."""
    whole = st.integers(0, most)
    tenths = whole.map(lambda n: n / 10)
    return st.one_of(whole, tenths, whole.map(lambda n: Decimal(n) / 10), st.none())


@st.composite
def questions(draw: st.DrawFn) -> tuple[list[Row], dict[str, str]]:
    names = NAMES[: draw(st.integers(2, 4))]
    one = st.fixed_dictionaries({name: figures(draw(st.sampled_from([3, 30]))) for name in names})
    rows = draw(st.lists(one, min_size=1, max_size=60))
    numbered = [{"case": at, "outcome": "planned", **row} for at, row in enumerate(rows)]
    return numbered, {name: draw(WANTS) for name in names}


def worth(row: Row, aims: dict[str, str]) -> tuple[Fraction, ...]:
    """Each figure as a fraction, less being better."""
    signed = {"least": 1, "most": -1}
    return tuple(signed[want] * Fraction(str(row[name])) for name, want in aims.items())


def beats(one: Row, other: Row, aims: dict[str, str]) -> bool:
    """Kung, Luccio and Preparata's definition: nowhere worse, and not the same point."""
    a, b = worth(one, aims), worth(other, aims)
    return a != b and all(x <= y for x, y in zip(a, b, strict=True))


def cases(rows: Iterable[Row]) -> list[object]:
    return [row["case"] for row in rows]


# --- laws -------------------------------------------------------------------------------------


@given(questions())
@settings(max_examples=40)
def test_it_is_what_brute_force_finds(asked: tuple[list[Row], dict[str, str]]) -> None:
    """None of the set is beaten by any; each left out is beaten, and by one of the set."""
    rows, aims = asked
    found = pareto(iter(rows), aims)
    whole = [row for row in rows if all(row[name] is not None for name in aims)]
    assert (found.among, found.without) == (len(rows), len(rows) - len(whole))
    stand = [row for row in whole if not any(beats(other, row, aims) for other in whole)]
    assert sorted(cases(found.rows)) == cases(stand)
    assert sorted(cases((*found.rows, *found.beaten))) == cases(whole)
    assert all(any(beats(one, row, aims) for one in found.rows) for row in found.beaten)


@given(questions(), st.randoms(use_true_random=False))
@settings(max_examples=15)
def test_the_order_of_rows_matters_only_to_equals(
    asked: tuple[list[Row], dict[str, str]], lot: object
) -> None:
    rows, aims = asked
    mixed = copy.copy(rows)
    lot.shuffle(mixed)  # type: ignore[attr-defined]
    one, other = pareto(rows, aims), pareto(mixed, aims)
    for part in ("rows", "beaten"):
        worths = [[worth(row, aims) for row in getattr(each, part)] for each in (one, other)]
        assert worths[0] == worths[1] == sorted(worths[0])
        assert set(cases(getattr(one, part))) == set(cases(getattr(other, part)))


@given(questions(), st.data())
@settings(max_examples=15)
def test_a_beaten_row_more_changes_nothing(
    asked: tuple[list[Row], dict[str, str]], data: st.DataObject
) -> None:
    rows, aims = asked
    found = pareto(rows, aims)
    if not found.rows:
        return
    best = data.draw(st.sampled_from(found.rows))
    worse = {name: Fraction(str(best[name])) + (1 if aims[name] == "least" else -1)
             for name in aims}  # fmt: skip
    more = {"case": len(rows), **{name: float(value) for name, value in worse.items()}}
    assert pareto([more, *rows], aims).rows == found.rows


def test_many_in_three_and_more_aims_agree_with_brute_force() -> None:
    """Points on a slanting plane, none beaten, each with two just behind it: halves of halves.

    Without the mass the second of three is equal to the first, and stays.
    """
    rows: list[Row] = []
    for a in range(12):
        for b in range(12):
            front = {"case": len(rows), "total": a, "cuts": b, "least_h": 40 - a - b, "mass_kg": 7}
            rows += [front, front | {"case": len(rows) + 1, "mass_kg": 8},
                     front | {"case": len(rows) + 2, "cuts": b + 1}]  # fmt: skip
    for names in (("total", "cuts", "least_h"), ("total", "cuts", "least_h", "mass_kg")):
        found = pareto(rows, dict.fromkeys(names, "least"))
        stay = (0,) if len(names) == 4 else (0, 1)
        assert sorted(cases(found.rows)) == [at for at in range(len(rows)) if at % 3 in stay]


def test_equal_in_the_last_figure_is_as_good() -> None:
    """(1, 2i + 1, 130 - i) is beaten by (0, 2i, 130 - i) alone: of i another one is dearer."""
    aims = dict.fromkeys(("total", "cuts", "least_h"), "least")
    rows: list[Row] = [{"case": 2 * i + far, "total": far, "cuts": 2 * i + far, "least_h": 130 - i}
                       for i in range(130) for far in (0, 1)]  # fmt: skip
    assert all(row["total"] == 0 for row in pareto(rows, aims).rows)
    assert len(pareto(rows, aims).beaten) == 130


# --- by hand ----------------------------------------------------------------------------------


def deck(case: int, total: object, life: object, **more: object) -> Row:
    return {"case": case, "made_of": "oak" if case % 2 else "softwood", "outcome": "planned",
            "currency": "GBP", "total": total, "life_least_years": life, **more}  # fmt: skip


def asked(rows: Iterable[Row]) -> ParetoSet:
    return pareto(rows, {"total": "least", "life_least_years": "most"})


def test_price_against_life() -> None:
    """1 costs more than 0 and lasts no longer; 2 is dearer and lasts longer; 3 is 2 again."""
    rows = [deck(0, Decimal("400.00"), 8), deck(1, Decimal("400.10"), 8),
            deck(2, Decimal("900.00"), 15), deck(3, Decimal(900), 15.0)]  # fmt: skip
    found = asked(rows)
    assert cases(found.rows) == [0, 2, 3]
    assert cases(found.beaten) == [1]
    assert (found.among, found.without, found.currency) == (4, 0, "GBP")


def test_decks_that_cannot_be_built_beat_nobody() -> None:
    """Lives are told of blocked decks too."""
    rows = [deck(0, Decimal(4), 8), deck(1, Decimal(1), 9) | {"outcome": "blocked"},
            deck(2, None, 99), {"name": "a", "buildable": False, "total": 1, "life_least_years": 9},
            {"name": "b", "buildable": True, "total": 5, "life_least_years": 9}]  # fmt: skip
    found = asked(rows)
    assert [row["total"] for row in found.rows] == [4, 5]
    assert found.without == 3


@pytest.mark.parametrize("digits", [3, 28])
def test_money_is_compared_to_the_last_coin(digits: int) -> None:
    """0.1 + 0.2 is more than 0.3 as a float is written; a context of few digits rounds nothing."""
    with localcontext(prec=digits):
        coin = Decimal("12345.01"), Decimal("12345.02")
        rows = [deck(0, coin[0], 0.1 + 0.2), deck(1, coin[1], Decimal("0.3")),
                deck(2, coin[0], 0.3)]  # fmt: skip
        assert cases(asked(rows).rows) == [0]
        assert cases(pareto(rows, {"total": "most", "life_least_years": "least"}).rows) == [1]
        alike = [deck(0, 0.1, 1), deck(1, Decimal("0.1"), 1)]
        assert cases(asked(alike).rows) == [0, 1]


# --- bad input --------------------------------------------------------------------------------


def faults(rows: object, aims: object) -> list[tuple[str, str, str]]:
    with pytest.raises(InputError) as raised:
        pareto(rows, aims)  # type: ignore[arg-type]
    return [(fault.path, fault.found, fault.nearest) for fault in raised.value.faults]


def test_every_fault_is_told_at_once() -> None:
    rows = [deck(0, "400", 8), deck(1, Decimal(4), float("nan")) | {"currency": "EUR"}]
    aims = {"totl": "least", "total": "Min", "life_least_years": "most"}
    assert faults(rows, aims) == [
        ("aims.total", '"Min"', "least"),
        ("aims", '"totl"', "total"),
        ("total", '"400"', ""),
        ("life_least_years", "nan", ""),
        ("currency", "EUR, GBP", ""),
    ]


def test_rows_that_are_none() -> None:
    aims = {"total": "least", "cuts": "least"}
    assert [path for path, *_ in faults(iter(()), {"total": "least"})] == ["rows", "aims"]
    assert faults({"total": 1}, aims)[0][2] == "[row]"
    assert faults(3, aims)[0][:2] == ("rows", "3")
    assert faults([deck(0, 1, 1), "x", 3], aims)[0][1] == '"x", the first of 2'
    assert faults([deck(0, True, 1)], {"total": "least", 3: "most"})[0][:2] == ("aims", "3")
    assert faults([deck(0, True, 1)], ["total", "cuts"])[0][0] == "aims"
    assert faults([deck(0, 10**5000, True)], {"total": "least", "life_least_years": "least"}) == [
        ("total", "a whole number of some 4983 digits", ""), ("life_least_years", "true", ""),
    ]  # fmt: skip


# --- told -------------------------------------------------------------------------------------


def test_it_is_told_in_words() -> None:
    rows = [deck(0, Decimal("400.10"), 8, waste_ratio=0.12341),
            deck(1, Decimal("900.00"), 15, waste_ratio=0.1), deck(2, None, 15, waste_ratio=None),
            deck(3, Decimal("900.00"), 8, waste_ratio=0.2)]  # fmt: skip
    aims = {"total": "least", "life_least_years": "most", "waste_ratio": "least"}
    assert (
        str(pareto(rows, aims))
        == """\
DECKS THAT NO OTHER BEATS
=========================
Wanted: least total, most life_least_years, least waste_ratio. All money in
GBP.

2 decks of 4 stand here. 1 other is beaten: a deck here is as good in all that
is wanted, and better in one. 1 deck without one of these figures, or that
cannot be built, is left out.

case  made_of    total  life_least_years  waste_ratio
   0  softwood  400.10                 8       0.1235
   1  oak       900.00                15          0.1

Figures of more than four decimals are rounded: up where the least is wanted,
down where the most is.
"""
    )


def test_paths_stand_in_two_lines_and_what_is_alike_in_all_is_left_out() -> None:
    rows = [{"case": at, "cover.along_mm": 2400 + at, "board.article": None if at else "DB-28",
             "board.run": "along", "outcome": "planned", "total": at, "cuts": -at}
            for at in (0, 1)]  # fmt: skip
    assert """
        cover.  board.
case  along_mm  article  total  cuts
   0      2400  DB-28        0     0
   1      2401  -            1    -1
""" in str(pareto(rows, {"total": "least", "cuts": "least"}))


def test_what_more_is_better_is_rounded_down() -> None:
    rows = [{"case": 0, "a": 0.99999, "b": -0.99999}]
    told = str(pareto(rows, {"a": "most", "b": "least"}))
    assert "\n   0  0.9999  -0.9999\n" in told


def test_wide_rows_are_told_one_to_a_point_and_hostile_words_are_harmless() -> None:
    hostile = "board\narticle" + "x" * 60
    rows = [{"case": at, hostile: f"{at}\u202ea\nb" * 40, "stock.price_ratio.DB-28-145": at / 10,
             "joints": None if at else "x" * 30,
             "outcome": "planned", "total": at, "cuts": -at} for at in range(70)]  # fmt: skip
    text = str(pareto(rows, {"total": "least", "cuts": "least"}))
    assert "- case 0, board articlexxxxxxxxxxxxxxxx... 0a b0a b0a b" in text
    assert f"{'0a b' * 19}0..., stock" in text.replace("\n  ", " ")
    assert text.count("joints") == 1
    assert "\u202e" not in text
    assert text.count("\n- case") == 60
    assert text.endswith("10 more decks in the table.\n")
    assert max(map(len, text.splitlines())) <= 78


def test_names_of_alternatives_are_told_whole() -> None:
    """Two that differ in their eightieth sign alone."""
    rows = [{"case": at, "made_of": f"{'so long a name ' * 6}"[:79] + "ab"[at], "total": at,
             "cuts": -at, "outcome": "planned"} for at in range(2)]  # fmt: skip
    text = str(pareto(rows, {"total": "least", "cuts": "least"})).replace("\n  ", " ")
    assert all(f"made_of {row['made_of']}, total {row['total']}" in text for row in rows)


def test_flat_rows_have_the_same_names() -> None:
    rows = [deck(0, 1, 1, cuts=3), {"total": 0, "life_least_years": 0, "own": 2}]
    assert [list(row) for row in asked(rows).measures()] == [
        ["total", "life_least_years", "own", "case", "made_of", "outcome", "currency", "cuts"]
    ] * 2  # fmt: skip
    none = asked([deck(0, None, 1)])
    assert none.measures() == ()
    assert "0 decks of 1 stand here. 1 deck without" in str(none)
