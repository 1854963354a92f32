"""The reasons of a deck that stands: legs, strength, footings, guards, steps."""

from drylay.brief.raised_model import RaisedWish
from drylay.guards.model import GuardFoot
from drylay.planner.arranging import BACK_RATIO
from drylay.planner.cover_weight import cover_kn_m2
from drylay.planner.job import Job
from drylay.planner.legs import pack_of
from drylay.planner.lorry import ASSUMED
from drylay.planner.rows import ARITHMETIC, PRACTICE, Row, brief_says, merchant_says, row
from drylay.planner.standing import SCREENED_MM, SHORT_MM
from drylay.planner.stood import Stood
from drylay.raised.model import RaisedDeck
from drylay.reasons import Inputs, Source
from drylay.regions.model import RegionPack
from drylay.regions.packs import limit_of, soil_named


def rows(job: Job, stood: Stood) -> list[Row]:
    """Return the decisions taken on what stands under a deck and round it."""
    pack = pack_of(job)
    found = [] if stood.raised is None else _raised(job, stood, stood.raised)
    found += _strength(job, stood)
    if pack is not None:
        found += [*_footings(job, stood, pack), *_guards(job, stood, pack), *_steps(stood)]
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
        row("strength.heavier_kn_m2", strength.heavier_kn_m2, "kN/m2",
            "what the cover weighs more than the basis takes: reckoned besides",
            ASSUMED, (("cover_kn_m2", float(cover_kn_m2(job))),)),
        row("strength.imposed_kn_m2", strength.imposed_kn_m2, "kN/m2", "imposed by the use",
            source, (("use", strength.use),)),
        row("strength.point_kn", strength.point_kn, "kN", "a point load that acts alone", source),
        row("strength.most_ratio", strength.most_ratio, "",
            "the largest utilisation of any check: 1 is the limit",
            Source(kind="standard", title=strength.title),
            (("members", len(strength.screened)),)),
    ]  # fmt: skip


def _footings(job: Job, stood: Stood, pack: RegionPack) -> list[Row]:
    feet = stood.footings
    if feet is None:
        return []
    bearing, told = soil_named(pack, feet.soil).bearing, job.brief.site.frost_mm
    named = "the brief" if feet.soil_named else "the region, where the brief names none"
    region = limit_of(pack, "frost_depth_mm")
    of_brief = told is not None and told >= (region.value or 0.0)
    frost = brief_says("site.frost_mm") if of_brief else region.source
    return [
        row("footings.kind", feet.kind, "", "what posts stand on in the ground",
            _wished("raised.footing", job.brief.raised.footing, RaisedWish().footing),
            (("shape", feet.shape),)),
        row("footings.bearing_kn_m2", feet.bearing_kn_m2, "kN/m2",
            f"presumed of {feet.soil}: nobody measured it", bearing.source,
            (("soil", feet.soil), ("named_by", named), ("written", bearing.written))),
        row("footings.frost_mm", feet.frost_mm, "mm", "the deeper of the brief's and the region's",
            frost),
        row("footings.bags", feet.bags, "count", f"whole bags of {feet.bag}, for each footing",
            ARITHMETIC, (("concrete_m3", feet.concrete_m3),)),
        row("footings.mix_kg", feet.mix_kg, "kg", "dry mix in whole bags, each footing by itself",
            merchant_says(job, feet.mix_article), (("mix_kg_m3", feet.mix_kg_m3),)),
    ]  # fmt: skip


def _guards(job: Job, stood: Stood, pack: RegionPack) -> list[Row]:
    guards = stood.guards
    if guards is None:
        return []
    known = (("guards.trigger_mm", guards.trigger_mm, "guard_trigger_mm",
              "an edge needs a guard over a deeper drop"),
             ("guards.height_mm", guards.height_mm, "guard_height_deck_mm", "height of a guard"),
             ("guards.ball_mm", guards.ball_mm, "sphere_mm",
              "a ball that may not pass"))  # fmt: skip
    found = [
        row(path, value, "mm", rule, limit_of(pack, name).source, _of_pack(pack, name))
        for path, value, name, rule in known
    ]  # fmt: skip
    found.append(_post_spacing(job, stood, pack, guards.post_spacing_most_mm))
    return [*found, *(() if guards.foot is None else _guard_foot(pack, guards.foot))]


def _of_pack(pack: RegionPack, name: str) -> Inputs:
    return ("region", pack.pack), ("written", limit_of(pack, name).written)


def _post_spacing(job: Job, stood: Stood, pack: RegionPack, most_mm: float | None) -> Row:
    """Return how far apart guard posts may stand: by their feet, the brief or the region."""
    path, limit = "guards.post_spacing_most_mm", limit_of(pack, "guard_post_spacing_mm")
    inputs = _of_pack(pack, limit.name)
    if stood.guards_tried and stood.strength is not None:
        ratios = [one.checks[0].utilisation_ratio for one in stood.strength.screened
                  if one.subject.startswith("guard posts") and one.checks]  # fmt: skip
        return row(path, most_mm, "mm", "the furthest apart, in whole steps, that guard posts pass "
                   "at their feet", Source(kind="standard", title=stood.strength.title),
                   (*inputs, ("used_ratio", max(ratios, default=0.0))),
                   stood.guards_tried)  # fmt: skip
    wished = job.brief.guards.post_spacing_mm
    if wished is not None and wished == most_mm:
        return row(path, most_mm, "mm", "guard posts stand no further apart",
                   brief_says("guards.post_spacing_mm"), inputs)  # fmt: skip
    return row(path, most_mm, "mm", "guard posts stand no further apart", limit.source, inputs)


def _guard_foot(pack: RegionPack, foot: GuardFoot) -> list[Row]:
    bolts = (("washer_mm", foot.washer_mm), ("upper_bolt_mm", foot.upper_bolt_mm),
             ("bolts_apart_mm", foot.bolts_apart_mm))  # fmt: skip
    return [
        row("guards.foot.article", foot.article, "", "the timber of guards' posts that the brief "
            "names", brief_says("guards.post_article"),
            (("breadth_mm", foot.breadth_mm), ("depth_mm", foot.depth_mm))),
        row("guards.foot.bolt", foot.bolt, "", "two bolts as the brief has them, in line down the "
            "post", brief_says("guards.bolt"), bolts),
        row("guards.foot.edge_depth_mm", foot.edge_depth_mm, "mm", "the frame's edge, which the "
            "bolts go through", ARITHMETIC, (("edge_top_mm", foot.edge_top_mm),)),
        *(row(f"guards.foot.{name}", value, unit, rule, limit_of(pack, limit).source,
              _of_pack(pack, limit))
          for name, value, unit, rule, limit in (
              ("line_kn_m", foot.line_kn_m, "kN/m", "level load along a guard's top",
               "guard_line_kn_m"),
              ("point_kn", foot.point_kn, "kN", "level load at one place of a guard's top",
               "guard_point_kn"))),
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
