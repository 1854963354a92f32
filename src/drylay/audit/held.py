"""The witnessed audit of what holds the frame: as the brief names it, as the merchant sells it."""

import re
from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.fixings import fixings_of, never_hung
from drylay.audit.flaws import conventions, need, same_count, same_length, same_text
from drylay.audit.holding import into_of, least_class
from drylay.audit.model import Flaw, Witness, WitnessedCheck
from drylay.audit.shops import stock_of
from drylay.materials.stock_model import (
    Board,
    Catalogue,
    Clip,
    CoachScrew,
    FasciaBoard,
    Hanger,
    Screw,
    Timber,
)
from drylay.plan.model import Plan

BRIEF = conventions("The brief's own wish")
SOLD = conventions("Buying; what is on sale")
METALS = conventions("Metals and treatment")
#: How a record begins that tells of no treatment, and the highest durability class of bare wood
#: that lasts in a use class: EN 460, table 1, from memory, as docs/conventions.md has it.
BARE = ("none", "untreated", "not treated", "no treatment")
LASTS = {2: 3, 3: 2, 4: 1, 5: 1}
#: All screws of a plan, by its names.
SCREWS = (
    "deck_screws", "border_screws", "coach_screws", "frame_screws", "double_screws",
    "fascia_screws",
)  # fmt: skip
#: Each fixing that the brief may leave out, by the brief's key and the plan's name.
NAMED = {"frame_screw": "frame_screws", "fascia_screw": "fascia_screws", "hanger": "hangers"}


