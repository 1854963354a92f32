"""A deck that stands on posts, put together of the rooms' own verbs over a planned rectangle.

The ground is a plane of its own, -600 - along / 20 - across / 40; levels of posts in the tests are
sums of it. Bearers and posts are of made-up timber; the basis is Eurocode 5.
"""

from functools import cache
from itertools import pairwise

from attrs import evolve

from audit.real import example, stock
from drylay.brief.model import GroundPoint
from drylay.edges.model import Edges
from drylay.findings import Finding, Severity
from drylay.flights.made import flight_findings
from drylay.flights.model import Steps
from drylay.flights.rules import flight_rules
from drylay.flights.ways import flight_ways
from drylay.groundwork.footing_told import footing_findings
from drylay.groundwork.footings import footing_for, footing_rules
from drylay.groundwork.model import Footing, Footings, PostFooting
from drylay.guards.infill import guard_findings, guard_of
from drylay.guards.model import Edge, Facet, GroundSpot, Guards, Passage
from drylay.guards.needed import guard_runs, guard_stretches
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.planner.design import design
from drylay.raised.bearers import bearer_lines
from drylay.raised.carried import carried_mm
from drylay.raised.ledger import ledger_on
from drylay.raised.model import (
    Bearer,
    Heights,
    Ledger,
    LegPiece,
    RaisedDeck,
    RaisedFrame,
    SpanLimit,
)
from drylay.raised.plies import ply_joints
from drylay.raised.posts import post_places
from drylay.raised.standing import PostSpot, raised_frame
from drylay.reasons import Source
from drylay.regions.packs import limit_of, region_pack, soil_named
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import (
    BeamAsked,
    BoardAsked,
    DesignBasis,
    LedgerAsked,
    PostAsked,
    Section,
    Strength,
)

MADE_UP = Source(kind="assumption", title="made up for these tests")
BEARER, POST, JOIST = "BE-45-195", "PO-100", "FT-45-145"
SECTION = Section(breadth_mm=45.0, depth_mm=195.0, plies=2)
POST_SECTION = Section(breadth_mm=100.0, depth_mm=100.0)
PACK = "united-kingdom"
BOARDS = Section(breadth_mm=145.0, depth_mm=28.0)


def ground_mm(along_mm: float, across_mm: float) -> float:
    """Return the level of the ground, down to 1/320 mm."""
    return int((-600 - along_mm / 20 - across_mm / 40) * 320) / 320


def spot(along_mm: float, across_mm: float) -> Spot:
    return Spot(along_mm=along_mm, across_mm=across_mm)


def most(length_mm: float) -> SpanLimit:
    return SpanLimit(most_mm=length_mm, measured="centres", source=MADE_UP)


def heights(top_mm: float) -> Heights:
    return Heights(
        finished_mm=top_mm, board_mm=28.0, joist_over_mm=145.0, bearer_mm=195.0,
        stand_off_mm=20.0, short_mm=50.0, brace_over_mm=300.0, screened_mm=1800.0,
    )  # fmt: skip


def ledger_on_edges(edges: Edges, joists_mm: list[float]) -> Ledger:
    found = ledger_on(
        wall="concrete", section=Section(breadth_mm=45.0, depth_mm=145.0),
        start_mm=edges.frame_start_mm, end_mm=edges.frame_start_mm + edges.frame_length_mm,
        spacing_most_mm=300.0, from_end_mm=50.0, joists_mm=joists_mm, clear_mm=62.5,
        source=MADE_UP,
    )  # fmt: skip
    assert isinstance(found, Ledger)
    return found


