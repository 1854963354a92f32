"""The work of decks that stand: tasks in order, what must be right, what is no longer said."""

import re

import pytest

from drylay.audit.leaves import at
from drylay.papers.amounts import filled
from drylay.plan.model import Plan
from drylay.raised.model import Bearer
from drylay.strength.model import Section
from drylay.work.cautions import cautions_at
from drylay.work.model import Task
from drylay.work.not_ordered import ply_bolts
from standing_decks import VARIANTS, plan_of


def tasks_of(name: str) -> dict[str, Task]:
    plan = plan_of(name)
    assert plan.work is not None
    return {task.kind: task for task in plan.work.tasks}


def text_of(task: Task) -> str:
    return " ".join(task.steps)


def test_the_tasks_stand_in_the_order_of_the_trade() -> None:
    """Services, holes seen, concrete, posts, bearers, frame, boards, guards: common practice."""
    assert list(tasks_of("held")) == [
        "check", "delivery", "set_out", "post_lines", "holes", "concrete", "posts", "cut_frame",
        "ledger", "bearers", "frame", "boards", "guards", "steps", "hand_over",
    ]  # fmt: skip
    assert list(tasks_of("dug"))[3:10] == [
        "dig", "post_lines", "holes", "concrete", "posts", "fabric", "gravel"
    ]  # fmt: skip


def test_posts_in_concrete_stand_before_it_is_poured_and_are_sawn_after() -> None:
    tasks = tasks_of("set in")
    assert list(tasks).index("posts") < list(tasks).index("concrete")
    assert "post_tops" in {hold.mark for hold in tasks["concrete"].holds}
    assert "post_tops" not in {hold.mark for hold in tasks["posts"].holds}
    assert "feet" not in {hold.mark for hold in tasks["concrete"].holds}


@pytest.mark.parametrize("name", VARIANTS)
def test_each_task_comes_after_all_it_waits_for_and_every_text_is_filled(name: str) -> None:
    plan, done = plan_of(name), set[str]()
    assert plan.work is not None
    for task in plan.work.tasks:
        assert set(task.after) <= done
        done.add(task.mark)
        for text in (*task.steps, *(hold.check for hold in task.holds)):
            for path in re.findall(r"\{([^}]*)\}", text):
                assert at(plan, path) is not None
            assert "{" not in filled(text, plan)
            assert "?" not in filled(text, plan)


@pytest.mark.parametrize("name", VARIANTS)
def test_nothing_is_said_of_packers_or_of_a_frame_on_the_ground(name: str) -> None:
    told = " ".join(text_of(task) for task in tasks_of(name).values())
    assert "packer" not in told
    assert "on its bed" not in told
    assert "outside the dig" not in told
    where = "between" if "hung" in name else "over"
    assert f"piece by piece {where} the " in told


def test_holds_by_the_trade() -> None:
    """Figures of common practice, no source: 3 in 1000, 3 mm in 3 m, 5 mm between risers."""
    limits = {hold.mark: (hold.limit, hold.unit)
              for task in tasks_of("held").values() for hold in task.holds}  # fmt: skip
    assert limits["plumb"] == (3.0, "in 1000")
    assert limits["bearer_level"] == limits["ledger_level"] == limits["post_tops"] == (3.0, "mm")
    assert limits["risers"] == limits["post_places"] == limits["feet"] == (5.0, "mm")
    assert limits["services"] == limits["anchors"] == limits["guard_push"] == (None, "")


def test_the_open_holes_are_shown_before_concrete() -> None:
    (seen,) = [hold for hold in tasks_of("held")["holes"].holds if hold.mark == "holes_seen"]
    assert "local authority" in seen.signed_by
    assert "locator" in tasks_of("held")["check"].tools
    assert "stop at any that nobody knows" in " ".join(tasks_of("held")["holes"].cautions)


def test_holes_tell_every_footing_once() -> None:
    plan, told = plan_of("held"), text_of(tasks_of("held")["holes"])
    assert plan.footings is not None
    for each in plan.footings.under:
        assert told.count(f"{each.mark} ({each.post})") == 1


