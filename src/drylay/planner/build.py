"""One candidate built through: rows laid, lines set, boards jointed and bought, frame cut."""

from attrs import evolve, frozen

from drylay.buying.model import Purchase
from drylay.edges.fascia import lay_out_edges
from drylay.edges.model import Edges
from drylay.findings import Finding, Severity
from drylay.fixings.model import Fixings
from drylay.frame.battens import Battens
from drylay.frame.model import Frame
from drylay.groundwork.model import Groundwork
from drylay.marks import exact, to_mm
from drylay.pieces.joints import on_battens
from drylay.pieces.model import Pieces
from drylay.planner import (
    board_notes,
    border_fixings,
    clips,
    coats,
    ground,
    growing,
    holding,
    moist,
    pairs,
    screwed,
    siting,
    slip_notes,
    standing_feet,
    working,
)
from drylay.planner.border import border_of
from drylay.planner.border_cut import BoardsCut, cut_all_boards
from drylay.planner.built import Built, Wanted
from drylay.planner.buy import (
    Blocked,
    Shape,
    cut_fascia,
    cut_frame,
)
from drylay.planner.cuts import Cutter
from drylay.planner.gap_days import gaps_by_moisture
from drylay.planner.hung_frame import bands_under
from drylay.planner.job import Job
from drylay.planner.legs import stood_of
from drylay.planner.shopping import buying
from drylay.raised.model import RaisedDeck
from drylay.reasons import Source
from drylay.site.model import Site
from drylay.surface.border import BorderLimits, lay_bordered
from drylay.surface.limits import RowLimits
from drylay.surface.model import RowFit, Surface, WayOut
from drylay.surface.rows import lay


@frozen(kw_only=True)
class Candidate:
    """One way out to build: its limits, the fit it came from, and where joists stand.

    `more_lines` are joist lines beyond the fewest, `seams_mm` the joint lines over pairs. With a
    border, way, fit and limits are those of the field between.
    """

    way: WayOut
    fit: RowFit
    limits: RowLimits
    border: BorderLimits | None = None
    more_lines: int = 0
    seams_mm: tuple[float, ...] = ()


def shape(job: Job, candidate: Candidate, *, fascia_mm: float) -> Shape | Blocked:
    """Return a candidate's surface, edges and joist lines; blocked if no frame fits inside.

    `fascia_mm`: the longest fascia piece to plan with.
    """
    surface = moist.with_moisture(job, lay_surface(job, candidate))
    fascia = job.articles.fascia
    edges = lay_out_edges(
        run=surface.run,
        row_length_mm=surface.row_length_mm,
        rows_depth_mm=surface.rows_depth_mm,
        sides=job.brief.fascia.sides,
        article=fascia.code if fascia else "",
        thickness_mm=fascia.thickness_mm if fascia else 0.0,
        depth_mm=fascia.depth_mm if fascia else 0.0,
        longest_mm=fascia_mm,
        units=job.brief.units,
    )
    stop = no_room(job, edges)
    if stop is not None:
        return Blocked(findings=(stop,))
    supports = pairs.place_lines(
        job, edges, surface, more_lines=candidate.more_lines, seams_mm=candidate.seams_mm
    )
    return Shape(surface=surface, edges=edges, supports=supports)


def no_room(job: Job, edges: Edges) -> Finding | None:
    """Return the stop for a frame without room for two joists, and a joist between its rims.

    What is left between must be as wide as a timber is thick: assumption, nobody can drive a
    screw in less.
    """
    least_mm = 3 * job.articles.timber.thickness_mm
    tight_mm = min(edges.frame_length_mm, edges.frame_depth_mm)
    if tight_mm >= least_mm:
        return None
    return Finding(
        code="FRM-003",
        severity=Severity.STOP,
        subject="frame",
        message="no room for two joists between two rims: make the cover larger, leave off "
        "fascia, or name thinner timber",
        measured=tight_mm,
        limit=least_mm,
        unit="mm",
        source=Source(kind="assumption", title="docs/conventions.md", clause="Frame"),
    )


def fascia_reach_mm(job: Job) -> list[float]:
    """Return the usable lengths of fascia on sale, longest first."""
    fascia, trim_mm = job.articles.fascia, job.brief.cutting.end_trim_mm
    lengths = [] if fascia is None else [e for e in fascia.lengths if e.limit != 0]
    return sorted((e.length_mm - 2 * trim_mm for e in lengths), reverse=True)


def lay_surface(job: Job, candidate: Candidate) -> Surface:
    """Return the cover as the way out changes it, with its rows on pencil marks."""
    way, fit, border = candidate.way, candidate.fit, candidate.border
    along, across = job.brief.cover.along_mm, job.brief.cover.across_mm
    taken = 2 * border.part_320 if border else 0
    changed = to_mm(exact(fit.depth_mm) + taken + exact(way.cover_change_mm))
    along, across = (along, changed) if way.run == "along" else (changed, across)
    return Surface(
        run=way.run,
        cover_along_mm=along,
        cover_across_mm=across,
        cover_change_mm=way.cover_change_mm,
        row_length_mm=along if way.run == "along" else across,
        rows_depth_mm=changed,
        board_article=job.articles.board.code,
        board_width_mm=fit.board_mm,
        board_thickness_mm=job.articles.board.thickness_mm,
        groove_mm=job.articles.board.groove_mm or None,
        fall_least_ratio=job.rules.value("surface.fall_least_ratio"),
        combustible=bool(job.rules.value("surface.combustible")),
        timber=bool(job.rules.value("surface.timber")),
        wet_slip_least=slip_notes.least(job),
        **board_notes.falls(job, along if way.run == "along" else across, way.run),
        gap_preferred_mm=fit.gap_preferred_mm,
        gap_least_mm=fit.gap_least_mm,
        gap_most_mm=fit.gap_most_mm,
        sliver_limit_mm=fit.sliver_limit_mm,
        least_rip_mm=job.rules.value("surface.least_rip_mm"),
        whole_rows=fit.whole_rows,
        remainder_mm=fit.remainder_mm,
        strip_mm=fit.strip_mm,
        way_out=way.kind,
        rows=lay_bordered(candidate.limits, way, border) if border else lay(candidate.limits, way),
        ways_out=(),
        border=border_of(job, candidate.limits, border),
        gaps_by_moisture=gaps_by_moisture(job, fit.board_mm),
    )


