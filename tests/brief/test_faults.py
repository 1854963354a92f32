"""Everything that can be wrong with a brief, each with its line, path and nearest fix."""

import pickle
from pathlib import Path
from typing import Any

import pytest

from drylay.brief.reader import check_brief, read_brief
from drylay.errors import BriefError, Fault

GOOD = """\
title = "Deck"
use = "dwelling"
units = "metric"

[cover]
along_mm = 6000
across_mm = 3000
grow_across_mm = 20
shrink_across_mm = 50

[board]
article = "A"
measured_width_mm = 144.5

[gap]
preferred_mm = 5
least_mm = 4
most_mm = 8

[rows]
sliver_mm = 60
may_rip = true
prefer = ["gaps", "shrink"]

[frame]
article = "B"
most_centres_mm = 400

[fascia]
sides = ["front"]
article = "C"

[joints]
least_supports = 3
price_each = "1.50"

[cutting]
kerf_mm = 3

[fixings]
screw = "D"
coach_screw = "E"

[[overrides]]
path = "supports.most_centres_mm"
value = 350
unit = "mm"
by = "an engineer"
reason = "planters"
"""


def faults_of(tmp_path: Path, text: str) -> tuple[Fault, ...]:
    path = tmp_path / "bad.toml"
    path.write_text(text, encoding="utf-8")
    faults = check_brief(path)
    assert all(fault.file == str(path) for fault in faults)
    return faults


def test_the_brief_the_faults_are_planted_in_is_fine(tmp_path: Path) -> None:
    assert faults_of(tmp_path, GOOD) == ()


