"""What a brief names of strength and region, found; faults of names that nobody supplies."""

from collections.abc import Callable
from functools import cache
from typing import Any

from attrs import evolve

from drylay.brief.model import Brief
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import DesignBasis, Screened
from drylay.strength.nds_basis import us_allowable_stress


def basis_named(brief: Brief) -> DesignBasis | None:
    """Return the design basis that a brief names, None where it names none."""
    named = {each.id: each for each in (eurocode_5(), us_allowable_stress())}
    return None if brief.strength.basis is None else asked_once(named[brief.strength.basis])


def asked_once(basis: DesignBasis) -> DesignBasis:
    """Return a basis with a memory: whoever asks the same again hears the same.

    For one design, which asks much of the same twice; thrown away with it.
    """
    return evolve(basis, beam=_kept(basis.beam), post=_kept(basis.post), board=_kept(basis.board),
                  ledger=_kept(basis.ledger), loads=cache(basis.loads))  # fmt: skip


def _kept(answer: Callable[[Any, str], Screened]) -> Callable[[Any, str], Screened]:
    return cache(answer)
