"""What pictures of studies draw: marks, lines and bars where sums by hand put them."""

from collections.abc import Sequence
from decimal import Decimal
from xml.etree import ElementTree as ET

import pytest
from attrs import evolve

from compare.study_made import noun
from drylay.compare import (
    holding_chart,
    lengths_kept_chart,
    pareto_chart,
    price_breaks_chart,
    side_by_side_chart,
    size_costs_chart,
    uncertainty_chart,
)
from drylay.compare.merchant_model import (
    HoldingPrice,
    HoldingPrices,
    KeptLengths,
    LengthsToKeep,
    PriceBreaks,
    PriceSpan,
)
from drylay.compare.study_model import (
    Group,
    ParetoSet,
    Quantile,
    Row,
    Sampled,
    SideBySide,
    SizeCosts,
    SizeLine,
    SizeStep,
    Spread,
    Uncertainty,
)
from papers.measured import SVG

Point = tuple[float, float]


def layer(svg: bytes, name: str) -> list[ET.Element]:
    root = ET.fromstring(svg)
    before = root[0].get("id", "").removesuffix("title")
    return [
        part for group in root.iter(f"{SVG}g") if group.get("id") == before + name for part in group
    ]


def texts(svg: bytes) -> str:
    return " ".join(part.text or "" for part in ET.fromstring(svg).iter(f"{SVG}text"))


def corners(part: ET.Element) -> list[Point]:
    pairs = (pair.split(",") for pair in part.get("points", "").split())
    return [(float(x), float(y)) for x, y in pairs]


def lines(svg: bytes, name: str) -> list[list[Point]]:
    return [corners(part) for part in layer(svg, name) if part.tag == f"{SVG}polyline"]


def boxes(svg: bytes, name: str, fill: str | None = None) -> list[tuple[float, float, float]]:
    """Left, right and middle down of every box of a layer, of one fill if that is told."""
    found = []
    for part in layer(svg, name):
        if part.tag == f"{SVG}rect" and fill in (None, part.get("fill")):
            x, y, wide, high = (float(part.get(n, "")) for n in ("x", "y", "width", "height"))
            found.append((x, x + wide, y + high / 2))
    return found


def shares(places: Sequence[float]) -> list[float]:
    """Where places lie between the first and the last, from 0 to 1."""
    return [(place - places[0]) / (places[-1] - places[0]) for place in places]


def row(case: int, total: int, yearly: int, across: float = 2400.0) -> Row:
    return {"case": case, "cover.across_mm": across, "board.article": "DB-28-145",
            "outcome": "planned", "currency": "GBP", "total": Decimal(total),
            "yearly_most": Decimal(yearly), "cuts": case}  # fmt: skip


SET = (row(4, 100, 50), row(1, 200, 30), row(7, 400, 20, 3000.0))


def pareto(first: str = "least", **more: object) -> ParetoSet:
    found = {"rows": SET, "beaten": (row(2, 300, 60),), "among": 6, "without": 2, "currency": "GBP"}
    aims = (("total", first), ("yearly_most", "least"))
    return ParetoSet(aims=aims, **{**found, **more})


def test_the_set_is_filled_and_beaten_rows_are_open() -> None:
    """100, 200, 400: a third of the way; 50, 30, 20 of 20 to 60: a half and then the rest down."""
    svg = pareto_chart.svg_of(pareto())
    marks = boxes(svg, "marks", "black")
    assert shares([left for left, _, _ in marks]) == pytest.approx([0, 1 / 3, 1], abs=1e-3)
    assert shares([down for _, _, down in marks]) == pytest.approx([0, 2 / 3, 1], abs=1e-3)
    (ring,) = layer(svg, "beaten")
    assert ring.get("fill") == "none"
    assert "3 of 6 decks" in texts(svg)
    assert "2 decks left out" in texts(svg)


def test_the_line_of_the_set_holds_a_figure_until_a_better_one() -> None:
    """Least cost: 50 a year until the deck at 200. Most of the first: 30 from 100 on to 200."""
    (line,) = lines(pareto_chart.svg_of(pareto()), "cost")
    (a, b, c, d, e) = line
    assert (a[1], b[1]) == (b[1], a[1])
    assert (b[0], c[1], d[0]) == (c[0], d[1], e[0])
    (line,) = lines(pareto_chart.svg_of(pareto("most")), "cost")
    (a, b, c, d, e) = line
    assert (a[0], b[1], c[0], d[1]) == (b[0], c[1], d[0], e[1])


