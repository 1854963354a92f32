"""The laws that every design basis keeps, and the kit that looks whether one does."""

from collections.abc import Callable, Iterator
from itertools import pairwise

from attrs import evolve, frozen

from drylay.errors import InputError
from drylay.plugins.basis_guard import Asked
from drylay.plugins.basis_shapes import basis_wrongs, loads_wrongs, screened_wrongs
from drylay.plugins.hooks import NotCoveredError
from drylay.plugins.shapes import told
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
from drylay.testing.basis_samples import NEVER, Ladder, ladders, members, nonsense
from drylay.testing.model import BrokenLaw

SHAPE = "shape"
#: What sums of floats may leave.
_NOISE_RATIO = 1e-9


@frozen(kw_only=True)
class AskedOf:
    """A basis, and the words by which its kit asks: a wood, a fixing, a use that it covers.

    `bolt` is one of a guard's post: "" where guards' posts are not asked about.
    """

    basis: DesignBasis
    wood: str
    fixing: str
    use: str
    bolt: str = ""


BasisLaw = Callable[[AskedOf], Iterator[BrokenLaw]]


def check_basis(
    basis: DesignBasis, *, wood: str, fixing: str, use: str = "dwelling", bolt: str = ""
) -> tuple[BrokenLaw, ...]:
    """Return every law that a design basis breaks, nothing for a good one.

    Args:
        basis: The basis; its functions are called directly, not through the guard.
        wood: One that it knows, for joists, bearers, posts, boards and ledgers alike.
        fixing: One of a ledger that it knows.
        use: One that it covers.
        bolt: One of a guard's post that it knows; left out only where it knows no guards' posts.
    """
    try:
        wrongs = list(basis_wrongs(basis))
    except Exception as error:
        wrongs = [f"what cannot be looked at: {told(error)}"]
    if wrongs:
        says = BASIS_LAWS[SHAPE][0]
        return tuple(_broken(SHAPE, "basis", wrong, says) for wrong in wrongs)
    asked = AskedOf(basis=basis, wood=wood, fixing=fixing, use=use, bolt=bolt)
    return tuple(broken for _, law in BASIS_LAWS.values() if law for broken in law(asked))


def _broken(law: str, subject: str, found: str, wanted: str) -> BrokenLaw:
    return BrokenLaw(law=law, subject=subject, found=found, wanted=wanted)


def _heard(of: AskedOf, asked: Asked, use: str) -> object:
    """Return what a basis answers, or what it raised; a refusal counts as a stop."""
    basis = of.basis
    try:
        match asked:
            case BeamAsked():
                return basis.beam(asked, use)
            case PostAsked():
                return basis.post(asked, use)
            case BoardAsked():
                return basis.board(asked, use)
            case LedgerAsked():
                return basis.ledger(asked, use)
            case _:
                return _heard_of_guards(basis, asked, use)
    except (InputError, NotCoveredError) as error:
        stops = (told(error),)
        return Screened(basis=basis.id, subject=asked.subject, checks=(), stops=stops)
    except Exception as error:
        return error


def _heard_of_guards(basis: DesignBasis, asked: GuardPostAsked, use: str) -> Screened:
    if basis.guard_post is None:
        raise NotCoveredError("it knows nothing of guards' posts")
    return basis.guard_post(asked, use)


def _loads(of: AskedOf, use: str) -> object:
    try:
        return of.basis.loads(use)
    except (InputError, NotCoveredError) as error:
        return error
    except Exception as error:
        return error


def _members(of: AskedOf) -> tuple[Asked, ...]:
    return members(of.wood, of.fixing, of.bolt)


def _nonsense(of: AskedOf) -> tuple[Asked, ...]:
    return nonsense(of.wood, of.fixing, of.bolt)


def _everything(of: AskedOf) -> Iterator[Asked]:
    yield from _members(of)
    for ladder in ladders(of.wood, of.fixing, of.bolt):
        yield from ladder.members


def _said(asked: Asked, use: str) -> str:
    return f"{type(asked).__name__} {asked.subject} for {use}"


def _raises(of: AskedOf) -> Iterator[BrokenLaw]:
    wanted = "an answer, UncoveredError or NotCoveredError"
    for use in (of.use, *NEVER):
        for asked in (*_members(of), *_nonsense(of)):
            if isinstance(error := _heard(of, asked, use), Exception):
                yield _broken("raises", _said(asked, use), told(error), wanted)


