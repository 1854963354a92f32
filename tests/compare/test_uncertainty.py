"""What a brief may come to: laws of quantiles and draws, one deck by hand, faults, words."""

from collections.abc import Iterable, Iterator
from decimal import Decimal
from fractions import Fraction
from functools import partial
from math import ceil
from typing import Any

import numpy
import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import triang, uniform

from compare import small
from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.compare import uncertainty as verb
from drylay.compare.compared import compare
from drylay.compare.quantiles import quantile
from drylay.compare.spreads import drawn
from drylay.compare.study_model import Assumed, Case, Quantile, Row, Sampled, Uncertainty
from drylay.compare.uncertainty import uncertainty
from drylay.errors import InputError
from drylay.materials.loader import load_catalogue

STOCK = load_catalogue(small.ROOT / "catalogs" / "hobbleden.toml")
PRICE, WIDTH = "stock.price_ratio.DB-28-145", "board.measured_width_mm"
BOARDS, FRAME = "life.boards", "life.frame"


def shed() -> Brief:
    """Return the deck at the shed of docs/step-points.md."""
    return read_brief(
        {
            "title": "Deck at the shed",
            "cover": {"along_mm": 2450, "across_mm": 1195},
            "board": {"article": "DB-28-145"},
            "frame": {"article": "FT-45-145", "most_centres_mm": 400},
            "joints": {"most_per_row": 0},
            "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
        }
    )


def values_of(answer: Uncertainty, figure: str) -> list[object]:
    told = next(each for each in answer.figures if each.figure == figure)
    return [each.value for each in told.quantiles]


@given(figures=st.lists(st.integers(-50, 50), min_size=1, max_size=40), part=st.integers(0, 64))
def test_a_quantile_is_numpys_inverted_cdf_and_was_seen(figures: list[int], part: int) -> None:
    """numpy reckons with floats: sixty-fourths are shares that it has exactly."""
    figures.sort()
    told = quantile(figures, part / 64)
    assert told == numpy.quantile(figures, part / 64, method="inverted_cdf")
    assert told in figures
    assert sum(each <= told for each in figures) >= Fraction(part, 64) * len(figures)
    fewer = [each for each in figures if each < told]
    assert not fewer or len(fewer) < Fraction(part, 64) * len(figures)


def test_shares_are_taken_as_written() -> None:
    """0.95 of 20 is 19 and 0.05 of it 1, which as a float is more than a twentieth."""
    figures = list(range(1, 101))
    asked = ((20, 0.05), (20, 0.95), (10, 0.7), (100, 0.29), (7, 0.0), (7, 1.0))
    told = [quantile(figures[:count], ratio) for count, ratio in asked]
    assert told == [1, 19, 7, 29, 1, 7]


@settings(max_examples=40, deadline=None)
@given(
    ends=st.tuples(*[st.floats(0.01, 100)] * 3).map(sorted),
    ratio=st.floats(0, 1, exclude_max=True),
)
def test_a_triangle_is_scipys(ends: list[float], ratio: float) -> None:
    least, likely, most = ends
    wide = most - least
    told = drawn(Assumed(path=PRICE, least=least, likely=likely, most=most), ratio, "metric")
    assert least <= told <= most
    if wide > 1e-6:
        assert told == pytest.approx(triang.ppf(ratio, (likely - least) / wide, least, wide))
        even = drawn(Assumed(path=PRICE, least=least, likely=None, most=most), ratio, "metric")
        assert even == pytest.approx(uniform.ppf(ratio, least, wide))


@settings(max_examples=40, deadline=None)
@given(
    ends=st.tuples(*[st.integers(30 * 320, 400 * 320)] * 2).map(sorted),
    ratio=st.floats(0, 1, exclude_max=True),
)
def test_a_drawn_length_can_be_read_and_lies_within(ends: list[int], ratio: float) -> None:
    """A tenth of a millimetre is 32 of 320, a sixty-fourth of an inch 127 (25.4 / 64 x 320).

    Lengths are counted in 320ths before that, half of one off at most.
    """
    least, most = (each / 320 for each in ends)
    spread = Assumed(path=WIDTH, least=least, likely=None, most=most)
    for units, step in (("metric", 32), ("imperial", 127)):
        told = drawn(spread, ratio, units)
        assert least <= told <= most
        assert (told * 320) % step == 0 or told in (least, most)
        assert abs(told - (least + ratio * (most - least))) <= (step + 1) / 640 + 1e-9


