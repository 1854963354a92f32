"""Cutting: every piece sawn exactly once, from lengths that hold it, kerf and trim counted."""

from collections import Counter
from collections.abc import Iterator

from drylay.audit.exact import ticks
from drylay.audit.flaws import conventions, need, off_by, same_count, same_length, same_text
from drylay.audit.model import ClosedCheck, Flaw
from drylay.audit.wanted import Wanted, all_wanted, buying_of
from drylay.buying.model import BoughtLength, Purchase
from drylay.plan.model import Plan

BUYING = conventions("Buying")
SAW = conventions("Buying: pieces sawn from one length")


def _purchases(plan: Plan) -> Iterator[tuple[Wanted, Purchase]]:
    """Yield what each purchase has to yield, with the purchase, where there is one."""
    for wanted in all_wanted(plan):
        if wanted.purchase is not None:
            yield wanted, wanted.purchase


def _sawn(plan: Plan) -> Iterator[tuple[BoughtLength, list[int]]]:
    """Yield every bought length with the lengths of its pieces that the plan knows."""
    for wanted, purchase in _purchases(plan):
        lengths = dict(wanted.pieces)
        for bought in purchase.lengths:
            yield bought, [lengths[mark] for mark in bought.pieces if mark in lengths]


def one_purchase_per_article(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw unless boards, frame and fascia are each bought, once, and no more."""
    bought = [purchase.article for purchase in buying_of(plan).purchases]
    needed = {wanted.article: wanted.name for wanted in all_wanted(plan)}
    for article, name in needed.items():
        message = f"purchases of {name}"
        yield from same_count(article, message, bought.count(article), 1, BUYING)
    for article in dict.fromkeys(bought):
        if article not in needed:
            message = "bought, but no part of the deck is made of it"
            yield Flaw(subject=article, message=message, source=BUYING)


def every_piece_cut_once(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece that is not sawn exactly once."""
    for wanted, purchase in _purchases(plan):
        sawn = Counter(mark for bought in purchase.lengths for mark in bought.pieces)
        marks = Counter(mark for mark, _length in wanted.pieces)
        for mark in marks:
            message = "how often it is sawn"
            yield from same_count(mark, message, sawn[mark], marks[mark], BUYING)


def marks_stand_once(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each mark that two pieces of the deck share."""
    marks = Counter(mark for wanted in all_wanted(plan) for mark, _length in wanted.pieces)
    for mark, count in marks.items():
        yield from same_count(mark, "pieces with this mark", count, 1, BUYING)


def no_other_piece_cut(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each piece that is sawn but belongs to nothing."""
    for wanted, purchase in _purchases(plan):
        marks = {mark for mark, _length in wanted.pieces}
        for bought in purchase.lengths:
            for mark in bought.pieces:
                if mark not in marks:
                    message = f"sawn from {bought.mark}, but no such piece is in the deck"
                    yield Flaw(subject=mark, message=message, source=BUYING)


def pieces_fit_their_length(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where pieces and kerfs are longer than the trimmed length."""
    buying = buying_of(plan)
    kerf, trim = ticks(buying.kerf_mm), ticks(buying.end_trim_mm)
    for bought, pieces in _sawn(plan):
        needed = sum(pieces) + kerf * max(len(pieces) - 1, 0)
        usable = ticks(bought.length_mm) - 2 * trim
        if needed > usable:
            message = "pieces and kerfs are longer than the length they are sawn from"
            yield off_by(bought.mark, message, needed, usable, SAW)


def piece_no_longer_than_its_length(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw where a single piece is longer than the trimmed length it comes from."""
    trim = ticks(buying_of(plan).end_trim_mm)
    for bought, pieces in _sawn(plan):
        longest, usable = max(pieces, default=0), ticks(bought.length_mm) - 2 * trim
        if longest > usable:
            message = "a piece is longer than its length"
            yield off_by(bought.mark, message, longest, usable, SAW)


def offcuts(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each offcut that is not what the pieces and every cut leave."""
    buying = buying_of(plan)
    kerf, trim = ticks(buying.kerf_mm), ticks(buying.end_trim_mm)
    for bought, pieces in _sawn(plan):
        left = ticks(bought.length_mm) - 2 * trim - sum(pieces) - kerf * len(pieces)
        message = "not what the pieces and the cuts leave"
        yield from same_length(bought.mark, message, bought.offcut_mm, max(left, 0), SAW)


def longest_first(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each length whose pieces do not run longest first, or that has none."""
    for bought, pieces in _sawn(plan):
        if pieces != sorted(pieces, reverse=True):
            message = "its pieces do not run longest first"
            yield Flaw(subject=bought.mark, message=message, source=BUYING)
        if not bought.pieces:
            message = "bought, but nothing is sawn from it"
            yield Flaw(subject=bought.mark, message=message, source=BUYING)


def lengths_are_marked(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for each bought length that is not marked in order."""
    for wanted, purchase in _purchases(plan):
        for index, bought in enumerate(purchase.lengths, 1):
            mark = f"{wanted.prefix}{index}"
            yield from same_text(bought.mark, "wrong mark", bought.mark, mark, BUYING)


def saw_makes_sense(plan: Plan) -> Iterator[Flaw]:
    """Yield a flaw for a kerf, trim or spare below nothing, or a deck with nothing to saw."""
    buying = buying_of(plan)
    need(buying.purchases or None, "purchases")
    for name in ("kerf_mm", "end_trim_mm", "spare_ratio"):
        value = getattr(buying, name)
        if value < 0:
            subject = f"buying.{name}"
            message = "below nothing"
            yield Flaw(subject=subject, message=message, measured=value, limit=0, source=BUYING)


CHECKS: tuple[tuple[str, str, ClosedCheck], ...] = (
    ("AUD-701", "boards, frame and fascia are each bought once", one_purchase_per_article),
    ("AUD-702", "every piece is sawn exactly once", every_piece_cut_once),
    ("AUD-703", "every mark belongs to one piece", marks_stand_once),
    ("AUD-704", "nothing is sawn that the deck does not have", no_other_piece_cut),
    ("AUD-705", "pieces and kerfs fit into their length", pieces_fit_their_length),
    ("AUD-706", "no piece is longer than its length", piece_no_longer_than_its_length),
    ("AUD-707", "offcuts are what is left", offcuts),
    ("AUD-708", "pieces run longest first", longest_first),
    ("AUD-709", "bought lengths are marked in order", lengths_are_marked),
    ("AUD-710", "kerf, trim and spares are not below nothing", saw_makes_sense),
)
