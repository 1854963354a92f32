"""Everything that can be wrong with a stock file, each with its line, field and nearest fix."""

from decimal import Decimal
from pathlib import Path

import pytest

from drylay.errors import CatalogueError, Fault
from drylay.materials.loader import check_catalogue, load_catalogue

GOOD = """\
[catalogue]
name = "A yard"
currency = "EUR"
vat = "included"
minor_digits = 2

[[boards]]
code = "B1"
title = "Board"
family = "softwood"
width_mm = 145
thickness_mm = 28
nominal = "32 x 150"
treatment = "use class 3"
lengths = [
  { length_mm = 3600, price = "14.40", limit = 12 },
  { length_mm = 4800, price = "20.15" },
]

[[boards.rules]]
rule = "most_centres_mm"
value = 400
source = { kind = "merchant record", title = "Sheet" }

[[timbers]]
code = "T1"
title = "Timber"
thickness_mm = 45
depth_mm = 145
strength_class = "C24"
lengths = [{ length_mm = 6000, price = 31 }]

[[fascias]]
code = "F1"
title = "Fascia"
thickness_mm = 28
depth_mm = 145
lengths = [{ length_mm = 3000, price = "12.90" }]

[[screws]]
code = "S1"
title = "Screw"
shank_mm = 4.5
length_mm = 70
metal = "stainless A2"
packs = [{ count = 100, price = "12.60" }]

[[coach_screws]]
code = "C1"
title = "Coach screw"
shank_mm = 8
length_mm = 120
head_mm = 7.5
metal = "hot-dip galvanised"
packs = [{ count = 10, price = "7.80" }, { count = 50, price = "33.60" }]
"""


def faults_of(tmp_path: Path, text: str) -> tuple[Fault, ...]:
    path = tmp_path / "stock.toml"
    path.write_text(text, encoding="utf-8")
    faults = check_catalogue(path)
    assert all(fault.file == str(path) for fault in faults)
    if faults:
        with pytest.raises(CatalogueError) as caught:
            load_catalogue(path)
        assert caught.value.faults == faults
    return faults


def replaced(line: int, new: str) -> str:
    lines = GOOD.split("\n")
    lines[line - 1] = new
    return "\n".join(lines)


def test_the_file_the_faults_are_planted_in_is_fine(tmp_path: Path) -> None:
    assert faults_of(tmp_path, GOOD) == ()


