"""The question a family is asked: the board as it lies, what carries it, and the weather.

Where the brief tells of temperatures or moisture, merchant or family are asked first how the
boards move and how hot they get: other rules may need to know.
"""

import math

from attrs import evolve, frozen

from drylay.brief.model import Brief, ClimateWish
from drylay.materials.model import QUESTIONS, RuleQuery
from drylay.materials.stock_model import ArticleRule, Board
from drylay.movement.air import equilibrium_moisture
from drylay.planner.angles import board_to_joist_deg, is_outlined
from drylay.planner.job import Articles
from drylay.plugins.guard import ask
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling, Source

#: What families are asked for each use: their rules know two.
FAMILY_USE = {"dwelling": "dwelling", "balcony": "dwelling", "hot tub": "dwelling",
              "public": "public", "crowd": "public"}  # fmt: skip


@frozen(kw_only=True)
class Asking:
    """A brief with its articles and the families, and the one question they are asked by."""

    brief: Brief
    articles: Articles
    families: FamilySet
    query: RuleQuery


def rule_query(brief: Brief, articles: Articles) -> RuleQuery:
    """Return the question a family is asked for this brief, but for how its boards move."""
    board, climate = articles.board, brief.climate
    return RuleQuery(
        board_width_mm=brief.board.measured_width_mm or board.width_mm,
        board_thickness_mm=board.thickness_mm,
        board_to_joist_deg=board_to_joist_deg(brief),
        joist_thickness_mm=articles.timber.thickness_mm,
        use=FAMILY_USE[brief.use],
        treatment=board.treatment,
        fascia_thickness_mm=articles.fascia.thickness_mm if articles.fascia else 0.0,
        exposure=brief.site.exposure,
        species=board.species,
        groove_mm=board.groove_mm,
        hollow=board.hollow,
        turnable=board.turnable,
        board_length_mm=articles.tile.length_mm
        if articles.tile
        else longest_board_mm(brief, articles),
        support=brief.board.support or "frame",
        clip_gap_mm=articles.clip.gap_mm if articles.clip else None,
        laying_c=climate.laying_c,
        hottest_c=climate.hottest_board_c,
        coldest_c=climate.coldest_board_c,
        laying_pct=laying_pct_of(climate),
        wettest_pct=climate.wettest_pct,
        driest_pct=climate.driest_pct,
        durability_class=board.durability_class,
        finished=articles.finish is not None,
    )


def longest_board_mm(brief: Brief, articles: Articles) -> float:
    """Return the longest a piece of board may be: as long as a row, or as what is on sale."""
    return max(0.0, min(_usable_mm(brief, articles), _row_mm(brief)))


def could_be_whole(brief: Brief, articles: Articles) -> bool:
    """Return whether a row is no longer than the longest board on sale, trims reckoned in."""
    return _row_mm(brief) <= _usable_mm(brief, articles)


def _usable_mm(brief: Brief, articles: Articles) -> float:
    on_sale = [entry.length_mm for entry in articles.board.lengths if entry.limit != 0]
    return max(on_sale, default=0.0) - 2 * brief.cutting.end_trim_mm


def _row_mm(brief: Brief) -> float:
    """Return how long a row is laid, before any trim."""
    if is_outlined(brief):  # as long as the box around the outline is from corner to corner
        return math.hypot(brief.cover.along_mm, brief.cover.across_mm)
    along = brief.board.run == "along"
    row_mm = brief.cover.along_mm if along else brief.cover.across_mm
    return row_mm + 2 * (brief.board.trim_allowance_mm or 0.0)


def laying_pct_of(climate: ClimateWish) -> float | None:
    """Return the boards' moisture content on laying day: as told, else as the air has it."""
    if climate.laying_pct is not None:
        return climate.laying_pct
    if climate.laying_humidity_ratio is None or climate.laying_c is None:
        return None
    air = equilibrium_moisture(
        temperature_c=climate.laying_c, humidity_ratio=climate.laying_humidity_ratio
    )
    return air.moisture_pct


def asking(brief: Brief, articles: Articles, families: FamilySet) -> Asking:
    """Return what families are asked with, once for all questions."""
    asked = Asking(
        brief=brief, articles=articles, families=families, query=rule_query(brief, articles)
    )
    if brief.climate == ClimateWish():
        return asked
    hottest_c = asked.query.hottest_c
    if hottest_c is None:
        hottest_c = _value(asked, "hottest_board_c")
    query = evolve(
        asked.query,
        growth_per_k=_value(asked, "growth_per_k"),
        movement_per_pct=_value(asked, "movement_per_pct"),
        hottest_c=hottest_c,
    )
    return evolve(asked, query=query)


def _value(asked: Asking, rule: str) -> float | None:
    found = record_of(asked.articles, rule) or ask(
        asked.families, asked.articles.board.family, rule, asked.query
    )
    return None if isinstance(found, RuleFault) else float(found.value or 0)


def record_of(articles: Articles, rule: str) -> Ruling | None:
    """Return the merchant's own rule for the board, None where its record tells none."""
    for own in recorded(articles.board):
        if own.rule == rule:
            return Ruling(
                value=own.value,
                unit=QUESTIONS[rule][0],
                rule=f"merchant's {rule} for {articles.board.code}",
                source=own.source,
                inputs=(("board", articles.board.code),),
            )
    return None


def recorded(board: Board) -> tuple[ArticleRule, ...]:
    """Return a board's own rules; whether a piece may be turned end for end is one of them."""
    if board.turnable is None:
        return board.rules
    source = Source(kind="merchant record", title="the stock catalogue", clause="turnable")
    return (
        *board.rules,
        ArticleRule(rule="handed", value=float(not board.turnable), source=source),
    )
