"""What a brief names of strength and region, found; faults of names that nobody supplies."""

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from typing import Any

from attrs import evolve

from drylay.brief.model import Brief
from drylay.errors import Fault, InputError
from drylay.intake.words import nearest_of
from drylay.plugins.basis_guard import find_basis, loads_by, screened_by
from drylay.plugins.basis_words import fits
from drylay.plugins.model import BasisSet, InstalledBasis
from drylay.regions.packs import PACKS, region_pack, soil_named
from drylay.strength.model import DesignBasis, Screened


def bases_for(brief: Brief, bases: BasisSet | None) -> BasisSet:
    """Return the bases to look among: those handed in, else the installed, if any is named."""
    if bases is not None:
        return bases
    if brief.strength.basis is None:
        return BasisSet()
    from drylay.planner.bases import installed_design_bases

    return installed_design_bases()


def standing_faults(brief: Brief, bases: BasisSet) -> tuple[Fault, ...]:
    """Return a fault for every basis, sharing, region and soil named that there is not."""
    named = brief.strength.basis
    found = None if named is None else find_basis(bases, named)
    return (*_of_basis(brief, found, bases), *_of_region(brief))


def basis_named(brief: Brief, bases: BasisSet) -> DesignBasis | None:
    """Return the design basis that a brief names, None where it names none.

    Each of its functions is guarded, and has a memory: whoever asks the same again hears the same.
    For one design, which asks much of the same twice; thrown away with it.
    """
    named = brief.strength.basis
    found = None if named is None else find_basis(bases, named)
    return None if found is None else _asked_once(found)


def _of_basis(brief: Brief, found: InstalledBasis | None, bases: BasisSet) -> Iterator[Fault]:
    wish = brief.strength
    if wish.basis is not None and found is None:
        yield _unknown("strength.basis", wish.basis, [each.basis.id for each in bases.bases])
    sharing, words = wish.sharing, found.basis.sharings if found is not None else ()
    if found is not None and sharing is not None and not fits(sharing, words):
        yield _unknown("strength.sharing", sharing, words)


def _of_region(brief: Brief) -> Iterator[Fault]:
    site = brief.site
    if site.region is not None and site.region not in PACKS:
        yield _unknown("site.region", site.region, PACKS)
    elif site.region is not None and (site.soil is not None or brief.raised.post is not None):
        pack = region_pack(site.region)
        try:
            soil_named(pack, site.soil or "")
        except InputError:
            known = [soil.name for soil in pack.soils]
            yield _unknown("site.soil", site.soil or "", known)


def _unknown(path: str, found: str, known: Iterable[str]) -> Fault:
    words = tuple(known)
    wanted = "one of " + ", ".join(map(repr, words)) if words else "none: nothing supplies any"
    return Fault(
        path=path, found=repr(found), wanted=wanted, nearest=nearest_of(found, words) or ""
    )


def _asked_once(installed: InstalledBasis) -> DesignBasis:
    answer = _kept(lambda asked, use: screened_by(installed, asked, use))
    knows_guards = installed.basis.guard_post is not None
    return evolve(
        installed.basis, beam=answer, post=answer, board=answer, ledger=answer,
        guard_post=answer if knows_guards else None,
        loads=cache(lambda use: loads_by(installed, use)),
    )  # fmt: skip


def _kept(answer: Callable[[Any, str], Screened]) -> Callable[[Any, str], Screened]:
    return cache(answer)
