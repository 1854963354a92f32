"""Members that a design basis is asked about by its kit: ordinary ones, each grown step by step."""

from collections.abc import Iterable

from attrs import evolve, frozen

from drylay.plugins.basis_guard import Asked
from drylay.strength.model import BeamAsked, BoardAsked, LedgerAsked, PostAsked, Section

#: Uses that no basis covers which residential decks are laid out by.
NEVER = ("crowd", "hot tub", "public", "a use that nobody knows")


@frozen(kw_only=True)
class Ladder:
    """Members alike but for one thing that grows from each to the next: use should rise, or fall.

    `what` says what grows; `rises` whether the most used check of each is then used more.
    """

    what: str
    members: tuple[Asked, ...]
    rises: bool = True


def joist(wood: str) -> BeamAsked:
    """Return an ordinary joist over one span."""
    return BeamAsked(
        kind="joist",
        subject="joists",
        wood=wood,
        section=Section(breadth_mm=47.0, depth_mm=195.0),
        length_mm=3000.0,
        supports_mm=(0.0, 3000.0),
        carried_mm=400.0,
        bearing_mm=90.0,
        alike=6,
    )


def bearer(wood: str) -> BeamAsked:
    """Return an ordinary bearer of two plies over three posts that hold it down, ends past them."""
    return BeamAsked(
        kind="bearer",
        subject="B1",
        wood=wood,
        section=Section(breadth_mm=47.0, depth_mm=220.0, plies=2),
        length_mm=4000.0,
        supports_mm=(300.0, 2000.0, 3700.0),
        carried_mm=1500.0,
        bearing_mm=90.0,
        held_each_mm=400.0,
        hold_down_kn=3.0,
    )


def post(wood: str) -> PostAsked:
    """Return an ordinary post."""
    return PostAsked(
        subject="P1",
        wood=wood,
        section=Section(breadth_mm=89.0, depth_mm=89.0),
        length_mm=1500.0,
        dead_kn=2.0,
        live_kn=6.0,
    )


def board(wood: str) -> BoardAsked:
    """Return an ordinary board over three bays."""
    section = Section(breadth_mm=140.0, depth_mm=28.0)
    return BoardAsked(subject="boards", wood=wood, section=section, bay_mm=400.0, bays=3)


def ledger(wood: str, fixing: str) -> LedgerAsked:
    """Return an ordinary ledger with such fixings."""
    return LedgerAsked(
        subject="LG1",
        wood=wood,
        section=Section(breadth_mm=47.0, depth_mm=195.0),
        span_mm=2400.0,
        spacing_mm=400.0,
        fixing=fixing,
    )


def members(wood: str, fixing: str) -> tuple[Asked, ...]:
    """Return one ordinary member of each kind."""
    return joist(wood), bearer(wood), post(wood), board(wood), ledger(wood, fixing)


def ladders(wood: str, fixing: str) -> tuple[Ladder, ...]:
    """Return members that grow, each in one thing."""
    beams, legs = (joist(wood), bearer(wood)), post(wood)
    held = ledger(wood, fixing)
    carried = tuple(
        Ladder(
            what="the width that it carries",
            members=tuple(evolve(one, carried_mm=mm) for mm in (300.0, 400.0, 600.0, 1800.0)),
        )
        for one in beams
    )
    deep = tuple(
        Ladder(what="its depth", members=_deeper(one), rises=False)
        for one in (_spanning(joist(wood), 4500.0), evolve(bearer(wood), bearing_mm=300.0))
    )
    return (
        *carried,
        *deep,
        Ladder(what="its span", members=tuple(_spanning(beams[0], mm) for mm in _SPANS)),
        Ladder(what="its length", members=tuple(evolve(legs, length_mm=mm) for mm in _LONG)),
        Ladder(what="its live load", members=tuple(evolve(legs, live_kn=kn) for kn in _LOADS)),
        Ladder(what="its dead load", members=tuple(evolve(legs, dead_kn=kn) for kn in _LOADS)),
        Ladder(
            what="how far apart its fixings are",
            members=tuple(evolve(held, spacing_mm=mm) for mm in (200.0, 400.0, 800.0)),
        ),
        Ladder(
            what="the joists' span",
            members=tuple(evolve(held, span_mm=mm) for mm in (1200.0, 2400.0, 4800.0)),
        ),
        Ladder(
            what="its bay",
            members=tuple(evolve(board(wood), bay_mm=mm) for mm in (300.0, 400.0, 600.0)),
        ),
    )


_SPANS = (2000.0, 3000.0, 4000.0, 5000.0)
_LONG = (600.0, 1500.0, 2400.0, 3000.0)
_LOADS = (2.0, 6.0, 12.0)


def _spanning(beam: BeamAsked, span_mm: float) -> BeamAsked:
    return evolve(beam, length_mm=span_mm, supports_mm=(0.0, span_mm))


def _deeper(beam: BeamAsked) -> tuple[BeamAsked, ...]:
    depths: Iterable[float] = (140.0, 184.0, 235.0)
    return tuple(evolve(beam, section=evolve(beam.section, depth_mm=mm)) for mm in depths)


def nonsense(wood: str, fixing: str) -> tuple[Asked, ...]:
    """Return members that cannot be: none of them may come back as one that passes."""
    nan = float("nan")
    return (
        evolve(joist(wood), wood="a wood that nobody sells"),
        evolve(joist(wood), length_mm=nan),
        evolve(joist(wood), supports_mm=(0.0,)),
        evolve(bearer(wood), carried_mm=-1.0),
        evolve(bearer(wood), section=Section(breadth_mm=0.0, depth_mm=220.0)),
        evolve(joist(wood), sharing="shared in a way that nobody knows"),
        evolve(post(wood), live_kn=nan),
        evolve(post(wood), wood="a wood that nobody sells"),
        evolve(ledger(wood, fixing), fixing="fixed in a way that nobody knows"),
        evolve(ledger(wood, fixing), spacing_mm=-1.0),
    )
