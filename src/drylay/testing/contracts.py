"""The kits as classes that pytest runs: one test for each law. pytest itself is not needed here.

In a test file, whole:

    from drylay.testing import FamilyContract

    class TestLarch(FamilyContract):
        family = "larch"
"""

import os
from collections.abc import Callable, Collection, Iterable, Mapping
from pathlib import Path
from typing import Any, ClassVar, TypeVar

from drylay.materials.loader import load_catalogue
from drylay.materials.model import Family, RuleQuery
from drylay.materials.stock_model import Catalogue
from drylay.planner.bases import installed_design_bases
from drylay.plugins.basis_guard import find_basis
from drylay.plugins.guard import find_family, suspects
from drylay.plugins.loading import installed_families
from drylay.strength.model import DesignBasis
from drylay.testing.bases import BASIS_LAWS, check_basis
from drylay.testing.boards import BOARDS
from drylay.testing.families import FAMILY_LAWS, check_family
from drylay.testing.model import BrokenLaw
from drylay.testing.stocks import STOCK_LAWS, check_stock

Tests = Callable[[Any], None]
_Kit = TypeVar("_Kit", bound=type)


def _with_tests(laws: Mapping[str, str]) -> Callable[[_Kit], _Kit]:
    """Return what gives a class one test for each law."""

    def give(kit: _Kit) -> _Kit:
        for law, says in laws.items():
            setattr(kit, f"test_{law.replace(' ', '_')}", _test_of(law, says))
        return kit

    return give


def _test_of(law: str, says: str) -> Tests:
    def test(self: Any) -> None:
        broken = [str(each) for each in self.broken_laws() if each.law == law]
        assert not broken, "\n".join(broken)

    test.__doc__ = f"{says[:1].upper()}{says[1:]}."
    return test


@_with_tests({law: says for law, (says, _) in FAMILY_LAWS.items()})
class FamilyContract:
    """A family's test: name it, and each law of families is a test of its own.

    `family` is a Family, or the id of one that an installed plugin supplies. `boards` are what it
    is asked about, `not_covered` the rules that it is meant to leave without an answer.
    """

    family: ClassVar[Family | str] = ""
    boards: ClassVar[Iterable[RuleQuery]] = BOARDS
    not_covered: ClassVar[Collection[str]] = ()

    @classmethod
    def broken_laws(cls) -> tuple[BrokenLaw, ...]:
        """Return every law that the family breaks, looked at once for all tests."""
        found: tuple[BrokenLaw, ...] | None = cls.__dict__.get("_broken")
        if found is None:
            family = _family(cls.family)
            found = check_family(family, boards=tuple(cls.boards), not_covered=cls.not_covered)
            cls._broken = found  # type: ignore[attr-defined]
        return found


@_with_tests({law: each.says for law, each in STOCK_LAWS.items()})
class StockContract:
    """A catalogue's test: name it, and each law of catalogues is a test of its own.

    `catalogue` is a Catalogue, or the path of a stock file. `known_families` are the ids that
    its boards may name; None where any will do.
    """

    catalogue: ClassVar[Catalogue | str | os.PathLike[str]] = ""
    known_families: ClassVar[Collection[str] | None] = None

    @classmethod
    def broken_laws(cls) -> tuple[BrokenLaw, ...]:
        """Return every law that the catalogue breaks, looked at once for all tests."""
        found: tuple[BrokenLaw, ...] | None = cls.__dict__.get("_broken")
        if found is None:
            given = cls.catalogue
            stock = load_catalogue(Path(given)) if isinstance(given, str | os.PathLike) else given
            found = check_stock(stock, known_families=cls.known_families)
            cls._broken = found  # type: ignore[attr-defined]
        return found


@_with_tests({law: says for law, (says, _) in BASIS_LAWS.items()})
class BasisContract:
    """A design basis's test: name it, and each law of bases is a test of its own.

    `basis` is a DesignBasis, or the id of one that an installed plugin supplies. `wood`, `fixing`
    and `use` are such as it covers: what the kit asks it about. So is `bolt`, of a guard's post:
    "" only where the basis knows no guards' posts.
    """

    basis: ClassVar[DesignBasis | str] = ""
    wood: ClassVar[str] = ""
    fixing: ClassVar[str] = ""
    use: ClassVar[str] = "dwelling"
    bolt: ClassVar[str] = ""

    @classmethod
    def broken_laws(cls) -> tuple[BrokenLaw, ...]:
        """Return every law that the basis breaks, looked at once for all tests."""
        found: tuple[BrokenLaw, ...] | None = cls.__dict__.get("_broken")
        if found is None:
            basis = _basis(cls.basis)
            found = check_basis(basis, wood=cls.wood, fixing=cls.fixing, use=cls.use, bolt=cls.bolt)
            cls._broken = found  # type: ignore[attr-defined]
        return found


def _basis(named: DesignBasis | str) -> DesignBasis:
    if not isinstance(named, str):
        return named
    bases = installed_design_bases()
    found = find_basis(bases, named)
    failed = "".join(f"; {fault}" for fault in suspects(bases, named))
    assert found is not None, f"no installed plugin supplies the design basis {named!r}{failed}"
    return found.basis


def _family(named: Family | str) -> Family:
    if not isinstance(named, str):
        return named
    families = installed_families()
    found = find_family(families, named)
    failed = "".join(f"; {fault}" for fault in suspects(families, named))
    assert found is not None, f"no installed plugin supplies the family {named!r}{failed}"
    return found.family
