"""What families and merchants say of the years: lives, and hours of upkeep."""

from math import floor

from attrs import evolve, frozen

from drylay.brief.model import Brief
from drylay.compare.model import Lives
from drylay.findings import Finding, Severity
from drylay.materials.model import RULE_BOUNDS
from drylay.planner.asking import asking, record_of
from drylay.planner.job import Articles
from drylay.planner.rules import merchant_or_family
from drylay.plugins.model import FamilySet, RuleFault
from drylay.reasons import Reasons, Ruling, Source, adopt

UPKEEP = "upkeep_h_m2_year"
#: Each life of `Lives`, and the rule that tells it.
LIVES = {
    "surface_least_years": "life_least_years",
    "surface_most_years": "life_most_years",
    "frame_least_years": "frame_life_least_years",
    "frame_most_years": "frame_life_most_years",
}
#: Ends of a range, in order.
RANGES = (
    ("life_least_years", "life_most_years"),
    ("frame_life_least_years", "frame_life_most_years"),
)
#: Rules on the surface alone.
OF_SURFACES = RANGES[0]
SENSE = Source(kind="assumption", title="bounds of sense of a rule's answer")
#: Tiles on pads have no frame that a family could tell the life of.
PADS_UNTOLD = (
    "not known: plastic pads govern, not the tiles on them, and no record tells how long these "
    "last; what their maker tells goes into the tile's record"
)
UNTOLD = Source(kind="arithmetic", title="a figure that nobody tells is not known")


@frozen(kw_only=True)
class YearsTold:
    """What was told of the years: hours of upkeep of a square metre, lives, and by whom."""

    upkeep_h_m2_year: float | None
    lives: Lives
    reasons: Reasons
    remarks: tuple[Finding, ...]


def ask_years(brief: Brief, articles: Articles, families: FamilySet) -> YearsTold:
    """Return what the merchant's record, else the family, says of the years.

    Lives are counted in whole years, a part of one left off. How long pads last no family is
    asked: a record tells it, or it is not known.
    """
    asked = asking(brief, articles, families)
    told: dict[str, Ruling] = {}
    remarks: list[Finding] = []
    on_pads = brief.board.support == "pads"
    for rule in (UPKEEP, *LIVES.values()):
        padded = on_pads and rule not in (UPKEEP, *OF_SURFACES)
        answer = record_of(articles, rule) if padded else merchant_or_family(asked, rule)
        wrong = _untold(rule, PADS_UNTOLD) if answer is None else _not_known(rule, answer)
        if isinstance(answer, Ruling) and wrong is None:
            told[rule] = answer if rule == UPKEEP else _whole(answer)
        elif wrong is not None:
            remarks.append(wrong)
    remarks += _upside_down(told)
    reasons = Reasons()
    for rule, ruling in told.items():
        reasons = adopt(reasons, rule, ruling.value, ruling)
    return YearsTold(
        upkeep_h_m2_year=_figure(told, UPKEEP),
        lives=Lives(**{name: _years(told, rule) for name, rule in LIVES.items()}),
        reasons=reasons,
        remarks=tuple(remarks),
    )


def _figure(told: dict[str, Ruling], rule: str) -> float | None:
    return float(told[rule].value or 0) if rule in told else None


def _years(told: dict[str, Ruling], rule: str) -> int | None:
    return int(told[rule].value or 0) if rule in told else None


def _whole(ruling: Ruling) -> Ruling:
    years = floor(float(ruling.value or 0))
    if years == ruling.value:
        return evolve(ruling, value=years)
    return evolve(ruling, value=years, inputs=(*ruling.inputs, ("answered", ruling.value)))


def _untold(rule: str, message: str) -> Finding:
    return Finding(
        code="LIF-002", severity=Severity.NOTE, subject=rule, message=message, source=UNTOLD
    )


def _not_known(rule: str, answer: Ruling | RuleFault) -> Finding | None:
    """Return why a figure is not known, None where it is."""
    if isinstance(answer, RuleFault):
        return _untold(rule, f"not known: {answer.kind}: {answer.wrong}")
    least, most = RULE_BOUNDS[rule]
    value = float(answer.value or 0)
    if least <= value <= most:
        return None
    return Finding(
        code="LIF-003",
        severity=Severity.CAUTION,
        subject=rule,
        message=f"not known: {answer.rule} gives a figure beyond sense, look for a slip in it",
        measured=value,
        limit=least if value < least else most,
        unit=answer.unit,
        source=answer.source,
    )


def _upside_down(told: dict[str, Ruling]) -> list[Finding]:
    """Return what is to be told of ranges that contradict themselves, and take them out."""
    found = []
    for least, most in RANGES:
        low, high = _figure(told, least), _figure(told, most)
        if low is None or high is None or low <= high:
            continue
        source = told[least].source
        del told[least], told[most]
        found.append(
            Finding(
                code="LIF-004",
                severity=Severity.CAUTION,
                subject=least,
                message="not known: the least life told is longer than the most",
                measured=low,
                limit=high,
                unit="years",
                source=source,
            )
        )
    return found
