"""What stops fields on an outline from being laid out, each with what would mend it."""

import math
from itertools import pairwise

from drylay.findings import Finding, Severity
from drylay.geometry import SAME_MM, Ring
from drylay.laying.border import Squeeze, short_side
from drylay.laying.fields import Breaker
from drylay.laying.fit import Depth, FitRules, RowFit, whole_depths
from drylay.laying.joints import Broken
from drylay.marks import exact, to_mm
from drylay.outline.model import Outline
from drylay.planner.job import Job
from drylay.planner.outlined_job import fit_rules, kinds_of, sizes_of
from drylay.planner.rows import ARITHMETIC, PRACTICE


def no_border(outline: Outline, ring: Ring, wide_mm: float) -> Finding:
    """Return the stop that a side is too short for a border."""
    short = short_side(ring, wide_mm=wide_mm)
    assert short is not None
    side, length, least = short
    return Finding(
        code="LAY-001", severity=Severity.STOP, subject=outline.sides[side].mark,
        message="the side is too short for a border so wide, its mitres meet: make it longer than "
        "the least, take fewer courses (laying.border_courses), or no border",
        measured=round(length, 4), limit=math.ceil(least * 10 - 1e-6) / 10, unit="mm",
        source=ARITHMETIC,
    )  # fmt: skip


def squeezed(outline: Outline, squeeze: Squeeze) -> Finding:
    """Return the stop that a border and its gaps leave no field by a side, or between two."""
    lone = len(squeeze.sides) == 1
    where = "along the side, make it longer" if lone else "in the neck between, make it wider"
    return Finding(
        code="LAY-001", severity=Severity.STOP,
        subject=" and ".join(outline.sides[side].mark for side in squeeze.sides),
        message=f"the border leaves no field {where} than the least: "
        "take fewer courses (laying.border_courses), or no border",
        measured=round(squeeze.length_mm, 4),
        limit=math.ceil(squeeze.least_mm * 10 - 1e-6) / 10, unit="mm", source=ARITHMETIC,
    )  # fmt: skip


def crowded(job: Job, breakers: tuple[Breaker, ...]) -> tuple[Finding, ...]:
    """Return a stop for every two breaker boards that leave no gap between them."""
    sizes = sizes_of(job)
    least = sizes.board_mm + sizes.end_gap_mm
    middles = [(each.start_mm + each.end_mm) / 2 for each in breakers]
    return tuple(
        Finding(
            code="LAY-015", severity=Severity.STOP, subject="breaker boards",
            message=f"those at {one:g} and {other:g} mm (laying.breakers_mm) leave no gap between "
            f"them: leave one out, or move the second to {one + least:g} mm or beyond",
            measured=to_mm(exact(other - one)), limit=to_mm(exact(least)), unit="mm",
            source=ARITHMETIC,
        )
        for one, other in pairwise(middles)
        if other - one < least - SAME_MM
    )  # fmt: skip


def nothing_left(job: Job, subject: str) -> Finding:
    """Return the stop that a field has no area: no room for even the narrowest row."""
    rules = fit_rules(job)
    least_320 = min(rules.board_320, rules.least_rip_320) if rules.may_rip else rules.board_320
    return Finding(
        code="LAY-003", severity=Severity.STOP, subject=subject,
        message="nothing of the outline is left for this field: borders, breaker boards or other "
        "fields take all of it; leave the narrowest row at least",
        measured=0.0,
        limit=to_mm(least_320),
        unit="mm",
        source=job.rules.source("surface.least_rip_mm") if rules.may_rip else ARITHMETIC,
    )  # fmt: skip


def not_apart(job: Job, broken: Broken) -> Finding:
    """Return the stop that joints beside an opening do not keep a limit, and by how much."""
    few = broken.unit == "supports"
    told = "a piece there would rest on too few" if few else "they would be so few apart"
    return Finding(
        code="LAY-013", severity=Severity.STOP, subject=" and ".join(broken.rows),
        message=f"joints beside an opening cannot be kept apart: {told}; breaker boards "
        "(laying.breakers), a smaller stagger, or the opening elsewhere",
        measured=float(broken.measured), limit=float(broken.limit), unit=broken.unit,
        source=job.rules.source("pieces.least_supports" if few else "pieces.stagger_bays"),
    )  # fmt: skip


def no_way(job: Job, depth: Depth, rules: FitRules, ways: tuple[RowFit, ...]) -> Finding:
    """Return the stop that no rows fill a field, and by how much a side would have to move."""
    near = sorted(ways, key=lambda way: abs(way.gap_320 - rules.gap_preferred_320))
    broken = "; ".join(dict.fromkeys(why for way in near for why in way.broken))
    less, more = whole_depths(depth, rules)
    told = f"in by {to_mm(less):g} mm" + (f" or out by {to_mm(more):g} mm" if more else "")
    return Finding(
        code="ROW-001",
        severity=Severity.STOP,
        subject="rows",
        message=f"no rows fill the field that the brief allows ({', '.join(kinds_of(job))}): "
        f"{broken or 'none can be laid'}; move the side of the last row {told}, widen the range of "
        "gaps, or name a board that may be ripped",
        measured=to_mm(depth.depth_320),
        limit=to_mm(depth.depth_320 - less),
        unit="mm",
        source=PRACTICE,
    )


def hole(mark: str) -> Finding:
    """Return the stop that a field lies round another."""
    return Finding(
        code="LAY-004", severity=Severity.STOP, subject=mark,
        message="another field lies wholly inside this one: let it reach a side of the outline, so "
        "that rows end at it from one side", source=ARITHMETIC,
    )  # fmt: skip
