"""A nearest fix must be one: it reads, it lies within the bounds, and it is what was meant."""

from decimal import Decimal
from fractions import Fraction

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

import drylay
from drylay.errors import BriefError, CatalogueError, Fault, InputError
from drylay.intake.cells import CellForm, cell_reader
from drylay.intake.keys import Key, choice, count, length
from drylay.intake.measures import read_measure
from drylay.intake.values import read_choice, read_count, read_mm, read_number
from drylay.materials.stock_model import ArticleRule
from drylay.reasons import Source
from drylay.units import length_mm
from some_decks import some_case


def nearest(answer: object) -> str:
    return answer.nearest  # type: ignore[attr-defined]


def test_large_bounds_are_written_out() -> None:
    wrong = read_count(count("limit", 0, 1_000_000), -1)
    assert wrong.wanted == "a whole number, 0 to 1000000"  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("found", "fix"),
    [
        (28, ""),  # 2 mm short of the least is no other unit, and 30 is not what was meant
        (5.7, 'width = "5.7 in" or width = "5.7 cm", if that is meant'),
        (500, ""),
    ],
)
def test_another_unit_is_suggested_only_where_a_number_is_far_too_small(
    found: float, fix: str
) -> None:
    assert nearest(read_mm(length("width_mm", 30, 400), found)) == fix


@given(st.floats(-1e6, 1e6), st.sampled_from(["length", "count", "number", "ratio"]))
def test_no_bound_is_ever_offered(number: float, kind: str) -> None:
    key = Key(name="value", kind=kind, least=100, most=1500)
    asked = {
        "length": lambda: read_mm(key, number),
        "count": lambda: read_count(key, int(number)),
        "number": lambda: read_number(key, number),
        "ratio": lambda: read_measure(number, unit="ratio", least=100, most=1500),
    }
    answer = asked[kind]()
    if isinstance(answer, Fault) and abs(number) not in (100, 1500):
        assert answer.nearest not in {"value = 100", "value = 1500"}


@pytest.mark.parametrize(
    ("unit", "text", "fix"),
    [
        ("m", "3000", "3, if 3000 mm was meant"),
        ("m", "360", "0,36, if 360 mm was meant or 3,6, if 360 cm was meant"),
        ("m", "90000", ""),
        ("cm", "12000", "1200, if 12000 mm was meant"),
        ("cm", "3,6", 'unit = "m" in the mapping, if that is meant'),
        ("ft", "144", "12, if 144 in was meant"),
        ("mm", "14000", ""),
        ("mm", "290", ""),
    ],
)
def test_a_cell_in_another_unit_is_told_in_its_column_s(unit: str, text: str, fix: str) -> None:
    read = cell_reader(length("length_mm", 300, 13_500), CellForm(decimal=","), unit=unit)
    assert nearest(read(text)) == fix


@pytest.mark.parametrize(("found", "fix"), [(5, "value = 0.05"), (1.2, ""),
                                            (-0.5, ""), (float("nan"), "")])  # fmt: skip
def test_a_ratio_is_read_as_a_percentage_only_where_it_looks_like_one(
    found: float, fix: str
) -> None:
    assert nearest(read_measure(found, unit="ratio", least=0, most=1)) == fix


def test_a_metric_fraction_is_told_what_fractions_are_for() -> None:
    with pytest.raises(InputError, match="fractions are for inches"):
        length_mm("1/2 m", path="x")


def test_a_joint_price_finer_than_a_coin_is_rounded_up_to_one() -> None:
    brief, stock = some_case(3)
    brief = brief.replace("joints.price_each", "0.005")
    with pytest.raises(BriefError) as caught:
        drylay.design(brief, stock=stock)
    assert caught.value.faults[0].nearest == "0.01"


def test_rules_that_contradict_are_told_by_name() -> None:

    _, stock = some_case(3)
    source = Source(kind="merchant record", title="a sheet")
    own = ArticleRule(rule="most_centres_mm", value=380.0, source=source)
    other = evolve(stock, boards=(evolve(stock.boards[0], rules=(own,)),))
    with pytest.raises(CatalogueError) as caught:
        stock | other
    (fault,) = caught.value.faults
    assert fault.path == f"{stock.boards[0].code}.rules.most_centres_mm"
    assert fault.found == "nothing and 380"


def test_a_stock_file_without_articles_says_where() -> None:
    head = {"name": "Yard", "currency": "GBP", "vat": "included"}
    (fault,) = drylay.check_catalogue({"catalogue": head})
    assert (fault.path, fault.found) == ("boards", "no article")


@given(st.decimals(300, 13_500, places=5), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_a_cell_is_rounded_to_the_nearest_tick_half_to_the_even_one(
    told: Decimal, unit: str
) -> None:
    size = {"mm": 1, "cm": 10, "m": 1000, "in": Fraction("25.4"), "ft": Fraction("304.8")}[unit]
    number = round(told / Decimal(float(size)), 5)
    read = cell_reader(length("x_mm", 1, 20_000), CellForm(decimal="."), unit=unit)(f"{number:f}")
    ticks = round(Fraction(number) * size * 320)  # Python's own rounding of a fraction
    assert read == ticks / 320


@pytest.mark.parametrize(
    ("word", "choices", "meant"),
    [
        ("semicolon", (",", ";", "|", "tab"), ";"),
        ("\t", (",", ";", "|", "tab"), "tab"),
        ("ansi", ("utf-8", "windows-1252"), "windows-1252"),
        ("CP1252", ("utf-8", "windows-1252"), "windows-1252"),
        ("A2", ("stainless A2", "stainless A4"), "stainless A2"),
        ("planed", ("smooth", "grooved"), "smooth"),
        ("planed", ("row", "starter"), ""),
        ("Smoth", ("smooth", "grooved"), "smooth"),
    ],
)
def test_a_word_for_a_choice_is_understood(word: str, choices: tuple[str, ...], meant: str) -> None:
    answer = read_choice(choice("faces", choices), word)
    assert nearest(answer) == (f'faces = "{meant}"' if meant else "")


def test_marks_are_told_in_quotes() -> None:
    answer = read_choice(choice("delimiter", (",", ";", "|", "tab")), "x")
    assert answer.wanted == 'one of ",", ";", "|", "tab"'  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("kind", "pack", "fix"),
    [
        ("coatings", {"l": 1}, "ml = 1000"),
        ("coatings", {"litres": 2.5}, "ml = 2500"),
        ("gravels", {"count": 25}, "kg"),
    ],
)
def test_a_pack_told_in_another_measure_has_its_fix(
    kind: str, pack: dict[str, object], fix: str
) -> None:
    article = {"code": "C", "title": "C", "packs": [{**pack, "price": "9.90"}]}
    found = drylay.check_catalogue({"catalogue": {"name": "A"}, kind: [article]})
    assert fix in [each.nearest for each in found if "unknown key" in each.found]


def test_a_family_left_out_is_asked_for() -> None:
    found = drylay.check_catalogue({"catalogue": {"name": "A"}, "boards": [{"code": "B"}]})
    wanted = {each.path: each.wanted for each in found}
    assert wanted["boards[0].family"] == "the family, such as softwood"
