"""The job sheet: one file for a whole deck, in the order of the job, to print and tick off."""

from drylay.buying.model import Buying
from drylay.papers.html import Html, block, joined, para, points, tag, words
from drylay.papers.outlined_sheet import (
    outline_part,
    outlined_boards_part,
    outlined_frame_part,
    outlined_setting_part,
)
from drylay.papers.outlined_tiles_sheet import outlined_tiles_part
from drylay.papers.purchase import CHECK, proofs_told, terms_told, tiles_proof_told
from drylay.papers.sheet_build import boards_part, fixings_part, frame_part, setting_out_part
from drylay.papers.sheet_buy import buying_part, cutting_part
from drylay.papers.sheet_coats import coats_part
from drylay.papers.sheet_ground import delivery_part, ground_part
from drylay.papers.sheet_parts import cautions_told, part
from drylay.papers.sheet_site import site_part
from drylay.papers.sheet_standing import edges_part, standing_part, strength_part
from drylay.papers.sheet_style import style
from drylay.papers.sheet_tiles import tiles_part
from drylay.papers.sheet_work import work_part
from drylay.papers.summary import NOT_CHECKED
from drylay.papers.trust_text import (
    FINDING_MOST,
    findings_told,
    local_rules_told,
    state_told,
    trust_told,
)
from drylay.papers.wording import clean
from drylay.plan.model import Plan

WHAT = (
    "Job sheet for one deck, in the order of the job. Everything here is in the plan it was made "
    "from; drawings are not to scale here."
)
UNITS = {
    "metric": "Sizes are in mm.",
    "imperial": "Sizes are in feet and inches, on marks of 1/16 in.",
}
NEAREST = {
    "metric": "A figure after ~ is rounded: a length to the nearest 0.1 mm, an area up.",
    "imperial": "A figure after ~ is rounded: a length to the nearest 1/16 in, an area up, "
    "gallons and pounds to the last figure.",
}
#: Nothing is fetched and nothing runs, whatever a text in the plan may hold.
POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"


def jobsheet(plan: Plan) -> bytes:
    """Return the job sheet; b"" where the plan buys nothing."""
    if plan.buying is None:
        return b""
    parts = _parts(plan, plan.buying)
    body = [_front(plan, joined(parts)), *parts]
    page = [
        Html("<!DOCTYPE html>"),
        Html('<html lang="en">'),
        block("head", _head(plan)),
        block("body", [block("main", body)]),
        Html("</html>\n"),
    ]
    return joined(page).encode("utf-8")


def _head(plan: Plan) -> list[Html]:
    return [
        tag("meta", charset="utf-8"),
        tag("meta", http_equiv="Content-Security-Policy", content=POLICY),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("title", words(f"Job sheet: {clean(plan.title)}")),
        block("style", [Html(style(plan.units))]),  # of our own words only
    ]


def _front(plan: Plan, rest: Html) -> Html:
    """Return what this is, whether anything stops it, and from what it was made."""
    made = (
        f"Made by drylay {plan.drylay_version} from brief {plan.digests.brief[:12]} and stock "
        f"{plan.digests.stock[:12]}."
    )
    nearest = NEAREST[plan.units] if "~" in rest else ""
    return block("header", [
        tag("h1", words(clean(plan.title))),
        tag("p", words(state_told(plan)), class_="state"),
        para(WHAT),
        para(f"{UNITS[plan.units]} {nearest}"),
        para(made),
    ])  # fmt: skip


def _parts(plan: Plan, buying: Buying) -> list[Html]:
    not_checked = [clean(text, 400) for text in plan.not_checked or NOT_CHECKED]
    return [
        part("trust", "Taken on trust: check before you buy", [points(trust_told(plan))]),
        part("care", "What to wear, and what can hurt", [points(cautions_told(plan))]),
        site_part(plan),
        buying_part(plan, buying),
        delivery_part(plan),
        cutting_part(plan, buying),
        work_part(plan),
        ground_part(plan),
        outline_part(plan),
        setting_out_part(plan) or outlined_setting_part(plan),
        standing_part(plan),
        frame_part(plan) or outlined_frame_part(plan),
        boards_part(plan) or outlined_boards_part(plan),
        tiles_part(plan) or outlined_tiles_part(plan),
        fixings_part(plan),
        edges_part(plan),
        coats_part(plan),
        strength_part(plan),
        part(
            "findings",
            "Findings",
            [points(clean(text, FINDING_MOST) for text in findings_told(plan))],
        ),
        part("local", "Held against local rules", [points(local_rules_told(plan))]),
        _proof(plan, buying),
        part("not-checked", "Within the screened limits; not checked", [points(not_checked)]),
    ]


def _proof(plan: Plan, buying: Buying) -> Html:
    terms = terms_told(plan, "in the summary")
    check = CHECK if buying.purchases else ""
    return part("proof", "Proof", [
        points([*proofs_told(buying), *tiles_proof_told(plan)]), para(terms), para(check),
    ])  # fmt: skip
