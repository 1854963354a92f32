"""Screws of noggins and splices, and hangers: counted from the frame."""

from attrs import frozen

from drylay.fixings.model import FrameScrews, Hangers
from drylay.frame.model import Frame
from drylay.marks import PER_MM, exact, to_mm

#: A hanger is at least so many fifths of the joist's depth. Source: US residential deck guidance,
#: from memory: 60 %.
HANGER_FIFTHS = 3
#: How far a hanger's width may be off the joist's thickness. Assumption.
HANGER_OFF_MM = 1.0


@frozen(kw_only=True)
class FrameScrewRules:
    """What governs the screws of noggins, splices and battens."""

    per_noggin_end: int
    per_splice_side: int
    per_batten_joint: int | None = None
    length_least_mm: float
    pilot_ratio: float


def count_frame_screws(
    frame: Frame,
    rules: FrameScrewRules,
    *,
    article: str,
    shank_mm: float,
    length_mm: float,
    driver: str = "",
    batten_joints: int | None = None,
) -> FrameScrews | None:
    """Return the screws at both ends of every noggin and on both sides of every splice's joint.

    And those of battens, so many for each joint that lies on one. None for a frame with none of
    these.

    Source: counting; two a noggin end and four a splice side by common practice, no source.
    """
    ends, sides = 2 * len(frame.noggins), 2 * len(frame.splices)
    held = (rules.per_batten_joint or 0) * (batten_joints or 0)
    if not ends + sides + held:
        return None
    return FrameScrews(
        article=article,
        driver=driver,
        shank_mm=shank_mm,
        length_mm=length_mm,
        length_least_mm=rules.length_least_mm,
        per_noggin_end=rules.per_noggin_end,
        noggin_ends=ends,
        per_splice_side=rules.per_splice_side,
        splice_sides=sides,
        count=rules.per_noggin_end * ends + rules.per_splice_side * sides + held,
        pilot_ratio=rules.pilot_ratio,
        pilot_mm=to_mm(exact(shank_mm * rules.pilot_ratio)),
        per_batten_joint=None if batten_joints is None else rules.per_batten_joint,
        batten_joints=batten_joints,
    )


def hanger_depth_least_mm(joist_depth_mm: float) -> float:
    """Return the least depth of a hanger, rounded up to 1/320 mm.

    Source: US residential deck guidance, from memory: 60 % of the joist.
    """
    return -(-HANGER_FIFTHS * exact(joist_depth_mm) // 5) / PER_MM


def count_hangers(
    frame: Frame,
    *,
    article: str,
    joist_mm: float,
    depth_mm: float,
    screw: str,
    screw_shank_mm: float,
    screw_length_mm: float,
    screws_each: int,
    driver: str = "",
    paired: int = 0,
) -> Hangers | None:
    """Return a hanger at both ends of every joist but the outer two; None where there is none.

    The outer two stay on coach screws: a hanger's flange does not fit at a corner. Nor does it
    between the two joists of a pair: all `paired` stay on coach screws too. Between bearers every
    part of every joist hangs at both ends, the outer two as well.

    Source: counting.
    """
    count = 2 * (len(frame.joists) - 2 - paired)
    if frame.hung:
        count = 2 * len(frame.joists_sawn)
    if count <= 0:
        return None
    return Hangers(
        article=article,
        joist_mm=joist_mm,
        depth_mm=depth_mm,
        depth_least_mm=hanger_depth_least_mm(frame.timber_depth_mm),
        count=count,
        screw=screw,
        screw_shank_mm=screw_shank_mm,
        screw_length_mm=screw_length_mm,
        driver=driver,
        screws_each=screws_each,
        screw_count=count * screws_each,
    )
