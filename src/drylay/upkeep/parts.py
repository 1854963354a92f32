"""A plan's boards, tiles and timbers as flat shapes in the cover's axes, whichever deck it is."""

from collections.abc import Iterator

from drylay.errors import Fault, InputError
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.raised.model import RaisedFrame
from drylay.surface.model import Surface
from drylay.upkeep.model import Top, Under
from drylay.upkeep.plane import Place, box, spots_of

#: Kinds of members that joists' bays lie between.
CARRYING = ("joist", "pair", "trimmer", "double", "rim")


class UpkeepError(InputError):
    """What is asked about a deck's upkeep cannot be answered."""

    noun = "question about upkeep"


def refused(path: str, found: str, wanted: str, nearest: str = "") -> UpkeepError:
    """Return the error of one thing that is wrong with a question."""
    return UpkeepError((Fault(path=path, found=found, wanted=wanted, nearest=nearest),))


def tops(plan: Plan) -> tuple[Top, ...]:
    """Return everything that lies on top, row by row.

    Raises:
        UpkeepError: The plan is blocked and holds no boards.
    """
    if plan.laying is not None:
        return tuple(
            Top(mark=its.mark, row=its.row or its.mark, kind=its.kind, corners=its.corners)
            for its in plan.laying.pieces
        )
    if plan.tiles is not None:
        return tuple(
            Top(mark=its.mark, row=f"B{its.row}", kind="tile", corners=its.corners)
            for its in plan.tiles.tiles
        )
    if plan.surface is None or (plan.pieces is None and plan.tiling is None):
        raise refused("plan", "a blocked plan without boards", "a plan that can be built")
    found = _tiled(plan, plan.surface) if plan.tiling else _boards(plan, plan.surface)
    return tuple(found)


def _boards(plan: Plan, surface: Surface) -> Iterator[Top]:
    rows = {row.mark: row for row in surface.rows}
    for piece in plan.pieces.pieces if plan.pieces else ():
        row = rows[piece.row]
        yield Top(
            mark=piece.mark,
            row=piece.row,
            kind="border" if row.border else "field",
            corners=_laid(
                surface.run, piece.start_mm, row.near_mm, piece.length_mm, piece.width_mm
            ),
        )


def _tiled(plan: Plan, surface: Surface) -> Iterator[Top]:
    columns = plan.tiling.columns if plan.tiling else ()
    for row in surface.rows:
        for number, column in enumerate(columns, 1):
            size = (column.start_mm, row.near_mm, column.length_mm, row.width_mm)
            yield Top(
                mark=f"{row.mark}.{number}",
                row=row.mark,
                kind="tile",
                corners=_laid(surface.run, *size),
            )


def _laid(
    run: str, start_mm: float, near_mm: float, long_mm: float, wide_mm: float
) -> tuple[Spot, ...]:  # fmt: skip
    """Return the corners of a rectangle told in the boards' own axes."""
    one = upright(run, start_mm, near_mm)
    return spots_of(box(*one, *upright(run, start_mm + long_mm, near_mm + wide_mm)))


def upright(run: str, along_boards_mm: float, across_boards_mm: float) -> Place:
    """Return a place told in the boards' own axes as along the house, and away from it."""
    if run == "along":
        return along_boards_mm, across_boards_mm
    return across_boards_mm, along_boards_mm


def members(plan: Plan) -> tuple[Under, ...]:
    """Return every timber of the frame that boards may lie on; none under tiles on pads."""
    if plan.subframe is not None:
        return tuple(
            Under(mark=its.mark, kind=its.kind, corners=its.corners)
            for its in plan.subframe.members
            if its.kind != "splice"
        )
    return tuple(_framed(plan, plan.surface)) if plan.frame and plan.surface else ()


def _framed(plan: Plan, surface: Surface) -> Iterator[Under]:
    frame, run = plan.frame, surface.run
    if frame is None:
        return
    thick = frame.timber_thickness_mm
    for joist in frame.joists:
        start, size = joist.offset_mm - thick / 2, (thick, joist.length_mm)
        yield Under(mark=joist.mark, kind="joist",
                    corners=_laid(run, start, joist.near_mm, *size))  # fmt: skip
    for rim in (its for its in frame.rims if its.pieces):
        size = (rim.length_mm, thick)
        yield Under(mark=rim.mark, kind="rim",
                    corners=_laid(run, rim.start_mm, rim.near_mm, *size))  # fmt: skip
    for batten in frame.battens:
        start, size = batten.offset_mm - thick / 2, (thick, batten.length_mm)
        yield Under(mark=batten.mark, kind="batten",
                    corners=_laid(run, start, batten.near_mm, *size))  # fmt: skip
    at = {joist.mark: joist.offset_mm for joist in frame.joists}
    for noggin in frame.noggins:
        start = at[noggin.left] + (at[noggin.right] - at[noggin.left] - noggin.length_mm) / 2
        near, size = noggin.across_mm - thick / 2, (noggin.length_mm, thick)
        yield Under(mark=noggin.mark, kind="noggin", corners=_laid(run, start, near, *size))


def standing(plan: Plan) -> tuple[Under, ...]:
    """Return bearers and posts of a deck that stands, and its ledger; none of one that does not."""
    frame = plan.raised.frame if plan.raised else None
    return tuple(_standing(frame, bearers_run(plan))) if frame else ()


def bearers_run(plan: Plan) -> str:
    """Return which way bearers run: square to the joists."""
    if plan.subframe is not None:
        return "along" if plan.subframe.joist_run == "across" else "across"
    return plan.surface.run if plan.surface else "along"


def _standing(frame: RaisedFrame, run: str) -> Iterator[Under]:
    for bearer in frame.bearers:
        broad = bearer.section.breadth_mm * bearer.section.plies
        place = (bearer.start_mm, bearer.across_mm - broad / 2)
        size = (bearer.end_mm - bearer.start_mm, broad)
        yield Under(mark=bearer.mark, kind="bearer", corners=_laid(run, *place, *size))
    for post in frame.posts:
        half = post.section.breadth_mm / 2
        place = (post.place.along_mm - half, post.place.across_mm - half)
        yield Under(mark=post.mark, kind="post", corners=_laid(run, *place, 2 * half, 2 * half))


def ray_axis(plan: Plan) -> int:
    """Return the axis that runs square to the joists: 0 along the house, 1 away from it."""
    return 0 if bearers_run(plan) == "along" else 1
