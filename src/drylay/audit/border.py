"""A border: its rows at either edge, the gaps beside it, what it leaves, what packs it up."""

from collections.abc import Iterator

from drylay.audit.edged import border_rows, taken_by_border
from drylay.audit.exact import ticks
from drylay.audit.fixings import fixings_of
from drylay.audit.flaws import conventions, off_by, same_count, same_length, same_text
from drylay.audit.frame import frame_of
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.pieces import pieces_of
from drylay.audit.rows import surface_of
from drylay.audit.supports import supports_of
from drylay.plan.model import Plan
from drylay.surface.model import Border

BORDER = conventions("Border")
AT = "surface.border"
PACKERS = "fixings.board_packers"


def border_rows_lie_outside(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless just the first and last rows told are the border's, whole boards."""
    surface = surface_of(plan)
    border, count = surface.border, len(surface.rows)
    edge = 0 if border is None else border.rows
    for index, row in enumerate(surface.rows):
        outside = index < edge or index >= count - edge
        if row.border != outside:
            message = "of the border inside the field, or of the field where the border is"
            yield Flaw(subject=row.mark, message=message, source=BORDER)
    for row in border_rows(surface) if border is not None else ():
        width = ticks(border.width_mm) if border else 0
        yield from same_length(row.mark, "not its board's width", row.width_mm, width, BORDER)
        if row.ripped:
            yield Flaw(subject=row.mark, message="a border is not ripped", source=BORDER)
    if border is not None and (border.rows < 1 or count <= 2 * border.rows):
        message = "no border, or no field"
        yield from same_count(f"{AT}.rows", message, border.rows, max(count - 1, 0) // 2, BORDER)


def gaps_beside_suit_both(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless gaps of the border are in order, and that beside it suits both boards."""
    surface = surface_of(plan)
    border = surface.border
    if border is None:
        return
    own = [ticks(border.gap_least_mm), ticks(border.gap_preferred_mm), ticks(border.gap_most_mm)]
    if own != sorted(own) or own[0] < 0:
        yield off_by(f"{AT}.gap_preferred_mm", "its gaps are not in order", own[1], own[0], BORDER)
    least = max(own[0], ticks(surface.gap_least_mm))
    most = min(own[2], ticks(surface.gap_most_mm))
    message = "not what both boards allow"
    yield from same_length(f"{AT}.beside_least_mm", message, border.beside_least_mm, least, BORDER)
    yield from same_length(f"{AT}.beside_most_mm", message, border.beside_most_mm, most, BORDER)
    if least > most:
        yield off_by(f"{AT}.beside_mm", "no gap suits both boards", least, most, BORDER)
    wanted = min(max(ticks(surface.gap_preferred_mm), least), most)
    message = "not the field's preferred gap, moved into what both allow"
    yield from same_length(f"{AT}.beside_mm", message, border.beside_mm, wanted, BORDER)


def field_is_what_is_left(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless the field is as deep as the border leaves of the wished cover."""
    surface = surface_of(plan)
    if surface.border is not None:
        wished = ticks(surface.rows_depth_mm) - ticks(surface.cover_change_mm)
        left = wished - taken_by_border(surface.border)
        told, message = surface.border.field_depth_mm, "not what the border leaves"
        yield from same_length(f"{AT}.field_depth_mm", message, told, left, BORDER)


def thinner_boards_are_packed(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless packers make up for the thinner board, and a finding tells of them."""
    surface = surface_of(plan)
    border = surface.border
    if border is None:
        return
    thinner = ticks(surface.board_thickness_mm) - ticks(border.thickness_mm)
    message = "not by how much one board is thinner"
    yield from same_length(f"{AT}.packing_mm", message, border.packing_mm, abs(thinner), BORDER)
    wanted = "border" if thinner > 0 else "field" if thinner < 0 else ""
    yield from same_text(f"{AT}.packed", "not the thinner", border.packed, wanted, BORDER)
    yield from _told(plan, border)


def _told(plan: Plan, border: Border) -> Iterator[Flaw]:
    """Yield what a builder must be told of two boards, and is not."""
    told = {finding.code for finding in plan.findings}
    surface = surface_of(plan)
    field = (surface.gap_least_mm, surface.gap_most_mm)
    own = (border.gap_least_mm, border.gap_most_mm)
    needed = {
        "BDR-003": border.packing_mm > 0,
        "BDR-004": (field[0] == field[1]) != (own[0] == own[1]),
        "BDR-005": field != own,
    }
    for code in (code for code, holds in needed.items() if holds and code not in told):
        yield Flaw(subject=code, message="not among the findings", source=BORDER)


def board_packers_are_counted(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless there is a packer under each row of the thinner boards on each joist.

    On a batten at a joint there is one more. One that no article is named for is told of.
    """
    surface, packers = surface_of(plan), fixings_of(plan).board_packers
    border = surface.border
    wanted = border is not None and ticks(border.thickness_mm) != ticks(surface.board_thickness_mm)
    if border is None or packers is None or not wanted:
        if (packers is not None) != wanted:
            message = "packers that nobody needs" if packers else "no packers under the thinner"
            yield Flaw(subject=PACKERS, message=message, source=BORDER)
        return
    own = ticks(border.thickness_mm) < ticks(surface.board_thickness_mm)
    rows = {row.mark for row in surface.rows if row.border == own}
    count = len(rows) * len(frame_of(plan).joists)
    if supports_of(plan).battens_per_joint:
        count += sum(joint.row in rows for joint in pieces_of(plan).joints)
    message = "not one on each joist"
    yield from same_count(f"{PACKERS}.count", message, packers.count, count, BORDER)
    high = abs(ticks(border.thickness_mm) - ticks(surface.board_thickness_mm))
    message = "not by how much one board is thinner"
    yield from same_length(f"{PACKERS}.height_mm", message, packers.height_mm, high, BORDER)
    if not packers.article and "BDR-014" not in {finding.code for finding in plan.findings}:
        yield Flaw(subject="BDR-014", message="not among the findings", source=BORDER)


def parts_of_a_border_go_together(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each part of the plan that tells of a border where there is none."""
    border, fixings = surface_of(plan).border, fixings_of(plan)
    brought = plan.buying.delivery if plan.buying is not None else None
    parts = {
        "pieces.border": pieces_of(plan).border,
        "fixings.border_screws": fixings.border_screws,
        "fixings.border_use_class_least": fixings.border_use_class_least,
        "fixings.seal_border_ends": fixings.seal_border_ends,
        "fixings.wax_border_ends": fixings.wax_border_ends,
        "buying.delivery.border_density_kg_m3": brought and brought.border_density_kg_m3,
    }
    for path, part in parts.items():
        if (part is None) != (border is None) and not (brought is None and "buying" in path):
            message = "a border in one part of the plan, and none in another"
            yield Flaw(subject=path, message=message, source=BORDER)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-141", "a border's rows lie outside, whole boards of it", border_rows_lie_outside),
    ("AUD-142", "gaps beside a border suit both boards", gaps_beside_suit_both),
    ("AUD-143", "the field is what the border leaves", field_is_what_is_left),
    ("AUD-144", "the thinner board is packed up, and what differs is told",
     thinner_boards_are_packed),
    ("AUD-146", "packers under the thinner board are counted, and as high as it takes",
     board_packers_are_counted),
    ("AUD-145", "all parts of the plan tell of one border", parts_of_a_border_go_together),
)  # fmt: skip
