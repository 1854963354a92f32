"""A deck designed with old boards first: salvaged lengths beside what is on sale, at price 0."""

from decimal import Decimal

from attrs import evolve

from drylay.brief.model import Brief
from drylay.errors import BriefError, Fault
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.materials.stock_model import Board, Catalogue, FasciaBoard, StockLength
from drylay.plan.model import Plan
from drylay.planner.design import design
from drylay.upkeep.salvage import PRACTICE
from drylay.upkeep.stock_model import Salvage

#: What salvaged lengths may be planned as: the brief's boards or its fascia.
AS = ("fascia", "boards")
#: An old section may be off the new one by so much, each way: a board wider would stand out.
#: Assumption.
NEAR_MM = 1.0


def design_salvaged(
    brief: Brief, *, stock: Catalogue, salvage: Salvage, used_as: str = "fascia", **more: object
) -> tuple[Plan, tuple[Finding, ...]]:
    """Return the plan for a brief with salvaged lengths first, and what is to be said of them.

    They stand beside the lengths on sale of the brief's fascia, or of its boards, at price 0 and as
    many as there are, so that the cheapest order takes them wherever they spare money. A length
    that is on sale too is offered 1/320 mm shorter. `used_as` "boards" walks on old boards again:
    that is not one use lower, and is cautioned (UPK-035). `more` is what `design` takes besides.

    Raises:
        BriefError: The brief names no such article, its section is another, or nothing is salvaged.

    Source: the cutter's, see docs/cutting.md; one use lower by common practice, no source.
    """
    code = brief.fascia.article if used_as == "fascia" else brief.board.article
    kind = "fascias" if used_as == "fascia" else "boards"
    articles: tuple[Board | FasciaBoard, ...] = getattr(stock, kind)
    article = next((its for its in articles if its.code == code), None)
    _check(salvage, article, used_as)
    with_old = tuple(
        evolve(its, lengths=(*its.lengths, *_lengths(salvage, its))) if its is article else its
        for its in articles
    )
    plan = design(brief, stock=evolve(stock, **{kind: with_old}), **more)  # type: ignore[arg-type]
    return plan, (_again(salvage),) if used_as == "boards" else ()


def _check(salvage: Salvage, article: Board | FasciaBoard | None, used_as: str) -> None:
    if used_as not in AS:
        raise _refused("used_as", used_as, f"one of {', '.join(AS)}")
    if article is None:
        raise _refused(f"{used_as}.article", "none in this stock", "an article to use old ones as")
    if not salvage.lengths:
        raise _refused("salvage", "no usable length", "boards that yield some")
    wide = article.width_mm if isinstance(article, Board) else article.depth_mm
    off = (wide - salvage.width_mm, article.thickness_mm - salvage.thickness_mm)
    if max(map(abs, off)) > NEAR_MM:
        found = f"old ones {salvage.width_mm:g} x {salvage.thickness_mm:g} mm"
        wanted = f"{wide:g} x {article.thickness_mm:g} mm, each within {NEAR_MM:g}"
        raise _refused(f"{used_as}.article", found, wanted)


def _refused(path: str, found: str, wanted: str) -> BriefError:
    return BriefError((Fault(path=path, found=found, wanted=wanted),))


def _lengths(salvage: Salvage, article: Board | FasciaBoard) -> tuple[StockLength, ...]:
    """Return the salvaged lengths as stock, equal ones counted together."""
    sold = {exact(its.length_mm) for its in article.lengths}
    counts: dict[int, int] = {}
    for its in salvage.lengths:
        length = exact(its.length_mm)
        while length in sold:
            length -= 1
        counts[length] = counts.get(length, 0) + its.count
    return tuple(
        StockLength(length_mm=to_mm(length), price=Decimal("0.00"), limit=count)
        for length, count in sorted(counts.items())
    )


def _again(salvage: Salvage) -> Finding:
    return Finding(
        code="UPK-035",
        severity=Severity.CAUTION,
        subject="salvaged boards",
        message="used again for what they were, not one use lower: walk on none that is not sound "
        "all along, and look at each end and each old hole first",
        measured=salvage.total_mm,
        unit="mm",
        source=PRACTICE,
    )
