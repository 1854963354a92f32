"""Tiny decks and a small shelf, for what a merchant asks of many decks."""

from collections.abc import Iterable
from decimal import ROUND_CEILING, Decimal
from functools import cache
from typing import Any

from attrs import evolve

import drylay
from compare.small import ROOT
from drylay.brief.model import Brief
from drylay.compare.lengths_mix import with_lengths
from drylay.compare.merchant_asked import sold_by_length
from drylay.compare.merchant_plans import Planning, planning
from drylay.materials.stock_model import KINDS, Catalogue
from drylay.plugins.model import FamilySet

BOARD, TIMBER = "DB-28-145", "FT-45-145"


@cache
def families() -> FamilySet:
    return drylay.installed_families()


def by() -> Planning:
    return planning(families(), None, None, None)


@cache
def yard() -> Catalogue:
    return drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")


@cache
def shop(boards: tuple[int, ...] = (2400, 3000, 5400)) -> Catalogue:
    """Few lengths of board and two of timber."""
    return cut_down(cut_down(yard(), BOARD, boards), TIMBER, (2400, 3000))


def cut_down(stock: Catalogue, code: str, lengths_mm: Iterable[float]) -> Catalogue:
    kept = [e for e in sold_by_length(stock)[code].lengths if e.length_mm in set(lengths_mm)]
    return with_lengths(stock, code, kept)


@cache
def in_pounds(stock: Catalogue) -> Catalogue:
    """The stock with every price up to the next whole pound, and no smaller coin."""
    changed: dict[str, Any] = {kind: tuple(_up(each) for each in getattr(stock, kind))
                               for kind in KINDS}  # fmt: skip
    return evolve(stock, minor_digits=0, **changed)


def _up(article: Any) -> Any:
    sold = {name: tuple(evolve(item, price=_pounds(item.price)) for item in getattr(article, name))
            for name in ("lengths", "packs") if hasattr(article, name)}  # fmt: skip
    if getattr(article, "price_per_m", None) is not None:
        sold["price_per_m"] = _pounds(article.price_per_m)
    return evolve(article, **sold)


def _pounds(price: Decimal) -> Decimal:
    return price.quantize(Decimal(1), rounding=ROUND_CEILING)


def brief(along_mm: float = 2450, across_mm: float = 595, **more: object) -> Brief:
    """A deck of four rows on few joists; no row is jointed where nobody says otherwise."""
    plain = {
        "title": "Step",
        "cover": {"along_mm": along_mm, "across_mm": across_mm},
        "board": {"article": BOARD},
        "frame": {"article": TIMBER, "most_centres_mm": 400},
        "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
        "joints": {"most_per_row": 0},
    }
    return drylay.read_brief(plain | more)
