"""Which rule governs: a named override, then the brief, then the merchant, then the family.

The planner alone asks families, through the guard, and hands the rooms plain numbers. A
brief may tighten a rule. Where it loosens one, the brief's figure stands and a finding says
by how much; loosening the joist centres is a stop, since a board that spans too far fails
under foot: that takes a named person's override.
"""

from attrs import evolve

from drylay.brief.model import Brief
from drylay.findings import Finding, Severity
from drylay.materials.model import QUESTIONS, RULE_BOUNDS
from drylay.materials.stock_model import Clip
from drylay.planner.asking import Asking, asking, could_be_whole, record_of
from drylay.planner.brought_down import RULE as CENTRES
from drylay.planner.brought_down import brought_down
from drylay.planner.governed import DAILY, GOVERNED, JOISTS, MOIST, SLIP, GovernedPath
from drylay.planner.job import Articles, Governance
from drylay.planner.stood import hung
from drylay.planner.stood_in import assumed, in_public, stands_in
from drylay.plugins.guard import ask
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Inputs, Ruling, Source


def all_heads_sunk(brief: Brief) -> bool:
    """Return whether both rims carry a fascia, so that all coach screw heads are sunk.

    Where joists hang between bearers there are no heads.
    """
    if hung(brief):
        return False
    rim_sides = {"house", "front"} if brief.board.run == "along" else {"left", "right"}
    return rim_sides <= set(brief.fascia.sides)


def ask_family(asked: Asking, rule: str) -> Ruling | RuleFault:
    """Return the family's own ruling, through the guard.

    A coach screw's least length is asked for the rim whose head is not sunk, if there is one.
    """
    query, family = asked.query, asked.articles.board.family
    if rule == "coach_screw_length_least_mm" and all_heads_sunk(asked.brief):
        sunk = merchant_or_family(asked, "coach_screw_sink_mm")
        if isinstance(sunk, RuleFault):
            return sunk
        query = evolve(query, head_sunk_mm=float(sunk.value or 0))
    return ask(asked.families, family, rule, query)


def merchant_or_family(asked: Asking, rule: str) -> Ruling | RuleFault:
    """Return the merchant's own rule for the article, else the family's."""
    record = record_of(asked.articles, rule)
    if record is None:
        return ask_family(asked, rule)
    return brought_down(asked, record) if rule == CENTRES else record


def govern(
    brief: Brief,
    articles: Articles,
    families: FamilySet,
    paths: tuple[GovernedPath, ...] = GOVERNED,
) -> Governance:
    """Return the ruling that governs each path, with findings on every conflict.

    How boards move in heat and damp is ruled only where the brief tells of laying day.
    """
    asked = asking(brief, articles, families)
    rulings: dict[str, Ruling] = {}
    findings: list[Finding] = []
    boards = articles.tile is None
    warm = boards and brief.climate.laying_c is not None
    damp = boards and asked.query.laying_pct is not None
    daily = (*(DAILY if warm else ()), *(MOIST if damp else ()), SLIP)
    for governed in (*paths, *daily):
        ruling, found = _govern_one(asked, governed, optional=governed in daily)
        rulings |= {governed.path: ruling} if ruling is not None else {}
        findings += found
    return _gap_in_order(Governance(rulings=rulings, findings=tuple(findings)), articles.clip)


def _govern_one(
    asked: Asking, governed: GovernedPath, *, optional: bool = False
) -> tuple[Ruling | None, list[Finding]]:
    """Return the ruling on one path, None where there is none, and what is to be said of it."""
    brief, wish = asked.brief, governed.wish(asked.brief)
    found = merchant_or_family(asked, governed.rule)
    override = _override(brief, governed, found)
    if override is not None:
        return override, [_overridden(governed, override, found)]
    if isinstance(found, RuleFault):
        if optional:
            return (None if wish is None else _wished(governed, wish, found)), []
        if governed.rule == "end_gap_mm" and asked.articles.tile is None:
            return _end_gap_not_covered(asked, governed, found)
        return None, [not_covered(governed, found)]
    if _beyond(governed, found) is not None:
        return None, [_not_to_be_built(governed, found)]
    findings = _looser_than_family(governed, found, asked)
    if findings:  # what the record outranks stands beside it, as with wishes and overrides
        found = evolve(found, inputs=(*found.inputs, ("family", findings[0].limit)))
    if governed.rule == CENTRES and record_of(asked.articles, CENTRES) is None:
        findings = assumed(asked, governed.path, found)
    if governed.rule == CENTRES:
        walked_mm = float(found.value or 0) if wish is None else wish
        findings += in_public(asked, governed.path, walked_mm)
    if wish is None:
        return found, findings
    if (wish - float(found.value or 0)) * governed.looser > 0 and not _as_good(asked, governed):
        findings.append(_loosened(governed, wish, found))
    return _wished(governed, wish, found), findings


