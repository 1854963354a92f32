"""Lengths as people write them.

Outside values: NIST Handbook 44, Appendix C, units of length (from memory; the inch itself is
fixed by the international yard and pound agreement of 1959).
"""

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.units import length_mm, length_text


def read(text: object) -> float:
    return length_mm(text, path="here")


def refusal(value: object) -> tuple[str, str, str]:
    with pytest.raises(InputError) as caught:
        read(value)
    (fault,) = caught.value.faults
    assert fault.path == "here"
    return fault.found, fault.wanted, fault.nearest


@given(tenths=st.integers(0, 1_000_000))
def test_every_way_to_write_a_metric_length_is_the_same_length(tenths: int) -> None:
    whole, part = divmod(tenths, 10)
    mm = f"{whole}.{part}"
    expected = float(mm)
    assert read(f"{mm} mm") == read(f"{mm}millimetres") == expected
    assert read(f"{tenths // 100}.{tenths % 100:02d} cm") == expected
    assert read(f"{tenths // 10_000}.{tenths % 10_000:04d} m") == expected


@given(
    feet=st.integers(0, 300),
    inches=st.integers(0, 11),
    over=st.integers(1, 63),
    under=st.sampled_from([2, 4, 8, 16, 32, 64]),
)
def test_feet_inches_and_fractions_are_exact(feet: int, inches: int, over: int, under: int) -> None:
    over = over % under or 1
    sixty_fourths = (feet * 12 + inches) * 64 + over * 64 // under
    expected = sixty_fourths * 127 / 320  # 1/64 in = 25.4/64 mm = 127/320 mm
    for text in (
        f"{feet} ft {inches} {over}/{under} in",
        f"{feet}' {inches} {over}/{under}\"",
        f"{feet}'-{inches}-{over}/{under}\"",
        f"{feet} feet {inches} {over}/{under} inches",
        f"{feet * 12 + inches} {over}/{under} in.",
        f"{feet}’ {inches} {over}⁄{under}”",
    ):
        assert read(text) == expected, text


@pytest.mark.parametrize(
    ("text", "mm", "where"),
    [
        ("1 in", 25.4, "Handbook 44 C: 1 inch = 2.54 centimeters (exactly)"),
        ("1 ft", 304.8, "Handbook 44 C: 1 foot = 0.3048 meter (exactly)"),
        ("1 yd", 914.4, "Handbook 44 C: 1 yard = 0.9144 meter (exactly)"),
        ("1 mile", 1_609_344.0, "Handbook 44 C: 1 mile = 1.609 344 kilometers (exactly)"),
        ("1000 thou", 25.4, "by hand, a thousandth of an inch"),
        ("1 dm", 100.0, "Handbook 44 C: 1 decimeter = 10 centimeters"),
        ("1 km", 1_000_000.0, "Handbook 44 C: 1 kilometer = 1000 meters"),
        ("16 ft", 4876.8, "by hand, 16 x 304.8"),
        ("12 ft", 3657.6, "by hand, 12 x 304.8"),
        ("12 ft 6 1/2 in", 3822.7, "by hand, 150.5 x 25.4"),
        ("4 7/16 in", 112.7125, "by hand, 4.4375 x 25.4"),
        ("3'6\"", 1066.8, "by hand, 42 x 25.4"),
        ("6-1/2 in", 165.1, "by hand, 6.5 x 25.4"),
        ("5/8 in", 15.875, "by hand, 0.625 x 25.4"),
        ("12.5 ft", 3810.0, "by hand, 150 x 25.4"),
        ("6½ in", 165.1, "by hand, 6.5 x 25.4"),
        ("12 FT 6 IN", 3810.0, "by hand, 150 x 25.4"),
        (" 6.045  metres ", 6045.0, "by hand"),
        (".5 m", 500.0, "by hand"),
    ],
)
def test_a_length_is_read_exactly(text: str, mm: float, where: str) -> None:
    assert read(text) == mm, where


@pytest.mark.parametrize("text", ["1/3 in", "0.001 mm", "1.00001 m"])
def test_a_finer_length_is_the_nearest_of_1_320_mm(text: str) -> None:
    number, unit = text.split()
    size = {"in": Fraction(254, 10), "mm": 1, "m": 1000}[unit]
    counted = Fraction(read(text)) * 320
    assert abs(counted - Fraction(number) * size * 320) <= Fraction(1, 2)
    assert abs(counted - round(counted)) < Fraction(1, 10**6)


