"""What a plan comes to, as figures that can be held against those of another size."""

from collections.abc import Iterable
from decimal import Decimal

from drylay.buying.model import Purchase
from drylay.compare.parts import NOT_SAWN, saw_cuts
from drylay.compare.step_model import CountChange, Figures
from drylay.errors import UnknownPathError
from drylay.findings import Finding, Severity
from drylay.plan.model import Plan
from drylay.reasons import Source

#: What a count is called, and which decision of a plan rules it.
COUNTS = {
    "joists": ("joist line", "supports.line_count"),
    "boards": ("board", "buying.total"),
    "cuts": ("cut", "buying.total"),
    "footings": ("footing", "raised.post_count"),
    "rips": ("rip", "surface.way_out"),
    "permissions": ("permission", "site.levels.deck_top_mm"),
    "guards": ("guard", "guards.trigger_mm"),
    "timbers": ("timber", "buying.total"),
    "joints": ("joint", "pieces.joint_count"),
    "noggins": ("noggin", "frame.noggin_rows"),
    "rows": ("row", "surface.way_out"),
    "tiles": ("tile", "tiling.need"),
}
#: What the order's money is called among what changes.
ORDER = "order"
#: The caution on a height of the region that a deck goes over.
OVER_HEIGHT = "RGN-001"
BOARDS = frozenset({"boards", "border boards"})
COUNTED = Source(kind="arithmetic", title="counted of the plan")


def figures_of(plan: Plan) -> Figures:
    """Return what a plan comes to; of a blocked one only its stops."""
    stops = {f.code for f in plan.findings if f.severity is Severity.STOP}
    if stops or plan.buying is None:
        return Figures(stops=tuple(sorted(stops)))
    bought = plan.buying.purchases
    pieces, lines = plan.pieces or plan.laying, plan.supports or plan.subframe
    laid, tiled = plan.surface or plan.laying, plan.tiling or plan.tiles
    return Figures(
        total=plan.buying.total,
        gap=sum((each.gap for each in bought), Decimal(0)),
        rows=len(laid.rows) if laid else None,
        joists=lines.line_count if lines else None,
        boards=_lengths(each for each in bought if each.what in BOARDS),
        timbers=_lengths(each for each in bought if each.what not in {*BOARDS, NOT_SAWN}),
        cuts=saw_cuts(plan),
        noggins=noggins_of(plan),
        joints=len(pieces.joints) if pieces else None,
        rips=sum(row.ripped for row in laid.rows) if laid else None,
        tiles=tiled.need if tiled else None,
        footings=len(plan.footings.under) if plan.footings else None,
        permissions=sum(map(_is_over, plan.findings)),
        guards=len(plan.guards.runs) if plan.guards else None,
    )


def noggins_of(plan: Plan) -> int | None:
    """Return how many noggins a frame has, None without a frame."""
    if plan.subframe is not None:
        return sum(member.kind == "noggin" for member in plan.subframe.members)
    return len(plan.frame.noggins) if plan.frame else None


def _lengths(purchases: Iterable[Purchase]) -> int:
    return sum(len(each.lengths) for each in purchases)


def _is_over(finding: Finding) -> bool:
    return finding.code == OVER_HEIGHT and finding.severity is Severity.CAUTION


def area_m2(plan: Plan) -> float | None:
    """Return the cover's area as it is built, None of a plan that is blocked."""
    if plan.surface is not None:
        return plan.surface.cover_along_mm * plan.surface.cover_across_mm / 1e6
    return plan.outline.net_m2 if plan.outline is not None else None


def changes_of(before: Plan, after: Plan) -> tuple[CountChange, ...]:
    """Return every count that differs between two plans, with the rule that decides it."""
    one, other = figures_of(before), figures_of(after)
    deciding = before if after.buying is None else after
    return tuple(
        _change(deciding, name, getattr(one, name), getattr(other, name))
        for name in COUNTS
        if getattr(one, name) != getattr(other, name)
    )


def _change(plan: Plan, name: str, before: int | None, after: int | None) -> CountChange:
    """Return a count that differs, with which rule of a plan decides it, and who says so."""
    word, path = COUNTS[name]
    over = next((f for f in plan.findings if f.code == OVER_HEIGHT), None)
    if name == "permissions" and over is not None:
        rule, source = over.message, over.source
    else:
        rule, source = _ruled(plan, path)
    return CountChange(what=word, before=before, after=after, rule=rule, source=source)


def _ruled(plan: Plan, path: str) -> tuple[str, Source]:
    try:
        decision = plan.why(path)
    except UnknownPathError:  # a plan of tiles, or on an outline, decides it elsewhere
        return "counted of the plan", COUNTED
    return decision.rule, decision.source


def findings_between(before: Plan, after: Plan) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """Return the cautions and stops that the second plan has and the first not; and those lost."""
    return _only_in(after, before), _only_in(before, after)


def _only_in(plan: Plan, other: Plan) -> tuple[Finding, ...]:
    known = {(f.code, f.severity, f.subject) for f in other.findings}
    return tuple(
        f
        for f in plan.findings
        if f.severity is not Severity.NOTE and (f.code, f.severity, f.subject) not in known
    )
