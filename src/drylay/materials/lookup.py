"""Finding articles in a catalogue, leaving some out, keeping those of a day; a digest."""

import json
from datetime import date
from decimal import Decimal
from hashlib import sha256
from typing import Any, TypeVar

import attrs
from attrs import evolve

from drylay.counting import counted
from drylay.errors import CatalogueError, Fault, UnknownPathError
from drylay.intake.days import read_day
from drylay.intake.keys import Key
from drylay.intake.words import nearest_of
from drylay.marks import exact
from drylay.materials.stock_model import (
    KINDS,
    Board,
    Catalogue,
    Clip,
    CoachScrew,
    Coating,
    ConcreteMix,
    Fabric,
    FasciaBoard,
    Gravel,
    Hanger,
    Packer,
    PostFoot,
    Screw,
    Tile,
    Timber,
)

_A = TypeVar(
    "_A", Board, Tile, Timber, FasciaBoard, Screw, CoachScrew, Clip, Hanger, Coating, Fabric,
    Gravel, Packer, ConcreteMix, PostFoot,
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


def find_concrete(catalogue: Catalogue, code: str) -> ConcreteMix:
    """Return the concrete mix of this code.

    Raises:
        UnknownPathError: No concrete mix has this code; it names the nearest.
    """
    return _find(catalogue.concretes, code)


def find_post_foot(catalogue: Catalogue, code: str) -> PostFoot:
    """Return the post foot of this code.

    Raises:
        UnknownPathError: No post foot has this code; it names the nearest.
    """
    return _find(catalogue.post_feet, code)


def _find(articles: tuple[_A, ...], code: str) -> _A:
    for article in articles:
        if article.code == code:
            return article
    near = near_codes(code, tuple(article.code for article in articles))
    raise UnknownPathError(code, near, noun="article")


def near_codes(code: str, codes: tuple[str, ...]) -> tuple[str, ...]:
    """Return up to three known codes like this one, letter case aside."""
    by_lower = {known.lower(): known for known in codes}
    found: list[str] = []
    while len(found) < 3 and (near := nearest_of(code, tuple(by_lower))):
        found.append(by_lower.pop(near))
    return tuple(found)


@counted
def catalogue_without(
    catalogue: Catalogue, code: str, *, length_mm: float | None = None, pack: int | None = None
) -> Catalogue:
    """Return the catalogue without an article, or without one length or pack of it.

    An article whose last length or pack is left out is no longer on sale.

    Raises:
        UnknownPathError: No such article, or the article has no such length or pack.
    """
    articles = {article.code: article for kind in KINDS for article in getattr(catalogue, kind)}
    if code not in articles:
        raise UnknownPathError(code, near_codes(code, tuple(articles)), noun="article")
    kept: Any = None
    if length_mm is not None or pack is not None:
        kept = _without_size(articles[code], length_mm, pack)
    changed: dict[str, Any] = {
        kind: tuple(
            kept if article.code == code else article
            for article in getattr(catalogue, kind)
            if article.code != code or kept is not None
        )
        for kind in KINDS
    }
    return evolve(catalogue, **changed)


def _without_size(article: Any, length_mm: float | None, pack: int | None) -> Any:
    """Return an article without one length or pack, None if nothing of it is left."""
    for name, unit, left_out in (("lengths", "mm", length_mm), ("packs", "in a pack", pack)):
        sold = getattr(article, name, ())
        if left_out is None:
            continue
        left = tuple(item for item in sold if exact(size_of(item)) != exact(left_out))
        if len(left) == len(sold):
            known = tuple(f"{article.code} {size_of(item):g} {unit}" for item in sold)
            raise UnknownPathError(f"{article.code} {left_out:g} {unit}", known, noun="article")
        if not left:
            return None
        article = evolve(article, **{name: left})
    return article


def size_of(item: Any) -> float:
    """Return how long a length is, or how much a pack holds."""
    name = next(name for name in ("length_mm", "count", "ml", "kg") if hasattr(item, name))
    return float(getattr(item, name))


@counted
def catalogue_on(catalogue: Catalogue, day: date | str) -> Catalogue:
    """Return what of the catalogue is on sale on a day.

    Raises:
        CatalogueError: The day is none.
    """
    read = read_day(Key(name="on", kind="day"), day)
    if isinstance(read, Fault):
        raise CatalogueError((evolve(read, path="on"),))
    holds = _within(read, catalogue.valid_from, catalogue.valid_until)
    changed: dict[str, Any] = {
        kind: tuple(
            article
            for article in getattr(catalogue, kind)
            if holds and _within(read, article.record.sold_from, article.record.sold_until)
        )
        for kind in KINDS
    }
    return evolve(catalogue, **changed)


def _within(day: date, since: date | None, until: date | None) -> bool:
    return (since is None or since <= day) and (until is None or day <= until)


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
    if isinstance(value, date):
        return value.isoformat()
    return f"{value.normalize():f}" if isinstance(value, Decimal) else value
