"""Screws of boards and joists: counted for boards screwed down, or for the last row under clips."""

from drylay.edges.fascia import EDGES
from drylay.fixings.model import CoachScrews, DeckScrews, Fixings
from drylay.fixings.screws import ScrewRules, count_coach_screws, count_deck_screws
from drylay.marks import exact, to_mm
from drylay.pieces.joints import field_rows
from drylay.pieces.model import Pieces
from drylay.planner import clips
from drylay.planner.built import Wanted
from drylay.planner.buy import Shape, in_boxes
from drylay.planner.job import Job
from drylay.planner.pairs import paired_joists
from drylay.planner.stood import hung
from drylay.reasons import Source

#: Who says how far a coach screw stands from a rim's edges.
CLEAR_OF_EDGES = Source(
    kind="from memory",
    title="EN 1995-1-1, table 8.4; NDS, table 12.5.1C",
    clause="bolts: 4 d to an edge loaded across the grain",
)
DECK, COACH = "fixings.deck_screws", "fixings.coach_screws"


def screws(job: Job, shaped: Shape, pieces: Pieces) -> Fixings:
    """Return the deck screws and coach screws, counted."""
    return Fixings(
        deck_screws=_deck_screws(job, shaped, pieces),
        coach_screws=coach_screws(job, shaped),
    )


def _deck_screws(job: Job, shaped: Shape, pieces: Pieces) -> DeckScrews:
    """Return the screws at every crossing; where clips hold the boards, at the last row's."""
    rules, screw, supports = job.rules, job.articles.screw, shaped.supports
    clipped = job.articles.clip is not None
    path = f"{clips.PATH}.end_row_screws_per_joist" if clipped else f"{DECK}.per_crossing"
    last = clips.on_battens(shaped, pieces).last_row if clipped else 0
    return count_deck_screws(
        rows=1 if clipped else len(field_rows(shaped.surface)),
        joists=supports.line_count + last,
        pairs=0 if clipped else supports.seam_count or 0,
        joints=0 if clipped else pieces.joint_count,
        rules=ScrewRules(
            per_crossing=rules.count(path),
            length_least_mm=rules.value(f"{DECK}.length_least_mm"),
            edge_least_mm=rules.value(f"{DECK}.edge_least_mm"),
            end_least_mm=rules.value(f"{DECK}.end_least_mm"),
            pilot_ratio=rules.value(f"{DECK}.pilot_ratio"),
            predrill_all=rules.count(f"{DECK}.predrill_all") == 1,
        ),
        article=screw.code,
        shank_mm=screw.shank_mm,
        length_mm=screw.length_mm,
        driver=screw.driver,
    )


def coach_screws(job: Job, shaped: Shape) -> CoachScrews:
    """Return the coach screws of a frame, counted."""
    rules, coach = job.rules, job.articles.coach_screw
    rims_faced = set(EDGES[shaped.surface.run]) & {face.side for face in shaped.edges.faces}
    return count_coach_screws(
        joists=shaped.supports.line_count,
        per_joist_end=rules.count(f"{COACH}.per_joist_end"),
        length_least_mm=rules.value(f"{COACH}.length_least_mm"),
        sink_mm=rules.value(f"{COACH}.sink_mm") if rims_faced and not hung(job.brief) else 0.0,
        pilot_ratio=rules.value(f"{COACH}.pilot_ratio"),
        article=coach.code,
        shank_mm=coach.shank_mm,
        length_mm=coach.length_mm,
        head_mm=coach.head_mm,
        driver=coach.driver,
        on_hangers=job.articles.hanger is not None,
        paired=len(paired_joists(shaped.supports)),
        hung=hung(job.brief),
        deck_reach_mm=_deck_reach_mm(job, shaped),
    )


def _deck_reach_mm(job: Job, shaped: Shape) -> float:
    """Return how far the outer row's screws come down into the rim; no screws hold tiles."""
    if job.articles.tile is not None:
        return 0.0
    surface = shaped.surface
    thick_mm = max(surface.board_thickness_mm, surface.border.thickness_mm if surface.border else 0)
    screw = job.articles.border_screw if surface.border else None
    return max(0.0, to_mm(exact((screw or job.articles.screw).length_mm) - exact(thick_mm)))


def wanted(job: Job, fixings: Fixings) -> tuple[Wanted, ...]:
    """Return the deck screws and coach screws to buy; none where none is counted."""
    articles, deck, coach = job.articles, fixings.deck_screws, fixings.coach_screws
    return (
        *((in_boxes("deck screws", articles.screw, deck.count),) if deck and deck.count else ()),
        *((in_boxes("coach screws", articles.coach_screw, coach.count),) if coach.count else ()),
    )