PRICE = "boards[0].lengths[0].price"
LENGTH = "boards[0].lengths[0].length_mm"
LENGTH_1 = "boards[0].lengths[1].length_mm"
LIMIT = "boards[0].lengths[0].limit"
RULE_0 = "boards[0].rules[0]"
#: the line that is replaced, the new line, then of the fault: the line, the path, a part of
#: what was found, a part of what was wanted or of the nearest fix
PLANTED = [
    # the head
    (1, "[catalog]", 1, "catalog", 'key "catalog"', "catalogue"),
    (2, 'name = ""', 2, "catalogue.name", '""', "1 to 80"),
    (3, 'currency = "EURO"', 3, "catalogue.currency", '"EURO"', "1 to 3"),
    (3, 'currency = "eur"', 3, "catalogue.currency", '"eur"', 'currency = "EUR"'),
    (3, 'currency = "XYZ"', 3, "catalogue.currency", '"XYZ"', "ISO 4217"),
    (3, "", 1, "catalogue.currency", "nothing", "a text"),
    (4, 'vat = "include"', 4, "catalogue.vat", '"include"', 'vat = "included"'),
    (5, "minor_digits = 2.0", 5, "catalogue.minor_digits", "2.0", "minor_digits = 2"),
    (5, "minor_digits = 7", 5, "catalogue.minor_digits", "7", ""),
    # sizes
    (11, "width_mm = 5.5", 11, "boards[0].width_mm", "5.5", 'width = "5.5 in"'),
    (11, "width = 145", 11, "boards[0].width", "145 without a unit", "width_mm = 145"),
    (11, 'width_mm = "2x6"', 11, "boards[0].width_mm", '"2x6"', "30 to 400 mm"),
    (11, 'width = "5/4 in"', 11, "boards[0].width", '"5/4 in"', "true size"),
    (11, "width_mm = 0", 11, "boards[0].width_mm", "0", ""),
    (11, "width_mm = inf", 11, "boards[0].width_mm", "inf", "30 to 400"),
    (13, 'width = "6 in"', 13, "boards[0].width", "both", "leave out width"),
    (28, "thickness_mm = 200", 28, "timbers[0].thickness_mm", "200", "15 to"),
    (28, "thickness_mm = 150", 28, "timbers[0].thickness_mm", "150 with", "depth_mm = 150"),
    (43, "shank_mm = 45", 43, "screws[0].shank_mm", "45", "2 to 12"),
    (44, "length_mm = 2", 44, "screws[0].length_mm", "2", 'length = "2 in"'),
    (44, "length_mm = 7", 44, "screws[0].length_mm", "7", ""),
    (53, "head_mm = 75", 53, "coach_screws[0].head_mm", "75", ""),
    # prices
    (16, "{ length_mm = 3600, price = 14.40 },", 16, PRICE, "14.40", 'price = "14.40"'),
    (16, "{ length_mm = 3600, price = 14.40 },", 16, PRICE, "14.40", "a float loses cents"),
    (16, '{ length_mm = 3600, price = "14.405" },', 16, PRICE, '"14.405"', "at most 2 decimals"),
    (16, '{ length_mm = 3600, price = "14,40" },', 16, PRICE, '"14,40"', '"14.40"'),
    (16, '{ length_mm = 3600, price = "EUR 14" },', 16, PRICE, '"EUR 14"', '"14.40"'),
    (16, '{ length_mm = 3600, price = "0.00" },', 16, PRICE, '"0.00"', "0.01 to"),
    (16, "{ length_mm = 3600, price = 0 },", 16, PRICE, "0", "0.01 to"),
    (16, "{ length_mm = 3600, price = -3 },", 16, PRICE, "-3", "0.01 to"),
    (16, "{ length_mm = 3600, price = true },", 16, PRICE, "true", "money"),
    (16, "{ length_mm = 3600, price = nan },", 16, PRICE, "nan", "money"),
    (16, '{ length_mm = 3600, price = "1e3" },', 16, PRICE, '"1e3"', "money"),
    (16, "{ length_mm = 3600 },", 16, PRICE, "nothing", "a price"),
    # lengths and packs
    (16, '{ length_mm = 3.6, price = "1" },', 16, LENGTH, "3.6", '"3.6 m'),
    (16, '{ length_mm = 36000, price = "1" },', 16, LENGTH, "36000", ""),
    (16, '{ length_mm = 4800, price = "1" },', 17, LENGTH_1, "4800 a second", "once"),
    (16, '{ length = "4.8 m", price = "1" },', 17, LENGTH_1, "4800 a second", "once"),
    (16, '{ length_mm = 3600, price = "1", limit = 1.5 },', 16, LIMIT, "1.5", ""),
    (16, '{ length_mm = 3600, price = "1", limits = 1 },', 16, f"{LIMIT}s", "key", "limit"),
    (31, "lengths = []", 31, "timbers[0].lengths", "nothing", "at least one"),
    (31, "", 25, "timbers[0].lengths", "nothing", "at least one"),
    (31, "lengths = [6000]", 31, "timbers[0].lengths[0]", "6000", "a table"),
    (31, "lengths = 6000", 31, "timbers[0].lengths", "6000", "a list of tables"),
    (46, "packs = []", 46, "screws[0].packs", "nothing", "at least one"),
    (46, 'packs = [{ count = 0, price = "1" }]', 46, "screws[0].packs[0].count", "0", ""),
    (55, 'packs = [{ count = 9, price = "1" }, { count = 9, price = "2" }]', 55,
     "coach_screws[0].packs[1].count", "9 a second time", "once"),
    # names
    (26, 'code = "B1"', 26, "timbers[0].code", '"B1" a second time', "a code of its own"),
    (26, "code = 12", 26, "timbers[0].code", "12", 'code = "12"'),
    (26, "", 25, "timbers[0].code", "nothing", "a text"),
    (10, "", 7, "boards[0].family", "nothing", "the family"),
    (30, "colour = 4", 30, "timbers[0].colour", 'key "colour"', "one of code"),
    # the merchant's own rules
    (21, 'rule = "most_centre_mm"', 21, f"{RULE_0}.rule", "most_centre", "most_centres_mm"),
    (21, "rule = 3", 21, f"{RULE_0}.rule", "3", 'rule = "3"'),
    (22, "value = true", 22, f"{RULE_0}.value", "true", "a number of mm"),
    (22, "value = -400", 22, f"{RULE_0}.value", "-400", "value = 400"),
    (22, "", 20, f"{RULE_0}.value", "nothing", "a value"),
    (23, "", 20, f"{RULE_0}.source", "nothing", "source = {"),
    (23, 'source = { kind = "hearsay", title = "x" }', 23, f"{RULE_0}.source.kind",
     '"hearsay"', "one of standard"),
    (23, 'source = { kind = "standard" }', 23, f"{RULE_0}.source.title", "nothing", "text"),
    (23, "source = 3", 23, f"{RULE_0}.source", "3", "a table"),
]  # fmt: skip


