"""What boards of the five families ask for by their make, and which site does not suit them."""

import functools
import tomllib
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve

import drylay
from drylay.brief.model import Brief, ClimateWish
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.plan.model import Plan
from drylay.planner.job import Governance, Job, find_articles
from drylay.planner.moist import with_moisture
from drylay.reasons import Ruling, Source
from some_families import SHEET

ROOT = Path(__file__).parents[2]
FINEST_MM = 1 / 320
EXAMPLES = {
    "softwood": ("garden", "hobbleden"), "hardwood": ("hardwood", "sallowby"),
    "composite": ("composite", "sallowby"), "insertboard": ("insertboard", "sallowby"),
    "tiles-on-frame": ("tiles-on-frame", "sallowby"),
    "tiles-on-pads": ("tiles-on-pads", "sallowby"),
}  # fmt: skip


@functools.cache
def stock(name: str) -> Catalogue:
    return drylay.load_catalogue(ROOT / "catalogs" / f"{name}.toml")


def asked(example: str, **sections: Any) -> tuple[Brief, Catalogue]:
    file, yard = EXAMPLES[example]
    wished = tomllib.loads((ROOT / "docs" / "examples" / f"{file}.toml").read_text("utf-8"))
    for name, keys in sections.items():
        wished[name] = {**wished.get(name, {}), **keys} if isinstance(keys, dict) else keys
    return drylay.read_brief(wished), stock(yard)


def planned(example: str, **sections: dict[str, Any]) -> Plan:
    brief, yard = asked(example, **sections)
    return drylay.design(brief, stock=yard)


@functools.cache
def as_it_stands(example: str) -> Plan:
    return planned(example)


def told(plan: Plan, code: str) -> list[Finding]:
    return [finding for finding in plan.findings if finding.code == code]


@pytest.mark.parametrize("example", ["softwood", "hardwood", "composite", "insertboard"])
def test_boards_that_burn_stop_on_a_roof(example: str) -> None:
    """The trade list: combustible-material ban, from memory of AD B and Regulation 7: stop."""
    plan = planned(example, site={"roof": True})
    (stop,) = told(plan, "BRD-010")
    assert stop.severity is Severity.STOP
    assert plan.buying is None
    assert not told(as_it_stands(example), "BRD-010")


@pytest.mark.parametrize(
    ("top_mm", "packed", "room_mm"),
    [(0, None, 7.0), (20, "SPD-17-30", 27.0), (43, "SPD-35-65", 50.0)],
)
def test_composite_wants_fifty_of_air_below(
    top_mm: float, packed: str | None, room_mm: float
) -> None:
    """The trade list: 50 and more. By hand: top - 23 of board - 145 of joist - ground at -175."""
    points = [{"along_mm": x, "across_mm": y, "level_mm": -175.0}
              for x, y in ((0, 0), (5400, 0), (5400, 1445), (0, 1445))]  # fmt: skip
    ground = {"packer": packed} if packed else {}
    plan = planned("composite", levels={"deck_top_mm": float(top_mm), "points": points},
                   groundwork=ground)  # fmt: skip
    found = [(f.severity, f.measured, f.limit) for f in told(plan, "AIR-001")]
    assert found == ([(Severity.CAUTION, room_mm, 50.0)] if room_mm < 50 else [])
    assert drylay.audit(plan).findings == ()


@pytest.mark.parametrize(
    ("top_mm", "packer", "measured"), [(20, "SPD-35-65", 37.0), (-7, None, None)]
)
def test_air_over_gravel_is_counted_from_the_gravel(
    top_mm: float, packer: str | None, measured: float | None
) -> None:
    """By hand: 20 - 23 - 145 + 175 = 27 over the lawn, the gravel's top 10 lower: 37; or 10."""
    points = [{"along_mm": x, "across_mm": y, "level_mm": -175.0}
              for x, y in ((0, 0), (5400, 0), (5400, 1445), (0, 1445))]  # fmt: skip
    ground = {"gravel": "SG-20"} | ({"packer": packer} if packer else {})
    plan = planned("composite", levels={"deck_top_mm": float(top_mm), "points": points},
                   groundwork=ground)  # fmt: skip
    (caution,) = told(plan, "AIR-001")
    assert (caution.severity, caution.measured) == (Severity.CAUTION, measured)
    assert f"here are {37 if packer else 10} mm" in caution.message
    assert drylay.audit(plan).findings == ()


def test_where_nothing_tells_of_the_air_that_is_noted() -> None:
    (note,) = told(as_it_stands("composite"), "AIR-001")
    assert (note.severity, note.measured) == (Severity.NOTE, None)
    assert not told(as_it_stands("hardwood"), "AIR-001")


