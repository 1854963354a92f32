"""A deck board under a point load, from joist to joist."""

from drylay.strength.checks import refuse_unless_positive
from drylay.strength.ec5_actions import own_weight_kn_m, strength_factors
from drylay.strength.ec5_checking import screened, stopped
from drylay.strength.ec5_member import bending, shear
from drylay.strength.ec5_model import Actions, Choices, DesignCase, Timber
from drylay.strength.ec5_simple import board_moment_ratio
from drylay.strength.model import Effects, Screened


def board_cases(
    board: Timber,
    *,
    bay_mm: float,
    bays: int,
    actions: Actions,
    choices: Choices,
    effects: Effects | None = None,
) -> tuple[DesignCase, ...]:
    """Return the cases of one board that carries the whole point load.

    The board's own weight counts as on one bay. `effects` of the characteristic point load take
    the place of the closed forms where they are handed in.

    Source: statics; EN 1991-1-1 6.3.1.2, a point load that acts alone.
    """
    own, bay = own_weight_kn_m(board.section, board.grade), bay_mm / 1e3
    moment = board_moment_ratio(bays) * actions.point_kn * bay
    push = actions.point_kn
    if effects is not None:
        moment = max(abs(effects.sagging.value_kn_m), abs(effects.hogging.value_kn_m))
        push = abs(effects.shear_kn)
    return tuple(
        DesignCase(
            name=f"{name}: {on_dead:.4g} G + {on_imposed:.4g} Q on one board",
            duration=choices.point_duration,
            moment_kn_m=on_dead * own * bay**2 / 8.0 + on_imposed * moment,
            shear_kn=on_dead * own * bay / 2.0 + on_imposed * push,
        )
        for name, on_dead, on_imposed in strength_factors(choices, actions)
    )


def screen_board(
    board: Timber,
    *,
    bay_mm: float,
    bays: int,
    actions: Actions,
    choices: Choices,
    effects: Effects | None = None,
) -> Screened:
    """Return the checks of a board laid flat, its `depth_mm` its thickness, over `bays` bays.

    Raises:
        InputError: A size is not above 0, or no bay.

    Source: EN 1995-1-1 6.1.6, 6.1.7; the point load from EN 1991-1-1.
    """
    section = board.section
    refuse_unless_positive(
        bay_mm=bay_mm, bays=bays, breadth_mm=section.breadth_mm, depth_mm=section.depth_mm
    )
    if actions.stops:
        return stopped(board.name, actions.stops)
    cases = board_cases(
        board, bay_mm=bay_mm, bays=bays, actions=actions, choices=choices, effects=effects
    )
    checks = [bending(board, case, choices) for case in cases]
    checks += [shear(board, case, choices) for case in cases]
    assumed = (
        "one board carries the whole point load: neighbours take none of it",
        f"the board lies over {bays} bays" if bays > 1 else "the board ends at both joists",
        "the board is strength graded: boards that are not have no class and no check",
        "bays are between the joists' centres",
    )
    return screened(board.name, checks, assumed=assumed)
