"""The order of work: nothing before what it waits for, hours that add up, nothing left out."""

import re

import pytest
from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import drylay
from drylay.audit.leaves import at
from drylay.brief.model import CrewWish
from drylay.papers.amounts import filled
from drylay.plan.model import Plan
from drylay.work.cautions import FamilyCautions, cautions_at
from some_decks import some_case

FAMILIES = drylay.installed_families()
few = settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def plan_of(seed: int, people: int = 2) -> Plan:
    brief, stock = some_case(seed, most_mm=3_600)
    brief = evolve(brief, crew=CrewWish(people=people))
    return drylay.design(brief, stock=stock, families=FAMILIES)


def garden() -> Plan:
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    return drylay.design(drylay.read_brief("docs/examples/garden.toml"), stock=stock)


@few
@given(st.integers(1, 10**6))
def test_each_task_comes_after_all_it_waits_for(seed: int) -> None:
    work = plan_of(seed).work
    done: set[str] = set()
    for task in work.tasks if work else ():
        assert set(task.after) <= done
        done.add(task.mark)


@few
@given(st.integers(1, 10**6))
def test_one_person_takes_twice_as_long_as_two(seed: int) -> None:
    """To the quarter hour that is rounded outwards, task by task."""
    both, alone = plan_of(seed, 2), plan_of(seed, 1)
    if both.work is None or alone.work is None:
        return
    for two, one in zip(both.work.tasks, alone.work.tasks, strict=True):
        assert one.least_h / 2 - 0.25 <= two.least_h <= one.least_h / 2 + 0.125
        assert one.most_h / 2 - 0.125 <= two.most_h <= one.most_h / 2 + 0.25


@few
@given(st.integers(1, 10**6))
def test_hours_are_a_range_and_every_text_is_filled_from_the_plan(seed: int) -> None:
    plan = plan_of(seed)
    for task in plan.work.tasks if plan.work else ():
        assert 0 <= task.least_h < task.most_h
        for text in (*task.steps, *(hold.check for hold in task.holds)):
            for path in re.findall(r"\{([^}]*)\}", text):
                assert at(plan, path) is not None
            assert "{" not in filled(text, plan)
            assert "?" not in filled(text, plan)


def test_hours_of_the_boards_by_hand() -> None:
    """Rates of docs/conventions.md: 0.5 + 0.1 a piece + 0.02 a crossing, and 1 + 0.2 + 0.05."""
    plan = garden()
    (boards,) = [task for task in plan.work.tasks if task.kind == "boards"]
    pieces, crossings = len(plan.pieces.pieces), len(plan.surface.rows) * len(plan.frame.joists)
    least, most = 0.5 + 0.1 * pieces + 0.02 * crossings, 1 + 0.2 * pieces + 0.05 * crossings
    assert boards.least_h <= least / 2 < boards.least_h + 0.25
    assert boards.most_h - 0.25 < most / 2 <= boards.most_h


def test_cautions_stand_at_the_task_where_they_bite() -> None:
    tasks = {task.kind: " ".join(task.cautions) for task in garden().work.tasks}
    assert "dust mask" in tasks["cut_frame"]
    assert "Never burn" in tasks["cut_frame"] or "never burn" in tasks["cut_frame"]
    assert "gloves and goggles with preserver" in tasks["cut_frame"]
    assert "25 kg" in tasks["frame"]
    assert "barbecues" in tasks["hand_over"]


@pytest.mark.parametrize(
    ("key", "kinds", "word"),
    [("dig", ("dig",), "buried cables"), ("boards", ("kneel",), "joists only"),
     ("finish", ("coat",), "Rags with oil"), ("cable", ("electric",), "licensed electrician")],
)  # fmt: skip
def test_each_kind_of_work_has_its_caution(key: str, kinds: tuple[str, ...], word: str) -> None:
    assert word in " ".join(cautions_at(key, kinds, ()))


def test_a_familys_caution_goes_where_its_words_bite() -> None:
    texts = ("Seal every sawn end.", "Old timber may hold arsenic.", "A word about nothing.")
    of_family = (FamilyCautions(texts=texts, like_frame=True),)
    assert cautions_at("cut_frame", (), of_family) == ("Seal every sawn end.",)
    assert cautions_at("check", (), of_family) == ("Old timber may hold arsenic.",)
    assert cautions_at("set_out", (), of_family) == ()


def test_a_builder_alone_hears_what_takes_two() -> None:
    brief = drylay.read_brief("docs/examples/garden.toml")
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    plan = drylay.design(evolve(brief, crew=CrewWish(people=1)), stock=stock)
    (told,) = [finding for finding in plan.findings if finding.code == "WRK-001"]
    assert "put the frame together" in told.message
    assert not [f for f in garden().findings if f.code == "WRK-001"]


def test_the_spacers_are_those_of_the_gaps_laid() -> None:
    plan = garden()
    spacers = [tool for tool in plan.work.tools if tool.mark.startswith("gap_spacer")]
    laid = {row.gap_mm for row in plan.surface.rows[1:]}
    assert {at(plan, tool.size_at) for tool in spacers} == laid
