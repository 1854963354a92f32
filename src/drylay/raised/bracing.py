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
#: To a bearer, to a joist.
WAYS = ("along", "across")
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
    twice that to a post that is braced back from the other side. Where a bay has room for one
    and not for two, one post has it, first of all one with no other brace that way. A high post
    with no brace one way is a stop (RSD-005); a bearer whose braces all lean one way a caution
    (RSD-006), and so are joists whose braces do where no house holds them.

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
    leg = exact(leg_mm)
    wants = _settled([*_wants(high, posts, bearers, joists_mm, leg)], leg)
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


def _wants(
    high: Sequence[Post], posts: Sequence[Post], bearers: Sequence[Bearer],
    joists_mm: Sequence[tuple[float, float]], leg: int,
) -> Iterator[Want]:  # fmt: skip
    """Yield the braces that find room by themselves, as if none came from the other side."""
    ends = {bearer.mark: (bearer.start_mm, bearer.end_mm) for bearer in bearers}
    for way in WAYS:
        for post, joist_mm in zip(posts, joists_mm, strict=True):
            if post not in high:
                continue
            nowhere = (post.place.along_mm, post.place.along_mm)
            least_mm, most_mm = ends.get(post.bearer, nowhere) if way == "along" else joist_mm
            on = [other for other in posts if _in_line(post, other, way)]
            for hand, end_mm in ((-1, least_mm), (1, most_mm)):
                own = (exact(end_mm) - _at(post, way)) * hand - _half(post, way)
                ahead = (_clear(post, other, way, hand) for other in on
                         if (_at(other, way) - _at(post, way)) * hand > 0)  # fmt: skip
                if min((own, *ahead)) >= leg:
                    yield post, way, hand


def _settled(wants: Sequence[Want], leg: int) -> list[Want]:
    """Return the braces of every bay: both, or one where both would cross.

    That one goes to a post with no other brace its way; so a post goes without only where the
    bays do not suffice.
    """
    kept = [want for want in wants if not _crosses(want, wants, leg)]
    for spare in (False, True):
        for want in wants:
            served = any(one[:2] == want[:2] for one in kept)
            if want not in kept and (spare or not served) and not _crosses(want, kept, leg):
                kept.append(want)
    return kept


def _crosses(want: Want, others: Sequence[Want], leg: int) -> bool:
    """Return whether a brace comes from the other side, and there is no room for both."""
    post, way, hand = want
    return any(
        theirs == way and back == -hand and _in_line(post, other, way)
        and (_at(other, way) - _at(post, way)) * hand > 0
        and _clear(post, other, way, hand) < 2 * leg
        for other, theirs, back in others
    )  # fmt: skip


def _in_line(post: Post, other: Post, way: str) -> bool:
    """Return whether two posts' braces lie in one line: to one bearer, or to one joist.

    One joist may serve both where less than a post's breadth is clear between them: no joist
    with a brace beside it is broader. Assumption.
    """
    if way == "along":
        return post.bearer == other.bearer
    apart = abs(exact(post.place.along_mm) - exact(other.place.along_mm))
    return apart < exact(post.section.breadth_mm) + exact(other.section.breadth_mm)


def _clear(post: Post, other: Post, way: str, hand: int) -> int:
    """Return what lies between the faces of two posts, the other one to a hand of the first."""
    apart = (_at(other, way) - _at(post, way)) * hand
    return apart - _half(post, way) - _half(other, way)


def _at(post: Post, way: str) -> int:
    return exact(post.place.along_mm if way == "along" else post.place.across_mm)


def _half(post: Post, way: str) -> int:
    size_mm = post.section.breadth_mm if way == "along" else post.section.depth_mm
    return -(-exact(size_mm) // 2)


def _unbraced(high: Sequence[Post], braces: Sequence[Brace], over_mm: float) -> Iterator[Finding]:
    for post in high:
        for way in WAYS:
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
