"""Decks that stand in rare shapes: other bases, round holes, strength alone, edges of nothing."""

from functools import cache

import pytest
from attrs import evolve

from audit.edits import put
from audit.planting import Edit, finding
from audit.standing_sample import (
    SECTION,
    asked_of,
    footings_under,
    frame_of_deck,
    spot,
    standing_plan,
)
from audit.strength_faults import checked, quoting, scaled
from audit.test_standing import found, standing_codes
from drylay.audit.closed import audit_plan
from drylay.audit.drops import beside, deep_spans, lowest
from drylay.audit.statics import carried_by, felt, moment_at, shear_beside
from drylay.audit.strength_sag import sags
from drylay.findings import Severity
from drylay.guards.model import Edge, Facet, GroundSpot, Passage
from drylay.plan.model import Plan
from drylay.strength.ec5_basis import eurocode_5
from drylay.strength.model import BeamAsked, Check, Section, Strength
from drylay.strength.nds_basis import us_allowable_stress

STOP = (finding(severity=Severity.STOP),)


def codes(plan: Plan) -> set[str]:
    return standing_codes(plan)


@cache
def american() -> Plan:
    """Return the same deck as the US basis screens it: joists that are lifted are tied."""
    plan = standing_plan()
    assert plan.raised is not None
    strength = asked_of(plan, plan.raised, us_allowable_stress(), "SP No.2")
    return evolve(plan, strength=strength, footings=footings_under(strength))


def test_a_deck_by_the_us_basis_is_sound() -> None:
    strength = american().strength
    assert strength is not None
    assert not [one.stops for one in strength.screened if one.stops]
    assert not codes(american())


@pytest.mark.parametrize(
    ("code", "edit"),
    [
        ("AUD-337", checked("BR2", "bending", lambda c: scaled(c, 0.9, "moment_kn_m"))),
        ("AUD-340", checked("PO5", "column buckling", lambda c: quoting(c, slenderness=1.0))),
        ("AUD-338", checked("PO5", "column buckling", lambda c: quoting(c, load_kn=9.0))),
        ("AUD-340", checked("PO5", "column buckling", lambda c: scaled(c, 0.5, "load_kn"))),
    ],
)  # fmt: skip
def test_a_fault_by_the_us_basis_is_caught(code: str, edit: Edit) -> None:
    assert code in codes(edit(american()))


def joists_alone(*supports_mm: float, length_mm: float = 1500.0) -> Plan:
    """Return a deck on packers whose joists are screened between two of them."""
    plan, basis = standing_plan(), eurocode_5()
    assert plan.strength is not None
    beam = BeamAsked(
        kind="joist", subject="joists", wood="C24", sharing="one joist", alike=4,
        section=Section(breadth_mm=45.0, depth_mm=145.0), supports_mm=supports_mm,
        length_mm=length_mm, carried_mm=393.5, bearing_mm=90.0, hold_down_kn=5.0,
    )  # fmt: skip
    answer = basis.beam(beam, "dwelling")
    strength = evolve(
        plan.strength, beams=(beam,), posts=(), boards=(), ledgers=(), screened=(answer,),
        most_ratio=answer.checks[0].utilisation_ratio,
    )  # fmt: skip
    return evolve(plan, raised=None, footings=None, strength=strength)


@pytest.mark.parametrize("ends_mm", [(50.0, 50.0), (0.0, 250.0), (250.0, 0.0)])
def test_joists_between_two_packers_are_sound(ends_mm: tuple[float, float]) -> None:
    # an end no longer than its bearing is screened as none, a longer one as a cantilever
    near, far = ends_mm
    assert not codes(joists_alone(near, 1500.0 - far))


def test_joists_between_two_packers_made_stronger_are_caught() -> None:
    plan = checked("joists", "bearing", lambda c: scaled(c, 0.9, "force_kn"))(joists_alone(0, 1500))
    assert "AUD-337" in codes(plan)


def test_a_shared_point_load_is_taken_as_assumed() -> None:
    plan, basis = joists_alone(0, 1500), eurocode_5()
    strength = plan.strength
    assert strength is not None
    beam = evolve(strength.beams[0], sharing="board over three joists 145 x 28 C24")
    answer = basis.beam(beam, "dwelling")
    shared = evolve(strength, beams=(beam,), screened=(answer,),
                    most_ratio=answer.checks[0].utilisation_ratio)  # fmt: skip
    assert not codes(evolve(plan, strength=shared))
    whole = evolve(answer, assumed=tuple(a for a in answer.assumed if "of the point load" not in a))
    assert "AUD-337" in codes(evolve(plan, strength=evolve(shared, screened=(whole,))))


