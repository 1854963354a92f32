"""The reasons of a deck that stands: legs, strength, footings, guards, steps."""

from drylay.brief.raised_model import RaisedWish
from drylay.planner.arranging import BACK_RATIO
from drylay.planner.job import Job
from drylay.planner.legs import pack_of
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.planner.standing import SCREENED_MM, SHORT_MM
from drylay.planner.stood import Stood
from drylay.raised.model import RaisedDeck
from drylay.reasons import Source
from drylay.regions.model import RegionPack
from drylay.regions.packs import limit_of


def rows(job: Job, stood: Stood) -> list[Row]:
    """Return the decisions taken on what stands under a deck and round it."""
    pack = pack_of(job)
    found = [] if stood.raised is None else _raised(job, stood, stood.raised)
    found += _strength(job, stood)
    if pack is not None:
        found += [*_footings(job, stood), *_guards(stood, pack), *_steps(stood)]
    return found


def _raised(job: Job, stood: Stood, deck: RaisedDeck) -> list[Row]:
    brief, frame, heights = job.brief, deck.frame, deck.frame.heights
    named = brief.raised.bearer is not None
    inputs = (("joist_span_mm", deck.joist_span_mm), ("joist_end_mm", deck.joist_end_mm),
              ("free_end_over_span_most", BACK_RATIO))  # fmt: skip
    return [
        row("raised.bearer", deck.bearer, "",
            "of the timber named, in the plies that cost least" if named
            else "the cheapest of all graded timbers on sale that passes",
            brief_says("raised.bearer") if named else merchant_says(job, deck.bearer_article),
            (("plies", frame.bearers[0].section.plies),), stood.tried),
        row("raised.post", deck.post, "", "the post the brief names", brief_says("raised.post")),
        row("raised.foot", deck.foot, "", "what posts stand on",
            _wished("raised.foot", brief.raised.foot, RaisedWish().foot),
            (("stand_off_mm", heights.stand_off_mm), ("embed_mm", heights.embed_mm))),
        *_joists(job, deck),
        row("raised.line_count", deck.line_count, "count",
            "as the brief has it" if brief.raised.lines_mm
            else "bearer lines of the cheapest arrangement that passes every check",
            brief_says("raised.lines_mm") if brief.raised.lines_mm else ARITHMETIC, inputs,
            stood.tried),
        row("raised.post_count", deck.post_count, "count",
            "as the brief has it" if brief.raised.posts_mm
            else "posts of the cheapest arrangement that passes every check",
            brief_says("raised.posts_mm") if brief.raised.posts_mm else ARITHMETIC,
            (("bearer_span_mm", deck.bearer_span_mm), ("bearer_end_mm", deck.bearer_end_mm)),
            stood.tried),
        row("raised.ledger_wall", deck.ledger_wall, "",
            f"a ledger on a sound wall, by {deck.ledger_fixing}" if deck.ledger_wall
            else "no ledger: the deck stands free", brief_says("house.wall")),
        row("raised.sharing", deck.sharing, "", _shared(deck), PRACTICE
            if deck.sharing == "halved" else ARITHMETIC),
        row("raised.post_top_mm", deck.post_top_mm, "mm",
            "the deck's top less board, joist and bearer", ARITHMETIC,
            (("finished_mm", heights.finished_mm), ("board_mm", heights.board_mm),
             ("joist_mm", heights.joist_over_mm), ("bearer_mm", heights.bearer_mm))),
        row("raised.brace_over_mm", deck.brace_over_mm, "mm", "longer posts are braced both ways",
            PRACTICE if brief.raised.brace_over_mm is None else brief_says("raised.brace_over_mm"),
            (("leg_mm", frame.bracing.leg_mm), ("short_mm", SHORT_MM),
             ("screened_mm", SCREENED_MM))),
    ]  # fmt: skip


def _joists(job: Job, deck: RaisedDeck) -> list[Row]:
    """Return whether joists lie over bearers or hang between, and what a hanger then carries."""
    lie = row("raised.joists", deck.joists, "",
              "between: hung on the bearers' faces, tops flush" if deck.hanger_kn is not None
              else "over the bearers, tied down to each",
              _wished("raised.joists", job.brief.raised.joists, RaisedWish().joists),
              (("joist_over_mm", deck.frame.heights.joist_over_mm),))  # fmt: skip
    if deck.hanger_kn is None:
        return [lie]
    hang = row(
        "raised.hanger_kn", deck.hanger_kn, "kN",
        "half the longest part of a joist under its bay: for good, and what is spread or a point "
        "load, whole", ARITHMETIC, (("joist_span_mm", deck.joist_span_mm),),
    )  # fmt: skip
    return [lie, hang]


