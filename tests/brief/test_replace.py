"""brief.replace: one value changed, read as the reader would read it."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from brief.wishes import briefs
from drylay.brief.codec import brief_to_dict
from drylay.brief.keys import SECTIONS
from drylay.brief.model import Brief, GapWish, Override
from drylay.brief.reader import read_brief
from drylay.errors import BriefError, UnknownPathError

GARDEN = Path(__file__).parents[2] / "docs" / "examples" / "garden.toml"


@pytest.fixture
def brief() -> Brief:
    return read_brief(GARDEN)


@settings(max_examples=30)
@given(briefs())
def test_putting_back_what_is_there_changes_nothing(brief: Brief) -> None:
    for section, table in brief_to_dict(brief).items():
        if isinstance(table, dict):
            for key, value in table.items():
                assert brief.replace(f"{section}.{key}", value) == brief
        assert brief.replace(section, table) == brief


@pytest.mark.parametrize(
    ("path", "value", "found"),
    [
        ("cover.along_mm", 6200, 6200.0),
        ("cover.along_mm", "20 ft", 6096.0),  # by hand, 20 x 304.8
        ("cover.along", "6.2 m", 6200.0),
        ("board.article", "DB-28-120", "DB-28-120"),
        ("joints.price_each", "2.25", Decimal("2.25")),
        ("joints.most_per_row", 2, 2),
        ("gap.preferred_mm", None, None),
        ("rows.prefer", ("gaps",), ("gaps",)),
        ("title", "Other", "Other"),
        ("gap", {"least": "4 mm"}, GapWish(least_mm=4.0)),
        ("gap", GapWish(most_mm=7.0), GapWish(most_mm=7.0)),
    ],
)
def test_one_value_is_changed(brief: Brief, path: str, value: object, found: object) -> None:
    changed = brief.replace(path, value)
    name = path.split(".")[-1]
    noun: Any = getattr(changed, path.split(".", maxsplit=1)[0]) if "." in path else changed
    assert getattr(noun, name if hasattr(noun, name) else f"{name}_mm") == found
    assert changed != brief


def test_a_hosts_quantity_is_taken(brief: Brief) -> None:
    import pint

    length = pint.UnitRegistry().Quantity(6.2, "m")
    assert brief.replace("cover.along_mm", length).cover.along_mm == 6200.0


def test_overrides_are_put_in_and_changed(brief: Brief) -> None:
    override = Override(
        path="supports.most_centres_mm", value=350.0, unit="mm", by="an engineer", reason="loads"
    )
    changed = brief.replace("overrides", [override])
    assert changed.overrides == (override,)
    assert changed.replace("overrides[0].value", 300).overrides[0].value == 300.0
    assert changed.replace("overrides", ()) == brief


@pytest.mark.parametrize(
    ("path", "nearest"),
    [
        ("cover.along_m", ("cover.along_mm",)),
        ("along_mm", ("cover.along_mm",)),
        ("article", ("board.article", "border.article", "frame.article")),
        ("nothing.like.it", ()),
        ("", ()),
        ("overrides[0].value", ()),
    ],
)
def test_an_unknown_path_names_the_nearest(
    brief: Brief, path: str, nearest: tuple[str, ...]
) -> None:
    with pytest.raises(UnknownPathError) as caught:
        brief.replace(path, 3)
    assert caught.value.nearest == nearest


def test_an_unknown_key_of_an_override_names_the_nearest(brief: Brief) -> None:
    override = {
        "path": "buying.spare_ratio", "value": 0.1, "unit": "ratio", "by": "x", "reason": "y",
    }  # fmt: skip
    changed = brief.replace("overrides", [override])
    with pytest.raises(UnknownPathError) as caught:
        changed.replace("overrides[0].valu", 3)
    assert caught.value.nearest == ("overrides[0].value",)


@pytest.mark.parametrize(
    ("path", "value", "fault"),
    [
        ("cover.along_mm", "20", "cover.along"),
        ("cover.along_mm", 3.6, "cover.along_mm"),
        ("cover.along_mm", True, "cover.along_mm"),
        ("cover.along_mm", None, "cover.along_mm"),
        ("board.run", "sideways", "board.run"),
        ("gap.least_mm", 9, "gap.most_mm"),
        ("fixings", {}, "fixings.screw"),
        ("fixings", None, "fixings"),
        ("overrides", 3, "overrides"),
    ],
)
def test_a_change_that_cannot_be_planned_from_is_refused(
    brief: Brief, path: str, value: object, fault: str
) -> None:
    with pytest.raises(BriefError) as caught:
        brief.replace(path, value)
    assert fault in [found.path for found in caught.value.faults]


def test_every_key_of_a_brief_is_a_field_of_its_noun(brief: Brief) -> None:
    for section, keys in SECTIONS.items():
        noun = getattr(brief, section)
        assert [key.name for key in keys] == [a.name for a in noun.__attrs_attrs__]
