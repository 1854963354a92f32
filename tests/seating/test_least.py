"""Least decks against sums by hand, and against every placing on a coarse grid."""

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.errors import InputError
from drylay.findings import Finding
from drylay.reasons import Source
from drylay.seating.least import least_deck
from drylay.seating.model import (
    SIDE_KINDS,
    SIDES,
    DeckSides,
    Door,
    FurniturePiece,
    Passage,
    Sized,
    StepsHead,
)
from drylay.seating.pieces import allowances, kinds, usual_piece
from drylay.seating.search import _denied
from seating.own_check import every_size, wrongs

TOLD = Source(kind="assumption", title="a test")
GUARDED = DeckSides(right="guard", front="guard", left="guard")
TABLE = usual_piece("dining table", "table")
BEHIND = (Passage(piece="table", side="front"),)
DOOR, STEPS = Door(wide_mm=900, opens="outward"), StepsHead(side="front", wide_mm=1200)


def sizes(sized: Sized) -> list[tuple[float, float]]:
    return [(each.along_mm, each.across_mm) for each in sized.layouts]


def codes(findings: tuple[Finding, ...]) -> list[str]:
    return [finding.code for finding in findings]


def test_a_table_with_chairs_and_one_passage_takes_three_metres_square() -> None:
    """1500 + 2 x 750 = 3000; 900 + 2 x 750 + 600 = 3000 (common practice, no source)."""
    found = least_deck([TABLE], sides=GUARDED, passages=BEHIND).least
    assert found.best is not None
    assert (found.best.along_mm, found.best.across_mm, found.best.area_m2) == (3000, 3000, 9.0)
    assert found.proven
    assert found.all_seen
    assert (found.bound_m2, found.gap_m2) == (9.0, 0.0)


def test_in_comfort_it_takes_more() -> None:
    """1500 + 2 x 900 = 3300; 900 + 2 x 900 + 900 = 3600."""
    found = least_deck([TABLE], sides=GUARDED, passages=BEHIND).comfortable
    assert sizes(found) == [(3300, 3600), (3600, 3300)]


def test_chairs_keep_off_open_edges() -> None:
    """Open left and right: 3000 + 2 x 200; behind the passage nothing is added."""
    sides = DeckSides(house="wall", right="open", left="open", front="open")
    table = evolve(TABLE, may_turn=False)
    assert sizes(least_deck([table], sides=sides, passages=BEHIND).least) == [(3400, 3000)]


@pytest.mark.parametrize("count", [1, 2, 3, 5])
def test_loungers_take_what_the_formula_says(count: int) -> None:
    """(700 n + 600 (n + 1)) x 2600."""
    loungers = evolve(usual_piece("lounger", "L", count=count), may_turn=False)
    found = least_deck([loungers]).least
    assert sizes(found) == [(700 * count + 600 * (count + 1), 2600)]


def test_a_fire_keeps_a_metre_from_walls_guards_and_pieces() -> None:
    """A heater of 500: 1000 + 500 + 1000 between wall and guard, and to a chest 1000."""
    heater = usual_piece("heater", "H")
    assert sizes(least_deck([heater], sides=GUARDED).least) == [(2500, 2500)]
    free = DeckSides(house="open")
    assert sizes(least_deck([heater], sides=free).least) == [(500, 500)]
    chest = FurniturePiece(mark="C", kind="chest", along_mm=500, across_mm=500, source=TOLD)
    assert sizes(least_deck([heater, chest], sides=free).least) == [(500, 2000), (2000, 500)]


def test_a_door_swings_free_and_the_steps_head_stays_free() -> None:
    """By hand: chest 500 deep across a deck 1000 wide; door 900 x 900, steps 900 deep beyond it.

    A chest beside the door would make the deck 1400 along; along 1000 it lies between: 900 + 500
    across, and the steps' head 900 more.
    """
    chest = FurniturePiece(mark="C", kind="chest", along_mm=1000, across_mm=500, source=TOLD)
    doored = DeckSides(doors=(DOOR,))
    assert (1000.0, 1400.0) in sizes(least_deck([chest], sides=doored).least)
    stepped = DeckSides(doors=(DOOR,), steps=(evolve(STEPS, wide_mm=1000),))
    assert (1000.0, 2300.0) in sizes(least_deck([chest], sides=stepped).least)


def test_a_door_told_where_it_is_makes_the_deck_reach_it() -> None:
    sides = DeckSides(doors=(evolve(DOOR, from_mm=2000.0),))
    chest = usual_piece("chest", "C")
    assert sizes(least_deck([chest], sides=sides).least) == [(2900, 900)]


def test_a_group_lets_a_passage_lie_where_chairs_are_pulled_back() -> None:
    """Tables 700 + 750 and 700 + 600: apart 2750 in line; together 750 of the way is shared."""
    one = FurniturePiece(mark="A", kind="table", along_mm=700, across_mm=700, source=TOLD,
                         chairs=("right",), may_turn=False)  # fmt: skip
    other = evolve(one, mark="B", chairs=(), passages=("left",))
    bounds = {"most_across_mm": 700.0, "sides": GUARDED}
    assert sizes(least_deck([one, other], **bounds).least) == [(2750, 700)]
    both = [evolve(each, group="g") for each in (one, other)]
    assert sizes(least_deck(both, **bounds).least) == [(2150, 700)]


