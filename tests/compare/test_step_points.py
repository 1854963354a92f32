"""What would change a deck: step points by hand, and held against every millimetre."""

import threading
from decimal import Decimal
from functools import cache

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

import drylay
from campaigns.step_points import steps_by_hand, told_of
from compare.small import ROOT
from drylay.brief.model import Brief
from drylay.compare.step_figures import figures_of
from drylay.compare.step_found import free_to, points_of
from drylay.compare.step_model import Effect, Figures, Step, StepPoints
from drylay.compare.step_points import what_would_change
from drylay.compare.step_sweep import Looker, Walk, look
from drylay.compare.step_told import steps_of
from drylay.compare.step_ways import checked_paths, swaps_of, ways_of
from drylay.errors import Cancelled, InputError, PlannerFault
from drylay.materials.stock_model import Catalogue
from drylay.planner.glance import Glances, glance
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_local_rules
from drylay.plugins.model import FamilySet
from some_decks import some_case

ALONG, ACROSS = "cover.along_mm", "cover.across_mm"


@cache
def families() -> FamilySet:
    return asked_once(drylay.installed_families())


@cache
def stock() -> Catalogue:
    return drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")


def brief(along_mm: float = 2450, across_mm: float = 1195, **more: object) -> Brief:
    """Rows of 145 mm boards along the house; joists 45 thick, 400 apart at most."""
    plain = {
        "title": "Small deck",
        "cover": {"along_mm": along_mm, "across_mm": across_mm},
        "board": {"article": "DB-28-145"},
        "gap": {"least_mm": 4, "preferred_mm": 5, "most_mm": 8},
        "frame": {"article": "FT-45-145", "most_centres_mm": 400},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
        "joints": {"most_per_row": 0},
    }
    return drylay.read_brief(plain | more)


def changed(asked: Brief, *paths: str, within_mm: float, **more: object) -> StepPoints:
    named = {"counts_within_mm": within_mm, "families": families()} | more
    return what_would_change(asked, stock=stock(), within_mm=within_mm, paths=paths, **named)


def glances() -> Glances:
    return Glances(
        stock=stock(),
        families=families(),
        local_rules=installed_local_rules(),
    )


def counts(step: Step | Effect) -> dict[str, tuple[int | None, int | None]]:
    effect = step.effect if isinstance(step, Step) else step
    return {change.what: (change.before, change.after) for change in effect.changes}


# --- by hand ----------------------------------------------------------------------------------


def test_a_joist_line_goes_where_bays_of_the_most_are_just_full() -> None:
    """Joists: ceil((L - 45) / 400) + 1. At 2450 mm that is 8, up to 45 + 6 x 400 = 2445 it is 7."""
    found = changed(brief(2450), ALONG, within_mm=7)
    step = next(step for step in found.steps if "joist line" in step.effect.fewer)
    assert (step.from_mm, step.last_mm, step.to_mm, step.change_mm) == (2450, 2446, 2445, -5)
    assert step.holds_to_mm == 2443  # the last looked at
    assert counts(step)["joist line"] == (8, 7)
    assert step.effect.kind == "saves"
    assert step.effect.area_lost_m2 == 0.006  # 0.005 x 1.195 = 0.005975, up to the next 0.0001
    rule = next(change for change in step.effect.changes if change.what == "joist line")
    assert rule.rule == "fewest joists within the limit"
    before = drylay.design(brief(2450), stock=stock()).buying.total
    after = drylay.design(brief(2445), stock=stock()).buying.total
    assert step.effect.saving == before - after
    assert step.effect.currency == "GBP"


def test_rows_go_where_no_gap_is_left() -> None:
    """8 rows of 145 and 7 gaps of 4 are 1188 deep: below that 7 rows, 7 x 145 + 6 x 5 = 1045."""
    cover = {"along_mm": 2450, "across_mm": 1190, "shrink_across_mm": 150}
    found = changed(brief(cover=cover, rows={"may_rip": False}), ACROSS, within_mm=4)
    step = next(step for step in found.steps if "row" in step.effect.fewer)
    assert (step.last_mm, step.to_mm) == (1188, 1187)
    assert counts(step)["row"] == (8, 7)
    assert step.effect.area_lost_m2 == pytest.approx(0.3553)  # 2.45 x 0.145 = 0.35525, up


