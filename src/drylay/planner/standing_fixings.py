"""What a deck that stands takes beside its order: fixings counted; pads out of posts' reach."""

from drylay.findings import Finding, Severity
from drylay.planner.rows import PRACTICE
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


def pads_below(stood: Stood) -> tuple[Finding, ...]:
    """Return the caution where posts on feet over the ground have their pads deep under it.

    A post is as long as from its foot over the ground; what its foot stands on between that and a
    pad at the bottom of its hole, nobody has planned.
    """
    raised, footings = stood.raised, stood.footings
    if raised is None or footings is None or footings.kind != "pad":
        return ()
    deepest = max(
        footings.under, key=lambda each: each.footing.depth_mm - each.footing.thickness_mm
    )
    pad = deepest.footing
    off_ground = any(post.stand_off_mm > 0 for post in raised.frame.posts)
    if not off_ground or pad.depth_mm <= pad.thickness_mm:
        return ()
    message = (
        "posts stand on feet over the ground, and pads lie at the bottom of their holes, thinner "
        "than the holes are deep: what carries between is not planned; fill the holes to the "
        'ground (raised.footing = "concreted hole")'
    )
    return (
        Finding(code="RSD-014", severity=Severity.CAUTION, subject=deepest.mark, message=message,
                measured=pad.thickness_mm, limit=pad.depth_mm, unit="mm", source=PRACTICE),
    )  # fmt: skip
