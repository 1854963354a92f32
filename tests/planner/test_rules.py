"""Which rule governs, and what is said when a brief loosens one."""

from decimal import Decimal

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import GapWish, Override
from drylay.findings import Severity
from drylay.materials.model import NO_RECORD, QUESTIONS, RULES, TRAITS, Family, RuleQuery
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.planner.governed import GOVERNED
from drylay.planner.job import find_articles
from drylay.planner.rules import govern
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling, Source
from some_decks import some_case

BRIEF, STOCK = some_case(3)
BRIEF = evolve(BRIEF, gap=GapWish(), frame=evolve(BRIEF.frame, most_centres_mm=None))
BOOK = Source(kind="handbook", title="a merchant's sheet (invented)", clause="table 2")


def fixed(values: dict[str, float]) -> FamilySet:
    """A family that answers every rule with a number, some of them given."""

    def rule(name: str, value: float):
        def answer(_: RuleQuery) -> Ruling:
            return Ruling(value=value, unit=QUESTIONS[name][0], rule=f"test {name}", source=BOOK)

        return answer

    plain = {
        "most_centres_mm": 400.0, "gap_preferred_mm": 5.0, "gap_least_mm": 4.0,
        "gap_most_mm": 8.0, "end_gap_mm": 4.0, "end_bearing_least_mm": 10.0, "least_supports": 3,
        "stagger_bays": 2, "sliver_mm": 60.0, "may_rip": 1, "least_rip_mm": 60.0,
        "screws_per_crossing": 2, "screw_length_least_mm": 70.0, "screw_edge_least_mm": 20.0,
        "screw_end_least_mm": 15.0, "screw_pilot_ratio": 0.7, "coach_screws_per_joist_end": 2,
        "coach_screw_length_least_mm": 100.0, "coach_screw_sink_mm": 12.0,
        "coach_screw_pilot_ratio": 0.7,
        "frame_screws_per_noggin_end": 2, "frame_screws_per_splice_side": 4,
        "frame_screw_length_least_mm": 90.0, "fascia_screws_per_place": 2,
        "fascia_screw_spacing_most_mm": 600.0, "fascia_screw_end_least_mm": 40.0,
        "fascia_screw_length_least_mm": 40.0, "metal_allowed": 1, "board_use_class_least": 3,
        "frame_use_class_least": 4,
        "noggin_spacing_most_mm": 1800.0, "spare_ratio": 0.05,
        "preserver_coats": 2, "finish_coats": 2, "groove_ratio": 0.3,
        "density_most_kg_m3": 700.0,
    }  # fmt: skip
    rules = {
        name: rule(name, value) for name, value in {**plain, **values}.items() if value is not None
    }
    family = Family(id="softwood", title="test softwood", rules=rules)
    return drylay.installed_families(entry_points=(), extra=(family,))


def governed(brief: drylay.Brief, stock: Catalogue = STOCK, **values: float):
    return govern(brief, find_articles(brief, stock), fixed(values))


def with_rule(stock: Catalogue, rule: str, value: float) -> Catalogue:
    own = ArticleRule(rule=rule, value=value, source=BOOK)
    return evolve(stock, boards=(evolve(stock.boards[0], rules=(own,)),))


def test_every_governed_path_asks_a_rule_that_exists() -> None:
    asked = {entry.rule for entry in GOVERNED}
    assert set(RULES) - set(NO_RECORD) <= asked <= {*RULES, *TRAITS}
    assert len({entry.path for entry in GOVERNED}) == len(GOVERNED)


def test_override_before_brief_before_merchant_before_family() -> None:
    path = "supports.most_centres_mm"
    stock = with_rule(STOCK, "most_centres_mm", 380.0)
    wish = evolve(BRIEF, frame=evolve(BRIEF.frame, most_centres_mm=350.0))
    word = Override(path=path, value=450.0, unit="mm", by="A. Person", reason="thicker boards")
    said = evolve(wish, overrides=(word,))
    assert governed(BRIEF).value(path) == 400.0
    assert governed(BRIEF, stock).value(path) == 380.0
    assert governed(BRIEF, stock).source(path) == BOOK
    assert governed(wish, stock).value(path) == 350.0
    assert governed(wish, stock).source(path).kind == "brief"
    assert governed(said, stock).value(path) == 450.0
    assert governed(said, stock).source(path).kind == "named person's override"