@pytest.mark.parametrize(
    ("text", "found", "nearest"),
    [
        ("6045", '"6045"', '"6045 mm" or "6045 in"'),
        ("3'6", '"3\'6"', '"3 ft 6 in"'),
        ("12 ft 6 1/2", '"12 ft 6 1/2"', '"12 ft 6 1/2 in"'),
        ("-3 m", '"-3 m"', '"3 m"'),
        ("6,045 m", '"6,045 m"', '"6.045 m" or "6045 m"'),
        ("5/4 in", '"5/4 in"', ""),
        ("6 1/0 in", '"6 1/0 in"', ""),
        ("12 ft 13 in", '"12 ft 13 in"', ""),
        ("12.5 ft 3 in", '"12.5 ft 3 in"', ""),
    ],
)
def test_what_cannot_be_read_without_guessing_is_asked(text: str, found: str, nearest: str) -> None:
    assert refusal(text)[::2] == (found, nearest)


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "mm", "9**9**9 mm", "1e999 m", "1e3 mm", "nan m", "inf mm", "-inf m", "nan",
        "((1 m", "3 m + 2 m", "6 m 3", "6 ft 3 m", "2x8", "5/4x6", "٣ m", "３ m", "² m",
        "3 kg", "3 s", "3 degC", "3 furlongs per hour", "3 m**2", "3 mmm", "6\nmm", "6 mm\x00",
        "1/2/3 in", "1 2 in", "1 1/2 1/2 in", "' \"", "5. mm", "+5 mm", "5 mm?", "six mm",
    ],
)  # fmt: skip
def test_what_is_no_length_is_refused(text: str) -> None:
    found, wanted, _ = refusal(text)
    assert wanted
    assert found.startswith('"')
    assert found.isprintable()


def test_a_huge_text_is_refused_unread() -> None:
    assert refusal("9" * 100_000 + " mm")[0] == "a text of 100003 characters"


@pytest.mark.parametrize("value", [6045, 6.045, None, True, ["6 m"], b"6 m"])
def test_what_brings_no_unit_is_refused(value: object) -> None:
    assert refusal(value)[1] == "a length with its unit"


@given(st.text(max_size=30) | st.from_regex(r"[0-9./' \"-]{1,12}(in|ft|m|mm|yd)?", fullmatch=True))
def test_any_text_is_a_length_or_the_documented_error(text: str) -> None:
    with suppress(InputError):
        assert 0 <= read(text) < float("inf")


def test_a_hosts_quantity_is_converted_in_the_hosts_own_registry() -> None:
    import pint

    host = pint.UnitRegistry()
    host.define("ell = 1.143 * meter")
    assert read(host.Quantity(2, "ell")) == 2286.0
    assert read(host.Quantity(12.5, "ft")) == 3810.0
    exact = pint.UnitRegistry(non_int_type=Fraction)
    assert read(exact.Quantity(Fraction(13, 2), "inch")) == 165.1


@pytest.mark.parametrize(
    ("size", "unit"), [(3, "kg"), (float("nan"), "m"), (float("inf"), "m"), (-2, "m")]
)
def test_a_hosts_quantity_that_is_no_length_is_refused(size: float, unit: str) -> None:
    import pint

    assert refusal(pint.UnitRegistry().Quantity(size, unit))[1].startswith("a length")


def test_a_host_cannot_change_what_our_units_mean() -> None:
    import pint

    host = pint.UnitRegistry()
    host.define("yard = 1 * meter = yd")
    before = pint.get_application_registry().get()
    pint.set_application_registry(host)
    try:
        assert read("1 yd") == 914.4
    finally:
        pint.set_application_registry(before)


def test_many_threads_read_the_same() -> None:
    with ThreadPoolExecutor(8) as pool:
        assert set(pool.map(read, ["3 yd"] * 64)) == {2743.2}


def test_pint_is_not_needed_for_what_carpenters_write() -> None:
    code = (
        "import sys; from drylay.units import length_mm\n"
        "length_mm('12 ft 6 1/2 in', path=''); length_mm('3 m', path='')\n"
        "assert 'pint' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


@given(length_320=st.integers(-(10**7), 10**7), units=st.sampled_from(["metric", "imperial"]))
def test_a_written_length_reads_back_or_says_that_it_is_near(length_320: int, units: str) -> None:
    text = length_text(length_320 / 320, units)
    near, bare = text.startswith("~"), text.removeprefix("~")
    again = read(bare.removeprefix("-")) * (-1 if bare.startswith("-") else 1)
    step_320 = 32 if units == "metric" else 508
    assert near == (length_320 % step_320 != 0)
    assert abs(again * 320 - length_320) <= (step_320 / 2 if near else 1e-6)


@pytest.mark.parametrize(
    ("mm", "units", "text"),
    [
        (2995.0, "metric", "2995 mm"),
        (0.0, "metric", "0 mm"),
        (7.5, "metric", "7.5 mm"),
        (9.525, "metric", "~9.5 mm"),
        (-20.0, "metric", "-20 mm"),
        (3822.7, "imperial", "12 ft 6 1/2 in"),  # 150.5 in
        (3657.6, "imperial", "12 ft"),
        (152.4, "imperial", "6 in"),
        (0.0, "imperial", "0 in"),
        (4.7625, "imperial", "3/16 in"),
        (3060.7, "imperial", "10 ft 0 1/2 in"),  # 120.5 in
        (5.0, "imperial", "~3/16 in"),  # 0.19685 in, 3/16 is 0.1875
        (-5.0, "imperial", "~-3/16 in"),
    ],
)
def test_lengths_are_written_as_the_trade_writes_them(mm: float, units: str, text: str) -> None:
    assert length_text(mm, units) == text
