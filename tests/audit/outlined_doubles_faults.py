"""Faults planted in the screws of doubles: a deck with an opening four joists wide."""

from collections.abc import Callable

from attrs import evolve

from audit.planting import Edit, both, by, to, twice, without
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.reasons import Source
from outlined_gardens import doubled

D = "fixings.double_screws"


def loose(subject: str, measured_mm: float) -> Edit:
    """Return the edit that tells members whose screws are not in the order."""
    told = Finding(
        code="SUB-015", severity=Severity.CAUTION, subject=subject, message="loose", unit="mm",
        measured=measured_mm, source=Source(kind="common practice", title="planted"),
    )  # fmt: skip
    return lambda plan: evolve(plan, findings=(*plan.findings, told))


def double_as(mark: str, **changes: object) -> Edit:
    """Return the edit that tells a member otherwise."""

    def run(plan: Plan) -> Plan:
        assert plan.subframe is not None
        members = tuple(
            evolve(each, **changes) if each.mark == mark else each
            for each in plan.subframe.members
        )  # fmt: skip
        return to("subframe.members", members)(plan)

    return run


#: By hand: D1 and D2 are 2310 long, D3 and D4 1063.5, face to face with one joist or trimmer each.
DOUBLES_FAULTS: tuple[tuple[str, str, Callable[[], Plan], Edit], ...] = (
    ("AUD-983", "a stretch less", doubled, without(f"{D}.stretches", 0)),
    ("AUD-983", "a double less", doubled, double_as("D1", kind="noggin")),
    ("AUD-983", "screwed to another", doubled, to(f"{D}.stretches[0].to", "J1")),
    ("AUD-983", "a longer stretch", doubled, by(f"{D}.stretches[0].length_mm", 0.1)),
    ("AUD-983", "no screws, and no caution", doubled, to(D, None)),
    ("AUD-983", "a caution for nothing", doubled, loose("D1", 0.0)),
    ("AUD-983", "a caution of less", doubled, both(to(D, None), loose("D1, D2, D3, D4", 6740.0))),
    ("AUD-983", "one left out of it", doubled, both(to(D, None), loose("D1, D2, D3", 6747.0))),
    ("AUD-984", "one more between", doubled, by(f"{D}.stretches[0].between", 1)),
    ("AUD-984", "further apart", doubled, by(f"{D}.stretches[0].apart_mm", 1.0)),
    ("AUD-984", "a screw less in one", doubled, by(f"{D}.stretches[0].count", -1)),
    ("AUD-984", "a screw less of all", doubled, by(f"{D}.count", -1)),
    ("AUD-984", "too short a stretch", doubled, to(f"{D}.stretches[0].length_mm", 119.0)),
    ("AUD-984", "a wider spacing", doubled, to(f"{D}.spacing_most_mm", 600.0)),
    ("AUD-984", "one an end", doubled, to(f"{D}.per_end", 1)),
    ("AUD-984", "nearer the ends", doubled, to(f"{D}.end_least_mm", 40.0)),
    ("AUD-984", "nearer the edges", doubled, to(f"{D}.edge_mm", 20.0)),
    ("AUD-984", "less in the second timber", doubled, to(f"{D}.length_least_mm", 60.0)),
    ("AUD-984", "longer than both", doubled, to(f"{D}.length_most_mm", 100.0)),
    ("AUD-984", "too short a screw", doubled, to(f"{D}.length_mm", 80.0)),
    ("AUD-984", "too long a screw", doubled, to(f"{D}.length_mm", 100.0)),
    ("AUD-984", "too thin a screw", doubled, to(f"{D}.shank_mm", 4.5)),
    ("AUD-984", "another pilot", doubled, to(f"{D}.pilot_mm", 6.0)),
    ("AUD-741", "not bought", doubled, by(f"{D}.count", 1)),
    ("AUD-630", "of no metal row", doubled, without("fixings.metals", 3)),
    ("AUD-983", "a stretch twice", doubled, twice(f"{D}.stretches", 0)),
)  # fmt: skip
