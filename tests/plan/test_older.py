"""Plan files of older schemas, as their releases wrote them, are read, audited, papered today."""

import json
from pathlib import Path
from typing import Any, get_args, get_type_hints

import attrs
import pytest

import drylay
from drylay.errors import PlanFileError
from drylay.plan.added import ADDED
from drylay.plan.model import SCHEMA_VERSION, Plan

OLD = Path(__file__).parent / "older" / "schema-1.json"
SECOND = OLD.with_name("schema-2.json")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return drylay.plan_from_json(OLD.read_text(encoding="utf-8"))


def test_it_is_read_with_nothing_where_nothing_was_told(plan: Plan) -> None:
    assert plan.schema_version == SCHEMA_VERSION
    assert (plan.site, plan.groundwork, plan.work) == (None, None, None)
    assert plan.fixings.coach_screws.pilot_mm is None
    assert {line.unit for line in plan.buying.order} == {"pieces"}


def test_it_stands_before_the_audit_which_says_what_it_could_not_measure(plan: Plan) -> None:
    report = drylay.audit(plan)
    assert report.findings == ()
    because = " ".join(idle.because for idle in report.not_run)
    for part in ("work", "metals", "use classes"):
        assert part in because


def test_its_papers_tell_no_figure_that_nobody_knew(plan: Plan) -> None:
    papers = drylay.papers(plan)
    told = papers["summary.txt"].decode("utf-8") + papers["jobsheet.html"].decode("utf-8")
    assert "a pilot as their maker says" in " ".join(told.split())
    assert " 0 mm into" not in told
    assert "None" not in told


