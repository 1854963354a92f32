"""Choosing: the cheapest of a short list, against looking at all of it."""

from decimal import Decimal
from itertools import product

import pytest
from attrs import evolve

from drylay.errors import InputError
from drylay.raised.choosing import Job, choose
from drylay.raised.model import BearerChoice, Choice, JoistChoice, Trial, Verdict
from drylay.strength.model import Section
from raised.limits import SAID, limit

JOB = Job(
    depth_mm=4000.0, length_mm=5000.0, ledger_mm=45.0, post_mm=100.0, post_end=limit(500.0),
    back_ratio=None, post_price=Decimal(40), more_lines=1, most_posts=5,
)  # fmt: skip
JOISTS = (
    JoistChoice(article="J145", section=Section(breadth_mm=45.0, depth_mm=145.0), count=14,
                span=limit(2400.0), end=limit(500.0), price_per_m=Decimal("4.00")),
    JoistChoice(article="J195", section=Section(breadth_mm=45.0, depth_mm=195.0), count=14,
                span=limit(3600.0), end=limit(700.0), price_per_m=Decimal("6.00")),
)  # fmt: skip
BEARERS = tuple(
    BearerChoice(article=f"B{deep}", price_per_m=Decimal(price),
                 section=Section(breadth_mm=45.0, depth_mm=float(deep), plies=plies))
    for (deep, price), plies in product(((145, "4.00"), (195, "6.00")), (2, 3))
)  # fmt: skip


def by_moment(trial: Trial) -> Verdict:
    """Say whether a bearer's moment is within a made-up strength: load x span squared."""
    section = trial.bearer.section
    strength = section.breadth_mm * section.plies * section.depth_mm**2
    ratio = trial.carried_mm * trial.bearer_span_mm**2 / strength / 4000
    return Verdict(passes=ratio <= 1, most_ratio=ratio, why=f"bearer {ratio:.2f}", source=SAID)


def chosen(**changed: object) -> Choice:
    told = {"job": JOB, "joists": JOISTS, "bearers": BEARERS, "passes": by_moment,
            "most_tries": 200, **changed}  # fmt: skip
    return choose(**told)  # type: ignore[arg-type]


def cost_by_hand(trial: Trial) -> Decimal:
    # 14 joists 4 m long, plies x lines x 5 m, 40 a post under every line
    joists = trial.joist.price_per_m * 14 * 4
    bearers = trial.bearer.price_per_m * trial.bearer.section.plies * len(trial.lines_mm) * 5
    return joists + bearers + 40 * len(trial.lines_mm) * len(trial.posts_mm)


def test_nothing_cheaper_passes() -> None:
    # what is listed is asked in order of cost: with a check that fails all of it, all of it is told
    every = chosen(passes=lambda _: Verdict(passes=False, most_ratio=2.0, why="no", source=SAID))
    assert every.chosen is None
    # 2 joists x 2 numbers of lines x 4 bearers x 2 to 5 posts
    assert len(every.tried) == every.listed == 2 * 2 * 4 * 4
    costs = [cost_by_hand(one.trial) for one in every.tried if by_moment(one.trial).passes]
    found = chosen()
    assert found.chosen is not None
    assert found.chosen.cost == min(costs) == cost_by_hand(found.chosen.trial)
    assert found.cheaper_open == 0
    assert [one.cost for one in found.tried] == sorted(one.cost for one in found.tried)
    assert all(one.turned_down.startswith("bearer") for one in found.tried[:-1])
    assert found.chosen.turned_down == ""


def test_the_number_of_tries_is_bounded() -> None:
    found = chosen(most_tries=1)
    assert found.chosen is None
    assert (len(found.tried), found.cheaper_open) == (1, found.listed - 1)
    assert [f.code for f in found.findings] == ["RSD-009"]
    assert "the 1 cheapest" in found.findings[0].message


def test_the_figures_of_a_trial_worked_by_hand() -> None:
    good = Verdict(passes=True, most_ratio=0.5, why="", source=SAID)
    found = chosen(joists=JOISTS[1:], bearers=BEARERS[:1], passes=lambda _: good)
    assert found.chosen is not None
    trial = found.chosen.trial
    # 4000 = 45 + s + 90 + a: 3865 = u (3600 + 700), u = 0.8988: a = 629.2, y = 4000 - 45 - 629.2
    (line,) = trial.lines_mm
    assert line in {3325.5, 3326.0}
    span, free = line - 45, 4000 - line
    assert trial.carried_mm == pytest.approx((span + free) ** 2 / (2 * span), abs=0.01)
    first, last = trial.posts_mm
    along = (5000.0 - 2 * first) / 2 + first + first**2 / (2 * (last - first))
    assert trial.post_m2 == pytest.approx(trial.carried_mm * along / 1e6, rel=1e-6)


def test_what_finds_no_room_is_not_listed() -> None:
    # 600 long takes posts 100 broad at 0, 1 or more between, but not twenty of them
    small = evolve(JOB, length_mm=600.0, most_posts=20, more_lines=60)
    never = Verdict(passes=False, most_ratio=2.0, why="no", source=SAID)
    found = chosen(job=small, joists=JOISTS[:1], bearers=BEARERS[:1], passes=lambda _: never,
                   most_tries=5000)  # fmt: skip
    assert max(len(one.trial.posts_mm) for one in found.tried) <= 5
    assert max(len(one.trial.lines_mm) for one in found.tried) <= 4000 // 90
    assert found.cheaper_open == 0
    assert "all that were listed" in found.findings[0].message


def test_it_is_told_that_more_posts_were_not_tried_and_how_to_have_them() -> None:
    never = Verdict(passes=False, most_ratio=2.0, why="no", source=SAID)

    def message(job: Job) -> str:
        found = chosen(job=job, joists=JOISTS[:1], bearers=BEARERS[:1], passes=lambda _: never,
                       most_tries=5000)  # fmt: skip
        return found.findings[0].message

    assert "with 5 posts under a bearer at most: for more" in message(JOB)
    placed = evolve(JOB, posts_mm=tuple(200.0 + 300.0 * at for at in range(9)))
    assert "posts under a bearer at most" not in message(placed)


def test_an_empty_list_is_refused() -> None:
    with pytest.raises(InputError):
        chosen(joists=())
