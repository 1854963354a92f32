"""Boards with turf inserts against the row named beside each value, and their laws."""

import functools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drylay.materials.model import Family, RuleQuery
from drylay.plugins.guard import ask
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling
from drylay_insertboard.family import insertboard
from drylay_softwood.family import softwood

CP = "common practice, no source"


@functools.cache
def alone() -> FamilySet:
    return installed_families(entry_points=(), extra=[insertboard()])


@functools.cache
def of_softwood() -> Family:
    return softwood()


def answer(rule: str, **changes: object) -> Ruling | RuleFault:
    usual: dict[str, object] = {
        "board_width_mm": 145.0,
        "board_thickness_mm": 28.0,
        "joist_thickness_mm": 45.0,
        "groove_mm": 8.0,
        "metal": "stainless A2",
    }
    return ask(alone(), "insertboard", rule, RuleQuery(**usual | changes))  # type: ignore[arg-type]


def value(rule: str, **changes: object) -> float:
    found = answer(rule, **changes)
    assert isinstance(found, Ruling), found
    assert not isinstance(found.value, str | None)
    return found.value


def not_covered(rule: str, **changes: object) -> str:
    found = answer(rule, **changes)
    assert isinstance(found, RuleFault), found
    assert found.kind == "not covered"
    return found.wrong


@pytest.mark.parametrize(
    ("thick_mm", "groove_mm", "centres_mm", "row"),
    [
        (28, 8, 400, "by hand: 20 left, softwood 20-22 400"),
        (33, 8, 400, "by hand: 25 left, softwood 25-28 400"),
        (40, 8, 500, "by hand: 32 left, softwood 32-35 500; 600 by the whole 40"),
    ],
)
def test_centres_go_by_the_net_section(
    thick_mm: float, groove_mm: float, centres_mm: float, row: str
) -> None:
    told = {"board_thickness_mm": thick_mm, "groove_mm": groove_mm}
    found = answer("most_centres_mm", **told)
    assert isinstance(found, Ruling)
    assert found.value == centres_mm, row
    inputs = dict(found.inputs)
    assert inputs["board_thickness_mm"] == thick_mm
    assert inputs["net_thickness_mm"] == thick_mm - groove_mm


@given(st.floats(20, 60), st.floats(0.5, 19))
def test_an_insert_board_never_spans_further_than_a_whole_one(
    thick_mm: float, groove_mm: float
) -> None:
    found = answer("most_centres_mm", board_thickness_mm=thick_mm, groove_mm=groove_mm)
    base = of_softwood().rules["most_centres_mm"]
    if isinstance(found, Ruling):
        whole = base(
            RuleQuery(board_width_mm=145.0, board_thickness_mm=thick_mm, joist_thickness_mm=45.0)
        )
        assert isinstance(found.value, float)
        assert isinstance(whole.value, float)
        assert found.value <= whole.value
    else:
        assert thick_mm - groove_mm < 20


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"groove_mm": 0.0}, "tell the depth of the groove"),
        ({"groove_mm": 28.0}, "groove 28 mm deep"),
        ({"groove_mm": 9.0}, "19 mm thick"),
        ({"hollow": True}, "hollow"),
    ],
)
def test_centres_that_are_not_covered(changes: dict[str, object], says: str) -> None:
    assert says in not_covered("most_centres_mm", **changes)


@pytest.mark.parametrize(
    ("laying_pct", "gaps_mm", "row"),
    [
        (None, (5, 5, 8), f"{CP}: base rule, least 5"),
        (28.0, (5, 5, 8), f"{CP}: least 5, where the base says 3"),
        (16.0, (6.25, 7, 8), "the base's by moisture: 3 + 145 x 0.0028 x 8 = 6.248, up to a tick"),
    ],
)
def test_gaps_let_grit_through(
    laying_pct: float | None, gaps_mm: tuple[float, ...], row: str
) -> None:
    rules = ("gap_least_mm", "gap_preferred_mm", "gap_most_mm")
    assert tuple(value(rule, laying_pct=laying_pct) for rule in rules) == gaps_mm, row


@pytest.mark.parametrize(("turnable", "handed"), [(None, 1), (False, 1), (True, 0)])
def test_a_piece_is_turned_only_where_the_record_says_so(
    turnable: bool | None, handed: int
) -> None:
    """Common practice, no source: no piece turned unless the record says so."""
    assert value("handed", turnable=turnable) == handed


@pytest.mark.parametrize(
    ("rule", "expected", "row"),
    [
        ("may_rip", 0, f"{CP}: never through or within 10 of a strip"),
        ("stagger_bays", 0, f"{CP}: align or avoid joints"),
        ("extra_mass_kg_m2", 3, "from memory: 1-3 kg/m2 more when wet"),
        ("fall_least_ratio", 1 / 80, f"{CP}: 1:80 along the board"),
        ("seal_board_ends", 1, "the base's: preserver on timber first"),
        ("preserver_coats", 2, "the base's: two flood coats"),
        ("screw_length_least_mm", 70, "the base's, by the whole 28: screws go through ribs"),
        ("density_most_kg_m3", 700, "the base's"),
        ("life_least_years", 10, "from memory: base 10-15"),
        ("life_most_years", 15, "from memory: base 10-15"),
        (
            "upkeep_h_m2_year",
            0.31,
            "by hand: brush 4 x 0.03, leaves 2 x 0.02, moss 0.03, screws 0.02, strip 0.2 x 0.5",
        ),
    ],
)
def test_a_28_by_145_board(rule: str, expected: float, row: str) -> None:
    assert value(rule) == pytest.approx(expected), row


def test_what_is_softwoods_says_so() -> None:
    found = answer("screws_per_crossing")
    assert isinstance(found, Ruling)
    assert found.rule == "as treated softwood: screws at a crossing"


def test_cautions_are_those_of_softwood_and_of_the_strips() -> None:
    cautions = insertboard().cautions
    assert set(softwood().cautions) < set(cautions)
    assert any("2 m away" in caution for caution in cautions)
