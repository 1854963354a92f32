"""The summary: what a builder reads first, as plain text."""

from collections.abc import Sequence

from drylay.papers.coats_text import coats_told
from drylay.papers.cover_text import cover_lines
from drylay.papers.delivery_text import delivery_told
from drylay.papers.frame_text import frame_lines, screw_lines
from drylay.papers.ground_text import ground_told
from drylay.papers.guards_text import edges_told
from drylay.papers.joints_text import joint_lines
from drylay.papers.layout import heading, para, points
from drylay.papers.outlined_frame_text import outlined_frame_lines
from drylay.papers.outlined_text import outlined_lines
from drylay.papers.outlined_tiles_text import outlined_tile_lines
from drylay.papers.purchase import cut_lines, order_lines, proof_lines
from drylay.papers.site_text import site_told
from drylay.papers.standing_text import standing_told
from drylay.papers.strength_text import strength_told
from drylay.papers.tiles_text import tile_lines
from drylay.papers.trust_text import (
    FINDING_MOST,
    findings_told,
    local_rules_told,
    state_told,
    trust_told,
)
from drylay.papers.wording import clean
from drylay.papers.work_text import work_told
from drylay.plan.model import Plan

#: What is said where a plan names nothing that was not checked.
NOT_CHECKED = ("anything that is not named above",)

#: No line on what a deck stands on is longer: posts by the score with a length each.
LONG = 4000


def summary(plan: Plan) -> str:
    """Return the summary of a plan; a blocked plan has findings and no cut list, no order."""
    built = [*cover_lines(plan), *tile_lines(plan)]
    built += [*outlined_lines(plan), *outlined_frame_lines(plan), *outlined_tile_lines(plan)]
    built += [*frame_lines(plan), *joint_lines(plan), *screw_lines(plan)]
    built += [*_section("SITE", site_told(plan)), *_section("GROUND", ground_told(plan))]
    built += _section("WHAT IT STANDS ON", standing_told(plan), LONG)
    built += _section("STRENGTH", strength_told(plan), LONG)
    built += _section("GUARDS AND STEPS", edges_told(plan), LONG)
    built += _section("PRESERVER AND FINISH", coats_told(plan))
    head = [*heading(clean(plan.title, 78), "="), *para(state_told(plan))]
    trust, findings = _trust(plan), _section("FINDINGS", findings_told(plan), FINDING_MOST)
    if plan.buildable:
        lines = [*head, *trust, *built]
        if plan.buying:
            lines += cut_lines(plan, plan.buying)
            lines += order_lines(plan.buying, plan.units)
            lines += _section("DELIVERY", delivery_told(plan))
            lines += proof_lines(plan, plan.buying)
        lines += findings
    else:
        lines = [*head, *findings, *trust, *built]
    lines += _section("HELD AGAINST LOCAL RULES", local_rules_told(plan))
    lines += _section("WORK", work_told(plan)) if plan.buildable else []
    lines += _section("CAUTIONS", plan.cautions)
    not_checked = "WITHIN THE SCREENED LIMITS; NOT CHECKED"
    lines += _section(not_checked, plan.not_checked or NOT_CHECKED)
    return "\n".join(lines).strip("\n") + "\n"


def _trust(plan: Plan) -> list[str]:
    texts = trust_told(plan)
    return [*heading("TAKEN ON TRUST: CHECK BEFORE YOU BUY"), *points(texts)] if texts else []


def _section(title: str, texts: Sequence[str], most: int = 400) -> list[str]:
    if not texts:
        return []
    return [*heading(title), *points(clean(text, most) for text in texts)]
