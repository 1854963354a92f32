"""Corners out of tapes: least squares, every tape held against the others, the wrong one named."""

from collections.abc import Iterator, Sequence
from math import inf

from attrs import evolve

from drylay.counting import counted
from drylay.findings import Finding
from drylay.survey.blame import Judged, judged, named_by_slip, tells_apart
from drylay.survey.chances import bar_ratio, chi_square_most
from drylay.survey.faults import refuse, tapes_fit
from drylay.survey.fit_findings import (
    ambiguous,
    disagree,
    flat,
    impossible,
    loose,
    named,
    unheld,
    unsquare,
    untested,
    weak,
)
from drylay.survey.model import Corner, Fit, Tape, TapeCheck, Verdict
from drylay.survey.network import Net, Solved, apart, is_rigid, without
from drylay.survey.rounding import part, tenth, tenth_up
from drylay.survey.settled import settled, settled_without
from drylay.survey.shape import angles_of, tapers_of
from drylay.survey.slips import slips_of
from drylay.survey.sources import ACCURACY_MM, COVERAGE, MISFIT_MM, SNOOP
from drylay.survey.start import line_told, longest_beyond

#: A tape that the others check less than this is not held against them.
CHECKED = 1e-6


@counted
def fit_tapes(
    corners: Sequence[str],
    tapes: Sequence[Tape],
    *,
    accuracy_mm: float = ACCURACY_MM,
    outline: Sequence[str] = (),
) -> Fit:
    """Return corners fitted to tapes by least squares, with error bars, and which tape is wrong.

    `corners` names all corners, the first at the origin; the first tape in the list that begins or
    ends there lies along. `outline` names those of the outline in order round, all where left out.
    It lies across from its side along, and is told turning from along towards across.
    `accuracy_mm` is one standard deviation of tapes that tell none (assumption: 3 mm). Bars hold 95
    of 100 by the accuracy told, and are widened, never narrowed, where residuals show the tapes
    to be worse.

    Nothing is taken for straight or square. With no measure to spare nothing is tested. With one
    to spare, statistics cannot tell which is wrong: all tapes fit equally badly. The one is named
    that a usual slip explains, if there is only one such; else the one more measure is told that
    decides. With more to spare the wrong one is found by its residual (Baarda 1968, from
    memory) and left out, where the rest then agree.

    Raises:
        InputError: Names, lengths or accuracies that cannot be meant, all of them.
    """
    ring = tuple(outline) or tuple(corners)
    refuse(tapes_fit(corners, tapes, accuracy_mm, ring))
    net = _net(corners, tapes, accuracy_mm, ring)
    names = tuple(corners)
    if not is_rigid(net.count, net.lines):
        return _loose(net, names)
    return _fitted(net, names)


def _net(
    corners: Sequence[str], tapes: Sequence[Tape], accuracy_mm: float, ring: Sequence[str]
) -> Net:
    number = {name: at for at, name in enumerate(corners)}
    first = next(tape for tape in tapes if corners[0] in (tape.start, tape.end))
    base = number[first.end if first.start == corners[0] else first.start]
    return Net(
        count=len(corners),
        base=base,
        lines=tuple((number[tape.start], number[tape.end]) for tape in tapes),
        long=tuple(float(tape.length_mm) for tape in tapes),
        sigma=tuple(
            float(accuracy_mm if tape.accuracy_mm is None else tape.accuracy_mm) for tape in tapes
        ),
        ring=_round(tuple(number[name] for name in ring), base),
    )


def _round(ring: tuple[int, ...], base: int) -> tuple[int, ...]:
    """Return an outline the way round that leaves it on the across side of its side along."""
    if 0 not in ring:
        return ring
    at = ring.index(0)
    ring = ring[at:] + ring[:at]
    return (0, *ring[:0:-1]) if base == ring[-1] else ring


def _loose(net: Net, names: tuple[str, ...]) -> Fit:
    count = len(net.lines)
    return Fit(
        corners=(),
        tapes=tuple(_check(net, names, at, None, None) for at in range(count)),
        verdict=_verdict(count - 2 * net.count + 3, None, None, None),
        outline=tuple(names[at] for at in net.ring),
        findings=(loose(net, names),),
    )


