"""The reasons of what is decided while laying; those of an earlier reading are replaced."""

from attrs import evolve

from drylay.correcting.model import Laid
from drylay.plan.model import Plan
from drylay.planner.rows import PRACTICE, Row, row
from drylay.reasons import Reasons, Source, adopt

READ = Source(kind="brief", title="what was measured while laying", clause="readings")
CONVENTIONS = Source(kind="arithmetic", title="docs/correcting.md", clause="Gaps")
ASSUMED = Source(kind="assumption", title="docs/correcting.md", clause="Tolerances")
TOLD = Source(kind="brief", title="tolerances told by the caller")


def with_reasons(plan: Plan, *, told: bool) -> Plan:
    """Return a plan with the decisions of its last reading; `told`: tolerances were handed over."""
    assert plan.laid is not None
    kept = tuple(d for d in plan.reasons.decisions if not d.path.startswith("laid."))
    reasons = Reasons(decisions=kept)
    for path, value, ruling, turned_down in _rows(plan, plan.laid, told=told):
        reasons = adopt(reasons, path, value, ruling, turned_down)
    return evolve(plan, reasons=reasons)


def _rows(plan: Plan, laid: Laid, *, told: bool) -> list[Row]:
    assert plan.surface is not None
    its = laid.tolerances
    spread = f"board {its.width_mm:g} mm, batch {its.batch_mm:g}, gap {its.gap_mm:g}, "
    spread += f"spacer {its.spacer_mm:g}, tape {its.tape_mm:g}, as sd"
    measured = any(entry.reading.row_length_mm is not None for entry in laid.readings)
    return [
        row("laid.readings", f"after row {laid.rows_laid}", "", "edges measured at both ends",
            READ, (("rows_laid", laid.rows_laid),)),
        row("laid.target_mm", laid.target_mm, "mm",
            "the cover's far edge, or where the frame was measured to end", CONVENTIONS,
            (("rows_depth_mm", plan.surface.rows_depth_mm),)),
        row("laid.row_length_mm", laid.row_length_mm, "mm",
            "as measured on the frame" if measured else "as planned",
            READ if measured else CONVENTIONS),
        row("laid.board_takes", laid.board_takes, "",
            "boards laid tight and measured; else ten measured, or all left; else what the rows "
            "took, after five; else the plan's width", CONVENTIONS),
        row("laid.most_change_mm", laid.most_change_mm, "mm",
            "gaps share what is left, in whole steps, none further from the one before", PRACTICE,
            (("step_mm", laid.step_mm),)),
        row("laid.tolerances", spread, "", "how true the work is", TOLD if told else ASSUMED),
    ]  # fmt: skip
