"""Bearers, posts and braces against the order: each sawn once, to its length, and no other."""

from collections.abc import Iterator

from drylay.audit.flaws import need, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import RAISED, deck_of, stand_of, stopped
from drylay.audit.wanted import wanted_standing
from drylay.plan.model import Plan


def timber_that_stands_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless bearers and posts are told as what they are made of, and bought as."""
    deck = deck_of(plan)
    for wanted in wanted_standing(plan):
        what = wanted.purchase.what if wanted.purchase is not None else wanted.name
        yield from same_text(wanted.article, "bought as", what, wanted.name, RAISED)
    for name, code in (("bearer", deck.bearer_article), ("post", deck.post_article)):
        if getattr(deck, name).split()[-1:] != [code]:
            message = f"told as {getattr(deck, name)!r}, made of {code!r}"
            yield Flaw(subject=f"raised.{name}", message=message, source=RAISED)
    for bearer in deck.frame.bearers:
        if deck.bearer.split()[:1] != [str(bearer.section.plies)]:
            message = f"of {bearer.section.plies} plies, told as {deck.bearer!r}"
            yield Flaw(subject=bearer.mark, message=message, source=RAISED)


def findings_are_the_plans(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a deck that stands keeps findings to itself, or is not buildable."""
    stand = stand_of(plan)
    if stand.findings:
        message = "findings of a deck that stands are the plan's"
        yield Flaw(subject="raised.frame.findings", message=message, source=RAISED)
    if not stand.buildable and not stopped(plan):
        message = "told not to be buildable, and nothing stops the plan"
        yield Flaw(subject="raised.frame.buildable", message=message, source=RAISED)


def decks_that_stand_are_whole(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a buildable deck stands unscreened or on nothing."""
    need(plan.raised, "deck that stands")
    if not stopped(plan):
        for name in ("strength", "footings"):
            if getattr(plan, name) is None:
                message = "a deck stands, and this part is missing"
                yield Flaw(subject=name, message=message, source=RAISED)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-327", "timber that stands is bought as what it is told to be",
     timber_that_stands_is_told),
    ("AUD-329", "findings of a deck that stands are the plan's", findings_are_the_plans),
    ("AUD-328", "a deck that stands is screened, and has footings", decks_that_stand_are_whole),
)  # fmt: skip