def test_what_no_bounds_hold_is_a_stop() -> None:
    found = least_deck([TABLE], most_along_mm=1000).least
    assert (found.best, found.layouts, codes(found.findings)) == (None, (), ["SEA-005"])


def test_a_search_that_is_cut_says_how_far_off_it_may_be() -> None:
    pieces = [TABLE, usual_piece("sofa", "S"), usual_piece("chest", "C")]
    cut = least_deck(pieces, most_nodes=12).least
    whole = least_deck(pieces).least
    assert not cut.proven
    assert cut.nodes <= 24
    assert "SEA-003" in codes(cut.findings)
    assert whole.proven
    assert whole.best is not None
    assert cut.bound_m2 <= whole.best.area_m2
    assert cut.best is not None
    assert cut.gap_m2 == pytest.approx(cut.best.area_m2 - cut.bound_m2)


def test_a_shut_in_door_is_told() -> None:
    """The table of 900 x 900 with chairs at two sides fills a deck 900 wide: nobody gets by."""
    table = FurniturePiece(mark="T", kind="table", along_mm=900, across_mm=900, source=TOLD)
    sides = DeckSides(doors=(DOOR,), steps=(evolve(STEPS, wide_mm=900),))
    found = least_deck([table], sides=sides, most_along_mm=900).least
    assert [(f.code, f.subject) for f in found.findings] == [("SEA-007", "steps 1")]
    wider = least_deck([table], sides=sides, most_across_mm=1800).least
    assert "SEA-007" not in codes(wider.findings)


def test_everything_that_cannot_be_meant_is_told_at_once() -> None:
    piece = evolve(TABLE, along_mm=1.5, chairs=("back",))
    sides = DeckSides(front="hedge", doors=(Door(side="front", wide_mm=0.9, opens="out"),))
    with pytest.raises(InputError) as told:
        least_deck([piece, piece], sides=sides, passages=[Passage(piece="X", side="up")], grid_mm=0)
    paths = [fault.path for fault in told.value.faults]
    assert sorted(paths) == sorted([
        "pieces", "pieces[0].along_mm", "pieces[0].chairs", "pieces[1].along_mm",
        "pieces[1].chairs", "passages[0].piece", "passages[0].side", "sides.front",
        "sides.doors[0].side", "sides.doors[0].wide_mm", "sides.doors[0].opens", "grid_mm",
    ])  # fmt: skip


def test_usual_pieces_and_levels_are_looked_up() -> None:
    with pytest.raises(InputError, match="dining table"):
        usual_piece("dinning table", "T")
    with pytest.raises(InputError, match="least or comfortable"):
        allowances("roomy")
    assert all(
        usual_piece(kind, "P").source.title == "common practice, no source" for kind in kinds()
    )
    assert all(ruling.source.kind == "common practice" for ruling in allowances().rulings)


def test_the_same_question_has_the_same_answer() -> None:
    pieces = [TABLE, usual_piece("sofa", "S"), usual_piece("lounger", "L", count=2)]
    assert least_deck(pieces) == least_deck(pieces)


sides_of_decks = st.builds(DeckSides, **{side: st.sampled_from(SIDE_KINDS) for side in SIDES})
parts = st.lists(st.sampled_from(SIDES), max_size=2, unique=True).map(tuple)