#: the line that is replaced, the new line, then of the fault: the line, the path, a part of
#: what was found, a part of the nearest fix
PLANTED = [
    (2, 'uses = "dwelling"', 2, "uses", 'key "uses"', "use"),
    (6, "along_m = 6", 6, "cover.along_m", 'key "along_m"', 'along = "6 m"'),
    (41, 'screws = "D"', 41, "fixings.screws", 'key "screws"', "screw"),
    (38, 'kerf_mm = 3\nkerf = "3 mm"', 39, "cutting.kerf", "both kerf_mm", "leave out kerf"),
    (45, 'path = "supports.most_centre_mm"', 45, "overrides[0].path", "most_centre_mm", "most_cen"),
    (6, "along = 6045", 6, "cover.along", "6045 without a unit", "along_mm = 6045"),
    (6, "along = 3.6", 6, "cover.along", "3.6 without a unit", 'along = "3.6 m", if that'),
    (6, 'along = "6045"', 6, "cover.along", '"6045"', "along_mm = 6045"),
    (6, 'along = "3.6"', 6, "cover.along", '"3.6"', 'along = "3.6 m", if that'),
    (6, 'along_mm = "6 m"', 6, "cover.along_mm", '"6 m"', 'along = "6 m"'),
    (6, 'along_mm = "6000"', 6, "cover.along_mm", '"6000"', "along_mm = 6000"),
    (6, 'along_mm = "long"', 6, "cover.along_mm", '"long"', 'along = "6.045 m"'),
    (6, 'along = "6,045 m"', 6, "cover.along", '"6,045 m"', "6.045 m"),
    (6, 'along = "19 ft 8"', 6, "cover.along", '"19 ft 8"', 'along = "19 ft 8 in"'),
    (6, 'along = "9**9**9 mm"', 6, "cover.along", "9**9**9", ""),
    (6, "along = true", 6, "cover.along", "true", ""),
    (6, "along_mm = true", 6, "cover.along_mm", "true", ""),
    (6, "along_mm = [6000]", 6, "cover.along_mm", "[6000]", ""),
    (13, "measured_width_mm = 2020-01-01", 13, "board.measured_width_mm", "date", ""),
    (34, "least_supports = 3.0", 34, "joints.least_supports", "3.0", "least_supports = 3"),
    (34, 'least_supports = "3"', 34, "joints.least_supports", '"3"', "least_supports = 3"),
    (34, "least_supports = true", 34, "joints.least_supports", "true", ""),
    (22, "may_rip = 1", 22, "rows.may_rip", "1", "may_rip = true"),
    (22, 'may_rip = "no"', 22, "rows.may_rip", '"no"', "may_rip = false"),
    (22, "may_rip = 0.5", 22, "rows.may_rip", "0.5", ""),
    (35, "price_each = 1.50", 35, "joints.price_each", "1.50", 'price_each = "1.50"'),
    (35, 'price_each = "1,50"', 35, "joints.price_each", '"1,50"', "1.50"),
    (35, 'price_each = "1.50001"', 35, "joints.price_each", "1.50001", ""),
    (35, "price_each = -1", 35, "joints.price_each", "-1", ""),
    (35, "price_each = nan", 35, "joints.price_each", "nan", ""),
    (1, "title = 3", 1, "title", "3", 'title = "3"'),
    (1, 'title = ""', 1, "title", '""', ""),
    (1, 'title = " Deck"', 1, "title", '" Deck"', 'title = "Deck"'),
    (1, 'title = "a\\nb"', 1, "title", '"a\\nb"', 'title = "a b"'),
    (
        1,
        'title = "' + "x" * 201 + '"',
        1,
        "title",
        "(201 characters)",
        "",
    ),
    (2, 'use = "Public"', 2, "use", '"Public"', 'use = "public"'),
    (3, "units = true", 3, "units", "true", ""),
    (30, 'sides = ["frnt"]', 30, "fascia.sides", '"frnt" in the list', '"front"'),
    (30, 'sides = ["front", "front"]', 30, "fascia.sides", '"front" twice', "once"),
    (30, 'sides = "front"', 30, "fascia.sides", '"front"', 'sides = ["front"]'),
    (23, "prefer = []", 23, "rows.prefer", "[]", ""),
    (23, "prefer = [1, {}]", 23, "rows.prefer", "1 in the list", ""),
    (6, "along_mm = 3.6", 6, "cover.along_mm", "3.6", 'along = "3.6 m"'),
    (6, "along_mm = 24", 6, "cover.along_mm", "24", 'along = "24 m" or along = "24 in"'),
    (6, "along_mm = 1", 6, "cover.along_mm", "1", 'along = "1 m"'),
    (6, "along_mm = 0", 6, "cover.along_mm", "0", ""),
    (6, "along_mm = 200_000", 6, "cover.along_mm", "200_000", ""),
    (6, 'along = "101 m"', 6, "cover.along", '"101 m"', ""),
    (6, "along_mm = -6000", 6, "cover.along_mm", "-6000", "along_mm = 6000"),
    (6, "along_mm = nan", 6, "cover.along_mm", "nan", ""),
    (6, "along_mm = -inf", 6, "cover.along_mm", "-inf", ""),
    (6, "along_mm = 1e999", 6, "cover.along_mm", "1e999", ""),
    (
        6,
        "along_mm = " + "9" * 400,
        6,
        "cover.along_mm",
        "some 398 digits",
        "",
    ),
    (38, "kerf_mm = 40", 38, "cutting.kerf_mm", "40", ""),
    (18, "most_mm = 80", 18, "gap.most_mm", "80", ""),
    (34, "least_supports = 1", 34, "joints.least_supports", "1", ""),
    (34, "least_supports = 60", 34, "joints.least_supports", "60", ""),
    (35, "price_each = 20000", 35, "joints.price_each", "20000", ""),
    (17, "least_mm = 9", 18, "gap.most_mm", "8 with gap.least_mm = 9", "most_mm = 9"),
    (16, "preferred_mm = 3", 16, "gap.preferred_mm", "3 with gap.least", "preferred_mm = 4"),
    (16, "preferred_mm = 9", 18, "gap.most_mm", "8 with gap.preferred", "most_mm = 9"),
    (9, "shrink_across_mm = 3000", 9, "cover.shrink_across_mm", "3000 with", "= 2900"),
    (8, "grow_across_mm = 4000", 8, "cover.grow_across_mm", "4000 with cover", "= 3000"),
    (31, "", 29, "fascia.article", "nothing with fascia on front", "sides = []"),
    (13, 'ends = "trim_in_line"', 11, "board.trim_allowance_mm", "nothing with", "= 20"),
    (
        13,
        "trim_allowance_mm = 20",
        13,
        "board.trim_allowance_mm",
        "20 with ends cut",
        'ends = "trim_in_line"',
    ),
    (21, "sliver_mm = 150", 21, "rows.sliver_mm", "150 with board.measured", "= 144.5"),
    (23, 'prefer = ["turn"]', 23, "rows.prefer", "turn", "as_wished"),
    (46, "value = 16", 46, "overrides[0].value", "16", 'value = "16 in"'),
    (46, 'value = "16 in"', 47, "overrides[0].unit", 'unit = "mm" beside', ""),
    (47, 'unit = "in"', 47, "overrides[0].unit", 'unit = "in"', 'unit = "mm"'),
    (47, "", 44, "overrides[0]", "no unit", 'unit = "mm"'),
    (48, "", 44, "overrides[0].by", "nothing", ""),
    (46, "", 44, "overrides[0].value", "nothing", ""),
    (8, 'grow_across = "20"', 8, "cover.grow_across", '"20"', "grow_across_mm = 20"),
]