def _fitted(net: Net, names: tuple[str, ...]) -> Fit:
    count = len(net.lines)
    best = settled(net)
    solved = best.solved if best else None
    alone = tuple(settled_without(net, at) for at in range(count))
    beyond = longest_beyond(net)
    spare = count - 2 * net.count + 3
    checks = tuple(_check(net, names, at, solved, alone[at]) for at in range(count))
    verdict = _verdict(spare, solved, _misfit(checks, spare), beyond)
    if spare > 1 and _stands_out(checks):
        verdict = evolve(verdict, agrees=False)
    found = judged(net, alone, checks, verdict, beyond)
    final, final_net = (solved, net)
    if found.left_out is not None:
        final, final_net = alone[found.left_out], without(net, found.left_out)
        checks = _marked_out(checks, found.left_out, net, final)
    if final is None or (beyond is not None and found.left_out is None):
        final = None
        checks = tuple(_unfitted(check, sigma) for check, sigma in
                       zip(checks, net.sigma, strict=True))  # fmt: skip
    wrong = tuple(line_told(net.lines[at], names) for at in found.wrong)
    verdict = evolve(verdict, wrong=wrong)
    if beyond is not None:
        verdict = evolve(verdict, chi_square_ratio=None, scale_ratio=None)
    ring = tuple(names[at] for at in net.ring)
    fit = Fit(corners=(), tapes=checks, verdict=verdict, outline=ring)
    if len(found.suspects) > 1:
        fit = evolve(fit, next_measure=tells_apart(net, names, alone, found.suspects))
    if final is not None:
        fit = _placed(fit, final_net, names, final)
    told = tuple(_findings(fit, net, names, found, beyond, others=bool(best and best.others)))
    return evolve(fit, findings=told)


def _check(
    net: Net, names: tuple[str, ...], at: int, solved: Solved | None, alone: Solved | None
) -> TapeCheck:
    start, end = net.lines[at]
    off = float(solved.residuals[at]) if solved else None
    implied, bar = _implied(net, at, alone)
    spare = float(solved.spare[at]) if solved else 0.0
    ratio = off / (net.sigma[at] * spare**0.5) if off is not None and spare > CHECKED else None
    return TapeCheck(
        start=names[start],
        end=names[end],
        measured_mm=net.long[at],
        fitted_mm=None if off is None else tenth(net.long[at] + off),
        residual_mm=None if off is None else tenth(off),
        spare_ratio=part(spare),
        standardised_ratio=None if ratio is None else part(ratio),
        implied_mm=None if implied is None else tenth(implied),
        difference_mm=None if implied is None else tenth(net.long[at] - implied),
        bar_mm=None if bar is None else tenth_up(bar),
        slips=() if implied is None or bar is None else slips_of(net.long[at], implied, bar),
    )


def _unfitted(check: TapeCheck, sigma_mm: float) -> TapeCheck:
    """Return a check of tapes that no shape fits: only what the others make of it is known."""
    known = bar_ratio(COVERAGE) * sigma_mm / check.bar_mm if check.bar_mm else 0.0
    return evolve(
        check, fitted_mm=None, residual_mm=None, standardised_ratio=None,
        spare_ratio=part(min(1.0, known**2)),
    )  # fmt: skip


def _implied(net: Net, at: int, alone: Solved | None) -> tuple[float | None, float | None]:
    if alone is None:
        return None, None
    long, sigma = apart(alone, net.lines[at])
    return long, bar_ratio(COVERAGE) * (sigma**2 + net.sigma[at] ** 2) ** 0.5


def _marked_out(
    checks: tuple[TapeCheck, ...], out: int, net: Net, final: Solved | None
) -> tuple[TapeCheck, ...]:
    """Return the checks with one tape left out, residuals those of the others by themselves."""
    if final is None:
        return checks
    told = []
    for at, check in enumerate(checks):
        off = apart(final, net.lines[at])[0] - net.long[at]
        fitted = evolve(check, fitted_mm=tenth(net.long[at] + off), residual_mm=tenth(off))
        told.append(evolve(fitted, left_out=True) if at == out else fitted)
    return tuple(told)


