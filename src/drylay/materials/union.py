"""Two catalogues as one: what both tell has to be the same, and every contradiction is told."""

from collections.abc import Iterator
from typing import Any

import attrs
from attrs import evolve

from drylay.counting import counted
from drylay.errors import CatalogueError, Fault
from drylay.intake.gtin import whole_gtin
from drylay.materials.lookup import size_of
from drylay.materials.stock_model import KINDS, Article, Catalogue, Record
from drylay.materials.union_told import UNTOLD, contradiction, days_of_lists, named, rules_disagree

#: What a list tells of all its articles; where two lists differ, each article keeps its own.
_OF_ALL = ("valid_from", "valid_until", "batch")
_NOTE_MARK = " / "


@counted
def catalogue_union(first: Catalogue, second: Catalogue) -> Catalogue:
    """Return both catalogues as one.

    An article in both must be the same but for its lengths or packs, and these must not
    contradict each other. A GTIN, batch or note may be told in one of them only.

    Raises:
        CatalogueError: With every contradiction.
    """
    faults = heads_disagree(first, second)
    lists = first, second
    if _differ(first, second):
        first, second = _pressed(first), _pressed(second)
    merged: dict[str, dict[str, Article]] = {}
    for kind in KINDS:
        merged[kind] = {article.code: article for article in getattr(first, kind)}
        for article in getattr(second, kind):
            here = merged[kind].get(article.code, article)
            merged[kind][article.code], wrong = _merged(here, article)
            faults += wrong
    faults += [*_codes_of_two_kinds(merged), *_gtins_twice(merged)]
    if faults:
        raise CatalogueError(tuple(named(*lists, days_of_lists(*lists, faults))))
    articles: dict[str, Any] = {kind: tuple(found.values()) for kind, found in merged.items()}
    return evolve(first, **_head(first, second), **articles)


def heads_disagree(first: Catalogue, second: Catalogue) -> list[Fault]:
    """Return what two catalogues say of their prices otherwise than each other."""
    wrong = [
        contradiction(f"catalogue.{name}", getattr(first, name), getattr(second, name))
        for name in ("currency", "vat", "minor_digits")
        if getattr(first, name) != getattr(second, name)
    ]
    rates = (first.vat_ratio, second.vat_ratio)
    if None not in rates and rates[0] != rates[1]:
        wrong.append(contradiction("catalogue.vat_ratio", *rates))
    return named(first, second, wrong)


def _head(first: Catalogue, second: Catalogue) -> dict[str, Any]:
    """Return the name, notes and rate of both."""
    names = sorted({*first.name.split(" + "), *second.name.split(" + ")})
    rate = second.vat_ratio if first.vat_ratio is None else first.vat_ratio
    note = _both_notes(first.note, second.note)
    return {"name": " + ".join(names), "note": note, "vat_ratio": rate}


def _both_notes(here: str, there: str) -> str:
    notes = {*here.split(_NOTE_MARK), *there.split(_NOTE_MARK)} - {""}
    return _NOTE_MARK.join(sorted(notes))


def _differ(first: Catalogue, second: Catalogue) -> bool:
    return any(getattr(first, name) != getattr(second, name) for name in _OF_ALL)


def _pressed(catalogue: Catalogue) -> Catalogue:
    """Return a catalogue whose articles tell its batch and days themselves."""
    changed: dict[str, Any] = {
        kind: tuple(
            evolve(article, record=_record_in(catalogue, article.record))
            for article in getattr(catalogue, kind)
        )
        for kind in KINDS
    }
    return evolve(catalogue, batch="", valid_from=None, valid_until=None, **changed)


def _record_in(catalogue: Catalogue, record: Record) -> Record:
    since = [day for day in (record.sold_from, catalogue.valid_from) if day]
    until = [day for day in (record.sold_until, catalogue.valid_until) if day]
    return evolve(
        record,
        batch=record.batch or catalogue.batch,
        sold_from=max(since, default=None),
        sold_until=min(until, default=None),
    )