@pytest.mark.parametrize("planted", PLANTED, ids=lambda planted: f"{planted[3]}-{planted[1][:30]}")
def test_a_planted_fault_is_found_where_it_is(
    tmp_path: Path, planted: tuple[int, str, int, str, str, str]
) -> None:
    replaced, new, line, path, found, nearest = planted
    lines = GOOD.split("\n")
    lines[replaced - 1] = new
    faults = faults_of(tmp_path, "\n".join(lines))
    (fault,) = [fault for fault in faults if fault.path == path]
    assert (fault.line, fault.column >= 1, bool(fault.wanted)) == (line, True, True)
    assert found in fault.found
    assert nearest in fault.nearest
    assert bool(nearest) == bool(fault.nearest)


def test_at_least_forty_different_faults_are_planted() -> None:
    assert len({(path, found) for *_, path, found, _ in PLANTED}) >= 40


def test_all_faults_are_told_together_in_the_order_of_the_file(tmp_path: Path) -> None:
    text = (
        GOOD.replace("6000", "6")
        .replace("= 400", "= 4")
        .replace('"B"', "3")
        .replace("3\n", "x\n", 0)
    )
    with pytest.raises(BriefError) as caught:
        read_brief(tmp_path / "none.toml")
    faults = faults_of(tmp_path, text + "colour = 3\n")
    assert [f.path for f in faults] == [
        "cover.along_mm",
        "frame.article",
        "frame.most_centres_mm",
        "overrides[0].colour",
    ]
    assert [f.line for f in faults] == sorted(f.line for f in faults)
    assert caught.value.faults[0].found == "no such file or directory"


def test_an_empty_brief_hears_of_everything_that_is_needed() -> None:
    assert [fault.path for fault in check_brief({})] == [
        "title",
        "cover",
        "board",
        "frame",
        "fixings",
    ]


@pytest.mark.parametrize("section", ["cover", "board", "frame", "fixings", "gap", "joints"])
@pytest.mark.parametrize("value", [3, "text", [1], True])
def test_a_section_that_is_no_table_is_refused(section: str, value: object) -> None:
    paths = {fault.path: fault for fault in check_brief({section: value})}
    assert paths[section].wanted.startswith("a table with")


@pytest.mark.parametrize("value", [3, {"path": "x"}, "text"])
def test_overrides_that_are_no_list_are_refused(value: object) -> None:
    paths = {fault.path: fault for fault in check_brief({"overrides": value})}
    assert paths["overrides"].wanted.startswith("a list of tables")


