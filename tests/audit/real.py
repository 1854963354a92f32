"""Real plans with their witnesses: the examples of the documents, and small variations."""

from itertools import product
from pathlib import Path

from attrs import evolve

from drylay.audit.model import Witness
from drylay.audit.ranking import LIMITS
from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.materials.loader import load_catalogue
from drylay.materials.model import YEARLY, RuleQuery
from drylay.materials.stock_model import METALS, Board, Catalogue
from drylay.plan.model import Plan
from drylay.planner.design import design
from drylay.planner.left_out import not_checked
from drylay.plugins.guard import ask
from drylay.plugins.loading import installed_families
from drylay.reasons import Ruling

ROOT = Path(__file__).parents[2]


def stock(name: str) -> Catalogue:
    return load_catalogue(ROOT / "catalogs" / f"{name}.toml")


def example(name: str) -> Brief:
    return read_brief(ROOT / "docs" / "examples" / f"{name}.toml")


def witness_of(plan: Plan, brief: Brief, catalogue: Catalogue) -> Witness:
    """Return a witness put together here, not by the planner."""
    (board,) = (board for board in catalogue.boards if board.code == brief.board.article)
    families = installed_families()
    rulings = []
    for limit in LIMITS:
        if limit.rule and limit.rule not in YEARLY:
            sunk = _sunk(plan) if limit.rule == "coach_screw_length_least_mm" else 0.0
            answer = ask(families, board.family, limit.rule, _query(plan, brief, board, sunk))
            assert isinstance(answer, Ruling), answer
            rulings.append((limit.path, answer))
    asked = _query(plan, brief, board, 0.0)
    for into, metal in product(("board", "frame", "fascia"), METALS):
        driven = evolve(asked, metal=metal, driven_into=into)
        answer = ask(families, board.family, "metal_allowed", driven)
        assert isinstance(answer, Ruling), answer
        rulings.append((f"metal in {into}: {metal}", answer))
    installed = next(f for f in families.families if f.family.id == board.family)
    return Witness(
        brief=brief,
        stock=catalogue,
        rulings=tuple(rulings),
        cautions=installed.family.cautions,
        not_checked=not_checked(brief),
    )


def _query(plan: Plan, brief: Brief, board: Board, sunk_mm: float) -> RuleQuery:
    assert plan.frame is not None
    return RuleQuery(
        board_width_mm=brief.board.measured_width_mm or board.width_mm,
        board_thickness_mm=board.thickness_mm,
        joist_thickness_mm=plan.frame.timber_thickness_mm,
        use=brief.use,
        treatment=board.treatment,
        head_sunk_mm=sunk_mm,
        fascia_thickness_mm=plan.edges.fascia_thickness_mm if plan.edges else 0.0,
        exposure=brief.site.exposure,
    )


def _sunk(plan: Plan) -> float:
    """Return how deep heads are sunk in the rim where they are sunk least."""
    assert plan.surface is not None
    assert plan.edges is not None
    assert plan.fixings is not None
    rims = {"house", "front"} if plan.surface.run == "along" else {"left", "right"}
    both = rims <= {face.side for face in plan.edges.faces}
    return plan.fixings.coach_screws.sink_mm if both else 0.0


def planned(brief: Brief, catalogue: Catalogue) -> tuple[Plan, Witness]:
    """Return a plan and its witness."""
    plan = design(brief, stock=catalogue)
    return plan, witness_of(plan, brief, catalogue)


def levelled(brief: Brief) -> Brief:
    """Return a brief with a house, levels and ground of six points, a hollow among them."""
    places = ((0, 0, -330), (6000, 0, -335), (6000, 3100, -345), (0, 3100, -350),
              (2500, 1500, -360), (4100, 700, -341.5))  # fmt: skip
    points = [{"along_mm": x, "across_mm": y, "level_mm": z} for x, y, z in places]
    house = {"wall_gap_mm": 12, "dpc_mm": 0, "floor_mm": 155, "steps_down": 2,
             "door_opens": "outward", "door_leaf_mm": 120,
             "air_bricks": [{"along_mm": 1200, "under_mm": -75}]}  # fmt: skip
    levels = {"datum": "damp course", "lowest_mm": -355, "outfall": True, "points": points}
    return brief.replace("house", house).replace("levels", levels)


def ten_decks() -> dict[str, tuple[Brief, Catalogue]]:
    """Return ten different decks: jointed and not, faced and not, turned, ripped, trimmed."""
    yard = stock("hobbleden")
    garden, terrace = example("garden"), example("long-terrace")
    reference = read_brief(ROOT / "tests" / "reference" / "S03.toml")
    short = garden.replace("cover.along_mm", 3600)
    return {
        "garden": (garden, yard),
        "terrace": (terrace, yard),
        "S03": (reference, load_catalogue(ROOT / "tests" / "reference" / "S03-stock.toml")),
        "short": (short, yard),
        "across": (garden.replace("board.run", "across"), yard),
        "ripped": (garden.replace("rows.prefer", ["rip_both", "gaps"]), yard),
        "imperial": (example("imperial"), stock("marrowick")),
        "bare": (short.replace("fascia.sides", []), yard),
        "trimmed": (evolve(short, board=terrace.board), yard),
        "measured": (levelled(garden.replace("board.measured_width_mm", 144.6)), yard),
    }
