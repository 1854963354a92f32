"""What boards ask for by their make: told, or stopped, where the brief's site wants it."""

from collections.abc import Iterator

from drylay.audit.flaws import conventions, need, of_boards
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.rows import surface_of
from drylay.plan.model import Plan

ROWS = conventions("Rows (surface)")


def nothing_burns_on_a_roof(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for boards that burn, planned on what the brief says is a roof."""
    of_boards(plan)
    site = need(witness.brief, "brief as witness").site
    if site.roof and surface_of(plan).combustible:
        message = "boards that burn, on a roof or balcony: that stops every plan"
        yield Flaw(subject="surface.combustible", message=message, source=ROWS)


#: With brief and stock at hand.
HELD: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W90", "no boards that burn lie on a roof", nothing_burns_on_a_roof),
)
