"""Hours: from quantities of the plan and hours a piece, a range that is never told too narrow.

The rates are for a careful amateur with mains or battery tools and a helper: assumption, no
source. They are in docs/conventions.md, from which the auditor has its own.
"""

from collections.abc import Callable, Iterable
from fractions import Fraction
from math import ceil, floor

from drylay.fixings.model import BorderScrews, DeckScrews
from drylay.work.board_steps import strip_rows
from drylay.work.drafts import Deck, OnFrame, OnGround
from drylay.work.legs_hours import legs_rates, rates_besides

#: Least and most hours of one person: so many whatever the deck, and so many for each unit.
Rate = tuple[str, str]


def _loads(deck: OnGround) -> int:
    lengths = sum(len(bought.lengths) for bought in deck.buying.purchases)
    return lengths + sum(box.packs for pack in deck.buying.packs for box in pack.packs)


def _members(deck: OnFrame) -> int:
    frame = deck.frame
    rims = sum(len(rim.pieces) for rim in frame.rims)
    plates = len(frame.splices) + len(frame.battens)
    return rims + len(frame.joists_sawn) + len(frame.noggins) + plates


def _fascia_pieces(deck: OnFrame) -> int:
    return sum(len(face.pieces) for face in deck.edges.faces)


def _dug_m3(deck: OnGround) -> Fraction:
    dig = deck.groundwork.dig if deck.groundwork else None
    return Fraction(repr(dig.solid_m3)) if dig else Fraction(0)


def _strips(deck: OnGround) -> int:
    fabric = deck.groundwork.fabric if deck.groundwork else None
    return len(fabric.strips) if fabric else 0


def _tonnes(deck: OnGround) -> Fraction:
    gravel = deck.groundwork.gravel if deck.groundwork else None
    return Fraction(repr(gravel.mass_kg)) / 1000 if gravel else Fraction(0)


def _packers(deck: OnGround) -> int:
    packing = deck.groundwork.packing if deck.groundwork else None
    return packing.count if packing else 0


def _coated_m2(deck: Deck) -> Fraction:
    finish = deck.fixings.finish
    return Fraction(repr(finish.area_m2)) * finish.coats if finish else Fraction(0)


def _board_screws(deck: Deck) -> list[DeckScrews | BorderScrews]:
    kinds = (deck.fixings.deck_screws, deck.fixings.border_screws)
    return [screws for screws in kinds if screws is not None]


def _crossings(deck: Deck) -> int:
    return len(deck.surface.rows) * len(deck.frame.joists)


def _predrilled(deck: Deck) -> int:
    return sum(screws.count for screws in _board_screws(deck) if screws.predrill_all)


def _waxed(deck: Deck) -> int:
    return deck.fixings.wax.ends if deck.fixings.wax else 0


def _with_strips(deck: Deck) -> int:
    rows = {row.mark for row in strip_rows(deck)}
    return sum(piece.row in rows for piece in deck.pieces.pieces)


#: For each task: fixed hours, then (quantity, hours each); for tasks of any deck first.
GROUND_RATES: dict[
    str, tuple[Rate, tuple[tuple[Callable[[OnGround], int | Fraction], Rate], ...]]
] = {
    "check": (("1", "3"), ()),
    "delivery": (("0.5", "1"), ((_loads, ("0.02", "0.05")),)),
    "set_out": (("1", "2"), ()),
    "dig": (("0", "0"), ((_dug_m3, ("2", "4")),)),
    "fabric": (("0.25", "0.5"), ((_strips, ("0.1", "0.25")),)),
    "gravel": (("0.25", "0.5"), ((_tonnes, ("0.5", "1")),)),
    "packing": (("0.25", "0.5"), ((_packers, ("0.03", "0.08")),)),
    "hand_over": (("0.5", "1"), ()),
}  # fmt: skip
FRAME_RATES: dict[
    str, tuple[Rate, tuple[tuple[Callable[[OnFrame], int | Fraction], Rate], ...]]
] = {
    "cut_frame": (("0.5", "1"), ((_members, ("0.05", "0.1")),)),
    "frame": (("0.5", "1"), ((lambda deck: 2 * len(deck.frame.joists_sawn), ("0.1", "0.25")),
                            (lambda deck: len(deck.frame.noggins), ("0.08", "0.15")),
                            (lambda deck: len(deck.frame.splices), ("0.15", "0.3")),
                            (lambda deck: len(deck.frame.battens), ("0.1", "0.2")))),
    "fascia": (("0.25", "0.5"), ((_fascia_pieces, ("0.3", "0.6")),)),
}  # fmt: skip
RATES: dict[str, tuple[Rate, tuple[tuple[Callable[[Deck], int | Fraction], Rate], ...]]] = {
    **GROUND_RATES,
    **FRAME_RATES,
    **{key: (FRAME_RATES[key][0], (*FRAME_RATES[key][1], each))
       for key, each in rates_besides().items()},
    **legs_rates(),
    "cable": (("0.5", "1"), ((lambda deck: deck.lighting.count if deck.lighting else 0,
                              ("0.2", "0.4")),)),
    "boards": (("0.5", "1"), ((lambda deck: len(deck.pieces.pieces), ("0.1", "0.2")),
                             (_crossings, ("0.02", "0.05")),
                             (_predrilled, ("0.01", "0.02")), (_waxed, ("0.02", "0.05")),
                             (_with_strips, ("0.1", "0.2")))),
    "trim": (("0.5", "1"), ()),
    "lights": (("0.25", "0.5"), ((lambda deck: deck.lighting.count if deck.lighting else 0,
                                  ("0.25", "0.5")),)),
    "finish": (("0.25", "0.5"), ((_coated_m2, ("0.06", "0.15")),)),
}  # fmt: skip


def hours(deck: Deck, key: str, people: int) -> tuple[float, float]:
    """Return least and most hours by the clock, to the quarter hour outwards.

    Source: assumption, no source.
    """
    fixed, each = RATES[key]
    return by_the_clock(fixed, [(rate, count(deck)) for count, rate in each], people)


def by_the_clock(
    fixed: Rate, each: Iterable[tuple[Rate, int | Fraction]], people: int
) -> tuple[float, float]:
    """Return least and most hours of so many people, to the quarter hour outwards.

    Source: assumption, no source.
    """
    rates = list(each)
    ends = [
        (Fraction(fixed[end]) + sum(Fraction(rate[end]) * count for rate, count in rates)) / people
        for end in (0, 1)
    ]
    return floor(ends[0] * 4) / 4, ceil(ends[1] * 4) / 4
