"""One row of a study: what became of a case, its figures, and what they rest on."""

from collections.abc import Iterable
from fractions import Fraction

from attrs import frozen

from drylay.compare.model import ComparedDeck
from drylay.compare.row import years_row
from drylay.compare.study_model import Row
from drylay.compare.terms import ADDRESS, Desk, PlainCase, case_digest
from drylay.errors import Fault
from drylay.findings import Finding, Severity
from drylay.plan.measures import measures
from drylay.plan.model import Digests, Plan
from drylay.reasons import Reasons

MM2_PER_M2 = 1_000_000
#: What became of a case, and what its row rests on.
RESTS_ON = (
    "outcome", "codes", "told", "cover_m2", "mode", "drylay_version", "solver_version", "families",
    "case_digest", "brief_digest", "stock_digest",
)  # fmt: skip
#: Figures that are money: a file tells all numbers alike.
MONEY = frozenset(
    {
        "boards_cost", "bound", "capital_least", "capital_most", "cost", "fabric_cost",
        "fascia_cost", "frame_cost", "frame_outlay", "gap", "joint_cost", "laid_again_least",
        "laid_again_most", "objective", "spares_cost", "surface_outlay", "total", "upkeep_cost",
        "yearly_least", "yearly_most",
    }
)  # fmt: skip
#: Columns of words.
WORDS = frozenset(
    {
        "outcome", "codes", "told", "title", "units", "stop_codes", "run", "board_article",
        "border_article", "way_out", "currency", "boards_grade", "frame_grade", "fascia_grade",
        "fabric_grade", "highest_by", "lowest_by", "short_governs", "long_governs", "not_known",
        "remarks", "mode", "drylay_version", "solver_version", "families", "case_digest",
        "brief_digest", "stock_digest",
    }
)  # fmt: skip
#: None of these is asked for as a figure: one is yes or no.
NO_FIGURES = WORDS | {"buildable"}
#: What is told of one case is no book.
MOST_TOLD = 2_000


def _nothing() -> Row:
    """Return the figures of a case without a plan: the names of all, and that it is no deck."""
    blank = Plan(
        drylay_version="", title="", units="", use="", digests=Digests(brief="", stock=""),
        families=(), surface=None, edges=None, supports=None, pieces=None, frame=None,
        fixings=None, buying=None, reasons=Reasons(), findings=(), cautions=(), not_checked=(),
    )  # fmt: skip
    return {**dict.fromkeys(measures(blank)), "buildable": False}


@frozen(kw_only=True)
class Came:
    """What came of a case: the outcome, codes, what there is to tell, and a plan if there is one.

    `deck` has the figures over the years, where they could be asked for.
    """

    outcome: str
    codes: tuple[str, ...] = ()
    told: str = ""
    plan: Plan | None = None
    deck: ComparedDeck | None = None


def own_columns() -> frozenset[str]:
    """Return the names that every row has whatever varies."""
    return frozenset({*_nothing(), *_over_years(None), *RESTS_ON, "case"})


def row_of(desk: Desk, case: PlainCase, came: Came) -> Row:
    """Return the row of a case without its number; the names are the same for every outcome."""
    plan = came.plan
    digests = plan.digests if plan else Digests(brief="", stock=desk.stock_digest)
    families = plan.families if plan else ()
    return {
        **dict(case.columns),
        "outcome": came.outcome,
        "codes": " ".join(came.codes),
        "told": came.told,
        **(measures(plan) if plan else _nothing()),
        "cover_m2": _cover_m2(plan) if plan else None,
        **_over_years(came.deck),
        "mode": desk.terms.mode,
        "drylay_version": desk.terms.drylay_version,
        "solver_version": desk.terms.solver_version,
        "families": "; ".join(f"{each.id} {each.package} {each.version}" for each in families),
        "case_digest": case_digest(desk.terms_digest, case),
        "brief_digest": digests.brief,
        "stock_digest": digests.stock,
    }


def stopped(plan: Plan, findings: Iterable[Finding], outcome: str) -> Came:
    """Return what came of a plan that is stopped: the codes of its stops, and what they say."""
    stops = [finding for finding in findings if finding.severity is Severity.STOP]
    codes = tuple(sorted({finding.code for finding in stops}))
    return Came(outcome=outcome, codes=codes, told=_cut(map(str, stops)), plan=plan)


def refused(faults: Iterable[Fault]) -> Came:
    """Return what came of a brief that cannot be used: the paths of its faults, and all of them."""
    faults = tuple(faults)
    codes = tuple(dict.fromkeys(fault.path for fault in faults))
    return Came(outcome="refused", codes=codes, told=_cut(map(str, faults)))


def failed(error: BaseException, outcome: str = "failed") -> Came:
    """Return what came of a case that nobody foresaw: the error's name, and what it says.

    Where an object lies in memory is left out: it is another place each time.
    """
    told = ADDRESS.sub("0x...", f"{type(error).__name__}: {error}")
    return Came(outcome=outcome, codes=(type(error).__name__,), told=_cut([told]))


def _cut(texts: Iterable[str]) -> str:
    told = "; ".join(texts)
    return told if len(told) <= MOST_TOLD else told[: MOST_TOLD - 3] + "..."


def _cover_m2(plan: Plan) -> float | None:
    """Return what is covered: of an outline without its openings."""
    if plan.outline is not None:
        return plan.outline.net_m2
    surface = plan.surface
    if surface is None:
        return None
    along, across = Fraction(repr(surface.cover_along_mm)), Fraction(repr(surface.cover_across_mm))
    return float(along * across / MM2_PER_M2)


def _over_years(deck: ComparedDeck | None) -> Row:
    """Return what is sawn, kept up and paid over the years."""
    outlay, lives = (deck.outlay, deck.lives) if deck else (None, None)
    return {
        "surface_outlay": outlay.surface if outlay else None,
        "frame_outlay": outlay.frame if outlay else None,
        "cuts": deck.cuts if deck else None,
        "sawn_pieces": deck.sawn_pieces if deck else None,
        "upkeep_h": deck.upkeep_h if deck else None,
        "upkeep_cost": deck.upkeep if deck else None,
        "life_least_years": lives.surface_least_years if lives else None,
        "life_most_years": lives.surface_most_years if lives else None,
        "frame_life_least_years": lives.frame_least_years if lives else None,
        "frame_life_most_years": lives.frame_most_years if lives else None,
        **years_row(deck.short if deck else None, deck.long if deck else None),
        "not_known": " ".join(deck.not_known) if deck else "",
        "remarks": " ".join(sorted({remark.code for remark in deck.remarks})) if deck else "",
    }
