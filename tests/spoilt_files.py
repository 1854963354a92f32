"""What comes of a spoilt file: a noun, or the one documented error with faults that say where."""

import re
from pathlib import Path

from drylay.brief.codec import brief_to_dict
from drylay.brief.reader import check_brief, read_brief
from drylay.errors import BriefError, CatalogueError, Fault, InputError
from drylay.materials.loader import check_catalogue, each_fault, load_catalogue
from drylay.materials.lookup import catalogue_digest
from drylay.materials.stock_model import KINDS
from mutants import Mutant

#: Faults that have no line: they are of a whole file.
_OF_A_FILE = re.compile(r"nested too deep|more than \d+ (kB|faults)|no article|^nothing$")


def outcome(mutant: Mutant, folder: Path) -> tuple[str, str]:
    """Return "refused" or "read", and what is wrong with how that was told, "" if nothing is."""
    path = folder / ("file.csv" if mutant.mapping is not None else "file.toml")
    path.write_bytes(mutant.file)
    return _brief(path) if mutant.kind == "brief" else _stock(path, mutant)


def _brief(path: Path) -> tuple[str, str]:
    faults = check_brief(path)
    try:
        brief = read_brief(path)
    except BriefError as error:
        return "refused", _told(error, faults)
    if read_brief(brief_to_dict(brief)) != brief:
        return "read", "not the same when written and read again"
    return "read", "faults, and yet read" if faults else ""


def _stock(path: Path, mutant: Mutant) -> tuple[str, str]:
    faults = check_catalogue(path, mapping=mutant.mapping)
    if sorted(map(str, each_fault(path, mapping=mutant.mapping))) != sorted(map(str, faults)):
        return "refused", "told one by one otherwise than together"
    try:
        stock = load_catalogue(path, mapping=mutant.mapping)
    except CatalogueError as error:
        return "refused", _told(error, faults)
    if faults:
        return "read", "faults, and yet read"
    catalogue_digest(stock)
    for kind in KINDS:
        for article in getattr(stock, kind):
            stock.nearest(article.code)
    return "read", "" if (stock | stock) == stock else "not itself when put to itself"


def _told(error: InputError, faults: tuple[Fault, ...]) -> str:
    if error.faults != faults:
        return "a check tells other faults than a reader"
    if not faults:
        return "an error without a fault"
    return next((wrong for fault in faults if (wrong := _wrong_with(fault))), "")


def _wrong_with(fault: Fault) -> str:
    """Return what a fault leaves out."""
    text = str(fault)
    if not (fault.path and fault.found and fault.wanted and fault.file):
        return f"says too little: {text!r}"
    if not fault.line and not _OF_A_FILE.search(fault.found):
        return f"does not say where: {text!r}"
    if not text.isprintable() or len(text) > 4000:
        return f"cannot be printed: {ascii(text)[:300]}"
    return ""
