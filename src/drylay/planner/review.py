"""Everything that stands in a brief's way at once: what is wrong with it, and what would stop it.

A brief that cannot be read has no plan, and its reader's faults would hide what is worse. Where
lengths lack no more than their units, the deck is looked at as if the units that the faults ask
about had been meant. What stops it then is told beside the questions, under that supposition; no
plan is given, and nothing is taken as meant until the brief says so.
"""

import re
import tomllib
from collections.abc import Mapping
from copy import deepcopy
from typing import Any

from drylay.brief.model import Brief
from drylay.brief.reader import MOST_BYTES, check_brief, read_brief
from drylay.counting import counted
from drylay.errors import BriefError, Fault, InputError
from drylay.intake.document import keys_of, open_document
from drylay.materials.stock_model import Catalogue
from drylay.planner.design import design
from drylay.planner.review_model import Review, Supposed
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

#: Faults that show only when others are mended are mended in turn, so often. Assumption.
ROUNDS = 4
_ASSIGNED = re.compile(r"^(\w+ = (?:\"[^\"]*\"|[-+.\w]+))(?:, if that is meant)?$")
_NUMBER = re.compile(r"[-+.\d]+")


@counted
def review(
    source: object,
    *,
    stock: Catalogue,
    families: FamilySet | None = None,
    local_rules: LocalRuleSet | None = None,
    bases: BasisSet | None = None,
) -> Review:
    """Return everything that is wrong with a brief, and every finding its deck would have.

    No cut list, order or drawing comes of it. Units are never guessed: where a length lacks its
    unit, findings stand under the value that its fault asks about, and `supposed` says so.

    Args:
        source: Path, bytes or mapping, as `read_brief` takes it.
        stock: The merchant's stock; the brief names its articles.
        families: As `design`.
        local_rules: As `design`.
        bases: As `design`.
    """
    faults = check_brief(source)  # type: ignore[arg-type]
    brief, supposed = _supposed(source, faults)
    if brief is None:
        return Review(faults=faults)
    try:
        plan = design(brief, stock=stock, families=families, local_rules=local_rules, bases=bases)
    except BriefError as error:
        return Review(faults=(*faults, *error.faults), supposed=supposed)
    return Review(faults=faults, supposed=supposed, findings=plan.findings, looked=True)


def _supposed(
    source: object, faults: tuple[Fault, ...]
) -> tuple[Brief | None, tuple[Supposed, ...]]:
    """Return the brief with every unit that lacks put in; None where more is wrong than these."""
    if not faults:
        return read_brief(source), ()  # type: ignore[arg-type]
    document, _ = open_document(source, what="brief", most_bytes=MOST_BYTES)
    if document is None:
        return None, ()
    tables, told = deepcopy(dict(document.tables)), []
    for _ in range(ROUNDS):
        for fault in faults:
            if (put := _put_nearest(tables, fault)) is None:
                return None, ()
            told.append(put)
        try:
            return read_brief(tables), tuple(told)
        except InputError as error:
            faults = error.faults
    return None, ()


def _put_nearest(tables: dict[str, Any], fault: Fault) -> Supposed | None:
    """Put the number found where it stands, with the unit that its fault asks about.

    None where the nearest fix is another number: a hint how to write one, not what is meant.
    """
    match = _ASSIGNED.match(fault.nearest)
    table = _table(tables, fault.path)
    if match is None or table is None:
        return None
    if _NUMBER.findall(match[1].partition("=")[2]) != _NUMBER.findall(fault.found):
        return None
    try:
        ((name, value),) = tomllib.loads(match[1]).items()
    except ValueError:
        return None
    bare = name.removesuffix("_mm")
    if bare != str(keys_of(fault.path)[-1]).removesuffix("_mm"):
        return None
    for key in (bare, f"{bare}_mm"):
        table.pop(key, None)
    table[name] = value
    return Supposed(path=fault.path, found=fault.found, as_if=match[1])


def _table(tables: Mapping[str, Any], path: str) -> dict[str, Any] | None:
    """Return the table that a path's last key stands in."""
    found: Any = tables
    for key in keys_of(path)[:-1]:
        try:
            found = found[key]
        except (KeyError, IndexError, TypeError):
            return None
    return found if isinstance(found, dict) and keys_of(path) else None