def test_what_unblocks_a_plan_comes_first() -> None:
    """Boards that may not be ripped, in a cover that may not change: 8 rows want 1188 at least."""
    found = changed(brief(2450, 1185, rows={"may_rip": False}), ACROSS, within_mm=4)
    assert found.here.stops == ("ROW-001",)
    step = found.steps[0]
    assert (step.effect.kind, step.last_mm, step.to_mm) == ("unblocks", 1187, 1188)
    assert [finding.code for finding in step.effect.lost] == ["ROW-001"]
    assert step.effect.saving is None
    assert found.free_sizes == ()


def test_a_size_that_becomes_blocked_is_a_step() -> None:
    """8 rows with gaps of 8 fill 8 x 145 + 7 x 8 = 1216."""
    found = changed(brief(2450, 1213, rows={"may_rip": False}), ACROSS, within_mm=5)
    blocks = [step for step in found.steps if step.effect.kind == "blocks"]
    assert [(step.last_mm, step.to_mm) for step in blocks] == [(1216, 1217)]
    assert [finding.code for finding in blocks[0].effect.gained] == ["ROW-001"]
    (free,) = found.free_sizes
    assert (free.to_mm, free.free_mm, free.next_mm, free.extra) == (1216, 3, 1217, None)


def test_size_is_free_up_to_the_next_joist() -> None:
    """2440 mm has 7 joists up to 2445, and a dearer order above that."""
    (free,) = changed(brief(2440), ALONG, within_mm=8).free_sizes
    assert (free.from_mm, free.to_mm, free.free_mm, free.next_mm) == (2440, 2445, 5, 2446)
    assert free.extra > 0


def test_centres_step_where_a_bay_fits_less() -> None:
    """2444 mm: 2399 between outer joists, 6 bays of 399.8. Centres of 399 want a 7th."""
    found = changed(brief(2444), "frame.most_centres_mm", within_mm=2)
    adds = next(step for step in found.steps if "joist line" in step.effect.more)
    assert (adds.last_mm, adds.to_mm) == (400, 399)
    assert adds.effect.area_lost_m2 == 0
    blocks = next(step for step in found.steps if step.effect.kind == "blocks")
    assert (blocks.last_mm, blocks.to_mm) == (400, 401)  # by the boards' thickness


def test_a_permission_goes_where_the_height_is_just_kept() -> None:
    """England asks above 300 mm; the ground lies at -301, the deck's top at 0."""
    points = [{"along_mm": x, "across_mm": y, "level_mm": -301}
              for x in (-100, 2600) for y in (0, 1300)]  # fmt: skip
    high = brief(levels={"deck_top_mm": 0, "points": points}, site={"region": "united-kingdom"})
    (step,) = changed(high, "levels.deck_top_mm", within_mm=2).steps
    assert (step.from_mm, step.to_mm, step.effect.fewer) == (0, -1, ("permission",))
    assert counts(step) == {"permission": (1, 0)}
    assert [finding.code for finding in step.effect.lost] == ["RGN-001"]
    assert step.effect.saving == 0


def test_other_words_are_tried_and_those_that_fail_are_told() -> None:
    found = changed(brief(), "board.run", "board.article", within_mm=1)
    run = next(swap for swap in found.swaps if swap.path == "board.run")
    assert (run.from_word, run.to_word) == ("along", "across")
    # 16 rows with gaps of 8 are 2440, too few for 2450: 15 whole ones between two that are ripped;
    # 1195 along the boards takes 4 joists, (1195 - 45) / 400 up and one more
    assert counts(run.effect)["row"] == (8, 17)
    assert counts(run.effect)["joist line"] == (8, 4)
    tried = {swap.to_word for swap in found.swaps if swap.path == "board.article"}
    failed = {note.message.split()[1] for note in found.untold if note.subject == "board.article"}
    assert tried | failed <= {board.code for board in stock().boards} - {"DB-28-145"}
    assert failed


