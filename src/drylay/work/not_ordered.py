"""Fixings of what stands that are counted and not in the order.

How many each place takes is common practice, no source: who sells them says how they are fixed.
"""

from drylay.guards.model import GuardFoot, Guards
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
BRACE_BOLTS, GUARD_BOLTS, WASHERS = 2, 2, 2


def not_ordered(
    raised: RaisedDeck | None, ties: int, guards: Guards | None
) -> tuple[NotOrdered, ...]:
    """Return the fixings counted, kind by kind; kinds of which there are none are left out.

    Args:
        raised: What stands; None where the deck lies on the ground.
        ties: How often joists cross bearers, one joist and one bearer each.
        guards: Guards with what is built of them, if there are any.

    Source: counting; how many each place takes is common practice, no source.
    """
    counted = [*_of_posts(raised, ties)] if raised is not None else []
    posts = sum(guard.posts for guard in guards.built) if guards is not None else 0
    counted += _of_guards(posts, guards.foot if guards is not None else None)
    return tuple(
        NotOrdered(what=what, each=each, count=count, source=PRACTICE)
        for what, each, count in counted
        if count
    )


def _of_guards(posts: int, foot: GuardFoot | None) -> list[tuple[str, str, int]]:
    """Washers are counted where somebody tells what holds posts: under each head and nut."""
    bolts = GUARD_BOLTS * posts
    each = "two through every post of a guard and the frame"
    if foot is None:
        return [("guard bolts", each, bolts)]
    return [
        ("guard bolts", f"{each}, {foot.bolt}", bolts),
        ("guard washers", f"two on every bolt of a guard's post, {foot.washer_mm:g} mm across",
         WASHERS * bolts),
    ]  # fmt: skip


def _of_posts(raised: RaisedDeck, ties: int) -> list[tuple[str, str, int]]:
    standing, ledger = raised.frame, raised.frame.ledger
    return [
        ("joist ties", "one at every joist on every bearer", ties),
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
