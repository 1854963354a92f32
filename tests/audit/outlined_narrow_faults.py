"""Faults planted in the width of zones: of a real L, its slivers 72.5 wide, its screws 15 off."""

from collections.abc import Callable

from attrs import evolve

from audit.outlined_real import garden
from audit.outlined_sample import box, spots
from audit.planting import Edit, both, to
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.reasons import Source


def thin(wide_mm: float) -> Edit:
    """Return the edit that makes the first zone so wide."""
    return to("laying.zones[0].corners", box(0.0, 0.0, 2000.0, wide_mm))


def cautioned(mark: str, wide_mm: float) -> Edit:
    """Return the edit that cautions of a zone that it is so wide."""
    told = Finding(
        code="LAY-020", severity=Severity.CAUTION, subject=mark, message="narrow", unit="mm",
        measured=wide_mm, limit=72.5, source=Source(kind="common practice", title="planted"),
    )  # fmt: skip
    return lambda plan: evolve(plan, findings=(*plan.findings, told))


NARROW_FAULTS: tuple[tuple[str, str, Callable[[], Plan], Edit], ...] = (
    ("AUD-978", "no room for screws", garden, thin(29.0)),
    ("AUD-978", "no room, and cautioned", garden, both(thin(29.0), cautioned("Z1", 29.0))),
    ("AUD-978", "a sliver untold", garden, thin(72.0)),
    ("AUD-978", "another width told", garden, both(thin(45.0), cautioned("Z1", 44.0))),
    ("AUD-978", "told, and no sliver", garden, both(thin(80.0), cautioned("Z1", 80.0))),
    ("AUD-978", "told of no zone", garden, cautioned("Z9", 45.0)),
    ("AUD-978", "a zone that is a speck", garden,
     to("laying.zones[0].corners", spots((5.0, 5.0), (5.0, 5.0)))),
)  # fmt: skip
#: Widths that are told as they are, at their limits.
SOUND: tuple[Edit, ...] = (
    both(thin(30.0), cautioned("Z1", 30.0)), both(thin(72.0), cautioned("Z1", 72.0)), thin(72.5),
)  # fmt: skip
