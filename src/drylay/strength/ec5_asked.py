"""What a design basis is asked, in words that Eurocode 5's own functions take."""

import re

from drylay.reasons import Source
from drylay.strength.basis_answers import FIGURE, near, uncovered
from drylay.strength.ec5_actions import actions_of, board_stiffness_kn_m2
from drylay.strength.ec5_classes import strength_class, strength_classes
from drylay.strength.ec5_model import Actions, Sharing, StrengthClass
from drylay.strength.model import USES

ID = "eurocode-5"
#: What lies on a deck for good but for its members: 28 mm of wood of D70, the densest class that
#: decks are sold in, come to 0.297 kN/m2 (28 mm x 1080 kg/m3 x 9.81 m/s2).
DECK_DEAD_KN_M2 = 0.3
#: A joist and a neighbour on both sides, over which one board is whole.
ALIKE_TO_SHARE = 3
#: Forms of the words for how a point load is shared; the first holds where nothing is told.
SHARINGS = (
    "one joist",
    "board over three joists BREADTH x THICKNESS CLASS",
    "stated RATIO by WHO",
)
_BOARD = re.compile(rf"board over three joists {FIGURE} ?x ?{FIGURE} (\w+)", re.IGNORECASE)
_STATED = re.compile(rf"stated {FIGURE} by (.+)", re.IGNORECASE)


def actions_for(use: str) -> Actions:
    """Return the loads of a use.

    Raises:
        UncoveredError: The basis does not cover the use; a licensed engineer does.

    Source: `actions_of`.
    """
    if use not in USES:
        wanted = "dwelling or balcony; for any other a licensed engineer decides"
        raise uncovered("use", repr(use), wanted)
    actions = actions_of(use)
    if actions.stops:
        raise uncovered("use", repr(use), f"dwelling or balcony: {'; '.join(actions.stops)}")
    return actions


def grade_of(wood: str) -> StrengthClass:
    """Return the strength class that a wood is called by: capitals and spaces are free.

    Raises:
        UncoveredError: It is no class of EN 338:2016; the nearest is told.
    """
    name = "".join(wood.split()).upper()
    known = tuple(grade.name for grade in strength_classes())
    if name not in known:
        wanted = f"a strength class of EN 338:2016, {known[0]} to {known[-1]}"
        raise uncovered("wood", repr(wood), wanted, near(name, known))
    return strength_class(name)


def sharing_of(word: str, alike: int) -> tuple[Sharing, float]:
    """Return how a point load is shared, and the stiffness of the board that does it, or 0.

    Raises:
        UncoveredError: The word is of none of the forms of `SHARINGS`, or a joist is to have
            neighbours on both sides and there are not three alike.
    """
    said = " ".join(word.split())
    if said in ("", SHARINGS[0]):
        return Sharing(), 0.0
    if found := _BOARD.fullmatch(said):
        if alike < ALIKE_TO_SHARE:
            raise uncovered("sharing", repr(word), "three joists alike, or 'one joist'")
        stiff = grade_of(found[3]).e0_mean_n_mm2
        board = board_stiffness_kn_m2(float(found[1]), float(found[2]), stiff)
        return Sharing(way="board over three joists"), board
    if found := _STATED.fullmatch(said):
        who = Source(kind="brief", title=found[2])
        return Sharing(way="stated", stated_ratio=float(found[1]), source=who), 0.0
    wanted = "one of: " + "; ".join(SHARINGS)
    raise uncovered("sharing", repr(word), wanted, SHARINGS[0])
