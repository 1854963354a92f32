"""Values told as a span, from and to and by how much: written out exactly."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from math import isfinite
from numbers import Integral, Rational

from drylay.errors import Fault
from drylay.intake.shown import shown
from drylay.intake.values import fault, number_of, unfit

SPAN = ("from", "to", "by")
#: More values than these of one path are a slip. Assumption.
MOST_VALUES = 1_000_000


def values_of(given: object) -> object | Fault:
    """Return the values of a span, both ends among them if the steps meet them; else as given.

    Whole numbers stay whole. 0.9 to 1.1 by 0.05 is 0.9, 0.95, 1.0, 1.05, 1.1, digit for digit.
    """
    if not isinstance(given, Mapping) or not {"from", "to"} & set(given):
        return given
    if set(given) != set(SPAN):
        return unfit(given, "a span of three, such as { from = 2400, to = 4800, by = 25 }")
    numbers = [number_of(given[name]) for name in SPAN]
    if any(number is None or not isfinite(number) for number in numbers):
        return unfit(given, "numbers, in mm for a path that ends in _mm")
    first, last, step = (_exact(given[name]) for name in SPAN)
    if step <= 0 or last < first:
        return unfit(given, "from up to to, by steps above 0")
    count = (last - first) // step + 1
    if count > MOST_VALUES:
        return fault(f"{shown(count)} values", f"{MOST_VALUES} at most")
    steps = (first + step * at for at in range(count))
    if all(isinstance(given[name], Integral) for name in SPAN):
        return tuple(int(each) for each in steps)
    return tuple(float(each) for each in steps)


def _exact(number: object) -> Fraction:
    """Return a number exactly, a float as the decimal number that it is written as."""
    if isinstance(number, Integral):  # a number of numpy's may be one
        return Fraction(int(number))
    if isinstance(number, Rational | Decimal):
        return Fraction(number)
    return Fraction(repr(float(number)))  # type: ignore[arg-type]