@pytest.mark.parametrize("planted", PLANTED, ids=lambda planted: f"{planted[3]}-{planted[1][:40]}")
def test_a_planted_fault_is_found_where_it_is(
    tmp_path: Path, planted: tuple[int, str, int, str, str, str]
) -> None:
    line, new, at, path, found, wanted = planted
    faults = faults_of(tmp_path, replaced(line, new))
    fault = next(fault for fault in faults if fault.path == path)
    assert (fault.line, fault.column >= 1) == (at, True)
    assert found in fault.found
    assert wanted in f"{fault.wanted} {fault.nearest}"


def test_at_least_forty_different_faults_are_planted() -> None:
    assert len({(path, found) for *_, path, found, _ in PLANTED}) >= 40


@pytest.mark.parametrize(
    ("nominal", "size"),
    [
        ("2x6", 'width = "6 in"\nthickness = "1 1/2 in"'),
        ("5/4x6", 'width = "5 1/2 in"\nthickness = "1 1/4 in"'),
        # rounded to whole mm: 2 x 25.4 = 50.8, 6 x 25.4 = 152.4, 1.25 x 25.4 = 31.75
        ("2 x 6", "width_mm = 152\nthickness_mm = 51"),
        ("1 1/4 x 6", "width_mm = 152\nthickness_mm = 32"),
        ("2in x 6in", "width_mm = 152.4\nthickness_mm = 50.8"),
        ("2 by 6", "width_mm = 153\nthickness_mm = 50"),
        ('2\\" x 6\\"', "width_mm = 152\nthickness_mm = 51"),
        ("5/4 X 6", "width_mm = 152.4\nthickness_mm = 31.75"),  # by hand, 6 and 1.25 x 25.4
    ],
)
def test_a_nominal_size_turned_into_mm_is_no_true_size(
    tmp_path: Path, nominal: str, size: str
) -> None:
    text = GOOD.replace("width_mm = 145\nthickness_mm = 28\n", f"{size}\n")
    (fault,) = faults_of(tmp_path, text.replace("32 x 150", nominal))
    assert fault.path == "boards[0].width_mm"
    assert "true sizes" in fault.wanted


@pytest.mark.parametrize("nominal", ["", "32 x 150", "5/4x6", "board", "1/0x6", "5/4x6 inch"])
def test_true_sizes_pass_whatever_they_are_called(tmp_path: Path, nominal: str) -> None:
    text = GOOD.replace(
        "width_mm = 145\nthickness_mm = 28\n", 'width = "5.5 in"\nthickness_mm = 25.4\n'
    )
    assert faults_of(tmp_path, text.replace("32 x 150", nominal)) == ()


def test_a_shank_longer_than_its_screw_is_turned_round(tmp_path: Path) -> None:
    text = GOOD.replace("shank_mm = 4.5\nlength_mm = 70", "shank_mm = 12\nlength_mm = 12")
    (fault,) = faults_of(tmp_path, text)
    assert fault.path == "screws[0].shank_mm"


RULE = """
[[boards.rules]]
rule = "{rule}"
value = {value}
source = {{ kind = "merchant record", title = "Sheet" }}
"""


def with_rules(*rules: tuple[str, object]) -> str:
    text = "".join(RULE.format(rule=rule, value=value) for rule, value in rules)
    return GOOD.replace("\n[[timbers]]", f"{text}\n[[timbers]]")


@pytest.mark.parametrize(
    ("rules", "path", "found"),
    [
        ([("gap_least_mm", 6), ("gap_most_mm", 4)], "boards[0].rules", "gap_least_mm = 6 above"),
        ([("gap_preferred_mm", 6), ("gap_most_mm", 4)], "boards[0].rules", "gap_preferred_mm"),
        ([("most_centres_mm", 450)], "boards[0].rules", '"most_centres_mm" a second time'),
        ([("may_rip", "true")], "boards[0].rules[1].value", "true"),
        ([("may_rip", 2)], "boards[0].rules[1].value", "2"),
        ([("stagger_bays", 2.0)], "boards[0].rules[1].value", "2.0"),
        ([("spare_ratio", 5)], "boards[0].rules[1].value", "5"),
        ([("spare_ratio", '"5 %"')], "boards[0].rules[1].value", '"5 %"'),
        ([("least_rip_mm", '"3"')], "boards[0].rules[1].value", '"3"'),
    ],
)
def test_rules_of_an_article_are_checked(
    tmp_path: Path, rules: list[tuple[str, object]], path: str, found: str
) -> None:
    (fault,) = faults_of(tmp_path, with_rules(*rules))
    assert fault.path == path
    assert found in fault.found


