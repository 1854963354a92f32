"""Which spans loaded are worst: a load that may stand on any of a beam's spans, or not."""

from collections.abc import Callable, Iterator, Sequence

from drylay.strength.beam import effects_of, parts_of
from drylay.strength.beam_line import Load
from drylay.strength.model import Beam, Case, Effects, LineLoad, PointLoad

#: As good as at the support, and still within the span, where it shears.
_BESIDE_MM = 0.01
_NEAR_MIDDLE_RATIO = 0.43


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
    beam: Beam,
    always: Sequence[Load],
    load_kn_m: float,
    *,
    what: str = "live load",
    bends: bool = True,
) -> tuple[Case, ...]:
    """Return a case for each pattern: `always`, and `load_kn_m` on whole spans and cantilevers.

    The first case is `always` alone. Spans are loaded from support to support: a load that ends
    within a span can make a little more shear there. `bends` as `effects_of` has it.

    Raises:
        InputError: The beam does not stand, or a load lies off it.
    """
    cases = [Case(name=f"no {what}", effects=effects_of(beam, always, bends=bends))]
    for name, loads in pattern_loads(beam, load_kn_m, what=what):
        effects = effects_of(beam, [*always, *loads], bends=bends)
        cases.append(Case(name=name, effects=effects))
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


def point_loads(beam: Beam, load_kn: float) -> Iterator[tuple[str, PointLoad]]:
    """Yield by name one load wherever it does most: none of a load of 0.

    In the middle of a single span it bends it most; of several spans 0.43 from the outer support,
    where the middle alone would be 2.5 % short; so three places near the middle are asked. Beside a
    support it shears and presses whole, at a free end it bends what holds that.

    Source: influence lines; a test holds the worst of all places to be within 0.5 %.
    """
    if not load_kn:
        return
    for low, high, name in parts_of(beam):
        if name.startswith("span"):
            places = {
                f"in the middle of {name}": (low + high) / 2,
                f"left of the middle of {name}": low + _NEAR_MIDDLE_RATIO * (high - low),
                f"right of the middle of {name}": high - _NEAR_MIDDLE_RATIO * (high - low),
                f"beside the left support of {name}": low + _BESIDE_MM,
                f"beside the right support of {name}": high - _BESIDE_MM,
            }
        else:
            places = {f"at the free end of the {name}": low if name.startswith("left") else high}
        for where, at_mm in places.items():
            yield f"point load {where}", PointLoad(at_mm=at_mm, load_kn=load_kn)


def worst_of(cases: Sequence[Case], size: Callable[[Effects], float]) -> Case:
    """Return the case whose effects are the most by `size`, the first of equals."""
    return max(cases, key=lambda case: size(case.effects))
