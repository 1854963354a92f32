"""A frame is weighed by a rule of its own, whatever lies on it."""

from math import ceil

import pytest
from attrs import evolve

import drylay
from border_decks import brief as edged
from border_decks import families as edging
from border_decks import planned as edged_plan
from border_decks import stock as edged_stock
from drylay.plan.model import Plan
from some_families import softwood

PATH = "buying.delivery.frame_density_kg_m3"
COMPOSITE = drylay.read_brief("docs/examples/composite.toml")
YARD = drylay.load_catalogue("catalogs/sallowby.toml")


def mass_kg(plan: Plan, article: str) -> float:
    (part,) = [part for part in plan.buying.delivery.parts if part.article == article]
    return part.mass_kg


def metres(plan: Plan, article: str) -> float:
    lines = (*plan.buying.order, *plan.buying.spares)
    return sum(line.quantity * line.length_mm for line in lines if line.article == article) / 1000


def test_a_frame_under_composite_weighs_what_softwood_does() -> None:
    """Section 45 x 145 at 700 kg/m3, up to the next 100 g; the boards' 1400 is their own."""
    plan = drylay.design(COMPOSITE, stock=YARD)
    brought = plan.buying.delivery
    assert (brought.density_kg_m3, brought.frame_density_kg_m3) == (1400.0, 700.0)
    timber = COMPOSITE.frame.article
    (sold,) = [each for each in YARD.timbers if each.code == timber]
    section_m2 = sold.thickness_mm * sold.depth_mm / 1e6
    by_hand = metres(plan, timber) * section_m2 * 700
    assert mass_kg(plan, timber) == ceil(round(by_hand * 10, 6)) / 10
    told = plan.why(PATH)
    assert (told.source.kind, told.source.title) == ("from memory", "treated softwood, density")
    words = " ".join(drylay.papers(plan)["summary.txt"].decode().split())
    assert "Boards and fascia are reckoned at 1400 kg/m3, the frame's timber at 700 kg/m3" in words


def test_a_family_of_the_old_rules_has_the_plain_value_and_says_so() -> None:
    family = softwood()
    rules = {name: rule for name, rule in family.rules.items() if "frame_density" not in name}
    families = drylay.installed_families(
        entry_points=(), extra=(evolve(family, rules=rules),)
    )  # fmt: skip
    brief = drylay.read_brief("docs/examples/garden.toml")
    stock = drylay.load_catalogue("catalogs/hobbleden.toml")
    plan = drylay.design(brief, stock=stock, families=families)
    assert plan.buildable
    told = plan.why(PATH)
    assert (told.value, told.source.kind) == (700, "assumption")
    report = drylay.audit(plan, brief=brief, stock=stock, families=families)
    assert report.findings == ()


@pytest.mark.parametrize(("border_kg_m3", "governs"), [(900, 900), (500, 700)])
def test_of_field_and_border_the_heavier_counts(border_kg_m3: float, governs: float) -> None:
    plan = edged_plan(frame_density_most_kg_m3=border_kg_m3)
    assert plan.buying.delivery.frame_density_kg_m3 == governs
    families = edging(frame_density_most_kg_m3=border_kg_m3)
    report = drylay.audit(plan, brief=edged(), stock=edged_stock(), families=families)
    assert report.findings == ()
