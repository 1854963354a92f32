"""Fixings of what stands that are counted and not in the order.

How many each place takes is common practice, no source: who sells them says how they are fixed.
"""

from drylay.guards.model import Guards
from drylay.marks import exact
from drylay.raised.model import Bearer, RaisedDeck
from drylay.reasons import Source
from drylay.work.model import NotOrdered

PRACTICE = Source(
    kind="common practice", title="common practice, no source", clause="fixings of what stands"
)
#: Plies are held together by two bolts, staggered, in every so many of their length.
PLY_EVERY_MM, PLY_BOLTS = 600.0, 2
#: A brace is bolted at both ends; a guard's post by two bolts through the frame.
BRACE_BOLTS, GUARD_BOLTS = 2, 2


def not_ordered(
    raised: RaisedDeck | None, joists: int, guards: Guards | None
) -> tuple[NotOrdered, ...]:
    """Return the fixings counted, kind by kind; kinds of which there are none are left out.

    Args:
        raised: What stands; None where the deck lies on the ground.
        joists: How many joists cross every bearer.
        guards: Guards with what is built of them, if there are any.

    Source: counting; how many each place takes is common practice, no source.
    """
    counted = [*_of_posts(raised, joists)] if raised is not None else []
    posts = sum(guard.posts for guard in guards.built) if guards is not None else 0
    counted.append(("guard bolts", "two through every post of a guard and the frame",
                    GUARD_BOLTS * posts))  # fmt: skip
    return tuple(
        NotOrdered(what=what, each=each, count=count, source=PRACTICE)
        for what, each, count in counted
        if count
    )


def _of_posts(raised: RaisedDeck, joists: int) -> list[tuple[str, str, int]]:
    standing, ledger = raised.frame, raised.frame.ledger
    return [
        ("joist ties", "one at every joist on every bearer",
         joists * len(standing.bearers)),
        ("ledger fixings", "one at every station of the ledger",
         len(ledger.stations_mm) if ledger is not None else 0),
        ("ply bolts", "two, staggered, in every 600 mm (2 ft) of a bearer of several plies",
         sum(ply_bolts(bearer) for bearer in standing.bearers)),
        ("post caps", "one on every post, to hold its bearer", len(standing.posts)),
        ("brace bolts", "one at either end of every brace",
         BRACE_BOLTS * len(standing.bracing.braces)),
    ]  # fmt: skip


def ply_bolts(bearer: Bearer) -> int:
    """Return how many bolts hold a bearer's plies together: none in a bearer of one.

    Two at its start, and two for every 600 mm begun. Source: common practice, no source.
    """
    if bearer.section.plies == 1:
        return 0
    begun = -((exact(bearer.start_mm) - exact(bearer.end_mm)) // exact(PLY_EVERY_MM))
    return PLY_BOLTS * (begun + 1)
