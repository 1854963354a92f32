"""Laws of briefs: they go round, and their spelling does not matter."""

import json
import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from brief.standing_wishes import standing_briefs
from brief.wishes import briefs, respelled
from drylay.brief.codec import brief_digest, brief_to_dict
from drylay.brief.model import Brief
from drylay.brief.reader import check_brief, read_brief

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(
    path
    for path in (ROOT / "docs" / "examples").glob("*.toml")
    if path.stem != "alternatives"  # what briefs become, no brief
)


def quoted(value: object) -> str:
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{key} = {quoted(part)}' for key, part in value.items())} }}"
    if isinstance(value, list):
        return f"[{', '.join(quoted(part) for part in value)}]"
    return json.dumps(value, ensure_ascii=False)


def toml_of(plain: dict[str, Any]) -> str:
    """Return plain data as TOML: JSON's strings, numbers and lists are TOML's too."""
    top = {name: value for name, value in plain.items() if not isinstance(value, dict)}
    overrides = top.pop("overrides", [])
    lines = [f"{name} = {quoted(value)}" for name, value in top.items()]
    for name, table in plain.items():
        if isinstance(table, dict):
            lines += [f"[{name}]", *(f"{key} = {quoted(v)}" for key, v in table.items())]
    for table in overrides:
        lines += ["[[overrides]]", *(f"{key} = {quoted(v)}" for key, v in table.items())]
    return "\n".join(lines)


@given(briefs() | standing_briefs())
def test_a_brief_goes_round_through_plain_data(brief: Brief) -> None:
    plain = brief.to_dict()
    again = json.loads(json.dumps(plain, allow_nan=False))
    assert read_brief(plain) == read_brief(again) == brief
    assert read_brief(again).to_dict() == plain


@given(brief=briefs() | standing_briefs())
def test_a_brief_goes_round_through_a_file(
    brief: Brief, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("brief") / "brief.toml"
    path.write_text(toml_of(brief_to_dict(brief)), encoding="utf-8")
    assert read_brief(path) == read_brief(str(path)) == brief


@given(brief=briefs() | standing_briefs(), spell=st.sampled_from(["mm", "m", "in", "ft"]))
def test_metric_and_imperial_spelling_are_one_brief(brief: Brief, spell: str) -> None:
    other = read_brief(respelled(brief_to_dict(brief), spell))
    assert other == brief
    assert brief_digest(other) == brief_digest(brief)


@given(one=briefs() | standing_briefs(), other=briefs() | standing_briefs())
def test_digests_are_equal_for_equal_briefs_only(one: Brief, other: Brief) -> None:
    assert (brief_digest(one) == brief_digest(other)) == (one == other)


@given(brief=briefs(), text=st.sampled_from(["0.5", "0.50", "00.500"]))
def test_a_digest_does_not_hear_how_money_was_spelled(brief: Brief, text: str) -> None:
    digests = {
        brief_digest(brief.replace("joints.price_each", price))
        for price in (text, Decimal("0.5"), Decimal("0.5000"))
    }
    assert len(digests) == 1


@given(briefs())
def test_a_wish_left_out_or_none_is_the_same(brief: Brief) -> None:
    plain = brief_to_dict(brief)
    told = {**plain, "gap": {"preferred_mm": None, "least_mm": None, "most_mm": None}}
    left_out = {name: value for name, value in plain.items() if name != "gap"}
    assert read_brief(told) == read_brief(left_out)


@settings(max_examples=60)
@given(brief=standing_briefs(), missing=st.sampled_from(["strength", "levels", "site", "raised"]))
def test_what_a_deck_that_stands_has_to_be_told_of_is_asked_for(brief: Brief, missing: str) -> None:
    """Leave one of its sections out: each fault is of what that section said, and of no other."""
    plain = brief_to_dict(brief)
    faults = check_brief({name: table for name, table in plain.items() if name != missing})
    asked = {"strength": "strength.basis", "levels": "levels.points", "site": "site.region"}
    leans = missing in {"strength", "levels"} or (
        missing == "site" and bool({"guards", "steps"} & {*plain})
    )
    assert [fault.path for fault in faults] == ([asked[missing]] if leans else [])


#: Contradictions, each with the path of its fault: sections' keys that a brief is changed in.
PLANTED: dict[str, dict[str, dict[str, object]]] = {
    "raised.embed_mm": {"raised": {"foot": "metal foot", "embed_mm": 600, "stand_off_mm": None}},
    "raised.stand_off_mm": {"raised": {"foot": "in concrete", "stand_off_mm": 50}},
    "raised.ledger_fixing": {"raised": {"ledger": False, "ledger_fixing": "bolt"}},
    "raised.screw_kn": {"raised": {"footing": "pad", "screw_kn": 10}},
    "raised.lines_mm[1]": {"raised": {"lines_mm": [500, 400]}},
    "raised.posts_mm[2]": {"raised": {"posts_mm": [400, 500, 500]}},
    "raised.post": {"raised": {"post": None}},
    "groundwork.packer": {"groundwork": {"packer": "P"}},
    "steps.side": {"steps": {"side": "house"}},
    "steps.width_mm": {"cover": {"along_mm": 600}, "steps": {"side": "front", "width_mm": 601}},
    "site.region": {"site": {"region": None, "soil": "peat"}},
}


@settings(max_examples=60)
@given(brief=standing_briefs(), path=st.sampled_from(sorted(PLANTED)))
def test_a_contradiction_is_found_whatever_else_a_brief_says(brief: Brief, path: str) -> None:
    plain = brief_to_dict(brief)
    plain["raised"] = {**plain["raised"], "plies": 2}  # type: ignore[dict-item]
    for section, keys in PLANTED[path].items():
        plain[section] = {**plain.get(section, {}), **keys}  # type: ignore[dict-item]
    assert path in {fault.path for fault in check_brief(plain)}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_a_brief(path: Path) -> None:
    assert check_brief(path) == ()
    assert read_brief(path) == read_brief(tomllib.loads(path.read_text(encoding="utf-8")))
