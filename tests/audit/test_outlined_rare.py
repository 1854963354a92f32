"""Checks of decks on an outline where few plans lead them, on the hand-made L and real ones."""

from attrs import evolve

from audit.edits import at, put
from audit.outlined_planting import board, member, members_too
from audit.outlined_real import garden, reference
from audit.outlined_sample import box, level, outlined_plan, spot, spots, upright
from audit.planting import Edit, both, to, twice
from audit.test_outlined_seen import SEEN, found, wished, witness
from drylay.audit.outlined import run_at
from drylay.audit.outlined_bearing import runs_of
from drylay.audit.outlined_border import inset
from drylay.audit.outlined_carried import told_stretches
from drylay.audit.outlined_chains import chains_of
from drylay.audit.sweep import joined, span, trapezia
from drylay.brief.outline_model import OpeningWish
from drylay.cutting.model import Beside
from drylay.plan.model import Plan
from drylay.subframe.model import Member, Seam

SPECK = spots((5.0, 5.0), (5.0, 5.0), (5.0, 5.0), (5.0, 5.0))
TASK = "buying.purchases[0].proof.task"


def flaws(code: str, edit: Edit, plan: Plan | None = None) -> bool:
    return found(code, edit(outlined_plan() if plan is None else plan))


def test_specks_have_no_way_to_run() -> None:
    plan = board("B1.1", kind="border", row="", corners=SPECK)(outlined_plan())
    assert "B1.1" not in runs_of(plan)
    assert inset(((0, 0), (0, 0), (320, 0), (320, 320)), 0)[0] == (0, 0)
    assert flaws("AUD-938", board("B1.1", kind="breaker", row="", corners=SPECK))
    assert flaws("AUD-798", to("outline.openings[0].corners", box(400.0, 735.0, 400.0, 870.0)))
    speck = both(board("B2.1", row="", corners=SPECK), to("laying.least_supports", 1))
    assert not flaws("AUD-782", speck)
    assert flaws("AUD-762", to("laying.rows[2].mark", "B2"))
    lost = outlined_plan().laying.rows[2].start  # type: ignore[union-attr]
    assert flaws("AUD-771", to("laying.rows[2].end", lost))


def test_a_breaker_board_across_is_one() -> None:
    across = board("B1.1", kind="breaker", row="", mark="X1", corners=box(500.0, 0.0, 600.0, 520.0))
    assert not flaws("AUD-938", both(across, to("laying.breaker_count", 1)))


def test_a_breaker_board_is_narrow_only_where_the_outline_cuts_it() -> None:
    for left, told in ((500.0, True), (0.0, False)):
        narrow = box(left, 0.0, left + 60.0, 520.0)
        edit = board("B1.1", kind="breaker", row="", mark="X1", corners=narrow)
        assert bool(flaws("AUD-938", both(edit, to("laying.breaker_count", 1)))) == told


def test_lengths_of_fascia_that_meet_are_one_face() -> None:
    meet = both(
        twice("subframe.facings", 1),
        to("subframe.facings[1].end", spot((1500.0, 520.0))),
        to("subframe.facings[2].start", spot((1500.0, 520.0))),
    )
    plan = meet(outlined_plan())
    assert not found("AUD-933", plan)


def test_places_are_clear_of_what_touches_alone() -> None:
    apart = member("J2", start_on="R3")
    assert not flaws("AUD-982", apart, garden())


def test_joints_along_members_and_beside_seams() -> None:
    assert not flaws("AUD-780", to("laying.joints[0].member", "R1"))
    seams = (
        Seam(left="J2", right="J3", start=spot((500.0, 45.0)), end=spot((500.0, 1000.0))),
        Seam(left="R4", right="J3", start=spot((977.5, 45.0)), end=spot((977.5, 1000.0))),
    )
    plan = both(to("subframe.seams", seams), to("laying.joints[0].beside", "J3"))
    assert not flaws("AUD-780", plan)
    assert not flaws("AUD-781", to("subframe.lines_mm", ()))
    assert flaws("AUD-784", to("laying.end_bearing_mm", None))
    assert flaws(
        "AUD-784", both(to("laying.end_bearing_mm", None), to("laying.joints[0].row", "B9"))
    )
    nowhere = both(to("laying.end_bearing_mm", None), to("laying.joints[0].row", "B99"))
    assert flaws("AUD-784", nowhere)