@settings(max_examples=40, deadline=None)
@given(ratio=st.floats(0, 1, exclude_max=True))
def test_part_of_a_year_is_left_off(ratio: float) -> None:
    years = drawn(Assumed(path=BOARDS, least=8, likely=None, most=15), ratio, "metric")
    assert isinstance(years, int)
    assert years <= 8 + 7 * ratio + 1e-9 < years + 1 + 1e-8
    assert 8 <= years <= 15


def test_a_price_alone_moves_the_cost_in_a_line() -> None:
    """By hand, from docs/step-points.md: eight rows take eight boards of 3000 mm, and a spare, at
    11.85. The rest of 232.15 is 232.15 - 9 x 11.85 = 125.50, whatever boards cost. At another
    price the same boards are bought: 2400 mm is too short for 2450, and 3600 mm dearer by the
    same ratio. Each price is rounded up to the penny.
    """
    spreads = {PRICE: (0.8, 1.0, 1.5)}
    answer = uncertainty(
        shed(), stock=STOCK, spreads=spreads, samples=3, seed=4, ratios=(0, 0.5, 1)
    )
    assert (answer.blocked, answer.currency, len(answer.rows)) == (0, "GBP", 3)
    for row in answer.rows:
        pence = ceil(Fraction(repr(row[PRICE])) * 1185)
        assert row["total"] == Decimal(12550 + 9 * pence) / 100
    ranked = sorted(answer.rows, key=lambda row: float(str(row[PRICE])))
    assert values_of(answer, "total") == [row["total"] for row in ranked]
    # a third of the chances each: the middle sample lies between the thirds of the triangle
    low, high = triang.ppf((1 / 3, 2 / 3), 0.2 / 0.7, 0.8, 0.7)
    assert low <= float(str(ranked[1][PRICE])) <= high


def test_a_sample_too_long_for_any_board_is_counted_as_blocked() -> None:
    """By hand: no row may be jointed, and the longest board on sale is 5400 mm. Of two samples of
    2400 to 9000 mm one is longer than 5700.
    """
    spreads = {"cover.along_mm": (2400, 9000), BOARDS: (7, 9)}
    answer = uncertainty(shed(), stock=STOCK, spreads=spreads, samples=2)
    long = [row for row in answer.rows if float(str(row["cover.along_mm"])) > 5400]
    assert answer.blocked == len(long) >= 1
    assert {row["outcome"] for row in long} == {"blocked"}
    assert answer.figures[0].count == 2 - len(long)
    assert f"{len(long)} blocked ({long[0]['codes']})" in " ".join(str(answer).split())


def counted(monkeypatch: pytest.MonkeyPatch) -> list[Case]:
    """Return a list that every case planned from here on stands in."""
    seen: list[Case] = []

    def planned(cases: Iterable[Case], **how: Any) -> Iterator[Row]:
        held = list(cases)
        seen.extend(held)
        return compare(held, **how)

    monkeypatch.setattr(verb, "compare", planned)
    return seen


def test_lives_are_drawn_over_one_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    """By hand: boards at 131.85 for 5 years on a frame at 100.30 for 10 are bought twice in ten
    years, (100.30 + 2 x 131.85) / 10 = 10.03 + 26.37.
    """
    seen = counted(monkeypatch)
    both = {BOARDS: (5, 5), FRAME: (10, 10.9)}
    answer = uncertainty(shed(), stock=STOCK, spreads=both, samples=4, ratios=(0.05, 0.95))
    assert [case.changes for case in seen] == [()]
    assert values_of(answer, "yearly_least") == [Decimal("36.40")] * 2
    assert values_of(answer, "yearly_most") == [Decimal("36.40")] * 2
    assert [(row["case"], row[BOARDS], row[FRAME]) for row in answer.rows] == [
        (case, 5, 10) for case in range(4)
    ]
    assert answer.rows[0]["life_most_years"] == 5


