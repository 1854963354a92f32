"""What checks of a deck that stands share: its parts, and where joists and bearers rest."""

from itertools import pairwise

from drylay.audit.between import between, hung
from drylay.audit.edges import edges_of
from drylay.audit.exact import ticks
from drylay.audit.flaws import need
from drylay.audit.frame import thickness_of
from drylay.findings import Severity
from drylay.plan.model import Plan
from drylay.raised.model import Bearer, Post, RaisedDeck, RaisedFrame
from drylay.reasons import Source

RAISED = Source(kind="arithmetic", title="docs/raised.md", clause="Conventions")


def deck_of(plan: Plan) -> RaisedDeck:
    """Return the deck that stands, if the plan's does."""
    return need(plan.raised, "deck that stands")


def stand_of(plan: Plan) -> RaisedFrame:
    """Return what a deck stands on."""
    return deck_of(plan).frame


def stopped(plan: Plan) -> bool:
    """Return whether the plan itself reports a stop."""
    return any(finding.severity is Severity.STOP for finding in plan.findings)


def told(plan: Plan, code: str, subject: str) -> bool:
    """Return whether a finding of this code speaks of a subject."""
    return any(f.code == code and f.subject == subject for f in plan.findings)


def broad(bearer: Bearer) -> int:
    """Return how broad a bearer is, all plies together, in 1/320 mm."""
    return ticks(bearer.section.breadth_mm) * bearer.section.plies


def posts_on(stand: RaisedFrame, bearer: Bearer) -> list[Post]:
    """Return a bearer's posts in the order they are told."""
    return [post for post in stand.posts if post.bearer == bearer.mark]


def posts_along(stand: RaisedFrame, bearer: Bearer) -> list[int]:
    """Return the centres of a bearer's posts from its start, in 1/320 mm."""
    start = ticks(bearer.start_mm)
    return [ticks(post.place.along_mm) - start for post in posts_on(stand, bearer)]


def frame_across(plan: Plan) -> tuple[int, int]:
    """Return between which places across the frame's outer faces lie, in 1/320 mm."""
    edges = edges_of(plan)
    near = ticks(edges.frame_near_mm)
    return near, near + ticks(edges.frame_depth_mm)


def frame_along(plan: Plan) -> tuple[int, int]:
    """Return between which places along the frame's outer faces lie, in 1/320 mm."""
    edges = edges_of(plan)
    start = ticks(edges.frame_start_mm)
    return start, start + ticks(edges.frame_length_mm)


def lines_across(stand: RaisedFrame) -> list[int]:
    """Return the centres of bearer lines across, each once, in order, in 1/320 mm."""
    return sorted({ticks(bearer.across_mm) for bearer in stand.bearers})


def joist_rests(plan: Plan) -> tuple[int, list[int]]:
    """Return how long joists are with their rims, and what they rest on from their near end.

    Where a ledger holds them they begin, and rest, at its face. Where they hang between bearers
    it is the longest of their parts, which rests at either end.
    """
    if hung(plan):
        longest = max((far - start for start, far in between(plan)), default=0)
        return longest, [0, longest]
    near, far = frame_across(plan)
    stand = stand_of(plan)
    if stand.ledger is None:
        return far - near, [line - near for line in lines_across(stand)]
    near += thickness_of(plan)
    return far - near, [0, *(line - near for line in lines_across(stand))]


def widest(rests: list[int], length: int, *, held: bool = False) -> tuple[int, int]:
    """Return the widest span and the longest free end; none before a support that holds the end."""
    span = max((after - before for before, after in pairwise(rests)), default=0)
    ends = [length - rests[-1]] if rests else []
    ends += [] if held else rests[:1]
    return span, max(ends, default=0)