def _as_good(asked: Asking, governed: GovernedPath) -> bool:
    """Return whether the brief's batten under a joint is as good as the pair that is ruled."""
    if governed.path != JOISTS or asked.brief.joints.support != "batten":
        return False
    found = merchant_or_family(asked, "batten_for_pair")
    return isinstance(found, Ruling) and found.value == 1


def _end_gap_not_covered(
    asked: Asking, governed: GovernedPath, fault: RuleFault
) -> tuple[Ruling | None, list[Finding]]:
    """Return that no gap is asked for where the brief wants no joints; else the stop, with that."""
    brief, wish = asked.brief, governed.wish(asked.brief)
    if brief.joints.most_per_row == 0:
        return (_no_joints(governed) if wish is None else _wished(governed, wish, fault)), []
    stop = not_covered(governed, fault)
    if not could_be_whole(brief, asked.articles):
        return None, [stop]
    way = "; or ask for rows in one piece, joints.most_per_row = 0: then no end gap is asked for"
    return None, [evolve(stop, message=stop.message + way)]


def _no_joints(governed: GovernedPath) -> Ruling:
    return Ruling(
        value=0.0,
        unit=QUESTIONS[governed.rule][0],
        rule="no row has a joint, and nobody asks how far apart board ends would be",
        source=Source(kind="brief", title="the brief", clause="joints.most_per_row"),
        inputs=(("most_joints_per_row", 0),),
    )


def not_covered(governed: GovernedPath, fault: RuleFault) -> Finding:
    """Return the stop for a rule that no family answers."""
    return Finding(
        code="MAT-001",
        severity=Severity.STOP,
        subject=governed.path,
        message=f"no rule to build by: {fault}",
        source=Source(kind="arithmetic", title="a rule not covered is a stop"),
    )


def _beyond(governed: GovernedPath, found: Ruling) -> float | None:
    """Return the bound of sense that a rule's answer is beyond, None where it keeps both."""
    least, most = RULE_BOUNDS[governed.rule]
    value = float(found.value or 0)
    return least if value < least else most if value > most else None


def _looser_than_family(governed: GovernedPath, found: Ruling, asked: Asking) -> list[Finding]:
    """Return what is to be told where the merchant's record asks less than the family does."""
    outranking = any(own.rule == governed.rule for own in asked.articles.board.rules)
    if not governed.looser or not outranking or stands_in(asked, governed.rule):
        return []
    family = ask_family(asked, governed.rule)
    if isinstance(family, RuleFault):
        return []
    value, limit = float(found.value or 0), float(family.value or 0)
    if (value - limit) * governed.looser <= 0:
        return []
    return [
        Finding(
            code="MAT-004",
            severity=Severity.CAUTION,
            subject=governed.path,
            message=f"{found.rule}: looser than the family's {family.rule}, which it outranks"
            f"{_standing(family.source)}: make sure the maker says so",
            measured=value,
            limit=limit,
            unit=found.unit,
            source=family.source,
        )
    ]


#: What a figure is worth that neither a maker nor a code gives, by the kind of its source.
STANDING = {
    "assumption": "an assumption of drylay's, no maker's or code's figure",
    "common practice": "common practice, no maker's or code's figure",
    "from memory": "quoted from memory, not read beside its book",
}


def _standing(source: Source) -> str:
    """Return what a limit is worth, in brackets; nothing where a book or a person speaks."""
    told = STANDING.get(source.kind)
    return f" ({told})" if told else ""


def _not_to_be_built(governed: GovernedPath, found: Ruling) -> Finding:
    return Finding(
        code="MAT-003",
        severity=Severity.STOP,
        subject=governed.path,
        message=f"{found.rule} gives a figure that nobody builds to: look for a slip in it",
        measured=float(found.value or 0),
        limit=_beyond(governed, found),
        unit=found.unit,
        source=found.source,
    )


def _override(
    brief: Brief, governed: GovernedPath, instead_of: Ruling | RuleFault
) -> Ruling | None:
    for override in brief.overrides:
        if override.path == governed.path:
            whole = override.unit == "count"
            return Ruling(
                value=int(override.value) if whole else override.value,
                unit=override.unit,
                rule=f"override: {override.reason}",
                source=Source(kind="named person's override", title=override.by),
                inputs=_otherwise(instead_of),
            )
    return None


