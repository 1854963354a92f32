"""Whether footings leave one another their ground: each is sized as if its whole area bore it."""

from collections.abc import Sequence
from itertools import combinations
from math import ceil, hypot

from drylay.findings import Finding, Severity
from drylay.groundwork.model import Footings, PostFooting
from drylay.marks import exact, to_mm
from drylay.raised.model import Post
from drylay.reasons import Source

STATICS = Source(kind="arithmetic", title="docs/guards-steps-footings.md", clause="Footings")
#: Two footings and how far one reaches into the other, in 1/320 mm.
_Pair = tuple[int, PostFooting, PostFooting]


def overlapping(posts: Sequence[Post], footings: Footings) -> tuple[Finding, ...]:
    """Return a stop where footings overlap in plan: FTG-011, with the worst pair; () where none do.

    Square ones lie square to the bearers. Ground under two of them bears both loads, and each was
    sized as if it had that ground to itself (statics).

    Args:
        posts: All posts.
        footings: One for each post, in the same order.
    """
    found = [
        (over, here, there)
        for (post, here), (other, there) in combinations(zip(posts, footings.under, strict=True), 2)
        if (over := _over(post, other, here, there)) > 0
    ]
    return _told(found) if found else ()


def _over(post: Post, other: Post, here: PostFooting, there: PostFooting) -> int:
    """Return how far one footing reaches into another, 0 or less where they are clear."""
    along = abs(exact(post.place.along_mm) - exact(other.place.along_mm))
    across = abs(exact(post.place.across_mm) - exact(other.place.across_mm))
    reach = exact(here.footing.size_mm) + exact(there.footing.size_mm)
    if here.footing.shape == there.footing.shape == "round":
        clear = 4 * (along**2 + across**2) >= reach**2
        return 0 if clear else max(1, ceil(reach / 2 - hypot(along, across)))
    return -(-reach // 2) - max(along, across)


def _told(found: list[_Pair]) -> tuple[Finding, ...]:
    over, one, other = max(found, key=lambda pair: pair[0])
    more = f", and {len(found) - 1} more pairs" if len(found) > 1 else ""
    return (Finding(
        code="FTG-011", severity=Severity.STOP, subject=f"{one.mark} {other.mark}",
        measured=to_mm(over), limit=0.0, unit="mm", source=STATICS,
        message=f"these footings overlap{more}: each was sized as if the ground under it bore no "
        "other; stand their posts further apart, or have a licensed person design one for both",
    ),)  # fmt: skip
