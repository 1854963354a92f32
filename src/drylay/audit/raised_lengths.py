"""Bearers, posts and braces against the order: each sawn once, to its length, and no other."""

from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.flaws import need, same_count
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.raised_parts import RAISED, deck_of, stand_of, stopped
from drylay.audit.standing_timber import standing_pieces
from drylay.plan.model import Plan


def timber_that_stands_is_told(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless pieces sawn are what bearers, posts and braces come to, told as such."""
    deck = deck_of(plan)
    told = [(piece.kind, piece.mark, ticks(piece.length_mm)) for piece in deck.pieces]
    wanted = standing_pieces(plan, deck)
    for piece in sorted({*told, *wanted}):
        message = f"{piece[0]} of this length, sawn"
        found, due = told.count(piece), wanted.count(piece)
        yield from same_count(piece[1], message, found, due, RAISED)
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
    parts = ("strength",) if _on_screws(plan) else ("strength", "footings")
    for name in () if stopped(plan) else parts:
        if getattr(plan, name) is None:
            message = "a deck stands, and this part is missing"
            yield Flaw(subject=name, message=message, source=RAISED)


def _on_screws(plan: Plan) -> bool:
    """Whether a finding tells that ground screws bear every post by what their maker declares."""
    posts = plan.strength.posts if plan.strength is not None else ()
    most = max((post.dead_kn + post.live_kn for post in posts), default=0.0)
    told = [f for f in plan.findings if f.subject == "ground screw" and f.limit is not None]
    return any(most - 1e-3 <= (f.measured or 0.0) <= (f.limit or 0.0) for f in told)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-327", "what is sawn is what bearers, posts and braces come to",
     timber_that_stands_is_told),
    ("AUD-329", "findings of a deck that stands are the plan's", findings_are_the_plans),
    ("AUD-328", "a deck that stands is screened, and has footings", decks_that_stand_are_whole),
)  # fmt: skip
