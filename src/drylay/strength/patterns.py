"""Which spans loaded are worst: a load that may stand on any of a beam's spans, or not."""

from collections.abc import Callable, Sequence

from drylay.strength.beam import effects_of, parts_of
from drylay.strength.beam_line import Load
from drylay.strength.model import Beam, Case, Effects, LineLoad


def patterns_of(count: int) -> tuple[tuple[int, ...], ...]:
    """Return which of `count` parts in a row to load: whole sets of places, each once.

    All; every second one (greatest sagging and deflection); both beside a support and every
    second one from there on (greatest hogging, shear and reaction there); and what these leave
    out (least reaction). Together they hold the worst of all sets for each of these effects.

    Source: influence lines of continuous beams alternate from span to span.
    """
    everything = set(range(count))
    wanted = [everything, set(range(0, count, 2)), set(range(1, count, 2))]
    for left in range(count - 1):
        beside = set(range(left, -1, -2)) | set(range(left + 1, count, 2))
        wanted += [beside, everything - beside]
    return tuple(dict.fromkeys(tuple(sorted(each)) for each in wanted if each))


def patterned(
    beam: Beam, always: Sequence[Load], load_kn_m: float, *, what: str = "live load"
) -> tuple[Case, ...]:
    """Return a case for each pattern: `always`, and `load_kn_m` on whole spans and cantilevers.

    The first case is `always` alone. Spans are loaded from support to support: a load that ends
    within a span can make a little more shear there.

    Raises:
        InputError: The beam does not stand, or a load lies off it.
    """
    cases = [Case(name=f"no {what}", effects=effects_of(beam, always))]
    for name, loads in pattern_loads(beam, load_kn_m, what=what):
        cases.append(Case(name=name, effects=effects_of(beam, [*always, *loads])))
    return tuple(cases)


def pattern_loads(
    beam: Beam, load_kn_m: float, *, what: str = "live load"
) -> tuple[tuple[str, tuple[LineLoad, ...]], ...]:
    """Return each pattern by name: `load_kn_m` on some of the beam's spans and cantilevers."""
    parts = parts_of(beam)
    loads = [LineLoad(from_mm=a, to_mm=b, load_kn_m=load_kn_m) for a, b, _ in parts]
    return tuple(
        (f"{what} on {', '.join(parts[n][2] for n in pattern)}", tuple(loads[n] for n in pattern))
        for pattern in patterns_of(len(parts))
    )


def worst_of(cases: Sequence[Case], size: Callable[[Effects], float]) -> Case:
    """Return the case whose effects are the most by `size`, the first of equals."""
    return max(cases, key=lambda case: size(case.effects))
