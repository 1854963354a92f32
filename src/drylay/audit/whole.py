"""The plan as a whole: finite numbers, known words, findings that keep their word."""

import re
from collections.abc import Iterator
from decimal import Decimal
from math import isfinite

from drylay.audit.exact import PER_MM, on_grid
from drylay.audit.flaws import conventions, need
from drylay.audit.leaves import all_finite, leaves, values
from drylay.audit.local import is_local
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.rows import gap_rooms
from drylay.brief.model import UNITS, USES
from drylay.findings import Severity
from drylay.plan.model import SCHEMA_VERSION, Plan
from drylay.reasons import SOURCE_KINDS

LENGTHS = conventions("Lengths, marks, money")
FINDINGS = conventions("Findings")
FILE = conventions("The plan file")
PARTS = ("surface", "edges", "supports", "pieces", "frame", "fixings", "buying")
HEX = re.compile(r"[0-9a-f]{64}")

#: Findings on what is left of a board, or room round water: measured between corners of the plan.
BETWEEN_CORNERS = {"LAY-002", "LAY-005", "LAY-020", "OUT-022", "OUT-025", "SUB-015"}
#: Findings whose limit is a standard's: of a plan without groundwork no part holds a tree's roots.
#: AUD-W45 looks at these.
OF_STANDARDS = {"OUT-020"}
#: Findings on figures of the plan rounded down or added up: what a footing or a screw carries.
ROUNDED = {"FTG-005", "FTG-009"}
#: Findings on how far hangers are from joints of plies: AUD-381 looks at these.
OF_JOINTS = {"RSD-022"}
#: Findings on what was measured while laying: by how much, whichever way. AUD-140 looks at these.
OF_READINGS = {"COR-001", "COR-002", "COR-004", "COR-005"}
FREE_FIGURES = BETWEEN_CORNERS | OF_STANDARDS | ROUNDED | OF_JOINTS | OF_READINGS
#: Parts of a deck on an outline, which has none of the others that tell of a rectangle.
OUTLINED = ("outline", "laying", "subframe", "fixings", "buying")
#: Those of tiles on one.
OUTLINED_TILES = ("outline", "tiles", "buying")
#: Parts that a plan may do without.
MORE = (
    "site", "groundwork", "work", "tiling", "outline", "laying", "subframe", "tiles",
    "raised", "strength", "footings", "guards", "steps", "laid",
)  # fmt: skip
#: Parts that a deck of tiles does without: on a frame, and on pads.
WITHOUT = {"frame": {"pieces"}, "pads": {"pieces", "supports", "frame", "fixings"}}

#: Lengths that need not be whole multiples of 1/320 mm: products, roots and means.
FREE = re.compile(
    r"(frame|tiling)\.diagonal_mm|fixings\..*|(surface|tiling)\.ways_out\[\d+\]\.gap_mm"
    r"|pieces\.(border\.)?movement\.(growth|narrowest|widest|between|outer)_mm"
    r"|laying\.(zones\[\d+\]\.gap_mm|mitre_opens_mm|mitres\[\d+\]\.opens_mm)"
    r"|subframe\.most_centres_mm"
)


