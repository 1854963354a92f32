"""The five families that come with drylay: laws each keeps, and what they say side by side."""

import functools
import pickle
from collections.abc import Callable
from itertools import combinations

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from drylay.brief.model import EXPOSURES, USES
from drylay.marks import PER_MM
from drylay.materials.model import QUESTIONS, RULE_BOUNDS, RULES, TRAITS, YEARLY, Family, RuleQuery
from drylay.materials.stock_model import METALS
from drylay.plugins.guard import ask
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet, RuleFault
from drylay.plugins.table_model import Entry
from drylay.reasons import SOURCE_KINDS, Ruling
from drylay_composite.family import composite
from drylay_hardwood.family import hardwood
from drylay_insertboard.family import insertboard
from drylay_softwood.family import softwood
from drylay_tiles.family import tiles
from families_page import BEGIN, PAGE, TABLES, page, read_table

FIVE: dict[str, Callable[[], Family]] = {
    "softwood": softwood,
    "hardwood": hardwood,
    "composite": composite,
    "tiles": tiles,
    "insertboard": insertboard,
}
WOOD = ("softwood", "hardwood", "insertboard")
#: What a family has besides the needed rules. Written down here so that a change is a decision.
TRAITS_OF = {
    "softwood": {"joists_under_joint", "seal_board_ends", "fall_least_ratio"},
    "hardwood": {"batten_for_pair", "joists_under_joint", "predrill_all", "seal_board_ends",
                 "wax_board_ends", "fall_least_ratio"},
    "composite": {"batten_for_pair", "centres_stand_in", "air_below_least_mm", "joists_under_joint",
                  "hidden_clips", "clips_per_crossing", "starter_clips_per_joist",
                  "end_row_screws_per_joist", "overhang_most_mm", "wall_gap_least_mm", "end_caps",
                  "seal_board_ends", "fall_least_ratio"},
    "tiles": {"joists_under_joint", "overhang_most_mm", "wall_gap_least_mm", "least_piece_mm",
              "seal_board_ends", "fall_least_ratio", "pads_at_edges_most_mm", "pads_at_centre",
              "bays_per_piece"},
    "insertboard": {"joists_under_joint", "handed", "seal_board_ends", "extra_mass_kg_m2",
                    "fall_least_ratio"},
}  # fmt: skip
TRAITS_OF = {name: traits | {"combustible", "timber"} for name, traits in TRAITS_OF.items()}
ALWAYS = {"wet_slip_least", "upkeep_h_m2_year", "life_least_years", "life_most_years",
          "frame_life_least_years", "frame_life_most_years"}  # fmt: skip
for _traits in TRAITS_OF.values():
    _traits |= {"frame_screw_pilot_ratio", "frame_density_most_kg_m3"}  # all five: treated softwood
YEARLY_OF = {
    name: ALWAYS | {"movement_per_pct", "wettest_board_pct", "driest_board_pct"} for name in WOOD
}
YEARLY_OF |= {"composite": ALWAYS | {"growth_per_k", "hottest_board_c"}, "tiles": ALWAYS}
#: Needed rules that a family leaves out: tiles have neither screws nor grooves.
LEFT_OUT = {
    "tiles": {"screw_length_least_mm", "screw_edge_least_mm", "screw_end_least_mm", "groove_ratio"},
}
#: Answers that may be beyond the bounds of sense: what a long board laid in frost grows is more
#: than anybody leaves open, which the planner then says.
BEYOND = {("composite", "end_gap_mm")}

each_family = pytest.mark.parametrize("name", FIVE)


@functools.cache
def five() -> FamilySet:
    return installed_families(entry_points=(), extra=[make() for make in FIVE.values()])


def of(name: str, rule: str, query: RuleQuery) -> float | None:
    """Return a family's answer, None where it does not cover the board; nothing else goes wrong."""
    found = ask(five(), name, rule, query)
    if isinstance(found, RuleFault):
        assert found.kind == "not covered", found
        return None
    assert isinstance(found.value, int | float)
    return found.value


