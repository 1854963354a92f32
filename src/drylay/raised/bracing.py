"""Braces of high posts, both ways: where they go, and where none finds room."""

from collections.abc import Iterator, Sequence
from math import isqrt

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.raised.limits import length_faults
from drylay.raised.model import Bearer, Brace, Bracing, Post
from drylay.reasons import Source

PRACTICE = Source(
    kind="common practice", title="common practice, no source", clause="braces at 45 degrees"
)
#: Where a brace may go: post, way, hand.
Want = tuple[Post, str, int]


def bracing_of(
    *,
    posts: Sequence[Post],
    bearers: Sequence[Bearer],
    joists_mm: Sequence[tuple[float, float]],
    over_mm: float,
    leg_mm: float,
    held: bool,
) -> tuple[Bracing, tuple[Finding, ...]]:
    """Return the braces of every post longer than `over_mm`, and what falls short.

    A brace goes at 45 degrees from a post to its bearer and to a joist beside it, to either hand
    where there is room: so much bearer or joist beyond the post's face as its leg is long, and
    twice that to a post that is braced back from the other side. A high post with no brace one
    way is a stop (RSD-005); a bearer whose braces all lean one way a caution (RSD-006), and so are
    joists whose braces do where no house holds them.

    Args:
        posts: All posts.
        bearers: All bearers.
        joists_mm: For each post, from where to where across the joist beside it runs.
        over_mm: Posts up to this long stand without; the source is the caller's.
        leg_mm: How far down the post and out from it a brace reaches.
        held: Whether a ledger holds the joists to the house.

    Raises:
        InputError: A value is no length, or a brace's leg is longer than posts without braces
            or no longer than bearers are deep.

    Source: common practice, no source: 45 degrees, both ways, either hand.
    """
    faults = length_faults(over_mm=over_mm, leg_mm=leg_mm)
    if not faults and leg_mm > over_mm:
        wanted = f"{over_mm:g} mm or less, the longest post without braces"
        faults.append(Fault(path="leg_mm", found=f"{leg_mm:g}", wanted=wanted))
    deep = max((bearer.section.depth_mm for bearer in bearers), default=0.0)
    if not faults and leg_mm <= deep:
        wanted = f"more than the bearers' {deep:g} mm: a brace to a joist would miss the post"
        faults.append(Fault(path="leg_mm", found=f"{leg_mm:g}", wanted=wanted))
    if len(joists_mm) != len(posts):
        faults.append(Fault(path="joists_mm", found=f"{len(joists_mm)}", wanted="one a post"))
    if faults:
        raise InputError(tuple(faults))
    high = [post for post in posts if exact(post.length_mm) > exact(over_mm)]
    wants = [*_along(high, posts, bearers, exact(leg_mm)),
             *_across(high, posts, joists_mm, exact(leg_mm))]  # fmt: skip
    order = {post.mark: at for at, post in enumerate(posts)}
    wants.sort(key=lambda want: (order[want[0].mark], want[1], want[2]))
    braces = tuple(_brace(number, want, leg_mm) for number, want in enumerate(wants, 1))
    bracing = Bracing(over_mm=over_mm, leg_mm=leg_mm, braces=braces, source=PRACTICE)
    return bracing, (*_unbraced(high, braces, over_mm), *_one_handed(high, braces, held))


def _brace(number: int, want: Want, leg_mm: float) -> Brace:
    post, way, hand = want
    square = 2 * exact(leg_mm) ** 2
    return Brace(
        mark=f"K{number}", post=post.mark, way=way, hand=hand, leg_mm=leg_mm,
        length_mm=to_mm(isqrt(square - 1) + 1),
    )  # fmt: skip


def _along(
    high: Sequence[Post], posts: Sequence[Post], bearers: Sequence[Bearer], leg: int
) -> Iterator[Want]:
    """Yield the braces to bearers that find room."""
    for bearer in bearers:
        ends = (exact(bearer.start_mm), exact(bearer.end_mm))
        on = [post for post in posts if post.bearer == bearer.mark]
        for post in on:
            if post not in high:
                continue
            for hand in (-1, 1):
                if _room(post, hand, on, high, ends) >= leg:
                    yield post, "along", hand


def _room(
    post: Post, hand: int, on: Sequence[Post], high: Sequence[Post], ends: tuple[int, int]
) -> int:  # fmt: skip
    """Return how far a brace may reach: to the bearer's end, or halfway to a braced neighbour."""
    face = exact(post.place.along_mm) + hand * _half(post)
    end = ends[0] if hand < 0 else ends[1]
    room = (end - face) * hand
    for other in on:
        away = (exact(other.place.along_mm) - hand * _half(other) - face) * hand
        if other is not post and away > 0:
            room = min(room, away // 2 if other in high else away)
    return room


def _half(post: Post) -> int:
    return -(-exact(post.section.breadth_mm) // 2)


def _across(
    high: Sequence[Post], posts: Sequence[Post], joists_mm: Sequence[tuple[float, float]], leg: int
) -> Iterator[Want]:
    """Yield the braces to joists that find room."""
    for post, (start_mm, end_mm) in zip(posts, joists_mm, strict=True):
        if post not in high:
            continue
        half = -(-exact(post.section.depth_mm) // 2)
        at = exact(post.place.across_mm)
        if at - half - exact(start_mm) >= leg:
            yield post, "across", -1
        if exact(end_mm) - at - half >= leg:
            yield post, "across", 1


def _unbraced(high: Sequence[Post], braces: Sequence[Brace], over_mm: float) -> Iterator[Finding]:
    for post in high:
        for way in ("along", "across"):
            if not any(brace.post == post.mark and brace.way == way for brace in braces):
                told = "bearer" if way == "along" else "joists"
                yield Finding(
                    code="RSD-005", severity=Severity.STOP, subject=post.mark, source=PRACTICE,
                    measured=post.length_mm, limit=over_mm, unit="mm",
                    message=f"so high a post wants a brace to its {told}, and none finds room: "
                    "ask an engineer",
                )  # fmt: skip


def _one_handed(
    high: Sequence[Post], braces: Sequence[Brace], held: bool
) -> Iterator[Finding]:  # fmt: skip
    for bearer in dict.fromkeys(post.bearer for post in high):
        marks = {post.mark for post in high if post.bearer == bearer}
        hands = {brace.hand for brace in braces if brace.post in marks and brace.way == "along"}
        if len(hands) == 1:
            yield _leaning(bearer, "to this bearer")
    if not held and len({brace.hand for brace in braces if brace.way == "across"}) == 1:
        yield _leaning("joists", "to the joists")


def _leaning(subject: str, told: str) -> Finding:
    return Finding(
        code="RSD-006", severity=Severity.CAUTION, subject=subject, source=PRACTICE,
        message=f"all braces {told} lean one way: a push the other way pulls at their fixings",
    )  # fmt: skip
