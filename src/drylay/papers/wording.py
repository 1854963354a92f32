"""How papers put things: lengths and money as they are, other people's text made harmless."""

import unicodedata
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from drylay.plan.model import Plan
from drylay.reasons import Decision
from drylay.units import length_at_least, length_at_most, length_text

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
GRADES_TOLD = {
    "one worth vector": "by one set of worths",
    "worth vectors and splits": "by sets of worths, and splits that leave no cheaper order",
}
#: Sides that rims lie along, near and far, and the ends of rows and rims, by the boards' run.
RIM_SIDES = {"along": ("house", "front"), "across": ("left", "right")}
ENDS = {"along": ("left", "right"), "across": ("house", "front")}
RUNS = {"along": "along the house", "across": "away from the house"}


def clean(text: str, most: int = LONGEST) -> str:
    """Return somebody else's text as one line of printable signs, cut off at `most`."""
    spaced = "".join(" " if sign.isspace() else sign for sign in text)
    line = " ".join(printable(spaced).split())
    return line if len(line) <= most else f"{line[: most - 3].rstrip()}..."


def printable(text: str) -> str:
    """Return a text without the signs that no paper prints."""
    return "".join(sign for sign in text if unicodedata.category(sign) not in MUTE)


def size(length_mm: float, units: str) -> str:
    """Return a length for text, with its unit: "2995 mm", "12 ft 6 1/2 in"."""
    return length_text(length_mm, units)


def size_least(length_mm: float, units: str) -> str:
    """Return a length that must not be gone below: never printed shorter than it is."""
    return length_at_least(length_mm, units)


def size_most(length_mm: float, units: str) -> str:
    """Return a length that must not be gone beyond: never printed longer than it is."""
    return length_at_most(length_mm, units)


def bit(width_mm: float, units: str) -> str:
    """Return the bit for a hole: to 0.1 mm, or to 1/64 in as bits are sold; "~" where rounded."""
    if units != "imperial":
        return length_text(width_mm, units)
    parts = Fraction(width_mm) * 64 / Fraction(254, 10)
    near = Fraction(round(parts), 64)
    about = "" if abs(parts - round(parts)) < Fraction(1, 100) else "~"
    whole, rest = divmod(near, 1)
    return f"{about}{f'{whole} ' if whole else ''}{rest if rest else ''}".rstrip() + " in"


def tight(length_mm: float, units: str) -> str:
    """Return a small limit, down to 1/64 in where 1/16 in would leave nothing of it."""
    if units != "imperial":
        return size_most(length_mm, units)
    for part in (16, 32, 64):
        count = int(Fraction(length_mm) * part / Fraction(254, 10))
        if count:
            return f"{Fraction(count, part)} in"
    return "0 in"


def fine(length_mm: float, units: str) -> str:
    """Return a length in decimals, for figures that nobody measures but that must differ."""
    return f"{length_mm / 25.4:.4g} in" if units == "imperial" else f"{length_mm:.5g} mm"


def bare(length_mm: float, units: str) -> str:
    """Return a length for drawings, where a note says that sizes are in mm."""
    return length_text(length_mm, units).removesuffix(" mm")


def money(amount: Decimal, currency: str) -> str:
    """Return an amount of money, digit for digit."""
    return f"{amount:f} {clean(currency, 8)}"


def many(count: int, one: str, more: str = "") -> str:
    """Return a count with its noun: "1 row", "20 rows"."""
    return f"{count} {one if count == 1 else more or f'{one}s'}"


def ripped_edge_told(plan: Plan) -> str:
    """Return how ripped boards are laid; boards that take no preserver have no edge to seal."""
    sealed = plan.fixings is None or plan.fixings.seal_board_ends is not False
    return "factory edge outwards" + (", ripped edge sealed" if sealed else "")


def marks_told(marks: Sequence[str]) -> str:
    """Return marks with none left out and none added: "B1", "N2 N4 N6", "J1 to J16, S1"."""
    runs: list[list[str]] = []
    for mark in marks:
        if runs and mark == _next(runs[-1][-1]):
            runs[-1].append(mark)
        else:
            runs.append([mark])
    told = [f"{run[0]} to {run[-1]}" if len(run) > 2 else " ".join(run) for run in runs]
    apart = ", " if any(" to " in part for part in told) else " "
    return apart.join(told)


def _next(mark: str) -> str:
    """Return the mark that follows: B10 after B9; "" after one without a number."""
    stem = mark.rstrip("0123456789")
    number = mark[len(stem) :]
    return f"{stem}{int(number) + 1}" if number else ""


def decision_at(plan: Plan, path: str) -> Decision | None:
    """Return the decision taken under a path, None if there is none."""
    found = [decision for decision in plan.reasons.decisions if decision.path == path]
    return found[-1] if found else None


def said_by(decision: Decision) -> str:
    """Return who says so: "from memory: softwood family, spacing"."""
    source = decision.source
    place = ", ".join(clean(part) for part in (source.title, source.clause) if part)
    return f"{source.kind}: {place}" if place else source.kind
