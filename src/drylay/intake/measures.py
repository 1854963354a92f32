"""A value whose unit stands beside it: a length, a count, a ratio, or yes/no."""

import math

from drylay.errors import Fault
from drylay.intake.keys import Key
from drylay.intake.values import number_of, read_count, read_length_text, read_mm, unfit


def read_measure(value: object, *, unit: str, least: float, most: float) -> float | Fault:
    """Return a value in `unit`, or a fault. A length may be a text such as "16 in"."""
    key = Key(name="value", kind="length" if unit == "mm" else "count", least=least, most=most)
    answer: float | Fault
    match unit:
        case "mm":
            as_text = isinstance(value, str) or hasattr(value, "m_as")
            answer = read_length_text(key, value) if as_text else read_mm(key, value)
        case "count":
            answer = read_count(key, value)
        case "yes/no":
            answer = _yes_no(value)
        case _:
            answer = _ratio(value, least, most)
    return answer if isinstance(answer, Fault) else float(answer)


def _ratio(value: object, least: float, most: float) -> float | Fault:
    number = number_of(value)
    wanted = f"a number, {least:g} to {most:g}"
    if number is None:
        return unfit(value, wanted)
    if not math.isfinite(number) or not least <= number <= most:
        return unfit(value, wanted, _ratio_fix(number, least, most))
    return number


def _ratio_fix(number: float, least: float, most: float) -> str:
    """Return the nearest ratio: a number of 2 or more is read as a percentage."""
    if not math.isfinite(number):
        return ""
    if number >= 2 and least <= number / 100 <= most:
        return f"value = {number / 100:.15g}"
    return ""


def _yes_no(value: object) -> float | Fault:
    if isinstance(value, int) and not isinstance(value, bool) and value in (0, 1):
        return float(value)
    nearest = f"value = {int(value)}" if isinstance(value, bool) else ""
    return unfit(value, "1 for yes or 0 for no", nearest)