def test_gaps_are_looked_at_on_pencil_marks() -> None:
    found = changed(brief(), "gap.preferred_mm", within_mm=1)
    (sweep,) = found.sweeps
    assert (sweep.here_mm, sweep.apart_mm) == (5, 0.5)
    assert (sweep.flats[0].first_mm, sweep.flats[-1].last_mm) == (4, 8)


def test_further_out_counts_find_the_step_and_designs_price_it() -> None:
    """From 2500 mm the joist line of 2445 lies 55 mm off, further than is planned here."""
    found = changed(brief(2500), ALONG, within_mm=1, counts_within_mm=60)
    step = next(step for step in found.steps if "joist line" in step.effect.fewer)
    assert (step.last_mm, step.to_mm, step.change_mm) == (2446, 2445, -55)
    assert counts(step)["joist line"] == (8, 7)
    assert step.effect.source.clause.startswith("counted dry")


# --- laws -------------------------------------------------------------------------------------


@st.composite
def walks(draw: st.DrawFn) -> Walk:
    """A walk of made-up figures, some of them blocked."""
    size = draw(st.integers(1, 12))
    figures = draw(st.lists(st.builds(
        lambda blocked, joists, boards, cents: Figures(stops=("ROW-001",)) if blocked else Figures(
            joists=joists, boards=boards, total=Decimal(cents)),
        st.sampled_from([False, False, False, True]), st.integers(3, 5), st.integers(7, 9),
        st.integers(10, 13),
    ), min_size=size, max_size=size))  # fmt: skip
    here = draw(st.integers(0, size - 1))
    values = tuple(float(1000 + number) for number in range(size))
    return Walk(path=ALONG, apart_mm=1.0, values_mm=values, figures=tuple(figures), here=here)


@given(walks())
def test_every_step_is_found_and_no_other(walked: Walk) -> None:
    """Against plain comparison with all that is nearer, as the campaign does it."""
    told = {at - walked.here: _words(figures) for at, figures in enumerate(walked.figures)}
    wanted = steps_by_hand(ALONG, walked.here_mm, told)
    found = {(ALONG, walked.values_mm[p.at], p.kind, tuple(sorted(p.fewer)), tuple(sorted(p.more)))
             for p in points_of(walked)}  # fmt: skip
    assert found == wanted


def _words(figures: Figures) -> dict[str, object]:
    if figures.stops:
        return {"blocked": True}
    return {"joist line": figures.joists, "board": figures.boards, "order": figures.total}


@given(walks())
def test_free_size_costs_no_more_anywhere_and_the_next_does(walked: Walk) -> None:
    own = walked.figures[walked.here].total
    if own is None:
        return
    to, beyond = free_to(walked)
    inside = walked.figures[walked.here : to + 1]
    assert all(figures.total is not None and figures.total <= own for figures in inside)
    if beyond is None:
        assert to == len(walked.figures) - 1
    else:
        assert beyond == to + 1
        total = walked.figures[beyond].total
        assert total is None or total > own


@pytest.mark.parametrize("seed", [4, 8, 13])
def test_a_plan_at_a_glance_comes_to_what_its_design_does(seed: int) -> None:
    asked, shop = some_case(seed, most_mm=3000)
    look_at = evolve(glances(), stock=shop)
    for more_mm in (0.0, 7.0):
        cover = evolve(asked.cover, along_mm=asked.cover.along_mm + more_mm)
        one = evolve(asked, cover=cover)
        plan, seen = drylay.design(one, stock=shop), glance(look_at, one)
        assert seen.buying == plan.buying
        assert figures_of(seen) == figures_of(plan)
        assert seen.measures() == plan.measures()
        assert [f.code for f in seen.findings] == [f.code for f in plan.findings]


