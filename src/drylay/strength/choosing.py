"""Choosing, over any set of checks: the longest span of a section, the smallest section for a span.

What passes at one span must pass at every shorter one that is asked: laws in the tests hold the
checks to that. Where a cantilever is given, a short span lets it press and lift more, so the least
span asked must be one that bears it. Spans are rounded down, never to the nearest.
"""

from collections.abc import Callable, Iterable
from functools import cache
from math import floor

from drylay.strength.checks import passes, refuse_unless_positive
from drylay.strength.model import (
    Check,
    LongestSpan,
    Screened,
    Section,
    SectionTried,
    SmallestSection,
)

#: Halvings that bring a span to the last bit of a float.
_HALVINGS = 60


def longest_span(
    screen: Callable[[float], Screened],
    *,
    least_mm: float,
    most_mm: float,
    step_mm: float = 1.0,
) -> LongestSpan:
    """Return the longest span, in whole steps, at which every check passes and nothing stops.

    `screen` says what is found at a span in mm. Both ends are rounded down to whole steps.

    Raises:
        InputError: A bound or the step is not above 0.
    """
    refuse_unless_positive(least_mm=least_mm, most_mm=most_mm, step_mm=step_mm)
    screen = cache(screen)  # what is found at the ends is told again
    low, high = max(1, floor(least_mm / step_mm)), floor(most_mm / step_mm)
    if not passes(screen(low * step_mm)):
        return _span(screen, None, low * step_mm, low * step_mm)
    if passes(screen(high * step_mm)):
        return _span(screen, high * step_mm, high * step_mm, None)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if passes(screen(middle * step_mm)) else (low, middle)
    return _span(screen, low * step_mm, low * step_mm, high * step_mm)


def _span(
    screen: Callable[[float], Screened],
    span_mm: float | None,
    at_mm: float,
    beyond_mm: float | None,
) -> LongestSpan:
    found = screen(at_mm)
    return LongestSpan(
        span_mm=span_mm,
        at=found,
        governing=_first(found),
        beyond=None if beyond_mm is None else _first(screen(beyond_mm)),
    )


def _first(found: Screened) -> Check | None:
    return found.checks[0] if found.checks else None


def smallest_section(
    screen: Callable[[Section], Screened], sections: Iterable[Section]
) -> SmallestSection:
    """Return the first section that passes, the least wood first, then the shallower.

    Those turned down come with what was found for them.
    """
    tried: list[SectionTried] = []
    for section in sorted(sections, key=_wood):
        found = screen(section)
        if passes(found):
            return SmallestSection(
                section=section, at=found, governing=_first(found), turned_down=tuple(tried)
            )
        tried.append(SectionTried(section=section, at=found))
    return SmallestSection(section=None, at=None, governing=None, turned_down=tuple(tried))


def _wood(section: Section) -> tuple[float, float, int]:
    return (
        section.breadth_mm * section.depth_mm * section.plies,
        section.depth_mm,
        section.plies,
    )


def span_at_limit_mm(
    used: Callable[[float], float], *, least_mm: float = 1.0, most_mm: float = 100_000.0
) -> float:
    """Return the span at which `used` reaches 1, unrounded: for setting beside printed tables.

    `used` says how much of a limit a span in mm uses, and rises with it. `most_mm` where it never
    reaches 1.
    """
    low, high = least_mm, most_mm
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if used(middle) <= 1.0 else (low, middle)
    return low if high < most_mm else most_mm
