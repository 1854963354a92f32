"""A brief as plain data and back, with one value changed, and as a digest."""

import json
import re
from decimal import Decimal
from hashlib import sha256
from typing import Any

import attrs

from drylay.brief.keys import OVERRIDE, SECTIONS, TOP
from drylay.brief.model import Brief, DrainsWish, TubWish
from drylay.brief.outline_model import LayingWish, OutlineWish
from drylay.brief.raised_model import GuardsWish, RaisedWish, StepsWish, StrengthWish
from drylay.brief.reader import read_brief
from drylay.errors import UnknownPathError
from drylay.intake.keys import LENGTHS, bare_name
from drylay.intake.values import number_of
from drylay.intake.words import nearest_of

#: Sections that a brief need not have, and what they are where it has none.
_UNSAID: dict[str, object] = {
    "outline": OutlineWish(),
    "laying": LayingWish(),
    "strength": StrengthWish(),
    "raised": RaisedWish(),
    "guards": GuardsWish(),
    "steps": StepsWish(),
    "tub": TubWish(),
    "drains": DrainsWish(),
}
_OVERRIDE_PATH = re.compile(r"overrides\[(\d{1,4})\]\.(\w+)")


def brief_to_dict(brief: Brief) -> dict[str, object]:
    """Return a brief as plain data that `read_brief` takes back: JSON can hold all of it.

    What only a deck on an outline has, or one that stands, is left out of others; with an outline
    the cover follows from it.
    """
    plain = _plain_noun(brief)
    unsaid = [name for name, none in _UNSAID.items() if getattr(brief, name) == none]
    unsaid += [] if "outline" in unsaid else ["cover"]
    return {name: value for name, value in plain.items() if name not in unsaid}


def _plain_noun(noun: Any) -> dict[str, object]:
    values = {field.name: getattr(noun, field.name) for field in attrs.fields(type(noun))}
    is_count = values.get("unit") == "count"
    return {
        name: int(value) if is_count and name == "value" else _plain(value, name)
        for name, value in values.items()
        if value is not None
    }


def _plain(value: object, name: str) -> object:
    if attrs.has(type(value)):
        return _plain_noun(value)
    if isinstance(value, tuple):
        return [_plain(item, name) for item in value]
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    if name.endswith("_mm") or name == "value":
        return number_of(value)
    return value


def brief_digest(brief: Brief) -> str:
    """Return the SHA-256 of a brief, the same for equal briefs."""
    text = json.dumps(brief_to_dict(brief), sort_keys=True, separators=(",", ":"))
    return sha256(text.encode()).hexdigest()


def brief_replace(brief: Brief, path: str, value: object) -> Brief:
    """Return the brief with the value at `path` changed, None to leave a wish out.

    Args:
        brief: The brief to change; it stays as it is.
        path: A key such as "cover.along_mm", a section, or "overrides[0].value".
        value: As in a brief; a length is a number of mm or a text with its unit.

    Raises:
        UnknownPathError: The path names no key of a brief.
        BriefError: The changed brief cannot be planned from.
    """
    changed = brief_to_dict(brief)
    put_at(changed, path, value)
    return read_brief(changed)


def put_at(plain: dict[str, Any], path: str, value: object) -> None:
    """Change the value at a path of a brief's plain data, None to leave a wish out.

    A section that is no table takes no key and stays as it is: the reader tells what it found.

    Raises:
        UnknownPathError: The path names no key of a brief.
    """
    override = _OVERRIDE_PATH.fullmatch(path)
    if override:
        _put_override(plain["overrides"], int(override[1]), override[2], value, path)
    elif path in _known_paths():
        *section, name = path.split(".")
        table = plain
        if section:
            table = plain[section[0]] = plain.get(section[0]) or {}
        if isinstance(table, dict):
            _put(table, name, _plain_value(value))
    else:
        raise UnknownPathError(path, _nearest_paths(path))


def _plain_value(value: object) -> object:
    """Return nouns handed over as the plain data the reader takes."""
    if attrs.has(type(value)):
        return _plain_noun(value)
    if isinstance(value, list | tuple):
        return [_plain_value(item) for item in value]
    return value


def _put(table: dict[str, Any], name: str, value: object) -> None:
    """Set a key, under the name its kind of value belongs to, and clear its other name."""
    bare = name.removesuffix("_mm")
    table.pop(name, None)
    table.pop(f"{bare}_mm", None)
    as_text = isinstance(value, str) or hasattr(value, "m_as")
    table[bare if name.endswith("_mm") and as_text else name] = value


def _put_override(
    overrides: list[dict[str, Any]], at: int, name: str, value: object, path: str
) -> None:
    if at >= len(overrides) or name not in {key.name for key in OVERRIDE}:
        names = [(n, key.name) for n in range(len(overrides)) for key in OVERRIDE]
        near = nearest_of(path, tuple(f"overrides[{n}].{key}" for n, key in names))
        raise UnknownPathError(path, (near,) if near else ())
    overrides[at][name] = value


def _known_paths() -> tuple[str, ...]:
    nested = [(section, key) for section, keys in SECTIONS.items() for key in keys]
    names = [f"{section}.{key.name}" for section, key in nested]
    bare = [f"{section}.{bare_name(key)}" for section, key in nested if key.kind in LENGTHS]
    return (*(key.name for key in TOP), *names, *bare)


def _nearest_paths(path: str) -> tuple[str, ...]:
    names = _known_paths()
    same_key = tuple(name for name in names if path and name.endswith(f".{path}"))
    near = nearest_of(path, names)
    return same_key[:3] or ((near,) if near else ())
