"""What is sawn of a raised frame: bearers' plies from joint to joint, posts, braces."""

from collections.abc import Iterator
from itertools import pairwise

from drylay.marks import exact, to_mm
from drylay.raised.model import Bearer, LegPiece, RaisedFrame


def leg_pieces(frame: RaisedFrame, deep_mm: float) -> tuple[LegPiece, ...]:
    """Return every piece that is sawn, by mark: bearers' plies, posts, braces.

    Args:
        frame: What stands.
        deep_mm: How deep braces' timber is in their own plane: sawn at 45 degrees at both ends a
            brace is as much longer at its long edge than along its middle. Source: geometry.
    """
    return (
        *(piece for bearer in frame.bearers for piece in _plies(bearer)),
        *(LegPiece(mark=post.mark, kind="posts", length_mm=post.whole_mm) for post in frame.posts),
        *(
            LegPiece(mark=brace.mark, kind="braces",
                     length_mm=to_mm(exact(brace.length_mm) + exact(deep_mm)))
            for brace in frame.bracing.braces
        ),
    )  # fmt: skip


def _plies(bearer: Bearer) -> Iterator[LegPiece]:
    start, end = exact(bearer.start_mm), exact(bearer.end_mm)
    for ply in range(1, bearer.section.plies + 1):
        cuts = sorted(start + exact(each.at_mm) for each in bearer.joints if each.ply == ply)
        for part, (one, other) in enumerate(pairwise([start, *cuts, end]), 1):
            yield LegPiece(
                mark=f"{bearer.mark}.{ply}.{part}", kind="bearers", length_mm=to_mm(other - one)
            )
