"""Every call of a design basis's functions: what goes wrong in one stops what it was asked for."""

from collections.abc import Callable, Iterator
from decimal import localcontext

from attrs import evolve

from drylay.errors import InputError
from drylay.plugins.basis_shapes import loads_wrongs, screened_wrongs
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.model import BasisSet, InstalledBasis
from drylay.plugins.shapes import MOST_TEXT, told
from drylay.reasons import Source
from drylay.strength.model import (
    BeamAsked,
    BoardAsked,
    DeckLoads,
    DesignBasis,
    GuardPostAsked,
    LedgerAsked,
    PostAsked,
    Screened,
)

Asked = BeamAsked | PostAsked | BoardAsked | LedgerAsked | GuardPostAsked


def find_basis(bases: BasisSet, basis_id: str) -> InstalledBasis | None:
    """Return the design basis with this id, None where no plugin supplies it."""
    for installed in bases.bases:
        if installed.basis.id == basis_id:
            return installed
    return None


def loads_by(installed: InstalledBasis, use: str) -> DeckLoads:
    """Return what a use lays on a deck by a basis; where that cannot be believed a stop, and 0."""
    answer = _answer(installed, lambda: installed.basis.loads(use), lambda a: loads_wrongs(a, use))
    if isinstance(answer, DeckLoads):
        return answer
    return DeckLoads(
        use=use,
        dead_kn_m2=0.0,
        own_weight_apart=True,
        imposed_kn_m2=0.0,
        point_kn=0.0,
        source=Source(
            kind="assumption", title="no answer to be believed", clause=_named(installed)
        ),
        stops=(str(answer),),
    )


def screened_by(installed: InstalledBasis, asked: Asked, use: str) -> Screened:
    """Return a basis's answer about a member; where that cannot be believed a stop and no check.

    The basis is shown a copy. A stop says the kind of fault, what went wrong, and whose it is.
    """
    answer = _answer(
        installed,
        lambda: _asking(installed, asked, use),
        lambda found: screened_wrongs(found, asked.subject, wordy=isinstance(asked, BoardAsked)),
    )
    if isinstance(answer, Screened):
        return evolve(answer, basis=installed.basis.id)
    basis = installed.basis.id
    return Screened(basis=basis, subject=asked.subject, checks=(), stops=(str(answer),))


def _asking(installed: InstalledBasis, asked: Asked, use: str) -> object:
    basis = installed.basis
    match asked:
        case BeamAsked():
            return basis.beam(evolve(asked), use)
        case PostAsked():
            return basis.post(evolve(asked), use)
        case BoardAsked():
            return basis.board(evolve(asked), use)
        case LedgerAsked():
            return basis.ledger(evolve(asked), use)
        case GuardPostAsked():
            return _guard_post(basis, asked, use)


def _guard_post(basis: DesignBasis, asked: GuardPostAsked, use: str) -> Screened:
    if basis.guard_post is None:
        raise NotCoveredError("it knows nothing of guards' posts")
    return basis.guard_post(evolve(asked), use)


def _answer(
    installed: InstalledBasis,
    asking: Callable[[], object],
    wrongs_of: Callable[[object], Iterator[str]],
) -> object:
    """Return what a basis answers, or a text that says what is wrong with it."""
    try:
        with localcontext():  # what a plugin sets for its own decimals is not ours
            answer = asking()
        wrongs = "; ".join(wrongs_of(answer))
    except NotCoveredError as error:
        return _stop(installed, "not covered", told(error))
    except InputError as error:
        return _stop(installed, "not covered", _faults(error))
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # a plugin may raise what it likes: it spoils only itself
        return _stop(installed, "failed", told(error))
    return _stop(installed, "bad answer", wrongs) if wrongs else answer


def _faults(error: InputError) -> str:
    try:
        return "; ".join(" ".join(str(fault).split()) for fault in error.faults) or told(error)
    except Exception:
        return told(error)


def _stop(installed: InstalledBasis, kind: str, wrong: str) -> str:
    """Return a stop as a text that plans and papers can hold, whatever a plugin says."""
    said = "".join(sign if sign.isprintable() else "?" for sign in wrong)
    return f"{_named(installed)}: {kind}: {said}"[:MOST_TEXT]


def _named(installed: InstalledBasis) -> str:
    origin = installed.origin
    package = f" of package {origin.package}" if origin.package else ""
    return f"design basis {installed.basis.id} (plugin {origin.plugin}{package})"
