"""Random decks with everything a brief can ask for: ground, levels, coatings, hangers, lights."""

import random
from decimal import Decimal
from typing import Any

from attrs import evolve

from drylay.brief.codec import brief_to_dict
from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.materials.stock_model import (
    Bag,
    Catalogue,
    Coating,
    Fabric,
    Gravel,
    Hanger,
    Pack,
    Packer,
    Screw,
    StockLength,
    Tin,
)
from some_decks import SIDES, some_case, some_packs


def price(dice: random.Random, low: float, high: float) -> Decimal:
    return Decimal(round(dice.uniform(low, high) * 100)).scaleb(-2)


def with_more(dice: random.Random, stock: Catalogue) -> Catalogue:
    """Return a stock that sells the rest too, now and then of a kind that will not do."""
    timber, fascia = stock.timbers[0], stock.fascias[0]
    long_mm = 2 * timber.thickness_mm + dice.choice([0.0] * 14 + [-10.0, 12.0])
    metal = dice.choice(["hot-dip galvanised"] * 25 + ["bright zinc"])
    screws = (
        Screw(code="FS", title="frame screw", shank_mm=6.0, length_mm=long_mm, metal=metal,
              packs=some_packs(dice), driver=dice.choice(["", "star 30"])),
        Screw(code="WS", title="fascia screw", shank_mm=dice.choice([4.0, 5.0]),
              length_mm=2 * fascia.thickness_mm + dice.choice([0.0, 5.0] * 8 + [-4.0, 60.0]),
              metal="stainless A2", packs=some_packs(dice)),
        Screw(code="HS", title="hanger screw", shank_mm=5.0,
              length_mm=dice.choice([35.0] * 15 + [60.0]), metal="hot-dip galvanised",
              packs=some_packs(dice)),
    )  # fmt: skip
    hanger = Hanger(
        code="JH", title="hanger", metal="hot-dip galvanised", screw="HS",
        joist_mm=timber.thickness_mm + dice.choice([0.0, 0.0, 0.5] * 6 + [4.0]),
        depth_mm=dice.choice([90.0, 100.0, 120.0] * 6 + [70.0]),
        screws_each=dice.choice([6, 8, 12]), packs=some_packs(dice),
    )  # fmt: skip
    coatings = tuple(
        Coating(code=code, title=code, use=use, covers_m2_per_l=dice.choice([3.0, 4.5, 8.0]),
                packs=(Tin(ml=750, price=price(dice, 8, 12)),
                       Tin(ml=2500, price=price(dice, 20, 34))))
        for code, use in (("EP", "end grain"), ("FN", "finish"))
    )  # fmt: skip
    fabric = Fabric(
        code="GF", title="fabric", width_mm=dice.choice([1000.0, 1500.0, 2000.0, 4500.0]),
        permeable=dice.random() < 0.95,
        lengths=tuple(
            StockLength(length_mm=m * 1000.0, price=price(dice, m, 1.4 * m),
                        limit=dice.choice([None, None, 2]))
            for m in sorted(dice.sample([8, 10, 14, 25, 50], 2))
        ),
    )  # fmt: skip
    gravel = Gravel(
        code="GR", title="gravel", density_kg_m3=dice.choice([None, 1500.0, 1750.0]),
        packs=(Bag(kg=25, price=price(dice, 3, 5)), Bag(kg=850, price=price(dice, 50, 80))),
    )  # fmt: skip
    packer = Packer(
        code="PK", title="packer", least_mm=dice.choice([5.0, 5.0, 30.0]),
        most_mm=dice.choice([30.0, 140.0, 140.0]), packs=(Pack(count=20, price=price(dice, 6, 9)),),
    )  # fmt: skip
    classes: dict[str, Any] = {"use_class": dice.choice([None, 4, 4, 4] * 6 + [3])}
    return evolve(
        stock, screws=(*stock.screws, *screws), hangers=(hanger,), coatings=coatings,
        fabrics=(fabric,), gravels=(gravel,), packers=(packer,),
        boards=(evolve(stock.boards[0], use_class=dice.choice([None, 3, 3, 3] * 6 + [2]),
                       faces=dice.choice([None, "smooth", "grooved", "one grooved"])),),
        timbers=(evolve(timber, **classes),),
    )  # fmt: skip


