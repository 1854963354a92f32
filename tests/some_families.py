"""Families for tests: softwood's own rules, with some of them answered otherwise."""

from attrs import evolve

import drylay
from drylay.materials.model import QUESTIONS, Family, Rule, RuleQuery
from drylay.plugins.guard import find_family
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling, Source

SHEET = Source(kind="assumption", title="a sheet for tests (invented)")


def fixed(rule: str, value: float) -> Rule:
    """A rule that answers the same, whatever it is asked."""

    def answer(_: RuleQuery) -> Ruling:
        return Ruling(value=value, unit=QUESTIONS[rule][0], rule=f"test {rule}", source=SHEET)

    return answer


def softwood() -> Family:
    installed = find_family(drylay.installed_families(), "softwood")
    assert installed is not None
    return installed.family


def like_softwood(family_id: str, *cautions: str, **values: float | Rule) -> Family:
    """Softwood under another id, these rules answered with a number or by a function."""
    family = softwood()
    rules = {
        name: value if callable(value) else fixed(name, value) for name, value in values.items()
    }
    return evolve(
        family, id=family_id, title=family_id, rules={**family.rules, **rules}, cautions=cautions
    )


def with_families(*more: Family) -> FamilySet:
    """Softwood and these."""
    return drylay.installed_families(entry_points=(), extra=(softwood(), *more))


def turf() -> Family:
    """Boards with strips: whole and handed, gaps of 5 and more, spans by what is left of them."""

    def handed(query: RuleQuery) -> Ruling:
        return Ruling(value=int(query.turnable is not True), unit="yes/no",
                      rule="the pile leans one way", source=SHEET)  # fmt: skip

    def centres(query: RuleQuery) -> Ruling:
        net_mm = query.board_thickness_mm - query.groove_mm
        ruling = softwood().rules["most_centres_mm"](evolve(query, board_thickness_mm=net_mm))
        return evolve(ruling, inputs=(("net_thickness_mm", net_mm),))

    return like_softwood(
        "turf", "Keep barbecues 2 m clear.", handed=handed, most_centres_mm=centres, may_rip=0,
        gap_least_mm=5, extra_mass_kg_m2=3, fall_least_ratio=0.0125,
    )  # fmt: skip
