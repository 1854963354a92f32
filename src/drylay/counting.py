"""Decimals as money and lengths are counted in, whatever the caller has set for his own thread.

What a plugin sets is kept from us where it is asked (`drylay.plugins`).
"""

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
    """Return a verb that counts by decimals of our own, the host's kept for it.

    Six digits cut off money and, counted in 1/320 mm, a length of four metres.
    """

    @wraps(ask)
    def own(*given: Given.args, **named: Given.kwargs) -> Answer:
        with localcontext(COUNTING):
            return ask(*given, **named)

    return own