def laid(plan: Plan, *, held: bool) -> tuple[RaisedDeck, tuple[Finding, ...]]:
    """Return the deck that stands under a plan's frame, on a ledger or free of the house."""
    edges, supports = plan.edges, plan.supports
    assert edges is not None
    assert supports is not None
    joists = [line.offset_mm for line in supports.lines]
    ledger = ledger_on_edges(edges, joists) if held else None
    lines = bearer_lines(
        depth_mm=edges.frame_depth_mm, bearer_mm=90.0, ledger_mm=45.0 if held else None,
        span=most(1650.0), end=most(330.0), back_ratio=0.25,
    )  # fmt: skip
    from_mm = 45.0 if held else 0.0
    rests = (*((0.0,) if held else ()), *(line - from_mm for line in lines.lines_mm))
    long_mm = edges.frame_depth_mm - from_mm
    shares = carried_mm(length_mm=long_mm, supports_mm=rests)[len(rests) - lines.line_count :]
    posts = post_places(
        length_mm=edges.frame_length_mm, post_mm=100.0, carried_mm=max(shares),
        spans=lambda _: most(1700.0), end=most(350.0), more_posts=1,
    )  # fmt: skip
    joints = ply_joints(
        length_mm=edges.frame_length_mm, posts_mm=posts.places_mm, plies=2, longest_mm=3600.0
    )
    bearers = tuple(
        Bearer(
            mark=f"BR{number}", line=f"line {number}", section=SECTION,
            across_mm=edges.frame_near_mm + line, start_mm=edges.frame_start_mm,
            end_mm=edges.frame_start_mm + edges.frame_length_mm, carried_mm=share,
            joints=joints or (),
        )
        for number, (line, share) in enumerate(zip(lines.lines_mm, shares, strict=True), 1)
    )  # fmt: skip
    far_mm = edges.frame_near_mm + edges.frame_depth_mm
    rows = [
        [
            PostSpot(along_mm=edges.frame_start_mm + at, joist_from_mm=edges.frame_near_mm,
                     ground_mm=ground_mm(edges.frame_start_mm + at, bearer.across_mm),
                     joist_to_mm=far_mm)
            for at in posts.places_mm
        ]
        for bearer in bearers
    ]  # fmt: skip
    frame = raised_frame(
        bearers=bearers, spots=rows, post_section=POST_SECTION, heights=heights(-150.0),
        brace_leg_mm=250.0, ledger=ledger,
    )  # fmt: skip
    gaps = [b - a for a, b in pairwise(rests)]
    ends = [long_mm - rests[-1], *([] if held else rests[:1])]
    deck = RaisedDeck(
        bearer_article=BEARER, post_article=POST, bearer=f"2 x {BEARER}", post=POST,
        foot="metal foot, 20 mm off the ground", line_count=len(bearers),
        post_count=len(frame.posts), ledger_wall="concrete" if held else "",
        ledger_fixing="anchor 6 kN" if held else "", sharing="levered",
        joist_span_mm=max(gaps), joist_end_mm=max(ends), bearer_span_mm=max(posts.spans_mm),
        bearer_end_mm=max(posts.ends_mm), post_top_mm=frame.posts[0].top_mm, brace_over_mm=300.0,
        frame=evolve(frame, findings=()), pieces=pieces_of(frame),
    )  # fmt: skip
    return deck, frame.findings


def pieces_of(frame: RaisedFrame) -> tuple[LegPiece, ...]:
    """Return what is sawn: plies from joint to joint, whole posts, braces to their long edge."""
    found = []
    for bearer in frame.bearers:
        for ply in (1, 2):
            cuts = [joint.at_mm for joint in bearer.joints if joint.ply == ply]
            ends = [0.0, *cuts, bearer.end_mm - bearer.start_mm]
            found += [
                LegPiece(mark=f"{bearer.mark}.{ply}.{part}", kind="bearers", length_mm=b - a)
                for part, (a, b) in enumerate(pairwise(ends), 1)
            ]
    found += [LegPiece(mark=p.mark, kind="posts", length_mm=p.whole_mm) for p in frame.posts]
    found += [
        LegPiece(mark=brace.mark, kind="braces", length_mm=brace.length_mm + 145.0)
        for brace in frame.bracing.braces
    ]
    return tuple(found)


