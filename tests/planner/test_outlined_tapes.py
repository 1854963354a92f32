"""Tapes that set pegs out go round what stands in the deck already."""

from functools import lru_cache

import pytest
from attrs import evolve

from audit.planting import to
from drylay.audit.closed import audit_plan
from drylay.findings import Severity
from drylay.plan.model import Plan
from outlined_gardens import planned

SIDES = ((0, 0), (4000, 0), (4000, 3145), (0, 3145))
OUT = "work.setting_out"


@lru_cache
def round_a_tree(along_mm: int, across_mm: int) -> Plan:
    """Return a deck 4000 by 3145 with a trunk of 300 that is taken for 500 by 500 in ten years."""
    points = [{"along_mm": x, "across_mm": y, "side": "open" if n else "house"}
              for n, (x, y) in enumerate(SIDES)]  # fmt: skip
    tree = {"kind": "tree", "along_mm": along_mm, "across_mm": across_mm, "trunk_mm": 300,
            "years": 10}  # fmt: skip
    return planned(outline={"points": points, "openings": [tree]}, groundwork={})


def stops(plan: Plan) -> set[str]:
    found = audit_plan(plan).findings
    return {each.code for each in found if each.severity is Severity.STOP}


def told(plan: Plan) -> list[tuple[str, str]]:
    return [(tie.start, tie.end) for tie in plan.work.setting_out.ties]


def test_a_tree_on_one_diagonal_is_gone_round() -> None:
    """P1 does not see P3: P4 is set first, from both ends of the base line, P3 from P2 and P4."""
    plan = round_a_tree(1200, 943)
    assert told(plan) == [("P1", "P2"), ("P1", "P4"), ("P2", "P4"), ("P2", "P3"), ("P4", "P3")]
    assert not [each for each in plan.findings if each.code == "WRK-002"]
    # corner to corner 4000 by 3000 stays clear: (1450, 1193) is 0.36 + 0.40 of the way there
    assert plan.work.setting_out.slant_mm == 5000
    assert stops(plan) == set()


def test_a_tree_on_both_diagonals_is_told_with_another_tape() -> None:
    """From the middle of the base line: the root of 2000 x 2000 + 3145 x 3145 is 3727.1."""
    plan = round_a_tree(2000, 1572)
    (found,) = (each for each in plan.findings if each.code == "WRK-002")
    assert (found.subject, found.severity) == ("P3", Severity.CAUTION)
    assert "tape from P1" in found.message
    assert "pull 3727.1 mm from the middle between P1 and P2" in found.message
    assert not any(tie.check for tie in plan.work.setting_out.ties)
    # the trunk's corner nearest P1, (1750, 1322): 0.486 + 0.490 of a slant of 4500, which meets it;
    # 0.547 + 0.551 of one of 4000, which lies before it
    assert plan.work.setting_out.slant_mm == 4000
    assert stops(plan) == set()


def shut_tape_untold(plan: Plan) -> Plan:
    return to("findings", tuple(each for each in plan.findings if each.code != "WRK-002"))(plan)


def check_through_it(plan: Plan) -> Plan:
    out = plan.work.setting_out
    more = evolve(out.ties[1], start="P2", end="P4", length_mm=out.ties[1].length_mm, check=True)
    return to(f"{OUT}.ties", (*out.ties, more))(plan)


def longer_slant(plan: Plan) -> Plan:
    longer = {"leg_along_mm": 3600.0, "leg_across_mm": 2700.0, "slant_mm": 4500.0}
    for name, long in longer.items():
        plan = to(f"{OUT}.{name}", long)(plan)
    return plan


@pytest.mark.parametrize(
    ("code", "fault"),
    [
        ("AUD-926", shut_tape_untold),
        ("AUD-925", check_through_it),
        ("AUD-928", longer_slant),
    ],
)
def test_the_auditor_finds_tapes_that_cannot_be_pulled(code: str, fault: object) -> None:
    assert code in stops(fault(round_a_tree(2000, 1572)))  # type: ignore[operator]