def pieces_of(mark: str, widest: int = 1200) -> st.SearchStrategy[FurniturePiece]:
    return st.builds(
        FurniturePiece,
        mark=st.just(mark),
        kind=st.just("piece"),
        along_mm=st.integers(4, widest // 100).map(lambda n: n * 100.0),
        across_mm=st.integers(4, 8).map(lambda n: n * 100.0),
        chairs=parts,
        passages=st.lists(st.sampled_from(SIDES), max_size=1, unique=True).map(tuple),
        hot=st.booleans(),
        may_turn=st.booleans(),
        source=st.just(TOLD),
    )


@settings(max_examples=8)
@given(pieces_of("A"), pieces_of("B"), sides_of_decks)
def test_two_pieces_as_by_trying_every_place(
    one: FurniturePiece, other: FurniturePiece, sides: DeckSides
) -> None:
    agree((one, other), sides, 450.0, 7)


@settings(max_examples=6)
@given(pieces_of("A", 900), sides_of_decks)
def test_two_pieces_alike_as_by_trying_every_place(one: FurniturePiece, sides: DeckSides) -> None:
    """Of pieces alike only one order is searched: nothing may be lost by that."""
    agree((one, evolve(one, mark="B")), sides, 450.0, 6)


@pytest.mark.parametrize("least", [-3, 0, 4])
def test_a_way_denied_is_all_that_the_way_is_not(least: int) -> None:
    axis, one, other, denied = _denied((0, 2, 3, least))
    assert (axis, one, other) == (0, 3, 2)
    for beyond in range(-9, 10):
        assert (beyond >= least) != (-beyond >= denied)


@settings(max_examples=4)
@given(pieces_of("A", 600), pieces_of("B", 600), pieces_of("C", 600), sides_of_decks)
def test_three_pieces_as_by_trying_every_place(
    one: FurniturePiece, other: FurniturePiece, third: FurniturePiece, sides: DeckSides
) -> None:
    still = [evolve(piece, may_turn=False, hot=False) for piece in (other, third)]
    agree((one, *still), sides, 500.0, 4)


def agree(pieces: tuple[FurniturePiece, ...], sides: DeckSides, grid_mm: float, steps: int) -> None:
    most = {"most_along_mm": grid_mm * steps, "most_across_mm": grid_mm * steps}
    found = least_deck(pieces, sides=sides, grid_mm=grid_mm, **most).least
    by_all = every_size(pieces, sides, allowances(), grid_mm, steps)
    assert {(round(a / grid_mm), round(c / grid_mm)) for a, c in sizes(found)} == by_all
    assert found.all_seen


some = st.lists(
    st.sampled_from(["dining table", "small table", "lounger", "sofa", "planter", "barbecue"]),
    min_size=1, max_size=3,
).map(lambda names: tuple(usual_piece(name, f"P{n}") for n, name in enumerate(names)))  # fmt: skip


@settings(max_examples=15)
@given(some, sides_of_decks, st.booleans(), st.booleans())
def test_nothing_lies_in_anything_it_must_not(
    pieces: tuple[FurniturePiece, ...], sides: DeckSides, door: bool, steps: bool
) -> None:
    doors = (DOOR,) if door and sides.house == "wall" else ()
    sides = evolve(sides, doors=doors, steps=(STEPS,) if steps else ())
    passages = (Passage(piece="P0", side="house"),)
    found = least_deck(pieces, sides=sides, passages=passages)
    for sized in (found.least, found.comfortable):
        for layout in sized.layouts:
            assert not wrongs(layout, pieces, sides, sized.allowances, passages)


def test_the_check_of_layouts_sees_one_that_is_wrong() -> None:
    pieces = (TABLE, usual_piece("chest", "C"))
    layout = least_deck(pieces).least.best
    assert layout is not None
    table, chest = layout.placed
    onto = evolve(chest, from_along_mm=table.from_along_mm - 700.0,
                  from_across_mm=table.from_across_mm)  # fmt: skip
    spoilt = evolve(layout, placed=(table, onto), along_mm=1000.0)
    told = wrongs(spoilt, pieces, DeckSides(), allowances())
    assert "table and C" in told
    assert "table off the deck" in told


def area(pieces: tuple[FurniturePiece, ...], sides: DeckSides, *passages: Passage) -> float:
    best = least_deck(pieces, sides=sides, passages=passages).least.best
    assert best is not None
    return best.area_m2


@settings(max_examples=15)
@given(some, sides_of_decks, st.integers(1, 4), st.sampled_from(SIDES))
def test_more_to_hold_never_takes_a_smaller_deck(
    pieces: tuple[FurniturePiece, ...], sides: DeckSides, steps: int, side: str
) -> None:
    before = area(pieces, sides)
    first = pieces[0]
    larger = evolve(first, along_mm=first.along_mm + 50.0 * steps)
    assert area((larger, *pieces[1:]), sides) >= before
    assert area(pieces, sides, Passage(piece="P0", side=side)) >= before
    assert area(pieces[1:], sides) <= before if pieces[1:] else True


@settings(max_examples=15)
@given(some, sides_of_decks, st.sampled_from(SIDES))
def test_a_guard_never_takes_a_larger_deck_but_for_a_fire(
    pieces: tuple[FurniturePiece, ...], sides: DeckSides, side: str
) -> None:
    cold = tuple(piece for piece in pieces if not piece.hot) or (TABLE,)
    unguarded = evolve(sides, **{side: "open"})
    assert area(cold, evolve(sides, **{side: "guard"})) <= area(cold, unguarded)


def test_a_guard_beside_a_fire_does() -> None:
    """A heater may stand at an open edge; a metre from a guard it may not."""
    heater = (usual_piece("heater", "H"),)
    assert area(heater, DeckSides(right="guard")) > area(heater, DeckSides())


ACROSS = {"house": "left", "left": "house", "right": "front", "front": "right"}


@settings(max_examples=15)
@given(some, sides_of_decks)
def test_a_mirrored_garden_is_the_same_deck_mirrored(
    pieces: tuple[FurniturePiece, ...], sides: DeckSides
) -> None:
    """Along and across change places, sides and chairs with them."""
    over = DeckSides(**{ACROSS[side]: getattr(sides, side) for side in SIDES})
    swapped = tuple(
        evolve(
            piece,
            along_mm=piece.across_mm,
            across_mm=piece.along_mm,
            chairs=tuple(ACROSS[side] for side in piece.chairs),
            passages=tuple(ACROSS[side] for side in piece.passages),
        )
        for piece in pieces
    )
    plain, turned = least_deck(pieces, sides=sides).least, least_deck(swapped, sides=over).least
    assert sorted(sizes(plain)) == sorted((c, a) for a, c in sizes(turned))