def asked_of(
    plan: Plan, deck: RaisedDeck, basis: DesignBasis | None = None, wood: str = "C24"
) -> Strength:
    """Return every member as a basis screens it, Eurocode 5 unless told."""
    basis, edges, supports = basis or eurocode_5(), plan.edges, plan.supports
    assert edges is not None
    assert supports is not None
    loads, frame = basis.loads("dwelling"), deck.frame
    held = frame.ledger is not None
    from_mm = edges.frame_near_mm + (45.0 if held else 0.0)
    rests = (*((0.0,) if held else ()), *(b.across_mm - from_mm for b in frame.bearers))
    apart = loads.own_weight_apart
    joists_kn_m2 = apart * 8.0 * 0.045 * 0.145 / (supports.centres_mm / 1000)
    beams = [BeamAsked(
        kind="joist", subject="joists", wood=wood, sharing="one joist", alike=4,
        section=Section(breadth_mm=45.0, depth_mm=145.0), supports_mm=rests,
        length_mm=edges.frame_near_mm + edges.frame_depth_mm - from_mm,
        carried_mm=supports.centres_mm, bearing_mm=90.0, hold_down_kn=5.0,
    )]  # fmt: skip
    posts = []
    for bearer in frame.bearers:
        at = tuple(
            p.place.along_mm - bearer.start_mm for p in frame.posts if p.bearer == bearer.mark
        )
        beams.append(BeamAsked(
            kind="bearer", subject=bearer.mark, wood=wood, sharing="one joist", section=SECTION,
            length_mm=edges.frame_length_mm, supports_mm=at, carried_mm=bearer.carried_mm,
            bearing_mm=100.0, held_each_mm=supports.centres_mm, hold_down_kn=20.0,
            more_dead_kn_m2=joists_kn_m2,
        ))  # fmt: skip
        shares = carried_mm(length_mm=edges.frame_length_mm, supports_mm=at)
        on = [post for post in frame.posts if post.bearer == bearer.mark]
        for post, along_mm in zip(on, shares, strict=True):
            area = along_mm * bearer.carried_mm / 1e6
            dead = (
                loads.dead_kn_m2 + joists_kn_m2
            ) * area + apart * 8.0 * 0.09 * 0.195 * along_mm / 1000
            posts.append(PostAsked(
                subject=post.mark, wood=wood, section=POST_SECTION, length_mm=post.length_mm,
                dead_kn=dead, live_kn=max(loads.imposed_kn_m2 * area, loads.point_kn),
                braced=post.height_class == "braced" or not apart,
            ))  # fmt: skip
    boards = (BoardAsked(subject="boards", wood=wood, section=BOARDS,
                         bay_mm=supports.centres_mm, bays=2),)  # fmt: skip
    ledgers = (LedgerAsked(subject="LG1", wood=wood, span_mm=rests[1] - rests[0],
                           section=Section(breadth_mm=45.0, depth_mm=145.0), spacing_mm=300.0,
                           fixing="anchor 6 kN"),) if held else ()  # fmt: skip
    screened = (
        *(basis.beam(each, "dwelling") for each in beams),
        *(basis.post(each, "dwelling") for each in posts),
        *(basis.board(each, "dwelling") for each in boards),
        *(basis.ledger(each, "dwelling") for each in ledgers),
    )
    used = [check.utilisation_ratio for one in screened for check in one.checks]
    return Strength(
        basis=basis.id, title=basis.title, use="dwelling", sharing="one joist",
        dead_kn_m2=loads.dead_kn_m2, imposed_kn_m2=loads.imposed_kn_m2, point_kn=loads.point_kn,
        own_weight_apart=loads.own_weight_apart, beams=tuple(beams), posts=tuple(posts),
        boards=boards, ledgers=ledgers, screened=screened, most_ratio=max(used),
    )  # fmt: skip


def footings_under(strength: Strength, *, kind: str = "pad", shape: str = "square") -> Footings:
    pack = region_pack(PACK)
    soil, under = soil_named(pack, ""), []
    for number, post in enumerate(strength.posts, 1):
        found = footing_for(
            kind=kind, shape=shape, load_kn=post.dead_kn + post.live_kn, soil=soil,
            soil_named=False, post_mm=100.0, rules=footing_rules(pack), bag=pack.bags[0],
            frost_mm=450.0, pier=True,
        )  # fmt: skip
        assert isinstance(found, Footing)
        under.append(PostFooting(mark=f"FT{number}", post=post.subject, dead_kn=post.dead_kn,
                                 live_kn=post.live_kn, footing=found))  # fmt: skip
    first = under[0].footing
    return Footings(
        kind=kind, shape=shape, soil=first.soil, soil_named=False,
        bearing_kn_m2=first.bearing_kn_m2, frost_mm=450.0, bag=first.bag,
        bags=sum(each.footing.bags for each in under),
        concrete_m3=round(sum(each.footing.concrete_m3 for each in under), 3), under=tuple(under),
    )  # fmt: skip


def facets() -> tuple[Facet, ...]:
    """Return the plane round the deck as two triangles."""
    far = ((-2000.0, -500.0), (8000.0, -500.0), (8000.0, 5000.0), (-2000.0, 5000.0))
    a, b, c, d = (GroundSpot(along_mm=x, across_mm=y, level_mm=ground_mm(x, y)) for x, y in far)
    return Facet(corners=(a, b, c)), Facet(corners=(a, c, d))