def test_composite_edges_are_to_stay_open() -> None:
    sides = ["house", "right", "front", "left"]
    fascia = {"sides": sides, "article": "UF-28-145"}
    screw = {"fascia_screw": "DX-50-60-A2"}
    shut = planned("composite", fascia=fascia, fixings=screw)
    assert shut.buildable, shut.findings
    (caution,) = told(shut, "AIR-002")
    assert caution.severity is Severity.CAUTION
    open_in_front = planned("composite", fascia={**fascia, "sides": sides[:2]}, fixings=screw)
    assert not told(open_in_front, "AIR-002")


def test_larch_squares_on_a_frame_do_not_break_and_are_not_for_soil() -> None:
    """The trade list: timber squares 5-10 on open drained base only; sag and backing are of
    brittle finishes."""
    plan = planned("tiles-on-frame", board={"article": "WT-500-500-32"},
                   cover={"along_mm": 3020, "across_mm": 2012})  # fmt: skip
    assert plan.buildable, plan.findings
    assert plan.surface.timber
    assert [f.severity for f in told(plan, "TIL-018")] == [Severity.CAUTION]
    assert not {"TIL-014", "TIL-015"} & {f.code for f in plan.findings}
    assert not told(as_it_stands("tiles-on-frame"), "TIL-018")
    assert told(as_it_stands("tiles-on-frame"), "TIL-014")


@pytest.mark.parametrize("species", ["", "purpleheart"])
def test_a_tile_of_stuff_that_is_not_listed_is_not_taken_for_granite(species: str) -> None:
    brief, yard = asked("tiles-on-pads")
    tiles = tuple(evolve(tile, species=species) for tile in yard.tiles)
    plan = drylay.design(brief, stock=evolve(yard, tiles=tiles))
    stops = told(plan, "MAT-001")
    assert {stop.subject for stop in stops} == {
        "surface.combustible", "surface.timber", "tiling.density_kg_m3",
    }  # fmt: skip
    assert all("species" in stop.message for stop in stops)


@pytest.mark.parametrize(("packer", "height_mm"), [(None, None), ("SPD-35-65", 130.0)])
def test_tiles_on_a_shallow_frame_on_packers_lie_high(
    packer: str | None, height_mm: float | None
) -> None:
    """The trade list: raised over 100 a tile may break through. By hand: 95 of timber + 35."""
    brief, yard = asked("tiles-on-frame", groundwork={"packer": packer} if packer else {})
    timbers = tuple(evolve(timber, depth_mm=95.0) for timber in yard.timbers)
    plan = drylay.design(brief, stock=evolve(yard, timbers=timbers))
    assert plan.buildable, plan.findings
    assert len(told(plan, "TIL-015")) == (height_mm is not None)
    assert all(f"up to {height_mm:g}," in f.message for f in told(plan, "TIL-015"))
    assert drylay.audit(plan).findings == ()


@pytest.mark.parametrize(("example", "done"), [("composite", True), ("hardwood", True)])
def test_a_batten_does_for_a_pair_where_the_trade_says_so(example: str, done: bool) -> None:
    """The trade list: hardwood "pair or batten", composite "pair or batten"."""
    plan = planned(example, joints={"support": "batten"})
    assert "supports.joists_under_joint" not in {f.subject for f in told(plan, "MAT-002")}
    assert plan.supports.batten_for_pair is done
    single = planned(example, joints={"support": "single"})
    assert "supports.joists_under_joint" in {f.subject for f in told(single, "MAT-002")}


def test_softwood_in_public_use_wants_its_pair() -> None:
    """The trade list: "pair where public", and no word of a batten there."""
    brief, yard = asked("softwood", joints={"support": "batten"})
    plan = drylay.design(evolve(brief, use="public"), stock=yard)
    assert "supports.joists_under_joint" in {f.subject for f in told(plan, "MAT-002")}


@pytest.mark.parametrize("example", EXAMPLES)
def test_a_treated_frame_is_cautioned_of_where_there_is_one(example: str) -> None:
    plan = as_it_stands(example)
    treated = [c for c in plan.cautions if "treat" in c or "preserver" in c]
    assert bool(treated) == (plan.frame is not None)
    brief, yard = asked(example)
    report = drylay.audit(plan, brief=brief, stock=yard, families=drylay.installed_families())
    assert report.findings == ()


