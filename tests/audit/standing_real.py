"""Decks that stand as the planner makes them, with their witnesses."""

from functools import cache

from audit.real import example, stock, witness_of
from drylay.audit.model import Witness
from drylay.brief.model import Brief
from drylay.plan.model import Plan
from drylay.planner.design import design

LEGS: dict[str, object] = {"post": "PT-100-C24", "bearer": "BT-47-195", "hold_down_kn": 5}
ON_LEDGER: dict[str, object] = {**LEGS, "ledger_fixing": "anchor 6 kN", "ledger_spacing_mm": 500,
    "post_foot": "PF-100-25"}  # fmt: skip
FREE: dict[str, object] = {
    **LEGS, "ledger": False, "plies": 2, "lines_mm": [300, 1500, 2700], "foot": "in concrete",
    "embed_mm": 300, "footing": "concreted hole", "shape": "round", "concrete": "CO-GP",
}  # fmt: skip


def slope() -> list[dict[str, float]]:
    """Return places on a plane that falls along and away from the house, and one on it."""
    places = ((-1000, -500), (7000, -500), (7000, 5000), (-1000, 5000), (2500, 1500))
    return [{"along_mm": x, "across_mm": y, "level_mm": -650 - x / 40 - y / 80} for x, y in places]


def brief_of(raised: dict[str, object], **more: object) -> Brief:
    """Return the garden's brief, a deck that stands."""
    levels = {"datum": "damp course", "deck_top_mm": -150, "outfall": True, "points": slope()}
    brief = example("garden").replace("levels", levels).replace("groundwork", {})
    brief = brief.replace("house", {"wall_gap_mm": 10, "wall": "concrete", "dpc_mm": 0})
    site = {"region": "united-kingdom", "frost_mm": 450, "soil": "firm clay"}
    brief = brief.replace("site", site).replace("strength", {"basis": "eurocode-5"})
    brief = brief.replace("raised", raised).replace("board.may_turn", False)
    guards = {"infill": "balusters", "height_mm": 1150, "post_mm": 80, "thickness_mm": 32,
              "post_spacing_mm": 1200}  # fmt: skip
    brief = brief.replace("guards", guards).replace("fixings.hanger", "JH-45-108")
    for path, value in more.items():
        brief = brief.replace(path, value)
    return brief


@cache
def on_ledger() -> tuple[Plan, Witness]:
    steps = {"side": "front", "from_mm": 1000, "width_mm": 1000, "tread_mm": 40, "going_mm": 250,
             "risers": 3}  # fmt: skip
    brief = brief_of(ON_LEDGER, steps=steps)
    plan = design(brief, stock=stock("hobbleden"))
    return plan, witness_of(plan, brief, stock("hobbleden"))


@cache
def free() -> tuple[Plan, Witness]:
    brief = brief_of(FREE)
    plan = design(brief, stock=stock("hobbleden"))
    return plan, witness_of(plan, brief, stock("hobbleden"))