maybe = functools.partial(st.one_of, st.none())
#: Any board there could be, and some that could not.
queries = st.builds(
    RuleQuery,
    board_width_mm=st.floats(20, 1000),
    board_thickness_mm=st.floats(10, 80),
    joist_thickness_mm=st.floats(20, 100),
    board_to_joist_deg=st.one_of(st.just(90.0), st.floats(0, 90)),
    use=st.sampled_from(USES),
    head_sunk_mm=st.floats(0, 60),
    fascia_thickness_mm=st.floats(10, 60),
    metal=st.sampled_from((*METALS, "brass", "")),
    exposure=st.sampled_from(EXPOSURES),
    species=st.sampled_from(["", "white oak", "larch", "green oak", "porcelain", "redwood", "x"]),
    board_length_mm=st.one_of(st.just(0.0), st.floats(200, 6000)),
    groove_mm=st.floats(0, 20),
    hollow=st.booleans(),
    turnable=maybe(st.booleans()),
    support=st.sampled_from(["frame", "pads"]),
    clip_gap_mm=maybe(st.integers(0, 3200).map(lambda ticks: ticks / PER_MM)),
    growth_per_k=maybe(st.floats(0, 1e-4)),
    movement_per_pct=maybe(st.floats(0, 0.01)),
    laying_c=maybe(st.floats(-20, 50)),
    hottest_c=maybe(st.floats(0, 80)),
    laying_pct=maybe(st.floats(5, 60)),
    wettest_pct=maybe(st.floats(10, 30)),
)


#: For laws that ask every rule, and for those that ask a few: a test file takes a few seconds.
some = settings(max_examples=15)
more = settings(max_examples=40)


@each_family
@some
@given(queries)
def test_whatever_is_asked_is_answered_within_sense_or_not_covered(
    name: str, query: RuleQuery
) -> None:
    for rule in QUESTIONS:
        answer = of(name, rule, query)
        if answer is None or (name, rule) in BEYOND:
            continue
        least, most = RULE_BOUNDS[rule]
        if rule in {"sliver_mm", "least_rip_mm"} and query.board_width_mm > 600:
            continue  # no board is so wide
        assert least <= answer <= most, (rule, answer)


@each_family
@more
@given(queries)
def test_gaps_are_in_order(name: str, query: RuleQuery) -> None:
    gaps = [of(name, f"gap_{which}_mm", query) for which in ("least", "preferred", "most")]
    known = [gap for gap in gaps if gap is not None]
    assert known == sorted(known)
    assert (gaps[0] is None) == (gaps[1] is None)


@each_family
@more
@given(queries, st.floats(10, 80))
def test_centres_never_rise_as_boards_get_thinner(
    name: str, query: RuleQuery, other_mm: float
) -> None:
    thin_mm, thick_mm = sorted((query.board_thickness_mm, other_mm))
    thin = of(name, "most_centres_mm", evolve(query, board_thickness_mm=thin_mm))
    thick = of(name, "most_centres_mm", evolve(query, board_thickness_mm=thick_mm))
    assert thin is None or thick is None or thin <= thick


@each_family
@more
@given(queries, st.floats(0, 90))
def test_centres_never_rise_as_boards_turn_from_square(
    name: str, query: RuleQuery, other_deg: float
) -> None:
    flat_deg, steep_deg = sorted((query.board_to_joist_deg, other_deg))
    flat = of(name, "most_centres_mm", evolve(query, board_to_joist_deg=flat_deg))
    steep = of(name, "most_centres_mm", evolve(query, board_to_joist_deg=steep_deg))
    assert flat is None or steep is None or flat <= steep


@each_family
@more
@given(queries)
def test_public_use_is_never_laxer(name: str, query: RuleQuery) -> None:
    public, dwelling = (evolve(query, use=use) for use in ("public", "dwelling"))
    one, other = of(name, "most_centres_mm", public), of(name, "most_centres_mm", dwelling)
    assert one is None or other is None or one <= other
    pair, single = of(name, "joists_under_joint", public), of(name, "joists_under_joint", dwelling)
    assert pair is not None
    assert single is not None
    assert pair >= single


@each_family
@more
@given(queries)
def test_by_salt_water_no_metal_lasts_that_does_not_inland(name: str, query: RuleQuery) -> None:
    inland = of(name, "metal_allowed", evolve(query, exposure="inland"))
    for exposure in ("coast", "pool"):
        salted = of(name, "metal_allowed", evolve(query, exposure=exposure))
        assert inland is None or salted is None or salted <= inland


@pytest.mark.parametrize("name", WOOD)
@more
@given(queries, st.floats(5, 60), st.floats(5, 60))
def test_a_drier_day_never_wants_a_narrower_gap(
    name: str, query: RuleQuery, one_pct: float, other_pct: float
) -> None:
    dry_pct, wet_pct = sorted((one_pct, other_pct))
    for rule in ("gap_least_mm", "gap_preferred_mm"):
        dry = of(name, rule, evolve(query, laying_pct=dry_pct))
        wet = of(name, rule, evolve(query, laying_pct=wet_pct))
        assert dry is None or wet is None or dry >= wet


