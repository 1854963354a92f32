"""Beams over more than two supports, or with ends that reach past: load cases and deflections.

Imposed load may stand on any span or cantilever or not; dead load stands on all. Own weight is
part of the dead load here: the caller adds it.
"""

from collections.abc import Iterator

from drylay.strength.beam import down_by_part, effects_of, parts_of
from drylay.strength.ec5_actions import strength_factors
from drylay.strength.ec5_model import Actions, Choices, DesignCase, Sag
from drylay.strength.ec5_simple import case_of
from drylay.strength.ec5_values import number
from drylay.strength.model import Beam, Effects, LineLoad
from drylay.strength.patterns import pattern_loads, patterned, point_loads

#: What a case is called, how long its shortest load stays, what it does, and the k_sys it has.
Felt = tuple[str, str, Effects, float]


def continuous_effects(
    beam: Beam,
    *,
    dead_kn_m: float,
    imposed_kn_m: float,
    actions: Actions,
    choices: Choices,
    system_ratio: float = 1.0,
) -> Iterator[Felt]:
    """Yield what every case for strength does to a beam over any supports.

    Spread load in every pattern, and the use's point load alone, whole on this beam, wherever it
    does most; with that load k_sys is 1.

    Source: EN 1990 6.4.3.2; patterns of load by influence lines.
    """
    for name, on_dead, on_imposed in strength_factors(choices, actions):
        always = [_all_along(beam, on_dead * dead_kn_m)]
        factors = f"{name}: {on_dead:.4g} G + {on_imposed:.4g}"
        for case in patterned(beam, always, on_imposed * imposed_kn_m, what="q", bends=False):
            said = f"{factors} {case.name}"
            yield said, choices.imposed_duration, case.effects, system_ratio
        for where, load in point_loads(beam, on_imposed * actions.point_kn):
            effects = effects_of(beam, [*always, load], bends=False)
            yield f"{factors} Q, {where}", choices.point_duration, effects, 1.0
    own = [_all_along(beam, number("gamma_g") * dead_kn_m)]
    alone = effects_of(beam, own, bends=False)
    yield "6.10: permanent load alone", "permanent", alone, 1.0


def continuous_cases(
    beam: Beam,
    *,
    dead_kn_m: float,
    imposed_kn_m: float,
    actions: Actions,
    choices: Choices,
    system_ratio: float = 1.0,
) -> Iterator[DesignCase]:
    """Yield the cases for strength of a beam over any supports: `continuous_effects` as cases.

    Supports that must hold down are not told by them: see `Effects.reactions_kn`.

    Source: EN 1990 6.4.3.2; patterns of load by influence lines.
    """
    for name, duration, effects, ratio in continuous_effects(
        beam,
        dead_kn_m=dead_kn_m,
        imposed_kn_m=imposed_kn_m,
        actions=actions,
        choices=choices,
        system_ratio=system_ratio,
    ):
        yield case_of(name, duration, effects, system_ratio=ratio)


def continuous_sags(
    beam: Beam, *, dead_kn_m: float, imposed_kn_m: float, point_kn: float
) -> Iterator[Sag]:
    """Yield for every span and cantilever its worst deflections: spread load, and the point load.

    The most of either load within the part is taken, though they may lie apart a little. No point
    load where `point_kn` is 0.
    """
    dead = down_by_part(beam, [_all_along(beam, dead_kn_m)])
    spread = [down_by_part(beam, loads) for _, loads in pattern_loads(beam, imposed_kn_m)]
    points = [down_by_part(beam, [load]) for _, load in point_loads(beam, point_kn)]
    for what, found in (("q, worst pattern", spread), ("Q, worst place", points)):
        for place, (low, high, name) in enumerate(parts_of(beam) if found else ()):
            yield Sag(
                name=f"G + {what}, {name}",
                permanent_mm=max(0.0, dead[place].deflection_mm),
                imposed_mm=max(0.0, *(downs[place].deflection_mm for downs in found)),
                length_mm=high - low,
                cantilever="cantilever" in name,
            )


def _all_along(beam: Beam, load_kn_m: float) -> LineLoad:
    return LineLoad(from_mm=0.0, to_mm=beam.length_mm, load_kn_m=load_kn_m)
