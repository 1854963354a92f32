"""What a deck for its furniture costs at each size: snapped to rows and lengths, and designed."""

from collections.abc import Iterator

from drylay.brief.model import Brief
from drylay.counting import counted
from drylay.errors import BriefError, Fault
from drylay.findings import Severity
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.angles import is_outlined
from drylay.planner.design import design
from drylay.planner.job import (
    Articles,
    CancelToken,
    Governance,
    Progress,
    find_articles,
)
from drylay.planner.rules import govern
from drylay.planner.tile_rules import paths_of
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_families, installed_local_rules
from drylay.plugins.model import FamilySet, LocalRuleSet
from drylay.seating.model import LeastSize, SeatedCost, SnappedSize
from drylay.seating.snapped import snapped_sizes

MM2_PER_M2 = 1_000_000


@counted
def seated_costs(
    size: LeastSize,
    brief: Brief,
    *,
    stock: Catalogue,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    progress: Progress | None = None,
    cancel: CancelToken | None = None,
) -> tuple[SeatedCost, ...]:
    """Return what each size of the deck costs: least and comfortable, as found and snapped.

    Each is a whole plan of the brief with another cover, which is then neither grown nor shrunk.
    The cheapest come first; what cannot be built comes last, with the codes of its stops.

    Args:
        size: What `least_deck` found; its best layouts are priced.
        brief: Everything but the cover.
        stock: The merchant's stock.
        families: As in `design`.
        local_rules: As in `design`.
        progress: Called as `progress(step, done, total)`, one for each size.
        cancel: Asked `is_set()` between steps and while cutting.

    Raises:
        BriefError: It names what the stock has not; or a deck that is no plain one of boards.
        Cancelled: The cancel token was set.
        PlannerFault: The audit stopped a plan the planner thought sound.
    """
    families = asked_once(installed_families() if families is None else families)
    local_rules = installed_local_rules() if local_rules is None else local_rules
    articles = _plain(brief, find_articles(brief, stock))
    rules = govern(brief, articles, families, paths_of(brief))
    asked = tuple(_asked(size, brief, articles, rules))
    costs = []
    for done, (level, snapped) in enumerate(asked):
        if progress is not None:
            progress(f"{level}: {snapped.snap}", done, len(asked))
        plan = design(
            _covering(brief, snapped),
            stock=stock,
            families=families,
            local_rules=local_rules,
            cancel=cancel,
        )
        costs.append(_cost(level, snapped, plan, stock.currency))
    if progress is not None:
        progress("done", len(asked), len(asked))
    return tuple(sorted(costs, key=_rank))


def _plain(brief: Brief, articles: Articles) -> Articles:
    """Return the articles of a rectangle of boards in rows alike, which is all that is snapped."""
    wrong = {
        "outline": is_outlined(brief),
        "board.support": articles.tile is not None,
        "border": articles.border is not None,
    }
    faults = tuple(
        Fault(path=path, found=f"a deck with {path}", wanted="a rectangle of boards of one kind")
        for path, is_wrong in wrong.items()
        if is_wrong
    )
    if faults:
        raise BriefError(faults)
    return articles


def _asked(
    size: LeastSize, brief: Brief, articles: Articles, rules: Governance
) -> Iterator[tuple[str, SnappedSize]]:
    """Yield every size to be planned, under the level that it comes from; none twice."""
    seen: set[tuple[float, float]] = set()
    for sized in (size.least, size.comfortable):
        if sized.best is None:
            continue
        found = (sized.best.along_mm, sized.best.across_mm)
        for snapped in _snapped(found, brief, articles, rules):
            cover = (snapped.along_mm, snapped.across_mm)
            if cover not in seen:
                seen.add(cover)
                yield sized.level, snapped


def _snapped(
    found: tuple[float, float], brief: Brief, articles: Articles, rules: Governance
) -> tuple[SnappedSize, ...]:
    """Return a size snapped; only as found where nothing rules the gap, which stops its plan."""
    ruled = {path: ruling.value for path, ruling in rules.rulings.items()}
    gap_mm = ruled.get("surface.gap_preferred_mm")
    if not isinstance(gap_mm, float | int):
        return (_as_found(found),)
    board, spare_mm = articles.board, brief.cutting.end_trim_mm
    if brief.board.ends == "trim_in_line":
        spare_mm += brief.board.trim_allowance_mm or 0.0
    lengths_mm = [each.length_mm for each in board.lengths]
    return snapped_sizes(
        along_mm=found[0],
        across_mm=found[1],
        board_mm=brief.board.measured_width_mm or board.width_mm,
        gap_mm=gap_mm,
        lengths_mm=[each for each in lengths_mm if each > 2 * spare_mm],
        run=brief.board.run,
        end_gap_mm=float(ruled.get("pieces.end_gap_mm") or 0.0),
        end_trim_mm=spare_mm,
    )


def _as_found(found: tuple[float, float]) -> SnappedSize:
    return SnappedSize(
        snap="as found",
        along_mm=found[0],
        across_mm=found[1],
        spare_along_mm=0.0,
        spare_across_mm=0.0,
    )


def _covering(brief: Brief, size: SnappedSize) -> Brief:
    """Return the brief with this cover and no other."""
    cover = {"along_mm": size.along_mm, "across_mm": size.across_mm}
    cover |= {f"{how}_{way}_mm": 0.0 for how in ("grow", "shrink") for way in ("along", "across")}
    for key, value in cover.items():
        brief = brief.replace(f"cover.{key}", value)
    return brief


def _cost(level: str, size: SnappedSize, plan: Plan, currency: str) -> SeatedCost:
    stops = {f.code for f in plan.findings if f.severity is Severity.STOP}
    bought = plan.buying
    return SeatedCost(
        level=level,
        size=size,
        buildable=plan.buildable,
        stop_codes=tuple(sorted(stops)),
        rows=len(plan.surface.rows) if plan.surface else None,
        currency=currency,
        order_cost=bought.order_total if bought else None,
        gap=sum((each.gap for each in bought.purchases), start=0 * bought.order_total)
        if bought
        else None,
        leftover_m2=_leftover_m2(plan),
    )


def _leftover_m2(plan: Plan) -> float | None:
    """Return the board bought and not laid, up to the next square centimetre."""
    if plan.buying is None or plan.pieces is None or plan.surface is None:
        return None
    bought_mm = sum(
        length.length_mm
        for purchase in plan.buying.purchases
        if purchase.what == "boards"
        for length in purchase.lengths
    )
    laid_mm2 = sum(piece.length_mm * piece.width_mm for piece in plan.pieces.pieces)
    left_mm2 = bought_mm * plan.surface.board_width_mm - laid_mm2
    return -(-round(left_mm2) // 100) * 100 / MM2_PER_M2


def _rank(cost: SeatedCost) -> tuple[bool, object, float, float]:
    price = cost.order_cost if cost.order_cost is not None else 0
    return cost.order_cost is None, price, cost.size.along_mm, cost.size.across_mm
