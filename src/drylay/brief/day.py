"""What a brief means where it tells of joints and of the weather: contradictions in either."""

from collections.abc import Callable, Iterator
from itertools import pairwise

from drylay.errors import Fault

Read = dict[str, object]


def joints_make_sense(read: Read) -> Iterator[Fault]:
    """Yield joint lines out of order, beyond the rows or without pairs, and clips without clips."""
    for check in (_lines_rise, _lines_in_the_rows, _lines_are_of_pairs, _starters_have_clips):
        yield from check(read)


def climate_makes_sense(read: Read) -> Iterator[Fault]:
    """Yield temperatures and moisture contents out of order, and a humidity of no temperature."""
    yield from _in_order(read, ("coldest_board_c", "laying_c", "hottest_board_c"))
    # boards from the kiln are laid drier than they will be again, green ones wetter
    yield from _in_order(read, ("driest_pct", "wettest_pct"))
    yield from _humidity_of_a_day(read)


def _lines_of(read: Read) -> tuple[float, ...]:
    lines = read.get("joints.lines_mm")
    return lines if isinstance(lines, tuple) else ()


def _lines_rise(read: Read) -> Iterator[Fault]:
    for at, (before, after) in enumerate(pairwise(_lines_of(read)), 1):
        if after <= before:
            yield Fault(
                path=f"joints.lines_mm[{at}]",
                found=f"{after:g} after {before:g}",
                wanted="each line further from the edge than the one before",
                nearest=f"{before:g} after {after:g}" if after < before else "each line once",
            )


def _lines_in_the_rows(read: Read) -> Iterator[Fault]:
    side = "across" if read.get("board.run") == "across" else "along"
    length = read.get(f"cover.{side}_mm")
    for at, line in enumerate(_lines_of(read)):
        if isinstance(length, float) and line >= length:
            yield Fault(
                path=f"joints.lines_mm[{at}]",
                found=f"{line:g} with cover.{side}_mm = {length:g}",
                wanted="a line between the rows' two ends",
            )


def _lines_are_of_pairs(read: Read) -> Iterator[Fault]:
    support = read.get("joints.support", "pair")
    if "joints.lines_mm" in read and support in {"single", "batten"}:
        yield Fault(
            path="joints.lines_mm",
            found=f"lines with support = {support!r}",
            wanted="lines only where joints lie over pairs of joists",
            nearest='support = "pair"',
        )


def _starters_have_clips(read: Read) -> Iterator[Fault]:
    if "fixings.starter_clip" in read and "fixings.clip" not in read:
        yield Fault(
            path="fixings.clip",
            found="nothing with fixings.starter_clip",
            wanted="which clip holds the other rows",
            nearest="leave starter_clip out, if boards are screwed",
        )


def _in_order(read: Read, names: tuple[str, ...]) -> Iterator[Fault]:
    told = [(name, read.get(f"climate.{name}")) for name in names]
    known = [(name, value) for name, value in told if isinstance(value, float)]
    for (low, less), (high, more) in pairwise(known):
        if less > more:
            yield Fault(
                path=f"climate.{high}",
                found=f"{more:g} with {low} = {less:g}",
                wanted=f"{less:g} or more",
                nearest=f"{high} = {less:g}",
            )


def _humidity_of_a_day(read: Read) -> Iterator[Fault]:
    alone = not {"climate.laying_c", "climate.laying_pct"} & set(read)
    if "climate.laying_humidity_ratio" in read and alone:
        yield Fault(
            path="climate.laying_c",
            found="nothing with climate.laying_humidity_ratio",
            wanted="how warm the boards lay in air so damp",
            nearest="laying_c = 12",
        )


CHECKS: tuple[Callable[[Read], Iterator[Fault]], ...] = (joints_make_sense, climate_makes_sense)