def test_a_wedge_is_no_sliver_cut_along_its_row() -> None:
    wedge = spots((0.0, 0.0), (2000.0, 0.0), (1000.0, 40.0))
    assert not flaws("AUD-786", board("B1.1", corners=wedge))


def test_panels_are_weighed_by_the_metre_where_that_is_told() -> None:
    assert flaws("AUD-995", to("buying.delivery.board_kg_m", 100.0), garden())


def test_zones_of_other_ways_and_single_rows() -> None:
    other = both(twice("laying.zones", 0), to("laying.zones[1].angle_deg", 90.0))
    assert flaws("AUD-763", other)
    rows = outlined_plan().laying.rows[:1]  # type: ignore[union-attr]
    assert flaws("AUD-765", to("laying.rows", rows)) in {True, False}


def test_zones_apart_are_apart() -> None:
    zones = at(outlined_plan(), "laying.zones")
    first = zones[0]  # type: ignore[index]
    one = evolve(first, corners=box(0.0, 0.0, 995.0, 520.0))
    two = evolve(first, mark="Z2", corners=box(1000.0, 0.0, 2000.0, 520.0))
    plan = put(outlined_plan(), "laying.zones", (one, two))
    assert not any("too near" in flaw for flaw in said("AUD-760", plan))
    assert not any("X" in flaw for flaw in said("AUD-761", plan))
    off = to("laying.zones[0].corners[1]", spot((2000.003125, 0.0)))
    assert not flaws("AUD-760", off)
    wide = to("laying.zones[0].corners", spots((10.0, 10.0), (1990.0, 10.0), (10.0, 1035.0)))
    assert any("corner of the outline" in flaw for flaw in said("AUD-760", wide(outlined_plan())))


def said(code: str, plan: Plan) -> list[str]:
    from audit.test_outlined_seen import CHECK

    return [flaw.message for flaw in CHECK[code](plan)]


def test_an_opening_inside_a_row_parts_it() -> None:
    hole = to("outline.openings[0].corners", box(400.0, 320.0, 510.0, 410.0))
    assert flaws("AUD-771", hole)
    assert flaws("AUD-778", hole)


def test_a_hatch_in_no_zone_has_no_panel() -> None:
    hatch = both(
        to("outline.openings[0].kind", "hatch"),
        to("laying.zones[0].corners", box(0.0, 0.0, 2000.0, 520.0)),
    )
    assert flaws("AUD-778", hatch)


def test_a_side_that_goes_straight_on_is_none() -> None:
    sides = outlined_plan().outline.sides  # type: ignore[union-attr]
    half = spot((1000.0, 0.0))
    parted = (evolve(sides[0], end=half), evolve(sides[0], start=half), *sides[1:])
    assert any("straight on" in each for each in said("AUD-750", put(
        outlined_plan(), "outline.sides", parted
    )))  # fmt: skip


def test_stations_of_members_along_and_of_two_that_meet() -> None:
    along = both(
        member("R3", start=spot((1980.0, 470.0)), end=spot((1000.0, 470.0))),
        board("B5.1", to_member="J3"),
    )
    chains = chains_of(along(outlined_plan()))
    twin = members_too(upright("J9", "joist", 341.0, 45.0, 1000.0, "R1-R5"))
    assert [len(c.stations) for c in chains_of(twin(outlined_plan()))] == [7]
    # R6, J2, J3, R4, and J5 and J6 that end on R3, beside the middle of the board
    assert [len(chain.stations) for chain in chains] == [7, 6]


def test_terms_and_numbers_of_sets() -> None:
    plan = reference("S12")
    assert flaws("AUD-986", to("laying.least_piece_mm", 9e4), plan)
    line = at(plan, f"{TASK}.lines")[0]  # type: ignore[index]
    two = (evolve(line, count=8), evolve(line, count=9, first_station=5))
    assert flaws("AUD-987", to(f"{TASK}.lines", two), plan)
    told = both(to(f"{TASK}.lines", two), to(f"{TASK}.beside", (Beside(one=0, other=1),)))
    assert any("by one count" in each for each in said("AUD-987", told(plan)))


def test_rims_that_carry_doubled_trimmers_are_not_doubled() -> None:
    tails = both(
        member("U1", start_on="R6", end_on="R4"),
        members_too(
            upright("J9.1", "joist", 450.0, 545.0, 667.5, "N2-U4"),
            upright("J9.2", "joist", 500.0, 545.0, 667.5, "N2-U4"),
            level("U4", "double", 667.5, 363.5, 636.5, "J2-J3"),
        ),
    )
    assert not flaws("AUD-799", tails)


