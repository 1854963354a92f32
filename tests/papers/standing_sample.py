"""Plans of decks that stand: the small plan with legs put under it by the rooms' own functions."""

from typing import Any

from attrs import evolve

from drylay.brief.model import GroundPoint
from drylay.flights.model import Steps
from drylay.flights.rules import flight_rules
from drylay.flights.ways import flight_ways
from drylay.groundwork.footings import footing_for, footing_rules
from drylay.groundwork.model import Footing, Footings, PostFooting
from drylay.guards.infill import guard_of
from drylay.guards.model import Edge, Facet, GroundSpot, Guards, Passage
from drylay.guards.needed import guard_runs, guard_stretches
from drylay.outline.model import Spot
from drylay.plan.model import Plan
from drylay.raised.bearers import bearer_lines
from drylay.raised.fitting import Rules, bearer_on, lines_carried_mm
from drylay.raised.ledger import ledger_on
from drylay.raised.model import (
    Heights,
    Ledger,
    RaisedDeck,
    RaisedFrame,
)
from drylay.raised.outline_model import Stretch
from drylay.raised.sawn import leg_pieces
from drylay.raised.standing import PostSpot, raised_frame
from drylay.regions.packs import limit_of, region_pack, soil_named
from drylay.site.terrain import ground_under, levels_at
from drylay.strength.model import (
    BeamAsked,
    PostAsked,
    Screened,
    Section,
    Strength,
)
from drylay.strength.nds_allowed import allowed
from drylay.strength.nds_checks import column_check
from drylay.strength.nds_model import Conditions, Held, Loaded
from drylay.strength.nds_screen import screened_beam
from plan.sample import sample_plan
from raised.limits import SAID, limit

BEARER = Section(breadth_mm=38.1, depth_mm=184.15, plies=2)
POST = Section(breadth_mm=139.7, depth_mm=139.7)
JOIST = Section(breadth_mm=38.1, depth_mm=139.7)
WOOD, POST_WOOD = ("SP", "No.2"), ("SP", "No.2")


def standing(
    *,
    units: str = "metric",
    run: str = "along",
    size: tuple[float, int] = (4000.0, 26),
    ground_mm: float = -800.0,
    falls: tuple[float, float] = (0.1, 0.05),
    spans: tuple[float, float] = (2400.0, 1800.0),
    ledger: bool = True,
    embed_mm: float = 0.0,
    shape: str = "square",
    region: str = "united-kingdom",
    **more: Any,
) -> Plan:
    """Return a plan that stands on ground that falls away along and across the boards."""
    plan = sample_plan(row_length_mm=size[0], rows=size[1], run=run, units=units, **more)
    frame = _frame(plan, ground_mm, falls, spans, ledger=ledger, embed_mm=embed_mm)
    strength = strength_of(frame)
    raised = RaisedDeck(
        bearer_article="BT38x184", post_article="PT140", bearer="2 x BT38x184",
        post="PT140", foot=f"in concrete, {embed_mm:g} mm deep" if embed_mm
        else "metal foot, 20 mm off the ground",
        line_count=len(frame.bearers), post_count=len(frame.posts),
        ledger_wall="solid masonry" if ledger else "unknown",
        ledger_fixing="coach screw" if ledger else "", sharing="levered",
        joist_span_mm=spans[0], joist_end_mm=400.0, bearer_span_mm=spans[1], bearer_end_mm=400.0,
        post_top_mm=frame.posts[0].top_mm, brace_over_mm=1200.0, frame=frame,
        pieces=leg_pieces(frame, 145.0),
    )  # fmt: skip
    guards = guards_of(plan, ground_mm, falls, region)
    return evolve(
        plan, raised=raised, strength=strength,
        footings=footings_of(frame, strength, embed_mm, shape, region),
        guards=guards, steps=steps_of(plan, -ground_mm, region),
    )  # fmt: skip


def _level(ground_mm: float, falls: tuple[float, float], along: float, across: float) -> float:
    return ground_mm - along * falls[0] - across * falls[1]


