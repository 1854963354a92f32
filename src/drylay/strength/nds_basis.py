"""US allowable stresses as a design basis: what a plan may ask, by the functions of this room."""

from itertools import pairwise

from attrs import evolve

from drylay.errors import InputError
from drylay.reasons import Source
from drylay.strength.basis_answers import answered, refuse_beam, refuse_post, uncovered
from drylay.strength.checks import ranked
from drylay.strength.meant import together
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
from drylay.strength.nds_asked import ID, wood_of
from drylay.strength.nds_deck_table import table_checks
from drylay.strength.nds_guard_asked import screened_guard_post
from drylay.strength.nds_ledger_asked import FIXINGS, screened_ledger
from drylay.strength.nds_model import Conditions, Held, Loaded
from drylay.strength.nds_screen import screened_beam, screened_post
from drylay.strength.nds_spans import OVERHANG_LOAD_KN, REPEATED_RATIO, deck_loads_kn_m2
from drylay.strength.us_units import mm_of_inches

TITLE = "US allowable stress: NDS reference values, loads of DCA 6-2012"
SHARINGS = ("one joist",)
#: Repeated members stand no further apart. Source: NDS 4.3.9, from memory.
REPEATED_CENTRES_MM = mm_of_inches(24)
_LOADS = Source(
    kind="standard",
    title="DCA 6-2012",
    clause="table 2, notes 1 and 3: 40 psf live and 10 psf dead, members' own weight within it, "
    "and 220 lb on one joist",
)
_DRY = (
    "wet service, and not incised: treated Douglas fir-larch, hem-fir and spruce-pine-fir often "
    "are incised, and then bear a fifth less",
    "live load is of ordinary occupancy (CD 1.0); no snow, wind or earthquake, no notch and no "
    "hole is reckoned",
)


def us_allowable_stress() -> DesignBasis:
    """Return US allowable stresses as a design basis.

    A wood is a species and its grade. Bearers carry joists by statics, as the beam tables have it;
    posts carry half of the bearer to either side, as the footing tables have it. Joists that the
    deck table has are held against its spans and overhangs too.

    Source: NDS, from memory where the checks say so; loads of DCA 6-2012 table 2, read.
    """
    return DesignBasis(
        id=ID,
        title=TITLE,
        sharings=SHARINGS,
        fixings=FIXINGS,
        halved=True,
        loads=_loads,
        beam=_beam,
        post=_post,
        board=_board,
        ledger=_ledger,
        guard_post=_guard_post,
    )


def _loads(use: str) -> DeckLoads:
    stops: tuple[str, ...] = ()
    live = dead = point = 0.0
    try:
        live, dead = deck_loads_kn_m2(use)
        point = OVERHANG_LOAD_KN
    except InputError as error:
        stops = tuple(f"not covered: {fault}" for fault in error.faults)
    return DeckLoads(
        use=use,
        dead_kn_m2=dead,
        own_weight_apart=False,
        imposed_kn_m2=live,
        point_kn=point,
        source=_LOADS,
        stops=stops,
    )


def _beam(asked: BeamAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: _screened_beam(asked, use))


def _screened_beam(asked: BeamAsked, use: str) -> Screened:
    together(
        lambda: refuse_beam(asked),
        lambda: _refuse_sharing(asked),
        lambda: deck_loads_kn_m2(use),
        lambda: wood_of(asked.wood),
    )
    live, dead = deck_loads_kn_m2(use)
    strip = asked.carried_mm / 1e3
    repeated = _repeated(asked)
    found = screened_beam(
        asked.supports_mm,
        asked.length_mm,
        asked.section,
        subject=asked.subject,
        wood=wood_of(asked.wood),
        loaded=Loaded(
            dead_kn_m=(dead + asked.more_dead_kn_m2) * strip,
            live_kn_m=live * strip,
            point_kn=OVERHANG_LOAD_KN,
        ),
        held=Held(
            bearing_mm=asked.bearing_mm,
            top_free_mm=asked.held_each_mm,
            bottom_free_mm=lower_free_mm(asked),
            down_kn=asked.hold_down_kn,
        ),
        conditions=Conditions(repeated_ratio=REPEATED_RATIO if repeated else 1.0),
    )
    held = ranked((*found.checks, *table_checks(asked, wood_of(asked.wood))))
    said = (*found.assumed, *_beam_assumed(asked, repeated=repeated))
    return evolve(found, checks=held, assumed=said)