def test_rules_of_every_unit_are_read(tmp_path: Path) -> None:
    path = tmp_path / "stock.toml"
    rules = [("may_rip", 1), ("stagger_bays", 2), ("spare_ratio", 0.05), ("sliver_mm", '"2 in"')]
    path.write_text(with_rules(*rules), encoding="utf-8")
    found = {rule.rule: rule.value for rule in load_catalogue(path).boards[0].rules}
    assert found == {
        "most_centres_mm": 400.0,
        "may_rip": 1.0,
        "stagger_bays": 2.0,
        "spare_ratio": 0.05,
        "sliver_mm": 50.8,  # by hand, 2 x 25.4
    }


def test_faults_of_many_articles_are_told_together(tmp_path: Path) -> None:
    text = GOOD.replace('"14.40"', "14.4").replace("45\n", "4500\n").replace('"12.60"', "12.6")
    faults = faults_of(tmp_path, text)
    assert [fault.path.split("[")[0] for fault in faults] == [
        "boards", "boards", "timbers", "timbers", "fascias", "screws",
    ]  # fmt: skip
    assert [fault.line for fault in faults] == sorted(fault.line for fault in faults)


@pytest.mark.parametrize("source", ["nothing.toml", ".", 3, {}])
def test_what_is_no_catalogue_is_refused(source: object) -> None:
    with pytest.raises(CatalogueError):
        load_catalogue(source)  # type: ignore[arg-type]


def test_a_catalogue_that_sells_nothing_is_refused(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path, GOOD[: GOOD.index("[[boards]]")])
    assert fault.found == "no article"


@pytest.mark.parametrize(
    ("currency", "price", "amount", "too_fine"),
    [
        ("JPY", "1440", Decimal(1440), "1440.5"),  # ISO 4217: the yen has no minor unit
        ("EUR", "14.4", Decimal("14.40"), "14.405"),  # two decimals
        ("KWD", "14.405", Decimal("14.405"), "14.4055"),  # three decimals
    ],
)
def test_minor_digits_follow_from_the_currency(
    tmp_path: Path, currency: str, price: str, amount: Decimal, too_fine: str
) -> None:
    head, rest = GOOD.split("\n[[boards]]", 1)
    rest = rest[: rest.index("\n[[timbers]]")].replace("14.40", price).replace("20.15", "20")
    text = head.replace("EUR", currency).replace("minor_digits = 2\n", "") + "\n[[boards]]" + rest
    path = tmp_path / "stock.toml"
    path.write_text(text, encoding="utf-8")
    catalogue = load_catalogue(path)
    assert str(catalogue.boards[0].lengths[0].price) == str(amount)
    path.write_text(text.replace(f'"{price}"', f'"{too_fine}"'), encoding="utf-8")
    assert "decimals" in check_catalogue(path)[0].wanted


@pytest.mark.parametrize(
    ("treatment", "known", "nearest"),
    [
        ("use class 3", 4, "use_class = 3"),
        ("Use  Class 4, brown", 3, "use_class = 4"),
        ("use class 3 or use class 4", 3, "one use class in treatment"),
        ("use class 3", 3, ""),
        ("UC2", 4, "use_class = 2"),
        ("UC 4, brown", 4, ""),
        ("use class 2 to 4", 4, "one use class in treatment"),
        ("ground contact", 4, ""),
        ("", 4, ""),
    ],
)
def test_a_use_class_that_the_treatment_contradicts_is_asked_about(
    tmp_path: Path, treatment: str, known: int, nearest: str
) -> None:
    line = f'treatment = "{treatment}"\nuse_class = {known}'
    found = faults_of(tmp_path, GOOD.replace('treatment = "use class 3"', line))
    assert [(fault.path, fault.nearest) for fault in found] == (
        [("boards[0].use_class", nearest)] if nearest else []
    )
    assert all("treatment" in fault.found and "merchant" in fault.wanted for fault in found)
