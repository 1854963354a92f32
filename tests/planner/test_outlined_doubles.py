"""Which screw makes doubles one timber, what is bought, why, and how the papers tell it."""

from functools import lru_cache

import pytest

import drylay
from drylay.audit.closed import WITNESSED
from drylay.audit.flaws import NothingToMeasure
from drylay.audit.model import Witness
from drylay.fixings.model import DoubleScrews
from drylay.papers.jobsheet import jobsheet
from drylay.papers.summary import summary
from drylay.plan.model import Plan
from outlined_gardens import STOCK, doubled, doubled_brief
from outlined_gardens import planned as laid

SEEN = {code: check for code, _title, check in WITNESSED}


def planned(*, off_sale: tuple[str, ...] = (), **fixings: str) -> Plan:
    stock = drylay.load_catalogue(STOCK)
    for code in off_sale:
        stock = stock.without(code)
    return drylay.design(doubled_brief(**fixings), stock=stock)


@lru_cache
def no_opening() -> Plan:
    """Return a deck with nothing doubled."""
    corners = ((0, 0, "house"), (2400, 0, "open"), (2400, 1600, "open"), (0, 1600, "open"))
    points = [{"along_mm": x, "across_mm": y, "side": side} for x, y, side in corners]
    return laid(outline={"points": points})


def screws_of(plan: Plan) -> DoubleScrews:
    assert plan.fixings is not None
    assert plan.fixings.double_screws is not None
    return plan.fixings.double_screws


def test_screws_of_doubles_are_bought_with_the_frame_screws() -> None:
    """By hand: 11 for either joist's double, 7 for either trimmer's: 36 beside the others."""
    plan = doubled()
    assert plan.fixings is not None
    assert plan.buying is not None
    assert plan.fixings.frame_screws is not None
    assert screws_of(plan).count == 36
    (bought,) = [each for each in plan.buying.packs if each.article == "FS-60-90"]
    assert bought.need == plan.fixings.frame_screws.count + 36
    assert bought.what == "frame screws, screws of doubles"
    assert bought.bound == bought.cost


@pytest.mark.parametrize(
    ("named", "off_sale", "article", "turned_down"),
    [
        ("FS-60-90", (), "FS-60-90", False),
        ("", (), "FS-60-90", False),  # the longest of 90 or less: hobbleden's list
        ("FS-60-100", (), "FS-60-90", True),  # 100 stands out behind 90
        ("FS-60-100", ("FS-60-90",), "DS-50-80", True),  # 45 + 6 x 5 = 75
    ],
)
def test_the_frame_screw_or_the_longest_that_does_not_stand_out(
    named: str, off_sale: tuple[str, ...], article: str, turned_down: bool
) -> None:
    plan = planned(off_sale=off_sale, **({"frame_screw": named} if named else {}))
    assert screws_of(plan).article == article
    assert plan.buying is not None
    assert article in {each.article for each in plan.buying.packs}
    assert bool(plan.why("fixings.double_screws.length_mm").turned_down) is turned_down
    stock = drylay.load_catalogue(STOCK)
    for code in off_sale:
        stock = stock.without(code)
    brief = doubled_brief(**({"frame_screw": named} if named else {}))
    assert list(SEEN["AUD-W96"](plan, Witness(brief=brief, stock=stock))) == []


def test_another_screw_than_the_best_is_a_flaw() -> None:
    stock = drylay.load_catalogue(STOCK)
    eighty = planned(off_sale=("FS-60-90",), frame_screw="FS-60-100")
    for named in ("FS-60-90", "FS-60-100"):
        witness = Witness(brief=doubled_brief(frame_screw=named), stock=stock)
        assert list(SEEN["AUD-W96"](eighty, witness))
    none = planned(off_sale=("FS-60-90", "DS-50-80"), frame_screw="FS-60-100")
    assert list(SEEN["AUD-W96"](none, Witness(brief=doubled_brief(), stock=stock)))
    with pytest.raises(NothingToMeasure):
        list(SEEN["AUD-W96"](no_opening(), Witness(brief=doubled_brief(), stock=stock)))


def test_every_figure_says_who_says_so() -> None:
    plan = doubled()
    for path, value, said in (
        ("per_end", 2, "IRC"),
        ("spacing_most_mm", 300.0, "US Army engineer"),
        ("end_least_mm", 60.0, "EN 1995-1-1"),
        ("edge_mm", 36.25, "US Army engineer"),
        ("length_least_mm", 81.0, "EN 1995-1-1"),
    ):
        why = plan.why(f"fixings.double_screws.{path}")
        assert (why.value, said in why.source.title) == (value, True)


def test_papers_tell_doubles() -> None:
    plan, first = doubled(), "D1 to J3 along 2310 mm: 11, 7 single ones between"
    for paper in (summary(plan), jobsheet(plan).decode()):
        told = " ".join(paper.split())
        assert first in told
        assert "D1 to J3, D2 to J6, D3 to U1, D4 to U6" in told
    assert "screws of doubles" not in summary(no_opening())
