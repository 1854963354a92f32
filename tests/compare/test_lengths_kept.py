"""Which lengths to keep: by hand, against every choice there is, and what is refused."""

import threading
from collections.abc import Iterator
from decimal import Decimal
from itertools import combinations
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from compare.shops import BOARD, TIMBER, brief, by, cut_down, families, shop
from drylay.compare import lengths_kept as verb
from drylay.compare import lengths_mix
from drylay.compare.lengths_kept import LOOKS, lengths_to_keep
from drylay.compare.lengths_mix import DeckTasks, Mix, Terms, merged_task, on_sale, tasks_of
from drylay.compare.lengths_search import Choice, Search, Weighed, best_choice
from drylay.compare.merchant_asked import Asked
from drylay.compare.merchant_model import LengthsToKeep
from drylay.compare.merchant_plans import Planning, plan_or_why, shelf
from drylay.cutting.engine import solve
from drylay.cutting.errors import NoPlan
from drylay.cutting.model import Piece, Stock, Task
from drylay.cutting.together import merged
from drylay.cutting.verify import verify
from drylay.errors import Cancelled, InputError, PlannerFault
from drylay.marks import PER_MM
from drylay.materials.stock_model import StockLength

SHORT = StockLength(length_mm=190.0, price=Decimal("0.22"))
LONG = StockLength(length_mm=300.0, price=Decimal("0.30"))
STOCK = (
    Stock(name="190", length=190 * PER_MM, price=22),
    Stock(name="300", length=300 * PER_MM, price=30),
)


def asked(name: str, count: int = 1) -> Asked:
    return Asked(name=name, brief=brief(), count=count)


def mix(wanted: dict[str, tuple[int, int]], stock: tuple[Stock, ...] = STOCK) -> Mix:
    """Decks that each want one piece, so many mm long; and how many of each deck."""
    decks = []
    for name, (length_mm, count) in wanted.items():
        task = Task(stock=(), kerf=0, pieces=(Piece(length=length_mm * PER_MM, count=1),))
        decks.append(DeckTasks(asked=asked(name, count), tasks=(task, task)))
    terms = Terms(of="first", stock=stock, kerf=5 * PER_MM, joint_price=None)
    return Mix(lengths=(SHORT, LONG), decks=tuple(decks), cannot=(), terms=terms, by=by())


def kept(mixed: Mix, **more: Any) -> list[Weighed | None]:
    search, before, found = Search(sold=2, cutting=mixed), None, []
    for count in (1, 2):
        best = best_choice(search, count, before, more.get("looks", LOOKS))
        before = best.found
        found.append(before)
    return found


def keep(decks: dict[str, Any], article: str = BOARD, **more: Any) -> LengthsToKeep:
    asked_of = {"stock": shop(), "families": families()} | more
    return lengths_to_keep(decks, article=article, **asked_of)


# --- by hand ----------------------------------------------------------------------------------


def test_two_lengths_serve_three_pieces_better_than_either_alone() -> None:
    """Three pieces of 140, a saw that takes 5: a board of 300 holds two, one of 190 one.

    From 190s alone that is 3 x 22 = 66; from 300s alone 2 x 30 = 60; one of each 52. A second
    length is worth 8 to the merchant.
    """
    one, two = kept(mix({"gate": (140, 3)}))
    assert (one.kept, one.cost, one.bound) == ((1,), 60, 60)
    assert (two.kept, two.cost, two.bound) == ((0, 1), 52, 52)


def test_one_order_for_two_jobs_is_what_is_counted() -> None:
    """A gate and a shelf, 140 each: one 300 holds both, for 30. Two 190s would be 44.

    Each by itself takes a board of its own: from 300s that is 60. A second length spares nothing.
    """
    one, two = kept(mix({"gate": (140, 1), "shelf": (140, 1)}))
    assert (one.kept, one.cost) == ((1,), 30)
    assert two == one


def test_a_limited_length_does_for_as_many_as_there_are() -> None:
    """One board of 300 only: three pieces of 140 cannot come from it alone, and 190s cost 66."""
    scarce = (STOCK[0], evolve(STOCK[1], limit=1))
    one, two = kept(mix({"gate": (140, 3)}, scarce))
    assert (one.kept, one.cost) == ((0,), 66)
    assert (two.kept, two.cost) == ((0, 1), 52)