def test_two_overrides_of_one_decision_contradict_each_other(tmp_path: Path) -> None:
    again = GOOD[GOOD.index("[[overrides]]") :]
    (fault,) = faults_of(tmp_path, f"{GOOD}\n{again}")
    assert fault.path == "overrides[1].path"
    assert "twice" in fault.found


@pytest.mark.parametrize(
    ("path", "value", "gaps", "at"),
    [
        ("surface.gap_least_mm", 6, "preferred_mm = 5", 0),
        ("surface.gap_most_mm", 3, "least_mm = 4", 0),
        ("surface.gap_preferred_mm", 9, "most_mm = 8", 0),
    ],
)
def test_an_override_that_leaves_no_gap_is_refused(
    path: str, value: float, gaps: str, at: int
) -> None:
    name, limit = gaps.split(" = ")
    override = {"path": path, "value": value, "unit": "mm", "by": "x", "reason": "y"}
    faults = check_brief({"gap": {name: float(limit)}, "overrides": [override]})
    assert f"overrides[{at}].value" in [fault.path for fault in faults]
    fine = {**override, "value": float(limit)}
    faults = check_brief({"gap": {name: float(limit)}, "overrides": [fine]})
    assert not [fault for fault in faults if fault.path.startswith("overrides")]


def test_lengths_without_a_unit_are_asked_about_and_never_guessed() -> None:
    # origin: a brief that must be stopped, worked separately from the library: "3.6" beside
    # "2400", which may be offered as 3600 and 2400 mm but never assumed
    faults = {f.path: f for f in check_brief({"cover": {"along": "3.6", "across": "2400"}})}
    assert faults["cover.along"].nearest.startswith('along = "3.6 m"')
    assert faults["cover.across"].nearest == "across_mm = 2400"
    assert "unit" in faults["cover.along"].wanted


@pytest.mark.parametrize(
    ("prefer", "wishes", "possible"),
    [
        (["rip_last", "rip_both"], {"rows": {"may_rip": False}}, False),
        (["rip_last"], {"rows": {"may_rip": True}}, True),
        (["rip_last"], {}, True),
        (["turn"], {"board": {"may_turn": True}}, True),
        (["turn"], {}, False),
        (["turn"], {"board": {"may_turn": "perhaps"}}, True),  # not judged twice
        (["grow"], {"cover": {"grow_across_mm": 5}}, True),
        (["grow"], {"cover": {"grow_across_mm": "5"}}, True),  # not judged twice
        (["grow", "shrink"], {"cover": {"grow_across_mm": 0}}, False),
        (["shrink"], {"cover": {"shrink_along": "1 in"}}, True),
        (["as_wished"], {}, True),
    ],
)
def test_ways_out_that_the_brief_itself_forbids_are_refused(
    prefer: list[str], wishes: dict[str, dict[str, Any]], possible: bool
) -> None:
    brief = {**wishes, "rows": {**wishes.get("rows", {}), "prefer": prefer}}
    paths = [fault.path for fault in check_brief(brief)]
    assert ("rows.prefer" not in paths) == possible


def test_past_two_thousand_faults_the_rest_is_said_to_be_there(tmp_path: Path) -> None:
    faults = faults_of(tmp_path, "[[overrides]]\n" * 3000)
    assert len(faults) == 2001
    assert faults[-1].found == "more than 2000 faults"


def test_an_override_of_a_count_must_be_whole(tmp_path: Path) -> None:
    text = GOOD.replace("supports.most_centres_mm", "pieces.least_supports").replace("350", "4.0")
    text = text.replace('unit = "mm"', 'unit = "count"')
    (fault,) = faults_of(tmp_path, text)
    assert (fault.path, fault.nearest) == ("overrides[0].value", "value = 4")


