"""Laws of decks with everything a brief can ask for."""

from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import drylay
from drylay.audit.leaves import leaves
from drylay.audit.whole import FREE
from drylay.brief.codec import brief_to_dict
from drylay.brief.model import CrewWish, LightsWish
from drylay.findings import Severity
from drylay.marks import exact, to_mm
from whole_decks import whole_case

FAMILIES = drylay.installed_families()
few = settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
seeds = st.integers(1, 10**6)


def planned(seed: int) -> drylay.Plan:
    brief, stock = whole_case(seed, most_mm=3_600)
    return drylay.design(brief, stock=stock, families=FAMILIES)


@few
@given(seeds)
def test_a_plan_stands_before_its_witnesses_or_says_why_it_cannot_be(seed: int) -> None:
    brief, stock = whole_case(seed, most_mm=3_600)
    plan = drylay.design(brief, stock=stock, families=FAMILIES)
    stops = [finding for finding in plan.findings if finding.severity is Severity.STOP]
    if stops:
        assert plan.buying is None
        assert plan.work is None
        assert all(stop.message and stop.source.title for stop in stops)
        return
    assert drylay.audit(plan, brief=brief, stock=stock, families=FAMILIES).sound
    assert drylay.plan_from_json(drylay.plan_to_json(plan)) == plan
    assert drylay.design(brief, stock=stock, families=FAMILIES) == plan


@few
@given(seeds)
def test_every_paper_of_it_is_written_and_holds_no_open_brace(seed: int) -> None:
    plan = planned(seed)
    papers = drylay.papers(plan)
    for name in ("summary.txt", "jobsheet.html"):
        if name in papers and plan.buildable:
            text = papers[name].decode("utf-8")
            assert "{groundwork" not in text
            assert "{fixings" not in text
            assert "{work" not in text


@few
@given(seeds)
def test_who_builds_and_what_is_lit_changes_nothing_that_is_bought(seed: int) -> None:
    """Crew and lights are in no order: without them the same way out is bought alike.

    Another way out may be laid then: one on which the lights did not fit.
    """
    brief, stock = whole_case(seed, most_mm=3_600)
    plain = evolve(brief, crew=CrewWish(people=1), lights=LightsWish())
    one = drylay.design(brief, stock=stock, families=FAMILIES)
    other = drylay.design(plain, stock=stock, families=FAMILIES)
    if one.buildable and other.surface.way_out == one.surface.way_out:
        assert other.buying == one.buying


@few
@given(seeds)
def test_screws_bought_are_those_counted(seed: int) -> None:
    """Whatever uses an article has together, its packs hold them, spares with them."""
    plan = planned(seed)
    if not plan.buildable:
        return
    fixings, needs = plan.fixings, {}
    found = [fixings.deck_screws, fixings.coach_screws, fixings.frame_screws,
             fixings.fascia_screws, fixings.hangers]  # fmt: skip
    for fixing in filter(None, found):
        needs[fixing.article] = needs.get(fixing.article, 0) + fixing.count
    for pack in plan.buying.packs:
        if pack.article in needs and (fixings.hangers is None or pack.article != "HS"):
            assert pack.need == needs[pack.article]
            assert sum(box.pack * box.packs for box in pack.packs) >= pack.need + pack.spare


def in_sixteenths(section: dict[str, object]) -> dict[str, object]:
    """Return a section whose lengths are whole sixteenths of an inch, each the nearest."""
    return {
        key: round(value / 25.4 * 16) / 16 * 25.4
        if key.endswith("_mm") and isinstance(value, int | float)
        else value
        for key, value in section.items()
    }


@few
@given(seeds)
def test_no_length_of_a_plan_in_inches_shows_the_noise_of_sums(seed: int) -> None:
    """Every length is a whole count of 1/320 mm, but roots and means, as the conventions say."""
    brief, stock = whole_case(seed, most_mm=3_600)
    wish = {**brief_to_dict(brief), "units": "imperial"}
    wish |= {name: in_sixteenths(wish[name]) for name in ("cover", "groundwork") if name in wish}
    plan = drylay.design(drylay.read_brief(wish), stock=stock, families=FAMILIES)
    for path, value in leaves(plan):
        if path.endswith("_mm") and isinstance(value, float) and not FREE.fullmatch(path):
            assert value == to_mm(exact(value)), path
