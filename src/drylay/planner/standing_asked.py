"""What a brief names of strength and region, found; faults of names that nobody supplies."""

from drylay.brief.model import Brief
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import DesignBasis
from drylay.strength.nds_basis import us_allowable_stress


def basis_named(brief: Brief) -> DesignBasis | None:
    """Return the design basis that a brief names, None where it names none."""
    named = {each.id: each for each in (eurocode_5(), us_allowable_stress())}
    return None if brief.strength.basis is None else named[brief.strength.basis]