def test_no_step_is_missed_within_10_mm() -> None:
    """Every millimetre designed in full: 20 designs beside the brief's own."""
    asked = brief(2450)
    told = {}
    for more in range(-10, 11):
        one = asked.replace(ALONG, 2450 + more)
        told[more] = told_of(one, stock())
    wanted = steps_by_hand(ALONG, 2450, told)
    steps = changed(asked, ALONG, within_mm=10).steps
    found = {(s.path, s.to_mm, s.effect.kind, tuple(sorted(s.effect.fewer)),
              tuple(sorted(s.effect.more))) for s in steps}  # fmt: skip
    assert found == wanted
    assert wanted


# --- faults, progress, what is not looked at ----------------------------------------------------


def test_a_design_that_differs_from_its_glance_is_a_fault() -> None:
    """Planted: what was seen at 2445 mm is told with a joist too few."""
    looker = Looker(brief=brief(2450), glances=glances())
    here, there = look(looker, ALONG, None), look(looker, ALONG, 2445.0)
    looker.seen[ALONG, 2445.0] = evolve(there, joists=there.joists - 1)
    walked = Walk(path=ALONG, apart_mm=5.0, values_mm=(2445.0, 2450.0), here=1,
                  figures=(looker.seen[ALONG, 2445.0], here))  # fmt: skip
    with pytest.raises(PlannerFault, match="STP-002"):
        steps_of(looker, [walked])


def test_every_bad_wish_is_told_at_once() -> None:
    with pytest.raises(InputError) as raised:
        what_would_change(brief(), stock=stock(), within_mm=0, counts_within_mm=float("nan"),
                          paths=("cover.alng_mm",))  # fmt: skip
    faults = raised.value.faults
    assert [fault.path for fault in faults] == ["within_mm", "counts_within_mm", "paths"]
    assert faults[2].nearest == ALONG


def test_progress_counts_every_look_and_cancelling_stops() -> None:
    told: list[tuple[str, int, int]] = []
    changed(brief(), ALONG, "board.run", within_mm=2, counts_within_mm=3,
            progress=lambda *step: told.append(step))  # fmt: skip
    # 5 sizes planned, 7 counted, one word
    assert [done for _, done, _ in told] == list(range(14))
    assert {total for *_, total in told} == {13}
    cancel = threading.Event()
    cancel.set()
    with pytest.raises(Cancelled):
        changed(brief(), ALONG, within_mm=2, cancel=cancel)


def test_what_is_not_looked_at_is_told_with_the_reason() -> None:
    """An outline's size is its points'; a gap that clips set is fixed; no level, no height."""
    corners = ((0, 0), (2400, 0), (2400, 1195), (0, 1195))
    square = [{"along_mm": x, "across_mm": y} for x, y in corners]
    plain = brief().to_dict() | {"outline": {"points": square}}
    del plain["cover"]
    looker = Looker(brief=drylay.read_brief(plain), glances=glances())
    ways, untold = ways_of(looker, (ALONG, "gap.preferred_mm"), 5)
    assert [way.path for way in ways] == ["gap.preferred_mm"]
    assert ["outline" in note.message for note in untold] == [True]
    flat = Looker(brief=brief(gap={"least_mm": 5, "preferred_mm": 5, "most_mm": 5}),
                  glances=glances())  # fmt: skip
    _, untold = ways_of(flat, ("gap.preferred_mm", "levels.deck_top_mm"), 5)
    assert [note.subject for note in untold] == ["gap.preferred_mm", "levels.deck_top_mm"]
    assert {note.code for note in untold} == {"STP-001"}


def test_paths_come_in_one_order() -> None:
    assert checked_paths(1, 1, ("board.run", ALONG)) == (ALONG, "board.run")
    looker = Looker(brief=brief(), glances=glances())
    assert swaps_of(looker, ("board.run",)) == [("board.run", "across")]
