"""A merchant's rule that nobody builds to is a slip, told when the stock file is read."""

import pytest

from drylay.materials.checks import check_rules


@pytest.mark.parametrize("rule", ["most_centres_mm", "noggin_spacing_most_mm"])
def test_a_spacing_under_100_mm_is_a_fault(rule: str) -> None:
    (fault,) = check_rules({rule: 3.0})
    assert fault.found == f"{rule} = 3"
    assert not list(check_rules({rule: 100.0}))