def test_rows_of_the_set_are_told_by_what_was_changed() -> None:
    told = texts(pareto_chart.svg_of(pareto()))
    assert "7: cover across 3000 mm; first cost 400 GBP, cost a year, lives at least 20 GBP" in told
    assert "board article" not in told, "alike in all"
    assert "first cost, GBP (less is better)" in told
    assert "first cost, GBP (more is better)" in texts(pareto_chart.svg_of(pareto("most")))


def test_what_is_not_drawn_is_told() -> None:
    rows = tuple(row(at, at, 200 - at) for at in range(200))
    aims = (("total", "least"), *((f"figure_{at}", "least") for at in range(7)))
    found = ParetoSet(aims=aims, rows=rows, beaten=rows * 4, among=4000, without=0,
                      currency="GBP")  # fmt: skip
    told = texts(pareto_chart.svg_of(found))
    assert "and 188 more: the table has them all." in told
    assert "3 more measures not drawn" in told


def test_beaten_rows_are_thinned_to_what_paper_holds() -> None:
    """1,800 rows over the whole panel, 60 by 30: no more than a thousand marks."""
    rows = tuple(row(0, 100 + 5 * x, 20 + y) for x in range(60) for y in range(30))
    svg = pareto_chart.svg_of(pareto(beaten=rows))
    assert 400 < len(layer(svg, "beaten")) <= 1000
    assert "one stands for all" in texts(svg)


def test_no_row_of_the_set_is_lost_by_thinning() -> None:
    """A straight front over the whole panel: a filled mark within half a mm of every row."""
    rows = tuple(row(at, at, 1000 - at) for at in range(1001))
    svg = pareto_chart.svg_of(pareto(rows=rows, beaten=()))
    marks = sorted(boxes(svg, "marks", "black"))
    first, last = marks[0][0], marks[-1][0]
    for at in range(1001):
        place = first + (last - first) * at / 1000
        assert min(abs(left - place) for left, _, _ in marks) < 0.5


def test_alike_rows_stand_in_one_mark_with_their_numbers() -> None:
    svg = pareto_chart.svg_of(pareto(rows=tuple(row(at, 100, 50) for at in range(5))))
    assert len(boxes(svg, "marks", "black")) == 1
    assert [part.text for part in layer(svg, "labels") if part.text] == ["0 1 2 ..."]


def size_costs(costs: tuple[object, ...] = (Decimal(10), Decimal(20), Decimal(20))) -> SizeCosts:
    line = SizeLine(name="oak", sizes_mm=(1000.0, 1200.0, 2000.0), costs=costs)
    step = SizeStep(line="oak", from_mm=1000, to_mm=1200, before=Decimal(10), after=Decimal(20),
                    change=Decimal(10))  # fmt: skip
    return SizeCosts(size="cover.across_mm", cost="total", by="made_of", currency="GBP",
                     lines=(line,), steps=(step,))  # fmt: skip


def test_a_size_holds_its_cost_half_way_to_its_neighbours() -> None:
    """1000 holds to 1100, 1200 from there to 1600, 2000 from there: a tenth, six tenths, all."""
    svg = size_costs_chart.svg_of(size_costs())
    ((start, *_, end),) = lines(svg, "cost")
    (line,) = lines(svg, "cost")
    xs = [x for x, _ in line]
    assert shares(xs) == pytest.approx([0, 0.1, 0.1, 0.6, 0.6, 1], abs=1e-3)
    assert [y for _, y in line] == [start[1]] * 2 + [end[1]] * 4
    assert end[1] < start[1], "dearer is higher"
    assert "1: oak, from 1000 to 1200 mm: 10 GBP more, 10 to 20" in texts(svg)


def test_sizes_that_cannot_be_built_are_hatched() -> None:
    svg = size_costs_chart.svg_of(size_costs((Decimal(10), None, Decimal(20))))
    one, other = lines(svg, "cost")
    ((left, right, _),) = boxes(svg, "blocked")
    assert left == pytest.approx(one[-1][0], abs=1e-3)
    assert right == pytest.approx(other[0][0], abs=1e-3)
    assert len(lines(svg, "blocked-hatch")) == 1