# --- against every choice -----------------------------------------------------------------------


Plans = list[tuple[frozenset[int], int]]


class Made:
    """Costs made up: the least of plans that need certain lengths; floors and rough are lower."""

    def __init__(self, plans: dict[int, Plans], slack: int) -> None:
        self.plans, self.slack = plans, slack

    def cost(self, choice: Choice) -> tuple[int, frozenset[int]] | None:
        fit = [(cost, sorted(needs)) for needs, cost in self.plans.get(choice[-1], [])
               if needs <= set(choice)]  # fmt: skip
        least = min(fit, default=None)
        return None if least is None else (least[0], frozenset(least[1]))

    def floor(self, kept: Choice) -> int | None:
        least = self.cost(kept)
        return None if least is None else least[0] * (100 - self.slack) // 100

    def order(self, kept: Choice, mode: str) -> Weighed | None:
        least = self.cost(kept)
        if least is None:
            return None
        over = self.slack if mode == "quick" else 0
        return Weighed(kept=kept, cost=least[0] + over, bound=least[0] - over,
                       used=tuple(sorted(least[1])))  # fmt: skip


def choices(sold: int, most: int) -> Iterator[Choice]:
    for count in range(1, most + 1):
        yield from combinations(range(sold), count)


@st.composite
def made(draw: st.DrawFn) -> tuple[int, Made]:
    sold = draw(st.integers(1, 6))
    plans = {}
    for longest in range(sold):
        needs = st.frozensets(st.integers(0, longest), min_size=1)
        plans[longest] = draw(st.lists(st.tuples(needs, st.integers(50, 150)), max_size=8))
    return sold, Made(plans, draw(st.integers(0, 9)))


@settings(max_examples=25)
@given(made())
def test_no_choice_of_as_many_lengths_is_cheaper(case: tuple[int, Made]) -> None:
    """Every subset weighed; the search may look at fewer of them, and comes to the same."""
    sold, cutting = case
    search, before = Search(sold=sold, cutting=cutting), None
    for count in range(1, sold + 1):
        every = [cost[0] for choice in choices(sold, count) if (cost := cutting.cost(choice))]
        best = best_choice(search, count, before, LOOKS)
        before = best.found
        if not every:
            assert best.found is None
        else:
            assert best.found is not None
            assert len(best.found.kept) <= count
            assert (best.found.cost, best.bound) == (min(every), min(every))
            assert cutting.cost(best.found.kept)[0] == min(every)
    assert search.looks <= 2**sold - 1


@settings(max_examples=15)
@given(made(), st.integers(1, 6))
def test_where_looks_run_out_the_bound_is_below_every_choice(
    case: tuple[int, Made], looks: int
) -> None:
    sold, cutting = case
    search, before = Search(sold=sold, cutting=cutting), None
    for count in range(1, sold + 1):
        every = [cost[0] for choice in choices(sold, count) if (cost := cutting.cost(choice))]
        best = best_choice(search, count, before, looks)
        if every:
            assert best.bound <= min(every)
            assert best.found is None or best.found.cost >= min(every)
        before = best.found


#: One length alone costs 100 from the second; the first and the third together cost 50.
PAIR = {1: [(frozenset({1}), 100)], 2: [(frozenset({0, 2}), 50)], 3: []}


def test_two_lengths_are_found_though_neither_is_any_good_alone() -> None:
    """Beside the second length no other helps: a search that only adds to it stays at 100."""
    search = Search(sold=4, cutting=Made(PAIR, 9))
    one = best_choice(search, 1, None, LOOKS)
    two = best_choice(search, 2, one.found, LOOKS)
    assert (one.found.kept, one.found.cost) == ((1,), 100)
    assert (two.found.kept, two.found.cost, two.bound) == ((0, 2), 50, 50)


def test_what_was_not_looked_at_is_in_the_bound() -> None:
    """No look more than the first number took: of the pair the floor of all three is known, 45."""
    search = Search(sold=4, cutting=Made(PAIR, 9))
    one = best_choice(search, 1, None, LOOKS)
    two = best_choice(search, 2, one.found, 0)
    assert (two.found.cost, two.whole, two.bound) == (100, False, 45)


