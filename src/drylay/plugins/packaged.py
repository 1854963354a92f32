"""Files that lie in a plugin's package: stock files and tables of families."""

from collections.abc import Callable
from importlib import resources
from pathlib import Path
from typing import TypeVar

from attrs import evolve

from drylay.errors import InputError
from drylay.materials.stock_model import Catalogue

_Read = TypeVar("_Read")


def catalogue_from_package(package: str, name: str = "stock.toml") -> Catalogue:
    """Return the stock catalogue in a file that lies in a package.

    Raises:
        CatalogueError: With everything that is wrong; nothing is half-loaded.
    """
    from drylay.materials.loader import load_catalogue

    return read_packaged(package, name, load_catalogue)


def read_packaged(package: str, name: str, read: Callable[[Path], _Read]) -> _Read:
    """Return what `read` makes of a file in a package; faults tell the package, not the disk.

    Raises:
        InputError: What `read` raises, each fault with `package/name` as its file.
    """
    with resources.as_file(resources.files(package).joinpath(name)) as path:
        try:
            return read(path)
        except InputError as error:
            shown = f"{package}/{name}"
            raise type(error)(tuple(evolve(f, file=shown) for f in error.faults)) from None
