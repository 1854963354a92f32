"""What is told of tapes that do not agree, that leave a shape loose, or that are tested by none."""

from collections.abc import Iterator
from itertools import combinations

from drylay.findings import Finding, Severity
from drylay.survey.blame import Judged
from drylay.survey.model import Fit, NextMeasure, TapeCheck
from drylay.survey.network import Net, is_rigid
from drylay.survey.rounding import tenth_up
from drylay.survey.sources import BAARDA, CHI, MISFIT_MM, PRACTICE, SUM, TAPER_MM
from drylay.survey.start import line_told, lines_told

#: So many single measures that would hold a loose shape are named.
MOST_NAMED = 3
#: A corner further off square than this is meant so. Assumption.
MEANT_DEG = 10.0


def loose(net: Net, names: tuple[str, ...]) -> Finding:
    """Return the stop for tapes that leave corners free to swing."""
    taped = {frozenset(line) for line in net.lines}
    more = [line for line in combinations(range(net.count), 2) if frozenset(line) not in taped]
    enough = [line for line in more if is_rigid(net.count, (*net.lines, line))]
    told = f"measure {' or '.join(line_told(line, names) for line in enough[:MOST_NAMED])}"
    if not enough:
        hanging = [names[at] for at in range(net.count)
                   if sum(at in line for line in net.lines) < 2]  # fmt: skip
        told = "measure more diagonals"
        told += f"; fewer than two tapes reach {', '.join(hanging)}" if hanging else ""
    return Finding(
        code="SVY-005", severity=Severity.STOP, subject="tapes",
        message=f"the tapes do not hold the shape: it can still swing; {told}",
        measured=float(len(net.lines)), limit=float(2 * net.count - 3), unit="tapes", source=SUM,
    )  # fmt: skip


def impossible(
    net: Net, names: tuple[str, ...], beyond: tuple[int, float, tuple[int, ...]], *, stops: bool
) -> Finding:
    """Return what is told of a tape longer than the way round by others."""
    at, over, way = beyond
    return Finding(
        code="SVY-006",
        severity=Severity.STOP if stops else Severity.CAUTION,
        subject=line_told(net.lines[at], names),
        message=f"longer than the way round by {lines_told(net, names, way)}, by "
        f"{tenth_up(over):g} mm: no such shape exists, one of these measures is wrong",
        measured=net.long[at],
        limit=sum(net.long[each] for each in way),
        unit="mm",
        source=SUM,
    )


def flat(fit: Fit) -> Finding:
    """Return the stop for tapes that hold a shape which cannot be worked out from them."""
    return Finding(
        code="SVY-010", severity=Severity.STOP, subject="tapes",
        message="no shape comes of these tapes: its corners lie all but in one line, or two tapes "
        "do not reach each from corners already laid out; measure more diagonals, or tie the "
        "corners to a peg well off the line",
        measured=float(len(fit.tapes)), unit="tapes", source=SUM,
    )  # fmt: skip


def untested(fit: Fit) -> Finding:
    """Return the note that nothing is tested."""
    return Finding(
        code="SVY-004", severity=Severity.CAUTION, subject="tapes",
        message=f"{len(fit.tapes)} tapes just fix the shape, none is to spare: nothing is tested, "
        "a wrong measure would not be seen; measure one more diagonal",
        measured=0.0, limit=1.0, unit="tapes to spare", source=SUM,
    )  # fmt: skip


def unheld(fit: Fit) -> Iterator[Finding]:
    """Yield which tapes nothing tests, where the tapes to spare all test others."""
    lone = [f"{tape.start}-{tape.end}" for tape in fit.tapes if tape.implied_mm is None]
    if lone and len(lone) < len(fit.tapes):
        yield Finding(
            code="SVY-011", severity=Severity.CAUTION, subject="tapes",
            message=f"no other tape tests {', '.join(lone)}: a wrong measure there would not be "
            "seen; measure one more diagonal to their corners",
            measured=float(len(lone)), limit=0.0, unit="tapes", source=SUM,
        )  # fmt: skip


