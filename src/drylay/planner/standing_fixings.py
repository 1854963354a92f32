"""What a deck that stands takes beside its order: fixings, each kind counted and told."""

from drylay.findings import Finding, Severity
from drylay.planner.stood import Stood
from drylay.work.not_ordered import not_ordered

#: What each kind is for, in words.
WORDS = {
    "joist ties": "ties of joists to bearers",
    "ledger fixings": "the ledger's fixings to its wall",
    "ply bolts": "bolts that hold bearers' plies together",
    "post caps": "caps or straps that hold bearers to posts",
    "brace bolts": "bolts of the braces",
    "guard bolts": "bolts of guard posts",
}


def standing_fixings(stood: Stood, joists: int) -> tuple[Finding, ...]:
    """Return a note for each kind of fixings that is counted and not in the order."""
    return tuple(
        Finding(
            code="RSD-010", severity=Severity.NOTE, subject=each.what, source=each.source,
            message=f"{WORDS[each.what]} are not in the order, {each.each}: have them by you, "
            "rated for outdoors and for the treatment",
            measured=float(each.count), unit="pieces",
        )
        for each in not_ordered(stood.raised, joists, stood.guards)
    )  # fmt: skip
