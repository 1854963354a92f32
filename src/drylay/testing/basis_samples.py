"""Members that a design basis is asked about by its kit: ordinary ones, each grown step by step."""

from collections.abc import Iterable
from typing import Any

from attrs import evolve, frozen

from drylay.plugins.basis_guard import Asked
from drylay.strength.model import (
    BeamAsked,
    BoardAsked,
    GuardPostAsked,
    LedgerAsked,
    PostAsked,
    Section,
)

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


def guard_post(wood: str, bolt: str) -> GuardPostAsked:
    """Return an ordinary post of a guard on such bolts, under a line load."""
    return GuardPostAsked(
        subject="guard posts R1",
        wood=wood,
        section=Section(breadth_mm=89.0, depth_mm=89.0),
        edge_wood=wood,
        edge=Section(breadth_mm=47.0, depth_mm=220.0),
        centres_mm=900.0,
        rail_mm=1150.0,
        bolts_mm=140.0,
        bolt=bolt,
        washer_mm=60.0,
        line_kn_m=0.74,
        point_kn=0.0,
    )


def members(wood: str, fixing: str, bolt: str = "") -> tuple[Asked, ...]:
    """Return one ordinary member of each kind; a guard's post only where a bolt is named."""
    plain = (joist(wood), bearer(wood), post(wood), board(wood), ledger(wood, fixing))
    return (*plain, guard_post(wood, bolt)) if bolt else plain


def ladders(wood: str, fixing: str, bolt: str = "") -> tuple[Ladder, ...]:
    """Return members that grow, each in one thing."""
    return (*_plain_ladders(wood, fixing), *(_guard_ladders(wood, bolt) if bolt else ()))


#: What of a guard's post grows, the field that it is, its steps, and whether use rises with it.
_GUARDED = (
    ("the load along the guard", "line_kn_m", (0.3, 0.74, 1.5), True),
    ("how far apart posts stand", "centres_mm", (400.0, 900.0, 1800.0), True),
    ("the height of the load", "rail_mm", (700.0, 1150.0, 1500.0), True),
    ("how far apart its bolts are", "bolts_mm", (80.0, 140.0, 200.0), False),
)


def _guard_ladders(wood: str, bolt: str) -> tuple[Ladder, ...]:
    held = guard_post(wood, bolt)
    # bolts far apart and large washers: what the post itself bears governs
    bent = evolve(held, bolts_mm=600.0, washer_mm=100.0)
    at_one = tuple(evolve(held, line_kn_m=0.0, point_kn=kn) for kn in (0.3, 0.9, 1.8))
    grown = tuple(
        Ladder(what=what, members=tuple(_grown(held, name, size) for size in sizes), rises=rises)
        for what, name, sizes, rises in _GUARDED
    )
    return (
        *grown,
        Ladder(what="the load at one place of the guard", members=at_one),
        Ladder(what="the post's depth", members=_thicker(bent, "depth_mm"), rises=False),
        Ladder(what="the post's breadth", members=_thicker(bent, "breadth_mm"), rises=False),
    )


def _grown(held: GuardPostAsked, name: str, size: float) -> GuardPostAsked:
    more: dict[str, Any] = {name: size}
    return evolve(held, **more)


def _thicker(held: GuardPostAsked, name: str) -> tuple[GuardPostAsked, ...]:
    sizes: list[dict[str, Any]] = [{name: mm} for mm in (75.0, 80.0, 89.0)]
    return tuple(evolve(held, section=evolve(held.section, **size)) for size in sizes)


def _plain_ladders(wood: str, fixing: str) -> tuple[Ladder, ...]:
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


def nonsense(wood: str, fixing: str, bolt: str = "") -> tuple[Asked, ...]:
    """Return members that cannot be: none of them may come back as one that passes."""
    return (*_plain_nonsense(wood, fixing), *(_guard_nonsense(wood, bolt) if bolt else ()))


def _guard_nonsense(wood: str, bolt: str) -> tuple[Asked, ...]:
    held = guard_post(wood, bolt)
    return (
        evolve(held, wood="a wood that nobody sells"),
        evolve(held, edge_wood="a wood that nobody sells"),
        evolve(held, bolt="a bolt that nobody makes"),
        evolve(held, line_kn_m=float("nan")),
        evolve(held, line_kn_m=0.0),
        evolve(held, rail_mm=-1.0),
        evolve(held, bolts_mm=0.0),
        evolve(held, washer_mm=5.0),
        evolve(held, section=Section(breadth_mm=8.0, depth_mm=89.0)),
    )


def _plain_nonsense(wood: str, fixing: str) -> tuple[Asked, ...]:
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
