"""Stock in a CSV file with a mapping beside it: a Catalogue, or every fault."""

from collections.abc import Iterator
from typing import Any

from attrs import define

from drylay.errors import Fault
from drylay.intake.sources import FileGiven, file_given, no_file
from drylay.materials.articles import NOUNS, build_length, build_pack
from drylay.materials.head import built_catalogue
from drylay.materials.keys import BY_LENGTH
from drylay.materials.mapping import read_mapping
from drylay.materials.mapping_model import SheetMapping
from drylay.materials.sheet_places import Run
from drylay.materials.sheet_rows import sheet_events
from drylay.materials.stock_model import Catalogue


@define(kw_only=True)
class Gathered:
    """One article as its rows told it, wherever in the file they stand."""

    run: Run
    sold: list[dict[str, Any]]


def sheet_faults(source: object, mapping: object) -> Iterator[Fault]:
    """Yield every fault of a CSV stock file and its mapping, holding none of the file in memory."""
    file, read, faults = _opened(source, mapping)
    yield from faults
    if file is not None and read is not None:
        yield from (event for event in sheet_events(file, read) if isinstance(event, Fault))


def load_sheet(source: object, mapping: object) -> tuple[Catalogue | None, tuple[Fault, ...]]:
    """Return the catalogue in a CSV file, or None and everything that is wrong."""
    file, read, faults = _opened(source, mapping)
    if file is None or read is None:
        return None, tuple(faults)
    articles: dict[str, Gathered] = {}
    for event in sheet_events(file, read):
        if isinstance(event, Fault):
            faults.append(event)
        elif not faults:
            run, sold = event
            code = run.facts["code"]
            articles.setdefault(code, Gathered(run=run, sold=[])).sold.append(sold)
    if faults:
        return None, in_order(faults)
    return _built(read, articles), ()


def in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    """Return faults in the order of their file."""
    return tuple(sorted(faults, key=lambda found: (found.file, found.line, found.column)))


def _opened(
    source: object, mapping: object
) -> tuple[FileGiven | None, SheetMapping | None, list[Fault]]:
    read, faults = read_mapping(mapping)
    file = file_given(source, what="catalogue")
    if file is None:
        return None, read, [*faults, no_file(source, what="catalogue", mapping=False)]
    if file.name.lower().endswith(".toml"):
        return None, read, [_takes_none(file.name)]
    return file, read, list(faults)


def _takes_none(name: str) -> Fault:
    """Return the fault of a mapping beside a stock file that needs none."""
    wanted = "a CSV file: a stock file in TOML takes no mapping"
    return Fault(file=name, path="catalogue", found="a TOML file with a mapping", wanted=wanted,
                 nearest="leave out the mapping")  # fmt: skip


def _built(mapping: SheetMapping, articles: dict[str, Gathered]) -> Catalogue:
    digits = int(str(mapping.head["minor_digits"]))
    by_kind: dict[str, list[dict[str, Any]]] = {kind: [] for kind in NOUNS}
    for gathered in articles.values():
        kind = gathered.run.reckoning.kind
        by_kind[kind].append(_values(kind, gathered, digits))
    return built_catalogue(dict(mapping.head), by_kind)


def _values(kind: str, gathered: Gathered, digits: int) -> dict[str, Any]:
    """Return all that one article's rows told, its lengths or packs smallest first."""
    values, run = dict(gathered.run.facts), gathered.run
    if run.rules:
        values["rules"] = run.rules
    if kind in BY_LENGTH:
        per_m = values.get("price_per_m")
        lengths = [build_length(sold, digits, per_m) for sold in gathered.sold]
        values["lengths"] = tuple(sorted(lengths, key=lambda length: length.length_mm))
    else:
        packs = [build_pack(kind, sold, digits) for sold in gathered.sold]
        size = run.reckoning.size
        values["packs"] = tuple(sorted(packs, key=lambda pack: int(getattr(pack, size))))
    return values