def holding_as_wished(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless frame screws, fascia screws and hangers are those the brief names."""
    brief, fixings = need(witness.brief, "brief as witness"), fixings_of(plan)
    frame = need(plan.frame, "frame")
    idle = {
        "frame_screw": not (frame.noggins or frame.splices or frame.battens),
        "fascia_screw": not brief.fascia.sides,
        "hanger": len(frame.joists) <= len(never_hung(plan)),
    }
    for key, name in NAMED.items():
        part, wish = getattr(fixings, name), getattr(brief.fixings, key)
        found = "" if part is None else part.article
        wanted = "" if wish is None or idle.get(key) else wish
        yield from same_text(f"fixings.{name}", "not the brief's article", found, wanted, BRIEF)


def _sold(stock: Catalogue) -> dict[str, Screw | CoachScrew | Hanger | Clip]:
    articles: tuple[Screw | CoachScrew | Hanger | Clip, ...]
    articles = (*stock.screws, *stock.coach_screws, *stock.hangers, *stock.clips)
    return {article.code: article for article in articles}


def holding_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless sizes, drivers and screws of hangers are those of the articles."""
    fixings, sold = fixings_of(plan), _sold(stock_of(witness))
    for name in SCREWS:
        screws = getattr(fixings, name)
        if screws is not None:
            article = need(sold.get(screws.article), f"article {screws.article!r} in the stock")
            yield from _screw_as_sold(f"fixings.{name}", screws, article)
    hung = fixings.hangers
    if hung is not None:
        hanger = need(sold.get(hung.article), f"article {hung.article!r} in the stock")
        yield from _hanger_as_sold(plan, hanger, sold)


def _screw_as_sold(path: str, screws: object, article: object) -> Iterator[Flaw]:
    for field in ("shank_mm", "length_mm"):
        told, size = getattr(screws, field), ticks(getattr(article, field))
        yield from same_length(f"{path}.{field}", "not the article's size", told, size, SOLD)
    driver = getattr(screws, "driver", "")
    wanted = getattr(article, "driver", "")
    yield from same_text(f"{path}.driver", "not the article's driver", driver, wanted, SOLD)


def _hanger_as_sold(
    plan: Plan, article: object, sold: dict[str, Screw | CoachScrew | Hanger | Clip]
) -> Iterator[Flaw]:
    hung, path = need(fixings_of(plan).hangers, "hangers"), "fixings.hangers"
    hanger = need(article if isinstance(article, Hanger) else None, "hanger in the stock")
    for field in ("joist_mm", "depth_mm"):
        size = ticks(getattr(hanger, field))
        message = "not the article's size"
        yield from same_length(f"{path}.{field}", message, getattr(hung, field), size, SOLD)
    yield from same_text(f"{path}.screw", "not the hanger's screw", hung.screw, hanger.screw, SOLD)
    message, each = "not as many as the hanger takes", hanger.screws_each
    yield from same_count(f"{path}.screws_each", message, hung.screws_each, each, SOLD)
    screw = need(sold.get(hung.screw), f"article {hung.screw!r} in the stock")
    for field in ("shank_mm", "length_mm"):
        told, size = getattr(hung, f"screw_{field}"), ticks(getattr(screw, field))
        message = "not the article's size"
        yield from same_length(f"{path}.screw_{field}", message, told, size, SOLD)
    wanted = getattr(screw, "driver", "")
    yield from same_text(f"{path}.driver", "not the article's driver", hung.driver, wanted, SOLD)


def metals_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless each fixing's metal is that of its article in the stock."""
    sold = _sold(stock_of(witness))
    for index, metal in enumerate(fixings_of(plan).metals):
        article = sold.get(metal.article)
        wanted = "" if article is None else article.metal
        subject = f"fixings.metals[{index}].metal"
        yield from same_text(subject, "not its metal", metal.metal, wanted, SOLD)


def metals_as_ruled(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless each metal is allowed just where all who rule on it say so."""
    rulings = dict(need(witness.rulings, "families' own answers"))
    edged = need(plan.surface, "surface").border is not None
    for index, metal in enumerate(fixings_of(plan).metals):
        asked = [
            need(
                rulings.get(f"{of}metal in {into_of(plan, metal.what)}: {metal.metal}"),
                f"family's answer on {metal.metal}",
            )
            for of in _who_rules(metal.what, edged=edged)
        ]
        if metal.allowed != all(ruling.value == 1 for ruling in asked):
            subject = f"fixings.metals[{index}].allowed"
            message = f"{metal.metal}: the family says otherwise"
            yield Flaw(subject=subject, message=message, source=asked[0].source)


def _who_rules(what: str, *, edged: bool) -> tuple[str, ...]:
    """Return whose family rules on a metal: of the boards that it holds, of a frame under both."""
    if not edged or what == "deck screws":
        return ("",)
    return ("border ",) if what == "border screws" else ("", "border ")


def use_classes_as_sold(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless each use class is that of its article in the stock."""
    stock = stock_of(witness)
    timbers: tuple[Board | Timber | FasciaBoard, ...]
    timbers = (*stock.boards, *stock.timbers, *stock.fascias)
    sold = {article.code: article.use_class for article in timbers}
    for index, row in enumerate(fixings_of(plan).use_classes):
        if row.article not in sold or row.use_class != sold[row.article]:
            yield Flaw(
                subject=f"fixings.use_classes[{index}].use_class",
                message=f"{row.article}: not the use class it is sold as",
                measured=row.use_class,
                limit=sold.get(row.article),
                source=SOLD,
            )


def bare_timber_is_refused(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw for timber that its record calls untreated and that would not last there."""
    stock, fixings = stock_of(witness), fixings_of(plan)
    timbers: tuple[Board | Timber | FasciaBoard, ...]
    timbers = (*stock.boards, *stock.timbers, *stock.fascias)
    sold = {article.code: article for article in timbers}
    for row in fixings.use_classes:
        least, article = least_class(fixings, row.what) or 1, sold.get(row.article)
        if article is None or least < 2 or not article.treatment.lower().startswith(BARE):
            continue
        lasts = article.durability_class is not None and article.durability_class <= LASTS[least]
        if not lasts:
            yield Flaw(
                subject=f"fixings.use_classes: {row.what}",
                message=f"{row.article} is sold untreated, and use class {least} is asked",
                measured=article.durability_class,
                limit=LASTS[least],
                source=SOLD,
            )


def spruce_is_told(plan: Plan, witness: Witness) -> Iterator[Flaw]:
    """Yield a flaw unless it is told just of a frame of spruce that is not incised."""
    frame, stock = need(plan.frame, "frame"), stock_of(witness)
    sold = next((each for each in stock.timbers if each.code == frame.timber_article), None)
    species, treatment = (sold.species, sold.treatment) if sold else ("", "")
    words, treated = (re.findall(r"\w+", each.casefold()) for each in (species, treatment))
    spruce = "spruce" in words and "incised" not in treated
    if spruce != any(finding.code == "MAT-008" for finding in plan.findings):
        message = "spruce, and no finding tells" if spruce else "told of a frame that is not spruce"
        yield Flaw(subject="frame.timber_article", message=message, source=SOLD)


CHECKS: tuple[tuple[str, str, WitnessedCheck], ...] = (
    ("AUD-W31", "what holds frame, fascia and joists is as the brief names it", holding_as_wished),
    ("AUD-W32", "screws and hangers have the sizes and drivers they are sold with",
     holding_as_sold),
    ("AUD-W33", "metals of fixings are as sold", metals_as_sold),
    ("AUD-W34", "metals are allowed as the family answers", metals_as_ruled),
    ("AUD-W35", "use classes are as sold", use_classes_as_sold),
    ("AUD-W39", "timber sold untreated lasts where it stands", bare_timber_is_refused),
    ("AUD-W95", "a frame of spruce is told of", spruce_is_told),
)  # fmt: skip