def test_a_life_not_drawn_keeps_its_range(monkeypatch: pytest.MonkeyPatch) -> None:
    """By hand: boards for 8 years; the frame for 8 to 15, as softwood's family tells. In the short
    case all is new after 8 years: 131.85 / 8 = 16.48125 and 100.30 / 8 = 12.5375, each up to the
    penny. In the long case boards are bought twice in 15: 263.70 / 15 = 17.58, 100.30 / 15 = 6.69.
    And the family's own range of the boards, 8 to 15, in four draws: one in each quarter of it.
    """
    rows = list(compare([shed()], stock=STOCK, mode="quick"))
    monkeypatch.setattr(verb, "compare", lambda cases, **_how: iter(rows * len(cases)))
    answer = uncertainty(shed(), stock=STOCK, spreads={BOARDS: (8, 8)}, samples=2)
    assert {row["yearly_most"] for row in answer.rows} == {Decimal("29.03")}
    assert {row["yearly_least"] for row in answer.rows} == {Decimal("24.27")}
    told = uncertainty(shed(), stock=STOCK, spreads={BOARDS: None}, samples=4)
    assert told.assumed == (Assumed(path=BOARDS, least=8, likely=None, most=15, told_by="family"),)
    years = sorted(int(str(row[BOARDS])) for row in told.rows)
    quarters = ((8, 9), (9, 11), (11, 13), (13, 14))  # 8, 9.75, 11.5, 13.25, 15, rounded down
    assert all(low <= each <= high for each, (low, high) in zip(years, quarters, strict=True))


def test_what_is_told_beside_a_life_goes_with_it(monkeypatch: pytest.MonkeyPatch) -> None:
    (row,) = compare([shed()], stock=STOCK, mode="quick")

    def asked(frame: tuple[int, int], **changed: object) -> Uncertainty:
        held: list[Row] = [row | changed]
        monkeypatch.setattr(verb, "compare", lambda cases, **_how: iter(held * len(cases)))
        return uncertainty(shed(), stock=STOCK, spreads={FRAME: frame}, samples=2)

    untold = dict.fromkeys(("frame_life_least_years", "frame_life_most_years"))
    names = " ".join((*untold, "upkeep_h"))
    early = asked((3, 3), **untold, not_known=names, upkeep_h=None, yearly_most=None)
    assert {each["remarks"] for each in early.rows} == {"LIF-001"}
    assert {each["not_known"] for each in early.rows} == {"upkeep_h"}
    # boards go with the frame: (131.85 + 100.30) / 3 = 43.95 + 33.44
    assert values_of(early, "yearly_most") == [Decimal("77.39")] * 5
    late = asked((15, 15), remarks="LIF-001 LIF-002")
    assert {each["remarks"] for each in late.rows} == {"LIF-002"}
    none = asked((8, 9), outcome="blocked", surface_outlay=None)
    assert (none.blocked, none.figures[0].count, none.figures[0].quantiles) == (2, 0, ())
    assert "not known in any sample" in str(none)


def linear(cases: Iterable[Case], **_how: object) -> Iterator[Row]:
    """Stand in for planning: the cost is the price, and a board wider than 147 mm is a stop."""
    blank: Row = {"surface_outlay": None, "codes": "", "mode": "proven", "title": "a word"}
    for case in list(cases):
        drawn_here = dict(case.changes)
        wide = float(str(drawn_here.get(WIDTH, 0))) > 147
        yield {
            **blank,
            "outcome": "blocked" if wide else "planned",
            "total": None if wide else drawn_here[PRICE],
        }


SpreadsOf = dict[str, Any]


@settings(max_examples=8, deadline=None)
@given(samples=st.integers(2, 60), seed=st.integers(0, 2**53 - 1), proven=st.booleans())
def test_samples_fill_a_spread_evenly_and_blocked_ones_are_counted(
    samples: int, seed: int, proven: bool
) -> None:
    patch = pytest.MonkeyPatch()
    patch.setattr(verb, "compare", linear)
    spreads: SpreadsOf = {PRICE: (1, 2), WIDTH: (144, 149)} if proven else {PRICE: (1, 2)}
    ask = partial(uncertainty, shed(), stock=STOCK, samples=samples, seed=seed, of=("total",))
    answer = ask(spreads=spreads)
    assert answer == ask(spreads=dict(reversed(spreads.items())))
    patch.undo()
    prices = sorted(float(str(row[PRICE])) for row in answer.rows)
    assert all(at <= (price - 1) * samples <= at + 1 for at, price in enumerate(prices))
    assert answer.blocked == sum(row["outcome"] == "blocked" for row in answer.rows)
    assert answer.figures[0].count == samples - answer.blocked
    # of the widths that can be read in 144 to 149 two fifths are above 147, and a step more or less
    wide = Fraction(2, 5) * samples if proven else 0
    assert abs(answer.blocked - wide) <= 2 + samples / 50
    for told in answer.figures[0].quantiles:
        held = sum(row["total"] is not None and row["total"] <= told.value for row in answer.rows)  # type: ignore[operator]
        assert held >= Fraction(repr(told.ratio)) * answer.figures[0].count


