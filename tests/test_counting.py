"""Money is counted alike whatever decimals a host, or a plugin, has set for the thread."""

from decimal import Decimal, getcontext, localcontext

import pytest

import drylay
from compare.sheds import SHED, STOCK
from drylay.counting import counted

BRIEF = drylay.read_brief(SHED)


@pytest.mark.parametrize("digits", [3, 4])
def test_a_plan_and_its_audit_hang_on_no_setting(digits: int) -> None:
    """Once a total lost its last digits, and the audit lost the same ones."""
    plan = drylay.design(BRIEF, stock=STOCK)
    with localcontext() as host:
        host.prec = digits
        assert drylay.design(BRIEF, stock=STOCK) == plan
        assert drylay.audit(plan, brief=BRIEF, stock=STOCK).sound


def test_the_hosts_own_setting_is_given_back() -> None:
    seen = []

    @counted
    def ask() -> None:
        seen.append(Decimal("145607.11") + 0)
        getcontext().prec = 2
        raise LookupError

    with localcontext() as host:
        host.prec = 5
        with pytest.raises(LookupError):
            ask()
        assert getcontext().prec == 5
    assert seen == [Decimal("145607.11")]