def build(cutter: Cutter, candidate: Candidate) -> Built | Blocked:
    """Return the candidate built through, or every stop that keeps it from being built."""
    job = cutter.job
    shaped, fascia = with_fascia(cutter, candidate)
    if isinstance(shaped, Blocked):
        return shaped
    boards = cut_all_boards(cutter, shaped)
    site = siting.site_of(job, shaped)
    stood = stood_of(job, shaped, site)
    laid_out = boards.pieces if isinstance(boards, BoardsCut) else None
    bands = bands_under(job, shaped, site)
    frame = cut_frame(cutter, shaped, laid_out, stood.legs.framed, bands)
    if isinstance(boards, Blocked) or isinstance(frame, Blocked) or isinstance(fascia, Blocked):
        blocked = [a.findings for a in (boards, frame, fascia) if isinstance(a, Blocked)]
        return Blocked(findings=tuple(stop for found in blocked for stop in found))
    beneath, stops = beneath_of(cutter, shaped, frame.frame, site)
    others, unbought = standing_feet.cut_legs(cutter, stood.legs)
    stops += unbought
    purchases = (*boards.purchases, frame.purchase, *fascia, *beneath.purchases, *others)
    laid = _on_battens(boards.pieces, frame.battens)
    pieces = growing.with_movement(job, shaped, laid)
    fixed = fixed_of(job, shaped, frame.frame, pieces, purchases, stood.raised)
    feet = standing_feet.wanted(job, stood.raised, stood.footings)
    wanted = (*wanted_of(job, fixed, beneath.groundwork), *feet)
    bought, missing = buying(job, purchases, wanted)
    built = Built(
        surface=shaped.surface,
        edges=shaped.edges,
        supports=shaped.supports,
        pieces=pieces,
        frame=frame.frame,
        fixings=fixed,
        buying=evolve(bought, delivery=ground.delivery(job, bought)),
        site=site,
        groundwork=beneath.groundwork,
        spares_missing=missing,
        stops=stops,
        stood=stood,
    )
    return evolve(built, work=working.plan_work(job, built))


def wanted_of(job: Job, fixed: Fixings, groundwork: Groundwork | None) -> tuple[Wanted, ...]:
    """Return what is to be bought in packs."""
    return (
        *screwed.wanted(job, fixed),
        *border_fixings.wanted(job, fixed),
        *clips.wanted(job, fixed),
        *holding.wanted(job, fixed),
        *coats.wanted(job, fixed),
        *ground.wanted(job, groundwork),
    )


def fixed_of(  # noqa: PLR0917 - what is fixed
    job: Job, shaped: Shape, frame: Frame, pieces: Pieces, purchases: tuple[coats.Bundle, ...],
    legs: RaisedDeck | None = None,
) -> Fixings:  # fmt: skip
    """Return all fixings counted, and what is brushed on."""
    screws = screwed.screws(job, shaped, pieces)
    return evolve(
        screws,
        **holding.held(job, shaped, frame, screws, pieces, legs),
        **border_fixings.border_fixings(job, shaped, pieces),
        **clips.clipped(job, shaped, pieces),
        **coats.coated(job, coats.sawn(shaped, pieces, frame, purchases, legs)),
    )


def _on_battens(pieces: Pieces, battens: Battens | None) -> Pieces:
    return pieces if battens is None else on_battens(pieces, battens.under)


def beneath_of(
    cutter: Cutter, shaped: Shape, frame: Frame, site: Site
) -> tuple[ground.Beneath, tuple[Finding, ...]]:
    """Return what lies under the deck; nothing and the stops where that cannot be had."""
    laid = ground.lay_ground(cutter, shaped, frame, site)
    if isinstance(laid, Blocked):
        return ground.Beneath(groundwork=None), laid.findings
    return laid, ()


def with_fascia(
    cutter: Cutter, candidate: Candidate
) -> tuple[Shape | Blocked, tuple[Purchase, ...] | Blocked]:
    """Return the shape with its fascia cut: in longer parts, or shorter where those sell out."""
    first: Blocked | None = None
    shaped: Shape | Blocked
    for reach_mm in fascia_reach_mm(cutter.job) or [0.0]:
        shaped = shape(cutter.job, candidate, fascia_mm=reach_mm)
        if isinstance(shaped, Blocked):
            return shaped, ()
        fascia = cut_fascia(cutter, shaped)
        if not isinstance(fascia, Blocked):
            return shaped, fascia
        first = first or fascia
    return shaped, first or ()


def with_ways(built: Built, ways: tuple[WayOut, ...]) -> Built:
    """Return the built deck with all ways out written into its surface."""
    return evolve(built, surface=evolve(built.surface, ways_out=ways))
