"""Limits that the tests of this room share."""

from drylay.raised.model import SpanLimit
from drylay.reasons import Source

SAID = Source(kind="assumption", title="a number of the test")


def limit(most_mm: float, measured: str = "clear") -> SpanLimit:
    return SpanLimit(most_mm=most_mm, measured=measured, source=SAID)
