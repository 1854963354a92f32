"""The search for joint lines: it finds what building every set finds, with far less work."""

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import pytest

import drylay
from border_decks import DECK, YARD, brief, families, stock
from drylay.brief.model import Brief
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner import cuts, floors, seams, tries
from drylay.planner.build import Candidate, build
from drylay.planner.built import Built
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.tries import Try
from drylay.plugins.model import FamilySet

PAIRS = {"end_bearing_least_mm": 20, "joists_under_joint": 2, "battens_per_joint": 0}
PLAIN = {key: value for key, value in DECK.items() if key != "border"}


def on_pairs(along_mm: float, across_mm: float, **more: Any) -> tuple[Brief, Catalogue, None]:
    cover = {"along_mm": along_mm, "across_mm": across_mm}
    wish = drylay.read_brief({**PLAIN, "cover": cover, "joints": {"support": "pair"}, **more})
    return wish, YARD, None


def edged(along_mm: float, across_mm: float) -> tuple[Brief, Catalogue, FamilySet]:
    cover = {"along_mm": along_mm, "across_mm": across_mm}
    return brief(cover=cover), stock(), families(**PAIRS)


DECKS = {
    "pairs": on_pairs(5045, 712),
    "trimmed": on_pairs(5000, 900, board={"article": "DB-28-145", "ends": "trim_in_line",
                                          "trim_allowance_mm": 20}, cutting={"end_trim_mm": 5}),
    "border": edged(5000, 700),
}  # fmt: skip


def planned(deck: tuple[Brief, Catalogue, FamilySet | None]) -> Plan:
    wish, sold, kinds = deck
    return drylay.design(wish, stock=sold, families=kinds)


Search = tuple[Cutter, list[Candidate], tuple[Try, ...]]


def searches(deck: Any, monkeypatch: pytest.MonkeyPatch) -> list[Search]:
    """Return every search that a plan takes: its cutter, what was handed in, what came of it."""
    found: list[Search] = []

    def listening(cutter: Cutter, candidates: Iterator[Candidate]) -> tuple[Try, ...]:
        listed = list(candidates)
        found.append((cutter, listed, tries.try_all(cutter, listed)))
        return found[-1][2]

    monkeypatch.setattr(seams, "try_all", listening)
    planned(deck)
    return found


Answer = Built | Blocked


@pytest.fixture(scope="module", params=DECKS)
def all_built(request: pytest.FixtureRequest) -> tuple[Search, list[Answer]]:
    """The first search of a deck, and what comes of building each of its sets."""
    with pytest.MonkeyPatch.context() as patch:
        search = searches(DECKS[request.param], patch)[0]
    cutter, candidates, _ = search
    return search, [build(cutter, candidate) for candidate in candidates]


def test_it_finds_what_building_every_set_finds(all_built) -> None:
    (_, _, tried), built = all_built
    costs = [(tries.reckoned(one), at) for at, one in enumerate(built) if isinstance(one, Built)]
    best = tries.cheapest(tried)
    assert best is not None
    assert (best.cost, best.number) == min(costs)
    assert all(tried[at].cost <= cost for cost, at in costs)


def test_no_look_tells_more_than_building_comes_to(all_built) -> None:
    (cutter, candidates, _), built = all_built
    seen = 0
    for candidate, result in zip(candidates, built, strict=True):
        outline = floors.outline_of(cutter, candidate)
        if outline is None or not isinstance(result, Built):
            continue
        told = [floors.floor_of(cutter, outline, look) for look in range(len(floors.LOOKS))]
        assert None not in told
        assert told == sorted(told)
        assert told[0] > tries.reckoned(result) * Decimal("0.8")  # and not much less
        assert told[-1] <= tries.reckoned(result)
        assert outline.line_count == result.supports.line_count
        seen += 1
    assert seen > 3


@pytest.fixture(scope="module")
def long_deck() -> Iterator[tuple[list[Search], list[bool]]]:
    """The searches of a deck of some ways out, and of all that was cut whether it was a frame."""
    frames: list[bool] = []
    solve = cuts.solve

    def counted(task: Any, **how: Any) -> Any:
        frames.append(len(task.pieces) > 1)
        return solve(task, **how)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cuts, "solve", counted)
        yield searches(on_pairs(10045, 1512), patch), frames


def test_few_sets_are_built_and_few_frames_cut(long_deck) -> None:
    """Built through, each set of each way out would take a frame of its own to cut."""
    found, frames = long_deck
    sets = sum(len(candidates) for _, candidates, _ in found)
    built = sum(isinstance(one.result, Built) for *_, tried in found for one in tried)
    assert sets > 40
    assert built * 5 <= sets
    assert sum(frames) * 5 <= sets


def test_ways_out_share_what_was_cut(long_deck) -> None:
    found, _ = long_deck
    assert len(found) > 1
    assert len({id(cutter.known) for cutter, *_ in found}) == 1


def test_lines_that_cannot_be_cut_say_why_and_are_not_built(long_deck) -> None:
    (_, _, tried), *_ = long_deck[0]
    blocked = [tries.turned_down(one).because for one in tried if isinstance(one.result, Blocked)]
    assert blocked
    assert all(text.startswith("cannot be built: cannot be cut from") for text in blocked)


def test_sets_not_built_are_told_with_what_they_cost_at_least() -> None:
    plan = planned(DECKS["pairs"])
    told = [other.because for other in plan.why("supports.seam_count").turned_down]
    least = [text for text in told if text.endswith(" with its joints at the least")]
    assert len(least) > 3
    order = plan.buying.order_total + sum(b.joint_cost for b in plan.buying.purchases)
    assert min(Decimal(text.split()[2]) for text in least) >= order


def test_a_deck_that_nothing_can_be_built_of_says_all_stops() -> None:
    """No joint at all, and no board as long as the row: boards stop it, and nothing else."""
    wish = on_pairs(6045, 1312, joints={"support": "pair", "most_per_row": 0})
    plan = planned(wish)
    assert {finding.code for finding in plan.findings if finding.severity.value == "stop"} == {
        "BUY-001"
    }
