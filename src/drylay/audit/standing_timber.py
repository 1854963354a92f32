"""What is cut for a deck that stands: pieces of bearers' plies, posts, braces."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.audit.exact import ticks
from drylay.audit.frame import frame_of
from drylay.plan.model import Plan
from drylay.raised.model import Bearer
from drylay.strength.model import Section

#: What purchases of timber that stands may be called.
STANDING = ("bearers", "posts", "braces")
#: Name, article, how bought lengths are marked, marks and lengths of the pieces.
Part = tuple[str, str, str, tuple[tuple[str, int], ...]]


def ply_pieces(bearer: Bearer) -> Iterator[tuple[str, int]]:
    """Yield mark and length of every piece of a bearer's plies, from joint to joint."""
    whole = ticks(bearer.end_mm) - ticks(bearer.start_mm)
    for ply in range(1, bearer.section.plies + 1):
        cuts = sorted(ticks(joint.at_mm) for joint in bearer.joints if joint.ply == ply)
        for part, (before, after) in enumerate(pairwise([0, *cuts, whole]), 1):
            yield f"{bearer.mark}.{ply}.{part}", after - before


def standing_parts(plan: Plan) -> tuple[Part, ...]:
    """Return what is sawn for a deck that stands, article by article; nothing of other decks.

    What is of one article is bought together, under the name that comes first. A brace is sawn at
    45 degrees at both ends: its longer face is its depth longer than its middle.
    """
    if plan.raised is None:
        return ()
    deck, frame = plan.raised, frame_of(plan)
    deep, stand = ticks(frame.timber_depth_mm), deck.frame
    bearers = tuple(piece for bearer in stand.bearers for piece in ply_pieces(bearer))
    posts = tuple((post.mark, ticks(post.whole_mm)) for post in stand.posts)
    braces = tuple((brace.mark, ticks(brace.length_mm) + deep) for brace in stand.bracing.braces)
    found: dict[str, Part] = {}
    for name, article, prefix, pieces in (
        ("bearers", deck.bearer_article, "BT", bearers),
        ("posts", deck.post_article, "PT", posts),
        ("braces", frame.timber_article, "KT", braces),
    ):
        first = found.get(article, (name, article, prefix, ()))
        if pieces:
            found[article] = (*first[:3], first[3] + pieces)
    return tuple(found.values())


def standing_sections(plan: Plan) -> dict[str, Section]:
    """Return the section of one ply of bearers and posts, by article; nothing of other decks."""
    if plan.raised is None:
        return {}
    stand = plan.raised.frame
    found = [(plan.raised.bearer_article, bearer.section) for bearer in stand.bearers]
    return dict([*found, *((plan.raised.post_article, post.section) for post in stand.posts)])