def _frame(
    plan: Plan, ground_mm: float, falls: tuple[float, float], spans: tuple[float, float], *,
    ledger: bool, embed_mm: float,
) -> RaisedFrame:  # fmt: skip
    edges, surface = plan.edges, plan.surface
    assert edges is not None
    assert surface is not None
    wide, deep = surface.row_length_mm, surface.rows_depth_mm
    corners = tuple(
        GroundPoint(along_mm=x, across_mm=y, level_mm=_level(ground_mm, falls, x, y))
        for x, y in ((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep))
    )
    lines = bearer_lines(
        depth_mm=edges.frame_depth_mm, bearer_mm=76.2, span=limit(spans[0]), end=limit(500.0),
        back_ratio=0.25, ledger_mm=45.0 if ledger else None,
    )  # fmt: skip
    rules = Rules(
        section=BEARER, post_mm=POST.breadth_mm, spans=lambda _: limit(spans[1]), end=limit(400.0),
        back_ratio=0.25, longest_mm=4800.0,
    )  # fmt: skip
    ground = ground_under(corners, wide, deep)
    assert ground is not None
    start, near = edges.frame_start_mm, edges.frame_near_mm
    bearers, rows = [], []
    for number, (at, load) in enumerate(
        zip(lines.lines_mm, lines_carried_mm(lines), strict=True), 1
    ):
        stretch = Stretch(line=number, across_mm=near + at, start_mm=start,
                          end_mm=start + edges.frame_length_mm)  # fmt: skip
        fitted, _ = bearer_on(f"BR{number}", stretch, load, rules)
        spots = tuple((start + place, near + at) for place in fitted.posts.places_mm)
        bearers.append(fitted.bearer)
        rows.append([
            PostSpot(along_mm=along, ground_mm=level, joist_from_mm=near + 45.0,
                     joist_to_mm=near + edges.frame_depth_mm)
            for (along, _), level in zip(spots, levels_at(corners, spots, ground), strict=True)
        ])  # fmt: skip
    held = None
    if ledger:
        held = ledger_on(
            wall="solid masonry", section=Section(breadth_mm=45.0, depth_mm=145.0),
            start_mm=start, end_mm=start + edges.frame_length_mm, spacing_most_mm=600.0,
            from_end_mm=60.0, clear_mm=60.0, source=SAID,
            joists_mm=[joist.offset_mm for joist in plan.frame.joists] if plan.frame else [],
        )  # fmt: skip
        assert isinstance(held, Ledger)
        held = evolve(held, mark="LG1")
    heights = Heights(
        finished_mm=0.0, board_mm=28.0, joist_over_mm=145.0, bearer_mm=BEARER.depth_mm,
        stand_off_mm=0.0 if embed_mm else 20.0, embed_mm=embed_mm, short_mm=150.0,
        brace_over_mm=1200.0, screened_mm=1800.0,
    )  # fmt: skip
    frame = raised_frame(bearers=bearers, spots=rows, post_section=POST, heights=heights,
                         brace_leg_mm=500.0, ledger=held)  # fmt: skip
    return evolve(frame, findings=())


def strength_of(frame: RaisedFrame) -> Strength:
    """Return members screened by the US basis: the joist, every bearer, every post."""
    conditions = Conditions(wet=True)
    beams = [
        BeamAsked(kind="joist", subject="joists", wood="SP No.2", section=JOIST, length_mm=2800.0,
                  supports_mm=(0.0, 2400.0), carried_mm=400.0, bearing_mm=38.0),
        *(BeamAsked(kind="bearer", subject=one.mark, wood="SP No.2", section=BEARER,
                    length_mm=one.end_mm - one.start_mm,
                    supports_mm=tuple(post.place.along_mm - one.start_mm for post in frame.posts
                                      if post.bearer == one.mark),
                    carried_mm=one.carried_mm, bearing_mm=100.0) for one in frame.bearers),
    ]  # fmt: skip
    posts = [
        PostAsked(subject=post.mark, wood="SP No.2", section=POST, length_mm=post.length_mm,
                  dead_kn=1.25, live_kn=5.5)
        for post in frame.posts
    ]  # fmt: skip
    found = [
        screened_beam(
            asked.supports_mm, asked.length_mm, asked.section, subject=asked.subject, wood=WOOD,
            loaded=Loaded(dead_kn_m=0.48 * asked.carried_mm / 1000,
                          live_kn_m=1.92 * asked.carried_mm / 1000, point_kn=0.98),
            held=Held(bearing_mm=asked.bearing_mm), conditions=conditions,
        )
        for asked in beams
    ]  # fmt: skip
    bears = allowed(*POST_WOOD, POST, conditions)
    found += [
        Screened(
            basis=found[0].basis, subject=asked.subject, assumed=found[0].assumed[:1],
            checks=(column_check(bears, POST, subject=asked.subject,
                                 load_kn=asked.dead_kn + asked.live_kn, length_mm=asked.length_mm,
                                 case="dead load and live load"),),
        )
        for asked in posts
    ]  # fmt: skip
    return Strength(
        basis="us-made-up", title="US allowable stresses", use="dwelling",
        sharing="one joist carries the whole point load", dead_kn_m2=0.48, imposed_kn_m2=1.92,
        point_kn=0.98, own_weight_apart=False, beams=tuple(beams), posts=tuple(posts), boards=(),
        ledgers=(), screened=tuple(found),
        most_ratio=max(one.utilisation_ratio for each in found for one in each.checks),
    )  # fmt: skip


