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


#: Sizes and families of boards for decks of any two of them: width, thickness, family, species.
WIDTHS_MM, THICKNESSES_MM = (90.0, 120.0, 145.0), (21.0, 25.0, 28.0, 33.0, 38.0)
KINDS = (("softwood", "redwood"), ("softwood", "larch"), ("hardwood", "iroko"),
         ("hardwood", "white oak"), ("insertboard", "redwood"))  # fmt: skip


def board_of(code: str, width_mm: float, thickness_mm: float, kind: tuple[str, str]) -> Board:
    """A board of any size and kind, in one length."""
    family, species = kind
    return edge(
        code=code, title=code, family=family, species=species, width_mm=width_mm,
        thickness_mm=thickness_mm, groove_mm=8.0 if family == "insertboard" else 0.0,
        lengths=(StockLength(length_mm=2400.0, price=Decimal("12.00")),),
    )  # fmt: skip


def of_two(field: Board, border: Board) -> tuple[drylay.Brief, Catalogue]:
    """A small deck of two boards, its screws long enough for any of them on packers."""
    (screw,) = [each for each in YARD.screws if each.code == "DS-45-70"]
    (coach,) = YARD.coach_screws[:1]
    screw = evolve(screw, code="LONG", length_mm=125.0, metal="stainless A2")
    coach = evolve(coach, code="COACH", length_mm=120.0, metal="stainless A2")
    sold = evolve(YARD, boards=(field, border), screws=(screw,), coach_screws=(coach,), fascias=())
    asked = drylay.read_brief({
        "title": "Two boards", "cover": {"along_mm": 2000, "across_mm": 1203,
                                         "grow_across_mm": 200},
        "board": {"article": field.code}, "border": {"article": border.code},
        "frame": {"article": "FT-45-145"}, "finish": {"preserver": "EP-CLEAR"},
        "fixings": {"screw": "LONG", "coach_screw": "COACH", "frame_screw": "LONG"},
    })  # fmt: skip
    return asked, sold
