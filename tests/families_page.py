"""docs/families.md out of the families' tables. `python tests/families_page.py` writes it."""

from collections.abc import Iterator
from pathlib import Path

from drylay.materials.model import QUESTIONS
from drylay.plugins.packaged import read_packaged
from drylay.plugins.table_keys import SHORT, conditions
from drylay.plugins.table_model import Entry, FamilyTable
from drylay.plugins.table_reader import read_family_table

PAGE = Path(__file__).parents[1] / "docs" / "families.md"
#: The tables in the order of the page: package, file, and what code adds to it.
TABLES = (
    ("drylay_softwood", "softwood.toml"),
    ("drylay_softwood", "frame.toml"),
    ("drylay_hardwood", "hardwood.toml"),
    ("drylay_composite", "composite.toml"),
    ("drylay_tiles", "tiles.toml"),
    ("drylay_insertboard", "insertboard.toml"),
)
BEGIN, END = "<!-- tables: begin -->", "<!-- tables: end -->"
_MANY = 1000


def page(written: str) -> str:
    """Return the page with its tables made afresh; what stands before and after them is kept."""
    before, rest = written.split(BEGIN)
    after = rest.split(END)[1]
    parts = [f"{BEGIN}\n", *(section(*each) for each in TABLES), END]
    return before + "\n".join(parts) + after


def read_table(package: str, name: str) -> FamilyTable:
    """Return one of the tables, read afresh."""
    return read_packaged(package, name, read_family_table)


def section(package: str, name: str) -> str:
    """Return the heading and table of one file."""
    table = read_table(package, name)
    home = f"`plugins/{package.replace('_', '-')}`, `{name}`"
    rows = "\n".join(lines(table))
    head = "| what | holds for | value | unit | standing | who says so |\n|---|---|---|---|---|---|"
    return f"## {table.title[0].upper()}{table.title[1:]}\n\n{home}\n\n{head}\n{rows}\n"


def lines(table: FamilyTable) -> Iterator[str]:
    """Yield a row for each number: rules first, then what code reckons with."""
    for entry in (*table.rules, *table.numbers):
        title = (
            "" if entry.source.title.startswith(entry.source.kind) else f"{entry.source.title}, "
        )
        cells = (
            f"`{entry.name}`",
            holds_for(entry),
            reckoned(entry),
            unit(entry.name),
            entry.source.kind,
            f"{title}{entry.source.clause}",
        )
        yield f"| {' | '.join(cells)} |"


def unit(name: str) -> str:
    """Return the unit of a rule, or of a number by its name."""
    bare = name.removeprefix("not taken: ")
    if bare in QUESTIONS:
        return QUESTIONS[bare][0]
    known = {"_mm": "mm", "_pct": "%", "_ratio": "ratio", "_h_m2": "h/m2", "_a_year": "a year"}
    return next((told for end, told in known.items() if bare.endswith(end)), "count")


def holds_for(entry: Entry) -> str:
    """Return for which boards an entry holds, in words."""
    reaches = [
        f"{short(reach.part)} {span(reach.least, reach.most)}"
        for reach in sorted(entry.reaches, key=lambda reach: reach.part != "board_thickness_mm")
    ]
    words = [f"{each.part} {' or '.join(each.words)}" for each in entry.words]
    return ", ".join([*words, *reaches])


def short(part: str) -> str:
    """Return what a part of the question is called in a table."""
    key = next(c.key.name for c in conditions() if c.part == part and c.end == "from")
    return key.replace("_from", "").rsplit("_", 1)[0].replace("_", " ") or SHORT.get(part, part)


def span(least: float, most: float) -> str:
    """Return from where to where."""
    if least == most:
        return f"{least:g}"
    if most > _MANY:
        return f"from {least:g}"
    return f"up to {most:g}" if least < 0 else f"{least:g} to {most:g}"


def reckoned(entry: Entry) -> str:
    """Return an entry's number with what it is reckoned with."""
    told = f"{entry.value:.6g}"
    told += f" x {entry.times}" if entry.times else ""
    told += " x sin(angle)" if entry.sine else ""
    told += f" + {entry.plus}" if entry.plus else ""
    told += f" - {entry.minus}" if entry.minus else ""
    return told + (f", at least {entry.at_least:g}" if entry.at_least is not None else "")


if __name__ == "__main__":
    PAGE.write_text(page(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
