"""Paths as a study file tells them: keys dotted, `cover.along_mm = ...`, or whole, in quotes."""

from collections.abc import Iterator, Mapping
from typing import Any

from drylay.brief.keys import SECTIONS

#: What has keys of its own, besides sections of a brief.
OTHERS = ("stock", "life")


def paths_in(table: Mapping[Any, Any]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield each path, in the parts that it is told in, with what stands there.

    A section without a key stands as it is told: it is no path, and whoever reads it says so.
    """
    for name, given in table.items():
        if not given or not isinstance(given, Mapping) or name not in (*SECTIONS, *OTHERS):
            yield (str(name),), given
            continue
        for key, inside in given.items():
            if name == "stock" and inside and isinstance(inside, Mapping) and "from" not in inside:
                yield from (((name, str(key), str(code)), each) for code, each in inside.items())
            else:
                yield (name, str(key)), inside
