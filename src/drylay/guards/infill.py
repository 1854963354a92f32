"""Infill that no ball passes, and posts evenly apart: counted exactly, on pencil marks."""

from collections.abc import Iterator

from drylay.errors import Fault, InputError
from drylay.findings import Finding, Severity, against
from drylay.guards.model import Guard, GuardRun, Infill, PostLine
from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, to_mm
from drylay.reasons import Source
from drylay.regions.model import GUARD_DROP_MOST_MM, Limit

#: How much narrower than the ball a gap stays. Common practice, no source.
UNDER_MM = 1.0
#: No ball, and no way between posts, is so small: a slip of the pen. Assumption.
FINEST_MM = 10.0
KINDS = ("balusters", "rails")
_PRACTICE = Source(kind="common practice", title="common practice, no source")


def fill(
    *,
    kind: str,
    opening_mm: float,
    thickness_mm: float,
    ball_mm: float,
    mark_320: int = MARK_320["metric"],
) -> Infill:
    """Return the fewest pieces that leave no gap a ball can pass, as evenly as marks allow.

    Every clear gap is narrower than the ball by 1 mm at least (common practice), down to a mark.

    Args:
        kind: "balusters", upright between two posts, or "rails", level between deck and handrail.
        opening_mm: The clear way to fill.
        thickness_mm: Of one piece, along the opening.

    Raises:
        InputError: A size is not above 0, the ball not above 10 mm, the kind neither, or a piece
            does not fit.
    """
    _refuse(kind, opening_mm, thickness_mm, ball_mm)
    opening, piece = exact(opening_mm), exact(thickness_mm)
    widest = floor_mark(exact(ball_mm) - exact(UNDER_MM), mark_320)
    count = max(0, -(-(opening - widest) // (piece + widest)))
    gaps = _gaps(opening, piece, count, mark_320)
    if min(gaps) < 0:
        raise _fault("thickness_mm", f"{thickness_mm:g} mm", f"room in {opening_mm:g} mm")
    return Infill(
        kind=kind,
        opening_mm=opening_mm,
        thickness_mm=thickness_mm,
        count=count,
        starts_mm=tuple(_starts(gaps, piece)),
        gap_most_mm=to_mm(max(gaps)),
        gap_least_mm=to_mm(min(gaps)),
        ball_mm=ball_mm,
    )


def set_posts(length_mm: float, *, most_mm: float, mark_320: int = MARK_320["metric"]) -> PostLine:
    """Return posts from one end of a straight part to the other, evenly, no further than the most.

    Centres lie on marks from the first post on; the last bay takes what is less than a mark.

    Raises:
        InputError: The length is not above 0, or the most not above 10 mm.
    """
    for name, value, least in (("length_mm", length_mm, 0.0), ("most_mm", most_mm, FINEST_MM)):
        if not value > least:
            raise _fault(name, f"{value:g}", f"a length above {least:g}")
    length, most = exact(length_mm), floor_mark(exact(most_mm), mark_320)
    bays = -(-length // most)
    steps = _even(length, bays, mark_320)
    centres = [sum(steps[:at]) for at in range(bays + 1)]
    return PostLine(
        length_mm=length_mm,
        centres_mm=tuple(to_mm(centre) for centre in centres),
        spacing_most_mm=to_mm(max(steps)),
    )


def guard_of(
    run: GuardRun,
    *,
    height_mm: float,
    post_mm: float,
    baluster_mm: float,
    ball_mm: float,
    spacing: Limit,
    infill: str = "balusters",
    mark_320: int = MARK_320["metric"],
) -> Guard:
    """Return a run as it is built: posts even in every straight part, infill in every bay.

    Centres of posts lie on the edge's own line: one at every bend, and half a post in from both
    ends. Set on the rim's inner or outer face, hand over a run of that line. With `infill` "rails"
    level rails lie in every bay from the deck to the handrail's underside, the handrail taken as
    thick as a rail (assumption); `baluster_mm` is then a rail's.

    Raises:
        InputError: A stretch is shorter than its posts, a figure is not above 0, or no such infill.
    """
    assert spacing.value is not None  # every region has one, if only by common practice
    lines = tuple(
        set_posts(length, most_mm=spacing.value, mark_320=mark_320)
        for length in _post_lengths(run, post_mm)
    )
    openings = [clear for line in lines for clear in _clears(line, post_mm)]
    if infill == "rails":
        openings = [to_mm(exact(height_mm) - exact(baluster_mm))] * len(openings)
    bays = tuple(
        fill(
            kind=infill,
            opening_mm=opening,
            thickness_mm=baluster_mm,
            ball_mm=ball_mm,
            mark_320=mark_320,
        )
        for opening in openings
    )
    return Guard(
        run=run.mark,
        height_mm=height_mm,
        post_mm=post_mm,
        lines=lines,
        bays=bays,
        posts=len(bays) + (not run.closed),
        pieces=sum(bay.count for bay in bays),
        handrail_mm=run.length_mm,
    )


def guard_findings(
    guard: Guard,
    run: GuardRun,
    *,
    height: Limit,
    climb: Limit,
) -> tuple[Finding, ...]:
    """Return what is wrong with a guard: too low, climbed, or over so deep a drop that it stops."""
    return (
        *_height_told(guard, height),
        *_climbed(guard.bays, run, climb),
        *_looked_at(run),
    )


def rails_findings(rails: Infill, run: GuardRun, climb: Limit) -> tuple[Finding, ...]:
    """Return what is to be told of level rails: that they are climbed, and a deep drop.

    Climbing is a stop where the region rules such rails out, else a caution; over 1 m, or where
    nobody knows the drop, every guard is a stop.
    """
    return (*_climbed((rails,), run, climb), *_looked_at(run))


def _height_told(guard: Guard, height: Limit) -> Iterator[Finding]:
    least = height.value
    if least is None or guard.height_mm < least:
        message = "the guard is lower than the region's least, or the region names none"
        yield against(height, guard.height_mm, "GRD-005", Severity.STOP, guard.run, message)


def _climbed(bays: tuple[Infill, ...], run: GuardRun, climb: Limit) -> Iterator[Finding]:
    if any(bay.kind == "rails" for bay in bays):
        drop, limit = run.drop_mm, climb.value
        ruled = limit is not None and (drop is None or climb.exceeded_by(drop))
        yield Finding(
            code="GRD-006",
            severity=Severity.STOP if ruled else Severity.CAUTION,
            subject=run.mark,
            message="children climb level rails like a ladder: upright balusters do not help them",
            measured=drop,
            limit=limit if drop is not None else None,
            unit="mm" if drop is not None else "",
            source=climb.source,
        )


def _looked_at(run: GuardRun) -> Iterator[Finding]:
    """Yield the stop of a guard over a deep drop; a drop that nobody knows is taken for one."""
    if run.drop_mm is None or run.drop_mm > GUARD_DROP_MOST_MM:
        yield Finding(
            code="GRD-007",
            severity=Severity.STOP,
            subject=run.mark,
            message="over so deep a drop an engineer or a licensed person has to design the guard; "
            "posts are neither notched nor held by screws through a face alone",
            measured=run.drop_mm,
            limit=GUARD_DROP_MOST_MM if run.drop_mm is not None else None,
            unit="mm" if run.drop_mm is not None else "",
            source=_PRACTICE,
        )


def _post_lengths(run: GuardRun, post_mm: float) -> Iterator[float]:
    """Yield the length between the outer posts' centres of every straight part."""
    last = len(run.stretches) - 1
    for at, stretch in enumerate(run.stretches):
        ends = 0 if run.closed else (at == 0) + (at == last)
        yield stretch.to_mm - stretch.from_mm - ends * post_mm / 2


def _clears(line: PostLine, post_mm: float) -> Iterator[float]:
    for one, other in zip(line.centres_mm, line.centres_mm[1:], strict=False):
        yield other - one - post_mm


def _gaps(opening: int, piece: int, count: int, mark: int) -> list[int]:
    """Return the clear gaps between so many pieces."""
    return _even(opening - count * piece, count + 1, mark)


def _starts(gaps: list[int], piece: int) -> Iterator[float]:
    at = 0
    for gap in gaps[:-1]:
        yield to_mm(at + gap)
        at += gap + piece


def _even(length: int, parts: int, mark: int) -> list[int]:
    """Return even parts of a length, their sums from the start up to marks.

    No part but for the last is less than a mark over the even one, and the last is never over
    it: a limit on marks that holds the even part holds them all.
    """
    ends = [ceil_mark(-(-length * at // parts), mark) for at in range(1, parts)] + [length]
    return [end - start for start, end in zip([0, *ends], ends, strict=False)]


def _refuse(kind: str, opening_mm: float, thickness_mm: float, ball_mm: float) -> None:
    if kind not in KINDS:
        raise _fault("kind", repr(kind), " or ".join(KINDS))
    if not (opening_mm > 0 and thickness_mm > 0 and ball_mm > FINEST_MM):
        found = f"{opening_mm:g}, {thickness_mm:g}, {ball_mm:g} mm"
        raise _fault("opening, thickness, ball", found, "lengths above 0, a ball above 10 mm")


def _fault(path: str, found: str, wanted: str) -> InputError:
    return InputError((Fault(path=path, found=found, wanted=wanted),))
