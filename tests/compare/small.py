"""A small deck, its stock, and families of a test that tell their years."""

from functools import partial
from pathlib import Path

from attrs import evolve

from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.materials.loader import load_catalogue
from drylay.materials.model import QUESTIONS, Family, RuleQuery
from drylay.materials.stock_model import ArticleRule, Catalogue
from drylay.plugins.model import FamilySet, InstalledFamily, Origin
from drylay.reasons import Ruling, Source
from drylay_softwood.family import softwood

ROOT = Path(__file__).parents[2]
PRACTICE = Source(kind="common practice", title="common practice, no source", clause="a test")
RECORD = Source(kind="merchant record", title="record of a test")

YEARS = {
    "upkeep_h_m2_year": 0.5,
    "life_least_years": 8,
    "life_most_years": 15,
    "frame_life_least_years": 15,
    "frame_life_most_years": 30,
}
#: A board that outlives its frame.
LONG = YEARS | {"life_least_years": 20, "life_most_years": 40, "upkeep_h_m2_year": 0.2}
TWO = {"soft": {}, "lasting": {"board.article": "LB-28-145"}}


def years_of(values: dict[str, float], rule: str, _: RuleQuery) -> Ruling:
    return Ruling(value=values[rule], unit=QUESTIONS[rule][0], rule=f"{rule} of a test",
                  source=PRACTICE)  # fmt: skip


def family(family_id: str, values: dict[str, float]) -> Family:
    """Softwood under another id, with these answers over the years and no others."""
    told = {rule: partial(years_of, values, rule) for rule in values}
    made = softwood()
    kept = {rule: ask for rule, ask in made.rules.items() if rule not in YEARS}
    return evolve(made, id=family_id, rules={**kept, **told})


def families(soft: dict[str, float] = YEARS, lasting: dict[str, float] | None = LONG) -> FamilySet:
    made = [family("softwood", soft)]
    made += [family("lasting", lasting)] if lasting is not None else []
    return FamilySet(
        families=tuple(InstalledFamily(family=each, origin=Origin(plugin=each.id)) for each in made)
    )


def stock(**rules: float) -> Catalogue:
    """The example's stock, with a board of the other family; `rules` are in its record."""
    yard = load_catalogue(ROOT / "catalogs" / "hobbleden.toml")
    board = next(board for board in yard.boards if board.code == "DB-28-145")
    own = tuple(ArticleRule(rule=rule, value=value, source=RECORD) for rule, value in rules.items())
    other = evolve(board, code="LB-28-145", family="lasting", rules=own)
    return evolve(yard, boards=(*yard.boards, other))


def brief() -> Brief:
    return read_brief(
        {
            "title": "Small deck",
            "cover": {"along_mm": 2400, "across_mm": 1195},
            "board": {"article": "DB-28-145"},
            "frame": {"article": "FT-45-145"},
            "fixings": {"screw": "DS-45-70", "coach_screw": "CS-8-120"},
        }
    )