def numbers_are_finite(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each number that is none. Nothing else is measured then."""
    for path, value in () if all_finite(plan) else leaves(plan):
        endless = isinstance(value, float) and not isfinite(value)
        if endless or (isinstance(value, Decimal) and not value.is_finite()):
            yield Flaw(subject=path, message="not a finite number", source=LENGTHS)


def lengths_are_exact(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each length that is no whole multiple of 1/320 mm."""
    for part in (*PARTS[:-1], "site", "tiling", *OUTLINED[:3], "tiles", "raised"):
        for path, value in leaves(getattr(plan, part), part):
            exact = isinstance(value, float) and path.endswith("_mm") and not FREE.fullmatch(path)
            if exact and isinstance(value, float) and not on_grid(value):
                message = "no whole multiple of 1/320 mm"
                yield Flaw(subject=path, message=message, measured=value, unit="mm", source=LENGTHS)


def words_are_known(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where schema, units or use are unknown, or the title is empty."""
    known = {
        "schema_version": plan.schema_version == SCHEMA_VERSION,
        "units": plan.units in UNITS,
        "use": plan.use in USES,
        "title": bool(plan.title.strip()),
        "drylay_version": bool(plan.drylay_version.strip()),
    }
    for name, fine in known.items():
        if not fine:
            message = f"unknown or empty: {getattr(plan, name)!r}"
            yield Flaw(subject=name, message=message, source=FILE)


def digests_are_digests(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each digest that is not 64 hex digits."""
    for name, text in (("brief", plan.digests.brief), ("stock", plan.digests.stock)):
        if not HEX.fullmatch(text):
            message = "not 64 hex digits"
            yield Flaw(subject=f"digests.{name}", message=message, source=FILE)


def families_are_named(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where no family is named, or one lacks its id, package or release."""
    if not plan.families:
        message = "no family answered for this plan"
        yield Flaw(subject="families", message=message, source=FILE)
    for index, family in enumerate(plan.families):
        if not all((family.id, family.title, family.package, family.version)):
            message = "a family without id, title, package or release"
            yield Flaw(subject=f"families[{index}]", message=message, source=FILE)


def stops(plan: Plan) -> bool:
    """Return whether the plan itself reports a stop."""
    return any(finding.severity is Severity.STOP for finding in plan.findings)


def blocked_plans_buy_nothing(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a plan with a stop carries an order."""
    if stops(plan) and plan.buying is not None:
        message = "a plan with a stop carries an order"
        yield Flaw(subject="buying", message=message, source=FINDINGS)


def buildable_plans_are_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each part that a plan without a stop lacks."""
    idle = WITHOUT.get(plan.tiling.support, set()) if plan.tiling is not None else set()
    outlined = any(getattr(plan, part) is not None for part in OUTLINED[:3])
    tiled = outlined and plan.tiles is not None
    for part in OUTLINED_TILES if tiled else OUTLINED if outlined else PARTS:
        if not stops(plan) and part not in idle and getattr(plan, part) is None:
            message = "nothing stops this plan, yet this part of it is missing"
            yield Flaw(subject=part, message=message, source=FINDINGS)
    others = ("laying", "subframe", "fixings") if tiled else ()
    for part in (*PARTS[:-2], "tiling", *others):
        if outlined and getattr(plan, part) is not None:
            message = "a deck on an outline has no such part"
            yield Flaw(subject=part, message=message, source=FINDINGS)


def findings_have_a_source(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each finding without code, subject, message or known source."""
    for index, finding in enumerate(plan.findings):
        said = all((finding.code, finding.subject, finding.message, finding.source.title))
        if not said or finding.source.kind not in SOURCE_KINDS:
            message = "a finding without code, subject, message or known source"
            yield Flaw(subject=f"findings[{index}]", message=message, source=FINDINGS)
        if finding.code.startswith("AUD-"):
            message = "codes that begin with AUD- are the audit's own"
            yield Flaw(subject=f"findings[{index}]", message=message, source=FINDINGS)


def findings_quote_the_plan(plan: Plan) -> Iterator[Flaw]:
    """Yield a caution for each figure of a finding that the plan holds nowhere else.

    The saw is set so far to either side: degrees are told without their sign.
    """
    need(plan.buying, "purchase")
    held = _figures(plan) if plan.findings else set()
    for index, finding in enumerate(plan.findings):
        # a local rule works out figures of its own, and its own limit is no number of the plan
        alone = is_local(finding) or finding.code in FREE_FIGURES
        for name in () if alone else ("measured", "limit"):
            figure = getattr(finding, name)
            turned = finding.unit == "degrees" and figure is not None and -figure in held
            if figure is not None and figure not in held and not turned:
                yield Flaw(
                    subject=f"findings[{index}].{name}",
                    message="the plan holds no such figure",
                    measured=figure,
                    unit=finding.unit,
                    source=FINDINGS,
                    severity=Severity.CAUTION,
                )


def _figures(plan: Plan) -> set[float]:
    """Return every figure of the plan but those of its findings; lengths on sale in mm."""
    parts = (getattr(plan, part) for part in (*PARTS, *MORE))
    held = {0.0}
    for value in values(*parts, plan.reasons):
        if isinstance(value, float | int | Decimal):
            held.add(float(value))
    if plan.surface is not None:
        held |= {tick / PER_MM for room in gap_rooms(plan.surface).values() for tick in room}
    for purchase in plan.buying.purchases if plan.buying is not None else ():
        held |= {stock.length / PER_MM for stock in purchase.proof.task.stock}
    return held


def not_checked_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a plan says nothing of what was not checked."""
    if not plan.not_checked or not all(text.strip() for text in plan.not_checked):
        message = "a plan says what was not checked"
        yield Flaw(subject="not_checked", message=message, source=FINDINGS)


def overrides_are_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each override that stands in the reasons, but not among the findings."""
    told = {finding.subject for finding in plan.findings if finding.code == "OVR-001"}
    for decision in plan.reasons.decisions:
        if decision.source.kind == "named person's override" and decision.path not in told:
            message = "an override that no finding tells"
            yield Flaw(subject=decision.path, message=message, source=FINDINGS)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-002", "lengths are whole multiples of 1/320 mm", lengths_are_exact),
    ("AUD-003", "schema, units, use and title are known", words_are_known),
    ("AUD-004", "digests are SHA-256", digests_are_digests),
    ("AUD-005", "families are named with their release", families_are_named),
    ("AUD-006", "a blocked plan carries no order", blocked_plans_buy_nothing),
    ("AUD-007", "a buildable plan has all its parts", buildable_plans_are_whole),
    ("AUD-008", "findings say what, where and who says so", findings_have_a_source),
    ("AUD-009", "findings quote the plan's own figures", findings_quote_the_plan),
    ("AUD-010", "a plan says what was not checked", not_checked_is_told),
    ("AUD-011", "every override stands among the findings", overrides_are_told),
)