def test_an_override_is_shown_with_name_and_reason() -> None:
    word = Override(
        path="pieces.stagger_bays", value=1.0, unit="count", by="A. Person", reason="short rows"
    )
    rules = governed(evolve(BRIEF, overrides=(word,)))
    (finding,) = rules.findings
    assert finding.code == "OVR-001"
    assert "A. Person" in finding.message
    assert "short rows" in finding.message
    assert rules.rulings["pieces.stagger_bays"].value == 1
    assert (finding.measured, finding.limit) == (1.0, 2.0)


def test_loosening_joist_centres_is_a_stop_and_tightening_is_nothing() -> None:
    loose = governed(evolve(BRIEF, frame=evolve(BRIEF.frame, most_centres_mm=400.1)))
    (finding,) = loose.findings
    assert (finding.code, finding.severity) == ("MAT-002", Severity.STOP)
    assert (finding.measured, finding.limit) == (400.1, 400.0)
    assert not governed(evolve(BRIEF, frame=evolve(BRIEF.frame, most_centres_mm=400.0))).findings


@pytest.mark.parametrize(
    ("wish", "path"),
    [
        (GapWish(least_mm=3.0), "surface.gap_least_mm"),
        (GapWish(most_mm=9.0), "surface.gap_most_mm"),
    ],
)
def test_a_gap_beyond_the_family_is_used_and_cautioned(wish: GapWish, path: str) -> None:
    rules = governed(evolve(BRIEF, gap=wish))
    (finding,) = rules.findings
    assert (finding.severity, finding.subject) == (Severity.CAUTION, path)
    assert rules.source(path).kind == "brief"


def test_a_family_gap_moves_into_the_range_the_brief_allows_and_says_so() -> None:
    rules = governed(evolve(BRIEF, gap=GapWish(least_mm=6.0)))
    moved = rules.rulings["surface.gap_preferred_mm"]
    assert moved.value == 6.0
    assert "moved into the range" in moved.rule
    assert ("otherwise", 5.0) in moved.inputs


def test_a_wished_gap_outside_the_range_is_a_stop_not_an_average() -> None:
    rules = governed(evolve(BRIEF, gap=GapWish(preferred_mm=9.0)))
    (finding,) = rules.findings
    assert (finding.code, finding.severity) == ("GAP-001", Severity.STOP)
    assert (finding.measured, finding.limit) == (9.0, 8.0)
    assert rules.value("surface.gap_preferred_mm") == 9.0
    tight = governed(evolve(BRIEF, gap=GapWish(preferred_mm=2.0)))
    assert tight.findings[0].limit == 4.0


@pytest.mark.parametrize("rule", sorted(RULES))
def test_a_rule_not_covered_is_a_stop_and_the_plan_has_no_cut_list(rule: str) -> None:
    families = fixed({rule: None})
    brief = evolve(BRIEF, fascia=evolve(BRIEF.fascia, sides=drylay_sides(), article="FA"))
    plan = drylay.design(brief, stock=STOCK, families=families)
    assert not plan.buildable
    assert (plan.pieces, plan.frame, plan.buying) == (None, None, None)
    assert "MAT-001" in {finding.code for finding in plan.findings}


def drylay_sides() -> tuple[str, ...]:
    return ("house", "right", "front", "left")


def test_an_override_stands_in_for_a_rule_not_covered() -> None:
    word = Override(
        path="surface.sliver_limit_mm", value=50.0, unit="mm", by="A. P.", reason="tiny"
    )
    rules = govern(
        evolve(BRIEF, overrides=(word,)), find_articles(BRIEF, STOCK), fixed({"sliver_mm": None})
    )
    assert rules.value("surface.sliver_limit_mm") == 50.0
    assert rules.findings[0].limit is None