def _answers(of: AskedOf) -> Iterator[BrokenLaw]:
    wanted = "finite figures, each with its source, about what was asked"
    for asked in _everything(of):
        answer = _heard(of, asked, of.use)
        if not isinstance(answer, Exception):
            wordy = isinstance(asked, BoardAsked)
            for wrong in screened_wrongs(answer, asked.subject, wordy=wordy):
                yield _broken("answer", _said(asked, of.use), wrong, wanted)
    for use in (of.use, *NEVER):
        loads = _loads(of, use)
        if not isinstance(loads, InputError | NotCoveredError):
            wrongs = [told(loads)] if isinstance(loads, Exception) else loads_wrongs(loads, use)
            yield from (_broken("answer", f"loads for {use}", each, wanted) for each in wrongs)


def _covers(of: AskedOf) -> Iterator[BrokenLaw]:
    wanted = "an answer to what it is said to know"
    loads = _loads(of, of.use)
    if not isinstance(loads, DeckLoads) or loads.stops:
        yield _broken("covers", f"loads for {of.use}", "no loads, or a stop", wanted)
    if of.basis.guard_post is not None and not of.bolt:
        yield _broken("covers", "guards' posts", "no bolt to ask about them with", wanted)
    for asked in _members(of):
        answer = _heard(of, asked, of.use)
        if isinstance(answer, Screened) and answer.stops and not isinstance(asked, BoardAsked):
            found = "; ".join(map(str, answer.stops))
            yield _broken("covers", _said(asked, of.use), found, wanted)


def _again(of: AskedOf) -> Iterator[BrokenLaw]:
    for asked in _members(of):
        first, again = (_heard(of, evolve(asked), of.use) for _ in range(2))
        if not isinstance(first, Exception) and first != again:
            said = _said(asked, of.use)
            yield _broken("again", said, "another answer", "the same answer to the same question")


def _uses(of: AskedOf) -> Iterator[BrokenLaw]:
    wanted = "a stop: a licensed engineer decides"
    for use in NEVER:
        loads = _loads(of, use)
        if isinstance(loads, DeckLoads) and not loads.stops:
            yield _broken("uses", f"loads for {use}", "no stop", wanted)
        for asked in _members(of):
            answer = _heard(of, asked, use)
            if isinstance(answer, Screened) and not answer.stops:
                yield _broken("uses", _said(asked, use), "no stop", wanted)


def _refuses(of: AskedOf) -> Iterator[BrokenLaw]:
    wanted = "a stop: it cannot be meant"
    for asked in _nonsense(of):
        answer = _heard(of, asked, of.use)
        if isinstance(answer, Screened) and not answer.stops:
            yield _broken("refuses", _said(asked, of.use), "no stop", wanted)


def _grows(of: AskedOf) -> Iterator[BrokenLaw]:
    for ladder in ladders(of.wood, of.fixing, of.bolt):
        yield from _climbed(of, ladder)


def _climbed(of: AskedOf, ladder: Ladder) -> Iterator[BrokenLaw]:
    """Yield where use goes the wrong way, or nowhere, as a member grows; without checks nothing."""
    heard = [_heard(of, asked, of.use) for asked in ladder.members]
    most = [_most_ratio(answer) for answer in heard if isinstance(answer, Screened)]
    if None in most or len(most) != len(heard):
        return
    ratios = [ratio if ladder.rises else -ratio for ratio in most if ratio is not None]
    law = "rises" if ladder.rises else "falls"
    wanted = f"use that {law} with {ladder.what}"
    subject = _said(ladder.members[0], of.use)
    told_as = ", ".join(f"{abs(ratio):.4g}" for ratio in ratios)
    if any(b < a - _NOISE_RATIO for a, b in pairwise(ratios)) or ratios[-1] <= ratios[0]:
        yield _broken(law, f"{subject}, {ladder.what}", told_as, wanted)


def _most_ratio(answer: Screened) -> float | None:
    if type(answer.checks) is not tuple or not answer.checks:
        return None
    return max(check.utilisation_ratio for check in answer.checks)


#: What each law says, and what looks whether it is kept; both ways of growing are one look.
BASIS_LAWS: dict[str, tuple[str, BasisLaw | None]] = {
    SHAPE: ("a DesignBasis with id, title, words for sharing and its functions", None),
    "raises": ("a basis raises nothing but what says that it does not cover something", _raises),
    "answer": ("all that it answers is finite, has a source and is about what was asked", _answers),
    "covers": ("it answers for the use, the wood and the fixing that it is said to know", _covers),
    "again": ("the same question has the same answer", _again),
    "uses": ("crowds, hot tubs and uses that nobody knows are a stop", _uses),
    "refuses": ("what cannot be meant is a stop and never passes", _refuses),
    "rises": ("use rises with load, span, width carried, spacing, length and height", _grows),
    "falls": ("use falls with depth, and of a guard's post with bolts further apart", None),
}
