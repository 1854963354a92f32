"""Decimals as money is counted in, whatever the caller, or a plugin, has set for his own thread."""

from collections.abc import Callable
from decimal import (
    ROUND_HALF_EVEN,
    Context,
    DivisionByZero,
    InvalidOperation,
    Overflow,
    localcontext,
)
from functools import wraps
from typing import ParamSpec, TypeVar

#: Decimals as Python begins with them.
COUNTING = Context(
    prec=28, rounding=ROUND_HALF_EVEN, traps=[DivisionByZero, InvalidOperation, Overflow]
)
Given = ParamSpec("Given")
Answer = TypeVar("Answer")


def counted(ask: Callable[Given, Answer]) -> Callable[Given, Answer]:
    """Return a verb that counts money by decimals of our own: a host's six digits cut it off."""

    @wraps(ask)
    def own(*given: Given.args, **named: Given.kwargs) -> Answer:
        with localcontext(COUNTING):
            return ask(*given, **named)

    return own