def footings_of(
    frame: RaisedFrame, strength: Strength, embed_mm: float, shape: str, region: str
) -> Footings:
    pack = region_pack(region)
    soil = soil_named(pack, "")
    under = []
    for number, (post, asked) in enumerate(zip(frame.posts, strength.posts, strict=True), 1):
        footing = footing_for(
            kind="concreted hole" if embed_mm else "pad", shape=shape,
            load_kn=asked.dead_kn + asked.live_kn, soil=soil, soil_named=False,
            post_mm=POST.breadth_mm, rules=footing_rules(pack), bag=pack.bags[0],
            frost_mm=max(450.0, embed_mm), post_depth_mm=embed_mm,
        )  # fmt: skip
        assert isinstance(footing, Footing)
        under.append(PostFooting(mark=f"FT{number}", post=post.mark, dead_kn=asked.dead_kn,
                                 live_kn=asked.live_kn, footing=footing))  # fmt: skip
    return Footings(
        kind=under[0].footing.kind, shape=shape, soil=soil.name, soil_named=False,
        bearing_kn_m2=soil.bearing.value or 0.0, frost_mm=450.0, bag=pack.bags[0].name,
        bags=sum(one.footing.bags for one in under), under=tuple(under),
        concrete_m3=round(sum(one.footing.concrete_m3 for one in under), 3),
    )  # fmt: skip


def edges_round(plan: Plan, passages: tuple[Passage, ...] = ()) -> tuple[Edge, ...]:
    """Return the cover's edges as they run round: house, right, front, left."""
    surface = plan.surface
    assert surface is not None
    wide, deep = surface.cover_along_mm, surface.cover_across_mm
    corners = ((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep))
    spots = [Spot(along_mm=x, across_mm=y) for x, y in corners]
    return tuple(
        Edge(mark=f"E{n + 1}", start=spots[n], end=spots[(n + 1) % 4], top_mm=0.0,
             kind="house" if n == 0 else "open", passages=passages if n == 2 else ())
        for n in range(4)
    )  # fmt: skip


def guards_of(plan: Plan, ground_mm: float, falls: tuple[float, float], region: str) -> Guards:
    pack = region_pack(region)
    trigger, out = (limit_of(pack, name) for name in ("guard_trigger_mm", "guard_measured_out_mm"))
    spacing = limit_of(pack, "guard_post_spacing_mm")
    if plan.surface is not None and plan.surface.run == "across":
        falls = falls[1], falls[0]
    far = 9000.0

    def spot(along: float, across: float) -> GroundSpot:
        return GroundSpot(along_mm=along, across_mm=across,
                          level_mm=_level(ground_mm, falls, along, across))  # fmt: skip

    a, b, c, d = spot(-far, -far), spot(3 * far, -far), spot(3 * far, 3 * far), spot(-far, 3 * far)
    facets = (Facet(corners=(a, b, c)), Facet(corners=(a, c, d)))
    edges = edges_round(plan, (Passage(name="steps", from_mm=500.0, to_mm=1400.0),))
    runs = guard_runs(edges, tuple(
        stretch for edge in edges
        for stretch in guard_stretches(edge, facets, trigger=trigger, out_mm=out.value or 0.0)
    ))  # fmt: skip
    height, ball = limit_of(pack, "guard_height_deck_mm"), limit_of(pack, "sphere_mm")
    built = tuple(
        guard_of(run, height_mm=height.value or 1100.0, post_mm=90.0, baluster_mm=40.0,
                 ball_mm=ball.value or 100.0, spacing=evolve(spacing, value=1500.0))
        for run in runs
    )  # fmt: skip
    return Guards(
        region=region, trigger_mm=trigger.value or 0.0, out_mm=out.value or 0.0,
        height_mm=height.value or 0.0, ball_mm=ball.value or 0.0,
        post_spacing_most_mm=spacing.value, length_mm=sum(run.length_mm for run in runs),
        edges=edges, facets=facets, runs=runs, built=built,
    )  # fmt: skip


def steps_of(plan: Plan, drop_mm: float, region: str, side: str = "front") -> Steps:
    rules = flight_rules(region_pack(region))
    ways = flight_ways(rules=rules, drop_mm=drop_mm, tread_mm=28.0, board_mm=28.0)
    flight, surface = ways.ways[0], plan.surface
    assert surface is not None
    wide = {"front": surface.cover_along_mm}.get(side, surface.cover_across_mm)
    # edges run round, so that along the front they count from the right corner
    from_mm = wide - 1400.0 if side == "front" else 500.0
    return Steps(
        region=region, side=side, from_mm=from_mm, width_mm=900.0, tread_mm=28.0,
        risers=flight.risers, fall_ratio=0.0, across_fall_mm=0.0, flight=flight,
    )  # fmt: skip
