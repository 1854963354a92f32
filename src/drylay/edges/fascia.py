"""Fascia: what it takes off the cover, and its faces and pieces."""

from collections.abc import Iterable
from itertools import pairwise

from drylay.edges.model import Edges, FasciaFace, FasciaPiece
from drylay.marks import MARK_320, exact, nearest_mark, to_mm

#: The sides at the start and end of the boards, and at the near and far edge of the rows.
ENDS = {"along": ("left", "right"), "across": ("house", "front")}
EDGES = {"along": ("house", "front"), "across": ("left", "right")}
_PARALLEL_TO_HOUSE = ("house", "front")


def lay_out_edges(
    *,
    run: str,
    row_length_mm: float,
    rows_depth_mm: float,
    sides: Iterable[str],
    article: str = "",
    thickness_mm: float = 0.0,
    depth_mm: float = 0.0,
    longest_mm: float = 0.0,
    units: str = "metric",
) -> Edges:
    """Return the fascia faces and the frame that is left inside them.

    A planted fascia comes off the cover first. Faces on the longer sides of the cover run
    corner to corner and cover the ends of the short ones; on a square, those along the
    house do. A face longer than `longest_mm` is butted from the fewest equal parts.

    Source: arithmetic; long faces over short by common practice, no source.
    """
    faced = tuple(side for side in ("house", "right", "front", "left") if side in set(sides))
    took = {
        side: (exact(thickness_mm) if side in faced else 0)
        for side in (*ENDS["along"], *EDGES["along"])
    }
    start, end = (took[side] for side in ENDS[run])
    near, far = (took[side] for side in EDGES[run])
    length, depth = exact(row_length_mm), exact(rows_depth_mm)
    frame_length, frame_depth = length - start - end, depth - near - far
    ends_long = depth > length or (depth == length and ENDS[run] == _PARALLEL_TO_HOUSE)
    sizes = {
        **dict.fromkeys(ENDS[run], depth if ends_long else frame_depth),
        **dict.fromkeys(EDGES[run], frame_length if ends_long else length),
    }
    faces = tuple(
        _face(side, sizes[side], (side in ENDS[run]) == ends_long, exact(longest_mm), units)
        for side in faced
    )
    return Edges(
        fascia_article=article if faced else "",
        fascia_thickness_mm=thickness_mm if faced else 0.0,
        fascia_depth_mm=depth_mm if faced else 0.0,
        faces=faces,
        frame_start_mm=to_mm(start),
        frame_near_mm=to_mm(near),
        frame_length_mm=to_mm(frame_length),
        frame_depth_mm=to_mm(frame_depth),
    )


def _face(side: str, length: int, long_face: bool, longest: int, units: str) -> FasciaFace:
    mark = f"F-{side}"
    parts = _equal_parts(length, longest, MARK_320[units])
    return FasciaFace(
        mark=mark,
        side=side,
        length_mm=to_mm(length),
        long_face=long_face,
        pieces=tuple(
            FasciaPiece(mark=f"{mark}.{number}", length_mm=to_mm(part))
            for number, part in enumerate(parts, start=1)
        ),
    )


def _equal_parts(length: int, longest: int, mark: int) -> list[int]:
    """Return the fewest equal parts no longer than the longest on sale, butted on marks.

    Where a part rounded to marks would not fit the longest, the parts are left as they are.
    """
    count = max(1, -(-length // longest)) if longest else 1
    exactly = [length * number // count for number in range(count + 1)]
    marked = [0, *(nearest_mark(at, mark) for at in exactly[1:-1]), length]
    parts = [after - before for before, after in pairwise(marked)]
    if count == 1 or max(parts) <= longest:
        return parts
    return [after - before for before, after in pairwise(exactly)]