@pytest.mark.parametrize("name", ["title", "buildable"])
def test_a_word_is_no_figure(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nor is yes or no: told before the first sample, once of `buildable` after the last."""
    named: Any = {"stock": STOCK, "spreads": {PRICE: (1, 2)}, "samples": 2}
    monkeypatch.setattr(verb, "compare", lambda cases, **_: iter(()) if not cases else 1 / 0)
    with pytest.raises(InputError, match=rf'of\[0\]: found "{name}", wanted a figure'):
        uncertainty(shed(), of=(name,), **named)


WRONG: SpreadsOf = {
    "board.measured_width": (144, 146),
    "board.article": (1, 2),
    "along_mm": (2400, 2500),
    "stock.price_ratio.DB-28-146": (0.9, 1.1),
    "stock.price_ratio.": (0.9, 1.1),
    "stock.without.DB-28-145": (2400, 3000),
    PRICE: (1.2, 0.9),
    "stock.price_ratio": (0.9, float("nan"), 101),
    "gap.preferred_mm": None,
    "levels.deck_top_mm": ("150 mm", 160_000),
    "climate.laying_humidity_ratio": (40, 0.6),
    "border.measured_width_mm": (90, 95),
    WIDTH: 145,
    BOARDS: (0, 8, 9),
    7: (1, 2),
}


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(InputError) as told:
        uncertainty(
            shed(), stock=STOCK, spreads=WRONG, samples=1, seed=1.5, ratios=(0.5, 1.01, "x"),  # type: ignore[arg-type]
            of=("total", "totl", 3), mode="rough", workers=0, rate_ratio=4, hour_price=2.5,  # type: ignore[list-item, arg-type]
        )  # fmt: skip
    faults = {fault.path: fault for fault in told.value.faults}
    assert set(faults) == {
        "samples", "seed", "ratios[1]", "ratios[2]", "of[1]", "of[2]", "mode", "workers",
        "rate_ratio", "hour_price", "spreads", "board.measured_width", "board.article", "along_mm",
        "stock.price_ratio.DB-28-146", "stock.price_ratio.", "stock.without.DB-28-145", PRICE,
        "stock.price_ratio[1]", "stock.price_ratio[2]", "gap.preferred_mm",
        WIDTH, f"{BOARDS}[0]", "border.article", "levels.deck_top_mm[0]", "levels.deck_top_mm[1]",
        "climate.laying_humidity_ratio[0]",
    }  # fmt: skip
    near = {path: fault.nearest for path, fault in faults.items()}
    assert near["board.measured_width"] == WIDTH
    assert near["along_mm"] == "cover.along_mm"
    assert "DB-28-145" in near["stock.price_ratio.DB-28-146"]
    assert near["of[1]"] == "total"
    assert near["climate.laying_humidity_ratio[0]"] == "0.4"
    assert near["levels.deck_top_mm[0]"] == ""
    assert near[PRICE] == "(0.9, 1.2)"
    assert len(told.value.faults) == len(faults)


def test_what_is_asked_about_has_to_be_there() -> None:
    with pytest.raises(InputError) as told:
        uncertainty({}, stock="hobbleden", spreads={}, of="total", ratios=0.5)  # type: ignore[arg-type]
    assert [fault.path for fault in told.value.faults] == ["of", "ratios", "stock", "brief"]
    unknown = evolve(shed(), board=evolve(shed().board, article="DB-28-14"))
    for nothing in ({}, None):
        with pytest.raises(InputError, match="spreads: found nothing"):
            uncertainty(shed(), stock=STOCK, spreads=nothing)  # type: ignore[arg-type]
    with pytest.raises(InputError, match="DB-28-14"):
        uncertainty(unknown, stock=STOCK, spreads={BOARDS: None})
    silent = small.families({"upkeep_h_m2_year": 0.5}, None)
    with pytest.raises(InputError, match=r"life.frame: found nothing.*no family"):
        uncertainty(shed(), stock=STOCK, spreads={FRAME: None}, families=silent)


def hand_made() -> Uncertainty:
    money = tuple(Quantile(ratio=r, value=Decimal(v)) for r, v in ((0, "9.00"), (0.95, "12.50")))
    hours = tuple(Quantile(ratio=r, value=v) for r, v in ((0.3333, 4.25), (1, 5.0)))
    rows = [("planned", "", "quick")] * 20 + [("refused", "", "quick"), ("blocked", "GAP-1", "q")]
    return Uncertainty(
        title="A deck\n<of> somebody",
        currency="GBP",
        samples=22,
        seed=7,
        blocked=2,
        figures=(
            Sampled(figure="total", count=20, quantiles=money),
            Sampled(figure="yearly_least", count=20, quantiles=money),
            Sampled(figure="least_h", count=19, quantiles=hours),
            Sampled(figure="guard_m", count=0, quantiles=()),
        ),
        rows=tuple({"outcome": o, "codes": c, "mode": m} for o, c, m in rows),
        assumed=(
            Assumed(path="cover.along_mm", least=2400, likely=None, most=2450.5),
            Assumed(path=BOARDS, least=8, likely=None, most=15, told_by="family"),
            Assumed(path=PRICE, least=0.9, likely=1, most=1.25),
            Assumed(path="stock.price_ratio", least=1, likely=None, most=2),
        ),
    )


def test_its_words() -> None:
    text = " ".join(str(hand_made()).split())
    for said in (
        "What it may come to: A deck <of> somebody ",
        "22 samples, drawn with the seed 7. No plan came of 2 of them: 1 blocked (GAP-1), 1 "
        "refused. These are in none of the figures below: shares are of the other 20.",
        "FIRST COST AND COST A YEAR, LIVES AT MOST, GBP in none less than 9.00 in 19 of 20 samples "
        "no more than 12.50 least_h in 33.33",
        "in 33.33 % of samples no more than 4.25 in all no more than 5 not known in 1 samples",
        "guard_m not known in any sample",
        "cover.along_mm: 2400 to 2450.5, all between alike likely",
        "life of the boards, years: 8 to 15, all between alike likely; as the merchant's record or",
        "prices of DB-28-145, times: 0.9 to 1.25, likeliest at 1 (triangle)",
        "prices of all articles, times: 1 to 2",
        "These ranges are the caller's assumption, and so is that all of a family's range is alike "
        "likely. Nothing here tells how likely they are.",
        "Each is drawn by itself",
        "Lives are counted in whole years",
        "Planned quickly",
    ):
        assert said in text
    assert all(len(line) <= 78 for line in str(hand_made()).splitlines())
    assert "A plan came of all of them." in str(evolve(hand_made(), blocked=0))
    sure = evolve(
        hand_made(), assumed=hand_made().assumed[2:], rows=({"mode": "proven"},), blocked=0
    )
    left_out = ("whole years", "Planned quickly", "family's range")
    assert not any(said in str(sure) for said in left_out)
    assert "finer" not in text  # 0.95 of 20 leaves one sample above it
    few = evolve(hand_made(), figures=(evolve(hand_made().figures[0], count=19),))
    assert "Of 19 samples no share finer than 1 of 19" in " ".join(str(few).split())


def test_its_rows_are_flat_and_alike() -> None:
    rows = hand_made().measures()
    assert [(row["figure"], row["at_most_ratio"], row["value"]) for row in rows] == [
        ("total", 0, Decimal("9.00")), ("total", 0.95, Decimal("12.50")),
        ("yearly_least", 0, Decimal("9.00")), ("yearly_least", 0.95, Decimal("12.50")),
        ("least_h", 0.3333, 4.25), ("least_h", 1, 5.0), ("guard_m", None, None),
    ]  # fmt: skip
    assert {tuple(row) for row in rows} == {tuple(rows[0])}
    assert [row["currency"] for row in rows] == ["GBP"] * 4 + [None] * 3
    assert (rows[0]["samples"], rows[0]["seed"], rows[0]["blocked"]) == (22, 7, 2)