def _otherwise(instead_of: Ruling | RuleFault) -> Inputs:
    """Return what would hold if nobody outranked it, and who says so."""
    if isinstance(instead_of, RuleFault):
        return (("otherwise", None), ("otherwise_by", "a rule not covered"))
    family = tuple(given for given in instead_of.inputs if given[0] == "family")
    return (("otherwise", instead_of.value), ("otherwise_by", instead_of.rule), *family)


def _wished(governed: GovernedPath, wish: float, instead_of: Ruling | RuleFault) -> Ruling:
    return Ruling(
        value=wish,
        unit=QUESTIONS[governed.rule][0],
        rule="as the brief wishes",
        source=Source(kind="brief", title="the brief", clause=governed.wished_at),
        inputs=_otherwise(instead_of),
    )


def _overridden(governed: GovernedPath, override: Ruling, found: Ruling | RuleFault) -> Finding:
    instead = "a rule not covered" if isinstance(found, RuleFault) else found.rule
    return Finding(
        code="OVR-001",
        severity=Severity.CAUTION,
        subject=governed.path,
        message=f"{override.source.title} overrides {instead}: {override.rule[10:]}",
        measured=float(override.value or 0),
        limit=None if isinstance(found, RuleFault) else float(found.value or 0),
        unit=override.unit,
        source=override.source,
    )


def _loosened(governed: GovernedPath, wish: float, found: Ruling) -> Finding:
    stop = governed.severity is Severity.STOP
    fix = "; keep to it, or give a named override with its reason" if stop else ""
    return Finding(
        code="MAT-002",
        severity=governed.severity,
        subject=governed.path,
        message=f"the brief's {governed.wished_at} is looser than {found.rule}"
        f"{_standing(found.source)}{fix}",
        measured=wish,
        limit=float(found.value or 0),
        unit=QUESTIONS[governed.rule][0],
        source=found.source,
    )


def _gap_in_order(rules: Governance, clip: Clip | None) -> Governance:
    """Return the rules with the preferred gap inside its range, or a stop where it cannot be."""
    paths = [f"surface.gap_{name}_mm" for name in ("least", "preferred", "most")]
    if not set(paths) <= set(rules.rulings):
        return rules
    least, preferred, most = (rules.value(path) for path in paths)
    if least <= preferred <= most:
        return rules
    ruling = rules.rulings[paths[1]]
    if least <= most and ruling.source.kind not in {"brief", "named person's override"}:
        return _gap_moved(rules, paths[1], min(max(preferred, least), most))
    stop = Finding(
        code="GAP-001",
        severity=Severity.STOP,
        subject="surface.gap_preferred_mm",
        message=_no_gap_told(least, most, clip),
        measured=preferred,
        limit=most if preferred > most else least,
        unit="mm",
        source=rules.source(paths[2] if preferred > most else paths[0]),
    )
    kept = dict(rules.rulings)
    if least > most:  # with no gap at all there are no rows to lay out
        del kept[paths[1]]
    return evolve(rules, rulings=kept, findings=(*rules.findings, stop))


def _gap_moved(rules: Governance, path: str, moved_mm: float) -> Governance:
    """Return the rules with a gap that nobody wished moved into its range, and told."""
    ruling = rules.rulings[path]
    inside = evolve(
        ruling,
        value=moved_mm,
        rule=f"{ruling.rule}, moved into the range of gaps that governs",
        inputs=(*ruling.inputs, ("otherwise", ruling.value)),
    )
    note = Finding(
        code="GAP-002",
        severity=Severity.NOTE,
        subject=path,
        message=f"the gap to aim for, {ruling.rule}, was moved into the range that governs",
        measured=float(ruling.value or 0),
        limit=moved_mm,
        unit="mm",
        source=ruling.source,
    )
    rulings = {**rules.rulings, path: inside}
    return evolve(rules, rulings=rulings, findings=(*rules.findings, note))


def _no_gap_told(least: float, most: float, clip: Clip | None) -> str:
    if clip is not None and clip.gap_mm is not None:
        return (
            f"the clip {clip.code} leaves a gap of {clip.gap_mm:g} mm and no other: leave the wish "
            "for another one out, or name a clip that leaves it"
        )
    if least > most:
        return (
            f"no gap can be {least:g} mm or more and {most:g} mm or less: brief, merchant and "
            "family contradict each other; say both ends of the range, or name an override"
        )
    return (
        f"the preferred gap lies outside its range of {least:g} to {most:g} mm; "
        "change the wish, or give a named override for the range"
    )
