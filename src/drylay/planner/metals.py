"""Metals of the fixings: what the family says to each, in this timber and this place."""

from itertools import product

from attrs import evolve

from drylay.brief.model import Brief
from drylay.findings import Finding, Severity
from drylay.materials.stock_model import METALS, Clip, CoachScrew, Hanger, Screw
from drylay.planner.asking import rule_query
from drylay.planner.job import Articles, DrivenMetal, Governance, Job
from drylay.plugins.guard import ask
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Ruling, Source

Fixing = Screw | CoachScrew | Hanger | Clip


def metal_fixings(articles: Articles, doubles: Screw | None = None) -> list[tuple[str, Fixing]]:
    """Return what each fixing is for, and its article; a fascia screw only with a fascia.

    `doubles` is the screw that makes two timbers one, which no brief names.

    An end cap that is of no metal is left out.
    """
    counted: list[tuple[str, Fixing | None]] = [
        ("deck screws", articles.screw),
        ("border screws", (articles.border_screw or articles.screw) if articles.border else None),
        ("coach screws", articles.coach_screw),
        ("frame screws", articles.frame_screw),
        ("screws of doubles", doubles),
        ("fascia screws", articles.fascia_screw if articles.fascia else None),
        ("hangers", articles.hanger),
        ("hanger screws", articles.hanger_screw),
        ("clips", articles.clip),
        ("starter clips", articles.starter_clip),
        ("end caps", articles.end_cap),
    ]
    return [
        (what, article)
        for what, article in counted
        if article is not None and article.code and article.metal
    ]


#: What fixings are driven into, but for hangers and theirs.
INTO = {
    "deck screws": "board", "border screws": "board", "clips": "board", "starter clips": "board",
    "end caps": "board", "coach screws": "frame", "frame screws": "frame",
    "screws of doubles": "frame", "fascia screws": "fascia",
}  # fmt: skip


def driven_into(articles: Articles, what: str) -> str:
    """Return what a fixing is driven into: a hanger as deep as its joist touches the boards too."""
    if what in INTO:
        return INTO[what]
    hanger = articles.hanger
    reaches = hanger is not None and hanger.depth_mm >= articles.timber.depth_mm
    return "board" if reaches else "frame"


def ask_metals(
    brief: Brief, articles: Articles, families: FamilySet
) -> dict[DrivenMetal, Ruling | RuleFault]:
    """Return what the boards' family answers to each metal, driven into all that fixings are.

    Of a fascia it is asked by the fascia's own species, where its record tells one.
    """
    query, family = rule_query(brief, articles), articles.board.family
    fascia = articles.fascia.species if articles.fascia else ""
    queries = {"fascia": evolve(query, species=fascia or query.species)}
    intos = dict.fromkeys(driven_into(articles, what) for what, _ in metal_fixings(articles))
    return {
        (into, metal): ask(
            families,
            family,
            "metal_allowed",
            evolve(queries.get(into, query), driven_into=into, metal=metal),
        )
        for into, metal in product(intos, METALS)
    }


def with_metals(
    rules: Governance, brief: Brief, articles: Articles, families: FamilySet
) -> Governance:
    """Return the rules with those on metals; a used metal that nobody rules on is a stop."""
    answers = ask_metals(brief, articles, families)
    used = [
        (driven_into(articles, what), article.metal) for what, article in metal_fixings(articles)
    ]
    stops = dict.fromkeys(
        _not_ruled(driven[1], fault)
        for driven in used
        if isinstance(fault := answers.get(driven), RuleFault)
    )
    rulings = {driven: ruling for driven, ruling in answers.items() if isinstance(ruling, Ruling)}
    return evolve(rules, metals=rulings, findings=(*rules.findings, *stops))


def _not_ruled(metal: str, fault: RuleFault) -> Finding:
    return Finding(
        code="MAT-001",
        severity=Severity.STOP,
        subject=f"fixings of {metal}",
        message=f"no rule to build by: {fault}",
        source=Source(kind="arithmetic", title="a rule not covered is a stop"),
    )


def metal_rulings(job: Job, what: str) -> list[dict[str, Ruling]]:
    """Return who rules on the metal of a fixing, by metal: the family of what it holds.

    Of what is driven into a frame or a fascia both families do, where there is a border.
    """
    into = driven_into(job.articles, what)
    return [
        {metal: ruling for (driven, metal), ruling in rulings.items() if driven == into}
        for rulings in _who_rules(job, what)
    ]


def _who_rules(job: Job, what: str) -> list[dict[DrivenMetal, Ruling]]:
    rules = job.rules
    if job.articles.border is None or what == "deck screws":
        return [rules.metals]
    return [rules.border_metals] if what == "border screws" else [rules.metals, rules.border_metals]


def metal_ruling(job: Job, what: str, metal: str) -> Ruling | None:
    """Return the ruling on a fixing's metal, one that refuses it before one that allows it."""
    found = [rulings[metal] for rulings in metal_rulings(job, what) if metal in rulings]
    return min(found, key=lambda ruling: float(ruling.value or 0), default=None)
