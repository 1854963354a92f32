"""Where a guard is needed: laws against a sampled edge, then decks worked by hand."""

from itertools import pairwise
from math import cos, hypot, radians, sin

import pytest
from attrs import evolve
from hypothesis import assume, given
from hypothesis import strategies as st

from drylay.findings import Severity
from drylay.guards.corners import corner_findings
from drylay.guards.ground import edge_mm, united, without
from drylay.guards.model import Edge, Facet, Passage, Stretch
from drylay.guards.needed import guard_runs, guard_stretches, needed_findings
from drylay.regions.packs import limit_of, region_pack
from guards.grounds import edges_of, flat, ground, level_at, sampled_drop, spot, trigger

NA = region_pack("north-america")
TRIGGER, OUT = limit_of(NA, "guard_trigger_mm"), limit_of(NA, "guard_measured_out_mm")
INCH = 25.4

points = st.lists(
    st.tuples(
        st.integers(-2500, 6500).map(float),
        st.integers(-2500, 2500).map(float),
        st.integers(-1200, 200).map(float),
    ),
    min_size=4,
    max_size=8,
    unique_by=lambda point: point[:2],
)
grounds = points.map(ground).filter(bool)
angles = st.sampled_from([0.0, 90.0, 180.0, 37.0, 201.0])


def edge_at(angle: float, length: float, top: float) -> Edge:
    turn = radians(angle)
    end = spot(length * cos(turn), length * sin(turn))
    return Edge(mark="E1", start=spot(0.0, 0.0), end=end, top_mm=top)


def stretches_of(
    edge: Edge, facets: tuple[Facet, ...], limit_mm: float, out_mm: float
) -> tuple[Stretch, ...]:
    return guard_stretches(edge, facets, trigger=trigger(limit_mm), out_mm=out_mm)


def within(stretches: tuple[Stretch, ...], at: float, slack: float = 0.0) -> bool:
    return any(s.from_mm - slack <= at <= s.to_mm + slack for s in stretches)


@given(facets=grounds, angle=angles, top=st.integers(0, 800).map(float))
def test_stretches_agree_with_a_sampled_edge(
    facets: tuple[Facet, ...], angle: float, top: float
) -> None:
    """Wherever a sample drops further than the limit there is a guard; elsewhere the drop is less.

    Between two samples a drop may grow, so the sampler may miss one, never the other way.
    """
    edge = edge_at(angle, 4000.0, top)
    found = stretches_of(edge, facets, 600.0, 900.0)
    for at in range(0, 4001, 250):
        drop = sampled_drop(edge, facets, float(at), 900.0, samples=18)
        if drop is not None and drop > 600.0 + 1e-6:
            assert within(found, at, 1e-6), (at, drop)


@given(facets=grounds, angle=angles, top=st.integers(0, 800).map(float))
def test_no_stretch_without_a_drop(facets: tuple[Facet, ...], angle: float, top: float) -> None:
    """In the middle of a stretch with a known drop, some ground lies as deep as the trigger.

    Looked for finely out from the middle of each; the slack is what the ground may fall between
    two samples, by its own steepest facet.
    """
    edge = edge_at(angle, 4000.0, top)
    steepest = max(_steepness(facet) for facet in facets)
    assume(steepest < 5)
    for stretch in stretches_of(edge, facets, 600.0, 900.0):
        assert 0 <= stretch.from_mm < stretch.to_mm <= edge_mm(edge)
        if stretch.drop_mm is None:
            continue
        middle = (stretch.from_mm + stretch.to_mm) / 2
        drop = sampled_drop(edge, facets, middle, 900.0, samples=300)
        assert drop is not None
        assert drop > 600.0 - steepest * (3.0 + 0.5)
        assert stretch.drop_mm >= drop - 1e-6


def _steepness(facet: Facet) -> float:
    a, b, c = facet.corners
    x1, y1, z1 = (b.along_mm - a.along_mm, b.across_mm - a.across_mm, b.level_mm - a.level_mm)
    x2, y2, z2 = (c.along_mm - a.along_mm, c.across_mm - a.across_mm, c.level_mm - a.level_mm)
    area = x1 * y2 - x2 * y1
    return hypot(z1 * y2 - z2 * y1, x1 * z2 - x2 * z1) / abs(area)