def test_a_coach_screw_is_asked_for_the_rim_whose_head_is_not_sunk() -> None:
    asked: list[float] = []

    def length(query: RuleQuery) -> Ruling:
        asked.append(query.head_sunk_mm)
        return Ruling(value=100.0, unit="mm", rule="test", source=BOOK)

    families = fixed({})
    family = families.families[0].family
    told = evolve(family, rules={**family.rules, "coach_screw_length_least_mm": length})
    families = drylay.installed_families(entry_points=(), extra=(told,))
    for sides in (drylay_sides(), ("house",), ()):
        brief = evolve(BRIEF, board=evolve(BRIEF.board, run="along"),
                       fascia=evolve(BRIEF.fascia, sides=sides, article="FA"))  # fmt: skip
        govern(brief, find_articles(brief, STOCK), families)
    assert asked == [12.0, 0.0, 0.0]


def test_every_unknown_article_is_told_at_once() -> None:
    brief = evolve(
        BRIEF,
        board=evolve(BRIEF.board, article="DBX"),
        frame=evolve(BRIEF.frame, article="nothing"),
        fascia=evolve(BRIEF.fascia, sides=("front",), article="FAX"),
        fixings=evolve(BRIEF.fixings, screw="?", coach_screw="!"),
    )
    with pytest.raises(drylay.BriefError) as caught:
        drylay.design(brief, stock=STOCK)
    assert {fault.path for fault in caught.value.faults} == {
        "board.article", "frame.article", "fascia.article", "fixings.screw", "fixings.coach_screw",
    }  # fmt: skip
    nearest = {fault.path: fault.nearest for fault in caught.value.faults}
    assert nearest["board.article"] == "DB"


def test_a_joint_price_finer_than_the_currency_is_refused() -> None:
    brief = evolve(BRIEF, joints=evolve(BRIEF.joints, price_each=Decimal("0.125")))
    with pytest.raises(
        drylay.BriefError, match=r"joints\.price_each: found 0\.125, wanted no more"
    ):
        drylay.design(brief, stock=STOCK)


@pytest.mark.parametrize(
    ("rule", "least"), [("most_centres_mm", 100.0), ("noggin_spacing_most_mm", 300.0)]
)
def test_a_figure_nobody_builds_to_stops_at_once(rule: str, least: float) -> None:
    plan = drylay.design(BRIEF, stock=STOCK, families=fixed({rule: 3.0}))
    stop = next(f for f in plan.findings if f.code == "MAT-003")
    assert (stop.measured, stop.limit) == (3.0, least)
    assert not plan.buildable


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule not in ("may_rip", *NO_RECORD)])
def test_a_merchants_record_of_any_rule_makes_a_plan_that_passes_its_audit(rule: str) -> None:
    """Each rule recorded with the family's own figure: nothing changes but who says so."""
    families = fixed({})
    brief, stock = some_case(3)
    plain = drylay.design(brief, stock=stock, families=families)
    value = {entry.rule: entry for entry in GOVERNED}[rule]
    figure = governed(brief, stock).value(value.path)
    plan = drylay.design(brief, stock=with_rule(stock, rule, figure), families=families)
    assert plan.buildable == plain.buildable
    assert not [f for f in plan.findings if f.code == "MAT-004"]
    assert drylay.audit(plan).sound


@pytest.mark.parametrize(
    ("rule", "value", "looser"),
    [
        ("most_centres_mm", 500.0, True),
        ("most_centres_mm", 350.0, False),
        ("least_supports", 2, True),
        ("stagger_bays", 3, False),
        ("screw_edge_least_mm", 10.0, True),
        ("gap_preferred_mm", 6.0, False),
        ("noggin_spacing_most_mm", 2_000.0, True),
    ],
)
def test_a_record_looser_than_the_family_is_told(rule: str, value: float, looser: bool) -> None:
    """The record outranks the family, and the two contradict each other: both are shown."""
    rules = governed(BRIEF, with_rule(STOCK, rule, value))
    told = [f for f in rules.findings if f.code == "MAT-004"]
    assert bool(told) == looser
    for finding in told:
        assert finding.severity is Severity.CAUTION
        assert finding.measured == value
        assert finding.limit == governed(BRIEF).value(finding.subject)
        assert rules.value(finding.subject) == value