def guards_round(plan: Plan) -> tuple[Guards, tuple[Finding, ...]]:
    """Return the guards along all sides that are not the house's, a way through in the front."""
    surface, pack = plan.surface, region_pack(PACK)
    assert surface is not None
    along, across = surface.cover_along_mm, surface.cover_across_mm
    corners = ((0.0, 0.0), (along, 0.0), (along, across), (0.0, across))
    edges = tuple(
        Edge(
            mark=f"E{at + 1}", start=spot(*corners[at]), end=spot(*corners[(at + 1) % 4]),
            top_mm=-150.0, kind="house" if at == 0 else "open",
            passages=(Passage(name="steps", from_mm=along - 2900.0, to_mm=along - 2000.0),)
            if at == 2 else (),
        )
        for at in range(4)
    )  # fmt: skip
    trigger, out = limit_of(pack, "guard_trigger_mm"), limit_of(pack, "guard_measured_out_mm")
    spacing, height = (
        limit_of(pack, "guard_post_spacing_mm"),
        limit_of(pack, "guard_height_deck_mm"),
    )
    found = [
        stretch
        for edge in edges
        for stretch in guard_stretches(edge, facets(), trigger=trigger, out_mm=out.value or 0.0)
    ]
    runs, ball = guard_runs(edges, tuple(found)), limit_of(pack, "sphere_mm").value or 0.0
    built = tuple(
        guard_of(run, height_mm=1100.0, post_mm=90.0, baluster_mm=40.0, ball_mm=ball,
                 spacing=spacing)
        for run in runs
    )  # fmt: skip
    told = [
        each
        for guard, run in zip(built, runs, strict=True)
        for each in guard_findings(
            guard, run, height=height, climb=limit_of(pack, "rails_climb_mm")
        )
    ]
    guards = Guards(
        region=PACK, trigger_mm=trigger.value or 0.0, out_mm=out.value or 0.0,
        height_mm=height.value or 0.0, ball_mm=ball, post_spacing_most_mm=spacing.value,
        length_mm=sum(run.length_mm for run in runs), edges=edges, facets=facets(), runs=runs,
        built=built,
    )  # fmt: skip
    return guards, tuple(told)


def steps_down() -> tuple[Steps, tuple[Finding, ...]]:
    """Return a flight down from the front, 2000 from the corner nearer the datum."""
    rules = flight_rules(region_pack(PACK))
    drop = -150.0 - ground_mm(2900.0, 3040.0)
    way = flight_ways(
        rules=rules, drop_mm=drop, tread_mm=28.0, board_mm=28.0, fall_ratio=0.025
    ).ways[0]
    steps = Steps(
        region=PACK, side="front", from_mm=2000.0, width_mm=900.0, tread_mm=28.0,
        risers=way.risers, fall_ratio=0.025, across_fall_mm=45.0, flight=way,
    )  # fmt: skip
    return steps, flight_findings(way, rules, width_mm=900.0, across_fall_mm=45.0)


def levelled(plan: Plan) -> Plan:
    """Return a plan over the ground of these tests."""
    site, surface = plan.site, plan.surface
    assert site is not None
    assert site.levels is not None
    assert surface is not None
    low = ground_mm(surface.cover_along_mm, surface.cover_across_mm)
    levels = evolve(
        site.levels, ground_most_mm=-600.0, ground_least_mm=low, edge_least_mm=low,
        drop_mm=-150.0 - low, under_most_mm=-323.0 - low, under_least_mm=277.0,
    )  # fmt: skip
    return evolve(plan, site=evolve(site, levels=levels))


def assumed(strength: Strength) -> tuple[Finding, ...]:
    told = dict.fromkeys(each for one in strength.screened for each in one.assumed)
    return tuple(
        Finding(code="STR-003", severity=Severity.NOTE, subject="strength", message=each,
                source=MADE_UP)
        for each in told
    )  # fmt: skip


@cache
def standing_plan(*, held: bool = False) -> Plan:
    """Return the whole plan: on a ledger, or free of the house."""
    plan = levelled(design(example("garden"), stock=stock("hobbleden")))
    deck, told = laid(plan, held=held)
    strength = asked_of(plan, deck)
    footings = footings_under(strength)
    pack = region_pack(PACK)
    under = footing_findings(
        footings.under[0].footing, soil_named(pack, ""), footing_rules(pack), frost_mm=450.0
    )
    guards, guarded = guards_round(plan)
    steps, stepped = steps_down()
    findings = (*plan.findings, *told, *assumed(strength), *under, *guarded, *stepped)
    return evolve(
        plan, raised=deck, strength=strength, footings=footings, guards=guards, steps=steps,
        findings=findings,
    )  # fmt: skip


def frame_of_deck(plan: Plan) -> RaisedFrame:
    assert plan.raised is not None
    return plan.raised.frame


def points() -> tuple[GroundPoint, ...]:
    """Return places of the plane as somebody measured them."""
    far = ((-2000.0, -500.0), (8000.0, -500.0), (8000.0, 5000.0), (-2000.0, 5000.0))
    return tuple(GroundPoint(along_mm=x, across_mm=y, level_mm=ground_mm(x, y)) for x, y in far)