@given(facets=grounds, limit=st.integers(200, 900).map(float), more=st.integers(1, 300).map(float))
def test_a_higher_trigger_never_asks_for_more(
    facets: tuple[Facet, ...], limit: float, more: float
) -> None:
    edge = edge_at(0.0, 4000.0, 300.0)
    low, high = (stretches_of(edge, facets, size, 900.0) for size in (limit, limit + more))
    for stretch in high:
        assert any(s.from_mm <= stretch.from_mm and s.to_mm >= stretch.to_mm for s in low)


@given(facets=grounds, out=st.integers(1, 1500).map(float), more=st.integers(1, 900).map(float))
def test_looking_further_out_never_asks_for_less(
    facets: tuple[Facet, ...], out: float, more: float
) -> None:
    edge = edge_at(0.0, 4000.0, 300.0)
    near, far = (stretches_of(edge, facets, 600.0, size) for size in (out, out + more))
    for stretch in near:
        assert any(s.from_mm <= stretch.from_mm and s.to_mm >= stretch.to_mm for s in far)


SLOPE = [(-5000.0, -5000.0, 0.0), (15_000.0, -5000.0, -2000.0), (15_000.0, 5000.0, -2000.0),
         (-5000.0, 5000.0, 0.0)]  # fmt: skip


def test_a_stretch_by_hand() -> None:
    """Ground at -along/10 - 500, deck at 0: over 762 from along 2620 on, 900 at 4000."""
    edge = edge_at(0.0, 4000.0, 0.0)
    (found,) = guard_stretches(edge, ground(SLOPE), trigger=TRIGGER, out_mm=OUT.value)
    assert (found.from_mm, found.to_mm) == (2620.0, 4000.0)
    assert found.drop_mm == pytest.approx(900.0)


def test_a_stretch_is_rounded_outwards_to_a_mark() -> None:
    """The trigger of 762.03 is passed at 2620.3, which the mark before it, 2620.0, covers."""
    edge = edge_at(0.0, 4000.0, 0.0)
    (found,) = guard_stretches(edge, ground(SLOPE), trigger=trigger(762.03), out_mm=900.0)
    assert found.from_mm == 2620.0


def test_ground_that_falls_away_counts_as_far_out_as_the_region_says() -> None:
    """Level to 500 out, then 1 down for each 1 out: 1500 out it is 1000 lower.

    The deck stands 400 up: 900 out the drop is 800, over 762; 850 out it is 750, and is not.
    """
    bank = [(-9000.0, y, -max(0.0, -y - 500.0)) for y in (0.0, -500.0, -1500.0)]
    bank += [(9000.0, y, z) for _, y, z in bank]
    edge = edge_at(0.0, 4000.0, 400.0)
    assert stretches_of(edge, ground(bank), 762.0, 850.0) == ()
    (found,) = stretches_of(edge, ground(bank), 762.0, 900.0)
    assert (found.from_mm, found.to_mm, found.drop_mm) == (0.0, 4000.0, 800.0)


def test_exactly_at_the_trigger() -> None:
    """30 in is not over 30 in; a metre is a metre or more in New Zealand (F4.3.1)."""
    metre = limit_of(region_pack("new-zealand"), "guard_trigger_mm")
    high, low = edge_at(37.0, 4000.0, 762.0), edge_at(37.0, 4000.0, 1000.0)
    assert guard_stretches(high, flat(0.0), trigger=TRIGGER, out_mm=914.4) == ()
    assert guard_stretches(low, flat(0.0), trigger=metre, out_mm=1200.0)
    assert guard_stretches(high, flat(-0.01), trigger=TRIGGER, out_mm=914.4)


DECK = [(0.0, 0.0), (16 * 12 * INCH, 0.0), (16 * 12 * INCH, 12 * 12 * INCH), (0.0, 12 * 12 * INCH)]


def test_the_run_of_a_deck_at_a_house_less_its_stair() -> None:
    """16 x 12 ft, 34 in up, a stair of 48 in in front: 16 + 12 + 12 - 4 = 36 ft, by hand."""
    house, right, front, left = edges_of(DECK, 34 * INCH, E1="house")
    stair = Passage(name="stair", from_mm=60 * INCH, to_mm=108 * INCH)
    edges = (house, right, evolve(front, passages=(stair,)), left)
    found = [
        s
        for edge in edges
        for s in guard_stretches(edge, flat(0.0), trigger=TRIGGER, out_mm=OUT.value)
    ]
    runs = guard_runs(edges, tuple(found))
    assert sum(run.length_mm for run in runs) == pytest.approx(36 * 12 * INCH)
    assert [(len(run.stretches), run.bends, run.closed) for run in runs] == [(2, 1, False)] * 2
    assert [run.drop_mm for run in runs] == [pytest.approx(34 * INCH)] * 2


