"""Joists hung between bearers: one deck by hand, what a brief may not say, what stops.

By hand, docs/raised.md: the slope's deck is 3600 across, on a ledger of 45, its bearers two plies
of 45 x 145. Two bays of (3600 - 45 - 180) / 2 = 1687.5; middles at 1777.5 and 3555; posts' tops at
-150 - 28 - 145 = -323; 13 joists in 26 parts, 52 hangers; the first bearer carries 90 + 1687.5, the
last 90 + 843.75; a hanger 0.1444 + 2 kN, up to a newton.
"""

import tomllib
from functools import cache
from pathlib import Path

import attrs
import pytest

import drylay
from drylay.errors import BriefError, InputError
from drylay.findings import Finding
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.plan.model import Plan
from drylay.reasons import Source
from standing_decks import BRIEF, brief_of, plan_of

SLOPE = Path("docs/examples/slope.toml")


def stock(capacity_kn: float | None = None) -> Catalogue:
    found = drylay.load_catalogue("catalogs/hobbleden.toml")
    hangers = tuple(attrs.evolve(each, capacity_kn=capacity_kn) for each in found.hangers)
    return attrs.evolve(found, hangers=hangers)


@cache
def slope() -> Plan:
    told = tomllib.loads(SLOPE.read_text(encoding="utf-8"))
    told["raised"]["joists"] = "between"
    return drylay.design(drylay.read_brief(told), stock=stock())


def test_the_slopes_deck_is_as_worked_by_hand() -> None:
    plan = slope()
    assert plan.buildable
    assert plan.raised is not None
    assert plan.frame is not None
    deck = plan.raised
    assert deck.bearer == "2 x FT-45-145"
    assert [(b.across_mm, b.carried_mm) for b in deck.frame.bearers] == [
        (1777.5, 1777.5), (3555.0, 933.75)]  # fmt: skip
    assert {post.top_mm for post in deck.frame.posts} == {-323.0}
    first = deck.frame.posts[0]
    assert first.length_mm == pytest.approx(-323 - first.ground_mm - 50)
    assert deck.joist_span_mm == 1687.5
    assert deck.joist_end_mm == 0.0
    assert deck.hanger_kn == 2.145
    parts = [part for joist in plan.frame.joists for part in joist.parts]
    assert {part.length_mm for part in parts} == {1687.5}
    assert len(parts) == 26
    assert plan.fixings is not None
    assert plan.fixings.hangers is not None
    assert plan.fixings.hangers.count == 52
    assert plan.fixings.coach_screws.count == 0
    assert [(rim.mark, len(rim.pieces)) for rim in plan.frame.rims] == [("RA", 1), ("BR2", 0)]


def test_parts_are_bought_with_proof_and_nothing_else_is_of_them() -> None:
    plan = slope()
    assert plan.buying is not None
    (bought,) = [each for each in plan.buying.purchases if each.what == "frame"]
    sawn = [mark for length in bought.lengths for mark in length.pieces]
    assert sorted(mark for mark in sawn if mark.startswith("J")) == sorted(
        f"J{joist}.{part}" for joist in range(1, 14) for part in (1, 2))  # fmt: skip
    assert "RB.1" not in sawn
    assert not [pack for pack in plan.buying.packs if pack.what == "coach screws"]


@pytest.mark.parametrize("name", ["hung", "hung faced"])
def test_no_coach_screws_are_why_no_heads_are_sunk_with_fascia_or_without(name: str) -> None:
    plan = plan_of(name)
    why = {each.path: each.rule for each in plan.reasons.decisions}
    none = "joists hang between bearers, no coach screws are driven"
    assert why["fixings.coach_screws.count"] == none
    assert why["fixings.coach_screws.sink_mm"] == f"{none}: no heads to sink"


def test_joists_lie_over_the_bearers_where_nobody_says_and_a_reason_tells_it() -> None:
    plan = plan_of("held")
    assert plan.raised is not None
    assert (plan.raised.joists, plan.raised.hanger_kn) == ("over", None)
    (why,) = [each for each in plan.reasons.decisions if each.path == "raised.joists"]
    assert why.source.kind == "common practice"
    (why,) = [each for each in slope().reasons.decisions if each.path == "raised.joists"]
    assert why.source.kind == "brief"


