"""The house's side of a deck that stands: a ledger on a sound wall, or free of it."""

from attrs import evolve, frozen

from drylay.errors import InputError
from drylay.findings import Finding, Severity
from drylay.marks import exact, to_mm
from drylay.planner.buy import Shape
from drylay.planner.carrying import FLANGE_MM
from drylay.planner.job import Job
from drylay.planner.loose import ledger_holds
from drylay.planner.rows import PRACTICE
from drylay.planner.screening import Screen, one_ply, screen_of
from drylay.planner.stood import hung
from drylay.raised.ledger import ledger_finding, ledger_on
from drylay.raised.model import Ledger
from drylay.reasons import Source
from drylay.site.model import Site
from drylay.strength.checks import passes
from drylay.strength.model import LedgerAsked

#: Spacings of a ledger's fixings that are tried, the widest first: common practice.
SPACINGS_MM = (600.0, 500.0, 400.0, 300.0, 250.0, 200.0, 150.0, 100.0)
#: How far fixings keep from a ledger's ends. Common practice, no source.
FROM_END_MM = 50.0
#: A ledger stands off its wall by spacers no thicker than half an inch.
SPACER_MOST_MM = 12.7
SPACERS = Source(
    kind="from memory", title="American Wood Council, DCA 6", clause="ledger fasteners, spacers"
)


@frozen(kw_only=True)
class Held:
    """Whether a ledger holds the joists, to what wall, by what; and what is told of that."""

    ledger: bool
    wall: str = ""
    fixing: str = ""
    findings: tuple[Finding, ...] = ()

    def asked(self, job: Job, screen: Screen, span_mm: float) -> tuple[LedgerAsked, ...]:
        """Return the ledger as a basis is asked for it: nothing where there is none.

        `span_mm` is how far the joists span that hang on it.
        """
        if not self.ledger:
            return ()
        return (_widest_that_holds(job, screen, span_mm, self.fixing),)


def held_by(job: Job, site: Site) -> Held:
    """Return what the house holds: nothing where no ledger may or is to be fixed to it."""
    along = job.brief.board.run == "along"
    held = held_where(job, site, beside=site.beside_house and along)
    return held if along else evolve(held, findings=(*held.findings, *_unused(job)))


def _unused(job: Job) -> tuple[Finding, ...]:
    """Return the caution where a brief tells fixings of a ledger that boards leave no room for."""
    wish = job.brief.raised
    if wish.ledger_fixing is None and wish.ledger_spacing_mm is None:
        return ()
    return (Finding(
        code="RSD-017", severity=Severity.CAUTION, subject="ledger", source=PRACTICE,
        message="the deck stands free, and its fixings are not used: joists hang on the house only "
        "where boards run along it",
    ),)  # fmt: skip


def held_where(job: Job, site: Site, *, beside: bool) -> Held:
    """Return what the house holds of joists that begin beside it, or do not."""
    brief, screen = job.brief, screen_of(job)
    assert screen is not None
    if not (beside and brief.raised.ledger):
        return Held(ledger=False)
    told = ledger_finding(brief.house.wall)
    if told is not None:
        return Held(ledger=False, findings=(told,))
    fixing = brief.raised.ledger_fixing or next(iter(screen.basis.fixings), "")
    wide = (_stands_off(site.wall_gap_mm),) if site.wall_gap_mm > SPACER_MOST_MM else ()
    return Held(ledger=True, wall=brief.house.wall or "", fixing=fixing, findings=wide)


def _stands_off(gap_mm: float) -> Finding:
    return Finding(
        code="RSD-011", severity=Severity.STOP, subject="ledger", measured=gap_mm,
        limit=SPACER_MOST_MM, unit="mm", source=SPACERS,
        message="its fixings would bend in so wide a gap to the wall: make house.wall_gap "
        "narrower, or let the deck stand free (raised.ledger = false)",
    )  # fmt: skip