def disagree(fit: Fit, found: Judged) -> Finding:
    """Return the stop for tapes of which one is wrong, nobody knows which."""
    verdict = fit.verdict
    which = "one is wrong of" if not found.several else "more than one is wrong, look at"
    if verdict.spare == 1 and any(fit.tapes[at].slips for at in found.wrong):
        which = "one is wrong, first look at those that a usual slip explains:"
    names = ", ".join(_candidate(fit.tapes[at]) for at in found.wrong)
    return Finding(
        code="SVY-001", severity=Severity.STOP, subject="tapes",
        message=f"the tapes do not agree, {which} {names}{next_told(fit.next_measure)}",
        measured=verdict.misfit_mm, limit=MISFIT_MM, unit="mm", source=PRACTICE,
    )  # fmt: skip


def weak(fit: Fit) -> Finding:
    """Return the caution for tapes that agree less well than their accuracy promises."""
    return Finding(
        code="SVY-002", severity=Severity.CAUTION, subject="tapes",
        message="the tapes agree less well than the accuracy told for them: error bars are widened"
        f"{next_told(fit.next_measure)}",
        measured=fit.verdict.chi_square_ratio, limit=fit.verdict.chi_square_most_ratio,
        unit="sum of squares", source=CHI,
    )  # fmt: skip


def named(fit: Fit, found: Judged, *, by_slip: bool) -> Finding:
    """Return what is told of the one tape that is wrong."""
    tape = fit.tapes[found.wrong[0]]
    how = "it alone is explained by a usual slip" if by_slip else "only it explains all"
    left = "; it is left out" if tape.left_out else ""
    again = "; measure it again"
    if fit.next_measure is not None:
        again += f", and if it reads the same{next_told(fit.next_measure).replace(';', '', 1)}"
    severity = Severity.CAUTION if tape.left_out else Severity.STOP
    return Finding(
        code="SVY-003", severity=severity, subject=f"{tape.start}-{tape.end}",
        message=f"this measure looks wrong, {how}: {_candidate(tape)}{left}{again}",
        measured=tape.measured_mm, limit=tape.implied_mm, unit="mm",
        source=PRACTICE if by_slip else BAARDA if tape.left_out else SUM,
    )  # fmt: skip


def ambiguous() -> Finding:
    """Return the caution that the tapes fit another shape as well."""
    return Finding(
        code="SVY-009", severity=Severity.CAUTION, subject="tapes",
        message="the tapes fit another shape as well, with a corner on the other side of a "
        "diagonal: the shape with the fewest corners pointing inwards is taken; look whether it is "
        "yours",
        source=SUM,
    )  # fmt: skip


def unsquare(fit: Fit) -> Iterator[Finding]:
    """Yield every corner that is surely off square, and every side that tapers much."""
    for corner in fit.angles:
        straight = round((corner.angle_deg - corner.off_square_deg) / 90.0) % 4
        off, what = abs(corner.off_square_deg), "line" if straight == 2 else "square"
        if straight and corner.error_deg < off <= MEANT_DEG:
            yield Finding(
                code="SVY-008", severity=Severity.NOTE, subject=f"corner {corner.corner}",
                message=f"out of {what}, {abs(corner.off_mm):g} mm over its shorter side",
                measured=corner.angle_deg, limit=round(corner.angle_deg - corner.off_square_deg, 3),
                unit="deg", source=SUM,
            )  # fmt: skip
    for side in fit.tapers:
        if abs(side.taper_mm) > TAPER_MM:
            yield Finding(
                code="SVY-007", severity=Severity.CAUTION, subject=f"side {side.side}",
                message="runs off from the house: rows laid parallel to the house meet it askew",
                measured=abs(side.taper_mm), limit=TAPER_MM, unit="mm", source=PRACTICE,
            )  # fmt: skip


def _candidate(tape: TapeCheck) -> str:
    """Return a tape with what it reads, what the others make of it, and a slip that explains it."""
    told = f"{tape.start}-{tape.end} {tape.measured_mm:g}"
    if tape.implied_mm is not None:
        told += f" (others say {tape.implied_mm:g}"
        told += f"; {tape.slips[0].told}: {tape.slips[0].should_be_mm:g}?" if tape.slips else ""
        told += ")"
    return told


def next_told(measure: NextMeasure | None) -> str:
    """Return the one more measure in words, "" where there is none."""
    if measure is None:
        return ""
    readings = ", ".join(f"{one.length_mm:g} if {one.wrong} is wrong" for one in measure.readings)
    return f"; measure {measure.told}: {readings}"