@pytest.mark.parametrize(
    ("capacity_kn", "severity"), [(None, "caution"), (2.1, "stop"), (2.2, "note")]
)
def test_hangers_are_held_against_what_is_declared(
    capacity_kn: float | None, severity: str
) -> None:
    """2.132 kN come down: 378 x 1582.5 / 2 at 0.3 + 0.1381 kN/m2 are 0.131, and 2 kN."""
    plan = drylay.design(brief_of("hung"), stock=stock(capacity_kn))
    (found,) = [each for each in plan.findings if each.code == "RSD-018"]
    assert (found.severity.value, found.measured, found.limit) == (severity, 2.132, capacity_kn)
    assert plan.buildable == (severity != "stop")


def test_posts_of_a_free_deck_stand_clear_of_the_wall() -> None:
    """A wall 10 off: posts of 100 under 90 reach 5 past the frame, under a single ply 27.5."""
    plan = plan_of("hung free")
    assert plan.raised is not None
    assert plan.raised.frame.bearers[0].section.plies == 2


def faults(**raised: object) -> list[tuple[str, str | None]]:
    told = tomllib.loads(BRIEF)
    told["raised"] |= raised
    try:
        brief = drylay.read_brief(told)
        drylay.design(brief, stock=stock())
    except (BriefError, InputError) as error:
        return [(fault.path, fault.nearest) for fault in error.faults]
    return []


def test_a_bearer_shallower_than_its_joists_is_refused() -> None:
    told = tomllib.loads(BRIEF)
    told["frame"]["article"] = "BT-47-195"
    told["raised"] |= {"joists": "between", "bearer": "FT-45-145"}
    with pytest.raises(BriefError, match="a bearer as deep as the joists") as raised:
        drylay.design(drylay.read_brief(told), stock=stock())
    ((path, near),) = [(fault.path, fault.nearest) for fault in raised.value.faults]
    assert (path, near) == ("raised.bearer", 'bearer = "BT-47-195"')


def test_no_hanger_is_refused() -> None:
    told = tomllib.loads(BRIEF)
    del told["fixings"]["hanger"]
    told["raised"]["joists"] = "between"
    with pytest.raises(InputError, match="which hangers joists hang in"):
        drylay.read_brief(told)
    assert faults(joists="beside")[0][0] == "raised.joists"


def stops(**changes: dict[str, object]) -> list[tuple[str, str]]:
    brief = brief_of("hung")
    for part, fields in changes.items():
        brief = attrs.evolve(brief, **{part: attrs.evolve(getattr(brief, part), **fields)})
    plan = drylay.design(brief, stock=stock())
    return [(each.code, each.message) for each in plan.findings if each.severity.value == "stop"]


def test_lines_that_leave_an_end_open_stop_and_those_that_close_it_are_kept() -> None:
    ((code, told),) = stops(raised={"lines_mm": (1650.0, 3000.0)})
    assert code == "STR-005"
    assert "the outer ones close the frame" in told
    assert not stops(raised={"lines_mm": (1650.0, 3277.5), "plies": 1, "bearer": "FT-45-145"})


def test_lights_are_not_planned_beside_hung_joists() -> None:
    found = stops(lights={"side": "front", "count": 3, "hole_mm": 50.0, "depth_mm": 40.0})
    assert [code for code, _ in found] == ["STR-009"]
    assert "lights" in found[0][1]


def test_under_an_outline_it_is_told_that_joists_lie_over() -> None:
    told = tomllib.loads(Path("docs/examples/slope.toml").read_text(encoding="utf-8"))
    del told["cover"]
    told["outline"] = {"points": [
        {"along": "0 mm", "across": "0 mm", "side": "house"}, {"along": "4.8 m", "across": "0 mm"},
        {"along": "4.8 m", "across": "2 m"}, {"along": "2.4 m", "across": "2 m"},
        {"along": "2.4 m", "across": "3.6 m"}, {"along": "0 mm", "across": "3.6 m"}]}  # fmt: skip
    del told["steps"]
    told["raised"]["joists"] = "between"
    plan = drylay.design(drylay.read_brief(told), stock=stock())
    assert ("STR-009", "raised.joists") in {(f.code, f.subject) for f in plan.findings}
    assert not plan.buildable


