"""What an audit of a deck that stands takes on trust is told."""

from audit.standing_real import on_ledger
from audit.test_standing_rare import american
from drylay.audit.closed import audit_plan


def paths(*, seen: bool) -> set[str]:
    plan, witness = on_ledger()
    report = audit_plan(plan, witness=witness if seen else None)
    return {each.path for each in report.trusted}


def test_the_ground_under_posts_is_trusted_without_a_brief() -> None:
    assert "raised.frame.posts[0].ground_mm" in paths(seen=False)
    assert "raised.frame.posts[0].ground_mm" not in paths(seen=True)


def test_loads_limits_and_values_of_wood_are_trusted() -> None:
    told = paths(seen=True)
    assert {"strength.imposed_kn_m2", "guards.trigger_mm", "footings.bearing_kn_m2"} <= told
    assert any(path.startswith("strength.screened[0]") for path in told)


def test_each_value_of_wood_is_told_once() -> None:
    plan, _ = on_ledger()
    assert plan.strength is not None
    quoted = [
        dict(check.inputs).get("f_v,k") for one in plan.strength.screened for check in one.checks
    ]
    told = [each for each in audit_plan(plan).trusted if each.path.startswith("strength.screened")]
    values = [each.value for each in told if each.value == 4.0]
    assert quoted.count(4.0) > 1
    assert len(values) == 1


def test_limits_that_quote_no_values_are_trusted() -> None:
    assert any(each.path.endswith(".limit") for each in audit_plan(american()).trusted)
