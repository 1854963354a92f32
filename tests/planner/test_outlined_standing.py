"""Decks that stand on outlines: their members measured again from the plan, by shapely.

Sizes of these decks are made up; what a member may carry is asked of the design basis itself, with
the spans that are measured here and not those that the planner put to it.
"""

from itertools import pairwise
from typing import Any

import pytest
from attrs import evolve
from shapely import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

import drylay
from drylay.findings import Severity
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.planner.bases import installed_design_bases
from drylay.plugins.basis_guard import find_basis
from drylay.raised.model import RaisedDeck
from drylay.strength.model import DesignBasis
from drylay.subframe.model import Member, Subframe
from standing_outlines import DECKS, FALLS, FLAT, YARD, Corner, L, planned, sections

each_deck = pytest.mark.parametrize("name", list(DECKS))


def parts(plan: Plan) -> tuple[RaisedDeck, Subframe]:
    assert plan.raised is not None
    assert plan.subframe is not None
    return plan.raised, plan.subframe


def basis() -> DesignBasis:
    found = find_basis(installed_design_bases(), "eurocode-5")
    assert found is not None
    return found.basis


def place(spot: Spot, frame: Subframe) -> Corner:
    """Return a place along the bearers and across them."""
    both = (spot.along_mm, spot.across_mm)
    return both if frame.joist_run == "across" else (both[1], both[0])


def edge_of(plan: Plan) -> Polygon:
    """Return the frame's edge; none of these decks has fascia."""
    assert plan.outline is not None
    return Polygon([place(side.start, parts(plan)[1]) for side in plan.outline.sides])


def holes_of(plan: Plan) -> list[Polygon]:
    assert plan.outline is not None
    frame = parts(plan)[1]
    return [Polygon([place(c, frame) for c in each.corners]) for each in plan.outline.openings]


def bearer_boxes(deck: RaisedDeck) -> list[BaseGeometry]:
    found: list[BaseGeometry] = []
    for each in deck.frame.bearers:
        half = each.section.breadth_mm * each.section.plies / 2
        found.append(box(each.start_mm, each.across_mm - half, each.end_mm, each.across_mm + half))
    return found


def post_boxes(deck: RaisedDeck) -> list[BaseGeometry]:
    found: list[BaseGeometry] = []
    for post in deck.frame.posts:
        wide, deep = post.section.breadth_mm / 2, post.section.depth_mm / 2
        x, y = post.place.along_mm, post.place.across_mm
        found.append(box(x - wide, y - deep, x + wide, y + deep))
    return found


def joists_of(frame: Subframe) -> list[Member]:
    """Return all that runs the joists' way from rim to rim, or to what trims an opening."""
    return [
        each
        for each in frame.members
        if each.kind in {"joist", "pair", "double", "rim"}
        and place(each.start, frame)[0] == place(each.end, frame)[0]
    ]


def measured(plan: Plan, joist: Member) -> tuple[list[float], float]:
    """Return a joist's supports from its own start, and how long it is: rims it ends at as well."""
    deck, frame = parts(plan)
    kinds = {each.mark: each.kind for each in frame.members}
    (x, low), (_, high) = sorted((place(joist.start, frame), place(joist.end, frame)))
    held = {
        end: on
        for end, on in ((joist.start, joist.start_on), (joist.end, joist.end_on))
        if kinds.get(on) in {"trimmer", "double"}
    }
    trimmed = sorted(place(end, frame)[1] for end in held)
    line = LineString([(x, low - 60), (x, high + 60)]).intersection(edge_of(plan))
    start, end = line.bounds[1], line.bounds[3]
    start = low if low in trimmed else start
    end = high if high in trimmed else end
    supports = list(trimmed)
    ledger = deck.frame.ledger
    if ledger is not None and start == 0 and ledger.start_mm <= x <= ledger.end_mm:
        start = frame.timber_thickness_mm
        supports.append(start)
    for each in deck.frame.bearers:
        if start < each.across_mm < end and each.start_mm <= x <= each.end_mm:
            supports.append(each.across_mm)
    return [at - start for at in sorted(supports)], end - start


