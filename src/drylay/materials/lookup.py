"""Finding articles in a catalogue, leaving some out, and putting two catalogues together."""

import json
from decimal import Decimal
from hashlib import sha256
from typing import Any, TypeVar

import attrs
from attrs import evolve

from drylay.errors import CatalogueError, Fault, UnknownPathError
from drylay.intake.values import nearest_of
from drylay.marks import exact
from drylay.materials.keys import PACK_SIZES
from drylay.materials.stock_model import (
    KINDS,
    Article,
    Board,
    Catalogue,
    Clip,
    CoachScrew,
    Coating,
    Fabric,
    FasciaBoard,
    Gravel,
    Hanger,
    Packer,
    Screw,
    Tile,
    Timber,
)

_A = TypeVar(
    "_A", Board, Tile, Timber, FasciaBoard, Screw, CoachScrew, Clip, Hanger, Coating, Fabric,
    Gravel, Packer,
)  # fmt: skip


def find_board(catalogue: Catalogue, code: str) -> Board:
    """Return the deck board of this code.

    Raises:
        UnknownPathError: No board has this code; it names the nearest.
    """
    return _find(catalogue.boards, code)


def find_tile(catalogue: Catalogue, code: str) -> Tile:
    """Return the tile of this code.

    Raises:
        UnknownPathError: No tile has this code; it names the nearest.
    """
    return _find(catalogue.tiles, code)


def find_clip(catalogue: Catalogue, code: str) -> Clip:
    """Return the clip or end cap of this code.

    Raises:
        UnknownPathError: No clip has this code; it names the nearest.
    """
    return _find(catalogue.clips, code)


def find_timber(catalogue: Catalogue, code: str) -> Timber:
    """Return the frame timber of this code.

    Raises:
        UnknownPathError: No frame timber has this code; it names the nearest.
    """
    return _find(catalogue.timbers, code)


def find_fascia(catalogue: Catalogue, code: str) -> FasciaBoard:
    """Return the fascia board of this code.

    Raises:
        UnknownPathError: No fascia board has this code; it names the nearest.
    """
    return _find(catalogue.fascias, code)


def find_screw(catalogue: Catalogue, code: str) -> Screw:
    """Return the screw of this code.

    Raises:
        UnknownPathError: No screw has this code; it names the nearest.
    """
    return _find(catalogue.screws, code)


def find_coach_screw(catalogue: Catalogue, code: str) -> CoachScrew:
    """Return the coach screw of this code.

    Raises:
        UnknownPathError: No coach screw has this code; it names the nearest.
    """
    return _find(catalogue.coach_screws, code)


def find_hanger(catalogue: Catalogue, code: str) -> Hanger:
    """Return the joist hanger of this code.

    Raises:
        UnknownPathError: No hanger has this code; it names the nearest.
    """
    return _find(catalogue.hangers, code)


def find_coating(catalogue: Catalogue, code: str) -> Coating:
    """Return the preserver, oil, stain or paint of this code.

    Raises:
        UnknownPathError: No coating has this code; it names the nearest.
    """
    return _find(catalogue.coatings, code)


def find_fabric(catalogue: Catalogue, code: str) -> Fabric:
    """Return the ground fabric of this code.

    Raises:
        UnknownPathError: No fabric has this code; it names the nearest.
    """
    return _find(catalogue.fabrics, code)


def find_gravel(catalogue: Catalogue, code: str) -> Gravel:
    """Return the gravel of this code.

    Raises:
        UnknownPathError: No gravel has this code; it names the nearest.
    """
    return _find(catalogue.gravels, code)


def find_packer(catalogue: Catalogue, code: str) -> Packer:
    """Return the packer or pedestal of this code.

    Raises:
        UnknownPathError: No packer has this code; it names the nearest.
    """
    return _find(catalogue.packers, code)


def _find(articles: tuple[_A, ...], code: str) -> _A:
    for article in articles:
        if article.code == code:
            return article
    raise UnknownPathError(code, _near(code, tuple(article.code for article in articles)))


def _near(code: str, codes: tuple[str, ...]) -> tuple[str, ...]:
    """Return up to three known codes like this one, letter case aside."""
    by_lower = {known.lower(): known for known in codes}
    found: list[str] = []
    while len(found) < 3 and (near := nearest_of(code, tuple(by_lower))):
        found.append(by_lower.pop(near))
    return tuple(found)


def catalogue_without(
    catalogue: Catalogue, code: str, *, length_mm: float | None = None
) -> Catalogue:
    """Return the catalogue without an article, or without one length of it.

    An article whose last length is left out is no longer on sale.

    Raises:
        UnknownPathError: No such article, or the article has no such length.
    """
    articles = {article.code: article for kind in KINDS for article in getattr(catalogue, kind)}
    if code not in articles:
        raise UnknownPathError(code, _near(code, tuple(articles)))
    kept = None if length_mm is None else _without_length(articles[code], length_mm)
    changed: dict[str, Any] = {
        kind: tuple(
            kept if article.code == code else article
            for article in getattr(catalogue, kind)
            if article.code != code or kept is not None
        )
        for kind in KINDS
    }
    return evolve(catalogue, **changed)


