"""What a deck that stands takes beside its order: fixings, each kind counted and told."""

from drylay.findings import Finding, Severity
from drylay.planner.stood import Stood
from drylay.raised.model import Bearer, RaisedDeck
from drylay.subframe.model import Member, Subframe
from drylay.work.not_ordered import not_ordered

#: What is tied to a bearer that it crosses.
TIED = frozenset({"joist", "pair", "double", "trimmer", "rim"})
#: What each kind is for, in words.
WORDS = {
    "joist ties": "ties of joists to bearers",
    "ledger fixings": "the ledger's fixings to its wall",
    "ply bolts": "bolts that hold bearers' plies together",
    "post caps": "caps or straps that hold bearers to posts",
    "brace bolts": "bolts of the braces",
    "guard bolts": "bolts of guard posts",
    "guard washers": "washers of guard posts' bolts",
}


def ties_under(raised: RaisedDeck | None, joists: int) -> int:
    """Return how often joists cross bearers where every one crosses every bearer.

    Joists that hang between bearers cross none.
    """
    if raised is None or raised.joists == "between":
        return 0
    return joists * len(raised.frame.bearers)


def outlined_ties(raised: RaisedDeck | None, frame: Subframe) -> int:
    """Return how often what runs the joists' way under an outline crosses a bearer."""
    if raised is None:
        return 0
    swapped = frame.joist_run == "along"
    return sum(_crosses(member, bearer, swapped=swapped)
               for member in frame.members if member.kind in TIED
               for bearer in raised.frame.bearers)  # fmt: skip


def _crosses(member: Member, bearer: Bearer, *, swapped: bool) -> bool:
    ends = [(spot.along_mm, spot.across_mm) for spot in (member.start, member.end)]
    (x, low), (other, high) = sorted(place[::-1] if swapped else place for place in ends)
    over = bearer.start_mm <= x <= bearer.end_mm and low <= bearer.across_mm <= high
    return x == other and over


def standing_fixings(stood: Stood, ties: int) -> tuple[Finding, ...]:
    """Return a note for each kind of fixings that is counted and not in the order."""
    return tuple(
        Finding(
            code="RSD-010", severity=Severity.NOTE, subject=each.what, source=each.source,
            message=f"{WORDS[each.what]} are not in the order, {each.each}: have them by you, "
            "rated for outdoors and for the treatment",
            measured=float(each.count), unit="pieces",
        )
        for each in not_ordered(stood.raised, ties, stood.guards)
    )  # fmt: skip