@pytest.mark.parametrize(
    ("kind", "told"),
    [("assumption", "an assumption of drylay's, no maker's or code's figure"),
     ("common practice", "common practice, no maker's or code's figure"),
     ("from memory", "quoted from memory, not read beside its book"), ("handbook", "")],
)  # fmt: skip
def test_what_a_limit_is_worth_is_said_with_it(kind: str, told: str) -> None:
    """Of a merchant's 500 and of a brief's, looser than 400 that nobody printed."""
    source = Source(kind=kind, title="who says so")
    family = fixed({}).families[0].family

    def centres(_: RuleQuery) -> Ruling:
        return Ruling(value=400.0, unit="mm", rule="test centres", source=source)

    lax = evolve(family, rules={**family.rules, "most_centres_mm": centres})
    families = drylay.installed_families(entry_points=(), extra=(lax,))
    wish = evolve(BRIEF, frame=evolve(BRIEF.frame, most_centres_mm=500.0))
    sold = with_rule(STOCK, "most_centres_mm", 500.0)
    for brief, stock, code in ((BRIEF, sold, "MAT-004"), (wish, STOCK, "MAT-002")):
        rules = govern(brief, find_articles(brief, stock), families)
        (finding,) = [found for found in rules.findings if found.code == code]
        assert (finding.limit, finding.source) == (400.0, source)
        assert (f"({told})" in finding.message) == bool(told)
        assert ("code's figure" in finding.message) == ("code's figure" in told)


@pytest.mark.parametrize(
    ("rule", "value"),
    [("least_supports", 1), ("frame_screws_per_noggin_end", 0), ("gap_most_mm", 300.0),
     ("most_centres_mm", 10_000.0), ("coach_screw_sink_mm", 100.0)],
)  # fmt: skip
def test_a_figure_beyond_sense_stops_whoever_gives_it(rule: str, value: float) -> None:
    brief, stock = some_case(3)
    brief = evolve(brief, gap=GapWish(), joints=evolve(brief.joints, least_supports=None))
    by_merchant = drylay.design(brief, stock=with_rule(stock, rule, value), families=fixed({}))
    by_family = drylay.design(brief, stock=stock, families=fixed({rule: value}))
    for plan in (by_merchant, by_family):
        assert not plan.buildable
        assert "MAT-003" in {finding.code for finding in plan.findings}


@pytest.mark.parametrize("who", ["family", "merchant", "person"])
def test_boards_that_nothing_holds_are_a_stop_whoever_says_so(who: str) -> None:
    """No screw at a crossing and no clip: one screw is the least that holds a board."""
    path, (brief, stock) = "fixings.deck_screws.per_crossing", some_case(3)
    word = Override(path=path, value=0.0, unit="count", by="A. Person", reason="they lie")
    plan = drylay.design(
        evolve(brief, overrides=(word,)) if who == "person" else brief,
        stock=with_rule(stock, "screws_per_crossing", 0) if who == "merchant" else stock,
        families=fixed({"screws_per_crossing": 0} if who == "family" else {}),
    )
    assert not plan.buildable
    assert plan.fixings is None
    (stop,) = [f for f in plan.findings if f.severity is Severity.STOP]
    assert (stop.code, stop.measured, stop.limit) == ("FIX-023", 0.0, 1.0)
    assert stop.source.title == ("A. Person" if who == "person" else BOOK.title)


def test_a_gap_moved_into_its_range_is_told() -> None:
    """The merchant aims for 10 mm where the family allows 8 at most: 8 it is, and a note."""
    rules = governed(BRIEF, with_rule(STOCK, "gap_preferred_mm", 10.0))
    assert rules.value("surface.gap_preferred_mm") == 8.0
    (note,) = [f for f in rules.findings if f.code == "GAP-002"]
    assert (note.measured, note.limit, note.severity) == (10.0, 8.0, Severity.NOTE)


def test_a_range_of_gaps_that_cannot_be_is_told_once() -> None:
    """At least 10 says the merchant, at most 8 the family: no rows are laid on that."""
    plan = drylay.design(BRIEF, stock=with_rule(STOCK, "gap_least_mm", 10.0), families=fixed({}))
    assert [f.code for f in plan.findings if f.severity is Severity.STOP] == ["GAP-001"]
    assert "contradict each other" in str(plan.findings)
