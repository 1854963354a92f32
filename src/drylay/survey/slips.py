"""Usual slips with a tape: what a wrong reading may have been meant to be. Asked, never guessed.

Which slips are usual is common practice, without a source.
"""

from collections.abc import Iterator

from drylay.survey.model import Slip
from drylay.survey.rounding import tenth

#: A whole mark misread, either way; 100 also where a tape was held at its 100 mark.
MARKS_MM = ((10.0, "10 mm misread"), (100.0, "100 mm misread, or the tape held at its 100 mark"),
            (1000.0, "a whole metre misread"), (25.4, "an inch misread"),
            (304.8, "a foot misread"))  # fmt: skip
#: A figure taken in another unit.
UNITS = ((10.0, "cm written as mm"), (1000.0, "metres written as mm"), (0.1, "a nought too many"),
         (25.4, "inches written as mm"))  # fmt: skip
#: Figures read upside down.
TURNED = {"6": "9", "9": "6"}
#: A slip explains a difference when what is left is below this share of it; feet and inches, which
#: few read on a tape of mm, below the second. Assumption.
NEAR, NEAR_IMPERIAL = 0.15, 0.02
IMPERIAL = {"an inch misread", "a foot misread"}


def slips_of(measured_mm: float, implied_mm: float, bar_mm: float) -> tuple[Slip, ...]:
    """Return the usual slips that explain a reading, the nearest first.

    A slip explains it when what the tape should then have read lies within `bar_mm` of what the
    others make of it, and within 15 % of the slip itself.
    """
    found: dict[float, Slip] = {}
    for should_mm, told in _readings(measured_mm):
        off = abs(should_mm - implied_mm)
        near = NEAR_IMPERIAL if told in IMPERIAL else NEAR
        if should_mm > 0 and off <= min(bar_mm, near * abs(should_mm - measured_mm)):
            found.setdefault(should_mm, Slip(told=told, should_be_mm=tenth(should_mm),
                                             off_mm=tenth(off)))  # fmt: skip
    return tuple(sorted(found.values(), key=lambda slip: (slip.off_mm, slip.told)))


def _readings(measured_mm: float) -> Iterator[tuple[float, str]]:
    """Yield every reading that one usual slip would have made into this one."""
    for size, told in MARKS_MM:
        yield measured_mm - size, told
        yield measured_mm + size, told
    for size, told in UNITS:
        yield measured_mm * size, told
    figures = f"{measured_mm:.0f}"
    rest = measured_mm - float(figures)
    for at in range(len(figures) - 1):
        swapped = figures[:at] + figures[at + 1] + figures[at] + figures[at + 2 :]
        if swapped != figures:
            yield float(swapped) + rest, "two figures swapped"
    for at, figure in enumerate(figures):
        if figure in TURNED:
            turned = figures[:at] + TURNED[figure] + figures[at + 1 :]
            yield float(turned) + rest, "a 6 and a 9 confused"
