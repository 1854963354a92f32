"""A plugin that is nothing but files: stock and tables of families in a package without hooks.

Every `*.toml` that lies in the package itself is read: one with a `[catalogue]` is a stock file,
one with a `[family]` a family's table (`drylay.plugins.table`). A `stock.csv` is stock as well, and
wants a `stock.map.toml` beside it that says what its columns mean.
"""

import re
from collections.abc import Mapping
from importlib import resources
from types import ModuleType, SimpleNamespace

from drylay.errors import DrylayError
from drylay.materials.model import Family
from drylay.materials.stock_model import Catalogue
from drylay.plugins.hooks import hookimpl
from drylay.plugins.packaged import catalogue_from_package
from drylay.plugins.table import table_family

SHEET, MAPPING = ".csv", ".map.toml"
HEADS = ("catalogue", "family")
_HEAD = re.compile(rf"^\s*\[?\s*({'|'.join(HEADS)})\b", re.MULTILINE)


class StrayFileError(DrylayError):
    """A file in the package that is neither stock nor a family, or lacks the file beside it."""


def data_hooks(plugin: object) -> object | None:
    """Return hooks for the stock and tables that lie in a package, None where there are none."""
    if not isinstance(plugin, ModuleType) or not hasattr(plugin, "__path__"):
        return None
    names = data_files(plugin.__name__)
    return _hooks(plugin.__name__, names) if names else None


def data_files(package: str) -> tuple[str, ...]:
    """Return the names of the TOML and CSV files that lie in a package, in their order."""
    lying = resources.files(package).iterdir()
    return tuple(sorted(file.name for file in lying if file.name.endswith((".toml", SHEET))))


def _hooks(package: str, names: tuple[str, ...]) -> object:
    @hookimpl
    def drylay_catalogues() -> list[Catalogue]:
        _refuse_strays(package, names)
        sheets = [name for name in names if name.endswith(SHEET)]
        read = {
            **{name: catalogue_from_package(package, name)
               for name in _of(package, names, "catalogue")},
            **{name: catalogue_from_package(package, name, mapping=_beside(name))
               for name in sheets},
        }  # fmt: skip
        _refuse_one_name(package, {file: each.name for file, each in read.items()})
        return list(read.values())

    @hookimpl
    def drylay_families() -> list[Family]:
        _refuse_strays(package, names)
        read = {name: table_family(package, name) for name in _of(package, names, "family")}
        _refuse_one_name(package, {file: each.id for file, each in read.items()})
        return list(read.values())

    return SimpleNamespace(drylay_catalogues=drylay_catalogues, drylay_families=drylay_families)


def _of(package: str, names: tuple[str, ...], head: str) -> list[str]:
    """Return the files with this head; their heads alone are looked at, not all of them."""
    return [name for name in _tables(names) if _head_of(package, name) == head]


def _tables(names: tuple[str, ...]) -> list[str]:
    return [name for name in names if name.endswith(".toml") and not name.endswith(MAPPING)]


def _beside(sheet: str) -> str:
    return sheet.removesuffix(SHEET) + MAPPING


def _head_of(package: str, name: str) -> str:
    """Return what a file in a package says it is, the first such head counting, "" for neither."""
    text = resources.files(package).joinpath(name).read_bytes().decode("utf-8", "replace")
    match = _HEAD.search(text)
    return "" if match is None else match[1]


def _refuse_one_name(package: str, named: Mapping[str, str]) -> None:
    """Raise what several files are called: the plugin supplies each name once.

    Raises:
        StrayFileError: Names all files of one name.
    """
    files: dict[str, list[str]] = {}
    for file, name in named.items():
        files.setdefault(name, []).append(f"{package}/{file}")
    twice = [f"{name} is in {' and in '.join(of)}" for name, of in files.items() if len(of) > 1]
    if twice:
        raise StrayFileError(f"one name for several files: {'; '.join(twice)}")


def _refuse_strays(package: str, names: tuple[str, ...]) -> None:
    """Raise what there is for no purpose: a file misnamed is stock or rules that are missing.

    Raises:
        StrayFileError: Names every such file.
    """
    wanted = {_beside(name): name for name in names if name.endswith(SHEET)}
    mappings = {name for name in names if name.endswith(MAPPING)}
    strays = [
        *(f"{wanted[name]} without {name}" for name in sorted(set(wanted) - mappings)),
        *(f"{name} without its CSV file" for name in sorted(mappings - set(wanted))),
        *(
            f"{name}: neither a [catalogue] nor a [family]"
            for name in _tables(names)
            if not _head_of(package, name)
        ),
    ]
    if strays:
        raise StrayFileError("; ".join(f"{package}/{stray}" for stray in strays))