@pytest.mark.parametrize(
    ("climate", "narrowest_mm", "widest_mm"),
    [
        # 145 x 0.0037 for 1 %: 0.5365. Swelling 22 - 16: 3.219. Shrinking 16 - 13: 1.6095.
        ({}, 5 - 3.219, 8 + 1.6095),
        ({"driest_pct": 14}, 5 - 3.219, 8 + 1.073),
        # wetter than any day to come: nothing more to swell by; 30 of 35 % counts
        ({"laying_pct": 35, "wettest_pct": 36}, 2.0, None),
    ],
)
def test_gaps_of_oak_through_the_year(
    climate: dict[str, float], narrowest_mm: float, widest_mm: float | None
) -> None:
    """Oak moves 0.0037 for 1 % (Wood Handbook, table 13-5)."""
    plan = planned("hardwood", climate=climate)
    assert plan.buildable, plan.findings
    found, surface = plan.surface.moisture, plan.surface
    laid = [row.gap_mm for row in surface.rows[1:]]
    change = {"narrow": narrowest_mm - 5, "wide": None if widest_mm is None else widest_mm - 8}
    if widest_mm is None:  # 145 x 0.0037 x (30 - 13)
        assert found.narrowest_mm == min(laid)
        assert found.widest_mm == pytest.approx(max(laid) + 9.1205, abs=FINEST_MM)
    else:
        assert found.narrowest_mm == pytest.approx(min(laid) + change["narrow"], abs=FINEST_MM)
        assert found.widest_mm == pytest.approx(max(laid) + change["wide"], abs=FINEST_MM)
    (note,) = told(plan, "MOV-103")
    assert note.measured == found.widest_mm
    assert drylay.audit(plan).findings == ()


def test_a_worked_gap_of_softwood() -> None:
    """The trade list's example: w 144, c 0.0025, laid 20 %, 14 to 24: 5 - 1.4, 5 + 2.2.

    By hand in 1/320 mm: 3.56 is 1139.2, down; 7.16 is 2291.2, up.
    """
    surface = as_it_stands("softwood").surface
    brief, yard = asked("softwood")
    rows = tuple(evolve(row, gap_mm=5.0, width_mm=144.0) for row in surface.rows)
    sources = {path: Ruling(value=value, unit="", rule="", source=SHEET) for path, value in (
        ("surface.moisture.movement_per_pct", 0.0025), ("surface.moisture.wettest_pct", 24.0),
        ("surface.moisture.driest_pct", 14.0))}  # fmt: skip
    job = Job(
        asked=brief, brief=evolve(brief, climate=evolve(brief.climate, laying_pct=20.0)),
        stock=yard, articles=find_articles(brief, yard),
        rules=Governance(rulings=sources, findings=()),
    )  # fmt: skip
    moisture = with_moisture(job, evolve(surface, rows=rows, board_width_mm=144.0)).moisture
    assert (moisture.narrowest_mm, moisture.widest_mm) == (1139 / 320, 2292 / 320)


@pytest.mark.parametrize(("climate", "words"), [({}, "will open to"), (None, "6 mm and more")])
def test_green_oak_opens(climate: dict[str, float] | None, words: str) -> None:
    """The trade list: green oak lay 2-3, will open 6+, from memory."""
    brief, yard = asked("hardwood", climate={"laying_pct": 40, "wettest_pct": 40})
    if climate is None:
        brief = evolve(brief, climate=ClimateWish())
    boards = tuple(evolve(board, species=f"green {board.species}") for board in yard.boards)
    stock = evolve(yard, boards=boards)
    plan = drylay.design(brief, stock=stock)
    (caution,) = told(plan, "MOV-105")
    assert caution.severity is Severity.CAUTION
    assert words in caution.message
    seen = drylay.audit(plan, brief=brief, stock=stock, families=drylay.installed_families())
    assert seen.findings == ()


def test_unlike_metals_that_touch_are_told() -> None:
    """The trade list: two metals touching in the wet, the lesser one goes."""
    brief, yard = asked("softwood", fixings={"hanger": "JH-45-108"})
    plan = drylay.design(brief, stock=yard)
    assert plan.buildable, plan.findings
    metals = {row.what: row.metal for row in plan.fixings.metals}
    assert metals["hangers"] == metals["hanger screws"] == "hot-dip galvanised"
    assert metals["deck screws"] == "stainless A2"
    (caution,) = told(plan, "FIX-024")
    assert (caution.severity, caution.subject) == (Severity.CAUTION, "hangers and deck screws")
    assert "here JH-45-108" in caution.message
    screws = tuple(evolve(screw, metal="stainless A2") for screw in yard.screws)
    both = told(drylay.design(brief, stock=evolve(yard, screws=screws)), "FIX-024")
    assert {f.subject for f in both} == {"hangers and deck screws", "hangers and hanger screws"}


