"""The witnessed audit of a deck that stands: wishes, articles, ground, region, guards, steps."""

from collections.abc import Iterator

from drylay.audit.edges import edges_of
from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, off_by, same_count, same_length, same_text
from drylay.audit.frame import frame_of
from drylay.audit.guard_posts_asked import guard_posts_of, timber_of
from drylay.audit.guards_seen import guards_of
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.raised_parts import deck_of, lines_across, posts_along, stopped
from drylay.audit.rows import surface_of
from drylay.audit.steps_seen import steps_of
from drylay.audit.strength_asked import strength_of
from drylay.audit.terrain import found_on, level_at, terrain
from drylay.brief.model import Brief
from drylay.brief.raised_model import RaisedWish
from drylay.materials.stock_model import Timber
from drylay.plan.model import Plan
from drylay.raised.model import RaisedDeck
from drylay.strength.model import BeamAsked, PostAsked, Section

BRIEF = conventions("Axes and datum; the brief's own wish")
#: How deep posts run into concrete, and stand off on feet, where nobody says: common practice.
EMBED, OFF, BRACE_OVER = 450, 50, 1200
#: Posts longer than 2 ft are braced where no house holds the deck: DCA 6, from memory. A ledger
#: holds none through loose tiles.
FREE_BRACE_OVER = 600
#: What a flight is as broad as where nobody says, if its side is: common practice.
STEPS_WIDE = 900


def _brief(witness: Witness) -> Brief:
    return need(witness.brief, "brief as witness")


def _differs(subject: str, found: object, wanted: object) -> Iterator[Flaw]:
    if found != wanted:
        message = f"found {found!r}, the brief wishes {wanted!r}"
        yield Flaw(subject=subject, message=message, source=BRIEF)


