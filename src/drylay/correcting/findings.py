"""What a correction has to say: COR- findings, each with its figure."""

from collections.abc import Iterator

from drylay.correcting.chance import tenth
from drylay.correcting.checked import expected_mm, rows_that_fit
from drylay.correcting.model import Correction, EndForecast, EndLaid, LaidSoFar
from drylay.correcting.ways_back import FINISH_MM, out_mm
from drylay.findings import Finding, Severity
from drylay.reasons import Source

PRACTICE = Source(kind="common practice", title="common practice, no source")
SUM = Source(kind="arithmetic", title="docs/correcting.md", clause="Gaps")
NORMAL = Source(kind="arithmetic", title="docs/correcting.md", clause="Forecast")
OURS = Source(kind="assumption", title="docs/correcting.md", clause="Impossible readings")
#: By how much ten boards may differ from the plan before it matters, as work's hold point has it.
WIDTH_MM = 0.5


def findings_of(laid: LaidSoFar, found: Correction) -> tuple[Finding, ...]:
    """Return what is to be told of a correction, cautions first."""
    ends = (("left", laid.left, found.left), ("right", laid.right, found.right))
    cautions: list[Finding] = []
    notes: list[Finding] = []
    for name, end, forecast in ends:
        cautions += [*_out(laid, found, name, forecast), *_miscounted(laid, name, end)]
        notes += [_finish(laid, name, forecast)]
    return (*cautions, *_fixed(laid), *_fan(laid, found), *_wide(found), *notes,
            *_when(laid, found))  # fmt: skip


def _out(laid: LaidSoFar, found: Correction, name: str, end: EndForecast) -> Iterator[Finding]:
    """Yield where gaps within their limits do not bring an end in."""
    out = out_mm(laid, end)
    if not out:
        return
    side = "beyond" if out > 0 else "short of"
    honest = [way.told for way in found.ways_back if way.honest]
    others = [way.told for way in found.ways_back if not way.honest]
    ways = f"; ways back: {'; or '.join(honest)}" if honest else ""
    ways = ways or (f"; no way back keeps every limit: {'; '.join(others)}" if others else "")
    yield Finding(
        code="COR-001",
        severity=Severity.CAUTION if abs(out) > FINISH_MM else Severity.NOTE,
        subject=f"{name} end",
        message=f"gaps within their limits leave the last row {tenth(abs(out)):g} mm {side} its "
        f"edge{ways}",
        measured=abs(out),
        limit=FINISH_MM,
        unit="mm",
        source=SUM,
    )


def _miscounted(laid: LaidSoFar, name: str, end: EndLaid) -> Iterator[Finding]:
    """Yield where another row count fits an edge better than the one told."""
    fits = rows_that_fit(laid, end)
    if fits != laid.rows_laid:
        yield Finding(
            code="COR-002",
            severity=Severity.CAUTION,
            subject=f"{name} end",
            message=f"row count wrong? {fits} rows fit this edge better, at "
            f"{expected_mm(laid, end, fits):g} mm; count before the next row is fixed",
            measured=end.edge_mm,
            limit=expected_mm(laid, end, laid.rows_laid),
            unit="mm",
            source=OURS,
        )


def _finish(laid: LaidSoFar, name: str, end: EndForecast) -> Finding:
    rule, alone = end.by_rule, end.as_set
    how = "measured before each of the last four, these laid tight and measured together"
    if laid.rip_planned:
        how = "its last row ripped to what is left"
    elif laid.gaps_fixed:
        how = "clips leaving no gap to set"
    return Finding(
        code="COR-003",
        severity=Severity.NOTE,
        subject=f"{name} end",
        message=f"the last edge is expected at {rule.expected_mm:.1f} mm; {how}, sd "
        f"{rule.sd_mm:g} mm: within 1 mm with {_per_cent(rule.within_1_ratio)}, within 2 with "
        f"{_per_cent(rule.within_2_ratio)}; measured no more, sd {alone.sd_mm:g} mm: "
        f"{_per_cent(alone.within_1_ratio)} and {_per_cent(alone.within_2_ratio)}"
        f"{'' if laid.rip_planned or laid.gaps_fixed else _limits_told(end)}",
        measured=rule.sd_mm,
        limit=FINISH_MM,
        unit="mm",
        source=NORMAL,
    )


def _limits_told(end: EndForecast) -> str:
    """Return with what chance gaps do it; where a rip or clips do, they have no say."""
    return f"; gaps within their limits bring it in with {_per_cent(end.limits_ratio)}"


def _per_cent(chance: float) -> str:
    """Return a chance in words; what is rounded down to nothing is not told as none."""
    return f"{100 * chance:.1f} %" if chance else "less than 0.1 %"


def _fan(laid: LaidSoFar, found: Correction) -> Iterator[Finding]:
    apart = laid.left.edge_mm - laid.right.edge_mm
    apart -= laid.left.target_mm - laid.right.target_mm
    if abs(apart) > laid.step_mm / 2 and not laid.gaps_fixed:
        yield Finding(
            code="COR-004",
            severity=Severity.NOTE,
            subject="rows left",
            message=f"the two ends lie {tenth(abs(apart)):g} mm apart of each other: the "
            f"{found.rows_left} rows left fan, their gaps set unlike at either end",
            measured=tenth(abs(apart)),
            limit=FINISH_MM,
            unit="mm",
            source=SUM,
        )


def _wide(found: Correction) -> Iterator[Finding]:
    more = max(found.left.more_mm, found.right.more_mm, key=abs)
    if abs(more) > WIDTH_MM:
        yield Finding(
            code="COR-005",
            severity=Severity.CAUTION,
            subject="rows left",
            message=f"a board takes {tenth(abs(more)):g} mm {'more' if more > 0 else 'less'} than "
            f"planned, as {_told(found.board_takes)}; gaps left are set for that",
            measured=abs(more),
            limit=WIDTH_MM,
            unit="mm",
            source=PRACTICE,
        )


def _told(board_takes: str) -> str:
    return {
        "boards laid tight": "the last boards measured together tell",
        "boards measured": "the boards measured tell",
        "rows laid": "the rows that lie tell",
    }.get(board_takes, "the plan tells")


def _fixed(laid: LaidSoFar) -> Iterator[Finding]:
    if laid.gaps_fixed:
        yield Finding(
            code="COR-006",
            severity=Severity.CAUTION,
            subject="rows left",
            message="clips fix the gaps: no gap can make up for anything; measure the boards' "
            "widths, see that every row is home, and rip the last row to what is left",
            source=PRACTICE,
        )


def _when(laid: LaidSoFar, found: Correction) -> Iterator[Finding]:
    """Yield when to measure next."""
    if not found.checks:
        return
    after = ", ".join(str(row) for row in found.checks)
    last = "lay the last four tight, measure them together, then set their gaps"
    if laid.gaps_fixed or laid.rip_planned:
        last = "measure what is left at both ends before the last board is sawn"
    yield Finding(
        code="COR-007",
        severity=Severity.NOTE,
        subject="rows left",
        message=f"measure at both ends after row {after}; {last}",
        measured=float(found.checks[0]),
        unit="row",
        source=PRACTICE,
    )