@pytest.mark.parametrize(("value", "nearest"), [("10", "value = 0.1"), ("nan", ""), ('"x"', "")])
def test_an_override_of_a_ratio_is_no_percentage(tmp_path: Path, value: str, nearest: str) -> None:
    text = GOOD.replace("supports.most_centres_mm", "buying.spare_ratio").replace("350", value)
    (fault,) = faults_of(tmp_path, text.replace('unit = "mm"', 'unit = "ratio"'))
    assert (fault.path, fault.nearest) == ("overrides[0].value", nearest)


def test_an_override_may_be_a_length_text(tmp_path: Path) -> None:
    path = tmp_path / "brief.toml"
    path.write_text(GOOD.replace('350\nunit = "mm"', '"14 in"'), encoding="utf-8")
    (override,) = read_brief(path).overrides
    assert (override.value, override.unit) == (355.6, "mm")  # by hand, 14 x 25.4


def test_an_override_by_its_last_word_is_led_to_the_whole_path(tmp_path: Path) -> None:
    (fault,) = faults_of(tmp_path, GOOD.replace("supports.most_centres_mm", "most_centres_mm"))
    assert fault.nearest == 'path = "supports.most_centres_mm"'


def test_a_wish_that_could_not_be_read_is_not_judged_twice(tmp_path: Path) -> None:
    text = GOOD.replace('sides = ["front"]\narticle = "C"', 'sides = ["front"]\narticle = 3')
    text = text.replace("measured_width_mm = 144.5", "ends = 3\ntrim_allowance_mm = 20")
    assert [f.path for f in faults_of(tmp_path, text)] == ["board.ends", "fascia.article"]


def test_a_quantity_under_a_key_of_mm_is_led_to_the_bare_key() -> None:
    import pint

    length = pint.UnitRegistry().Quantity(6, "m")
    faults = {f.path: f for f in check_brief({"cover": {"along_mm": length, "across": length}})}
    assert faults["cover.along_mm"].nearest == "the same quantity under along"
    assert "cover.across" not in faults


def test_very_many_unknown_keys_are_counted_not_listed() -> None:
    faults = check_brief({f"key{n}": n for n in range(5000)})
    assert len(faults) < 70
    assert any(fault.found == "4950 more unknown keys" for fault in faults)


def test_keys_of_a_mapping_that_are_no_text_are_refused() -> None:
    found: Any = {3: "x", ("a",): 1, None: 2}
    assert len([f for f in check_brief(found) if f.found.startswith("an unknown key")]) == 3


def test_an_error_can_be_shown_sent_and_pickled() -> None:
    with pytest.raises(BriefError) as caught:
        read_brief({"title": 3})
    error = caught.value
    told = error.to_dict()
    assert told["error"] == "brief"
    assert "title: found 3, wanted a text" in str(error)
    assert pickle.loads(pickle.dumps(error)).faults == error.faults


@pytest.mark.parametrize(
    ("key", "article"),
    [("lap_mm", "fabric"), ("packer_spacing_mm", "packer"), ("below_lawn_mm", "gravel")],
)
def test_a_size_of_the_ground_without_its_article_is_asked_about(key: str, article: str) -> None:
    faults = {f.path: f for f in check_brief({"groundwork": {key: 100}})}
    fault = faults[f"groundwork.{article}"]
    assert fault.found == f"nothing with groundwork.{key}"
    assert fault.wanted.startswith(f"which {article}")
    assert fault.nearest == f"leave {key.removesuffix('_mm')} out, if none is wanted"
    fine = check_brief({"groundwork": {key: 100, article: "X"}})
    assert not [f for f in fine if f.path.startswith("groundwork")]


def test_no_size_of_a_light_is_invented() -> None:
    faults = {f.path: f for f in check_brief({"lights": {"count": 4}})}
    for key in ("hole_mm", "depth_mm"):
        assert not any(sign.isdigit() for sign in faults[f"lights.{key}"].wanted)
        assert faults[f"lights.{key}"].nearest == "count = 0, if no lights are wanted yet"