def _wished(path: str, value: str, usual: str) -> Source:
    """Return who says so: the brief, or nobody where it is what holds unless told otherwise."""
    if value != usual:
        return brief_says(path)
    return Source(kind="common practice", title="common practice, no source",
                  clause="unless the brief says otherwise")  # fmt: skip


def _shared(deck: RaisedDeck) -> str:
    if deck.sharing == "halved":
        return "a post carries half of the bearer to either side, as the basis's tables have it"
    return "what a post carries of a bearer that runs on over it, and never less than half each way"


def _strength(job: Job, stood: Stood) -> list[Row]:
    strength = stood.strength
    if strength is None or job.basis is None:
        return []
    source = job.basis.loads(strength.use).source
    told = job.brief.strength.sharing is not None
    return [
        row("strength.sharing", strength.sharing, "",
            "how a point load is shared between joists",
            brief_says("strength.sharing") if told
            else Source(kind="assumption", title=strength.title, clause="unless told otherwise")),
        row("strength.dead_kn_m2", strength.dead_kn_m2, "kN/m2",
            "what lies on the deck for good, members' own weight "
            + ("apart" if strength.own_weight_apart else "in it"), source),
        row("strength.imposed_kn_m2", strength.imposed_kn_m2, "kN/m2", "imposed by the use",
            source, (("use", strength.use),)),
        row("strength.point_kn", strength.point_kn, "kN", "a point load that acts alone", source),
        row("strength.most_ratio", strength.most_ratio, "",
            "the largest utilisation of any check: 1 is the limit",
            Source(kind="standard", title=strength.title),
            (("members", len(strength.screened)),)),
    ]  # fmt: skip


def _footings(job: Job, stood: Stood) -> list[Row]:
    feet = stood.footings
    if feet is None:
        return []
    soil = brief_says("site.soil") if feet.soil_named else Source(
        kind="assumption", title="the region's soil where the brief names none"
    )  # fmt: skip
    frost = brief_says("site.frost_mm") if job.brief.site.frost_mm is not None else PRACTICE
    return [
        row("footings.kind", feet.kind, "", "what posts stand on in the ground",
            _wished("raised.footing", job.brief.raised.footing, RaisedWish().footing),
            (("shape", feet.shape),)),
        row("footings.bearing_kn_m2", feet.bearing_kn_m2, "kN/m2",
            f"presumed of {feet.soil}: nobody measured it", soil),
        row("footings.frost_mm", feet.frost_mm, "mm", "the deeper of the brief's and the region's",
            frost),
        row("footings.bags", feet.bags, "count", f"whole bags of {feet.bag}, for each footing",
            ARITHMETIC, (("concrete_m3", feet.concrete_m3),)),
        row("footings.mix_kg", feet.mix_kg, "kg", "dry mix in whole bags, each footing by itself",
            merchant_says(job, feet.mix_article), (("mix_kg_m3", feet.mix_kg_m3),)),
    ]  # fmt: skip


def _guards(stood: Stood, pack: RegionPack) -> list[Row]:
    guards = stood.guards
    if guards is None:
        return []
    known = (("guards.trigger_mm", guards.trigger_mm, "guard_trigger_mm",
              "an edge needs a guard over a deeper drop"),
             ("guards.height_mm", guards.height_mm, "guard_height_deck_mm", "height of a guard"),
             ("guards.ball_mm", guards.ball_mm, "sphere_mm", "a ball that may not pass"),
             ("guards.post_spacing_most_mm", guards.post_spacing_most_mm,
              "guard_post_spacing_mm", "guard posts stand no further apart"))  # fmt: skip
    return [
        row(path, value, "mm", rule, limit_of(pack, name).source,
            (("region", pack.pack), ("written", limit_of(pack, name).written)))
        for path, value, name, rule in known
    ]  # fmt: skip


def _steps(stood: Stood) -> list[Row]:
    steps = stood.steps
    if steps is None:
        return []
    flight = steps.flight
    return [
        row("steps.risers", steps.risers, "count", "; ".join(flight.why) or "keeps all rules",
            ARITHMETIC, (("rise_mm", flight.rise_mm), ("riser_mm", flight.riser_mm),
                         ("going_mm", flight.going_mm)))
    ]  # fmt: skip
