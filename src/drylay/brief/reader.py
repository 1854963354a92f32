"""A brief is read here: TOML file or mapping in, Brief out, or every fault at once."""

import os
from collections.abc import Mapping
from typing import Any

from attrs import evolve

from drylay.brief.checks import Read, check_meaning, check_overrides
from drylay.brief.keys import INSIDE
from drylay.brief.model import (
    AirBrick,
    BoardWish,
    BorderWish,
    Brief,
    ClimateWish,
    CoverWish,
    CrewWish,
    CuttingWish,
    DrainsWish,
    FasciaWish,
    FinishWish,
    FixingsWish,
    FrameWish,
    GapWish,
    GroundPoint,
    GroundworkWish,
    HouseWish,
    InspectionCover,
    JointsWish,
    LevelsWish,
    LightsWish,
    Override,
    RowsWish,
    SiteWish,
    TubWish,
)
from drylay.brief.outline import check_outline, has_outline
from drylay.brief.outline_model import (
    FieldWish,
    LayingWish,
    OpeningWish,
    OutlinePoint,
    OutlineRectangle,
    OutlineWish,
    WallReading,
)
from drylay.brief.overrides import read_overrides
from drylay.brief.raised_model import GuardsWish, RaisedWish, StepsWish, StrengthWish
from drylay.brief.tiles import section_keys, support_of, top_keys
from drylay.counting import counted
from drylay.errors import BriefError, Fault
from drylay.intake.document import Document, keys_of, open_document, placed
from drylay.intake.keys import Key
from drylay.intake.tables import (
    UNREADABLE,
    Reading,
    all_faults,
    read_table,
    read_tables,
    report,
)
from drylay.intake.values import fault

MOST_BYTES = 1_000_000

_NOUNS: dict[str, type] = {
    "cover": CoverWish,
    "board": BoardWish,
    "border": BorderWish,
    "gap": GapWish,
    "rows": RowsWish,
    "frame": FrameWish,
    "fascia": FasciaWish,
    "joints": JointsWish,
    "cutting": CuttingWish,
    "fixings": FixingsWish,
    "climate": ClimateWish,
    "site": SiteWish,
    "house": HouseWish,
    "levels": LevelsWish,
    "groundwork": GroundworkWish,
    "finish": FinishWish,
    "lights": LightsWish,
    "outline": OutlineWish,
    "laying": LayingWish,
    "strength": StrengthWish,
    "raised": RaisedWish,
    "guards": GuardsWish,
    "steps": StepsWish,
    "crew": CrewWish,
    "tub": TubWish,
    "drains": DrainsWish,
}
#: No number beyond this is one of those that look like metres.
MOST = 1e6
_INSIDE_NOUNS: dict[tuple[str, str], type] = {
    ("house", "air_bricks"): AirBrick,
    ("drains", "covers"): InspectionCover,
    ("levels", "points"): GroundPoint,
    ("outline", "points"): OutlinePoint,
    ("outline", "rectangles"): OutlineRectangle,
    ("outline", "wall"): WallReading,
    ("outline", "openings"): OpeningWish,
    ("laying", "fields"): FieldWish,
}


@counted
def read_brief(source: str | os.PathLike[str] | Mapping[str, object]) -> Brief:
    """Return the brief in a TOML file or a mapping.

    A text is a path, bytes are the file itself. A mapping has the same keys as the file, and may
    hold pint quantities.

    Raises:
        BriefError: With everything that is wrong, each with place, found and wanted.
    """
    brief, faults = _read(source)
    if brief is None:
        raise BriefError(faults)
    return brief


@counted
def check_brief(source: str | os.PathLike[str] | Mapping[str, object]) -> tuple[Fault, ...]:
    """Return everything that is wrong with a brief, nothing if it can be planned from."""
    return _read(source)[1]


def _read(source: object) -> tuple[Brief | None, tuple[Fault, ...]]:
    document, faults = open_document(source, what="brief", most_bytes=MOST_BYTES)
    if document is None:
        return None, faults
    if "catalogue" in document.tables and "cover" not in document.tables:
        return None, (_a_stock_file(document),)
    reading = Reading(document=document)
    support = support_of(document.tables)
    top = read_table(reading, (), document.tables, _top_keys(document.tables, support))
    read = _read_sections(reading, support) | ({"use": top["use"]} if "use" in top else {})
    cover, outlined = check_outline(read, document.tables)
    read |= cover
    overrides = read_overrides(reading, document.tables.get("overrides"))
    for wrong in (*outlined, *check_meaning(read), *check_overrides(overrides, read)):
        report(reading, keys_of(wrong.path), wrong)
    if reading.faults:
        return None, all_faults(reading)
    return _built(top, read, overrides), ()


def _top_keys(tables: Mapping[str, object], support: str) -> tuple[Key, ...]:
    """Return the top keys of a brief: with an outline the cover follows from it."""
    known = top_keys(support)
    if not has_outline(tables):
        return known
    return tuple(evolve(key, required=key.required and key.name != "cover") for key in known)


def _a_stock_file(document: Document) -> Fault:
    found = fault("a stock file, [catalogue]", "a brief, with its [cover]", "give it as stock")
    return placed(document, ("catalogue",), evolve(found, path="brief"), at_key=True)


def _read_sections(reading: Reading, support: str) -> Read:
    read: Read = {}
    for name, known in section_keys(support).items():
        table = reading.document.tables.get(name)
        if name == "cover" and has_outline(reading.document.tables):
            continue  # a cover beside an outline is refused whole
        if table is not None:
            answers = read_table(reading, (name,), table, known)
            read |= {f"{name}.{key}": value for key, value in answers.items()}
            read |= _written(name, table)
            read |= _read_inside(reading, name, table)
    return read


def _read_inside(reading: Reading, section: str, table: object) -> Read:
    """Return the tables inside a section, those that could be read whole."""
    read: Read = {}
    for (name, key), known in INSIDE.items():
        if name != section or not isinstance(table, Mapping) or key not in table:
            continue
        found = read_tables(reading, (section, key), table[key], known)
        needed = {k.name for k in known if k.required}
        whole = {
            at: one
            for at, one in enumerate(found)
            if needed <= set(one) and UNREADABLE not in one.values()
        }
        read[f"{section}.{key}"] = tuple(_INSIDE_NOUNS[name, key](**one) for one in whole.values())
        given = table[key]
        every = len(given) if isinstance(given, list | tuple) else 0
        # not under the section's name: what is read there becomes the wish
        read[f"read of {section}.{key}"] = tuple(whole)
        read[f"refused of {section}.{key}"] = every - len(whole)
        for at in whole:
            read |= _written(f"{section}.{key}[{at}]", given[at])
    return read


def _written(place: str, table: object) -> Read:
    """Return a table's bare numbers as they stand in the brief, before they were made exact."""
    if not isinstance(table, Mapping):
        return {}
    return {
        f"written at {place}.{key}": float(value)
        for key, value in table.items()
        if isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < MOST
    }


def _built(top: dict[str, Any], read: Read, overrides: tuple[Override, ...]) -> Brief:
    wishes: dict[str, Any] = {}
    for name, noun in _NOUNS.items():
        values = {k.split(".")[1]: v for k, v in read.items() if k.startswith(f"{name}.")}
        wishes[name] = noun(**values)
    return Brief(**top, **wishes, overrides=overrides)
