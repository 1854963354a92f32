"""What a sound stock file holds that looks like a slip: told as a remark, never refused."""

from decimal import Decimal
from pathlib import Path

import pytest

from drylay.materials.checks import check_sizes, is_its_nominal_mm
from drylay.materials.steep import steep_prices
from drylay.materials.survey import MOST_TOLD, survey_stock
from materials.test_merchant_slips import HEAD, MAPPING

BOARD = """\
[[boards]]
code = "B{n}"
title = "Board"
family = "softwood"
nominal = "{nominal}"
width_mm = 145
thickness_mm = 28
lengths = [{{ length_mm = 4000, price = "18.80" }}, {{ length_mm = 5000, price = "{price}" }}]
"""
SCREW = """\
[[screws]]
code = "S1"
title = "Screw"
shank_mm = 5
length_mm = 50
metal = "stainless A2"
packs = [{ count = 100, price = "14.00" }, { count = 500, price = "6.20" }]
"""


def board(n: int = 1, nominal: str = "32 x 150", price: str = "23.50") -> str:
    return BOARD.format(n=n, nominal=nominal, price=price)


def stock(tmp_path: Path, articles: str) -> Path:
    path = tmp_path / "stock.toml"
    path.write_text(HEAD + articles, encoding="utf-8")
    return path


def test_a_price_without_its_ten_is_remarked_on(tmp_path: Path) -> None:
    survey = survey_stock(stock(tmp_path, board(price="2.40") + SCREW))
    assert survey.first_slips == [
        "B1: 5000 for 2.40, and 4000 for 18.80",
        # by hand: 18.80 / 4 = 4.70 a metre, 2.40 / 5 = 0.48; 4.70 / 0.48 = 9.8
        "B1: one 10 times as dear as another, size for size",
        "S1: 500 for 6.20, and 100 for 14.00",
    ]
    assert survey.slips == 3


def test_usual_prices_are_not_remarked_on(tmp_path: Path) -> None:
    survey = survey_stock(stock(tmp_path, board()))
    assert (survey.slips, survey.nominal) == (0, 0)


def test_many_slips_are_counted_not_listed(tmp_path: Path) -> None:
    slips = "".join(board(n, price="2.40") for n in range(MOST_TOLD))
    survey = survey_stock(stock(tmp_path, slips))
    assert (survey.slips, len(survey.first_slips)) == (2 * MOST_TOLD, MOST_TOLD)


def test_a_csv_list_is_remarked_on_too(tmp_path: Path) -> None:
    sheet = tmp_path / "list.csv"
    sheet.write_text("Item;L;Price\nB1;4,0;18,80\nB1;5,0;2,40\nB2;5,0;2,40\n", encoding="utf-8")
    constants = (
        'title = "Board", family = "softwood", width_mm = 150, thickness_mm = 32, '
        'nominal = "32 x 150"'
    )
    columns = 'code = "Item"\nlength_mm = { column = "L", unit = "m" }\nprice = "Price"\n'
    mapping = MAPPING.format(kind="boards", constants=constants, columns=columns)
    survey = survey_stock(sheet, mapping=mapping.encode())
    assert survey.first_slips[0] == "B1: 5000 for 2.40, and 4000 for 18.80"
    assert survey.slips == 2
    assert (survey.nominal, survey.first_nominal) == (2, "B1")


@pytest.mark.parametrize(
    ("nominal", "told"),
    [
        ("28 x 145", True),
        ("28mm x 145mm", True),
        ("28x145", True),
        ("32 x 150", False),
        ("145 x 28", False),
        ("2x6", False),
        ("", False),
    ],
)
def test_a_size_that_is_its_nominal_size_is_seen(nominal: str, told: bool) -> None:
    assert is_its_nominal_mm(nominal, 28.0, 145.0) is told


def test_british_sawn_sizes_are_no_inches() -> None:
    """25 x 100 called 1 x 4 is 0.4 and 1.6 mm off the inches: sawn, and measured."""
    read = {"nominal": "1 x 4", "thickness_mm": 25.0, "width_mm": 100.0}
    assert list(check_sizes("boards", read)) == []


def test_prices_that_go_together_are_no_slip() -> None:
    fine = [(3600.0, Decimal("14.40")), (4800.0, Decimal("20.15"))]
    assert list(steep_prices(fine, 4)) == []
    assert list(steep_prices([], 4)) == []