def _without_length(article: Any, length_mm: float) -> Any:
    lengths = getattr(article, "lengths", ())
    left = tuple(stock for stock in lengths if exact(stock.length_mm) != exact(length_mm))
    if len(left) == len(lengths):
        known = tuple(f"{article.code} {stock.length_mm:g} mm" for stock in lengths)
        raise UnknownPathError(f"{article.code} {length_mm:g} mm", known)
    return evolve(article, lengths=left) if left else None


def catalogue_union(first: Catalogue, second: Catalogue) -> Catalogue:
    """Return both catalogues as one.

    An article in both must be the same but for its lengths or packs, and these must not
    contradict each other.

    Raises:
        CatalogueError: With every contradiction.
    """
    faults = _heads_disagree(first, second)
    merged: dict[str, dict[str, Article]] = {}
    for kind in KINDS:
        merged[kind] = {article.code: article for article in getattr(first, kind)}
        size = PACK_SIZES.get(kind, "count")
        for article in getattr(second, kind):
            here = merged[kind].get(article.code, article)
            merged[kind][article.code], wrong = _merged(here, article, pack_size=size)
            faults += wrong
    faults += _codes_of_two_kinds(merged)
    if faults:
        raise CatalogueError(tuple(faults))
    names = sorted({*first.name.split(" + "), *second.name.split(" + ")})
    articles: dict[str, Any] = {kind: tuple(found.values()) for kind, found in merged.items()}
    return evolve(first, name=" + ".join(names), **articles)


def _contradiction(path: str, here: object, there: object) -> Fault:
    found = f"{_told(here)} and {_told(there)}"
    return Fault(path=path, found=found, wanted="the same in both catalogues")


def _told(value: object) -> str:
    """Return a value of an article in words; its rules by name and figure."""
    if not isinstance(value, tuple):
        return str(value)
    return ", ".join(f"{rule.rule} = {rule.value:g}" for rule in value) or "no rules"


def _heads_disagree(first: Catalogue, second: Catalogue) -> list[Fault]:
    return [
        _contradiction(f"catalogue.{name}", getattr(first, name), getattr(second, name))
        for name in ("currency", "vat", "minor_digits")
        if getattr(first, name) != getattr(second, name)
    ]


def _merged(here: Article, there: Article, *, pack_size: str) -> tuple[Article, list[Fault]]:
    """Return one article with the lengths or packs of both, and what contradicts."""
    on_sale = "packs" if hasattr(here, "packs") else "lengths"
    size = pack_size if on_sale == "packs" else "length_mm"
    faults = [
        _contradiction(f"{here.code}.{name}", getattr(here, name), getattr(there, name))
        for name in (field.name for field in attrs.fields(type(here)))
        if name != on_sale and getattr(here, name) != getattr(there, name)
    ]
    sold = {getattr(item, size): item for item in getattr(here, on_sale)}
    for item in getattr(there, on_sale):
        known = sold.setdefault(getattr(item, size), item)
        if known != item:
            path = f"{here.code} {getattr(item, size):g}"
            faults.append(_contradiction(path, _terms(known), _terms(item)))
    both: dict[str, Any] = {on_sale: tuple(sold[key] for key in sorted(sold))}
    return evolve(here, **both), faults


def _terms(item: Any) -> str:
    limit = getattr(item, "limit", None)
    return f"{item.price}" + ("" if limit is None else f" (limit {limit})")


def _codes_of_two_kinds(merged: dict[str, dict[str, Article]]) -> list[Fault]:
    kinds: dict[str, str] = {}
    faults = []
    for kind, found in merged.items():
        for code in found:
            other = kinds.setdefault(code, kind)
            if other != kind:
                faults.append(Fault(path=code, found=f"{other} and {kind}", wanted="one kind"))
    return faults


def catalogue_digest(catalogue: Catalogue) -> str:
    """Return the SHA-256 of a catalogue, whatever order its articles stand in."""
    plain = _plain(catalogue)
    for kind in KINDS:
        plain[kind] = sorted(plain[kind], key=lambda article: str(article["code"]))
    text = json.dumps(plain, sort_keys=True, separators=(",", ":"))
    return sha256(text.encode()).hexdigest()


def _plain(value: Any) -> Any:
    if attrs.has(type(value)):
        return {
            field.name: _plain(getattr(value, field.name)) for field in attrs.fields(type(value))
        }
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return f"{value.normalize():f}" if isinstance(value, Decimal) else value
