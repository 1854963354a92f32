"""The parts of the job sheet on what a deck stands on, its strength, its guards and steps."""

from drylay.groundwork.model import Footings
from drylay.papers.frame_text import courses
from drylay.papers.guards_text import drop_told, edges_told, stretch_told
from drylay.papers.html import FIGURE, TEXT, Html, para, points, table
from drylay.papers.loads import used
from drylay.papers.sheet_parts import EDGES, STANDING, STRENGTH, below, care, drawings, part
from drylay.papers.standing_text import (
    MEASURE,
    bearers_told,
    braces_told,
    footings_told,
    gap_told,
    ledger_told,
    load_told,
    posts_told,
)
from drylay.papers.strength_text import (
    CAUTION,
    basis_told,
    limits_told,
    source_told,
    worst_check,
)
from drylay.papers.wording import clean, size, size_least
from drylay.plan.model import Plan
from drylay.raised.model import RaisedDeck
from drylay.strength.model import Strength
from drylay.units import volume_text


def standing_part(plan: Plan) -> Html:
    """Return what the deck stands on: bearers, ledger, posts, footings, concrete."""
    raised, units = plan.raised, plan.units
    if raised is None:
        return Html("")
    return part(STANDING, "What it stands on", [
        care(plan, STANDING),
        below("Bearers", points([*bearers_told(raised, units, along=courses(plan)),
                                 *ledger_told(raised, units)])),
        below("Posts", para(posts_told(raised, units, listed=False)), para(MEASURE),
              _posts(raised, units, courses(plan)), points(braces_told(raised, units))),
        below("Footings", *(_footings(plan.footings, units) if plan.footings else ()),
              points(gap_told(plan))),
        *drawings(plan, STANDING),
    ])  # fmt: skip


def _posts(raised: RaisedDeck, units: str, along: str) -> Html:
    """Return the schedule: where each post stands, where its top is sawn, how long it is."""
    columns = (("Post", TEXT), ("Bearer", TEXT), (f"Along the {along}", FIGURE),
               (f"Across the {along}", FIGURE), ("Ground", FIGURE), ("Top below datum", FIGURE),
               ("Saw to", FIGURE), ("Height", TEXT), ("Braces", TEXT))  # fmt: skip
    rows = [
        (row.mark, row.bearer, size(row.along_mm, units), size(row.across_mm, units),
         size(row.ground_mm, units), size(row.cut_below_mm, units), size(row.whole_mm, units),
         row.height_class, " ".join(row.braces))
        for row in raised.frame.schedule
    ]  # fmt: skip
    return table("Posts, centres from the datum corner; levels from the datum", columns, rows)


def _footings(footings: Footings, units: str) -> tuple[Html, Html]:
    columns = (("Footing", TEXT), ("Under", TEXT), ("Carries", FIGURE), ("Size", FIGURE),
               ("Thick", FIGURE), ("Pier", FIGURE), ("Underside below ground", FIGURE),
               ("Concrete", FIGURE), ("Bags", FIGURE))  # fmt: skip
    rows = [
        (one.mark, one.post, load_told(one, units), size_least(one.footing.size_mm, units),
         size_least(one.footing.thickness_mm, units),
         size_least(one.footing.pier_mm, units) if one.footing.pier_mm else "-",
         size_least(one.footing.depth_mm, units),
         volume_text(one.footing.concrete_m3, units), str(one.footing.bags))
        for one in footings.under
    ]  # fmt: skip
    return points(footings_told(footings, units)), table("Footings, post by post", columns, rows)


def strength_part(plan: Plan) -> Html:
    """Return by what the timber was screened, and the most used check of every member."""
    strength = plan.strength
    if strength is None:
        return Html("")
    stops = [f"{clean(one.subject)}: {clean(text, 300)}" for one in strength.screened
             for text in one.stops]  # fmt: skip
    return part(STRENGTH, "Strength", [
        points(basis_told(strength, plan.units)),
        para(limits_told(strength)),
        para(CAUTION),
        points(stops),
        _members(strength),
    ])  # fmt: skip


def _members(strength: Strength) -> Html:
    columns = (("Member", TEXT), ("Used, of 1", FIGURE), ("Check", TEXT), ("Load case", TEXT),
               ("By", TEXT))  # fmt: skip
    rows = [
        (one.subject, used(check.utilisation_ratio), check.name, check.case, source_told(check))
        for one in strength.screened if (check := worst_check(one)) is not None
    ]  # fmt: skip
    return table("The most used check of every member, up to the next 0.01", columns, rows)


def edges_part(plan: Plan) -> Html:
    """Return where guards run and how they are built, and the flight of steps."""
    return part(EDGES, "Guards and steps", [
        care(plan, EDGES),
        points(edges_told(plan)),
        _guards(plan),
        *drawings(plan, EDGES),
    ])  # fmt: skip


def _guards(plan: Plan) -> Html:
    guards, units = plan.guards, plan.units
    columns = (("Guard", TEXT), ("Where", TEXT), ("Length", FIGURE), ("Greatest drop", FIGURE))
    rows = [
        (run.mark, tuple(stretch_told(one, units) for one in run.stretches),
         size(run.length_mm, units), drop_told(run, units))
        for run in (guards.runs if guards else ())
    ]  # fmt: skip
    return table("Guards; edges are marked on the drawing", columns, rows)
