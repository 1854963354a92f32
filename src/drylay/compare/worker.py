"""Planning some cases of a study: here, or in a worker that is handed plain text."""

import json
import pickle
from decimal import Decimal, localcontext
from time import perf_counter
from typing import Any

from drylay.audit.closed import audit_plan
from drylay.brief.codec import put_at
from drylay.brief.model import Brief
from drylay.brief.reader import read_brief
from drylay.compare.asked import ask_years
from drylay.compare.decks import compared_deck
from drylay.compare.model import ComparedDeck
from drylay.compare.shelf import STOCK, shelf_of
from drylay.compare.study_model import Row
from drylay.compare.study_row import Came, failed, refused, row_of, stopped
from drylay.compare.terms import (
    Desk,
    PlainCase,
    Terms,
    desk_of,
    digest_of,
    from_plain,
    look_at,
    releases_of,
    solver_version,
)
from drylay.counting import COUNTING
from drylay.errors import Cancelled, Fault, InputError, PlannerFault, UnknownPathError
from drylay.findings import Severity
from drylay.materials.stock_model import Catalogue
from drylay.plan.model import Plan
from drylay.planner.glance import glance
from drylay.planner.job import find_articles
from drylay.planner.used import own_version

#: A row in a journal and on its way from a worker tells money apart from numbers.
MONEY = "money"


class OtherReleasesError(RuntimeError):
    """A worker has other releases than the study was begun with: its rows would differ."""


def rows_of_chunk(terms: bytes, chunk: str, attempt: int) -> str:
    """Return the rows of a chunk of cases as JSON text, with the seconds they took.

    This is what a worker runs. `attempt` tells one try from the next for executors that remember.

    Raises:
        OtherReleasesError: The worker has other releases than whoever sent the chunk.
    """
    began = perf_counter()
    read = pickle.loads(terms)
    check_releases(read)
    desk = desk_of(read)
    rows = [row_for(desk, from_plain(each)) for each in json.loads(chunk)]
    told = {"rows": [packed(row) for row in rows], "took_s": perf_counter() - began}
    return json.dumps({**told, "attempt": attempt})


def check_releases(terms: Terms) -> None:
    """Check that what is installed here is what the study was begun with.

    Raises:
        OtherReleasesError: It is not.
    """
    here = (own_version(), solver_version(), releases_of(terms.families, terms.local_rules))
    wanted = (terms.drylay_version, terms.solver_version, terms.releases)
    if here != wanted:
        raise OtherReleasesError(f"a worker has {here}, wanted {wanted}")


def row_for(desk: Desk, case: PlainCase) -> Row:
    """Return the row of one case, whatever becomes of it.

    Raises:
        Cancelled: The cancel token was set.
    """
    with localcontext(COUNTING):
        return row_of(desk, case, came_of(desk, case))


def came_of(desk: Desk, case: PlainCase) -> Came:
    """Return what comes of a case; nothing but a wish to stop is let through.

    Raises:
        Cancelled: The cancel token was set.
    """
    try:
        return _planned(desk, case)
    except Cancelled:
        raise
    except InputError as error:
        return refused(error.faults)
    except UnknownPathError as error:
        wanted = "a path of a brief"
        near = ", ".join(error.nearest)
        return refused([Fault(path=error.path, found="unknown", wanted=wanted, nearest=near)])
    except PlannerFault as error:
        codes = tuple(sorted({getattr(each, "code", "") for each in error.findings}))
        return Came(outcome="failed", codes=codes, told=str(error))
    except Exception as error:  # a plugin's or ours: told in the row, and the study goes on
        return failed(error)


def _planned(desk: Desk, case: PlainCase) -> Came:
    changed: dict[str, Any] = json.loads(case.brief)
    on_shelf = tuple((path, value) for path, value in case.changes if path.startswith(STOCK))
    for path, value in case.changes:
        if not path.startswith(STOCK):
            put_at(changed, path, value)
    brief = read_brief(changed)
    shelf = shelf_of(desk.terms.stock, on_shelf)
    plan = glance(look_at(desk, shelf, digest_of(on_shelf)), brief)
    if not plan.buildable:
        return stopped(plan, plan.findings, "blocked")
    report = audit_plan(plan)
    if not report.sound:
        raise PlannerFault(tuple(f for f in report.findings if f.severity is Severity.STOP))
    deck = _over_years(desk, brief, shelf, plan)
    return Came(outcome="planned", plan=plan, deck=deck)


def _over_years(desk: Desk, brief: Brief, shelf: Catalogue, plan: Plan) -> ComparedDeck:
    articles = find_articles(brief, shelf)
    told = ask_years(brief, articles, desk.families)
    return compared_deck("", articles.board.family, plan, told, desk.terms.years)


def packed(row: Row) -> dict[str, object]:
    """Return a row as JSON holds it: money as text, with the names of what is money."""
    money = [name for name, figure in row.items() if isinstance(figure, Decimal)]
    return {MONEY: money, "row": {**row, **{name: str(row[name]) for name in money}}}


def unpacked(plain: dict[str, Any]) -> Row:
    """Return a row from what JSON holds of it."""
    row: Row = dict(plain["row"])
    for name in plain[MONEY]:
        row[name] = Decimal(str(row[name]))
    return row