def wishes(dice: random.Random, brief: Brief) -> dict[str, Any]:
    """Return sections that ask for more, each of them now and then."""
    more: dict[str, Any] = {}

    def often() -> bool:
        return dice.random() < 0.6

    named = {"frame_screw": "FS", "fascia_screw": "WS", "hanger": "JH"}
    more["fixings"] = {"screw": "DS", "coach_screw": "CS",
                       **{key: code for key, code in named.items() if often()}}  # fmt: skip
    more["finish"] = {
        key: code for key, code in (("preserver", "EP"), ("article", "FN")) if often()
    }
    more["groundwork"] = _ground(dice) if often() else {}
    more |= _levels(dice, brief) if often() else {}
    if often():
        more["lights"] = {"count": dice.randint(1, 6), "side": dice.choice(SIDES),
                          "hole_mm": dice.choice([20, 45, 60]), "depth_mm": 50}  # fmt: skip
    more["crew"] = {"people": dice.choice([1, 2])}
    more["site"] = {"exposure": dice.choice(["inland"] * 30 + ["coast"])}
    return more


def _ground(dice: random.Random) -> dict[str, Any]:
    keys = {"fabric": "GF", "gravel": "GR", "packer": "PK", "margin_mm": dice.choice([0, 100, 250]),
            "strip_mm": dice.choice([50, 60, 100]), "lap_mm": dice.choice([50, 100, 150]),
            "below_lawn_mm": dice.choice([0, 10, 25]), "packer_spacing_mm": dice.choice([400, 600]),
            "spoil": dice.choice(["skip", "bags", "kept"])}  # fmt: skip
    drawn = {key: value for key, value in keys.items() if dice.random() < 0.7}
    needs = {"lap_mm": "fabric", "below_lawn_mm": "gravel", "packer_spacing_mm": "packer"}
    return {key: value for key, value in drawn.items() if needs.get(key, key) in drawn}


def _levels(dice: random.Random, brief: Brief) -> dict[str, Any]:
    """Return levels a few of which cannot be had together; ground near the frame's underside."""
    # a heap of points close together says nothing of the ground, and is asked about
    along, across = max(brief.cover.along_mm, 600.0), max(brief.cover.across_mm, 600.0)
    low = -150.0 - 173.0 - dice.choice([0.0, 0.0, 20.0, 60.0, 90.0, 200.0])
    points = [
        {"along_mm": x, "across_mm": y, "level_mm": low - dice.choice([0.0, 5.0, 12.0])}
        for x in (0.0, along) for y in (0.0, across)
    ]  # fmt: skip
    house = {"dpc_mm": 0.0, "floor_mm": dice.choice([0.0, 50.0, 150.0]),
             "steps_down": dice.choice([1, 2, 2, 3, 3]),
             "wall_gap_mm": dice.choice([8.0, 10.0, 12.0]),
             "door_opens": dice.choice(["inward", "outward", "sliding"])}  # fmt: skip
    levels = {"lowest_mm": low - dice.choice([-30.0, 60.0, 60.0, 60.0]), "points": points,
              "outfall": dice.choice([True, False])}  # fmt: skip
    return {
        "house": {key: value for key, value in house.items() if dice.random() < 0.8},
        "levels": levels if dice.random() < 0.8 else {},
    }


def whole_case(seed: int, *, most_mm: int = 9_000) -> tuple[Brief, Catalogue]:
    """A random brief of `some_decks` that asks for more, and a stock that sells it."""
    brief, stock = some_case(seed, most_mm=most_mm)
    dice = random.Random(seed * 31 + 7)
    stock = with_more(dice, stock)
    return read_brief({**brief_to_dict(brief), **wishes(dice, brief)}), stock
