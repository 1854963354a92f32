"""How papers put things: lengths and money as they are, other people's text made harmless."""

import unicodedata
from decimal import Decimal

from drylay.plan.model import Plan
from drylay.reasons import Decision
from drylay.units import length_text

#: Kinds of signs that no paper prints: control, format (also those that turn the direction of
#: writing), surrogate, private and unassigned ones.
MUTE = {"Cc", "Cf", "Cs", "Co", "Cn"}
LONGEST = 120

WAYS = {
    "as_wished": "as wished",
    "gaps": "open or close the gaps",
    "shrink": "make the deck smaller",
    "grow": "make the deck larger",
    "rip_both": "rip both outer rows",
    "rip_last": "rip the last row",
    "turn": "turn the boards",
}
RUNS = {"along": "along the house", "across": "away from the house"}


def clean(text: str, most: int = LONGEST) -> str:
    """Return somebody else's text as one line of printable signs, cut off at `most`."""
    spaced = "".join(" " if sign.isspace() else sign for sign in text)
    kept = "".join(sign for sign in spaced if unicodedata.category(sign) not in MUTE)
    line = " ".join(kept.split())
    return line if len(line) <= most else f"{line[: most - 3].rstrip()}..."


def size(length_mm: float, units: str) -> str:
    """Return a length for text, with its unit: "2995 mm", "12 ft 6 1/2 in"."""
    return length_text(length_mm, units)


def bare(length_mm: float, units: str) -> str:
    """Return a length for drawings, where a note says that sizes are in mm."""
    return length_text(length_mm, units).removesuffix(" mm")


def money(amount: Decimal, currency: str) -> str:
    """Return an amount of money, digit for digit."""
    return f"{amount:f} {clean(currency, 8)}"


def many(count: int, one: str, more: str = "") -> str:
    """Return a count with its noun: "1 row", "20 rows"."""
    return f"{count} {one if count == 1 else more or f'{one}s'}"


def span_of(marks: tuple[str, ...]) -> str:
    """Return a list of marks in one breath: "B1", "B1 to B9"."""
    return marks[0] if len(marks) == 1 else f"{marks[0]} to {marks[-1]}"


def decision_at(plan: Plan, path: str) -> Decision | None:
    """Return the decision taken under a path, None if there is none."""
    found = [decision for decision in plan.reasons.decisions if decision.path == path]
    return found[-1] if found else None


def said_by(decision: Decision) -> str:
    """Return who says so: "from memory: softwood family, spacing"."""
    source = decision.source
    place = ", ".join(clean(part) for part in (source.title, source.clause) if part)
    return f"{source.kind}: {place}" if place else source.kind