def wished(level_mm: float | None = None, **tables: dict[str, object]) -> Plan:
    """Return the example of a slope with joists hung and keys of tables changed."""
    brief = drylay.read_brief(SLOPE).to_dict()
    plain = {**brief, **{name: {**brief[name], **keys} for name, keys in tables.items()}}
    plain["raised"] = {**brief["raised"], "joists": "between", **tables.get("raised", {})}
    if level_mm is not None:
        points = [{"along_mm": x, "across_mm": y, "level_mm": level_mm}
                  for x in (-9000.0, 30000.0) for y in (-9000.0, 30000.0)]  # fmt: skip
        plain |= {"levels": {**brief["levels"], "lowest_mm": level_mm - 200, "points": points},
                  "guards": {}, "steps": {}}  # fmt: skip
    return drylay.design(drylay.read_brief(plain), stock=stock())


def told_of(plan: Plan, code: str) -> list[Finding]:
    return [each for each in plan.findings if each.code == code]


@pytest.mark.parametrize(
    ("joists", "lines", "wanted"),
    [
        ("between", [1200.0, 1250.0, 3555.0], "180"),
        ("between", [1200.0, 1290.1, 3555.0], "180"),
        ("between", [170.0, 1800.0, 3555.0], "beside the ledger"),
        ("over", [1600.0, 1690.0, 3400.0], "100"),
    ],
)
def test_bearers_side_by_side_are_told(joists: str, lines: list[float], wanted: str) -> None:
    """Two plies are 90 broad, two seats of 45 between them: 180; posts are 100 broad.

    A bearer at 170 leaves 170 - 45 - 45 = 80 beside the ledger, and two seats take 90.
    """
    wish = {"joists": joists, "lines_mm": lines, "plies": 2, "bearer": "FT-45-145"}
    (told,) = told_of(wished(raised={**wish, "hold_down_kn": 50.0}), "STR-005")
    assert wanted in told.message


def test_hangers_over_joints_of_plies_are_told() -> None:
    """Of 11,800 the yard's 6,000 are jointed at 5,900, where J16 hangs: 0 off its joint."""
    wish = {"joists": "between", "bearer": "BT-47-195", "plies": 2}
    cover = {"along_mm": 11800.0, "across_mm": 3000.0}
    plan = wished(-640.0, cover=cover, raised=wish)
    (told,) = told_of(plan, "RSD-022")
    assert (told.measured, told.limit) == (0.0, 62.5)
    assert "J16" in told.message


def test_no_joist_hangs_on_a_single_ply_that_is_jointed() -> None:
    plan = wished(-640.0, cover={"along_mm": 7100.0, "across_mm": 3000.0})
    assert plan.raised is not None
    for bearer in plan.raised.frame.bearers:
        assert bearer.section.plies > 1 or not bearer.joints


def faced(depth_mm: float) -> Plan:
    """Return the deck with fascia all round, of another depth."""
    fascias = tuple(attrs.evolve(each, depth_mm=depth_mm) for each in stock().fascias)
    return drylay.design(brief_of("hung faced"), stock=attrs.evolve(stock(), fascias=fascias))


def test_a_shallow_fascia_bares_no_heads_where_no_coach_screws_are() -> None:
    """60 deep: over joists on bearers it bares heads, which start 50 below the rim's top."""
    plan = faced(depth_mm=60.0)
    assert plan.buildable
    assert "FAS-003" not in {each.code for each in plan.findings}
    assert drylay.audit(plan).sound


def test_fascia_without_room_for_screws_is_not_laid_to_coach_screws_that_are_not_there() -> None:
    """Screws 290 from both ends leave nothing of a side less than 580 deep under a cover of 600."""
    rule = ArticleRule(rule="fascia_screw_end_least_mm", value=290.0, source=Source(
        kind="merchant record", title="tried"))  # fmt: skip
    boards = tuple(attrs.evolve(each, rules=(*each.rules, rule)) for each in stock().boards)
    brief = brief_of("hung faced")
    small = attrs.evolve(brief, cover=attrs.evolve(brief.cover, across_mm=600.0),
                         steps=attrs.evolve(brief.steps, side=None))  # fmt: skip
    plan = drylay.design(small, stock=attrs.evolve(stock(), boards=boards))
    told = [each.message for each in plan.findings if each.code == "FIX-016"]
    assert told
    assert not [each for each in told if "coach" in each]
