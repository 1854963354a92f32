"""Packers under the thinner of two boards: how many, how high, which of those on sale."""

from collections.abc import Iterator
from decimal import Decimal

from drylay.buying.order import spare_count
from drylay.buying.packs import buy_packs
from drylay.findings import Finding, Severity
from drylay.fixings.model import BoardPackers, Fixings
from drylay.marks import exact
from drylay.materials.stock_model import Packer
from drylay.pieces.model import Pieces
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import Shape, in_boxes
from drylay.planner.cuts import STOCK_SOURCE
from drylay.planner.job import Job
from drylay.planner.rows import ARITHMETIC, Row, row
from drylay.reasons import TurnedDown
from drylay.units import length_text

AT = "fixings.board_packers"
WHAT = "board packers"


def board_packers(job: Job, shaped: Shape, pieces: Pieces) -> BoardPackers | None:
    """Return the packers under the thinner boards, None where both are of one thickness."""
    border = shaped.surface.border
    if border is None or not border.packed:
        return None
    edged = border.packed == "border"
    rows = {row.mark for row in shaped.surface.rows if row.border == edged}
    count = len(rows) * shaped.supports.line_count
    if shaped.supports.battens_per_joint:
        count += sum(joint.row in rows for joint in pieces.joints)
    suiting = _suiting(job, border.packing_mm, count)
    return BoardPackers(
        article=suiting[0].code if suiting else "", height_mm=border.packing_mm, count=count
    )


def _plain(job: Job) -> list[Packer]:
    """Return the packers on sale that are of one height: no pedestal stands on a joist."""
    return [each for each in job.stock.packers if each.least_mm == each.most_mm]


def _suiting(job: Job, height_mm: float, count: int) -> list[Packer]:
    """Return the plain packers just so high, the cheapest first, of equals by code."""
    found = [each for each in _plain(job) if exact(each.least_mm) == exact(height_mm)]
    return sorted(found, key=lambda each: (_cost(job, each, count), each.code))


def _cost(job: Job, packer: Packer, count: int) -> Decimal:
    spare = spare_count(job.rules.value("buying.spare_ratio"), count)
    return buy_packs(
        what=WHAT, article=packer.code, need=count, spare=spare, packs=packer.packs
    ).cost


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return the packers to buy, nothing where none are wanted or none suit."""
    packers = fixings.board_packers
    named = [each for each in job.stock.packers if packers and each.code == packers.article]
    return tuple(in_boxes(WHAT, each, packers.count) for each in named if packers)


def rows(job: Job, built: Built) -> list[Row]:
    """Return the decisions taken here."""
    packers, surface = built.fixings.board_packers, built.surface
    if packers is None:
        return []
    suiting = _suiting(job, packers.height_mm, packers.count)
    others = tuple(
        TurnedDown(value=each.code, because=f"{_cost(job, each, packers.count)} in packs")
        for each in suiting[1:]
    )
    taken = f"{packers.article}, the cheapest just so high" if suiting else "none is sold so high"
    return [
        row(f"{AT}.height_mm", packers.height_mm, "mm",
            f"by how much one board is thinner: {taken}", ARITHMETIC, (), others),
        row(f"{AT}.count", packers.count, "count",
            "one under each row of the thinner boards on every joist, both of a pair, and on a "
            "batten at each joint", ARITHMETIC,
            (("packed_rows", sum(each.border == _edged(built) for each in surface.rows)),
             ("line_count", built.supports.line_count))),
    ]  # fmt: skip


def _edged(built: Built) -> bool:
    border = built.surface.border
    return border is not None and border.packed == "border"


def remarks(job: Job, built: Built) -> Iterator[Finding]:
    """Yield that the thinner board lies on packers, and where none on sale is so high."""
    packers, border, units = built.fixings.board_packers, built.surface.border, job.brief.units
    if packers is None or border is None:
        return
    high = length_text(packers.height_mm, units)
    told = (f"the {border.packed}'s boards are thinner: {packers.count} packers of {high} under "
            "them, one on every joist; the screws' least length already reckons with "
            "them")  # fmt: skip
    yield _caution("BDR-003", told, None, None)
    if packers.article:
        return
    heights = sorted((each.least_mm for each in _plain(job)),
                     key=lambda mm: (abs(mm - packers.height_mm), mm))  # fmt: skip
    nearest = f"the nearest is {length_text(heights[0], units)}" if heights else "there is none"
    yield _caution(
        "BDR-014", f"no plain packer of {high} is on sale, {nearest}: {packers.count} are not in "
        "the order; plane strips to it, or name a border as thick as the field",
        heights[0] if heights else None, packers.height_mm)  # fmt: skip


def _caution(code: str, message: str, measured: float | None, limit: float | None) -> Finding:
    return Finding(
        code=code,
        severity=Severity.CAUTION,
        subject="thickness",
        message=message,
        measured=measured,
        limit=limit,
        unit="" if measured is None and limit is None else "mm",
        source=ARITHMETIC if code == "BDR-003" else STOCK_SOURCE,
    )
