"""Setting out the posts of a deck that stands: their places from P1, and what proves them."""

from math import hypot

from attrs import evolve

from drylay.marks import exact, to_mm
from drylay.raised.model import Post, RaisedDeck
from drylay.work.model import PostPlace, PostTie, SettingOut

#: How far a post's place, or a diagonal over posts, may be off. Common practice, no source.
ACCEPTED_MM = 5.0
#: A grid of posts has a second bearer; posts under one alone are proved from the pegs.
LINES_OF_A_GRID = 2
AT_THE_HOUSE = ["P1", "P2"]


def with_posts(out: SettingOut, raised: RaisedDeck | None, *, run: str) -> SettingOut:
    """Return the setting-out with the places of posts; as it is where the deck does not stand.

    Places are in the axes of the pegs: the raised frame's own run along the boards.
    Source: geometry; how far they may be off is common practice, no source.
    """
    if raised is None or not raised.frame.posts:
        return out
    first = out.pegs[0]
    places = tuple(
        PostPlace(
            mark=post.mark, along_mm=along, across_mm=across,
            from_along_mm=to_mm(exact(along) - exact(first.along_mm)),
            from_across_mm=to_mm(exact(across) - exact(first.across_mm)),
        )
        for post, (along, across) in ((each, _turned(each, run)) for each in raised.frame.posts)
    )  # fmt: skip
    ties = _ties(out, raised, {place.mark: place for place in places})
    return evolve(out, posts=places, post_ties=ties, post_accepted_mm=ACCEPTED_MM)


def _turned(post: Post, run: str) -> tuple[float, float]:
    along, across = post.place.along_mm, post.place.across_mm
    return (along, across) if run == "along" else (across, along)


def _ties(out: SettingOut, raised: RaisedDeck, places: dict[str, PostPlace]) -> tuple[PostTie, ...]:
    """Return the two diagonals over the outermost posts, or from the pegs at the house."""
    lines = [[post.mark for post in raised.frame.posts if post.bearer == bearer.mark]
             for bearer in raised.frame.bearers]  # fmt: skip
    known = {peg.mark: (peg.along_mm, peg.across_mm) for peg in out.pegs}
    known |= {mark: (place.along_mm, place.across_mm) for mark, place in places.items()}
    near, far = lines[0] if len(lines) >= LINES_OF_A_GRID else AT_THE_HOUSE, lines[-1]
    pairs = ((near[0], far[-1]), (near[-1], far[0]))
    return tuple(
        PostTie(start=start, end=end, length_mm=_apart(known[start], known[end]))
        for start, end in dict.fromkeys(pairs)
    )


def _apart(one: tuple[float, float], other: tuple[float, float]) -> float:
    return hypot(other[0] - one[0], other[1] - one[1])
