"""Stock on a day: what is on sale then, and what a brief names that is not."""

from argparse import Namespace
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from copy import copy
from datetime import date
from typing import Any

from attrs import evolve

from drylay.errors import BriefError, CatalogueError, Fault
from drylay.materials.stock_model import KINDS, Catalogue


def on_day(shelves: Sequence[Catalogue], day: str | None) -> list[Catalogue]:
    """Return what is on sale on a day, everything where none is told.

    Raises:
        CatalogueError: It is no day, or nothing at all is on sale on it.
    """
    if day is None:
        return list(shelves)
    there = [shelf.on(day) for shelf in shelves]
    if shelves and not any(getattr(shelf, kind) for shelf in there for kind in KINDS):
        held = " or ".join(_held(shelf) for shelf in shelves)
        raise CatalogueError((Fault(path="--on", found=day, wanted=f"a day on which {held}"),))
    return there


def _held(shelf: Catalogue) -> str:
    days = _span(shelf.valid_from, shelf.valid_until)
    if days:
        return f"prices of {shelf.name} hold: {days}"
    return f"{shelf.name} has an article on sale"


def _span(since: date | None, until: date | None) -> str:
    told = (f"from {since}" if since else "", f"until {until}" if until else "")
    return " ".join(filter(None, told))


@contextmanager
def told_of_days(
    arguments: Namespace, read: Callable[[Namespace], Callable[[], Catalogue]]
) -> Iterator[None]:
    """Say of each article that a brief names and a day leaves out when it is on sale."""
    try:
        yield
    except BriefError as error:
        if arguments.on is None:
            raise
        ever = copy(arguments)
        ever.on = None
        sold = {each.code: each for kind in KINDS for each in getattr(read(ever)(), kind)}
        named = [_off_sale(fault, sold, arguments.on) for fault in error.faults]
        raise BriefError(tuple(named)) from None


def _off_sale(fault: Fault, sold: dict[str, Any], day: str) -> Fault:
    """Return the fault of an article that is not there, with its days if it is sold on others."""
    article = sold.get(fault.found[1:-1])
    if article is None or fault.found != repr(article.code):
        return fault
    days = _span(article.record.sold_from, article.record.sold_until)
    found = f"{fault.found}, which is on sale {days}"
    return evolve(fault, found=found, wanted=f"an article that is on sale on {day}")
