"""Tapes for tests, told shortly: "AB": 4000."""

from drylay.survey.model import Fit, Tape, TapeCheck
from drylay.survey.tapes import fit_tapes


def tapes(**long: float) -> tuple[Tape, ...]:
    return tuple(Tape(start=n[0], end=n[1], length_mm=mm) for n, mm in long.items())


def quad(**long: float) -> Fit:
    return fit_tapes("ABCD", tapes(**long), accuracy_mm=3.0)


def check(fit: Fit, name: str) -> TapeCheck:
    return next(each for each in fit.tapes if each.start + each.end == name)


def codes(fit: Fit) -> list[str]:
    return [f"{finding.severity.value} {finding.code}" for finding in fit.findings]
