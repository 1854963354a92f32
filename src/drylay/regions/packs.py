"""The packs of regions that lie in this package, each a file of figures with their sources."""

import tomllib
from collections.abc import Iterable
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Any

from drylay.errors import Fault, InputError
from drylay.reasons import Ruling, Source
from drylay.regions.figures import FOOT_MM, figure
from drylay.regions.model import (
    NOTE_FIGURES,
    Bag,
    HeightRule,
    Limit,
    RegionNote,
    RegionPack,
    Soil,
)
from drylay.regions.names import LIMITS, unit_of

PACKS = ("united-kingdom", "north-america", "australia", "new-zealand")
Sources = dict[str, dict[str, str]]


@cache
def region_pack(pack: str) -> RegionPack:
    """Return the rules of a region by the pack's id.

    Raises:
        InputError: No pack has this id; the nearest ids are told.
    """
    if pack not in PACKS:
        raise _unknown("region", pack, PACKS)
    text = resources.files("drylay.regions").joinpath(f"{pack}.toml").read_text("utf-8")
    return read_pack(tomllib.loads(text))


def read_pack(content: dict[str, Any]) -> RegionPack:
    """Return the pack that a file's content tells.

    Raises:
        KeyError: A limit, or who says so, is missing.
        ValueError: A figure is in no unit that fits.
    """
    sources = content["sources"]
    return RegionPack(
        pack=content["pack"],
        title=content["title"],
        covers=content["covers"],
        limits=tuple(_limit(name, content["limits"][name], sources) for name in LIMITS),
        soils=tuple(_soil(row, sources) for row in content["soils"]),
        bags=tuple(_bag(row, sources) for row in content["bags"]),
        heights=tuple(_height(row, sources) for row in content["heights"]),
        notes=tuple(_note(row, sources) for row in content.get("notes", ())),
        assumed_soil=content.get("assumed_soil", ""),
        cautions=tuple(content["cautions"]),
    )


def limit_of(pack: RegionPack, name: str) -> Limit:
    """Return a pack's limit by its name.

    Raises:
        InputError: There is no limit of this name; the nearest names are told.
    """
    if name not in LIMITS:
        raise _unknown("limit", name, LIMITS)
    return next(limit for limit in pack.limits if limit.name == name)


def soil_named(pack: RegionPack, name: str) -> Soil:
    """Return a pack's soil by its name; "" stands for the one that the pack assumes.

    Raises:
        InputError: The pack has no such soil, or assumes none; the nearest names are told.
    """
    wanted = name or pack.assumed_soil
    found = [soil for soil in pack.soils if soil.name == wanted]
    if not found:
        raise _unknown("soil", name, (soil.name for soil in pack.soils))
    return found[0]


def ruling_of(limit: Limit) -> Ruling:
    """Return a limit as a ruling, for the reasons of a plan: value, source, standing."""
    inputs = (("written", limit.written), ("standing", limit.standing))
    more = (("note", limit.note),) if limit.note else ()
    rule = LIMITS.get(limit.name, limit.name)
    return Ruling(
        value=limit.value, unit=limit.unit, rule=rule, source=limit.source, inputs=inputs + more
    )


def _unknown(noun: str, found: str, names: Iterable[str]) -> InputError:
    known = tuple(names)
    near = get_close_matches(found, known, n=3, cutoff=0.4)
    wanted = "one of " + ", ".join(known) if known else "none: the pack has none"
    fault = Fault(path=noun, found=repr(found), wanted=wanted, nearest=" or ".join(near))
    return InputError((fault,))


def _source(row: dict[str, Any], sources: Sources) -> Source:
    told = sources[row["source"]]
    remembered = row["standing"] in {"from memory", "assumption"}
    kind = row["standing"] if remembered else told["kind"]
    return Source(kind=kind, title=told["title"], clause=row.get("clause", ""))


def _limit(name: str, row: dict[str, Any], sources: Sources) -> Limit:
    written, unit = row.get("value", ""), unit_of(name)
    if bool(written) == (row["standing"] in {"no limit", "not covered"}):
        raise ValueError(f"{name}: a figure and its standing do not go together")
    return Limit(
        name=name,
        value=figure(written, unit) if written else None,
        unit=unit,
        written=written,
        standing=row["standing"],
        source=_source(row, sources),
        reached=row.get("reached", False),
        note=row.get("note", ""),
    )


def _soil(row: dict[str, Any], sources: Sources) -> Soil:
    bearing = _limit("bearing_kn_m2", row, sources)
    return Soil(name=row["name"], bearing=bearing, poor=row.get("poor", False))


def _height(row: dict[str, Any], sources: Sources) -> HeightRule:
    return HeightRule(name=row["name"], limit=_limit("height_mm", row, sources), asks=row["asks"])


def _note(row: dict[str, Any], sources: Sources) -> RegionNote:
    about = row["about"]
    return RegionNote(
        name=row["name"],
        about=about,
        limit=_limit(about, row, sources) if about in NOTE_FIGURES else None,
        asks=row["asks"],
        source=_source(row, sources),
        standing=row["standing"],
        checked=row.get("checked", ""),
    )


def _bag(row: dict[str, Any], sources: Sources) -> Bag:
    per_m3, made_ft3 = row.get("per_m3"), row.get("made_ft3")
    told = f"{per_m3} to the m3" if per_m3 else f"{made_ft3} ft3"
    made = Fraction(1, per_m3) if per_m3 else Fraction(str(made_ft3)) * (FOOT_MM / 1000) ** 3
    limit = Limit(
        name="made_m3",
        value=float(made),
        unit="m3",
        written=told,
        standing=row["standing"],
        source=_source(row, sources),
    )
    return Bag(name=row["name"], mass_kg=row["mass_kg"], made_m3=limit)
