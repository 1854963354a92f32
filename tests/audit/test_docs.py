"""docs/audit.md lists every check under its title."""

from pathlib import Path

import pytest

from drylay.audit.closed import CLOSED, WITNESSED

PAGE = (Path(__file__).parents[2] / "docs" / "audit.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(("code", "title"), [check[:2] for check in (*CLOSED, *WITNESSED)])
def test_a_check_is_documented(code: str, title: str) -> None:
    assert f"| {code} | {title} |" in PAGE


def test_no_other_check_is_documented() -> None:
    assert PAGE.count("| AUD-") == len(CLOSED) + len(WITNESSED)
