"""Step points in words: one line each, the nearest first."""

from collections.abc import Iterator
from decimal import Decimal

from drylay.compare.step_model import CountChange, Effect, FreeSize, Step, StepPoints, Swap
from drylay.compare.step_sweep import CENTRES, GAP, SIZES, TOP
from drylay.compare.step_ways import BOARD, RUN
from drylay.marks import exact, to_mm
from drylay.papers.wording import clean
from drylay.units import length_text

#: What a path of the brief is called.
CALLED = {SIZES[0]: "along", SIZES[1]: "across", GAP: "gap", CENTRES: "joist centres",
          TOP: "deck's top", RUN: "boards", BOARD: "board"}  # fmt: skip
HEADS = {
    "unblocks": "WHAT WOULD MAKE IT POSSIBLE",
    "saves": "WHAT WOULD SAVE SOMETHING",
    "adds": "WHAT WOULD TAKE MORE",
    "blocks": "WHERE IT CAN NO LONGER BE BUILT",
}
MOST_TEXT = 60


def step_points_text(points: StepPoints) -> str:
    """Return the step points as text, for people: kinds under heads, then how much size is free."""
    return "\n".join(_lines(points)) + "\n"


def _lines(points: StepPoints) -> Iterator[str]:
    yield f"What would change it: {clean(points.title, MOST_TEXT)}"
    for kind, head in HEADS.items():
        told = [step_told(s, points.units) for s in points.steps if s.effect.kind == kind]
        told += [_swap_told(swap) for swap in points.swaps if swap.effect.kind == kind]
        if told:
            yield from ("", head, *(f"  {line}" for line in told))
    if points.free_sizes:
        yield from ("", "HOW MUCH MORE SIZE IS FREE")
        yield from (f"  {free_told(size, points.units)}" for size in points.free_sizes)
    if points.untold:
        yield from ("", "NOT TOLD")
        yield from (
            f"  {clean(each.subject)}: {clean(each.message, 200)}" for each in points.untold
        )


def step_told(step: Step, units: str) -> str:
    """Return a step in a line: what to change, from which value on, and what that does."""
    far, to = _length(abs(step.change_mm), units), _length(step.to_mm, units)
    way = _way(step.path, step.change_mm)
    return f"{CALLED[step.path]} {far} {way}, at {to}: {effect_told(step.effect)}"


def _way(path: str, change_mm: float) -> str:
    more, less = ("higher", "lower") if path == TOP else ("more", "less")
    return more if change_mm > 0 else less


def _swap_told(swap: Swap) -> str:
    called = f"boards run {swap.to_word}" if swap.path == RUN else clean(swap.to_word, MOST_TEXT)
    return f"{called}, not {clean(swap.from_word, MOST_TEXT)}: {effect_told(swap.effect)}"


def effect_told(effect: Effect) -> str:
    """Return what a change does: counts, money, area, and which stops and cautions come and go."""
    if effect.kind == "blocks":
        return f"it cannot be built: {_codes(effect) or 'no brief'}"
    told = [_count_told(each) for each in effect.changes if each.before is not None]
    if effect.kind == "unblocks":
        told = [f"it can be built, {_lost(effect)}"]
    if effect.saving is not None:
        told.append(_money_told(effect.saving, effect.currency))
    if effect.area_lost_m2:
        word = "less" if effect.area_lost_m2 > 0 else "more"
        told.append(f"{abs(effect.area_lost_m2):g} m2 {word}")
    if effect.kind != "unblocks" and effect.gained:
        told.append(f"with {_codes(effect)}")
    return ", ".join(told) or "other stock"


def _codes(effect: Effect) -> str:
    return " ".join(dict.fromkeys(finding.code for finding in effect.gained))


def _lost(effect: Effect) -> str:
    gone = " ".join(dict.fromkeys(finding.code for finding in effect.lost))
    return f"without {gone}" if gone else "as it could not before"


def _count_told(change: CountChange) -> str:
    more = (change.after or 0) - (change.before or 0)
    many = "" if abs(more) == 1 else "s"
    word = f"{abs(more)} {change.what}{many}"
    return f"{word} {'more' if more > 0 else 'fewer' if many else 'less'}"


def _money_told(saving: Decimal, currency: str) -> str:
    code = clean(currency, 8)
    if not saving:
        return "at the same cost"
    return f"saves {saving:f} {code}" if saving > 0 else f"costs {-saving:f} {code} more"


def free_told(size: FreeSize, units: str) -> str:
    """Return how much larger a side may be at no higher cost, and what comes next."""
    name = CALLED[size.path]
    much = _length(size.free_mm, units) + " more" if size.free_mm else "no more"
    told = f"{name}: {much} costs nothing"
    if size.next_mm is None:
        return f"{told}, nor does any within reach"
    at = _length(size.next_mm, units)
    if size.extra is None:
        return f"{told}; at {at} it cannot be built"
    return f"{told}; at {at} it costs {size.extra:f} {clean(size.currency, 8)} more"


def _length(length_mm: float, units: str) -> str:
    return length_text(to_mm(exact(length_mm)), units)
