"""Sizes snapped up to whole rows and to lengths as boards are sold."""

from collections.abc import Iterable, Iterator
from itertools import combinations_with_replacement

from drylay.errors import Fault, InputError
from drylay.marks import exact, is_number, to_mm
from drylay.seating.model import SnappedSize

#: What lies beyond these is a slip. Assumption.
LEAST_BOARD_MM, MOST_BOARD_MM, MOST_GAP_MM, MOST_MM = 10.0, 1000.0, 100.0, 100_000.0
#: Rows of more pieces than this are not snapped: their joints have to lie over joists anyway.
MOST_PIECES = 3


def snapped_sizes(
    *,
    along_mm: float,
    across_mm: float,
    board_mm: float,
    gap_mm: float,
    lengths_mm: Iterable[float] = (),
    run: str = "along",
    end_gap_mm: float = 0.0,
    end_trim_mm: float = 0.0,
) -> tuple[SnappedSize, ...]:
    """Return a size as found, and snapped up to whole rows, to a row more, to a length, and both.

    Rows are n boards and n - 1 gaps. A length is the shortest sold that is long enough, or
    of two or three lengths end to end the least; both ends of each may be trimmed. Where a snap
    gives a size that is there already it is left out.

    Args:
        along_mm: What the deck must measure along at least.
        across_mm: And across.
        board_mm: A row's width.
        gap_mm: Between two rows.
        lengths_mm: What boards are sold in.
        run: "along" where boards lie along the house, "across" where they lie away from it.
        end_gap_mm: Between boards end to end.
        end_trim_mm: What is sawn off at each end of a length.

    Raises:
        InputError: A figure cannot be meant.

    Source: arithmetic.
    """
    lengths = sorted({exact(each) - 2 * exact(end_trim_mm) for each in lengths_mm})
    figures = {
        "along_mm": (along_mm, 1.0, MOST_MM),
        "across_mm": (across_mm, 1.0, MOST_MM),
        "board_mm": (board_mm, LEAST_BOARD_MM, MOST_BOARD_MM),
        "gap_mm": (gap_mm, 0.0, MOST_GAP_MM),
    }
    _refuse(figures, lengths, run)
    deep_mm, long_mm = (across_mm, along_mm) if run == "along" else (along_mm, across_mm)
    rows, depth = _rows(exact(deep_mm), exact(board_mm), exact(gap_mm))
    step = exact(board_mm) + exact(gap_mm)
    sold = _length(exact(long_mm), lengths, exact(end_gap_mm))
    size = {"deep": exact(deep_mm), "long": exact(long_mm)}
    whole: dict[str, tuple[dict[str, int], int | None, tuple[int, ...]]] = {
        "as found": (size, None, ()),
        "whole rows": (size | {"deep": depth}, rows, ()),
        "next row": (size | {"deep": depth + step}, rows + 1, ()),
    }
    if sold is not None:
        total, parts = sold
        whole["whole length"] = (size | {"long": total}, None, parts)
        whole["rows and length"] = ({"deep": depth, "long": total}, rows, parts)
    return tuple(_told(whole, size, run))


Whole = dict[str, tuple[dict[str, int], int | None, tuple[int, ...]]]


def _told(whole: Whole, size: dict[str, int], run: str) -> Iterator[SnappedSize]:
    """Yield every size once, under the name that says most of it."""
    names: dict[tuple[int, int], str] = {}
    for name, (sides, _, _) in whole.items():
        names[sides["long"], sides["deep"]] = name
    for name in names.values():
        sides, rows, parts = whole[name]
        spare = {key: sides[key] - size[key] for key in size}
        ways = ("long", "deep") if run == "along" else ("deep", "long")
        yield SnappedSize(
            snap=name,
            along_mm=to_mm(sides[ways[0]]),
            across_mm=to_mm(sides[ways[1]]),
            spare_along_mm=to_mm(spare[ways[0]]),
            spare_across_mm=to_mm(spare[ways[1]]),
            rows=rows,
            lengths_mm=tuple(to_mm(part) for part in parts),
        )


def _rows(depth: int, board: int, gap: int) -> tuple[int, int]:
    """Return the fewest whole rows that are deep enough, and how deep they are."""
    rows = max(1, -(-(depth + gap) // (board + gap)))
    return rows, rows * board + (rows - 1) * gap


def _length(least: int, lengths: list[int], gap: int) -> tuple[int, tuple[int, ...]] | None:
    """Return the least sum of few lengths end to end that is long enough, the fewest first."""
    for count in range(1, MOST_PIECES + 1):
        sums = (
            (sum(parts) + (count - 1) * gap, parts)
            for parts in combinations_with_replacement(lengths, count)
        )
        found = min((each for each in sums if each[0] >= least), default=None)
        if found is not None:
            return found
    return None


def _refuse(figures: dict[str, tuple[float, float, float]], lengths: list[int], run: str) -> None:
    wrong = [
        Fault(path=path, found=repr(value)[:60], wanted=f"{low:g} to {high:g} mm")
        for path, (value, low, high) in figures.items()
        if not is_number(value) or not low <= value <= high
    ]
    if any(each <= 0 for each in lengths):
        wrong.append(Fault(path="lengths_mm", found="nothing left", wanted="lengths beyond trims"))
    if run not in {"along", "across"}:
        wrong.append(Fault(path="run", found=repr(run)[:60], wanted="along or across"))
    if wrong:
        raise InputError(tuple(wrong))