def test_neighbours_that_cannot_be_built_are_hatched_as_one() -> None:
    """From 1100, half way to the first of them, to the last at 2000."""
    svg = size_costs_chart.svg_of(size_costs((Decimal(10), None, None)))
    ((left, right, _),) = boxes(svg, "blocked")
    ((start, *_),) = lines(svg, "cost")
    assert shares([start[0], left, right])[1] == pytest.approx(0.1, abs=1e-3)


def test_lines_are_told_apart_by_dash_and_sign_and_named() -> None:
    made = size_costs()
    second = SizeLine(name="soft", sizes_mm=(1000.0, 2000.0), costs=(Decimal(9), Decimal(20)))
    found = SizeCosts(size=made.size, cost="total", by="made_of", currency="GBP", steps=(),
                      lines=(*made.lines, second))  # fmt: skip
    svg = size_costs_chart.svg_of(found)
    dashes = [part.get("stroke-dasharray") for part in layer(svg, "cost")]
    assert len(set(dashes)) == 2
    assert [part.text for part in layer(svg, "names")] == ["oak", "soft"]
    assert {part.tag for part in layer(svg, "marks")} == {f"{SVG}polygon", f"{SVG}circle"}


def test_a_bar_reaches_from_the_least_to_the_most_with_the_median_on_it() -> None:
    """10 to 30 with 15, beside 20 to 50 with 20: on one axis from 10 to 50."""
    spreads = ((10, 15, 30), (20, 20, 50))
    groups = tuple(
        Group(name=name, count=4, buildable=3, spreads=(
            Spread(figure="total", count=3, least=Decimal(a), median=Decimal(b), most=Decimal(c)),))
        for name, (a, b, c) in zip(("oak", "soft"), spreads, strict=True)
    )  # fmt: skip
    none = Group(name="tiles", count=2, buildable=0, spreads=(), stop_codes=(("RUN-001", 2),))
    found = SideBySide(by="made_of", groups=(*groups, none), currency="GBP")
    svg = side_by_side_chart.svg_of(found)
    (left, one, _), (two, right, _) = boxes(svg, "bars")
    assert shares([left, one, right]) == pytest.approx([0, 0.5, 1], abs=1e-3)
    medians = [(a + b) / 2 for a, b, _ in boxes(svg, "marks")]
    assert (medians[0] - left) / (right - left) == pytest.approx(1 / 8, abs=1e-3)
    assert medians[1] == pytest.approx(two, abs=1e-3)
    told = texts(svg)
    for words in ("10 to 30", "median 15", "3 of 4 can be built", "none can be built", "RUN-001"):
        assert words in told


def test_samples_are_columns_and_quantiles_strokes() -> None:
    """Three samples at 10, one at 20: the first column is three times as high."""
    rows = tuple({"total": Decimal(total)} for total in (10, 10, 10, 20))
    quantiles = tuple(
        Quantile(ratio=ratio, value=Decimal(value)) for ratio, value in ((0.5, 10), (0.95, 20))
    )
    figure = Sampled(figure="total", count=4, quantiles=quantiles)
    found = Uncertainty(title="Shed", currency="GBP", samples=5, seed=3, blocked=1,
                        figures=(figure,), rows=rows)  # fmt: skip
    svg = uncertainty_chart.svg_of(found)
    one, other = (float(part.get("height", "")) for part in layer(svg, "counts"))
    assert one == pytest.approx(3 * other, abs=1e-2)
    ((left, right, _),) = boxes(svg, "bars")
    ((a, b, _),) = boxes(svg, "marks")
    assert (a + b) / 2 == pytest.approx(left, abs=1e-3)
    centres = [(a + b) / 2 for a, b, _ in boxes(svg, "counts")]
    assert centres == pytest.approx([left, right], abs=1e-2)
    told = texts(svg)
    for words in ("50 % at most 10", "95 % at most 20", "seed 3", "1 sample came to no plan"):
        assert words in told