@each_family
@some
@given(queries)
def test_the_same_question_has_the_same_answer(name: str, query: RuleQuery) -> None:
    sent: Family = pickle.loads(pickle.dumps(FIVE[name]()))
    other = installed_families(entry_points=(), extra=[sent])
    for rule in QUESTIONS:
        first, second = ask(five(), name, rule, query), ask(other, name, rule, query)
        assert first == second


@each_family
@some
@given(queries)
def test_every_ruling_says_who_says_so(name: str, query: RuleQuery) -> None:
    for rule in (*RULES, *TRAITS_OF[name], *YEARLY_OF[name]):
        found = ask(five(), name, rule, query)
        if isinstance(found, Ruling):
            assert found.source.clause
            assert found.source.kind not in {"brief", "merchant record", "named person's override"}


@each_family
def test_what_is_covered_is_as_declared(name: str) -> None:
    covered = set(FIVE[name]().rules)
    left_out = LEFT_OUT.get(name, set())
    assert covered == (set(RULES) | TRAITS_OF[name] | YEARLY_OF[name]) - left_out
    assert left_out <= set(RULES)
    assert TRAITS_OF[name] <= set(TRAITS)
    assert YEARLY_OF[name] <= set(YEARLY)


@each_family
def test_there_are_cautions_and_each_is_told_once(name: str) -> None:
    cautions = FIVE[name]().cautions
    assert len(cautions) == len(set(cautions)) >= 8
    assert any("Local building rules come first" in caution for caution in cautions)


@each_family
@pytest.mark.parametrize("word", ["preserver", "Never burn", "ponds", "Copper", "before 2006"])
def test_every_family_on_a_treated_frame_tells_what_that_wants(name: str, word: str) -> None:
    """The trade list's cautions of treated softwood; all five lie on a frame of it."""
    assert any(word in caution for caution in FIVE[name]().cautions)


def test_a_life_is_no_shorter_than_its_least() -> None:
    query = RuleQuery(board_width_mm=140.0, board_thickness_mm=28.0, joist_thickness_mm=45.0)
    for name in FIVE:
        query = evolve(query, species="porcelain" if name == "tiles" else "")
        for what in ("life", "frame_life"):
            least, most = (of(name, f"{what}_{end}_years", query) for end in ("least", "most"))
            assert least is not None
            assert most is not None
            assert 0 < least <= most


# ----- the tables side by side ---------------------------------------------------------

Row = tuple[str, Entry]


def rows() -> list[Row]:
    tables = [(name, read_table(package, name)) for package, name in TABLES]
    return [(name, entry) for name, table in tables for entry in (*table.rules, *table.numbers)]


def contradict(one: Entry, other: Entry) -> bool:
    """Return whether one sentence of one source gives two numbers for the same boards."""
    same = (one.name, one.source, one.times, one.plus, one.reaches, one.words) == (
        other.name, other.source, other.times, other.plus, other.reaches, other.words
    )  # fmt: skip
    return same and bool(one.source.clause) and one.value != other.value


def test_no_source_says_two_things_of_one_board() -> None:
    found = [
        (one[0], other[0], one[1].name)
        for one, other in combinations(rows(), 2)
        if contradict(one[1], other[1]) and not one[1].source.clause.endswith("a square metre")
    ]
    assert not found


def test_two_that_contradict_are_seen() -> None:
    some = rows()[0][1]
    assert contradict(some, evolve(some, value=some.value + 1))
    assert not contradict(some, some)


def test_what_others_say_and_is_not_taken_is_told_and_looser() -> None:
    """Where two sources of a rule differ, the stricter is taken, and the other stands beside it."""
    others = [(table, entry) for table, entry in rows() if entry.name.startswith("not taken: ")]
    assert len(others) == 5
    for table, entry in others:
        (reach,) = entry.reaches
        query = RuleQuery(
            board_width_mm=140.0, board_thickness_mm=reach.least, joist_thickness_mm=45.0
        )
        rule = entry.name.removeprefix("not taken: ")
        taken = of(table.removesuffix(".toml"), rule, query)
        assert taken is not None
        assert taken > entry.value if rule == "screw_length_least_mm" else taken < entry.value


def test_every_number_says_who_says_so_and_none_is_a_makers() -> None:
    for table, entry in rows():
        assert entry.source.kind in set(SOURCE_KINDS) - {"merchant record", "brief"}, table
        assert entry.source.title
        assert entry.source.clause, (table, entry.name)


def test_the_page_of_families_is_made_of_their_tables() -> None:
    """`python tests/families_page.py` writes it anew."""
    written = PAGE.read_text(encoding="utf-8")
    assert page(written) == written
    assert page(written.replace("| 400 x sin(angle) |", "| 401 x sin(angle) |")) == written
    assert BEGIN in written