def _widest_that_holds(job: Job, screen: Screen, span_mm: float, fixing: str) -> LedgerAsked:
    """Return the ledger with the widest spacing that passes; with the closest where none does."""
    wished = job.brief.raised.ledger_spacing_mm
    tried = (wished,) if wished is not None else SPACINGS_MM
    timber = job.articles.timber
    asked = [
        LedgerAsked(subject="LG1", wood=timber.strength_class, section=one_ply(timber),
                    span_mm=span_mm, spacing_mm=spacing_mm, fixing=fixing,
                    more_dead_kn_m2=screen.heavier_kn_m2)
        for spacing_mm in tried
    ]  # fmt: skip
    holds = (each for each in asked if passes(screen.basis.ledger(each, screen.use)))
    return next(holds, asked[-1])


def ledger_of(
    job: Job, shaped: Shape, held: Held, spacing_mm: float
) -> tuple[Ledger | None, tuple[Finding, ...]]:
    """Return the rim at the house as a ledger with its fixings, and why it finds no room."""
    if not held.ledger:
        return None, ()
    timber, edges, screen = job.articles.timber, shaped.edges, screen_of(job)
    assert screen is not None
    source = Source(kind="standard", title=screen.basis.title, clause="ledger fixings")
    try:
        found = ledger_on(
            wall=held.wall, section=one_ply(timber), start_mm=edges.frame_start_mm,
            end_mm=to_mm(exact(edges.frame_start_mm) + exact(edges.frame_length_mm)),
            spacing_most_mm=spacing_mm, from_end_mm=FROM_END_MM,
            joists_mm=[line.offset_mm for line in shaped.supports.lines],
            clear_mm=timber.thickness_mm / 2 + FLANGE_MM, source=source, units=job.brief.units,
        )  # fmt: skip
    except InputError as error:
        return None, (no_fixings(error),)
    return (found, ()) if isinstance(found, Ledger) else (None, (found,))


def no_fixings(error: InputError) -> Finding:
    """Return the stop where a ledger's fixings find no room."""
    told = "; ".join(f"{fault.found}: wanted {fault.wanted}" for fault in error.faults)
    return Finding(code="RSD-012", severity=Severity.STOP, subject="ledger", source=PRACTICE,
                   message=f"its fixings find no room beside the joists: {told}")  # fmt: skip


def hung_findings(job: Job, held: Held) -> tuple[Finding, ...]:
    """Return what is told of joists that hang on a ledger: in hangers, the outer two as well."""
    if not held.ledger:
        return (_sideways("by braces both ways, or since they are no longer than 600 mm"),)
    named = job.articles.hanger is not None
    if named and hung(job.brief):  # all of them are in the order, and told by themselves
        return (_sideways("by the ledger, its fixings and the boards between, or by braces"),)
    message = (
        "joists hang on the ledger in hangers rated for their load: the outer two as well, which "
        "the frame holds by coach screws elsewhere; have theirs by you, they are not in the order"
        if named
        else "joists hang on a ledger in hangers, screws into their ends hold nothing for years: "
        "name fixings.hanger"
    )
    severity = Severity.CAUTION if named else Severity.STOP
    hangers = Finding(
        code="RSD-013", severity=severity, subject="ledger", message=message, source=PRACTICE
    )
    return (hangers, _sideways(_beside_a_ledger(job)))


def _beside_a_ledger(job: Job) -> str:
    """Return what holds posts' heads sideways beside a ledger: under loose tiles not that."""
    if ledger_holds(job, ledger=True):
        return "by the ledger, its fixings and the boards between, or by braces"
    return (
        "by braces both ways, or since they are no longer than 600 mm; not by the ledger, which "
        "loose tiles hand nothing on to"
    )


def _sideways(by: str) -> Finding:
    return Finding(
        code="STR-008", severity=Severity.NOTE, subject="posts", source=PRACTICE,
        message=f"their heads are taken as held sideways: {by}",
    )  # fmt: skip
