"""Which decision governs a number of a plan."""

import re
from difflib import get_close_matches

from attrs import frozen

from drylay.errors import UnknownPathError
from drylay.plan.model import Plan
from drylay.plan.walk import fields_of, governor, leaves, names_of
from drylay.reasons import Decision

PART = re.compile(r"\.?([A-Za-z_][A-Za-z0-9_]*)|\[([^\[\]]+)\]")
INDEX = re.compile(r"\[[^\[\]]+\]")
#: How alike two paths must be, 0 to 1, for one to be offered in place of the other.
ALIKE = 0.5


@frozen(kw_only=True)
class Place:
    """What stands at a path, and the path of the decision that governs it ("" if none)."""

    value: object
    governed_by: str


def why(plan: Plan, path: str) -> Decision:
    """Return the decision that governs what stands at a path of the plan.

    The path is a decision's own, or any number's: `frame.joists[3].offset_mm`, or by
    mark, `frame.joists[J4].offset_mm`. A part without a decision of its own answers with
    that of the nearest part above it.

    Raises:
        UnknownPathError: The path names nothing here that a decision governs.
    """
    taken = {decision.path: decision for decision in plan.reasons.decisions}
    if path in taken:
        return taken[path]
    place = find(plan, path)
    if place is None or place.governed_by not in taken:
        raise UnknownPathError(path, nearest(plan, path))
    return taken[place.governed_by]


def find(plan: Plan, path: str) -> Place | None:
    """Return what stands at a path of the plan, None where nothing does."""
    place: Place | None = Place(value=plan, governed_by="")
    end = 0
    for part in PART.finditer(path):
        if part.start() != end or place is None:
            return None
        end = part.end()
        place = _field(place, part[1]) if part[1] else _element(place, part[2])
    return place if end == len(path) and path else None


def _field(place: Place, name: str) -> Place | None:
    for field in fields_of(place.value):
        if field.name == name:
            governed_by = governor(field, place.governed_by)
            return Place(value=getattr(place.value, name), governed_by=governed_by)
    return None


def _element(place: Place, key: str) -> Place | None:
    if not isinstance(place.value, tuple):
        return None
    keys = [str(index) for index in range(len(place.value))]
    if key not in keys:
        keys = list(names_of(place.value))
    if key not in keys:
        return None
    return Place(value=place.value[keys.index(key)], governed_by=place.governed_by)


def nearest(plan: Plan, path: str) -> tuple[str, ...]:
    """Return up to three paths of the plan that may be meant."""
    taken = [decision.path for decision in plan.reasons.decisions]
    governed = [leaf.path for leaf in leaves(plan) if leaf.governed_by in taken]
    first = [known for known in governed if set(INDEX.findall(known)) <= {"[0]"}]
    shape = INDEX.sub("[0]", path)
    inside = [known for known in first if re.match(rf"{re.escape(shape)}[.\[]", known)]
    alike = get_close_matches(shape, dict.fromkeys([*taken, *first]), n=3, cutoff=ALIKE)
    offered = list(dict.fromkeys([*inside, *alike]))[:3]
    return tuple(_with_keys(plan, known, INDEX.findall(path)) for known in offered)


def _with_keys(plan: Plan, known: str, keys: list[str]) -> str:
    """Return a known path with the keys that were asked for, where that names something."""
    asked = known
    for key in keys:
        asked = asked.replace("[0]", key, 1)
    return asked if find(plan, asked) is not None else known
