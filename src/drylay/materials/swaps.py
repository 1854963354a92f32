"""Two sizes of an article that stand in each other's place, and make sense when swapped."""

from collections.abc import Mapping

from attrs import evolve

from drylay.errors import Fault
from drylay.intake.keys import Key
from drylay.intake.tables import Reading
from drylay.intake.values import number_of
from drylay.materials.keys import ARTICLES

#: Which two sizes of a kind are taken for each other.
SWAPS = {
    "boards": ("thickness_mm", "width_mm"),
    "tiles": ("length_mm", "width_mm"),
    "timbers": ("thickness_mm", "depth_mm"),
    "fascias": ("thickness_mm", "depth_mm"),
    "screws": ("shank_mm", "length_mm"),
    "coach_screws": ("shank_mm", "length_mm"),
    "hangers": ("joist_mm", "depth_mm"),
}


def pair_of(kind: str) -> tuple[Key, Key] | None:
    """Return the keys of the two sizes of a kind that are taken for each other."""
    if kind not in SWAPS:
        return None
    keys = {key.name: key for key in ARTICLES[kind]}
    first, second = SWAPS[kind]
    return keys[first], keys[second]


def swap_fix(pair: tuple[Key, Key], first_mm: float, second_mm: float) -> str:
    """Return how two sizes read in each other's place, "" where that is no sense either."""
    (first, second) = pair
    right = _fits(first, first_mm) and _fits(second, second_mm)
    if right or not (_fits(first, second_mm) and _fits(second, first_mm)):
        return ""
    return f"{first.name} = {second_mm:g}, {second.name} = {first_mm:g}"


def _fits(key: Key, number: float) -> bool:
    return key.least <= number <= key.most


def offer_swaps(reading: Reading, kind: str, tables: object) -> None:
    """Give the faults of sizes that stand in each other's place the swap as their fix."""
    pair = pair_of(kind)
    if pair is None or not reading.faults or not isinstance(tables, list | tuple):
        return
    fixes: dict[str, str] = {}
    for at, table in enumerate(tables):
        if isinstance(table, Mapping):
            first, second = (number_of(table.get(key.name)) for key in pair)
            fix = "" if first is None or second is None else swap_fix(pair, first, second)
            fixes.update({f"{kind}[{at}].{key.name}": fix for key in pair if fix})
    if fixes:
        reading.faults[:] = [_fixed(found, fixes) for found in reading.faults]


def _fixed(found: Fault, fixes: Mapping[str, str]) -> Fault:
    return evolve(found, nearest=fixes[found.path]) if found.path in fixes else found