@pytest.mark.parametrize(("kind", "shape"), [("concreted hole", "round"), ("pad", "round")])
def test_round_footings_are_sound(kind: str, shape: str) -> None:
    plan = standing_plan()
    assert plan.strength is not None
    assert not codes(evolve(plan, footings=footings_under(plan.strength, kind=kind, shape=shape)))


def test_posts_without_strength_have_their_footings_by_their_own_loads() -> None:
    assert "AUD-341" not in codes(evolve(standing_plan(), strength=None))


def test_strength_that_assumes_nothing_is_not_asked_for_what_it_assumes() -> None:
    plan = standing_plan()
    assert plan.strength is not None
    bare = tuple(evolve(one, assumed=()) for one in plan.strength.screened)
    idle = audit_plan(evolve(plan, strength=evolve(plan.strength, screened=bare))).not_run
    assert "AUD-336" in {check.code for check in idle}


def test_a_plan_that_is_stopped_may_lack_what_it_could_not_have() -> None:
    plan = evolve(standing_plan(), findings=STOP, strength=None, footings=None, steps=None)
    guards = plan.guards
    assert guards is not None
    told = codes(evolve(plan, guards=evolve(guards, built=())))
    assert not told & {"AUD-328", "AUD-350", "AUD-353"}


def test_a_deck_without_levels_is_looked_at_for_the_rest() -> None:
    plan = standing_plan()
    assert plan.site is not None
    blind = evolve(plan, site=evolve(plan.site, levels=None))
    assert not codes(blind)
    idle = {check.code for check in audit_plan(blind).not_run}
    assert idle >= {"AUD-314", "AUD-354", "AUD-356"}


def test_supports_out_of_order_are_told_and_not_reckoned_with() -> None:
    def run(plan: Plan) -> Plan:
        return put(plan, "strength.beams[0].supports_mm", (2000.0, 300.0))

    told = found(run)
    assert "AUD-331" in told
    assert "AUD-337" not in told


def test_an_edge_of_nothing_has_no_ground_beside_it() -> None:
    edge = Edge(mark="E9", start=spot(0, 0), end=spot(0, 0), top_mm=0.0)
    assert beside(edge, (), 1000.0) is None
    guards = standing_plan().guards
    assert guards is not None
    more = evolve(guards, edges=(*guards.edges, edge))
    assert "AUD-346" in codes(evolve(standing_plan(), guards=more))


def test_ground_out_from_an_edge_counts_though_none_is_known_at_it() -> None:
    # 500 out from an edge 1000 long lies a strip 700 down; the edge's top is at 0
    far = [GroundSpot(along_mm=x, across_mm=y, level_mm=-700.0)
           for x, y in ((0, -500), (1000, -500), (1000, -900))]  # fmt: skip
    edge = Edge(mark="E1", start=spot(0, 0), end=spot(1000, 0), top_mm=0.0)
    ground = beside(edge, (Facet(corners=(far[0], far[1], far[2])),), 600.0)
    assert ground is not None
    assert ground.known == ()
    assert len(deep_spans(ground, -600 * 320)) == 1
    assert lowest(ground, (0, ground.length)) == -700 * 320
    assert lowest(ground, (ground.length + 1, ground.length + 2)) is None
    assert deep_spans(ground, -800 * 320) == ()


def test_statics_by_the_books() -> None:
    # from memory, as tables of beams have them: two equal spans, w = 1, over three supports carry
    # 3/8, 10/8 and 3/8 of w l, and the middle moment is w l^2 / 8
    even = felt([0, 1000, 2000], 2000, even=(0, 1, 1, 0))
    assert [8 * push for push in even.reactions] == [3000, 10000, 3000]
    assert 8 * even.over[1] == -(1000**2)
    # a point load in the middle of a span bends it P l / 4
    alone = felt([0, 1000], 1000, point=500)
    assert 4 * moment_at(alone, 500) == 1000
    assert 2 * shear_beside(alone, 0, after=True) == 1
    # one span s with a free end a carries (s + a)^2 / 2 s at the support beside it
    assert carried_by([0, 1000], 1200, "levered")[1] * 2000 == 1200**2
    assert carried_by([0, 1000], 1200, "halved") == [500, 700]


