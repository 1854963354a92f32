"""Hours of what stands: rates for the tasks on posts, bearers, guards and steps.

As in `hours`: assumption, no source, for a careful amateur; they are in docs/conventions.md.
"""

from collections.abc import Callable
from fractions import Fraction

from drylay.work.drafts import OnLegs

#: Least and most hours of one person: so many whatever the deck, and so many for each unit.
Hours = tuple[str, str]
Count = Callable[[OnLegs], int | Fraction]


def _not_ordered(deck: OnLegs, what: str) -> int:
    return sum(each.count for each in deck.legs.not_ordered if each.what == what)


def ties(deck: OnLegs) -> int:
    """Return how many joists are tied to bearers."""
    return _not_ordered(deck, "joist ties")


def bearer_pieces(deck: OnLegs) -> int:
    """Return how many pieces bearers are sawn in."""
    pieces = deck.legs.raised.pieces if deck.legs.raised else ()
    return sum(piece.kind == "bearers" for piece in pieces)


def _posts(deck: OnLegs) -> int:
    return len(deck.legs.raised.frame.posts) if deck.legs.raised else 0


def _bearers(deck: OnLegs) -> int:
    return len(deck.legs.raised.frame.bearers) if deck.legs.raised else 0


def _braces(deck: OnLegs) -> int:
    return len(deck.legs.raised.frame.bracing.braces) if deck.legs.raised else 0


def _holes(deck: OnLegs) -> int:
    return len(deck.legs.footings.under) if deck.legs.footings else 0


def _bags(deck: OnLegs) -> int:
    return deck.legs.footings.bags if deck.legs.footings else 0


def _guard_m(deck: OnLegs) -> Fraction:
    guards = deck.legs.guards
    return Fraction(repr(guards.length_mm)) / 1000 if guards else Fraction(0)


def _risers(deck: OnLegs) -> int:
    return deck.legs.steps.risers if deck.legs.steps else 0


def rates_besides() -> dict[str, tuple[Count, Hours]]:
    """Return what tasks on a frame take besides where it stands. Source: assumption."""
    return {"cut_frame": (bearer_pieces, ("0.05", "0.1")), "frame": (ties, ("0.05", "0.1"))}


def legs_rates() -> dict[str, tuple[Hours, tuple[tuple[Count, Hours], ...]]]:
    """Return fixed hours of each task, then (quantity, hours each). Source: assumption."""
    return {
        "post_lines": (("0.5", "1"), ((_posts, ("0.1", "0.2")),)),
        "holes": (("0.25", "0.5"), ((_holes, ("0.5", "1.5")),)),
        "concrete": (("0.25", "0.5"), ((_bags, ("0.1", "0.2")),)),
        "posts": (("0.5", "1"), ((_posts, ("0.4", "0.8")),)),
        "ledger": (("0.5", "1"), ((lambda deck: _not_ordered(deck, "ledger fixings"),
                                   ("0.15", "0.3")),)),
        "bearers": (("0.5", "1"), ((_bearers, ("0.5", "1")),
                                   (lambda deck: _not_ordered(deck, "ply bolts"),
                                    ("0.03", "0.06")))),
        "braces": (("0.25", "0.5"), ((_braces, ("0.3", "0.6")),)),
        "guards": (("0.5", "1"), ((_guard_m, ("0.75", "1.5")),)),
        "steps": (("2", "4"), ((_risers, ("0.5", "1")),)),
    }  # fmt: skip