@pytest.mark.parametrize(("other", "panels"), [(10, 1), (20, 2)])
def test_a_year_of_one_cost_is_drawn_once(other: int, panels: int) -> None:
    """Lives drawn: a year at its least is the year at its most, and one panel has both."""
    figures = tuple(
        Sampled(figure=name, count=1, quantiles=(Quantile(ratio=0.5, value=Decimal(value)),))
        for name, value in (("yearly_least", 10), ("yearly_most", other))
    )
    rows = ({"yearly_least": Decimal(10), "yearly_most": Decimal(other)},)
    found = Uncertainty(title="Shed", currency="GBP", samples=1, seed=3, blocked=0,
                        figures=figures, rows=rows)  # fmt: skip
    svg = uncertainty_chart.svg_of(found)
    assert len(boxes(svg, "bars")) == panels
    assert ("cost a year, GBP" in texts(svg)) == (panels == 1)


def span(first: int, last: int, one: int, other: int, count: int) -> PriceSpan:
    return noun(PriceSpan, name="Shed", first=Decimal(first), last=Decimal(last),
                bought=((3600.0, count),) if count else (), total_first=Decimal(one),
                total_last=Decimal(other))  # fmt: skip


def test_the_order_runs_straight_between_breaks() -> None:
    """5 lengths from 10 to 14, none from 15 to 20: 100 to 120 and then no dearer; today 12."""
    spans = (span(10, 14, 100, 120, 5), span(15, 20, 120, 120, 0))
    found = noun(PriceBreaks, article="DB", length_mm=3600.0, currency="GBP", here=Decimal(12),
                 tried=9, spans=spans, remarks=(("Shed", "a joint is held"),),
                 cannot=(("Barn", "no plan"),))  # fmt: skip
    svg = price_breaks_chart.svg_of(found)
    (line,) = lines(svg, "cost")
    assert shares([x for x, _ in line]) == pytest.approx([0, 0.4, 0.5, 1], abs=1e-3)
    assert line[1][1] == line[2][1] == line[3][1] < line[0][1]
    (stroke,) = layer(svg, "marks")
    assert float(stroke.get("x1", "")) == pytest.approx((line[1][0] + line[2][0]) / 2, abs=1e-3)
    (here,) = layer(svg, "own")
    assert here.get("stroke-dasharray")
    assert shares([line[0][0], float(here.get("x1", "")), line[3][0]])[1] == pytest.approx(0.2)
    told = texts(svg)
    assert "1: 10 to 14: Shed, 5 of 3600 mm; order 100 to 120 GBP" in told
    assert "2: 15 to 20: Shed, none of DB; order 120 GBP" in told
    assert "Price today 12 GBP; 1 break; 9 plans tried" in told
    assert "Not looked at: Barn, no plan" in told
    assert "Shed: a joint is held" in told


def kept(count: int, cost: int, best: int) -> KeptLengths:
    return noun(KeptLengths, count=count, lengths_mm=(2400.0, 3600.0)[:count], cost=Decimal(cost),
                bound=Decimal(best), apart=Decimal(cost + 10), best_bound=Decimal(best),
                bought=())  # fmt: skip


def test_a_choice_of_lengths_has_its_bound_beneath() -> None:
    """Costs 100 and 80, bounds 90 and 80, apart 110 and 90: of 80 to 110 a third each."""
    choices = (kept(1, 100, 90), evolve(kept(2, 80, 80), bought=((2400.0, 6), (3600.0, 2))))
    found = noun(LengthsToKeep, article="DB", currency="GBP", decks=(("Shed", 3),),
                 cannot=(("X", "no"),), on_sale_mm=(2400.0, 3600.0), choices=choices)  # fmt: skip
    svg = lengths_kept_chart.svg_of(found)
    cost, other = (down for _, _, down in boxes(svg, "marks"))
    ((_, apart), _) = lines(svg, "own")[0]
    assert shares([other, cost, apart]) == pytest.approx([0, 2 / 3, 1], abs=1e-3)
    bounds = [
        float(part.get("y1", "")) for part in layer(svg, "bound")
        if part.get("y1") == part.get("y2") and part.get("x1") != part.get("x2")
    ]  # fmt: skip
    assert shares([other, bounds[0], apart])[1] == pytest.approx(1 / 3, abs=1e-3)
    told = texts(svg)
    assert "2: 2400, 3600 mm; 80 GBP, no order of them below 80" in told
    assert told.count("sawn from") == 1
    assert "each deck by itself 90; sawn from 6 of 2400 mm, 2 of 3600 mm" in told
    assert "The mix: 3 of Shed" in told
    assert "Not in the mix: X, no" in told