def parts_wished_are_there(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw where a plan that nothing stops lacks what the brief wishes, or has more."""
    brief = _brief(witness)
    framed = brief.board.support != "pads"
    carries = (brief.raised.post, brief.groundwork.packer, brief.strength.board_class)
    wished = {
        "raised": brief.raised.post is not None,
        "strength": brief.strength.basis is not None and any(carries),
        "guards": brief.site.region is not None,
        "steps": brief.steps.side is not None,
    }
    for name, wanted in wished.items() if framed and not stopped(plan) else ():
        there = getattr(plan, name) is not None
        if there != wanted:
            message = "not there, against the brief" if wanted else "there, against the brief"
            yield Flaw(subject=name, message=message, source=BRIEF)


def stands_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless a deck stands where the brief wishes it, of the timber it names."""
    wish = _brief(witness).raised
    deck = deck_of(plan)
    yield from same_text("raised.post_article", "not the brief's", deck.post_article,
                         wish.post or "", BRIEF)  # fmt: skip
    yield from _differs("raised.joists", deck.joists, wish.joists)
    if wish.bearer is not None:
        yield from _differs("raised.bearer_article", deck.bearer_article, wish.bearer)
    for bearer in deck.frame.bearers if wish.plies is not None else ():
        yield from _differs(f"{bearer.mark}: plies", bearer.section.plies, wish.plies)
    ledger = deck.frame.ledger
    if ledger is not None:
        yield from _differs("raised.frame.ledger", True, wish.ledger)
        yield from _differs(ledger.mark, ledger.wall, _brief(witness).house.wall)
        for name, found, wanted in (
            ("fixing", deck.ledger_fixing, wish.ledger_fixing),
            ("spacing", ledger.spacing_most_mm, wish.ledger_spacing_mm),
        ):
            if wanted is not None:
                yield from _differs(f"{ledger.mark}: {name}", found, wanted)
    held = deck.frame.ledger is not None and plan.tiling is None
    usual = BRACE_OVER if held else FREE_BRACE_OVER
    over = ticks(usual if wish.brace_over_mm is None else wish.brace_over_mm)
    yield from same_length("raised.brace_over_mm", "not as wished", deck.brace_over_mm, over, BRIEF)
    yield from _foot_as_wished(deck, wish, witness)


def _foot_as_wished(deck: RaisedDeck, wish: RaisedWish, witness: Witness) -> Iterator[Flaw]:
    heights, metal = deck.frame.heights, wish.foot == "metal foot"
    feet = () if witness.stock is None else witness.stock.post_feet
    sold = next((foot.stand_off_mm for foot in feet if foot.code == wish.post_foot), OFF)
    off = (sold if wish.stand_off_mm is None else wish.stand_off_mm) if metal else 0.0
    into = 0.0 if metal else (EMBED if wish.embed_mm is None else wish.embed_mm)
    for name, found, wanted in (
        ("stand_off_mm", heights.stand_off_mm, off), ("embed_mm", heights.embed_mm, into),
    ):  # fmt: skip
        subject = f"raised.frame.heights.{name}"
        yield from same_length(subject, "not the foot wished", found, ticks(wanted), BRIEF)
    yield from _differs("raised.foot_article", deck.foot_article,
                        (wish.post_foot or "") if metal else "")  # fmt: skip


def lines_and_posts_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless bearers and posts stand where the brief puts them, if it does."""
    deck, wish = deck_of(plan), _brief(witness).raised
    near = ticks(edges_of(plan).frame_near_mm)
    if wish.lines_mm is not None:
        found = [line - near for line in lines_across(deck.frame)]
        yield from _differs("raised.frame.bearers", found, [ticks(at) for at in wish.lines_mm])
    for bearer in deck.frame.bearers if wish.posts_mm is not None else ():
        along = posts_along(deck.frame, bearer)
        yield from _differs(bearer.mark, along, [ticks(at) for at in wish.posts_mm or ()])


def hangers_carry_what_is_declared(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless a hanger's load is held against what its maker declares, if he does."""
    load = need(deck_of(plan).hanger_kn, "load of hangers")
    stock, hangers = need(witness.stock, "stock as witness"), need(plan.fixings, "fixings").hangers
    code = need(hangers, "hangers").article
    sold = need(next((each for each in stock.hangers if each.code == code), None), "hanger sold")
    for finding in (each for each in plan.findings if each.code == "RSD-018"):
        yield from _differs("RSD-018: limit", finding.limit, sold.capacity_kn)
    if sold.capacity_kn is not None and load > sold.capacity_kn and not stopped(plan):
        message = "more comes down on it than its maker declares, and nothing stops the plan"
        yield Flaw(subject=code, message=message, measured=load, limit=sold.capacity_kn,
                   unit="kN", source=BRIEF)  # fmt: skip


def _sold(witness: Witness, code: str) -> Timber:
    stock = need(witness.stock, "stock as witness")
    found = next((timber for timber in stock.timbers if timber.code == code), None)
    return need(found, f"timber {code!r} in the stock")


def timber_that_stands_is_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless bearers and posts have their articles' sections."""
    deck = deck_of(plan)
    bearer, post = _sold(witness, deck.bearer_article), _sold(witness, deck.post_article)
    parts = [(each.mark, each.section, bearer) for each in deck.frame.bearers]
    parts += [(each.mark, each.section, post) for each in deck.frame.posts]
    for mark, section, timber in parts:
        yield from _section(mark, section, timber)


def _section(mark: str, section: Section, timber: Timber) -> Iterator[Flaw]:
    for name, found, wanted in (
        ("breadth", section.breadth_mm, timber.thickness_mm),
        ("depth", section.depth_mm, timber.depth_mm),
    ):
        message = f"not the {name} that it is sold with"
        yield from same_length(mark, message, found, ticks(wanted), BRIEF)


def woods_are_graded_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless every member was screened as the wood that its article is graded."""
    strength, wish = strength_of(plan), _brief(witness)
    joist = _sold(witness, frame_of(plan).timber_article)
    deck = plan.raised
    bearer = joist if deck is None else _sold(witness, deck.bearer_article)
    post = joist if deck is None else _sold(witness, deck.post_article)
    asked: list[tuple[BeamAsked | PostAsked, Timber]] = [
        (beam, joist if beam.kind == "joist" else bearer) for beam in strength.beams
    ]
    asked += [(each, post) for each in strength.posts]
    for each, timber in asked:
        message = "screened as another wood than it is sold as"
        yield from same_text(each.subject, message, each.wood, timber.strength_class, BRIEF)
    for ledger in strength.ledgers:
        message = "screened as another wood than it is sold as"
        yield from same_text(ledger.subject, message, ledger.wood, joist.strength_class, BRIEF)
    for board in strength.boards:
        yield from _differs(board.subject, board.wood, wish.strength.board_class)
    held = wish.raised.hold_down_kn or 0.0
    for beam in strength.beams:
        if beam.hold_down_kn > held:
            message = "held down by more than the brief tells of"
            yield Flaw(subject=beam.subject, message=message, measured=beam.hold_down_kn,
                       limit=held, unit="kN", source=BRIEF)  # fmt: skip


def screened_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the brief's basis screened the timber, for its use, sharing as wished."""
    brief = _brief(witness)
    strength = strength_of(plan)
    yield from _differs("strength.basis", strength.basis, brief.strength.basis)
    yield from _differs("strength.use", strength.use, brief.use)
    if brief.strength.sharing is not None:
        yield from _differs("strength.sharing", strength.sharing, brief.strength.sharing)
    for beam in strength.beams:
        yield from _differs(f"{beam.subject}: sharing", beam.sharing, strength.sharing)


def posts_stand_on_the_ground_measured(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for each post whose ground is not that between the brief's points."""
    deck, surface = deck_of(plan), surface_of(plan)
    points = _brief(witness).levels.points
    ground = terrain(points, surface.cover_along_mm, surface.cover_across_mm)
    lies = need(ground, "ground between the brief's points")
    spots = tuple(
        (ticks(post.place.along_mm), ticks(post.place.across_mm)) for post in deck.frame.posts
    )
    if surface.run == "across":
        spots = tuple((across, along) for along, across in spots)
    for post, level in zip(deck.frame.posts, level_at(points, spots, lies), strict=True):
        message = "not the ground between the brief's points"
        yield from same_length(post.mark, message, post.ground_mm, level, BRIEF)


def footings_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless footings are of the kind, on the soil, below the frost of the brief."""
    footings, brief = need(plan.footings, "footings"), _brief(witness)
    wish, site = brief.raised, brief.site
    yield from _differs("footings.kind", footings.kind, wish.footing)
    yield from _differs("footings.shape", footings.shape, wish.shape)
    yield from _differs("footings.mix_article", footings.mix_article, wish.concrete or "")
    yield from _differs("footings.soil_named", footings.soil_named, site.soil is not None)
    if site.soil is not None:
        yield from _differs("footings.soil", footings.soil, site.soil)
    if ticks(footings.frost_mm or 0.0) < ticks(site.frost_mm or 0.0):
        message = "above the frost that the brief tells of"
        frost = ticks(footings.frost_mm or 0.0)
        yield off_by("footings.frost_mm", message, frost, ticks(site.frost_mm or 0.0), BRIEF)


def guards_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless guards are the region's and the brief's, over the ground it measured."""
    guards, brief = guards_of(plan), _brief(witness)
    wish = brief.guards
    yield from _differs("guards.region", guards.region, brief.site.region)
    if wish.height_mm is not None:
        yield from _differs("guards.height_mm", guards.height_mm, wish.height_mm)
    spacing, most = guards.post_spacing_most_mm, wish.post_spacing_mm
    if most is not None and (spacing is None or spacing > most):
        yield from _differs("guards.post_spacing_most_mm", spacing, most)
    for guard in guards.built:
        if wish.post_mm is not None:
            yield from _differs(f"{guard.run}: posts", guard.post_mm, wish.post_mm)
        for bay in guard.bays:
            yield from _differs(f"{guard.run}: infill", bay.kind, wish.infill)
            if wish.thickness_mm is not None:
                yield from _differs(f"{guard.run}: infill", bay.thickness_mm, wish.thickness_mm)
    survey = found_on(brief.levels.points)
    triangles = () if survey is None else survey[1]
    wanted = {frozenset((int(x), int(y), int(z)) for x, y, z in three) for three in triangles}
    found = {
        frozenset((ticks(s.along_mm), ticks(s.across_mm), ticks(s.level_mm)) for s in each.corners)
        for each in guards.facets
    }
    if found != wanted:
        message = "not the ground between the brief's points"
        yield Flaw(subject="guards.facets", message=message, source=BRIEF)


def feet_of_guards_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless guards' posts are held, and screened, by what the brief tells alone."""
    wish, foot = _brief(witness).guards, guards_of(plan).foot
    names = ("bolt", "washer_mm", "upper_bolt_mm", "bolts_apart_mm")
    told = [wish.post_article, *(getattr(wish, name) for name in names)]
    if foot is None or None in told:
        if (foot is None) != (None in told):
            message = "what holds guards' posts is told, and the brief does not, or not"
            yield Flaw(subject="guards.foot", message=message, source=BRIEF)
        return
    yield from _differs("guards.foot.article", foot.article, wish.post_article)
    for name in names:
        yield from _differs(f"guards.foot.{name}", getattr(foot, name), getattr(wish, name))
    post, edge = _sold(witness, foot.article), _sold(witness, timber_of(plan).timber_article)
    own = Section(breadth_mm=foot.breadth_mm, depth_mm=foot.depth_mm)
    yield from _section("guards.foot", own, post)
    message = "screened as another wood than it is sold as"
    for each in guard_posts_of(plan):
        yield from same_text(each.subject, message, each.wood, post.strength_class, BRIEF)
        yield from same_text(each.subject, message, each.edge_wood, edge.strength_class, BRIEF)


def steps_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless the steps are those that the brief wishes, where it wishes them."""
    brief = _brief(witness)
    wish, surface = brief.steps, surface_of(plan)
    steps = steps_of(plan)
    yield from _differs("steps.side", steps.side, wish.side)
    yield from _differs("steps.region", steps.region, brief.site.region)
    along = wish.side in {"house", "front"}
    long = ticks(surface.cover_along_mm if along else surface.cover_across_mm)
    wide = min(ticks(STEPS_WIDE), long) if wish.width_mm is None else ticks(wish.width_mm)
    start = (long - wide) // 2 if wish.from_mm is None else ticks(wish.from_mm)
    yield from same_length("steps.width_mm", "not as wished", steps.width_mm, wide, BRIEF)
    yield from same_length("steps.from_mm", "not where wished", steps.from_mm, start, BRIEF)
    tread = surface.board_thickness_mm if wish.tread_mm is None else wish.tread_mm
    yield from same_length("steps.tread_mm", "not as wished", steps.tread_mm, ticks(tread), BRIEF)
    if wish.going_mm is not None and steps.risers > 1:
        going = ticks(wish.going_mm)
        yield from same_length("steps.flight.going_mm", "not as wished", steps.flight.going_mm,
                               going, BRIEF)  # fmt: skip
    if wish.risers is not None:
        yield from same_count("steps.risers", "not as wished", steps.risers, wish.risers, BRIEF)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W46", "a deck stands as the brief wishes", stands_as_wished),
    ("AUD-W59", "what the brief wishes of a deck that stands is there", parts_wished_are_there),
    ("AUD-W47", "bearers and posts stand where the brief puts them", lines_and_posts_as_wished),
    (
        "AUD-W99",
        "hangers are held against what they are declared for",
        hangers_carry_what_is_declared,
    ),
    ("AUD-W48", "timber that stands is as sold", timber_that_stands_is_as_sold),
    ("AUD-W49", "members are screened as the wood they are sold as", woods_are_graded_as_sold),
    ("AUD-W50", "the brief's basis screened the timber", screened_as_wished),
    ("AUD-W55", "posts stand on the ground as measured", posts_stand_on_the_ground_measured),
    ("AUD-W56", "footings are the brief's", footings_as_wished),
    ("AUD-W57", "guards are the brief's, over the ground as measured", guards_as_wished),
    ("AUD-W58", "steps are the brief's", steps_as_wished),
    ("AUD-W98", "guards' posts are held by what the brief tells", feet_of_guards_as_wished),
)