def test_a_deck_that_stands_alone_has_one_closed_run() -> None:
    edges = edges_of(DECK, 1000.0)
    found = [s for e in edges for s in stretches_of(e, flat(0.0), 762.0, 900.0)]
    (run,) = guard_runs(edges, tuple(found))
    assert (run.bends, run.closed) == (4, True)
    assert run.length_mm == pytest.approx(2 * (16 + 12) * 12 * INCH)


def test_a_run_goes_on_past_the_first_edge() -> None:
    """Open in the middle of the third edge: the run begins there and ends there."""
    edges = edges_of(DECK, 1000.0)
    gap = Passage(name="stair", from_mm=1000.0, to_mm=2000.0)
    edges = (*edges[:2], evolve(edges[2], passages=(gap,)), edges[3])
    found = [s for e in edges for s in stretches_of(e, flat(0.0), 762.0, 900.0)]
    (run,) = guard_runs(edges, tuple(found))
    assert [s.edge for s in run.stretches] == ["E3", "E4", "E1", "E2", "E3"]
    assert (run.bends, run.closed) == (4, False)


def test_a_stretch_that_ends_before_the_corner_is_a_guard_of_its_own() -> None:
    """Two stretches on a corner's two sides, the first of which stops 500 short of it."""
    edges = edges_of(DECK, 1000.0)
    long = 16 * 12 * INCH
    short, whole, next_one = (
        Stretch(edge=mark, from_mm=0.0, to_mm=to, drop_mm=900.0)
        for mark, to in (("E1", long - 500.0), ("E1", long), ("E2", 1000.0))
    )
    assert len(guard_runs(edges, (short, next_one))) == 2
    assert len(guard_runs(edges, (whole, next_one))) == 1
    assert len(guard_runs(edges, (whole, evolve(next_one, from_mm=1.0)))) == 2


def test_ground_nobody_knows_takes_a_guard() -> None:
    """Known for the first 2000 only, there 100 down."""
    edge = edge_at(0.0, 4000.0, 100.0)
    known = ground([(-10.0, 500.0, 0.0), (2000.0, 500.0, 0.0), (2000.0, -2000.0, 0.0),
                    (-10.0, -2000.0, 0.0)])  # fmt: skip
    (found,) = guard_stretches(edge, known, trigger=TRIGGER, out_mm=OUT.value)
    assert (found.from_mm, found.to_mm, found.drop_mm) == (2000.0, 4000.0, None)
    (run,) = guard_runs((edge,), (found,))
    assert run.drop_mm is None
    told = needed_findings(edge, known, (found,), trigger=TRIGGER, out=OUT)
    assert [(f.code, f.measured) for f in told] == [("GRD-002", 2000.0), ("GRD-003", 2000.0)]
    assert {f.severity for f in told} == {Severity.CAUTION}  # ground nobody knows is no mere note


def test_ground_told_along_the_edge_only_is_known_and_not_so_far_out() -> None:
    inside = ground(
        [(0.0, 0.0, 0.0), (4000.0, 0.0, 0.0), (4000.0, 3000.0, 0.0), (0.0, 3000.0, 0.0)]
    )
    for angle in range(0, 360, 11):
        turn = radians(angle)
        turned = tuple(
            evolve(
                facet,
                corners=tuple(
                    evolve(
                        c,
                        along_mm=c.along_mm * cos(turn) - c.across_mm * sin(turn),
                        across_mm=c.along_mm * sin(turn) + c.across_mm * cos(turn),
                    )
                    for c in facet.corners
                ),
            )
            for facet in inside
        )
        edge = edge_at(angle, 4000.0, 800.0)
        (found,) = guard_stretches(edge, turned, trigger=TRIGGER, out_mm=914.4)
        assert (found.drop_mm, found.from_mm) == (pytest.approx(800.0), 0.0)
        told = needed_findings(edge, turned, (found,), trigger=TRIGGER, out=OUT)
        assert [f.code for f in told] == ["GRD-001", "GRD-003"]
        assert (told[0].measured, told[0].limit) == (pytest.approx(800.0), 762.0)
        assert told[0].severity is Severity.CAUTION


