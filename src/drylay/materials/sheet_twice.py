"""What a CSV stock file tells twice, however far apart: codes, sizes and GTINs."""

from collections.abc import Iterator

from drylay.errors import Fault
from drylay.intake.sheet import Row
from drylay.intake.shown import shown_text, shown_word
from drylay.intake.values import fault
from drylay.materials import seen
from drylay.materials.seen import Said
from drylay.materials.sheet_columns import CellOf
from drylay.materials.sheet_places import Reading, Run, at_cell, at_name
from drylay.materials.twice import OWN_CODE, OWN_GTIN


def put_gtins(reading: Reading) -> Iterator[Fault]:
    """Put the GTINs gathered on the shelf; yield those that were there before."""
    gathered, reading.gtins = reading.gtins, []
    if seen.put_gtins(reading.seen, [(gtin, row[0]) for gtin, _, row in gathered]) == len(gathered):
        return
    there = seen.gtins_there(reading.seen, [gtin for gtin, _, _ in gathered])
    for gtin, run, row in gathered:
        if there[gtin] != row[0]:
            told = f"GTIN {gtin} a second time, as on line {there[gtin]}"
            yield at_name(reading, row, run.reckoning, "gtin", fault(told, OWN_GTIN))


def put_runs(reading: Reading) -> Iterator[Fault]:
    """Put the runs gathered on the shelf; yield what they say otherwise than rows before them."""
    gathered, reading.runs = reading.runs, []
    codes = [run.code for run in gathered]
    # asked first where codes have come again of late, for then there is little to be put there
    there = seen.codes_there(reading.seen, codes) if reading.again else {}
    new = [(run.code, _said(run)) for run in gathered if run.code not in there]
    if seen.put_codes(reading.seen, new) == len(gathered):
        reading.again = False
        return
    there = seen.codes_there(reading.seen, codes)
    again = [(run, there[run.code]) for run in gathered if there[run.code][1] != run.row[0]]
    reading.again = bool(again)
    if again:
        seen.unfold_sizes(reading.seen, {run.code: before[3] for run, before in again if before[3]})
        yield from _told_again(reading, again)


def _said(run: Run) -> Said:
    """Return what is kept of a run: its kind, its first line, its facts and sizes."""
    lines = {size: row[0] for size, row in run.sizes.items()}
    return run.word, run.row[0], seen.facts_text(run.picked), seen.sizes_text(lines)


def _told_again(reading: Reading, again: list[tuple[Run, Said]]) -> Iterator[Fault]:
    """Yield what runs of codes that are on the shelf contradict or repeat."""
    alike = []
    for run, before in again:
        if before[0] != run.word:
            word = shown_word(before[0])
            told = f"{shown_text(run.code)} a second time, as {word} on line {before[1]}"
            yield at_name(reading, run.row, run.reckoning, "code", fault(told, OWN_CODE))
        else:
            yield from _unlike(reading, run, before)
            alike.append(run)
    rows = [(run, size, row) for run in alike for size, row in run.sizes.items()]
    lines = seen.sizes_there(reading.seen, [(run.code, size, row[0]) for run, size, row in rows])
    new = []
    for run, size, row in rows:
        line = lines.setdefault((run.code, size), row[0])
        if line == row[0]:
            new.append((run.code, size, line))
        else:
            yield size_again(reading, run, row, size, line)
    seen.put_sizes(reading.seen, new)


def _unlike(reading: Reading, run: Run, before: Said) -> Iterator[Fault]:
    """Yield each fact that an article's rows tell in two ways."""
    if before[2] == seen.facts_text(run.picked):
        return
    reckoning = run.reckoning
    cells = (*reckoning.own, *reckoning.common, *reckoning.rules)
    for cell, old, new in zip(cells, seen.facts_of(before[2]), run.picked, strict=False):
        if old == new or _alike_or_faulty(cell, old, new):
            continue
        told = shown_text(new) if new else "nothing"
        wanted = f"{shown_text(old) if old else 'nothing'}, as on line {before[1]}"
        yield at_cell(reading, run.row, cell, fault(told, f"{wanted} of the same code"))


def _alike_or_faulty(cell: CellOf, old: str, new: str) -> bool:
    """Whether two cells say the same, or one of them cannot be read, which is told by itself."""
    read = [cell.read(text) for text in (old, new) if text]
    return any(isinstance(value, Fault) for value in read) or (
        len(read) == 2 and read[0] == read[1]
    )


def size_again(reading: Reading, run: Run, row: Row, size: float, line: int) -> Fault:
    """Return the fault of a size that an article has on an earlier line."""
    name = run.reckoning.size
    found = fault(f"{size:g} a second time for the article, as on line {line}", f"each {name} once")
    return at_name(reading, row, run.reckoning, name, found)