def test_the_sample_is_what_its_ground_makes_it() -> None:
    # PO5 stands 4620 + 28 = 4648 along: by hand -600 - 232.4 - across / 40, up to -518
    post = frame_of_deck(standing_plan()).posts[4]
    assert post.place.along_mm == 28.0 + 4619.5
    ground = int((-600 - post.place.along_mm / 20 - post.place.across_mm / 40) * 320) / 320
    assert post.length_mm == -518.0 - 20.0 - ground
    assert SECTION.plies == 2


def test_strength_is_of_its_members() -> None:
    strength = standing_plan().strength
    assert isinstance(strength, Strength)
    assert [beam.subject for beam in strength.beams] == ["joists", "BR1", "BR2", "BR3"]


def test_a_guard_short_by_less_than_can_be_told_is_let_be() -> None:
    # PER_MM of a length are the finest that a plan tells: a stretch may end one of them short
    plan = standing_plan()
    guards = plan.guards
    assert guards is not None
    at = guards.runs[0].stretches[0].to_mm - 1 / 320
    assert "AUD-347" not in codes(put(plan, "guards.runs[0].stretches[0].to_mm", at))


def test_steps_down_the_right_hand_side_are_headed_from_its_start() -> None:
    # the right-hand edge runs away from the datum, as places along that side do
    plan = standing_plan()
    assert plan.guards is not None
    assert plan.steps is not None
    edges = plan.guards.edges
    head = Passage(name="steps", from_mm=1000.0, to_mm=1900.0)
    moved = (edges[0], evolve(edges[1], passages=(head,)), evolve(edges[2], passages=()), edges[3])
    aside = evolve(
        plan, guards=evolve(plan.guards, edges=moved),
        steps=evolve(plan.steps, side="right", from_mm=1000.0),
    )  # fmt: skip
    assert "AUD-353" not in codes(aside)
    wrong = evolve(head, from_mm=1100.0, to_mm=2000.0)
    assert "AUD-353" in codes(put(aside, "guards.edges[1].passages", (wrong,)))


def test_a_class_that_is_not_known_by_heart_is_taken_as_quoted() -> None:
    edit = checked("PO5", "post buckling", lambda c: quoting(c, **{"class": "D40"}))
    assert "AUD-340" not in codes(edit(standing_plan()))


def test_deflections_that_quote_no_stiffness_are_held_to_their_parts_alone() -> None:
    edit = checked("joists", "deflection, instant", lambda c: quoting(c, **{"E_0,mean": 0.0}))
    assert "AUD-361" not in codes(edit(standing_plan()))
    blind = checked(
        "joists", "deflection, instant",
        lambda c: evolve(c, inputs=tuple(i for i in c.inputs if i[0] != "G_mean")),
    )  # fmt: skip
    assert "AUD-361" not in codes(blind(standing_plan()))


def test_a_deflection_over_a_limit_of_nothing_is_told() -> None:
    def run(check: Check) -> Check:
        return evolve(check, limit=0.0)

    told = codes(checked("joists", "deflection, instant", run)(standing_plan()))
    assert "AUD-334" in told


def test_a_beam_goes_down_as_the_books_have_it() -> None:
    # from memory: 5 w l^4 / 384 E I under even load, P l^3 / 48 E I under one in the middle; stiff
    # in shear, 45 x 145 over 2000 with E 11000 are I 11432300 mm4, E I 1.25755e11 N mm2
    beam = BeamAsked(
        kind="bearer", subject="b", wood="C24", section=Section(breadth_mm=45.0, depth_mm=145.0),
        length_mm=2000.0, supports_mm=(0.0, 2000.0), carried_mm=1.0, bearing_mm=45.0,
    )  # fmt: skip
    bare = evolve(standing_plan().strength.screened[0], checks=())  # type: ignore[union-attr]
    (sag,) = sags(beam, bare, 11000.0, 1e15)
    inertia = 45 * 145**3 / 12
    assert sag.spread == pytest.approx(5 * 2000**4 / 384 / 11000 / inertia)
    assert sag.point == pytest.approx(2000**3 / 48 / 11000 / inertia)