@each_deck
def test_every_joist_is_carried_within_what_the_basis_allows(name: str) -> None:
    plan = planned(name)
    assert plan.strength is not None
    asked = next(each for each in plan.strength.beams if each.kind == "joist")
    deck, frame = parts(plan)
    spans, ends = [0.0], [0.0]
    for joist in joists_of(frame):
        supports, length = measured(plan, joist)
        assert len(supports) >= 2, (joist.mark, supports)
        spans += [b - a for a, b in pairwise(supports)]
        ends += [supports[0], length - supports[-1]]
        found = basis().beam(
            evolve(asked, subject=joist.mark, length_mm=length, supports_mm=tuple(supports),
                   carried_mm=frame.centres_mm),
            "dwelling",
        )  # fmt: skip
        assert not found.stops
        assert all(check.utilisation_ratio <= 1 for check in found.checks), joist.mark
    assert max(spans) <= deck.joist_span_mm
    assert max(ends) <= deck.joist_end_mm + frame.timber_thickness_mm / 2


@each_deck
def test_bearers_and_posts_stand_under_the_deck_and_in_no_opening(name: str) -> None:
    plan = planned(name)
    deck, _ = parts(plan)
    edge, holes = edge_of(plan), holes_of(plan)
    for each in (*bearer_boxes(deck), *post_boxes(deck)):
        assert edge.contains(each) or edge.buffer(1e-6).contains(each)
        assert not any(hole.intersection(each).area > 1e-6 for hole in holes)


@each_deck
def test_every_post_stands_on_its_bearer_and_is_as_long_as_the_levels_ask(name: str) -> None:
    """Deck top = ground + stand-off + post + bearer + joist + board, to a 1/320 mm."""
    plan = planned(name)
    deck, frame = parts(plan)
    assert plan.laying is not None
    marks = {each.mark: each for each in deck.frame.bearers}
    for post in deck.frame.posts:
        bearer = marks[post.bearer]
        assert post.place.across_mm == bearer.across_mm
        assert bearer.start_mm <= post.place.along_mm <= bearer.end_mm
        over = bearer.section.depth_mm + frame.timber_depth_mm + plan.laying.board_thickness_mm
        assert post.ground_mm + 50 + post.length_mm + over == pytest.approx(-150, abs=1 / 320)
        x, y = place(post.place, frame)  # back to the outline's own axes
        level, along, across = FLAT if name in {"turned", "level"} else FALLS
        assert post.ground_mm == pytest.approx(level + along * x + across * y, abs=0.01)


@each_deck
def test_every_member_is_screened_once_and_passes(name: str) -> None:
    plan = planned(name)
    deck, strength = parts(plan)[0], plan.strength
    assert strength is not None
    asked = [
        each.subject
        for kind in (strength.beams, strength.posts, strength.boards, strength.ledgers)
        for each in kind
    ]
    assert asked == [each.subject for each in strength.screened]
    assert len(set(asked)) == len(asked)
    bearers = [each for each in strength.beams if each.subject.startswith("BR")]
    assert [each.subject for each in bearers] == [each.mark for each in deck.frame.bearers]
    assert [each.subject for each in strength.posts] == [each.mark for each in deck.frame.posts]
    assert strength.most_ratio <= 1.0


def test_the_deck_hangs_on_the_side_of_the_house_that_its_joists_begin_at() -> None:
    deck, _ = parts(planned("L"))
    assert deck.frame.ledger is not None
    assert (deck.frame.ledger.start_mm, deck.frame.ledger.end_mm) == (0.0, 4200.0)
    assert parts(planned("free"))[0].frame.ledger is None
    assert deck.line_count < parts(planned("free"))[0].line_count


def test_steps_stand_on_the_longest_side_that_faces_their_way() -> None:
    """Of the two front sides E5 is 2400 long, and runs back: 300 to 1500 from its end."""
    plan = planned("L")
    assert plan.guards is not None
    assert plan.steps is not None
    (edge,) = [each for each in plan.guards.edges if each.passages]
    assert (edge.mark, edge.passages[0].from_mm, edge.passages[0].to_mm) == ("E5", 900.0, 2100.0)
    assert (plan.steps.from_mm, plan.steps.width_mm) == (300.0, 1200.0)


