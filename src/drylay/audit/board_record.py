"""The board's own record, witnessed: how deep an insert is let in, and what a metre weighs."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, same_length
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.ranking import board_of
from drylay.audit.rows import surface_of
from drylay.audit.wanted import buying_of
from drylay.plan.model import Plan

SOLD = conventions("Rows (surface); what is on sale")


def board_is_recorded(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless insert and mass of the board are those of its article."""
    stock = need(witness.stock, "stock as witness")
    board = need(board_of(plan, stock), "board in the stock")
    groove_mm = surface_of(plan).groove_mm or 0.0
    message = "not as deep as the article's insert"
    yield from same_length("surface.groove_mm", message, groove_mm, ticks(board.groove_mm), SOLD)
    brought = buying_of(plan).delivery
    if brought is not None and brought.board_kg_m != board.mass_kg_m:
        yield Flaw(
            subject="buying.delivery.board_kg_m",
            message="not what a metre of the article weighs",
            measured=brought.board_kg_m,
            limit=board.mass_kg_m,
            unit="kg/m",
            source=SOLD,
        )


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W28", "insert and mass of the board are as sold", board_is_recorded),
)