def _misfit(checks: tuple[TapeCheck, ...], spare: int) -> float | None:
    """Return the difference that no single tape undercuts, or with more to spare the worst."""
    if spare == 1:
        return min(
            (abs(c.difference_mm) for c in checks if c.difference_mm is not None), default=None
        )
    offs = [abs(check.residual_mm) for check in checks if check.residual_mm is not None]
    return max(offs, default=None) if spare > 1 else None


def _verdict(
    spare: int,
    solved: Solved | None,
    misfit_mm: float | None,
    beyond: tuple[int, float, tuple[int, ...]] | None,
) -> Verdict:
    tested = spare > 0 and solved is not None
    chi = part(solved.chi) if tested and solved else None
    most = part(chi_square_most(spare, COVERAGE)) if spare > 0 else None
    agrees = None
    if beyond is not None:
        agrees = False
    elif spare > 0:
        agrees = bool(
            chi is not None
            and most is not None
            and chi <= most
            and (inf if misfit_mm is None else misfit_mm) <= MISFIT_MM
        )
    return Verdict(
        spare=spare,
        agrees=agrees,
        misfit_mm=misfit_mm,
        misfit_most_mm=MISFIT_MM,
        chi_square_ratio=chi,
        chi_square_most_ratio=most,
        scale_ratio=part((solved.chi / spare) ** 0.5) if tested and solved else None,
    )


def _placed(fit: Fit, net: Net, names: tuple[str, ...], solved: Solved) -> Fit:
    """Return a fit with its corners, angles and tapers."""
    spare = len(net.lines) - 2 * net.count + 3
    wide = bar_ratio(COVERAGE) * max(1.0, (solved.chi / spare) ** 0.5 if spare > 0 else 1.0)
    sigma = solved.spread.diagonal().clip(0.0) ** 0.5
    corners = tuple(
        Corner(
            name=name,
            along_mm=tenth(float(solved.places[at][0])),
            across_mm=tenth(float(solved.places[at][1])),
            standard_along_mm=tenth_up(float(sigma[2 * at])),
            standard_across_mm=tenth_up(float(sigma[2 * at + 1])),
            error_along_mm=tenth_up(wide * float(sigma[2 * at])),
            error_across_mm=tenth_up(wide * float(sigma[2 * at + 1])),
        )
        for at, name in enumerate(names)
    )
    return evolve(
        fit,
        corners=corners,
        angles=angles_of(net, names, solved, wide),
        tapers=tapers_of(net, names, solved, wide),
    )


def _is_weak(fit: Fit) -> bool:
    """Whether tapes miss each other by more than their accuracy, but no one of them stands out."""
    misfit_mm = fit.verdict.misfit_mm
    clear = fit.verdict.spare > 1 and _stands_out(fit.tapes)
    return misfit_mm is not None and misfit_mm <= MISFIT_MM and not clear


def _stands_out(checks: Sequence[TapeCheck]) -> bool:
    return any(abs(check.standardised_ratio or 0.0) > SNOOP for check in checks)


def _findings(
    fit: Fit, net: Net, names: tuple[str, ...], found: Judged,
    beyond: tuple[int, float, tuple[int, ...]] | None, *, others: bool,
) -> Iterator[Finding]:  # fmt: skip
    if beyond is None and not fit.corners:
        yield flat(fit)
    elif fit.verdict.spare == 0:
        yield untested(fit)
    elif beyond is None:
        yield from unheld(fit)
    if beyond is not None:
        yield impossible(net, names, beyond, stops=found.left_out is None)
    if found.left_out is not None or (len(found.wrong) == 1 and not fit.verdict.agrees):
        yield named(fit, found, by_slip=named_by_slip(fit.tapes, found))
    elif fit.verdict.agrees is False:
        yield weak(fit) if beyond is None and _is_weak(fit) else disagree(fit, found)
    if others:
        yield ambiguous()
    if fit.verdict.agrees is not False or found.left_out is not None:
        yield from unsquare(fit)
