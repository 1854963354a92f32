"""Files that lie in a plugin's package: stock files and tables of families."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import PurePath
from typing import TypeVar

from attrs import evolve

from drylay.errors import InputError
from drylay.materials.stock_model import Catalogue

_Read = TypeVar("_Read")


def catalogue_from_package(
    package: str, name: str = "stock.toml", *, mapping: str | None = None
) -> Catalogue:
    """Return the stock catalogue in a file that lies in a package.

    Args:
        package: The package the file lies in, `__name__` as a rule.
        name: The stock file, TOML or CSV.
        mapping: The file beside it that says what the columns of a CSV file mean.

    Raises:
        CatalogueError: With everything that is wrong; nothing is half-loaded.
    """
    from drylay.materials.loader import load_catalogue

    columns = None if mapping is None else resources.files(package).joinpath(mapping)
    return read_packaged(package, name, lambda file: load_catalogue(file, mapping=columns))


def read_packaged(package: str, name: str, read: Callable[[Traversable], _Read]) -> _Read:
    """Return what `read` makes of a file in a package; faults tell the package, not the disk.

    Raises:
        InputError: What `read` raises, each fault with `package/name` as its file.
    """
    with _told_of(package):
        return read(resources.files(package).joinpath(name))


@contextmanager
def _told_of(package: str) -> Iterator[None]:
    try:
        yield
    except InputError as error:
        faults = (evolve(f, file=f"{package}/{PurePath(f.file).name}") for f in error.faults)
        raise type(error)(tuple(faults)) from None
