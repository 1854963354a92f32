"""The load cases of one span, whatever member it is: spread load, point load, permanent alone."""

from collections.abc import Iterator

from drylay.strength.ec5_actions import strength_factors
from drylay.strength.ec5_model import Actions, Choices, DesignCase
from drylay.strength.ec5_simple import span_case
from drylay.strength.ec5_values import number


def one_span_cases(
    actions: Actions,
    choices: Choices,
    *,
    span_mm: float,
    dead_kn_m: float,
    imposed_kn_m: float,
    shared_ratio: float = 1.0,
    system_ratio: float = 1.0,
) -> Iterator[DesignCase]:
    """Yield the cases for strength of one span.

    `shared_ratio` of the point load bends the member at mid-span, all of it presses a support;
    `system_ratio` holds for what is spread.

    Source: EN 1990 6.4.3.2; EN 1991-1-1 6.3.1.2, a point load that acts alone; statics.
    """
    for name, on_dead, on_imposed in strength_factors(choices, actions):
        factors = f"{on_dead:.4g} G + {on_imposed:.4g}"
        yield span_case(
            f"{name}: {factors} q, spread",
            choices.imposed_duration,
            span_mm=span_mm,
            load_kn_m=on_dead * dead_kn_m + on_imposed * imposed_kn_m,
            system_ratio=system_ratio,
        )
        yield span_case(
            f"{name}: {factors} Q, point load",
            choices.point_duration,
            span_mm=span_mm,
            load_kn_m=on_dead * dead_kn_m,
            point_kn=on_imposed * actions.point_kn * shared_ratio,
            end_kn=on_imposed * actions.point_kn,
        )
    yield span_case(
        "6.10: permanent load alone",
        "permanent",
        span_mm=span_mm,
        load_kn_m=number("gamma_g") * dead_kn_m,
        system_ratio=system_ratio,
    )