def test_a_choice_that_no_order_was_found_for_leaves_a_gap() -> None:
    """Its floor is all that is known of it: 40 against 50 for the other."""

    class Unknown(Made):
        def floor(self, kept: Choice) -> int:
            return 40 if kept == (0,) else 50

        def order(self, kept: Choice, _mode: str) -> Weighed:
            cost = None if kept == (0,) else 50
            return Weighed(kept=kept, cost=cost, bound=0, used=kept)

    best = best_choice(Search(sold=2, cutting=Unknown({}, 0)), 1, None, LOOKS)
    assert (best.found.kept, best.found.cost, best.bound) == ((1,), 50, 40)


def test_real_decks_against_every_choice() -> None:
    """Each deck planned from each choice alone, all boards cut as one order.

    By hand: four rows of 2350 and three of 2950, none jointed. From 3000s alone 7 x 11.85 = 82.95;
    5400s hold two each, 4 x 24.30 = 97.20. 2400s for the short ones: 4 x 9.60 + 3 x 11.85 = 73.95.
    """
    decks = {"step": (brief(2350, 295), 2), "porch": (brief(2950, 445), 1)}
    found, lengths = keep(decks, keep=2), on_sale(shop().boards[0])
    least: dict[int, int] = {}
    look_by = by()
    for choice in choices(3, 2):
        jobs = _jobs(look_by, decks, [lengths[at] for at in choice])
        if jobs is not None:
            cost = solve(merged(jobs)).objective
            least[len(choice)] = min(cost, least.get(len(choice), cost))
    costs = [min(c for n, c in least.items() if n <= count) for count in (1, 2)]
    assert [int(choice.cost * 100) for choice in found.choices] == costs
    assert found.exact
    assert _laws_hold(found)
    assert costs == [8295, 7395]
    assert found.choices[1].bought == ((2400, 4), (3000, 3))


def _jobs(
    look_by: Planning, decks: dict[str, Any], lengths: list[StockLength]
) -> dict[str, Task] | None:
    jobs = {}
    look = shelf(look_by, cut_down(shop(), BOARD, [each.length_mm for each in lengths]))
    for name, (each, count) in decks.items():
        plan = plan_or_why(look, each)
        if isinstance(plan, str):
            return None
        (task,) = tasks_of(plan, BOARD)
        task = evolve(task, joint_price=0)
        jobs |= {f"{name}{n}": task for n in range(count)}
    return jobs


def _laws_hold(found: LengthsToKeep) -> bool:
    before = None
    for choice in found.choices:
        assert choice.best_bound <= choice.cost
        assert choice.bound <= choice.cost
        assert choice.apart is None or choice.apart >= choice.cost
        assert len(choice.lengths_mm) <= choice.count
        assert verify(choice.proof).holds
        assert {mm for mm, _ in choice.bought} <= set(choice.lengths_mm)
        assert before is None or choice.cost <= before.cost
        before = choice
    return True


# --- what cannot be, and what is told ------------------------------------------------------------


def test_decks_that_cannot_be_in_one_order_are_named_with_the_reason() -> None:
    """The first deck has the say: its saw takes 4 mm, and its boards lose nothing at their ends."""
    decks = {
        "step": brief(),
        "deep": brief(2450, 9000),
        "other saw": brief(cutting={"kerf_mm": 5}),
        "trimmed": brief(cutting={"end_trim_mm": 10}),
        "other": brief(board={"article": "DB-28-120"}),
    }
    found = keep(decks, keep=1)
    assert found.decks == (("step", 1),)
    why = dict(found.cannot)
    assert list(why) == ["deep", "other saw", "trimmed", "other"]
    assert why["deep"].startswith("FRM-001 ")
    assert "takes 5 mm, in step 4 mm" in why["other saw"]
    assert "cutting.end_trim_mm" in why["trimmed"]
    assert why["other"] == "it buys nothing of DB-28-145"


def test_joints_of_one_price_only_are_in_one_order() -> None:
    """100 mm of the cheapest board a metre: 11.85 / 30 is 39.5 pence, up to 40."""
    jointed = {"most_per_row": 1}
    decks = {
        "step": brief(2450, 295, joints=jointed),
        "dear": brief(2450, 295, joints=jointed | {"price_each": "2.00"}),
    }
    found = keep(decks, keep=1)
    assert found.joint_price == Decimal("0.40")
    ((name, why),) = found.cannot
    assert (name, why) == (
        "dear",
        "a joint of it is reckoned at 2.00, in step at 0.40: make them one (joints.price_each)",
    )