def test_boards_that_run_away_from_the_house_turn_the_axes() -> None:
    """The house is on the left there, so that joists along it begin at it."""
    deck, frame = parts(planned("across"))
    assert frame.joist_run == "along"
    assert deck.frame.ledger is not None
    assert (deck.frame.ledger.start_mm, deck.frame.ledger.end_mm) == (0.0, 3600.0)


def test_a_deck_turned_by_17_degrees_has_the_bearers_of_the_same_deck_unturned() -> None:
    own, plain = parts(planned("turned"))[0], parts(planned("level"))[0]
    assert len(own.frame.bearers) == len(plain.frame.bearers)
    for one, other in zip(own.frame.bearers, plain.frame.bearers, strict=True):
        assert one.section == other.section
        assert one.across_mm == pytest.approx(other.across_mm, abs=1.0)
        assert (one.start_mm, one.end_mm) == pytest.approx((other.start_mm, other.end_mm), abs=1.0)
    assert [post.length_mm for post in own.frame.posts] == [
        post.length_mm for post in plain.frame.posts
    ]


def test_what_trimmers_bring_is_screened_and_told() -> None:
    """A 450 hatch cuts joists at 400: two trimmers, and joists beside them under wider strips."""
    plan = planned("hatch")
    assert plan.strength is not None
    assert plan.subframe is not None
    subjects = [each.subject for each in plan.strength.beams]
    assert {"TR1", "TR2"} <= set(subjects)
    codes = {finding.code for finding in plan.findings}
    assert {"RSD-008", "STR-011"} <= codes
    widest = max(each.carried_mm for each in plan.strength.beams if each.kind == "joist")
    assert widest > plan.subframe.centres_mm
    told = next(finding for finding in plan.findings if finding.code == "STR-011")
    assert told.measured == widest


def test_what_stands_is_bought_and_footed() -> None:
    plan = planned("L")
    deck, _ = parts(plan)
    assert plan.buying is not None
    assert plan.footings is not None
    sawn = {mark for bought in plan.buying.purchases for length in bought.lengths
            for mark in length.pieces}  # fmt: skip
    assert {piece.mark for piece in deck.pieces} <= sawn
    assert [each.post for each in plan.footings.under] == [p.mark for p in deck.frame.posts]
    assert plan.guards is not None
    assert [edge.mark for edge in plan.guards.edges] == ["E1", "E2", "E3", "E4", "E5", "E6"]
    assert [edge.kind for edge in plan.guards.edges] == ["house", *["open"] * 5]


def stops_of(data: dict[str, Any]) -> dict[str, str]:
    plan = drylay.design(drylay.read_brief(data), stock=YARD)
    assert not plan.buildable
    return {f.code: f.message for f in plan.findings if f.severity is Severity.STOP}


def test_places_of_the_briefs_own_are_not_planned_yet() -> None:
    assert "raised.lines_mm" in stops_of(sections(L, lines_mm=[400.0, 2000.0]))["STR-009"]


def test_joists_jointed_off_a_bearer_are_not_planned_yet() -> None:
    """7200 deep, and the longest timber of this yard is 4800."""
    deep = ((0.0, 0.0), (2400.0, 0.0), (2400.0, 7200.0), (0.0, 7200.0))
    assert "jointed" in stops_of(sections(deep, ground=FLAT))["STR-009"]


def test_its_work_tells_what_stands() -> None:
    plan = planned("across")
    assert plan.work is not None
    tasks = {task.kind: task for task in plan.work.tasks}
    order = list(tasks)
    wanted = ["post_lines", "holes", "concrete", "posts", "ledger", "bearers", "frame", "boards"]
    assert [kind for kind in order if kind in wanted] == [
        "post_lines", "holes", "concrete", "posts", "ledger", "bearers", "frame", "boards",
    ]  # fmt: skip
    assert "piece by piece over the bearers" in tasks["frame"].steps[0]
    deck, _ = parts(plan)
    out = {each.mark: (each.along_mm, each.across_mm) for each in plan.work.setting_out.posts}
    assert out == {
        post.mark: (post.place.across_mm, post.place.along_mm) for post in deck.frame.posts
    }
