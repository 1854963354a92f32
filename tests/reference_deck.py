"""The deck of reference S03, and briefs and stock made of it by what is changed."""

from decimal import Decimal
from pathlib import Path

from attrs import evolve

import drylay
from drylay.brief.model import CoverWish
from drylay.materials.stock_model import Catalogue, StockLength
from drylay.plan.model import Plan

REFERENCE = Path(__file__).parent / "reference"
BRIEF = drylay.read_brief(REFERENCE / "S03.toml")
STOCK = drylay.load_catalogue(REFERENCE / "S03-stock.toml")


def codes(plan: Plan) -> set[str]:
    return {finding.code for finding in plan.findings}


def sized(along_mm: float, across_mm: float, **more: float) -> drylay.Brief:
    return evolve(BRIEF, cover=CoverWish(along_mm=along_mm, across_mm=across_mm, **more))


def with_lengths(kind: str, lengths: tuple[StockLength, ...]) -> Catalogue:
    (article,) = getattr(STOCK, kind)
    return evolve(STOCK, **{kind: (evolve(article, lengths=lengths),)})


def a_length(length_mm: float, price: str, limit: int | None = None) -> StockLength:
    return StockLength(length_mm=length_mm, price=Decimal(price), limit=limit)