def test_no_deck_no_choice() -> None:
    found = keep({"deep": brief(2450, 9000)})
    assert (found.choices, found.decks, found.exact) == ((), (), True)
    assert "No choice of lengths" in str(found)
    assert "deep: FRM-001" in str(found)


def test_a_deck_that_these_lengths_alone_would_build_otherwise_is_named(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The plan of the choice alone differs; where the plan held to does too, that is a fault."""
    deck = DeckTasks(asked=asked("step"), tasks=(Task(stock=(), kerf=0),) * 2)
    made_of = verb._Shop(by=by(), stock=shop(), article=shop().boards[0], mix=evolve(
        mix({"step": (140, 1)}), decks=(deck,)))  # fmt: skip
    found = Weighed(kept=(1,), cost=30, bound=30)
    wanted = {1: None, 2: deck.tasks[1]}
    monkeypatch.setattr(verb, "_wants", lambda *its: wanted[len(its[2])])
    assert not verb._as_planned(made_of, deck, found)
    wanted[2] = merged_task((mix({"step": (140, 1)}).decks[0].tasks[0],))
    with pytest.raises(PlannerFault, match="MRC-001"):
        verb._as_planned(made_of, deck, found)


def test_a_proof_that_does_not_hold_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    real = verify

    def doubted(proof: Any) -> Any:
        return evolve(real(proof), holds=False, why="planted")

    monkeypatch.setattr(verb, "verify", doubted)
    with pytest.raises(PlannerFault, match="planted"):
        keep({"step": brief()}, keep=1)


def test_an_order_without_a_plan_is_told_from_one_that_was_not_found(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A piece of 400 fits no board: proven. Where work ran out, only the floor is known."""
    long = mix({"gate": (400, 1)})
    assert (long.floor((0, 1)), long.order((0, 1), "proven")) == (None, None)
    none = NoPlan((), proven=False)
    monkeypatch.setattr(lengths_mix, "_solved", lambda *_: none)
    assert long.order((0, 1), "proven") == Weighed(kept=(0, 1), cost=None, bound=0)
    assert long.floor((0, 1)) == 0


def test_all_faults_are_told_at_once() -> None:
    decks: Any = {"": brief(), "two": (brief(), 0), "three": "brief", "four": (brief(), True)}
    with pytest.raises(InputError) as raised:
        keep(decks, "DB-28-155", keep=0, looks=0)
    paths = [fault.path for fault in raised.value.faults]
    assert paths == ["decks[''], its name", "decks['two']", "decks['three']", "decks['four']",
                     "article", "keep", "looks"]  # fmt: skip
    assert BOARD in raised.value.faults[4].nearest


@pytest.mark.parametrize("decks", [{}, None, [brief()]])
def test_no_decks_are_a_fault(decks: Any) -> None:
    with pytest.raises(InputError, match="1 to 500 briefs by name"):
        keep(decks, "DS-45-70")


def test_what_is_not_sold_by_length_is_a_fault() -> None:
    with pytest.raises(InputError, match="found DS-45-70, wanted an article that is sold by len"):
        keep({"step": brief()}, "DS-45-70")


def test_a_cancel_is_obeyed() -> None:
    stop = threading.Event()
    stop.set()
    with pytest.raises(Cancelled):
        keep({"step": brief()}, TIMBER, cancel=stop)


def test_text_rows_and_progress_tell_the_same() -> None:
    told: list[tuple[str, int, int]] = []
    found = keep({"step": (brief(), 2)}, TIMBER, keep=1, progress=lambda *its: told.append(its))
    assert {total for _, _, total in told} == {2}
    assert [done for _, done, _ in told] == sorted(done for _, done, _ in told)
    assert told[-1] == ("done", 2, 2)
    rows = found.measures()
    assert [row["lengths_kept"] for row in rows] == [choice.count for choice in found.choices]
    assert all(tuple(row) == tuple(rows[0]) for row in rows)
    assert rows[0]["choice_gap"] == found.choices[0].cost - found.choices[0].best_bound
    assert "For 2 x step." in str(found)
    assert all(len(line) <= 78 for line in str(found).splitlines())
