"""Rolls of ground fabric in the papers: cut with a knife, apart from what is sawn."""

from decimal import Decimal

import pytest
from attrs import evolve

from drylay.buying.model import BoughtLength, Purchase
from drylay.groundwork.model import Fabric, FabricStrip, Groundwork
from drylay.papers.bars import all_bars, bars_svg
from drylay.papers.jobsheet import jobsheet
from drylay.papers.summary import summary
from drylay.papers.tables import cuts_csv, labels_csv
from drylay.plan.model import Plan
from papers import measured
from papers.read_html import Sheet
from papers.test_bars import found_bars
from plan.sample import purchase_of, sample_plan

#: Two strips of 3800 from a roll of 10 m leave 2400, three of 3800 from one of 11.4 m nothing.
STRIPS = tuple(FabricStrip(mark=f"W{n}", length_mm=3800.0) for n in range(1, 6))


def roll(mark: str, length_mm: float, strips: tuple[str, ...], left_mm: float) -> BoughtLength:
    return BoughtLength(
        mark=mark, length_mm=length_mm, price=Decimal("20.00"), pieces=strips, offcut_mm=left_mm
    )


def covered(plan: Plan) -> Plan:
    """Return a plan with ground fabric added by hand."""
    fabric = Fabric(
        article="WF-1000", width_mm=1000.0, lap_mm=100.0, run="along", strips=STRIPS,
        other_strips=6, other_length_mm=20000.0, other_note="",
    )  # fmt: skip
    bought: Purchase = evolve(
        purchase_of("fabric", "WF-1000", [], "GF"),
        lengths=(roll("GF1", 10_000.0, ("W1", "W2"), 2400.0),
                 roll("GF2", 11_400.0, ("W3", "W4", "W5"), 0.0)),
        cost=Decimal("40.00"),
    )  # fmt: skip
    return evolve(
        plan,
        groundwork=Groundwork(dig=None, fabric=fabric, gravel=None, packing=None),
        buying=evolve(plan.buying, purchases=(*plan.buying.purchases, bought)),
    )


PLANS = {units: covered(sample_plan(units=units)) for units in ("metric", "imperial")}


def flat(text: str) -> str:
    return " ".join(text.split())


def test_strips_have_a_size_to_cut() -> None:
    sizes = PLANS["metric"].sizes_mm()
    assert {mark: sizes[mark] for mark in ("W1", "W5")} == {"W1": 3800.0, "W5": 3800.0}
    assert sizes["B1.1"] == sample_plan().sizes_mm()["B1.1"]


def test_the_cut_list_says_knife_and_not_saw() -> None:
    told = flat(summary(PLANS["metric"]))
    cut = told[told.index("fabric: WF-1000") : told.index("ORDER")]
    assert cut.startswith(
        "fabric: WF-1000, cut with a knife 1 x 10000 mm: cut 2 x 3800, left 2400 mm GF1: W1 W2 "
        "1 x 11400 mm: cut 3 x 3800, nothing left over GF2: W3 W4 W5"
    )
    assert "saw" not in cut


def test_the_job_sheet_says_knife_and_not_saw() -> None:
    told = Sheet(jobsheet(PLANS["metric"])).part("What to cut")
    cut = told[told.index("fabric: WF-1000") :].split("Every length bought")[0]
    assert "cut with a knife" in cut
    assert "Cut, in this order (mm)" in cut
    assert "GF1 10000 mm W1: 3800; W2: 3800 2400 mm" in cut
    assert "saw" not in cut.lower()
    assert "Saw, in this order (mm)" in told


@pytest.mark.parametrize("units", PLANS)
def test_bars_of_rolls_leave_the_scale_to_the_timber(units: str) -> None:
    """The longest timber of the sample is 4800: the roll of 11.4 m is drawn as long as that."""
    plan = PLANS[units]
    svg, without = bars_svg(plan), bars_svg(sample_plan(units=units))
    longest = max(bar.box[2] for bar in found_bars(without))
    headings = measured.words(svg, "headings")
    assert headings[-1] == "fabric: WF-1000, cut with a knife, not to scale"
    assert not any("knife" in heading for heading in headings[:-1])
    rolls = [bar for bar in found_bars(svg) if set(bar.lengths) & {"GF1", "GF2"}]
    sawn = [bar for bar in found_bars(svg) if bar not in rolls]
    per_mm = 4800 / max(bar.box[2] for bar in sawn)
    assert max(bar.box[2] for bar in rolls) * per_mm == pytest.approx(4800, abs=per_mm * 0.01)
    assert longest > 0
    # strips lie end to end, with nothing taken between them: 3800 of 11400 is a third
    (whole,) = [bar for bar in rolls if "GF2" in bar.lengths]
    left, _, wide, _ = whole.box
    for index, (x, _, long, _) in enumerate(whole.pieces):
        assert x - left == pytest.approx(index * wide / 3, abs=0.02)
        assert long == pytest.approx(wide / 3, abs=0.02)
    assert measured.outside(svg) == []


def test_rolls_shorter_than_the_timber_are_to_scale() -> None:
    plan = PLANS["metric"]
    bought = plan.buying.purchases[-1]
    short = evolve(bought, lengths=(roll("GF1", 3800.0, ("W1",), 0.0),))
    bars = all_bars(plan, evolve(plan.buying, purchases=(*plan.buying.purchases[:-1], short)))
    assert bars[-1].shown_ratio == 1.0
    assert bars[-1].heading == "fabric: WF-1000, cut with a knife"
    assert bars[-1].saw == "use whole"


def test_strips_are_in_the_cuts_and_have_no_label() -> None:
    """A strip is cut and laid at once, and no label sticks on fleece."""
    plan = PLANS["metric"]
    assert b"GF2,WF-1000,11400,3,W5,3800,,0" in cuts_csv(plan)
    assert b"W5" not in labels_csv(plan)
    assert b"B1.1" in labels_csv(plan)
