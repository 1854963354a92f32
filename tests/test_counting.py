"""Decimals are counted by our own digits, whatever a host or a plugin has set for its thread."""

import importlib
import inspect
from collections.abc import Callable
from decimal import Context, Decimal, FloatOperation, Inexact, getcontext, localcontext, setcontext
from pathlib import Path
from types import FunctionType
from typing import Any

import pytest
from attrs import evolve

import drylay
from compare.sheds import SHED, STOCK
from drylay.compare.merchant_model import HoldingPrices, LengthsToKeep, PriceBreaks
from drylay.compare.study_model import ParetoSet, SideBySide, SizeCosts, Uncertainty
from drylay.counting import counted
from drylay.plugins.basis_guard import loads_by
from drylay.plugins.guard import ask, hear, make_paper
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet, InstalledLocalRule, InstalledPaper, Origin

#: Of a host's thread: a few digits, and a trap for whatever is rounded or was a float.
FEW = Context(prec=3, traps=[Inexact, FloatOperation])
ROWS = [
    {"case": at, "cover.along_mm": 2000.5 + at, "outcome": "planned", "currency": "GBP",
     "total": Decimal("41234.56") + at * Decimal("0.01"), "cover_m2": 2.123456 + at}
    for at in range(3)
]  # fmt: skip
#: Verbs that count in whole numbers and fractions alone: `cutting` sees nothing of other rooms.
EXACT = {"cut_stock", "verify"}
BY_MONEY = {"total": "least", "cover_m2": "most"}
STOCK_FILE = Path(__file__).parents[1] / "catalogs" / "hobbleden.toml"


@pytest.mark.parametrize("name", sorted(drylay._HOME.keys() - EXACT))
def test_every_verb_counts_by_decimals_of_our_own(name: str) -> None:
    """Lengths are counted in decimals too (drylay.marks), so that none is without."""
    verb = getattr(importlib.import_module(drylay._HOME[name]), name)
    if isinstance(verb, FunctionType):
        assert hasattr(verb, "__wrapped__"), f"{name} wants @counted"


@pytest.mark.parametrize("kind", [
    drylay.Comparison, ParetoSet, SideBySide, SizeCosts, Uncertainty, HoldingPrices, LengthsToKeep,
    PriceBreaks, drylay.Plan,
])  # fmt: skip
def test_every_answer_is_told_by_decimals_of_our_own(kind: type) -> None:
    told = [each for name in ("measures", "papers", "__str__", "_repr_svg_")
            if isinstance(each := kind.__dict__.get(name), FunctionType)]  # fmt: skip
    assert told
    assert all(hasattr(each, "__wrapped__") for each in told if each.__module__ != "attr._make")


@pytest.mark.parametrize("ask", [
    lambda: drylay.load_catalogue(STOCK_FILE),
    lambda: STOCK.without("DB-28-145", length_mm=3000) | STOCK,
    lambda: drylay.read_brief({**SHED, "cover": {"along": "12 ft 6 1/2 in", "across_mm": 1195.3}}),
    lambda: drylay.fit_rows(depth_mm=4876.8, board_mm=145.0, gap_mm=(4.0, 6.0, 8.0)),
    lambda: drylay.cut_stock({1234.5: 2, 4876.8: 1}, [(5400.1, "12345.67"), (3000, "9876.543")],
                             kerf_mm=3.2),
    lambda: str(drylay.pareto(ROWS, BY_MONEY)),
    lambda: drylay.side_by_side(ROWS, by="currency", of=["total"]).papers(),
    lambda: drylay.cost_by_size(ROWS, "cover.along_mm").papers(),
    lambda: next(drylay.compare(drylay.read_brief(SHED), stock=STOCK, mode="quick")),
], ids=["stock", "shelf", "brief", "fit", "cut", "pareto", "beside", "size", "row"])  # fmt: skip
def test_answers_are_the_same_whatever_a_host_counts_with(ask: Callable[[], object]) -> None:
    """Once stock of such a thread could not be read, and a length was some mm off."""
    wanted = ask()
    with localcontext(FEW):
        assert ask() == wanted


def spoil(*_: object) -> Any:
    """A plugin that sets decimals for itself, and so, once, for whoever asked it."""
    setcontext(Context(prec=2))
    return b""


def test_a_plugin_sets_decimals_for_itself_alone() -> None:
    """Once the design after it was drawn up in two digits, and its audit told a fault of ours."""
    origin = Origin(plugin="x")
    (first, *_) = installed_families().families
    (basis, *_) = drylay.installed_design_bases().bases
    rules = dict.fromkeys(first.family.rules, spoil)
    families = FamilySet(families=(evolve(first, family=evolve(first.family, rules=rules)),))
    query = drylay.RuleQuery(board_width_mm=145, board_thickness_mm=28, joist_thickness_mm=45)
    plan: Any = None  # of no use to what only spoils
    with localcontext() as here:
        for asked in (
            lambda: ask(families, first.family.id, next(iter(rules)), query),
            lambda: hear(InstalledLocalRule(name="x", look=spoil, origin=origin), plan),
            lambda: make_paper(InstalledPaper(name="x", make=spoil, origin=origin), plan),
            lambda: loads_by(evolve(basis, basis=evolve(basis.basis, loads=spoil)), "dwelling"),
        ):
            asked()
            assert getcontext() is here


def test_a_host_keeps_its_own_decimals() -> None:
    @counted
    def fails() -> None:
        setcontext(Context(prec=9))
        raise ValueError(getcontext().prec)

    with localcontext(FEW) as own:
        with pytest.raises(ValueError, match="9"):
            fails()
        assert getcontext() is own
        assert own.prec == 3
        assert inspect.signature(fails) == inspect.signature(fails.__wrapped__)  # type: ignore[attr-defined]