def _refuse_sharing(asked: BeamAsked) -> None:
    if asked.sharing.strip() not in ("", *SHARINGS):
        raise uncovered("sharing", repr(asked.sharing), SHARINGS[0], SHARINGS[0])


def _repeated(asked: BeamAsked) -> bool:
    """Whether three members or more, 24 in apart at most, share what is spread: joists alone."""
    close = asked.carried_mm <= REPEATED_CENTRES_MM
    return asked.kind == "joist" and asked.alike >= 3 and close


def lower_free_mm(asked: BeamAsked) -> float:
    """Return how far apart a beam's lower edge is held, where anything presses it; else 0.

    Over inner supports and beside cantilevers it is in compression: it is held at supports alone.
    An end that reaches past its support by no more than the bearing is no cantilever.

    Raises:
        InputError: A number is not what a beam's can be; all at once.
    """
    refuse_beam(asked)
    places = asked.supports_mm
    ends = (places[0], asked.length_mm - places[-1]) if places else (0.0, 0.0)
    out = max(ends) > asked.bearing_mm
    if len(places) < 3 and not out:
        return 0.0
    return max(*ends, *(b - a for a, b in pairwise(places)))


def _beam_assumed(asked: BeamAsked, *, repeated: bool) -> tuple[str, ...]:
    more = asked.more_dead_kn_m2
    heavier = f", and {more:.3g} kN/m2 more lie on it, of a heavier cover" if more else ""
    own = f"10 psf dead load hold members' own weight{heavier}: planters and roofs are not covered"
    said = [*_DRY, own, "held upright at its supports, one piece from end to end"]
    if repeated:
        said.append("three members or more, 24 in apart at most, share load: Cr 1.15")
    if asked.kind == "bearer":
        said.append("joists load the bearer as if evenly spread")
    return tuple(said)


def _post(asked: PostAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: _screened_post(asked, use))


def _screened_post(asked: PostAsked, use: str) -> Screened:
    together(
        lambda: refuse_post(asked),
        lambda: deck_loads_kn_m2(use),
        lambda: wood_of(asked.wood),
        lambda: _refuse_sway(asked),
    )
    found = screened_post(
        asked.section,
        subject=asked.subject,
        wood=wood_of(asked.wood),
        length_mm=asked.length_mm,
        dead_kn=asked.dead_kn,
        live_kn=max(asked.live_kn, OVERHANG_LOAD_KN),
        conditions=Conditions(),
    )
    least = "the post carries the point load of 220 lb where its share of the deck is less"
    return evolve(found, assumed=(*found.assumed, *_DRY, least))


def _refuse_sway(asked: PostAsked) -> None:
    if not asked.braced:
        raise uncovered("braced", "a post whose head may sway", "a post held at head and foot")


def _board(asked: BoardAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: _untold_board(asked, use))


def _untold_board(asked: BoardAsked, use: str) -> Screened:
    deck_loads_kn_m2(use)
    said = "decking is not screened: it goes by the spacing of joists in the boards' own table"
    return Screened(basis=ID, subject=asked.subject, checks=(), assumed=(said,))


def _ledger(asked: LedgerAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: screened_ledger(asked, use))


def _guard_post(asked: GuardPostAsked, use: str) -> Screened:
    return answered(ID, asked.subject, lambda: screened_guard_post(asked, use))