@pytest.mark.parametrize("species", ["wood and HDPE", "oak fibre and polyethylene"])
def test_composite_neither_cups_nor_washes_out(species: str) -> None:
    brief, yard = asked("composite")
    boards = tuple(evolve(board, species=species) for board in yard.boards)
    stock = evolve(yard, boards=boards)
    plan = drylay.design(brief, stock=stock)
    assert not {"BRD-008", "BRD-009"} & {f.code for f in plan.findings}
    seen = drylay.audit(plan, brief=brief, stock=stock, families=drylay.installed_families())
    assert seen.findings == ()


def test_centres_are_assumed_where_the_record_is_silent_and_then_alone() -> None:
    """The trade list: the product's own; else 300, flagged "assumed"."""
    brief, yard = asked("composite")
    assert not {"MAT-004", "MAT-007"} & {f.code for f in as_it_stands("composite").findings}
    boards = tuple(
        evolve(board, rules=tuple(own for own in board.rules if own.rule != "most_centres_mm"))
        for board in yard.boards
    )
    stock = evolve(yard, boards=boards)
    free = evolve(brief, frame=evolve(brief.frame, most_centres_mm=None))
    plan = drylay.design(free, stock=stock)
    assert plan.supports.most_centres_mm == 300.0
    (caution,) = told(plan, "MAT-007")
    assert caution.severity is Severity.CAUTION
    assert "300 mm is assumed" in caution.message
    families = drylay.installed_families()
    assert drylay.audit(plan, brief=free, stock=stock, families=families).findings == ()
    hushed = evolve(plan, findings=tuple(f for f in plan.findings if f.code != "MAT-007"))
    seen = drylay.audit(hushed, brief=free, stock=stock, families=families)
    assert {finding.code for finding in seen.findings} == {"AUD-W94"}


@pytest.mark.parametrize(("growth_per_k", "much"), [(50e-6, False), (51e-6, True)])
def test_boards_that_grow_more_than_their_standard_lets_them(
    growth_per_k: float, much: bool
) -> None:
    """From memory of EN 15534, by the trade list: 50e-6 per K at most."""
    brief, yard = asked("composite")
    own = ArticleRule(rule="growth_per_k", value=growth_per_k,
                      source=Source(kind="merchant record", title="a test's record"))  # fmt: skip
    boards = tuple(
        evolve(board, rules=(*(r for r in board.rules if r.rule != own.rule), own))
        for board in yard.boards
    )
    stock = evolve(yard, boards=boards)
    plan = drylay.design(brief, stock=stock)
    assert [f.severity for f in told(plan, "MOV-106")] == [Severity.CAUTION] * much
    assert drylay.audit(plan).findings == ()
    hushed = evolve(plan, findings=tuple(f for f in plan.findings if f.code != "MOV-106"))
    assert {f.code for f in drylay.audit(hushed).findings} == ({"AUD-152"} if much else set())


def test_in_public_use_makers_of_composite_often_want_300_or_less() -> None:
    """The trade list: public often 300 or less; the example's record says 350."""
    brief, yard = asked("composite", use="public")
    plan = drylay.design(brief, stock=yard)
    (caution,) = told(plan, "MAT-010")
    assert caution.severity is Severity.CAUTION
    assert "300 mm or less for boards like CS-23-140, not 350" in caution.message
    assert not told(as_it_stands("composite"), "MAT-010")
    families = drylay.installed_families()
    assert drylay.audit(plan, brief=brief, stock=yard, families=families).findings == ()
    hushed = evolve(plan, findings=tuple(f for f in plan.findings if f.code != "MAT-010"))
    seen = drylay.audit(hushed, brief=brief, stock=yard, families=families)
    assert {finding.code for finding in seen.findings} == {"AUD-W94"}
    close = evolve(brief, frame=evolve(brief.frame, most_centres_mm=300.0))
    assert not told(drylay.design(close, stock=yard), "MAT-010")


@pytest.mark.parametrize("species", ["thermally modified ash", "acetylated pine", "heat-treated"])
def test_a_modified_wood_wants_its_makers_figures(species: str) -> None:
    """The trade list: heat- or acid-modified woods alike with own data."""
    brief, yard = asked("hardwood")
    boards = tuple(evolve(board, species=species) for board in yard.boards)
    stock = evolve(yard, boards=boards)
    plan = drylay.design(brief, stock=stock)
    assert [f.severity for f in told(plan, "MAT-009")] == [Severity.CAUTION]
    assert not told(as_it_stands("hardwood"), "MAT-009")
    families = drylay.installed_families()
    assert drylay.audit(plan, brief=brief, stock=stock, families=families).findings == ()
    hushed = evolve(plan, findings=tuple(f for f in plan.findings if f.code != "MAT-009"))
    seen = drylay.audit(hushed, brief=brief, stock=stock, families=families)
    assert {finding.code for finding in seen.findings} == {"AUD-W93"}
