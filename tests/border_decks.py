"""Decks with a border: a merchant, families and briefs for them."""

from decimal import Decimal
from pathlib import Path

from attrs import evolve

import drylay
from drylay.materials.stock_model import Board, Catalogue, StockLength
from drylay.plan.model import Plan
from drylay.plugins.model import FamilySet
from drylay.reasons import Source
from some_families import like_softwood, turf, with_families

ROOT = Path(__file__).parents[1]
YARD = drylay.load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
RECORD = Source(kind="merchant record", title="a card (invented)")
DECK = {
    "title": "Edged", "cover": {"along_mm": 4800, "across_mm": 2400},
    "board": {"article": "DB-28-145"}, "border": {"article": "EDGE"},
    "frame": {"article": "FT-45-145"},
    "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120", "frame_screw": "FS-60-90"},
    "finish": {"preserver": "EP-CLEAR", "end_wax": "EW-CLEAR", "article": "DO-NATURAL"},
}  # fmt: skip


def edge(**more: object) -> Board:
    """A border board 28 x 95, in two lengths."""
    known = {
        "code": "EDGE", "title": "edge board (invented)", "family": "edging", "width_mm": 95.0,
        "thickness_mm": 28.0, "use_class": 3, "faces": "smooth", "species": "redwood",
        "lengths": (StockLength(length_mm=3000.0, price=Decimal("9.00")),
                    StockLength(length_mm=4800.0, price=Decimal("15.00"))),
    }  # fmt: skip
    return Board(**{**known, **more})


def stock(**more: object) -> Catalogue:
    return evolve(YARD, boards=(*YARD.boards, edge(**more)))


def families(**values: float) -> FamilySet:
    return with_families(like_softwood("edging", "Handle with care.", **values), turf())


def brief(**sections: object) -> drylay.Brief:
    return drylay.read_brief({**DECK, **sections})


def planned(
    asked: drylay.Brief | None = None, sold: Catalogue | None = None, **values: float
) -> Plan:
    return drylay.design(asked or brief(), stock=sold or stock(), families=families(**values))


def told(plan: Plan, code: str) -> list[drylay.Finding]:
    return [finding for finding in plan.findings if finding.code == code]


def longer(sold: Catalogue) -> object:
    (screw,) = [each for each in sold.screws if each.code == "DS-45-70"]
    return evolve(screw, code="DS-50-90", length_mm=90.0)
