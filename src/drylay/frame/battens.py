"""Battens on the far faces of joists, one under the far end of each butt joint."""

from collections.abc import Mapping, Sequence

from attrs import field, frozen

from drylay.edges.model import Edges
from drylay.frame.model import Batten
from drylay.marks import MARK_320, ceil_mark, exact, floor_mark, to_mm
from drylay.pieces.model import Joint, Pieces
from drylay.supports.model import Supports
from drylay.surface.model import Row, Surface

#: How far a batten reaches past its row either way, for a clip and so as not to split; and the
#: shortest there is. Assumption.
PAST_MM, LEAST_MM = 50.0, 100.0


@frozen(kw_only=True)
class Battens:
    """All battens, and which of them lies under a joint, by its row and joist."""

    battens: tuple[Batten, ...] = ()
    under: Mapping[tuple[str, str], str] = field(factory=dict)


@frozen(kw_only=True)
class _Stretch:
    """From where to where battens lie under some rows, in 1/320 mm."""

    near: int
    far: int
    rows: tuple[str, ...]


def place_battens(
    pieces: Pieces,
    surface: Surface,
    edges: Edges,
    supports: Supports,
    *,
    off_rims_mm: float = 0.0,
    units: str = "metric",
) -> Battens:
    """Return the battens that carry the far ends of boards at joints.

    A batten lies on edge against its joist's face on the side away from the datum, from 50 mm
    before the near edge of its row to 50 mm past the far edge, outwards to marks. It keeps
    `off_rims_mm` from either rim. Those of one joist that would touch are one.

    Source: a batten beside the joist by common practice, no source; how far it reaches past its
    row is an assumption.
    """
    thick, mark = exact(supports.joist_thickness_mm), MARK_320[units]
    near = exact(edges.frame_near_mm) + thick + exact(off_rims_mm)
    far = exact(edges.frame_near_mm) + exact(edges.frame_depth_mm) - thick - exact(off_rims_mm)
    rows = {row.mark: row for row in surface.rows}
    by_joist: dict[str, list[_Stretch]] = {}
    for joint in pieces.joints:
        by_joist.setdefault(joint.joist, []).append(_stretch(joint, rows, (near, far), mark))
    battens: list[Batten] = []
    under: dict[tuple[str, str], str] = {}
    for number, line in enumerate(supports.lines, start=1):
        for stretch in _merged(by_joist.get(f"J{number}", [])):
            batten = Batten(
                mark=f"Q{len(battens) + 1}",
                joist=f"J{number}",
                offset_mm=to_mm(exact(line.offset_mm) + thick),
                near_mm=to_mm(stretch.near),
                length_mm=to_mm(stretch.far - stretch.near),
            )
            battens.append(batten)
            under |= {(row, batten.joist): batten.mark for row in stretch.rows}
    return Battens(battens=tuple(battens), under=under)


def _stretch(
    joint: Joint, rows: Mapping[str, Row], between: tuple[int, int], mark: int
) -> _Stretch:
    """Return where the batten under one joint lies, kept between the rims and not too short."""
    row, (lo, hi) = rows[joint.row], between
    row_near = exact(row.near_mm)
    row_far = row_near + exact(row.width_mm)
    near = max(floor_mark(row_near - exact(PAST_MM), mark), lo)
    far = min(ceil_mark(row_far + exact(PAST_MM), mark), hi)
    if far - near < exact(LEAST_MM):
        first = row_near + row_far < lo + hi
        near, far = (near, near + exact(LEAST_MM)) if first else (far - exact(LEAST_MM), far)
    return _Stretch(near=near, far=far, rows=(joint.row,))


def _merged(stretches: Sequence[_Stretch]) -> list[_Stretch]:
    merged: list[_Stretch] = []
    for stretch in sorted(stretches, key=lambda each: each.near):
        before = merged[-1] if merged else None
        if before is None or stretch.near > before.far:
            merged.append(stretch)
            continue
        rows = (*before.rows, *stretch.rows)
        merged[-1] = _Stretch(near=before.near, far=max(before.far, stretch.far), rows=rows)
    return merged


def clear_of(
    across: int, half: int, battens: Sequence[Batten], between: tuple[int, int], mark: int
) -> int:
    """Return the place nearest to `across` where a noggin lies clear of a bay's battens.

    All in 1/320 mm: `half` a noggin's thickness, `between` the rims' inner faces; on a mark where
    it moves. Of two as near, the one nearer the datum; where there is none, as it was.
    """
    lo, hi = between[0] + half, between[1] - half
    shut = [
        (exact(batten.near_mm) - half, exact(batten.near_mm) + exact(batten.length_mm) + half)
        for batten in battens
    ]
    spots = [
        across,
        *(floor_mark(a, mark) for a, _ in shut),
        *(ceil_mark(b, mark) for _, b in shut),
    ]
    free = [spot for spot in spots if lo <= spot <= hi and all(not a < spot < b for a, b in shut)]
    return min(free, key=lambda spot: (abs(spot - across), spot), default=across)
