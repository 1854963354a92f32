"""A brief's plain data as TOML that reads back: what a person goes on editing."""

import json
from collections.abc import Iterator, Mapping
from typing import Any


def brief_toml(plain: Mapping[str, Any], *, comments: tuple[str, ...] = ()) -> str:
    """Return a brief's plain data (`brief.to_dict()`) as TOML, what to look at as comments on top.

    Texts are written as JSON writes them, which TOML reads alike (TOML 1.0, basic strings).
    """
    return "\n".join(_lines(plain, comments)) + "\n"


def _lines(plain: Mapping[str, Any], comments: tuple[str, ...]) -> Iterator[str]:
    for comment in comments:
        yield f"# {' '.join(comment.split())}"
    for name, value in plain.items():
        if not isinstance(value, Mapping) and value != []:
            yield f"{name} = {_value(value)}"
    for name, section in plain.items():
        if isinstance(section, Mapping) and section:
            yield ""
            yield f"[{name}]"
            yield from (f"{key} = {_value(value)}" for key, value in section.items())


def _value(value: object) -> str:
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{key} = {_value(held)}" for key, held in value.items()) + " }"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(_value, value)) + "]"
    return json.dumps(value, ensure_ascii=False)
