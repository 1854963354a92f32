"""A file that does not parse is told by the slip that was made, where that is plain."""

import pytest

from drylay.brief.reader import check_brief
from drylay.errors import Fault
from drylay.intake.keys import money
from drylay.intake.values import read_money


@pytest.mark.parametrize(
    ("text", "found", "nearest"),
    [
        ("a = 23,5\n", "a number with a comma, 23,5", "23.5"),
        ("a = { b = 23,5 }\n", "a number with a comma, 23,5", "23.5"),
        ("a = 12,50 # c\n", "a number with a comma, 12,50", "12.50"),
        ("a = 23,500\n", "a number with a comma, 23,500", ""),
        ("a = 1,820.00\n", "1,820.00", "1820.00"),
        ('a = "x\nb = 1\n', "a quote that is not closed", ""),
        ("a = 'x\nb = 1\n", "a quote that is not closed", ""),
        ('a = """x\n', "a quote that is not closed", ""),
        ("a = 1\na = 2\n", "a a second time", ""),
        ("a = 1\na = 2", "a a second time", ""),
        ("a = { b = 1, b = 2 }\n", "b a second time", ""),
        ("[a]\n[a]\n", "[a] a second time", ""),
        ("a = 2027-09-31\n", "2027-09-31, and there is no such day", ""),
        ("a = True\n", "True without quotes", "true"),
        ("a = larch\n", "larch without quotes", '"larch"'),
    ],
)
def test_a_slip_is_told_as_such(text: str, found: str, nearest: str) -> None:
    (fault,) = check_brief(text.encode())
    assert (fault.path, fault.found, fault.nearest) == ("file", found, nearest)


@pytest.mark.parametrize(
    "text",
    ["a = [1, 2\n", "a b = 1\n", "a = \n", 'a = x"\n', "a = \u00a318\n", "[[x]\n", "a = 5.\n"],
)
def test_what_is_not_plain_is_told_as_the_parser_does(text: str) -> None:
    (fault,) = check_brief(text.encode())
    assert fault.found.startswith("TOML that does not parse (")


@pytest.mark.parametrize(
    ("given", "fix"),
    [
        ("14,10", "14.10"),
        ("1,820.00", "1820.00"),
        ("1.820,00", "1820.00"),
        ("\u00a318.80", "18.80"),
        ("18,80 EUR", "18.80"),
        ("62,-", "62"),
        ("1,820", ""),  # thousands or decimals
        ("14,105", ""),
        ("14.1055", ""),
        ("99999999", ""),
        ("some", ""),
    ],
)
def test_money_with_a_comma_or_a_currency_mark_has_its_fix(given: str, fix: str) -> None:
    answer = read_money(money("price", 0.01, 100_000, digits=2), given)
    assert isinstance(answer, Fault)
    assert answer.nearest == (f'price = "{fix}"' if fix else "")
