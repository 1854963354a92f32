"""How far joists and bearers go down, by virtual work: what is stated may not lie below it.

Only where checks quote the stiffness of the wood, as those of EN 1995-1-1 do.
"""

from collections.abc import Iterator
from itertools import pairwise

from attrs import frozen

from drylay.audit.exact import PER_MM
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.statics import Felt, each_part_alone, felt, moment_at, parts_of, shear_beside
from drylay.audit.strength_asked import STRENGTH, beam_named, strength_of
from drylay.audit.strength_checks import NOISE, SLACK, figures, loads_on, stands
from drylay.audit.strength_effects import SHAPE, Loads, laid, soft_of
from drylay.plan.model import Plan
from drylay.strength.model import BeamAsked, Check, Screened

#: k def of service class 3, psi 2 of dwellings: EN 1995-1-1 table 3.2, EN 1990 A1.1, from memory.
K_DEF_LEAST, PSI_2_LEAST = 2.0, 0.3


@frozen(kw_only=True)
class Sag:
    """How far loads of 1 N/mm, or of 1 N mid-span or at the tip, move a part of a beam, in mm."""

    length_mm: float
    free: bool
    dead: float
    spread: float
    point: float


def _worked(load: Felt, unit: Felt, bends: float, slides: float) -> float:
    """Return how far a load moves the place that the unit load stands at, by virtual work.

    Moments are squares at most, those of the unit load straight: Simpson's rule is exact.
    """
    marks = {0, load.length, *load.rests, *(p.point for p in (load, unit) if p.point is not None)}
    done = 0.0
    for start, end in pairwise(sorted(marks)):
        ends = [float(moment_at(load, x)) * float(moment_at(unit, x)) for x in (start, end)]
        # a middle may lie between two whole numbers: the mean of both ends, and what bulges
        middle = float(_middle(load, start, end)) * float(_middle(unit, start, end))
        done += (end - start) / 6 * (ends[0] + 4 * middle + ends[1]) / bends
        slid = [float(shear_beside(each, start, after=True)) for each in (load, unit)]
        last = [float(shear_beside(each, end, after=False)) for each in (load, unit)]
        done += (end - start) * (slid[0] + last[0]) / 2 * slid[1] / slides
    return done


def _middle(load: Felt, start: int, end: int) -> float:
    """Return the moment midway: the mean of both ends, and w l^2 / 8 where the part is loaded."""
    mean = float(moment_at(load, start) + moment_at(load, end)) / 2
    parts = zip(parts_of(load.rests, load.length), load.even, strict=True)
    loaded = any(on and low <= start and end <= high for (low, high), on in parts)
    return mean + (end - start) ** 2 / 8 if loaded else mean


def sags(beam: BeamAsked, screened: Screened, stiff: float, shears: float) -> Iterator[Sag]:
    """Yield for every span and free end what loads of 1 do in its middle or at its tip."""
    rests, length = laid(beam)
    soft, section = soft_of(beam, screened), beam.section
    broad = section.breadth_mm * section.plies
    bends = stiff * broad * section.depth_mm**3 / 12 * PER_MM**2
    slides = shears * broad * section.depth_mm / float(SHAPE)
    alone = list(each_part_alone(rests, length, soft))
    for number, (start, end) in enumerate(parts_of(rests, length)):
        if start == end:
            continue
        free = number in {0, len(rests)}
        at = ((start + end) // 2) if not free else (0 if number == 0 else length)
        unit = felt(rests, length, point=at, soft=soft)
        each = [_worked(load, unit, bends, slides) / PER_MM / PER_MM for load in alone]
        yield Sag(
            length_mm=(end - start) / PER_MM, free=free, dead=max(0.0, sum(each)),
            spread=sum(max(0.0, part) for part in each),
            point=_worked(unit, unit, bends, slides) / PER_MM,
        )  # fmt: skip


def beams_go_down_no_less(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each deflection told less than statics give, or that is not its parts'."""
    strength = strength_of(plan)
    for screened in strength.screened:
        beam = beam_named(strength, screened.subject)
        for check in screened.checks:
            known = figures(check)
            if "w_G_mm" not in known:
                continue
            yield from _parts(check, known)
            quoted = known.get("E_0,mean", 0.0) > 0 < known.get("G_mean", 0.0)
            if beam is not None and stands(beam) and quoted and known.get("length_mm", 0.0) > 0:
                yield from _less(plan, beam, screened, check)


def _parts(check: Check, known: dict[str, float]) -> Iterator[Flaw]:
    """Yield a flaw unless what is measured is what dead and other load, and creep, come to."""
    creep, later = known.get("k_def"), known.get("psi_2")
    dead, other = known["w_G_mm"], known.get("w_Q_mm", 0.0)
    wanted = dead + other
    if creep is not None and later is not None:
        creep, later = max(creep, K_DEF_LEAST), max(later, PSI_2_LEAST)
        wanted = dead * (1 + creep) + other * (1 + later * creep)
    if check.measured < wanted * (1 - NOISE):
        message = f"{check.name}: less than its loads and creep come to"
        yield _flaw(check, message, check.measured, wanted)


def _less(plan: Plan, beam: BeamAsked, screened: Screened, check: Check) -> Iterator[Flaw]:
    known = figures(check)
    loads = loads_on(plan, beam, "", screened)
    over = known["length_mm"] / check.limit if check.limit > 0 else 1.0
    final = "k_def" in known
    most = 0.0
    for sag in sags(beam, screened, known["E_0,mean"], known["G_mean"]):
        if sag.free == ("cantilever" in check.name):
            most = max(most, _used(sag, loads, final=final) * over / sag.length_mm)
    if check.utilisation_ratio < most * (1 - SLACK) - NOISE:
        message = f"{check.name}: statics of its loads use it more"
        yield _flaw(check, message, check.utilisation_ratio, most)


def _used(sag: Sag, loads: Loads, *, final: bool) -> float:
    dead = sag.dead * loads.dead_kn_m
    point = sag.point * loads.point_kn * 1000 * (1.0 if sag.free else loads.shared)
    other = max(sag.spread * loads.spread_kn_m, point)
    if not final:
        return dead + other
    return dead * (1 + K_DEF_LEAST) + other * (1 + PSI_2_LEAST * K_DEF_LEAST)


def _flaw(check: Check, message: str, found: float, wanted: float) -> Flaw:
    return Flaw(subject=check.subject, message=message, measured=found, limit=wanted,
                unit="mm" if "creep" in message else "", source=STRENGTH)  # fmt: skip


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-361", "beams go down no less than statics give", beams_go_down_no_less),
)
