"""The fascia of an outline's faced sides: laid out by its corners, cut from the stock, bought."""

from attrs import frozen

from drylay.buying.model import Purchase
from drylay.outline.model import Outline
from drylay.planner.build import fascia_reach_mm
from drylay.planner.buy import Blocked
from drylay.planner.cuts import Cutter
from drylay.planner.outlined_frame import cut_facings
from drylay.planner.outlined_job import mark_mm
from drylay.subframe.facings import facing_run_mm, facings
from drylay.subframe.model import Facing


@frozen(kw_only=True)
class Faced:
    """All fascia with its purchase: nothing where no side is faced."""

    facings: tuple[Facing, ...] = ()
    purchases: tuple[Purchase, ...] = ()
    run_mm: float = 0.0
    thickness_mm: float = 0.0


def face_sides(cutter: Cutter, outline: Outline) -> Faced | Blocked:
    """Return the fascia in the longest parts that can be bought, or why there are none."""
    job, fascia = cutter.job, cutter.job.articles.fascia
    run_mm = facing_run_mm(outline)
    if fascia is None or not run_mm:
        return Faced()
    first: Blocked | None = None
    for reach_mm in fascia_reach_mm(job) or [0.0]:
        laid = facings(
            outline,
            thickness_mm=fascia.thickness_mm,
            longest_mm=reach_mm,
            mark_mm=mark_mm(job),
        )
        bought = cut_facings(cutter, laid)
        if not isinstance(bought, Blocked):
            return Faced(
                facings=laid, purchases=bought, run_mm=run_mm, thickness_mm=fascia.thickness_mm
            )
        first = first or bought
    assert first is not None
    return first
