"""What is sawn for a deck that stands: pieces of bearers' plies, posts, braces."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.exact import ticks
from drylay.audit.frame import frame_of
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, RaisedDeck

#: What purchases of timber that stands may be called.
STANDING = ("bearers", "posts", "braces")


def ply_pieces(bearer: Bearer) -> Iterator[tuple[str, int]]:
    """Yield mark and length of every piece of a bearer's plies, from joint to joint."""
    whole = ticks(bearer.end_mm) - ticks(bearer.start_mm)
    for ply in range(1, bearer.section.plies + 1):
        cuts = sorted(ticks(joint.at_mm) for joint in bearer.joints if joint.ply == ply)
        for part, (before, after) in enumerate(pairwise([0, *cuts, whole]), 1):
            yield f"{bearer.mark}.{ply}.{part}", after - before


def standing_pieces(plan: Plan, deck: RaisedDeck) -> list[tuple[str, str, int]]:
    """Return kind, mark and length of all that is sawn for a deck that stands.

    A brace is sawn at 45 degrees at both ends: its longer face is its depth longer than its middle.
    """
    deep, stand = ticks(frame_of(plan).timber_depth_mm), deck.frame
    found = [("bearers", *piece) for bearer in stand.bearers for piece in ply_pieces(bearer)]
    found += [("posts", post.mark, ticks(post.whole_mm)) for post in stand.posts]
    return found + [
        ("braces", brace.mark, ticks(brace.length_mm) + deep) for brace in stand.bracing.braces
    ]