def test_trees_are_as_thick_as_they_grow() -> None:
    wish = OpeningWish(
        kind="tree", along_mm=1500.0, across_mm=1200.0, trunk_mm=60.0, growth_a_year_mm=2.0,
        years=10, sway_mm=15.0,
    )  # fmt: skip
    outline = wished().brief.outline  # type: ignore[union-attr]
    seen = wished(outline=evolve(outline, openings=(wish, *outline.openings[1:])))
    tree = to("outline.openings[0].kind", "tree")
    assert list(SEEN["AUD-W64"](tree(garden()), seen)) == []


def test_a_deck_without_fascia_and_at_an_angle_of_the_briefs() -> None:
    bare = put(garden(), "subframe.facing_article", "")
    laying = evolve(wished().brief.laying, angle_deg=0.0)  # type: ignore[union-attr]
    assert list(SEEN["AUD-W66"](bare, witness())) == []
    assert list(SEEN["AUD-W65"](bare, wished(laying=laying))) == []


def test_an_outline_has_no_parts_of_a_rectangle() -> None:
    from audit.sample_deck import surface

    assert any("no such part" in each for each in said("AUD-007", put(
        outlined_plan(), "surface", surface()
    )))  # fmt: skip


def test_parts_hang_together_in_any_order() -> None:
    cup = ((0, 0), (9, 0), (9, 6), (6, 6), (6, 2), (3, 2), (3, 6), (0, 6))
    parts = trapezia([cup], bool, 0, 6)
    assert [span(lot) for lot in joined(parts[::-1])] == [(0, 9)]


def lengths(*members: Member, named: str, before: str, after: str) -> Edit:
    """Return the edit that has other members under the second row's joint, and what is named."""
    return both(
        members_too(*members),
        to("laying.joints[0].member", named),
        to("laying.pieces[1].to_member", before),
        to("laying.pieces[2].from_member", after),
    )


def test_either_length_of_a_joist_that_meet_under_a_joint_may_be_named() -> None:
    """Two lengths meet at the row's middle, 155 from the house; a third ends 45 short of it."""
    near, far = (upright(mark, "joist", 977.5, low, high, on) for mark, low, high, on in
                 (("J9.1", 45.0, 155.0, "R1-"), ("J9.2", 155.0, 1000.0, "-R5")))  # fmt: skip
    for named, before, after in (
        ("J9.1", "J9.1", "J9.1"), ("J9.1", "J9.2", "J9.2"), ("J9.2", "J9.1", "J9.2"),
    ):  # fmt: skip
        edit = lengths(near, far, named=named, before=before, after=after)
        assert not flaws("AUD-780", edit)
        assert not flaws("AUD-783", edit)
    short = upright("J9.2", "joist", 977.5, 200.0, 1000.0, "-R5")
    aside = upright("J9.2", "joist", 979.5, 155.0, 1000.0, "-R5")
    for other in (short, aside):
        edit = lengths(near, other, named="J9.1", before="J9.2", after="J9.1")
        assert flaws("AUD-783", edit)
    far_off = lengths(near, short, named="J9.2", before="J9.1", after="J9.1")
    assert flaws("AUD-783", far_off)
    assert flaws("AUD-780", far_off)


def test_a_length_that_only_just_ends_before_the_joint_may_be_named_for_it() -> None:
    """A mark is 0.5: half of it, and what places are rounded by, off the line's end at most."""
    near = upright("J9.1", "joist", 977.5, 45.0, 150.0, "R1-")
    far = upright("J9.2", "joist", 977.5, 150.0, 1000.0, "-R5")
    edit = lengths(near, far, named="J9.1", before="J9.1", after="J9.1")
    assert not flaws("AUD-780", edit)
    assert not flaws("AUD-783", edit)


def test_a_hair_of_a_board_and_a_speck_of_one_have_no_line_that_screws_stand_on() -> None:
    """What only just reaches, by 0.1 to either side, is told as not reaching: 0.1 wide is none."""
    hair = board("B1.1", corners=box(0.0, 0.0, 2000.0, 0.1))(outlined_plan())
    for plan in (hair, board("B1.1", corners=SPECK)(outlined_plan())):
        assert plan.laying is not None
        (piece,) = [each for each in plan.laying.pieces if each.mark == "B1.1"]
        assert told_stretches(plan, piece, run_at(0.0), own=True) == []
