"""What a study is planned by, wherever its cases are planned: terms, a desk, plain cases."""

import json
import re
from collections.abc import Mapping
from decimal import Decimal
from hashlib import sha256
from importlib.metadata import version
from typing import Any

from attrs import Factory, frozen

from drylay.brief.codec import brief_to_dict
from drylay.brief.model import Brief
from drylay.compare.decks import YearTerms
from drylay.compare.plain import column_of, plain_value
from drylay.compare.study_model import Case
from drylay.counting import counted
from drylay.materials.lookup import catalogue_digest
from drylay.materials.stock_model import Catalogue
from drylay.planner.glance import Glances
from drylay.planner.job import CancelToken
from drylay.planner.used import own_version
from drylay.plugins.guard import asked_once
from drylay.plugins.loading import installed_families, installed_local_rules
from drylay.plugins.model import BasisSet, FamilySet, LocalRuleSet

MODES = ("proven", "quick")
#: Where a function lies in memory: another place in each process.
ADDRESS = re.compile(r"0x[0-9a-fA-F]{6,}")


@frozen(kw_only=True)
class Terms:
    """What every case of a study is planned by. Families and rules are None where the installed
    ones are meant: whoever plans then asks his own, which must be of the releases told.
    """

    stock: Catalogue
    families: FamilySet | None
    local_rules: LocalRuleSet | None
    bases: BasisSet | None
    mode: str
    rate_ratio: float
    hour_price: Decimal | None
    drylay_version: str
    solver_version: str
    releases: tuple[str, ...]

    @property
    def years(self) -> YearTerms:
        """Return what a year's money is reckoned with."""
        digits = self.stock.minor_digits
        return YearTerms(rate_ratio=self.rate_ratio, hour_price=self.hour_price, digits=digits)


@frozen(kw_only=True)
class Desk:
    """Where some cases are planned, one after another: families asked once, looks by stock.

    It is thrown away with its cases: what it keeps of them would grow without end.
    """

    terms: Terms
    families: FamilySet
    local_rules: LocalRuleSet
    terms_digest: str
    stock_digest: str
    cancel: CancelToken | None = None
    looks: dict[str, Glances] = Factory(dict)


@frozen(kw_only=True)
class PlainCase:
    """A case as JSON holds it, so that any worker anywhere can plan it: the brief as text.

    `columns` are what the row begins with.
    """

    brief: str
    changes: tuple[tuple[str, Any], ...]
    columns: tuple[tuple[str, Any], ...]


def solver_version() -> str:
    """Return the release of the solver: proofs may be found in another order by another."""
    return version("highspy")


def terms_of(
    *,
    stock: Catalogue,
    families: FamilySet | None,
    local_rules: LocalRuleSet | None,
    bases: BasisSet | None,
    mode: str,
    rate_ratio: float,
    hour_price: Decimal | None,
) -> Terms:
    """Return the terms of a study, with the releases of what will answer."""
    return Terms(
        stock=stock,
        families=families,
        local_rules=local_rules,
        bases=bases,
        mode=mode,
        rate_ratio=rate_ratio,
        hour_price=hour_price,
        drylay_version=own_version(),
        solver_version=solver_version(),
        releases=releases_of(families, local_rules),
    )


def releases_of(families: FamilySet | None, local_rules: LocalRuleSet | None) -> tuple[str, ...]:
    """Return every family and local rule that may answer, with its package and release."""
    held = installed_families() if families is None else families
    rules = installed_local_rules() if local_rules is None else local_rules
    named = [(each.family.id, each.origin) for each in held.families]
    named += [(each.name, each.origin) for each in rules.rules]
    return tuple(f"{name} {origin.package} {origin.version}" for name, origin in named)


@counted
def terms_digest(terms: Terms) -> str:
    """Return the SHA-256 of all that a row hangs on besides its case."""
    told = {
        "stock": catalogue_digest(terms.stock),
        "mode": terms.mode,
        "rate_ratio": repr(terms.rate_ratio),
        "hour_price": None if terms.hour_price is None else f"{terms.hour_price.normalize():f}",
        "drylay": terms.drylay_version,
        "solver": terms.solver_version,
        "releases": terms.releases,
        "bases": None if terms.bases is None else ADDRESS.sub("", repr(terms.bases)),
    }
    return digest_of(told)


def digest_of(plain: object) -> str:
    """Return the SHA-256 of plain data, whatever order its keys stand in."""
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return sha256(text.encode("ascii")).hexdigest()


@counted
def desk_of(terms: Terms, cancel: CancelToken | None = None) -> Desk:
    """Return a desk to plan some cases at."""
    families = installed_families() if terms.families is None else terms.families
    rules = installed_local_rules() if terms.local_rules is None else terms.local_rules
    return Desk(
        terms=terms,
        families=asked_once(families),
        local_rules=rules,
        terms_digest=terms_digest(terms),
        stock_digest=catalogue_digest(terms.stock),
        cancel=cancel,
    )


def look_at(desk: Desk, shelf: Catalogue, key: str) -> Glances:
    """Return what briefs are planned from and by with one stock, kept for the next of them."""
    if key not in desk.looks:
        desk.looks[key] = Glances(
            stock=shelf,
            families=desk.families,
            local_rules=desk.local_rules,
            bases=desk.terms.bases,
            cancel=desk.cancel,
            mode=desk.terms.mode,
            reasoned=True,
        )
    return desk.looks[key]


@counted
def brief_text(brief: Brief) -> str:
    """Return a brief as JSON text, the same for equal briefs."""
    return json.dumps(brief_to_dict(brief), sort_keys=True, separators=(",", ":"))


@counted
def plain_case(case: Case, brief: str, columns: Mapping[str, None]) -> PlainCase:
    """Return a case as JSON holds it; `columns` are those of the whole study."""
    changes = tuple((path, plain_value(value)) for path, value in case.changes)
    held: dict[str, Any] = {column_of(path): value for path, value in changes}
    held |= dict(case.named)
    return PlainCase(
        brief=brief,
        changes=changes,
        columns=tuple((name, cell_of(held.get(name))) for name in {**columns, **held}),
    )


def cell_of(value: object) -> object:
    """Return what a flat row holds of a value: lists and tables as JSON text."""
    return json.dumps(value, sort_keys=True) if isinstance(value, list | dict) else value


def case_digest(terms: str, case: PlainCase) -> str:
    """Return the SHA-256 of a case under its terms: a journal knows it by that."""
    return digest_of([terms, case.brief, case.changes, case.columns])


def to_plain(case: PlainCase) -> list[Any]:
    """Return a case as a JSON list."""
    return [case.brief, case.changes, case.columns]


def from_plain(plain: list[Any]) -> PlainCase:
    """Return a case from its JSON list."""
    brief, changes, columns = plain
    return PlainCase(
        brief=brief,
        changes=tuple((path, value) for path, value in changes),
        columns=tuple((name, value) for name, value in columns),
    )
