"""The rule on joist centres for boards square to joists, asked apart for boards at an angle."""

from attrs import evolve

from drylay.brief.model import Brief
from drylay.planner.angles import is_outlined
from drylay.planner.asking import asking
from drylay.planner.job import Articles, Governance
from drylay.planner.rules import merchant_or_family
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling, Source

SQUARE = "subframe.square_centres_mm"
CENTRES = "supports.most_centres_mm"


def with_square(
    rules: Governance, brief: Brief, articles: Articles, families: FamilySet
) -> Governance:
    """Return the rules with that on centres for square boards, for a deck on an outline."""
    if not is_outlined(brief) or CENTRES not in rules.rulings:
        return rules
    square = _square(rules, brief, articles, families)
    return evolve(rules, rulings={**rules.rulings, SQUARE: square})


def _square(rules: Governance, brief: Brief, articles: Articles, families: FamilySet) -> Ruling:
    here = rules.rulings[CENTRES]
    wish = brief.frame.most_centres_mm
    if here.source.kind == "brief" and wish is not None:
        return Ruling(
            value=wish,
            unit="mm",
            rule="as the brief wishes, for boards square to the joists",
            source=Source(kind="brief", title="the brief", clause="frame.most_centres_mm"),
        )
    asked = asking(brief, articles, families)
    square = evolve(asked, query=evolve(asked.query, board_to_joist_deg=90.0))
    found = merchant_or_family(square, "most_centres_mm")
    if not isinstance(found, Ruling):
        return here
    # the plan's own angle stands beside this decision: what was asked is in the rule's words
    told = tuple(each for each in found.inputs if each[0] != "board_to_joist_deg")
    return evolve(found, rule=f"{found.rule}, boards square to the joists", inputs=told)