def test_a_choice_that_keeps_no_more_though_it_might_is_told_once() -> None:
    """Three may be kept, two do: 2 to 3, and the bound that holds for both."""
    choices = (kept(1, 100, 90), kept(2, 80, 80), evolve(kept(2, 80, 78), count=3))
    found = noun(LengthsToKeep, article="DB", currency="GBP", decks=(), cannot=(),
                 on_sale_mm=(2400.0, 3600.0), choices=choices, exact=False)  # fmt: skip
    svg = lengths_kept_chart.svg_of(found)
    told = "2 to 3: 2400, 3600 mm; 80 GBP, no order of them below 80, of any choice"
    assert f"{told} of so many none below 78" in texts(svg)
    assert [part.text for part in layer(svg, "labels") if part.text] == ["2400 mm", "2400, 3600 mm"]
    assert "Not every choice could be looked at" in texts(svg)


def test_a_price_that_holds_is_hatched_on_from_the_cost() -> None:
    """100, holding at 150; 80, never, else at 100: to the end of the axis, a tenth beyond 200."""
    prices = (
        noun(HoldingPrice, name="Shed", total=Decimal(100), holds=Decimal(150),
             worst=("DB", 3600.0), loses=()),
        noun(HoldingPrice, name="Barn", total=Decimal(80), holds=None, dearest=Decimal(100),
             worst=("DB", 2400.0), loses=(("DB", 4800.0), ("DB", 3600.0))),
        noun(HoldingPrice, name="Pier", total=Decimal(200), holds=Decimal(200), worst=None,
             loses=()),
    )  # fmt: skip
    found = noun(HoldingPrices, currency="GBP", articles=("DB",), prices=prices,
                 refused=(("Y", "no plan"),))  # fmt: skip
    svg = holding_chart.svg_of(found)
    black, white = boxes(svg, "bars", "black"), boxes(svg, "bars", "white")
    zero, end = black[0][0], white[2][1]
    places = [zero, black[1][1], black[0][1], white[0][1], black[2][1], end]
    of_220 = [0, 80, 100, 150, 200, 220]
    assert shares(places) == pytest.approx([each / 220 for each in of_220], abs=1e-3)
    assert white[1][:2] == pytest.approx((black[1][1], black[0][1]), abs=1e-3)
    assert white[2][0] == pytest.approx(black[0][1], abs=1e-3)
    assert len(lines(svg, "bars-hatch")) == 4, "Shed one way, Barn one way and then both"
    told = texts(svg)
    for words in ("100, holds at 150", "worst without DB 3600 mm", "80, no price holds; else 100",
                  "needs DB 4800 mm, 1 more", "No price for Y: no plan",
                  "3 decks, 1 without such a price", "Hatched both ways"):  # fmt: skip
        assert words in told
    alone = holding_chart.svg_of(evolve(found, prices=prices[:1]))
    assert "Hatched both ways" not in texts(alone), "nothing is"


def test_of_many_decks_those_that_lose_most_are_drawn() -> None:
    prices = tuple(
        noun(HoldingPrice, name=f"D{at}", total=Decimal(at), holds=Decimal(2 * at) if at else None,
             worst=None, loses=())
        for at in range(100)
    )  # fmt: skip
    found = noun(HoldingPrices, currency="GBP", articles=("DB",), prices=prices, refused=())
    svg = holding_chart.svg_of(found)
    names = [part.text for part in layer(svg, "names")]
    assert names == ["D0", *(f"D{at}" for at in range(61, 100))]
    assert "60 more decks in the table" in texts(svg)


@pytest.mark.parametrize("layers", ["axis-figures", "axis-names"])
def test_axes_are_named_and_figured_with_units(layers: str) -> None:
    told = [part.text for part in layer(size_costs_chart.svg_of(size_costs()), layers)]
    wanted = {"axis-figures": ["10", "20", "1000", "2000"],
              "axis-names": ["first cost, GBP", "cover across, mm"]}[layers]  # fmt: skip
    assert set(wanted) <= set(told)
