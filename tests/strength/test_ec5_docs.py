"""The values on docs/strength-ec5.md are those of the library."""

import re
from pathlib import Path

from drylay.strength.ec5_values import values

PAGE = Path(__file__).parents[2] / "docs" / "strength-ec5.md"


def test_the_table_of_values_is_the_values() -> None:
    rows = re.findall(
        r"^\| `(\w+)` \| ([\d.]+) \| (.+) \| ([a-z ]+) \|$", PAGE.read_text("utf-8"), re.M
    )
    assert rows == [
        (
            told.rule,
            str(told.value),
            f"{told.source.title}, {told.source.clause}",
            dict(told.inputs)["standing"],
        )
        for told in values()
    ]
