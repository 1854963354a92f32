"""The audit: measures a finished plan again and says what it found, ran and trusted."""

from collections.abc import Iterator

from drylay.audit import (
    board_asks,
    border,
    carried,
    clips,
    coats,
    cutting,
    days,
    edges,
    fixings,
    footings,
    frame,
    ground,
    guard_posts_asked,
    guard_posts_checks,
    guards_seen,
    holding,
    joint_support,
    laid,
    local,
    money,
    outlined_air,
    outlined_checks,
    outlined_ground,
    outlined_stands,
    outlined_tile_checks,
    outlined_tile_seen,
    outlined_witnessed,
    outlined_work,
    packs,
    pieces,
    proofs,
    raised_apart,
    raised_held,
    raised_hung,
    raised_lengths,
    raised_levels,
    raised_places,
    reasons,
    rows,
    site,
    standing_seen,
    steps_seen,
    strength_asked,
    strength_checks,
    strength_cover,
    strength_loose,
    strength_sag,
    supports,
    tasks,
    tile_ways,
    tiles,
    wax,
    ways,
    whole,
    whole_packs,
    witnessed,
    work,
)
from drylay.audit.flaws import NothingToMeasure, conventions
from drylay.audit.leaves import all_finite
from drylay.audit.model import AuditReport, ClosedCheck, Flaw, NotRun, Witness, WitnessedCheck
from drylay.audit.trust import trusted
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan

#: Runs before all others: where a number is not finite, nothing can be measured.
FIRST = ("AUD-001", "every number is finite", whole.numbers_are_finite)

#: Every closed check: its code, its title, the function that runs it.
CLOSED: tuple[tuple[str, str, ClosedCheck], ...] = (
    FIRST,
    *whole.CHECKS,
    *local.CHECKS,
    *rows.CHECKS,
    *laid.CHECKS,
    *ways.CHECKS,
    *border.CHECKS,
    *board_asks.CHECKS,
    *edges.CHECKS,
    *supports.CHECKS,
    *pieces.CHECKS,
    *frame.CHECKS,
    *joint_support.CHECKS,
    *fixings.CHECKS,
    *clips.CHECKS,
    *days.CHECKS,
    *holding.CHECKS,
    *coats.CHECKS,
    *wax.CHECKS,
    *site.CHECKS,
    *ground.CHECKS,
    *work.CHECKS,
    *tiles.CHECKS,
    *tile_ways.CHECKS,
    *carried.CHECKS,
    *outlined_checks.CHECKS,
    *outlined_tile_checks.CHECKS,
    *outlined_ground.CHECKS,
    *outlined_air.CHECKS,
    *outlined_work.CHECKS,
    *cutting.CHECKS,
    *money.CHECKS,
    *whole_packs.CHECKS,
    *packs.CHECKS,
    *tasks.CHECKS,
    *proofs.CHECKS,
    *reasons.CHECKS,
    *raised_levels.CHECKS,
    *raised_places.CHECKS,
    *raised_held.CHECKS,
    *raised_hung.CHECKS,
    *raised_apart.CHECKS,
    *raised_lengths.CHECKS,
    *strength_asked.CHECKS,
    *strength_checks.CHECKS,
    *strength_sag.CHECKS,
    *strength_cover.CHECKS,
    *strength_loose.CHECKS,
    *footings.CHECKS,
    *guards_seen.CHECKS,
    *guard_posts_asked.CHECKS,
    *guard_posts_checks.CHECKS,
    *steps_seen.CHECKS,
    *outlined_stands.CHECKS,
)

#: Every check that needs a witness, in the same shape.
WITNESSED = (
    *witnessed.CHECKS,
    *whole_packs.WITNESSED,
    *outlined_witnessed.CHECKS,
    *outlined_tile_seen.CHECKS,
    *standing_seen.CHECKS,
)


def audit_plan(plan: Plan, *, witness: Witness | None = None) -> AuditReport:
    """Return what measuring a plan again shows; with a witness, its limits and prices too.

    Never raises for a plan of the right types, whatever its numbers: a check that cannot
    cope is itself reported, as AUD-000.
    """
    checks = _checks(plan, witness)
    findings: list[Finding] = []
    not_run: list[NotRun] = []
    for code, title, check in checks:
        try:
            findings += [_finding(code, flaw) for flaw in check(plan)]
        except NothingToMeasure as nothing:
            not_run.append(NotRun(code=code, because=str(nothing)))
        except Exception as trouble:
            findings.append(_broken(code, title, trouble))
    idle = {check.code for check in not_run}
    return AuditReport(
        audit="closed" if witness is None else "witnessed",
        witnesses=_names(witness),
        checks=tuple(code for code, _title, _check in checks if code not in idle),
        not_run=tuple(not_run),
        findings=tuple(findings),
        trusted=trusted(plan, witness),
    )


def _checks(plan: Plan, witness: Witness | None) -> list[tuple[str, str, ClosedCheck]]:
    """Return the checks to run: only the first where a number is not finite."""
    if not all_finite(plan):
        return [FIRST]
    seen = witness or Witness()
    held = [(code, title, _holding(check, seen)) for code, title, check in WITNESSED]
    return [*CLOSED, *(held if witness is not None else ())]


def _holding(check: WitnessedCheck, witness: Witness) -> ClosedCheck:
    return lambda plan: check(plan, witness)


def _finding(code: str, flaw: Flaw) -> Finding:
    return Finding(
        code=code,
        severity=flaw.severity,
        subject=flaw.subject,
        message=flaw.message,
        measured=flaw.measured,
        limit=flaw.limit,
        unit=flaw.unit,
        source=flaw.source,
    )


def _broken(code: str, title: str, trouble: Exception) -> Finding:
    """Return what is said of a check that could not cope with the plan."""
    return Finding(
        code="AUD-000",
        severity=Severity.STOP,
        subject=code,
        message=f"could not check that {title}: {type(trouble).__name__}: {trouble}",
        source=conventions("Findings"),
    )


def _names(witness: Witness | None) -> tuple[str, ...]:
    if witness is None:
        return ()
    parts: Iterator[tuple[str, object]] = iter(
        (
            ("brief", witness.brief),
            ("stock", witness.stock),
            ("families", witness.rulings),
            ("local rules", witness.local_findings),
            ("digest of the brief", witness.brief_digest),
            ("digest of the stock", witness.stock_digest),
        )
    )
    return tuple(name for name, part in parts if part is not None)
