"""A raised frame put together: bearers and posts with marks, bracing, schedule, findings."""

from collections.abc import Sequence

from attrs import frozen

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity
from drylay.outline.model import Spot
from drylay.raised.bracing import bracing_of
from drylay.raised.model import Bearer, Heights, Ledger, Post, RaisedFrame
from drylay.raised.schedule import height_findings, post_at, post_rows
from drylay.strength.model import Section


@frozen(kw_only=True)
class PostSpot:
    """Where one post of a bearer stands: its place along, the ground there, the joist beside it.

    The joist runs across from `joist_from_mm` to `joist_to_mm`, or is two that meet there.
    """

    along_mm: float
    ground_mm: float
    joist_from_mm: float
    joist_to_mm: float


def raised_frame(
    *,
    bearers: Sequence[Bearer],
    spots: Sequence[Sequence[PostSpot]],
    post_section: Section,
    heights: Heights,
    brace_leg_mm: float,
    ledger: Ledger | None = None,
    findings: Sequence[Finding] = (),
) -> RaisedFrame:
    """Return the whole frame: posts marked PO1, PO2, ... bearer by bearer, braces K1, K2, ...

    Args:
        bearers: In order, with their marks and joints.
        spots: For each bearer, its posts in order along.
        post_section: Breadth along the bearers, depth along the joists.
        heights: Levels and depths, and the heights at which more is asked.
        brace_leg_mm: How far braces reach down posts and out from them.
        ledger: The ledger, where there is one.
        findings: What was found before, about the wall say.

    Raises:
        InputError: Spots are not told bearer by bearer, or a height or length is none.
    """
    if len(spots) != len(bearers):
        wanted = f"one row for each of {len(bearers)} bearers"
        raise InputError((Fault(path="spots", found=f"{len(spots)}", wanted=wanted),))
    pairs = [(bearer, spot) for bearer, row in zip(bearers, spots, strict=True) for spot in row]
    posts = tuple(
        _post(number, bearer, spot, post_section, heights)
        for number, (bearer, spot) in enumerate(pairs, 1)
    )
    bracing, short = bracing_of(
        posts=posts, bearers=bearers, over_mm=heights.brace_over_mm, leg_mm=brace_leg_mm,
        held=ledger is not None,
        joists_mm=[(spot.joist_from_mm, spot.joist_to_mm) for _, spot in pairs],
    )  # fmt: skip
    found = (*findings, *height_findings(posts, heights), *short)
    return RaisedFrame(
        heights=heights, ledger=ledger,
        joist_from_mm=min((spot.joist_from_mm for _, spot in pairs), default=0.0),
        joist_to_mm=max((spot.joist_to_mm for _, spot in pairs), default=0.0),
        bearers=tuple(bearers), posts=posts, bracing=bracing,
        schedule=post_rows(posts, bracing.braces), findings=found,
        buildable=all(finding.severity is not Severity.STOP for finding in found),
    )  # fmt: skip


def _post(
    number: int, bearer: Bearer, spot: PostSpot, section: Section, heights: Heights
) -> Post:  # fmt: skip
    place = Spot(along_mm=spot.along_mm, across_mm=bearer.across_mm)
    return post_at(
        mark=f"PO{number}", bearer=bearer.mark, place=place, section=section,
        ground_mm=spot.ground_mm, heights=heights,
    )  # fmt: skip