def test_a_tie_holds_down_what_the_brief_names() -> None:
    plan, told = plan_of("held"), text_of(tasks_of("held")["frame"])
    (path,) = re.findall(r"\{(strength[^}]*)\}", told)
    assert at(plan, path) == 1.5
    assert "hold_down" not in text_of(tasks_of("narrow")["frame"])


def test_only_a_deck_on_a_ledger_hangs_its_outer_joists() -> None:
    assert "outer two as well" in text_of(tasks_of("held")["frame"])
    assert "outer two as well" not in text_of(tasks_of("free")["frame"])
    assert "ledger" not in tasks_of("free")


def test_braces_are_bolted_before_stays_come_off() -> None:
    tasks = tasks_of("tall")
    assert [hold.mark for hold in tasks["braces"].holds] == ["ends", "braced"]
    assert "work.not_ordered" in text_of(tasks["braces"])
    assert tasks["braces"].mark in tasks["guards"].after


def test_without_preserver_in_the_order_ends_are_still_treated() -> None:
    tasks = tasks_of("bare")
    assert "which is not in the order" in text_of(tasks["posts"])
    assert "ends" not in {hold.mark for hold in tasks["posts"].holds}


@pytest.mark.parametrize(
    ("kind", "word"),
    [("holes", "keep children away"), ("concrete", "burns skin"), ("posts", "not stayed or braced"),
     ("ledger", "cables and pipes in the wall"), ("frame", "drop of more than 600 mm"),
     ("boards", "drop of more than 600 mm"), ("guards", "drop of more than 600 mm")],
)  # fmt: skip
def test_cautions_stand_where_they_bite(kind: str, word: str) -> None:
    assert word in " ".join(tasks_of("held")[kind].cautions)


def test_the_edge_is_no_caution_where_nobody_falls_deep() -> None:
    """Cautions are by kind: the edge's is drafted for it alone."""
    assert "600 mm" in " ".join(cautions_at("frame", ("edge",), ()))
    assert "600 mm" not in " ".join(tasks_of("held")["steps"].cautions)


@pytest.mark.parametrize(
    ("plies", "length_mm", "bolts"),
    [(1, 4800.0, 0), (2, 600.0, 4), (2, 601.0, 6), (2, 4200.0, 16), (3, 4200.0, 16)],
)
def test_bolts_of_plies_by_hand(plies: int, length_mm: float, bolts: int) -> None:
    """Two at the start, two for every 600 mm begun: 4200 is seven of these, 2 x (7 + 1)."""
    section = Section(breadth_mm=45.0, depth_mm=145.0, plies=plies)
    bearer = Bearer(mark="BR1", line="line 1", section=section, across_mm=0.0, start_mm=28.0,
                    end_mm=28.0 + length_mm, carried_mm=1000.0)  # fmt: skip
    assert ply_bolts(bearer) == bolts


def hours_of(plan: Plan, kind: str) -> tuple[float, float]:
    assert plan.work is not None
    (task,) = [task for task in plan.work.tasks if task.kind == kind]
    return task.least_h, task.most_h


def test_hours_by_hand() -> None:
    """Rates of docs/conventions.md, for two people, to the quarter hour outwards.

    6 posts: 0.5 + 6 x 0.4 = 2.9 and 1 + 6 x 0.8 = 5.8; 6 holes: 0.25 + 3 = 3.25 and 0.5 + 9 = 9.5;
    8 fixings of the ledger: 0.5 + 1.2 = 1.7 and 1 + 2.4 = 3.4.
    """
    plan = plan_of("held")
    assert hours_of(plan, "posts") == (1.25, 3.0)
    assert hours_of(plan, "holes") == (1.5, 4.75)
    assert hours_of(plan, "ledger") == (0.75, 1.75)


def test_what_stands_is_looked_after_every_spring() -> None:
    told = {name: {task.what for task in plan_of(name).work.upkeep} for name in ("held", "tall")}
    assert {"post feet", "ledger fixings", "guard posts"} <= told["held"]
    assert "braces" not in told["held"]
    assert "braces" in told["tall"]
    assert "ledger fixings" not in told["tall"]
    assert "probe the posts' feet, try the ledger's fixings, push" in text_of(
        tasks_of("held")["hand_over"]
    )