def _merged(here: Any, there: Any) -> tuple[Article, list[Fault]]:
    """Return one article with the lengths or packs of both, and what contradicts."""
    on_sale = "packs" if hasattr(here, "packs") else "lengths"
    faults = list(_unlike(here, there, apart=(on_sale, "record", "rules")))
    faults += rules_disagree(here.code, getattr(here, "rules", ()), getattr(there, "rules", ()))
    record, wrong = _one_record(here.code, here.record, there.record)
    sold = {size_of(item): item for item in getattr(here, on_sale)}
    for item in getattr(there, on_sale):
        size = size_of(item)
        sold[size], unlike = _one_size(f"{here.code} {size:g}", sold.get(size, item), item)
        wrong += unlike
    both: dict[str, Any] = {on_sale: tuple(sold[key] for key in sorted(sold)), "record": record}
    return evolve(here, **both), faults + wrong


def _unlike(here: Any, there: Any, *, apart: tuple[str, ...]) -> Iterator[Fault]:
    """Yield what one article has in two ways."""
    for name in (field.name for field in attrs.fields(type(here))):
        ours, theirs = getattr(here, name), getattr(there, name)
        if name not in apart and ours != theirs:
            two = (
                f'.without("{here.code}") of one, or a code of its own where it is another article'
            )
            yield contradiction(f"{here.code}.{name}", ours, theirs, two if name == "title" else "")


def _one_record(code: str, here: Record, there: Record) -> tuple[Record, list[Fault]]:
    """Return what both records tell, and what contradicts."""
    told: dict[str, Any] = {"note": _both_notes(here.note, there.note)}
    faults = []
    for name in ("gtin", "batch"):
        ours, theirs = getattr(here, name), getattr(there, name)
        told[name] = theirs if ours in UNTOLD else ours
        if theirs not in (*UNTOLD, told[name]):
            faults.append(contradiction(f"{code}.{name}", ours, theirs))
    faults += [
        contradiction(f"{code}.{name}", getattr(here, name), getattr(there, name))
        for name in ("sold_from", "sold_until")
        if getattr(here, name) != getattr(there, name)
    ]
    return evolve(here, **told), faults


def _one_size(path: str, known: Any, item: Any) -> tuple[Any, list[Fault]]:
    """Return a length or pack that both sell, and what contradicts."""
    both = evolve(known, gtin=known.gtin or item.gtin)
    if both == evolve(item, gtin=item.gtin or known.gtin):
        return both, []
    return known, [contradiction(path, _terms(known), _terms(item))]


def _terms(item: Any) -> str:
    """Return the terms that a length or pack is sold on."""
    limit, pack = getattr(item, "limit", None), getattr(item, "pack", 1)
    told = [f"limit {limit}"] if limit is not None else []
    told += [f"in packs of {pack}"] if pack > 1 else []
    told += [f"GTIN {item.gtin}"] if item.gtin else []
    return f"{item.price}" + (f" ({', '.join(told)})" if told else "")


def _codes_of_two_kinds(merged: dict[str, dict[str, Article]]) -> Iterator[Fault]:
    kinds: dict[str, str] = {}
    for kind, found in merged.items():
        for code in found:
            other = kinds.setdefault(code, kind)
            if other != kind:
                yield Fault(path=code, found=f"{other} and {kind}", wanted="one kind")


def _gtins_twice(merged: dict[str, dict[str, Article]]) -> Iterator[Fault]:
    """Yield each number in trade that two articles, lengths or packs have."""
    seen: dict[str, str] = {}
    for found in merged.values():
        for article in found.values():
            for name, gtin in _gtins(article):
                other = seen.setdefault(whole_gtin(gtin), name)
                if other != name:
                    wanted = "one GTIN for each thing sold apart"
                    yield Fault(path=name, found=f"GTIN {gtin}, as {other}", wanted=wanted)


def _gtins(article: Any) -> Iterator[tuple[str, str]]:
    if article.record.gtin:
        yield article.code, article.record.gtin
    for item in getattr(article, "packs", ()) or getattr(article, "lengths", ()):
        if item.gtin:
            yield f"{article.code} {size_of(item):g}", item.gtin
