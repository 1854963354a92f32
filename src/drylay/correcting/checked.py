"""Figures that make no sense, and readings that no row count fits: every fault told."""

from collections.abc import Iterator

from drylay.correcting.model import EndLaid, LaidSoFar
from drylay.errors import Fault, InputError
from drylay.marks import is_number

#: Boards are not off by more than this on average, so an edge further off is a wrong count or a
#: wrong reading. Assumption: twice the steepest swelling of a wide board between two seasons.
MOST_OFF_MM = 3.0
MOST_MM = 1e6


def refuse_bad(laid: LaidSoFar) -> None:
    """Raise where a figure makes no sense.

    Raises:
        InputError: With every fault.
    """
    faults = [*_bad_lengths(laid), *_bad_counts(laid), *_bad_steps(laid)]
    if faults:
        raise InputError(tuple(faults))


def _bad_lengths(laid: LaidSoFar) -> Iterator[Fault]:
    named = {"board_mm": laid.board_mm, "most_change_mm": laid.most_change_mm,
             "step_mm": laid.step_mm}  # fmt: skip
    named |= {f"widths_mm[{at}]": width for at, width in enumerate(laid.widths_mm)}
    named |= {f"measured_mm[{at}]": width for at, width in enumerate(laid.measured_mm)}
    for name, end in (("left", laid.left), ("right", laid.right)):
        named |= {f"{name}.edge_mm": end.edge_mm, f"{name}.target_mm": end.target_mm}
    if laid.together_mm is not None:
        named["together_mm"] = laid.together_mm
    for name, length in named.items():
        if not is_number(length) or not 0.0 < length <= MOST_MM:
            yield Fault(path=name, found=repr(length), wanted="a length above 0 mm, up to 1 km")
    its = laid.tolerances
    if not any((its.width_mm, its.gap_mm, its.tape_mm)):
        wanted = "board, gap or tape off by something: nothing is laid exactly"
        yield Fault(path="tolerances", found="all 0", wanted=wanted)
    for part in ("width", "batch", "gap", "spacer", "tape"):
        sd = getattr(laid.tolerances, f"{part}_mm")
        if not is_number(sd) or not 0.0 <= sd <= MOST_MM:
            name = f"tolerances.{part}_mm"
            yield Fault(path=name, found=repr(sd), wanted="a length of 0 mm or more, up to 1 km")


def _bad_counts(laid: LaidSoFar) -> Iterator[Fault]:
    rows = len(laid.widths_mm)
    if not 1 <= laid.rows_laid < rows:
        wanted = f"1 to {rows - 1}: of {rows} rows one is laid and one is left at least"
        yield Fault(path="rows_laid", found=repr(laid.rows_laid), wanted=wanted)
    if len(laid.gaps) != rows - 1:
        wanted = f"{rows - 1}, one before each row after the first"
        yield Fault(path="gaps", found=f"{len(laid.gaps)} limits of gaps", wanted=wanted)
    for at, gap in enumerate(laid.gaps):
        if not 0.0 <= gap.least_mm <= gap.most_mm <= MOST_MM:
            found = f"{gap.least_mm!r} to {gap.most_mm!r}"
            yield Fault(path=f"gaps[{at}]", found=found, wanted="least and most gap, rising")


def _bad_steps(laid: LaidSoFar) -> Iterator[Fault]:
    if laid.most_change_mm < laid.step_mm:
        yield Fault(
            path="most_change_mm",
            found=repr(laid.most_change_mm),
            wanted=f"a step of {laid.step_mm:g} mm or more: gaps are set in whole steps",
        )


def refuse_impossible(laid: LaidSoFar) -> None:
    """Raise where an edge cannot be that of so many rows.

    Raises:
        InputError: Boards would be off by more than 3 mm each: "row count wrong?"
    """
    ends = (("left", laid.left), ("right", laid.right))
    faults = [fault for name, end in ends if (fault := _impossible(laid, name, end))]
    faults += [fault] if (fault := _odd_boards(laid)) else []
    if faults:
        raise InputError(tuple(faults))


def _impossible(laid: LaidSoFar, name: str, end: EndLaid) -> Fault | None:
    off = off_a_row_mm(laid, end)
    if abs(off) <= MOST_OFF_MM:
        return None
    wanted = f"{expected_mm(laid, end, laid.rows_laid):g} mm after {laid.rows_laid} rows, or "
    wanted += f"boards off by no more than {MOST_OFF_MM:g} mm each, not {abs(off):.1f}: "
    wanted += "row count wrong?"
    fits = rows_that_fit(laid, end)
    near = f"rows_laid = {fits}, where {expected_mm(laid, end, fits):g} mm are expected"
    told = near if fits != laid.rows_laid else "measure again"
    return Fault(path=f"{name}.edge_mm", found=f"{end.edge_mm:g} mm", wanted=wanted, nearest=told)


def _odd_boards(laid: LaidSoFar) -> Fault | None:
    """Return the fault of boards measured tight together that are no such boards, or not so many.

    A board that will be ripped is measured before it is.
    """
    if laid.together_mm is None:
        return None
    left = list(laid.widths_mm[laid.rows_laid :])
    whole = sum([*left[:-1], laid.board_mm] if laid.rip_planned else left)
    if abs(laid.together_mm - whole) <= MOST_OFF_MM * len(left):
        return None
    before = ", the last one before it is ripped" if laid.rip_planned else ""
    wanted = f"about {whole:g} mm: all {len(left)} boards still to be laid{before}, each off by no "
    wanted += f"more than {MOST_OFF_MM:g} mm"
    found = f"{laid.together_mm:g} mm"
    return Fault(path="together_mm", found=found, wanted=wanted, nearest="measure again")


def off_a_row_mm(laid: LaidSoFar, end: EndLaid) -> float:
    """Return by how much each row that lies would be off for the edge to lie there."""
    widths = sum(laid.widths_mm[: laid.rows_laid])
    off = (end.edge_mm - end.gaps_set_mm - widths) / laid.rows_laid
    if not laid.measured_mm:
        return off
    known = sum(laid.measured_mm) / len(laid.measured_mm) - laid.board_mm
    return off - known


def expected_mm(laid: LaidSoFar, end: EndLaid, rows: int) -> float:
    """Return where the edge of so many rows is expected, each gap as those set so far."""
    gaps = laid.rows_laid - 1
    gap = end.gaps_set_mm / gaps if gaps else end.gap_before_mm
    return round(sum(laid.widths_mm[:rows]) + (rows - 1) * gap, 1)


def rows_that_fit(laid: LaidSoFar, end: EndLaid) -> int:
    """Return the row count whose expected edge is nearest to the one measured."""
    counts = range(1, len(laid.widths_mm) + 1)
    return min(counts, key=lambda rows: (abs(expected_mm(laid, end, rows) - end.edge_mm),
                                         abs(rows - laid.rows_laid)))  # fmt: skip
