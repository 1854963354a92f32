"""Eurocode 5 as a design basis: what a plan may ask, answered by the functions of this room."""

from attrs import evolve

from drylay.errors import InputError
from drylay.reasons import Source
from drylay.strength.basis_answers import answered, refuse_board, refuse_post
from drylay.strength.ec5_actions import strength_factors
from drylay.strength.ec5_asked import DECK_DEAD_KN_M2, ID, SHARINGS, actions_for, grade_of
from drylay.strength.ec5_beam_asked import screened_beam
from drylay.strength.ec5_board import screen_board
from drylay.strength.ec5_guard_asked import screened_guard_post
from drylay.strength.ec5_ledger_asked import FIXINGS, screened_ledger
from drylay.strength.ec5_model import Actions, Choices, DesignCase, Post, Timber
from drylay.strength.ec5_post import screen_post
from drylay.strength.ec5_values import number
from drylay.strength.model import (
    BeamAsked,
    BoardAsked,
    DeckLoads,
    DesignBasis,
    GuardPostAsked,
    LedgerAsked,
    PostAsked,
    Screened,
)

TITLE = "Eurocode 5 (EN 1995-1-1) with EN 338:2016 classes and the choices of the UK annexes"
_NOT_COVERED = Source(kind="assumption", title=TITLE, clause="uses that it does not cover")


def eurocode_5() -> DesignBasis:
    """Return Eurocode 5 with UK choices as a design basis.

    `ec5_asked.SHARINGS` and `ec5_ledger_asked.FIXINGS` are forms: words in capitals stand for
    figures and names. Bearers carry by statics, not by halves, which is more where an end is free.

    Source: EN 1995-1-1, EN 1990, EN 1991-1-1 and their UK annexes, see each check.
    """
    return DesignBasis(
        id=ID,
        title=TITLE,
        sharings=SHARINGS,
        fixings=FIXINGS,
        halved=False,
        loads=_loads,
        beam=_beam,
        post=_post,
        board=_board,
        ledger=_ledger,
        guard_post=_guard_post,
    )


def _loads(use: str) -> DeckLoads:
    try:
        actions = actions_for(use)
    except InputError as error:
        return DeckLoads(
            use=use,
            dead_kn_m2=0.0,
            own_weight_apart=True,
            imposed_kn_m2=0.0,
            point_kn=0.0,
            source=_NOT_COVERED,
            stops=tuple(f"not covered: {fault}" for fault in error.faults),
        )
    taken = f"dead load {DECK_DEAD_KN_M2:g} kN/m2 is taken: wood up to 28 mm, to 1080 kg/m3"
    clause = f"{actions.source.clause}; {taken}, own weight of members apart"
    return DeckLoads(
        use=use,
        dead_kn_m2=DECK_DEAD_KN_M2,
        own_weight_apart=True,
        imposed_kn_m2=actions.imposed_kn_m2,
        point_kn=actions.point_kn,
        source=evolve(actions.source, clause=clause),
    )


def _beam(asked: BeamAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: screened_beam(asked, use))


def _ledger(asked: LedgerAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: screened_ledger(asked, use))


def _guard_post(asked: GuardPostAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: screened_guard_post(asked, use))


def _post(asked: PostAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: _screened_post(asked, use))


def _screened_post(asked: PostAsked, use: str) -> Screened:
    refuse_post(asked)
    actions, choices = actions_for(use), Choices()
    timber = Timber(name=asked.subject, section=asked.section, grade=grade_of(asked.wood))
    post = Post(timber=timber, length_mm=asked.length_mm, braced=asked.braced)
    return screen_post(post, _post_cases(asked, actions, choices), choices=choices)


def _post_cases(asked: PostAsked, actions: Actions, choices: Choices) -> tuple[DesignCase, ...]:
    cases = []
    for name, on_dead, on_imposed in strength_factors(choices, actions):
        for what, duration, live_kn in (
            ("q", choices.imposed_duration, asked.live_kn),
            ("Q, point load alone", choices.point_duration, actions.point_kn),
        ):
            said = f"{name}: {on_dead:.4g} G + {on_imposed:.4g} {what}"
            down = on_dead * asked.dead_kn + on_imposed * live_kn
            cases.append(DesignCase(name=said, duration=duration, bearing_kn=down))
    alone = number("gamma_g") * asked.dead_kn
    case = DesignCase(name="6.10: permanent load alone", duration="permanent", bearing_kn=alone)
    return (*cases, case)


def _board(asked: BoardAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: _screened_board(asked, use))


def _screened_board(asked: BoardAsked, use: str) -> Screened:
    refuse_board(asked)
    board = Timber(name=asked.subject, section=asked.section, grade=grade_of(asked.wood))
    return screen_board(
        board,
        bay_mm=asked.bay_mm,
        bays=asked.bays,
        actions=actions_for(use),
        choices=Choices(),
    )