@pytest.mark.parametrize("path", [OLD, SECOND], ids=lambda path: path.stem)
def test_the_grade_that_named_a_search_is_read_as_that_of_splits(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    named = [part["grade"] for part in json.loads(text)["buying"]["purchases"]]
    assert "worth vectors and integer search" in named
    plan = drylay.plan_from_json(text)
    for part, before in zip(plan.buying.purchases, named, strict=True):
        searched = before == "worth vectors and integer search"
        assert part.grade == ("worth vectors and splits" if searched else before)
        assert part.grade == part.proof.certificate.grade


def test_it_may_be_compared_with_a_plan_of_today(plan: Plan) -> None:
    assert drylay.diff(plan, plan).empty
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    today = drylay.design(drylay.read_brief("docs/examples/garden.toml"), stock=stock)
    assert not drylay.diff(plan, today).empty


def test_a_damaged_file_of_the_first_schema_tells_its_faults() -> None:
    text = OLD.read_text(encoding="utf-8").replace('"deck_screws":', '"dek_screws":', 1)
    with pytest.raises(PlanFileError) as caught:
        drylay.plan_from_json(text)
    assert "fixings.deck_screws" in {fault.path for fault in caught.value.faults}


def without_sets_beside(document: dict[str, Any]) -> dict[str, Any]:
    """Return a plan of today as the second schema told it: one set of lines, windows alike."""
    for purchase in document["buying"]["purchases"]:
        task, certificate = purchase["proof"]["task"], purchase["proof"]["certificate"]
        for graded in (purchase, certificate):
            if graded["grade"] == "worth vectors and splits":
                graded["grade"] = "worth vectors and integer search"
        assert task.pop("beside") == []
        assert certificate.pop("splits") == []
        assert [line.pop("first_station") for line in task["lines"]] == [0] * len(task["lines"])
        for window in (w for vector in certificate["vectors"] for w in vector["windows"]):
            told = {name: window.pop(name) for name in ("beside", "beside_first", "beside_width")}
            assert list(told.values()) == [window[n] for n in ("line", "first", "width")]
    assert document.pop("local_rules") == []
    assert document.pop("tiling") is None
    told = without_added(without_makes_of_boards(document), Plan)
    return {**told, "schema_version": 2}


def without_added(value: Any, noun: Any) -> Any:
    """Return data without the fields that no plan of the second schema told."""
    if isinstance(value, list):
        return [without_added(item, get_args(noun)[0]) for item in value]
    nouns = [each for each in (noun, *get_args(noun)) if attrs.has(each)]
    if not isinstance(value, dict) or not nouns:
        return value
    hints = get_type_hints(nouns[0])
    return {
        key: without_added(part, hints[key])
        for key, part in value.items()
        if key not in ADDED.get(nouns[0], ())
    }


#: What is told of the boards' make since: by the part of a plan, nothing in plans of before.
MAKES: dict[str, dict[str, object]] = {
    "surface": {"groove_mm": None, "fall_least_ratio": None, "border": None},
    "pieces": {"handed": None, "border": None},
    "fixings": {"seal_board_ends": None, "wax_board_ends": None, "wax": None,
                "border_screws": None, "border_use_class_least": None, "seal_border_ends": None,
                "wax_border_ends": None},
    "fixings.finish": {"border_m2": None, "border_groove_ratio": None, "border_face_up": ""},
    "fixings.deck_screws": {"predrill_all": None},
    "site.levels": {"rises_to_ground": None, "last_rise_mm": None},
    "buying": {"whole_packs": []},
    "buying.delivery": {"board_kg_m": None, "extra_mass_kg_m2": None, "border_kg_m": None,
                        "border_extra_mass_kg_m2": None, "border_density_kg_m3": None},
}  # fmt: skip


def without_makes_of_boards(document: dict[str, Any]) -> dict[str, Any]:
    for line in (*document["buying"]["order"], *document["buying"]["spares"]):
        assert line.pop("gtin") == ""
    for path, unknown in MAKES.items():
        part: Any = document
        for name in path.split("."):
            part = part[name] if part is not None else None
        told = {name: part.pop(name) for name in unknown} if part is not None else unknown
        assert told == unknown
    assert {piece.pop("arrow") for piece in document["pieces"]["pieces"]} == {""}
    assert {row.pop("border") for row in document["surface"]["rows"]} == {False}
    for bought in document["buying"]["purchases"]:
        for length in bought["lengths"]:  # boards are DB1 now, since D1 is a double of a frame's
            length["mark"] = length["mark"].replace("DB", "D")
    return document


def test_proofs_of_the_second_schema_tell_what_they_told() -> None:
    """The file is long-terrace.toml's plan with hobbleden.toml, from the release of schema 2."""
    text = SECOND.read_text(encoding="utf-8")
    plan = drylay.plan_from_json(text)
    assert plan.schema_version == SCHEMA_VERSION
    windows = [
        window
        for bought in plan.buying.purchases
        for vector in bought.proof.certificate.vectors
        for window in vector.windows
    ]
    assert windows
    assert without_sets_beside(json.loads(drylay.plan_to_json(plan))) == json.loads(text)
    assert plan == drylay.plan_from_json(drylay.plan_to_json(plan))


def test_a_plan_of_the_second_schema_stands_before_the_audit_and_gives_its_papers() -> None:
    plan = drylay.plan_from_json(SECOND.read_text(encoding="utf-8"))
    report = drylay.audit(plan)
    assert report.findings == ()
    assert {"AUD-808", "AUD-823", "AUD-827"} <= set(report.checks)
    assert "proof.json" in drylay.papers(plan)


@pytest.mark.parametrize("name", ["line", "first", "width", "price"])
def test_a_damaged_window_of_the_second_schema_tells_its_faults(name: str) -> None:
    document = json.loads(SECOND.read_text(encoding="utf-8"))
    path = "buying.purchases[0].proof.certificate.vectors[0].windows[0]"
    del document["buying"]["purchases"][0]["proof"]["certificate"]["vectors"][0]["windows"][0][name]
    with pytest.raises(PlanFileError) as caught:
        drylay.plan_from_json(json.dumps(document))
    assert f"{path}.{name}" in {fault.path for fault in caught.value.faults}


@pytest.mark.parametrize("part", [None, 3, "x", [], {}, [3], {"purchases": 3}, {"purchases": [{}]}])
def test_a_part_that_is_none_is_told_not_raised(part: object) -> None:
    document = json.loads(SECOND.read_text(encoding="utf-8"))
    with pytest.raises(PlanFileError):
        drylay.plan_from_json(json.dumps({**document, "fixings": 3, "buying": part}))
