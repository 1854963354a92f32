"""A family of tiles and a yard that sells them, for tests that need no plugin."""

from decimal import Decimal
from pathlib import Path
from typing import Any

from attrs import evolve

from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.materials.loader import load_catalogue
from drylay.materials.model import QUESTIONS, Family, Rule, RuleQuery
from drylay.materials.stock_model import Catalogue, Pack, Packer, Tile
from drylay.plugins.loading import installed_families
from drylay.plugins.model import FamilySet
from drylay.reasons import Ruling, Source

PRACTICE = Source(kind="common practice", title="common practice, no source")
CAUTIONS = (
    "Cutting porcelain or stone makes crystalline silica dust: water or M-class extraction, and a "
    "P3 mask.",
    "Lift tiles of more than 25 kg with two.",
)
#: What every tile has here; of rules on frames only those that a frame under tiles is built by.
NUMBERS: dict[str, float] = {
    "most_centres_mm": 400, "gap_preferred_mm": 4, "gap_least_mm": 2, "gap_most_mm": 5,
    "end_bearing_least_mm": 20, "may_rip": 1, "screw_pilot_ratio": 0.7,
    "coach_screws_per_joist_end": 2, "coach_screw_length_least_mm": 100,
    "coach_screw_sink_mm": 12, "coach_screw_pilot_ratio": 0.7, "frame_screws_per_noggin_end": 2,
    "frame_screws_per_splice_side": 4, "frame_screw_length_least_mm": 80,
    "fascia_screws_per_place": 2, "fascia_screw_spacing_most_mm": 600,
    "fascia_screw_end_least_mm": 40, "fascia_screw_length_least_mm": 45, "metal_allowed": 1,
    "board_use_class_least": 3, "frame_use_class_least": 4, "noggin_spacing_most_mm": 1800,
    "preserver_coats": 2, "spare_ratio": 0.05, "bays_per_piece": 2, "pads_at_edges_most_mm": 600,
    "pads_at_centre": 1,
}  # fmt: skip


def _number(rule: str, value: float) -> Rule:
    unit = QUESTIONS[rule][0]
    whole = unit in {"count", "yes/no"}

    def answer(_: RuleQuery) -> Ruling:
        told = int(value) if whole else float(value)
        return Ruling(value=told, unit=unit, rule=f"tiles: {rule}", source=PRACTICE)

    return answer


def _third(of: str, rule: str) -> Rule:
    """A cut tile is at least a third of its side: common practice."""

    def answer(query: RuleQuery) -> Ruling:
        side_mm = float(getattr(query, of))
        return Ruling(
            value=side_mm / 3, unit="mm", rule=f"tiles: {rule}", source=PRACTICE,
            inputs=((of, side_mm),),
        )  # fmt: skip

    return answer


def _density(query: RuleQuery) -> Ruling:
    value = 700.0 if query.species == "larch" else 2400.0
    return Ruling(value=value, unit="kg/m3", rule="tiles: mass", source=PRACTICE)


def tile_family(**numbers: float) -> Family:
    """Return the family, some of its numbers changed."""
    rules = {rule: _number(rule, value) for rule, value in {**NUMBERS, **numbers}.items()}
    rules |= {
        "sliver_mm": _third("board_width_mm", "sliver_mm"),
        "least_rip_mm": _third("board_width_mm", "least_rip_mm"),
        "least_piece_mm": _third("board_length_mm", "least_piece_mm"),
        "density_most_kg_m3": _density,
    }
    return Family(id="tiles", title="Tiles (test)", rules=rules, cautions=CAUTIONS)


def tile_families(**numbers: float) -> FamilySet:
    """Return a set of families with that of tiles alone."""
    return installed_families(entry_points=[], extra=[tile_family(**numbers)])


def packs(*sizes: tuple[int, str]) -> tuple[Pack, ...]:
    return tuple(Pack(count=count, price=Decimal(price)) for count, price in sizes)


PORCELAIN = Tile(
    code="TT-600", title="Porcelain tile, 600 x 600 x 20", family="tiles", species="porcelain",
    length_mm=600.0, width_mm=600.0, thickness_mm=20.0, mass_kg=17.0,
    packs=packs((1, "18.00"), (2, "34.00")),
)  # fmt: skip
OBLONG = evolve(
    PORCELAIN, code="TT-900", title="Porcelain tile, 900 x 600 x 20", length_mm=900.0, mass_kg=25.5
)
SQUARES = evolve(
    PORCELAIN, code="TT-WOOD", title="Timber square, 500 x 500 x 32", species="larch",
    length_mm=500.0, width_mm=500.0, thickness_mm=32.0, mass_kg=None,
)  # fmt: skip
PEDESTALS = (
    Packer(code="PD-28", title="Pedestal, 28 to 45", least_mm=28.0, most_mm=45.0,
           packs=packs((1, "2.25"), (50, "99.00"))),
    Packer(code="PD-40", title="Pedestal, 40 to 120", least_mm=40.0, most_mm=120.0,
           packs=packs((1, "3.00"))),
)  # fmt: skip


def yard() -> Catalogue:
    """Return the demo yard with tiles and pedestals added."""
    stock = load_catalogue(Path(__file__).parents[1] / "catalogs" / "hobbleden.toml")
    return evolve(
        stock, tiles=(PORCELAIN, OBLONG, SQUARES), packers=(*stock.packers, *PEDESTALS)
    )  # fmt: skip


def tile_brief(along_mm: float, across_mm: float, **sections: dict[str, Any]) -> Brief:
    """Return a brief for tiles on pads, or with `frame` among the sections on a frame."""
    support = "frame" if "frame" in sections else "pads"
    plain: dict[str, Any] = {
        "title": "Tiles",
        "cover": {"along_mm": along_mm, "across_mm": across_mm},
        "board": {"article": "TT-600", "support": support},
        "groundwork": {"packer": "PD-28"} if support == "pads" else {},
        "cutting": {"kerf_mm": 3},
    }
    if support == "frame":
        plain["fixings"] = {"coach_screw": "CS-8-120", "frame_screw": "FS-60-90"}
    for name, keys in sections.items():
        plain[name] = {**plain.get(name, {}), **keys}
    return read_brief(plain)


FRAME = {"article": "FT-45-145"}
