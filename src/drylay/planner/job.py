"""What a design runs on: the brief, the articles it names, the stock, the rules that govern."""

from collections.abc import Callable
from decimal import ROUND_CEILING, Decimal
from typing import Protocol, TypeVar

from attrs import frozen

from drylay.brief.model import Brief
from drylay.errors import BriefError, Cancelled, Fault, UnknownPathError
from drylay.findings import Finding
from drylay.materials.lookup import (
    find_board,
    find_coach_screw,
    find_fascia,
    find_screw,
    find_timber,
)
from drylay.materials.model import Board, Catalogue, CoachScrew, FasciaBoard, Screw, Timber
from drylay.reasons import Ruling, Source

_Article = TypeVar("_Article", Board, Timber, FasciaBoard, Screw, CoachScrew)

Progress = Callable[[str, int, int], None]


class CancelToken(Protocol):
    """Anything that can be asked whether to stop, such as `threading.Event`."""

    def is_set(self) -> bool:
        """Return whether the work is to stop."""
        ...


@frozen(kw_only=True)
class Articles:
    """The articles a brief names, as the merchant sells them."""

    board: Board
    timber: Timber
    fascia: FasciaBoard | None
    screw: Screw
    coach_screw: CoachScrew


@frozen(kw_only=True)
class Governance:
    """The ruling that governs each path, and what is wrong or notable about them."""

    rulings: dict[str, Ruling]
    findings: tuple[Finding, ...]

    def value(self, path: str) -> float:
        """Return the value that governs a path."""
        return float(self.rulings[path].value or 0)

    def count(self, path: str) -> int:
        """Return the whole number that governs a path."""
        return int(self.value(path))

    def source(self, path: str) -> Source:
        """Return who says so."""
        return self.rulings[path].source


@frozen(kw_only=True)
class Job:
    """One design: everything the rooms' inputs are drawn from.

    `asked` is the brief as handed in, `brief` the same with the boards' run of this job.
    """

    asked: Brief
    brief: Brief
    stock: Catalogue
    articles: Articles
    rules: Governance
    progress: Progress | None = None
    cancel: CancelToken | None = None


def step(job: Job, name: str, done: int, total: int) -> None:
    """Tell the caller where the work stands, and stop if asked to.

    Raises:
        Cancelled: The caller's token is set.
    """
    if job.cancel is not None and job.cancel.is_set():
        raise Cancelled(f"cancelled at: {name}")
    tell(job, name, done, total)


def tell(job: Job, name: str, done: int, total: int) -> None:
    """Tell the caller where the work stands."""
    if job.progress is not None:
        job.progress(name, done, total)


def find_articles(brief: Brief, stock: Catalogue) -> Articles:
    """Return the articles the brief names.

    Raises:
        BriefError: The stock does not hold an article, or its currency has no coin as small
            as the brief's joint price; all such are told at once.
    """
    faults = _too_fine(brief, stock)

    def find(finder: Callable[[Catalogue, str], _Article], code: str, path: str) -> _Article | None:
        try:
            return finder(stock, code)
        except UnknownPathError as error:
            nearest = ", ".join(error.nearest)
            wanted = f"an article of {stock.name} of the right kind"
            faults.append(Fault(path=path, found=repr(code), wanted=wanted, nearest=nearest))
            return None

    board = find(find_board, brief.board.article, "board.article")
    timber = find(find_timber, brief.frame.article, "frame.article")
    screw = find(find_screw, brief.fixings.screw, "fixings.screw")
    coach_screw = find(find_coach_screw, brief.fixings.coach_screw, "fixings.coach_screw")
    fascia = None
    if brief.fascia.sides and brief.fascia.article is not None:
        fascia = find(find_fascia, brief.fascia.article, "fascia.article")
    if faults or board is None or timber is None or screw is None or coach_screw is None:
        raise BriefError(tuple(faults))
    return Articles(board=board, timber=timber, fascia=fascia, screw=screw, coach_screw=coach_screw)


def _too_fine(brief: Brief, stock: Catalogue) -> list[Fault]:
    """Return the fault of a joint price with more decimals than the stock's currency."""
    price = brief.joints.price_each
    if price is None or price == round(price, stock.minor_digits):
        return []
    wanted = f"no more than {stock.minor_digits} decimals of {stock.currency}"
    nearest = str(price.quantize(Decimal(1).scaleb(-stock.minor_digits), ROUND_CEILING))
    return [Fault(path="joints.price_each", found=str(price), wanted=wanted, nearest=nearest)]