@pytest.mark.parametrize(("kind", "codes"), [("house", []), ("pool", ["GRD-004"])])
def test_walls_and_pools_are_told_otherwise(kind: str, codes: list[str]) -> None:
    edge = evolve(edge_at(0.0, 4000.0, 3000.0), kind=kind)
    assert guard_stretches(edge, flat(0.0), trigger=TRIGGER, out_mm=900.0) == ()
    told = needed_findings(edge, flat(0.0), (), trigger=TRIGGER, out=OUT)
    assert [f.code for f in told] == codes


def hollow(x: float, y: float, depth: float) -> tuple[Facet, ...]:
    """Ground at 0 all round, with a pit of 200 x 200 about a place."""
    sizes = ((9000.0, 0.0), (101.0, 0.0), (100.0, depth))
    return ground(
        [
            (x + i * size, y + j * size, -low)
            for size, low in sizes
            for i in (-1, 1)
            for j in (-1, 1)
        ]
    )


@pytest.mark.parametrize(
    ("at", "depth", "codes"),
    [
        ((300.0, -300.0), 300.0, ["E4-E1"]),  # 500 + 300 is over 762
        ((300.0, -300.0), 262.0, []),  # just 762
        ((300.0, 300.0), 300.0, []),  # under the deck
        ((300.0, -1100.0), 300.0, []),  # further out than 914
        ((-1100.0, -300.0), 300.0, []),
    ],
)
def test_a_pit_off_a_corner_is_told(
    at: tuple[float, float], depth: float, codes: list[str]
) -> None:
    """The deck's corner at 0, 0 points out to where along and across are below 0."""
    edges = edges_of(DECK, 500.0)
    facets = hollow(-abs(at[0]) if at[1] < 0 else at[0], at[1], depth)
    told = corner_findings(edges, facets, (), trigger=TRIGGER, out=OUT)
    assert [finding.subject for finding in told] == codes
    assert all((f.code, f.measured) == ("GRD-008", 500.0 + depth) for f in told)
    assert (
        corner_findings(edges_of(DECK, 500.0, E1="house"), facets, (), trigger=TRIGGER, out=OUT)
        == ()
    )


def test_a_corner_with_a_guard_is_told_no_more() -> None:
    edges, facets = edges_of(DECK, 500.0), hollow(-300.0, -300.0, 300.0)
    for edge, span in (("E1", (0.0, 10.0)), ("E4", (0.0, 12 * 12 * INCH))):
        guard = Stretch(edge=edge, from_mm=span[0], to_mm=span[1], drop_mm=800.0)
        assert corner_findings(edges, facets, (guard,), trigger=TRIGGER, out=OUT) == ()


def test_a_corner_that_turns_in_has_no_ground_of_its_own() -> None:
    """An L, its inner corner at 2000, 2000: what lies past both edges' ends there is deck."""
    corners = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 2000.0), (2000.0, 2000.0), (2000.0, 4000.0),
               (0.0, 4000.0)]  # fmt: skip
    edges = edges_of(corners, 500.0)
    told = corner_findings(edges, flat(-500.0), (), trigger=TRIGGER, out=OUT)
    assert [f.subject for f in told] == ["E6-E1", "E1-E2", "E2-E3", "E4-E5", "E5-E6"]


spans = st.lists(
    st.tuples(st.integers(0, 100), st.integers(0, 100)).map(lambda p: (min(p), max(p))), max_size=6
)


@given(spans=spans)
def test_spans_united_and_left_hold_every_place_once(spans: list[tuple[float, float]]) -> None:
    joined = united(tuple(spans))
    left = without((0.0, 100.0), tuple(spans))
    assert all(one[1] < other[0] for one, other in pairwise(joined))
    for half in range(1, 200, 2):
        at = half / 2
        inside = any(a <= at <= b for a, b in spans)
        assert any(a <= at <= b for a, b in joined) == inside
        assert any(a <= at <= b for a, b in left) == (not inside)


def test_the_sampler_itself_by_hand() -> None:
    """The plane through the slope's corners: -along/10 - 500."""
    assert level_at(ground(SLOPE), 1000.0, 0.0) == pytest.approx(-600.0)
    edge = edge_at(90.0, 1000.0, 0.0)  # outside is along
    assert sampled_drop(edge, ground(SLOPE), 500.0, 900.0) == pytest.approx(590.0)
